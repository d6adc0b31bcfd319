/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-overlay-text.c: patterns of a streamer's own. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "text/overlay-text.h"

/* 2027-03-02T18:30:00+01:00 */
#define HALF_PAST INT64_C (1804008600000)

static CarpaceOverlayMoment
moment (int64_t to_go_ms, bool counting, bool running)
{
  CarpaceOverlayMoment at = { .pause = { .kind = CARPACE_PAUSE_INTERMISSION, .running = running, .to_go_ms = to_go_ms },
                              .counting = counting || running };

  at.begins = (CarpaceInstant) { .wall_ms = HALF_PAST, .offset_s = 3600 };
  at.ends = (CarpaceInstant) { .wall_ms = HALF_PAST + 180000, .offset_s = 3600 };
  return at;
}

typedef struct
{
  const char *name, *pattern;
  int64_t to_go_ms;
  bool counting, running;
  const char *line;
  int64_t stays_ms;
} Row;

static const Row rows[] = {
  { .name = "far away, in minutes up", .pattern = "Next: {to-go}", .to_go_ms = 660001, .line = "Next: 12 min", .stays_ms = 1 },
  { .name = "a minute's last moment", .pattern = "{to-go}", .to_go_ms = 660000, .line = "11 min", .stays_ms = 60000 },
  { .name = "from the notice on, in seconds", .pattern = "{to-go}", .to_go_ms = 119000, .counting = true, .line = "1:59",
    .stays_ms = 1000 },
  { .name = "running", .pattern = "Back in {to-go}", .to_go_ms = 500, .running = true, .line = "Back in 0:01",
    .stays_ms = 500 },
  { .name = "an hour and more", .pattern = "{to-go}", .to_go_ms = 3600000, .running = true, .line = "1:00:00",
    .stays_ms = 1000 },
  { .name = "times of day", .pattern = "{at} to {until}", .to_go_ms = 60000, .line = "18:30 to 18:33",
    .stays_ms = CARPACE_NEVER },
  { .name = "the sentence", .pattern = "{words}", .to_go_ms = 120000, .counting = true, .line = "Intermission in 2 minutes",
    .stays_ms = 60000 },
  { .name = "the sentence while it runs", .pattern = "{words}", .to_go_ms = 120000, .running = true,
    .line = "Intermission, 2:00 to go", .stays_ms = 1000 },
  { .name = "braces themselves", .pattern = "{{{to-go}}}", .to_go_ms = 60000, .line = "{1 min}", .stays_ms = 60000 },
  { .name = "another alphabet", .pattern = "Перерыв {at}", .to_go_ms = 60000, .line = "Перерыв 18:30",
    .stays_ms = CARPACE_NEVER },
  { .name = "no field", .pattern = "soon", .to_go_ms = 60000, .line = "soon", .stays_ms = CARPACE_NEVER },
};

static void
test_lines (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceOverlayMoment at = moment (rows[i].to_go_ms, rows[i].counting, rows[i].running);
      g_autofree char *fault = carpace_text_overlay_fault (rows[i].pattern);
      g_autofree char *line = carpace_text_overlay (rows[i].pattern, &at);

      if (fault != NULL || strcmp (line, rows[i].line) != 0)
        fail_msg ("%s: “%s”, %s", rows[i].name, line, fault ? fault : "no fault");
      if (carpace_text_overlay_stays_ms (rows[i].pattern, &at) != rows[i].stays_ms)
        fail_msg ("%s: stays another time", rows[i].name);
    }
}

/* The line stays as long as it is said to, and differs a moment later. */
static void
test_stays_as_said (void **state)
{
  for (int64_t to_go_ms = 1; to_go_ms < 300000; to_go_ms += 777)
    for (int counting = 0; counting < 2; counting++)
      {
        CarpaceOverlayMoment at = moment (to_go_ms, counting == 1, false);
        int64_t stays_ms = carpace_text_overlay_stays_ms ("{to-go}", &at);
        g_autofree char *line = carpace_text_overlay ("{to-go}", &at);
        CarpaceOverlayMoment just_before = moment (to_go_ms - stays_ms + 1, counting == 1, false);
        CarpaceOverlayMoment then = moment (to_go_ms - stays_ms, counting == 1, false);
        g_autofree char *same = carpace_text_overlay ("{to-go}", &just_before);
        g_autofree char *other = carpace_text_overlay ("{to-go}", &then);

        assert_string_equal (line, same);
        assert_string_not_equal (line, other);
      }
}

