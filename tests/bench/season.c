/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season.c: 100 days of each modelled player, rehearsed. Printed, never judged. */
#include <stdio.h>
#include <time.h>

#include "app/players.h"
#include "trace.h"

enum { DAYS = 100, TIMES = 10 };

static void
count (void *user, const CarpaceEntry *entry, int32_t line)
{
  ++*(long *) user;
}

int
main (void)
{
  static CarpacePlan plan;

  carpace_trace_plan (&plan, 4, 15);
  for (CarpacePlayerKind kind = 0; kind < CARPACE_N_PLAYERS; kind++)
    {
      long entries = 0;
      clock_t begun = clock ();
      for (uint64_t seed = 0; seed < TIMES; seed++)
        if (!carpace_rehearse_player (&plan, kind, DAYS, seed, count, &entries))
          return 1;
      printf ("%-13s %d days, %ld lines: %.1f ms (wanted: under 50)\n", carpace_player_word (kind), DAYS, entries / TIMES,
              1000.0 * (double) (clock () - begun) / CLOCKS_PER_SEC / TIMES);
    }
  return 0;
}
