/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-document.c: a plan that is being changed: each change is one step, touches nothing beside it, and can be undone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "planner/document.h"

#define HEAD "carpace-plan: 1 # one\nname: T\nday: {dose: 60 min, between-blocks: 45 min}\n"
#define DRILLS "drills:\n  # of a\n  - {id: a, movement: small-turn, run: 60 s}\n  - {id: b, movement: large-turn, run: 60 s} # of b\n"
#define FIRST "  - limit: 30 min # first\n    drills: [a, b]\n"
#define SECOND "  - limit: 30 min\n    drills:\n      - {id: b, share: 60 %}\n      - {id: a, share: 40 %}\n"
#define PLAN HEAD DRILLS "blocks:\n" FIRST SECOND "# the end\n"

static CarpacePlanner *
planner_of (const char *text)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));

  return carpace_planner_new (bytes);
}

static void
assert_text (const CarpacePlanner *planner, const char *text)
{
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (planner), &n);
  g_autofree char *is = g_strndup (bytes, n);

  assert_string_equal (is, text);
}

/* ---- what is done, a row each ---- */

static CarpacePlanEditEnd
drag_limit (CarpacePlanner *planner)
{
  carpace_plan_try_limit (carpace_planner_try (planner), 0, 25 * CARPACE_MINUTE_MS);
  carpace_planner_tried (planner);
  return carpace_planner_take (planner);
}

static CarpacePlanEditEnd
drag_wait (CarpacePlanner *planner)
{
  carpace_plan_try_wait (carpace_planner_try (planner), 50 * CARPACE_MINUTE_MS);
  return carpace_planner_take (planner);
}

static CarpacePlanEditEnd
drag_share (CarpacePlanner *planner)
{
  carpace_plan_try_share (carpace_planner_try (planner), 1, 0, 7000);
  return carpace_planner_take (planner);
}

static CarpacePlanEditEnd
drag_block (CarpacePlanner *planner)
{
  carpace_plan_try_move_block (carpace_planner_try (planner), 0, 1);
  return carpace_planner_take (planner);
}

static CarpacePlanEditEnd
drag_part (CarpacePlanner *planner)
{
  carpace_plan_try_move_part (carpace_planner_try (planner), 0, 0, 1);
  return carpace_planner_take (planner);
}

static CarpacePlanEditEnd
turn_wrist (CarpacePlanner *planner)
{
  carpace_plan_try_wrist (carpace_planner_try (planner), 0, -25.2);
  return carpace_planner_take (planner);
}

static CarpacePlanEditEnd
tried_and_put_back (CarpacePlanner *planner)
{
  carpace_plan_try_limit (carpace_planner_try (planner), 0, 25 * CARPACE_MINUTE_MS);
  carpace_planner_let_go (planner);
  return CARPACE_EDIT_DONE;
}

static CarpacePlanEditEnd
duplicate_block (CarpacePlanner *planner)
{
  return carpace_planner_duplicate_block (planner, 0);
}

static CarpacePlanEditEnd
remove_block (CarpacePlanner *planner)
{
  return carpace_planner_remove_block (planner, 1);
}

static CarpacePlanEditEnd
add_part (CarpacePlanner *planner)
{
  return carpace_planner_add_part (planner, 1, 0);
}

static CarpacePlanEditEnd
remove_part (CarpacePlanner *planner)
{
  return carpace_planner_remove_part (planner, 1, 0);
}

static CarpacePlanEditEnd
duplicate_drill (CarpacePlanner *planner)
{
  return carpace_planner_duplicate_drill (planner, 0, "a, again");
}

static CarpacePlanEditEnd
remove_drill (CarpacePlanner *planner)
{
  return carpace_planner_remove_drill (planner, 0);
}

static CarpacePlanEditEnd
type_number (CarpacePlanner *planner)
{
  return carpace_planner_type (planner, "blocks[0].limit", " 22,5 ", "30 min");
}

static CarpacePlanEditEnd
type_nothing (CarpacePlanner *planner)
{
  return carpace_planner_type (planner, "day.between-blocks", "", "45 min");
}

