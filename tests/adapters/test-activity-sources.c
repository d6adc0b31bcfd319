/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-activity-sources.c: which source of input a desktop gets, on a real X
 * server, a bus and compositors of its own; and the one that every desktop has. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>

#include "clock-linux.h"
#include "compositor.h"
#include "program-activity.h"

typedef struct
{
  CarpaceClockLinux clock;
  int told;
  CarpaceEvent last;
} Heard;

static bool
hear (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  Heard *heard = self;
  heard->told++;
  heard->last = *event;
  return true;
}

static CarpaceInputSource
open_best (Heard *heard, CarpaceActivity *ret_activity, CarpaceInputSource *ret_beside)
{
  return carpace_program_follow_input (carpace_clock_linux_port (&heard->clock), (CarpaceTell) { heard, hear }, ret_activity,
                                       ret_beside);
}

/* @bus has, or (with @has false) has no longer, the name of GNOME's monitor. */
static void
have_monitor (GDBusConnection *bus, bool has)
{
  const char *name = "org.gnome.Mutter.IdleMonitor";
  GVariant *reply = g_dbus_connection_call_sync (bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus",
                                                 has ? "RequestName" : "ReleaseName",
                                                 has ? g_variant_new ("(su)", name, 4u) : g_variant_new ("(s)", name),
                                                 G_VARIANT_TYPE ("(u)"), G_DBUS_CALL_FLAGS_NONE, -1, NULL, NULL);
  assert_non_null (reply);
  g_variant_unref (reply);
}

/* The best of what is there, on X and on Wayland, with GNOME's monitor and without. */
static void
the_best_there_is (void **state)
{
  static const struct
  {
    const char *row, *wayland; /* a session's name, of nobody where there is no version */
    uint32_t ext, kde;         /* versions of the compositor's notifiers */
    bool monitor;
    const char *word;
    CarpaceSight sight;
  } rows[] = {
    { "X alone", NULL, 0, 0, false, "x11", CARPACE_SIGHT_EVERY_GAP },
    { "X under GNOME", NULL, 0, 0, true, "x11", CARPACE_SIGHT_EVERY_GAP },
    { "Wayland's name is empty", "", 0, 0, true, "x11", CARPACE_SIGHT_EVERY_GAP },
    { "a compositor with notices of input", "", 2, 1, true, "ext-input", CARPACE_SIGHT_EVERY_GAP },
    { "Wayland under GNOME", "wayland-0", 0, 0, true, "mutter", CARPACE_SIGHT_EVERY_GAP },
    { "a compositor with notices of idleness", "", 1, 1, false, "ext", CARPACE_SIGHT_UNLESS_AWAKE },
    { "a compositor with KDE's", "", 0, 1, false, "kde", CARPACE_SIGHT_UNLESS_AWAKE },
    { "another Wayland", "wayland-0", 0, 0, false, "manual", CARPACE_SIGHT_NONE },
  };

  GDBusConnection *bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Heard heard = { 0 };
      CarpaceActivity activity = { 0 };
      Server *server = rows[i].ext + rows[i].kde > 0 ? server_new () : NULL;

      if (server != NULL)
        {
          server_offer (server, NOTIFIER_EXT, rows[i].ext);
          server_offer (server, NOTIFIER_KDE, rows[i].kde);
        }
      else if (rows[i].wayland != NULL)
        g_setenv ("WAYLAND_DISPLAY", rows[i].wayland, TRUE);
      have_monitor (bus, rows[i].monitor);
      CarpaceInputSource beside, source = open_best (&heard, &activity, &beside);
      if (strcmp (source.word, rows[i].word) != 0 || source.sight != rows[i].sight)
        fail_msg ("%s: %s", rows[i].row, source.word);
      if ((beside.word != NULL) != (rows[i].sight == CARPACE_SIGHT_UNLESS_AWAKE))
        fail_msg ("%s: beside it %s", rows[i].row, beside.word);
      assert_true (g_str_has_suffix (source.sentence, "."));
      assert_non_null (activity.follow);
      assert_non_null (activity.free);
      CARPACE_PORT_FREE (activity);
      g_clear_pointer (&server, server_free);
      g_unsetenv ("WAYLAND_DISPLAY");
    }
  g_object_unref (bus);
}

static void
turn (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

/* Where nobody tells of input: a gap that the player asked for is over as soon as
 * the session says so, and no gap begins by itself. */
static void
without_sight_a_gap_ends_at_once (void **state)
{
  Heard heard = { 0 };
  CarpaceActivity activity = { 0 };

  g_setenv ("WAYLAND_DISPLAY", "wayland-0", TRUE);
  CarpaceInputSource beside;
  assert_int_equal (open_best (&heard, &activity, &beside).sight, CARPACE_SIGHT_NONE);
  g_unsetenv ("WAYLAND_DISPLAY");
  activity.state (activity.self, CARPACE_STATE_GAP); /* not followed */
  turn ();
  assert_int_equal (heard.told, 0);
  activity.follow (activity.self, 4000);
  activity.state (activity.self, CARPACE_STATE_PRACTISING);
  activity.recheck (activity.self, true, 0);
  turn ();
  assert_int_equal (heard.told, 0);
  activity.state (activity.self, CARPACE_STATE_GAP);
  activity.state (activity.self, CARPACE_STATE_GAP);
  turn ();
  assert_int_equal (heard.told, 1);
  assert_int_equal (heard.last.kind, CARPACE_EVENT_INPUT);
  activity.state (activity.self, CARPACE_STATE_GAP);
  activity.state (activity.self, CARPACE_STATE_PAUSED); /* before the turn */
  turn ();
  assert_int_equal (heard.told, 1);
  activity.state (activity.self, CARPACE_STATE_GAP);
  CARPACE_PORT_FREE (activity);
  turn ();
  assert_int_equal (heard.told, 1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_best_there_is),
    cmocka_unit_test (without_sight_a_gap_ends_at_once),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
