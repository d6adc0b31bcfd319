/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-history-fold.c: what a session tells, folded, comes to the history that
 * the session holds, field by field, at every step. CARPACE_SEED=N runs one
 * stream again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/loop.h"
#include "app/players.h"
#include "carpace/entry-fields.h"
#include "carpace/history-fold.h"
#include "random.h"
#include "rounds.h"
#include "trace.h"

#define STREAMS 150
#define EVENTS 500
#define SEASON_DAYS 84
#define SEEDS 8

typedef struct
{
  Random random;
  CarpaceInstant now;
  CarpaceLoop loop;
  CarpacePlan plan, other_plan;
  CarpaceHistoryFold fold;
  int64_t compared, openings;
} Stream;

static CarpaceInstant
now (void *self)
{
  return ((Stream *) self)->now;
}

static void
fail_at_line (const char *held, const char *folded)
{
  size_t line = 0;

  for (size_t i = 0; held[i] == folded[i]; i++)
    if (held[i] == '\n')
      line = i + 1;
  fail_msg ("held:   %.*s\nfolded: %.*s", (int) strcspn (held + line, "\n"), held + line,
            (int) strcspn (folded + line, "\n"), folded + line);
}

/* As text, which names what differs. On air, away and whether a caution was read are
 * compared at openings only: no record tells of them in between. None tells of the hand. */
static void
compare (const CarpaceHistory *held, const CarpaceHistory *folded, bool at_opening)
{
  static char a[CARPACE_HISTORY_BYTES], b[CARPACE_HISTORY_BYTES];
  CarpaceHistory copy = *folded;

  copy.hand = held->hand;
  copy.moving_since = held->moving_since;
  copy.still_since = held->still_since;
  if (!at_opening)
    {
      copy.on_air = held->on_air;
      copy.away = held->away;
      copy.caution_shown = held->caution_shown;
    }
  carpace_history_write (held, a, sizeof a);
  carpace_history_write (&copy, b, sizeof b);
  if (strcmp (a, b) != 0)
    fail_at_line (a, b);
}

static void
hear (void *self, const CarpaceEntry *e)
{
  Stream *s = self;

  carpace_history_fold (&s->fold, e);
}

static void
check (Stream *s)
{
  compare (&s->loop.session.history, carpace_history_fold_now (&s->fold), false);
  compare (carpace_session_history_at_opening (&s->loop.session), &s->fold.at_opening, true);
  s->compared++;
}

static int64_t
some_time (Stream *s)
{
  switch (random_whole (&s->random, 0, 11))
    {
    case 0:
      return random_whole (&s->random, 0, 14 * 3600) * INT64_C (1000);
    case 1:
    case 2:
      return random_whole (&s->random, 0, 3600 * 1000);
    case 3:
      return 0;
    default:
      return random_whole (&s->random, 0, 200 * 1000);
    }
}

static CarpaceMorning
some_morning (Random *r)
{
  return (CarpaceMorning){
    .waking = random_whole (r, -1, random_whole (r, 0, 4) ? 2 : 8),
    .now = random_whole (r, -1, 3),
    .stiffness = (CarpaceStiffness) random_whole (r, 0, random_whole (r, 0, 2) ? 2 : CARPACE_N_STIFFNESSES - 1),
    .other_load = random_whole (r, 0, 4) == 0,
    .pain_relief = random_whole (r, 0, 4) == 0,
  };
}