static void
test_nothing_ahead (void **state)
{
  CarpaceOverlayMoment none = { .pause = { .kind = CARPACE_PAUSE_NONE } };
  g_autofree char *line = carpace_text_overlay ("Next: {to-go}", &none);

  assert_string_equal (line, "");
  assert_true (carpace_text_overlay_stays_ms ("{to-go}", &none) == CARPACE_NEVER);
}

/* What runs comes first, an intermission before a short pause; off air there is nothing. */
static void
test_moments (void **state)
{
  static const struct
  {
    const char *name;
    bool off_air, rests, waits, intermission;
    int64_t in_ms, to_go_ms;
    const char *line;
    int64_t stays_ms;
  } cases[] = {
    { .name = "off air", .off_air = true, .rests = true, .line = "", .stays_ms = CARPACE_NEVER },
    { .name = "nothing ahead", .line = "", .stays_ms = CARPACE_NEVER },
    { .name = "ahead", .in_ms = 20 * CARPACE_MINUTE_MS, .line = "Intermission in 20 minutes 20 min 18:50 18:55", .stays_ms = 60000 },
    { .name = "near", .intermission = true, .in_ms = 60000, .line = "Intermission in 1 minute 1:00 18:31 18:36", .stays_ms = 1000 },
    { .name = "under way", .intermission = true, .to_go_ms = 240000, .line = "Intermission, 4:00 to go 4:00 18:29 18:34",
      .stays_ms = 1000 },
    { .name = "a short pause", .rests = true, .line = "Short pause, 0:23 to go 0:23 18:29 18:30", .stays_ms = 500 },
    { .name = "one that waits", .rests = true, .waits = true, .line = "Short pause, 0:23 to go 0:23 18:29 18:30",
      .stays_ms = CARPACE_NEVER },
    { .name = "one with an intermission near", .rests = true, .intermission = true, .in_ms = 60000,
      .line = "Short pause, 0:23 to go 0:23 18:29 18:30", .stays_ms = 500 },
    { .name = "one in an intermission", .rests = true, .intermission = true, .to_go_ms = 240000,
      .line = "Intermission, 4:00 to go 4:00 18:29 18:34", .stays_ms = 1000 },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceView view = { .on_air = !cases[i].off_air, .intermission = cases[i].intermission,
                           .intermission_in_ms = cases[i].intermission ? cases[i].in_ms : 0,
                           .next_intermission_in_ms = cases[i].in_ms, .intermission_to_go_ms = cases[i].to_go_ms,
                           .intermission_length_ms = 5 * CARPACE_MINUTE_MS };
      CarpaceInstant now = { .wall_ms = HALF_PAST, .offset_s = 3600 };
      CarpaceOverlayMoment at;
      g_autofree char *line = NULL;

      view.rest = (CarpaceRestView){ .running = cases[i].rests, .waits = cases[i].waits, .length_ms = 30000, .remaining_ms = 22500 };
      at = carpace_text_overlay_moment (&view, now);
      line = carpace_text_overlay ("{words} {to-go} {at} {until}", &at);
      if (strcmp (line, cases[i].line) != 0)
        fail_msg ("%s: “%s”", cases[i].name, line);
      if (carpace_text_overlay_stays_ms ("{words} {to-go}", &at) != cases[i].stays_ms)
        fail_msg ("%s: stays another time", cases[i].name);
    }
}

static const char *const bad[] = {
  "{", "{to-go", "{unknown}", "{}", "{ to-go }", "{TO-GO}", "a\nb", "\x1b[2J", "\xff", "{to-go{at}}",
};

static void
test_faults (void **state)
{
  g_autofree char *longest = g_strnfill (CARPACE_OVERLAY_CHARACTERS, 'x');
  g_autofree char *longer = g_strnfill (CARPACE_OVERLAY_CHARACTERS + 1, 'x');
  g_autofree char *fine = carpace_text_overlay_fault (longest);
  g_autofree char *fault = carpace_text_overlay_fault (longer);

  assert_null (fine);
  assert_non_null (fault);
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *why = carpace_text_overlay_fault (bad[i]);

      if (why == NULL)
        fail_msg ("%s: no fault", bad[i]);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_lines),
    cmocka_unit_test (test_stays_as_said),
    cmocka_unit_test (test_nothing_ahead),
    cmocka_unit_test (test_moments),
    cmocka_unit_test (test_faults),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
