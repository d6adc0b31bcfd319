/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * cli.h: the command table's seam. main.c fills a CarpaceCli; each group of
 * commands is a file with one `carpace_cli_...` function.
 */
#ifndef CARPACE_CLI_H
#define CARPACE_CLI_H

#include <stdio.h>

#include "carpace/calendar.h"
#include "carpace/desktop.h"
#include "carpace/diary.h"
#include "carpace/ports.h"

/** Exit statuses. */
enum
{
  CARPACE_EXIT_DONE = 0,
  CARPACE_EXIT_REFUSED = 1,
  CARPACE_EXIT_WORDS = 2,
  CARPACE_EXIT_NOT_RUNNING = 3
};

/** What commands work on. */
typedef struct CarpaceCli
{
  FILE *in, *out, *err;
  CarpacePlanFiles plans;
  CarpaceRemote remote;
  CarpaceZones zones; /**< for rehearsals */
  /** Opens the diary for reading. @return false (and one line on err) where it cannot */
  bool (*open_diary) (struct CarpaceCli *cli, CarpaceDiary *ret_diary);
  CarpaceDesktopProbe desktop; /**< for `carpace desktop` */
  CarpaceClock clock;       /**< wall clock and offset; the machine's own where not given */
  CarpaceCalendar calendar; /**< for `calendar` */
  /** Opens the diary for keeping it by hand; with @writing false only a backup can
   * be made. @return false (and one line on err) where it cannot, or where the
   * running program keeps it */
  bool (*open_keeper) (struct CarpaceCli *cli, bool writing, CarpaceDiaryKeeper *ret_keeper);
  const CarpaceDiaryFormat *const *formats; /**< in which a diary goes out and in, ended by NULL */
  void *main; /**< main.c's own */
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
int carpace_cli_erase (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_backup (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_status (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_live (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_report (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_calendar (CarpaceCli *cli, int argc, char **argv);
int carpace_cli_desktop (CarpaceCli *cli, int argc, char **argv);

/** Looks @argv[1] up in the table and runs it. */
int carpace_cli_run (CarpaceCli *cli, int argc, char **argv);

#endif
