/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-bus-gdbus.c: a program and those who talk to it, each a process of its
 * own on a private bus. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>
#include <glib.h>

#include "bus-gdbus.h"

/* ---- the program, a double ---- */

static CarpaceBus *served_bus;
static GMainLoop *served_loop;
static int report_fd;

static int
command (void *self, int n, const char *const *words, char **ret_message)
{
  if (n == 0)
    return 2;
  if (strcmp (words[0], "change") == 0)
    {
      g_autofree char *json = g_strdup_printf ("{\"n\":%s}", words[1]);
      carpace_bus_changed (served_bus, json);
      return 0;
    }
  if (strcmp (words[0], "followed") == 0)
    return carpace_bus_is_followed (served_bus) ? 0 : 1;
  if (strcmp (words[0], "quit") == 0)
    g_main_loop_quit (served_loop);
  else if (strcmp (words[0], "end") == 0)
    {
      *ret_message = g_strdup ("No block is running; start one first.");
      return 1;
    }
  else
    *ret_message = g_strdup_printf ("%d: %s", n, words[n - 1]);
  return 0;
}

static char *
status (void *self)
{
  return g_strdup ("{\"n\":0}");
}

static void
show (void *self)
{
  if (write (report_fd, "S", 1) != 1)
    abort ();
}

/* Tells what it found ('O', 'T', 'N'), then serves until told to quit. */
static int
serve (void)
{
  static const char told[] = { [CARPACE_BUS_OURS] = 'O', [CARPACE_BUS_TAKEN] = 'T', [CARPACE_BUS_NONE] = 'N' };
  CarpaceBusFound found;

  served_loop = g_main_loop_new (NULL, FALSE);
  served_bus = carpace_bus_new ((CarpaceBusServed) { NULL, command, status, show }, &found);
  if (write (report_fd, &told[found], 1) != 1)
    return 1;
  if (served_bus != NULL)
    g_main_loop_run (served_loop);
  carpace_bus_free (served_bus);
  return 0;
}

/* ---- processes ---- */

typedef struct { pid_t pid; int fd; } Program;

static pid_t
in_child (int (*run) (void))
{
  pid_t pid = fork ();

  assert_true (pid >= 0);
  if (pid == 0)
    _exit (run ());
  return pid;
}

static int
ended (pid_t pid)
{
  int how;

  assert_int_equal (waitpid (pid, &how, 0), pid);
  return WIFEXITED (how) ? WEXITSTATUS (how) : 128 + WTERMSIG (how);
}

static char
next_report (Program *program)
{
  char c = '?';

  return read (program->fd, &c, 1) == 1 ? c : '-';
}

static Program
start_program (void)
{
  int ends[2];

  assert_int_equal (pipe (ends), 0);
  report_fd = ends[1];
  Program program = { in_child (serve), ends[0] };
  close (ends[1]);
  return program;
}

/* ---- those who talk to it ---- */

static int
ask (const char *line, char **ret_message)
{
  CarpaceRemote remote = carpace_bus_remote ();
  g_auto (GStrv) words = g_strsplit (line, " ", -1);

  return remote.command (remote.self, (int) g_strv_length (words), (const char *const *) words, ret_message);
}

static int
asks_nobody (void)
{
  CarpaceRemote remote = carpace_bus_remote ();
  char *message = (char *) "";

  g_assert_cmpint (ask ("start", &message), ==, 3);
  g_assert_null (message);
  g_assert_cmpint (remote.follow (remote.self, NULL, NULL), ==, 3);
  return 0;
}

static int
asks (void)
{
  g_autofree char *done = NULL, *refused = NULL, *hostile = NULL, *long_word = g_strnfill (100000, 'x');
  char *long_answer;

  g_assert_cmpint (ask ("rate 3 neck", &done), ==, 0);
  g_assert_cmpstr (done, ==, "3: neck");
  g_assert_cmpint (ask ("end", &refused), ==, 1);
  g_assert_cmpstr (refused, ==, "No block is running; start one first.");
  g_assert_cmpint (ask ("rate \033[2J\"'<b>", &hostile), ==, 0);
  g_assert_cmpstr (hostile, ==, "2: \033[2J\"'<b>");
  g_assert_cmpint (ask (long_word, &long_answer), ==, 0);
  g_assert_cmpuint (strlen (long_answer), ==, 100003);
  free (long_answer);
  return 0;
}

