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
static int hold_fd;            /* a slow answer comes when there is something to read */
static int within_ms = 60000;

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
  if (strcmp (words[0], "slowly") == 0 && read (hold_fd, &(char) { 0 }, 1) != 1)
    return 2;
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
  served_bus = carpace_bus_new ((CarpaceBusServed) { NULL, command, status, show, NULL, NULL }, &found);
  if (write (report_fd, &told[found], 1) != 1)
    return 1;
  if (served_bus != NULL)
    g_main_loop_run (served_loop);
  carpace_bus_free (served_bus);
  return 0;
}

static void
back (void *self)
{
  if (write (report_fd, "B", 1) != 1)
    abort ();
  g_main_loop_quit (served_loop);
}

/* The same, with a bus that is looked for until there is one. */
static int
serve_looking (void)
{
  CarpaceBusFound found;

  served_loop = g_main_loop_new (NULL, FALSE);
  served_bus = carpace_bus_new ((CarpaceBusServed) { NULL, command, status, show, NULL, back }, &found);
  if (served_bus == NULL || write (report_fd, found == CARPACE_BUS_NONE ? "N" : "?", 1) != 1)
    return 1;
  carpace_bus_changed (served_bus, "{}"); /* nobody follows */
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
start (int (*how) (void))
{
  int ends[2];

  assert_int_equal (pipe (ends), 0);
  report_fd = ends[1];
  Program program = { in_child (how), ends[0] };
  close (ends[1]);
  return program;
}

static Program
start_program (void)
{
  return start (serve);
}

/* ---- those who talk to it ---- */

static int
ask (const char *line, char **ret_message)
{
  CarpaceRemote remote = carpace_bus_remote (&within_ms);
  g_auto (GStrv) words = g_strsplit (line, " ", -1);

  return remote.command (remote.self, (int) g_strv_length (words), (const char *const *) words, ret_message);
}

static int
asks_nobody (void)
{
  CarpaceRemote remote = carpace_bus_remote (&within_ms);
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
  CarpaceRemote remote = carpace_bus_remote (&within_ms);
  int n = 0;

  g_assert_cmpint (remote.follow (remote.self, on_line, &n), ==, 0);
  g_assert_cmpint (n, ==, 3);
  return 0;
}

static int
loses_patience (void)
{
  char *message;

  within_ms = 20;
  return ask ("slowly", &message) == CARPACE_REMOTE_LATE && message == NULL ? 0 : 1;
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
  CarpaceRemote remote = carpace_bus_remote (&within_ms);

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

/* A program that is busy does what it was asked all the same, later. */
static void
an_answer_that_is_late (void **state)
{
  Program program;
  int ends[2];

  assert_int_equal (pipe (ends), 0);
  hold_fd = ends[0];
  program = start_program ();
  assert_int_equal (next_report (&program), 'O');
  assert_int_equal (ended (in_child (loses_patience)), 0);
  assert_int_equal (write (ends[1], "x", 1), 1);
  assert_int_equal (ended (in_child (asks)), 0);
  assert_int_equal (ended (in_child (quits)), 0);
  assert_int_equal (ended (program.pid), 0);
  close (program.fd);
  close (ends[0]);
  close (ends[1]);
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

/* Told where it would be, or by the login's own folder: it is found once it is there. */
static void
a_bus_that_comes_late (void **state)
{
  char *address = strdup (getenv ("DBUS_SESSION_BUS_ADDRESS"));

  for (int told = 0; told <= 1; told++)
    {
      g_autofree char *folder = g_dir_make_tmp ("bus-XXXXXX", NULL), *path = g_build_filename (folder, "bus", NULL);
      g_autofree char *where = g_strconcat ("unix:path=", path, NULL), *listen = g_strconcat ("--address=", where, NULL);
      const char *const words[] = { "dbus-daemon", "--session", "--nofork", "--nopidfile", listen, NULL };
      Program program;
      GPid daemon;

      setenv ("XDG_RUNTIME_DIR", folder, 1);
      if (told)
        setenv ("DBUS_SESSION_BUS_ADDRESS", where, 1);
      else
        unsetenv ("DBUS_SESSION_BUS_ADDRESS");
      program = start (serve_looking);
      assert_int_equal (next_report (&program), 'N');
      assert_true (g_spawn_async (NULL, (char **) words, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL,
                                  &daemon, NULL));
      assert_int_equal (next_report (&program), 'B');
      assert_int_equal (ended (program.pid), 0);
      kill (daemon, SIGTERM);
      ended (daemon);
      close (program.fd);
      unlink (path);
      rmdir (folder);
    }
  setenv ("DBUS_SESSION_BUS_ADDRESS", address, 1);
  free (address);
}

/* Soon at first, and no more often than every five minutes in the long run. */
static void
looked_for_ever_less_often (void **state)
{
  static const struct { int32_t nth; int64_t ms; } rows[] = {
    { 0, 2000 }, { 1, 4000 }, { 7, 256000 }, { 8, 300000 }, { 9, 300000 }, { INT32_MAX, 300000 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    assert_int_equal (carpace_bus_look_after_ms (rows[i].nth), rows[i].ms);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nobody_there),
    cmocka_unit_test (one_program),
    cmocka_unit_test (an_answer_that_is_late),
    cmocka_unit_test (a_second_one),
    cmocka_unit_test (killed_while_followed),
    cmocka_unit_test (no_bus_at_all),
    cmocka_unit_test (a_bus_that_comes_late),
    cmocka_unit_test (looked_for_ever_less_often),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
