/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-ceiling-join.c: two ceilings made one: no plan keeps it that is looser than either. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/ceiling.h"

static const struct { const char *row, *a, *b, *both; } rows[] = {
  { "nothing", "", "", "" },
  { "one of them", "next-day.at-most: 1 h\n", "", "next-day.at-most: 1 h\n" },
  { "the other", "", "next-day.at-most: 1 h\n", "next-day.at-most: 1 h\n" },
  { "looser is higher", "next-day.at-most: 1 h\n", "next-day.at-most: 50 min\n", "next-day.at-most: 50 min\n" },
  { "the tighter one first", "next-day.at-most: 50 min\n", "next-day.at-most: 1 h\n", "next-day.at-most: 50 min\n" },
  { "alike", "next-day.at-most: 1 h\n", "next-day.at-most: 1 h\n", "next-day.at-most: 1 h\n" },
  { "looser is lower", "day.between-blocks: 45 min\n", "day.between-blocks: 1 h\n", "day.between-blocks: 1 h\n" },
  { "the tighter one first, of those", "day.between-blocks: 1 h\n", "day.between-blocks: 45 min\n", "day.between-blocks: 1 h\n" },
  { "no direction: the other's", "hand.side: left\n", "hand.side: right\n", "hand.side: right\n" },
  { "days without practice: all of them", "week.without: monday\n", "week.without: friday\n", "week.without: monday, friday\n" },
  { "names: the other's", "name: A\n", "name: B\n", "name: B\n" },
  { "notes: the other's", "note: A\n", "note: B\n", "note: B\n" },
  { "exercises: the other's", "micro-rest.show: hook-fist\n", "micro-rest.show: neck-turns\n", "micro-rest.show: neck-turns\n" },
  { "exercises: the other's, and more", "micro-rest.show: hook-fist\n", "micro-rest.show: neck-turns, hook-fist\n",
    "micro-rest.show: neck-turns, hook-fist\n" },
  { "different things", "next-day.at-most: 1 h\n", "tighten.stop-above: 4\n", "tighten.stop-above: 4\nnext-day.at-most: 1 h\n" },
  { "limits of one", "blocks: 2\nblocks.1.limit: 30 min\n", "", "blocks: 2\nblocks.1.limit: 30 min\n" },
  { "limits: the shorter of each", "blocks: 2\nblocks.1.limit: 30 min\nblocks.2.limit: 20 min\n",
    "blocks: 2\nblocks.1.limit: 25 min\nblocks.2.limit: 30 min\n", "blocks: 2\nblocks.1.limit: 25 min\nblocks.2.limit: 20 min\n" },
  { "as many blocks as the fewer", "blocks: 3\nblocks.1.limit: 30 min\nblocks.3.limit: 10 min\n",
    "blocks: 1\nblocks.1.limit: 40 min\n", "blocks: 1\nblocks.1.limit: 30 min\n" },
  { "one limit each", "blocks: 2\nblocks.1.limit: 30 min\n", "blocks: 2\nblocks.2.limit: 20 min\n",
    "blocks: 2\nblocks.1.limit: 30 min\nblocks.2.limit: 20 min\n" },
  { "blocks past the last are like it", "blocks: 2\nblocks.1.limit: 30 min\nblocks.2.limit: 30 min\n",
    "blocks: 2\nblocks.1.limit: 20 min\nblocks.2.limit: 35 min\n", "blocks: 2\nblocks.1.limit: 20 min\nblocks.2.limit: 30 min\n" },
};

static void
the_tighter_of_both_is_held (void **state)
{
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceCeiling a, b;
      char text[CARPACE_CEILING_BYTES];

      print_message ("%s\n", rows[i].row);
      assert_true (carpace_ceiling_read (rows[i].a, &a));
      assert_true (carpace_ceiling_read (rows[i].b, &b));
      carpace_ceiling_join (&a, &b);
      carpace_ceiling_write (&a, text);
      assert_string_equal (text, rows[i].both);
    }
}

static void
ceilings_are_the_same_by_what_they_say (void **state)
{
  static CarpaceCeiling one, other;

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      assert_true (carpace_ceiling_read (rows[i].a, &one));
      assert_true (carpace_ceiling_read (rows[i].both, &other));
      assert_int_equal (carpace_ceiling_same (&one, &other), strcmp (rows[i].a, rows[i].both) == 0);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_tighter_of_both_is_held),
    cmocka_unit_test (ceilings_are_the_same_by_what_they_say),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