static CarpaceEvent
some_event (Stream *s)
{
  static const CarpaceEventKind likely[] = { CARPACE_EVENT_INPUT, CARPACE_EVENT_STILL, CARPACE_EVENT_START,
                                             CARPACE_EVENT_START, CARPACE_EVENT_MORNING, CARPACE_EVENT_RATE };
  Random *r = &s->random;
  CarpaceEvent e = { .kind = random_whole (r, 0, 2) ? likely[random_whole (r, 0, 5)]
                                                    : (CarpaceEventKind) random_whole (r, CARPACE_EVENT_OPEN, CARPACE_N_EVENTS - 1) };

  switch (e.kind)
    {
    case CARPACE_EVENT_OPEN:
      e.open.plan = random_whole (r, 0, 3) ? &s->plan : &s->other_plan;
      break;
    case CARPACE_EVENT_INPUT:
    case CARPACE_EVENT_STILL:
      e.fact.since_ms = s->now.elapsed_ms - random_whole (r, 0, 5000);
      e.fact.uncounted = random_whole (r, 0, 3) == 0;
      break;
    case CARPACE_EVENT_RATE:
      e.rate.discomfort = random_whole (r, 0, random_whole (r, 0, 3) ? 4 : 8);
      break;
    case CARPACE_EVENT_MORNING:
      e.morning = some_morning (r);
      break;
    case CARPACE_EVENT_CAUTION:
      e.caution.answer = (CarpaceCautionAnswer) random_whole (r, 0, CARPACE_N_CAUTION_ANSWERS - 1);
      e.caution.signs = random_whole (r, 0, 8) ? 0 : 1u << random_whole (r, 0, CARPACE_N_SIGNS - 1);
      break;
    case CARPACE_EVENT_INTERMISSION:
      e.intermission.begins_ms = s->now.elapsed_ms + random_whole (r, 0, 5000);
      break;
    case CARPACE_EVENT_DEADLINE:
    case CARPACE_EVENT_START:
    case CARPACE_EVENT_START_MATCH:
    case CARPACE_EVENT_END:
    case CARPACE_EVENT_PAUSE:
    case CARPACE_EVENT_CONTINUE:
    case CARPACE_EVENT_REST:
    case CARPACE_EVENT_AFTER_RUN:
    case CARPACE_EVENT_PLAY_ON:
    case CARPACE_EVENT_ON_AIR:
    case CARPACE_EVENT_OFF_AIR:
    case CARPACE_EVENT_SUSPEND:
    case CARPACE_EVENT_WAKE:
    case CARPACE_EVENT_FRONT:
    case CARPACE_EVENT_FRONT_STARTS:
    case CARPACE_EVENT_AWAY:
    case CARPACE_EVENT_ANYWHERE:
    case CARPACE_EVENT_CLICKS:
    case CARPACE_N_EVENTS:
      break;
    }
  return e;
}

static void
one_stream (uint64_t seed, int64_t *ret_compared)
{
  Stream *s = calloc (1, sizeof *s);
  CarpaceLoopPorts ports = { .clock = { s, now }, .listener = s, .entry = hear };

  s->random.state = seed;
  carpace_trace_plan (&s->plan, random_whole (&s->random, 1, 4), random_whole (&s->random, 5, 34));
  carpace_trace_plan (&s->other_plan, random_whole (&s->random, 1, 4), random_whole (&s->random, 5, 34));
  s->plan.matches_count = random_whole (&s->random, 0, 1) * 5000;
  s->plan.stop_above = random_whole (&s->random, 4, 6);
  s->other_plan.usual_discomfort = random_whole (&s->random, 0, 2);
  carpace_instant_read ("2027-03-02T18:00:00+01:00", &s->now);
  carpace_history_fold_init (&s->fold);
  carpace_loop_init (&s->loop, &ports, NULL);
  carpace_loop_open (&s->loop, &s->plan);
  for (int i = 0; i < EVENTS; i++)
    {
      CarpaceEvent event;
      s->now = carpace_instant_after (s->now, some_time (s));
      event = some_event (s);
      carpace_loop_due (&s->loop);
      check (s);
      carpace_loop_tell (&s->loop, &event, NULL);
      check (s);
    }
  *ret_compared += s->compared;
  free (s);
}

static void
test_streams (void **state)
{
  const char *given = getenv ("CARPACE_SEED");
  uint64_t first = given != NULL ? strtoull (given, NULL, 10) : 1, last = given != NULL ? first : (uint64_t) carpace_test_rounds (STREAMS);
  int64_t compared = 0;

  for (uint64_t seed = first; seed <= last; seed++)
    {
      print_message ("%sseed %llu", seed == first ? "" : "\r", (unsigned long long) seed);
      one_stream (seed, &compared);
    }
  print_message ("\n");
  assert_true (compared > 0);
}

/* ---- seasons of modelled players ---- */

