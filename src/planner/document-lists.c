/* SPDX-License-Identifier: GPL-3.0-or-later */
/* document-lists.c: blocks, their drills and drills, come and gone: whole steps, so that shares still add up and the
 * dose is still the sum where it was. */
#include "planner/document-edits.h"

#include <string.h>

#include "carpace/quantity.h"

static const CarpacePlan *
plan_of (const CarpacePlanner *planner)
{
  return planner->sound ? planner->plan : NULL;
}

/* ---- blocks ---- */

static void
follow_dose (CarpaceEdits *edits, const CarpacePlanner *planner, int64_t more_ms)
{
  const CarpacePlan *plan = planner->plan;

  if (carpace_planner_value (planner, carpace_name (CARPACE_WORDS_PLAN_KEY, CARPACE_KEY_DAY_DOSE)) != NULL
      && plan->dose_ms == carpace_plan_sum_of_limits_ms (plan))
    carpace_edits_set_ms (edits, plan->dose_ms + more_ms, "%s", carpace_name (CARPACE_WORDS_PLAN_KEY, CARPACE_KEY_DAY_DOSE));
}

CarpacePlanEditEnd
carpace_planner_duplicate_block (CarpacePlanner *planner, int32_t block)
{
  const CarpacePlan *plan = plan_of (planner);
  CarpaceEdits edits;

  if (plan == NULL || plan->split_into > 0)
    return CARPACE_EDIT_NOT_THERE;
  carpace_edits_init (&edits);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_DUPLICATE }, NULL, "blocks[%d]", block);
  follow_dose (&edits, planner, plan->blocks[block].limit_ms);
  return carpace_edits_do (&edits, planner);
}

CarpacePlanEditEnd
carpace_planner_remove_block (CarpacePlanner *planner, int32_t block)
{
  const CarpacePlan *plan = plan_of (planner);
  CarpaceEdits edits;

  if (plan == NULL || plan->split_into > 0 || plan->n_blocks < 2)
    return CARPACE_EDIT_NOT_THERE;
  carpace_edits_init (&edits);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_REMOVE }, NULL, "blocks[%d]", block);
  follow_dose (&edits, planner, -plan->blocks[block].limit_ms);
  return carpace_edits_do (&edits, planner);
}

/* ---- drills of a block ---- */

static bool
has_shares (const CarpacePlanner *planner, int32_t block)
{
  for (int32_t i = 0; i < planner->plan->blocks[block].n_parts; i++)
    {
      g_autofree char *path = g_strdup_printf ("blocks[%d].drills[%d].share", block, i);
      if (carpace_planner_value (planner, path) != NULL)
        return true;
    }
  return false;
}

CarpacePlanEditEnd
carpace_planner_add_part (CarpacePlanner *planner, int32_t block, int32_t drill)
{
  const CarpacePlan *plan = plan_of (planner);
  int32_t last;
  CarpaceEdits edits;

  if (plan == NULL || plan->split_into > 0)
    return CARPACE_EDIT_NOT_THERE;
  last = plan->blocks[block].n_parts - 1;
  carpace_edits_init (&edits);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_INSERT }, plan->drills[drill].id, "blocks[%d].drills[%d]", block, last + 1);
  if (has_shares (planner, block))
    {
      int32_t half = plan->blocks[block].parts[last].share / 2;

      carpace_edits_set_share (&edits, plan->blocks[block].parts[last].share - half, block, last);
      carpace_edits_set_share (&edits, half, block, last + 1);
    }
  return carpace_edits_do (&edits, planner);
}

/* What it had goes to the one before it, or behind. */
static void
take_part_out (CarpaceEdits *edits, CarpaceBlock *parts, bool shares, int32_t block, int32_t part)
{
  int32_t heir = part > 0 ? part - 1 : 0, share = parts->parts[part].share;

  carpace_edits_add (edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_REMOVE }, NULL, "blocks[%d].drills[%d]", block, part);
  memmove (&parts->parts[part], &parts->parts[part + 1], (size_t) (parts->n_parts - part - 1) * sizeof parts->parts[0]);
  parts->n_parts--;
  parts->parts[heir].share += share;
  if (shares)
    carpace_edits_set_share (edits, parts->parts[heir].share, block, heir);
}

