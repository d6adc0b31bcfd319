/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-day.c: records, put together to what stands within a day. */
#include "diary-day.h"

static void
clear_note (void *note)
{
  g_free (((CarpaceDiaryNote *) note)->text);
}

void
carpace_diary_day_init (CarpaceDiaryDay *day, CarpaceDay date)
{
  *day = (CarpaceDiaryDay) { .day = date };
  day->blocks = g_array_new (FALSE, TRUE, sizeof (CarpaceDiaryBlock));
  day->decisions = g_array_new (FALSE, TRUE, sizeof (CarpaceDiaryDecision));
  day->cautions = g_array_new (FALSE, TRUE, sizeof (CarpaceEntry));
  day->notes = g_array_new (FALSE, TRUE, sizeof (CarpaceDiaryNote));
  day->mornings = g_array_new (FALSE, TRUE, sizeof (CarpaceMorning));
  g_array_set_clear_func (day->notes, clear_note);
}

void
carpace_diary_day_clear (CarpaceDiaryDay *day)
{
  g_array_unref (day->blocks);
  g_array_unref (day->decisions);
  g_array_unref (day->cautions);
  g_array_unref (day->notes);
  g_array_unref (day->mornings);
}

/* What a late rating or a correction is about: the last block of that number
 * that has the number it takes the place of. */
static CarpaceDiaryBlock *
block_corrected (CarpaceDiaryDay *day, const CarpaceEntry *entry)
{
  for (guint i = day->blocks->len; i > 0; i--)
    {
      CarpaceDiaryBlock *block = &g_array_index (day->blocks, CarpaceDiaryBlock, i - 1);

      if (block->number == entry->rating.block && block->rated && block->discomfort == entry->rating.corrects)
        return block;
    }
  return NULL;
}

/* The last block of @number that was begun, begun now where there is none. */
static CarpaceDiaryBlock *
block_of (CarpaceDiaryDay *day, int32_t number)
{
  CarpaceDiaryBlock fresh = { .number = number, .match = number == 0, .discomfort = -1, .counts = -1,
                              .corrected_from = -1, .to_tap_ms = -1 };

  for (guint i = day->blocks->len; i > 0; i--)
    {
      CarpaceDiaryBlock *block = &g_array_index (day->blocks, CarpaceDiaryBlock, i - 1);

      if (block->number == number)
        return block;
    }
  g_array_append_val (day->blocks, fresh);
  return &g_array_index (day->blocks, CarpaceDiaryBlock, day->blocks->len - 1);
}

static void
begin_block (CarpaceDiaryDay *day, const CarpaceEntry *entry)
{
  CarpaceDiaryBlock block = { .number = entry->block.number, .match = entry->block.match, .beyond = entry->block.beyond,
                              .limit_ms = entry->block.limit_ms, .early_ms = entry->block.early_ms,
                              .began = entry->at, .discomfort = -1, .counts = -1, .corrected_from = -1, .to_tap_ms = -1 };

  g_array_append_val (day->blocks, block);
}

static void
end_block (CarpaceDiaryDay *day, const CarpaceEntry *entry)
{
  CarpaceDiaryBlock *block = block_of (day, entry->block.number);

  block->ended = true;
  block->dropped = entry->block.what == CARPACE_BLOCK_DROPPED;
  block->match = entry->block.match;
  block->limit_ms = entry->block.limit_ms;
  block->active_ms = entry->block.active_ms;
  block->overrun_ms = entry->block.overrun_ms;
  block->runs = entry->block.runs;
  block->over = entry->at;
}

static bool
decided_on (const CarpaceDiaryDay *day, int32_t block)
{
  for (guint i = 0; i < day->decisions->len; i++)
    {
      const CarpaceDecision *decision = &g_array_index (day->decisions, CarpaceDiaryDecision, i).decision;

      if (decision->scope == CARPACE_SCOPE_BLOCK && decision->block == block)
        return true;
    }
  return false;
}

