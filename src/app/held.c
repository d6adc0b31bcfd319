/* SPDX-License-Identifier: GPL-3.0-or-later */
/* held.c: from records of plans to what is held. */
#include "app/held.h"

#include <stdlib.h>
#include <string.h>

static char *
copy_of (const char *text)
{
  size_t n = strlen (text) + 1;
  char *copy = malloc (n);

  if (copy != NULL)
    memcpy (copy, text, n);
  return copy;
}

static void
replace (char **text, const char *by)
{
  free (*text);
  *text = copy_of (by);
}

typedef struct
{
  CarpacePlansKept *kept;
  const CarpacePlanFiles *plans;
  CarpaceDay until;
} Reading;

/* The one of that name, which is the last now: of what has no direction the last holds. */
static CarpaceGivenPlan *
given_of (CarpacePlansKept *kept, const char *name)
{
  CarpaceGivenPlan *more;

  for (size_t i = 0; i < kept->held.n_given; i++)
    if (strcmp (kept->given[i].name, name) == 0)
      {
        CarpaceGivenPlan found = kept->given[i], *last = &kept->given[kept->held.n_given - 1];
        memmove (&kept->given[i], &kept->given[i + 1], (size_t) (last - &kept->given[i]) * sizeof *last);
        *last = found;
        return last;
      }
  more = realloc (kept->given, (kept->held.n_given + 1) * sizeof *more);
  if (more == NULL)
    return NULL;
  kept->held.given = kept->given = more;
  more += kept->held.n_given++;
  *more = (CarpaceGivenPlan) { .name = copy_of (name) };
  return more;
}

/* What the plan of that record fixes itself. Where its text cannot be read any more, all
 * that was held then is taken as of it: rather too much than too little.
 * @return whether all of it was understood */
static bool
read_fixes (const Reading *reading, const CarpacePlanRecord *record, CarpaceCeiling *ret_fixes)
{
  const CarpacePlanFiles *plans = reading->plans;
  CarpacePlan *plan = plans != NULL && plans->load_text != NULL ? malloc (sizeof *plan) : NULL;
  bool read = plan != NULL && plans->load_text (plans->self, record->text, plan);

  memset (ret_fixes, 0, sizeof *ret_fixes);
  if (read)
    carpace_ceiling_add (ret_fixes, plan);
  free (plan);
  return read || carpace_ceiling_read (record->fixed, ret_fixes);
}

/* A higher version takes the place of what its plan fixed before; what else is given
 * adds to it. An older version, given on another computer, says nothing any more. */
static void
add_given (const Reading *reading, const CarpacePlanRecord *record)
{
  CarpaceGivenPlan *given = given_of (reading->kept, record->name);
  CarpaceCeiling fixes, before;

  if (given == NULL || record->version < given->version)
    return;
  before = given->fixes;
  if (read_fixes (reading, record, &fixes) && record->version > given->version)
    given->fixes = fixes;
  else
    carpace_ceiling_join (&given->fixes, &fixes);
  if (record->version > given->version || !carpace_ceiling_same (&before, &given->fixes))
    given->since = carpace_day_of (record->at, 0);
  given->version = record->version;
  free ((char *) given->text);
  given->text = copy_of (record->text);
}

static bool
add (void *user, const CarpacePlanRecord *record)
{
  CarpacePlansKept *kept = ((const Reading *) user)->kept;

  if (carpace_day_of (record->at, 0) > ((const Reading *) user)->until)
    return false;
  if (record->what == CARPACE_PLAN_OF_DAY)
    replace (&kept->of_day, record->text);
  for (size_t i = 0; record->what == CARPACE_PLAN_RELEASED && i < kept->held.n_given; i++)
    memset (&kept->given[i].fixes, 0, sizeof kept->given[i].fixes);
  if (record->what == CARPACE_PLAN_GIVEN)
    {
      add_given (user, record);
      replace (&kept->name, record->name);
      kept->version = record->version;
    }
  if (record->what != CARPACE_PLAN_RELEASED)
    replace (&kept->last, record->text);
  return true;
}

bool
carpace_plans_kept_read (const CarpaceDiary *diary, const CarpacePlanFiles *plans, CarpacePlansKept *ret_kept)
{
  return carpace_plans_kept_until (diary, plans, INT32_MAX, ret_kept);
}

bool
carpace_plans_kept_until (const CarpaceDiary *diary, const CarpacePlanFiles *plans, CarpaceDay until,
                          CarpacePlansKept *ret_kept)
{
  Reading reading = { ret_kept, plans, until };
  bool read;

  memset (ret_kept, 0, sizeof *ret_kept);
  read = diary->plans == NULL || diary->plans (diary->self, add, &reading);
  for (size_t i = 0; i < ret_kept->held.n_given; i++)
    carpace_ceiling_join (&ret_kept->held.ceiling, &ret_kept->given[i].fixes);
  return read;
}

void
carpace_plans_kept_clear (CarpacePlansKept *kept)
{
  for (size_t i = 0; i < kept->held.n_given; i++)
    {
      free ((char *) kept->given[i].name);
      free ((char *) kept->given[i].text);
    }
  free (kept->given);
  free (kept->last);
  free (kept->of_day);
  free (kept->name);
  memset (kept, 0, sizeof *kept);
}

CarpacePlanRecord
carpace_plan_given_record (const CarpacePlan *plan, const CarpaceCeiling *held, const char *text,
                           char ret_fixed[CARPACE_CEILING_BYTES])
{
  carpace_ceiling_write (held, ret_fixed);
  return (CarpacePlanRecord) { .what = CARPACE_PLAN_GIVEN, .name = plan->name, .version = plan->version,
                               .fixed = ret_fixed, .text = text };
}
