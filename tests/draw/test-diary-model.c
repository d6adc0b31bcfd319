/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-diary-model.c: rows, days, weeks, and the traps of the wall clock. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "days.h"
#include "draw/diary-model.h"

#define M CARPACE_MINUTE_MS

static int
set_up (void **state)
{
  *state = carpace_fake_diary_new ();
  return 0;
}

static int
tear_down (void **state)
{
  carpace_fake_diary_free (*state);
  return 0;
}

static CarpaceDiaryModel *
model_of (CarpaceFakeDiary *fake, CarpaceDay since, CarpaceDay until)
{
  CarpaceDiary diary = carpace_fake_diary_port (fake);

  return carpace_diary_model_new (&diary, since, until);
}

static const CarpaceDiaryBlock *
block_at (const CarpaceDiaryDay *day, guint index)
{
  assert_in_range (index, 0, day->blocks->len - 1);
  return &g_array_index (day->blocks, CarpaceDiaryBlock, index);
}

static void
test_rows (void **state)
{
  CarpaceFakeDiary *fake = *state;
  static const CarpaceDiaryRow rows[] = {
    { CARPACE_DIARY_ROW_DAY, MONDAY, MONDAY, 0 },
    { CARPACE_DIARY_ROW_DAY, MONDAY + 1, MONDAY + 1, -1 },
    { CARPACE_DIARY_ROW_DAY, MONDAY + 2, MONDAY + 2, 1 },
    { CARPACE_DIARY_ROW_GAP, MONDAY + 3, MONDAY + 6, -1 },
    { CARPACE_DIARY_ROW_WEEK, MONDAY, MONDAY + 6, -1 },
    { CARPACE_DIARY_ROW_GAP, MONDAY + 7, MONDAY + 22, -1 },
    { CARPACE_DIARY_ROW_DAY, MONDAY + 23, MONDAY + 23, 2 },
    { CARPACE_DIARY_ROW_DAY, MONDAY + 24, MONDAY + 24, -1 },
  };
  CarpaceDiaryModel *model;

  write_day (fake, MONDAY, 30, 0, 0);
  write_day (fake, MONDAY + 2, 30, 0, 0);
  write_day (fake, MONDAY + 23, 30, 0, 0);
  model = model_of (fake, MONDAY, MONDAY + 24);
  assert_int_equal (carpace_diary_model_n_rows (model), G_N_ELEMENTS (rows));
  for (int32_t i = 0; i < (int32_t) G_N_ELEMENTS (rows); i++)
    {
      const CarpaceDiaryRow *row = carpace_diary_model_row (model, i);

      assert_int_equal (row->kind, rows[i].kind);
      assert_int_equal (row->first, rows[i].first);
      assert_int_equal (row->last, rows[i].last);
      assert_int_equal (row->sum, rows[i].sum);
    }
  carpace_diary_model_free (model);
}

/* Every date lies in exactly one row, and is found there. */
static void
test_every_date_has_one_row (void **state)
{
  CarpaceFakeDiary *fake = carpace_fake_diary_season (3, MONDAY + 2, 900);
  CarpaceDiaryModel *model = model_of (fake, MONDAY + 2, MONDAY + 910);
  CarpaceDay next = MONDAY + 2;

  for (int32_t i = 0; i < carpace_diary_model_n_rows (model); i++)
    {
      const CarpaceDiaryRow *row = carpace_diary_model_row (model, i);

      if (row->kind == CARPACE_DIARY_ROW_WEEK)
        continue;
      assert_int_equal (row->first, next);
      for (CarpaceDay day = row->first; day <= row->last; day++)
        assert_int_equal (carpace_diary_model_row_of (model, day), i);
      next = row->last + 1;
    }
  assert_int_equal (next, MONDAY + 911);
  assert_int_equal (carpace_diary_model_row_of (model, MONDAY + 911), -1);
  assert_int_equal (carpace_diary_model_row_of (model, MONDAY + 1), -1);
  carpace_diary_model_free (model);
  carpace_fake_diary_free (fake);
}

/* Ten years open with one reading; a day's own records come when asked for, and once. */
static void
test_reads_what_is_asked_for (void **state)
{
  CarpaceFakeDiary *fake = carpace_fake_diary_season (3, MONDAY, 3650);
  CarpaceDiaryModel *model = model_of (fake, CARPACE_NO_DAY, MONDAY + 3649);

  assert_int_equal (carpace_fake_diary_reads (fake), 1);
  assert_int_equal (carpace_diary_model_row (model, 0)->first, MONDAY);
  assert_non_null (carpace_diary_model_day (model, MONDAY + 3004));
  assert_non_null (carpace_diary_model_day (model, MONDAY + 3005));
  assert_int_equal (carpace_fake_diary_reads (fake), 1);
  carpace_diary_model_free (model);
  carpace_fake_diary_free (fake);
}

