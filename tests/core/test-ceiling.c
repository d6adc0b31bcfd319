/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-ceiling.c: what is fixed, added up, kept as text, and held. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/ceiling.h"
#include "carpace/plan-keys.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))
#define S 1000.0
#define MIN (60 * S)

/* Blocks that are as long as @limits_ms (ended by 0) say, the dose their sum. */
static void
plan_of (CarpacePlan *plan, const int64_t *limits_ms)
{
  memset (plan, 0, sizeof *plan);
  strcpy (plan->name, "N");
  plan->version = 1;
  for (; *limits_ms != 0; limits_ms++)
    {
      plan->blocks[plan->n_blocks++].limit_ms = *limits_ms;
      plan->dose_ms += *limits_ms;
    }
}

static void
give (CarpaceCeiling *ceiling, const CarpacePlan *plan)
{
  memset (ceiling, 0, sizeof *ceiling);
  carpace_ceiling_add (ceiling, plan);
}

static bool
keeps (const CarpaceCeiling *ceiling, const CarpacePlan *plan)
{
  return carpace_ceiling_breach (ceiling, plan).kind == CARPACE_BREACH_NONE;
}

/* Through text and back nothing of it is lost. */
static void
assert_survives (const CarpaceCeiling *ceiling)
{
  char text[CARPACE_CEILING_BYTES], again[CARPACE_CEILING_BYTES];
  CarpaceCeiling back;

  carpace_ceiling_write (ceiling, text);
  if (!carpace_ceiling_read (text, &back))
    fail_msg ("not read back: %s", text);
  carpace_ceiling_write (&back, again);
  assert_string_equal (text, again);
  assert_memory_equal (back.fixed, ceiling->fixed, sizeof back.fixed);
  assert_memory_equal (back.limit_ms, ceiling->limit_ms, sizeof back.limit_ms);
  assert_int_equal (back.n_blocks, ceiling->n_blocks);
}

/* The key table's last column. */
static const struct { CarpacePlanKey key; double given, other; int looser; } loosening[] = {
  /* looser: 1 where `other` is, -1 where `given` would be, 0 where neither may be */
  { CARPACE_KEY_VERSION, 1, 2, 0 },
  { CARPACE_KEY_HAND_SIDE, 0, 1, 0 },
  { CARPACE_KEY_HAND_GRIP, 0, 1, 0 },
  { CARPACE_KEY_HAND_CM_PER_TURN, 30, 40, 0 },
  { CARPACE_KEY_HAND_USUAL_DISCOMFORT, 0, 1, 1 },
  { CARPACE_KEY_PLAYER_AGE, 0, 1, 0 },
  { CARPACE_KEY_DAY_DOSE, 30 * MIN, 31 * MIN, 1 },
  { CARPACE_KEY_DAY_STARTS_AT, 240, 300, 0 },
  { CARPACE_KEY_DAY_BETWEEN_BLOCKS, 10 * MIN, 11 * MIN, -1 },
  { CARPACE_KEY_WEEK_WITHOUT, 1 << CARPACE_WEEKDAY_SUNDAY, 1 << CARPACE_WEEKDAY_SUNDAY | 1, -1 },
  { CARPACE_KEY_GAP_AFTER, 4 * S, 5 * S, 0 },
  { CARPACE_KEY_RUN_MIN, 4 * S, 5 * S, 0 },
  { CARPACE_KEY_MICRO_REST_AFTER, 4 * MIN, 5 * MIN, 1 },
  { CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS, 4, 5, 0 },
  { CARPACE_KEY_MICRO_REST_LENGTH, 4 * S, 5 * S, -1 },
  { CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST, 4, 5, 0 },
  { CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP, 4 * S, 5 * S, 0 },
  { CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN, 4 * S, 5 * S, 1 },
  { CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO, 4 * S, 5 * S, 0 },
  { CARPACE_KEY_BLOCK_LIMITS_SHORTEST, 4 * S, 5 * S, 0 },
  { CARPACE_KEY_BLOCK_LIMITS_LONGEST, 4 * S, 5 * S, 1 },
  { CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO, 8000, 8500, 1 },
  { CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO, 6000, 6500, 1 },
  { CARPACE_KEY_TIGHTEN_STOP_ABOVE, 4, 5, 1 },
  { CARPACE_KEY_NEXT_DAY_CUT_TO, 6000, 6500, 1 },
  { CARPACE_KEY_NEXT_DAY_STEP_UP_BY, 500, 1000, 1 },
  { CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS, 3, 4, -1 },
  { CARPACE_KEY_NEXT_DAY_AT_MOST, 40 * MIN, 50 * MIN, 1 },
  { CARPACE_KEY_MATCHES_COUNTS, 0, 100, -1 },
  { CARPACE_KEY_ON_AIR_EVERY, 5 * MIN, 6 * MIN, 0 },
  { CARPACE_KEY_ON_AIR_FROM, 0, 1, 0 },
  { CARPACE_KEY_ON_AIR_NOTICE, 1 * MIN, 2 * MIN, 0 },
  { CARPACE_KEY_ON_AIR_LENGTH, 1 * MIN, 2 * MIN, 0 },
};

