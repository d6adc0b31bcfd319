/* SPDX-License-Identifier: GPL-3.0-or-later */
/* document-usual.c: what holds at a path: as the file has it, or what is usual where it says nothing. */
#include <string.h>

#include "carpace/quantity.h"
#include "forms/plan-edit-path.h"
#include "forms/plan-values.h"
#include "planner/document-private.h"

/* Where a path leads, in the table's terms. */
typedef struct
{
  const CarpaceKeyFacts *facts; /* NULL: it is a text, or nothing of the table */
  const char *text;
  double number;
} Place;

static Place
place_in_drill (const CarpacePlan *plan, const CarpacePath *path)
{
  int32_t drill = path->step[1].item, key = path->n == 3 ? carpace_name_value (CARPACE_WORDS_DRILL_KEY, path->step[2].key) : -1;
  Place place = { .facts = NULL };

  if (key < 0 || drill < 0 || plan == NULL || drill >= plan->n_drills)
    return place;
  if (key == CARPACE_DRILL_NAME)
    return (Place) { .text = plan->drills[drill].name };
  place.facts = carpace_drill_key_facts ((CarpaceDrillKey) key);
  place.number = carpace_drill_value (&plan->drills[drill], (CarpaceDrillKey) key);
  return place;
}

static Place
place_in_block (const CarpacePlan *plan, const CarpacePath *path)
{
  static const CarpaceKeyFacts share = { .unit = CARPACE_UNIT_SHARE, .low = CARPACE_SHARE_STEP, .high = CARPACE_WHOLE };
  int32_t block = path->step[1].item, part = path->n == 5 ? path->step[3].item : -1;
  Place place = { .facts = NULL };

  if (plan == NULL || block < 0 || block >= plan->n_blocks)
    return place;
  if (path->n == 3 && path->written == CARPACE_PATH_WORD)
    return (Place) { .facts = carpace_block_limit_facts (), .number = (double) plan->blocks[block].limit_ms };
  if (part >= 0 && part < plan->blocks[block].n_parts)
    return (Place) { .facts = &share, .number = plan->blocks[block].parts[part].share };
  return place;
}

static Place
place_at (const CarpacePlan *plan, const char *path)
{
  int32_t key = carpace_name_value (CARPACE_WORDS_PLAN_KEY, path);
  CarpacePath steps;

  if (key == CARPACE_KEY_NAME || key == CARPACE_KEY_NOTE)
    return (Place) { .text = plan == NULL ? "" : key == CARPACE_KEY_NAME ? plan->name : plan->note };
  if (key >= 0)
    return (Place) { .facts = carpace_plan_key_facts ((CarpacePlanKey) key),
                     .number = plan != NULL ? carpace_plan_number (plan, (CarpacePlanKey) key) : 0 };
  if (!carpace_path_read (path, &steps))
    return (Place) { .facts = NULL };
  return strncmp (path, "drills", strlen ("drills")) == 0 ? place_in_drill (plan, &steps) : place_in_block (plan, &steps);
}

static char *
written (const Place *place)
{
  char text[CARPACE_QUANTITY_BYTES];

  if (place->facts == NULL)
    return g_strdup (place->text != NULL ? place->text : "");
  if (carpace_value_is_none (place->facts, place->number))
    return g_strdup (place->facts->none);
  switch (place->facts->unit)
    {
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS: return g_strdup ("");
    case CARPACE_UNIT_WORD: return g_strdup (carpace_name (place->facts->words, (int32_t) place->number));
    case CARPACE_UNIT_WHOLE:
    case CARPACE_UNIT_CM:
    case CARPACE_UNIT_DURATION:
    case CARPACE_UNIT_SHARE:
    case CARPACE_UNIT_PERCENT:
    case CARPACE_UNIT_TIME_OF_DAY:
    case CARPACE_UNIT_DEGREES:
    case CARPACE_UNIT_PER_MIN:
    case CARPACE_UNIT_SECONDS:
    case CARPACE_UNIT_WRIST:
      break;
    }
  carpace_quantity_write (place->facts->unit, place->number, text);
  return g_strdup (text);
}

char *
carpace_planner_text (const CarpacePlanner *planner, const char *path)
{
  const CarpacePlanValue *value = carpace_planner_value (planner, path);
  Place place;

  if (value != NULL && value->text != NULL && planner->tried == NULL)
    return g_strdup (value->text);
  place = place_at (carpace_planner_plan (planner), path);
  return written (&place);
}

/* ---- a step up or down ---- */

static double
step_of (CarpaceUnit unit, double number)
{
  switch (unit)
    {
    case CARPACE_UNIT_DURATION:
      return number < 2 * CARPACE_MINUTE_MS ? 5 * CARPACE_SECOND_MS : number < CARPACE_HOUR_MS ? CARPACE_MINUTE_MS : 5 * CARPACE_MINUTE_MS;
    case CARPACE_UNIT_SHARE: return CARPACE_SHARE_STEP;
    case CARPACE_UNIT_TIME_OF_DAY: return 15;
    case CARPACE_UNIT_DEGREES:
    case CARPACE_UNIT_WRIST: return 5;
    case CARPACE_UNIT_SECONDS: return 0.1;
    case CARPACE_UNIT_WHOLE:
    case CARPACE_UNIT_CM:
    case CARPACE_UNIT_PERCENT:
    case CARPACE_UNIT_PER_MIN: return 1;
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_WORD:
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS: break;
    }
  return 0;
}

char *
carpace_planner_stepped (const CarpacePlanner *planner, const char *path, int by)
{
  Place place = place_at (carpace_planner_plan (planner), path);
  double step = place.facts != NULL ? step_of (place.facts->unit, place.number) : 0;

  if (step == 0)
    return NULL;
  place.number = CLAMP (place.number + by * step, place.facts->low, place.facts->high);
  if (place.facts->over_low && place.number <= place.facts->low)
    place.number = step;
  if (step < 1)
    place.number = (double) (int64_t) (place.number / step + 0.5) * step;
  return written (&place);
}

const CarpaceKeyFacts *
carpace_planner_facts (const CarpacePlanner *planner, const char *path)
{
  return place_at (carpace_planner_plan (planner), path).facts;
}
