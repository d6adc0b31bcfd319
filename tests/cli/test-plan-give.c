/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-give.c: copies for players: counted up, compared, and nothing lost. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>
#include <glib.h>
#include <glib/gstdio.h>

#include "cli/give.h"
#include "cli/plan-give.h"
#include "forms/codes-lines.h"
#include "said.h"

#define PLAN "carpace-plan: 1 # ours\nname: Halves\nday: {dose: 40 min} # a day\ndrills: [{id: a, movement: small-turn}]\n" \
             "blocks: [{limit: 20 min, drills: [a]}, {limit: 20 min, drills: [a]}]\n"
#define GIVEN_2 "carpace-plan: 1 # ours\nname: Halves\nversion: 2\nday: {dose: 40 min} # a day\ndrills: [{id: a, movement: small-turn}]\n" \
                "blocks: [{limit: 20 min, drills: [a]}, {limit: 20 min, drills: [a]}]\n"

typedef struct
{
  char *folder, *plan;
} Place;

static char *
within (const Place *place, const char *name)
{
  return g_build_filename (place->folder, name, NULL);
}

static void
put (const Place *place, const char *name, const char *text)
{
  g_autofree char *path = within (place, name);

  assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
assert_there (const Place *place, const char *name, const char *text)
{
  g_autofree char *path = within (place, name), *is = NULL;

  assert_true (g_file_get_contents (path, &is, NULL, NULL));
  assert_string_equal (is, text);
}

static int
count (const Place *place)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  int n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

/* Runs `plan give` with %s for the plan; what it says has to have @says in it. */
static void
give (const Place *place, const char *words, int status, const char *says)
{
  g_autofree char *line = g_strdup_printf ("give %s %s", place->plan, words);
  Said said;

  said_begin (&said);
  if (said_run (&said, carpace_cli_plan_give, line) != status
      || (strstr (said.err, says) == NULL && strstr (said.out, says) == NULL))
    fail_msg ("%s: says\n%s%s", words, said.out, said.err);
  said_end (&said);
}

static int
begin (void **state)
{
  Place *place = g_new0 (Place, 1);

  place->folder = g_dir_make_tmp ("carpace-give-XXXXXX", NULL);
  place->plan = within (place, "team.plan.yaml");
  put (place, "team.plan.yaml", PLAN);
  *state = place;
  return 0;
}

static int
end (void **state)
{
  Place *place = *state;
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = within (place, name);

      g_remove (path);
    }
  g_rmdir (place->folder);
  g_free (place->folder);
  g_free (place->plan);
  g_free (place);
  return 0;
}

