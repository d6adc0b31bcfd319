/* SPDX-License-Identifier: GPL-3.0-or-later */
/** said.h: a command line whose two outputs can be read. */
#ifndef CARPACE_TEST_SAID_H
#define CARPACE_TEST_SAID_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/cli.h"

typedef struct
{
  CarpaceCli cli;
  char *out, *err;
  size_t n_out, n_err;
} Said;

static inline void
said_begin (Said *said)
{
  memset (said, 0, sizeof *said);
  said->cli.out = open_memstream (&said->out, &said->n_out);
  said->cli.err = open_memstream (&said->err, &said->n_err);
}

/* Runs @run with the words of @line, cut at spaces, and reads what was said. */
static inline int
said_run (Said *said, CarpaceCliCommand run, const char *line)
{
  char copy[512], *argv[32];
  int argc = 0;

  snprintf (copy, sizeof copy, "%s", line);
  for (char *word = strtok (copy, " "); word != NULL; word = strtok (NULL, " "))
    argv[argc++] = word;
  argv[argc] = NULL;
  int status = run (&said->cli, argc, argv);
  fflush (said->cli.out);
  fflush (said->cli.err);
  return status;
}

static inline void
said_end (Said *said)
{
  fclose (said->cli.out);
  fclose (said->cli.err);
  free (said->out);
  free (said->err);
}

#endif
