/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _DEFAULT_SOURCE
#include "cases.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "trace.h"

static bool
told_in_order (const char *trace, const char *expected, const char *name)
{
  char *copy = strdup (expected), *rest = copy;
  const char *at = trace;
  bool good = true;

  for (char *line = strsep (&rest, "\n"); line != NULL; line = strsep (&rest, "\n"))
    {
      const char *found = strstr (line[0] == '-' ? trace : at, line[0] == '-' ? line + 1 : line);
      if ((found != NULL) == (line[0] != '-'))
        {
          at = line[0] == '-' ? at : found + strlen (line);
          continue;
        }
      print_error ("%s: %s\n", name, line);
      good = false;
    }
  free (copy);
  return good;
}

static bool
says_of_cues (const char *expected)
{
  const char *cue = strstr (expected, " cue ");

  while (cue != NULL)
    {
      const char *line = cue;
      while (line > expected && line[-1] != '\n')
        line--;
      if (*line != '-')
        return true;
      cue = strstr (cue + 1, " cue ");
    }
  return false;
}

/* Whether a line of @expected is how @line begins. */
static bool
stands_there (const char *expected, const char *line)
{
  for (const char *at = expected; at != NULL; at = strchr (at, '\n'))
    {
      at += *at == '\n';
      if (strncmp (at, line, strcspn (at, "\n")) == 0)
        return true;
    }
  return false;
}

/* Cues that nobody said would come. The morning's card is there as each row
 * begins: only who speaks of it has to know. */
static bool
no_other_cue (const char *trace, const char *expected, const char *name)
{
  bool good = true;

  for (const char *at = trace; says_of_cues (expected) && *at != '\0'; at += strcspn (at, "\n") + 1)
    {
      char line[200];
      snprintf (line, sizeof line, "%.*s", (int) strcspn (at, "\n"), at);
      bool morning = strstr (line, " cue morning ") != NULL && strstr (expected, " cue morning ") == NULL;
      if (strstr (line, " cue ") == NULL || morning || stands_there (expected, line))
        continue;
      print_error ("%s: nobody said this would come: %s\n", name, line);
      good = false;
    }
  return good;
}

/* Whether @trace ends in what stands behind the `=`. */
static bool
told_to_the_end (const char *trace, const char *expected, const char *name)
{
  size_t n = strlen (trace), end = strlen (++expected);

  if (n >= end && strcmp (trace + n - end, expected) == 0)
    return true;
  print_error ("%s: not all of it, or not only\n", name);
  return false;
}

static bool
holds (const CarpaceCase *row)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  char *trace;
  bool good;

  carpace_trace_plan (plan, row->blocks, row->limit_min);
  if (row->change != NULL)
    row->change (plan);
  trace = carpace_trace (plan, row->script);
  good = row->told[0] == '=' ? told_to_the_end (trace, row->told, row->name)
                             : told_in_order (trace, row->told, row->name) & no_other_cue (trace, row->told, row->name);
  if (!good)
    print_error ("---- told:\n%s----\n", trace);
  free (trace);
  free (plan);
  return good;
}

int
carpace_cases_failed (const CarpaceCase *cases, size_t n)
{
  int failed = 0;

  for (size_t i = 0; i < n; i++)
    failed += !holds (&cases[i]);
  return failed;
}
