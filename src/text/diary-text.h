/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-text.h: what the diary's drawing says in words.
 *
 * All translated, plain UTF-8. A `char *` belongs to the caller (g_free).
 */
#ifndef CARPACE_TEXT_DIARY_TEXT_H
#define CARPACE_TEXT_DIARY_TEXT_H

#include "carpace/diary.h"

/** One week, Monday to Sunday, in numbers. */
typedef struct
{
  CarpaceDay monday;
  int32_t practised;                /**< days with practice */
  int32_t planned;                  /**< of them those on which it was planned */
  int64_t dose_ms, done_ms;         /**< of these; days off are in neither */
  int64_t unplanned_ms;             /**< done on the others */
  int64_t match_ms;
  int32_t offered, taken;           /**< rests */
  int32_t n_ratings, rating_sum, unanswered;
  int32_t n_before, sum_before;     /**< ratings of the week before */
  int32_t n_waking, waking_sum;
  bool rising;                      /**< the mean is more than 0.5 above, 6 ratings in each */
} CarpaceWeekNumbers;

/** "Tue 2 Mar". */
char *carpace_text_short_day (CarpaceDay day);

/** "2 Mar", g_free() it. */
char *carpace_text_day_of_month (CarpaceDay day);

/** "2 Mar 2027". */
char *carpace_text_date (CarpaceDay day);

/** "1 Mar to 28 Mar 2027". */
char *carpace_text_period (CarpaceDay since, CarpaceDay until);

/** @ms in whole minutes, down: "42 min", "1 h 5 min". */
char *carpace_text_minutes (int64_t ms);

/** "58 of 60 min"; "48 min" where nothing was planned; "" where neither. */
char *carpace_text_done_of (int64_t done_ms, int64_t dose_ms);

/** A mean in tenths, "1.2"; "–" where @n is 0. */
char *carpace_text_mean (int32_t sum, int32_t n);

/** "8 offered, 6 taken". */
char *carpace_text_rests (int32_t offered, int32_t taken);

/** What the week came to, in a sentence; with @hand false nothing of the hand. */
char *carpace_text_week (const CarpaceWeekNumbers *week, bool hand);

/** The same and the comparison with the week before, on one line. */
char *carpace_text_week_short (const CarpaceWeekNumbers *week, bool hand);

/** A decision about the next block, short: "Discomfort 2 after block 1: next block 17 min." */
char *carpace_text_after_block (const CarpaceDecision *decision);

/** The ratings of the week against those of the week before. What follows of it
 * is for the day's rules to say. */
char *carpace_text_week_to_week (const CarpaceWeekNumbers *week);

/** "No practice recorded, 3 May to 2 Jun (31 days)". */
char *carpace_text_no_record (CarpaceDay first, CarpaceDay last);

/** What a day has besides dose and numbers: stiffer, another load, pain
 * relief, a match, a caution; "" where nothing. With @hand false the match alone. */
char *carpace_text_day_extras (const CarpaceDaySum *sum, bool hand);

/** The whole day in a few sentences, for its detail and for assistive
 * technology. @sum may be NULL: nothing was recorded. */
char *carpace_text_day_sentence (CarpaceDay day, const CarpaceDaySum *sum);

/** "Block 2: 19 min of 20 min", "Match: 45 min". */
char *carpace_text_block_done (int32_t number, int64_t active_ms, int64_t limit_ms);

/** A rating in words, with the number it corrects and whether it came late. */
char *carpace_text_rating (bool rated, int32_t discomfort, CarpaceSite site, int32_t corrected_from, bool late);

/** Where the morning was felt; NULL where nothing was said. */
char *carpace_text_morning_site (CarpaceSite site);

/** Words of the diary's window. */
const char *carpace_text_diary_title (void);
const char *carpace_text_diary_empty (void);
const char *carpace_text_diary_unreadable (void);
const char *carpace_text_diary_not_kept (void);
const char *carpace_text_diary_correct (void);       /* a button, with its mnemonic */
const char *carpace_text_diary_correct_to (void);    /* what the eleven numbers are for */
const char *carpace_text_diary_note (void);          /* a label, with its mnemonic */
const char *carpace_text_diary_keep_note (void);     /* a button, with its mnemonic */
const char *carpace_text_diary_nearer (void);        /* a button, with its mnemonic */
const char *carpace_text_diary_further (void);       /* a button, with its mnemonic */
const char *carpace_text_diary_keys (void);          /* what the keys do, for assistive technology */
char *carpace_text_diary_correct_block (int32_t number); /* the button's name: "Correct the rating of block 2" */

/** The words at the drawing's head. */
const char *carpace_text_head_dose (void);
const char *carpace_text_head_hand (void);
const char *carpace_text_head_order (void);
const char *carpace_text_head_mean (void);

/** What each mark means, for the legend. */
const char *carpace_text_legend_planned (void);
const char *carpace_text_legend_done (void);
const char *carpace_text_legend_level (void);
const char *carpace_text_legend_match (void);
const char *carpace_text_legend_waking (void);
const char *carpace_text_legend_now (void);
const char *carpace_text_legend_rating (void);
const char *carpace_text_legend_corrected (void);

/** The dot plot's title and the names of its two axes. */
const char *carpace_text_plot_title (void);
const char *carpace_text_plot_across (void);
const char *carpace_text_plot_up (void);

/** What the dot plot holds: the count, and the line or why there is none.
 * @param slope of the line, points for 10 minutes more @param low @param high where it lies, 95 % */
char *carpace_text_plot_caption (int32_t n, bool line, double slope, double low, double high);

#endif