static void
rate_block (CarpaceDiaryDay *day, const CarpaceRecord *record)
{
  const CarpaceEntry *entry = &record->entry;
  bool instead = entry->rating.late || entry->rating.corrects >= 0;
  CarpaceDiaryBlock *block = instead ? block_corrected (day, entry) : NULL;

  if (block == NULL)
    block = block_of (day, entry->rating.block);
  if (entry->rating.corrects < 0)
    block->answered_ms = entry->at.elapsed_ms;
  if (entry->rating.corrects < 0
      || carpace_correction_counts (entry->at.elapsed_ms - block->answered_ms, entry->rating.corrects,
                                    entry->rating.discomfort))
    block->counts = entry->rating.discomfort;
  if (entry->rating.corrects >= 0)
    {
      if (block->corrected_from < 0)
        block->corrected_from = entry->rating.corrects;
      if (entry->rating.discomfort >= 0 && entry->rating.discomfort < entry->rating.corrects
          && decided_on (day, entry->rating.block))
        block->lowered_after_decision = true;
    }
  else if (!block->rated && entry->rating.discomfort >= 0 && block->ended && !entry->rating.late)
    block->to_tap_ms = entry->at.elapsed_ms - block->over.elapsed_ms;
  block->rated = true;
  block->rating_id = record->id;
  block->discomfort = entry->rating.discomfort;
  block->site = entry->rating.site;
  block->late = entry->rating.late;
}

void
carpace_diary_day_take (CarpaceDiaryDay *day, const CarpaceRecord *record)
{
  const CarpaceEntry *entry = &record->entry;

  switch (entry->kind)
    {
    case CARPACE_ENTRY_DAY:
      if (entry->day.what == CARPACE_DAY_OPENED)
        day->opened_id = record->id;
      break;
    case CARPACE_ENTRY_BLOCK:
      if (entry->block.what == CARPACE_BLOCK_STARTED)
        begin_block (day, entry);
      else
        end_block (day, entry);
      break;
    case CARPACE_ENTRY_OVERRUN:
      block_of (day, entry->overrun.block)->overrun_ms += entry->overrun.ms;
      break;
    case CARPACE_ENTRY_RATING:
      rate_block (day, record);
      break;
    case CARPACE_ENTRY_MORNING:
      g_array_append_val (day->mornings, entry->morning);
      break;
    case CARPACE_ENTRY_DECISION:
      {
        CarpaceDiaryDecision decision = { .at = entry->at, .begun = day->blocks->len, .decision = entry->decision };

        g_array_append_val (day->decisions, decision);
        break;
      }
    case CARPACE_ENTRY_CAUTION:
      g_array_append_vals (day->cautions, entry, 1);
      break;
    case CARPACE_ENTRY_STATE:
    case CARPACE_ENTRY_CUE:
    case CARPACE_ENTRY_REST:
    case CARPACE_ENTRY_FAULT:
    case CARPACE_ENTRY_CLICKS:
    case CARPACE_N_ENTRIES:
      break;
    }
  if (record->note != NULL && *record->note != '\0')
    {
      CarpaceDiaryNote note = { .record_id = record->id, .at = entry->at, .text = g_strdup (record->note) };

      g_array_append_val (day->notes, note);
    }
}

CarpaceSite
carpace_diary_morning_site (const CarpaceDiaryDay *day)
{
  return day->mornings->len > 0 ? g_array_index (day->mornings, CarpaceMorning, day->mornings->len - 1).site : CARPACE_SITE_NONE;
}

const CarpaceDecision *
carpace_diary_decision_of_day (const CarpaceDiaryDay *day)
{
  for (guint i = day->decisions->len; i > 0; i--)
    {
      const CarpaceDecision *decision = &g_array_index (day->decisions, CarpaceDiaryDecision, i - 1).decision;

      if (decision->scope == CARPACE_SCOPE_DAY)
        return decision;
    }
  return NULL;
}