typedef struct
{
  CarpaceHistoryFold fold;
  CarpaceHistory held;
  bool opened;
  int32_t compared;
} Season;

static void
keep_opening (void *self, CarpaceDay day, CarpaceInstant at, const CarpaceHistory *history)
{
  Season *season = self;

  season->held = *history;
  season->opened = true;
}

static void
keep_entry (void *self, const CarpaceEntry *entry)
{
  carpace_history_fold (&((Season *) self)->fold, entry);
}

static bool
keep_step (void *self)
{
  Season *season = self;

  if (season->opened)
    {
      compare (&season->held, &season->fold.at_opening, true);
      season->compared++;
    }
  season->opened = false;
  return true;
}

static void
pass_over (void *user, const CarpaceEntry *entry, int32_t line)
{
}

static void
test_seasons (void **state)
{
  Season *season = calloc (1, sizeof *season);
  CarpacePlan *plan = calloc (1, sizeof *plan);
  const CarpaceStore keep = { .self = season, .opening = keep_opening, .entry = keep_entry, .commit = keep_step };

  carpace_trace_plan (plan, 2, 30);
  plan->at_most_ms = 90 * CARPACE_MINUTE_MS;
  for (int kind = 0; kind < CARPACE_N_PLAYERS; kind++)
    for (uint64_t seed = 1; seed <= (uint64_t) carpace_test_rounds (SEEDS); seed++)
      {
        CarpacePlayerTraits traits = carpace_player_traits ((CarpacePlayerKind) kind);

        memset (season, 0, sizeof *season);
        carpace_history_fold_init (&season->fold);
        assert_true (carpace_rehearse_kept (plan, &traits, SEASON_DAYS, seed, &keep, pass_over, NULL));
        assert_true (season->compared > SEASON_DAYS / 2);
      }
  free (plan);
  free (season);
}

/* In a place that was used before, too; and no check was made in it. */
static void
begins_with_nothing_left_over (void **state)
{
  CarpaceHistoryFold *fold = malloc (sizeof *fold);

  memset (fold, 0xa5, sizeof *fold);
  carpace_history_fold_init (fold);
  assert_false (fold->open || fold->pending || fold->closed_today);
  assert_int_equal (fold->n_ratings, 0);
  assert_int_equal (fold->day.done_ms, 0);
  assert_true (fold->morning_at == CARPACE_NEVER);
  assert_int_equal (fold->day.morning.waking, -1);
  assert_int_equal (fold->morning_before.waking, -1);
  compare (&fold->history, &fold->at_opening, true);
  free (fold);
}

/* ---- records that no session tells like that: of older files, and of diaries that were cut ---- */

static void
fold_day (CarpaceHistoryFold *fold, CarpaceDay date, int64_t dose_ms, int64_t closed_limits_ms)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_DAY, (CarpaceInstant) { .elapsed_ms = (date - 20000) * CARPACE_DAY_MS });
  entry.day.what = CARPACE_DAY_OPENED;
  entry.day.day = date;
  entry.day.dose_ms = dose_ms;
  entry.day.closed_limits_ms = closed_limits_ms;
  entry.day.closed_other_ms = -1;
  carpace_history_fold (fold, &entry);
}

/* An opening says its dose itself, also where its decision is not there; what the day's limits came to, at
 * the next one, also where that is nothing. */
static void
an_opening_without_its_decision (void **state)
{
  static const struct { int64_t closed_ms, limits_min; } rows[] = { { -1, 40 }, { 0, 0 }, { 1, 0 }, { 30 * CARPACE_MINUTE_MS, 30 } };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static CarpaceHistoryFold fold;

      carpace_history_fold_init (&fold);
      fold_day (&fold, 20000, 40 * CARPACE_MINUTE_MS, -1);
      assert_int_equal (fold.history.n_days, 0);
      fold_day (&fold, 20001, 50 * CARPACE_MINUTE_MS, rows[i].closed_ms);
      assert_int_equal (fold.history.n_days, 1);
      assert_int_equal (fold.history.days[0].dose_ms, 40 * CARPACE_MINUTE_MS);
      assert_int_equal (fold.history.days[0].limits_ms / CARPACE_MINUTE_MS, rows[i].limits_min);
      assert_int_equal (fold.history.days[0].limits_ms > 0, rows[i].closed_ms != 0);
      assert_false (fold.history.days[0].last_answered);
    }
}

