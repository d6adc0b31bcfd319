/* SPDX-License-Identifier: GPL-3.0-or-later */
/* print-line.c: the dot plot's line through mornings read from standard input,
 * one "MINUTES WAKING" a line; "none" where no line is drawn. */
#include <stdio.h>

#include "draw/dot-plot.h"

int
main (void)
{
  GArray *mornings = g_array_new (FALSE, FALSE, sizeof (CarpaceMorningAfter));
  double slope, at_0;
  int minutes, waking;

  while (scanf ("%d %d", &minutes, &waking) == 2)
    {
      CarpaceMorningAfter morning = { .done_ms = minutes * CARPACE_MINUTE_MS, .waking = waking };

      g_array_append_val (mornings, morning);
    }
  if (carpace_dot_plot_line (mornings, &slope, &at_0))
    printf ("%.15g %.15g\n", slope, at_0);
  else
    puts ("none");
  g_array_unref (mornings);
  return 0;
}