static void
test_a_broken_diary (void **state)
{
  CarpaceFakeDiary *fake = *state;
  CarpaceDiaryModel *model;

  write_day (fake, MONDAY, 30, 0, 0);
  model = model_of (fake, MONDAY, MONDAY);
  carpace_fake_diary_break (fake);
  assert_false (carpace_diary_model_reread (model));
  assert_int_equal (carpace_diary_model_n_sums (model), 1);
  assert_null (carpace_diary_model_day (model, MONDAY));
  assert_null (model_of (fake, MONDAY, MONDAY));
  carpace_diary_model_free (model);
}

static void
test_corrections_keep_the_first_number (void **state)
{
  CarpaceFakeDiary *fake = *state;
  Pencil pencil = { .fake = fake, .day = MONDAY };
  CarpaceDiaryModel *model;
  const CarpaceDiaryDay *day;

  write_block (&pencil, 1, 20 * M, 20 * M);
  pass (&pencil, 7000);
  write_rating (&pencil, 1, 5, -1, false);
  write_decision (&pencil, CARPACE_SCOPE_BLOCK, CARPACE_RULE_UP_2, 20 * M, 13 * M, 1);
  write_rating (&pencil, 1, 3, 5, false);
  write_rating (&pencil, 1, 2, 3, false);
  write_block (&pencil, 2, 13 * M, 13 * M);
  write_rating (&pencil, 2, -1, -1, false);
  write_rating (&pencil, 2, 1, -1, true);
  write_block (&pencil, 0, 40 * M, 0);
  write_rating (&pencil, 0, 4, -1, false);
  write_block (&pencil, 0, 40 * M, 0);
  write_rating (&pencil, 0, 0, -1, false);
  write_rating (&pencil, 0, 2, 4, false);
  model = model_of (fake, MONDAY, MONDAY);
  day = carpace_diary_model_day (model, MONDAY);
  assert_int_equal (day->blocks->len, 4);
  assert_int_equal (block_at (day, 0)->discomfort, 2);
  assert_int_equal (block_at (day, 0)->corrected_from, 5);
  assert_true (block_at (day, 0)->lowered_after_decision);
  assert_int_equal (block_at (day, 0)->to_tap_ms, 7000);
  assert_int_equal (block_at (day, 1)->discomfort, 1);
  assert_true (block_at (day, 1)->late);
  assert_int_equal (block_at (day, 1)->to_tap_ms, -1);
  assert_int_equal (block_at (day, 1)->corrected_from, -1);
  /* The correction of a match finds the match it is about. */
  assert_int_equal (block_at (day, 2)->discomfort, 2);
  assert_int_equal (block_at (day, 2)->corrected_from, 4);
  assert_int_equal (block_at (day, 3)->discomfort, 0);
  carpace_diary_model_free (model);
}

typedef struct
{
  const char *name;
  int64_t wall_by_ms;   /* the clock is set by this between the block's end and the tap */
  int32_t offset_s;     /* and this offset holds then */
} TrapRow;

/* A wall clock that jumps moves no record to another day, and takes no time
 * from anything: only elapsed time counts. */
static const TrapRow traps[] = {
  { .name = "no trap", .wall_by_ms = 0, .offset_s = 3600 },
  { .name = "another zone", .wall_by_ms = 0, .offset_s = -18000 },
  { .name = "summer time begins", .wall_by_ms = 0, .offset_s = 7200 },
  { .name = "summer time ends", .wall_by_ms = 0, .offset_s = 0 },
  { .name = "the clock set back", .wall_by_ms = -3 * CARPACE_HOUR_MS, .offset_s = 3600 },
  { .name = "past the day's turn", .wall_by_ms = 12 * CARPACE_HOUR_MS, .offset_s = 3600 },
};

static void
test_wall_clock_traps (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (traps); i++)
    {
      CarpaceFakeDiary *fake = carpace_fake_diary_new ();
      Pencil pencil = { .fake = fake, .day = MONDAY, .at = { .wall_ms = MONDAY * CARPACE_DAY_MS, .offset_s = 3600 } };
      CarpaceDiaryModel *model;
      const CarpaceDiaryDay *day;

      write_opening (&pencil, 20 * M);
      write_block (&pencil, 1, 20 * M, 20 * M);
      pass (&pencil, 5000);
      pencil.at.wall_ms += traps[i].wall_by_ms;
      pencil.at.offset_s = traps[i].offset_s;
      write_rating (&pencil, 1, 2, -1, false);
      model = model_of (fake, MONDAY - 1, MONDAY + 1);
      day = carpace_diary_model_day (model, MONDAY);
      if (carpace_diary_model_n_sums (model) != 1 || day == NULL || block_at (day, 0)->to_tap_ms != 5000
          || carpace_diary_model_sum (model, 0)->done_ms != 20 * M || block_at (day, 0)->discomfort != 2)
        fail_msg ("%s", traps[i].name);
      carpace_diary_model_free (model);
      carpace_fake_diary_free (fake);
    }
}

