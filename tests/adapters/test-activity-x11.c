/* SPDX-License-Identifier: GPL-3.0-or-later */
/* On a real X server; input by XTEST. Waits on what is told, with a limit. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>
#include <X11/extensions/XInput2.h>
#include <xcb/xcb.h>
#include <xcb/xtest.h>

#include "activity-x11.h"
#include "clock-linux.h"

#define LIMIT_MS 5000
#define SLACK_MS 1000 /* what a busy machine may be late by */
#define NEAR_MS 100   /* and what the server and this program may differ by */
#define MOST_FACTS 64

typedef struct
{
  CarpaceClockLinux clock;
  CarpaceClock clock_port;
  CarpaceActivity port;
  xcb_connection_t *x;
  xcb_window_t root;
  int n;
  CarpaceEvent fact[MOST_FACTS];
  int64_t told_ms[MOST_FACTS];
  int64_t moved_from_ms, moved_by_ms; /* the last move came between them */
} Bench;

static int64_t
elapsed (Bench *bench)
{
  return bench->clock_port.now (bench->clock_port.self).elapsed_ms;
}

static bool
take_fact (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  Bench *bench = self;
  assert_in_range (bench->n, 0, MOST_FACTS - 1);
  bench->told_ms[bench->n] = elapsed (bench);
  bench->fact[bench->n++] = *event;
  return true;
}

static void
move (Bench *bench)
{
  static int step = 1;
  step = -step;
  bench->moved_from_ms = elapsed (bench);
  xcb_test_fake_input (bench->x, XCB_MOTION_NOTIFY, 1, 0, bench->root, (int16_t) step, 0, 0);
  free (xcb_get_input_focus_reply (bench->x, xcb_get_input_focus (bench->x), NULL)); /* it has been done */
  bench->moved_by_ms = elapsed (bench);
}

/* Lets the loop run for @ms, or until @facts have been told. */
static void
wait_for (Bench *bench, int facts, int64_t ms)
{
  int64_t end = elapsed (bench) + ms;
  while (bench->n < facts && elapsed (bench) < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
}

static void
move_for (Bench *bench, int facts, int64_t ms)
{
  int64_t end = elapsed (bench) + ms;
  while (bench->n < facts && elapsed (bench) < end)
    {
      move (bench);
      wait_for (bench, facts, 4);
    }
}

static void
assert_near (const char *what, int64_t ms, int64_t expected, int64_t slack)
{
  if (llabs (ms - expected) > slack)
    fail_msg ("%s: %lld ms off", what, (long long) (ms - expected));
}

/* The last move came between two looks at the clock, however long a busy machine
 * took between them. */
static void
assert_last_move (const Bench *bench, const char *what, int64_t ms)
{
  if (ms < bench->moved_from_ms - NEAR_MS || ms > bench->moved_by_ms + NEAR_MS)
    fail_msg ("%s: %lld ms after the last move began, %lld before it was done", what,
              (long long) (ms - bench->moved_from_ms), (long long) (bench->moved_by_ms - ms));
}

static void
assert_fact (Bench *bench, int index, CarpaceEventKind kind)
{
  if (bench->n <= index)
    fail_msg ("fact %d was never told", index);
  assert_int_equal (bench->fact[index].kind, kind);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->clock.base.base_ms = 1000000;
  bench->clock_port = carpace_clock_linux_port (&bench->clock);
  bench->x = xcb_connect (NULL, NULL);
  bench->root = xcb_setup_roots_iterator (xcb_get_setup (bench->x)).data->root;
  assert_true (carpace_activity_x11_open (bench->clock_port, (CarpaceTell) { .self = bench, .tell = take_fact }, &bench->port));
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  CARPACE_PORT_FREE (bench->port);
  xcb_disconnect (bench->x);
  g_free (bench);
  return 0;
}

static void
a_gap_is_told_with_its_beginning_and_its_end (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 200);
  for (int round = 0; round < 5; round++)
    {
      int before = bench->n;
      move_for (bench, 1000, 60);
      int64_t last = elapsed (bench);
      bench->n = MIN (bench->n, before + 1); /* the first move may end a gap */
      int still = bench->n;
      wait_for (bench, still + 1, LIMIT_MS);
      assert_fact (bench, still, CARPACE_EVENT_STILL);
      assert_last_move (bench, "gap begun", bench->fact[still].fact.since_ms);
      assert_true (bench->told_ms[still] - bench->fact[still].fact.since_ms >= 200);
      assert_near ("gap told", bench->told_ms[still], last + 196, SLACK_MS);
      wait_for (bench, 1000, 100);
      assert_int_equal (bench->n, still + 1);
      int64_t moved = elapsed (bench);
      move (bench);
      wait_for (bench, still + 2, LIMIT_MS);
      assert_fact (bench, still + 1, CARPACE_EVENT_INPUT);
      assert_last_move (bench, "gap ended", bench->fact[still + 1].fact.since_ms);
      assert_near ("end told", bench->told_ms[still + 1], moved, SLACK_MS);
    }
}