static void
what_is_fixed_is_never_looser (void **state)
{
  static CarpacePlan plan, given, copy;

  plan_of (&plan, (const int64_t[]) { 1800000, 0 });
  for (size_t i = 0; i < COUNT (loosening); i++)
    for (int swapped = 0; swapped < 2; swapped++)
      {
        CarpacePlanKey key = loosening[i].key;
        bool expected = loosening[i].looser == 0 || loosening[i].looser == (swapped ? -1 : 1);
        CarpaceCeiling ceiling, from_text;
        CarpaceBreach breach;
        char text[CARPACE_CEILING_BYTES];

        given = copy = plan;
        carpace_plan_set_number (&given, key, swapped ? loosening[i].other : loosening[i].given);
        carpace_plan_set_number (&copy, key, swapped ? loosening[i].given : loosening[i].other);
        give (&ceiling, &given);
        assert_false (carpace_ceiling_holds (&ceiling));
        assert_true (keeps (&ceiling, &copy));
        given.fixed[key] = true;
        give (&ceiling, &given);
        assert_true (carpace_ceiling_holds (&ceiling));
        assert_survives (&ceiling);
        carpace_ceiling_write (&ceiling, text);
        assert_true (carpace_ceiling_read (text, &from_text));
        breach = carpace_ceiling_breach (&from_text, &copy);
        if ((breach.kind == CARPACE_BREACH_KEY) != expected || (expected && (breach.key != key || breach.block != -1)))
          fail_msg ("%s, %s", carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) key), swapped ? "to the first" : "to the second");
        assert_true (key == CARPACE_KEY_NEXT_DAY_AT_MOST || keeps (&from_text, &given));
      }
}

static void
texts_and_lists_that_are_fixed_stay (void **state)
{
  static CarpacePlan given, copy;
  CarpaceCeiling ceiling;

  plan_of (&given, (const int64_t[]) { 1800000, 0 });
  strcpy (given.note, "two\nlines \\ and more: yes");
  given.n_shown = 3;
  given.shown[1] = CARPACE_EXERCISE_OPEN_AND_CLOSE;
  given.shown[2] = CARPACE_EXERCISE_NECK_TURNS;
  given.fixed[CARPACE_KEY_NAME] = given.fixed[CARPACE_KEY_MICRO_REST_SHOW] = given.fixed[CARPACE_KEY_NOTE] = true;
  give (&ceiling, &given);
  assert_survives (&ceiling);
  assert_true (keeps (&ceiling, &given));
  copy = given;
  strcpy (copy.note, "other");
  assert_int_equal (carpace_ceiling_breach (&ceiling, &copy).key, CARPACE_KEY_NOTE);
  copy = given;
  copy.shown[2] = CARPACE_EXERCISE_HOOK_FIST;
  assert_int_equal (carpace_ceiling_breach (&ceiling, &copy).key, CARPACE_KEY_MICRO_REST_SHOW);
  copy.n_shown = 2;
  assert_false (keeps (&ceiling, &copy));
  copy = given;
  strcpy (copy.name, "M");
  assert_int_equal (carpace_ceiling_breach (&ceiling, &copy).key, CARPACE_KEY_NAME);
}

