/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-history-text.c: a history as text, number by number, and every text that
 * is none. What is read comes from a file that anybody may have written. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/dose.h"

/* No two numbers that could be taken for each other are alike. */
#define MARKS                                                                                                     \
  "history 2\nfirst-dose 3600000\ndose 2340000\nlevel 3060000\nlevel-before-step 3000000\ndown-from 3500000\n"   \
  "last-change 20871\nlevel-change 20872\nlast-down -3\nlast-cut 20874\nlast-rest-day 20875\n"                    \
  "last-unanswered 20876\nrows-from 20870\nstraight-back 0\nslow-return 1\nlevel-steps-off 2\ncaution-open 1\n"   \
  "caution-since 20868\ncaution-closed -2147483648\ncaution-signs 5\nshown 3\non-air 1\naway 1\n"              \
  "hand 2\nmoving-since 86400000000\nstill-since -7\ncaution-shown 0\n"
#define DAY "day 20879 2340000 2100000 2250000 60000 -1 -5000 1 2 -1 1 0 13 7 3 4 0 1 1 0 1 0 1 0 1\n"
#define MARKS_1                                                                                                   \
  "history 1\ndose 3600000 2340000 3600000 0 1\nmarks 20871 20860 20871 -2147483648 -2147483648\n"               \
  "caution 0 -2147483648 -2147483648 0\nshown 3\n"
#define DAY_1 "day 20879 2340000 2340000 2340000 0 -1 5000 1 2 -1 0 0 13 2 2 1 0 0 0 0 0 0 1 0 0\n"

static CarpaceHistory h;
static char text[CARPACE_HISTORY_BYTES], again[CARPACE_HISTORY_BYTES];

static void
marks_are_where_they_belong (void **state)
{
  assert_true (carpace_history_read (MARKS DAY, &h));
  assert_int_equal (h.first_dose_ms, 3600000);
  assert_int_equal (h.dose_ms, 2340000);
  assert_int_equal (h.level_ms, 3060000);
  assert_int_equal (h.level_before_step_ms, 3000000);
  assert_int_equal (h.down_from_ms, 3500000);
  assert_int_equal (h.last_change, 20871);
  assert_int_equal (h.level_change, 20872);
  assert_int_equal (h.last_down, -3);
  assert_int_equal (h.last_cut, 20874);
  assert_int_equal (h.last_rest_day, 20875);
  assert_int_equal (h.last_unanswered, 20876);
  assert_int_equal (h.rows_from, 20870);
  assert_true (!h.straight_back && h.slow_return && h.caution_open && h.on_air && !h.caution_shown && h.away);
  assert_int_equal (h.hand, CARPACE_HAND_PAUSING);
  assert_int_equal (h.moving_since, 86400000000);
  assert_int_equal (h.still_since, -7);
  assert_int_equal (h.level_steps_off, 2);
  assert_int_equal (h.caution_since, 20868);
  assert_int_equal (h.caution_closed, CARPACE_NO_DAY);
  assert_int_equal (h.caution_signs, 5);
  assert_int_equal (h.shown_next, 3);
  assert_int_equal (h.n_days, 1);
}

static void
days_are_as_they_were (void **state)
{
  const CarpaceDayRecord *d = &h.days[0];

  assert_true (carpace_history_read (MARKS DAY, &h));
  assert_int_equal (d->day, 20879);
  assert_int_equal (d->dose_ms, 2340000);
  assert_int_equal (d->done_ms, 2100000);
  assert_int_equal (d->limits_ms, 2250000);
  assert_int_equal (d->match_ms, 60000);
  assert_int_equal (d->other_ms, -1);
  assert_int_equal (d->last_end_elapsed_ms, -5000);
  assert_int_equal (d->morning.waking, 1);
  assert_int_equal (d->morning.stiffness, CARPACE_STIFFNESS_USUAL);
  assert_int_equal (d->morning.now, -1);
  assert_true (d->morning.other_load && !d->morning.pain_relief);
  assert_int_equal (d->rule, 13);
  assert_int_equal (d->rating_sum, 7);
  assert_int_equal (d->n_ratings, 3);
  assert_int_equal (d->highest, 4);
  assert_true (!d->no_practice && d->worse && d->above_stop && !d->ended_above_stop && d->tightened_2 && !d->near_stop
               && d->last_answered && !d->beyond && d->cut_for);
}

