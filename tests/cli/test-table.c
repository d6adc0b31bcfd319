/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-table.c: the table by itself: every command is a double here. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "app/commands.h"
#include "said.h"

static const char *ran;
static int ran_argc;

#define DOUBLE(name) \
  int carpace_cli_ ## name (CarpaceCli *cli, int argc, char **argv) \
  { ran = #name; ran_argc = argc; return 40 + argc; }
DOUBLE (plan)
DOUBLE (planner)
DOUBLE (calc)
DOUBLE (rehearse)
DOUBLE (diary)
DOUBLE (why)
DOUBLE (status)
DOUBLE (live)
DOUBLE (desktop)
DOUBLE (report)
DOUBLE (calendar)
DOUBLE (export)
DOUBLE (import)
DOUBLE (restore)
DOUBLE (erase)
DOUBLE (backup)
DOUBLE (key)
DOUBLE (share)
DOUBLE (roster)
DOUBLE (club)

static void
each_command_runs_its_own (void **state)
{
  static const struct { const char *line, *runs; int status; } rows[] = {
    { "carpace start", "live", 41 }, { "carpace start --match", "live", 42 }, { "carpace rate 2 palm-side", "live", 43 },
    { "carpace quit", "live", 41 }, { "carpace on-air on", "live", 42 }, { "carpace status --follow", "status", 42 },
    { "carpace plan list", "plan", 42 }, { "carpace rehearse x", "rehearse", 42 }, { "carpace diary", "diary", 41 },
    { "carpace why", "why", 41 }, { "carpace calc cut", "calc", 42 }, { "carpace desktop", "desktop", 41 },
    { "carpace rehearse -- --help", "rehearse", 43 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Said said;
      print_message ("%s\n", rows[i].line);
      said_begin (&said);
      ran = "";
      assert_int_equal (said_run (&said, carpace_cli_run, rows[i].line), rows[i].status);
      assert_string_equal (ran, rows[i].runs);
      assert_string_equal (said.out, "");
      assert_string_equal (said.err, "");
      said_end (&said);
    }
}

static void
every_live_command_is_listed (void **state)
{
  const char *word;
  for (int i = 0; (word = carpace_command_word (i)) != NULL; i++)
    {
      Said said;
      char line[64];
      snprintf (line, sizeof line, "carpace %s", word);
      said_begin (&said);
      ran = "";
      said_run (&said, carpace_cli_run, line);
      assert_string_equal (ran, "live");
      said_end (&said);
    }
}

static void
not_a_command (void **state)
{
  static const struct { const char *line, *err; } rows[] = {
    { "carpace strat", "There is no command “strat”; did you mean “start”?\n" },
    { "carpace rehears", "There is no command “rehears”; did you mean “rehearse”?\n" },
    { "carpace xyzzy", "There is no command “xyzzy”; “carpace --help” names them all.\n" },
    { "carpace --verison", "There is no command “--verison”; “carpace --help” names them all.\n" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Said said;
      said_begin (&said);
      assert_int_equal (said_run (&said, carpace_cli_run, rows[i].line), CARPACE_EXIT_WORDS);
      assert_string_equal (said.err, rows[i].err);
      assert_string_equal (said.out, "");
      said_end (&said);
    }
}

static void
help_and_version (void **state)
{
  static const char *const words[] = { "start", "rate", "morning", "caution", "on-air", "status", "plan", "rehearse",
                                       "diary", "why", "calc", "desktop" };
  Said said;

  said_begin (&said);
  assert_int_equal (said_run (&said, carpace_cli_run, "carpace --help"), CARPACE_EXIT_DONE);
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    {
      char form[64];
      snprintf (form, sizeof form, "\n  carpace %s", words[i]);
      assert_non_null (strstr (said.out, form));
    }
  assert_non_null (strstr (said.out, "does not diagnose or treat"));
  said_end (&said);

  said_begin (&said);
  ran = "";
  assert_int_equal (said_run (&said, carpace_cli_run, "carpace rate --help"), CARPACE_EXIT_DONE);
  assert_string_equal (ran, "");
  assert_non_null (strstr (said.out, "carpace rate RATING [SITE]"));
  said_end (&said);

  said_begin (&said);
  assert_int_equal (said_run (&said, carpace_cli_run, "carpace --version"), CARPACE_EXIT_DONE);
  assert_string_equal (said.out, "Carpace " CARPACE_VERSION "\n");
  said_end (&said);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_command_runs_its_own),
    cmocka_unit_test (every_live_command_is_listed),
    cmocka_unit_test (not_a_command),
    cmocka_unit_test (help_and_version),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
