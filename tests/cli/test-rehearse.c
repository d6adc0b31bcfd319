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
    { "rehearse halves --script x --player steady", 2, "A script says all that happens: leave out “--player”, “--days” and “--seed”.\n" },
    { "rehearse halves --player lazy", 2, "“lazy” is nothing that “--player” can be; there are: steady, sensitive, plays-on, silent.\n" },
    { "rehearse halves --days 0", 2, "“0” does not fit “--days”; give a whole number from 1 to 3660.\n" },
    { "rehearse halves --days 5x", 2, "“5x” does not fit “--days”; give a whole number from 1 to 3660.\n" },
    { "rehearse halves --seed -1", 2, "“-1” does not fit “--seed”; give a whole number from 0 to 9223372036854775807.\n" },
    { "rehearse bad.plan.yaml --script x", 1, "bad.plan.yaml:3:7: no unit; write 30 min\n" },
    { "rehearse halves --script /nowhere/at/all", 1, "/nowhere/at/all: it cannot be read (No such file or directory); name a script that is there.\n" },
    { "rehearse halves --script /", 1, "/: it cannot be read (Is a directory); name a script that is there.\n" },
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

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (as_json),
    cmocka_unit_test (as_text),
    cmocka_unit_test (zones_and_clocks),
    cmocka_unit_test (faults_of_a_script),
    cmocka_unit_test (refused_or_not_understood),
  };
  return cmocka_run_group_tests (tests, make_path, remove_path);
}
