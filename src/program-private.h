/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-private.h: what the files of the tray program share.
 *
 *   program.c          start, readiness, end: each port gets its adapter
 *   program-faces.c    what happens when something changed, and what faces ask
 *   program-answers.c  answers and commands, plans in use, troubles told
 *   program-overlay.c  what a broadcast shows
 */
#ifndef CARPACE_PROGRAM_PRIVATE_H
#define CARPACE_PROGRAM_PRIVATE_H

#include <gtk/gtk.h>

#include "adapters/activity-manual.h"
#include "adapters/activity-mutter.h"
#include "adapters/activity-x11.h"
#include "adapters/bus-gdbus.h"
#include "adapters/clock-linux.h"
#include "adapters/cue-libnotify.h"
#include "adapters/keys-x11.h"
#include "adapters/settings-keyfile.h"
#include "adapters/sound.h"
#include "adapters/store-sqlite.h"
#include "adapters/suspend-logind.h"
#include "app/loop.h"
#include "program-overlay.h"
#include "ui/diary-window.h"
#include "ui/faces.h"

enum
{
  CARPACE_PROGRAM_DONE = 0,
  CARPACE_PROGRAM_REFUSED = 1,
  CARPACE_PROGRAM_WORDS = 2
};

typedef struct
{
  GMainLoop *main;
  CarpacePlanFiles plans;
  CarpacePlan *plan;              /* in use, as last read */
  bool ready;                     /* the session runs */
  guint soon;                     /* a source, until it does */
  int status;                     /* to exit with */
  bool first_run;                 /* nothing has been kept yet: the cautions come first */
  CarpaceClockLinux clock;
  CarpaceAlarmLinux *alarm;
  CarpaceActivityX11 *x11;
  CarpaceActivityMutter *mutter;
  CarpaceActivityManual *manual;
  CarpaceCueLibnotify *notices;
  CarpaceKeysX11 *keys;
  CarpaceSuspendLogind *suspend;
  CarpaceDiaryStore *store;
  CarpaceBus *bus;
  CarpaceGtkFaces *faces;
  CarpaceDiaryWindow *diary;      /* NULL until it is asked for */
  CarpaceSettings settings;
  CarpaceSound *sound;            /* NULL: none is asked for */
  CarpaceOverlay *overlay;        /* NULL: none is asked for */
  CarpaceLoop loop;
  CarpaceDay plan_kept_for;       /* the day whose plan is kept beside the diary */
  CarpaceDay other_day;           /* the day that other_kept_ms is of */
  int64_t other_kept_ms;          /* mouse input outside practice that the diary has */
  int64_t alive_ms;               /* when the diary was last told that the program lives */
  bool witnessed;
  char *witness_path;
} CarpaceProgram;

/* program.c */
CarpaceInstant carpace_program_now (CarpaceProgram *p);
void carpace_program_be_ready (CarpaceProgram *p);
void carpace_program_quit (void *program);

/* program-faces.c */
CarpaceFaces carpace_program_faces_port (CarpaceProgram *p);
CarpaceFacesGiven carpace_program_faces_given (CarpaceProgram *p, const char *icon_folder);

/* program-answers.c */
void carpace_program_say (const char *message);
void carpace_program_store_told (void *program, CarpaceStoreTrouble trouble, const char *message);
CarpaceCueListener carpace_program_notices (CarpaceProgram *p);
CarpaceKeysListener carpace_program_keys (CarpaceProgram *p);
CarpaceBusServed carpace_program_bus (CarpaceProgram *p);
void carpace_program_refused (void *program, const CarpaceEvent *event, CarpaceRefusal refusal);
void carpace_program_use_plan (void *program, const char *word);
void carpace_program_ask_cautions_first (CarpaceProgram *p);
void carpace_program_go_on (CarpaceProgram *p, const CarpaceResume *resume);
void carpace_program_keep_day_plan (CarpaceProgram *p, const CarpaceView *view);

#endif
