/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-measured.c: clicks beside efforts, of blocks and of drills. */
#include "cli/plan-measured.h"

#include <glib/gi18n.h>

#include "app/measured.h"
#include "carpace/names.h"
#include "cli/options.h"
#include "forms/json.h"
#include "text/diary-text.h"
#include "text/duration.h"
#include "text/quoted.h"

/* @drill NULL: of the block @block. */
static void
print_json (CarpaceCli *cli, int32_t block, const CarpaceDrill *drill, const CarpaceClicksCount *of, double efforts)
{
  GString *out = g_string_new (NULL);
  double clicks;

  carpace_json_open (out, '{');
  carpace_json_key (out, "kind");
  carpace_json_string (out, "clicks");
  carpace_json_key (out, drill != NULL ? "drill" : "block");
  if (drill != NULL)
    carpace_json_string (out, drill->id);
  else
    carpace_json_int (out, block + 1);
  carpace_json_key (out, "a_minute");
  if (carpace_clicks_a_minute (of, &clicks))
    carpace_json_double (out, clicks);
  else
    carpace_json_null (out);
  carpace_json_key (out, "ms");
  carpace_json_int (out, of->ms);
  carpace_json_key (out, "efforts_a_minute");
  carpace_json_double (out, efforts);
  if (drill != NULL)
    {
      carpace_json_key (out, "efforts_from");
      carpace_json_string (out, carpace_name (CARPACE_WORDS_EFFORTS_FROM, (int32_t) drill->efforts_from));
    }
  carpace_json_close (out, '}');
  fprintf (cli->out, "%s\n", out->str);
  g_string_free (out, TRUE);
}

static void
print_text (CarpaceCli *cli, const char *what, const CarpaceClicksCount *of, double efforts)
{
  g_autofree char *in = carpace_text_duration (of->ms);
  double clicks;

  if (carpace_clicks_a_minute (of, &clicks))
    fprintf (cli->out, _("  %s: %.0f clicks a minute, measured in %s; %.0f efforts a minute in the plan\n"), what, clicks, in, efforts);
  else
    fprintf (cli->out, _("  %s: clicks unknown; %.0f efforts a minute in the plan\n"), what, efforts);
}

static void
print_block (CarpaceCli *cli, const CarpacePlan *reckoned, const CarpaceClicksMeasured *measured, int32_t block, bool json)
{
  g_autofree char *what = g_strdup_printf (_("Block %d"), block + 1);
  double efforts = carpace_efforts_a_minute (reckoned, block);

  if (json)
    print_json (cli, block, NULL, &measured->block[block], efforts);
  else
    print_text (cli, what, &measured->block[block], efforts);
}

/* @drill as its file has it. */
static void
print_drill (CarpaceCli *cli, const CarpaceDrill *drill, const CarpaceDrill *reckoned, const CarpaceClicksCount *of, bool json)
{
  g_autofree char *name = carpace_text_harmless (drill->name);
  double clicks;

  if (json)
    print_json (cli, 0, drill, of, reckoned->efforts_per_min);
  else
    print_text (cli, name, of, drill->efforts_per_min);
  if (!json && drill->efforts_from == CARPACE_EFFORTS_FROM_CLICKS && carpace_clicks_a_minute (of, &clicks))
    fprintf (cli->out, _("    The plan takes its efforts from clicks: %.0f a minute.\n"), reckoned->efforts_per_min);
}

bool
carpace_cli_plan_measure (CarpaceCli *cli, const CarpacePlan *plan, CarpaceClicksMeasured *ret_measured)
{
  CarpaceDiary diary;

  if (cli->open_diary == NULL || !cli->open_diary (cli, &diary))
    return false;
  if (!carpace_measure_clicks (&diary, plan, ret_measured))
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", carpace_text_diary_unreadable ());
  else
    return true;
  return false;
}

void
carpace_cli_plan_measured (CarpaceCli *cli, const CarpacePlan *plan, const CarpacePlan *reckoned, const CarpaceClicksMeasured *measured, bool json)
{
  if (!json)
    fprintf (cli->out, "%s\n", _("Clicks measured, beside the efforts that the plan reckons with (a click is not an effort of the wrist):"));
  for (int32_t block = 0; block < plan->n_blocks; block++)
    print_block (cli, reckoned, measured, block, json);
  for (int32_t drill = 0; drill < plan->n_drills; drill++)
    print_drill (cli, &plan->drills[drill], &reckoned->drills[drill], &measured->drill[drill], json);
}
