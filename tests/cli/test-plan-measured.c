/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-measured.c: clicks beside efforts, from a diary of this test's own: of this plan only, and unknown where nobody
 * counted. */
#define _POSIX_C_SOURCE 200809L

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <glib.h>

#include "../core/some-plan.h"
#include "carpace/clicks.h"
#include "cli/plan-measured.h"

#define MOST 8
#define MINUTES(n) SOME_MINUTES (n)

/* Days begun with a plan, and minutes counted, by when. */
typedef struct
{
  const char *name; /* NULL: no such record */
  int64_t at_ms;
  CarpacePlanWhat what;
} Begun;

typedef struct
{
  int32_t block; /* a match: 0 */
  int64_t at_ms, ms;
  int32_t count;
  int64_t limit_ms; /* over 0: the block begins before it */
  int64_t from_ms;
} Counted;

typedef struct
{
  CarpaceCli cli;
  const Begun *begun;
  const Counted *counted;
  bool unreadable, from_clicks;
} World;

static bool
plans (void *self, CarpacePlanRecordVisitor visit, void *user)
{
  const World *world = self;

  for (int i = 0; i < MOST && world->begun[i].name != NULL; i++)
    {
      const CarpacePlanRecord record = { .at = { .wall_ms = world->begun[i].at_ms }, .what = world->begun[i].what,
                                         .name = world->begun[i].name, .version = i + 1, .fixed = "", .text = "" };
      visit (user, &record);
    }
  return true;
}

static bool
records_of (void *self, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceRecordVisitor visit, void *user)
{
  const World *world = self;

  assert_int_equal (kinds, CARPACE_KIND (CARPACE_ENTRY_CLICKS) | CARPACE_KIND (CARPACE_ENTRY_BLOCK));
  for (int i = 0; i < MOST && world->counted[i].ms > 0; i++)
    {
      const Counted *of = &world->counted[i];
      CarpaceRecord record = { .entry = { .kind = CARPACE_ENTRY_CLICKS, .at = { .wall_ms = of->at_ms },
                                          .clicks = { .block = of->block, .from_ms = of->from_ms, .ms = of->ms, .count = of->count } } };
      CarpaceRecord start = { .entry = { .kind = CARPACE_ENTRY_BLOCK, .at = { .wall_ms = of->at_ms },
                                         .block = { .what = CARPACE_BLOCK_STARTED, .number = of->block, .limit_ms = of->limit_ms } } };
      if (of->limit_ms > 0)
        visit (user, &start);
      visit (user, &record);
    }
  return !world->unreadable;
}

static bool
open_diary (CarpaceCli *cli, CarpaceDiary *ret_diary)
{
  *ret_diary = (CarpaceDiary) { .self = cli->main, .plans = plans, .records_of = records_of };
  return true;
}

