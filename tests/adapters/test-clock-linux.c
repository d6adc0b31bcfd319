/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "clock-linux.h"

/* Offsets on both sides of the turns to and from summer time that Directive
 * 2000/84/EC sets: the last Sundays of March and October at 01:00 UTC
 * (2027-03-28, 2027-10-31), and a zone with neither whole hours nor summer
 * time (Nepal, +05:45). */
static const struct
{
  const char *name, *zone;
  int64_t wall_s;
  int32_t offset_s;
} offset_rows[] = {
  { .name = "last second of winter time", .zone = "Europe/Berlin", .wall_s = 1806195599, .offset_s = 3600 },
  { .name = "first of summer time", .zone = "Europe/Berlin", .wall_s = 1806195600, .offset_s = 7200 },
  { .name = "last of summer time", .zone = "Europe/Berlin", .wall_s = 1824944399, .offset_s = 7200 },
  { .name = "winter time again", .zone = "Europe/Berlin", .wall_s = 1824944400, .offset_s = 3600 },
  { .name = "quarter hours", .zone = "Asia/Kathmandu", .wall_s = 1806195600, .offset_s = 20700 },
  { .name = "before 1970", .zone = "UTC", .wall_s = -1, .offset_s = 0 },
};

static void
offsets_follow_the_zone (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (offset_rows); i++)
    {
      setenv ("TZ", offset_rows[i].zone, 1);
      int32_t offset_s = carpace_local_offset_s (offset_rows[i].wall_s * 1000 + 999);
      if (offset_s != offset_rows[i].offset_s)
        fail_msg ("%s: %d, not %d", offset_rows[i].name, offset_s, offset_rows[i].offset_s);
    }
  unsetenv ("TZ");
}

static void
now_agrees_with_the_kernel (void **state)
{
  CarpaceClockLinux clock = { .base = { .base_ms = 5000000 } };
  CarpaceClock port = carpace_clock_linux_port (&clock);
  struct timespec before, after, wall;
  clock_gettime (CLOCK_BOOTTIME, &before);
  CarpaceInstant now = port.now (port.self);
  clock_gettime (CLOCK_BOOTTIME, &after);
  clock_gettime (CLOCK_REALTIME, &wall);
  assert_in_range (now.elapsed_ms - 5000000, before.tv_sec * 1000 + before.tv_nsec / 1000000,
                   after.tv_sec * 1000 + after.tv_nsec / 1000000);
  assert_true (llabs (now.wall_ms / 1000 - wall.tv_sec) <= 1);
}

static void
the_boot_has_an_id (void **state)
{
  char id[CARPACE_BOOT_ID_BYTES], again[CARPACE_BOOT_ID_BYTES];
  assert_true (carpace_boot_id (id));
  assert_true (carpace_boot_id (again));
  assert_string_equal (id, again);
  assert_int_equal (strlen (id), CARPACE_BOOT_ID_BYTES - 1);
}