static const struct
{
  const char *what;
  CarpacePlanEditEnd (*act) (CarpacePlanner *planner);
  const char *after;
} rows[] = {
  { "a limit, and the dose that was the sum", drag_limit,
    "carpace-plan: 1 # one\nname: T\nday: {dose: 55 min, between-blocks: 45 min}\n" DRILLS "blocks:\n"
    "  - limit: 25 min # first\n    drills: [a, b]\n" SECOND "# the end\n" },
  { "a wait", drag_wait,
    "carpace-plan: 1 # one\nname: T\nday: {dose: 60 min, between-blocks: 50 min}\n" DRILLS "blocks:\n" FIRST SECOND "# the end\n" },
  { "a share, and its neighbour's", drag_share,
    HEAD DRILLS "blocks:\n" FIRST "  - limit: 30 min\n    drills:\n      - {id: b, share: 70 %}\n      - {id: a, share: 30 %}\n# the end\n" },
  { "the order of blocks", drag_block, HEAD DRILLS "blocks:\n" SECOND FIRST "# the end\n" },
  { "the order of a block's drills", drag_part,
    HEAD DRILLS "blocks:\n  - limit: 30 min # first\n    drills: [b, a]\n" SECOND "# the end\n" },
  { "a wrist that is turned", turn_wrist,
    HEAD "drills:\n  # of a\n  - {id: a, movement: small-turn, wrist: 25 deg extension, run: 60 s}\n"
    "  - {id: b, movement: large-turn, run: 60 s} # of b\n" "blocks:\n" FIRST SECOND "# the end\n" },
  { "what is put back", tried_and_put_back, PLAN },
  { "one block more", duplicate_block,
    "carpace-plan: 1 # one\nname: T\nday: {dose: 1 h 30 min, between-blocks: 45 min}\n" DRILLS "blocks:\n" FIRST FIRST SECOND "# the end\n" },
  { "one block less", remove_block,
    "carpace-plan: 1 # one\nname: T\nday: {dose: 30 min, between-blocks: 45 min}\n" DRILLS "blocks:\n" FIRST "# the end\n" },
  { "a drill that comes to shares", add_part,
    HEAD DRILLS "blocks:\n" FIRST "  - limit: 30 min\n    drills:\n      - {id: b, share: 60 %}\n      - {id: a, share: 20 %}\n"
    "      - {id: a, share: 20 %}\n# the end\n" },
  { "a drill that leaves its share", remove_part,
    HEAD DRILLS "blocks:\n" FIRST "  - limit: 30 min\n    drills:\n      - {id: a, share: 100 %}\n# the end\n" },
  { "a drill again, under an id of its own", duplicate_drill,
    HEAD "drills:\n  # of a\n  - {id: a, movement: small-turn, run: 60 s}\n  - {id: a-2, name: \"a, again\", movement: small-turn, run: 60 s}\n"
    "  - {id: b, movement: large-turn, run: 60 s} # of b\nblocks:\n" FIRST SECOND "# the end\n" },
  { "a drill that is in blocks", remove_drill,
    HEAD "drills:\n  # of a\n  - {id: b, movement: large-turn, run: 60 s} # of b\nblocks:\n  - limit: 30 min # first\n    drills: [b]\n"
    "  - limit: 30 min\n    drills:\n      - {id: b, share: 100 %}\n# the end\n" },
  { "a number as it is typed", type_number,
    HEAD DRILLS "blocks:\n  - limit: 22.5 min # first\n    drills: [a, b]\n" SECOND "# the end\n" },
  { "nothing, so that what is usual holds", type_nothing,
    "carpace-plan: 1 # one\nname: T\nday: {dose: 60 min}\n" DRILLS "blocks:\n" FIRST SECOND "# the end\n" },
};

static void
each_change_is_a_step (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CarpacePlanner) planner = planner_of (PLAN);
      bool changes = strcmp (rows[i].after, PLAN) != 0;

      print_message ("%s\n", rows[i].what);
      assert_true (carpace_planner_is_sound (planner));
      assert_int_equal (rows[i].act (planner), CARPACE_EDIT_DONE);
      assert_text (planner, rows[i].after);
      assert_true (carpace_planner_is_sound (planner));
      assert_int_equal (carpace_planner_is_unsaved (planner), changes);
      assert_int_equal (carpace_planner_can_undo (planner), changes);
      carpace_planner_undo (planner);
      assert_text (planner, PLAN);
      assert_false (carpace_planner_is_unsaved (planner));
      carpace_planner_redo (planner);
      assert_text (planner, rows[i].after);
    }
}

