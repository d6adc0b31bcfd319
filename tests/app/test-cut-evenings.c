/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-cut-evenings.c: evenings on air and off it, each cut before each of its
 * events. A program that was not there ends in the same diary as a machine that
 * slept that while. It would catch what a restart forgets, and what it tells twice.
 *
 * CARPACE_EVENINGS=N plays N of them; CARPACE_SEED=N begins with that one. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "../core/random-fields.h"
#include "../fakes/rounds.h"
#include "app/loop.h"
#include "carpace/entry-fields.h"
#include "carpace/event-kinds.h"
#include "trace.h"

#define SAID 60
#define EVENINGS 60
#define MOST_EVENTS (4 * SAID)
#define MOST_ENTRIES 4000
#define AWAY_MS (20 * CARPACE_SECOND_MS)

/** What is said of an evening, and when. */
typedef struct
{
  CarpacePlan plan;
  CarpaceEvent event[SAID];
  int64_t at_ms[SAID];
} Script;

/** An evening under way, kept in memory as a diary would keep it. */
typedef struct
{
  CarpaceInstant now;
  CarpaceLoop loop;
  CarpaceHistory history;
  bool on_air, stream_known;
  CarpaceInstant on_air_since, stream;
  size_t n_events, n_entries;
  CarpaceEvent event[MOST_EVENTS];
  CarpaceInstant at[MOST_EVENTS];
  CarpaceEntry entry[MOST_ENTRIES];
  int64_t kept_ms;
} Evening;

static CarpaceInstant
at (int64_t ms)
{
  return (CarpaceInstant){ .elapsed_ms = 5000000 + ms, .wall_ms = INT64_C (1804006800000) + ms, .offset_s = 3600 };
}

static CarpaceInstant
now (void *self)
{
  return ((Evening *) self)->now;
}

static void
keep_event (void *self, const CarpaceEvent *event, CarpaceInstant moment)
{
  Evening *e = self;

  assert_true (e->n_events < MOST_EVENTS);
  if (event->kind == CARPACE_EVENT_ON_AIR && !e->on_air)
    e->on_air_since = moment;
  e->on_air = event->kind == CARPACE_EVENT_ON_AIR || (e->on_air && event->kind != CARPACE_EVENT_OFF_AIR);
  e->event[e->n_events] = *event;
  e->at[e->n_events++] = moment;
  e->kept_ms = moment.elapsed_ms;
}

static void
keep_entry (void *self, const CarpaceEntry *entry)
{
  Evening *e = self;

  assert_true (e->n_entries < MOST_ENTRIES);
  e->entry[e->n_entries++] = *entry;
  e->kept_ms = entry->at.elapsed_ms;
}

static void
keep_opening (void *self, CarpaceDay day, CarpaceInstant moment, const CarpaceHistory *history)
{
  Evening *e = self;

  e->history = *history;
  e->stream_known = e->on_air;
  e->stream = e->on_air_since;
  e->n_events = 0;
}

static void
begin (Evening *e)
{
  const CarpaceLoopPorts ports = { .clock = { e, now },
                                   .store = { .self = e, .event = keep_event, .entry = keep_entry, .opening = keep_opening } };

  carpace_loop_init (&e->loop, &ports, NULL);
}

static void
pass_to (Evening *e, int64_t ms)
{
  int64_t until = at (ms).elapsed_ms, next;

  while ((next = carpace_loop_next (&e->loop)) <= until)
    {
      e->now = carpace_instant_after (e->now, next - e->now.elapsed_ms);
      carpace_loop_due (&e->loop);
    }
  e->now = at (ms);
}

/* What the loop tells the session by itself is not said. */
static CarpaceEventKind
some_kind (Random *random)
{
  static const CarpaceEventKind likely[] = { CARPACE_EVENT_INPUT, CARPACE_EVENT_STILL, CARPACE_EVENT_INPUT,
                                             CARPACE_EVENT_STILL, CARPACE_EVENT_START, CARPACE_EVENT_RATE };
  CarpaceEventKind kind;

  if (random_whole (random, 0, 2) > 0)
    return likely[random_whole (random, 0, sizeof likely / sizeof likely[0] - 1)];
  do
    kind = (CarpaceEventKind) random_whole (random, CARPACE_EVENT_INPUT, CARPACE_N_EVENTS - 1);
  while (kind == CARPACE_EVENT_INTERMISSION || kind == CARPACE_EVENT_SUSPEND || kind == CARPACE_EVENT_WAKE);
  return kind;
}

