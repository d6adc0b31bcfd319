/* SPDX-License-Identifier: GPL-3.0-or-later */
/* event-kinds.c: a row a kind of event, and the fields of what it says. */
#include "carpace/event-kinds.h"

#include <string.h>

#define FIELDS_OF CarpaceEvent
#include "field-rows.h"

const CarpaceEventRow carpace_event_kinds[CARPACE_N_EVENTS] = {
  [CARPACE_EVENT_DEADLINE] = { "deadline", CARPACE_TAKEN_AS_TIME, CARPACE_SAYS_NOTHING, NULL },
  [CARPACE_EVENT_OPEN] = { "open", CARPACE_TAKEN_ANYWHERE, CARPACE_SAYS_OPEN, NULL },
  [CARPACE_EVENT_INPUT] = { "input", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_FACT, "input" },
  [CARPACE_EVENT_STILL] = { "still", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_FACT, "still" },
  [CARPACE_EVENT_START] = { "start", CARPACE_TAKEN_BY_STATE, CARPACE_SAYS_NOTHING, "start" },
  [CARPACE_EVENT_START_MATCH] = { "start-match", CARPACE_TAKEN_BY_STATE, CARPACE_SAYS_NOTHING, "start" },
  [CARPACE_EVENT_END] = { "end", CARPACE_TAKEN_BY_STATE, CARPACE_SAYS_NOTHING, "end" },
  [CARPACE_EVENT_PAUSE] = { "pause", CARPACE_TAKEN_BY_STATE, CARPACE_SAYS_NOTHING, "pause" },
  [CARPACE_EVENT_CONTINUE] = { "continue", CARPACE_TAKEN_BY_STATE, CARPACE_SAYS_NOTHING, "continue" },
  [CARPACE_EVENT_REST] = { "rest", CARPACE_TAKEN_BY_STATE, CARPACE_SAYS_NOTHING, "rest" },
  [CARPACE_EVENT_AFTER_RUN] = { "after-run", CARPACE_TAKEN_BY_STATE, CARPACE_SAYS_NOTHING, "after-run" },
  [CARPACE_EVENT_PLAY_ON] = { "play-on", CARPACE_TAKEN_BY_STATE, CARPACE_SAYS_NOTHING, "play-on" },
  [CARPACE_EVENT_RATE] = { "rate", CARPACE_TAKEN_WITH_A_PLAN, CARPACE_SAYS_RATE, "rate" },
  [CARPACE_EVENT_MORNING] = { "morning", CARPACE_TAKEN_WITH_A_PLAN, CARPACE_SAYS_MORNING, "morning" },
  [CARPACE_EVENT_CAUTION] = { "caution", CARPACE_TAKEN_WITH_A_PLAN, CARPACE_SAYS_CAUTION, "caution" },
  [CARPACE_EVENT_ON_AIR] = { "on-air", CARPACE_TAKEN_ANYWHERE, CARPACE_SAYS_NOTHING, "on-air" },
  [CARPACE_EVENT_OFF_AIR] = { "off-air", CARPACE_TAKEN_ANYWHERE, CARPACE_SAYS_NOTHING, "on-air" },
  [CARPACE_EVENT_INTERMISSION] = { "intermission", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_INTERMISSION, NULL },
  [CARPACE_EVENT_SUSPEND] = { "suspend", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_NOTHING, "suspend" },
  [CARPACE_EVENT_WAKE] = { "wake", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_NOTHING, "wake" },
  [CARPACE_EVENT_FRONT] = { "front", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_NOTHING, "front" },
  [CARPACE_EVENT_FRONT_STARTS] = { "front-starts", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_NOTHING, "front-starts" },
  [CARPACE_EVENT_AWAY] = { "away", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_NOTHING, "away" },
  [CARPACE_EVENT_ANYWHERE] = { "anywhere", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_NOTHING, "anywhere" },
  [CARPACE_EVENT_CLICKS] = { "clicks", CARPACE_TAKEN_AS_FACT, CARPACE_SAYS_CLICKS, "clicks" },
};

static const CarpaceField fact_fields[] = {
  ELAPSED ("since_ms", fact.since_ms),
  LATER_FLAG ("uncounted", fact.uncounted),
};
static const CarpaceField rate_fields[] = {
  MAYBE ("discomfort", rate.discomfort, 10), /* unsaid is refused: a number that was lost is never taken as 0 */
  WORD ("site", rate.site, CARPACE_WORDS_SITE, CARPACE_N_SITES),
};
static const CarpaceField morning_fields[] = { MORNING (morning) };
static const CarpaceField caution_fields[] = {
  WORD ("answer", caution.answer, CARPACE_WORDS_CAUTION_ANSWER, CARPACE_N_CAUTION_ANSWERS),
  SIGNS ("signs", caution.signs),
  CLOSING (caution.closing),
};
static const CarpaceField intermission_fields[] = { ELAPSED ("begins_ms", intermission.begins_ms) };
static const CarpaceField clicks_fields[] = {
  MS ("from_ms", clicks.from_ms),
  NUMBER ("count", clicks.count, COUNT_MOST),
};

static const CarpaceFields says[CARPACE_N_SAYS] = {
  [CARPACE_SAYS_NOTHING] = { NULL, 0 },
  [CARPACE_SAYS_FACT] = ROW (fact_fields),
  [CARPACE_SAYS_RATE] = ROW (rate_fields),
  [CARPACE_SAYS_MORNING] = ROW (morning_fields),
  [CARPACE_SAYS_CAUTION] = ROW (caution_fields),
  [CARPACE_SAYS_INTERMISSION] = ROW (intermission_fields),
  [CARPACE_SAYS_CLICKS] = ROW (clicks_fields),
  [CARPACE_SAYS_OPEN] = { NULL, 0 },
};

const CarpaceField *
carpace_event_fields (CarpaceEventKind kind, int32_t *ret_n)
{
  bool known = (uint32_t) kind < CARPACE_N_EVENTS;

  *ret_n = known ? says[carpace_event_kinds[kind].says].n : 0;
  return known ? says[carpace_event_kinds[kind].says].field : NULL;
}

const CarpaceField *
carpace_event_field (CarpaceEventKind kind, const char *name)
{
  int32_t n;
  const CarpaceField *field = carpace_event_fields (kind, &n);

  return carpace_field_named (field, n, name);
}

void
carpace_event_init (CarpaceEvent *ret_event, CarpaceEventKind kind)
{
  int32_t n;
  const CarpaceField *field = carpace_event_fields (kind, &n);

  memset (ret_event, 0, sizeof *ret_event);
  ret_event->kind = kind;
  carpace_fields_init (field, n, ret_event);
}

bool
carpace_event_equal (const CarpaceEvent *a, const CarpaceEvent *b)
{
  int32_t n;
  const CarpaceField *field = carpace_event_fields (a->kind, &n);

  return a->kind == b->kind && carpace_fields_equal (field, n, a, b);
}
