/* SPDX-License-Identifier: GPL-3.0-or-later */
/* main.c: the tray program or a command, and which adapter stands behind each
 * port of the commands. */
#include <glib/gi18n.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

#include "adapters/bus-gdbus.h"
#include "adapters/calendar-ical.h"
#include "adapters/format-csv.h"
#include "adapters/format-fhir.h"
#include "adapters/format-json.h"
#include "adapters/plan-files.h"
#include "adapters/plan-yaml.h"
#include "adapters/store-sqlite.h"
#include "adapters/zones-glib.h"
#include "carpace-config.h"
#include "cli/cli.h"
#include "program.h"

static CarpaceDiaryStore *read_store, *kept_store;
static const CarpaceDiaryFormat *const formats[] = { &carpace_format_csv, &carpace_format_json, &carpace_format_fhir, NULL };

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
open_keeper (CarpaceCli *cli, bool writing, CarpaceDiaryKeeper *ret_keeper)
{
  char *path = carpace_store_path ();

  kept_store = carpace_store_open (path, writing ? CARPACE_STORE_WRITING : CARPACE_STORE_READING, store_told, cli);
  g_free (path);
  if (kept_store == NULL)
    return false;
  *ret_keeper = carpace_store_keeper (kept_store);
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
    .in = stdin,
    .out = stdout,
    .err = stderr,
    .plans = *plans,
    .remote = carpace_bus_remote (),
    .zones = { NULL, zone_offset },
    .open_diary = open_diary,
    .open_keeper = open_keeper,
    .formats = formats,
    .calendar = carpace_calendar_ical (),
  };
  int status = carpace_cli_run (&cli, argc, argv);

  carpace_store_close (read_store, true);
  carpace_store_close (kept_store, true);
  return status;
}

/* A folder of the source, where the program runs from its build folder. */
static const char *
uninstalled (const char *folder)
{
  char *program = g_file_read_link ("/proc/self/exe", NULL);
  bool built = program != NULL && g_str_has_prefix (program, CARPACE_BUILD_FOLDER G_DIR_SEPARATOR_S);

  g_free (program);
  return built && g_getenv ("CARPACE_PLANS") == NULL ? folder : NULL;
}

int
main (int argc, char **argv)
{
  CarpacePlanFolders *folders;
  CarpacePlanFiles plans;
  int status;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, CARPACE_LOCALE);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  folders = carpace_plan_folders_new (carpace_plan_yaml (), uninstalled (CARPACE_SOURCE_PLANS), NULL);
  plans = carpace_plan_folders_port (folders);
  status = argc <= 1 ? carpace_program_run (argc, argv, &plans, uninstalled (CARPACE_SOURCE_ICONS)) : run_command (&plans, argc, argv);
  carpace_plan_folders_free (folders);
  return status;
}
