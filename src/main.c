/* SPDX-License-Identifier: GPL-3.0-or-later */
/* main.c: the tray program or a command, and which adapter stands behind each
 * port of the commands. */
#include <glib/gi18n.h>
#include <gmodule.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "adapters/activity-mutter.h"
#include "adapters/activity-x11.h"
#include "adapters/bus-gdbus.h"
#include "adapters/calendar-ical.h"
#include "adapters/clock-linux.h"
#include "adapters/desktop-probe.h"
#include "adapters/format-csv.h"
#include "adapters/format-fhir.h"
#include "adapters/format-json.h"
#include "adapters/keys-x11.h"
#include "adapters/plan-files.h"
#include "adapters/plan-yaml.h"
#include "adapters/settings-keyfile.h"
#include "adapters/sound.h"
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

/* ---- what adapters know of the desktop ---- */

static bool
tell_nobody (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  return true;
}

static CarpaceInputOffer
input_offer (void *self)
{
  CarpaceClockLinux clock = { .base = { 0 } };
  CarpaceTell nobody = { NULL, tell_nobody };
  CarpaceActivityMutter *mutter = carpace_activity_mutter_new (carpace_clock_linux_port (&clock), nobody, NULL);
  CarpaceActivityX11 *x11 = NULL;
  CarpaceInputOffer offer;

  if (g_getenv ("WAYLAND_DISPLAY") == NULL)
    x11 = carpace_activity_x11_new (NULL, NULL, carpace_clock_linux_port (&clock), nobody, NULL);
  offer = x11 != NULL ? CARPACE_INPUT_X11 : mutter != NULL ? CARPACE_INPUT_MUTTER : CARPACE_INPUT_MANUAL;
  carpace_activity_x11_free (x11);
  carpace_activity_mutter_free (mutter);
  return offer;
}

static void
tell_no_fault (const char *message)
{
}

static CarpaceChordOffer
chord_offer (void *self, char ret_keys[CARPACE_DESKTOP_NAME_BYTES])
{
  CarpaceSettings settings;
  CarpaceChord chord;
  bool read;

  carpace_settings_read (&settings, tell_no_fault);
  g_strlcpy (ret_keys, settings.chord != NULL ? settings.chord : CARPACE_CHORD_DEFAULT, CARPACE_DESKTOP_NAME_BYTES);
  read = carpace_chord_read (ret_keys, &chord);
  carpace_settings_clear (&settings);
  return read && carpace_keys_x11_can_have (NULL, &chord) ? CARPACE_CHORD_FREE : CARPACE_CHORD_TAKEN;
}

static bool
sound_offer (void *self)
{
  CarpaceSound *sound = carpace_sound_new ();
  bool offered = sound != NULL;

  carpace_sound_free (sound);
  return offered;
}

static const CarpaceDesktopAsk ask = { NULL, input_offer, chord_offer, sound_offer };

/* A folder of the source, where the program runs from its build folder. */
static const char *
uninstalled (const char *folder)
{
  char *program = g_file_read_link ("/proc/self/exe", NULL);
  bool built = program != NULL && g_str_has_prefix (program, CARPACE_BUILD_FOLDER G_DIR_SEPARATOR_S);

  g_free (program);
  return built && g_getenv ("CARPACE_PLANS") == NULL ? folder : NULL;
}

/* libical brings the whole of ICU: it is loaded for the one command that writes
 * a calendar, not for a tray icon. */
static char *
write_calendar (void *self, const CarpaceCalendarEntry *entries, size_t n_entries, CarpaceInstant now)
{
  const char *built = uninstalled (CARPACE_BUILD_FOLDER "/src/adapters");
  char *path = g_build_filename (built != NULL ? built : CARPACE_MODULES, "carpace-calendar.so", NULL);
  GModule *module = g_module_open (path, G_MODULE_BIND_LAZY | G_MODULE_BIND_LOCAL);
  CarpaceCalendar (*make) (void) = NULL;
  gpointer symbol = NULL;
  CarpaceCalendar calendar;

  g_free (path);
  if (module == NULL || !g_module_symbol (module, "carpace_calendar_ical", &symbol))
    return NULL;
  memcpy (&make, &symbol, sizeof make); /* ISO C has no cast from an object to a function */
  calendar = make ();
  return calendar.write (calendar.self, entries, n_entries, now);
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
    .zones = carpace_zones_glib_port (),
    .desktop = carpace_desktop_probe_port (&ask),
    .open_diary = open_diary,
    .open_keeper = open_keeper,
    .formats = formats,
    .calendar = { NULL, write_calendar },
  };
  int status = carpace_cli_run (&cli, argc, argv);

  carpace_store_close (read_store, true);
  carpace_store_close (kept_store, true);
  return status;
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
