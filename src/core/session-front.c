/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-front.c: a window that practice is bound to. While another one is in front the hand is still for a block,
 * whatever it does there: what it does is remembered, for when the window comes back or the block ends. Between blocks
 * the hand is what it is, so that minutes outside practice are counted wherever they are. */
#include "session-private.h"

bool
carpace_front_is_elsewhere (const CarpaceSession *s)
{
  return s->history.away && (s->block.running || s->overrunning);
}

/* Asked about, or begun, where a block may begin and nothing that is more pressing waits for an answer. The day's
 * first card is shown before anything begins by itself. */
static void
ask_or_begin (CarpaceStep *step, bool starts)
{
  CarpaceSession *s = step->s;
  bool first_today;

  if (!carpace_could_begin (s) || s->history.caution_shown || carpace_day_is_behind (s, step->now))
    return;
  carpace_day_offer_morning (step);
  first_today = step->cue_again[CARPACE_CUE_MORNING];
  if (starts && !first_today && carpace_block_begin_by_itself (step))
    return;
  if (carpace_could_begin (s))
    carpace_unstarted_front (step);
}

/* A day that opens by it was opened away from the window: so a replay opens it again. */
static void
come (CarpaceStep *step, bool starts)
{
  CarpaceSession *s = step->s;

  if (!s->history.away)
    return;
  carpace_unstarted_come (s, step->now.elapsed_ms);
  ask_or_begin (step, starts);
  s->history.away = false;
}

void
carpace_front_come (CarpaceStep *step)
{
  come (step, false);
}

void
carpace_front_come_and_start (CarpaceStep *step)
{
  come (step, true);
}

void
carpace_front_leave (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (s->history.away)
    return;
  carpace_unstarted_leave (s, carpace_last_input (s, step->now.elapsed_ms));
  s->history.away = true;
}

void
carpace_front_anywhere (CarpaceStep *step)
{
  if (step->s->history.away)
    carpace_unstarted_come (step->s, step->now.elapsed_ms);
  step->s->history.away = false;
}

/* Leaving the window is stillness from then on. */
static void
go_elsewhere (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (s->hand != CARPACE_HAND_MOVING)
    return;
  s->elsewhere = true;
  s->hand = CARPACE_HAND_PAUSING;
  s->still_since = step->now.elapsed_ms;
}

/* Coming back is input, where the hand moves; what it goes on with past the block's end is none of the block. */
static void
be_here (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  bool moves = s->elsewhere;

  s->elsewhere = false;
  if (moves && (s->block.running || s->overrunning))
    carpace_hand_moves_from (step, step->now.elapsed_ms);
  else if (moves)
    carpace_hand_presume_moving (step);
}

/* Whatever has come about. */
void
carpace_front_settle (CarpaceStep *step)
{
  if (carpace_front_is_elsewhere (step->s))
    go_elsewhere (step);
  else
    be_here (step);
  if (step->s->cue_on[CARPACE_CUE_BEGUN] && step->s->state != CARPACE_STATE_PRACTISING)
    carpace_cue_withdraw (step, CARPACE_CUE_BEGUN);
}
