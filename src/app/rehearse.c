/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rehearse.c: the loop on a virtual clock. */
#include "app/rehearse.h"

#include <stdlib.h>
#include <string.h>

typedef struct
{
  CarpaceVirtualClock clock;
  CarpaceRehearsalListener listen;
  void *user;
  int32_t line;
} Rehearsal;

static CarpaceInstant
now (void *self)
{
  return ((CarpaceVirtualClock *) self)->now;
}

CarpaceClock
carpace_virtual_clock_port (CarpaceVirtualClock *clock)
{
  return (CarpaceClock){ clock, now };
}

static void
look_up_offset (CarpaceVirtualClock *clock)
{
  if (clock->zone[0] != '\0' && clock->zones != NULL && clock->zones->offset != NULL)
    clock->zones->offset (clock->zones->self, clock->zone, clock->now.wall_ms, &clock->now.offset_s);
}

static void
move_to (CarpaceVirtualClock *clock, int64_t to)
{
  clock->now = carpace_instant_after (clock->now, to - clock->now.elapsed_ms);
  look_up_offset (clock);
}

void
carpace_virtual_clock_run (CarpaceVirtualClock *clock, CarpaceLoop *loop, int64_t to)
{
  int64_t due;

  while ((due = carpace_loop_next (loop)) <= to)
    {
      if (due > clock->now.elapsed_ms)
        move_to (clock, due);
      carpace_loop_due (loop);
    }
  move_to (clock, to);
}

static void
hear (void *self, const CarpaceEntry *entry)
{
  Rehearsal *r = self;

  r->listen (r->user, entry, r->line);
}

static void
take (Rehearsal *r, CarpaceLoop *loop, const CarpaceScriptLine *line)
{
  r->line = 0;
  carpace_virtual_clock_run (&r->clock, loop, line->at_ms);
  r->line = line->line;
  switch (line->what)
    {
    case CARPACE_SCRIPT_EVENT:
      carpace_loop_tell (loop, &line->event, NULL);
      break;
    case CARPACE_SCRIPT_CLOCK:
      r->clock.now.wall_ms = carpace_sum_ms (r->clock.now.wall_ms, line->by_ms);
      look_up_offset (&r->clock);
      break;
    case CARPACE_SCRIPT_ZONE:
      strcpy (r->clock.zone, line->zone);
      look_up_offset (&r->clock);
      break;
    case CARPACE_SCRIPT_STOP:
      break;
    }
}

bool
carpace_rehearse_script (const CarpacePlan *plan, const CarpaceScript *script, const CarpaceZones *zones,
                         CarpaceRehearsalListener listen, void *user)
{
  return carpace_rehearse_script_kept (plan, script, zones, NULL, listen, user);
}

bool
carpace_rehearse_script_kept (const CarpacePlan *plan, const CarpaceScript *script, const CarpaceZones *zones,
                              const CarpaceStore *keep, CarpaceRehearsalListener listen, void *user)
{
  Rehearsal r = { .clock = { .now = script->start, .zones = zones }, .listen = listen, .user = user };
  CarpaceLoopPorts ports = { .clock = carpace_virtual_clock_port (&r.clock), .listener = &r, .entry = hear };
  CarpaceLoop *loop = malloc (sizeof *loop);

  if (loop == NULL)
    return false;
  if (keep != NULL)
    ports.store = *keep;
  r.clock.now.elapsed_ms = 0;
  strcpy (r.clock.zone, script->zone);
  look_up_offset (&r.clock);
  carpace_loop_init (loop, &ports, NULL);
  carpace_loop_open (loop, plan);
  for (size_t i = 0; i < script->n; i++)
    {
      take (&r, loop, &script->line[i]);
      if (script->line[i].what == CARPACE_SCRIPT_STOP)
        break;
    }
  free (loop);
  return true;
}
