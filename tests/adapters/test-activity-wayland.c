/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Against a compositor of the test's own, which tells what the test says. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "activity-wayland.h"
#include "clock-linux.h"
#include "compositor.h"

#define LIMIT_MS 3000
#define NEAR_MS 100 /* what a busy machine may be late by */

typedef struct
{
  Server *server;
  CarpaceClockLinux clock;
  CarpaceActivity port;
  int n_told;
  CarpaceEvent told[64];
} Bench;

static int64_t
elapsed (Bench *bench)
{
  CarpaceClock port = carpace_clock_linux_port (&bench->clock);
  return port.now (port.self).elapsed_ms;
}

static bool
take (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  Bench *bench = self;
  assert_in_range (bench->n_told, 0, 63);
  bench->told[bench->n_told++] = *event;
  return true;
}

static bool
open_it (Bench *bench, CarpaceActivityOpen open)
{
  return open (carpace_clock_linux_port (&bench->clock), (CarpaceTell){ bench, take }, &bench->port);
}

static void
turn (int ms)
{
  for (gint64 end = g_get_monotonic_time () + ms * 1000; g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
}

/* The index of the @n-th notice, once it has been made. */
static int
notice (Bench *bench, int n, uint32_t ms)
{
  ServerNotice last = { 0 };
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000;
       server_notices (bench->server, &last) < n && g_get_monotonic_time () < end;)
    turn (1);
  assert_int_equal (server_notices (bench->server, &last), n);
  assert_int_equal (last.ms, ms);
  return n - 1;
}

static void
assert_told (Bench *bench, int n, CarpaceEventKind kind, int64_t since_ms, int64_t slack_ms)
{
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; bench->n_told < n && g_get_monotonic_time () < end;)
    turn (1);
  assert_int_equal (bench->n_told, n);
  assert_int_equal (bench->told[n - 1].kind, kind);
  if (llabs (bench->told[n - 1].fact.since_ms - since_ms) > slack_ms)
    fail_msg ("%lld ms off", (long long) (bench->told[n - 1].fact.since_ms - since_ms));
}

static void
assert_none_told (Bench *bench, int before)
{
  turn (30);
  assert_int_equal (bench->n_told, before);
}

static Bench *
bench_new (uint32_t version)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->clock.base.base_ms = 1000000;
  bench->server = server_new ();
  server_offer (bench->server, NOTIFIER_EXT, version);
  return bench;
}

static int
set_up (void **state)
{
  Bench *bench = bench_new (2);
  assert_true (open_it (bench, carpace_activity_ext_input_open));
  *state = bench;
  return 0;
}

static int
set_up_blind (void **state)
{
  Bench *bench = bench_new (1);
  assert_true (open_it (bench, carpace_activity_ext_open));
  *state = bench;
  return 0;
}

static int
set_up_kde (void **state)
{
  Bench *bench = bench_new (0);
  server_offer (bench->server, NOTIFIER_KDE, 1);
  assert_false (open_it (bench, carpace_activity_ext_open));
  assert_true (open_it (bench, carpace_activity_kde_open));
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  CARPACE_PORT_FREE (bench->port);
  turn (5);
  server_free (bench->server);
  g_free (bench);
  return 0;
}

/* ---- who offers it ---- */

static void
offered_where_it_is (void **state)
{
  static const struct { const char *row; uint32_t ext; bool seat; bool input, any; } rows[] = {
    { "nothing", 0, true, false, false },
    { "version 1", 1, true, false, true },
    { "version 2", 2, true, true, true },
    { "no seat", 2, false, false, false },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Bench *bench = bench_new (rows[i].ext);
      if (!rows[i].seat)
        server_offer_seat (bench->server, false);
      const struct { CarpaceActivityOpen open; bool offered; } each[] = { { carpace_activity_ext_input_open, rows[i].input },
                                                                          { carpace_activity_ext_open, rows[i].any } };
      for (size_t by = 0; by < G_N_ELEMENTS (each); by++)
        {
          if (open_it (bench, each[by].open) != each[by].offered)
            fail_msg ("%s", rows[i].row);
          if (each[by].offered)
            CARPACE_PORT_FREE (bench->port);
        }
      server_free (bench->server);
      g_free (bench);
    }
}

static void
not_offered_outside_a_session (void **state)
{
  Bench *bench = bench_new (2);
  g_setenv ("WAYLAND_DISPLAY", "", TRUE);
  assert_false (open_it (bench, carpace_activity_ext_input_open));
  g_setenv ("WAYLAND_DISPLAY", "wayland-of-nobody", TRUE);
  assert_false (open_it (bench, carpace_activity_ext_input_open));
  server_free (bench->server);
  g_free (bench);
}

