/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-yaml.c: plan files, good and bad; each bad one has its faults
 * beside it, a line each: LINE:COLUMN fault|warning WORDS, where WORDS stand
 * in the sentence told. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "plan-cases.h"
#include "carpace/exercise.h"
#include "carpace/muscles.h"
#include "carpace/plan-keys.h"
#include "forms/plan-write.h"
#include "forms/plan-yaml.h"

static bool
read_bytes (const char *bytes, size_t n_bytes, CarpacePlan *ret_plan, GString *faults)
{
  CarpacePlanReader reader = carpace_plan_yaml ();

  return reader.read (reader.self, bytes, n_bytes, NULL, ret_plan, NULL, collect_fault, faults);
}

static bool
read_file (const char *path, CarpacePlan *ret_plan, GString *faults)
{
  g_autofree char *bytes = NULL;
  size_t n_bytes;

  if (!g_file_get_contents (path, &bytes, &n_bytes, NULL))
    fail_msg ("%s cannot be read", path);
  return read_bytes (bytes, n_bytes, ret_plan, faults);
}

/* A told line begins with the expected place and kind and has its words. */
static bool
line_fits (const char *told, const char *expected)
{
  const char *words = strchr (expected, ' ');

  words = words ? strchr (words + 1, ' ') : NULL;
  return words && strncmp (told, expected, (size_t) (words - expected) + 1) == 0 && strstr (told, words + 1);
}

/* Prints both where they differ, so that one run shows every file. */
static bool
faults_fit (const char *path, const char *told, const char *expected)
{
  g_auto (GStrv) told_lines = g_strsplit (told, "\n", -1);
  g_auto (GStrv) expected_lines = g_strsplit (expected, "\n", -1);
  guint n = g_strv_length (told_lines);
  bool fit = n == g_strv_length (expected_lines);

  for (guint i = 0; fit && i < n; i++)
    fit = strcmp (told_lines[i], expected_lines[i]) == 0 || line_fits (told_lines[i], expected_lines[i]);
  if (!fit)
    g_printerr ("%s told\n%sexpected\n%s\n", path, told, expected);
  return fit;
}

static void
compare_faults (const char *path, const char *told, const char *expected)
{
  if (!faults_fit (path, told, expected))
    fail_msg ("%s: other faults", path);
}

static void
bad_files_tell_each_fault_with_its_place (void **state)
{
  g_autoptr (GPtrArray) files = case_files ("plans/bad", ".plan.yaml");

  bool all_fit = true;

  assert_true (files->len >= 100);
  for (guint i = 0; i < files->len; i++)
    {
      const char *path = files->pdata[i];
      g_autofree char *expected_path = g_strconcat (path, ".faults", NULL);
      g_autofree char *expected = NULL;
      g_autoptr (GString) told = g_string_new (NULL);
      CarpacePlan plan;

      if (read_file (path, &plan, told))
        fail_msg ("%s was read", path);
      if (!g_file_get_contents (expected_path, &expected, NULL, NULL))
        fail_msg ("%s has no faults beside it; told\n%s", path, told->str);
      all_fit = faults_fit (path, told->str, expected) && all_fit;
    }
  assert_true (all_fit);
}

static void
good_files_are_read (void **state)
{
  g_autoptr (GPtrArray) files = case_files ("plans/good", ".plan.yaml");
  g_autoptr (GPtrArray) bundled = case_files ("../../src/data/plans", ".plan.yaml");

  assert_true (files->len >= 14);
  assert_true (bundled->len >= 5);
  g_ptr_array_extend (files, bundled, (GCopyFunc) (void (*) (void)) g_strdup, NULL);
  for (guint i = 0; i < files->len; i++)
    {
      const char *path = files->pdata[i];
      g_autofree char *expected_path = g_strconcat (path, ".faults", NULL);
      g_autofree char *expected = NULL;
      g_autoptr (GString) told = g_string_new (NULL);
      CarpacePlan plan;

      if (!read_file (path, &plan, told))
        fail_msg ("%s was not read: %s", path, told->str);
      if (g_file_get_contents (expected_path, &expected, NULL, NULL))
        compare_faults (path, told->str, expected);
      else if (told->len > 0)
        fail_msg ("%s: %s", path, told->str);
    }
}

