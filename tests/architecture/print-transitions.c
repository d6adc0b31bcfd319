/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prints the state diagram that the core holds, one `from -> to` a line. */
#include <stdio.h>

#include "carpace/names.h"
#include "carpace/session.h"

int
main (void)
{
  for (const CarpaceTransition *row = carpace_session_transitions; row->from != CARPACE_N_STATES; row++)
    printf ("%s -> %s\n", carpace_name (CARPACE_WORDS_STATE, row->from), carpace_name (CARPACE_WORDS_STATE, row->to));
  return 0;
}
