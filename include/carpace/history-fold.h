/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * history-fold.h: what is kept from day to day, come by from what was recorded.
 *
 * A session keeps its history as it goes. Whoever has the records alone (a diary
 * that came from another computer, two diaries that became one) folds them, in
 * the order of what happened, and has the same history: what is derived is
 * derived from records, and there is no second truth beside them.
 */
#ifndef CARPACE_HISTORY_FOLD_H
#define CARPACE_HISTORY_FOLD_H

#include "carpace/session.h"

/** Kinds of entries that a history is made of: bits of 1u << kind. */
#define CARPACE_FOLDED_KINDS \
  (1u << CARPACE_ENTRY_DAY | 1u << CARPACE_ENTRY_BLOCK | 1u << CARPACE_ENTRY_OVERRUN | 1u << CARPACE_ENTRY_REST \
   | 1u << CARPACE_ENTRY_RATING | 1u << CARPACE_ENTRY_MORNING | 1u << CARPACE_ENTRY_DECISION \
   | 1u << CARPACE_ENTRY_CAUTION)

/** The last rating, whose number may still be corrected. */
typedef struct
{
  int32_t discomfort;    /**< -1 where unanswered */
  int64_t given_at;      /**< of its first answer, elapsed ms */
  bool late;
  bool by_two_points;    /**< it tightened by one of the rows of two points */
} CarpaceFoldedRating;

/** Records being folded. A value. */
typedef struct
{
  CarpaceHistory history;    /**< as a session would hold it now; read it by carpace_history_fold_now() */
  CarpaceHistory at_opening; /**< as it was when the last day opened */
  CarpaceInstant opened;     /**< the last opening */
  bool open;                 /**< a day is */
  CarpaceDayRecord day;      /**< the open day, so far */
  int32_t usual, stop_above; /**< of its plan */
  int64_t before_ms;         /**< dose before the decision that opened it */
  bool closed_today;         /**< a caution was */
  int32_t n_ratings;
  CarpaceFoldedRating rating[CARPACE_DAY_RATINGS];
  CarpaceMorning morning_before; /**< what a morning check took the place of ... */
  int64_t morning_at;            /**< ... when it was told, CARPACE_NEVER where none was */
  bool pending;                  /**< a decision that may yet be that of an opening */
  CarpaceDecision decision;
  int64_t decided_at;
} CarpaceHistoryFold;

/** Begins with nothing. */
void carpace_history_fold_init (CarpaceHistoryFold *fold);

/** Takes the next record, in the order of what happened. Kinds that no history
 * needs are passed over. */
void carpace_history_fold (CarpaceHistoryFold *fold, const CarpaceEntry *entry);

/** The history as of the last record; but `on_air` and
 * `caution_shown` are as they were when the day opened. */
const CarpaceHistory *carpace_history_fold_now (CarpaceHistoryFold *fold);

/** The history with the open day closed, as if the next one opened now. */
void carpace_history_fold_closed (CarpaceHistoryFold *fold, CarpaceHistory *ret_history);

/** Takes the decision of a later morning of @day into *history, which is the one
 * that the day opened with, and leaves what has become since as it is @now: what
 * was answered or closed (@closed_today: a caution) is never undone by it, and
 * nothing rises. */
void carpace_history_take_later (CarpaceHistory *history, const CarpaceHistory *now, bool closed_today,
                                 const CarpaceDecision *decision, CarpaceDay day);

#endif
