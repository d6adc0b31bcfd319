/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-day.c: the practice day: its opening and limits, mornings, cautions,
 * its end. */
#include "carpace/history-fold.h"
#include "day-record.h"
#include "session-private.h"
#include "lesser.h"

#include <string.h>

/* What a stretch that outlived its block has taken by @elapsed. */
static int64_t
overrun_ms (const CarpaceSession *s, int64_t elapsed)
{
  return s->overrunning ? lesser (carpace_last_input (s, elapsed) - s->overrun_from, CARPACE_OVERRUN_MS) : 0;
}

/* Active time that counts as dose, as of @elapsed. */
int64_t
carpace_day_done_ms (const CarpaceSession *s, int64_t elapsed)
{
  int64_t running_ms = s->block.running ? carpace_active_at (s, elapsed) : 0;

  if (s->block.match)
    running_ms = carpace_share_down_ms (running_ms, s->plan->matches_count, 1);
  return carpace_sum_ms (s->today.done_ms, running_ms + overrun_ms (s, elapsed));
}

/* Of the dose, what the blocks that have ended, and a stretch that goes on past
 * the last of them, left to do. */
int64_t
carpace_day_to_do_ms (const CarpaceSession *s)
{
  int64_t to_do_ms = s->today.dose_ms - s->today.done_ms - overrun_ms (s, s->last.elapsed_ms);

  return to_do_ms < 0 ? 0 : to_do_ms;
}

static CarpaceDay
day_of (const CarpaceSession *s, CarpaceInstant now)
{
  CarpaceDay day = carpace_day_of (now, s->plan->starts_at_min);
  const CarpaceHistory *h = &s->history;

  if (h->n_days > 0 && day <= h->days[h->n_days - 1].day) /* dates never go back */
    return h->days[h->n_days - 1].day + 1;
  return day;
}

/* Whether a new day may open: after the turn, and 5 h after the last block. */
bool
carpace_day_is_over (const CarpaceSession *s, CarpaceInstant now)
{
  if (!s->today.open)
    return true;
  return !s->block.running && !s->overrunning && carpace_day_of (now, s->plan->starts_at_min) > s->today.day
         && (!s->today.practised_or_match || now.elapsed_ms - s->today.last_end >= CARPACE_NEW_DAY_AFTER_MS);
}

/* Whether today is one of the days behind: it was taken in without what a session goes
 * on from. A second day of that date would have a dose of its own. */
bool
carpace_day_is_behind (const CarpaceSession *s, CarpaceInstant now)
{
  const CarpaceHistory *h = &s->history;

  return !s->today.open && h->n_days > 0 && carpace_day_of (now, s->plan->starts_at_min) == h->days[h->n_days - 1].day;
}

void
carpace_day_offer_morning (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceDay day;

  if (!carpace_day_is_over (s, step->now) || s->on_air || carpace_day_is_behind (s, step->now))
    return;
  day = day_of (s, step->now);
  if (s->morning_shown_for == day)
    return;
  s->morning_shown_for = day;
  carpace_cue_show (step, CARPACE_CUE_MORNING);
}

/* What the day that ends came to. */
static CarpaceDayRecord
record_of (const CarpaceSession *s)
{
  const CarpaceToday *today = &s->today;
  CarpaceDayRecord record = carpace_record_of_day (today->day);
  const CarpaceRated *last = today->n_ratings > 0 ? &today->rating[today->n_ratings - 1] : NULL;

  record.dose_ms = today->dose_ms;
  record.done_ms = today->done_ms;
  record.limits_ms = carpace_tightenings (s) > 0 ? carpace_day_limits_at_end_ms (s) : today->dose_ms;
  record.match_ms = today->match_ms;
  record.other_ms = today->facts ? today->other_ms : -1;
  record.last_end_elapsed_ms = today->last_end;
  record.rule = today->rule;
  record.no_practice = today->no_practice;
  record.beyond = today->beyond;
  record.last_answered = last != NULL && last->discomfort >= 0 && !last->late;
  if (today->morning_given)
    carpace_record_morning (&record, &today->morning, s->plan->usual_discomfort, s->plan->stop_above);
  for (int32_t i = 0; i < today->n_ratings; i++)
    if (today->rating[i].discomfort >= 0)
      carpace_record_rating (&record, today->rating[i].discomfort, carpace_by_two_points (today->rating[i].row),
                             s->plan->usual_discomfort, s->plan->stop_above);
  return record;
}

