/* SPDX-License-Identifier: GPL-3.0-or-later */
/* print-line.c: the dot plot's line through mornings read from standard input,
 * one "MINUTES WAKING" a line: slope, number at 0 min, bounds of the slope, half the
 * interval at 40 min; "none" where no line is drawn. */
#include <stdio.h>

#include "draw/dot-plot.h"

int
main (void)
{
  GArray *mornings = g_array_new (FALSE, FALSE, sizeof (CarpaceMorningAfter));
  CarpaceDotPlotLine line;
  int minutes, waking;

  while (scanf ("%d %d", &minutes, &waking) == 2)
    {
      CarpaceMorningAfter morning = { .done_ms = minutes * CARPACE_MINUTE_MS, .waking = waking };

      g_array_append_val (mornings, morning);
    }
  if (carpace_dot_plot_line (mornings, &line))
    printf ("%.15g %.15g %.15g %.15g %.15g\n", line.slope, line.at_0, line.low, line.high,
            carpace_dot_plot_line_within (&line, 40));
  else
    puts ("none");
  g_array_unref (mornings);
  return 0;
}
