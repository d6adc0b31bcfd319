/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-names.c: words of closed lists, and the nearest of them to one that is
 * misspelt. Distances: the examples that textbooks give for Levenshtein's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/names.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))

static void
distances_are_levenshtein_s (void **state)
{
  static const struct { const char *a, *b; size_t distance; } rows[] = {
    { "kitten", "sitting", 3 }, { "saturday", "sunday", 3 }, { "flaw", "lawn", 2 }, { "gumbo", "gambol", 2 },
    { "book", "back", 2 },      { "", "abc", 3 },            { "", "", 0 },         { "rosettacode", "raisethysword", 8 },
    { "ab", "ba", 2 },          { "a", "b", 1 },             { "abc", "c", 2 },     { "abc", "a", 2 },
    { "intention", "execution", 5 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      size_t there = carpace_word_distance (rows[i].a, rows[i].b), back = carpace_word_distance (rows[i].b, rows[i].a);
      if (there != rows[i].distance || back != rows[i].distance)
        fail_msg ("%s, %s: %zu and %zu, not %zu", rows[i].a, rows[i].b, there, back, rows[i].distance);
    }
}

/* Words up to 80 letters are compared; of longer ones the longer is told. */
static void
what_is_longer_than_a_word_is_far_from_all (void **state)
{
  static const struct { size_t a, b, distance; } rows[] = {
    { 80, 80, 0 }, { 80, 79, 1 }, { 79, 80, 1 }, { 81, 81, 81 }, { 81, 5, 81 }, { 5, 81, 81 }, { 82, 81, 82 }, { 81, 82, 82 },
  };
  static char a[100], b[100];

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      memset (a, 'x', sizeof a);
      memset (b, 'x', sizeof b);
      a[rows[i].a] = b[rows[i].b] = '\0';
      assert_int_equal (carpace_word_distance (a, b), rows[i].distance);
    }
}

/* A third of the letters may be wrong, no more; of two as near the first is taken. */
static void
the_nearest_is_at_most_a_third_away (void **state)
{
  static const struct { const char *word; int32_t nearest; } rows[] = {
    { "monday", CARPACE_WEEKDAY_MONDAY },   { "munday", CARPACE_WEEKDAY_MONDAY },
    { "xxnday", CARPACE_WEEKDAY_MONDAY },   { "xxxday", -1 },
    { "tuesdey", CARPACE_WEEKDAY_TUESDAY }, { "tux", -1 },
    { "fr", -1 },                           { "", -1 },
    { "frixxy", CARPACE_WEEKDAY_FRIDAY },   { "frixxx", -1 },
    { "mriday", CARPACE_WEEKDAY_FRIDAY },   { "xuesday", CARPACE_WEEKDAY_TUESDAY },
    { "sxnday", CARPACE_WEEKDAY_SUNDAY },   { "xonday", CARPACE_WEEKDAY_MONDAY },
    { "xunday", CARPACE_WEEKDAY_SUNDAY },   { "fonday", CARPACE_WEEKDAY_MONDAY },
    { "frnday", CARPACE_WEEKDAY_FRIDAY },   { "xxnxay", -1 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    if (carpace_name_nearest (CARPACE_WORDS_WEEKDAY, rows[i].word) != rows[i].nearest)
      fail_msg ("%s: %d", rows[i].word, (int) carpace_name_nearest (CARPACE_WORDS_WEEKDAY, rows[i].word));
  assert_int_equal (carpace_name_nearest (CARPACE_WORDS_SIDE, "aight"), carpace_name_value (CARPACE_WORDS_SIDE, "right"));
}

static void
what_is_no_list_has_no_words (void **state)
{
  static const int no_lists[] = { -2, -1, CARPACE_N_WORDS, CARPACE_N_WORDS + 1 };

  for (size_t i = 0; i < COUNT (no_lists); i++)
    {
      assert_int_equal (carpace_names_count ((CarpaceWords) no_lists[i]), 0);
      assert_null (carpace_name ((CarpaceWords) no_lists[i], 0));
      assert_int_equal (carpace_name_value ((CarpaceWords) no_lists[i], "right"), -1);
    }
  assert_true (carpace_names_count ((CarpaceWords) 0) > 0 && carpace_names_count ((CarpaceWords) (CARPACE_N_WORDS - 1)) > 0);
  assert_null (carpace_name (CARPACE_WORDS_WEEKDAY, -1));
  assert_null (carpace_name (CARPACE_WORDS_WEEKDAY, CARPACE_N_WEEKDAYS));
}

static void
splits_have_their_blocks (void **state)
{
  assert_int_equal (carpace_name_split ("whole"), 1);
  assert_int_equal (carpace_name_split ("halves"), 2);
  assert_int_equal (carpace_name_split ("quarters"), 4);
  assert_int_equal (carpace_name_split ("thirds"), -1);
}

/* What older files say is read on, of its own list alone. */
static void
words_that_were_renamed (void **state)
{
  assert_int_equal (carpace_name_former (CARPACE_WORDS_MOVEMENT, "clicking"), CARPACE_MOVEMENT_BUTTON_PRESS);
  assert_int_equal (carpace_name_former (CARPACE_WORDS_MOVEMENT, "click"), -1);
  assert_int_equal (carpace_name_former (CARPACE_WORDS_WEEKDAY, "clicking"), -1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (distances_are_levenshtein_s),
    cmocka_unit_test (what_is_longer_than_a_word_is_far_from_all),
    cmocka_unit_test (the_nearest_is_at_most_a_third_away),
    cmocka_unit_test (what_is_no_list_has_no_words),
    cmocka_unit_test (splits_have_their_blocks),
    cmocka_unit_test (words_that_were_renamed),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
