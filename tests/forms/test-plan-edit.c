/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-edit.c: what an edit makes of a file, byte for byte, a row each; bundled plans, hostile ones, and the way
 * back. What others read of it: edits-against-pyyaml. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/ports.h"
#include "forms/plan-edit-undo.h"
#include "forms/plan-edit.h"
#include "plan-cases.h"

typedef struct
{
  const char *before;
  CarpacePlanEdit edit;
  const char *after; /* NULL: refused */
  CarpacePlanEditEnd end;
} Row;

#define SET_TO(p, v) { .kind = CARPACE_EDIT_SET, .path = p, .value = v }
#define REMOVED(p) { .kind = CARPACE_EDIT_REMOVE, .path = p }
#define INSERTED(p, v) { .kind = CARPACE_EDIT_INSERT, .path = p, .value = v }
#define DUPLICATED(p) { .kind = CARPACE_EDIT_DUPLICATE, .path = p }
#define MOVED(p, n) { .kind = CARPACE_EDIT_MOVE, .path = p, .to = n }
#define FIXED(p) { .kind = CARPACE_EDIT_FIX, .path = p }
#define RELEASED(p) { .kind = CARPACE_EDIT_RELEASE, .path = p }

static const Row rows[] = {
  /* a value, in the marks it had */
  { "gap-after: 4 s # short\n", SET_TO ("gap-after", "6 s"), "gap-after: 6 s # short\n" },
  { "day: {starts-at: '04:00'}", SET_TO ("day.starts-at", "16:30"), "day: {starts-at: '16:30'}" },
  { "name: 'a'\n", SET_TO ("name", "it's"), "name: 'it''s'\n" },
  { "name: a\n", SET_TO ("name", "b: #c"), "name: \"b: #c\"\n" },
  { "name: \"a\"\r\n# end", SET_TO ("name", "two\nlines"), "name: \"two\\nlines\"\r\n# end" },
  { "note: >-\n  one\n  two\nname: x\n", SET_TO ("note", "three"), "note: \"three\"\nname: x\n" },
  { "next-day: {at-most: !fixed 90 min}", SET_TO ("next-day.at-most", "80 min"), "next-day: {at-most: !fixed 80 min}" },
  { "hand: {cm-per-turn: \"35\"}", SET_TO ("hand.cm-per-turn", "40"), "hand: {cm-per-turn: 40}" },
  { "name:\nnote: y\n", SET_TO ("name", "x"), "name: x\nnote: y\n" },
  { "split: halves\n", SET_TO ("split", "5"), "split: 5\n" },
  /* a key, where the table has it, as its neighbours are */
  { "day: {dose: 60 min,  between-blocks: 45 min} # x\n", SET_TO ("day.starts-at", "04:00"),
    "day: {dose: 60 min,  starts-at: \"04:00\",  between-blocks: 45 min} # x\n" },
  { "day:\n    dose: 60 min # x\n    # y\n    between-blocks: 45 min\n", SET_TO ("day.starts-at", "04:00"),
    "day:\n    dose: 60 min # x\n    starts-at: \"04:00\"\n    # y\n    between-blocks: 45 min\n" },
  { "{\"day\":{\"dose\":\"60 min\"}}", SET_TO ("day.starts-at", "04:00"),
    "{\"day\":{\"dose\":\"60 min\", \"starts-at\": \"04:00\"}}" },
  { "{\n  \"name\": \"a\",\n  \"drills\": []\n}\n", SET_TO ("hand.cm-per-turn", "35"),
    "{\n  \"name\": \"a\",\n  \"hand\": {\"cm-per-turn\": 35},\n  \"drills\": []\n}\n" },
  { "name: a\r\nhand:\r\n  side: left\r\ndrills: []\r\n", SET_TO ("week.without", "monday, sunday"),
    "name: a\r\nhand:\r\n  side: left\r\nweek:\r\n  without: [monday, sunday]\r\ndrills: []\r\n" },
  { "name: a\nhand: {side: left}", SET_TO ("day.dose", "1 h"), "name: a\nhand: {side: left}\nday: {dose: 1 h}" },
  { "hand: {}\n", SET_TO ("hand.side", "left"), "hand: {side: left}\n" },
  { "drills:\n- id: a # it\n  name: b\n", SET_TO ("drills.a.run", "60 s"), "drills:\n- id: a # it\n  name: b\n  run: 60 s\n" },
  { "blocks: [{limit: 9 min, drills: [a, \"b\"]}]", SET_TO ("blocks[0].drills[1].share", "70 %"),
    "blocks: [{limit: 9 min, drills: [a, {id: \"b\", share: 70 %}]}]" },
  /* removed */
  { "day: {dose: 1 h, starts-at: x, between-blocks: 9 s}", REMOVED ("day.starts-at"), "day: {dose: 1 h, between-blocks: 9 s}" },
  { "day: {dose: 1 h, starts-at: x}", REMOVED ("day.starts-at"), "day: {dose: 1 h}" },
  { "name: x\nday: {dose: 1 h} # gone\n# stays\nnote: y\n", REMOVED ("day.dose"), "name: x\n# stays\nnote: y\n" },
  { "drills:\n  - name: x\n    # stays\n    id: y\n", REMOVED ("drills[0].name"), "drills:\n  -\n    # stays\n    id: y\n" },
  { "week:\n  without:\n    - monday\n", REMOVED ("week.without[0]"), "week:\n  without: []\n" },
  { "blocks:\n- limit: 1 min\nsplit: 3", REMOVED ("split"), "blocks:\n- limit: 1 min" },
  { "name: only\n", REMOVED ("name"), NULL, CARPACE_EDIT_UNFIT },
  /* items */
  { "drills:\n  # the first\n  - id: a\n    run: 9 s\n", INSERTED ("drills[0]", "b"),
    "drills:\n  # the first\n  - id: b\n  - id: a\n    run: 9 s\n" },
  { "drills:\n  - {id: a} # x\n", INSERTED ("drills[1]", "2"), "drills:\n  - {id: a} # x\n  - {id: \"2\"}\n" },
  { "drills:\n- id: a", INSERTED ("drills[1]", "b"), "drills:\n- id: a\n- id: b" },
  { "micro-rest: {show: []}\n", INSERTED ("micro-rest.show[0]", "open-and-close"), "micro-rest: {show: [open-and-close]}\n" },
  { "drills: [{id: a}]\n", INSERTED ("drills[2]", "b"), NULL, CARPACE_EDIT_NOT_THERE },
  { "blocks:\n  - limit: 1 min # x\n    drills:\n    - a\n", DUPLICATED ("blocks[0]"),
    "blocks:\n  - limit: 1 min # x\n    drills:\n    - a\n  - limit: 1 min # x\n    drills:\n    - a\n" },
  { "drills:\n  # of a\n  - id: a\n\n  # of b\n  - id: b # b\nsplit: 2\n", MOVED ("drills[1]", 0),
    "drills:\n  # of b\n  - id: b # b\n\n  # of a\n  - id: a\nsplit: 2\n" },
  { "drills:\n- id: a\n- id: b\n- id: c", MOVED ("drills.a", 2), "drills:\n- id: b\n- id: c\n- id: a" },
  { "week: {without: [monday, # x\n  sunday]}", MOVED ("week.without[0]", 1), "week: {without: [sunday, # x\n  monday]}" },
  /* marked */
  { "day: {dose: 1 h}", FIXED ("day.dose"), "day: {dose: !fixed 1 h}" },
  { "day: {dose: !fixed 1 h}", FIXED ("day.dose"), "day: {dose: !fixed 1 h}" },
  { "week:\n  without: # x\n  - monday\n", FIXED ("week.without"), "week:\n  without: !fixed # x\n  - monday\n" },
  { "week:\n  without: !fixed # x\n  - monday\n", RELEASED ("week.without"), "week:\n  without: # x\n  - monday\n" },
  { "drills: [{id: a, run: 9 s}]", FIXED ("drills[0].run"), NULL, CARPACE_EDIT_UNKNOWN_PATH },
  /* what is no path, no plan, or no place */
  { "name: x", SET_TO ("name.first", "y"), NULL, CARPACE_EDIT_UNKNOWN_PATH },
  { "name: x", SET_TO ("day", "y"), NULL, CARPACE_EDIT_UNKNOWN_PATH },
  { "name: x", SET_TO ("day.doze", "y"), NULL, CARPACE_EDIT_UNKNOWN_PATH },
  { "name: x", SET_TO ("drills[0].run", "y"), NULL, CARPACE_EDIT_NOT_THERE },
  { "name: &a x", SET_TO ("name", "y"), NULL, CARPACE_EDIT_UNREAD },
  { "name: {x", SET_TO ("name", "y"), NULL, CARPACE_EDIT_UNREAD },
  { "a: 1\n---\nname: x", SET_TO ("name", "y"), NULL, CARPACE_EDIT_UNREAD },
  { "? name\n: x\n", SET_TO ("day.dose", "1 h"), NULL, CARPACE_EDIT_UNFIT },
  { "name: x", SET_TO ("name", "\xff"), NULL, CARPACE_EDIT_UNFIT },
};

