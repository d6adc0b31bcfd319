/* SPDX-License-Identifier: GPL-3.0-or-later */
/* On real X servers, in the place of the one that a compositor has beside it; what
 * is in front is what the test says. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <sys/wait.h>
#include <unistd.h>
#include <xcb/xcb.h>
#include <xcb/xtest.h>

#include "activity-x11-beside.h"
#include "clock-linux.h"

#define LIMIT_MS 10000

typedef struct
{
  CarpaceClockLinux clock;
  CarpaceActivity port;
  xcb_connection_t *x;
  xcb_window_t root;
  int n_told, n_seen;
  CarpaceEvent last;
  bool sees;
} Bench;

static bool
take (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  Bench *bench = self;
  bench->n_told++;
  bench->last = *event;
  return true;
}

static void
take_whether (void *user, bool sees)
{
  Bench *bench = user;
  bench->n_seen++;
  bench->sees = sees;
}

static int64_t
elapsed (Bench *bench)
{
  CarpaceClock port = carpace_clock_linux_port (&bench->clock);
  return port.now (port.self).elapsed_ms;
}

static void
turn (int ms)
{
  for (gint64 end = g_get_monotonic_time () + ms * 1000; g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
}

static void
wait_for (const int *number, int enough)
{
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; *number < enough && g_get_monotonic_time () < end;)
    turn (1);
  assert_int_equal (*number, enough);
}

static void
look_from_outside (Bench *bench)
{
  for (int attempt = 0; attempt < 400; attempt++, g_usleep (25000))
    {
      bench->x = xcb_connect (NULL, NULL);
      if (xcb_connection_has_error (bench->x) == 0)
        break;
      xcb_disconnect (bench->x);
      bench->x = NULL;
    }
  assert_non_null (bench->x);
  bench->root = xcb_setup_roots_iterator (xcb_get_setup (bench->x)).data->root;
}

static void
set_front (Bench *bench, xcb_window_t window)
{
  static const char name[] = "_NET_ACTIVE_WINDOW";
  xcb_intern_atom_reply_t *atom = xcb_intern_atom_reply (bench->x, xcb_intern_atom (bench->x, 0, sizeof name - 1, name), NULL);
  xcb_change_property (bench->x, XCB_PROP_MODE_REPLACE, bench->root, atom->atom, XCB_ATOM_WINDOW, 32, 1, &window);
  xcb_flush (bench->x);
  free (atom);
}

static void
move (Bench *bench)
{
  static int16_t step = 1;
  step = (int16_t) -step;
  xcb_test_fake_input (bench->x, XCB_MOTION_NOTIFY, 1, 0, bench->root, step, 0, 0);
  xcb_flush (bench->x);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->clock.base.base_ms = 1000000;
  g_setenv ("WAYLAND_DISPLAY", "wayland-of-nobody", TRUE);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  CARPACE_PORT_FREE (bench->port);
  turn (20);
  if (bench->x != NULL)
    xcb_disconnect (bench->x);
  g_free (bench);
  g_unsetenv ("WAYLAND_DISPLAY");
  return 0;
}

static bool
open_it (Bench *bench)
{
  if (!carpace_activity_x11_beside_open (carpace_clock_linux_port (&bench->clock), (CarpaceTell) { bench, take }, &bench->port))
    return false;
  bench->port.sees (bench->port.self, take_whether, bench);
  assert_int_equal (bench->n_seen, 1); /* at once */
  assert_false (bench->sees);
  return true;
}

static void
where_it_is_offered (void **state)
{
  static const struct { const char *wayland, *display; bool offered; } rows[] = {
    { NULL, ":0", false }, { "", ":0", false },      { "w", NULL, false }, { "w", "", false },    { "w", "elsewhere:0", false },
    { "w", ":", false },   { "w", ":9.0", true },    { "w", ":9", true },
  };
  char *display = g_strdup (g_getenv ("DISPLAY"));
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Bench bench = { 0 };
      g_unsetenv ("WAYLAND_DISPLAY");
      g_unsetenv ("DISPLAY");
      if (rows[i].wayland != NULL)
        g_setenv ("WAYLAND_DISPLAY", rows[i].wayland, TRUE);
      if (rows[i].display != NULL)
        g_setenv ("DISPLAY", rows[i].display, TRUE);
      if (open_it (&bench) != rows[i].offered)
        fail_msg ("row %zu", i);
      if (rows[i].offered)
        CARPACE_PORT_FREE (bench.port);
    }
  g_setenv ("DISPLAY", display, TRUE);
  g_free (display);
}

static void
sees_while_a_window_of_its_is_in_front (void **state)
{
  Bench *bench = *state;
  look_from_outside (bench);
  set_front (bench, bench->root);
  assert_true (open_it (bench));
  turn (100);
  assert_int_equal (bench->n_seen, 1); /* it is not connected to: not followed */
  bench->port.follow (bench->port.self, 200);
  bench->port.state (bench->port.self, CARPACE_STATE_WAITING);
  turn (100);
  assert_int_equal (bench->n_seen, 1); /* nor in a block */
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  wait_for (&bench->n_seen, 2);
  assert_true (bench->sees);
  bench->port.recheck (bench->port.self, true, elapsed (bench));
  for (int i = 0; i < 100; i++, turn (4))
    move (bench);
  bench->n_told = 0;
  wait_for (&bench->n_told, 1);
  assert_int_equal (bench->last.kind, CARPACE_EVENT_STILL);
  move (bench);
  wait_for (&bench->n_told, 2);
  assert_int_equal (bench->last.kind, CARPACE_EVENT_INPUT);
  set_front (bench, XCB_WINDOW_NONE);
  wait_for (&bench->n_seen, 3);
  assert_false (bench->sees);
  set_front (bench, bench->root);
  wait_for (&bench->n_seen, 4);
  bench->port.state (bench->port.self, CARPACE_STATE_RATING_DUE);
  wait_for (&bench->n_seen, 5);
  assert_false (bench->sees);
  move (bench);
  bench->n_told = 0;
  turn (300);
  assert_int_equal (bench->n_told, 0);
}

