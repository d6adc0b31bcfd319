/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-open.c: a plan opened by itself is told and asked about; only a yes uses it. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>

#include "cli/plan-open.h"
#include "forms/plan-yaml.h"
#include "said.h"

#define DRILLS "drills: [{id: a, name: Corners, movement: small-turn}]\nblocks: [{limit: 30 min, drills: [a]}]\n"

static struct
{
  const char *in_use, *used;
  bool refused, on_air, no_display, yes;
  int asked;
  char *heading[2], *words[2];
  bool button[2];
} world;

static bool
read_text (const char *text, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  CarpacePlanReader reader = carpace_plan_yaml ();

  return reader.read (reader.self, text, strlen (text), NULL, ret_plan, NULL, visit, user);
}

/* A plan's path is its text. */
static bool
load (void *self, const char *path, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  return read_text (strcmp (path, "sound") == 0 ? "carpace-plan: 1\nname: New\ngap-after: 5 s\n" DRILLS
                                                : "carpace-plan: 1\nname: New\ngap-after: 5\n" DRILLS, ret_plan, visit, user);
}

static void
ignore (void *user, const CarpaceFileFault *fault)
{
}

static bool
load_in_use (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  const char *text = world.used != NULL ? "carpace-plan: 1\nname: New\n" DRILLS : world.in_use;

  return text != NULL && read_text (text, ret_plan, ignore, NULL);
}

static void
list (void *self, CarpacePlanItemVisitor visit, void *user)
{
}

static bool
use (void *self, const char *path, const CarpaceTaking *taking, CarpaceFileFaultVisitor visit, void *user)
{
  if (world.refused)
    visit (user, &(CarpaceFileFault){ .line = 3, .column = 5, .message = "day.dose is higher than what is fixed" });
  else
    world.used = path;
  return !world.refused;
}

static int
remote (void *self, int n_words, const char *const *words, char **ret_message)
{
  if (strcmp (words[0], "told-on-air") != 0)
    return CARPACE_EXIT_NOT_RUNNING;
  *ret_message = world.on_air ? strdup ("on-air") : NULL;
  return CARPACE_EXIT_DONE;
}

static bool
offer (const CarpacePlanOffer *asked, bool *ret_yes)
{
  if (world.no_display)
    return false;
  assert_true (world.asked < 2);
  world.heading[world.asked] = g_strdup (asked->heading);
  world.words[world.asked] = g_strdup (asked->words);
  world.button[world.asked++] = asked->use != NULL;
  *ret_yes = asked->use != NULL && world.yes;
  return true;
}

static int
end (void **state)
{
  for (int i = 0; i < 2; i++)
    {
      g_free (world.heading[i]);
      g_free (world.words[i]);
    }
  memset (&world, 0, sizeof world);
  return 0;
}

static int
open_plan (Said *said, const char *path)
{
  g_autofree char *line = g_strdup_printf ("open %s", path);

  said_begin (said);
  said->cli.plans = (CarpacePlanFiles){ .load = load, .load_in_use = load_in_use, .list = list, .use = use };
  said->cli.remote.command = remote;
  said->cli.offer_plan = offer;
  return said_run (said, carpace_cli_plan_open, line);
}

static void
a_plan_is_told_and_left (void **state)
{
  Said said;

  world.in_use = "carpace-plan: 1\nname: Old\n" DRILLS;
  assert_int_equal (open_plan (&said, "sound"), CARPACE_EXIT_DONE);
  assert_int_equal (world.asked, 1);
  assert_true (world.button[0]);
  assert_non_null (strstr (world.words[0], "New, version 1\n30 min a day in one block; at most 45 min.\n"));
  assert_non_null (strstr (world.words[0], "In place of “Old”, the plan in use, it changes:\n  a gap is this long without input: 4 s, then 5 s\n"));
  assert_null (world.used);
  said_end (&said);
}

static void
a_yes_uses_it_and_says_so (void **state)
{
  Said said;

  world.yes = true;
  assert_int_equal (open_plan (&said, "sound"), CARPACE_EXIT_DONE);
  assert_int_equal (world.asked, 2);
  assert_string_equal (world.used, "sound");
  assert_string_equal (world.words[1], "“New” is the plan in use.");
  assert_false (world.button[1]);
  said_end (&said);
}

static void
what_is_refused_is_said_in_a_window (void **state)
{
  Said said;

  world.yes = world.refused = true;
  assert_int_equal (open_plan (&said, "sound"), CARPACE_EXIT_REFUSED);
  assert_int_equal (world.asked, 2);
  assert_string_equal (world.heading[1], "It is not used");
  assert_non_null (strstr (world.words[1], "day.dose is higher than what is fixed"));
  said_end (&said);
}

/* Nothing can be pressed that would use it. */
static void
a_plan_with_faults_has_no_button (void **state)
{
  Said said;

  world.yes = true;
  assert_int_equal (open_plan (&said, "faulty"), CARPACE_EXIT_REFUSED);
  assert_int_equal (world.asked, 1);
  assert_false (world.button[0]);
  assert_non_null (strstr (world.words[0], "Line 3: gap-after has a number without its unit, “5”; add s, min or h\n"));
  assert_null (world.used);
  said_end (&said);
}

/* A stream may read this window: nothing of the plan is in it. */
static void
on_air_nothing_of_it_is_shown (void **state)
{
  Said said;

  world.yes = world.on_air = true;
  assert_int_equal (open_plan (&said, "sound"), CARPACE_EXIT_REFUSED);
  assert_int_equal (world.asked, 1);
  assert_false (world.button[0]);
  assert_string_equal (world.words[0], "Not possible now; off air Carpace says why.");
  assert_string_equal (world.heading[0], "Carpace");
  assert_null (world.used);
  said_end (&said);
}

static void
without_a_display_it_says_what_else_there_is (void **state)
{
  Said said;

  world.no_display = true;
  assert_int_equal (open_plan (&said, "sound"), CARPACE_EXIT_REFUSED);
  assert_non_null (strstr (said.err, "“carpace plan show FILE --words” prints it"));
  said_end (&said);
  assert_int_equal (open_plan (&said, ""), CARPACE_EXIT_WORDS);
  said_end (&said);
}

#define ROW(test) cmocka_unit_test_teardown (test, end)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ROW (a_plan_is_told_and_left),          ROW (a_yes_uses_it_and_says_so),
    ROW (what_is_refused_is_said_in_a_window), ROW (a_plan_with_faults_has_no_button),
    ROW (on_air_nothing_of_it_is_shown),    ROW (without_a_display_it_says_what_else_there_is),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
