/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-sittings.c: a day's sittings, entry by entry. A sitting is its block's number
 * (m: a match), its rests, when it began and, where over, when it ended and its
 * active time, all in seconds. */
#include <inttypes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/sittings.h"

#define S CARPACE_SECOND_MS

static CarpaceSittings sat;

static int
begin (void **state)
{
  memset (&sat, 0, sizeof sat);
  return 0;
}

static CarpaceEntry
entry_at (int64_t at_s, CarpaceEntryKind kind)
{
  return (CarpaceEntry) { .kind = kind, .at = { .elapsed_ms = at_s * S } };
}

static void
day (int64_t at_s, CarpaceDayWhat what)
{
  CarpaceEntry entry = entry_at (at_s, CARPACE_ENTRY_DAY);

  entry.day.what = what;
  carpace_sittings_note (&sat, &entry);
}

static void
start (int64_t at_s, int32_t number)
{
  CarpaceEntry entry = entry_at (at_s, CARPACE_ENTRY_BLOCK);

  entry.block.what = CARPACE_BLOCK_STARTED;
  entry.block.number = number;
  entry.block.match = number == 0;
  carpace_sittings_note (&sat, &entry);
}

static void
end_late (int64_t at_s, CarpaceBlockWhat what, int64_t active_s, int64_t before_s)
{
  CarpaceEntry entry = entry_at (at_s, CARPACE_ENTRY_BLOCK);

  entry.block.what = what;
  entry.block.active_ms = active_s * S;
  entry.block.ended_before_ms = before_s * S;
  carpace_sittings_note (&sat, &entry);
}

static void
end (int64_t at_s, CarpaceBlockWhat what, int64_t active_s)
{
  end_late (at_s, what, active_s, 0);
}

static void
overrun (int64_t at_s, int32_t block, int64_t ms_s, int64_t before_s)
{
  CarpaceEntry entry = entry_at (at_s, CARPACE_ENTRY_OVERRUN);

  entry.overrun.block = block;
  entry.overrun.ms = ms_s * S;
  entry.overrun.ended_before_ms = before_s * S;
  carpace_sittings_note (&sat, &entry);
}

static void
rest (int64_t at_s, CarpaceRestWhat what)
{
  CarpaceEntry entry = entry_at (at_s, CARPACE_ENTRY_REST);

  entry.rest.what = what;
  carpace_sittings_note (&sat, &entry);
}

static void
are (const char *expected)
{
  char text[256] = "";
  size_t n = 0;

  for (int32_t i = 0; i < sat.n && n < sizeof text; i++)
    {
      const CarpaceSitting *one = &sat.sitting[i];
      char number[12] = "m";
      if (!one->match)
        snprintf (number, sizeof number, "%" PRId32, one->number);
      n += (size_t) snprintf (text + n, sizeof text - n, "%s%s/%" PRId32 " %" PRId64, i > 0 ? ", " : "", number, one->rests,
                              one->began.elapsed_ms / S);
      if (one->over && n < sizeof text)
        n += (size_t) snprintf (text + n, sizeof text - n, "..%" PRId64 " %" PRId64, one->ended.elapsed_ms / S, one->active_ms / S);
    }
  assert_string_equal (text, expected);
}

static void
blocks_and_matches_in_their_order (void **state)
{
  start (10, 1);
  are ("1/0 10");
  end (900, CARPACE_BLOCK_ENDED, 890);
  are ("1/0 10..900 890");
  start (1000, 0);
  end (1500, CARPACE_BLOCK_ENDED, 400);
  start (3000, 2);
  are ("1/0 10..900 890, m/0 1000..1500 400, 2/0 3000");
}

/* Found by a wake-up: the hand had gone long before. */
static void
an_end_that_is_found_late (void **state)
{
  start (10, 1);
  end_late (9000, CARPACE_BLOCK_ENDED, 300, 8600);
  are ("1/0 10..400 300");
}

