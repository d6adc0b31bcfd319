/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* fmemopen, open_memstream */
#include "cli/by-window.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "cli/team.h"

char *
carpace_cli_by_window (CarpaceCli *cli, CarpaceCliCommand command, const char *const *words, const char *phrase, bool *ret_done)
{
  CarpaceCli own = *cli;
  char *argv[CARPACE_BY_WINDOW_WORDS + 1] = { NULL }, *line = g_strconcat (phrase, "\n", NULL), *said = NULL, *text;
  size_t length = 0;
  int argc = 0;

  own.phrase_asked = false;
  own.air = CARPACE_AIR_NOT_ASKED; /* the window may be older than the stream */
  for (; words[argc] != NULL && argc < CARPACE_BY_WINDOW_WORDS; argc++)
    argv[argc] = g_strdup (words[argc]);
  own.in = fmemopen (line, strlen (line), "r");
  own.out = own.err = open_memstream (&said, &length);
  if (own.in != NULL && own.out != NULL)
    *ret_done = command (&own, argc, argv) == CARPACE_EXIT_DONE;
  if (own.in != NULL)
    fclose (own.in);
  if (own.out != NULL)
    fclose (own.out);
  carpace_cli_forget_phrase (line);
  cli->phrase_asked = own.phrase_asked;
  for (int i = 0; i < argc; i++)
    g_free (argv[i]);
  text = g_strdup (said != NULL ? g_strchomp (said) : "");
  free (said);
  return text;
}
