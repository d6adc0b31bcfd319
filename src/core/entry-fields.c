/* SPDX-License-Identifier: GPL-3.0-or-later */
/* entry-fields.c: one table a kind of entry. */
#include "carpace/entry-fields.h"

#include <string.h>

#define FIELDS_OF CarpaceEntry
#include "field-rows.h"

static const CarpaceField state_fields[] = {
  WORD ("state", state, CARPACE_WORDS_STATE, CARPACE_N_STATES),
};
static const CarpaceField day_fields[] = {
  WORD ("what", day.what, CARPACE_WORDS_DAY_WHAT, CARPACE_N_DAY_WHATS),
  DAY ("date", day.day),
  MS ("dose_ms", day.dose_ms),
  MS ("active_ms", day.active_ms),
  LATER_FLAG ("on_air", day.on_air),
  LATER_FLAG ("away", day.away),
  LATER_FLAG ("caution_shown", day.caution_shown),
  LATER_MAYBE ("closed_limits_ms", day.closed_limits_ms, CARPACE_FIELD_LENGTH_MS),
  LATER_MAYBE ("closed_other_ms", day.closed_other_ms, CARPACE_FIELD_LONG_MS),
};
static const CarpaceField block_fields[] = {
  WORD ("what", block.what, CARPACE_WORDS_BLOCK_WHAT, CARPACE_N_BLOCK_WHATS),
  NUMBER ("number", block.number, COUNT_MOST),
  FLAG ("match", block.match),
  MS ("limit_ms", block.limit_ms),
  MS ("after_ms", block.after_ms),
  MS ("rest_ms", block.rest_ms),
  MS ("early_ms", block.early_ms),
  FLAG ("beyond", block.beyond),
  MS ("active_ms", block.active_ms),
  MS ("overrun_ms", block.overrun_ms),
  NUMBER ("runs", block.runs, COUNT_MOST),
  LATER_MS ("counted_ms", block.counted_ms),
  LATER_LONG_MS ("ended_before_ms", block.ended_before_ms),
};
static const CarpaceField overrun_fields[] = {
  NUMBER ("block", overrun.block, COUNT_MOST),
  MS ("ms", overrun.ms),
  LATER_LONG_MS ("ended_before_ms", overrun.ended_before_ms),
};
static const CarpaceField cue_fields[] = {
  WORD ("cue", cue.cue, CARPACE_WORDS_CUE, CARPACE_N_CUES),
  WORD ("what", cue.what, CARPACE_WORDS_CUE_WHAT, CARPACE_N_CUE_WHATS),
  WORD ("exercise", cue.exercise, CARPACE_WORDS_EXERCISE, CARPACE_N_EXERCISES),
  FLAG ("between_drills", cue.between_drills),
  FLAG ("in_run", cue.in_run),
};
static const CarpaceField rest_fields[] = {
  WORD ("what", rest.what, CARPACE_WORDS_REST_WHAT, CARPACE_N_REST_WHATS),
  MS ("length_ms", rest.length_ms),
  FLAG ("asked", rest.asked),
  LATER_NUMBER ("next_shown", rest.next_shown, CARPACE_PLAN_SHOWN),
};
static const CarpaceField rating_fields[] = {
  NUMBER ("block", rating.block, COUNT_MOST),
  MAYBE ("discomfort", rating.discomfort, 10),
  WORD ("site", rating.site, CARPACE_WORDS_SITE, CARPACE_N_SITES),
  FLAG ("late", rating.late),
  MAYBE ("corrects", rating.corrects, 10),
  LATER_FLAG ("by_hand", rating.by_hand),
};
static const CarpaceField morning_fields[] = { MORNING (morning) };
static const CarpaceField decision_fields[] = {
  WORD ("rule", decision.rule, CARPACE_WORDS_RULE, CARPACE_N_RULES),
  WORD ("scope", decision.scope, CARPACE_WORDS_SCOPE, CARPACE_N_SCOPES),
  MS ("before_ms", decision.before_ms),
  MS ("after_ms", decision.after_ms),
  NUMBER ("block", decision.block, COUNT_MOST),
  MAYBE ("discomfort", decision.discomfort, 10),
  MAYBE ("reference", decision.reference, 10),
  MAYBE ("earlier", decision.earlier, 10),
  NUMBER ("usual", decision.usual, 10),
  NUMBER ("stop_above", decision.stop_above, 10),
  WORD ("finding", decision.finding, CARPACE_WORDS_FINDING, CARPACE_N_FINDINGS),
  FLAG ("no_practice", decision.no_practice),
  FLAG ("opens_caution", decision.opens_caution),
  FLAG ("asks_cautions", decision.asks_cautions),
  MS ("kept_ms", decision.kept_ms),
  MS ("done_ms", decision.done_ms),
  NUMBER ("shorten_to", decision.shorten_to, CARPACE_WHOLE),
  NUMBER ("days", decision.days, COUNT_MOST),
  NUMBER ("needed", decision.needed, COUNT_MOST),
  NUMBER ("weeks", decision.weeks, COUNT_MOST),
  MAYBE ("mean_pct", decision.mean_pct, 10 * CARPACE_PERCENT),
  MAYBE ("mean_before_pct", decision.mean_before_pct, 10 * CARPACE_PERCENT),
  LATER_MS ("first_dose_ms", decision.first_dose_ms),
  LATER_MS ("level_ms", decision.level_ms),
  LATER_MS ("level_before_ms", decision.level_before_ms),
  LATER_MS ("step_ms", decision.step_ms),
  LATER_FLAG ("without", decision.without),
  LATER_FLAG ("level_down", decision.level_down),
  LATER_FLAG ("straight_back", decision.straight_back),
  LATER_FLAG ("full_day", decision.full_day),
  LATER_NUMBER ("worse_mornings", decision.worse_mornings, COUNT_MOST),
  LATER_MS ("most_ms", decision.most_ms),
  LATER_MS ("most_of_ms", decision.most_of_ms),
  LATER_MS ("down_from_ms", decision.down_from_ms),
  LATER_NUMBER ("down_days", decision.down_days, COUNT_MOST),
  LATER_MAYBE ("level_days", decision.level_days, COUNT_MOST),
  LATER_NUMBER ("wakings_up", decision.wakings_up, COUNT_MOST),
  LATER_MAYBE ("mornings_say", decision.mornings_say, 10),
  LATER_WORD ("uncounted", decision.uncounted, CARPACE_WORDS_UNCOUNTED, CARPACE_N_UNCOUNTED),
};
static const CarpaceField caution_fields[] = {
  WORD ("what", caution.what, CARPACE_WORDS_CAUTION_WHAT, CARPACE_N_CAUTION_WHATS),
  SIGNS ("signs", caution.signs),
  LATER_DAY ("date", caution.date),
  LATER_MS ("first_dose_ms", caution.first_dose_ms),
  LATER_MS ("before_ms", caution.before_ms),
  LATER_MS ("after_ms", caution.after_ms),
  LATER_MS ("level_ms", caution.level_ms),
  LATER_WORD ("how", caution.how, CARPACE_WORDS_CAUTION_ANSWER, CARPACE_N_CAUTION_ANSWERS),
  CLOSING (caution.closing),
};
static const CarpaceField fault_fields[] = {
  WORD ("refusal", fault.refusal, CARPACE_WORDS_REFUSAL, CARPACE_N_REFUSALS),
  WORD ("event", fault.event, CARPACE_WORDS_EVENT, CARPACE_N_EVENTS),
  WORD ("state", fault.state, CARPACE_WORDS_STATE, CARPACE_N_STATES),
};
static const CarpaceField clicks_fields[] = {
  NUMBER ("block", clicks.block, COUNT_MOST),
  MS ("from_ms", clicks.from_ms),
  MS ("ms", clicks.ms),
  NUMBER ("count", clicks.count, COUNT_MOST),
};

