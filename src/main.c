/* SPDX-License-Identifier: GPL-3.0-or-later */
/* main.c: the tray program or a command, and which adapter stands behind each
 * port of the commands. */
#include <fcntl.h>
#include <glib/gi18n.h>
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "adapters/bus-gdbus.h"
#include "adapters/clock-linux.h"
#include "adapters/desktop-probe.h"
#include "adapters/folder-files.h"
#include "adapters/keys-x11.h"
#include "adapters/layers-wayland.h"
#include "adapters/plan-files.h"
#include "adapters/roster-sqlite.h"
#include "adapters/settings-keyfile.h"
#include "adapters/sound.h"
#include "adapters/store-sqlite.h"
#include "adapters/wayland.h"
#include "adapters/zones-glib.h"
#include "forms/calendar-ical.h"
#include "forms/diary-csv.h"
#include "forms/diary-fhir.h"
#include "forms/diary-json.h"
#include "forms/plan-yaml.h"
#include "carpace-config.h"
#include "cli/options.h"
#include "program-places.h"
#include "program-activity.h"
#include "ui/plan-offer.h"
#include "program-keys.h"
#include "program.h"

/* A compositor that was restarted is there again by then; where the session has ended, none comes. */
#define COMPOSITOR_WITHIN_MS (20 * 1000)

static const int answer_within_ms = CARPACE_BUS_ANSWER_MS;
static CarpaceDiary diary;
static CarpaceDiaryKeeper keeper;
static CarpaceDiary backup_diary;
static CarpaceDiary scratch_diary; /* in memory only */
static const CarpaceDiaryFormat *const formats[] = { &carpace_format_csv, &carpace_format_json, &carpace_format_fhir, NULL };

static void
store_told (void *user, CarpaceStoreTrouble trouble, const char *message)
{
  carpace_cli_refuse (user, CARPACE_EXIT_REFUSED, "%s", message);
}

static bool
open_diary (CarpaceCli *cli, CarpaceDiary *ret_diary)
{
  if (diary.self != NULL) /* a command may ask more than once */
    {
      *ret_diary = diary;
      return true;
    }
  char *path = carpace_store_path ();
  CarpaceDiaryStore *store = carpace_store_open (path, CARPACE_STORE_READING, store_told, cli);

  g_free (path);
  if (store == NULL)
    return false;
  *ret_diary = diary = carpace_store_diary (store);
  return true;
}

static bool
open_keeper (CarpaceCli *cli, bool writing, CarpaceDiaryKeeper *ret_keeper)
{
  char *path = carpace_store_path ();
  CarpaceDiaryStore *store
    = carpace_store_open (path, writing ? CARPACE_STORE_WRITING : CARPACE_STORE_READING, store_told, cli);

  g_free (path);
  if (store == NULL)
    return false;
  *ret_keeper = keeper = carpace_store_keeper (store);
  return true;
}

static bool
open_backup (CarpaceCli *cli, const char *path, const char *bytes, size_t n, CarpaceDiary *ret_diary)
{
  CarpaceDiaryStore *store = carpace_store_open_bytes (path, bytes, n, store_told, cli);

  if (store == NULL)
    return false;
  *ret_diary = backup_diary = carpace_store_diary (store);
  return true;
}

static bool
open_scratch (CarpaceCli *cli, CarpaceDiary *ret_diary, CarpaceDiaryKeeper *ret_keeper, CarpaceStore *ret_store)
{
  CarpaceDiaryStore *store = carpace_store_open_scratch (store_told, cli);

  if (store == NULL)
    return false;
  *ret_diary = scratch_diary = carpace_store_diary (store);
  if (ret_keeper != NULL)
    *ret_keeper = carpace_store_keeper (store);
  if (ret_store != NULL)
    *ret_store = carpace_store_port (store);
  return true;
}

/* ---- a team ---- */

static CarpaceFolder
open_shared (CarpaceCli *cli, const char *path)
{
  return carpace_folder_shared (path);
}

static void
roster_told (void *user, const char *message)
{
  carpace_cli_refuse (user, CARPACE_EXIT_REFUSED, "%s", message);
}

static bool
open_roster (CarpaceCli *cli, CarpaceRosterStore *ret_store)
{
  return carpace_roster_sqlite_open (NULL, roster_told, cli, ret_store);
}

/* ---- what adapters know of the desktop ---- */

static bool
tell_nobody (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  return true;
}

/* The tray would open the same one. */
static CarpaceInputSource
input_offer (void *self, CarpaceInputSource *ret_beside)
{
  CarpaceClockLinux clock = { .base = { 0 } };
  const CarpaceTell nobody = { NULL, tell_nobody };
  CarpaceActivity activity;
  CarpaceInputSource source = carpace_program_follow_input (carpace_clock_linux_port (&clock), nobody, &activity,
                                                            ret_beside);

  CARPACE_PORT_FREE (activity);
  return source;
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
  CarpaceSound sound = carpace_program_sound ();

  CARPACE_PORT_FREE (sound);
  return sound.play != NULL;
}

static CarpaceShortcutsOffer
shortcuts_offer (void *self)
{
  return carpace_program_shortcuts_offer ();
}

static CarpaceCardsOffer
cards_offer (void *self)
{
  return carpace_layers_wayland_look ();
}

static const CarpaceDesktopAsk ask = { NULL, input_offer, chord_offer, sound_offer, shortcuts_offer, cards_offer };