/* What elapsed time reads right after going on, against `last`. */
static void
elapsed_goes_on_across_a_reboot (void **state)
{
  static const struct
  {
    const char *name;
    bool same_boot;
    int64_t kept_base_ms, last_elapsed_less_boot_ms, wall_gone_ms, elapsed_after_last_ms;
  } rows[] = {
    { "same boot: the base stays", true, 7000, 6000, 999999, 1000 },
    { "another boot: the wall clock tells what has gone by", false, 7000, 1000000, 60000, 60000 },
    { "the wall clock was set back: nothing is added", false, 7000, 1000000, -60000, 0 },
    { "same id, but time went backwards", true, 0, 1000, 500, 500 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceClockBase kept = { .base_ms = rows[i].kept_base_ms, .boot_id = "another" };
      if (rows[i].same_boot)
        carpace_boot_id (kept.boot_id);
      CarpaceInstant last = {
        .elapsed_ms = carpace_boottime_ms () + rows[i].last_elapsed_less_boot_ms,
        .wall_ms = carpace_wall_ms () - rows[i].wall_gone_ms,
      };
      CarpaceClockLinux clock = { .base = carpace_clock_base_after (&kept, last) };
      CarpaceClock port = carpace_clock_linux_port (&clock);
      int64_t off = port.now (port.self).elapsed_ms - last.elapsed_ms - rows[i].elapsed_after_last_ms;
      if (off < 0 || off > 50)
        fail_msg ("%s: off by %" G_GINT64_FORMAT " ms", rows[i].name, off);
    }
}

/* Numbers from a file that somebody has doctored: elapsed time never goes back
 * behind the last moment, and never over the end of what a number holds. */
static void
doctored_numbers_wrap_nothing (void **state)
{
  static const struct
  {
    const char *name;
    bool same_boot;
    int64_t base_ms, elapsed_ms, wall_ms;
  } rows[] = {
    { "largest base", true, INT64_MAX, 5, 5 },
    { "smallest base", true, INT64_MIN, 5, 5 },
    { "largest base of another boot", false, INT64_MAX, 5, 5 },
    { "last moment at the end of time", true, 0, INT64_MAX, 5 },
    { "the same of another boot", false, 0, INT64_MAX, 5 },
    { "last moment before all time", false, 0, INT64_MIN, 5 },
    { "wall clock before all time", false, 0, 5, INT64_MIN },
    { "wall clock after all time", false, 0, 5, INT64_MAX },
    { "the end of time and long ago", false, 0, INT64_MAX, INT64_MIN },
    { "before all time and long ago", false, INT64_MIN, INT64_MIN, INT64_MIN },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceClockBase kept = { .base_ms = rows[i].base_ms, .boot_id = "another" };
      CarpaceInstant last = { .elapsed_ms = rows[i].elapsed_ms, .wall_ms = rows[i].wall_ms };
      CarpaceClockLinux clock;
      CarpaceClock port;

      if (rows[i].same_boot)
        carpace_boot_id (kept.boot_id);
      clock = (CarpaceClockLinux) { .base = carpace_clock_base_after (&kept, last) };
      port = carpace_clock_linux_port (&clock);
      if (port.now (port.self).elapsed_ms < last.elapsed_ms - (last.elapsed_ms == INT64_MAX))
        fail_msg ("%s: elapsed went back to %" G_GINT64_FORMAT, rows[i].name, port.now (port.self).elapsed_ms);
    }
}

/* A deadline far away, from a base far away: armed for never, or at once, not for
 * a number that wrapped. */
static void
a_doctored_base_arms_nothing_strange (void **state)
{
  static const struct { int64_t base_ms, deadline; } rows[] = {
    { INT64_MIN, 5 }, { INT64_MAX, -5 }, { INT64_MIN, INT64_MAX - 1 }, { INT64_MAX, INT64_MIN },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceClockLinux clock = { .base = { .base_ms = rows[i].base_ms } };
      CarpaceAlarm port;

      assert_true (carpace_alarm_linux_open (&clock, NULL, NULL, NULL, &port, NULL));
      port.arm (port.self, rows[i].deadline);
      CARPACE_PORT_FREE (port);
    }
}

static void
the_machine_tells_how_long_it_slept (void **state)
{
  CarpaceClockLinux clock = { .base = { .base_ms = 5 } };
  CarpaceClock port = carpace_clock_linux_port (&clock);
  int64_t slept_ms = port.slept_ms (port.self);

  assert_true (slept_ms >= -1);
  assert_in_range (port.slept_ms (port.self) - slept_ms + 20, 0, 40); /* nobody suspends it meanwhile */
}

static void
a_first_start_has_no_base (void **state)
{
  assert_int_equal (carpace_clock_base_after (NULL, (CarpaceInstant) { .elapsed_ms = 99 }).base_ms, 0);
}

typedef struct
{
  CarpaceClockLinux clock;
  CarpaceAlarm port;
  GMainLoop *loop;
  int times;
  int64_t came_ms, again_in_ms;
} Alarmed;

static int64_t
elapsed (Alarmed *alarmed)
{
  CarpaceClock port = carpace_clock_linux_port (&alarmed->clock);
  return port.now (port.self).elapsed_ms;
}

static void
came (void *user)
{
  Alarmed *alarmed = user;
  alarmed->times++;
  alarmed->came_ms = elapsed (alarmed);
  if (alarmed->again_in_ms > 0)
    {
      alarmed->port.arm (alarmed->port.self, alarmed->came_ms + alarmed->again_in_ms);
      alarmed->again_in_ms = 0;
    }
  else
    g_main_loop_quit (alarmed->loop);
}

static gboolean
give_up (gpointer loop)
{
  g_main_loop_quit (loop);
  return G_SOURCE_REMOVE;
}

static void
alarmed_new (Alarmed *alarmed)
{
  alarmed->clock.base.base_ms = 123456789;
  alarmed->loop = g_main_loop_new (NULL, FALSE);
  assert_true (carpace_alarm_linux_open (&alarmed->clock, NULL, came, alarmed, &alarmed->port, NULL));
}

static void
the_alarm_comes_at_its_time (void **state)
{
  Alarmed alarmed = { .again_in_ms = 20 };
  alarmed_new (&alarmed);
  int64_t deadline = elapsed (&alarmed) + 30;
  alarmed.port.arm (alarmed.port.self, deadline + 60000);
  alarmed.port.arm (alarmed.port.self, deadline); /* replaces it */
  g_main_loop_run (alarmed.loop);
  assert_int_equal (alarmed.times, 2);
  assert_in_range (alarmed.came_ms, deadline + 20, deadline + 20 + 500);

  alarmed.port.arm (alarmed.port.self, elapsed (&alarmed) - 86400000); /* long due */
  g_main_loop_run (alarmed.loop);
  assert_int_equal (alarmed.times, 3);
  alarmed.port.arm (alarmed.port.self, INT64_MIN / 2); /* before the boot */
  g_main_loop_run (alarmed.loop);
  assert_int_equal (alarmed.times, 4);
  CARPACE_PORT_FREE (alarmed.port);
  g_main_loop_unref (alarmed.loop);
}

static int64_t
voluntary_switches (void)
{
  char *text = NULL;
  int64_t n = -1;
  if (g_file_get_contents ("/proc/self/status", &text, NULL, NULL))
    {
      const char *line = strstr (text, "\nvoluntary_ctxt_switches:");
      n = line != NULL ? g_ascii_strtoll (strchr (line, '\t'), NULL, 10) : -1;
    }
  g_free (text);
  return n;
}

static void
an_alarm_not_armed_never_wakes (void **state)
{
  Alarmed alarmed = { 0 };
  alarmed_new (&alarmed);
  alarmed.port.arm (alarmed.port.self, elapsed (&alarmed) + 50);
  alarmed.port.arm (alarmed.port.self, CARPACE_NEVER);
  g_timeout_add (400, give_up, alarmed.loop);
  int64_t before = voluntary_switches ();
  g_main_loop_run (alarmed.loop);
  int64_t woken = voluntary_switches () - before;
  print_message ("alarm not armed, 0.4 s: %" G_GINT64_FORMAT " wake-ups, 1 of them the test's own\n", woken);
  assert_int_equal (alarmed.times, 0);
  assert_in_range (woken, 1, 2);
  CARPACE_PORT_FREE (alarmed.port);
  g_main_loop_unref (alarmed.loop);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (offsets_follow_the_zone),
    cmocka_unit_test (now_agrees_with_the_kernel),
    cmocka_unit_test (the_boot_has_an_id),
    cmocka_unit_test (elapsed_goes_on_across_a_reboot),
    cmocka_unit_test (doctored_numbers_wrap_nothing),
    cmocka_unit_test (a_doctored_base_arms_nothing_strange),
    cmocka_unit_test (the_machine_tells_how_long_it_slept),
    cmocka_unit_test (a_first_start_has_no_base),
    cmocka_unit_test (the_alarm_comes_at_its_time),
    cmocka_unit_test (an_alarm_not_armed_never_wakes),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
