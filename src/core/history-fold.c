/* SPDX-License-Identifier: GPL-3.0-or-later */
/* history-fold.c: records, folded into the history that a session would hold. */
#include "carpace/history-fold.h"

#include <string.h>

#include "carpace/diary.h"
#include "day-record.h"
#include "session-private.h"
#include "lesser.h"

void
carpace_history_fold_init (CarpaceHistoryFold *fold)
{
  memset (fold, 0, sizeof *fold);
  carpace_history_init (&fold->history);
  fold->at_opening = fold->history;
  fold->morning_before = fold->day.morning = carpace_record_of_day (CARPACE_NO_DAY).morning;
  fold->morning_at = CARPACE_NEVER;
}

void
carpace_history_take_later (CarpaceHistory *history, const CarpaceHistory *now, bool closed_today,
                            const CarpaceDecision *decision, CarpaceDay day)
{
  carpace_dose_apply (history, decision, day);
  history->shown_next = now->shown_next;
  history->on_air = now->on_air;
  history->away = now->away;
  history->caution_shown = now->caution_shown;
  if (closed_today)
    carpace_dose_close_caution (history, now->caution_closed, 0); /* what they allow is in the dose below */
  history->caution_open |= now->caution_open;
  if (now->caution_open)
    {
      history->caution_since = now->caution_since;
      history->caution_signs = now->caution_signs;
    }
  history->dose_ms = lesser (history->dose_ms, now->dose_ms);
  history->level_ms = lesser (history->level_ms, now->level_ms);
}

/* ---- the day that is open ---- */

static void
take_block (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  CarpaceDayRecord *day = &fold->day;
  int64_t active_ms = entry->block.active_ms;

  if (entry->block.what == CARPACE_BLOCK_STARTED)
    return;
  if (entry->block.match)
    day->match_ms = carpace_sum_ms (day->match_ms, active_ms);
  day->done_ms = carpace_sum_ms (day->done_ms, entry->block.match ? entry->block.counted_ms : active_ms);
  if (active_ms > 0)
    {
      day->beyond |= entry->block.beyond;
      day->last_end_elapsed_ms = entry->at.elapsed_ms - entry->block.ended_before_ms;
    }
  if (entry->block.what == CARPACE_BLOCK_ENDED && fold->n_ratings < CARPACE_DAY_RATINGS)
    fold->rating[fold->n_ratings++] = (CarpaceFoldedRating){ .discomfort = -1 };
}

static void
take_overrun (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  fold->day.done_ms = carpace_sum_ms (fold->day.done_ms, entry->overrun.ms);
  fold->day.last_end_elapsed_ms = entry->at.elapsed_ms - entry->overrun.ended_before_ms;
}

/* What a session takes of a correction; one by hand it is never told of. */
static bool
correction_counts (const CarpaceFoldedRating *rating, const CarpaceEntry *entry)
{
  int64_t since_ms = entry->at.elapsed_ms - rating->given_at;

  return !entry->rating.by_hand && since_ms <= CARPACE_CORRECTION_MS
         && carpace_correction_counts (since_ms, rating->discomfort, entry->rating.discomfort);
}

static void
take_rating (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  CarpaceFoldedRating *rating = fold->n_ratings > 0 ? &fold->rating[fold->n_ratings - 1] : NULL;

  if (rating == NULL || entry->rating.discomfort < 0)
    return;
  if (entry->rating.corrects >= 0)
    {
      if (correction_counts (rating, entry))
        rating->discomfort = entry->rating.discomfort;
      return;
    }
  rating->discomfort = entry->rating.discomfort;
  rating->late = entry->rating.late;
  rating->given_at = entry->at.elapsed_ms;
}

/* The third tightening of a day hides the row that it came by. Silence, -1, is never 2 above a reference. */
static bool
by_two_points (const CarpaceDecision *d)
{
  if (d->rule == CARPACE_RULE_TIGHTENED_THRICE)
    return d->discomfort - d->reference >= 2 || carpace_near_stop (d->discomfort, d->usual);
  return carpace_by_two_points (d->rule);
}

static void
take_tightening (CarpaceHistoryFold *fold, const CarpaceDecision *decision)
{
  if (fold->n_ratings > 0 && decision->rule != CARPACE_RULE_TOO_SHORT)
    fold->rating[fold->n_ratings - 1].by_two_points = by_two_points (decision);
}

