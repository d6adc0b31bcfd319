/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sittings.c: entries -> the day's sittings. */
#include "carpace/sittings.h"

#include <string.h>

static CarpaceSitting *
last_of (CarpaceSittings *sittings)
{
  return sittings->n > 0 ? &sittings->sitting[sittings->n - 1] : NULL;
}

static void
add (CarpaceSittings *sittings, const CarpaceEntry *entry)
{
  CarpaceSitting *all = sittings->sitting;

  if (sittings->n == CARPACE_SITTINGS)
    memmove (&all[0], &all[1], (size_t) --sittings->n * sizeof all[0]);
  all[sittings->n++] = (CarpaceSitting) { .number = entry->block.number, .match = entry->block.match, .began = entry->at };
}

static void
note_block (CarpaceSittings *sittings, const CarpaceEntry *entry)
{
  CarpaceSitting *last = last_of (sittings);

  if (entry->block.what == CARPACE_BLOCK_STARTED)
    add (sittings, entry);
  else if (last == NULL || last->over)
    return;
  else if (entry->block.what == CARPACE_BLOCK_DROPPED)
    sittings->n--;
  else
    {
      last->over = true;
      last->ended = carpace_instant_after (entry->at, -entry->block.ended_before_ms);
      last->active_ms = entry->block.active_ms;
    }
}

/* A stretch that outlived its block. */
static void
note_overrun (CarpaceSitting *last, const CarpaceEntry *entry)
{
  if (last == NULL || !last->over || last->number != entry->overrun.block)
    return;
  last->ended = carpace_instant_after (entry->at, -entry->overrun.ended_before_ms);
  last->active_ms = carpace_sum_ms (last->active_ms, entry->overrun.ms);
}

void
carpace_sittings_note (CarpaceSittings *sittings, const CarpaceEntry *entry)
{
  CarpaceSitting *last = last_of (sittings);

  if (entry->kind == CARPACE_ENTRY_DAY && entry->day.what == CARPACE_DAY_OPENED)
    sittings->n = 0;
  else if (entry->kind == CARPACE_ENTRY_BLOCK)
    note_block (sittings, entry);
  else if (entry->kind == CARPACE_ENTRY_OVERRUN)
    note_overrun (last, entry);
  else if (entry->kind == CARPACE_ENTRY_REST && entry->rest.what == CARPACE_REST_TAKEN && last != NULL && !last->over)
    last->rests++;
}
