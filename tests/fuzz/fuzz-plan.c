/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fuzz-plan.c: whatever the bytes, there is a plan or there are faults, told in
 * order, in text; and a plan written out reads back as the same. */
#include <glib.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "forms/plan-yaml.h"
#include "target.h"
#include "forms/plan-write.h"

typedef struct
{
  int32_t n_faults, line, column;
  bool counted; /* the line of how many more has been told: it is the last */
} Told;

static void
require (bool holds, const char *what)
{
  if (holds)
    return;
  fprintf (stderr, "%s\n", what);
  abort ();
}

static void
look_at_fault (void *user, const CarpaceFileFault *fault)
{
  Told *told = user;

  require (!told->counted, "a fault after the last");
  told->counted = fault->line == 0 && told->line > 0;
  require (told->counted || fault->line > told->line || (fault->line == told->line && fault->column >= told->column),
           "faults out of order");
  require (g_utf8_validate (fault->message, -1, NULL) && strchr (fault->message, '\n') == NULL
               && strchr (fault->message, '\x1b') == NULL,
           "a message that is no line of text");
  told->n_faults += !fault->warning;
  told->line = fault->line;
  told->column = fault->column;
}

static void
look_at_plan (const CarpacePlan *plan)
{
  CarpacePlanReader reader = carpace_plan_yaml ();
  g_autofree CarpacePlan *back = g_new (CarpacePlan, 1);
  g_autofree char *written = carpace_plan_write_file (plan), *json = carpace_plan_write_json (plan), *again = NULL;
  Told told = { 0 };

  require (g_utf8_validate (json, -1, NULL) && strchr (json, '\n') == NULL, "JSON that is no line of text");
  require (reader.read (reader.self, written, strlen (written), NULL, back, NULL, look_at_fault, &told),
           "a plan written out is not read");
  again = carpace_plan_write_file (back);
  require (strcmp (written, again) == 0, "a plan written out reads as another");
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t n)
{
  CarpacePlanReader reader = carpace_plan_yaml ();
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  CarpacePlanPlaces places;
  Told told = { 0 };

  if (reader.read (reader.self, (const char *) data, n, NULL, plan, &places, look_at_fault, &told))
    {
      require (told.n_faults == 0, "a plan with faults");
      look_at_plan (plan);
    }
  else
    require (told.n_faults > 0, "no plan, and no fault told");
  return 0;
}
