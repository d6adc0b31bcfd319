/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-complete.c: what is offered at the end of half a line, from forms made for the test. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cli/table.h"
#include "said.h"

static const CarpaceCliRow forms[] = {
  { "turn", NULL, "turn", "turn it" },
  { "tune", NULL, "tune on|off [--by N] [--as a|b|ab] [--loud]", "tune it" },
  { "cast", NULL, "cast one FILE [--far]\ncast two PLAN [--near | --part x,yy,z]\ncast HAND --must RATING [--may N]", "cast it" },
  { "mind", NULL, "mind [WAKING] [less|more] [--now RATING]", "mind it" },
  { "many", NULL, "many [SITE...|none]", "many of them" },
};

static int
complete (CarpaceCli *cli, int argc, char **argv)
{
  static char nothing[] = "";

  for (int i = 0; i < argc; i++) /* a word that is not begun is written as _ */
    if (strcmp (argv[i], "_") == 0)
      argv[i] = nothing;
  return carpace_cli_complete (cli, forms, sizeof forms / sizeof forms[0], argc, argv);
}

static void
list_plans (void *self, CarpacePlanItemVisitor visit, void *user)
{
  const CarpacePlanItem item = { .word = "week", .name = "A week" };

  visit (user, &item);
}

static void
offers (void **state)
{
  static const struct { const char *line, *offered; } rows[] = {
    /* commands, and what they do */
    { "tu", "turn\tturn it\ntune\ttune it\n" },
    { "_", "turn\tturn it\ntune\ttune it\ncast\tcast it\nmind\tmind it\nmany\tmany of them\n" },
    { "-", "--help\n--version\n" },
    { "x", "" },
    { "x y", "" },
    /* words in their places; options where no word fits any more, or where one is begun */
    { "turn _", "" },
    { "turn -", "--help\n" },
    { "tune _", "on\noff\n" },
    { "tune of", "off\n" },
    { "tune on _", "--by\n--as\n--loud\n" },
    { "tune --", "--by\n--as\n--loud\n--help\n" },
    { "tune --l", "--loud\n" },
    /* an option that stands there is not offered again; its value is not a word in its place */
    { "tune --loud --", "--by\n--as\n--help\n" },
    { "tune --by 3 _", "on\noff\n" },
    { "tune --by=3 _", "on\noff\n" },
    { "tune --by _", "" },
    { "tune --as _", "a\nb\nab\n" },
    { "tune --as a", "a\nab\n" },
    { "tune --as=a", "--as=a\n--as=ab\n" },
    { "tune --as = a", "a\nab\n" },
    { "tune --as =", "a\nb\nab\n" },
    { "tune --as = ab _", "on\noff\n" },
    { "tune --loud=", "" },
    { "tune -- --", "" },
    { "tune -- _", "on\noff\n" },
    /* of several forms, those that begin alike */
    { "cast _", "one\ntwo\nstraight\nexcess\nfifth-power\nday-late\n" },
    { "cast one _", "/\n" },
    { "cast one f _", "--far\n" },
    { "cast one f --", "--far\n--help\n" },
    { "cast two _", "week\tA week\n/\n" },
    { "cast two week --", "--near\n--part\n--help\n" },
    { "cast straight --", "--must\n--may\n--help\n" },
    { "cast straight --must 1", "1\n10\n" },
    { "cast two week --part _", "x\nyy\nz\n" },
    { "cast two week --part x,y", "x,yy\n" },
    { "cast two week --part=x,y", "--part=x,yy\n" },
    /* what may be left out is passed over */
    { "mind _", "0\n1\n2\n3\n4\n5\n6\n7\n8\n9\n10\nless\nmore\n" },
    { "mind l", "less\n" },
    { "mind 3 _", "less\nmore\n" },
    { "many el", "elbow\n" },
    { "many elbow sh", "shoulder\n" },
    { "many elbow shoulder n", "neck\nnone\n" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Said said;
      char line[80];
      print_message ("%s\n", rows[i].line);
      snprintf (line, sizeof line, "--complete %s", rows[i].line);
      said_begin (&said);
      said.cli.plans.list = list_plans;
      assert_int_equal (said_run (&said, complete, line), CARPACE_EXIT_DONE);
      assert_string_equal (said.out, rows[i].offered);
      assert_string_equal (said.err, "");
      said_end (&said);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (offers) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
