/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/measured.h"

#include <string.h>

typedef struct
{
  const CarpacePlan *plan;
  bool practised;   /* the last day that was opened with another plan than the day before is this one's */
  int64_t since_ms; /* wall clock */
  CarpaceClicksMeasured *measured;
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
    carpace_clicks_add (looking->measured, looking->plan, &record->entry);
  return true;
}

bool
carpace_measure_clicks (const CarpaceDiary *diary, const CarpacePlan *plan, CarpaceClicksMeasured *ret_measured)
{
  const uint32_t kinds = CARPACE_KIND (CARPACE_ENTRY_CLICKS) | CARPACE_KIND (CARPACE_ENTRY_BLOCK);
  Looking looking = { .plan = plan, .measured = ret_measured };

  memset (ret_measured, 0, sizeof *ret_measured);
  if (diary->plans != NULL && !diary->plans (diary->self, look_at_plan, &looking))
    return false;
  return !looking.practised || diary->records_of (diary->self, INT32_MIN, INT32_MAX, kinds, add, &looking);
}
