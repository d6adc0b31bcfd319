/* SPDX-License-Identifier: GPL-3.0-or-later */
/* print-shares.c: the table of muscle groups, a movement a line, palm grip. */
#include <stdio.h>

#include "carpace/names.h"

int
main (void)
{
  for (CarpaceMovement movement = 0; movement < CARPACE_N_MOVEMENTS; movement++)
    {
      double share[CARPACE_N_GROUPS];
      carpace_muscles_shares (movement, CARPACE_GRIP_PALM, CARPACE_SIDE_RIGHT, share);
      printf ("%s", carpace_name (CARPACE_WORDS_MOVEMENT, movement));
      for (int group = 0; group < CARPACE_N_GROUPS; group++)
        printf (" %.0f", 100 * share[group]);
      printf ("\n");
    }
  return 0;
}
