/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * ports.h: what the loop asks of the outside world.
 *
 * Each port is a struct of functions and the thing they work on; main.c hands
 * the real ones over, tests and rehearsals hand over others. No function here
 * may block for longer than a frame (the store for longer than one commit).
 *
 * Who had a port made lets go of it by its own `free`, and need not know what is
 * behind it; who was handed one never does. It is NULL where nothing is kept.
 */
#ifndef CARPACE_PORTS_H
#define CARPACE_PORTS_H

#include "carpace/ceiling.h"
#include "carpace/practice-window.h"
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

/** Lets go of @port (by name, not by address); nothing of it works afterwards. */
#define CARPACE_PORT_FREE(port) ((port).free != NULL ? (port).free ((port).self) : (void) 0)

/** Tells the time. */
typedef struct
{
  void *self;
  CarpaceInstant (*now) (void *self);
  /** How long the machine has been suspended so far, ms; grows only. NULL where nobody knows. */
  int64_t (*slept_ms) (void *self);
  void (*free) (void *self);
} CarpaceClock;

/** Offsets of named zones, for rehearsals. */
typedef struct
{
  void *self;
  /** Local time less UTC, s, in the zone @name at @wall_ms since
   * 1970-01-01T00:00:00Z. @return false, *ret_offset_s untouched, where the
   * machine knows no such zone */
  bool (*offset) (void *self, const char *name, int64_t wall_ms, int32_t *ret_offset_s);
  void (*free) (void *self);
} CarpaceZones;

/** Wakes the loop. One alarm: arming again replaces it. */
typedef struct
{
  void *self;
  /** At elapsed ms @deadline, or never. */
  void (*arm) (void *self, int64_t deadline);
  void (*free) (void *self);
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
  /** Where the session is after each step, for whoever cannot see what the hand
   * does: NULL elsewhere. */
  void (*state) (void *self, CarpaceState state);
  void (*free) (void *self);
  /** Has @tell told, now and whenever it changes, whether what the hand does now is
   * seen. NULL for whoever sees all of the desktop, if anything. */
  void (*sees) (void *self, void (*tell) (void *user, bool sees), void *user);
} CarpaceActivity;

/** Hears of buttons of the mouse: which one, and where the pointer was, is told to nobody. */
typedef struct
{
  void *user;
  void (*pressed) (void *user);
  /** From now on each press is told (@counts), or none is any more. */
  void (*counts) (void *user, bool counts);
} CarpaceClicksListener;

/** Counts presses while it is asked to; nothing is heard otherwise. */
typedef struct
{
  void *self;
  void (*follow) (void *self, bool on);
  void (*free) (void *self);
} CarpaceClicks;

/** Opens what hears presses, where this desktop tells of them: all of them, or it is not offered. What is told comes in
 * the default context, never from within a call of the port.
 * @return false, *ret_clicks untouched, where the desktop does not tell */
typedef bool (*CarpaceClicksOpen) (CarpaceClicksListener listener, CarpaceClicks *ret_clicks);

/** Opens what follows input where this desktop offers it. What is told comes in the
 * default context, never from within a call of the port.
 * @param clock gives elapsed time; @param tell hears CARPACE_EVENT_INPUT and _STILL
 * @return false, *ret_activity untouched, where the desktop does not offer it */
typedef bool (*CarpaceActivityOpen) (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);

/** Hears of windows. A window's texts hold for the call only. */
typedef struct
{
  void *user;
  /** @window is in front, NULL: none, or one that nothing is known of. Told at first, and at each change. */
  void (*front) (void *user, const CarpaceWindow *window);
  /** The player has chosen @window, NULL: none, by another button, by Escape, or by waiting too long. */
  void (*picked) (void *user, const CarpaceWindow *window);
} CarpaceWindowListener;

/** Follows which window is in front. */
typedef struct
{
  void *self;
  /** Lets the player choose a window by a click. NULL where no click on another program's window
   * can be had: then the next that comes to the front is as good. */
  void (*pick) (void *self);
  void (*free) (void *self);
} CarpaceFront;

/** Opens what tells of the window in front, where this desktop does: nothing wakes but its changes.
 * @return false, *ret_front untouched, where it does not */
typedef bool (*CarpaceFrontOpen) (CarpaceWindowListener listener, CarpaceFront *ret_front);

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
  void (*free) (void *self); /**< notes that the program ended well */
} CarpaceStore;

/** What was kept, for going on after a restart. */
typedef struct
{
  bool known;                /**< false: nothing is kept, a first start */
  bool ended_well;           /**< the program was quit, not killed */
  CarpaceHistory history;    /**< at the opening replay starts from */
  CarpaceInstant last;       /**< of the last event kept */
  int64_t kept_ms;           /**< elapsed time of the last step kept, a deadline's too; 0 where not known */
  CarpaceInstant alive;      /**< last moment the program is known to have lived */
  bool stream_known;         /**< it was on air at that opening, since ... */
  CarpaceInstant stream;     /**< ... then */
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
  CarpaceFilePlace blocks, split;
} CarpacePlanPlaces;