static bool
shows_one_for (const CarpacePlan *plan, CarpaceGroup group)
{
  for (int32_t i = 0; i < plan->n_shown; i++)
    if (carpace_exercise_serves (plan->shown[i], group))
      return true;
  return false;
}

/* So that a rest where the drill changes is for the drill to come. */
static void
bundled_plans_show_an_exercise_for_each_drill_to_come (void **state)
{
  g_autoptr (GPtrArray) bundled = case_files ("../../src/data/plans", ".plan.yaml");
  int changes = 0;

  for (guint i = 0; i < bundled->len; i++)
    {
      g_autoptr (GString) told = g_string_new (NULL);
      CarpacePlan plan;

      assert_true (read_file (bundled->pdata[i], &plan, told));
      for (int32_t block = 0; block < plan.n_blocks; block++)
        for (int32_t part = 1; part < plan.blocks[block].n_parts; part++)
          {
            const CarpaceDrill *drill = &plan.drills[plan.blocks[block].parts[part].drill];

            changes++;
            if (!shows_one_for (&plan, carpace_muscles_prime (drill->movement, plan.grip, plan.side)))
              fail_msg ("%s: nothing is shown before %s", (char *) bundled->pdata[i], drill->id);
          }
    }
  assert_true (changes >= 5);
}

static void
the_example_says_what_its_page_says (void **state)
{
  g_autoptr (GString) told = g_string_new (NULL);
  CarpacePlan plan;

  assert_true (read_file (CARPACE_TEST_DATA "/plans/good/whole-page.plan.yaml", &plan, told));
  assert_string_equal (plan.name, "Two half-hours");
  assert_string_equal (plan.note, "Weeks 1 and 2");
  assert_int_equal (plan.side, CARPACE_SIDE_RIGHT);
  assert_int_equal (plan.grip, CARPACE_GRIP_CLAW);
  assert_true (plan.cm_per_turn == 35);
  assert_int_equal (plan.dose_ms, 60 * CARPACE_MINUTE_MS);
  assert_int_equal (plan.starts_at_min, 240);
  assert_int_equal (plan.or_after_runs, 8);
  assert_int_equal (plan.at_most_ms, 90 * CARPACE_MINUTE_MS);
  assert_true (plan.fixed[CARPACE_KEY_NEXT_DAY_AT_MOST]);
  assert_false (plan.fixed[CARPACE_KEY_NEXT_DAY_CUT_TO]);
  assert_int_equal (plan.longest_ms, 36 * CARPACE_MINUTE_MS);
  assert_int_equal (plan.n_drills, 2);
  assert_string_equal (plan.drills[0].name, "Corner to corner");
  assert_int_equal (plan.drills[0].bend, CARPACE_WRIST_EXTENSION);
  assert_true (plan.drills[0].bend_deg == 25);
  assert_int_equal (plan.drills[0].run_ms, 60000);
  assert_int_equal (plan.drills[1].movement, CARPACE_MOVEMENT_LONG_PURSUIT);
  assert_true (plan.drills[1].effort_lasts_s == 1.5);
  assert_int_equal (plan.n_blocks, 2);
  assert_int_equal (plan.blocks[0].parts[0].share, 5000);
  assert_int_equal (plan.blocks[0].parts[1].drill, 1);
  assert_int_equal (plan.blocks[1].n_parts, 1);
  assert_int_equal (plan.blocks[1].parts[0].share, CARPACE_WHOLE);
  assert_int_equal (told->len, 0);
}

