/* SPDX-License-Identifier: GPL-3.0-or-later */
/* On a real X server; buttons pressed by XTEST. Waits on what is told, with a limit. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>
#include <xcb/xcb.h>
#include <xcb/xtest.h>

#include "clicks-x11.h"

#define LIMIT_MS 10000

typedef struct
{
  CarpaceClicks port;
  xcb_connection_t *x;
  xcb_window_t root;
  int presses, begun, ended;
} Bench;

static void
pressed (void *user)
{
  ((Bench *) user)->presses++;
}

static void
counts (void *user, bool counts)
{
  Bench *bench = user;

  (*(counts ? &bench->begun : &bench->ended))++;
}

static void
wait_for (const int *number, int enough)
{
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; *number < enough && g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
  assert_int_equal (*number, enough);
}

static void
synchronise (Bench *bench)
{
  free (xcb_get_input_focus_reply (bench->x, xcb_get_input_focus (bench->x), NULL));
}

static void
press (Bench *bench, uint8_t button)
{
  xcb_test_fake_input (bench->x, XCB_BUTTON_PRESS, button, 0, bench->root, 0, 0, 0);
  xcb_test_fake_input (bench->x, XCB_BUTTON_RELEASE, button, 0, bench->root, 0, 0, 0);
  synchronise (bench);
}

/* What the server told before is heard before the press after it: nothing is waited for that is not to come. */
static void
press_last (Bench *bench, int presses)
{
  press (bench, 1);
  wait_for (&bench->presses, presses);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);

  bench->x = xcb_connect (NULL, NULL);
  assert_int_equal (xcb_connection_has_error (bench->x), 0);
  bench->root = xcb_setup_roots_iterator (xcb_get_setup (bench->x)).data->root;
  assert_true (carpace_clicks_x11_open ((CarpaceClicksListener) { bench, pressed, counts }, &bench->port));
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;

  CARPACE_PORT_FREE (bench->port);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  if (bench->x != NULL)
    xcb_disconnect (bench->x);
  g_free (bench);
  return 0;
}

static void
follow (Bench *bench)
{
  int begun = bench->begun;

  bench->port.follow (bench->port.self, true);
  assert_int_equal (bench->begun, begun); /* never from within a call */
  wait_for (&bench->begun, begun + 1);
}

static void
buttons_count_and_the_wheel_does_not (void **state)
{
  Bench *bench = *state;

  follow (bench);
  for (uint8_t button = 1; button <= 9; button++)
    press (bench, button);
  press_last (bench, 6); /* 1, 2, 3, 8, 9 and the last */
  for (int i = 0; i < 20; i++)
    xcb_test_fake_input (bench->x, XCB_MOTION_NOTIFY, 1, 0, bench->root, (int16_t) (i % 2 ? 1 : -1), 0, 0);
  press_last (bench, 7);
  assert_int_equal (bench->ended, 0);
}

static void
nothing_is_heard_where_nothing_is_counted (void **state)
{
  Bench *bench = *state;

  press (bench, 1);
  follow (bench);
  press_last (bench, 1);
  bench->port.follow (bench->port.self, false);
  press (bench, 1);
  press (bench, 2);
  follow (bench); /* anew: what was pressed between is not told late */
  press_last (bench, 2);
  assert_int_equal (bench->ended, 0); /* nobody asked for less */
}

/* As a game does. */
static void
a_grab_of_another_program_hides_no_press (void **state)
{
  Bench *bench = *state;
  xcb_grab_pointer_reply_t *grab;

  follow (bench);
  grab = xcb_grab_pointer_reply (bench->x, xcb_grab_pointer (bench->x, 0, bench->root, XCB_EVENT_MASK_BUTTON_PRESS, XCB_GRAB_MODE_ASYNC,
                                                             XCB_GRAB_MODE_ASYNC, bench->root, XCB_NONE, XCB_CURRENT_TIME), NULL);
  assert_non_null (grab);
  assert_int_equal (grab->status, XCB_GRAB_STATUS_SUCCESS);
  free (grab);
  press (bench, 3);
  press (bench, 8);
  press_last (bench, 3);
  xcb_ungrab_pointer (bench->x, XCB_CURRENT_TIME);
  synchronise (bench);
}

static void
let_go_of_before_it_began (void **state)
{
  Bench *bench = *state;

  bench->port.follow (bench->port.self, true);
  CARPACE_PORT_FREE (bench->port);
  bench->port = (CarpaceClicks) { 0 };
  while (g_main_context_iteration (NULL, FALSE))
    ;
  assert_int_equal (bench->begun, 0);
}

static pid_t
server_begun (char display[32])
{
  int ends[2];
  pid_t pid;
  char number[16] = "", fd[16], own[16];
  ssize_t n, all = 0;

  assert_int_equal (pipe (ends), 0);
  snprintf (fd, sizeof fd, "%d", ends[1]);
  snprintf (own, sizeof own, ":%d", 1000 + (int) (getpid () + 3001) % 50000); /* not the test's own, nor another test's */
  pid = fork ();
  assert_true (pid >= 0);
  if (pid == 0)
    {
      close (ends[0]);
      prctl (PR_SET_PDEATHSIG, SIGKILL);
      execlp ("Xvfb", "Xvfb", own, "-displayfd", fd, "-screen", "0", "640x480x24", "-nolisten", "tcp", "-noreset", (char *) NULL);
      _exit (127);
    }
  close (ends[1]);
  while (all < (ssize_t) sizeof number - 1 && memchr (number, '\n', (size_t) all) == NULL
         && (n = read (ends[0], number + all, sizeof number - 1 - (size_t) all)) > 0)
    all += n;
  close (ends[0]);
  assert_true (all > 1);
  snprintf (display, 32, ":%d", atoi (number));
  return pid;
}

/* From then on presses are unknown; a server that is not there is told as that, too. */
static void
a_server_that_goes_is_told (void **state)
{
  Bench *bench = *state;
  g_autofree char *own = g_strdup (g_getenv ("DISPLAY"));
  char display[32];
  pid_t server = server_begun (display);

  g_setenv ("DISPLAY", display, TRUE);
  follow (bench);
  kill (server, SIGKILL);
  waitpid (server, NULL, 0);
  wait_for (&bench->ended, 1);
  bench->port.follow (bench->port.self, true);
  wait_for (&bench->ended, 2);
  assert_int_equal (bench->begun, 1);
  g_setenv ("DISPLAY", own, TRUE);
  follow (bench);
  press_last (bench, 1);
}

static void
not_offered_beside_a_compositor (void **state)
{
  CarpaceClicks port = { .self = state };

  g_setenv ("WAYLAND_DISPLAY", "wayland-of-nobody", TRUE);
  assert_false (carpace_clicks_x11_open ((CarpaceClicksListener) { NULL, pressed, counts }, &port));
  assert_ptr_equal (port.self, state);
  g_unsetenv ("WAYLAND_DISPLAY");
}

int
main (void)
{
#define ROW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    ROW (buttons_count_and_the_wheel_does_not),
    ROW (nothing_is_heard_where_nothing_is_counted),
    ROW (a_grab_of_another_program_hides_no_press),
    ROW (let_go_of_before_it_began),
    ROW (a_server_that_goes_is_told),
    ROW (not_offered_beside_a_compositor),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
