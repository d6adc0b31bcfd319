/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-words.c: a plan in words, and in what another one differs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "carpace/plan-keys.h"
#include "forms/plan-yaml.h"
#include "text/plan-words.h"

#define HEAD "carpace-plan: 1\nname: Two halves\n"
#define DRILLS "drills: [{id: a, name: Corners, movement: small-turn}, {id: b, name: Lantern, movement: long-pursuit}]\n"
#define HALVES "blocks: [{limit: 30 min, drills: [{id: a, share: 70 %}, {id: b, share: 30 %}]}, {limit: 30 min, drills: [a]}]\n"

static void
fail_on (void *user, const CarpaceFileFault *fault)
{
  if (!fault->warning)
    fail_msg ("%d:%d %s", fault->line, fault->column, fault->message);
}

static CarpacePlan *
plan_of (const char *text)
{
  CarpacePlanReader reader = carpace_plan_yaml ();
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  assert_true (reader.read (reader.self, text, strlen (text), NULL, plan, NULL, fail_on, NULL));
  return plan;
}

static void
a_day_is_told_in_one_line (void **state)
{
  static const struct { const char *text, *day; } rows[] = {
    { HEAD DRILLS HALVES, "1 h a day in two halves, 45 min between them; at most 1 h 30 min" },
    { HEAD DRILLS "blocks: [{limit: 50 min, drills: [a]}]\n", "50 min a day in one block; at most 1 h 15 min" },
    { HEAD DRILLS "day: {dose: 60 min}\nsplit: quarters\n", "1 h a day in four quarters, 45 min between them; at most 1 h 30 min" },
    { HEAD DRILLS "day: {between-blocks: 1 h}\nblocks: [{limit: 20 min, drills: [a]}, {limit: 20 min, drills: [a]}, {limit: 20 min, drills: [b]}]\n",
      "1 h a day in 3 blocks of 20 min, 1 h between them; at most 1 h 30 min" },
    { HEAD DRILLS "next-day: {at-most: 40 min}\nblocks: [{limit: 20 min, drills: [a]}, {limit: 10 min, drills: [a]}]\n",
      "30 min a day in 2 blocks: 20 min, 10 min, 45 min between them; at most 40 min" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree CarpacePlan *plan = plan_of (rows[i].text);
      g_autofree char *day = carpace_text_plan_day (plan);

      assert_string_equal (day, rows[i].day);
    }
}

static void
rests_and_what_is_fixed_are_told (void **state)
{
  g_autofree CarpacePlan *plain = plan_of (HEAD DRILLS HALVES);
  g_autofree CarpacePlan *all = plan_of (HEAD DRILLS
                                         "micro-rest: {after: !fixed 6 min, or-after-runs: 8, length: 20 s, reserve-at-least: 40 %}\n"
                                         "week: {without: [wednesday, sunday]}\n"
                                         "next-day: {at-most: !fixed 90 min}\n"
                                         "blocks: [{limit: !fixed 30 min, drills: [a, b]}]\n");
  g_autofree char *rests = carpace_text_plan_rests (plain), *more = carpace_text_plan_rests (all);
  g_autofree char *none = carpace_text_plan_fixed (plain), *fixed = carpace_text_plan_fixed (all);
  g_autofree char *words = carpace_text_plan_words (all);

  assert_string_equal (rests, "Rests of 30 s every 10 min");
  assert_string_equal (more, "Rests of 20 s every 6 min, or after 8 runs, or where about 40 % of a muscle group’s capacity is there, by estimate");
  assert_null (none);
  assert_string_equal (fixed, "practice before a rest: 6 min; most practice time a day: 1 h 30 min; block 1: 30 min");
  assert_string_equal (words,
                       "30 min a day in one block; at most 1 h 30 min.\n"
                       "Rests of 20 s every 6 min, or after 8 runs, or where about 40 % of a muscle group’s capacity is there, by estimate.\n"
                       "Block 1: Corners 50 %, Lantern 50 %.\n"
                       "No practice is planned on: Wednesday, Sunday.\n"
                       "Where discomfort rises by 1 the next block is 85 % as long, by 2 or more 65 %; above 5 practice stops for the day.\n"
                       "A worse morning makes the day 65 % as long; 3 good days in a row lead up by 10 % at most.\n"
                       "For the right hand; grip: Palm; usual discomfort 0.\n"
                       "Fixed by whoever gives it: practice before a rest: 6 min; most practice time a day: 1 h 30 min; block 1: 30 min.\n");
}

/* Would catch a key that a difference passes over. */
static void
a_change_of_each_key_is_told (void **state)
{
  for (int32_t at = CARPACE_KEY_NOTE; at < CARPACE_N_KEYS; at++)
    {
      CarpacePlanKey key = (CarpacePlanKey) at;
      g_autofree CarpacePlan *before = plan_of (HEAD DRILLS HALVES), *after = plan_of (HEAD DRILLS HALVES);
      g_autofree char *same = carpace_text_plan_changes (before, after), *other = NULL;
      g_autofree char *line = g_strdup_printf ("  %s: ", carpace_text_plan_key (key));

      assert_string_equal (same, "  nothing but its version\n");
      if (key == CARPACE_KEY_NOTE)
        strcpy (after->note, "Weeks 1 and 2");
      else if (key == CARPACE_KEY_MICRO_REST_SHOW)
        after->n_shown--;
      else
        carpace_plan_set_number (after, key, carpace_plan_number (before, key) + MAX (carpace_plan_key_facts (key)->low, 1));
      other = carpace_text_plan_changes (before, after);
      if (!g_str_has_prefix (other, line) || strchr (other, '\n') != strrchr (other, '\n'))
        fail_msg ("%s: %s", carpace_name (CARPACE_WORDS_PLAN_KEY, at), other);
    }
}

static void
a_change_of_drills_blocks_and_marks_is_told (void **state)
{
  static const struct { const char *text, *changes; } rows[] = {
    { HEAD DRILLS HALVES "gap-after: 5 s\n", "  a gap is this long without input: 4 s, then 5 s\n" },
    { HEAD DRILLS HALVES "gap-after: !fixed 4 s\n", "  a gap is this long without input: fixed from then on\n" },
    { HEAD DRILLS "blocks: [{limit: 30 min, drills: [a, b]}, {limit: !fixed 30 min, drills: [a]}]\n",
      "  block 1: Corners 70 %, Lantern 30 %, then Corners 50 %, Lantern 50 %\n  block 2: fixed from then on\n" },
    { HEAD DRILLS "day: {dose: 60 min}\nnext-day: {at-most: 90 min}\nblocks: [{limit: 30 min, drills: [{id: a, share: 70 %}, {id: b, share: 30 %}]}]\n",
      "  block 2: 30 min, then none\n" },
    { HEAD "drills: [{id: a, name: Corners, movement: small-turn, efforts: 50 /min, wrist: 20 deg extension}, {id: c, movement: large-turn}]\n"
      "blocks: [{limit: 30 min, drills: [{id: a, share: 70 %}, {id: c, share: 30 %}]}, {limit: 30 min, drills: [a]}]\n",
      "  block 1: Corners 70 %, Lantern 30 %, then Corners 70 %, c 30 %\n"
      "  Corners, efforts: 60 a minute, then 50 a minute\n  Corners, wrist: straight, then 20° extension\n"
      "  the drill c is new\n  the drill Lantern is gone\n" },
  };
  g_autofree CarpacePlan *before = plan_of (HEAD DRILLS HALVES);

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree CarpacePlan *after = plan_of (rows[i].text);
      g_autofree char *changes = carpace_text_plan_changes (before, after);

      assert_string_equal (changes, rows[i].changes);
    }
}