static void
already_still_when_following_begins (void **state)
{
  Bench *bench = *state;
  move (bench);
  wait_for (bench, 1, 260);
  bench->port.follow (bench->port.self, 200);
  assert_int_equal (bench->n, 0); /* never within the call */
  wait_for (bench, 1, LIMIT_MS);
  assert_fact (bench, 0, CARPACE_EVENT_STILL);
  assert_last_move (bench, "since", bench->fact[0].fact.since_ms);
}

static void
nothing_is_told_once_it_is_no_longer_followed (void **state)
{
  Bench *bench = *state;
  move (bench);
  bench->port.follow (bench->port.self, 100);
  bench->port.follow (bench->port.self, 0);
  wait_for (bench, 1, 250);
  move (bench);
  wait_for (bench, 1, 50);
  assert_int_equal (bench->n, 0);
}

/* `start` by a shortcut, the hand never moves. */
static void
presumed_moving_but_still (void **state)
{
  Bench *bench = *state;
  move (bench);
  wait_for (bench, 1, 320);
  int64_t from = elapsed (bench);
  bench->port.follow (bench->port.self, 300);
  bench->port.recheck (bench->port.self, true, from);
  wait_for (bench, 1, LIMIT_MS);
  assert_fact (bench, 0, CARPACE_EVENT_STILL);
  assert_int_equal (bench->fact[0].fact.since_ms, from);
  assert_in_range (bench->told_ms[0] - from, 300, 300 + SLACK_MS);
}

/* `start` by a click, and nothing after it: the click is not the gap's
 * beginning, `start` is. */
static void
presumed_moving_right_after_input (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 300);
  move (bench);
  wait_for (bench, 1000, 150);
  bench->n = 0;
  int64_t from = elapsed (bench);
  bench->port.recheck (bench->port.self, true, from);
  wait_for (bench, 1, LIMIT_MS);
  assert_fact (bench, 0, CARPACE_EVENT_STILL);
  assert_int_equal (bench->fact[0].fact.since_ms, from);
  assert_in_range (bench->told_ms[0] - from, 300, 300 + SLACK_MS);
}

static void
presumed_moving_and_moving (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 300);
  move_for (bench, 1000, 30);
  bench->n = 0;
  int64_t from = elapsed (bench);
  bench->port.recheck (bench->port.self, true, from);
  move_for (bench, 1, 500);
  assert_int_equal (bench->n, 0);
  wait_for (bench, 1, LIMIT_MS);
  assert_fact (bench, 0, CARPACE_EVENT_STILL);
  assert_last_move (bench, "since", bench->fact[0].fact.since_ms);
}

/* `rest`, but the run goes on. */
static void
presumed_still_but_moving (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  move_for (bench, 1000, 30);
  bench->n = 0;
  int64_t from = elapsed (bench);
  bench->port.recheck (bench->port.self, false, from);
  move_for (bench, 1, LIMIT_MS);
  assert_fact (bench, 0, CARPACE_EVENT_INPUT);
  assert_in_range (bench->fact[0].fact.since_ms - from, 2000, 2000 + SLACK_MS);
}

/* `rest`; the hand goes back for its cup, and returns before a gap of 4 s has
 * gone by: no standing alarm would tell. */
static void
presumed_still_and_back_within_the_gap (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  move (bench);
  int64_t from = elapsed (bench);
  bench->port.recheck (bench->port.self, false, from);
  move_for (bench, 1, 500);
  wait_for (bench, 1, 2000);
  assert_int_equal (bench->n, 0);
  move (bench);
  wait_for (bench, 1, LIMIT_MS);
  assert_fact (bench, 0, CARPACE_EVENT_INPUT);
  assert_last_move (bench, "since", bench->fact[0].fact.since_ms);
}

