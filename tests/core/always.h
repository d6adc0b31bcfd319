/* SPDX-License-Identifier: GPL-3.0-or-later */
/* always.h: what must hold of every session, whatever is said to it and when.
 * The random streams and the explorer hold a session against the same list. */
#ifndef CARPACE_ALWAYS_H
#define CARPACE_ALWAYS_H

#include "carpace/view.h"

typedef struct
{
  CarpaceState state;
  bool cue_on[CARPACE_N_CUES];
  CarpaceDay day;
  int64_t day_opened_at;
  int64_t practised_ms;       /* told by block entries since the day opened */
  bool asked_over_rating;     /* start over an open rating showed it: a tap starts */
  bool rated;                 /* in this step, whatever came of it */
  CarpaceEventKind event;     /* the step's own */
  int32_t given;              /* number given in this step, -1 none */
  bool moving;                /* the last fact or answer says so */
  bool input_since, rest_taken; /* since a rest was taken */
  int64_t forgiven_until;     /* input over a rest */
  bool input_over_rest;       /* and past that */
  bool corrected;             /* a correction or a late answer is told in this step */
  bool broken;
  char fault[200];
} CarpaceAlways;

void carpace_always_begin (CarpaceAlways *always);

/* Before a step by @event. */
void carpace_always_event (CarpaceAlways *always, const CarpaceEvent *event, CarpaceInstant at);

/* For each entry that the step tells, in turn. */
void carpace_always_entry (CarpaceAlways *always, const CarpaceEntry *entry);

/* After a step, and at any time: what is shown agrees with what was told. */
void carpace_always_look (CarpaceAlways *always, const CarpaceSession *session, CarpaceInstant now);

#endif
