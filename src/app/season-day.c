/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season-day.c: a day rehearsed once more, for what stood within it. */
#include "app/season-day.h"

#include <stdlib.h>
#include <string.h>

/* A day's opening lets go of the day before, so that the last one stays. */
static void
note (void *user, const CarpaceEntry *entry, int32_t line)
{
  carpace_sittings_note (user, entry);
}

bool
carpace_season_day_rail (const CarpacePlan *plan, const CarpacePlayerTraits *traits, uint64_t seed, int32_t day,
                         CarpaceDayRail *ret_rail)
{
  CarpaceView *view = calloc (1, sizeof *view);
  CarpaceInstant end = { 0 };
  bool rehearsed;

  memset (ret_rail, 0, sizeof *ret_rail);
  if (view == NULL)
    return false;
  rehearsed = carpace_rehearse_traits (plan, traits, day + 1, seed, note, &view->sittings);
  view->plan = plan;
  view->state = CARPACE_STATE_DAY_DONE;
  if (view->sittings.n > 0)
    end = view->sittings.sitting[view->sittings.n - 1].ended;
  if (rehearsed)
    carpace_day_rail (view, end, ret_rail);
  free (view);
  return rehearsed;
}
