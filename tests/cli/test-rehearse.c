/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-rehearse.c: the command over a real script and session; plans come from
 * a double of the plan files. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <unistd.h>

#include <cmocka.h>

#include "said.h"
#include "trace.h"

static bool
load (void *self, const char *word, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  const CarpaceFileFault warning = { .line = 2, .column = 1, .warning = true, .message = "a warning" };
  const CarpaceFileFault fault = { .line = 3, .column = 7, .message = "no unit; write 30 min" };

  visit (user, &warning);
  if (strcmp (word, "halves") != 0)
    {
      visit (user, &fault);
      return false;
    }
  carpace_trace_plan (ret_plan, 2, 30);
  return true;
}

static bool
offset (void *self, const char *name, int64_t wall_ms, int32_t *ret_offset_s)
{
  if (strcmp (name, "Test/Zone") != 0)
    return false;
  *ret_offset_s = 7200;
  return true;
}

static char script_path[] = "/tmp/carpace-script-XXXXXX";

static int
run (Said *said, const char *script, const char *options)
{
  char line[256];
  FILE *file = fopen (script_path, "w");

  fputs (script, file);
  fclose (file);
  said_begin (said);
  said->cli.plans.load = load;
  said->cli.zones.offset = offset;
  snprintf (line, sizeof line, "rehearse halves --script %s %s", script_path, options);
  return said_run (said, carpace_cli_rehearse, line);
}

static const char *
line_of (Said *said, int n)
{
  static char line[1024];
  const char *at = said->out;

  while (n-- > 0 && (at = strchr (at, '\n')) != NULL)
    at++;
  if (at == NULL)
    return "";
  snprintf (line, sizeof line, "%.*s", (int) strcspn (at, "\n"), at);
  return line;
}

static void
as_json (void **state)
{
  Said said;

  assert_int_equal (run (&said, "0:00:01 end\n0:00:02 start\n0:05:00 still\n0:06:00 end # comment\n0:06:10 rate 1 neck\n", "--format json"), 0);
  assert_string_equal (said.err, "");
  assert_string_equal (line_of (&said, 0), "{\"at_ms\":0,\"kind\":\"state\",\"state\":\"waiting\"}");
  assert_string_equal (line_of (&said, 1), "{\"at_ms\":0,\"kind\":\"cue\",\"cue\":\"morning\",\"what\":\"shown\"}");
  assert_non_null (strstr (line_of (&said, 2), "{\"at_ms\":1000,\"kind\":\"fault\",\"line\":1,\"message\":\""));
  assert_non_null (strstr (said.out, "\"kind\":\"block\",\"what\":\"started\",\"number\":1,\"limit_ms\":1800000"));
  assert_non_null (strstr (said.out, "{\"at_ms\":370000,\"kind\":\"rating\",\"block\":1,\"discomfort\":1,\"site\":\"neck\",\"late\":false,\"corrects\":null}"));
  said_end (&said);
}

static void
as_text (void **state)
{
  Said said;

  assert_int_equal (run (&said, "0:00:02 start\n0:05:00.250 end\n", ""), 0);
  assert_string_equal (said.err, "");
  assert_string_equal (line_of (&said, 0), "   0:00:00  waiting");
  assert_non_null (strstr (said.out, "0:05:00.250  block 1 ends: 4 min 58 s of 30 min, 1 run"));
  said_end (&said);
}

static void
zones_and_clocks (void **state)
{
  Said said;

  assert_int_equal (run (&said, "at 2027-03-02T18:00:00Z Test/Zone\n0:00:01 zone Test/Zone\n0:00:02 clock -0:30:00\n0:00:03 stop\n", ""), 0);
  said_end (&said);
}

static void
faults_of_a_script (void **state)
{
  Said said;
  char expected[1024];

  assert_int_equal (run (&said, "0:00:01 start\n0:00:00 inptu\nrate 3\n0:00:02 zone Nowhere\n", ""), 1);
  assert_string_equal (said.out, "");
  snprintf (expected, sizeof expected,
            "%s:2: “0:00:00” is before the line above it; times never go back\n"
            "%s:2: There is no command “inptu”; did you mean “input”?\n"
            "%s:3: “rate” is no time; a line begins with h:mm:ss or h:mm:ss.mmm since the script's start\n"
            "%s:4: this machine knows no time zone “Nowhere”; write a name such as Europe/Berlin\n",
            script_path, script_path, script_path, script_path);
  assert_string_equal (said.err, expected);
  said_end (&said);

  assert_int_equal (run (&said, "0:00:01 clock\n", "--format json"), 1);
  assert_string_equal (said.err, "");
  assert_string_equal (said.out, "{\"kind\":\"fault\",\"line\":1,\"column\":null,\"message\":\"“” does not say how far the clock is moved; write +h:mm:ss or -h:mm:ss\"}\n");
  said_end (&said);
}

