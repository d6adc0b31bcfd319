/* SPDX-License-Identifier: GPL-3.0-or-later */
/* main.c: the tray program or a command, and which adapter stands behind each
 * port of the commands. */
#include <glib/gi18n.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

#include "adapters/bus-gdbus.h"
#include "adapters/plan-files.h"
#include "adapters/store-sqlite.h"
#include "adapters/zones-glib.h"
#include "carpace-config.h"
#include "cli/cli.h"
#include "program.h"

static CarpaceDiaryStore *read_store;

static void
store_told (void *user, CarpaceStoreTrouble trouble, const char *message)
{
  fprintf (((CarpaceCli *) user)->err, "%s\n", message);
}

static bool
open_diary (CarpaceCli *cli, CarpaceDiary *ret_diary)
{
  char *path = carpace_store_path ();

  read_store = carpace_store_open (path, CARPACE_STORE_READING, store_told, cli);
  g_free (path);
  if (read_store == NULL)
    return false;
  *ret_diary = carpace_store_diary (read_store);
  return true;
}

static bool
zone_offset (void *self, const char *name, int64_t wall_ms, int32_t *ret_offset_s)
{
  return carpace_zone_offset (name, wall_ms, ret_offset_s);
}

static int
run_command (const CarpacePlanFiles *plans, int argc, char **argv)
{
  CarpaceCli cli = {
    .out = stdout,
    .err = stderr,
    .plans = *plans,
    .remote = carpace_bus_remote (),
    .zones = { NULL, zone_offset },
    .open_diary = open_diary,
  };
  int status = carpace_cli_run (&cli, argc, argv);

  carpace_store_close (read_store, true);
  return status;
}

/* The icons beside the program where it runs from its build folder. */
static const char *
icon_folder (void)
{
  const char *given = g_getenv ("CARPACE_ICONS");

  return given != NULL ? given : g_file_test (CARPACE_ICONS, G_FILE_TEST_IS_DIR) ? CARPACE_ICONS : NULL;
}

int
main (int argc, char **argv)
{
  CarpacePlanFilesOwner *owner;
  CarpacePlanFiles plans;
  int status;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, CARPACE_LOCALE);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  owner = carpace_plan_files_new ();
  plans = carpace_plan_files_port (owner);
  status = argc <= 1 ? carpace_program_run (argc, argv, &plans, icon_folder ()) : run_command (&plans, argc, argv);
  carpace_plan_files_free (owner);
  return status;
}