/* Two blocks are given, the second fixed at 15 min. */
static void
limits_that_are_fixed_are_never_longer (void **state)
{
  static const struct { const char *row; int64_t limits_ms[4]; CarpaceBreachKind kind; int32_t block; } rows[] = {
    { "the same", { 600000, 900000, 0 }, CARPACE_BREACH_NONE, -1 },
    { "a millisecond shorter", { 600000, 899999, 0 }, CARPACE_BREACH_NONE, -1 },
    { "a millisecond longer", { 600000, 900001, 0 }, CARPACE_BREACH_LIMIT, 1 },
    { "fewer", { 600000, 0 }, CARPACE_BREACH_NONE, -1 },
    { "the first is free", { 700000, 900000, 0 }, CARPACE_BREACH_NONE, -1 },
    { "one more, however short", { 600000, 900000, 1000, 0 }, CARPACE_BREACH_BLOCKS, 2 },
    { "one more, longer than the last", { 600000, 900000, 900001, 0 }, CARPACE_BREACH_LIMIT, 2 },
  };
  static CarpacePlan given, copy;
  CarpaceCeiling ceiling;

  plan_of (&given, (const int64_t[]) { 600000, 900000, 0 });
  given.blocks[1].limit_fixed = true;
  give (&ceiling, &given);
  assert_survives (&ceiling);
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceBreach breach;
      plan_of (&copy, rows[i].limits_ms);
      breach = carpace_ceiling_breach (&ceiling, &copy);
      if (breach.kind != rows[i].kind || breach.block != rows[i].block)
        fail_msg ("%s: kind %d, block %d", rows[i].row, (int) breach.kind, (int) breach.block);
    }
}

/* Where each limit is fixed, so is their sum: further blocks would take the rest. */
static void
a_day_that_is_fixed_has_no_longer_first_dose (void **state)
{
  static CarpacePlan given, copy;
  CarpaceCeiling ceiling;
  CarpaceBreach breach;

  plan_of (&given, (const int64_t[]) { 600000, 900000, 0 });
  given.blocks[0].limit_fixed = given.blocks[1].limit_fixed = true;
  give (&ceiling, &given);
  assert_survives (&ceiling);
  copy = given;
  copy.dose_ms = 1499999;
  assert_true (keeps (&ceiling, &copy));
  copy.dose_ms = 1500000;
  assert_true (keeps (&ceiling, &copy));
  copy.dose_ms = 1500001;
  breach = carpace_ceiling_breach (&ceiling, &copy);
  assert_int_equal (breach.kind, CARPACE_BREACH_KEY);
  assert_int_equal (breach.key, CARPACE_KEY_DAY_DOSE);
}

static void
the_first_dose_is_under_what_days_may_rise_to (void **state)
{
  static const struct { int64_t dose_ms; CarpaceBreachKind kind; } rows[] = {
    { 3599999, CARPACE_BREACH_NONE }, { 3600000, CARPACE_BREACH_NONE }, { 3600001, CARPACE_BREACH_DOSE },
  };
  static CarpacePlan given;
  CarpaceCeiling ceiling;

  plan_of (&given, (const int64_t[]) { 1800000, 0 });
  given.at_most_ms = 3600000;
  given.fixed[CARPACE_KEY_NEXT_DAY_AT_MOST] = true;
  give (&ceiling, &given);
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      given.dose_ms = rows[i].dose_ms;
      assert_int_equal (carpace_ceiling_breach (&ceiling, &given).kind, rows[i].kind);
      assert_int_equal (carpace_ceiling_breach (&ceiling, &given).block, -1);
    }
}

/* A plan without marks lifts nothing; one with more adds to it. */
static void
what_is_given_adds_up (void **state)
{
  static CarpacePlan first, second, third;
  CarpaceCeiling ceiling;
  char text[CARPACE_CEILING_BYTES];

  plan_of (&first, (const int64_t[]) { 1200000, 1200000, 0 });
  first.at_most_ms = 3600000;
  first.fixed[CARPACE_KEY_NEXT_DAY_AT_MOST] = first.blocks[0].limit_fixed = true;
  plan_of (&second, (const int64_t[]) { 1200000, 0 });
  second.at_most_ms = 3000000;
  plan_of (&third, (const int64_t[]) { 900000, 0 });
  third.at_most_ms = 3000000;
  third.stop_above = 4;
  third.fixed[CARPACE_KEY_NEXT_DAY_AT_MOST] = third.fixed[CARPACE_KEY_TIGHTEN_STOP_ABOVE] = third.blocks[0].limit_fixed = true;
  give (&ceiling, &first);
  carpace_ceiling_add (&ceiling, &second);
  carpace_ceiling_write (&ceiling, text);
  assert_string_equal (text, "next-day.at-most: 1 h\nblocks: 2\nblocks.1.limit: 20 min\n");
  carpace_ceiling_add (&ceiling, &third);
  carpace_ceiling_write (&ceiling, text);
  assert_string_equal (text, "day.dose: 15 min\ntighten.stop-above: 4\nnext-day.at-most: 50 min\n"
                             "blocks: 1\nblocks.1.limit: 15 min\n");
}