/** Bytes a plan's file can have at most. */
#define CARPACE_PLAN_FILE_BYTES 262144

/** Reads a plan from the bytes of its file. */
typedef struct
{
  void *self;
  /** Every fault is told, in the order of the file.
   * @param known the same bytes' plan with the blocks it was split into, or NULL: a split is worked out
   * @param ret_places NULL where nobody asks
   * @return true where there is a plan (warnings may have been told) */
  bool (*read) (void *self, const char *bytes, size_t n_bytes, const CarpacePlan *known, CarpacePlan *ret_plan,
                CarpacePlanPlaces *ret_places, CarpaceFileFaultVisitor visit, void *user);
  void (*free) (void *self);
  /** The same, but for a split: it is not worked out, and the plan has no blocks. For
   * whoever asks for its name only. */
  bool (*look) (void *self, const char *bytes, size_t n_bytes, CarpacePlan *ret_plan);
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

/** A plan that was given: taken by `plan use`. */
typedef struct
{
  const char *name;
  int32_t version; /**< the highest that was taken of it */
  const char *text; /**< the bytes of its file then */
  CarpaceCeiling fixes; /**< what is held of it: of a version, until a higher one or a release */
  CarpaceDay since; /**< since when it fixes just that */
} CarpaceGivenPlan;

/** What every plan in use is held to. */
typedef struct
{
  CarpaceCeiling ceiling; /**< all that the given plans fix, the tightest of it */
  size_t n_given;
  const CarpaceGivenPlan *given; /**< each name once */
} CarpaceHeld;

/** Who is asked before a plan is taken. */
typedef struct
{
  void *user;
  /** Whether a higher version of a plan that was given is to be taken, in place of
   * what that plan fixed before. NULL: not here. @param before as it was given, NULL where that
   * cannot be read any more */
  bool (*consent) (void *user, const CarpacePlan *before, const CarpacePlan *plan);
  /** Keeps that @plan is given, with what is @held from then on, before it is the one
   * in use. @return false, told, where it cannot be kept: it is not taken then */
  bool (*keep) (void *user, const CarpacePlan *plan, const CarpaceCeiling *held, const char *text);
} CarpaceTaking;

/** Plan files: the player's own, the bundled ones, and the one in use. */
typedef struct
{
  void *self;
  /** Reads a plan from a path, or by its word. Every fault is told.
   * @return true where there is a plan (warnings may have been told) */
  bool (*load) (void *self, const char *path_or_word, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit,
                void *user);
  /** The plan in use. @return false where none is, or where it cannot be read, is
   * looser than what is held, or newer than what was given (then faults are told) */
  bool (*load_in_use) (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user);
  void (*list) (void *self, CarpacePlanItemVisitor visit, void *user);
  /** Makes a plan the one in use: compared with what is held, copied to the player's
   * own. @param taking NULL: nobody is asked, and nobody keeps it */
  bool (*use) (void *self, const char *path_or_word, const CarpaceTaking *taking, CarpaceFileFaultVisitor visit,
               void *user);
  /** The same of a plan as text: the player's own copy of @word, in the form of a file. */
  bool (*use_text) (void *self, const char *word, const char *text, const CarpaceTaking *taking,
                    CarpaceFileFaultVisitor visit, void *user);
  /** Writes a new plan file to @path, a copy of @template_word, to be edited.
   * Never over a file that is there. */
  bool (*create) (void *self, const char *path, const char *template_word, CarpaceFileFaultVisitor visit,
                  void *user);
  /** What load_in_use() and use() compare with from now on. @held is copied, but for
   * texts and names, which outlive the port or the next hold() */
  void (*hold) (void *self, const CarpaceHeld *held);
  /** Works out the split of a plan, where it has one that is not known yet, and keeps it with the plan: what
   * takes long, for a thread of its own. Whoever reads the plan afterwards finds it. Nobody is told of faults.
   * @param path_or_word NULL: of the plan in use */
  void (*prepare) (void *self, const char *path_or_word);
  /** Whether prepare() would take long. */
  bool (*unprepared) (void *self, const char *path_or_word);
  /** Reads a plan from bytes that were kept. @return whether they are one */
  bool (*load_text) (void *self, const char *text, CarpacePlan *ret_plan);
  void (*free) (void *self);
} CarpacePlanFiles;

/** No answer came in time: what was asked may still be done. */
#define CARPACE_REMOTE_LATE 4

/** The program that is running in this login session, for commands. */
typedef struct
{
  void *self;
  /** Hands it the words of a live command.
   * @return the exit status: 0 done, 1 refused, 2 not understood, 3 not
   * running; or CARPACE_REMOTE_LATE. *ret_message (free() it) is one translated
   * line or NULL. */
  int (*command) (void *self, int n_words, const char *const *words, char **ret_message);
  /** Calls @line with each status object (JSON, one line) until it returns
   * false or the program ends. @return as command() */
  int (*follow) (void *self, bool (*line) (void *user, const char *json), void *user);
  void (*free) (void *self);
} CarpaceRemote;

#endif
