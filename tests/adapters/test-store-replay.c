/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random sessions kept in a diary: what a restart reads is what the loop told,
 * and the diary's sums are those the rules look back on. */
#include "store-samples.h"

#include "app/loop.h"
#include "carpace/event-kinds.h"
#include "trace.h"

#define STREAMS 10
#define EVENTS 300

/** A session under way; what it tells goes to the store and is remembered. */
typedef struct
{
  GRand *rand;
  CarpaceInstant now;
  CarpaceLoop loop;
  CarpacePlan plan;
  CarpaceStore store;
  CarpaceHistory history;
  CarpaceEvent event[EVENTS + 1];
  CarpaceInstant at[EVENTS + 1];
  size_t n;
} Stream;

static CarpaceInstant
now (void *self)
{
  return ((Stream *) self)->now;
}

static void
on_begin (void *self)
{
  Stream *s = self;

  s->store.begin (s->store.self);
}

static void
on_event (void *self, const CarpaceEvent *event, CarpaceInstant at)
{
  Stream *s = self;

  s->event[s->n] = *event;
  s->at[s->n++] = at;
  s->store.event (s->store.self, event, at);
}

static void
on_entry (void *self, const CarpaceEntry *entry)
{
  Stream *s = self;

  s->store.entry (s->store.self, entry);
}

static void
on_opening (void *self, CarpaceDay day, CarpaceInstant at, const CarpaceHistory *history)
{
  Stream *s = self;

  s->history = *history;
  s->n = 0;
  s->store.opening (s->store.self, day, at, history);
}

static bool
on_commit (void *self)
{
  Stream *s = self;

  assert_true (s->store.commit (s->store.self));
  return true;
}

static CarpaceEvent
some_event (Stream *s)
{
  static const CarpaceEventKind likely[] = { CARPACE_EVENT_INPUT, CARPACE_EVENT_STILL, CARPACE_EVENT_INPUT,
                                             CARPACE_EVENT_STILL, CARPACE_EVENT_START, CARPACE_EVENT_RATE };
  CarpaceEvent e = { .kind = g_rand_int_range (s->rand, 0, 4) ? likely[g_rand_int_range (s->rand, 0, 6)]
                                    : (CarpaceEventKind) g_rand_int_range (s->rand, CARPACE_EVENT_INPUT, CARPACE_N_EVENTS) };

  if (e.kind == CARPACE_EVENT_INPUT || e.kind == CARPACE_EVENT_STILL)
    e.fact.since_ms = s->now.elapsed_ms - g_rand_int_range (s->rand, 0, 5000);
  if (e.kind == CARPACE_EVENT_INTERMISSION)
    e.intermission.begins_ms = s->now.elapsed_ms + g_rand_int_range (s->rand, -5000, 120000);
  if (e.kind == CARPACE_EVENT_RATE)
    {
      e.rate.discomfort = g_rand_int_range (s->rand, 0, 5);
      e.rate.site = (CarpaceSite) g_rand_int_range (s->rand, 0, CARPACE_N_SITES);
    }
  if (e.kind == CARPACE_EVENT_MORNING)
    {
      e.morning.waking = g_rand_int_range (s->rand, -1, 4);
      e.morning.now = g_rand_int_range (s->rand, -1, 4);
      e.morning.stiffness = (CarpaceStiffness) g_rand_int_range (s->rand, 0, CARPACE_N_STIFFNESSES);
      e.morning.other_load = g_rand_int_range (s->rand, 0, 5) == 0;
    }
  if (e.kind == CARPACE_EVENT_CAUTION)
    {
      e.caution.answer = (CarpaceCautionAnswer) g_rand_int_range (s->rand, 0, CARPACE_N_CAUTION_ANSWERS);
      e.caution.signs = g_rand_int_range (s->rand, 0, 20) ? 0 : 1u << g_rand_int_range (s->rand, 0, CARPACE_N_SIGNS);
    }
  return e;
}

