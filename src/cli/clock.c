/* SPDX-License-Identifier: GPL-3.0-or-later */
/* clock.c: now and today. */
#include "cli/clock.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "cli/options.h"
#include "text/text.h"

#define TURN_MIN (4 * 60)

CarpaceInstant
carpace_cli_now (const CarpaceCli *cli)
{
  g_autoptr (GDateTime) now = NULL;

  if (cli->clock.now != NULL)
    return cli->clock.now (cli->clock.self);
  now = g_date_time_new_now_local ();
  return (CarpaceInstant) { .wall_ms = g_get_real_time () / 1000,
                            .offset_s = (int32_t) (g_date_time_get_utc_offset (now) / G_USEC_PER_SEC) };
}

CarpaceDay
carpace_cli_day (CarpaceInstant at, const CarpacePlan *plan)
{
  return carpace_day_of (at, plan == NULL ? TURN_MIN : plan->starts_at_min);
}

CarpaceDay
carpace_cli_today (const CarpaceCli *cli, const CarpacePlan *plan)
{
  return carpace_cli_day (carpace_cli_now (cli), plan);
}

static void
pass_over (void *user, const CarpaceFileFault *fault)
{
}

CarpacePlan *
carpace_cli_plan_in_use (const CarpaceCli *cli)
{
  CarpacePlan *plan;

  if (cli->plans.load_in_use == NULL)
    return NULL;
  plan = calloc (1, sizeof *plan);
  if (plan != NULL && !cli->plans.load_in_use (cli->plans.self, plan, pass_over, NULL))
    {
      free (plan);
      return NULL;
    }
  return plan;
}

bool
carpace_cli_date (CarpaceCli *cli, const char *name, const char *value, CarpaceDay *ret_day)
{
  g_autofree char *shown = NULL;

  if (value == NULL || carpace_day_read (value, ret_day))
    return true;
  shown = carpace_text_shown_word (value);
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“%s” is no date for --%s; write it as in 2027-03-02."), shown, name);
  return false;
}
