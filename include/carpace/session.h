/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * session.h: the door of the core. One machine, one step, one deadline.
 *
 * A CarpaceSession is a value that holds everything about a player's practice.
 * carpace_session_step() takes it from one moment to the next and tells what
 * happened; carpace_session_next_deadline() says when it wants to be stepped if
 * nothing else happens before. It owns no timer and reads no clock.
 */
#ifndef CARPACE_SESSION_H
#define CARPACE_SESSION_H

#include "carpace/day.h"
#include "carpace/dose.h"
#include "carpace/exercise.h"
#include "carpace/instant.h"
#include "carpace/plan.h"
#include "carpace/session-layout.h"
#include "carpace/session-words.h"

/** Facts, answers and commands: all that ever reaches the core. */
typedef enum
{
  CARPACE_EVENT_DEADLINE,    /**< the next deadline has come */
  CARPACE_EVENT_OPEN,        /**< a plan is in use: off becomes waiting; later, that plan for the next practice day */
  CARPACE_EVENT_INPUT,       /**< input came back, at since_ms */
  CARPACE_EVENT_STILL,       /**< no input since since_ms */
  CARPACE_EVENT_START,
  CARPACE_EVENT_START_MATCH,
  CARPACE_EVENT_END,
  CARPACE_EVENT_PAUSE,
  CARPACE_EVENT_CONTINUE,
  CARPACE_EVENT_REST,        /**< rest now */
  CARPACE_EVENT_AFTER_RUN,
  CARPACE_EVENT_PLAY_ON,
  CARPACE_EVENT_RATE,
  CARPACE_EVENT_MORNING,
  CARPACE_EVENT_CAUTION,
  CARPACE_EVENT_ON_AIR,
  CARPACE_EVENT_OFF_AIR,
  CARPACE_EVENT_INTERMISSION, /**< on air: one begins, now or soon */
  CARPACE_EVENT_SUSPEND,
  CARPACE_EVENT_WAKE,
  CARPACE_EVENT_FRONT,        /**< the practice window came to the front */
  CARPACE_EVENT_FRONT_STARTS, /**< the same, and a block that may begin begins by it */
  CARPACE_EVENT_AWAY,         /**< another window than the practice window is in front */
  CARPACE_EVENT_ANYWHERE,     /**< practice is bound to no window any more */
  CARPACE_EVENT_CLICKS,       /**< buttons were pressed so often since the last of these, or since from_ms */
  CARPACE_N_EVENTS
} CarpaceEventKind;

/** What is done about cautions. */
typedef enum
{
  CARPACE_CAUTION_ASK,   /**< show the questions */
  CARPACE_CAUTION_SIGNS, /**< these signs, yes; none of them where signs is 0 */
  CARPACE_CAUTION_SEEN,  /**< seen by a physiotherapist or doctor */
  CARPACE_CAUTION_GONE,  /**< gone, three days on */
  CARPACE_N_CAUTION_ANSWERS
} CarpaceCautionAnswer;

/** Who has seen a caution. */
typedef enum { CARPACE_SEEN_BY_UNSAID, CARPACE_SEEN_BY_PHYSIOTHERAPIST, CARPACE_SEEN_BY_DOCTOR, CARPACE_N_SEEN_BYS } CarpaceSeenBy;

/** How a caution was closed. */
typedef struct
{
  CarpaceSeenBy by;  /**< SEEN */
  CarpaceDay on;     /**< SEEN: the date of it; 0 where it was not said */
  int64_t dose_ms;   /**< SEEN: the dose they allow, which only lowers; 0 where none was said */
} CarpaceClosing;

/** One event. What it says beside its kind is that kind's own; all other kinds
 * say nothing more. */
typedef struct
{
  CarpaceEventKind kind;
  union
  {
    struct
    {
      int64_t since_ms; /**< elapsed time of the fact, at most the event's own */
      bool uncounted;   /**< minutes outside practice are not to be summed */
    } fact;             /**< INPUT, STILL */
    struct
    {
      int32_t discomfort; /**< 0..10 */
      CarpaceSite site;
    } rate;
    CarpaceMorning morning;
    struct
    {
      CarpaceCautionAnswer answer;
      uint32_t signs; /**< bits 1u << CarpaceSign */
      CarpaceClosing closing;
    } caution;
    struct
    {
      int64_t begins_ms; /**< elapsed time, which may lie ahead */
    } intermission;
    struct
    {
      int64_t from_ms; /**< active time of the block from which presses were counted */
      int32_t count;
    } clicks;
    struct
    {
      const CarpacePlan *plan; /**< outlives the session, or the OPEN after it */
    } open;
  };
} CarpaceEvent;

