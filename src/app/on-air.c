/* SPDX-License-Identifier: GPL-3.0-or-later */
/* on-air.c: intermissions as arithmetic on moments. */
#include "on-air.h"

#include <string.h>

static int64_t
least (int64_t a, int64_t b)
{
  return a < b ? a : b;
}

static int64_t
most (int64_t a, int64_t b)
{
  return a > b ? a : b;
}

/* The rest of a division that is never negative. */
static int64_t
rest_of (int64_t value, int64_t by)
{
  int64_t rest = value % by;

  return rest < 0 ? rest + by : rest;
}

static int64_t
sum_ms (int64_t a, int64_t b)
{
  if (b > 0 && a > INT64_MAX - b)
    return INT64_MAX;
  if (b < 0 && a < INT64_MIN - b)
    return INT64_MIN;
  return a + b;
}

void
carpace_on_air_init (CarpaceOnAir *air)
{
  memset (air, 0, sizeof *air);
  air->rested_to_ms = INT64_MIN;
}

void
carpace_on_air_begin (CarpaceOnAir *air, const CarpacePlan *plan, CarpaceInstant now)
{
  if (!air->on)
    {
      carpace_on_air_init (air);
      air->since = now;
    }
  air->on = true;
  if (plan == NULL)
    return;
  air->from = plan->on_air_from;
  air->every_ms = most (plan->on_air_every_ms, 0);
  air->notice_ms = most (plan->on_air_notice_ms, 0);
  air->length_ms = least (most (plan->on_air_length_ms, 0), air->every_ms / 2);
}

void
carpace_on_air_end (CarpaceOnAir *air)
{
  carpace_on_air_init (air);
}

void
carpace_on_air_rested (CarpaceOnAir *air, int64_t from_ms, int64_t to_ms)
{
  if (air->on && to_ms > from_ms && sum_ms (from_ms, air->length_ms) <= to_ms)
    air->rested_to_ms = most (air->rested_to_ms, to_ms);
}

/* Elapsed ms of the first slot that is not over at elapsed @at_ms: its end is
 * after it. The offset and both clocks are those of @now. */
static int64_t
slot_from_clock (const CarpaceOnAir *air, CarpaceInstant now, int64_t at_ms)
{
  int64_t local_ms = now.wall_ms + (int64_t) now.offset_s * CARPACE_SECOND_MS + (at_ms - now.elapsed_ms);
  int64_t of_day_ms = rest_of (local_ms, CARPACE_DAY_MS);
  int64_t slot_ms = of_day_ms - of_day_ms % air->every_ms;

  if (of_day_ms >= slot_ms + air->length_ms)
    slot_ms = least (slot_ms + air->every_ms, CARPACE_DAY_MS);
  return at_ms + (slot_ms - of_day_ms);
}

static int64_t
slot_from_stream (const CarpaceOnAir *air, int64_t at_ms)
{
  int64_t gone_ms = most (at_ms - air->since.elapsed_ms, 0);
  int64_t slot_ms = gone_ms - gone_ms % air->every_ms;

  if (gone_ms >= slot_ms + air->length_ms || slot_ms == 0)
    slot_ms += air->every_ms;
  return air->since.elapsed_ms + slot_ms;
}

static int64_t
slot (const CarpaceOnAir *air, CarpaceInstant now, int64_t at_ms)
{
  return air->from == CARPACE_ON_AIR_FROM_CLOCK ? slot_from_clock (air, now, at_ms) : slot_from_stream (air, at_ms);
}

/* Whether a pause already taken stands for the intermission at @begins_ms. */
static bool
stood_for (const CarpaceOnAir *air, int64_t begins_ms)
{
  return air->rested_to_ms != INT64_MIN && sum_ms (air->rested_to_ms, air->notice_ms) >= begins_ms;
}

static bool
too_soon (const CarpaceOnAir *air, int64_t begins_ms)
{
  return begins_ms < sum_ms (air->since.elapsed_ms, air->notice_ms);
}

static CarpaceIntermission
none (void)
{
  return (CarpaceIntermission) { .phase = CARPACE_INTERMISSION_NONE, .notice_ms = CARPACE_NEVER,
                                 .begins_ms = CARPACE_NEVER, .ends_ms = CARPACE_NEVER };
}

/* The first slot from @now on that is neither too soon nor stood for. Jumps over
 * those that are in one go: the notice may be longer than many slots. */
static int64_t
next_slot (const CarpaceOnAir *air, CarpaceInstant now)
{
  int64_t begins_ms = slot (air, now, now.elapsed_ms);

  if (too_soon (air, begins_ms) || stood_for (air, begins_ms))
    {
      int64_t from_ms = begins_ms;

      if (too_soon (air, begins_ms))
        from_ms = most (from_ms, sum_ms (air->since.elapsed_ms, air->notice_ms));
      if (stood_for (air, begins_ms))
        from_ms = most (from_ms, sum_ms (air->rested_to_ms, air->notice_ms));
      begins_ms = slot (air, now, from_ms);
      while (too_soon (air, begins_ms) || stood_for (air, begins_ms))
        begins_ms = slot (air, now, begins_ms + most (air->length_ms, 1));
    }
  return begins_ms;
}

CarpaceIntermission
carpace_on_air_at (const CarpaceOnAir *air, CarpaceInstant now)
{
  CarpaceIntermission next;

  if (!air->on || air->every_ms <= 0)
    return none ();
  next.begins_ms = next_slot (air, now);
  next.notice_ms = next.begins_ms - air->notice_ms;
  next.ends_ms = next.begins_ms + air->length_ms;
  if (now.elapsed_ms >= next.begins_ms)
    next.phase = CARPACE_INTERMISSION_NOW;
  else if (now.elapsed_ms >= next.notice_ms)
    next.phase = CARPACE_INTERMISSION_NOTICE;
  else
    next.phase = CARPACE_INTERMISSION_AHEAD;
  next.to_go_ms = (next.phase == CARPACE_INTERMISSION_NOW ? next.ends_ms : next.begins_ms) - now.elapsed_ms;
  return next;
}

int64_t
carpace_on_air_next_change_ms (const CarpaceOnAir *air, CarpaceInstant now)
{
  CarpaceIntermission next = carpace_on_air_at (air, now);

  switch (next.phase)
    {
    case CARPACE_INTERMISSION_AHEAD:
      return next.notice_ms;
    case CARPACE_INTERMISSION_NOTICE:
      return next.begins_ms;
    case CARPACE_INTERMISSION_NOW:
      return next.ends_ms;
    case CARPACE_INTERMISSION_NONE:
    case CARPACE_N_INTERMISSIONS:
      break;
    }
  return CARPACE_NEVER;
}
