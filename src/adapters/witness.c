/* SPDX-License-Identifier: GPL-3.0-or-later */
/* witness.c: a process at the other end of a pipe. */
#define _GNU_SOURCE
#include "witness.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define RECORD_BYTES 160
#define FORMAT "carpace-witness 1 %36s %" SCNd64 " %" SCNd64 "%n"

/* The program's end of the pipe; there is one witness a process. */
static int pipe_end = -1;

/* Starts the witness and ends; whoever started it waits for it, a while later. */
static pid_t between;

static int64_t
clock_ms (clockid_t id)
{
  struct timespec now = { 0 };
  clock_gettime (id, &now);
  return (int64_t) now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void
write_record (const char *path, const char *boot_id)
{
  char part[PATH_MAX], text[RECORD_BYTES];
  int length = snprintf (text, sizeof text, "carpace-witness 1 %s %" PRId64 " %" PRId64 "\n", boot_id,
                         clock_ms (CLOCK_BOOTTIME), clock_ms (CLOCK_REALTIME));
  if (snprintf (part, sizeof part, "%s.part", path) >= (int) sizeof part)
    return;
  unlink (part);
  int fd = open (part, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (fd < 0)
    return;
  bool whole = write (fd, text, (size_t) length) == length;
  whole = close (fd) == 0 && whole;
  if (!whole || rename (part, path) != 0)
    unlink (part);
}

static void
keep_to_itself (int from)
{
  static const int ignored[] = { SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGPIPE, SIGUSR1, SIGUSR2, SIGALRM, SIGTSTP, SIGTTIN, SIGTTOU };
  for (size_t i = 0; i < sizeof ignored / sizeof ignored[0]; i++)
    signal (ignored[i], SIG_IGN);
  setsid ();
  prctl (PR_SET_NAME, CARPACE_WITNESS_NAME);
  int null = open ("/dev/null", O_RDWR);
  for (int fd = 0; fd <= 2 && null >= 0; fd++)
    dup2 (null, fd);
  dup2 (from, 3);
  close_range (4, ~0u, 0);
  if (chdir ("/") != 0)
    return; /* it keeps its folder busy, no more */
}

static void
watch (int from, const char *path, const char *boot_id)
{
  keep_to_itself (from);
  char word = 0;
  ssize_t n;
  do
    n = read (3, &word, 1);
  while (n < 0 && errno == EINTR);
  if (n == 0)
    write_record (path, boot_id);
  _exit (0);
}

bool
carpace_witness_start (const char *path, const char *boot_id)
{
  int ends[2];
  if (pipe_end >= 0 || path[0] != '/' || strlen (boot_id) != CARPACE_WITNESS_BOOT_BYTES - 1 || pipe2 (ends, O_CLOEXEC) != 0)
    return false;
  between = fork ();
  if (between == 0)
    {
      close (ends[1]);
      pid_t witness = fork (); /* twice: nobody has to wait for it */
      if (witness == 0)
        watch (ends[0], path, boot_id);
      _exit (witness > 0 ? 0 : 1);
    }
  close (ends[0]);
  if (between < 0)
    {
      close (ends[1]);
      return false;
    }
  pipe_end = ends[1];
  return true;
}

bool
carpace_witness_settle (void)
{
  int status = 1;
  if (pipe_end < 0)
    return false;
  while (between > 0 && waitpid (between, &status, 0) < 0 && errno == EINTR)
    ;
  between = 0;
  if (status != 0)
    {
      close (pipe_end);
      pipe_end = -1;
    }
  return status == 0;
}

void
carpace_witness_goodbye (void)
{
  if (pipe_end < 0)
    return;
  /* A witness that is gone must not take the program along. */
  struct sigaction ignore = { .sa_handler = SIG_IGN }, before;
  sigaction (SIGPIPE, &ignore, &before);
  while (write (pipe_end, "g", 1) < 0 && errno == EINTR)
    ;
  sigaction (SIGPIPE, &before, NULL);
  close (pipe_end);
  pipe_end = -1;
}

bool
carpace_witness_read (const char *path, char ret_boot_id[CARPACE_WITNESS_BOOT_BYTES], int64_t *ret_boottime_ms,
                      int64_t *ret_wall_ms)
{
  char text[RECORD_BYTES] = { 0 }, boot_id[CARPACE_WITNESS_BOOT_BYTES] = { 0 };
  int64_t boottime_ms = 0, wall_ms = 0;
  int end = 0, fd = open (path, O_RDONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK);
  if (fd < 0)
    return false;
  ssize_t n = read (fd, text, sizeof text - 1);
  close (fd);
  if (n <= 0 || sscanf (text, FORMAT, boot_id, &boottime_ms, &wall_ms, &end) != 3 || strcmp (text + end, "\n") != 0
      || strlen (boot_id) != CARPACE_WITNESS_BOOT_BYTES - 1 || boottime_ms < 0)
    return false;
  memcpy (ret_boot_id, boot_id, sizeof boot_id);
  *ret_boottime_ms = boottime_ms;
  *ret_wall_ms = wall_ms;
  return true;
}

void
carpace_witness_forget (const char *path)
{
  unlink (path);
}
