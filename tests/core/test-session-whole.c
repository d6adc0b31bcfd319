/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-session-whole.c: evenings that are compared with all that they tell,
 * every field of it, so that a change nobody meant is seen wherever it shows
 * (anew.h). */
#define _DEFAULT_SOURCE
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "anew.h"
#include "trace.h"

#define MINUTE 60000

static void
change_plan (CarpacePlan *plan, const char *name, long number)
{
  const struct
  {
    const char *name;
    int64_t *ms;
    int32_t *count;
  } rows[] = {
    { "after-min", &plan->after_ms, NULL },
    { "between-min", &plan->between_blocks_ms, NULL },
    { "dose-min", &plan->dose_ms, NULL },
    { "finish-min", &plan->finish_run_ms, NULL },
    { "first-min", &plan->blocks[0].limit_ms, NULL },
    { "round-min", &plan->round_down_to_ms, NULL },
    { "longest-min", &plan->longest_ms, NULL },
    { "shortest-min", &plan->shortest_ms, NULL },
    { "matches", NULL, &plan->matches_count },
    { "without", NULL, &plan->without },
    { "usual", NULL, &plan->usual_discomfort },
    { "stop-above", NULL, &plan->stop_above },
  };

  if (strcmp (name, "reserve") == 0)
    {
      plan->reserve_at_least_pct = (double) number;
      return;
    }
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      if (strcmp (rows[i].name, name) != 0)
        continue;
      if (rows[i].ms != NULL)
        *rows[i].ms = number * MINUTE;
      else
        *rows[i].count = (int32_t) number;
      return;
    }
  fprintf (stderr, "no such change of a plan: %s\n", name);
  abort ();
}

/* `BLOCKS MINUTES NAME=NUMBER...` */
static CarpacePlan *
plan_of (const char *words)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  char *copy = strdup (words), *rest = copy;
  int blocks = atoi (strsep (&rest, " ")), minutes = atoi (strsep (&rest, " "));

  carpace_trace_plan (plan, blocks, minutes);
  for (char *word = strsep (&rest, " "); word != NULL; word = strsep (&rest, " "))
    {
      char *number = strchr (word, '=');
      *number = '\0';
      change_plan (plan, word, atol (number + 1));
    }
  free (copy);
  return plan;
}

/* What a file becomes: what it is about and its plan as they are, its lines, and
 * all that comes of them. */
static char *
told_by (const char *text, bool all)
{
  char *copy = strdup (text), *rest = copy, *script = calloc (1, strlen (text) + 1), *told, *trace;
  CarpacePlan *plan = NULL;
  size_t head = 0;

  for (char *line = strsep (&rest, "\n"); line != NULL; line = strsep (&rest, "\n"))
    {
      if (strncmp (line, "plan ", 5) == 0)
        {
          head = (size_t) (line - copy) + strlen (line) + 1;
          plan = plan_of (line + 5);
        }
      else if (strncmp (line, "> ", 2) == 0)
        strcat (strcat (script, line + 2), "\n");
    }
  trace = carpace_trace_whole (plan, script);
  told = calloc (1, head + strlen (trace) + 1);
  strcat (strncat (told, text, head), trace);
  free (copy);
  free (script);
  free (trace);
  free (plan);
  return told;
}

int
main (int argc, char **argv)
{
  return anew_main ("test-session-whole", argc, argv, told_by);
}