static void
wait_for_kind (Bench *bench, CarpaceEventKind kind)
{
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000;
       (bench->n_told == 0 || bench->last.kind != kind) && g_get_monotonic_time () < end;)
    turn (1);
  assert_int_not_equal (bench->n_told, 0);
  assert_int_equal (bench->last.kind, kind);
}

/* The server's own counters tell of the hand. */
static void
must_tell_of_the_hand (Bench *bench)
{
  bench->n_told = 0;
  bench->port.recheck (bench->port.self, true, elapsed (bench));
  for (int i = 0; i < 50; i++, turn (4))
    move (bench);
  wait_for_kind (bench, CARPACE_EVENT_STILL);
  move (bench);
  wait_for_kind (bench, CARPACE_EVENT_INPUT);
}

static pid_t
start_server (const char *display)
{
  pid_t pid = fork ();
  if (pid == 0)
    {
      prctl (PR_SET_PDEATHSIG, SIGKILL);
      execlp ("Xvfb", "Xvfb", display, "-screen", "0", "640x480x24", "-nolisten", "tcp", "-noreset", (char *) NULL);
      _exit (127);
    }
  return pid;
}

static void
stop_server (pid_t server)
{
  kill (server, SIGTERM);
  waitpid (server, NULL, 0);
}

/* Not there when a block begins, then there, gone, and there again. */
static void
a_server_that_comes_late (void **state)
{
  Bench *bench = *state;
  char *before = g_strdup (g_getenv ("DISPLAY"));
  char *display = g_strdup_printf (":%d", 60000 + getpid () % 5000);
  g_setenv ("DISPLAY", display, TRUE);
  assert_true (open_it (bench));
  bench->port.follow (bench->port.self, 200);
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  turn (100);
  assert_false (bench->sees);
  for (int round = 0; round < 2; round++)
    {
      pid_t server = start_server (display);
      look_from_outside (bench);
      set_front (bench, bench->root);
      wait_for (&bench->n_seen, 2 + round * 2);
      assert_true (bench->sees);
      must_tell_of_the_hand (bench);
      xcb_disconnect (bench->x);
      bench->x = NULL;
      stop_server (server);
      wait_for (&bench->n_seen, 3 + round * 2);
      assert_false (bench->sees);
    }
  bench->port.follow (bench->port.self, 0);
  turn (50);
  g_setenv ("DISPLAY", before, TRUE);
  g_free (before);
  g_free (display);
}

/* A server that is asked as it goes: its end is told only when the next one has come. */
static void
asked_of_one_that_goes (void **state)
{
  Bench *bench = *state;
  char *before = g_strdup (g_getenv ("DISPLAY"));
  char *display = g_strdup_printf (":%d", 60000 + getpid () % 5000);
  struct sockaddr_un at = { .sun_family = AF_UNIX };
  int going = socket (AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  g_snprintf (at.sun_path, sizeof at.sun_path, "/tmp/.X11-unix/X%s", display + 1);
  g_setenv ("DISPLAY", display, TRUE);
  assert_int_equal (bind (going, (struct sockaddr *) &at, sizeof at), 0);
  assert_int_equal (listen (going, 4), 0);
  assert_true (open_it (bench));
  bench->port.follow (bench->port.self, 200);
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  turn (300); /* it waits for an answer */
  unlink (at.sun_path);
  pid_t server = start_server (display);
  look_from_outside (bench);
  set_front (bench, bench->root);
  turn (600); /* the new socket is known */
  assert_int_equal (bench->n_seen, 1);
  close (going);
  wait_for (&bench->n_seen, 2);
  assert_true (bench->sees);
  must_tell_of_the_hand (bench);
  xcb_disconnect (bench->x);
  bench->x = NULL;
  stop_server (server);
  bench->port.follow (bench->port.self, 0);
  turn (50);
  g_setenv ("DISPLAY", before, TRUE);
  g_free (before);
  g_free (display);
}

static void
freed_while_it_connects (void **state)
{
  Bench *bench = *state;
  assert_true (open_it (bench));
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  bench->port.follow (bench->port.self, 200);
  g_main_context_iteration (NULL, TRUE);
  CARPACE_PORT_FREE (bench->port);
  bench->port.free = NULL;
  turn (200);
  assert_int_equal (bench->n_seen, 1);
}

#define ON_X(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ON_X (where_it_is_offered),
    ON_X (sees_while_a_window_of_its_is_in_front),
    ON_X (a_server_that_comes_late),
    ON_X (asked_of_one_that_goes),
    ON_X (freed_while_it_connects),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
