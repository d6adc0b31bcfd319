/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-load.c: the numbers of plan check, the blocks of plan split. */
#define _POSIX_C_SOURCE 200809L

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "../core/some-plan.h"
#include "carpace/load.h"
#include "cli/plan-load.h"

typedef struct
{
  CarpaceCli cli;
  char *out, *err;
  size_t n_out, n_err;
} Captured;

static void
begin (Captured *captured)
{
  *captured = (Captured) { 0 };
  captured->cli.out = open_memstream (&captured->out, &captured->n_out);
  captured->cli.err = open_memstream (&captured->err, &captured->n_err);
}

static void
flush (Captured *captured)
{
  fflush (captured->cli.out);
  fflush (captured->cli.err);
}

static void
end (Captured *captured)
{
  fclose (captured->cli.out);
  fclose (captured->cli.err);
  free (captured->out);
  free (captured->err);
}

static void
two_drills (CarpacePlan *plan)
{
  some_plan (plan, SOME_MINUTES (60));
  strcpy (some_drill (plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3)->id, "corners");
  strcpy (some_drill (plan, CARPACE_MOVEMENT_LONG_PURSUIT, 8, 20, 1.5)->id, "orbit");
  strcpy (plan->drills[0].name, "Corner to corner");
  strcpy (plan->drills[1].name, "Slow\033[31m orbit");
  for (int i = 0; i < 2; i++)
    some_block (plan, SOME_MINUTES (30));
}

static int
split (Captured *captured, const CarpacePlan *plan, int n, const char *const *words)
{
  char *copies[8];
  int status;

  for (int i = 0; i < n; i++)
    copies[i] = strdup (words[i]);
  copies[n] = NULL;
  status = carpace_cli_plan_split (&captured->cli, plan, n, copies);
  for (int i = 0; i < n; i++)
    free (copies[i]);
  return status;
}

/* The number after @key in the @nth line. */
static double
number_in (const char *text, int nth, const char *key)
{
  const char *line = text, *found;

  for (; nth > 0; nth--)
    line = strchr (line, '\n') + 1;
  found = strstr (line, key);
  assert_non_null (found);
  assert_true (found < strchr (line, '\n'));
  return strtod (found + strlen (key), NULL);
}

static void
check_prints_drills_blocks_and_the_day (void **state)
{
  static CarpacePlan plan;
  Captured captured;
  CarpaceBlockLoad block;
  CarpaceDrillLoad part;
  CarpaceEase ease;

  two_drills (&plan);
  begin (&captured);
  assert_int_equal (carpace_cli_plan_load (&captured.cli, &plan, true), CARPACE_EXIT_DONE);
  flush (&captured);
  carpace_load_part (&plan, 1, 1, &part);
  carpace_load_block (&plan, 1, &block);
  assert_memory_equal (captured.out, "{\"kind\":\"drill\",\"block\":1,\"id\":\"corners\",\"strain_index\":", 54);
  assert_true (number_in (captured.out, 4, "\"hm\":") == part.strain.hm);
  assert_true (number_in (captured.out, 4, "\"strain_index\":") == part.strain.index);
  assert_non_null (strstr (captured.out, "{\"kind\":\"block\",\"number\":2,"));
  assert_true (number_in (captured.out, 5, "\"lowest_reserve\":") == block.lowest_reserve);
  assert_true ((int64_t) number_in (captured.out, 5, "\"at_ms\":") == block.at_ms);
  assert_true (number_in (captured.out, 6, "{\"kind\":\"day\",\"strain_index\":") == carpace_load_day (&plan));
  assert_true (carpace_load_ease (&plan, &ease));
  assert_non_null (strstr (captured.out, "\n{\"kind\":\"decides\",\"block\":"));
  assert_true (number_in (captured.out, 8, "{\"kind\":\"ease\",\"change\":") == 0);
  assert_true (number_in (captured.out, 8, "\"strain_index\":") == ease.day_index);
  assert_true (number_in (captured.out, 8, "\"lowest_reserve\":") == ease.lowest_reserve);
  assert_string_equal (captured.err, "");
  end (&captured);
}

