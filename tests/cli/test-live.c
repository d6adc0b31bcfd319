/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-live.c: live commands and status over a double of the running program. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "said.h"

/* What the double does, and what it was asked. */
typedef struct
{
  int status;
  const char *message[8]; /* one a command; the last goes on */
  const char *json[8];
  int asked, told;
  char words[256];
} Program;

static int
command (void *self, int n, const char *const *words, char **ret_message)
{
  Program *p = self;
  int at = p->asked;

  p->words[0] = '\0';
  for (int i = 0; i < n; i++)
    {
      strcat (p->words, i > 0 ? " " : "");
      strcat (p->words, words[i]);
    }
  *ret_message = p->message[at] != NULL ? strdup (p->message[at]) : NULL;
  if (p->message[at] != NULL && p->message[at + 1] != NULL)
    p->asked++;
  return p->status;
}

static int
follow (void *self, bool (*line) (void *user, const char *json), void *user)
{
  Program *p = self;

  for (p->told = 0; p->status == CARPACE_EXIT_DONE && p->json[p->told] != NULL; p->told++)
    if (!line (user, p->json[p->told]))
      {
        p->told++;
        break;
      }
  return p->status;
}

static void
begin (Said *said, Program *program)
{
  said_begin (said);
  said->cli.remote = (CarpaceRemote) { program, command, follow };
}

