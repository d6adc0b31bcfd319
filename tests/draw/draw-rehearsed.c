/* SPDX-License-Identifier: GPL-3.0-or-later */
/* draw-rehearsed.c: the report of a rehearsed season, to be looked at: the
 * product's own rules made every decision on it.
 * usage: draw-rehearsed PLAN FILE.pdf PLAYER [DAYS [SEED [letter]]] */
#include <cairo-pdf.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../fakes/fake-diary.h"
#include "app/players.h"
#include "draw/report.h"
#include "forms/plan-yaml.h"

#define FIRST 20879 /* 2027-03-02, where rehearsed seasons begin */

typedef struct
{
  CarpaceFakeDiary *fake;
  const CarpacePlan *plan;
} Listening;

static void
listen (void *user, const CarpaceEntry *entry, int32_t line)
{
  Listening *listening = user;

  carpace_fake_diary_add (listening->fake, carpace_day_of (entry->at, listening->plan->starts_at_min), entry, NULL);
}

static void
tell (void *user, const CarpaceFileFault *fault)
{
  fprintf (stderr, "%d: %s\n", fault->line, fault->message);
}

static bool
read_plan (const char *path, CarpacePlan *ret_plan)
{
  CarpacePlanReader reader = carpace_plan_yaml ();
  g_autofree char *bytes = NULL;
  gsize size;

  return g_file_get_contents (path, &bytes, &size, NULL)
         && reader.read (reader.self, bytes, size, NULL, ret_plan, NULL, tell, NULL);
}

static void
paint (CarpaceReport *report, const char *file, CarpaceSheet sheet)
{
  cairo_surface_t *surface = cairo_pdf_surface_create (file, sheet.width, sheet.height);
  cairo_t *cr = cairo_create (surface);

  carpace_report_paint (report, cr, sheet);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  static CarpacePlan plan;
  Listening listening = { .fake = carpace_fake_diary_new (), .plan = &plan };
  CarpaceDiary diary = carpace_fake_diary_port (listening.fake);
  CarpaceReportAsk ask = { .since = FIRST, .code = "K7", .plan = &plan };
  CarpaceReport *report;
  int32_t days = argc > 4 ? atoi (argv[4]) : 28;
  int kind = 0;

  if (argc < 4 || !read_plan (argv[1], &plan))
    return 2;
  while (kind < CARPACE_N_PLAYERS && strcmp (carpace_player_word ((CarpacePlayerKind) kind), argv[3]) != 0)
    kind++;
  if (kind == CARPACE_N_PLAYERS)
    return 2;
  carpace_rehearse_player (&plan, (CarpacePlayerKind) kind, days, argc > 5 ? strtoull (argv[5], NULL, 10) : 5, listen,
                           &listening);
  ask.until = FIRST + days - 1;
  ask.since = MAX (FIRST, ask.until - 27);
  report = carpace_report_new (&diary, &ask);
  if (report == NULL)
    return 1;
  paint (report, argv[2], argc > 6 ? carpace_sheet_letter : carpace_sheet_a4);
  carpace_report_free (report);
  carpace_fake_diary_free (listening.fake);
  return 0;
}
