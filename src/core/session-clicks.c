/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-clicks.c: buttons that were pressed, counted outside and told of by minutes of a block's active time. Nothing is
 * decided by them. Minutes that nobody counted are told of by nothing: they are unknown, never without a click. */
#include "session-private.h"

bool
carpace_session_counts_clicks (const CarpaceSession *s)
{
  bool practising = s->state == CARPACE_STATE_PRACTISING || s->state == CARPACE_STATE_LIMIT_REACHED
                    || s->state == CARPACE_STATE_GAP; /* the click itself may be what ends the gap */

  return practising && s->block.running && !s->suspended && !carpace_front_is_elsewhere (s);
}

int64_t
carpace_session_active_ms (const CarpaceSession *s, int64_t elapsed)
{
  return carpace_active_at (s, elapsed);
}

int64_t
carpace_clicks_whole_ms (int64_t from_ms, int64_t active_ms)
{
  return active_ms > from_ms ? (active_ms - from_ms) / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS : 0;
}

void
carpace_clicks_no_more (CarpaceSession *s)
{
  if (!s->block.running)
    s->block.clicks_to_ms = s->block.closed_ms;
}

static void
tell (CarpaceStep *step, int64_t to_ms, int32_t count)
{
  CarpaceRunning *block = &step->s->block;
  CarpaceEntry *entry;

  if (to_ms <= block->clicks_to_ms)
    return;
  entry = carpace_tell (step, CARPACE_ENTRY_CLICKS);
  entry->clicks.block = block->number;
  entry->clicks.from_ms = block->clicks_to_ms;
  entry->clicks.ms = to_ms - block->clicks_to_ms;
  entry->clicks.count = count;
  block->clicks_to_ms = to_ms;
}

/* Told by the first press of a further minute, or at the block's end: all were pressed in the first minute that was not
 * told of yet, and none in the minutes since. While a block runs whole minutes are told of. */
void
carpace_clicks_take (CarpaceStep *step)
{
  CarpaceRunning *block = &step->s->block;
  int64_t active_ms = carpace_active_at (step->s, step->now.elapsed_ms);
  int64_t from_ms = carpace_later (block->clicks_to_ms, step->event->clicks.from_ms);
  int64_t to_ms = block->running ? from_ms + carpace_clicks_whole_ms (from_ms, active_ms) : active_ms;
  int64_t first_ms = from_ms + CARPACE_MINUTE_MS;

  if (to_ms <= from_ms)
    return;
  block->clicks_to_ms = from_ms;
  if (step->event->clicks.count > 0)
    tell (step, first_ms < to_ms ? first_ms : to_ms, step->event->clicks.count);
  tell (step, to_ms, 0);
}