static CarpaceEvent
some_event (Random *random)
{
  CarpaceEvent event;
  int32_t n;
  const CarpaceField *field;

  carpace_event_init (&event, some_kind (random));
  field = carpace_event_fields (event.kind, &n);
  random_fields (random, field, n, &event);
  if (event.kind == CARPACE_EVENT_RATE)
    event.rate.discomfort = random_whole (random, 0, 4);
  if (event.kind == CARPACE_EVENT_MORNING)
    {
      event.morning.waking = random_whole (random, -1, 3);
      event.morning.now = random_whole (random, -1, 3);
    }
  if (event.kind == CARPACE_EVENT_CAUTION && random_whole (random, 0, 9) > 0)
    event.caution.signs = 0;
  return event;
}

static void
write_script (Script *script, uint64_t seed)
{
  Random random = { seed };
  int64_t ms = 0;

  carpace_trace_plan (&script->plan, 4, 13);
  script->plan.on_air_every_ms = 11 * CARPACE_MINUTE_MS;
  script->plan.on_air_from = CARPACE_ON_AIR_FROM_STREAM;
  script->plan.on_air_notice_ms = 2 * CARPACE_MINUTE_MS;
  script->plan.on_air_length_ms = 5 * CARPACE_MINUTE_MS;
  for (int i = 0; i < SAID; i++)
    {
      script->event[i] = some_event (&random);
      if (i == 0 && seed % 2 == 0)
        script->event[i] = (CarpaceEvent){ .kind = CARPACE_EVENT_ON_AIR };
      script->at_ms[i] = ms;
      ms += random_whole (&random, 0, 19) > 0 ? random_whole (&random, 0, 240000)
                                              : random_whole (&random, 0, 6 * 3600 * 1000);
    }
}

static void
sleep_a_while (Evening *e)
{
  carpace_loop_tell (&e->loop, &(CarpaceEvent){ .kind = CARPACE_EVENT_SUSPEND }, NULL);
  e->now = carpace_instant_after (e->now, AWAY_MS);
  carpace_loop_tell (&e->loop, &(CarpaceEvent){ .kind = CARPACE_EVENT_WAKE }, NULL);
}

static void
be_gone_a_while (Evening *e, const Script *script)
{
  static CarpaceEvent event[MOST_EVENTS];
  static CarpaceInstant moments[MOST_EVENTS];
  CarpaceResume resume = { .known = true, .history = e->history, .n_events = e->n_events, .event = event, .at = moments,
                           .alive = e->now, .kept_ms = e->kept_ms, .stream_known = e->stream_known, .stream = e->stream };

  memcpy (event, e->event, sizeof event);
  memcpy (moments, e->at, sizeof moments);
  resume.last = e->n_events > 0 ? moments[e->n_events - 1] : e->now;
  e->now = carpace_instant_after (e->now, AWAY_MS);
  begin (e);
  carpace_loop_resume (&e->loop, &script->plan, &resume);
}

static void
play (Evening *e, const Script *script, int cut, bool gone)
{
  memset (e, 0, sizeof *e);
  carpace_history_init (&e->history);
  e->now = at (0);
  begin (e);
  carpace_loop_open (&e->loop, &script->plan);
  for (int i = 0; i < SAID; i++)
    {
      CarpaceEvent event = script->event[i];

      if (i == cut && gone)
        be_gone_a_while (e, script);
      else if (i == cut)
        sleep_a_while (e);
      pass_to (e, script->at_ms[i] + (i >= cut ? AWAY_MS : 0));
      if (carpace_event_kinds[event.kind].says == CARPACE_SAYS_FACT)
        event.fact.since_ms = e->now.elapsed_ms - event.fact.since_ms % 5000;
      carpace_loop_tell (&e->loop, &event, NULL);
    }
}