static void
a_plan_that_fixes_all_fits_its_text (void **state)
{
  static CarpacePlan plan;
  int64_t limits_ms[CARPACE_PLAN_BLOCKS + 1] = { 0 };
  CarpaceCeiling ceiling;

  for (int i = 0; i < CARPACE_PLAN_BLOCKS; i++)
    limits_ms[i] = 13723456 + i;
  plan_of (&plan, limits_ms);
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    {
      plan.fixed[key] = true;
      carpace_plan_set_number (&plan, (CarpacePlanKey) key, carpace_plan_key_facts ((CarpacePlanKey) key)->high);
    }
  memset (plan.name, '\\', sizeof plan.name - 1);
  memset (plan.note, '\n', sizeof plan.note - 1);
  plan.n_shown = CARPACE_PLAN_SHOWN;
  for (int i = 0; i < CARPACE_PLAN_BLOCKS; i++)
    plan.blocks[i].limit_fixed = true;
  give (&ceiling, &plan);
  assert_survives (&ceiling);
  assert_true (keeps (&ceiling, &plan));
}

/* What a stranger's export may have in it. */
static void
lines_that_say_nothing_are_told (void **state)
{
  static const char *const rows[] = {
    "next-day.at-most", "next-day.at-most: ", "next-day.at-most: 9 h", "next-day.at-most: -1 h", "next-day.most: 1 h",
    "blocks: 0", "blocks: 33", "blocks.1.limit: 10 min", "blocks: 1\nblocks.2.limit: 10 min",
    "blocks: 1\nblocks.1.length: 10 min", "blocks: 1\nblocks.1.limit: 5 h", "hand.side: middle", "micro-rest.show: rest",
    "week.without: sunday, someday",
  };
  CarpaceCeiling ceiling;

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      char text[256];
      assert_false (carpace_ceiling_read (rows[i], &ceiling));
      snprintf (text, sizeof text, "%s\ntighten.stop-above: 4\n", rows[i]);
      assert_false (carpace_ceiling_read (text, &ceiling));
      assert_true (ceiling.fixed[CARPACE_KEY_TIGHTEN_STOP_ABOVE]); /* what can be read is held all the same */
    }
  assert_true (carpace_ceiling_read ("", &ceiling));
  assert_false (carpace_ceiling_holds (&ceiling));
}

/* What is written, to the letter. */
static void
the_text_of_what_is_fixed (void **state)
{
  static CarpacePlan plan;
  CarpaceCeiling ceiling, back;
  char text[CARPACE_CEILING_BYTES] = "not written";

  plan_of (&plan, (const int64_t[]) { 600000, 0 });
  give (&ceiling, &plan);
  carpace_ceiling_write (&ceiling, text);
  assert_string_equal (text, "");
  strcpy (plan.name, "a\\b\nc");
  strcpy (plan.note, "d");
  plan.n_shown = 2;
  plan.shown[0] = CARPACE_EXERCISE_HOOK_FIST;
  plan.shown[1] = CARPACE_EXERCISE_NECK_TURNS;
  plan.without = 1 << CARPACE_WEEKDAY_MONDAY | 1 << CARPACE_WEEKDAY_SUNDAY;
  plan.fixed[CARPACE_KEY_NAME] = plan.fixed[CARPACE_KEY_NOTE] = plan.fixed[CARPACE_KEY_MICRO_REST_SHOW] = true;
  plan.fixed[CARPACE_KEY_WEEK_WITHOUT] = plan.fixed[CARPACE_KEY_HAND_SIDE] = true;
  plan.fixed[CARPACE_KEY_HAND_CM_PER_TURN] = plan.fixed[CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS] = true;
  give (&ceiling, &plan);
  carpace_ceiling_write (&ceiling, text);
  assert_string_equal (text, "name: a\\\\b\\nc\nnote: d\nhand.side: right\nhand.cm-per-turn: none\nweek.without: monday, sunday\n"
                             "micro-rest.or-after-runs: off\nmicro-rest.show: hook-fist, neck-turns\n");
  memset (&back, 0x5a, sizeof back);
  assert_true (carpace_ceiling_read (text, &back));
  assert_memory_equal (&back, &ceiling, sizeof back);
}