static void
check_says_what_decides_and_what_eases (void **state)
{
  static CarpacePlan plan;
  Captured captured;

  two_drills (&plan);
  plan.blocks[1].limit_ms = SOME_MINUTES (45);
  begin (&captured);
  assert_int_equal (carpace_cli_plan_load (&captured.cli, &plan, false), CARPACE_EXIT_DONE);
  flush (&captured);
  assert_non_null (strstr (captured.out, "What decides: block 2, in it “Corner to corner”"));
  assert_non_null (strstr (captured.out, "What would ease it most: "));
  assert_non_null (strstr (captured.out, "(estimate)"));
  assert_null (strchr (captured.out, '\033'));
  assert_null (strstr (captured.out, "nlimited"));
  end (&captured);
}

static void
split_prints_blocks_to_paste (void **state)
{
  static CarpacePlan plan, before;
  Captured captured;
  const char *const words[] = { "plan split", "p.plan.yaml", "--into", "quarters" };

  two_drills (&plan);
  before = plan;
  begin (&captured);
  assert_int_equal (split (&captured, &plan, 4, words), CARPACE_EXIT_DONE);
  flush (&captured);
  assert_memory_equal (captured.out, "blocks:\n  - limit: 15 min", 24);
  assert_non_null (strstr (captured.out, "{id: corners, share: "));
  assert_non_null (strstr (captured.out, "# Proven: every split"));
  assert_memory_equal (&plan, &before, sizeof plan);
  end (&captured);
}

static void
split_as_json (void **state)
{
  static CarpacePlan plan;
  Captured captured;
  const char *const words[] = { "plan split", "--format=json", "p.plan.yaml", "--into", "3" };

  two_drills (&plan);
  begin (&captured);
  assert_int_equal (split (&captured, &plan, 5, words), CARPACE_EXIT_DONE);
  flush (&captured);
  assert_true (number_in (captured.out, 0, "{\"kind\":\"block\",\"number\":") == 1);
  assert_true (number_in (captured.out, 2, "\"limit_ms\":") == (double) SOME_MINUTES (20));
  assert_true (number_in (captured.out, 3, "{\"kind\":\"split\",\"blocks\":") == 3);
  assert_non_null (strstr (captured.out, "\"proven\":true"));
  end (&captured);
}

static void
what_split_refuses (void **state)
{
  static const struct { const char *row; const char *into; int status; const char *names; } rows[] = {
    { .row = "no number", .into = "thirds", .status = CARPACE_EXIT_WORDS, .names = "quarters" },
    { .row = "none", .into = "0", .status = CARPACE_EXIT_WORDS, .names = "1 to 32" },
    { .row = "too many", .into = "33", .status = CARPACE_EXIT_WORDS, .names = "1 to 32" },
    { .row = "no runs for it", .into = "32", .status = CARPACE_EXIT_REFUSED, .names = "32 blocks" },
    { .row = "too long a block", .into = "whole", .status = CARPACE_EXIT_REFUSED, .names = "4 hours" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      static CarpacePlan plan;
      Captured captured;
      const char *const words[] = { "plan split", "p.plan.yaml", "--into", rows[i].into };

      print_message ("%s\n", rows[i].row);
      two_drills (&plan);
      plan.dose_ms = SOME_MINUTES (strcmp (rows[i].into, "whole") == 0 ? 300 : 20);
      begin (&captured);
      assert_int_equal (split (&captured, &plan, 4, words), rows[i].status);
      flush (&captured);
      assert_non_null (strstr (captured.err, rows[i].names));
      assert_true (strchr (captured.err, '\n') == captured.err + captured.n_err - 1);
      assert_string_equal (captured.out, "");
      end (&captured);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (check_prints_drills_blocks_and_the_day),
    cmocka_unit_test (check_says_what_decides_and_what_eases),
    cmocka_unit_test (split_prints_blocks_to_paste),
    cmocka_unit_test (split_as_json),
    cmocka_unit_test (what_split_refuses),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
