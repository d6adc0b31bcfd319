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
  CarpaceOverlayMoment at = { .any = true, .counting = counting, .running = running, .to_go_ms = to_go_ms };

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
    .line = "Intermission", .stays_ms = CARPACE_NEVER },
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
  CarpaceOverlayMoment none = { .any = false };
  g_autofree char *line = carpace_text_overlay ("Next: {to-go}", &none);

  assert_string_equal (line, "");
  assert_true (carpace_text_overlay_stays_ms ("{to-go}", &none) == CARPACE_NEVER);
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
    cmocka_unit_test (test_faults),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