static char *
set_desktop_keys (void)
{
  return carpace_settings_write (CARPACE_SETTING_DESKTOP_KEYS, "true");
}

/* libical brings the whole of ICU: it is loaded for the one command that writes
 * a calendar, not for a tray icon. */
static char *
write_calendar (void *self, const CarpaceCalendarEntry *entries, size_t n_entries, CarpaceInstant now)
{
  void (*found) (void);
  CarpaceCalendar calendar;

  if (!carpace_program_module ("forms", "carpace-calendar.so", "carpace_calendar_ical", &found))
    return NULL;
  calendar = ((CarpaceCalendar (*) (void)) found) ();
  return calendar.write (calendar.self, entries, n_entries, now);
}

static bool
find_club (CarpaceClub *ret_club)
{
  void (*found) (void);

  if (!carpace_program_module ("adapters", "carpace-club.so", "carpace_roster_postgres", &found))
    return false;
  *ret_club = ((CarpaceClub (*) (void)) found) ();
  return true;
}

static CarpacePlannerEnd
show_planner (const CarpacePlanFiles *plans, const char *file, char **ret_why)
{
  void (*found) (void);

  if (!carpace_program_module ("", "carpace-planner.so", "carpace_program_planner", &found))
    {
      *ret_why = g_strdup (_("The planner is missing from this installation; please install Carpace anew."));
      return CARPACE_PLANNER_NOT_READ;
    }
  return ((CarpaceShowPlanner) found) (plans, file, ret_why);
}

static bool
show_roster (const CarpaceRosterShown *shown)
{
  void (*found) (void);

  return carpace_program_module ("", "carpace-roster.so", "carpace_program_roster", &found) && ((CarpaceShowRoster) found) (shown);
}

static bool
offer_plan (const CarpacePlanOffer *offer, bool *ret_yes)
{
  return carpace_plan_offer_ask (offer->heading, offer->words, offer->use, ret_yes);
}

static int
run_command (const CarpacePlanFiles *plans, int argc, char **argv)
{
  CarpaceCli cli = {
    .in = stdin,
    .out = stdout,
    .err = stderr,
    .plans = *plans,
    .offer_plan = offer_plan,
    .remote = carpace_bus_remote (&answer_within_ms),
    .zones = carpace_zones_glib_port (),
    .desktop = carpace_desktop_probe_port (&ask),
    .set_desktop_keys = set_desktop_keys,
    .open_diary = open_diary,
    .open_keeper = open_keeper,
    .is_backup = carpace_store_is_backup,
    .open_backup = open_backup,
    .open_scratch = open_scratch,
    .formats = formats,
    .calendar = { NULL, write_calendar },
    .show_evening = carpace_program_show_evening,
    .shelf = carpace_folder_own (NULL),
    .open_shared = open_shared,
    .open_roster = open_roster,
    .find_club = find_club,
    .show_planner = show_planner,
    .show_roster = show_roster,
  };
  int status;

  signal (SIGXFSZ, SIG_IGN); /* a file that may not grow is told, as a full disk is */
  status = carpace_cli_run (&cli, argc, argv);

  cli.shelf.free (cli.shelf.self);
  CARPACE_PORT_FREE (diary);
  CARPACE_PORT_FREE (keeper);
  CARPACE_PORT_FREE (backup_diary);
  CARPACE_PORT_FREE (scratch_diary);
  return status;
}

/* A file that is opened later must not become the standard output of a program
 * that was started without one. What is written to a closed one fails as before. */
static void
open_on_nothing (void)
{
  static const int ways[] = { [STDIN_FILENO] = O_WRONLY, [STDOUT_FILENO] = O_RDONLY, [STDERR_FILENO] = O_WRONLY };

  for (int fd = 0; fd < (int) G_N_ELEMENTS (ways); fd++)
    if (fcntl (fd, F_GETFD) < 0 && open ("/dev/null", ways[fd]) != fd)
      abort ();
}

/* While it waits it has nothing open: what ends it need not be taken care of. What it was started without stays ignored. */
static void
end_at_once (void)
{
  static const int ending[] = { SIGTERM, SIGINT, SIGHUP };
  struct sigaction now;

  for (size_t i = 0; i < G_N_ELEMENTS (ending); i++)
    if (sigaction (ending[i], NULL, &now) == 0 && now.sa_handler != SIG_IGN)
      signal (ending[i], SIG_DFL);
}

int
main (int argc, char **argv)
{
  CarpacePlanFiles plans;
  int status;

  open_on_nothing ();
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, CARPACE_LOCALE);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  plans = carpace_plan_folders_new (carpace_plan_yaml (), carpace_program_uninstalled (CARPACE_SOURCE_FOLDER "/src/data/plans"), NULL);
  status = argc <= 1 ? carpace_program_run (argc, argv, &plans, carpace_program_uninstalled (CARPACE_SOURCE_FOLDER "/icons"))
                     : run_command (&plans, argc, argv);
  CARPACE_PORT_FREE (plans);
  if (status == CARPACE_PROGRAM_ANEW_LATER)
    end_at_once ();
  if (status == CARPACE_PROGRAM_ANEW_LATER && !carpace_wayland_wait (COMPOSITOR_WITHIN_MS))
    return CARPACE_EXIT_DONE;
  if (status == CARPACE_PROGRAM_ANEW || status == CARPACE_PROGRAM_ANEW_LATER)
    {
      execv ("/proc/self/exe", argv);
      return CARPACE_EXIT_REFUSED;
    }
  return status;
}