static int64_t
switches (void)
{
  char *text = NULL;
  int64_t n = -1;
  if (g_file_get_contents ("/proc/self/status", &text, NULL, NULL))
    n = g_ascii_strtoll (strchr (strstr (text, "\nvoluntary_ctxt_switches:"), '\t'), NULL, 10);
  g_free (text);
  return n;
}

static void
tap_shift (Bench *bench)
{
  xcb_test_fake_input (bench->x, XCB_KEY_PRESS, 50, 0, XCB_NONE, 0, 0, 0);
  xcb_test_fake_input (bench->x, XCB_KEY_RELEASE, 50, 0, XCB_NONE, 0, 0, 0);
  xcb_flush (bench->x);
}

/* The mouse rests, the keyboard does not, and the other way round. */
static void
one_device_rests_and_another_does_not (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 200);
  move_for (bench, 1000, 60);
  bench->n = 0;
  for (int i = 0; i < 20; i++)
    {
      tap_shift (bench);
      wait_for (bench, 1, 40);
    }
  move_for (bench, 1, 600);
  assert_int_equal (bench->n, 0);
  wait_for (bench, 1, LIMIT_MS);
  assert_fact (bench, 0, CARPACE_EVENT_STILL);
  assert_last_move (bench, "since", bench->fact[0].fact.since_ms);
  int64_t pressed = elapsed (bench);
  tap_shift (bench);
  wait_for (bench, 2, LIMIT_MS);
  assert_fact (bench, 1, CARPACE_EVENT_INPUT);
  assert_near ("key", bench->fact[1].fact.since_ms, pressed, NEAR_MS);
}

/* A game or a film player that keeps the screen from going dark. */
static void
a_reset_of_the_screen_saver_is_no_hand (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 200);
  move (bench);
  wait_for (bench, 1000, 400);
  assert_fact (bench, bench->n - 1, CARPACE_EVENT_STILL);
  int told = bench->n;
  for (int i = 0; i < 3; i++)
    {
      xcb_force_screen_saver (bench->x, XCB_SCREEN_SAVER_RESET);
      xcb_flush (bench->x);
      wait_for (bench, told + 1, 150 + 100 * i);
      assert_int_equal (bench->n, told);
    }
  move (bench);
  wait_for (bench, told + 1, LIMIT_MS);
  assert_fact (bench, told, CARPACE_EVENT_INPUT);
  assert_last_move (bench, "input", bench->fact[told].fact.since_ms);

  /* and with a hand moving right after it */
  wait_for (bench, told + 2, LIMIT_MS);
  assert_fact (bench, told + 1, CARPACE_EVENT_STILL);
  xcb_force_screen_saver (bench->x, XCB_SCREEN_SAVER_RESET);
  xcb_flush (bench->x);
  wait_for (bench, told + 3, 20);
  move_for (bench, told + 3, LIMIT_MS);
  assert_fact (bench, told + 2, CARPACE_EVENT_INPUT);
}

/* As on any desktop with a few devices: some have numbers of two digits. */
static void
many_devices (void **state)
{
  Bench *bench = *state;
  Display *x = XOpenDisplay (NULL);
  int major = 2, minor = 0, opcode, event, error, n = 0, highest = 0;
  XIAnyHierarchyChangeInfo add[3] = { 0 };
  char names[][4] = { "one", "two", "six" };
  assert_true (XQueryExtension (x, "XInputExtension", &opcode, &event, &error));
  assert_int_equal (XIQueryVersion (x, &major, &minor), Success);
  for (int i = 0; i < 3; i++)
    add[i].add = (XIAddMasterInfo) { .type = XIAddMaster, .name = names[i], .send_core = True, .enable = True };
  assert_int_equal (XIChangeHierarchy (x, add, 3), Success);
  XIDeviceInfo *devices = XIQueryDevice (x, XIAllDevices, &n);
  for (int i = 0; i < n; i++)
    highest = MAX (highest, devices[i].deviceid);
  XIFreeDeviceInfo (devices);
  assert_in_range (highest, 10, 99);

  CARPACE_PORT_FREE (bench->port);
  assert_true (carpace_activity_x11_open (bench->clock_port, (CarpaceTell) { .self = bench, .tell = take_fact }, &bench->port));
  bench->port.follow (bench->port.self, 200);
  move_for (bench, 1000, 60);
  bench->n = 0;
  wait_for (bench, 1, LIMIT_MS);
  assert_fact (bench, 0, CARPACE_EVENT_STILL);
  assert_last_move (bench, "since", bench->fact[0].fact.since_ms);
  move (bench);
  wait_for (bench, 2, LIMIT_MS);
  assert_fact (bench, 1, CARPACE_EVENT_INPUT);
  XCloseDisplay (x);
}

