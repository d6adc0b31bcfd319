/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-commands.c: the commands, and which adapter stands behind each port of theirs. */
#include "program-commands.h"

#include <glib/gi18n.h>
#include <signal.h>
#include <stdio.h>

#include "adapters/autostart-xdg.h"
#include "adapters/bus-gdbus.h"
#include "adapters/clock-linux.h"
#include "adapters/desktop-probe.h"
#include "adapters/folder-files.h"
#include "adapters/front-wayland.h"
#include "adapters/keys-gnome.h"
#include "adapters/keys-portal.h"
#include "adapters/keys-x11.h"
#include "adapters/layers-wayland.h"
#include "adapters/roster-sqlite.h"
#include "adapters/settings-keyfile.h"
#include "adapters/sound.h"
#include "adapters/store-sqlite.h"
#include "adapters/zones-glib.h"
#include "app/measured.h"
#include "cli/options.h"
#include "forms/calendar-ical.h"
#include "forms/diary-csv.h"
#include "forms/diary-fhir.h"
#include "forms/diary-json.h"
#include "program-activity.h"
#include "program-front.h"
#include "program-places.h"
#include "ui/card-place.h"
#include "ui/evening.h"
#include "ui/plan-offer.h"

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
  bool gnome = carpace_keys_gnome_is_here (g_getenv ("XDG_CURRENT_DESKTOP"));
  GDBusConnection *bus = gnome ? NULL : g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  bool portal = bus != NULL && carpace_keys_portal_is_here (bus);

  g_clear_object (&bus);
  return gnome ? CARPACE_SHORTCUTS_BY_GNOME : portal ? CARPACE_SHORTCUTS_BY_PORTAL : CARPACE_SHORTCUTS_BY_HAND;
}

static CarpaceCardsOffer
cards_offer (void *self)
{
  return carpace_layers_wayland_look ();
}

static bool
clicks_offer (void *self)
{
  CarpaceClicks clicks;
  bool tells = carpace_program_open_clicks ((CarpaceClicksListener){ 0 }, &clicks);

  if (tells)
    CARPACE_PORT_FREE (clicks);
  return tells;
}

static void
tell_no_window (void *user, const CarpaceWindow *window)
{
}

static CarpaceWindowsOffer
windows_offer (void *self, bool *ret_kept_back)
{
  CarpaceFront front;
  CarpaceWindowsOffer offer = carpace_program_open_front ((CarpaceWindowListener){ NULL, tell_no_window, tell_no_window }, &front);

  if (offer != CARPACE_WINDOWS_NONE)
    CARPACE_PORT_FREE (front);
  /* In a sandbox no desktop file can help. */
  *ret_kept_back = offer < CARPACE_WINDOWS_BY_FRONT && !carpace_autostart_is_sandboxed () && carpace_front_wayland_is_kept_back ();
  return offer;
}

static const CarpaceDesktopAsk ask = { NULL, input_offer, chord_offer, sound_offer, shortcuts_offer, cards_offer, clicks_offer,
                                       windows_offer };

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

static bool
find_keyring (CarpaceKeyring *ret_keyring)
{
  void (*found) (void);

  if (!carpace_program_module ("adapters", "carpace-keyring.so", "carpace_keyring_libsecret", &found))
    return false;
  *ret_keyring = ((CarpaceKeyring (*) (void)) found) ();
  return true;
}

static void
no_trouble (void *user, CarpaceStoreTrouble trouble, const char *message)
{
}

/* Closed again at once: the planner may stay for hours. */
static bool
measure_clicks (const CarpacePlan *plan, CarpaceClicksMeasured *ret_measured)
{
  g_autofree char *path = carpace_store_path ();
  CarpaceDiaryStore *store = g_file_test (path, G_FILE_TEST_EXISTS) ? carpace_store_open (path, CARPACE_STORE_READING, no_trouble, NULL) : NULL;
  CarpaceDiary of = store != NULL ? carpace_store_diary (store) : (CarpaceDiary) { 0 };
  bool measured = store != NULL && carpace_measure_clicks (&of, plan, ret_measured);

  if (store != NULL)
    CARPACE_PORT_FREE (of);
  return measured;
}

static CarpacePlannerEnd
show_planner (const CarpacePlanFiles *plans, CarpaceMeasure measure, const char *file, char **ret_why)
{
  void (*found) (void);

  if (!carpace_program_module ("", "carpace-planner.so", "carpace_program_planner", &found))
    {
      *ret_why = g_strdup (_("The planner is missing from this installation; please install Carpace anew."));
      return CARPACE_PLANNER_NOT_READ;
    }
  return ((CarpaceShowPlanner) found) (plans, measure, file, ret_why);
}

static bool
show_roster (const CarpaceRosterShown *shown)
{
  void (*found) (void);

  return carpace_program_module ("", "carpace-roster.so", "carpace_program_roster", &found) && ((CarpaceShowRoster) found) (shown);
}

static bool
show_sharing (const CarpaceSharingShown *shown)
{
  void (*found) (void);

  return carpace_program_module ("", "carpace-roster.so", "carpace_program_sharing", &found) && ((CarpaceShowSharing) found) (shown);
}

static bool
offer_plan (const CarpacePlanOffer *offer, bool *ret_yes)
{
  return carpace_plan_offer_ask (offer->heading, offer->words, offer->use, ret_yes);
}

/* ---- `rehearse PLAN --show`: in a process of its own ---- */

static void
shown (void *user)
{
  g_main_loop_quit (user);
}

static bool
show_evening (const CarpacePlan *plan)
{
  CarpaceClockLinux linux_clock = { .base = { 0 } };
  CarpaceClock clock = carpace_clock_linux_port (&linux_clock);
  CarpaceEvening *evening;
  GMainLoop *loop;

  g_setenv ("GDK_GL", "disable", FALSE);
  if (!gtk_init_check (NULL, NULL))
    return false;
  carpace_place_find_layers (carpace_program_layers);
  loop = g_main_loop_new (NULL, FALSE);
  evening = carpace_evening_new (plan, clock.now (clock.self), shown, loop);
  g_main_loop_run (loop);
  carpace_evening_free (evening);
  g_main_loop_unref (loop);
  return true;
}

/* ---- all of them ---- */

int
carpace_program_commands (const CarpacePlanFiles *plans, int argc, char **argv)
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
    .show_evening = show_evening,
    .shelf = carpace_folder_own (NULL),
    .open_shared = open_shared,
    .open_roster = open_roster,
    .find_club = find_club,
    .find_keyring = find_keyring,
    .show_planner = show_planner,
    .measure = measure_clicks,
    .show_roster = show_roster,
    .show_sharing = show_sharing,
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
