/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * ports.h: what the loop asks of the outside world.
 *
 * Each port is a struct of functions and the thing they work on; main.c hands
 * the real ones over, tests and rehearsals hand over others. No function here
 * may block for longer than a frame (the store for longer than one commit).
 */
#ifndef CARPACE_PORTS_H
#define CARPACE_PORTS_H

#include "carpace/session.h"
#include "carpace/view.h"

/** Where adapters and faces bring facts, answers and commands: the loop. It
 * stamps them with the time it has then. */
typedef struct
{
  void *self;
  /** @return true where the session took the event; else *ret_refusal (may be
   * NULL) says why not */
  bool (*tell) (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal);
} CarpaceTell;

/** Tells the time. */
typedef struct
{
  void *self;
  CarpaceInstant (*now) (void *self);
} CarpaceClock;

/** Offsets of named zones, for rehearsals. */
typedef struct
{
  void *self;
  /** Local time less UTC, s, in the zone @name at @wall_ms since
   * 1970-01-01T00:00:00Z. @return false, *ret_offset_s untouched, where the
   * machine knows no such zone */
  bool (*offset) (void *self, const char *name, int64_t wall_ms, int32_t *ret_offset_s);
} CarpaceZones;

/** Wakes the loop. One alarm: arming again replaces it. */
typedef struct
{
  void *self;
  /** At elapsed ms @deadline, or never. */
  void (*arm) (void *self, int64_t deadline);
} CarpaceAlarm;

/** Follows input. Tells CARPACE_EVENT_INPUT and CARPACE_EVENT_STILL through
 * a CarpaceTell. */
typedef struct
{
  void *self;
  /** Begins to tell gaps of @gap_after_ms, or (0) stops telling. */
  void (*follow) (void *self, int64_t gap_after_ms);
  /** The session now takes input as on (@moving) or as still since @from_ms,
   * because of what the player said: if in a moment that proves wrong, tell
   * the fact that holds. */
  void (*recheck) (void *self, bool moving, int64_t from_ms);
} CarpaceActivity;

/** Shows what the program says. */
typedef struct
{
  void *self;
  /** An entry of kind CARPACE_ENTRY_CUE, with the view as it is after the step. */
  void (*cue) (void *self, const CarpaceEntry *entry, const CarpaceView *view);
  /** Something a face draws may have changed: ask for a redraw. */
  void (*changed) (void *self, const CarpaceView *view);
} CarpaceFaces;

/** Keeps the diary. */
typedef struct
{
  void *self;
  /** Everything told between begin and commit is kept as one, or not at all. */
  void (*begin) (void *self);
  void (*event) (void *self, const CarpaceEvent *event, CarpaceInstant at);
  void (*entry) (void *self, const CarpaceEntry *entry);
  /** A day has opened; @history is what replay starts from. */
  void (*opening) (void *self, CarpaceDay day, CarpaceInstant at, const CarpaceHistory *history);
  /** @return false where it could not be kept; the session goes on, the store
   * has told the player once. */
  bool (*commit) (void *self);
} CarpaceStore;

/** What was kept, for going on after a restart. */
typedef struct
{
  bool known;                /**< false: nothing is kept, a first start */
  bool ended_well;           /**< the program was quit, not killed */
  CarpaceHistory history;    /**< at the opening replay starts from */
  CarpaceInstant last;       /**< of the last event kept */
  CarpaceInstant alive;      /**< last moment the program is known to have lived */
  size_t n_events;           /**< events since that opening, oldest first */
  const CarpaceEvent *event; /**< plan is NULL in them */
  const CarpaceInstant *at;
} CarpaceResume;

/** A fault or warning of a file, told in words. */
typedef struct
{
  int32_t line, column; /**< from 1, in characters; 0 where it is of the whole file */
  bool warning;
  const char *message;  /**< translated: what is wrong; what would be right */
} CarpaceFileFault;

typedef void (*CarpaceFileFaultVisitor) (void *user, const CarpaceFileFault *fault);

/** Where things stand in a plan's file. */
typedef struct
{
  int32_t line, column; /**< as above; 0 where it does not stand there */
} CarpaceFilePlace;

typedef struct
{
  CarpaceFilePlace key[CARPACE_N_KEYS];
  CarpaceFilePlace block[CARPACE_PLAN_BLOCKS]; /**< its limit */
} CarpacePlanPlaces;

/** Bytes a plan's file can have at most. */
#define CARPACE_PLAN_FILE_BYTES 262144

/** Reads a plan from the bytes of its file. */
typedef struct
{
  void *self;
  /** Every fault is told, in the order of the file.
   * @param ret_places NULL where nobody asks
   * @return true where there is a plan (warnings may have been told) */
  bool (*read) (void *self, const char *bytes, size_t n_bytes, CarpacePlan *ret_plan, CarpacePlanPlaces *ret_places,
                CarpaceFileFaultVisitor visit, void *user);
} CarpacePlanReader;

/** One plan that there is. */
typedef struct
{
  const char *word; /**< what `plan use` takes: a file's name without its ending */
  const char *path;
  const char *name; /**< the plan's own */
  const char *note;
  bool bundled;
  bool in_use;
} CarpacePlanItem;

typedef void (*CarpacePlanItemVisitor) (void *user, const CarpacePlanItem *item);

/** Plan files: the player's own, the bundled ones, and the one in use. */
typedef struct
{
  void *self;
  /** Reads a plan from a path, or by its word. Every fault is told.
   * @return true where there is a plan (warnings may have been told) */
  bool (*load) (void *self, const char *path_or_word, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit,
                void *user);
  /** The plan in use. @return false where none is, or where it cannot be read
   * (then faults are told) */
  bool (*load_in_use) (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user);
  void (*list) (void *self, CarpacePlanItemVisitor visit, void *user);
  /** Makes a plan the one in use: copied to the player's own, compared with
   * what a plan of the same name fixes. */
  bool (*use) (void *self, const char *path_or_word, CarpaceFileFaultVisitor visit, void *user);
  /** Writes a new plan file to @path, a copy of @template_word, to be edited.
   * Never over a file that is there. */
  bool (*create) (void *self, const char *path, const char *template_word, CarpaceFileFaultVisitor visit,
                  void *user);
} CarpacePlanFiles;

/** The program that is running in this login session, for commands. */
typedef struct
{
  void *self;
  /** Hands it the words of a live command.
   * @return the exit status: 0 done, 1 refused, 2 not understood, 3 not
   * running. *ret_message (free() it) is one translated line or NULL. */
  int (*command) (void *self, int n_words, const char *const *words, char **ret_message);
  /** Calls @line with each status object (JSON, one line) until it returns
   * false or the program ends. @return as command() */
  int (*follow) (void *self, bool (*line) (void *user, const char *json), void *user);
} CarpaceRemote;

#endif