/* Two blocks: corners at 60 efforts a minute for 70 % of each, orbit at 20. */
static void
two_blocks (CarpacePlan *plan)
{
  some_plan (plan, SOME_MINUTES (60));
  some_drill (plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  some_drill (plan, CARPACE_MOVEMENT_LONG_PURSUIT, 8, 20, 1.5);
  strcpy (plan->name, "Two halves");
  for (int i = 0; i < plan->n_drills; i++)
    {
      g_snprintf (plan->drills[i].id, sizeof plan->drills[i].id, "drill-%d", i + 1);
      g_snprintf (plan->drills[i].name, sizeof plan->drills[i].name, "Drill %d", i + 1);
    }
  for (int i = 0; i < 2; i++)
    some_block (plan, SOME_MINUTES (30));
  for (int i = 0; i < 2; i++)
    {
      plan->blocks[i].n_parts = 2;
      plan->blocks[i].parts[0] = (CarpaceBlockPart) { 0, 7000 };
      plan->blocks[i].parts[1] = (CarpaceBlockPart) { 1, 3000 };
    }
}

static int
measure (World *world, bool json, char **ret_out, char **ret_err)
{
  static CarpacePlan plan, reckoned;
  CarpaceClicksMeasured measured;
  size_t n_out, n_err;
  int status;

  two_blocks (&plan);
  world->cli.out = open_memstream (ret_out, &n_out);
  world->cli.err = open_memstream (ret_err, &n_err);
  world->cli.open_diary = open_diary;
  world->cli.main = world;
  plan.drills[0].efforts_from = world->from_clicks ? CARPACE_EFFORTS_FROM_CLICKS : CARPACE_EFFORTS_FROM_PLAN;
  plan.drills[1].efforts_from = plan.drills[0].efforts_from;
  reckoned = plan;
  status = carpace_cli_plan_measure (&world->cli, &plan, &measured) ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
  if (status == CARPACE_EXIT_DONE)
    {
      carpace_clicks_as_efforts (&reckoned, &measured);
      carpace_cli_plan_measured (&world->cli, &plan, &reckoned, &measured, json);
    }
  fclose (world->cli.out);
  fclose (world->cli.err);
  return status;
}

#define LINE(block, a_minute, ms) \
  "{\"kind\":\"clicks\",\"block\":" block ",\"a_minute\":" a_minute ",\"ms\":" ms ",\"efforts_a_minute\":48}\n"
#define OF(drill, a_minute, ms, efforts) \
  "{\"kind\":\"clicks\",\"drill\":\"" drill "\",\"a_minute\":" a_minute ",\"ms\":" ms ",\"efforts_a_minute\":" efforts ",\"efforts_from\":\"plan\"}\n"
#define NO_DRILL OF ("drill-1", "null", "0", "60") OF ("drill-2", "null", "0", "20")

static void
of_this_plan_only (void **state)
{
  static const struct { const char *name; Begun begun[MOST]; Counted counted[MOST]; const char *json; } rows[] = {
    { "nothing in the diary", { { NULL } }, { { 0 } }, LINE ("1", "null", "0") LINE ("2", "null", "0") NO_DRILL },
    { "counted in one block", { { "Two halves", 100, CARPACE_PLAN_OF_DAY } },
      { { 1, 200, 60000, 80 }, { 1, 300, 60000, 90 }, { 1, 400, 30000, 40 } },
      LINE ("1", "84", "150000") LINE ("2", "null", "0") NO_DRILL },
    { "none in a minute is no lack of a count", { { "Two halves", 100, CARPACE_PLAN_OF_DAY } },
      { { 2, 200, 60000, 0 } }, LINE ("1", "null", "0") LINE ("2", "0", "60000") NO_DRILL },
    { "before this plan's time", { { "Two halves", 200, CARPACE_PLAN_OF_DAY } },
      { { 1, 199, 60000, 80 }, { 1, 200, 60000, 30 } }, LINE ("1", "30", "60000") LINE ("2", "null", "0") NO_DRILL },
    { "a plan after it", { { "Two halves", 100, CARPACE_PLAN_OF_DAY }, { "Another", 300, CARPACE_PLAN_OF_DAY } },
      { { 1, 200, 60000, 80 } }, LINE ("1", "null", "0") LINE ("2", "null", "0") NO_DRILL },
    { "back to it", { { "Two halves", 100, CARPACE_PLAN_OF_DAY }, { "Another", 300, CARPACE_PLAN_OF_DAY }, { "Two halves", 500, CARPACE_PLAN_OF_DAY } },
      { { 1, 200, 60000, 80 }, { 1, 500, 60000, 20 } }, LINE ("1", "20", "60000") LINE ("2", "null", "0") NO_DRILL },
    { "its next version", { { "Two halves", 100, CARPACE_PLAN_OF_DAY }, { "Two halves", 300, CARPACE_PLAN_OF_DAY } },
      { { 1, 200, 60000, 80 }, { 1, 400, 60000, 20 } }, LINE ("1", "50", "120000") LINE ("2", "null", "0") NO_DRILL },
    { "given, and no day begun with it", { { "Two halves", 100, CARPACE_PLAN_GIVEN } },
      { { 1, 200, 60000, 80 } }, LINE ("1", "null", "0") LINE ("2", "null", "0") NO_DRILL },
    { "a minute of each drill", { { "Two halves", 100, CARPACE_PLAN_OF_DAY } },
      { { 1, 200, 60000, 80, MINUTES (30), 0 }, { 1, 300, 60000, 10, 0, MINUTES (25) } },
      LINE ("1", "45", "120000") LINE ("2", "null", "0") OF ("drill-1", "80", "60000", "60") OF ("drill-2", "10", "60000", "20") },
    { "a day whose block was shorter", { { "Two halves", 100, CARPACE_PLAN_OF_DAY } },
      { { 1, 200, 60000, 80, MINUTES (10), 0 }, { 1, 300, 60000, 10, 0, MINUTES (7) } },
      LINE ("1", "45", "120000") LINE ("2", "null", "0") OF ("drill-1", "80", "60000", "60") OF ("drill-2", "10", "60000", "20") },
    { "a minute that two drills share", { { "Two halves", 100, CARPACE_PLAN_OF_DAY } },
      { { 1, 200, 60000, 80, MINUTES (30), MINUTES (20) }, { 1, 300, 60000, 70, 0, MINUTES (20) + 1 } },
      LINE ("1", "75", "120000") LINE ("2", "null", "0") OF ("drill-1", "80", "60000", "60") OF ("drill-2", "null", "0", "20") },
    { "past the limit", { { "Two halves", 100, CARPACE_PLAN_OF_DAY } },
      { { 2, 200, 60000, 80, MINUTES (30), MINUTES (31) } },
      LINE ("1", "null", "0") LINE ("2", "80", "60000") OF ("drill-1", "null", "0", "60") OF ("drill-2", "80", "60000", "20") },
    { "a start of another block", { { "Two halves", 100, CARPACE_PLAN_OF_DAY } },
      { { 1, 200, 60000, 80, MINUTES (30), 0 }, { 2, 300, 60000, 10 } },
      LINE ("1", "80", "60000") LINE ("2", "10", "60000") OF ("drill-1", "80", "60000", "60") OF ("drill-2", "null", "0", "20") },
    { "matches, and blocks that it has not", { { "Two halves", 100, CARPACE_PLAN_OF_DAY } },
      { { 0, 200, 60000, 80 }, { 3, 200, 60000, 80 }, { 1000000, 200, 60000, 80 } }, LINE ("1", "null", "0") LINE ("2", "null", "0") NO_DRILL },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      World world = { .begun = rows[i].begun, .counted = rows[i].counted };
      char *out, *err;

      print_message ("%s\n", rows[i].name);
      assert_int_equal (measure (&world, true, &out, &err), CARPACE_EXIT_DONE);
      assert_string_equal (out, rows[i].json);
      assert_string_equal (err, "");
      free (out);
      free (err);
    }
}

static void
in_words (void **state)
{
  static const Begun begun[MOST] = { { "Two halves", 100, CARPACE_PLAN_OF_DAY } };
  static const Counted counted[MOST] = { { 1, 200, 60000, 80, MINUTES (30), 0 }, { 1, 300, 30000, 46, 0, MINUTES (1) } };
  World world = { .begun = begun, .counted = counted };
  char *out, *err;

  assert_int_equal (measure (&world, false, &out, &err), CARPACE_EXIT_DONE);
  assert_string_equal (out, "Clicks measured, beside the efforts that the plan reckons with (a click is not an effort of the wrist):\n"
                            "  Block 1: 84 clicks a minute, measured in 1 min 30 s; 48 efforts a minute in the plan\n"
                            "  Block 2: clicks unknown; 48 efforts a minute in the plan\n"
                            "  Drill 1: 84 clicks a minute, measured in 1 min 30 s; 60 efforts a minute in the plan\n"
                            "  Drill 2: clicks unknown; 20 efforts a minute in the plan\n");
  free (out);
  free (err);
}

/* Of the drill that was counted; the other keeps its own. */
static void
clicks_are_efforts_where_the_plan_says_so (void **state)
{
  static const Begun begun[MOST] = { { "Two halves", 100, CARPACE_PLAN_OF_DAY } };
  static const Counted counted[MOST] = { { 1, 200, 60000, 80, MINUTES (30), 0 } };
  World world = { .begun = begun, .counted = counted, .from_clicks = true };
  char *out, *err;

  assert_int_equal (measure (&world, false, &out, &err), CARPACE_EXIT_DONE);
  assert_string_equal (out, "Clicks measured, beside the efforts that the plan reckons with (a click is not an effort of the wrist):\n"
                            "  Block 1: 80 clicks a minute, measured in 1 min; 62 efforts a minute in the plan\n"
                            "  Block 2: clicks unknown; 62 efforts a minute in the plan\n"
                            "  Drill 1: 80 clicks a minute, measured in 1 min; 60 efforts a minute in the plan\n"
                            "    The plan takes its efforts from clicks: 80 a minute.\n"
                            "  Drill 2: clicks unknown; 20 efforts a minute in the plan\n");
  free (out);
  free (err);
}

static void
a_diary_that_cannot_be_read_is_told (void **state)
{
  static const Begun begun[MOST] = { { "Two halves", 100, CARPACE_PLAN_OF_DAY } };
  static const Counted counted[MOST] = { { 0 } };
  World world = { .begun = begun, .counted = counted, .unreadable = true };
  char *out, *err;

  assert_int_equal (measure (&world, true, &out, &err), CARPACE_EXIT_REFUSED);
  assert_string_equal (out, "");
  assert_string_equal (err, "The diary cannot be read just now. Nothing in it was changed.\n");
  free (out);
  free (err);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (of_this_plan_only),
    cmocka_unit_test (in_words),
    cmocka_unit_test (clicks_are_efforts_where_the_plan_says_so),
    cmocka_unit_test (a_diary_that_cannot_be_read_is_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
