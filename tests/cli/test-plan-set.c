/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-set.c: `carpace plan set` changes one value of a file, or nothing. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>
#include <glib/gstdio.h>

#include "cli/plan-set.h"
#include "said.h"

#define PLAN "carpace-plan: 1 # ours\nname: x\nday: {dose: 30 min} # a day\ndrills: [{id: a, movement: small-turn}]\n" \
             "blocks: [{limit: 30 min, drills: [a]}]\n"
#define FAULTY "carpace-plan: 1\nname: x\nday: {dose: 30}\ndrills: [{id: a, movement: large}]\n" \
               "blocks: [{limit: 30 min, drills: [a]}]\n"

static void
one_value_or_nothing (void **state)
{
  static const struct { const char *before, *words, *after; int status; const char *says; } rows[] = {
    { PLAN, "day.dose 25min", "carpace-plan: 1 # ours\nname: x\nday: {dose: 25min} # a day\n"
      "drills: [{id: a, movement: small-turn}]\nblocks: [{limit: 30 min, drills: [a]}]\n", CARPACE_EXIT_DONE, "scaled down" },
    { PLAN, "drills.a.run 60s", "carpace-plan: 1 # ours\nname: x\nday: {dose: 30 min} # a day\n"
      "drills: [{id: a, movement: small-turn, run: 60s}]\nblocks: [{limit: 30 min, drills: [a]}]\n", CARPACE_EXIT_DONE, "" },
    { PLAN, "day.dose 25", NULL, CARPACE_EXIT_REFUSED, "without its unit" },
    { PLAN, "day.dose 25", NULL, CARPACE_EXIT_REFUSED, "stays as it is" },
    { PLAN, "day.doze 25min", NULL, CARPACE_EXIT_REFUSED, "did you mean day.dose?" },
    { PLAN, "drills.b.run 60s", NULL, CARPACE_EXIT_REFUSED, "has no" },
    { PLAN, "day.dose", NULL, CARPACE_EXIT_WORDS, "needs a file, a key and a value" },
    { "name: {x\n", "day.dose 25min", NULL, CARPACE_EXIT_REFUSED, "cannot be read as a plan" },
    /* one fault of two is mended, and the other told */
    { FAULTY, "day.dose 30min", "carpace-plan: 1\nname: x\nday: {dose: 30min}\ndrills: [{id: a, movement: large}]\n"
      "blocks: [{limit: 30 min, drills: [a]}]\n", CARPACE_EXIT_DONE, "movement cannot be" },
  };
  g_autofree char *folder = g_dir_make_tmp ("carpace-set-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "my.plan.yaml", NULL);

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *line = g_strdup_printf ("set %s %s", path, rows[i].words), *after = NULL;
      Said said;

      assert_true (g_file_set_contents (path, rows[i].before, -1, NULL));
      said_begin (&said);
      if (said_run (&said, carpace_cli_plan_set, line) != rows[i].status || strstr (said.err, rows[i].says) == NULL)
        fail_msg ("row %zu, %s: says\n%s", i, rows[i].words, said.err);
      said_end (&said);
      assert_true (g_file_get_contents (path, &after, NULL, NULL));
      assert_string_equal (after, rows[i].after ? rows[i].after : rows[i].before);
    }
  g_remove (path);
  g_rmdir (folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (one_value_or_nothing) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
