/* SPDX-License-Identifier: GPL-3.0-or-later */
/* print-at-least.c: what a hand was seen to take, for other programs to check.
 * A case a line: first dose in min, then DOSE in min and 0 or 1 (worse) for each
 * day. Prints least and most in min, days, worse. `needed` prints the table. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "carpace/at-least.h"

static int
print_needed (void)
{
  for (int32_t worse = 0; carpace_at_least_needed (worse) > 0; worse++)
    printf ("%d\n", (int) carpace_at_least_needed (worse));
  return 0;
}

int
main (int argc, char **argv)
{
  static char line[65536];
  CarpaceAnswered days[CARPACE_AT_LEAST_DAYS];

  if (argc > 1 && strcmp (argv[1], "needed") == 0)
    return print_needed ();
  while (fgets (line, sizeof line, stdin) != NULL)
    {
      char *at = line;
      int64_t first_ms = strtol (at, &at, 10) * CARPACE_MINUTE_MS;
      int32_t n = 0;
      while (n < CARPACE_AT_LEAST_DAYS && strpbrk (at, "0123456789") != NULL)
        {
          days[n].dose_ms = strtol (at, &at, 10) * CARPACE_MINUTE_MS;
          days[n++].worse = strtol (at, &at, 10) != 0;
        }
      CarpaceAtLeast seen = carpace_at_least (days, n, first_ms);
      printf ("%d %d %d %d\n", (int) (seen.least_ms / CARPACE_MINUTE_MS), (int) (seen.most_ms / CARPACE_MINUTE_MS),
              (int) seen.days, (int) seen.worse);
    }
  return 0;
}