/* Without time nothing was practised: neither beyond the plan, nor until then. */
static void
a_block_of_a_millisecond_was_practice (void **state)
{
  for (int64_t active_ms = 0; active_ms <= 2; active_ms++)
    {
      static CarpaceHistoryFold fold;
      CarpaceEntry entry;

      carpace_history_fold_init (&fold);
      fold_day (&fold, 20001, 40 * CARPACE_MINUTE_MS, -1);
      carpace_entry_init (&entry, CARPACE_ENTRY_BLOCK, (CarpaceInstant) { .elapsed_ms = CARPACE_DAY_MS + 5000 });
      entry.block.what = CARPACE_BLOCK_DROPPED;
      entry.block.beyond = true;
      entry.block.active_ms = active_ms;
      entry.block.ended_before_ms = 2000;
      carpace_history_fold (&fold, &entry);
      assert_int_equal (fold.day.done_ms, active_ms);
      assert_int_equal (fold.day.beyond, active_ms > 0);
      assert_int_equal (fold.day.last_end_elapsed_ms, active_ms > 0 ? CARPACE_DAY_MS + 3000 : 0);
      assert_int_equal (fold.n_ratings, 0);
    }
}

static void
fold_block (CarpaceHistoryFold *fold, int64_t at_ms)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_BLOCK, (CarpaceInstant) { .elapsed_ms = at_ms });
  entry.block.what = CARPACE_BLOCK_ENDED;
  entry.block.active_ms = CARPACE_MINUTE_MS;
  carpace_history_fold (fold, &entry);
}

static void
fold_rating (CarpaceHistoryFold *fold, int64_t at_ms, int32_t discomfort, int32_t corrects, bool by_hand)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_RATING, (CarpaceInstant) { .elapsed_ms = at_ms });
  entry.rating.discomfort = discomfort;
  entry.rating.corrects = corrects;
  entry.rating.by_hand = by_hand;
  carpace_history_fold (fold, &entry);
}

/* None, 127, 128 and 129 blocks: a number that is none of theirs has no room, and writes over nothing. */
static void
as_many_ratings_as_there_is_room_for (void **state)
{
  static CarpaceHistoryFold fold, before;
  CarpaceEntry tightened;

  carpace_history_fold_init (&fold);
  fold_day (&fold, 20000, 40 * CARPACE_MINUTE_MS, -1);
  before = fold;
  fold_rating (&fold, 0, 3, -1, false);
  assert_memory_equal (&fold, &before, sizeof fold);
  carpace_entry_init (&tightened, CARPACE_ENTRY_DECISION, (CarpaceInstant) { 0 });
  tightened.decision.scope = CARPACE_SCOPE_BLOCK;
  tightened.decision.rule = CARPACE_RULE_UP_2;
  carpace_history_fold (&fold, &tightened);
  assert_memory_equal (&fold, &before, sizeof fold);
  for (int32_t n = 1; n <= CARPACE_DAY_RATINGS + 1; n++)
    {
      fold_block (&fold, n * CARPACE_MINUTE_MS);
      assert_int_equal (fold.n_ratings, n <= CARPACE_DAY_RATINGS ? n : CARPACE_DAY_RATINGS);
      assert_int_equal (fold.morning_before.waking, -1);
    }
  before = fold;
  fold_rating (&fold, CARPACE_DAY_MS, -1, -1, false); /* nothing was said */
  assert_memory_equal (&fold, &before, sizeof fold);
}

