/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Programs of the test's own that start a witness and end in various ways. The
 * test is the reaper of its orphans, so it sees their witnesses and their ends. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "witness.h"

#define BOOT "01234567-89ab-cdef-0123-456789abcdef"

static char folder[] = "/tmp/carpace-witness-XXXXXX", path[64];

static int64_t
boottime_ms (void)
{
  struct timespec now;
  clock_gettime (CLOCK_BOOTTIME, &now);
  return (int64_t) now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* A program that starts a witness, says so, and waits to be told how to end. */
typedef struct
{
  pid_t pid, witness;
  int orders;
} Program;

/* The witness is a child of the test once its own parent has ended. */
static pid_t
find_witness (void)
{
  DIR *processes = opendir ("/proc");
  pid_t found = 0;
  for (struct dirent *entry; found == 0 && (entry = readdir (processes)) != NULL;)
    {
      char name[300], text[300] = { 0 };
      snprintf (name, sizeof name, "/proc/%s/stat", entry->d_name);
      FILE *file = atoi (entry->d_name) > 0 ? fopen (name, "r") : NULL;
      if (file == NULL)
        continue;
      size_t n = fread (text, 1, sizeof text - 1, file);
      fclose (file);
      const char *close_bracket = n > 0 ? strrchr (text, ')') : NULL;
      int parent = 0;
      char run = 0;
      if (close_bracket != NULL && strstr (text, "(" CARPACE_WITNESS_NAME ")") != NULL
          && sscanf (close_bracket, ") %c %d", &run, &parent) == 2 && parent == getpid () && run != 'Z')
        found = atoi (entry->d_name);
    }
  closedir (processes);
  return found;
}

static Program
start_program (void)
{
  int orders[2], said[2];
  char word = 0;
  assert_int_equal (pipe2 (orders, O_CLOEXEC), 0);
  assert_int_equal (pipe2 (said, O_CLOEXEC), 0);
  Program program = { .pid = fork (), .orders = orders[1] };
  if (program.pid == 0)
    {
      close (orders[1]);
      prctl (PR_SET_PDEATHSIG, SIGKILL);
      word = carpace_witness_start (path, BOOT) && carpace_witness_settle () ? 'y' : 'n';
      if (write (said[1], &word, 1) != 1 || read (orders[0], &word, 1) != 1)
        _exit (1);
      if (word == 'g')
        carpace_witness_goodbye ();
      if (word == 'a')
        signal (SIGABRT, SIG_DFL), abort ();
      _exit (0);
    }
  close (orders[0]);
  close (said[1]);
  assert_int_equal (read (said[0], &word, 1), 1);
  assert_int_equal (word, 'y');
  close (said[0]);
  for (int i = 0; i < 2000 && (program.witness = find_witness ()) == 0; i++)
    usleep (1000);
  assert_true (program.witness > 0);
  return program;
}

/* Waits until program and witness have ended. */
static void
end_program (Program *program, char order)
{
  if (order == 'k')
    kill (program->pid, SIGKILL);
  else
    assert_int_equal (write (program->orders, &order, 1), 1);
  assert_int_equal (waitpid (program->pid, NULL, 0), program->pid);
  for (int i = 0; i < 5000; i++)
    {
      if (waitpid (program->witness, NULL, WNOHANG) == program->witness)
        {
          close (program->orders);
          return;
        }
      usleep (1000);
    }
  fail_msg ("the witness goes on");
}

static void
a_death_is_written_down (void **state)
{
  static const struct { const char *name; char how; } rows[] = { { "killed", 'k' }, { "aborted", 'a' }, { "left without a word", 'x' } };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      unlink (path);
      Program program = start_program ();
      int64_t before = boottime_ms (), at = 0, wall = 0;
      char boot[CARPACE_WITNESS_BOOT_BYTES] = "";
      end_program (&program, rows[i].how);
      if (!carpace_witness_read (path, boot, &at, &wall))
        fail_msg ("%s: no record", rows[i].name);
      assert_string_equal (boot, BOOT);
      assert_in_range (at, before, boottime_ms ());
      assert_true (llabs (wall / 1000 - (int64_t) time (NULL)) <= 2);
      struct stat found;
      assert_int_equal (stat (path, &found), 0);
      assert_int_equal (found.st_mode & 07777, 0600);
      carpace_witness_forget (path);
      assert_false (carpace_witness_read (path, boot, &at, &wall));
    }
}