static void
assert_same_text (const char *expected)
{
  size_t n = carpace_history_write (&h, text, sizeof text);

  assert_string_equal (text, expected);
  assert_int_equal (n, strlen (expected));
}

static void
what_is_read_is_written (void **state)
{
  assert_true (carpace_history_read (MARKS, &h));
  assert_int_equal (h.n_days, 0);
  assert_same_text (MARKS);
  assert_true (carpace_history_read (MARKS DAY DAY, &h));
  assert_same_text (MARKS DAY DAY);
}

/* A text that does not fit ends at the last number that does, and nothing is
 * written behind the room that there is. */
static void
room_that_is_too_small (void **state)
{
  size_t n;

  assert_true (carpace_history_read (MARKS, &h));
  n = carpace_history_write (&h, text, sizeof text);
  for (size_t size = 0; size <= n + 1; size++)
    {
      memset (again, 'x', sizeof again);
      assert_int_equal (carpace_history_write (&h, again, size), n);
      assert_int_equal (again[size], 'x');
      if (size > 0)
        assert_true (strlen (again) < size && strncmp (again, text, strlen (again)) == 0);
      assert_true (size < 10 || strlen (again) > 0);
    }
  assert_string_equal (again, text);
}

/* 64 days are kept, a 65th is not of this program. */
static void
as_many_days_as_are_kept (void **state)
{
  size_t n = (size_t) snprintf (text, sizeof text, MARKS);

  for (int i = 1; i <= CARPACE_HISTORY_DAYS + 1; i++)
    {
      n += (size_t) snprintf (text + n, sizeof text - n, DAY);
      assert_int_equal (carpace_history_read (text, &h), i <= CARPACE_HISTORY_DAYS);
    }
  assert_int_equal (h.n_days, CARPACE_HISTORY_DAYS);
}

/* @in, with the first @from in it as @to. */
static const char *
changed (const char *in, const char *from, const char *to)
{
  const char *at = strstr (in, from);

  if (at == NULL)
    fail_msg ("no “%s” to be changed", from);
  snprintf (text, sizeof text, "%.*s%s%s", (int) (at - in), in, to, at + strlen (from));
  return text;
}