static void
live (void **state)
{
  static const struct { const char *row, *line; int status; const char *message, *out, *err, *words; int answer; } rows[] = {
    { "done", "start", 0, NULL, "", "", "start" },
    { "done, and said", "rate 3", 0, "Next block shorter: 19 min 30 s", "Next block shorter: 19 min 30 s\n", "", "rate 3" },
    { "refused", "end", 1, "No block is running; start one first.", "", "No block is running; start one first.\n", "end" },
    { "refused without a word", "end", 1, NULL, "",
      "The running program did not do it and did not say why; “carpace status” tells how things stand.\n", "end" },
    { "not running", "play-on", 3, NULL, "", "Carpace is not running in this login session; start it with “carpace”.\n", "play-on" },
    { "late", "rest", 1, NULL, "", "The running program did not answer in time; it may still do it: see “carpace status”.\n",
      "rest", CARPACE_REMOTE_LATE },
    { "a message that moves a cursor", "rest", 0, "\x1b[2J", "\\x1b[2J\n", "", "rest" },
    { "all its words", "morning 1 usual --now 0 --other-load", 0, NULL, "", "", "morning 1 usual --now 0 --other-load" },
    { "quit", "quit", 0, NULL, "", "", "quit" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Said said;
      Program program = { .status = rows[i].answer != 0 ? rows[i].answer : rows[i].status, .message = { rows[i].message } };
      print_message ("%s\n", rows[i].row);
      begin (&said, &program);
      assert_int_equal (said_run (&said, carpace_cli_live, rows[i].line), rows[i].status);
      assert_string_equal (said.out, rows[i].out);
      assert_string_equal (said.err, rows[i].err);
      assert_string_equal (program.words, rows[i].words);
      said_end (&said);
    }
}

/* Not one of these reaches the program; it is asked what a stream may read of them. */
static void
not_understood (void **state)
{
  static const struct { const char *row; int status; const char *message; bool said_why; } answers[] = {
    { "off air", CARPACE_EXIT_DONE, NULL, true },
    { "not running", CARPACE_EXIT_NOT_RUNNING, NULL, true },
    { "on air", CARPACE_EXIT_DONE, "Not understood.", false },
    { "it does not answer, and may be on air", CARPACE_REMOTE_LATE, NULL, false },
    { "it does not know the question", CARPACE_EXIT_WORDS, "There is no command “told-on-air”.", false },
  };
  static const char *const lines[] = { "rate", "rate 11", "rate 2 nose", "morning 1 2", "caution pain", "on-air", "on-air maybe",
                                       "start now", "quit now", "end --force" };
  for (size_t i = 0; i < sizeof lines / sizeof lines[0] * sizeof answers / sizeof answers[0]; i++)
    {
      Said said;
      const char *line = lines[i % (sizeof lines / sizeof lines[0])];
      size_t answer = i / (sizeof lines / sizeof lines[0]);
      Program program = { .status = answers[answer].status, .message = { answers[answer].message } };
      print_message ("%s, %s\n", line, answers[answer].row);
      begin (&said, &program);
      assert_int_equal (said_run (&said, carpace_cli_live, line), CARPACE_EXIT_WORDS);
      assert_string_equal (said.out, "");
      assert_true (strlen (said.err) > 10 && strchr (said.err, '\n') == said.err + strlen (said.err) - 1);
      assert_string_equal (program.words, "told-on-air");
      assert_int_equal (strncmp (said.err, "Not understood", strlen ("Not understood")) != 0, answers[answer].said_why);
      said_end (&said);
    }
}

/* The table's own refusal, too: the nearest word may be “rate”. */
static void
no_command (void **state)
{
  static const struct { const char *message, *err; } rows[] = {
    { NULL, "There is no command “ratee”; did you mean “rate”?\n" },
    { "Not understood.", "Not understood; “carpace --help” names all commands.\n" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Said said;
      Program program = { .message = { rows[i].message } };
      begin (&said, &program);
      assert_int_equal (said_run (&said, carpace_cli_run, "carpace ratee"), CARPACE_EXIT_WORDS);
      assert_string_equal (said.err, rows[i].err);
      said_end (&said);
    }
}

static void
status (void **state)
{
  static const struct
  {
    const char *row, *line;
    Program program;
    int status, told;
    const char *out, *err;
  } rows[] = {
    { .row = "one line", .line = "status", .program = { .message = { "waiting" } }, .out = "waiting\n", .err = "" },
    { .row = "one object", .line = "status --format json", .program = { .json = { "{1}", "{2}" } }, .told = 1, .out = "{1}\n", .err = "" },
    { .row = "objects", .line = "status --follow --format=json", .program = { .json = { "{1}", "{2}", "{3}" } }, .told = 3,
      .out = "{1}\n{2}\n{3}\n", .err = "" },
    { .row = "lines, the same one once", .line = "status --follow", .told = 4,
      .program = { .json = { "{1}", "{2}", "{3}", "{4}" }, .message = { "a", "a", "b", "a" } }, .out = "a\nb\na\n", .err = "" },
    { .row = "not running", .line = "status", .program = { .status = 3 }, .status = 3, .out = "",
      .err = "Carpace is not running in this login session; start it with “carpace”.\n" },
    { .row = "not running, json", .line = "status --format json", .program = { .status = 3 }, .status = 3, .out = "",
      .err = "Carpace is not running in this login session; start it with “carpace”.\n" },
    { .row = "late", .line = "status", .program = { .status = CARPACE_REMOTE_LATE }, .status = 1, .out = "",
      .err = "The running program did not answer in time; it may still do it: see “carpace status”.\n" },
    { .row = "late, followed", .line = "status --follow", .program = { .status = CARPACE_REMOTE_LATE }, .status = 1, .out = "",
      .err = "The running program did not answer in time; it may still do it: see “carpace status”.\n" },
    { .row = "no such format", .line = "status --format csv", .status = 2, .out = "",
      .err = "“csv” is nothing that “--format” can be; there are: text, json.\n" },
    { .row = "no such option", .line = "status --folow", .status = 2, .out = "",
      .err = "“carpace status” knows no option “--folow”; there are: --format, --follow.\n" },
    { .row = "no value", .line = "status --format", .status = 2, .out = "", .err = "“--format” needs a value after it.\n" },
    { .row = "a flag with a value", .line = "status --follow=yes", .status = 2, .out = "",
      .err = "“--follow” takes no value; leave out what follows “=”.\n" },
    { .row = "a word too many", .line = "status now", .status = 2, .out = "",
      .err = "“now” is one word too many for “carpace status”; leave it out.\n" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Said said;
      Program program = rows[i].program;
      print_message ("%s\n", rows[i].row);
      begin (&said, &program);
      assert_int_equal (said_run (&said, carpace_cli_status, rows[i].line), rows[i].status);
      assert_string_equal (said.out, rows[i].out);
      assert_string_equal (said.err, rows[i].err);
      assert_int_equal (program.told, rows[i].told);
      said_end (&said);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (live),
    cmocka_unit_test (not_understood),
    cmocka_unit_test (no_command),
    cmocka_unit_test (status),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
