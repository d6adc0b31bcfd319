/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-unstarted.c: input that goes on while a block could begin, as when start was forgotten. It is asked about
 * once in a wait, and nothing begins by itself. Only input that was told to begin in the wait counts: what is only
 * presumed of the hand does not, nor what the player does not want to be counted. */
#include "session-private.h"

bool
carpace_could_begin (const CarpaceSession *s)
{
  CarpaceRefusal why;
  CarpaceLimits limits;

  if (s->state != CARPACE_STATE_WAITING || s->wait_open || s->plan == NULL || s->history.caution_open)
    return false;
  return !s->today.open || (!carpace_may_not_practise (s, &why) && carpace_next_block (s, &limits));
}

/* Since when it counts: input that was going on as the wait ended counts from there. */
static int64_t
counts_from (const CarpaceSession *s)
{
  return carpace_later (s->unstarted_from, s->wait_until);
}

void
carpace_unstarted_forget (CarpaceSession *s)
{
  s->unstarted_asked = false;
  s->unstarted_from = CARPACE_NEVER;
  s->unstarted_ms = 0;
}

void
carpace_unstarted_input (CarpaceStep *step)
{
  if (!step->event->fact.uncounted)
    step->s->unstarted_from = step->s->moving_since;
}

static void
count_to (CarpaceSession *s, int64_t at)
{
  if (s->unstarted_from != CARPACE_NEVER && carpace_could_begin (s) && at > counts_from (s))
    s->unstarted_ms = carpace_sum_ms (s->unstarted_ms, at - counts_from (s));
}

void
carpace_unstarted_still (CarpaceSession *s)
{
  if (!s->history.away)
    count_to (s, s->still_since);
  s->unstarted_from = CARPACE_NEVER;
}

/* What goes on elsewhere than in the practice window is not asked about. */
void
carpace_unstarted_leave (CarpaceSession *s, int64_t at)
{
  count_to (s, at);
}

void
carpace_unstarted_come (CarpaceSession *s, int64_t at)
{
  if (s->unstarted_from != CARPACE_NEVER)
    s->unstarted_from = at;
}

int64_t
carpace_unstarted_time (const CarpaceSession *s)
{
  if (s->unstarted_asked || s->history.away || s->hand != CARPACE_HAND_MOVING || s->unstarted_from == CARPACE_NEVER
      || !carpace_could_begin (s))
    return CARPACE_NEVER;
  return carpace_sum_ms (counts_from (s), CARPACE_UNSTARTED_MS - s->unstarted_ms);
}

void
carpace_unstarted_ask (CarpaceStep *step)
{
  step->s->unstarted_asked = true;
  carpace_cue_show (step, CARPACE_CUE_UNSTARTED);
}

/* The practice window is in front: that is asked about at once. */
void
carpace_unstarted_front (CarpaceStep *step)
{
  if (step->s->unstarted_asked)
    return;
  step->s->unstarted_asked = true;
  carpace_cue_ask (step, CARPACE_CUE_UNSTARTED);
}

/* Whatever has come about: where no block could begin any more, it is not asked about. */
void
carpace_unstarted_settle (CarpaceStep *step)
{
  if (step->s->cue_on[CARPACE_CUE_UNSTARTED] && !carpace_could_begin (step->s))
    carpace_cue_withdraw (step, CARPACE_CUE_UNSTARTED);
}