static const struct { const char *from, *to; bool read; } changes[] = {
  /* the first word and the version */
  { "history", "history", true },
  { "history", "histories", false },
  { "history", "histor", false },
  { "history", "hystory", false },
  { "history", "", false },
  { "history 2", "history 3", false },
  { "history 2", "history 0", false },
  { "history 2", "history -1", false },
  { "history 2", "history", false },
  { "history 2", "history  2", false },
  /* keys */
  { "\ndose", "\ndosis", false },
  { "\ndose", "\nDose", false },
  { "\ndose ", "\ndose", false },
  { "\ndose", " dose", false },
  { "\ndose", "\n\ndose", false },
  { "\ndose", "dose", false },
  { "\ndose 2340000", "", false },
  { "\ndose 2340000", "\ndose 2340000\ndose 2340000", false },
  { "\ndose 2340000\nlevel 3060000", "\nlevel 3060000\ndose 2340000", false },
  { "\non-air 1", "", false },
  { "\ncaution-shown 0", "", false },
  /* numbers */
  { "last-down -3", "last-down 3", true },
  { "last-down -3", "last-down 0", true },
  { "last-down -3", "last-down -0", true },
  { "last-down -3", "last-down -9", true },
  { "last-down -3", "last-down 9", true },
  { "last-down -3", "last-down --3", false },
  { "last-down -3", "last-down -", false },
  { "last-down -3", "last-down ", false },
  { "last-down -3", "last-down", false },
  { "last-down -3", "last-down +3", false },
  { "last-down -3", "last-down 3.0", false },
  { "last-down -3", "last-down 3 ", false },
  { "last-down -3", "last-down 3 3", false },
  { "last-down -3", "last-down 3/", false },
  { "last-down -3", "last-down 3:", false },
  { "last-down -3", "last-down /", false },
  { "last-down -3", "last-down :", false },
  { "last-down -3", "last-down -2147483648", true },
  { "last-down -3", "last-down -2147483649", false },
  { "last-down -3", "last-down 2147483647", true },
  { "last-down -3", "last-down 2147483648", false },
  { "last-down -3", "last-down 00000000000000003", true }, /* 17 digits are read */
  { "last-down -3", "last-down 000000000000000003", false },
  { "last-down -3", "last-down 9223372036854775807", false },
  { "last-down -3", "last-down 9223372036854775808", false },
  { "last-down -3", "last-down 18446744073709551619", false }, /* 2^64 + 3 */
  { "last-down -3", "last-down 184467440737095516190", false },
  { "last-down -3", "last-down 680564733841876926926749214863536422915", false }, /* 2^129 + 3 */
  /* ranges, one below, at and one above */
  { "shown 3", "shown -1", false },
  { "shown 3", "shown 0", true },
  { "straight-back 0", "straight-back 1", true },
  { "straight-back 0", "straight-back 2", false },
  { "straight-back 0", "straight-back -1", false },
  { "caution-signs 5", "caution-signs 4095", true },
  { "caution-signs 5", "caution-signs 4096", false },
  { "caution-signs 5", "caution-signs -1", false },
  { "down-from 3500000", "down-from 86400000", true },
  { "down-from 3500000", "down-from 86400001", false },
  { "down-from 3500000", "down-from -1", false },
  { "level-steps-off 2", "level-steps-off 1073741824", true },
  { "level-steps-off 2", "level-steps-off 1073741825", false },
  /* the dose is never above its level */
  { "level 3060000", "level 2339999", false },
  { "level 3060000", "level 2340000", true },
  { "level 3060000", "level 2340001", true },
  /* a day's numbers */
  { "day 20879", "day", false },
  { "day 20879", "days 20879", false },
  { "day 20879", "20879", false },
  { " 1 0 1\n", " 1 0 1 0\n", false },
  { " 1 0 1\n", " 1 0\n", false },
  { " 1 0 1\n", " 1 0 1", false },
  { " 1 0 1\n", " 1 0 1\n\n", false },
  { " 1 0 1\n", " 1 0 1\nx", false },
  { " 1 0 1\n", " 1 0 1\nday", false },
  { " 60000 -1 ", " 60000 -2 ", false },
  { " 60000 -1 ", " 60000 0 ", true },
  { " -5000 1 2 -1", " -5000 10 0 10", true },
  { " -5000 1 2 -1", " -5000 11 0 10", false },
  { " -5000 1 2 -1", " -5000 10 0 11", false },
  { " -5000 1 2 -1", " -5000 -2 0 -1", false },
  { " -5000 1 2 -1", " -5000 -1 3 -1", true },
  { " -5000 1 2 -1", " -5000 -1 4 -1", false },
  { " -5000 ", " 6324480000000 ", true }, /* 200 years of 366 days, either way */
  { " -5000 ", " 6324480000001 ", false },
  { " -5000 ", " -6324480000000 ", true },
  { " -5000 ", " -6324480000001 ", false },
};

/* What cannot be read leaves what was there as it is. */
static void
texts_that_are_none (void **state)
{
  for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++)
    {
      memset (&h, 0x5a, sizeof h);
      if (carpace_history_read (changed (MARKS DAY, changes[i].from, changes[i].to), &h) != changes[i].read)
        fail_msg ("“%s” instead of “%s” is %sread", changes[i].to, changes[i].from, changes[i].read ? "not " : "");
      for (size_t at = 0; !changes[i].read && at < sizeof h; at++)
        assert_int_equal (((unsigned char *) &h)[at], 0x5a);
    }
}

/* However much of it there is, a text that was cut off is none. */
static void
texts_that_were_cut_off (void **state)
{
  static const char whole[] = MARKS DAY;

  for (size_t n = 0; n < sizeof whole - 1; n++)
    {
      snprintf (text, sizeof text, "%.*s", (int) n, whole);
      if (n != sizeof MARKS - 1)
        assert_false (carpace_history_read (text, &h));
    }
  assert_true (carpace_history_read (whole, &h));
}

static void
every_day_is_written_as_it_is (void **state)
{
  carpace_history_init (&h);
  for (int i = 0; i < 80; i++)
    {
      CarpaceDayRecord day = { .day = 20000 + i, .done_ms = i * 1000, .other_ms = -1, .highest = i % 11,
                               .morning = { i % 12 - 1, (CarpaceStiffness) (i % 4), -1, i % 2, i % 3 == 0 },
                               .rule = (CarpaceRule) (i % CARPACE_N_RULES), .cut_for = i % 5 == 0 };
      carpace_history_add (&h, &day);
    }
  assert_true (carpace_history_write (&h, text, sizeof text) < sizeof text);
  assert_true (carpace_history_read (text, &h));
  assert_int_equal (h.n_days, CARPACE_HISTORY_DAYS);
  assert_int_equal (h.days[0].day, 20016);
  carpace_history_write (&h, again, sizeof again);
  assert_string_equal (text, again);
}