static void
a_block_that_was_none (void **state)
{
  start (10, 1);
  end (900, CARPACE_BLOCK_ENDED, 890);
  start (1000, 2);
  end (1020, CARPACE_BLOCK_DROPPED, 20);
  are ("1/0 10..900 890");
  end (1030, CARPACE_BLOCK_DROPPED, 20); /* there is none that could be */
  end (1040, CARPACE_BLOCK_ENDED, 20);
  are ("1/0 10..900 890");
}

static void
rests_of_the_one_under_way (void **state)
{
  rest (5, CARPACE_REST_TAKEN); /* of none */
  are ("");
  start (10, 1);
  rest (300, CARPACE_REST_TAKEN);
  rest (400, CARPACE_REST_DECLINED);
  rest (500, CARPACE_REST_INTERRUPTED);
  are ("1/1 10");
  rest (600, CARPACE_REST_TAKEN);
  end (900, CARPACE_BLOCK_ENDED, 800);
  rest (1000, CARPACE_REST_TAKEN); /* between blocks */
  are ("1/2 10..900 800");
}

/* What goes on past the end is of the block that ended last, and of no other. */
static void
a_stretch_that_outlives_its_block (void **state)
{
  overrun (5, 1, 30, 0);
  are ("");
  start (10, 1);
  overrun (20, 1, 30, 0); /* it has not ended */
  are ("1/0 10");
  end (910, CARPACE_BLOCK_ENDED, 900);
  overrun (1000, 2, 60, 0);
  are ("1/0 10..910 900");
  overrun (1000, 1, 60, 0);
  are ("1/0 10..1000 960");
  overrun (9000, 1, 40, 7950); /* found late */
  are ("1/0 10..1050 1000");
}

static void
a_new_day_begins_with_none (void **state)
{
  start (10, 1);
  end (910, CARPACE_BLOCK_ENDED, 900);
  day (920, CARPACE_DAY_DONE);
  are ("1/0 10..910 900");
  day (80000, CARPACE_DAY_OPENED);
  are ("");
  start (80010, 1);
  are ("1/0 80010");
}

/* Other entries have what a block or a rest has at the same place in memory. */
static void
nothing_else_changes_them (void **state)
{
  start (10, 1);
  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      CarpaceEntry entry = entry_at (20, (CarpaceEntryKind) kind);
      bool of_these = kind == CARPACE_ENTRY_DAY || kind == CARPACE_ENTRY_BLOCK || kind == CARPACE_ENTRY_REST;

      entry.rest.what = CARPACE_REST_TAKEN;
      if (!of_these)
        carpace_sittings_note (&sat, &entry);
      entry.block.what = CARPACE_BLOCK_STARTED;
      if (!of_these)
        carpace_sittings_note (&sat, &entry);
    }
  are ("1/0 10");
}

/* Of more than are remembered the first ones go; the last is the last still. */
static void
more_than_are_remembered (void **state)
{
  static const int32_t extra[] = { -1, 0, 1, 2 };

  for (size_t i = 0; i < sizeof extra / sizeof extra[0]; i++)
    {
      int32_t n = CARPACE_SITTINGS + extra[i], kept = n < CARPACE_SITTINGS ? n : CARPACE_SITTINGS;

      begin (state);
      for (int32_t number = 1; number <= n; number++)
        {
          start (100 * number, number);
          end (100 * number + 50, CARPACE_BLOCK_ENDED, number);
        }
      assert_int_equal (sat.n, kept);
      for (int32_t at = 0; at < kept; at++)
        {
          assert_int_equal (sat.sitting[at].number, n - kept + 1 + at);
          assert_int_equal (sat.sitting[at].active_ms, sat.sitting[at].number * S);
        }
    }
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup (name, begin)
  const struct CMUnitTest tests[] = {
    TEST (blocks_and_matches_in_their_order),
    TEST (an_end_that_is_found_late),
    TEST (a_block_that_was_none),
    TEST (rests_of_the_one_under_way),
    TEST (a_stretch_that_outlives_its_block),
    TEST (a_new_day_begins_with_none),
    TEST (nothing_else_changes_them),
    TEST (more_than_are_remembered),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