static void
refused_or_not_understood (void **state)
{
  static const struct { const char *line; int status; const char *err; } rows[] = {
    { "rehearse", 2, "“carpace rehearse” needs a block plan; “carpace plan list” names those there are.\n" },
    { "rehearse halves quarters", 2, "“quarters” is one word too many for “carpace rehearse”; leave it out.\n" },
    { "rehearse halves --script x --player steady", 2, "A script says all that happens: leave out “--player”.\n" },
    { "rehearse halves --script x --for-all", 2, "A script says all that happens: leave out “--for-all”.\n" },
    { "rehearse halves --script x --under-reports", 2, "A script says all that happens: leave out “--under-reports”.\n" },
    { "rehearse halves --for-all --takes 40min", 2, "“--for-all” has players of its own: leave out “--takes”.\n" },
    { "rehearse halves --seasons 3", 2, "“--seasons” is for “--for-all”: add it, or leave it out.\n" },
    { "rehearse halves --drops 40%", 2, "“--drops” changes nothing for a hand that takes any dose; add what it takes, like “--takes 48min”.\n" },
    { "rehearse halves --hand excess", 2, "“--hand” changes nothing for a hand that takes any dose; add what it takes, like “--takes 48min”.\n" },
    { "rehearse halves --hand left", 2, "“left” is nothing that “--hand” can be; there are: straight, excess, fifth-power, day-late.\n" },
    { "rehearse halves --takes 48", 2, "--takes: “48” lacks its unit; write it like “48min”.\n" },
    { "rehearse halves --takes 59s", 2, "--takes: “59s” is outside its range, 1 min to 8 h.\n" },
    { "rehearse halves --noise 0.55", 2, "--noise: “0.55” has more decimals than count; round it, like “0.5”.\n" },
    { "rehearse halves --noise 3.1", 2, "--noise: “3.1” is outside its range, 0 to 3.\n" },
    { "rehearse halves --stiff 2.5%", 2, "--stiff: “2.5%” has more decimals than count; round it, like “5%”.\n" },
    { "rehearse halves --misses 101%", 2, "--misses: “101%” is outside its range, 0 % to 100 %.\n" },
    { "rehearse halves --player lazy", 2, "“lazy” is nothing that “--player” can be; there are: steady, sensitive, plays-on, silent, varied, varied-noisy, any-dose, any-dose-noisy, under-reports, drops, grows, flares, misses.\n" },
    { "rehearse halves --days 0", 2, "“0” does not fit “--days”; give a whole number from 1 to 3660.\n" },
    { "rehearse halves --days 5x", 2, "“5x” does not fit “--days”; give a whole number from 1 to 3660.\n" },
    { "rehearse halves --seed -1", 2, "“-1” does not fit “--seed”; give a whole number from 0 to 9223372036854774807.\n" },
    { "rehearse bad.plan.yaml --script x", 1, "bad.plan.yaml:3:7: no unit; write 30 min\n" },
    { "rehearse halves --script /nowhere/at/all", 1, "/nowhere/at/all cannot be read: No such file or directory; name another file.\n" },
    { "rehearse halves --script /", 1, "/ is no file that can be read; name another.\n" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Said said;
      print_message ("%s\n", rows[i].line);
      said_begin (&said);
      said.cli.plans.load = load;
      assert_int_equal (said_run (&said, carpace_cli_rehearse, rows[i].line), rows[i].status);
      assert_string_equal (said.err, rows[i].err);
      assert_string_equal (said.out, "");
      said_end (&said);
    }
}

static int
run_player (Said *said, const char *options)
{
  char line[256];

  said_begin (said);
  said->cli.plans.load = load;
  snprintf (line, sizeof line, "rehearse halves %s", options);
  return said_run (said, carpace_cli_rehearse, line);
}

static int
count (const char *text, const char *what)
{
  int n = 0;

  while ((text = strstr (text, what)) != NULL)
    n++, text++;
  return n;
}

/* What stands behind "KEY": in the last line that has it. */
static double
last_number (const Said *said, const char *key)
{
  const char *at = said->out, *found = NULL;

  while ((at = strstr (at, key)) != NULL)
    found = at += strlen (key);
  assert_non_null (found);
  return strtod (found, NULL);
}

static void
a_season_ends_with_its_weeks (void **state)
{
  Said said;

  assert_int_equal (run_player (&said, "--takes 48min --days 20 --format json"), 0);
  assert_int_equal (count (said.out, "{\"kind\":\"week\","), 3);
  assert_int_equal (count (said.out, "{\"kind\":\"season\",\"player\":\"steady\",\"hand\":\"straight\",\"seed\":1,\"takes_ms\":2880000,"), 1);
  assert_true (last_number (&said, "\"days\":") == 18); /* one in seven without practice */
  assert_int_equal (count (said.out, ",\"highest\":"), 3);
  assert_int_equal (count (said.out, ",\"change_ms\":null}"), 2); /* of the first week, and of one of six days */
  said_end (&said);

  assert_int_equal (run_player (&said, "--takes 48min --days 20 --drops 40%"), 0);
  assert_int_equal (count (said.out, "\nWeek "), 3);
  assert_int_equal (count (said.out, " on 6 days, highest discomfort "), 3);
  assert_int_equal (count (said.out, " the week before\n"), 1); /* the third is no whole one */
  assert_non_null (strstr (said.out, "This hand takes 48 min. From day 22 to 42 it takes 40 % less. More than 1.15 times that was planned on "));
  assert_non_null (strstr (said.out, " of 18 practice days.\n"));
  assert_non_null (strstr (said.out, "Seed 1: the same seed gives the same days.\n"));
  said_end (&said);

  assert_int_equal (run_player (&said, "--days 1"), 0);
  assert_null (strstr (said.out, "Week"));
  said_end (&said);
}

static void
all_players (void **state)
{
  Said said;

  assert_int_equal (run_player (&said, "--for-all --seasons 2 --days 10 --format json"), 0);
  assert_int_equal (count (said.out, "\"kind\":\"player\""), 34); /* 7 that answer, by 4 hands, and 6 that take any dose */
  assert_int_equal (count (said.out, "\"player\":\"varied\",\"hand\":\"day-late\""), 1);
  assert_int_equal (count (said.out, "\"takes_least_ms\":null"), 6);
  said_end (&said);

  assert_int_equal (run_player (&said, "--for-all --seasons 1 --days 10 --hand excess"), 0);
  assert_int_equal (count (said.out, " excess "), 7);
  assert_int_equal (count (said.out, "fifth-power"), 0);
  assert_non_null (strstr (said.out, "Means of 1 season of 10 days; seeds from 1 on."));
  said_end (&said);
}

static int
make_path (void **state)
{
  int fd = mkstemp (script_path);
  close (fd);
  return fd < 0;
}

static int
remove_path (void **state)
{
  return unlink (script_path);
}

static int shown;

static bool
show (const CarpacePlan *plan)
{
  shown += plan->n_blocks;
  return true;
}

static bool
no_display (const CarpacePlan *plan)
{
  return false;
}

/* An evening to look at prints nothing, and goes with nothing that is printed. */
static void
shown_on_the_desktop (void **state)
{
  static const char *const beside[] = { "--script x", "--player careful", "--for-all", "--days 3", "--seed 2", "--format json", "--export x" };
  Said said;

  said_begin (&said);
  said.cli.plans.load = load;
  said.cli.show_evening = show;
  assert_int_equal (said_run (&said, carpace_cli_rehearse, "rehearse halves --show"), CARPACE_EXIT_DONE);
  assert_int_equal (shown, 2);
  assert_string_equal (said.out, "");
  said.cli.show_evening = no_display;
  assert_int_equal (said_run (&said, carpace_cli_rehearse, "rehearse halves --show"), CARPACE_EXIT_REFUSED);
  said_end (&said);
  for (size_t i = 0; i < sizeof beside / sizeof beside[0]; i++)
    {
      char line[128];

      said_begin (&said);
      said.cli.plans.load = load;
      said.cli.show_evening = show;
      snprintf (line, sizeof line, "rehearse halves --show %s", beside[i]);
      assert_int_equal (said_run (&said, carpace_cli_rehearse, line), CARPACE_EXIT_WORDS);
      said_end (&said);
    }
  assert_int_equal (shown, 2);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (as_json),
    cmocka_unit_test (as_text),
    cmocka_unit_test (zones_and_clocks),
    cmocka_unit_test (faults_of_a_script),
    cmocka_unit_test (refused_or_not_understood),
    cmocka_unit_test (a_season_ends_with_its_weeks),
    cmocka_unit_test (all_players),
    cmocka_unit_test (shown_on_the_desktop),
  };
  return cmocka_run_group_tests (tests, make_path, remove_path);
}
