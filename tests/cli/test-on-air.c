/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-on-air.c: while on air no refusal of any command says a word of hand, rating, load or
 * health: not its own, and not the player's that it repeats. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>

#include "cli/faults.h"
#include "said.h"

#define TELLING "wrist" /* typed by the player */

static int asked;

static int
command (void *self, int n, const char *const *words, char **ret_message)
{
  asked++;
  assert_int_equal (n, 1); /* nothing of what was typed goes to the bus */
  assert_string_equal (words[0], "told-on-air");
  *ret_message = self != NULL ? strdup ("It is.") : NULL;
  return CARPACE_EXIT_DONE;
}

/* Any plan will do: it is read before the words behind its name are. */
static bool
load (void *self, const char *word, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  memset (ret_plan, 0, sizeof *ret_plan);
  return true;
}

static bool
load_in_use (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  return load (self, NULL, ret_plan, visit, user);
}

static void
list (void *self, CarpacePlanItemVisitor visit, void *user)
{
}

static void
begin (Said *said, bool on_air)
{
  said_begin (said);
  said->cli.plans = (CarpacePlanFiles) { .load = load, .load_in_use = load_in_use, .list = list };
  said->cli.remote = (CarpaceRemote) { on_air ? said : NULL, command, NULL };
  asked = 0;
}

/* Words that may not stand on a broadcast screen, as for every face. */
static void
assert_silent (const char *line, const char *err)
{
  g_autofree char *text = NULL, *folded = g_utf8_casefold (err, -1);
  g_auto (GStrv) words = NULL;

  assert_true (g_file_get_contents (CARPACE_ON_AIR_WORDS "/en", &text, NULL, NULL));
  words = g_strsplit (text, "\n", -1);
  for (int i = 0; words[i] != NULL; i++)
    if (*words[i] != '\0' && *words[i] != '#' && strstr (folded, g_strdelimit (words[i], "$", ' ')) != NULL)
      fail_msg ("%s: “%s” in “%s”", line, words[i], err);
}

static void
both_ways (const char *line)
{
  print_message ("%s\n", line);
  for (int on_air = 0; on_air <= 1; on_air++)
    {
      Said said;

      begin (&said, on_air);
      assert_int_equal (said_run (&said, carpace_cli_run, line), CARPACE_EXIT_WORDS);
      assert_string_equal (said.out, "");
      assert_true (strlen (said.err) > 10 && strchr (said.err, '\n') == said.err + strlen (said.err) - 1);
      assert_int_equal (asked, 1);
      if (on_air)
        assert_silent (line, said.err);
      else if (strstr (said.err, TELLING) == NULL && strstr (said.err, "--") == NULL)
        fail_msg ("%s: “%s” says nothing of what was typed", line, said.err);
      said_end (&said);
    }
}

/* Every command of the table, with an option it lacks and with words too many. */
static void
every_command (void **state)
{
  g_auto (GStrv) lines = NULL;
  Said said;
  int n = 0;

  begin (&said, false);
  said_run (&said, carpace_cli_run, "carpace --help");
  lines = g_strsplit (said.out, "\n", -1);
  said_end (&said);
  for (int i = 0; lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], "  carpace ") && !g_str_has_prefix (lines[i], "  carpace calc"))
      {
        g_auto (GStrv) words = g_strsplit (lines[i] + 2, " ", -1);
        bool of_plan = g_str_equal (words[1], "plan");
        g_autofree char *begin_of = g_strjoin (" ", words[0], words[1], of_plan ? words[2] : NULL, NULL);
        g_autofree char *option = g_strdup_printf ("%s --" TELLING, begin_of);
        g_autofree char *many = g_strdup_printf ("%s " TELLING " " TELLING " " TELLING " " TELLING, begin_of);

        both_ways (option);
        both_ways (many);
        n++;
      }
  assert_true (n > 20);
}

/* Options that are there, and do not go. */
static void
every_kind_of_option (void **state)
{
  static const char *const lines[] = {
    "carpace report --with ratings", "carpace report --for coach --with " TELLING, "carpace report --for " TELLING,
    "carpace report --since " TELLING, "carpace report --format pdf", "carpace export --format " TELLING,
    "carpace export --since " TELLING, "carpace diary --until " TELLING, "carpace why --day " TELLING,
    "carpace plan " TELLING, "carpace plan split f --into " TELLING, "carpace calendar --days " TELLING,
    "carpace calendar --at " TELLING, "carpace rehearse p --player " TELLING, "carpace rehearse p --takes " TELLING,
    "carpace rehearse p --usual " TELLING, "carpace calc " TELLING, "carpace calc endurance --region " TELLING,
    "carpace calc fatigue --load 5", "carpace status --format " TELLING, "carpace " TELLING,
  };
  for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++)
    both_ways (lines[i]);
}

/* The place of a plan's fault is told, what it says is not. */
static void
faults_of_files (void **state)
{
  static const struct { bool on_air, json; const char *told; } rows[] = {
    { false, false, "evening.yaml:3:5: a rating is 0 to 10\n" },
    { true, false, "evening.yaml:3:5: Not possible now; off air Carpace says why.\n" },
    { true, true, "{\"kind\":\"fault\",\"line\":3,\"column\":5,\"message\":\"Not possible now; off air Carpace says why.\"}\n" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Said said;
      begin (&said, rows[i].on_air);
      CarpaceFaultTeller teller = { .cli = &said.cli, .path = "evening.yaml", .json = rows[i].json };
      carpace_cli_file_fault (&teller, &(CarpaceFileFault) { .line = 3, .column = 5, .message = "a rating is 0 to 10" });
      fflush (said.cli.out);
      fflush (said.cli.err);
      assert_string_equal (rows[i].json ? said.out : said.err, rows[i].told);
      said_end (&said);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_command),
    cmocka_unit_test (every_kind_of_option),
    cmocka_unit_test (faults_of_files),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
