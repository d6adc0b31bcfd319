/* SPDX-License-Identifier: GPL-3.0-or-later */
/* draw-report.c: a report of a made-up season, to be looked at.
 * usage: draw-report FILE.pdf|FILE.txt DAYS SEED clinician|coach [letter] */
#include <cairo-pdf.h>
#include <stdlib.h>
#include <string.h>

#include "../fakes/fake-diary.h"
#include "draw/report.h"

int
main (int argc, char **argv)
{
  int32_t days = argc > 2 ? atoi (argv[2]) : 28;
  CarpaceFakeDiary *fake = carpace_fake_diary_season (argc > 3 ? strtoull (argv[3], NULL, 10) : 7, 20818, 60 + days);
  CarpaceDiary diary = carpace_fake_diary_port (fake);
  CarpacePlan plan = { .cut_to = 6500, .step_up_by = 1000, .after_good_days = 3, .at_most_ms = 90 * CARPACE_MINUTE_MS,
                       .stop_above = 5 };
  CarpaceReportAsk ask = { .since = 20878, .until = 20878 + days - 1, .code = "K7", .plan = &plan,
                           .for_coach = argc > 4 && strcmp (argv[4], "coach") == 0 };
  CarpaceSheet sheet = argc > 5 ? carpace_sheet_letter : carpace_sheet_a4;
  CarpaceReport *report = carpace_report_new (&diary, &ask);

  if (report == NULL || argc < 2)
    return 2;
  if (g_str_has_suffix (argv[1], ".txt"))
    {
      g_autofree char *text = carpace_report_text (report);

      g_file_set_contents (argv[1], text, -1, NULL);
    }
  else
    {
      cairo_surface_t *surface = cairo_pdf_surface_create (argv[1], sheet.width, sheet.height);
      cairo_t *cr = cairo_create (surface);

      carpace_report_paint (report, cr, sheet);
      cairo_destroy (cr);
      cairo_surface_destroy (surface);
    }
  carpace_report_free (report);
  carpace_fake_diary_free (fake);
  return 0;
}