typedef struct
{
  const char *name;
  int32_t sum, n, sum_before, n_before;
  bool rising;
} RisingRow;

/* The rule: more than 0.5 above the week before, 6 ratings in each. */
static const RisingRow rising_rows[] = {
  { .name = "just 0.5 is not more", .sum = 9, .n = 6, .sum_before = 6, .n_before = 6, .rising = false },
  { .name = "a sixth more is", .sum = 10, .n = 6, .sum_before = 6, .n_before = 6, .rising = true },
  { .name = "five are too few", .sum = 20, .n = 5, .sum_before = 0, .n_before = 6, .rising = false },
  { .name = "five before are too few", .sum = 20, .n = 6, .sum_before = 0, .n_before = 5, .rising = false },
  { .name = "falling", .sum = 0, .n = 20, .sum_before = 60, .n_before = 20, .rising = false },
  { .name = "different counts, 1.51 over 1", .sum = 151, .n = 100, .sum_before = 7, .n_before = 7, .rising = true },
  { .name = "different counts, 1.50 over 1", .sum = 150, .n = 100, .sum_before = 7, .n_before = 7, .rising = false },
};

static void
test_rising (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rising_rows); i++)
    {
      const RisingRow *row = &rising_rows[i];

      if (carpace_diary_rising (row->sum, row->n, row->sum_before, row->n_before) != row->rising)
        fail_msg ("%s", row->name);
    }
}

static void
test_week (void **state)
{
  CarpaceFakeDiary *fake = *state;
  CarpaceDiaryModel *model;
  CarpaceWeekNumbers week;

  for (int32_t i = 0; i < 14; i++)
    write_day (fake, MONDAY + i, 30, i < 7 ? 1 : 2, i);
  model = model_of (fake, MONDAY, MONDAY + 13);
  week = carpace_diary_model_week (model, MONDAY + 7);
  assert_int_equal (week.practised, 7);
  assert_int_equal (week.done_ms, 7 * 30 * M);
  assert_int_equal (week.rating_sum, 14);
  assert_int_equal (week.sum_before, 7);
  assert_int_equal (week.n_before, 7);
  assert_true (week.rising);
  assert_int_equal (carpace_diary_monday (MONDAY + 6), MONDAY);
  assert_int_equal (carpace_diary_monday (MONDAY), MONDAY);
  assert_int_equal (carpace_diary_monday (-1), -3);
  carpace_diary_model_free (model);
}

/* Only the very next date is the morning after. */
static void
test_mornings_after (void **state)
{
  CarpaceFakeDiary *fake = *state;
  CarpaceDiaryModel *model;
  g_autoptr (GArray) mornings = NULL;

  write_day (fake, MONDAY, 30, 0, 1);
  write_day (fake, MONDAY + 1, 40, 0, 2);
  write_day (fake, MONDAY + 2, 50, 0, -1);
  write_day (fake, MONDAY + 3, 60, 0, 3);
  write_day (fake, MONDAY + 5, 60, 0, 9);
  model = model_of (fake, MONDAY, MONDAY + 6);
  mornings = carpace_diary_model_mornings_after (model, MONDAY, MONDAY + 6);
  assert_int_equal (mornings->len, 2);
  assert_int_equal (g_array_index (mornings, CarpaceMorningAfter, 0).waking, 2);
  assert_int_equal (g_array_index (mornings, CarpaceMorningAfter, 0).done_ms, 30 * M);
  assert_int_equal (g_array_index (mornings, CarpaceMorningAfter, 1).done_ms, 50 * M);
  carpace_diary_model_free (model);
}

#define WITH_FAKE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    WITH_FAKE (test_rows),
    cmocka_unit_test (test_every_date_has_one_row),
    cmocka_unit_test (test_reads_what_is_asked_for),
    WITH_FAKE (test_a_broken_diary),
    WITH_FAKE (test_corrections_keep_the_first_number),
    cmocka_unit_test (test_wall_clock_traps),
    cmocka_unit_test (test_rising),
    WITH_FAKE (test_week),
    WITH_FAKE (test_mornings_after),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
