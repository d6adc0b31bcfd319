/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-flaws.c: each value of a plan by itself, with all that is told where
 * it is wrong, and the borders where it begins. test-plan-builder.c has what a
 * sound plan comes to, test-plan-together.c what belongs together. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "plan-flaws.h"

/* Unicode: controls, line and paragraph separators, and what turns the direction
 * of text (Bidi_Control) are unfit; a note may have lines. */
static void
characters_of_names_and_notes (void **state)
{
  static const struct { const char *row, *utf8; CarpaceFlawKind name, note; } rows[] = {
    { "empty", "", CARPACE_FLAW_NAME_EMPTY, NONE },
    { "blanks", "  ", CARPACE_FLAW_NAME_EMPTY, NONE },
    { "no-break spaces", "\xC2\xA0", CARPACE_FLAW_NAME_EMPTY, NONE },
    { "U+001F", "a\x1F", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+0020", "a b", NONE, NONE },
    { "U+007E", "a~", NONE, NONE },
    { "U+007F", "a\x7F", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+0080", "a\xC2\x80", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+009F", "a\xC2\x9F", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+00A0", "a\xC2\xA0", NONE, NONE },
    { "a new line", "a\nb", CARPACE_FLAW_NAME_CHARACTERS, NONE },
    { "a tab", "a\tb", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "unfit, then fit", "\x01xy", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+0480", "\xD2\x80", NONE, NONE },
    { "U+2027", "a\xE2\x80\xA7", NONE, NONE },
    { "U+2028", "a\xE2\x80\xA8", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+202E", "a\xE2\x80\xAE", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+202F", "a\xE2\x80\xAF", NONE, NONE },
    { "U+2065", "a\xE2\x81\xA5", NONE, NONE },
    { "U+2066", "a\xE2\x81\xA6", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+2069", "a\xE2\x81\xA9", CARPACE_FLAW_NAME_CHARACTERS, CARPACE_FLAW_NAME_CHARACTERS },
    { "U+206A", "a\xE2\x81\xAA", NONE, NONE },
    { "U+A028", "\xEA\x80\xA8", NONE, NONE },
    { "U+12028, four bytes", "\xF0\x92\x80\xA8", NONE, NONE },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    for (int note = 0; note < 2; note++)
      {
        CarpacePlanKey key = note ? CARPACE_KEY_NOTE : CARPACE_KEY_NAME;
        CarpaceFlawKind kind = note ? rows[i].note : rows[i].name;

        carpace_plan_builder_init (&builder);
        carpace_plan_builder_text (&builder, key, "what stood before", 6);
        carpace_plan_builder_text (&builder, key, rows[i].utf8, 7);
        assert_only (rows[i].row, of_key (kind, 7, key, 0, note ? CARPACE_NOTE_CHARACTERS : CARPACE_NAME_CHARACTERS));
        assert_int_equal (builder.sound[key], kind == NONE);
        assert_int_equal (builder.key_place[key], 7);
        assert_string_equal (note ? builder.plan.note : builder.plan.name,
                             kind == NONE ? rows[i].utf8 : "what stood before");
      }
}

/* @n times the same character. */
static const char *
many (const char *character, int n)
{
  static char text[4 * 2000];

  text[0] = '\0';
  for (size_t bytes = strlen (character), i = 0; i < (size_t) n; i++)
    memcpy (text + i * bytes, character, bytes + 1);
  return text;
}

static void
lengths_are_counted_in_characters (void **state)
{
  static const char *const characters[] = { "x", "\xC3\xA4", "\xE2\x82\xAC", "\xF0\x9D\x84\x9E" };

  for (size_t i = 0; i < COUNT (characters); i++)
    for (int more = 0; more < 2; more++)
      {
        CarpaceFlaw flaw = more ? of_drill (CARPACE_FLAW_NAME_TOO_LONG, 8, 0, 0, CARPACE_NAME_CHARACTERS) : nothing;

        begin (state);
        carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, many (characters[i], CARPACE_NAME_CHARACTERS + more), 7);
        assert_only (characters[i], !more ? nothing
                                          : of_key (CARPACE_FLAW_NAME_TOO_LONG, 7, CARPACE_KEY_NAME, 0, CARPACE_NAME_CHARACTERS));
        begin (state);
        carpace_plan_builder_drill_name (&builder, 0, many (characters[i], CARPACE_NAME_CHARACTERS + more), 8);
        flaw.drill_key = more ? CARPACE_DRILL_NAME : 0;
        assert_only (characters[i], flaw);
        assert_string_equal (builder.plan.drills[0].name, more ? "a" : many (characters[i], CARPACE_NAME_CHARACTERS));
        assert_true (builder.drill_given[0][CARPACE_DRILL_NAME]);
      }
}

static void
ids_of_drills (void **state)
{
  static const struct { const char *id; CarpaceFlawKind kind; } rows[] = {
    { "b", NONE }, { "z", NONE }, { "A", NONE }, { "Z", NONE }, { "0", NONE }, { "9", NONE }, { "-", NONE },
    { "long-run-2", NONE },
    { "", CARPACE_FLAW_ID_CHARACTERS },  { "`", CARPACE_FLAW_ID_CHARACTERS }, { "{", CARPACE_FLAW_ID_CHARACTERS },
    { "@", CARPACE_FLAW_ID_CHARACTERS }, { "[", CARPACE_FLAW_ID_CHARACTERS }, { "/", CARPACE_FLAW_ID_CHARACTERS },
    { ":", CARPACE_FLAW_ID_CHARACTERS }, { ",", CARPACE_FLAW_ID_CHARACTERS }, { ".", CARPACE_FLAW_ID_CHARACTERS },
    { "b c", CARPACE_FLAW_ID_CHARACTERS }, { "bc_", CARPACE_FLAW_ID_CHARACTERS }, { "a", CARPACE_FLAW_ID_TWICE },
  };
  char longest[200] = "";

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      assert_int_equal (carpace_plan_builder_drill (&builder, rows[i].id, 9), 1);
      assert_only (rows[i].id, of_drill (rows[i].kind, 9, 1, 0,
                                         rows[i].kind == CARPACE_FLAW_ID_TWICE ? CARPACE_NAME_CHARACTERS : 0));
      assert_int_equal (builder.id_flawed, rows[i].kind != NONE);
      assert_string_equal (builder.plan.drills[1].id, rows[i].id);
      assert_string_equal (builder.plan.drills[1].name, rows[i].id);
    }
  for (int more = -1; more < 3; more++)
    {
      begin (state);
      strcpy (longest, many ("x", CARPACE_NAME_CHARACTERS + more));
      carpace_plan_builder_drill (&builder, longest, 9);
      assert_only ("as long as it may be", more <= 0 ? nothing
                                                     : of_drill (CARPACE_FLAW_NAME_TOO_LONG, 9, 1, 0, CARPACE_NAME_CHARACTERS));
      longest[CARPACE_NAME_CHARACTERS] = '\0';
      assert_string_equal (builder.plan.drills[1].id, longest);
    }
  begin (state);
  strcpy (longest, many ("?", CARPACE_NAME_CHARACTERS + 1));
  carpace_plan_builder_drill (&builder, longest, 9);
  assert_only ("long and unfit is told once", of_drill (CARPACE_FLAW_ID_CHARACTERS, 9, 1, 0, 0));
  begin (state);
  carpace_plan_builder_drill (&builder, "", 9);
  carpace_plan_builder_drill (&builder, "", 9);
  assert_int_equal (builder.n_flaws, 2); /* not that it is there twice */
}

static void
as_many_drills_as_may_be (void **state)
{
  char id[16];

  for (int i = 1; i < CARPACE_PLAN_DRILLS; i++)
    {
      snprintf (id, sizeof id, "d%d", i);
      assert_int_equal (carpace_plan_builder_drill (&builder, id, 9), i);
    }
  assert_int_equal (builder.n_flaws, 0);
  add_block (60000);
  carpace_plan_builder_part (&builder, 0, "of-none", -1, 3);
  assert_only ("an id of none", of_block (CARPACE_FLAW_UNKNOWN_DRILL, 3, 0, 0, 0));
  builder.n_flaws = 0;
  for (int i = 0; i < 3; i++)
    assert_int_equal (carpace_plan_builder_drill (&builder, "one-more", 10 + i), -1);
  assert_only ("one more is told once", of_key (CARPACE_FLAW_TOO_MANY_DRILLS, 10, CARPACE_N_KEYS, 0, CARPACE_PLAN_DRILLS));
  carpace_plan_builder_part (&builder, 0, "one-more", -1, 3);
  assert_int_equal (builder.n_flaws, 1); /* it may be the one there was no room for */
}

static void
numbers_of_drills (void **state)
{
  static const struct { double deg; CarpaceWristBend bend; } bends[] = {
    { 25, CARPACE_WRIST_FLEXION },     { 0.5, CARPACE_WRIST_FLEXION },  { 0, CARPACE_WRIST_STRAIGHT },
    { -0.5, CARPACE_WRIST_EXTENSION }, { -25, CARPACE_WRIST_EXTENSION },
  };
  CarpaceFlaw flaw = of_drill (CARPACE_FLAW_OUT_OF_RANGE, 7, 0, 1, 600);
  const CarpaceDrill *drill = &builder.plan.drills[0];

  flaw.drill_key = CARPACE_DRILL_EFFORTS;
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_EFFORTS, 601, 7);
  assert_only ("efforts", flaw);
  for (size_t i = 0; i < COUNT (bends); i++)
    {
      carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_WRIST, 90, 7);
      carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_WRIST, bends[i].deg, 7);
      assert_int_equal (drill->bend, bends[i].bend);
      assert_true (drill->bend_deg == fabs (bends[i].deg));
    }
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_INTENSITY, 40, 7);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_RUN, 45000, 7);
  assert_true (drill->intensity_pct_mvc == 40 && drill->run_ms == 45000);
  carpace_plan_builder_drill_unread (&builder, 0, CARPACE_DRILL_RUN);
  assert_false (builder.drill_sound[0][CARPACE_DRILL_RUN]);
}