static void
tell_entries (const Evening *e, size_t from, const char *name)
{
  print_message ("%s:\n", name);
  for (size_t i = from; i < e->n_entries && i < from + 6; i++)
    {
      int32_t n;
      const CarpaceField *field = carpace_entry_fields (e->entry[i].kind, &n);

      print_message ("  %lld %s", (long long) (e->entry[i].at.elapsed_ms - at (0).elapsed_ms),
                     carpace_name (CARPACE_WORDS_ENTRY, e->entry[i].kind));
      for (int32_t j = 0; j < n; j++)
        print_message (" %lld", (long long) carpace_field_get (&field[j], &e->entry[i]));
      print_message ("\n");
    }
}

static void
compare (const Evening *slept, const Evening *gone, const Script *script, unsigned seed, int cut)
{
  size_t i = 0;

  while (i < slept->n_entries && i < gone->n_entries && carpace_entry_equal (&slept->entry[i], &gone->entry[i]))
    i++;
  if (i == slept->n_entries && i == gone->n_entries)
    return;
  tell_entries (slept, i > 2 ? i - 2 : 0, "slept");
  tell_entries (gone, i > 2 ? i - 2 : 0, "gone");
  for (int near = cut > 4 ? cut - 4 : 0; near < cut + 2 && near < SAID; near++)
    print_message ("%s %lld %s\n", near == cut ? "cut," : "    ", (long long) script->at_ms[near],
                   carpace_name (CARPACE_WORDS_EVENT, script->event[near].kind));
  fail_msg ("CARPACE_SEED=%u, cut before what is said as number %d: entry %zu of %zu and %zu is another", seed, cut, i,
            slept->n_entries, gone->n_entries);
}

static unsigned
from_outside (const char *name, unsigned otherwise)
{
  const char *text = getenv (name);

  return text != NULL ? (unsigned) strtoul (text, NULL, 10) : otherwise;
}

/* Each cut of the evening of @seed; adds what was told. */
static void
cut (unsigned seed, size_t *entries, size_t *blocks)
{
  static Script script;
  static Evening slept, gone;

  write_script (&script, seed);
  for (int before = 1; before < SAID; before++)
    {
      play (&slept, &script, before, false);
      play (&gone, &script, before, true);
      compare (&slept, &gone, &script, seed, before);
      *entries += slept.n_entries;
      for (size_t i = 0; i < slept.n_entries; i++)
        *blocks += slept.entry[i].kind == CARPACE_ENTRY_BLOCK && slept.entry[i].block.what == CARPACE_BLOCK_ENDED;
    }
}

static void
an_evening_cut_anywhere_ends_in_the_same_diary (void **state)
{
  unsigned first = from_outside ("CARPACE_SEED", 1), n = from_outside ("CARPACE_EVENINGS", (unsigned) carpace_test_rounds (EVENINGS));
  size_t entries = 0, blocks = 0;

  for (unsigned seed = first; seed < first + n; seed++)
    cut (seed, &entries, &blocks);
  print_message ("%u evenings, %u cuts: %zu entries, %zu blocks\n", n, n * (SAID - 1), entries, blocks);
  assert_true (blocks > n * SAID);
}

/* A start presumes that the hand moves, a pause that it is still. On these evenings a day opened over such a
 * hand, which its events told otherwise: what went on without a block was asked about earlier, or later. */
static void
a_hand_that_was_presumed_as_the_day_opened (void **state)
{
  static const unsigned seeds[] = { 1312, 2587, 2648, 4644 };
  size_t entries = 0, blocks = 0;

  for (size_t i = 0; i < sizeof seeds / sizeof *seeds; i++)
    cut (seeds[i], &entries, &blocks);
  assert_true (blocks > 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_evening_cut_anywhere_ends_in_the_same_diary),
    cmocka_unit_test (a_hand_that_was_presumed_as_the_day_opened),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