/** Kinds of what a step tells. */
typedef enum
{
  CARPACE_ENTRY_STATE,
  CARPACE_ENTRY_DAY,
  CARPACE_ENTRY_BLOCK,
  CARPACE_ENTRY_OVERRUN,
  CARPACE_ENTRY_CUE,
  CARPACE_ENTRY_REST,
  CARPACE_ENTRY_RATING,
  CARPACE_ENTRY_MORNING,
  CARPACE_ENTRY_DECISION,
  CARPACE_ENTRY_CAUTION,
  CARPACE_ENTRY_FAULT,
  CARPACE_ENTRY_CLICKS,
  CARPACE_N_ENTRIES
} CarpaceEntryKind;

typedef enum { CARPACE_DAY_OPENED, CARPACE_DAY_DONE, CARPACE_N_DAY_WHATS } CarpaceDayWhat;
typedef enum { CARPACE_BLOCK_STARTED, CARPACE_BLOCK_ENDED, CARPACE_BLOCK_DROPPED, CARPACE_N_BLOCK_WHATS } CarpaceBlockWhat;
typedef enum { CARPACE_CUE_SHOWN, CARPACE_CUE_WITHDRAWN, CARPACE_CUE_ASKED, CARPACE_N_CUE_WHATS } CarpaceCueWhat;
typedef enum { CARPACE_REST_TAKEN, CARPACE_REST_DECLINED, CARPACE_REST_DEFERRED, CARPACE_REST_INTERRUPTED, CARPACE_N_REST_WHATS } CarpaceRestWhat;
typedef enum { CARPACE_CAUTION_WAS_ASKED, CARPACE_CAUTION_WAS_NONE, CARPACE_CAUTION_OPENED, CARPACE_CAUTION_CLOSED, CARPACE_N_CAUTION_WHATS } CarpaceCautionWhat;

/** One thing that happened. Entries are all that leaves the core: cues are
 * shown from them, the diary is written from them, a rehearsal prints them. */
typedef struct
{
  CarpaceInstant at;
  CarpaceEntryKind kind;
  union
  {
    CarpaceState state;
    struct
    {
      CarpaceDay day;
      CarpaceDayWhat what;
      int64_t dose_ms, active_ms;
      bool on_air, caution_shown, away; /**< when opened: as it was then */
      int64_t closed_limits_ms; /**< when opened: CarpaceDayRecord's limits_ms and other_ms of the day */
      int64_t closed_other_ms;  /**< that this one closed; -1 where there is none */
    } day;
    struct
    {
      CarpaceBlockWhat what;
      int32_t number;       /**< from 1; 0 for a match */
      bool match;           /**< limit, after and rest mean nothing then */
      int64_t limit_ms, after_ms, rest_ms;
      int64_t early_ms;     /**< over 0 where started early */
      bool beyond;          /**< beyond the plan */
      int64_t active_ms, overrun_ms; /**< when ended or dropped */
      int32_t runs;
      int64_t counted_ms;   /**< of a match that ended: what of it is dose */
      int64_t ended_before_ms; /**< when ended: how long before it was told */
    } block;
    struct { int32_t block; int64_t ms; int64_t ended_before_ms; } overrun;
    struct
    {
      CarpaceCue cue;
      CarpaceCueWhat what;
      CarpaceExercise exercise; /**< micro-rest shown */
      bool between_drills;      /**< micro-rest shown */
      bool in_run;              /**< shown quietly, in the middle of a run */
    } cue;
    struct
    {
      CarpaceRestWhat what;
      int64_t length_ms;
      bool asked;
      int32_t next_shown; /**< taken and asked: the exercise in listed order that comes next */
    } rest;
    struct
    {
      int32_t block;      /**< 0 for a match */
      int32_t discomfort; /**< -1 where unanswered */
      CarpaceSite site;
      bool late;
      int32_t corrects;   /**< -1 where it corrects nothing */
      bool by_hand;       /**< a wrong tap, corrected in the diary: no session was told */
    } rating;
    CarpaceMorning morning;
    CarpaceDecision decision;
    struct
    {
      CarpaceCautionWhat what;
      uint32_t signs;
      CarpaceDay date;       /**< practice day it counts from, or is closed on */
      int64_t first_dose_ms; /**< when closed: the plan's */
      int64_t before_ms;     /**< when closed: the dose until then */
      int64_t after_ms;      /**< when closed: the dose from the next practice day on */
      int64_t level_ms;      /**< when closed: the level until then */
      CarpaceCautionAnswer how; /**< when closed: SEEN or GONE */
      CarpaceClosing closing;
    } caution;
    struct { CarpaceRefusal refusal; CarpaceEventKind event; CarpaceState state; } fault;
    struct
    {
      int32_t block;   /**< 0 for a match */
      int64_t from_ms; /**< active time of the block before it */
      int64_t ms;      /**< active time: a minute, less at the block's end, more where nothing was pressed */
      int32_t count;
    } clicks;
  };
} CarpaceEntry;