static void
blocks_and_their_limits (void **state)
{
  static const struct { const char *row; int64_t limit_ms; bool told, flawed; } rows[] = {
    { "could not be read", -1, false, true }, { "nothing", 0, true, true },   { "999 ms", 999, true, true },
    { "a second", 1000, false, false },       { "4 h", 14400000, false, false }, { "over 4 h", 14400001, true, true },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      assert_int_equal (carpace_plan_builder_block (&builder, rows[i].limit_ms, i % 2 == 0, 9), 0);
      assert_only (rows[i].row, rows[i].told ? of_block (CARPACE_FLAW_OUT_OF_RANGE, 9, 0, 1000, 14400000) : nothing);
      assert_int_equal (builder.block_flawed[0], rows[i].flawed);
      assert_int_equal (builder.plan.blocks[0].limit_fixed, i % 2 == 0);
      assert_int_equal (builder.block_limit_place[0], 9);
    }
  begin (state);
  for (int32_t i = 0; i < CARPACE_PLAN_BLOCKS; i++)
    assert_int_equal (add_block (60000), i);
  assert_true (finish ());
  assert_int_equal (plan.n_blocks, CARPACE_PLAN_BLOCKS);
  assert_int_equal (plan.dose_ms, CARPACE_PLAN_BLOCKS * 60000);
  for (int i = 0; i < 3; i++)
    assert_int_equal (carpace_plan_builder_block (&builder, 60000, false, 10 + i), -1);
  assert_only ("one more is told once", of_key (CARPACE_FLAW_TOO_MANY_BLOCKS, 10, CARPACE_N_KEYS, 0, CARPACE_PLAN_BLOCKS));
  assert_false (finish ());
}