/* What is asked before a plan is used: against none, the same, the next version, another. */
static void
a_plan_is_told_against_the_one_in_use (void **state)
{
  g_autofree CarpacePlan *plan = plan_of (HEAD DRILLS HALVES), *same = plan_of (HEAD DRILLS HALVES);
  g_autofree CarpacePlan *next = plan_of (HEAD "version: 2\n" DRILLS HALVES);
  g_autofree CarpacePlan *other = plan_of ("carpace-plan: 1\nname: First\ngap-after: 5 s\n" DRILLS HALVES);
  const struct { const CarpacePlan *in_use; const char *end; } rows[] = {
    { NULL, "usual discomfort 0.\n" },
    { same, "It says the same as “Two halves”, the plan in use.\n" },
    { next, "In place of “Two halves”, the plan in use, it changes:\n  nothing but its version\n" },
    { other, "In place of “First”, the plan in use, it changes:\n  a gap is this long without input: 5 s, then 4 s\n" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *told = carpace_text_plan_told (plan, rows[i].in_use);

      if (!g_str_has_prefix (told, "Two halves, version 1\n1 h a day in two halves") || !g_str_has_suffix (told, rows[i].end))
        fail_msg ("%zu: %s", i, told);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_day_is_told_in_one_line),
    cmocka_unit_test (rests_and_what_is_fixed_are_told),
    cmocka_unit_test (a_change_of_each_key_is_told),
    cmocka_unit_test (a_plan_is_told_against_the_one_in_use),
    cmocka_unit_test (a_change_of_drills_blocks_and_marks_is_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