static void
close_day (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceDayRecord record;

  if (!s->today.open)
    return;
  if (s->rating_open)
    {
      CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_RATING);
      entry->rating.block = s->today.rating[s->today.n_ratings - 1].block;
      entry->rating.discomfort = entry->rating.corrects = -1;
      s->rating_open = false;
      s->start_over_rating = false;
    }
  record = record_of (s);
  carpace_history_add (&s->history, &record);
}

static CarpaceEntry *
tell_day (CarpaceStep *step, CarpaceDayWhat what)
{
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_DAY);

  entry->day.day = step->s->today.day;
  entry->day.what = what;
  entry->day.dose_ms = step->s->today.dose_ms;
  entry->day.active_ms = step->s->today.done_ms;
  entry->day.closed_limits_ms = entry->day.closed_other_ms = -1;
  return entry;
}

/* With what no other entry tells of the day that it closed. */
static void
tell_opened (CarpaceStep *step)
{
  const CarpaceHistory *h = &step->s->at_opening;
  CarpaceEntry *entry = tell_day (step, CARPACE_DAY_OPENED);

  entry->day.on_air = h->on_air;
  entry->day.caution_shown = h->caution_shown;
  entry->day.away = h->away;
  if (h->n_days == 0)
    return;
  entry->day.closed_limits_ms = h->days[h->n_days - 1].limits_ms;
  entry->day.closed_other_ms = h->days[h->n_days - 1].other_ms;
}

static CarpaceEntry *
tell_caution (CarpaceStep *step, CarpaceCautionWhat what, uint32_t signs)
{
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_CAUTION);

  entry->caution.what = what;
  entry->caution.signs = signs;
  entry->caution.date = what == CARPACE_CAUTION_OPENED ? step->s->history.caution_since : day_of (step->s, step->now);
  return entry;
}

/* On air a caution waits until the stream ends. It stays until it was answered,
 * over a restart, too: the day it was shown on may be over by then. */
void
carpace_caution_show (CarpaceStep *step)
{
  step->s->history.caution_shown = true;
  if (step->s->on_air)
    step->s->caution_held_back = true;
  else
    carpace_cue_show (step, CARPACE_CUE_CAUTION);
}

/* What speaks of the hand leaves a screen that is broadcast, and comes again. */
void
carpace_day_hold_back (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->caution_held_back |= s->cue_on[CARPACE_CUE_CAUTION];
  carpace_cue_withdraw (step, CARPACE_CUE_CAUTION);
  if (!s->cue_on[CARPACE_CUE_MORNING])
    return;
  s->morning_shown_for = CARPACE_NO_DAY;
  carpace_cue_withdraw (step, CARPACE_CUE_MORNING);
}

static void
caution_was_read (CarpaceStep *step)
{
  step->s->history.caution_shown = false;
  step->s->caution_held_back = false;
  carpace_cue_withdraw (step, CARPACE_CUE_CAUTION);
}

static CarpaceRefusal
why_no_practice (const CarpaceDecision *decision)
{
  return decision->rule == CARPACE_RULE_REST_DAY ? CARPACE_REFUSAL_REST_DAY : CARPACE_REFUSAL_ABOVE_STOP;
}

/* Takes what a decision of the day says about today. */
static void
take_decision (CarpaceStep *step, const CarpaceDecision *decision)
{
  CarpaceSession *s = step->s;
  CarpaceToday *today = &s->today;

  carpace_tell (step, CARPACE_ENTRY_DECISION)->decision = *decision;
  today->decision = *decision;
  today->has_decision = true;
  today->rule = decision->rule;
  today->dose_ms = decision->after_ms;
  today->no_practice = decision->no_practice;
  today->why_not = why_no_practice (decision);
  today->caution |= s->history.caution_open || decision->rule == CARPACE_RULE_CAUTION;
  /* Of a planned day without practice they are what a block beyond the plan is like. */
  today->n_limits = carpace_dose_limits (s->plan, decision->without ? decision->kept_ms : today->dose_ms, today->limit_ms);
  if (decision->opens_caution)
    tell_caution (step, CARPACE_CAUTION_OPENED, 0);
  else if (decision->asks_cautions)
    tell_caution (step, CARPACE_CAUTION_WAS_ASKED, 0);
  if (decision->no_practice || decision->asks_cautions)
    carpace_caution_show (step);
}

