/* SPDX-License-Identifier: GPL-3.0-or-later */
/* document-split.c: a day put into other blocks, written where the blocks stand that there are: each of them keeps its
 * comments and how it is written. */
#include "planner/document-edits.h"

#include <string.h>

#include "carpace/quantity.h"

bool
carpace_planner_split (const CarpacePlanner *planner, int32_t into, CarpacePlannerSplit *ret_split)
{
  if (!planner->sound)
    return false;
  ret_split->plan = *planner->plan;
  if (!carpace_split (&ret_split->plan, into, &ret_split->found))
    return false;
  ret_split->plan.split_into = 0;
  carpace_load_all (&ret_split->plan, &ret_split->load);
  return (double) carpace_plan_longest_limit_ms (&ret_split->plan) <= carpace_block_limit_facts ()->high;
}

/* New drills behind the old ones, then the old ones go: a list is never empty on the way. */
static void
put_drills (CarpaceEdits *edits, const CarpacePlan *want, int32_t block, const CarpaceBlock *now)
{
  const CarpaceBlock *to = &want->blocks[block];

  if (carpace_edits_same_drills (now, to))
    return;
  for (int32_t i = 0; i < to->n_parts; i++)
    carpace_edits_add (edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_INSERT }, want->drills[to->parts[i].drill].id, "blocks[%d].drills[%d]",
                       block, now->n_parts + i);
  for (int32_t i = now->n_parts; i-- > 0;)
    carpace_edits_add (edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_REMOVE }, NULL, "blocks[%d].drills[%d]", block, i);
}

static bool
are_equal (const CarpaceBlock *block)
{
  for (int32_t i = 0; i < block->n_parts; i++)
    if (block->parts[i].share != CARPACE_WHOLE / block->n_parts)
      return false;
  return true;
}

static void
put_block (CarpaceEdits *edits, const CarpacePlan *want, int32_t block, const CarpaceBlock *now)
{
  const CarpaceBlock *to = &want->blocks[block];
  bool same = carpace_edits_same_drills (now, to);

  if (now->limit_ms != to->limit_ms)
    carpace_edits_set_ms (edits, to->limit_ms, "blocks[%d].limit", block);
  put_drills (edits, want, block, now);
  for (int32_t i = 0; i < to->n_parts; i++)
    if (same ? now->parts[i].share != to->parts[i].share : !are_equal (to))
      carpace_edits_set_share (edits, to->parts[i].share, block, i);
}

static CarpacePlanEditEnd
put_blocks (CarpacePlanner *planner, const CarpacePlan *want)
{
  const CarpacePlan *now = planner->plan;
  CarpaceEdits edits;

  carpace_edits_init (&edits);
  for (int32_t i = now->n_blocks; i-- > want->n_blocks;)
    carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_REMOVE }, NULL, "blocks[%d]", i);
  for (int32_t i = now->n_blocks; i < want->n_blocks; i++)
    carpace_edits_add (&edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_DUPLICATE }, NULL, "blocks[%d]", i - 1);
  for (int32_t i = 0; i < want->n_blocks; i++)
    put_block (&edits, want, i, &now->blocks[MIN (i, now->n_blocks - 1)]);
  return carpace_edits_do (&edits, planner);
}

/* Where the file has a split it has no block to go by: they are written at its end, and read back. */
static CarpacePlanEditEnd
write_blocks (CarpacePlanner *planner, const CarpacePlan *want)
{
  const CarpacePlanEdit away = { .kind = CARPACE_EDIT_REMOVE, .path = "split" };
  GBytes *before = carpace_planner_bytes (planner);
  gsize n;
  const char *bytes = g_bytes_get_data (before, &n);
  g_autoptr (GString) now = NULL;
  CarpacePlanEditEnd end = carpace_plan_edit (bytes, n, &away, &now);
  g_autoptr (CarpacePlanner) tried = NULL;
  g_autoptr (GBytes) state = NULL;

  if (end != CARPACE_EDIT_DONE)
    return end;
  g_string_append (now, now->len > 0 && now->str[now->len - 1] != '\n' ? "\nblocks:\n" : "blocks:\n");
  for (int32_t i = 0; i < want->n_blocks; i++)
    {
      char text[CARPACE_QUANTITY_BYTES];

      carpace_quantity_write (CARPACE_UNIT_DURATION, (double) want->blocks[i].limit_ms, text);
      g_string_append_printf (now, "  - limit: %s\n    drills:\n", text);
      for (int32_t part = 0; part < want->blocks[i].n_parts; part++)
        {
          carpace_quantity_write (CARPACE_UNIT_SHARE, want->blocks[i].parts[part].share, text);
          g_string_append_printf (now, "      - {id: \"%s\", share: %s}\n", want->drills[want->blocks[i].parts[part].drill].id, text);
        }
    }
  state = g_bytes_new (now->str, now->len);
  tried = carpace_planner_new (state);
  if (!tried->sound || tried->plan->n_blocks != want->n_blocks)
    return CARPACE_EDIT_UNFIT;
  carpace_planner_write (planner, now->str);
  return CARPACE_EDIT_DONE;
}

CarpacePlanEditEnd
carpace_planner_put_blocks (CarpacePlanner *planner, const CarpacePlan *want)
{
  carpace_planner_let_go (planner);
  if (!planner->sound)
    return CARPACE_EDIT_NOT_THERE;
  return planner->plan->split_into > 0 ? write_blocks (planner, want) : put_blocks (planner, want);
}

CarpacePlanEditEnd
carpace_planner_write_out (CarpacePlanner *planner)
{
  return planner->plan != NULL && planner->plan->split_into > 0 ? carpace_planner_put_blocks (planner, planner->plan) : CARPACE_EDIT_NOT_THERE;
}