static void
assert_plans_equal (const char *path, const CarpacePlan *a, const CarpacePlan *b)
{
  bool equal = strcmp (a->name, b->name) == 0 && strcmp (a->note, b->note) == 0 && a->n_drills == b->n_drills
               && a->split_into == b->split_into && a->n_blocks == b->n_blocks && a->n_shown == b->n_shown
               && memcmp (a->shown, b->shown, sizeof a->shown[0] * (size_t) a->n_shown) == 0
               && memcmp (a->fixed, b->fixed, sizeof a->fixed) == 0;

  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    equal = equal && carpace_plan_number (a, (CarpacePlanKey) key) == carpace_plan_number (b, (CarpacePlanKey) key);
  for (int32_t i = 0; equal && i < a->n_drills; i++)
    {
      const CarpaceDrill *x = &a->drills[i], *y = &b->drills[i];
      equal = strcmp (x->id, y->id) == 0 && strcmp (x->name, y->name) == 0 && x->movement == y->movement
              && x->view_turn_deg == y->view_turn_deg && x->intensity_pct_mvc == y->intensity_pct_mvc
              && x->efforts_per_min == y->efforts_per_min && x->effort_lasts_s == y->effort_lasts_s
              && x->bend == y->bend && x->bend_deg == y->bend_deg && x->run_ms == y->run_ms && x->time_ms == y->time_ms;
    }
  for (int32_t i = 0; equal && i < a->n_blocks; i++)
    {
      const CarpaceBlock *x = &a->blocks[i], *y = &b->blocks[i];
      equal = x->limit_ms == y->limit_ms && x->limit_fixed == y->limit_fixed && x->n_parts == y->n_parts
              && memcmp (x->parts, y->parts, sizeof x->parts[0] * (size_t) x->n_parts) == 0;
    }
  if (!equal)
    fail_msg ("%s: not the plan it was", path);
}

static void
a_plan_written_out_reads_back_equal (void **state)
{
  g_autoptr (GPtrArray) files = case_files ("plans/good", ".plan.yaml");
  g_autoptr (GPtrArray) bundled = case_files ("../../src/data/plans", ".plan.yaml");

  g_ptr_array_extend (files, bundled, (GCopyFunc) (void (*) (void)) g_strdup, NULL);
  for (guint i = 0; i < files->len; i++)
    {
      g_autoptr (GString) told = g_string_new (NULL);
      g_autofree char *written = NULL, *again = NULL;
      CarpacePlan plan, back;

      assert_true (read_file (files->pdata[i], &plan, told));
      written = carpace_plan_write_file (&plan);
      if (!read_bytes (written, strlen (written), &back, told))
        fail_msg ("%s: %s\n%s", (char *) files->pdata[i], told->str, written);
      assert_plans_equal (files->pdata[i], &plan, &back);
      again = carpace_plan_write_file (&back);
      assert_string_equal (written, again);
    }
}

/* A sound plan with whatever bytes before it. */
static char *
sound_plan (void)
{
  char *bytes = NULL;

  assert_true (g_file_get_contents (CARPACE_TEST_DATA "/plans/good/least.plan.yaml", &bytes, NULL, NULL));
  return bytes;
}

static void
assert_refused (const char *what, const char *bytes, size_t n_bytes, const char *expected)
{
  g_autoptr (GString) told = g_string_new (NULL);
  CarpacePlan plan;

  if (read_bytes (bytes, n_bytes, &plan, told))
    fail_msg ("%s was read", what);
  compare_faults (what, told->str, expected);
}

static void
hostile_bytes_are_refused (void **state)
{
  g_autofree char *plan = sound_plan ();
  static const struct { const char *row, *before, *bytes; size_t n; const char *expected; } rows[] = {
    { "nothing", NULL, "", 0, "0:0 fault there is no plan\n" },
    { "NUL", "# é\n# ", "\0", 1, "2:3 fault control character\n" },
    { "escape", "# ", "\x1b[31m", 5, "1:3 fault control character\n" },
    { "C1 control", "#\r\n# ü", "\xc2\x9b", 2, "2:4 fault control character\n" },
    { "Latin 1", "# ", "\xe9t\xe9", 3, "1:3 fault UTF-8\n" },
    { "overlong", "", "\xc0\xaf", 2, "1:1 fault UTF-8\n" },
    { "surrogate", "#\r#", "\xed\xa0\x80", 3, "2:2 fault UTF-8\n" },
    { "UTF-16", "", "\xff\xfe", 2, "1:1 fault UTF-8\n" },
    { "two controls", "", "#\x01\x02\n", 4, "1:2 fault control\n1:3 fault control\n" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) bytes = g_string_new (rows[i].before);
      g_string_append_len (bytes, rows[i].bytes, (gssize) rows[i].n);
      if (rows[i].before)
        g_string_append_printf (bytes, "\n%s", plan);
      assert_refused (rows[i].row, bytes->str, bytes->len, rows[i].expected);
    }
}