static void
what_can_be_held_back_is_asked_for_where_that_is_said (void **state)
{
  Bench *bench = bench_new (2);
  assert_true (open_it (bench, carpace_activity_ext_open));
  bench->port.follow (bench->port.self, 4000);
  assert_false (server_notice (bench->server, notice (bench, 1, 4000)).input);
  CARPACE_PORT_FREE (bench->port);
  assert_true (open_it (bench, carpace_activity_ext_input_open));
  bench->port.follow (bench->port.self, 4000);
  assert_true (server_notice (bench->server, notice (bench, 2, 4000)).input);
  CARPACE_PORT_FREE (bench->port);
  server_free (bench->server);
  g_free (bench);
}

/* ---- gaps ---- */

/* Short ones, but for a notice's time, which the compositor here does not wait for. */
static void
a_gap_is_told_with_its_beginning_and_its_end (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 50);
  int gap = notice (bench, 1, 50);
  for (int round = 0; round < 3; round++)
    {
      turn (60);
      server_tell (bench->server, gap, true);
      assert_told (bench, round * 2 + 1, CARPACE_EVENT_STILL, elapsed (bench) - 50, NEAR_MS);
      server_tell (bench->server, gap, false);
      assert_told (bench, round * 2 + 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
    }
  bench->port.follow (bench->port.self, 0);
  turn (20);
  assert_false (server_notice (bench->server, gap).there);
  assert_int_equal (server_notices (bench->server, NULL), 1);
  assert_none_told (bench, 6);
}

/* Whatever a compositor sends in whatever order, what is told takes turns. */
static void
every_order_of_events (void **state)
{
  Bench *bench = *state;
  enum { LENGTH = 6 };
  for (int order = 0; order < 1 << LENGTH; order++)
    {
      bool idle = false;
      int expected = 0;
      bench->n_told = 0;
      bench->port.follow (bench->port.self, 1);
      int gap = notice (bench, order + 1, 1);
      for (int i = 0; i < LENGTH; i++)
        {
          bool next = (order >> i & 1) != 0;
          expected += next != idle;
          idle = next;
          server_tell (bench->server, gap, next);
          turn (4);
        }
      turn (5);
      assert_int_equal (bench->n_told, expected);
      for (int i = 0; i < expected; i++)
        assert_int_equal (bench->told[i].kind, i % 2 == 0 ? CARPACE_EVENT_STILL : CARPACE_EVENT_INPUT);
      bench->port.follow (bench->port.self, 0);
    }
}

/* A gap does not begin before the input that ended the last one. */
static void
a_gap_begins_after_the_last_input (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 200);
  int64_t from = elapsed (bench);
  int gap = notice (bench, 1, 200);
  server_tell (bench->server, gap, true); /* of the time before */
  assert_none_told (bench, 0);
  assert_told (bench, 1, CARPACE_EVENT_STILL, from, 5);
  assert_true (elapsed (bench) - from >= 200);
}

/* ---- what the session presumes ---- */

static void
presumed_moving (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 200);
  int before = notice (bench, 1, 200);
  turn (50);
  int64_t from = elapsed (bench);
  bench->port.recheck (bench->port.self, true, from);
  int gap = notice (bench, 2, 200);
  assert_false (server_notice (bench->server, before).there);
  server_tell (bench->server, gap, true); /* by a compositor that counts from the last input */
  assert_none_told (bench, 0);
  assert_told (bench, 1, CARPACE_EVENT_STILL, from, 0);
  assert_true (elapsed (bench) - from >= 200);
}

static void
presumed_moving_and_moving (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 100);
  bench->port.recheck (bench->port.self, true, elapsed (bench));
  turn (10);
  int gap = notice (bench, 2, 100);
  server_tell (bench->server, gap, true);
  turn (20);
  server_tell (bench->server, gap, false);
  turn (150);
  assert_int_equal (bench->n_told, 0);
}

/* `rest` in the middle of a run: 2 s are the hand's way to the answer; then a notice
 * of a moment is made, and not told. */
static void
presumed_still_but_moving (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  notice (bench, 1, 4000);
  int64_t from = elapsed (bench) - 1500; /* as if it had been said a while ago */
  bench->port.recheck (bench->port.self, false, from);
  turn (300);
  assert_int_equal (server_notices (bench->server, NULL), 1);
  notice (bench, 2, 100);
  assert_true (elapsed (bench) - from >= 2000);
  assert_int_equal (bench->n_told, 0);
  turn (100); /* its time */
  assert_told (bench, 1, CARPACE_EVENT_INPUT, elapsed (bench) + 150, NEAR_MS);
  turn (5);
  assert_false (server_notice (bench->server, 1).there);
}