static void
parts_of_blocks (void **state)
{
  static const struct { int32_t share; bool sound; } shares[] = {
    { -2, false }, { -1, true }, { 0, false }, { 1, true }, { 10000, true }, { 10001, false },
  };
  CarpaceFlaw flaw = of_block (CARPACE_FLAW_OUT_OF_RANGE, 4, 0, 1, 10000);

  flaw.share = true;
  for (size_t i = 0; i < COUNT (shares); i++)
    {
      begin (state);
      carpace_plan_builder_block (&builder, 60000, false, 9);
      carpace_plan_builder_part_at (&builder, 0, "a", shares[i].share, 3, 4);
      assert_only ("share", shares[i].sound ? nothing : flaw);
      assert_int_equal (builder.plan.blocks[0].n_parts, shares[i].sound);
      assert_int_equal (builder.block_flawed[0], !shares[i].sound);
    }
  begin (state);
  carpace_plan_builder_block (&builder, 60000, false, 9);
  carpace_plan_builder_part_at (&builder, 0, "nobody", 5000, 3, 4);
  assert_only ("an id of none", of_block (CARPACE_FLAW_UNKNOWN_DRILL, 3, 0, 0, 0));
  assert_int_equal (builder.plan.blocks[0].n_parts, 0);
  assert_true (builder.block_flawed[0]);
  begin (state);
  carpace_plan_builder_block (&builder, 60000, false, 9);
  for (int i = 0; i < CARPACE_PLAN_DRILLS; i++)
    carpace_plan_builder_part (&builder, 0, "a", -1, 3);
  assert_only ("as many as may be", nothing);
  for (int i = 0; i < 3; i++)
    carpace_plan_builder_part (&builder, 0, "a", -1, 5 + i);
  assert_only ("one more is told once", of_block (CARPACE_FLAW_TOO_MANY_DRILLS, 5, 0, 0, CARPACE_PLAN_DRILLS));
}

