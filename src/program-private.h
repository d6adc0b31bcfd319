/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-private.h: what the files of the tray program share.
 *
 *   program-team.c     what is left for a team, once a day, and the notes that come back
 *   program.c          start, readiness, end: each port gets its adapter
 *   program-activity.c every source of input, and the one this desktop offers
 *   program-clicks.c   clicks, where the player has them counted
 *   program-faces.c    what happens when something changed, and what faces ask
 *   program-answers.c  answers and commands, troubles told
 *   program-plans.c    the plan in use, the day's own, going on with what was kept
 *   program-first.c    the first window, and an evening that is only shown
 *   program-keys.c     keys of the desktop's own
 *   program-overlay.c  what a broadcast shows
 *   program-settings.c the settings at work, and their window
 *   program-window.c   the practice window
 */
#ifndef CARPACE_PROGRAM_PRIVATE_H
#define CARPACE_PROGRAM_PRIVATE_H

#include <gtk/gtk.h>

#include "adapters/bus-gdbus.h"
#include "adapters/clock-linux.h"
#include "adapters/cue-libnotify.h"
#include "adapters/keys-x11.h"
#include "adapters/settings-keyfile.h"
#include "adapters/sound.h"
#include "adapters/store-sqlite.h"
#include "adapters/suspend-logind.h"
#include "adapters/tray-gdbus.h"
#include "app/held.h"
#include "app/loop.h"
#include "program-clicks.h"
#include "program-overlay.h"
#include "program-window.h"
#include "ui/diary-window.h"
#include "ui/faces.h"

enum
{
  CARPACE_PROGRAM_DONE = 0,
  CARPACE_PROGRAM_REFUSED = 1,
  CARPACE_PROGRAM_WORDS = 2
};

typedef struct CarpaceProgram
{
  GMainLoop *main;
  CarpaceDay shared_day;          /* when it was looked after last what others may read */
  int64_t share_again_ms;         /* not before that, where it could not be left */
  bool sharing;                   /* a thread leaves it */
  struct CarpaceProgramNote *note; /* what the window of today shows; NULL: none */
  CarpacePlanFiles plans;
  CarpacePlan *plan;              /* in use, as last read; one of `plans_read` */
  const CarpacePlan *giver_of;    /* the plan whose giver is known */
  char *giver;                    /* in words; NULL: it is not signed */
  GPtrArray *plans_read;          /* a day keeps the plan it was built on: all until the end */
  bool ready;                     /* the session runs */
  guint retry;                    /* a source, while the diary cannot be written */
  int32_t retries;
  guint looking;                  /* a source: the faces look again */
  CarpaceResume resume;           /* what to go on from, until it is gone on from */
  bool opening;                   /* what was kept, or its plan, is still being read */
  bool waiting;                   /* there is no plan to go on with yet */
  guint soon;                     /* a source, until it does */
  int status;                     /* to exit with */
  int limit_fd;                   /* tells of a file that may not grow any more; -1: nothing does */
  bool bus_back;                  /* the session bus went and came back: a new process is to go on */
  guint anew;                     /* a source, until it does */
  bool cautions_asked;            /* by a start: the next one begins */
  bool first_run;                 /* nothing has been said yet: the cautions come first */
  CarpaceClockLinux clock;
  CarpaceLoopPorts ports;         /* as they were opened; the loop's are the same */
  CarpaceCueLibnotify *notices;
  CarpaceKeysX11 *keys;
  struct CarpaceProgramKeys *desktop_keys; /* NULL: none by a portal */
  bool keys_wanted;               /* something can be answered by them */
  CarpaceSuspendLogind *suspend;
  CarpaceTrayGdbus *tray_hosts;   /* NULL: no bus */
  CarpaceDiaryStore *store;
  CarpaceBus *bus;
  CarpaceGtkFaces *faces;
  CarpaceDiaryWindow *diary;      /* NULL until it is asked for */
  CarpaceSettings settings;
  struct CarpaceProgramSettings *followed; /* NULL until they are at work */
  CarpaceSound sound;             /* cannot play where none is asked for */
  CarpaceOverlay *overlay;        /* NULL: none is asked for */
  CarpaceProgramWindow *window;   /* the practice window; NULL until the session runs */
  struct CarpaceProgramFirst *first; /* NULL until it is wanted */
  CarpaceLoop loop;
  CarpacePlansKept kept;          /* the diary's records of plans */
  CarpaceDay other_day;           /* the day that other_kept_ms is of */
  int64_t other_kept_ms;          /* mouse input outside practice that the diary has */
  int64_t alive_ms;               /* when the diary was last told that the program lives */
  bool witnessed;
  char *witness_path;
} CarpaceProgram;

