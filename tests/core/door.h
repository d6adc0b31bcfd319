/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door.h: a session stepped by hand. */
#ifndef CARPACE_TEST_DOOR_H
#define CARPACE_TEST_DOOR_H

#include <stdlib.h>
#include <string.h>

#include "carpace/event-kinds.h"
#include "carpace/session.h"
#include "carpace/view.h"
#include "trace.h"
#include "../../src/core/session-private.h"

#define MINUTE 60000

typedef struct
{
  CarpaceSession session;
  CarpacePlan plan;
  CarpaceEntries told;
  CarpaceView view;
} Door;

static inline CarpaceInstant
at (int64_t ms)
{
  CarpaceInstant instant;

  carpace_instant_read ("2027-03-02T18:00:00+01:00", &instant);
  return carpace_instant_after (instant, ms);
}

static inline void
step (Door *door, CarpaceEventKind kind, int64_t ms)
{
  CarpaceEvent event;

  carpace_event_init (&event, kind);
  if (kind == CARPACE_EVENT_OPEN)
    event.open.plan = &door->plan;
  if (kind == CARPACE_EVENT_INPUT || kind == CARPACE_EVENT_STILL)
    event.fact.since_ms = ms;
  carpace_session_step (&door->session, &event, at (ms), &door->told);
  carpace_view (&door->session, at (ms), &door->view);
}

/* A fact told at @ms, of @since_ms. */
static inline void
step_fact (Door *door, CarpaceEventKind kind, int64_t ms, int64_t since_ms, bool uncounted)
{
  CarpaceEvent event;

  carpace_event_init (&event, kind);
  event.fact.since_ms = since_ms;
  event.fact.uncounted = uncounted;
  carpace_session_step (&door->session, &event, at (ms), &door->told);
  carpace_view (&door->session, at (ms), &door->view);
}

static inline Door *
door_open (const CarpaceHistory *history)
{
  Door *door = calloc (1, sizeof *door);

  carpace_trace_plan (&door->plan, 2, 30);
  memset (&door->session, 0xa5, sizeof door->session);
  carpace_session_init (&door->session, history);
  step (door, CARPACE_EVENT_OPEN, 0);
  return door;
}

/* Comes to @ms by way of each deadline before it. */
static inline void
until (Door *door, int64_t ms)
{
  while (carpace_session_next_deadline (&door->session) <= ms)
    step (door, CARPACE_EVENT_DEADLINE, carpace_session_next_deadline (&door->session));
}

static inline const CarpaceEntry *
told (const Door *door, CarpaceEntryKind kind)
{
  for (int32_t i = 0; i < door->told.n; i++)
    if (door->told.entry[i].kind == kind)
      return &door->told.entry[i];
  return NULL;
}

#endif