/* A mouse in a process of its own, counting what it has sent. */
static pid_t
start_mouse (int per_second, volatile int64_t *sent)
{
  pid_t pid = fork ();
  if (pid != 0)
    return pid;
  prctl (PR_SET_PDEATHSIG, SIGKILL);
  xcb_connection_t *x = xcb_connect (NULL, NULL);
  xcb_window_t root = xcb_setup_roots_iterator (xcb_get_setup (x)).data->root;
  struct timespec next;
  clock_gettime (CLOCK_MONOTONIC, &next);
  for (int step = 1;; step = -step)
    {
      xcb_test_fake_input (x, XCB_MOTION_NOTIFY, 1, 0, root, (int16_t) step, 0, 0);
      xcb_flush (x);
      ++*sent;
      next.tv_nsec += 1000000000 / per_second;
      if (next.tv_nsec >= 1000000000)
        next.tv_sec++, next.tv_nsec -= 1000000000;
      clock_nanosleep (CLOCK_MONOTONIC, TIMER_ABSTIME, &next, NULL);
    }
}

static gboolean
quit (gpointer loop)
{
  g_main_loop_quit (loop);
  return G_SOURCE_REMOVE;
}

static int64_t
wakeups_under (Bench *bench, int per_second, guint ms)
{
  GMainLoop *loop = g_main_loop_new (NULL, FALSE);
  volatile int64_t *sent = mmap (NULL, sizeof *sent, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  assert_ptr_not_equal (sent, MAP_FAILED);
  pid_t mouse = start_mouse (per_second, sent);
  g_timeout_add (300, quit, loop);
  g_main_loop_run (loop); /* it moves by now, and a first INPUT is past */
  int facts = bench->n;
  g_timeout_add (ms, quit, loop);
  int64_t before = switches (), sent_before = *sent;
  g_main_loop_run (loop);
  int64_t woken = switches () - before - 1; /* the test's own timer */
  int64_t sent_in = *sent - sent_before;
  kill (mouse, SIGKILL);
  waitpid (mouse, NULL, 0);
  g_main_loop_unref (loop);
  munmap ((void *) sent, sizeof *sent);
  print_message ("mouse at %d events/s for %u ms: %lld events, %lld wake-ups, %d facts\n", per_second, ms,
                 (long long) sent_in, (long long) woken, bench->n - facts);
  assert_true (sent_in > (int64_t) per_second * ms / 1000 / 4);
  assert_int_equal (bench->n, facts);
  return woken;
}

static void
constant_motion_does_not_wake (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 200);
  int64_t slow = wakeups_under (bench, 1000, 3000);
  int64_t fast = wakeups_under (bench, 8000, 3000);
  assert_in_range (slow, 0, 1); /* one of the kernel's own is no flood */
  assert_in_range (fast, 0, 1);
}

static void
not_offered_without_a_server_of_the_session (void **state)
{
  g_autofree char *display = g_strdup (g_getenv ("DISPLAY"));
  CarpaceActivity activity = { 0 };

  g_setenv ("WAYLAND_DISPLAY", "wayland-0", TRUE);
  assert_false (carpace_activity_x11_open ((CarpaceClock) { 0 }, (CarpaceTell) { 0 }, &activity));
  g_unsetenv ("WAYLAND_DISPLAY");
  g_setenv ("DISPLAY", ":9999", TRUE);
  assert_false (carpace_activity_x11_open ((CarpaceClock) { 0 }, (CarpaceTell) { 0 }, &activity));
  g_setenv ("DISPLAY", display, TRUE);
  assert_null (activity.self);
}

#define ON_X(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ON_X (a_gap_is_told_with_its_beginning_and_its_end),
    ON_X (already_still_when_following_begins),
    ON_X (nothing_is_told_once_it_is_no_longer_followed),
    ON_X (presumed_moving_but_still),
    ON_X (presumed_moving_right_after_input),
    ON_X (presumed_moving_and_moving),
    ON_X (presumed_still_but_moving),
    ON_X (presumed_still_and_back_within_the_gap),
    ON_X (one_device_rests_and_another_does_not),
    ON_X (a_reset_of_the_screen_saver_is_no_hand),
    ON_X (constant_motion_does_not_wake),
    ON_X (many_devices),
    cmocka_unit_test (not_offered_without_a_server_of_the_session),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
