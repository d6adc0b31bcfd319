/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * loop.h: the one way through. Due deadlines first, then the event, then what
 * came of it: to the diary, to the faces; one alarm armed.
 */
#ifndef CARPACE_LOOP_H
#define CARPACE_LOOP_H

#include "app/on-air.h"
#include "carpace/ports.h"

/** What the loop is given. A port whose functions are NULL is not there. */
typedef struct
{
  CarpaceClock clock;
  CarpaceAlarm alarm;
  CarpaceActivity activity;
  CarpaceFaces faces;
  CarpaceStore store;
  /** Hears every entry, after the diary: a rehearsal prints from here. */
  void *listener;
  void (*entry) (void *listener, const CarpaceEntry *entry);
} CarpaceLoopPorts;

/** The application object: tray, rehearsals and tests drive the same. */
typedef struct
{
  CarpaceLoopPorts ports;
  CarpaceSession session;
  CarpaceView view;
  CarpaceInstant last;
  int64_t armed;
  int64_t following_ms;
  bool no_other_input;    /* mouse input outside practice is not to be summed */
  CarpaceOnAir air;
  int64_t announced_ms;   /* beginning of the intermission last told to the session */
  int64_t suspended_ms;   /* the last suspend began here */
  int64_t paused_from_ms; /* practice stopped here */
} CarpaceLoop;

/** A loop that is off. @history may be NULL. */
void carpace_loop_init (CarpaceLoop *loop, const CarpaceLoopPorts *ports, const CarpaceHistory *history);

/** Opens @plan (CARPACE_EVENT_OPEN). The plan outlives the loop, or the next open. */
void carpace_loop_open (CarpaceLoop *loop, const CarpacePlan *plan);

/** Goes on from what was kept: the day's events are replayed, with nothing
 * told to any port; the time the program was not there counts as suspended. */
void carpace_loop_resume (CarpaceLoop *loop, const CarpacePlan *plan, const CarpaceResume *resume);

/** Delivers @event now. @return true where it was taken, else *ret_refusal
 * (may be NULL) says why not */
bool carpace_loop_tell (CarpaceLoop *loop, const CarpaceEvent *event, CarpaceRefusal *ret_refusal);

/** Elapsed ms at which the loop wants carpace_loop_due(): the session's next
 * deadline, or the next change of an intermission. */
int64_t carpace_loop_next (const CarpaceLoop *loop);

/** The alarm has come. Early or late does no harm. */
void carpace_loop_due (CarpaceLoop *loop);

/** The view as of now. */
const CarpaceView *carpace_loop_view (CarpaceLoop *loop);

/** carpace_loop_tell() as a port. */
CarpaceTell carpace_loop_as_tell (CarpaceLoop *loop);

#endif