static void
a_goodbye_is_not (void **state)
{
  Program program = start_program ();
  end_program (&program, 'g');
  assert_int_equal (access (path, F_OK), -1);
}

static void
signals_do_not_end_it (void **state)
{
  static const int signals[] = { SIGTERM, SIGINT, SIGHUP, SIGQUIT, SIGPIPE };
  Program program = start_program ();
  for (size_t i = 0; i < sizeof signals / sizeof signals[0]; i++)
    assert_int_equal (kill (program.witness, signals[i]), 0);
  assert_int_not_equal (getsid (program.witness), getsid (program.pid));
  assert_int_not_equal (getpgid (program.witness), getpgid (program.pid));
  end_program (&program, 'k');
  assert_int_equal (access (path, F_OK), 0);
  carpace_witness_forget (path);
}

static int64_t
status_number (pid_t pid, const char *key)
{
  char name[64], line[256];
  int64_t number = -1;
  snprintf (name, sizeof name, "/proc/%d/status", (int) pid);
  FILE *file = fopen (name, "r");
  while (file != NULL && fgets (line, sizeof line, file) != NULL)
    if (strncmp (line, key, strlen (key)) == 0)
      number = strtoll (line + strlen (key), NULL, 10);
  if (file != NULL)
    fclose (file);
  return number;
}

static void
it_sleeps (void **state)
{
  Program program = start_program ();
  usleep (50000); /* until it has lain down */
  int64_t before = status_number (program.witness, "voluntary_ctxt_switches:");
  usleep (500000);
  int64_t woken = status_number (program.witness, "voluntary_ctxt_switches:") - before;
  print_message ("witness: %" PRId64 " wake-ups in 0.5 s, %" PRId64 " kB resident of its own\n", woken,
                 status_number (program.witness, "RssAnon:"));
  assert_int_equal (woken, 0);
  end_program (&program, 'g');
}

static void
records_that_are_none (void **state)
{
  static const char *const texts[] = {
    "", "\n", "carpace-witness 2 " BOOT " 1 2\n", "carpace-witness 1 " BOOT " 1\n", "carpace-witness 1 " BOOT " 1 2",
    "carpace-witness 1 " BOOT " -1 2\n", "carpace-witness 1 short 1 2\n", "carpace-witness 1 " BOOT " 1 2\nmore\n",
    "carpace-witness 1 " BOOT " x 2\n",
  };
  for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
    {
      FILE *file = fopen (path, "w");
      fputs (texts[i], file);
      fclose (file);
      char boot[CARPACE_WITNESS_BOOT_BYTES] = "u";
      int64_t at = 7, wall = 8;
      if (carpace_witness_read (path, boot, &at, &wall) || at != 7 || wall != 8 || strcmp (boot, "u") != 0)
        fail_msg ("row %zu is taken", i);
    }
  unlink (path);
  assert_false (carpace_witness_start ("relative", BOOT));
  assert_false (carpace_witness_settle ());
  assert_false (carpace_witness_start (path, "no id"));
  carpace_witness_goodbye (); /* there is none */
}

static void
no_folder_no_record (void **state)
{
  char kept[sizeof path];
  memcpy (kept, path, sizeof path);
  snprintf (path, sizeof path, "%s/none/death", folder);
  Program program = start_program ();
  end_program (&program, 'k');
  assert_int_equal (access (path, F_OK), -1);
  memcpy (path, kept, sizeof path);
}

int
main (void)
{
  if (mkdtemp (folder) == NULL || prctl (PR_SET_CHILD_SUBREAPER, 1) != 0)
    return 1;
  snprintf (path, sizeof path, "%s/death", folder);
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_death_is_written_down), cmocka_unit_test (a_goodbye_is_not),
    cmocka_unit_test (signals_do_not_end_it),   cmocka_unit_test (it_sleeps),
    cmocka_unit_test (records_that_are_none),   cmocka_unit_test (no_folder_no_record),
  };
  int failed = cmocka_run_group_tests (tests, NULL, NULL);
  rmdir (folder);
  return failed;
}
