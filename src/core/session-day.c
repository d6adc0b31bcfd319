/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-day.c: the practice day: its opening and limits, mornings, cautions,
 * its end. */
#include "session-private.h"

#include <string.h>

#define NEAR_STOP 4

/* Active time that counts as dose, as of @elapsed. */
int64_t
carpace_day_done_ms (const CarpaceSession *s, int64_t elapsed)
{
  int64_t running_ms = s->block.running ? carpace_active_at (s, elapsed) : 0;

  if (s->block.match)
    running_ms = carpace_share_down_ms (running_ms, s->plan->matches_count, 1);
  if (s->overrunning)
    running_ms = carpace_last_input (s, elapsed) - s->overrun_from;
  return carpace_sum_ms (s->today.done_ms, running_ms);
}

/* Of the dose, what the blocks that have ended left to do. */
int64_t
carpace_day_to_do_ms (const CarpaceSession *s)
{
  int64_t to_do_ms = s->today.dose_ms - s->today.done_ms;

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

void
carpace_day_offer_morning (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceDay day;

  if (!carpace_day_is_over (s, step->now) || s->on_air)
    return;
  day = day_of (s, step->now);
  if (s->morning_shown_for == day)
    return;
  s->morning_shown_for = day;
  carpace_cue_show (step, CARPACE_CUE_MORNING);
}

static CarpaceMorning
no_check (void)
{
  return (CarpaceMorning){ .waking = -1, .stiffness = CARPACE_STIFFNESS_UNSAID, .now = -1 };
}

/* What the day that ends came to. */
static CarpaceDayRecord
record_of (const CarpaceSession *s)
{
  const CarpaceToday *today = &s->today;
  const CarpacePlan *plan = s->plan;
  CarpaceDayRecord record = { .day = today->day, .dose_ms = today->dose_ms, .done_ms = today->done_ms, .highest = -1 };
  int32_t last = today->n_ratings - 1;

  record.match_ms = today->match_ms;
  record.other_ms = today->facts ? today->other_ms : -1;
  record.last_end_elapsed_ms = today->last_end;
  record.morning = today->morning_given ? today->morning : no_check ();
  record.rule = today->rule;
  record.no_practice = today->no_practice;
  record.worse = today->morning_given && carpace_morning_is_worse (&today->morning, plan->usual_discomfort);
  record.above_stop = record.morning.waking > plan->stop_above || record.morning.now > plan->stop_above;
  record.near_stop = false;
  record.beyond = today->beyond;
  for (int32_t i = 0; i <= last; i++)
    {
      const CarpaceRated *rated = &today->rating[i];
      if (rated->discomfort < 0)
        continue;
      record.n_ratings++;
      record.rating_sum += rated->discomfort;
      record.highest = rated->discomfort > record.highest ? rated->discomfort : record.highest;
      record.ended_above_stop |= rated->discomfort > plan->stop_above;
      record.tightened_2 |= rated->row == CARPACE_RULE_UP_2 || rated->row == CARPACE_RULE_UP_TO_4_OR_5;
      record.near_stop |= rated->discomfort >= NEAR_STOP && rated->discomfort >= plan->usual_discomfort + 2;
    }
  record.above_stop |= record.ended_above_stop;
  record.near_stop |= record.morning.waking >= NEAR_STOP && record.morning.waking >= plan->usual_discomfort + 2;
  record.near_stop |= record.morning.now >= NEAR_STOP && record.morning.now >= plan->usual_discomfort + 2;
  record.last_answered = last >= 0 && today->rating[last].discomfort >= 0 && !today->rating[last].late;
  record.limits_ms = carpace_tightenings (s) > 0 ? carpace_day_limits_at_end_ms (s) : today->dose_ms;
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

static void
tell_day (CarpaceStep *step, CarpaceDayWhat what)
{
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_DAY);

  entry->day.day = step->s->today.day;
  entry->day.what = what;
  entry->day.dose_ms = step->s->today.dose_ms;
  entry->day.active_ms = step->s->today.done_ms;
}

static void
tell_caution (CarpaceStep *step, CarpaceCautionWhat what, uint32_t signs)
{
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_CAUTION);

  entry->caution.what = what;
  entry->caution.signs = signs;
}

/* On air a caution waits until the stream ends. */
void
carpace_caution_show (CarpaceStep *step)
{
  if (step->s->on_air)
    step->s->caution_held_back = true;
  else
    carpace_cue_show (step, CARPACE_CUE_CAUTION);
}

static CarpaceRefusal
why_no_practice (const CarpaceDecision *decision, bool caution_open)
{
  if (caution_open || decision->rule == CARPACE_RULE_CAUTION)
    return CARPACE_REFUSAL_CAUTION_OPEN;
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
  today->why_not = why_no_practice (decision, s->history.caution_open);
  today->caution |= s->history.caution_open || decision->rule == CARPACE_RULE_CAUTION;
  today->n_limits = carpace_dose_limits (s->plan, today->dose_ms, today->limit_ms);
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
  s->today.morning = check != NULL ? *check : no_check ();
  s->today.morning_given = check != NULL;
  s->wait_open = false;
  s->start_asked = false;
  s->at_opening = s->history;
  carpace_dose_use_plan (&s->history, s->plan, day);
  carpace_dose_decide (&s->history, s->plan, day, step->now.elapsed_ms, check, &decision);
  take_decision (step, &decision);
  tell_day (step, CARPACE_DAY_OPENED);
}

