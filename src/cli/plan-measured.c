/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-measured.c: clicks beside efforts. What was practised by another plan is not held against this one. */
#include "cli/plan-measured.h"

#include <glib/gi18n.h>
#include <string.h>

#include "carpace/clicks.h"
#include "cli/options.h"
#include "forms/json.h"
#include "text/diary-text.h"
#include "text/duration.h"

typedef struct
{
  const CarpacePlan *plan;
  bool practised;   /* the last day that was opened with another plan than the day before is this one's */
  int64_t since_ms; /* wall clock */
  CarpaceClicksMeasured measured;
} Looking;

/* A version more of the same plan is the same plan here: its blocks have their numbers still. */
static bool
look_at_plan (void *user, const CarpacePlanRecord *record)
{
  Looking *looking = user;
  bool is_this;

  if (record->what != CARPACE_PLAN_OF_DAY)
    return true;
  is_this = strcmp (record->name, looking->plan->name) == 0;
  if (is_this && !looking->practised)
    looking->since_ms = record->at.wall_ms;
  looking->practised = is_this;
  return true;
}

static bool
add (void *user, const CarpaceRecord *record)
{
  Looking *looking = user;

  if (record->entry.at.wall_ms >= looking->since_ms)
    carpace_clicks_add (&looking->measured, &record->entry);
  return true;
}

static bool
measure (const CarpaceDiary *diary, Looking *looking)
{
  if (diary->plans != NULL && !diary->plans (diary->self, look_at_plan, looking))
    return false;
  return !looking->practised
         || diary->records_of (diary->self, INT32_MIN, INT32_MAX, CARPACE_KIND (CARPACE_ENTRY_CLICKS), add, looking);
}

static void
print_json (CarpaceCli *cli, const Looking *looking, int32_t block)
{
  GString *out = g_string_new (NULL);
  double clicks;

  carpace_json_open (out, '{');
  carpace_json_key (out, "kind");
  carpace_json_string (out, "clicks");
  carpace_json_key (out, "block");
  carpace_json_int (out, block + 1);
  carpace_json_key (out, "a_minute");
  if (carpace_clicks_a_minute (&looking->measured, block, &clicks))
    carpace_json_double (out, clicks);
  else
    carpace_json_null (out);
  carpace_json_key (out, "ms");
  carpace_json_int (out, looking->measured.block[block].ms);
  carpace_json_key (out, "efforts_a_minute");
  carpace_json_double (out, carpace_efforts_a_minute (looking->plan, block));
  carpace_json_close (out, '}');
  fprintf (cli->out, "%s\n", out->str);
  g_string_free (out, TRUE);
}

static void
print_text (CarpaceCli *cli, const Looking *looking, int32_t block)
{
  g_autofree char *in = carpace_text_duration (looking->measured.block[block].ms);
  double clicks, efforts = carpace_efforts_a_minute (looking->plan, block);

  if (carpace_clicks_a_minute (&looking->measured, block, &clicks))
    fprintf (cli->out, _("  Block %d: %.0f clicks a minute, measured in %s; %.0f efforts a minute in the plan\n"), block + 1, clicks, in,
             efforts);
  else
    fprintf (cli->out, _("  Block %d: clicks unknown; %.0f efforts a minute in the plan\n"), block + 1, efforts);
}

int
carpace_cli_plan_measured (CarpaceCli *cli, const CarpacePlan *plan, bool json)
{
  Looking looking = { .plan = plan };
  CarpaceDiary diary;

  if (cli->open_diary == NULL || !cli->open_diary (cli, &diary))
    return CARPACE_EXIT_REFUSED;
  if (!measure (&diary, &looking))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", carpace_text_diary_unreadable ());
  if (!json)
    fprintf (cli->out, "%s\n", _("Clicks measured, beside the efforts that the plan reckons with (a click is not an effort of the wrist):"));
  for (int32_t block = 0; block < plan->n_blocks; block++)
    if (json)
      print_json (cli, &looking, block);
    else
      print_text (cli, &looking, block);
  return CARPACE_EXIT_DONE;
}