static void
take_morning (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  fold->morning_before = fold->day.morning;
  fold->morning_at = entry->at.elapsed_ms;
  fold->day.morning = entry->morning;
}

/* ---- from day to day ---- */

static void
take_caution (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  CarpaceHistory *h = &fold->history;

  if (carpace_is_opened_by_signs (entry))
    {
      h->caution_since = h->caution_open ? h->caution_since : entry->caution.date;
      h->caution_open = true;
      h->caution_signs |= entry->caution.signs;
    }
  else if (entry->caution.what == CARPACE_CAUTION_CLOSED && h->caution_open)
    {
      if (entry->caution.first_dose_ms > 0)
        carpace_dose_begin_plan (h, entry->caution.first_dose_ms, entry->caution.before_ms, entry->caution.level_ms,
                                 entry->caution.date);
      carpace_dose_close_caution (h, entry->caution.date, entry->caution.closing.dose_ms);
      fold->closed_today = fold->open;
    }
}

/* A decision that was made without knowing of another's, on another computer,
 * lowers and never raises. */
static void
apply (CarpaceHistory *h, const CarpaceDecision *decision, CarpaceDay day)
{
  bool knew = decision->first_dose_ms == 0 || decision->first_dose_ms != h->first_dose_ms
              || (decision->before_ms == h->dose_ms && decision->level_before_ms == h->level_ms);
  int64_t dose_ms = h->dose_ms, level_ms = h->level_ms;

  carpace_dose_apply (h, decision, day);
  if (knew)
    return;
  h->level_ms = lesser (h->level_ms, level_ms);
  h->dose_ms = lesser (h->dose_ms, dose_ms);
}

static void
say_dose (CarpaceHistoryFold *fold, const CarpaceDecision *decision)
{
  fold->day.dose_ms = decision->after_ms;
  fold->day.rule = decision->rule;
  fold->day.no_practice = decision->no_practice;
  fold->usual = decision->usual;
  fold->stop_above = decision->stop_above;
}

/* What another computer led practice to, where that is less. */
static void
lower_to (CarpaceHistory *h, const CarpaceDecision *decision)
{
  if (decision->first_dose_ms == 0 || decision->first_dose_ms != h->first_dose_ms)
    return;
  h->dose_ms = lesser (h->dose_ms, decision->kept_ms);
  h->level_ms = lesser (h->level_ms, decision->level_ms);
}

/* A later morning, or a second opening of the day on another computer: the day
 * is decided anew from its opening, and only to less. Where the day itself stays, as
 * one without practice does, what the other led to still counts: a session never
 * says that itself. */
static void
decide_anew (CarpaceHistoryFold *fold, const CarpaceDecision *decision)
{
  CarpaceHistory anew = fold->at_opening;
  CarpaceDecision from_opening = *decision;

  if (decision->after_ms > fold->day.dose_ms)
    {
      lower_to (&fold->history, decision);
      return;
    }
  from_opening.before_ms = fold->before_ms; /* a later one tells what the day had come to by then */
  carpace_history_take_later (&anew, &fold->history, fold->closed_today, &from_opening, fold->day.day);
  fold->history = anew;
  say_dose (fold, decision);
}

static CarpaceDayRecord
record_of (const CarpaceHistoryFold *fold)
{
  const CarpaceDayRecord *day = &fold->day;
  const CarpaceFoldedRating *last = fold->n_ratings > 0 ? &fold->rating[fold->n_ratings - 1] : NULL;
  CarpaceDayRecord record = *day;

  carpace_record_morning (&record, &day->morning, fold->usual, fold->stop_above);
  for (int32_t i = 0; i < fold->n_ratings; i++)
    if (fold->rating[i].discomfort >= 0)
      carpace_record_rating (&record, fold->rating[i].discomfort, fold->rating[i].by_two_points, fold->usual,
                             fold->stop_above);
  record.last_answered = last != NULL && last->discomfort >= 0 && !last->late;
  record.limits_ms = record.dose_ms;
  return record;
}

