/* SPDX-License-Identifier: GPL-3.0-or-later */
/* reserve.c: a session's reserve brought forward at its events, N times.
 * usage: bench-reserve N. Prints seconds a session and the last lowest reserve. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "carpace/reserve.h"

/* 30 stretches of 110 s and rests of 10 s: an hour. reserve.py solves the same. */
enum { STRETCHES = 30, WORK_MS = 110000, REST_MS = 10000 };

static double
session (void)
{
  static const double load[CARPACE_N_GROUPS] = { 0.12, 0.108, 0.048, 0.1056, 0.06, 0.048, 0.018, 0.024, 0.024, 0.042 };
  CarpaceReserveState state;

  carpace_reserve_begin (&state);
  for (int i = 0; i < STRETCHES; i++)
    {
      carpace_reserve_work (&state, load, WORK_MS);
      carpace_reserve_rest (&state, REST_MS);
    }
  return carpace_reserve_lowest (&state, NULL);
}

int
main (int argc, char **argv)
{
  long n = argc > 1 ? atol (argv[1]) : 1;
  double lowest = 0;
  clock_t begun = clock ();

  for (long i = 0; i < n; i++)
    lowest += session ();
  printf ("%.9g %.12f\n", (double) (clock () - begun) / CLOCKS_PER_SEC / (double) (n > 0 ? n : 1), lowest / (double) (n > 0 ? n : 1));
  return 0;
}
