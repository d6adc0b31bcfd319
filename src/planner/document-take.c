/* SPDX-License-Identifier: GPL-3.0-or-later */
/* document-take.c: what another plan has differently, as edits of the file: limits, shares, waits, rests, dose, and
 * the order of blocks and of their drills. */
#include "planner/document-edits.h"

#include "carpace/quantity.h"
#include "forms/plan-values.h"

#include <string.h>

typedef struct
{
  CarpacePlan *now; /* as the file is after the edits so far */
  const CarpacePlan *want;
  CarpaceEdits edits;
} Taking;

static bool
same_block (const CarpaceBlock *a, const CarpaceBlock *b)
{
  return a->limit_ms == b->limit_ms && a->n_parts == b->n_parts
         && memcmp (a->parts, b->parts, (size_t) a->n_parts * sizeof *a->parts) == 0;
}

/* One block, or one part, stands elsewhere: where it was taken from and put, -1 where nothing did. */
static int32_t
moved_block (const CarpacePlan *now, const CarpacePlan *want, int32_t *ret_to)
{
  for (int32_t from = 0; from < now->n_blocks; from++)
    for (int32_t to = 0; to < now->n_blocks; to++)
      {
        g_autofree CarpacePlan *tried = from == to ? NULL : g_memdup2 (now, sizeof *now);
        bool same = tried != NULL;

        if (same)
          carpace_plan_try_move_block (tried, from, to);
        for (int32_t i = 0; same && i < now->n_blocks; i++)
          same = same_block (&tried->blocks[i], &want->blocks[i]);
        if (same)
          {
            *ret_to = to;
            return from;
          }
      }
  return -1;
}

static void
take_shares (Taking *taking, int32_t block)
{
  const CarpaceBlock *now = &taking->now->blocks[block], *want = &taking->want->blocks[block];

  for (int32_t i = 0; i < want->n_parts; i++)
    if (now->parts[i].share != want->parts[i].share && want->parts[i].share != 0)
      carpace_edits_set_share (&taking->edits, want->parts[i].share, block, i);
  for (int32_t i = want->n_parts; i-- > 0;)
    if (want->parts[i].share == 0)
      carpace_edits_add (&taking->edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_REMOVE }, NULL, "blocks[%d].drills[%d]", block, i);
}

/* A part moved on or back: the first that differs went there, or came from there. */
static void
take_order_of_drills (Taking *taking, int32_t block)
{
  CarpaceBlock *now = &taking->now->blocks[block];
  const CarpaceBlock *want = &taking->want->blocks[block];

  for (int32_t from = 0; from < now->n_parts && !carpace_edits_same_drills (now, want); from++)
    for (int32_t to = 0; to < now->n_parts; to++)
      {
        g_autofree CarpacePlan *tried = g_memdup2 (taking->now, sizeof *taking->now);

        carpace_plan_try_move_part (tried, block, from, to);
        if (!carpace_edits_same_drills (&tried->blocks[block], want))
          continue;
        carpace_edits_add (&taking->edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_MOVE, .to = to }, NULL, "blocks[%d].drills[%d]", block, from);
        *now = tried->blocks[block];
        return;
      }
}

static void
take_key (Taking *taking, CarpacePlanKey key, int64_t now_ms, int64_t want_ms)
{
  if (now_ms != want_ms)
    carpace_edits_set_ms (&taking->edits, want_ms, "%s", carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) key));
}

static void
take_blocks (Taking *taking)
{
  int32_t to = 0, from = moved_block (taking->now, taking->want, &to);

  if (from >= 0)
    {
      carpace_edits_add (&taking->edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_MOVE, .to = to }, NULL, "blocks[%d]", from);
      carpace_plan_try_move_block (taking->now, from, to);
    }
  for (int32_t i = 0; i < taking->want->n_blocks; i++)
    {
      take_order_of_drills (taking, i);
      if (taking->now->blocks[i].limit_ms != taking->want->blocks[i].limit_ms)
        carpace_edits_set_ms (&taking->edits, taking->want->blocks[i].limit_ms, "blocks[%d].limit", i);
      take_shares (taking, i);
    }
}

/* Numbers of drills that are drawn, not typed. */
static void
take_drills (Taking *taking)
{
  static const CarpaceDrillKey drawn[] = { CARPACE_DRILL_INTENSITY, CARPACE_DRILL_WRIST };

  for (int32_t i = 0; i < taking->want->n_drills; i++)
    for (size_t k = 0; k < G_N_ELEMENTS (drawn); k++)
      {
        double now = carpace_drill_value (&taking->now->drills[i], drawn[k]), want = carpace_drill_value (&taking->want->drills[i], drawn[k]);
        const CarpaceKeyFacts *facts = carpace_drill_key_facts (drawn[k]);
        char text[CARPACE_QUANTITY_BYTES];

        if (!(now < want) && !(now > want))
          continue;
        carpace_quantity_write (facts->unit, want, text);
        carpace_edits_add (&taking->edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_SET }, carpace_value_is_none (facts, want) ? facts->none : text,
                           "drills[%d].%s", i, carpace_name (CARPACE_WORDS_DRILL_KEY, (int32_t) drawn[k]));
      }
}

/* Where the file has no dose it is the sum by itself. */
static CarpacePlanEditEnd
take_plan (CarpacePlanner *planner, const CarpacePlan *want)
{
  g_autofree CarpacePlan *now = g_memdup2 (planner->plan, sizeof *planner->plan);
  Taking taking = { .now = now, .want = want };

  carpace_edits_init (&taking.edits);
  if (now->split_into == 0)
    take_blocks (&taking);
  take_drills (&taking);
  if (carpace_planner_value (planner, carpace_name (CARPACE_WORDS_PLAN_KEY, CARPACE_KEY_DAY_DOSE)) != NULL)
    take_key (&taking, CARPACE_KEY_DAY_DOSE, now->dose_ms, want->dose_ms);
  take_key (&taking, CARPACE_KEY_DAY_BETWEEN_BLOCKS, now->between_blocks_ms, want->between_blocks_ms);
  take_key (&taking, CARPACE_KEY_MICRO_REST_AFTER, now->after_ms, want->after_ms);
  take_key (&taking, CARPACE_KEY_MICRO_REST_LENGTH, now->rest_ms, want->rest_ms);
  return carpace_edits_do (&taking.edits, planner);
}

CarpacePlanEditEnd
carpace_planner_take (CarpacePlanner *planner)
{
  g_autofree CarpacePlan *want = g_steal_pointer (&planner->tried);
  const GBytes *before = carpace_planner_bytes (planner);
  CarpacePlanEditEnd end = want != NULL ? take_plan (planner, want) : CARPACE_EDIT_DONE;

  if (want != NULL && carpace_planner_bytes (planner) == before)
    carpace_planner_tried (planner); /* nothing came of it: the plan is what it was */
  return end;
}

CarpacePlanEditEnd
carpace_planner_ease (CarpacePlanner *planner)
{
  g_autofree CarpacePlan *eased = g_new (CarpacePlan, 1);

  carpace_planner_let_go (planner);
  if (!planner->sound || !planner->load.has_ease)
    return CARPACE_EDIT_NOT_THERE;
  carpace_load_eased (planner->plan, &planner->load.ease, eased);
  if (planner->load.ease.kind == CARPACE_EASE_LIMIT && planner->plan->dose_ms == carpace_plan_sum_of_limits_ms (planner->plan))
    eased->dose_ms = carpace_plan_sum_of_limits_ms (eased);
  return take_plan (planner, eased);
}