/* A value that is out of its range is written, told in its place, and undone; the plan as it was stays to be seen. */
static void
a_fault_stands_at_its_value (void **state)
{
  g_autoptr (CarpacePlanner) planner = planner_of (PLAN);
  const CarpacePlannerFault *fault;

  assert_int_equal (carpace_planner_type (planner, "blocks[0].limit", "5 h", "30 min"), CARPACE_EDIT_DONE);
  assert_false (carpace_planner_is_sound (planner));
  fault = carpace_planner_fault_at (planner, "blocks[0].limit");
  assert_non_null (fault);
  assert_false (fault->warning);
  assert_int_equal (fault->line, 9);
  assert_null (carpace_planner_fault_at (planner, "blocks[1]"));
  assert_ptr_equal (carpace_planner_fault_at (planner, "blocks[0]"), fault);
  assert_int_equal (carpace_planner_plan (planner)->blocks[0].limit_ms, 30 * CARPACE_MINUTE_MS);
  assert_null (carpace_planner_try (planner));
  assert_int_equal (carpace_planner_ease (planner), CARPACE_EDIT_NOT_THERE);
  carpace_planner_undo (planner);
  assert_true (carpace_planner_is_sound (planner));
  assert_text (planner, PLAN);
}

static void
what_cannot_be_read_can_be_written_anew (void **state)
{
  g_autoptr (CarpacePlanner) planner = planner_of ("name: [T\n");

  assert_false (carpace_planner_can_edit (planner));
  assert_null (carpace_planner_plan (planner));
  assert_int_equal (carpace_planner_type (planner, "name", "U", NULL), CARPACE_EDIT_UNREAD);
  carpace_planner_write (planner, PLAN);
  assert_true (carpace_planner_is_sound (planner));
  assert_true (carpace_planner_is_unsaved (planner));
}

/* The numbers follow what is tried, and are those of the file again once it is let go. */
static void
numbers_follow_what_is_tried (void **state)
{
  g_autoptr (CarpacePlanner) planner = planner_of (PLAN);
  double before = carpace_planner_load (planner)->day_index;

  carpace_plan_try_limit (carpace_planner_try (planner), 0, 10 * CARPACE_MINUTE_MS);
  carpace_planner_tried (planner);
  assert_true (carpace_planner_load (planner)->day_index < before);
  assert_int_equal (carpace_planner_plan (planner)->dose_ms, 40 * CARPACE_MINUTE_MS);
  carpace_planner_let_go (planner);
  assert_true (carpace_planner_load (planner)->day_index <= before && carpace_planner_load (planner)->day_index >= before);
}

/* One press does what was told, and comes to the numbers that were told of it. */
static void
one_press_eases (void **state)
{
  g_autoptr (CarpacePlanner) planner = planner_of (PLAN);
  CarpaceEase ease = carpace_planner_load (planner)->ease;

  assert_true (carpace_planner_load (planner)->has_ease);
  assert_int_equal (carpace_planner_ease (planner), CARPACE_EDIT_DONE);
  assert_true (carpace_planner_is_sound (planner));
  assert_float_equal (carpace_planner_load (planner)->day_index, ease.day_index, 1e-9);
  assert_float_equal (carpace_planner_load (planner)->block[carpace_planner_load (planner)->lowest].lowest_reserve, ease.lowest_reserve, 1e-9);
}

/* The blocks there are keep their comments; the day is as long as before, and what was told holds. */
static void
quarters_where_halves_stood (void **state)
{
  g_autoptr (CarpacePlanner) planner = planner_of (PLAN);
  g_autofree CarpacePlannerSplit *split = g_new0 (CarpacePlannerSplit, 1);
  gsize n;

  assert_true (carpace_planner_split (planner, 4, split));
  assert_int_equal (carpace_planner_put_blocks (planner, &split->plan), CARPACE_EDIT_DONE);
  assert_true (carpace_planner_is_sound (planner));
  assert_int_equal (carpace_planner_plan (planner)->n_blocks, 4);
  for (int32_t i = 0; i < 4; i++)
    {
      const CarpaceBlock *is = &carpace_planner_plan (planner)->blocks[i], *should = &split->plan.blocks[i];

      assert_int_equal (is->limit_ms, should->limit_ms);
      assert_int_equal (is->n_parts, should->n_parts);
      for (int32_t part = 0; part < is->n_parts; part++)
        {
          assert_int_equal (is->parts[part].drill, should->parts[part].drill);
          assert_in_range (is->parts[part].share - should->parts[part].share + 1, 0, 2);
        }
    }
  assert_non_null (strstr (g_bytes_get_data (carpace_planner_bytes (planner), &n), "# first\n"));
  carpace_planner_undo (planner);
  assert_text (planner, PLAN);
}

