/* SPDX-License-Identifier: GPL-3.0-or-later */
/* calc-alone.c: `carpace calc` without the rest of the program, a line of
 * standard input a command, its exit status and output on one line. For the
 * scripts that check it. */
#define _POSIX_C_SOURCE 200809L

#include <glib.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/cli.h"

static void
answer (char *line)
{
  char *out = NULL, *err = NULL;
  size_t n_out = 0, n_err = 0;
  g_auto (GStrv) words = NULL;
  int argc = 0, status;
  CarpaceCli cli = { .out = open_memstream (&out, &n_out), .err = open_memstream (&err, &n_err) };

  if (*line == '\0')
    words = g_new0 (char *, 1);
  else if (!g_shell_parse_argv (line, &argc, &words, NULL))
    g_error ("cannot be parsed: %s", line);
  char **argv = g_new0 (char *, (gsize) argc + 2);
  argv[0] = (char *) "calc";
  for (int i = 0; i < argc; i++)
    argv[i + 1] = words[i];
  status = carpace_cli_calc (&cli, argc + 1, argv);
  fclose (cli.out);
  fclose (cli.err);
  g_strdelimit (out, "\n", '|');
  g_strdelimit (err, "\n", '|');
  printf ("%d\t%s\t%s\n", status, out, err);
  fflush (stdout);
  g_free (argv);
  free (out);
  free (err);
}

int
main (void)
{
  char *line = NULL;
  size_t size = 0;

  setlocale (LC_ALL, "");
  while (getline (&line, &size, stdin) > 0)
    {
      line[strcspn (line, "\n")] = '\0';
      answer (line);
    }
  free (line);
  return 0;
}