static void
run_stream (Stream *s, guint32 seed)
{
  CarpaceLoopPorts ports = { .clock = { s, now },
                             .store = { s, on_begin, on_event, on_entry, on_opening, on_commit } };

  carpace_trace_plan (&s->plan, 3, 20);
  s->now = moment (0);
  s->rand = g_rand_new_with_seed (seed);
  carpace_loop_init (&s->loop, &ports, NULL);
  carpace_loop_open (&s->loop, &s->plan);
  for (int i = 0; i < EVENTS; i++)
    {
      CarpaceEvent event = some_event (s);

      carpace_loop_tell (&s->loop, &event, NULL);
      s->now = carpace_instant_after (s->now, g_rand_int_range (s->rand, 0, 40) ? g_rand_int_range (s->rand, 0, 90000)
                                                                     : g_rand_int_range (s->rand, 0, 12 * 3600 * 1000));
    }
  g_rand_free (s->rand);
}

static void
assert_same_history (const CarpaceHistory *a, const CarpaceHistory *b)
{
  static char left[CARPACE_HISTORY_BYTES], right[CARPACE_HISTORY_BYTES];

  carpace_history_write (a, left, sizeof left);
  carpace_history_write (b, right, sizeof right);
  assert_string_equal (left, right);
}

/* The core's own account of the days before today against the diary's sums. */
static int
compare_sums (const CarpaceHistory *history, CarpaceDiaryStore *store, guint32 seed)
{
  Seen seen = see (store);
  int compared = 0;

  for (int32_t i = 0; i < history->n_days; i++)
    for (guint j = 0; j < seen.sums->len; j++)
      {
        const CarpaceDayRecord *day = &history->days[i];
        CarpaceDaySum sum = g_array_index (seen.sums, CarpaceDaySum, j);

        if (sum.day != day->day)
          continue;
        if (sum.done_ms != day->done_ms || sum.match_ms != day->match_ms || sum.dose_ms != day->dose_ms
            || sum.highest != day->highest || sum.n_ratings != day->n_ratings || sum.rating_sum != day->rating_sum
            || sum.no_practice != day->no_practice)
          fail_msg ("seed %u, day %d: done %ld/%ld match %ld/%ld dose %ld/%ld highest %d/%d ratings %d/%d sum %d/%d off %d/%d", seed,
                    day->day, (long) sum.done_ms, (long) day->done_ms, (long) sum.match_ms, (long) day->match_ms,
                    (long) sum.dose_ms, (long) day->dose_ms, sum.highest, day->highest, sum.n_ratings, day->n_ratings,
                    sum.rating_sum, day->rating_sum, sum.no_practice, day->no_practice);
        compared++;
      }
  seen_free (&seen);
  return compared;
}

static void
a_restart_reads_what_was_told (void **state)
{
  Stream *s = g_new0 (Stream, 1);
  int days = 0;
  size_t events = 0;

  for (guint32 seed = 1; seed <= STREAMS; seed++)
    {
      char *folder = folder_new (), *path = g_build_filename (folder, "diary.sqlite", NULL);
      CarpaceDiaryStore *store = carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL);
      CarpaceResume resume;

      memset (s, 0, sizeof *s);
      s->store = carpace_store_port (store);
      carpace_store_start_run (store, "boot", 0, moment (0));
      run_stream (s, seed);
      carpace_store_close (store, false);
      store = carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL);
      carpace_store_resume (store, &resume);
      assert_int_equal (resume.n_events, s->n);
      for (size_t i = 0; i < s->n; i++)
        {
          assert_true (carpace_event_equal (&resume.event[i], &s->event[i]));
          assert_int_equal (resume.at[i].elapsed_ms, s->at[i].elapsed_ms);
          assert_int_equal (resume.at[i].wall_ms, s->at[i].wall_ms);
        }
      assert_same_history (&resume.history, &s->history);
      days += compare_sums (&s->history, store, seed);
      events += s->n;
      carpace_store_resume_clear (&resume);
      carpace_store_close (store, true);
      g_free (path);
      folder_free (folder);
    }
  print_message ("%d days, %zu events\n", days, events);
  assert_true (days > STREAMS);
  g_free (s);
}