static void
each_edit_changes_its_place_alone (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const Row *row = &rows[i];
      GString *now = NULL;
      CarpacePlanEditEnd end = carpace_plan_edit (row->before, strlen (row->before), &row->edit, &now);

      if (end != row->end || g_strcmp0 (now ? now->str : NULL, row->after) != 0)
        fail_msg ("row %zu, %s: ended as %d with\n%s", i, row->edit.path, (int) end, now ? now->str : "nothing");
      if (now)
        g_string_free (now, TRUE);
    }
}

/* Every value of every plan we give, set to another and back. */
static void
a_value_set_and_set_back_gives_the_bundled_file_again (void **state)
{
  static const char *const paths[] = { "name", "note", "hand.side", "day.dose", "day.starts-at", "micro-rest.after", "micro-rest.length",
                                       "next-day.at-most", "drills[0].id", "drills[0].name", "drills[0].run",
                                       "drills[0].efforts", "blocks[0].limit", "split" };
  g_autoptr (GPtrArray) files = case_files ("../../src/data/plans", ".plan.yaml");
  int n = 0;

  for (guint i = 0; i < files->len; i++)
    for (size_t p = 0; p < G_N_ELEMENTS (paths); p++)
      {
        g_autofree char *bytes = NULL, *value = NULL;
        g_autoptr (GString) there = NULL, back = NULL;
        CarpacePlanEdit edit = { .kind = CARPACE_EDIT_SET, .path = paths[p], .value = "another-one" };
        gsize n_bytes;

        assert_true (g_file_get_contents (files->pdata[i], &bytes, &n_bytes, NULL));
        value = carpace_plan_edit_value (bytes, n_bytes, paths[p]);
        if (value == NULL)
          continue;
        assert_int_equal (carpace_plan_edit (bytes, n_bytes, &edit, &there), CARPACE_EDIT_DONE);
        assert_string_not_equal (there->str, bytes);
        edit.value = value;
        assert_int_equal (carpace_plan_edit (there->str, there->len, &edit, &back), CARPACE_EDIT_DONE);
        assert_string_equal (back->str, bytes);
        n++;
      }
  assert_true (n >= 40);
}