/* What the marks of version 1 are called now; the way back is the level. */
static void
marks_of_version_1 (void **state)
{
  assert_true (carpace_history_read (MARKS_1 "on-air 1\n" DAY_1, &h));
  assert_int_equal (h.first_dose_ms, 60 * CARPACE_MINUTE_MS);
  assert_int_equal (h.dose_ms, 39 * CARPACE_MINUTE_MS);
  assert_int_equal (h.level_ms, 60 * CARPACE_MINUTE_MS);
  assert_int_equal (h.last_change, 20871);
  assert_int_equal (h.level_change, 20860); /* 7 days from the last rise, as before */
  assert_int_equal (h.last_cut, 20871);
  assert_int_equal (h.last_rest_day, CARPACE_NO_DAY);
  assert_true (h.slow_return && h.on_air && !h.caution_open);
  assert_int_equal (h.shown_next, 3);
  assert_int_equal (h.n_days, 1);
  assert_int_equal (h.days[0].rule, CARPACE_RULE_KEEP_WEEK);
  assert_int_equal (h.days[0].highest, 1);
}

/* No dose jumps: what was led back in steps is led back in steps. */
static void
the_way_back_of_version_1 (void **state)
{
  static const struct { const char *dose; int64_t level_ms; bool straight; } rows[] = {
    { "dose 3600000 2340000 2339999 0 1", 2340000, true },
    { "dose 3600000 2340000 2340000 0 1", 2340000, true },
    { "dose 3600000 2340000 2340001 0 1", 2340001, false },
    { "dose 3600000 3960000 0 0 0", 3960000, true }, /* none */
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      assert_true (carpace_history_read (changed (MARKS_1 DAY_1, "dose 3600000 2340000 3600000 0 1", rows[i].dose), &h));
      assert_int_equal (h.level_ms, rows[i].level_ms);
      assert_int_equal (h.straight_back, rows[i].straight);
      assert_false (h.on_air); /* its line came later */
    }
}

/* Written before a window could be chosen: practice is bound to none. */
static void
without_a_window (void **state)
{
  assert_true (carpace_history_read (changed (MARKS DAY, "away 1\n", ""), &h));
  assert_false (h.away);
  assert_false (carpace_history_read (changed (MARKS DAY, "away 1", "away 2"), &h));
}

/* Written before the hand was kept: it is still. */
static void
without_a_hand (void **state)
{
  assert_true (carpace_history_read (changed (MARKS DAY, "hand 2\nmoving-since 86400000000\nstill-since -7\n", ""), &h));
  assert_int_equal (h.hand, CARPACE_HAND_STILL);
  assert_false (carpace_history_read (changed (MARKS DAY, "hand 2", "hand 3"), &h));
}

/* Each version is read by its own marks. */
static void
marks_of_the_other_version (void **state)
{
  assert_false (carpace_history_read (changed (MARKS DAY, "history 2", "history 1"), &h));
  assert_false (carpace_history_read (changed (MARKS_1 DAY_1, "history 1", "history 2"), &h));
  assert_false (carpace_history_read (changed (MARKS_1 DAY_1, "shown 3\n", ""), &h));
  assert_false (carpace_history_read (MARKS_1 "on-air 2\n" DAY_1, &h));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (marks_are_where_they_belong),
    cmocka_unit_test (days_are_as_they_were),
    cmocka_unit_test (what_is_read_is_written),
    cmocka_unit_test (room_that_is_too_small),
    cmocka_unit_test (as_many_days_as_are_kept),
    cmocka_unit_test (texts_that_are_none),
    cmocka_unit_test (texts_that_were_cut_off),
    cmocka_unit_test (every_day_is_written_as_it_is),
    cmocka_unit_test (marks_of_version_1),
    cmocka_unit_test (the_way_back_of_version_1),
    cmocka_unit_test (without_a_window), cmocka_unit_test (without_a_hand), cmocka_unit_test (marks_of_the_other_version),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
