/* SPDX-License-Identifier: GPL-3.0-or-later */
/* at-work.c: which mutant is at work, and which of them a run came by. Linked
 * to a core that mutate.py has written, never to the program. */
#include <stdio.h>
#include <stdlib.h>

#define MOST_MUTANTS 65536

extern int carpace_mutant;
extern unsigned char carpace_mutant_seen[MOST_MUTANTS];

int carpace_mutant;
unsigned char carpace_mutant_seen[MOST_MUTANTS];

static void
write_seen (void)
{
  const char *name = getenv ("CARPACE_MUTANTS_SEEN");
  FILE *file = name == NULL ? NULL : fopen (name, "a");

  for (int i = 1; file != NULL && i < MOST_MUTANTS; i++)
    if (carpace_mutant_seen[i])
      fprintf (file, "%d\n", i);
  if (file != NULL)
    fclose (file);
}

__attribute__ ((constructor)) static void
begin (void)
{
  const char *number = getenv ("CARPACE_MUTANT");

  carpace_mutant = number == NULL ? 0 : atoi (number);
  if (getenv ("CARPACE_MUTANTS_SEEN") != NULL)
    atexit (write_seen);
}
