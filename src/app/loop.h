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
  CarpaceClicks clicks; /**< where the player has them counted */
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
  bool following_clicks;
  bool counts_clicks;     /* each press is told */
  int64_t clicks_from_ms; /* active time of the block from which the present minute's are counted */
  int32_t clicks;         /* in it */
  bool no_other_input;    /* mouse input outside practice is not to be summed */
  CarpaceOnAir air;
  CarpaceSittings sittings; /* today's, as the session told them */
  int64_t announced_ms;   /* beginning of the intermission last told to the session */
  bool unkept;            /* the store could not keep the last step, or says that it cannot */
  int64_t suspended_ms;   /* the last suspend began here */
  int64_t slept_ms;       /* of the clock, as far as it has been told */
  int64_t paused_from_ms; /* practice stopped here */
} CarpaceLoop;

/** A loop that is off. @history may be NULL. */
void carpace_loop_init (CarpaceLoop *loop, const CarpaceLoopPorts *ports, const CarpaceHistory *history);

/** Opens @plan (CARPACE_EVENT_OPEN). The plan outlives the loop, or the next open. */
void carpace_loop_open (CarpaceLoop *loop, const CarpacePlan *plan);

/** Goes on from what was kept: the day's events are replayed, with nothing
 * told to any port; the time the program was not there counts as suspended. */
void carpace_loop_resume (CarpaceLoop *loop, const CarpacePlan *plan, const CarpaceResume *resume);

/** Begins, or (@resume known) goes on, with the plans there are. The day that was
 * under way is gone on with by @of_day, the plan it was opened with, where that
 * was kept, else by @in_use; @in_use (NULL where it cannot be read) holds from
 * the next practice day on. Both outlive the loop, or the next open.
 * @return false where there is no plan to go on with: nothing has changed, and
 * the same @resume serves once there is one */
bool carpace_loop_go_on (CarpaceLoop *loop, const CarpacePlan *of_day, const CarpacePlan *in_use,
                         const CarpaceResume *resume);

/** Delivers @event now. @return true where it was taken, else *ret_refusal
 * (may be NULL) says why not */
bool carpace_loop_tell (CarpaceLoop *loop, const CarpaceEvent *event, CarpaceRefusal *ret_refusal);

/** Elapsed ms at which the loop wants carpace_loop_due(): the session's next
 * deadline, or the next change of an intermission. */
int64_t carpace_loop_next (const CarpaceLoop *loop);

/** The alarm has come. Early or late does no harm. */
void carpace_loop_due (CarpaceLoop *loop);

/** A button was pressed: counted where it is practice. What was counted in a minute is told at the first press after it,
 * or at the block's end: nobody is woken by it. */
void carpace_loop_pressed (CarpaceLoop *loop);

/** Presses are told of from now on, or are not any more: what was counted in a minute that is not over is of no use then. */
void carpace_loop_counts_clicks (CarpaceLoop *loop, bool counts);

/** Has presses counted by @clicks (all 0: not any more), from the next block on or in the one that runs. The one before is
 * the caller's to let go of. */
void carpace_loop_set_clicks (CarpaceLoop *loop, CarpaceClicks clicks);

/** The two as a port's listener. */
CarpaceClicksListener carpace_loop_as_clicks_listener (CarpaceLoop *loop);

/** The program is awake for a reason of its own: where the machine has been suspended and
 * nobody has said so, that is told now. Every event and alarm looks, too. */
void carpace_loop_awake (CarpaceLoop *loop);

/** The view as of now. */
const CarpaceView *carpace_loop_view (CarpaceLoop *loop);

/** carpace_loop_tell() as a port. */
CarpaceTell carpace_loop_as_tell (CarpaceLoop *loop);

#endif
