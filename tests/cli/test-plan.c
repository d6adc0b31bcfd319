/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan.c: `carpace plan ...`, its words, sentences and exit statuses, over
 * plan files that are not there: a port of this test's own. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "carpace/plan-builder.h"
#include "cli/cli.h"

typedef struct
{
  CarpaceCli cli;
  char *out, *err;
  size_t n_out, n_err;
  bool none_in_use;
  const char *used, *created, *from;
} World;

static void
build (CarpacePlan *ret_plan)
{
  g_autofree CarpacePlanBuilder *builder = g_new (CarpacePlanBuilder, 1);

  carpace_plan_builder_init (builder);
  carpace_plan_builder_text (builder, CARPACE_KEY_NAME, "Two halves", 0);
  carpace_plan_builder_drill_number (builder, carpace_plan_builder_drill (builder, "a", 0), CARPACE_DRILL_MOVEMENT,
                                     CARPACE_MOVEMENT_BUTTON_PRESS, 0);
  carpace_plan_builder_part (builder, carpace_plan_builder_block (builder, 30 * CARPACE_MINUTE_MS, true, 0), "a", -1, 0);
  assert_true (carpace_plan_builder_finish (builder, ret_plan));
}

/* The plan "halves" is sound, "warned" is doubtful, all others have two faults. */
static bool
load (void *self, const char *word, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  static const CarpaceFileFault faults[] = {
    { 3, 12, true, "a \"doubt\"" }, { 5, 1, false, "one fault; mend it" }, { 0, 0, false, "another; mend it" },
  };
  bool sound = strcmp (word, "halves") == 0, warned = strcmp (word, "warned") == 0;

  for (size_t i = 0; !sound && i < (warned ? 1 : G_N_ELEMENTS (faults)); i++)
    visit (user, &faults[i]);
  if (sound || warned)
    build (ret_plan);
  return sound || warned;
}

static bool
load_in_use (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  return !((World *) self)->none_in_use && load (self, "halves", ret_plan, visit, user);
}

static void
list (void *self, CarpacePlanItemVisitor visit, void *user)
{
  static const CarpacePlanItem items[] = {
    { "halves", "/plans/halves.plan.yaml", "Two \x1b[31mhalves", "First line\nsecond", false, true },
    { "week", "/plans/week.plan.yaml", "A week", "", true, false },
  };

  visit (user, &items[0]);
  visit (user, &items[1]);
}

static bool
use (void *self, const char *word, const CarpaceTaking *taking, CarpaceFileFaultVisitor visit, void *user)
{
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);

  ((World *) self)->used = g_intern_string (word);
  return load (self, word, plan, visit, user);
}

static bool
create (void *self, const char *path, const char *from, CarpaceFileFaultVisitor visit, void *user)
{
  World *world = self;
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);

  world->created = g_intern_string (path);
  world->from = g_intern_string (from);
  return strcmp (path, "there") != 0 || load (self, "faulty", plan, visit, user);
}

static int
begin (void **state)
{
  World *world = g_new0 (World, 1);

  world->cli.out = open_memstream (&world->out, &world->n_out);
  world->cli.err = open_memstream (&world->err, &world->n_err);
  world->cli.plans = (CarpacePlanFiles){ .self = world, .load = load, .load_in_use = load_in_use, .list = list, .use = use, .create = create };
  *state = world;
  return 0;
}

static int
end (void **state)
{
  World *world = *state;

  fclose (world->cli.out);
  fclose (world->cli.err);
  free (world->out);
  free (world->err);
  g_free (world);
  return 0;
}

/* Runs a command line; what it printed is in world->out and world->err. */
static int
run (World *world, const char *line)
{
  g_auto (GStrv) words = g_strsplit (line, " ", -1);
  g_autofree char **argv = g_memdup2 (words, sizeof (char *) * (g_strv_length (words) + 1));
  int status;

  rewind (world->cli.out);
  rewind (world->cli.err);
  status = carpace_cli_plan (&world->cli, (int) g_strv_length (words), argv);
  fputc ('\0', world->cli.out);
  fputc ('\0', world->cli.err);
  fflush (world->cli.out);
  fflush (world->cli.err);
  return status;
}