static void
presumed_still_and_back_within_the_gap (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  bench->port.recheck (bench->port.self, false, elapsed (bench) - 3000);
  int brief = notice (bench, 2, 100);
  server_tell (bench->server, brief, true);
  turn (400);
  assert_int_equal (bench->n_told, 0);
  server_tell (bench->server, brief, false);
  assert_told (bench, 1, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
  server_tell (bench->server, 0, false);
  assert_none_told (bench, 1);
}

/* In a gap already, and on the way to the answer. */
static void
presumed_still_in_a_gap (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 50);
  int gap = notice (bench, 1, 50);
  turn (60);
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 50, NEAR_MS);
  bench->port.recheck (bench->port.self, false, elapsed (bench) - 1900);
  server_tell (bench->server, gap, false);
  turn (10);
  server_tell (bench->server, gap, true);
  turn (400);
  assert_int_equal (bench->n_told, 1);
  assert_int_equal (server_notices (bench->server, NULL), 1); /* no other is needed */
  server_tell (bench->server, gap, false);
  assert_told (bench, 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
}

/* ---- where a program holds the screen awake ---- */

/* Silence says nothing there: a rest goes on, and what follows it is taken as input. */
static void
blind_in_a_rest (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  bench->port.state (bench->port.self, CARPACE_STATE_RESTING);
  bench->port.recheck (bench->port.self, false, elapsed (bench) - 3000);
  notice (bench, 2, 100);
  turn (400);
  assert_int_equal (bench->n_told, 0);
  bench->port.state (bench->port.self, CARPACE_STATE_GAP);
  assert_int_equal (bench->n_told, 0); /* never within a call */
  assert_told (bench, 1, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
  bench->port.state (bench->port.self, CARPACE_STATE_GAP);
  assert_none_told (bench, 1);
}

/* Nothing holds the screen awake: the hand is known to be still. */
static void
seen_in_a_rest (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  bench->port.state (bench->port.self, CARPACE_STATE_RESTING);
  bench->port.recheck (bench->port.self, false, elapsed (bench) - 3000);
  int brief = notice (bench, 2, 100);
  turn (400);
  server_tell (bench->server, brief, true); /* late: the game was quit */
  turn (10);
  bench->port.state (bench->port.self, CARPACE_STATE_GAP);
  turn (300);
  assert_int_equal (bench->n_told, 0);
  server_tell (bench->server, brief, false);
  assert_told (bench, 1, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
}

/* A game begins to hold the screen awake while the hand is still: no input is told of
 * any more, and the notice that was told stays so. */
static void
held_back_in_a_gap (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 100);
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  int gap = notice (bench, 1, 100);
  turn (110);
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 100, NEAR_MS);
  bench->port.state (bench->port.self, CARPACE_STATE_GAP);
  turn (600);
  assert_int_equal (server_notices (bench->server, NULL), 1);
  notice (bench, 2, 100);
  assert_told (bench, 2, CARPACE_EVENT_INPUT, elapsed (bench) + 250, NEAR_MS + 50);
}

/* Nothing holds it awake: each time it is told at once, and asked for twice as late. */
static void
asked_ever_later_in_a_gap (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 20);
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  int gap = notice (bench, 1, 20);
  turn (30);
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 20, NEAR_MS);
  bench->port.state (bench->port.self, CARPACE_STATE_GAP);
  for (int n = 2, ms = 160; n <= 4; n++, ms *= 2)
    {
      int64_t before = elapsed (bench);
      server_tell (bench->server, notice (bench, n, 100), true);
      assert_in_range (elapsed (bench) - before, ms - NEAR_MS, ms + NEAR_MS);
      turn (5);
    }
  assert_int_equal (bench->n_told, 1);
  server_tell (bench->server, gap, false);
  assert_told (bench, 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
}

/* Nothing is counted there: no wake-up is worth it. */
static void
never_asked_while_waiting (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 20);
  bench->port.state (bench->port.self, CARPACE_STATE_WAITING);
  int gap = notice (bench, 1, 20);
  turn (30);
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 20, NEAR_MS);
  turn (400);
  assert_int_equal (server_notices (bench->server, NULL), 1);
}

/* ---- a compositor that changes ---- */