static void
begin_day (CarpaceStep *step, const CarpaceMorning *check)
{
  CarpaceSession *s = step->s;
  CarpaceDecision decision;
  CarpaceDay day;

  close_day (step);
  day = day_of (s, step->now);
  if (s->next_plan != NULL)
    s->plan = s->next_plan;
  s->next_plan = NULL;
  memset (&s->today, 0, sizeof s->today);
  s->today.open = true;
  s->today.day = day;
  s->today.opened_at = step->now.elapsed_ms;
  s->today.morning_given = check != NULL;
  if (check != NULL)
    s->today.morning = *check;
  s->wait_open = false;
  s->start_asked = false;
  carpace_unstarted_forget (s);
  s->history.hand = s->hand;
  s->history.moving_since = s->moving_since;
  s->history.still_since = s->still_since;
  s->uncounted = false; /* it is not kept with them: what is told next of the stretch says it anew */
  carpace_clicks_no_more (s);
  s->at_opening = s->history;
  carpace_dose_decide (&s->history, s->plan, day, step->now.elapsed_ms, check, &decision);
  carpace_dose_apply (&s->history, &decision, day);
  take_decision (step, &decision);
  tell_opened (step);
}

/* @return whether a new day was opened */
bool
carpace_day_open_if_new (CarpaceStep *step, const CarpaceMorning *check)
{
  const CarpaceSession *s = step->s;

  if (!carpace_day_is_over (s, step->now))
    return false;
  begin_day (step, check);
  carpace_cues_withdraw (step);
  carpace_session_goto (step, CARPACE_STATE_WAITING);
  if (s->today.no_practice || s->today.decision.without)
    carpace_day_done (step);
  return true;
}

void
carpace_day_done (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  carpace_session_goto (step, CARPACE_STATE_DAY_DONE);
  s->start_asked = false;
  carpace_cue_withdraw (step, CARPACE_CUE_NEXT_BLOCK);
  if (s->today.done)
    return;
  s->today.done = true;
  tell_day (step, CARPACE_DAY_DONE);
  carpace_cue_show (step, CARPACE_CUE_DAY_DONE);
}

/* A later morning stops or shortens what is under way; what it has had, and what
 * it went over, it keeps. */
static void
shorten_running (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceRefusal why;
  int64_t active_ms = carpace_active_at (s, step->now.elapsed_ms);
  int64_t limit_ms = carpace_day_to_do_ms (s);

  if (!s->block.running)
    return;
  if (carpace_may_not_practise (s, &why) && why != CARPACE_REFUSAL_REST_DAY)
    {
      carpace_block_end (step, step->now.elapsed_ms, step->now.elapsed_ms);
      return;
    }
  if (s->block.number > 0 && s->block.number <= s->today.n_limits)
    limit_ms = lesser (limit_ms, carpace_limits_tightened (s, s->today.limit_ms[s->block.number - 1]).limit_ms);
  if (s->block.match)
    return;
  s->block.limit_ms = lesser (s->block.limit_ms, greater (limit_ms, active_ms));
  s->block.after_ms = carpace_after_within (s->block.after_ms, s->block.limit_ms);
}

/* Whether a later decision takes away anything that stands. */
static bool
takes_away (const CarpaceSession *s, const CarpaceHistory *anew, const CarpaceDecision *decision)
{
  return decision->after_ms < s->today.dose_ms || anew->dose_ms < s->history.dose_ms
         || (decision->no_practice && !s->today.no_practice)
         || (decision->opens_caution && !s->history.caution_open) || anew->level_ms < s->history.level_ms;
}

/* Blocks keep their places: none gets longer by a smaller dose. */
static void
keep_limits (CarpaceToday *today, int32_t n, const int64_t *limit_ms)
{
  for (int32_t i = 0; i < today->n_limits && i < n; i++)
    today->limit_ms[i] = lesser (today->limit_ms[i], limit_ms[i]);
}

/* Decided as if it had been told when the day opened: it may stop or shorten. */
static void
decide_later (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceHistory anew = s->at_opening;
  CarpaceDecision decision;
  const CarpaceToday was = s->today;

  carpace_dose_decide (&anew, s->plan, s->today.day, s->today.opened_at, &s->today.morning, &decision);
  carpace_history_take_later (&anew, &s->history, was.caution_closed, &decision, was.day);
  decision.opens_caution = decision.opens_caution && !was.caution_closed;
  if (decision.after_ms > was.dose_ms || !takes_away (s, &anew, &decision))
    return;
  decision.kept_ms = anew.dose_ms;
  decision.level_ms = anew.level_ms;
  /* by what is told of it, as whoever has only that comes by it */
  anew = s->at_opening;
  carpace_history_take_later (&anew, &s->history, was.caution_closed, &decision, was.day);
  decision.before_ms = decision.without ? s->history.dose_ms : was.dose_ms;
  s->history = anew;
  take_decision (step, &decision);
  keep_limits (&s->today, was.n_limits, was.limit_ms);
  shorten_running (step);
  carpace_day_done_if_over (step);
}