static int
quits (void)
{
  char *message;
  return ask ("quit", &message);
}

/* Asks for a change at each line; after the third it has seen enough. */
static bool
on_line (void *user, const char *json)
{
  static const char *const expected[] = { "{\"n\":0}", "{\"n\":1}", "{\"n\":2}" };
  int *n = user;
  char *message;

  g_assert_cmpstr (json, ==, expected[*n]);
  g_assert_cmpint (ask ("followed", &message), ==, 0);
  /* The first change twice: it is told once. */
  g_assert_cmpint (ask (*n == 0 ? "change 1" : "change 2", &message), ==, 0);
  g_assert_cmpint (ask (*n == 0 ? "change 1" : "change 2", &message), ==, 0);
  return ++*n < 3;
}

static int
follows (void)
{
  CarpaceRemote remote = carpace_bus_remote ();
  int n = 0;

  g_assert_cmpint (remote.follow (remote.self, on_line, &n), ==, 0);
  g_assert_cmpint (n, ==, 3);
  return 0;
}

static bool
kills_it (void *user, const char *json)
{
  kill (*(pid_t *) user, SIGKILL);
  return true;
}

static pid_t victim;

static int
follows_to_the_end (void)
{
  CarpaceRemote remote = carpace_bus_remote ();

  return remote.follow (remote.self, kills_it, &victim);
}

static int
is_not_followed (void)
{
  char *message;
  return ask ("followed", &message) == 1 ? 0 : 1;
}

/* ---- the tests ---- */

static void
nobody_there (void **state)
{
  assert_int_equal (ended (in_child (asks_nobody)), 0);
}

static void
one_program (void **state)
{
  Program program = start_program ();

  assert_int_equal (next_report (&program), 'O');
  assert_int_equal (ended (in_child (asks)), 0);
  assert_int_equal (ended (in_child (is_not_followed)), 0);
  assert_int_equal (ended (in_child (follows)), 0);
  assert_int_equal (ended (in_child (quits)), 0);
  assert_int_equal (ended (program.pid), 0);
  close (program.fd);
}

static void
a_second_one (void **state)
{
  Program first = start_program (), second;

  assert_int_equal (next_report (&first), 'O');
  second = start_program ();
  assert_int_equal (next_report (&second), 'T');
  assert_int_equal (ended (second.pid), 0);
  assert_int_equal (next_report (&first), 'S');
  assert_int_equal (ended (in_child (quits)), 0);
  assert_int_equal (ended (first.pid), 0);
  close (first.fd);
  close (second.fd);
}

static void
killed_while_followed (void **state)
{
  Program program = start_program ();

  assert_int_equal (next_report (&program), 'O');
  victim = program.pid;
  assert_int_equal (ended (in_child (follows_to_the_end)), 0);
  assert_int_equal (ended (program.pid), 128 + SIGKILL);
  close (program.fd);
}

static void
no_bus_at_all (void **state)
{
  char *address = strdup (getenv ("DBUS_SESSION_BUS_ADDRESS"));
  Program program;

  setenv ("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nowhere/at/all", 1);
  program = start_program ();
  assert_int_equal (next_report (&program), 'N');
  assert_int_equal (ended (program.pid), 0);
  assert_int_equal (ended (in_child (asks_nobody)), 0);
  setenv ("DBUS_SESSION_BUS_ADDRESS", address, 1);
  free (address);
  close (program.fd);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nobody_there),
    cmocka_unit_test (one_program),
    cmocka_unit_test (a_second_one),
    cmocka_unit_test (killed_while_followed),
    cmocka_unit_test (no_bus_at_all),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