static void
a_copy_is_the_plan_with_its_version_counted_up (void **state)
{
  const Place *place = *state;
  g_autofree char *copy = within (place, "team-K7-v2.plan.yaml");
  struct stat is;

  give (place, "K7", CARPACE_EXIT_DONE, "K7: version 2, the first one given: ");
  assert_there (place, "team-K7-v2.plan.yaml", GIVEN_2);
  assert_there (place, "team.plan.yaml", PLAN);
  assert_int_equal (stat (copy, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0600);
}

/* The next is compared with the one before, whichever version the plan itself says. */
static void
the_next_version_says_what_it_changes (void **state)
{
  const Place *place = *state;

  give (place, "K7", CARPACE_EXIT_DONE, "version 2");
  give (place, "K7", CARPACE_EXIT_DONE, "K7 has this already, as version 2: ");
  put (place, "team.plan.yaml", "carpace-plan: 1\nname: Halves\nday: {dose: 30 min}\ndrills: [{id: a, movement: small-turn}]\n"
                                "blocks: [{limit: 20 min, drills: [a]}, {limit: 20 min, drills: [a]}]\n");
  give (place, "K7", CARPACE_EXIT_DONE, "It changes, in place of version 2:\n  practice time a day: 40 min, then 30 min\n");
  assert_there (place, "team-K7-v2.plan.yaml", GIVEN_2);
  put (place, "team.plan.yaml", "carpace-plan: 1\nname: Halves\nversion: 11\ngap-after: 5 s\ndrills: [{id: a, movement: small-turn}]\n"
                                "blocks: [{limit: 20 min, drills: [a]}, {limit: 20 min, drills: [a]}]\n");
  give (place, "K7", CARPACE_EXIT_DONE, "K7: version 12: ");
  give (place, "K8", CARPACE_EXIT_DONE, "K8: version 12, the first one given: ");
  assert_int_equal (count (place), 5);
}

/* What is said ahead is what is then done, and writes nothing. */
static void
what_would_be_given_is_told_ahead (void **state)
{
  const Place *place = *state;
  CarpacePlan plan;
  const CarpaceGift gift = { .path = place->plan, .bytes = PLAN, .n_bytes = strlen (PLAN), .plan = &plan };
  CarpaceGiven ahead;
  char *told;

  assert_true (carpace_give_read (PLAN, strlen (PLAN), &plan));
  carpace_give_ahead (&gift, "K7", &ahead);
  assert_int_equal (ahead.end, CARPACE_GIVEN_AHEAD);
  assert_int_equal (ahead.version, 2);
  told = carpace_given_told ("K7", &ahead);
  assert_string_equal (told, "K7: to be version 2, the first one given.\n");
  g_free (told);
  carpace_given_clear (&ahead);
  assert_int_equal (count (place), 1);
  put (place, "team-K7-v4.plan.yaml", "carpace-plan: 1\nname: Halves\nversion: 4\nday: {dose: 40 min}\ndrills: [{id: a, movement: small-turn}]\n"
                                      "blocks: [{limit: 10 min, drills: [a]}, {limit: 20 min, drills: [a]}]\n");
  carpace_give_ahead (&gift, "K7", &ahead);
  told = carpace_given_told ("K7", &ahead);
  assert_non_null (strstr (told, "K7: to be version 5. It will change, in place of version 4:\n"));
  assert_non_null (strstr (told, "20 min"));
  g_free (told);
  carpace_given_clear (&ahead);
  assert_int_equal (count (place), 2);
  put (place, "team-K7-v5.plan.yaml", GIVEN_2);
  carpace_give_ahead (&gift, "K7", &ahead);
  assert_int_equal (ahead.end, CARPACE_GIVEN_ALREADY);
  carpace_given_clear (&ahead);
}

/* Whatever has the name of a copy counts as one and stays. */
static void
nothing_that_is_there_is_lost (void **state)
{
  const Place *place = *state;
  g_autofree char *pipe = within (place, "team-K7-v4.plan.yaml"), *link = within (place, "team-K7-v6.plan.yaml");

  put (place, "team-K7-v3.plan.yaml", "not a plan");
  give (place, "K7", CARPACE_EXIT_DONE, "(the version before cannot be read any more)");
  assert_there (place, "team-K7-v3.plan.yaml", "not a plan");
  assert_int_equal (g_remove (pipe), 0);
  assert_int_equal (mkfifo (pipe, 0600), 0);
  give (place, "K7", CARPACE_EXIT_DONE, "K7: version 5: ");
  assert_int_equal (symlink ("team.plan.yaml", link), 0);
  put (place, "team.plan.yaml", "carpace-plan: 1\nname: Halves\ngap-after: 5 s\ndrills: [{id: a, movement: small-turn}]\n"
                                "blocks: [{limit: 20 min, drills: [a]}]\n");
  give (place, "k7", CARPACE_EXIT_DONE, "version 7");
  put (place, "team-K7-v9999.plan.yaml", "?");
  give (place, "K7", CARPACE_EXIT_REFUSED, "version 9999 is given already");
}

static void
a_team_is_given_at_once_or_not_at_all (void **state)
{
  const Place *place = *state;
  g_autofree char *words = g_strdup_printf ("--codes %s/codes --into %s", place->folder, place->folder);
  static const struct { const char *list, *says; } bad[] = {
    { "K1\nK 2\n", "codes: Line 2: “K 2” is no code for a player; " },
    { "K1\n\n# ours\nk1\n", "codes: Line 4: The code “k1” stands here a second time, first in line 1; " },
    { "K1\n../../x\n", "Line 2: “../../x” is no code" },
    { "-rf\n", "Line 1: “-rf” is no code" },
    { "ABCDEFGHIJKLMNOPQRSTU\n", "Line 1: The code “ABCDEFGHIJKLMNOPQRSTU” is too long" },
    { "K1\nK\xff\n", "Line 2: This is no text" },
    { "# nobody\n\n", "codes: There is no code in the list" },
    { "K1\n\x1b[31mK2\n", "Line 2: “\\x1b[31mK2” is no code" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      put (place, "codes", bad[i].list);
      give (place, words, CARPACE_EXIT_REFUSED, bad[i].says);
      assert_int_equal (count (place), 2);
    }
  put (place, "codes", "\xEF\xBB\xBFK1\r\nK2 # second\r\n\r\n  ABCDEFGHIJKLMNOPQRST  \r\nK_4-b");
  give (place, words, CARPACE_EXIT_DONE, "K_4-b: version 2, the first one given: ");
  assert_int_equal (count (place), 6);
  assert_there (place, "team-ABCDEFGHIJKLMNOPQRST-v2.plan.yaml", GIVEN_2);
}

/* 200, and one more. */
static void
a_list_has_an_end (void **state)
{
  g_autoptr (GString) list = g_string_new (NULL);
  g_autofree char *fault = NULL;

  for (int i = 1; i <= CARPACE_CODES; i++)
    g_string_append_printf (list, "K%d\n", i);
  {
    g_autoptr (GPtrArray) codes = carpace_codes_read (list->str, list->len, &fault);

    assert_int_equal (codes->len, CARPACE_CODES);
  }
  g_string_append (list, "K0\n");
  assert_null (carpace_codes_read (list->str, list->len, &fault));
  assert_string_equal (fault, "Line 201: There are too many codes; there can be 200.");
}

static void
words_that_do_not_fit_are_told (void **state)
{
  const Place *place = *state;

  give (place, "", CARPACE_EXIT_WORDS, "needs a file, and codes of players");
  give (place, "K7 --codes x", CARPACE_EXIT_WORDS, "needs a file, and codes of players");
  give (place, "K7 k7", CARPACE_EXIT_WORDS, "The code “k7” is named twice; leave one out.");
  give (place, "K/7", CARPACE_EXIT_WORDS, "“K/7” is no code");
  give (place, "K7 --into /nowhere", CARPACE_EXIT_REFUSED, "There is no folder /nowhere; make it first");
  give (place, "--codes /nowhere", CARPACE_EXIT_REFUSED, "/nowhere");
  put (place, "team.plan.yaml", "carpace-plan: 1\nname: Halves\n");
  give (place, "K7", CARPACE_EXIT_REFUSED, "team.plan.yaml:1:1: there are no drills here");
  assert_int_equal (count (place), 1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (a_copy_is_the_plan_with_its_version_counted_up, begin, end),
    cmocka_unit_test_setup_teardown (the_next_version_says_what_it_changes, begin, end),
    cmocka_unit_test_setup_teardown (what_would_be_given_is_told_ahead, begin, end),
    cmocka_unit_test_setup_teardown (nothing_that_is_there_is_lost, begin, end),
    cmocka_unit_test_setup_teardown (a_team_is_given_at_once_or_not_at_all, begin, end),
    cmocka_unit_test (a_list_has_an_end),
    cmocka_unit_test_setup_teardown (words_that_do_not_fit_are_told, begin, end),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
