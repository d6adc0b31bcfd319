/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * report-text.h: one page for a clinician or a coach, in sentences.
 *
 * Counts, means and what was decided; never what might be the matter with the
 * hand. A `char *` belongs to the caller (g_free).
 */
#ifndef CARPACE_TEXT_REPORT_TEXT_H
#define CARPACE_TEXT_REPORT_TEXT_H

#include "carpace/at-least.h"
#include "carpace/diary.h"
#include "carpace/ports.h"
#include "text/diary-text.h"

/** A stretch of diary, counted. Means are sums and their number. */
typedef struct
{
  CarpaceDay since, until;
  int32_t opened, practised, no_practice; /**< days */
  int64_t first_dose_ms, last_dose_ms, least_dose_ms, most_dose_ms; /**< of days with a dose, 0 where none */
  int64_t planned_ms, done_ms;            /**< of the days that had both */
  int64_t unplanned_ms;                   /**< done on days on which nothing was planned */
  int64_t overrun_ms;
  int32_t blocks, early, beyond;
  int32_t running;                        /**< blocks that have not ended: counted nowhere else */
  int32_t begun;                          /**< days, of those opened, whose first block is one of them */
  int32_t offered, taken, declined;       /**< rests */
  int32_t n_ratings, rating_sum, unanswered, zeros, late, highest, above_stop; /**< highest -1 where none */
  int32_t sites[CARPACE_N_SITES];         /**< ratings that named it */
  int32_t silent_days;                    /**< most practice days in a row without any answer */
  int32_t corrected, lowered;             /**< ratings corrected; lowered after they had decided */
  int32_t n_taps;
  int64_t median_tap_ms;                  /**< from the question to the tap, -1 where none */
  int32_t checks, n_waking, waking_sum, highest_waking, stiffer, less_stiff, other_load, pain_relief;
  int32_t decided[CARPACE_N_RULES];       /**< days by the rule that stood at their end */
  int32_t shortened;                      /**< blocks played after a rating or silence that shortened them */
  int32_t stopped;                        /**< days ended by a number above stop-above or a third tightening */
  int32_t matches;
  int64_t match_ms;
  int32_t n_other;                        /**< days on which other mouse time is known */
  int64_t other_ms;
  int32_t n_week, week_sum, n_week_before, week_sum_before; /**< ratings of the last 7 dates, and of the 7 before */
  bool week_rising;                       /**< the mean of these is more than 0.5 above, 6 in each */
  bool has_last;
  CarpaceDay last_day;                    /**< of the latest decision about a day's dose */
  CarpaceDecision last;
  bool has_change;
  CarpaceDay change_day;                  /**< of the latest one that changed the dose */
  CarpaceDecision change;
  int32_t stop_above;                     /**< of the latest decision, 5 where there is none */
} CarpaceReportNumbers;

/** Which plan it was, as the diary's records of plans have it. */
typedef struct
{
  char *name;             /**< of the one that the last day began with; NULL where none is known */
  int32_t version;
  CarpaceDay since;       /**< CARPACE_NO_DAY where not known */
  char *next;             /**< of one that was taken since and that no day began with yet; NULL where none was */
  int32_t next_version;
  CarpaceDay released;    /**< last in the period, CARPACE_NO_DAY where not */
} CarpaceReportPlan;

/** "Practice report for a clinician", "... for a coach". */
const char *carpace_text_report_title (bool for_coach);

/** Who and when: the player's code (NULL: a line to write on) and the period. */
char *carpace_text_report_who (const char *code, const CarpaceReportNumbers *numbers);

/** Headings. */
const char *carpace_text_report_planned_heading (void);
const char *carpace_text_report_hand_heading (void);
const char *carpace_text_report_why_heading (void);
const char *carpace_text_report_days_heading (void);
const char *carpace_text_report_weeks_heading (void);
const char *carpace_text_report_decisions_heading (void);
const char *carpace_text_report_rest_heading (void);
const char *carpace_text_report_habit_heading (void);
const char *carpace_text_report_cautions_heading (void);
const char *carpace_text_report_limits_heading (void);
const char *carpace_text_report_sites_heading (void);

/** What was planned, and what was done. @param day_by_day also what a single day had */
char *carpace_text_report_planned (const CarpaceReportNumbers *numbers, bool day_by_day);

/** That many days in a row were not answered on, loudly. */
const char *carpace_text_report_silent_heading (void);
char *carpace_text_report_silent (const CarpaceReportNumbers *numbers);

/** The plan's name and version, every line that holds of what the given plans fix, and that it was released.
 * @param held NULL where nothing is
 * @param of_hand with names, notes and lines about the hand; NULL where nothing is known */
const char *carpace_text_report_plan_heading (void);
char *carpace_text_report_plan (const CarpaceReportPlan *plan, const CarpaceHeld *held, bool of_hand);

/** What the hand was seen to take, with the bound it stands for; NULL where nothing is said. */
char *carpace_text_report_at_least (const CarpaceAtLeast *seen);

/** How the hand answered: after blocks, on waking, week to week. */
char *carpace_text_report_hand (const CarpaceReportNumbers *numbers);

/** Where it was felt, by count; NULL where no site was named. */
char *carpace_text_report_sites (const CarpaceReportNumbers *numbers);

/** Why the dose is what it is, and how the next one comes about. */
char *carpace_text_report_why (const CarpaceReportNumbers *numbers);

/** The rules that set the next dose, with the plan's numbers (NULL: without). */
char *carpace_text_report_rules (const CarpacePlan *plan);

/** Decisions, counted. */
char *carpace_text_report_decisions (const CarpaceReportNumbers *numbers);

/** Rests, matches and other mouse time. */
char *carpace_text_report_rest (const CarpaceReportNumbers *numbers, bool for_coach);

/** The answering habit as plain counts; for a coach as a percentage alone. */
char *carpace_text_report_habit (const CarpaceReportNumbers *numbers, bool for_coach);

/** One caution: "12 Mar: opened, numbness". @param dose also what its closing did to the dose */
char *carpace_text_report_caution (CarpaceDay day, const CarpaceEntry *entry, bool dose);

/** No caution in the period. */
const char *carpace_text_report_no_caution (void);

/** One decision in the list: "12 Mar: ...". */
char *carpace_text_report_dated (CarpaceDay day, const char *sentence);

/** What the numbers cannot say. @param ticked for a coach: something of the hand is on the page */
const char *carpace_text_report_limits (bool for_coach, bool ticked);

/** "and %d earlier", where a list was cut. */
char *carpace_text_report_earlier (int32_t n);

/** "%d earlier weeks are not drawn." */
char *carpace_text_report_weeks_not_drawn (int32_t n);

/** Nothing was recorded in the period. */
const char *carpace_text_report_nothing (void);

#endif
