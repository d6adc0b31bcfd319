/* SPDX-License-Identifier: GPL-3.0-or-later */
/* entry-fields.c: one table a kind of entry. */
#include "carpace/entry-fields.h"

#include <string.h>

#define LONGEST_MS (INT64_C (200) * 366 * CARPACE_DAY_MS)
#define COUNT_MOST 1000000

#define PLACE(member) offsetof (CarpaceEntry, member), sizeof (((CarpaceEntry *) NULL)->member)
#define NUMBER(name, member, most) { name, CARPACE_FIELD_NUMBER, CARPACE_N_WORDS, 0, most, PLACE (member) }
#define MAYBE(name, member, most) { name, CARPACE_FIELD_MAYBE, CARPACE_N_WORDS, -1, most, PLACE (member) }
#define MS(name, member) { name, CARPACE_FIELD_MS, CARPACE_N_WORDS, 0, LONGEST_MS, PLACE (member) }
#define FLAG(name, member) { name, CARPACE_FIELD_FLAG, CARPACE_N_WORDS, 0, 1, PLACE (member) }
#define WORD(name, member, words, n) { name, CARPACE_FIELD_WORD, words, 0, (n) - 1, PLACE (member) }
#define SIGNS(name, member) \
  { name, CARPACE_FIELD_SIGNS, CARPACE_WORDS_SIGN, 0, (INT64_C (1) << CARPACE_N_SIGNS) - 1, PLACE (member) }

static const CarpaceField state_fields[] = {
  WORD ("state", state, CARPACE_WORDS_STATE, CARPACE_N_STATES),
};
static const CarpaceField day_fields[] = {
  WORD ("what", day.what, CARPACE_WORDS_DAY_WHAT, CARPACE_N_DAY_WHATS),
  { "date", CARPACE_FIELD_DAY, CARPACE_N_WORDS, INT32_MIN, INT32_MAX, PLACE (day.day) },
  MS ("dose_ms", day.dose_ms),
  MS ("active_ms", day.active_ms),
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
};
static const CarpaceField overrun_fields[] = {
  NUMBER ("block", overrun.block, COUNT_MOST),
  MS ("ms", overrun.ms),
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
};
static const CarpaceField rating_fields[] = {
  NUMBER ("block", rating.block, COUNT_MOST),
  MAYBE ("discomfort", rating.discomfort, 10),
  WORD ("site", rating.site, CARPACE_WORDS_SITE, CARPACE_N_SITES),
  FLAG ("late", rating.late),
  MAYBE ("corrects", rating.corrects, 10),
};
static const CarpaceField morning_fields[] = {
  MAYBE ("waking", morning.waking, 10),
  WORD ("stiffness", morning.stiffness, CARPACE_WORDS_STIFFNESS, CARPACE_N_STIFFNESSES),
  MAYBE ("now", morning.now, 10),
  FLAG ("other_load", morning.other_load),
  FLAG ("pain_relief", morning.pain_relief),
};
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
};
static const CarpaceField caution_fields[] = {
  WORD ("what", caution.what, CARPACE_WORDS_CAUTION_WHAT, CARPACE_N_CAUTION_WHATS),
  SIGNS ("signs", caution.signs),
};
static const CarpaceField fault_fields[] = {
  WORD ("refusal", fault.refusal, CARPACE_WORDS_REFUSAL, CARPACE_N_REFUSALS),
  WORD ("event", fault.event, CARPACE_WORDS_EVENT, CARPACE_N_EVENTS),
  WORD ("state", fault.state, CARPACE_WORDS_STATE, CARPACE_N_STATES),
};

#define ROW(fields) { fields, (int32_t) (sizeof (fields) / sizeof ((fields)[0])) }
static const struct { const CarpaceField *field; int32_t n; } kinds[CARPACE_N_ENTRIES] = {
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

  for (int32_t i = 0; i < n; i++)
    if (strcmp (field[i].name, name) == 0)
      return &field[i];
  return NULL;
}

int64_t
carpace_field_get (const CarpaceField *field, const CarpaceEntry *entry)
{
  const char *from = (const char *) entry + field->offset;
  int64_t wide;
  int32_t narrow;
  bool flag;

  switch (field->bytes)
    {
    case sizeof wide:
      memcpy (&wide, from, sizeof wide);
      return wide;
    case sizeof narrow:
      memcpy (&narrow, from, sizeof narrow);
      return narrow;
    default:
      memcpy (&flag, from, sizeof flag);
      return flag;
    }
}

bool
carpace_field_set (const CarpaceField *field, CarpaceEntry *entry, int64_t value)
{
  char *to = (char *) entry + field->offset;
  int32_t narrow = (int32_t) value;
  bool flag = value != 0;

  if (value < field->least || value > field->most)
    return false;
  switch (field->bytes)
    {
    case sizeof value:
      memcpy (to, &value, sizeof value);
      break;
    case sizeof narrow:
      memcpy (to, &narrow, sizeof narrow);
      break;
    default:
      memcpy (to, &flag, sizeof flag);
    }
  return true;
}

void
carpace_entry_init (CarpaceEntry *ret_entry, CarpaceEntryKind kind, CarpaceInstant at)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (kind, &n);

  memset (ret_entry, 0, sizeof *ret_entry);
  ret_entry->kind = kind;
  ret_entry->at = at;
  for (int32_t i = 0; i < n; i++)
    if (field[i].type == CARPACE_FIELD_MAYBE)
      carpace_field_set (&field[i], ret_entry, -1);
}

bool
carpace_entry_equal (const CarpaceEntry *a, const CarpaceEntry *b)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (a->kind, &n);

  if (a->kind != b->kind || a->at.elapsed_ms != b->at.elapsed_ms || a->at.wall_ms != b->at.wall_ms
      || a->at.offset_s != b->at.offset_s)
    return false;
  for (int32_t i = 0; i < n; i++)
    if (carpace_field_get (&field[i], a) != carpace_field_get (&field[i], b))
      return false;
  return true;
}