static void
a_split_is_written_out (void **state)
{
  g_autoptr (CarpacePlanner) planner = planner_of (HEAD DRILLS "split: halves\n");

  assert_true (carpace_planner_is_sound (planner));
  assert_int_equal (carpace_planner_duplicate_block (planner, 0), CARPACE_EDIT_NOT_THERE);
  assert_int_equal (carpace_planner_write_out (planner), CARPACE_EDIT_DONE);
  assert_true (carpace_planner_is_sound (planner));
  assert_int_equal (carpace_planner_plan (planner)->split_into, 0);
  assert_int_equal (carpace_planner_plan (planner)->n_blocks, 2);
  assert_int_equal (carpace_planner_duplicate_block (planner, 0), CARPACE_EDIT_DONE);
}

static void
a_block_keeps_a_drill (void **state)
{
  g_autoptr (CarpacePlanner) planner = planner_of (HEAD DRILLS "blocks:\n  - {limit: 30 min, drills: [a]}\n  - {limit: 30 min, drills: [a, b]}\n");

  assert_true (carpace_planner_is_alone (planner, 0));
  assert_false (carpace_planner_is_alone (planner, 1));
  assert_int_equal (carpace_planner_remove_drill (planner, 0), CARPACE_EDIT_NOT_THERE);
  assert_int_equal (carpace_planner_remove_part (planner, 0, 0), CARPACE_EDIT_NOT_THERE);
}

static void
assert_typed (const char *text, const char *usual, const char *should)
{
  g_autofree char *typed = carpace_planner_typed (text, usual);

  assert_string_equal (typed, should);
}

/* What is wrong stays as it was typed, to be told. */
static void
units_are_those_that_stood_there (void **state)
{
  assert_typed ("20", "30 min", "20 min");
  assert_typed (" 1,5 ", "30 min", "1.5 min");
  assert_typed ("90 s", "30 min", "90 s");
  assert_typed ("60", "12 %", "60 %");
  assert_typed ("40", "60 /min", "40 /min");
  assert_typed ("30", "1 h 5 min", "30"); /* two units: which of them? */
  assert_typed ("a, b", NULL, "a, b");
  assert_typed ("5", "none", "5");
  assert_typed ("many", "30 min", "many");
}

static void
assert_stepped (CarpacePlanner *planner, const char *path, int by, const char *should)
{
  g_autofree char *stepped = carpace_planner_stepped (planner, path, by);

  assert_string_equal (stepped, should);
}

static void
steps_end_at_the_range (void **state)
{
  g_autoptr (CarpacePlanner) planner = planner_of (PLAN);

  assert_stepped (planner, "blocks[0].limit", 1, "31 min");
  assert_stepped (planner, "blocks[1].drills[0].share", -1, "59 %");
  assert_stepped (planner, "drills[0].effort-lasts", 1, "0.4 s");
  assert_stepped (planner, "drills[0].intensity", 1, "13 %");
  assert_stepped (planner, "tighten.stop-above", 1, "5");
  assert_stepped (planner, "micro-rest.length", 1, "35 s");
  assert_null (carpace_planner_stepped (planner, "name", 1));
  assert_null (carpace_planner_stepped (planner, "hand.side", 1));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_change_is_a_step),
    cmocka_unit_test (a_fault_stands_at_its_value),
    cmocka_unit_test (what_cannot_be_read_can_be_written_anew),
    cmocka_unit_test (numbers_follow_what_is_tried),
    cmocka_unit_test (one_press_eases),
    cmocka_unit_test (quarters_where_halves_stood),
    cmocka_unit_test (a_split_is_written_out),
    cmocka_unit_test (a_block_keeps_a_drill),
    cmocka_unit_test (units_are_those_that_stood_there),
    cmocka_unit_test (steps_end_at_the_range),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