static void
one_thing_that_is_fixed_is_held (void **state)
{
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    {
      CarpaceCeiling ceiling = { 0 };
      assert_false (carpace_ceiling_holds (&ceiling));
      ceiling.fixed[key] = true;
      assert_true (carpace_ceiling_holds (&ceiling));
    }
  assert_true (carpace_ceiling_holds (&(CarpaceCeiling) { .n_blocks = 1 }));
}

static void
the_limit_of_each_block (void **state)
{
  const CarpaceCeiling none = { .limit_ms = { 7 } }, one = { .n_blocks = 1, .limit_ms = { 7, 9 } };
  const CarpaceCeiling two = { .n_blocks = 2, .limit_ms = { 7, 8, 9 } };

  assert_int_equal (carpace_ceiling_limit_ms (&none, 0), 0);
  assert_int_equal (carpace_ceiling_limit_ms (&one, 0), 7);
  assert_int_equal (carpace_ceiling_limit_ms (&one, 1), 7);
  assert_int_equal (carpace_ceiling_limit_ms (&two, 1), 8);
  assert_int_equal (carpace_ceiling_limit_ms (&two, 2), 8);
}

/* A single block of a millisecond: longer, or one more. */
static void
the_first_block_is_held (void **state)
{
  static CarpacePlan copy;
  const CarpaceCeiling ceiling = { .n_blocks = 1, .limit_ms = { 1 } };
  CarpaceBreach breach;

  plan_of (&copy, (const int64_t[]) { 1, 0 });
  assert_true (keeps (&ceiling, &copy));
  plan_of (&copy, (const int64_t[]) { 2, 0 });
  breach = carpace_ceiling_breach (&ceiling, &copy);
  assert_int_equal (breach.kind, CARPACE_BREACH_LIMIT);
  assert_int_equal (breach.block, 0);
  plan_of (&copy, (const int64_t[]) { 1, 1, 0 });
  breach = carpace_ceiling_breach (&ceiling, &copy);
  assert_int_equal (breach.kind, CARPACE_BREACH_BLOCKS);
  assert_int_equal (breach.block, 1);
}

static void
each_exercise_that_is_fixed_stays (void **state)
{
  static CarpacePlan copy;

  plan_of (&copy, (const int64_t[]) { 1, 0 });
  copy.n_shown = 2;
  for (int i = 0; i < 3; i++)
    {
      CarpaceCeiling ceiling;
      copy.fixed[CARPACE_KEY_MICRO_REST_SHOW] = true;
      give (&ceiling, &copy);
      ceiling.shown[i] = CARPACE_EXERCISE_HOOK_FIST;
      assert_int_equal (keeps (&ceiling, &copy), i == 2); /* the third is none */
    }
}

