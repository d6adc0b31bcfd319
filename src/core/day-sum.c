/* SPDX-License-Identifier: GPL-3.0-or-later */
/* day-sum.c: records of a day -> its sum. */
#include "carpace/day-sum.h"

void
carpace_summing_init (CarpaceSumming *summing, CarpaceDay day)
{
  *summing = (CarpaceSumming) {
    .sum = { .day = day, .other_ms = -1, .highest = -1,
             .morning = { .waking = -1, .stiffness = CARPACE_STIFFNESS_UNSAID, .now = -1 } }
  };
}

/* What @entry is about: the last of its block with the number it corrects, or
 * the silence it ends. Matches all have number 0. @return n_given where there is none */
static int
place_of (const CarpaceSumming *summing, const CarpaceEntry *entry)
{
  if (entry->rating.late || entry->rating.corrects >= 0)
    for (int i = summing->n_given - 1; i >= 0; i--)
      if (summing->given[i].block == entry->rating.block && summing->given[i].discomfort == entry->rating.corrects)
        return i;
  return summing->n_given;
}

static void
add_rating (CarpaceSumming *summing, const CarpaceEntry *entry)
{
  int place = place_of (summing, entry);
  bool corrects = place < summing->n_given && entry->rating.corrects >= 0;

  summing->last_given = place < CARPACE_SUM_RATINGS ? place : -1;
  if (place == CARPACE_SUM_RATINGS
      || (corrects && !carpace_correction_counts (entry->at.elapsed_ms - summing->given[place].at_ms,
                                                  entry->rating.corrects, entry->rating.discomfort)))
    return;
  if (place == summing->n_given)
    summing->n_given++;
  summing->given[place].block = entry->rating.block;
  summing->given[place].discomfort = entry->rating.discomfort;
  if (!corrects)
    summing->given[place].at_ms = entry->at.elapsed_ms;
}

static void
add_block (CarpaceSumming *summing, const CarpaceEntry *entry)
{
  CarpaceDaySum *sum = &summing->sum;

  summing->offer_on = false;
  if (entry->block.what == CARPACE_BLOCK_STARTED)
    return;
  if (entry->block.match)
    sum->match_ms = carpace_sum_ms (sum->match_ms, entry->block.active_ms);
  else
    sum->done_ms = carpace_sum_ms (sum->done_ms, entry->block.active_ms);
  if (entry->block.what == CARPACE_BLOCK_ENDED && !entry->block.match)
    sum->blocks++;
}

static void
add_rest (CarpaceSumming *summing, const CarpaceEntry *entry)
{
  bool taken = entry->rest.what == CARPACE_REST_TAKEN;
  bool declined = entry->rest.what == CARPACE_REST_DECLINED;

  summing->sum.taken += taken && summing->offer_on;
  summing->sum.declined += declined && summing->offer_on;
  if (taken || declined)
    summing->offer_on = false;
}

static void
add_cue (CarpaceSumming *summing, const CarpaceEntry *entry)
{
  if (entry->cue.cue != CARPACE_CUE_MICRO_REST || entry->cue.what != CARPACE_CUE_SHOWN || summing->offer_on)
    return;
  summing->offer_on = true;
  summing->sum.offered++;
}

/* A morning told after practice may stop the rest of the day; what was asked of
 * the part that was practised stays. */
static void
add_decision (CarpaceSumming *summing, const CarpaceEntry *entry)
{
  if (entry->decision.scope != CARPACE_SCOPE_DAY)
    return;
  if (!entry->decision.no_practice || summing->sum.done_ms == 0)
    summing->sum.dose_ms = entry->decision.after_ms;
  summing->sum.no_practice = entry->decision.no_practice;
  if (entry->decision.rule == CARPACE_RULE_CAUTION || entry->decision.opens_caution)
    summing->sum.caution = true;
}

void
carpace_summing_add (CarpaceSumming *summing, const CarpaceEntry *entry)
{
  switch (entry->kind)
    {
    case CARPACE_ENTRY_DAY:
      if (entry->day.what == CARPACE_DAY_OPENED)
        summing->sum.dose_ms = entry->day.dose_ms;
      break;
    case CARPACE_ENTRY_BLOCK:
      add_block (summing, entry);
      break;
    case CARPACE_ENTRY_OVERRUN:
      summing->sum.done_ms = carpace_sum_ms (summing->sum.done_ms, entry->overrun.ms);
      break;
    case CARPACE_ENTRY_CUE:
      add_cue (summing, entry);
      break;
    case CARPACE_ENTRY_REST:
      add_rest (summing, entry);
      break;
    case CARPACE_ENTRY_RATING:
      add_rating (summing, entry);
      break;
    case CARPACE_ENTRY_MORNING:
      summing->sum.morning = entry->morning;
      summing->sum.morning.site = CARPACE_SITE_NONE;
      summing->sum.morning_known = true;
      break;
    case CARPACE_ENTRY_DECISION:
      add_decision (summing, entry);
      break;
    case CARPACE_ENTRY_CAUTION:
      summing->sum.caution = summing->sum.caution || entry->caution.what == CARPACE_CAUTION_OPENED
                             || entry->caution.what == CARPACE_CAUTION_CLOSED;
      break;
    case CARPACE_ENTRY_STATE:
    case CARPACE_ENTRY_FAULT:
    case CARPACE_ENTRY_CLICKS:
    case CARPACE_N_ENTRIES:
      break;
    }
}

CarpaceDaySum
carpace_summing_end (const CarpaceSumming *summing)
{
  CarpaceDaySum sum = summing->sum;

  for (int i = 0; i < summing->n_given; i++)
    {
      int32_t discomfort = summing->given[i].discomfort;

      sum.n_ratings += discomfort >= 0;
      sum.unanswered += discomfort < 0;
      sum.zeros += discomfort == 0;
      sum.rating_sum += discomfort > 0 ? discomfort : 0;
      sum.highest = discomfort > sum.highest ? discomfort : sum.highest;
    }
  return sum;
}
