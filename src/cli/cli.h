/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * cli.h: the command table's seam. program-commands.c fills a CarpaceCli; each group of
 * commands is a file with one `carpace_cli_...` function.
 */
#ifndef CARPACE_CLI_H
#define CARPACE_CLI_H

#include <stdio.h>

#include "carpace/calendar.h"
#include "carpace/clicks.h"
#include "carpace/club.h"
#include "carpace/desktop.h"
#include "carpace/diary.h"
#include "carpace/folder.h"
#include "carpace/keyring.h"
#include "carpace/ports.h"
#include "carpace/roster.h"
#include "carpace/sharing.h"

/** Exit statuses. */
enum
{
  CARPACE_EXIT_DONE = 0,
  CARPACE_EXIT_REFUSED = 1,
  CARPACE_EXIT_WORDS = 2,
  CARPACE_EXIT_NOT_RUNNING = 3
};

/** The bundled plan that a new one is a copy of. */
#define CARPACE_PLAN_TEMPLATE "first-week"

/** How a planner's window came to its end. */
typedef enum
{
  CARPACE_PLANNER_CLOSED,
  CARPACE_PLANNER_NOT_READ,  /**< the file, or the planner itself; why is told */
  CARPACE_PLANNER_NO_DISPLAY
} CarpacePlannerEnd;

/** What this computer's diary has measured of @plan. @return false where there is none, or it cannot be read: nothing is said of that */
typedef bool (*CarpaceMeasure) (const CarpacePlan *plan, CarpaceClicksMeasured *ret_measured);

/** Shows the planner until it is closed. @param file a path or a plan's word; NULL: a new plan
 * @param ret_why NULL, or why the file was not read; g_free() it */
typedef CarpacePlannerEnd (*CarpaceShowPlanner) (const CarpacePlanFiles *plans, CarpaceMeasure measure, const char *file, char **ret_why);

/** Shows a roster until its window is closed. @return false where there is no display */
typedef bool (*CarpaceShowRoster) (const CarpaceRosterShown *shown);

/** Shows the window for sharing until it is closed. @return false where there is no display */
typedef bool (*CarpaceShowSharing) (const CarpaceSharingShown *shown);

/** A plan that is asked about, or what came of it. All of it is words. */
typedef struct
{
  const char *heading;
  const char *words;
  const char *use; /**< what the button says that takes it, with its mnemonic; NULL: there is only something to be read */
} CarpacePlanOffer;

/** What commands work on. */
typedef struct CarpaceCli
{
  FILE *in, *out, *err;
  bool out_failed; /**< it was told that out cannot be written */
  CarpacePlanFiles plans;
  /** Shows @offer on the desktop until it is answered. @return false where there is no display; NULL: nobody can */
  bool (*offer_plan) (const CarpacePlanOffer *offer, bool *ret_yes);
  CarpaceRemote remote;
  enum { CARPACE_AIR_NOT_ASKED, CARPACE_AIR_OFF, CARPACE_AIR_ON } air; /**< whether a stream may read this */
  CarpaceZones zones; /**< for rehearsals */
  /** Opens the diary for reading. @return false (and one line on err) where it cannot */
  bool (*open_diary) (struct CarpaceCli *cli, CarpaceDiary *ret_diary);
  CarpaceDesktopProbe desktop; /**< for `carpace desktop` */
  char *(*set_desktop_keys) (void); /**< has the program set them up. @return NULL, or what is wrong; g_free() it */
  CarpaceClock clock;       /**< wall clock and offset; the machine's own where not given */
  CarpaceCalendar calendar; /**< for `calendar` */
  /** Opens the diary for keeping it by hand; with @writing false only a backup can
   * be made. @return false (and one line on err) where it cannot, or where the
   * running program keeps it */
  bool (*open_keeper) (struct CarpaceCli *cli, bool writing, CarpaceDiaryKeeper *ret_keeper);
  /** Whether these are the bytes of a backup, and such opened for reading; @path is where they were read. */
  bool (*is_backup) (const char *bytes, size_t n);
  bool (*open_backup) (struct CarpaceCli *cli, const char *path, const char *bytes, size_t n, CarpaceDiary *ret_diary);
  /** A diary in memory, for what is not to be kept; each of what is returned may be NULL. */
  bool (*open_scratch) (struct CarpaceCli *cli, CarpaceDiary *ret_diary, CarpaceDiaryKeeper *ret_keeper,
                        CarpaceStore *ret_store);
  const CarpaceDiaryFormat *const *formats; /**< in which a diary goes out and in, ended by NULL */
  /** Shows an evening of @plan on the desktop. @return false where there is no display; NULL: nobody can */
  bool (*show_evening) (const CarpacePlan *plan);
  CarpaceShowPlanner show_planner; /**< NULL: nobody can */
  CarpaceMeasure measure;          /**< for the planner; NULL: nobody can */
  CarpaceShowRoster show_roster;   /**< NULL: nobody can */
  CarpaceShowSharing show_sharing; /**< NULL: nobody can */
  CarpaceFolder shelf; /**< what is kept of a team */
  /** A folder that is shared; it is looked at when it is read. free() it. */
  CarpaceFolder (*open_shared) (struct CarpaceCli *cli, const char *path);
  /** Opens what was gathered. @return false (and one line on err) where it cannot */
  bool (*open_roster) (struct CarpaceCli *cli, CarpaceRosterStore *ret_store);
  /** A club's databases. @return false where this installation has none of it */
  bool (*find_club) (CarpaceClub *ret_club);
  /** The desktop's keyring. @return false where this installation has no part for it; NULL: so it is */
  bool (*find_keyring) (CarpaceKeyring *ret_keyring);
  bool phrase_asked; /**< the pass phrase was asked for: no file and no keyring gave it */
  void *main; /**< whose adapters they are: its own */
} CarpaceCli;

/** One command: @argv[0] is its own word. @return an exit status */
typedef int (*CarpaceCliCommand) (CarpaceCli *cli, int argc, char **argv);

int carpace_cli_plan (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_calc (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_rehearse (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_diary (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_why (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_export (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_import (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_restore (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_erase (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_backup (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_status (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_live (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_report (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_calendar (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_desktop (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_key (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_share (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_roster (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_club (CarpaceCli *cli, int argc, char **argv);

int carpace_cli_planner (CarpaceCli *cli, int argc, char **argv);

/** Looks @argv[1] up in the table and runs it. Refused, too, where not all that it
 * printed could be written. */
int carpace_cli_run (CarpaceCli *cli, int argc, char **argv);

#endif