static void
a_byte_order_mark_and_any_line_ends_are_read (void **state)
{
  static const char *const ends[] = { "\n", "\r\n", "\r" };
  g_autofree char *plan = sound_plan ();
  g_auto (GStrv) lines = g_strsplit (plan, "\n", -1);

  for (size_t i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      g_autofree char *joined = g_strjoinv (ends[i], lines);
      g_autofree char *marked = g_strconcat ("\xEF\xBB\xBF", joined, NULL);
      g_autoptr (GString) told = g_string_new (NULL);
      CarpacePlan read;

      if (!read_bytes (marked, strlen (marked), &read, told))
        fail_msg ("line ends %zu: %s", i, told->str);
    }
}

static void
large_files_are_refused_before_parsing (void **state)
{
  g_autofree char *plan = sound_plan ();
  g_autoptr (GString) bytes = g_string_new (plan);
  g_autoptr (GString) told = g_string_new (NULL);
  CarpacePlan read;

  g_string_append_c (bytes, '#');
  while (bytes->len < CARPACE_PLAN_FILE_BYTES)
    g_string_append_c (bytes, 'x');
  assert_true (read_bytes (bytes->str, bytes->len, &read, told));
  g_string_append_c (bytes, 'x');
  assert_refused ("one byte more", bytes->str, bytes->len, "0:0 fault 256 KiB\n");
}

/* A list of lists is the value of an unknown key: itself a fault, but the only
 * one of nesting is the seventeenth level. */
static void
nesting_is_bounded (void **state)
{
  static const struct { const char *row; int n_lists; bool too_deep; } rows[] = {
    { "16 levels", 15, false },
    { "17 levels", 16, true },
    { "61 levels", 60, true },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) bytes = g_string_new ("x: ");
      g_autoptr (GString) told = g_string_new (NULL);
      CarpacePlan plan;

      for (int n = 0; n < rows[i].n_lists; n++)
        g_string_append_c (bytes, '[');
      for (int n = 0; n < rows[i].n_lists; n++)
        g_string_append_c (bytes, ']');
      assert_false (read_bytes (bytes->str, bytes->len, &plan, told));
      if ((strstr (told->str, "1:19 fault this is nested too deep") != NULL) != rows[i].too_deep)
        fail_msg ("%s: %s", rows[i].row, told->str);
    }
}

static void
deep_nesting_of_a_large_file_is_refused (void **state)
{
  static const char *const openings[] = { "[", "{a: ", "- ", "? ", "[{", "{[", "!fixed [", "&a [", "\"", "|\n " };

  for (size_t i = 0; i < G_N_ELEMENTS (openings); i++)
    {
      g_autoptr (GString) bytes = g_string_new (NULL);
      g_autoptr (GString) told = g_string_new (NULL);
      CarpacePlan plan;

      while (bytes->len + strlen (openings[i]) <= CARPACE_PLAN_FILE_BYTES)
        g_string_append (bytes, openings[i]);
      assert_false (read_bytes (bytes->str, bytes->len, &plan, told));
      assert_true (told->len > 0);
    }
}

static void
faults_past_the_most_are_counted (void **state)
{
  g_autofree char *plan = sound_plan ();
  g_autoptr (GString) bytes = g_string_new (plan);
  g_autoptr (GString) told = g_string_new (NULL);
  CarpacePlan read;
  int n_lines = 0;

  for (int i = 0; i < 300; i++)
    g_string_append_printf (bytes, "nothing-%d: 1\n", i);
  assert_false (read_bytes (bytes->str, bytes->len, &read, told));
  for (const char *at = told->str; *at; at++)
    n_lines += *at == '\n';
  assert_int_equal (n_lines, 257);
  assert_non_null (strstr (told->str, "0:0 fault 44 more faults"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (bad_files_tell_each_fault_with_its_place),
    cmocka_unit_test (good_files_are_read),
    cmocka_unit_test (bundled_plans_show_an_exercise_for_each_drill_to_come),
    cmocka_unit_test (the_example_says_what_its_page_says),
    cmocka_unit_test (a_plan_written_out_reads_back_equal),
    cmocka_unit_test (hostile_bytes_are_refused),
    cmocka_unit_test (a_byte_order_mark_and_any_line_ends_are_read),
    cmocka_unit_test (large_files_are_refused_before_parsing),
    cmocka_unit_test (nesting_is_bounded),
    cmocka_unit_test (deep_nesting_of_a_large_file_is_refused),
    cmocka_unit_test (faults_past_the_most_are_counted),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