/* The default four are replaced by the first that is given. */
static void
what_is_shown (void **state)
{
  assert_int_equal (builder.plan.n_shown, 4);
  assert_int_equal (builder.plan.shown[3], CARPACE_EXERCISE_OPEN_AND_CLOSE);
  for (int i = 0; i < CARPACE_PLAN_SHOWN; i++)
    {
      carpace_plan_builder_show (&builder, (CarpaceExercise) ((i + 1) % CARPACE_N_EXERCISES), 20 + i);
      assert_int_equal (builder.plan.n_shown, i + 1);
      assert_int_equal (builder.plan.shown[i], (i + 1) % CARPACE_N_EXERCISES);
    }
  assert_int_equal (builder.key_place[CARPACE_KEY_MICRO_REST_SHOW], 20);
  assert_int_equal (builder.n_flaws, 0);
  for (int i = 0; i < 3; i++)
    carpace_plan_builder_show (&builder, CARPACE_EXERCISE_OPEN_AND_CLOSE, 50 + i);
  assert_only ("one more is told once",
               of_key (CARPACE_FLAW_TOO_MANY_SHOWN, 50, CARPACE_KEY_MICRO_REST_SHOW, 0, CARPACE_PLAN_SHOWN));
}

static void
days_without_and_what_is_fixed (void **state)
{
  carpace_plan_builder_without_list (&builder, 5);
  assert_true (builder.given[CARPACE_KEY_WEEK_WITHOUT] && builder.sound[CARPACE_KEY_WEEK_WITHOUT]);
  assert_int_equal (builder.key_place[CARPACE_KEY_WEEK_WITHOUT], 5);
  for (int i = 0; i < 8; i++)
    carpace_plan_builder_without (&builder, (CarpaceWeekday) (i % 7), 10 + i);
  assert_only ("a seventh is told once", of_key (CARPACE_FLAW_TOO_MANY_WITHOUT, 16, CARPACE_KEY_WEEK_WITHOUT, 0, 6));
  carpace_plan_builder_fix (&builder, CARPACE_KEY_DAY_DOSE);
  assert_true (builder.plan.fixed[CARPACE_KEY_DAY_DOSE]);
}

static void
how_many_blocks_a_day_is_split_into (void **state)
{
  static const struct { int32_t into; bool sound, told; } rows[] = {
    { -2, false, true }, { -1, false, false }, { 0, false, true }, { 1, true, false }, { 32, true, false }, { 33, false, true },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      carpace_plan_builder_split (&builder, rows[i].into, 9);
      assert_only ("into", !rows[i].told ? nothing
                                         : of_key (CARPACE_FLAW_TOO_MANY_BLOCKS, 9, CARPACE_N_KEYS, 0, CARPACE_PLAN_BLOCKS));
      assert_int_equal (builder.plan.split_into, rows[i].sound ? rows[i].into : 0);
    }
}

static void
keys_without_a_number_have_none (void **state)
{
  assert_true (carpace_plan_number (&builder.plan, CARPACE_KEY_NAME) == 0);
  assert_true (carpace_plan_number (&builder.plan, CARPACE_KEY_MICRO_REST_SHOW) == 0);
}

static void
warnings_begin_with_the_dose (void **state)
{
  assert_false (carpace_flaw_is_warning (CARPACE_FLAW_DOSE_OVER_AT_MOST));
  assert_true (carpace_flaw_is_warning (CARPACE_FLAW_BLOCKS_OVER_DOSE));
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup (name, begin)
  const struct CMUnitTest tests[] = {
    TEST (characters_of_names_and_notes),
    TEST (lengths_are_counted_in_characters),
    TEST (ids_of_drills),
    TEST (as_many_drills_as_may_be),
    TEST (numbers_of_drills),
    TEST (blocks_and_their_limits),
    TEST (parts_of_blocks),
    TEST (what_is_shown),
    TEST (days_without_and_what_is_fixed),
    TEST (how_many_blocks_a_day_is_split_into),
    TEST (keys_without_a_number_have_none),
    TEST (warnings_begin_with_the_dose),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