static bool
in_range (const CarpaceMorning *m)
{
  return m->waking >= -1 && m->waking <= 10 && m->now >= -1 && m->now <= 10 && (int32_t) m->stiffness >= 0
         && m->stiffness < CARPACE_N_STIFFNESSES && (int32_t) m->site >= 0 && m->site < CARPACE_N_SITES;
}

void
carpace_day_morning (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (!in_range (&step->event->morning))
    {
      carpace_refuse (step, CARPACE_REFUSAL_OUT_OF_RANGE);
      return;
    }
  if (carpace_day_is_behind (s, step->now))
    {
      carpace_refuse (step, CARPACE_REFUSAL_DAY_BEHIND);
      return;
    }
  carpace_tell (step, CARPACE_ENTRY_MORNING)->morning = step->event->morning;
  if (carpace_day_open_if_new (step, &step->event->morning))
    return;
  carpace_cue_withdraw (step, CARPACE_CUE_MORNING);
  s->today.morning = step->event->morning;
  s->today.morning_given = true;
  decide_later (step);
}

/* Practice stops where a caution is open. */
static void
stop_for_caution (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->today.caution = s->today.open;
  if (s->block.running)
    carpace_block_end (step, step->now.elapsed_ms, step->now.elapsed_ms);
  carpace_caution_show (step);
  carpace_day_done_if_over (step);
}

static void
open_caution (CarpaceStep *step)
{
  CarpaceHistory *h = &step->s->history;

  if (!h->caution_open)
    h->caution_since = day_of (step->s, step->now);
  h->caution_open = true;
  h->caution_signs |= step->event->caution.signs & ((1u << CARPACE_N_SIGNS) - 1);
  tell_caution (step, CARPACE_CAUTION_OPENED, h->caution_signs);
  stop_for_caution (step);
}

/* Whether what is said closes the open caution; else it is refused. */
static bool
closes_caution (CarpaceStep *step, CarpaceDay day)
{
  const CarpaceHistory *h = &step->s->history;
  bool gone = step->event->caution.answer == CARPACE_CAUTION_GONE;
  CarpaceDay on = step->event->caution.closing.on;

  if (!h->caution_open)
    carpace_refuse (step, CARPACE_REFUSAL_NO_CAUTION);
  else if (gone && (h->caution_signs & CARPACE_SIGNS_SAME_DAY) != 0)
    carpace_refuse (step, CARPACE_REFUSAL_SEEN_ONLY);
  else if (gone && day - h->caution_since < CARPACE_CAUTION_DAYS)
    carpace_refuse (step, CARPACE_REFUSAL_GONE_TOO_EARLY);
  else if (!gone && on != 0 && (on < h->caution_since || on > day))
    carpace_refuse (step, CARPACE_REFUSAL_SEEN_WHEN);
  else
    return true;
  return false;
}

static void
close_caution (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceDay day = carpace_day_of (step->now, s->plan->starts_at_min);
  const CarpaceClosing *closing = &step->event->caution.closing;
  CarpaceEntry *entry;

  if (!closes_caution (step, day))
    return;
  entry = tell_caution (step, CARPACE_CAUTION_CLOSED, s->history.caution_signs);
  entry->caution.date = day;
  entry->caution.how = step->event->caution.answer;
  if (entry->caution.how == CARPACE_CAUTION_SEEN)
    entry->caution.closing = *closing;
  carpace_dose_use_plan (&s->history, s->plan, day); /* it may be older than any day */
  entry->caution.first_dose_ms = s->history.first_dose_ms;
  entry->caution.before_ms = s->history.dose_ms;
  entry->caution.level_ms = s->history.level_ms;
  carpace_dose_close_caution (&s->history, day, entry->caution.closing.dose_ms);
  entry->caution.after_ms = s->history.dose_ms;
  s->today.caution_closed = s->today.open;
  caution_was_read (step);
}

void
carpace_day_caution (CarpaceStep *step)
{
  switch (step->event->caution.answer)
    {
    case CARPACE_CAUTION_ASK:
      tell_caution (step, CARPACE_CAUTION_WAS_ASKED, 0);
      carpace_caution_show (step);
      break;
    case CARPACE_CAUTION_SIGNS:
      if (step->event->caution.signs != 0)
        {
          open_caution (step);
          break;
        }
      tell_caution (step, CARPACE_CAUTION_WAS_NONE, 0);
      if (!step->s->history.caution_open)
        caution_was_read (step);
      break;
    case CARPACE_CAUTION_SEEN:
    case CARPACE_CAUTION_GONE:
      close_caution (step);
      break;
    case CARPACE_N_CAUTION_ANSWERS:
      break;
    }
}