/* What a line may have in it, and what is then held. */
static void
lines_at_the_border (void **state)
{
  static const struct { const char *text; bool read; CarpacePlanKey key; double number; } rows[] = {
    { "hand.cm-per-turn: none\n", true, CARPACE_KEY_HAND_CM_PER_TURN, 0 },
    { "hand.side: right", true, CARPACE_KEY_HAND_SIDE, 0 },
    { "hand.side: left", true, CARPACE_KEY_HAND_SIDE, 1 },
    { "tighten.stop-above: none", false, CARPACE_N_KEYS, 0 },
    { "week.without: ", true, CARPACE_KEY_WEEK_WITHOUT, 0 },
    { "week.without: monday", true, CARPACE_KEY_WEEK_WITHOUT, 1 << CARPACE_WEEKDAY_MONDAY },
    { "week.without: someday", false, CARPACE_N_KEYS, 0 },
    { "week.without: monday, ", false, CARPACE_N_KEYS, 0 },
    { "blocks: 1", true, CARPACE_N_KEYS, 0 },
    { "blocks: 32", true, CARPACE_N_KEYS, 0 },
    { "\n", false, CARPACE_N_KEYS, 0 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceCeiling ceiling;
      if (carpace_ceiling_read (rows[i].text, &ceiling) != rows[i].read)
        fail_msg ("%s", rows[i].text);
      for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
        assert_int_equal (ceiling.fixed[key], key == (int32_t) rows[i].key);
      if (rows[i].key < CARPACE_N_KEYS && ceiling.number[rows[i].key] != rows[i].number)
        fail_msg ("%s: %g", rows[i].text, ceiling.number[rows[i].key]);
    }
}

/* One below, at, and one above what there is room for. */
static void
texts_that_are_too_long (void **state)
{
  CarpaceCeiling ceiling;
  char text[CARPACE_CEILING_BYTES + 100];
  const int most = (int) sizeof ceiling.name - 1;

  for (int n = most - 1; n <= most + 1; n++)
    {
      snprintf (text, sizeof text, "name: %0*d", n, 0);
      assert_int_equal (carpace_ceiling_read (text, &ceiling), n <= most);
      assert_int_equal (strlen (ceiling.name), n <= most ? n : most);
    }
  assert_true (carpace_ceiling_read ("name: long\nname: x", &ceiling));
  assert_string_equal (ceiling.name, "x");
  assert_true (carpace_ceiling_read ("name: a\\", &ceiling)); /* nothing behind it */
  assert_string_equal (ceiling.name, "a\\");
  for (int n = CARPACE_CEILING_BYTES - 1; n <= CARPACE_CEILING_BYTES + 1; n++)
    {
      snprintf (text, sizeof text, "%0*d\nhand.side: left", n, 0);
      carpace_ceiling_read (text, &ceiling);
      assert_true (ceiling.fixed[CARPACE_KEY_HAND_SIDE]);
      snprintf (text, sizeof text, "note: %0*d", n - 6, 0); /* a line that is not taken whole is told */
      assert_false (carpace_ceiling_read (text, &ceiling));
      assert_int_equal (strlen (ceiling.note), sizeof ceiling.note - 1);
    }
}

static void
as_many_exercises_as_there_may_be (void **state)
{
  CarpaceCeiling ceiling;
  char text[1000] = "micro-rest.show: hook-fist";

  for (int n = 1; n <= CARPACE_PLAN_SHOWN + 1; n++)
    {
      assert_int_equal (carpace_ceiling_read (text, &ceiling), n <= CARPACE_PLAN_SHOWN);
      assert_int_equal (ceiling.n_shown, n <= CARPACE_PLAN_SHOWN ? n : CARPACE_PLAN_SHOWN);
      strcat (text, ", hook-fist");
    }
  assert_true (carpace_ceiling_read ("micro-rest.show: hook-fist, hook-fist\nmicro-rest.show: neck-turns\n", &ceiling));
  assert_int_equal (ceiling.n_shown, 1);
  assert_int_equal (ceiling.shown[0], CARPACE_EXERCISE_NECK_TURNS);
}

/* A line of another computer's ceilings is held where it stands among all of them, whole; of what only fewer days
 * without practice would loosen, always. */
static void
lines_that_hold (void **state)
{
  static const struct { const char *all, *line; bool holds; } rows[] = {
    { "a: 1\nb: 2\nc: 3", "b: 2", true }, { "a: 1\nb: 2\nc: 3", "c: 3", true }, { "a: 1\nb: 2", "a: 1", true },
    { "a: 1\nb: 20", "b: 2", false }, { "a: 1\nb: 2", "b: 20", false }, { "", "a: 1", false }, { "ab: 1", "b: 1", false },
    { "", "week.without: monday", true }, { "", "week.withous: monday", false }, { "", "day.without2: monday", false },
    { "", "weex.without: monday", false }, { "", "day.dose: 1 h", false },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    if (carpace_ceiling_line_holds (rows[i].all, rows[i].line) != rows[i].holds)
      fail_msg ("row %zu: %s", i, rows[i].line);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_fixed_is_never_looser),
    cmocka_unit_test (texts_and_lists_that_are_fixed_stay),
    cmocka_unit_test (limits_that_are_fixed_are_never_longer),
    cmocka_unit_test (a_day_that_is_fixed_has_no_longer_first_dose),
    cmocka_unit_test (the_first_dose_is_under_what_days_may_rise_to),
    cmocka_unit_test (what_is_given_adds_up),
    cmocka_unit_test (a_plan_that_fixes_all_fits_its_text),
    cmocka_unit_test (lines_that_say_nothing_are_told),
    cmocka_unit_test (the_text_of_what_is_fixed),
    cmocka_unit_test (one_thing_that_is_fixed_is_held),
    cmocka_unit_test (the_limit_of_each_block),
    cmocka_unit_test (the_first_block_is_held),
    cmocka_unit_test (each_exercise_that_is_fixed_stays),
    cmocka_unit_test (lines_at_the_border),
    cmocka_unit_test (texts_that_are_too_long),
    cmocka_unit_test (as_many_exercises_as_there_may_be),
    cmocka_unit_test (lines_that_hold),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