static void
close_day (CarpaceHistoryFold *fold, const CarpaceEntry *opening)
{
  CarpaceDayRecord record;

  if (!fold->open)
    return;
  record = record_of (fold);
  if (opening->day.closed_limits_ms >= 0)
    record.limits_ms = opening->day.closed_limits_ms;
  record.other_ms = opening->day.closed_other_ms;
  carpace_history_add (&fold->history, &record);
}

static void
open_day (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  CarpaceDayRecord day = carpace_record_of_day (entry->day.day);

  if (fold->morning_at == entry->at.elapsed_ms) /* the check that opened the day is of the new one */
    {
      day.morning = fold->day.morning;
      fold->day.morning = fold->morning_before;
    }
  close_day (fold, entry);
  fold->history.on_air = entry->day.on_air;
  fold->history.away = entry->day.away;
  fold->history.caution_shown = entry->day.caution_shown;
  fold->at_opening = fold->history;
  fold->opened = entry->at;
  fold->open = true;
  fold->day = day;
  fold->n_ratings = 0;
  fold->closed_today = false;
  fold->day.dose_ms = entry->day.dose_ms;
  if (!fold->pending)
    return;
  fold->before_ms = fold->decision.before_ms;
  apply (&fold->history, &fold->decision, entry->day.day);
  say_dose (fold, &fold->decision);
}

static void
take_day (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  if (entry->day.what != CARPACE_DAY_OPENED)
    return;
  if (!fold->open || entry->day.day > fold->day.day)
    open_day (fold, entry);
  else if (fold->pending)
    decide_anew (fold, &fold->decision);
  fold->pending = false;
}

/* A decision of the day is followed by its opening where it made one; but for
 * what is said of a caution, by nothing in between. */
static void
settle (CarpaceHistoryFold *fold)
{
  if (fold->pending && fold->open)
    decide_anew (fold, &fold->decision);
  fold->pending = false;
}

static void
take_decision (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  if (entry->decision.scope == CARPACE_SCOPE_BLOCK)
    {
      take_tightening (fold, &entry->decision);
      return;
    }
  fold->pending = true;
  fold->decision = entry->decision;
  fold->decided_at = entry->at.elapsed_ms;
}

static bool
may_come_before_opening (const CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  return entry->at.elapsed_ms == fold->decided_at
         && (entry->kind == CARPACE_ENTRY_DAY
             || (entry->kind == CARPACE_ENTRY_CAUTION && entry->caution.what != CARPACE_CAUTION_CLOSED
                 && entry->caution.signs == 0));
}

void
carpace_history_fold (CarpaceHistoryFold *fold, const CarpaceEntry *entry)
{
  if (fold->pending && !may_come_before_opening (fold, entry))
    settle (fold);
  switch (entry->kind)
    {
    case CARPACE_ENTRY_DAY:
      take_day (fold, entry);
      break;
    case CARPACE_ENTRY_BLOCK:
      take_block (fold, entry);
      break;
    case CARPACE_ENTRY_OVERRUN:
      take_overrun (fold, entry);
      break;
    case CARPACE_ENTRY_REST:
      if (entry->rest.what == CARPACE_REST_TAKEN && entry->rest.asked)
        fold->history.shown_next = entry->rest.next_shown;
      break;
    case CARPACE_ENTRY_RATING:
      take_rating (fold, entry);
      break;
    case CARPACE_ENTRY_MORNING:
      take_morning (fold, entry);
      break;
    case CARPACE_ENTRY_DECISION:
      take_decision (fold, entry);
      break;
    case CARPACE_ENTRY_CAUTION:
      take_caution (fold, entry);
      break;
    case CARPACE_ENTRY_STATE:
    case CARPACE_ENTRY_CUE:
    case CARPACE_ENTRY_FAULT:
    case CARPACE_ENTRY_CLICKS:
    case CARPACE_N_ENTRIES:
      break;
    }
}

const CarpaceHistory *
carpace_history_fold_now (CarpaceHistoryFold *fold)
{
  settle (fold);
  return &fold->history;
}

void
carpace_history_fold_closed (CarpaceHistoryFold *fold, CarpaceHistory *ret_history)
{
  settle (fold);
  *ret_history = fold->history;
  if (fold->open)
    {
      CarpaceDayRecord record = record_of (fold);
      carpace_history_add (ret_history, &record);
    }
}