/* A session is never told of a number changed by hand, nor of one that was changed too late. */
static void
a_correction_that_counts (void **state)
{
  static const struct { const char *name; int64_t after_ms; int32_t from, to; bool by_hand, counts; } rows[] = {
    { "a lower one, within its minute", 60000, 3, 1, false, true },
    { "a lower one, after it", 60001, 3, 1, false, false },
    { "a higher one, within ten", 10 * CARPACE_MINUTE_MS, 3, 5, false, true },
    { "a higher one, after them", 10 * CARPACE_MINUTE_MS + 1, 3, 5, false, false },
    { "of a nought, after them", 10 * CARPACE_MINUTE_MS + 1, 0, 5, false, false },
    { "by hand, at once", 0, 3, 1, true, false },
    { "by hand, higher", 1000, 3, 5, true, false },
    { "by hand, years later", 400 * CARPACE_DAY_MS, 3, 5, true, false },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static CarpaceHistoryFold fold;

      print_message ("%s\n", rows[i].name);
      carpace_history_fold_init (&fold);
      fold_day (&fold, 20000, 40 * CARPACE_MINUTE_MS, -1);
      fold_block (&fold, CARPACE_MINUTE_MS);
      fold_rating (&fold, 2 * CARPACE_MINUTE_MS, rows[i].from, -1, false);
      fold_rating (&fold, 2 * CARPACE_MINUTE_MS + rows[i].after_ms, rows[i].to, rows[i].from, rows[i].by_hand);
      assert_int_equal (fold.rating[0].discomfort, rows[i].counts ? rows[i].to : rows[i].from);
    }
}

/* An older file says nothing of the first dose: its decisions are taken as they are. */
static void
a_decision_without_its_plan (void **state)
{
  static CarpaceHistoryFold fold;
  CarpaceEntry entry;

  carpace_history_fold_init (&fold);
  carpace_entry_init (&entry, CARPACE_ENTRY_DECISION, (CarpaceInstant) { 0 });
  entry.decision.scope = CARPACE_SCOPE_DAY;
  entry.decision.before_ms = entry.decision.after_ms = entry.decision.kept_ms = 40 * CARPACE_MINUTE_MS;
  entry.decision.level_before_ms = entry.decision.level_ms = 50 * CARPACE_MINUTE_MS;
  carpace_history_fold (&fold, &entry);
  fold_day (&fold, 20000, 40 * CARPACE_MINUTE_MS, -1);
  assert_int_equal (fold.history.dose_ms, 40 * CARPACE_MINUTE_MS);
  assert_int_equal (fold.history.level_ms, 50 * CARPACE_MINUTE_MS);
}

/* In minutes: of which first dose, from what to what, and the day's own. */
static void
fold_decision (CarpaceHistoryFold *fold, CarpaceDay date, int first, int before, int level_before, int kept, int level, int after)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_DECISION, (CarpaceInstant) { .elapsed_ms = (date - 20000) * CARPACE_DAY_MS });
  entry.decision.scope = CARPACE_SCOPE_DAY;
  entry.decision.first_dose_ms = first * CARPACE_MINUTE_MS;
  entry.decision.before_ms = before * CARPACE_MINUTE_MS;
  entry.decision.level_before_ms = level_before * CARPACE_MINUTE_MS;
  entry.decision.kept_ms = kept * CARPACE_MINUTE_MS;
  entry.decision.level_ms = level * CARPACE_MINUTE_MS;
  entry.decision.after_ms = after * CARPACE_MINUTE_MS;
  carpace_history_fold (fold, &entry);
}

/* One that knew of the others is taken as it is. One that did not, or a second opening of the day, lowers only; of
 * another plan a second opening is nothing. */