static const CarpaceFields kinds[CARPACE_N_ENTRIES] = {
  [CARPACE_ENTRY_STATE] = ROW (state_fields),
  [CARPACE_ENTRY_DAY] = ROW (day_fields),
  [CARPACE_ENTRY_BLOCK] = ROW (block_fields),
  [CARPACE_ENTRY_OVERRUN] = ROW (overrun_fields),
  [CARPACE_ENTRY_CUE] = ROW (cue_fields),
  [CARPACE_ENTRY_REST] = ROW (rest_fields),
  [CARPACE_ENTRY_RATING] = ROW (rating_fields),
  [CARPACE_ENTRY_MORNING] = ROW (morning_fields),
  [CARPACE_ENTRY_DECISION] = ROW (decision_fields),
  [CARPACE_ENTRY_CAUTION] = ROW (caution_fields),
  [CARPACE_ENTRY_FAULT] = ROW (fault_fields),
  [CARPACE_ENTRY_CLICKS] = ROW (clicks_fields),
};

_Static_assert (sizeof (CarpaceState) == sizeof (int32_t), "enums are read and written as 32 bits");
_Static_assert (sizeof (decision_fields) / sizeof (decision_fields[0]) <= CARPACE_ENTRY_FIELDS, "room for the longest");

const CarpaceField *
carpace_entry_fields (CarpaceEntryKind kind, int32_t *ret_n)
{
  bool known = (uint32_t) kind < CARPACE_N_ENTRIES;

  *ret_n = known ? kinds[kind].n : 0;
  return known ? kinds[kind].field : NULL;
}

const CarpaceField *
carpace_entry_field (CarpaceEntryKind kind, const char *name)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (kind, &n);

  return carpace_field_named (field, n, name);
}

void
carpace_entry_init (CarpaceEntry *ret_entry, CarpaceEntryKind kind, CarpaceInstant at)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (kind, &n);

  memset (ret_entry, 0, sizeof *ret_entry);
  ret_entry->kind = kind;
  ret_entry->at = at;
  carpace_fields_init (field, n, ret_entry);
}

bool
carpace_entry_equal (const CarpaceEntry *a, const CarpaceEntry *b)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (a->kind, &n);

  return a->kind == b->kind && a->at.elapsed_ms == b->at.elapsed_ms && a->at.wall_ms == b->at.wall_ms
         && a->at.offset_s == b->at.offset_s && carpace_fields_equal (field, n, a, b);
}
