/* SPDX-License-Identifier: GPL-3.0-or-later */
/* evening.h: a session, and all that watches it, as one value that can be copied.
 *
 * The wall clock stands: only elapsed time decides, and so the states of 18:00
 * and of 18:05 are one. It goes on by whole days, where a day turns. */
#ifndef CARPACE_EXPLORE_EVENING_H
#define CARPACE_EXPLORE_EVENING_H

#include <stdio.h>

#include "always.h"
#include "carpace/session.h"

/* Events of a day that can be replayed; no trace is as long. */
#define EVENING_EVENTS 200

/* What the facts and answers say of the hand, and of active time: worked out from
 * what went in and which states were told, not from the session. */
typedef struct
{
  enum { HAND_STILL, HAND_MOVING, HAND_PAUSING } hand;
  int64_t moving_since, still_since;
  int64_t gap_began;
  int64_t forgiven_until; /* input over a rest */
  bool running;
  int64_t from, sum_ms; /* of the block's active time */
  bool counting;
  int64_t over_from;    /* -1 where no stretch outlives its block */
  bool away, elsewhere; /* from the practice window; the hand moves there, in a block */
} Active;

typedef struct
{
  CarpaceSession s;
  CarpaceInstant now;
  const CarpacePlan *plan;
  CarpaceAlways always;
  Active active;
  bool checking;     /* answers are held against worse ones on the way */
  uint64_t told;     /* all that was told by the last action, folded */
  const char *fault; /* NULL: none yet */
  FILE *tell;        /* what is told is written there, NULL: nowhere */
  int n_all_events; /* said so far */
  int n_events;
  CarpaceEvent event[EVENING_EVENTS]; /* since the day opened, its opening included */
  CarpaceInstant at[EVENING_EVENTS];
} Evening;

void evening_begin (Evening *e, const CarpacePlan *plan);
void evening_copy (Evening *to, const Evening *from);

/* One step at e->now. */
void evening_step (Evening *e, const CarpaceEvent *event);

/* Lets time go by, deadlines each at its own instant. @to is not before now. */
void evening_until (Evening *e, int64_t to_ms);

/* Says what @lines say, as plans.h has them. */
struct Script;
void evening_say (Evening *e, const char *lines, struct Script *script);

/* The date goes on by @days; no time goes by. */
void evening_turn (Evening *e, int32_t days);

/* active.c */
void active_before (Evening *e, const CarpaceEvent *event);
void active_after (Evening *e, const CarpaceEvent *event, CarpaceState before, const CarpaceEntries *entries);

#endif