static void
a_decision_of_another_computer (void **state)
{
  static const struct { const char *name; CarpaceDay date; int first, before, level_before, kept, level, dose, to_level; } rows[] = {
    { "it knew", 20001, 60, 60, 60, 70, 80, 70, 80 },
    { "it knew another dose", 20001, 60, 50, 60, 70, 80, 60, 60 },
    { "it knew another level", 20001, 60, 60, 50, 70, 80, 60, 60 },
    { "it knew neither, and led lower", 20001, 60, 50, 50, 40, 45, 40, 45 },
    { "it knew neither, a lower dose alone", 20001, 60, 50, 50, 40, 80, 40, 60 },
    { "the same day again, lower", 20000, 60, 60, 60, 40, 45, 40, 45 },
    { "the same day again, a lower dose alone", 20000, 60, 60, 60, 40, 80, 40, 60 },
    { "the same day again, higher", 20000, 60, 60, 60, 70, 80, 60, 60 },
    { "the same day by another plan", 20000, 50, 60, 60, 40, 45, 60, 60 },
    { "the same day, of no plan that is told", 20000, 0, 60, 60, 40, 45, 60, 60 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static CarpaceHistoryFold fold;

      print_message ("%s\n", rows[i].name);
      carpace_history_fold_init (&fold);
      fold_decision (&fold, 20000, 60, 60, 60, 60, 60, 60);
      fold_day (&fold, 20000, 60 * CARPACE_MINUTE_MS, -1);
      assert_int_equal (fold.opened.elapsed_ms, 0);
      fold_decision (&fold, rows[i].date, rows[i].first, rows[i].before, rows[i].level_before, rows[i].kept, rows[i].level, 90);
      fold_day (&fold, rows[i].date, 90 * CARPACE_MINUTE_MS, -1);
      assert_int_equal (fold.opened.elapsed_ms, (rows[i].date - 20000) * CARPACE_DAY_MS);
      assert_int_equal (fold.history.dose_ms / CARPACE_MINUTE_MS, rows[i].dose);
      assert_int_equal (fold.history.level_ms / CARPACE_MINUTE_MS, rows[i].to_level);
    }
}

/* A decision is its opening's where that comes at its moment and next; else it was one more of the day before. */
static void
a_decision_that_is_no_opening_s (void **state)
{
  static const struct { const char *name; CarpaceDay date; bool between; int dose, behind; } rows[] = {
    { "the next day's, at its opening", 20001, false, 40, 60 },
    { "a later one of the day before", 20000, false, 50, 40 },
    { "a number came in between", 20001, true, 50, 40 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static CarpaceHistoryFold fold;

      print_message ("%s\n", rows[i].name);
      carpace_history_fold_init (&fold);
      fold_decision (&fold, 20000, 60, 60, 60, 60, 60, 60);
      fold_day (&fold, 20000, 60 * CARPACE_MINUTE_MS, -1);
      fold_decision (&fold, rows[i].date, 60, 60, 60, 40, 60, 40);
      if (rows[i].between)
        fold_rating (&fold, CARPACE_DAY_MS, 0, -1, false);
      fold_day (&fold, 20001, 50 * CARPACE_MINUTE_MS, -1);
      assert_int_equal (fold.day.dose_ms / CARPACE_MINUTE_MS, rows[i].dose);
      assert_int_equal (fold.history.days[0].dose_ms / CARPACE_MINUTE_MS, rows[i].behind);
    }
}

/* A later morning tells from what the day had come to; but it is from the day's opening that the dose has changed. */
static void
a_later_decision_changes_the_day_s_dose (void **state)
{
  static CarpaceHistoryFold fold;

  carpace_history_fold_init (&fold);
  fold_decision (&fold, 20000, 60, 60, 60, 39, 60, 39);
  fold_day (&fold, 20000, 39 * CARPACE_MINUTE_MS, -1);
  assert_int_equal (fold.history.last_change, 20000);
  fold_decision (&fold, 20000, 60, 39, 60, 39, 60, 39);
  assert_int_equal (carpace_history_fold_now (&fold)->last_change, 20000);
  assert_int_equal (fold.history.dose_ms, 39 * CARPACE_MINUTE_MS);
}

/* As if the next day opened now: with the open day, as a decision that is not settled yet has it, and without one. */
static void
a_history_with_its_open_day_closed (void **state)
{
  static CarpaceHistoryFold fold;
  CarpaceHistory closed;

  carpace_history_fold_init (&fold);
  carpace_history_fold_closed (&fold, &closed);
  assert_int_equal (closed.n_days, 0);
  fold_decision (&fold, 20000, 60, 60, 60, 60, 60, 60);
  fold_day (&fold, 20000, 60 * CARPACE_MINUTE_MS, -1);
  fold_block (&fold, CARPACE_MINUTE_MS);
  fold_decision (&fold, 20000, 60, 60, 60, 40, 60, 40);
  carpace_history_fold_closed (&fold, &closed);
  assert_int_equal (closed.n_days, 1);
  assert_int_equal (closed.days[0].done_ms, CARPACE_MINUTE_MS);
  assert_int_equal (closed.days[0].dose_ms, 40 * CARPACE_MINUTE_MS);
  assert_int_equal (closed.dose_ms, 40 * CARPACE_MINUTE_MS);
  assert_int_equal (fold.history.n_days, 0);
}

/* A caution that closes says which plan it was closed under, where one was in use. */
static void
a_caution_closed_under_a_plan (void **state)
{
  for (int64_t first_ms = 0; first_ms <= 2; first_ms++)
    {
      static CarpaceHistoryFold fold;
      CarpaceEntry entry;

      carpace_history_fold_init (&fold);
      fold.history.first_dose_ms = 5;
      carpace_entry_init (&entry, CARPACE_ENTRY_CAUTION, (CarpaceInstant) { 0 });
      entry.caution.what = CARPACE_CAUTION_OPENED;
      entry.caution.signs = 1;
      carpace_history_fold (&fold, &entry);
      entry.caution.what = CARPACE_CAUTION_CLOSED;
      entry.caution.first_dose_ms = entry.caution.before_ms = entry.caution.level_ms = first_ms;
      carpace_history_fold (&fold, &entry);
      assert_false (fold.history.caution_open);
      assert_int_equal (fold.history.first_dose_ms, first_ms > 0 ? first_ms : 5);
    }
}

/* What has become since a day opened is not undone by its later decision, and nothing rises; the shorter of both stands. */
static void
a_later_decision_leaves_what_has_become (void **state)
{
  static CarpacePlan plan;
  CarpaceHistory opening, now, later;
  CarpaceDecision decision;

  carpace_trace_plan (&plan, 2, 30);
  carpace_history_init (&opening);
  carpace_dose_decide (&opening, &plan, 20000, 0, NULL, &decision);
  now = opening;
  carpace_dose_apply (&now, &decision, 20000);
  now.shown_next = 3;
  now.on_air = now.away = now.caution_shown = now.caution_open = true;
  now.caution_since = 19999;
  now.caution_signs = 5;
  now.dose_ms -= CARPACE_MINUTE_MS;
  now.level_ms -= CARPACE_SECOND_MS;
  later = opening;
  carpace_history_take_later (&later, &now, false, &decision, 20000);
  compare (&now, &later, true);
  now.dose_ms += 2 * CARPACE_MINUTE_MS;
  now.level_ms += 2 * CARPACE_SECOND_MS;
  later = opening;
  carpace_history_take_later (&later, &now, false, &decision, 20000);
  assert_int_equal (later.dose_ms, now.dose_ms - CARPACE_MINUTE_MS);
  assert_int_equal (later.level_ms, now.level_ms - CARPACE_SECOND_MS);
  opening.caution_open = true;
  now.caution_open = false;
  now.caution_closed = 20000;
  later = opening;
  carpace_history_take_later (&later, &now, true, &decision, 20000);
  assert_false (later.caution_open);
  assert_int_equal (later.caution_closed, 20000);
  assert_int_equal (later.dose_ms, 30 * CARPACE_MINUTE_MS); /* half the first */
  later = opening;
  carpace_history_take_later (&later, &now, false, &decision, 20000);
  assert_true (later.caution_open);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (begins_with_nothing_left_over),
    cmocka_unit_test (an_opening_without_its_decision),
    cmocka_unit_test (a_later_decision_leaves_what_has_become),
    cmocka_unit_test (a_block_of_a_millisecond_was_practice),
    cmocka_unit_test (as_many_ratings_as_there_is_room_for),
    cmocka_unit_test (a_correction_that_counts),
    cmocka_unit_test (a_caution_closed_under_a_plan),
    cmocka_unit_test (a_decision_without_its_plan),
    cmocka_unit_test (a_decision_of_another_computer),
    cmocka_unit_test (a_decision_that_is_no_opening_s),
    cmocka_unit_test (a_history_with_its_open_day_closed),
    cmocka_unit_test (a_later_decision_changes_the_day_s_dose),
    cmocka_unit_test (test_streams),
    cmocka_unit_test (test_seasons),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