static void
words_and_statuses (void **state)
{
  static const struct { const char *line; int status; const char *out /* NULL: whatever */, *err; } rows[] = {
    { "plan", 2, "", "“carpace plan” needs a word after it; it can be list, show, check, " },
    { "plan lsit", 2, "", "“carpace plan” cannot be followed by “lsit”; did you mean list? It can be " },
    { "plan list", 0, "* halves               Two \\x1b[31mhalves: First line\n  week                 A week\n", "" },
    { "plan list --format json", 0,
      "{\"word\":\"halves\",\"name\":\"Two \\u001b[31mhalves\",\"note\":\"First line\\u000asecond\","
      "\"path\":\"/plans/halves.plan.yaml\",\"bundled\":false,\"in_use\":true}\n"
      "{\"word\":\"week\",\"name\":\"A week\",\"note\":\"\",\"path\":\"/plans/week.plan.yaml\",\"bundled\":true,\"in_use\":false}\n",
      "" },
    { "plan list now", 2, "", "“now” is one word too many for “carpace plan list”" },
    { "plan list --format xml", 2, "", "“xml” is nothing that “--format” can be; there are: text, json." },
    { "plan show halves", 0, "carpace-plan: 1\nname: \"Two halves\"\n", "" },
    { "plan show", 0, "carpace-plan: 1\nname: \"Two halves\"\n", "" },
    { "plan show --format json", 0, "{\"name\":\"Two halves\",\"version\":1,\"note\":\"\",\"hand\":{\"side\":\"right\",\"grip\":\"palm\",\"cm_per_turn\":null,", "" },
    { "plan show --words", 0, "Two halves, version 1\n30 min a day in one block; at most 45 min.\n", "" },
    { "plan show --words --format json", 2, "", "“--words” is for people: leave out “--format json”, or “--words”.\n" },
    { "plan show warned", 0, "carpace-plan: 1\n", "" },
    { "plan show faulty", 1, "", "faulty:5:1: one fault; mend it\nfaulty: another; mend it\n" },
    { "plan check warned", 0, NULL, "warned:3:12: warning: a \"doubt\"\n" },
    { "plan check halves --format json", 0, "{\"kind\":\"drill\",\"block\":1,\"id\":\"a\",\"strain_index\":", "" },
    { "plan split faulty", 1, "", "faulty:5:1: one fault; mend it\nfaulty: another; mend it\n" },
    { "plan split halves --into thirds", 2, "", "--into: “thirds” is no way to split" },
    { "plan split halves --format xml", 2, "", "“xml” is nothing that “--format” can be" },
    { "plan split --into 2 halves", 0, NULL, "" },
    { "plan check faulty", 1, "", "faulty:3:12: warning: a \"doubt\"\nfaulty:5:1: one fault; mend it\nfaulty: another; mend it\n" },
    { "plan check faulty --format json", 1,
      "{\"kind\":\"warning\",\"line\":3,\"column\":12,\"message\":\"a \\\"doubt\\\"\"}\n"
      "{\"kind\":\"fault\",\"line\":5,\"column\":1,\"message\":\"one fault; mend it\"}\n"
      "{\"kind\":\"fault\",\"line\":null,\"column\":null,\"message\":\"another; mend it\"}\n",
      "" },
    { "plan use", 2, "", "“carpace plan use” needs a plan or a file" },
    { "plan use halves", 0, "“Two halves” is the plan in use, from the next practice day on.\n", "" },
    { "plan use faulty", 1, "", "faulty:3:12: warning" },
    { "plan new", 2, "", "“carpace plan new” needs a file to make" },
    { "plan new mine.plan.yaml", 0, "mine.plan.yaml is written.", "" },
    { "plan new there", 1, "", "there:3:12: warning" },
  };
  World *world = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int status = run (world, rows[i].line);
      bool out_fits = !rows[i].out ? true : rows[i].out[0] ? g_str_has_prefix (world->out, rows[i].out) : world->out[0] == '\0';
      bool err_fits = rows[i].err[0] ? g_str_has_prefix (world->err, rows[i].err) : world->err[0] == '\0';

      if (status != rows[i].status || !err_fits || !out_fits)
        fail_msg ("%s: status %d\nout: %s\nerr: %s", rows[i].line, status, world->out, world->err);
    }
}

static void
what_is_used_and_made (void **state)
{
  World *world = *state;

  run (world, "plan use halves");
  assert_string_equal (world->used, "halves");
  run (world, "plan new mine.plan.yaml two-halves");
  assert_string_equal (world->created, "mine.plan.yaml");
  assert_string_equal (world->from, "two-halves");
  run (world, "plan new mine.plan.yaml");
  assert_string_equal (world->from, "first-week");
}

static void
none_in_use_is_said (void **state)
{
  World *world = *state;

  world->none_in_use = true;
  assert_int_equal (run (world, "plan show"), 1);
  assert_true (g_str_has_prefix (world->err, "no block plan is in use; choose one with “carpace plan use NAME”"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (words_and_statuses, begin, end),
    cmocka_unit_test_setup_teardown (what_is_used_and_made, begin, end),
    cmocka_unit_test_setup_teardown (none_in_use_is_said, begin, end),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
