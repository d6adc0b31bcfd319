/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-held.c: what records of plans hold, of one computer and of two that were joined. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/held.h"

#define MANY 5

typedef struct
{
  const char *name; /* NULL: what is fixed is released */
  int32_t version;
  const char *text; /* the most of its days, in minutes; "0": it fixes nothing; "": it cannot be read */
  const char *fixed;
} Given;

static const struct
{
  const char *row;
  Given given[MANY];
  int n, most_min; /* 0: nothing is held */
  int since;       /* the record, a day each, since which the last plan fixes just that */
} rows[] = {
  { "one plan", { { "P", 1, "60", "" } }, 1, 60, 0 },
  { "another one, no looser", { { "P", 1, "60", "" }, { "Q", 1, "50", "" } }, 2, 50, 1 },
  { "another one, looser, of another computer", { { "P", 1, "60", "" }, { "Q", 1, "90", "" } }, 2, 60, 1 },
  { "the tighter one was given later", { { "Q", 1, "90", "" }, { "P", 1, "60", "" } }, 2, 60, 1 },
  { "one that fixes nothing", { { "P", 1, "60", "" }, { "Q", 1, "0", "" } }, 2, 60, 1 },
  { "a higher version takes its place", { { "P", 1, "60", "" }, { "P", 2, "90", "" } }, 2, 90, 1 },
  { "and fixes nothing any more", { { "P", 1, "60", "" }, { "P", 2, "0", "" } }, 2, 0, 1 },
  { "the same version again", { { "P", 1, "60", "" }, { "P", 1, "90", "" } }, 2, 60, 0 },
  { "an older version, given elsewhere later", { { "P", 2, "90", "" }, { "P", 1, "60", "" } }, 2, 90, 0 },
  { "a higher version of another plan", { { "Q", 1, "0", "" }, { "P", 1, "60", "" }, { "Q", 2, "0", "" } }, 3, 60, 2 },
  { "of one between", { { "P", 1, "60", "" }, { "Q", 1, "50", "" }, { "P", 2, "90", "" } }, 3, 50, 2 },
  { "released", { { "P", 1, "60", "" }, { NULL, 1, "", "" } }, 2, 0, 0 },
  { "released, then given anew", { { "P", 1, "60", "" }, { NULL, 1, "", "" }, { "P", 1, "90", "" } }, 3, 90, 2 },
  { "its text cannot be read: what was held then", { { "P", 1, "", "next-day.at-most: 1 h" } }, 1, 60, 0 },
  { "a higher version of which nothing can be read", { { "P", 1, "60", "" }, { "P", 2, "", "next-day.at-most: much" } }, 2, 60, 1 },
};

static bool
load_text (void *self, const char *text, CarpacePlan *ret_plan)
{
  memset (ret_plan, 0, sizeof *ret_plan);
  ret_plan->at_most_ms = atoi (text) * CARPACE_MINUTE_MS;
  ret_plan->fixed[CARPACE_KEY_NEXT_DAY_AT_MOST] = ret_plan->at_most_ms > 0;
  return text[0] != '\0';
}

static bool
visit_plans (void *self, CarpacePlanRecordVisitor visit, void *user)
{
  const size_t row = *(const size_t *) self;

  for (int i = 0; i < rows[row].n; i++)
    {
      const Given *given = &rows[row].given[i];
      CarpacePlanRecord record = { .at.wall_ms = i * CARPACE_DAY_MS, .what = given->name != NULL ? CARPACE_PLAN_GIVEN : CARPACE_PLAN_RELEASED,
                                   .name = given->name != NULL ? given->name : "P", .version = given->version,
                                   .fixed = given->fixed, .text = given->text };

      if (!visit (user, &record))
        break;
    }
  return true;
}

static void
the_tightest_is_held (void **state)
{
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      const CarpaceDiary diary = { .self = &i, .plans = visit_plans };
      const CarpacePlanFiles plans = { .load_text = load_text };
      CarpacePlansKept kept;
      const CarpaceCeiling *held = &kept.held.ceiling;

      print_message ("%s\n", rows[i].row);
      assert_true (carpace_plans_kept_read (&diary, &plans, &kept));
      assert_int_equal (held->fixed[CARPACE_KEY_NEXT_DAY_AT_MOST], rows[i].most_min > 0);
      assert_int_equal (carpace_ceiling_holds (held), rows[i].most_min > 0);
      if (rows[i].most_min > 0)
        assert_int_equal ((int64_t) held->number[CARPACE_KEY_NEXT_DAY_AT_MOST], rows[i].most_min * CARPACE_MINUTE_MS);
      assert_int_equal (kept.given[kept.held.n_given - 1].since, rows[i].since);
      carpace_plans_kept_clear (&kept);

      /* As it was the day before: of the last record nothing is known. */
      assert_true (carpace_plans_kept_until (&diary, &plans, rows[i].n - 2, &kept));
      assert_true (kept.held.n_given < 2 || rows[i].n > 2);
      assert_int_equal (kept.held.n_given > 0, rows[i].n > 1);
      carpace_plans_kept_clear (&kept);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_tightest_is_held),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