/* program-team.c */
/** Leaves what others may read, where it is due and nothing else is going on. */
void carpace_program_share (CarpaceProgram *p, const CarpaceView *view);

/** The note that is shown was read: the next one comes, if there is one. */
void carpace_program_note_away (void *program);
void carpace_program_note_free (CarpaceProgram *p);

/** Who signed the plan in use, a sentence: NULL where nobody did, or it cannot be known. g_free() it */
char *carpace_program_giver (CarpaceProgram *p);

/* program.c */
CarpaceInstant carpace_program_now (CarpaceProgram *p);
void carpace_program_be_ready (CarpaceProgram *p);
void carpace_program_quit (void *program);

/* program-faces.c */
CarpaceFaces carpace_program_faces_port (CarpaceProgram *p);
CarpaceFacesGiven carpace_program_faces_given (CarpaceProgram *p, const char *icon_folder);

/* program-answers.c */
/** What players say to the session; a start over unanswered cautions asks them first, once. */
CarpaceTell carpace_program_as_tell (CarpaceProgram *p);
void carpace_program_say (const char *message);
void carpace_program_store_told (void *program, CarpaceStoreTrouble trouble, const char *message);
CarpaceCueListener carpace_program_notices (CarpaceProgram *p);
CarpaceKeysListener carpace_program_keys (CarpaceProgram *p);
CarpaceBusServed carpace_program_bus (CarpaceProgram *p);
/** Where the bus is back: makes room for a new process, once that takes nothing away. */
void carpace_program_go_on_anew (CarpaceProgram *p);
void carpace_program_refused (void *program, const CarpaceEvent *event, CarpaceRefusal refusal);

/** Words of a command, as if they had been called. */
void carpace_program_shortcut (CarpaceProgram *p, const char *words);

/* program-keys.c */
/** What the setting asks for. @param changed by the player, just now */
void carpace_program_keys_follow (CarpaceProgram *p, bool changed);
void carpace_program_keys_end (CarpaceProgram *p);

/* program-settings.c */
/** A flag is off again: what it asks for was refused. */
void carpace_program_settings_unset (CarpaceProgram *p, CarpaceSettingId id);
void carpace_program_follow_settings (CarpaceProgram *p);
/** @return false on air: nothing comes onto a screen that is broadcast */
bool carpace_program_show_settings (CarpaceProgram *p);
void carpace_program_settings_on_air (CarpaceProgram *p);
/** They were written: what is others holds now. */
void carpace_program_settings_changed (CarpaceProgram *p);
void carpace_program_settings_free (CarpaceProgram *p);

/* program-plans.c */
/** Reads the plan in use for the session. @return NULL, or what is wrong; g_free() it */
char *carpace_program_open_plan_in_use (CarpaceProgram *p);
void carpace_program_use_plan (void *program, const char *word);
/** Puts a plan in use that was made: the player's own copy of @word, its cautions answered by whoever
 * made it. @return whether it is; where not, that was shown */
bool carpace_program_take_text (CarpaceProgram *p, const char *word, const char *text);
void carpace_program_ask_cautions_first (CarpaceProgram *p);
void carpace_program_go_on (CarpaceProgram *p);
/** @return whether it was kept; where the words are others, *ret_message is untouched */
bool carpace_program_plan_kept (CarpaceProgram *p, int n_words, const char *const *words, char **ret_message);

/* program-first.c */
/** Shows the first window. @return false where a plan is in use: it has nothing to ask then */
bool carpace_program_first (void *program);
/** A plan is in use now, however it came to be. */
void carpace_program_first_done (CarpaceProgram *p);
void carpace_program_first_free (CarpaceProgram *p);

#endif
