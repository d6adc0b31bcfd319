/* SPDX-License-Identifier: GPL-3.0-or-later */
/* anew.h: a file whose `> ` lines say what is done and whose other lines what comes of
 * it. A test reads it, does it again and compares; with --anew before the files it
 * writes what comes of it now: read what `git diff` says of it before you keep it. */
#ifndef CARPACE_TEST_ANEW_H
#define CARPACE_TEST_ANEW_H

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static inline char *
anew_read (const char *path)
{
  FILE *file = fopen (path, "r");
  char *text = calloc (1, 1 << 20);

  if (file == NULL || text == NULL)
    {
      perror (path);
      exit (1);
    }
  text[fread (text, 1, (1 << 20) - 1, file)] = '\0';
  fclose (file);
  return text;
}

/* @return 1 where they differ, after telling where */
static inline int
anew_differ (const char *test, const char *path, const char *is, const char *was)
{
  int line = 1;

  if (strcmp (is, was) == 0)
    return 0;
  for (; strcspn (is, "\n") == strcspn (was, "\n") && strncmp (is, was, strcspn (is, "\n")) == 0; line++)
    {
      is += strcspn (is, "\n") + 1;
      was += strcspn (was, "\n") + 1;
    }
  fprintf (stderr, "%s:%d:\n told now: %.*s\n expected: %.*s\nWhere that is meant, write it anew: %s --anew %s\n",
           path, line, (int) strcspn (is, "\n"), is, (int) strcspn (was, "\n"), was, test, path);
  return 1;
}

static inline int
anew_write (const char *path, const char *text)
{
  FILE *file = fopen (path, "w");
  bool good = file != NULL && fputs (text, file) >= 0;

  return (file != NULL && fclose (file) != 0) || !good;
}

/* A test's main(). @told_by gives what a file of @text becomes, malloc'd; where not
 * @all it may end behind the first difference. */
static inline int
anew_main (const char *test, int argc, char **argv, char *(*told_by) (const char *text, bool all))
{
  bool anew = argc > 1 && strcmp (argv[1], "--anew") == 0;
  int failed = argc < 2 + anew;

  for (int i = 1 + anew; i < argc; i++)
    {
      char *was = anew_read (argv[i]), *is = told_by (was, anew);
      failed += anew ? anew_write (argv[i], is) : anew_differ (test, argv[i], is, was);
      free (was);
      free (is);
    }
  return failed != 0;
}

#endif