/* A file at its largest takes no byte more. */
static void
a_file_grows_no_larger_than_a_plan_may_be (void **state)
{
  for (int over = 0; over <= 1; over++)
    {
      g_autoptr (GString) file = g_string_new ("name: a\n#");
      g_autoptr (GString) now = NULL;
      CarpacePlanEdit edit = SET_TO ("name", over ? "abc" : "ab");

      while (file->len + 1 < CARPACE_PLAN_FILE_BYTES)
        g_string_append_c (file, 'x');
      assert_int_equal (carpace_plan_edit (file->str, file->len, &edit, &now), over ? CARPACE_EDIT_TOO_LARGE : CARPACE_EDIT_DONE);
    }
}

static void
add (CarpaceUndo *undo, const char *text)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));

  carpace_undo_add (undo, bytes);
}

static void
assert_now (CarpaceUndo *undo, const char *text)
{
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_undo_now (undo), &n);

  assert_int_equal (n, strlen (text));
  assert_memory_equal (bytes, text, n);
}

static void
undo_and_redo_walk_the_states_of_a_file (void **state)
{
  g_autoptr (GBytes) first = g_bytes_new_static ("a", 1);
  g_autoptr (CarpaceUndo) undo = carpace_undo_new (first);

  assert_false (carpace_undo_back (undo));
  add (undo, "a"); /* is no step */
  assert_false (carpace_undo_can_go_back (undo));
  add (undo, "b");
  add (undo, "c");
  assert_true (carpace_undo_is_unsaved (undo));
  assert_true (carpace_undo_back (undo) && carpace_undo_back (undo));
  assert_now (undo, "a");
  assert_false (carpace_undo_is_unsaved (undo));
  assert_true (carpace_undo_forth (undo));
  carpace_undo_saved (undo);
  add (undo, "d");
  assert_false (carpace_undo_forth (undo)); /* c is gone */
  assert_true (carpace_undo_is_unsaved (undo));
  assert_true (carpace_undo_back (undo));
  assert_now (undo, "b");
  assert_false (carpace_undo_is_unsaved (undo));
}

static int
steps_back (CarpaceUndo *undo)
{
  int n = 0;

  while (carpace_undo_back (undo))
    n++;
  return n;
}

static void
undo_lets_the_oldest_go_by_steps_and_by_bytes (void **state)
{
  g_autoptr (GBytes) first = g_bytes_new_static ("a", 1);

  for (int more = -1; more <= 1; more++)
    {
      g_autoptr (CarpaceUndo) undo = carpace_undo_new (first);

      for (int i = 0; i < CARPACE_UNDO_STEPS + more; i++)
        add (undo, i % 2 ? "b" : "c");
      assert_int_equal (steps_back (undo), CARPACE_UNDO_STEPS + MIN (more, 0));
    }
  for (int more = 0; more <= 1; more++)
    {
      g_autoptr (GBytes) large = g_bytes_new_take (g_malloc0 (CARPACE_UNDO_BYTES / 4), CARPACE_UNDO_BYTES / 4);
      g_autoptr (CarpaceUndo) undo = carpace_undo_new (large);

      for (int i = 1; i < 4 + more; i++)
        {
          char *bytes = g_malloc0 (CARPACE_UNDO_BYTES / 4);
          g_autoptr (GBytes) other = NULL;

          bytes[0] = (char) i;
          other = g_bytes_new_take (bytes, CARPACE_UNDO_BYTES / 4);
          carpace_undo_add (undo, other);
        }
      assert_int_equal (steps_back (undo), 3);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_edit_changes_its_place_alone),
    cmocka_unit_test (a_value_set_and_set_back_gives_the_bundled_file_again),
    cmocka_unit_test (a_file_grows_no_larger_than_a_plan_may_be),
    cmocka_unit_test (undo_and_redo_walk_the_states_of_a_file),
    cmocka_unit_test (undo_lets_the_oldest_go_by_steps_and_by_bytes),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
