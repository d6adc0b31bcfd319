/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-model.h: the diary as it is drawn.
 *
 * Day sums of the whole stretch are read at once; what stands within a day is
 * read only when somebody asks for it, some weeks at a time. So ten years open
 * at once. Nothing here is kept: what the diary does not say is blank.
 */
#ifndef CARPACE_DRAW_DIARY_MODEL_H
#define CARPACE_DRAW_DIARY_MODEL_H

#include <glib.h>

#include "carpace/diary.h"
#include "text/diary-text.h"

typedef struct CarpaceDiaryModel CarpaceDiaryModel;

/** What a row of the drawing is about. */
typedef enum
{
  CARPACE_DIARY_ROW_DAY,  /**< one date, practised or not */
  CARPACE_DIARY_ROW_GAP,  /**< three dates or more in a row with nothing recorded */
  CARPACE_DIARY_ROW_WEEK, /**< a week, Monday to Sunday, below its days */
  CARPACE_N_DIARY_ROWS
} CarpaceDiaryRowKind;

/** One row. */
typedef struct
{
  CarpaceDiaryRowKind kind;
  CarpaceDay first, last; /**< dates it stands for */
  int32_t sum;            /**< index of the day's sum, -1 where nothing was recorded */
} CarpaceDiaryRow;

/** One block or match of a day. */
typedef struct
{
  int32_t number;         /**< 0 for a match */
  bool match, beyond, ended, dropped;
  int64_t limit_ms, active_ms, overrun_ms, early_ms;
  int32_t runs;
  CarpaceInstant began, over; /**< wall_ms 0 where not known */
  bool rated;             /**< a rating was given, or noted as unanswered */
  int64_t rating_id;      /**< record of the number that stands, 0 where none */
  int32_t discomfort;     /**< said last; -1 where unanswered or not rated */
  int32_t counts;         /**< the number that counts: a lower one said late does not take its place */
  int64_t answered_ms;    /**< of the first answer, elapsed */
  int32_t corrected_from; /**< the first number given, -1 where it was not corrected */
  CarpaceSite site;
  bool late;
  int64_t to_tap_ms;      /**< from the question to the first tap, -1 where not known */
  bool lowered_after_decision; /**< a lower number came after one had decided */
} CarpaceDiaryBlock;

/** A decision and when it was made. */
typedef struct
{
  CarpaceInstant at;
  guint begun; /**< blocks of the day that had begun by then */
  CarpaceDecision decision;
} CarpaceDiaryDecision;

/** A note, and the record it stands at. */
typedef struct
{
  int64_t record_id;
  CarpaceInstant at;
  char *text;
} CarpaceDiaryNote;

/** What stands within one day. */
typedef struct
{
  CarpaceDay day;
  int64_t opened_id; /**< record of the day's opening, where a day's note is kept; 0 where none */
  GArray *blocks;    /**< CarpaceDiaryBlock, in the order they began */
  GArray *decisions; /**< CarpaceDiaryDecision, as made */
  GArray *cautions;  /**< CarpaceEntry of cautions, as they came */
  GArray *notes;     /**< CarpaceDiaryNote, as they came */
  GArray *mornings;  /**< CarpaceMorning, as told */
} CarpaceDiaryDay;

/** A morning, and the dose of the day before it. */
typedef struct
{
  CarpaceDay morning; /**< the date of the check */
  int64_t done_ms;    /**< done on the date before, matches not among it */
  int32_t waking;     /**< 0..10 */
} CarpaceMorningAfter;

/** Reads the sums of @since (CARPACE_NO_DAY: the first day recorded) to @until.
 * @return NULL where the diary cannot be read */
CarpaceDiaryModel *carpace_diary_model_new (const CarpaceDiary *diary, CarpaceDay since, CarpaceDay until);

void carpace_diary_model_free (CarpaceDiaryModel *model);

/** Forgets what was read of the days, and reads the sums anew.
 * @return false, everything as it was, where the diary cannot be read */
bool carpace_diary_model_reread (CarpaceDiaryModel *model);

int32_t carpace_diary_model_n_rows (const CarpaceDiaryModel *model);
const CarpaceDiaryRow *carpace_diary_model_row (const CarpaceDiaryModel *model, int32_t row);

/** The row of @day, or of the stretch that it lies in; -1 where it lies outside. */
int32_t carpace_diary_model_row_of (const CarpaceDiaryModel *model, CarpaceDay day);

int32_t carpace_diary_model_n_sums (const CarpaceDiaryModel *model);
const CarpaceDaySum *carpace_diary_model_sum (const CarpaceDiaryModel *model, int32_t index);

/** The sum of @day, NULL where nothing was recorded. */
const CarpaceDaySum *carpace_diary_model_sum_of (const CarpaceDiaryModel *model, CarpaceDay day);

/** The longest dose or time done of all days, ms; a quarter of an hour at least. */
int64_t carpace_diary_model_longest_ms (const CarpaceDiaryModel *model);

/** What stands within @day. Valid until the model is reread or freed, or some
 * hundreds of other days have been asked for. NULL where it cannot be read or
 * nothing was recorded. */
const CarpaceDiaryDay *carpace_diary_model_day (CarpaceDiaryModel *model, CarpaceDay day);

/** Whether practice was planned on the day of @sum, and begun: its dose and what was
 * done count together. A day off, one without practice and one on which nothing
 * was done are in neither side. */
bool carpace_diary_was_planned (const CarpaceDaySum *sum);

/** The decision about @day's dose that stood at its end: a morning told later
 * decides anew. NULL where there is none. */
const CarpaceDecision *carpace_diary_decision_of_day (const CarpaceDiaryDay *day);

/** Where the morning was felt, by its last check; CARPACE_SITE_NONE where nothing was said. */
CarpaceSite carpace_diary_morning_site (const CarpaceDiaryDay *day);

/** The week that begins on @monday. */
CarpaceWeekNumbers carpace_diary_model_week (const CarpaceDiaryModel *model, CarpaceDay monday);

/** Mornings of @since to @until whose day before was recorded: an array of
 * CarpaceMorningAfter, oldest first, g_array_unref() it. */
GArray *carpace_diary_model_mornings_after (const CarpaceDiaryModel *model, CarpaceDay since, CarpaceDay until);

/** The Monday of @day's week. */
CarpaceDay carpace_diary_monday (CarpaceDay day);

/** Whether the mean @sum / @n is more than 0.5 above @sum_before / @n_before,
 * with 6 ratings in each: the week-to-week rule. Exact. */
bool carpace_diary_rising (int32_t sum, int32_t n, int32_t sum_before, int32_t n_before);

#endif