/* @return whether a new day was opened */
bool
carpace_day_open_if_new (CarpaceStep *step, const CarpaceMorning *check)
{
  CarpaceSession *s = step->s;
  CarpaceDay day;

  if (!carpace_day_is_over (s, step->now))
    return false;
  day = day_of (s, step->now);
  begin_day (step, check);
  s->morning_shown_for = day;
  for (int i = 0; i < CARPACE_N_CUES; i++)
    if (i != CARPACE_CUE_CAUTION)
      carpace_cue_withdraw (step, (CarpaceCue) i);
  s->state = CARPACE_STATE_WAITING;
  if (s->today.no_practice)
    carpace_day_done (step);
  return true;
}

void
carpace_day_done (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->state = CARPACE_STATE_DAY_DONE;
  s->start_asked = false;
  carpace_cue_withdraw (step, CARPACE_CUE_NEXT_BLOCK);
  if (s->today.done)
    return;
  s->today.done = true;
  tell_day (step, CARPACE_DAY_DONE);
  carpace_cue_show (step, CARPACE_CUE_DAY_DONE);
}

/* A later morning stops or shortens what is under way. */
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
      carpace_block_end (step, step->now.elapsed_ms, false);
      return;
    }
  if (s->block.match || limit_ms >= s->block.limit_ms)
    return;
  s->block.limit_ms = limit_ms > active_ms ? limit_ms : active_ms;
}

/* What a later morning leaves as it was when the day opened with it. */
static void
keep_since_opening (const CarpaceHistory *now, CarpaceHistory *ret_anew)
{
  ret_anew->shown_next = now->shown_next;
  ret_anew->on_air = now->on_air;
  if (now->caution_open)
    {
      ret_anew->caution_open = true;
      ret_anew->caution_since = now->caution_since;
      ret_anew->caution_signs = now->caution_signs;
    }
}

static void
decide_later (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceHistory anew = s->at_opening;
  CarpaceDecision decision;
  CarpaceLimits limits;

  carpace_dose_use_plan (&anew, s->plan, s->today.day);
  carpace_dose_decide (&anew, s->plan, s->today.day, s->today.opened_at, &s->today.morning, &decision);
  if (decision.after_ms >= s->today.dose_ms && decision.no_practice == s->today.no_practice
      && !(decision.opens_caution && !s->history.caution_open))
    return;
  if (decision.after_ms > s->today.dose_ms)
    return;
  decision.before_ms = s->today.dose_ms;
  keep_since_opening (&s->history, &anew);
  s->history = anew;
  take_decision (step, &decision);
  shorten_running (step);
  if (s->state == CARPACE_STATE_WAITING && !carpace_next_block (s, &limits))
    carpace_day_done (step);
}

static bool
in_range (const CarpaceMorning *m)
{
  return m->waking >= -1 && m->waking <= 10 && m->now >= -1 && m->now <= 10 && (int32_t) m->stiffness >= 0
         && m->stiffness < CARPACE_N_STIFFNESSES;
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
    carpace_block_end (step, step->now.elapsed_ms, false);
  carpace_caution_show (step);
  if (s->today.open && s->state == CARPACE_STATE_WAITING)
    carpace_day_done (step);
}

static void
open_caution (CarpaceStep *step)
{
  CarpaceHistory *h = &step->s->history;

  if (!h->caution_open)
    h->caution_since = day_of (step->s, step->now);
  h->caution_open = true;
  h->caution_signs |= step->event->signs & ((1u << CARPACE_N_SIGNS) - 1);
  tell_caution (step, CARPACE_CAUTION_OPENED, h->caution_signs);
  stop_for_caution (step);
}

static void
close_caution (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceDay day = carpace_day_of (step->now, s->plan->starts_at_min);

  if (!s->history.caution_open)
    carpace_refuse (step, CARPACE_REFUSAL_NO_CAUTION);
  else if (step->event->caution == CARPACE_CAUTION_GONE && day - s->history.caution_since < CARPACE_CAUTION_DAYS)
    carpace_refuse (step, CARPACE_REFUSAL_GONE_TOO_EARLY);
  else
    {
      tell_caution (step, CARPACE_CAUTION_CLOSED, s->history.caution_signs);
      carpace_dose_use_plan (&s->history, s->plan, day); /* it may be older than any day */
      carpace_dose_close_caution (&s->history, day);
      s->caution_held_back = false;
      carpace_cue_withdraw (step, CARPACE_CUE_CAUTION);
    }
}

void
carpace_day_caution (CarpaceStep *step)
{
  switch (step->event->caution)
    {
    case CARPACE_CAUTION_ASK:
      tell_caution (step, CARPACE_CAUTION_WAS_ASKED, 0);
      carpace_cue_show (step, CARPACE_CUE_CAUTION);
      break;
    case CARPACE_CAUTION_SIGNS:
      if (step->event->signs != 0)
        {
          open_caution (step);
          break;
        }
      tell_caution (step, CARPACE_CAUTION_WAS_NONE, 0);
      if (!step->s->history.caution_open)
        carpace_cue_withdraw (step, CARPACE_CUE_CAUTION);
      break;
    case CARPACE_CAUTION_SEEN:
    case CARPACE_CAUTION_GONE:
      close_caution (step);
      break;
    }
}