static void
a_notifier_that_comes_again_is_followed (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 50);
  int gap = notice (bench, 1, 50);
  turn (60);
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 50, NEAR_MS);
  server_offer (bench->server, NOTIFIER_EXT, 0);
  turn (20);
  assert_false (server_notice (bench->server, gap).there);
  assert_none_told (bench, 1);
  server_offer (bench->server, NOTIFIER_EXT, 1); /* cannot do what is wanted */
  turn (20);
  server_offer (bench->server, NOTIFIER_EXT, 2);
  gap = notice (bench, 2, 50);
  turn (20);
  server_tell (bench->server, gap, true);
  turn (2500); /* past the hand's way */
  assert_int_equal (bench->n_told, 1);
  server_tell (bench->server, gap, false);
  assert_told (bench, 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
}

static void
a_seat_that_comes_again_is_followed (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 50);
  notice (bench, 1, 50);
  server_offer_seat (bench->server, false);
  turn (20);
  server_offer_seat (bench->server, true);
  int gap = notice (bench, 2, 50);
  turn (60);
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 50, NEAR_MS);
}

/* Nobody tells any more: a gap does not stay for ever. */
static void
a_gap_ends_where_the_notifier_went (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 50);
  int gap = notice (bench, 1, 50);
  turn (60);
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 50, NEAR_MS);
  bench->port.state (bench->port.self, CARPACE_STATE_GAP);
  server_offer (bench->server, NOTIFIER_EXT, 0);
  assert_told (bench, 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
  assert_none_told (bench, 2);
}

static int64_t
switches (void)
{
  char *text = NULL;
  int64_t n = -1;
  if (g_file_get_contents ("/proc/thread-self/status", &text, NULL, NULL))
    n = g_ascii_strtoll (strchr (strstr (text, "\nvoluntary_ctxt_switches:"), '\t'), NULL, 10);
  g_free (text);
  return n;
}

static gboolean
quit (gpointer loop)
{
  g_main_loop_quit (loop);
  return G_SOURCE_REMOVE;
}

/* The test's own timer is one. */
static void
assert_sleeps (guint ms)
{
  GMainLoop *loop = g_main_loop_new (NULL, FALSE);
  g_timeout_add (ms, quit, loop);
  int64_t before = switches ();
  g_main_loop_run (loop);
  assert_in_range (switches () - before, 1, 2);
  g_main_loop_unref (loop);
}

static void
a_compositor_that_was_killed (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 50);
  int gap = notice (bench, 1, 50);
  turn (60);
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 50, NEAR_MS);
  server_kill (bench->server);
  assert_none_told (bench, 1);
  assert_sleeps (300);
  bench->port.state (bench->port.self, CARPACE_STATE_GAP);
  assert_told (bench, 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
  bench->port.recheck (bench->port.self, true, elapsed (bench));
  bench->port.recheck (bench->port.self, false, elapsed (bench) - 3000);
  assert_told (bench, 3, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
  bench->port.follow (bench->port.self, 0);
  assert_none_told (bench, 3);
}

static void
nothing_wakes_between_two_events (void **state)
{
  Bench *bench = *state;
  turn (20);
  assert_sleeps (500); /* waiting */
  bench->port.follow (bench->port.self, 50);
  int gap = notice (bench, 1, 50);
  turn (100);
  assert_sleeps (500); /* in a run */
  server_tell (bench->server, gap, true);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 50, NEAR_MS);
  turn (20);
  assert_sleeps (500); /* in a gap */
}

#define SEES(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
#define BLIND(test) cmocka_unit_test_setup_teardown (test, set_up_blind, tear_down)
#define KDE(test) cmocka_unit_test_setup_teardown (test, set_up_kde, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (offered_where_it_is),
    cmocka_unit_test (not_offered_outside_a_session),
    cmocka_unit_test (what_can_be_held_back_is_asked_for_where_that_is_said),
    SEES (a_gap_is_told_with_its_beginning_and_its_end),
    BLIND (a_gap_is_told_with_its_beginning_and_its_end),
    KDE (a_gap_is_told_with_its_beginning_and_its_end),
    SEES (every_order_of_events),
    SEES (a_gap_begins_after_the_last_input),
    SEES (presumed_moving),
    BLIND (presumed_moving),
    SEES (presumed_moving_and_moving),
    SEES (presumed_still_but_moving),
    SEES (presumed_still_and_back_within_the_gap),
    SEES (presumed_still_in_a_gap),
    BLIND (held_back_in_a_gap),
    KDE (held_back_in_a_gap),
    BLIND (asked_ever_later_in_a_gap),
    BLIND (never_asked_while_waiting),
    BLIND (blind_in_a_rest),
    KDE (blind_in_a_rest),
    BLIND (seen_in_a_rest),
    SEES (a_notifier_that_comes_again_is_followed),
    SEES (a_seat_that_comes_again_is_followed),
    SEES (a_gap_ends_where_the_notifier_went),
    SEES (a_compositor_that_was_killed),
    SEES (nothing_wakes_between_two_events),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