/** Most entries that one step tells. */
#define CARPACE_STEP_ENTRIES 32

/** What one step told, in the order it came about. */
typedef struct
{
  int32_t n;
  CarpaceEntry entry[CARPACE_STEP_ENTRIES];
} CarpaceEntries;


/** A session that is off, with nothing behind it. @history may be NULL: a
 * player's very first day. */
void carpace_session_init (CarpaceSession *session, const CarpaceHistory *history);

/** One step: @event at @now. Writes what happened to *ret_entries (n may be 0).
 * @now is never before that of the step before; where it is, it is taken as
 * that. An event that the state does not take changes nothing and is told as a
 * fault entry. A fact repeated changes nothing and is no fault. */
void carpace_session_step (CarpaceSession *session, const CarpaceEvent *event, CarpaceInstant now,
                           CarpaceEntries *ret_entries);

/** Elapsed ms at which the session wants CARPACE_EVENT_DEADLINE, never before
 * the last step; CARPACE_NEVER where nothing is due while nothing happens. */
int64_t carpace_session_next_deadline (const CarpaceSession *session);

/** Where @session is. */
CarpaceState carpace_session_state (const CarpaceSession *session);

/** The plan it goes by, NULL where none is in use. */
const CarpacePlan *carpace_session_plan (const CarpaceSession *session);

/** Whether a block is running, and whether the hand is taken to move, wherever. */
bool carpace_session_block_runs (const CarpaceSession *session);
bool carpace_session_hand_moves (const CarpaceSession *session);

/** Whether a button that is pressed now is pressed for practice: in a block, not in a rest, nor while one is offered,
 * nor in a pause or away from the practice window. */
bool carpace_session_counts_clicks (const CarpaceSession *session);

/** Active time of the block that runs, or of the last one, at elapsed ms @elapsed. */
int64_t carpace_session_active_ms (const CarpaceSession *session, int64_t elapsed);

/** How much of @active_ms, counted from @from_ms, is whole minutes: clicks are told of by these. */
int64_t carpace_clicks_whole_ms (int64_t from_ms, int64_t active_ms);

/** Whether it is suspended: nothing falls due. */
bool carpace_session_is_suspended (const CarpaceSession *session);

/** The practice day that is open, CARPACE_NO_DAY before the first. */
CarpaceDay carpace_session_day (const CarpaceSession *session);

/** What is kept from day to day, as it is now. */
const CarpaceHistory *carpace_session_history (const CarpaceSession *session);

/** What is kept from day to day, as it was when the present day opened: with
 * it and the day's events since, the session can be had again. */
const CarpaceHistory *carpace_session_history_at_opening (const CarpaceSession *session);

/** Whether a step told of a day's opening (and so the history changed). */
bool carpace_entries_opened_day (const CarpaceEntries *entries);

/** Where a state can go, and by what: the state diagram as code. Empty rows
 * end it (from == CARPACE_N_STATES). */
typedef struct { CarpaceState from, to; } CarpaceTransition;
extern const CarpaceTransition carpace_session_transitions[];

#endif
