/* SPDX-License-Identifier: GPL-3.0-or-later */
/* evening.c: steps, each watched. */
#include "evening.h"

#include <string.h>

#include "canonical.h"
#include "carpace/entry-fields.h"
#include "script.h"
#include "session-private.h"
#include "words.h"

/* Steps at one instant: a step tells at most a handful of deadlines. */
#define STEPS_AT_ONCE 50

void
evening_begin (Evening *e, const CarpacePlan *plan)
{
  const CarpaceEvent open = { .kind = CARPACE_EVENT_OPEN, .open.plan = plan };

  memset (e, 0, sizeof *e);
  e->plan = plan;
  carpace_instant_read ("2027-03-02T18:00:00+01:00", &e->now);
  carpace_session_init (&e->s, NULL);
  carpace_always_begin (&e->always);
  e->active.over_from = -1;
  evening_step (e, &open);
}

void
evening_copy (Evening *to, const Evening *from)
{
  canonical_copy (&to->s, &from->s);
  memcpy (&to->now, &from->now, offsetof (Evening, event) - offsetof (Evening, now));
  memcpy (to->event, from->event, (size_t) from->n_events * sizeof from->event[0]);
  memcpy (to->at, from->at, (size_t) from->n_events * sizeof from->at[0]);
}

static void
keep_event (Evening *e, const CarpaceEvent *event, const CarpaceEntries *entries)
{
  if (carpace_entries_opened_day (entries))
    e->n_events = 0;
  if (event->kind == CARPACE_EVENT_OPEN || event->kind == CARPACE_EVENT_DEADLINE || e->n_events == EVENING_EVENTS)
    return;
  e->n_all_events++;
  e->event[e->n_events] = *event;
  e->at[e->n_events++] = e->now;
}

/* A limit (or none) as the player would have it now. */
typedef struct
{
  CarpaceDay day;
  int32_t n_blocks;
  bool next;
  CarpaceLimits limits;
  bool running;
  int64_t running_limit_ms;
  int64_t dose_ms;
} Standing;

static Standing
standing (const CarpaceSession *s)
{
  Standing x = { .day = s->today.day, .n_blocks = s->today.n_blocks, .running = s->block.running && !s->block.match,
                 .running_limit_ms = s->block.limit_ms, .dose_ms = s->today.dose_ms };

  x.next = s->today.open && carpace_next_block (s, &x.limits);
  return x;
}

/* Within a day nothing is loosened, but by a correction, or by an answer that
 * takes the place of its silence. */
static const char *
looser (const Standing *before, const Standing *after)
{
  if (after->day != before->day || after->n_blocks != before->n_blocks)
    return NULL;
  if (after->dose_ms > before->dose_ms)
    return "the day's dose went up within the day";
  if (before->running && after->running && after->running_limit_ms > before->running_limit_ms)
    return "the running block's limit went up";
  if (after->next && !before->next)
    return "the day was done, and goes on";
  if (after->next && after->limits.limit_ms > before->limits.limit_ms)
    return "the next block's limit went up";
  if (after->next && after->limits.after_ms > before->limits.after_ms)
    return "the next block's rests went further apart";
  if (after->next && after->limits.rest_ms < before->limits.rest_ms)
    return "the next block's rests became shorter";
  return NULL;
}

/* What was told, but dates, and minutes of the rest of the day, which decide nothing. */
static void
fold (Evening *e, const CarpaceEntry *entry)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry->kind, &n);

  e->told = e->told * 31 + (uint64_t) entry->kind + 1;
  for (int32_t i = 0; i < n; i++)
    if (field[i].type != CARPACE_FIELD_DAY && strstr (field[i].name, "other") == NULL)
      e->told = e->told * UINT64_C (0x9e3779b97f4a7c15) + (uint64_t) carpace_field_get (&field[i], entry);
}

static void
fail (Evening *e, const char *fault)
{
  if (e->fault == NULL)
    e->fault = fault;
}

void
evening_step (Evening *e, const CarpaceEvent *event)
{
  CarpaceEntries entries;
  CarpaceState before_state = e->s.state;
  bool was_open = e->s.today.open;
  Standing before = { 0 }, after;

  if (was_open)
    before = standing (&e->s);
  carpace_always_event (&e->always, event, e->now);
  active_before (e, event);
  carpace_session_step (&e->s, event, e->now, &entries);
  for (int32_t i = 0; i < entries.n; i++)
    {
      carpace_always_entry (&e->always, &entries.entry[i]);
      fold (e, &entries.entry[i]);
      if (e->tell != NULL)
        script_told (e->tell, &entries.entry[i]);
    }
  keep_event (e, event, &entries);
  active_after (e, event, before_state, &entries);
  if (e->always.broken)
    fail (e, e->always.fault);
  if (!was_open || e->always.corrected)
    return;
  after = standing (&e->s);
  if (looser (&before, &after) != NULL)
    fail (e, looser (&before, &after));
}

void
evening_until (Evening *e, int64_t to_ms)
{
  const CarpaceEvent deadline = { .kind = CARPACE_EVENT_DEADLINE };
  int64_t due;

  for (int steps = 0; (due = carpace_session_next_deadline (&e->s)) <= to_ms && e->fault == NULL; steps++)
    {
      if (due > e->now.elapsed_ms)
        steps = 0;
      if (steps > STEPS_AT_ONCE)
        fail (e, "deadlines without end at one instant");
      e->now.elapsed_ms = due;
      evening_step (e, &deadline);
    }
  e->now.elapsed_ms = to_ms;
}

void
evening_turn (Evening *e, int32_t days)
{
  e->now.wall_ms += days * CARPACE_DAY_MS;
}

static void
say_line (Evening *e, const char *words, Script *script)
{
  CarpaceEvent event;

  if (strcmp (words, "turn") == 0)
    {
      evening_turn (e, 1);
      return;
    }
  event = words_read (words, e->now.elapsed_ms);
  script_line (script, e, words);
  evening_step (e, &event);
}

void
evening_say (Evening *e, const char *lines, Script *script)
{
  int seconds, n;
  char words[80];

  while (sscanf (lines, "%d %79[^\n]%n", &seconds, words, &n) == 2)
    {
      evening_until (e, seconds * CARPACE_SECOND_MS);
      say_line (e, words, script);
      lines += n;
    }
}