/* Time goes by to @ms after the beginning, each deadline at its own instant. */
static void
pass_to (Stream *s, int64_t ms)
{
  int64_t until = moment (ms).elapsed_ms, next;

  while ((next = carpace_loop_next (&s->loop)) <= until)
    {
      s->now = carpace_instant_after (s->now, next - s->now.elapsed_ms);
      carpace_loop_due (&s->loop);
    }
  s->now = moment (ms);
}

static void
tell_at (Stream *s, int64_t ms, CarpaceEvent event)
{
  pass_to (s, ms);
  if (event.kind == CARPACE_EVENT_STILL)
    event.fact.since_ms = s->now.elapsed_ms;
  assert_true (carpace_loop_tell (&s->loop, &event, NULL));
}

/* An intermission cuts the first block short, its rating tightens the second:
 * a restart that loses when the intermission began goes on in block 1 instead. */
static void
a_restart_on_air_keeps_a_rating (void **state)
{
  Stream *s = g_new0 (Stream, 1);
  char *folder = folder_new (), *path = g_build_filename (folder, "diary.sqlite", NULL);
  CarpaceDiaryStore *store = carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL);
  CarpaceLoopPorts ports = { .clock = { s, now }, .store = carpace_store_port (store) };
  CarpaceResume resume;

  carpace_trace_plan (&s->plan, 2, 13);
  s->plan.on_air_every_ms = 11 * CARPACE_MINUTE_MS;
  s->plan.on_air_from = CARPACE_ON_AIR_FROM_STREAM;
  s->plan.on_air_notice_ms = 2 * CARPACE_MINUTE_MS;
  s->plan.on_air_length_ms = 5 * CARPACE_MINUTE_MS;
  s->now = moment (0);
  carpace_store_start_run (store, "boot", 0, s->now);
  carpace_loop_init (&s->loop, &ports, NULL);
  carpace_loop_open (&s->loop, &s->plan);
  tell_at (s, 0, (CarpaceEvent){ .kind = CARPACE_EVENT_ON_AIR });
  tell_at (s, 5 * CARPACE_SECOND_MS, (CarpaceEvent){ .kind = CARPACE_EVENT_INPUT, .fact = { .since_ms = moment (4000).elapsed_ms } });
  tell_at (s, 10 * CARPACE_SECOND_MS, (CarpaceEvent){ .kind = CARPACE_EVENT_START });
  tell_at (s, 690 * CARPACE_SECOND_MS, (CarpaceEvent){ .kind = CARPACE_EVENT_STILL });
  tell_at (s, 700 * CARPACE_SECOND_MS, (CarpaceEvent){ .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = 2 } });
  assert_int_equal (carpace_loop_view (&s->loop)->block, 2);
  assert_int_equal (carpace_loop_view (&s->loop)->limit_ms, 480 * CARPACE_SECOND_MS); /* 13 min x 0.65, down to 30 s */
  carpace_store_close (store, false);

  store = carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL);
  s->now = moment (720 * CARPACE_SECOND_MS);
  carpace_store_resume (store, &resume);
  /* the stream began before the day was opened; the rating was the last step */
  assert_true (resume.stream_known);
  assert_int_equal (resume.stream.elapsed_ms, moment (0).elapsed_ms);
  assert_int_equal (resume.history.hand, CARPACE_HAND_MOVING);
  assert_int_equal (resume.history.moving_since, moment (4000).elapsed_ms);
  assert_int_equal (resume.kept_ms, moment (700 * CARPACE_SECOND_MS).elapsed_ms);
  carpace_loop_init (&s->loop, &(CarpaceLoopPorts){ .clock = { s, now } }, NULL);
  carpace_loop_resume (&s->loop, &s->plan, &resume);
  assert_int_equal (carpace_loop_view (&s->loop)->block, 2);
  assert_int_equal (carpace_loop_view (&s->loop)->limit_ms, 480 * CARPACE_SECOND_MS);
  carpace_store_resume_clear (&resume);
  carpace_store_close (store, true);
  g_free (path);
  folder_free (folder);
  g_free (s);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_restart_reads_what_was_told),
    cmocka_unit_test (a_restart_on_air_keeps_a_rating),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