CarpacePlanEditEnd
carpace_planner_remove_part (CarpacePlanner *planner, int32_t block, int32_t part)
{
  const CarpacePlan *plan = plan_of (planner);
  CarpaceEdits edits;
  CarpaceBlock parts;

  if (plan == NULL || plan->split_into > 0 || plan->blocks[block].n_parts < 2)
    return CARPACE_EDIT_NOT_THERE;
  parts = plan->blocks[block];
  carpace_edits_init (&edits);
  take_part_out (&edits, &parts, has_shares (planner, block), block, part);
  return carpace_edits_do (&edits, planner);
}

/* ---- drills ---- */

/* An id that no drill has: @stem, or it with a number. */
static char *
free_id (const CarpacePlan *plan, const char *stem)
{
  char *id = g_strdup_printf ("%.60s", stem);

  for (int n = 2;; n++)
    {
      bool taken = false;

      for (int32_t i = 0; i < plan->n_drills; i++)
        taken = taken || strcmp (plan->drills[i].id, id) == 0;
      if (!taken)
        return id;
      g_free (id);
      id = g_strdup_printf ("%.60s-%d", stem, n);
    }
}

CarpacePlanEditEnd
carpace_planner_add_drill (CarpacePlanner *planner, const char *name)
{
  const CarpacePlan *plan = plan_of (planner);
  g_autofree char *id = plan != NULL ? free_id (plan, "drill") : NULL;
  CarpaceEdits edits;

  if (plan == NULL)
    return CARPACE_EDIT_NOT_THERE;
  carpace_edits_init (&edits);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_INSERT }, id, "drills[%d]", plan->n_drills);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_SET }, name, "drills[%d].name", plan->n_drills);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_SET }, carpace_name (CARPACE_WORDS_MOVEMENT, CARPACE_MOVEMENT_SMALL_TURN),
                     "drills[%d].movement", plan->n_drills);
  return carpace_edits_do (&edits, planner);
}

CarpacePlanEditEnd
carpace_planner_duplicate_drill (CarpacePlanner *planner, int32_t drill, const char *name)
{
  const CarpacePlan *plan = plan_of (planner);
  g_autofree char *id = plan != NULL ? free_id (plan, plan->drills[drill].id) : NULL;
  CarpaceEdits edits;

  if (plan == NULL)
    return CARPACE_EDIT_NOT_THERE;
  carpace_edits_init (&edits);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_DUPLICATE }, NULL, "drills[%d]", drill);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_SET }, id, "drills[%d].id", drill + 1);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_SET }, name, "drills[%d].name", drill + 1);
  return carpace_edits_do (&edits, planner);
}

CarpacePlanEditEnd
carpace_planner_move_drill (CarpacePlanner *planner, int32_t drill, int32_t to)
{
  CarpaceEdits edits;

  carpace_edits_init (&edits);
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_MOVE, .to = to }, NULL, "drills[%d]", drill);
  return carpace_edits_do (&edits, planner);
}

bool
carpace_planner_is_alone (const CarpacePlanner *planner, int32_t drill)
{
  const CarpacePlan *plan = plan_of (planner);

  for (int32_t i = 0; plan != NULL && i < plan->n_blocks && plan->split_into == 0; i++)
    {
      bool other = false;

      for (int32_t part = 0; part < plan->blocks[i].n_parts; part++)
        other = other || plan->blocks[i].parts[part].drill != drill;
      if (!other)
        return true;
    }
  return plan == NULL || plan->n_drills < 2;
}

CarpacePlanEditEnd
carpace_planner_remove_drill (CarpacePlanner *planner, int32_t drill)
{
  const CarpacePlan *plan = plan_of (planner);
  CarpaceEdits edits;

  if (plan == NULL || carpace_planner_is_alone (planner, drill))
    return CARPACE_EDIT_NOT_THERE;
  carpace_edits_init (&edits);
  for (int32_t i = 0; i < plan->n_blocks && plan->split_into == 0; i++)
    {
      CarpaceBlock parts = plan->blocks[i];
      bool shares = has_shares (planner, i);

      for (int32_t part = parts.n_parts; part-- > 0;)
        if (parts.parts[part].drill == drill)
          take_part_out (&edits, &parts, shares, i, part);
    }
  carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_REMOVE }, NULL, "drills[%d]", drill);
  return carpace_edits_do (&edits, planner);
}
