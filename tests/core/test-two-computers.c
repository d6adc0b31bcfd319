/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-two-computers.c: two computers of one player that decided about one day without
 * knowing of each other, and their diaries joined: the careful outcome stands,
 * whichever of them came first. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/loop.h"
#include "carpace/history-fold.h"
#include "trace.h"

#define TOLD 400

typedef struct
{
  CarpaceInstant now;
  CarpaceLoop loop;
  CarpacePlan plan;
  int n;
  CarpaceEntry told[TOLD];
} Computer;

static CarpaceInstant
clock_now (void *self)
{
  return ((Computer *) self)->now;
}

static void
hear (void *self, const CarpaceEntry *entry)
{
  Computer *computer = self;

  assert_true (computer->n < TOLD);
  computer->told[computer->n++] = *entry;
}

static Computer *
begin (const CarpaceHistory *history, const char *at)
{
  Computer *computer = calloc (1, sizeof *computer);
  CarpaceLoopPorts ports = { .clock = { computer, clock_now }, .listener = computer, .entry = hear };

  carpace_trace_plan (&computer->plan, 2, 30);
  computer->plan.at_most_ms = 90 * CARPACE_MINUTE_MS;
  carpace_instant_read (at, &computer->now);
  computer->now.elapsed_ms = computer->now.wall_ms; /* both clocks begin together, as in a diary that was joined */
  carpace_loop_init (&computer->loop, &ports, history);
  carpace_loop_open (&computer->loop, &computer->plan);
  return computer;
}

/* A day: the morning told, a block, its rating. */
static void
one_day (Computer *computer, const CarpaceMorning *morning, int32_t discomfort)
{
  CarpaceEvent told = { .kind = CARPACE_EVENT_MORNING, .morning = *morning };
  static const CarpaceEventKind block[] = { CARPACE_EVENT_START, CARPACE_EVENT_INPUT, CARPACE_EVENT_END };

  carpace_loop_tell (&computer->loop, &told, NULL);
  for (int i = 0; i < 3; i++)
    {
      CarpaceEvent event = { .kind = block[i] };

      computer->now = carpace_instant_after (computer->now, 10 * CARPACE_MINUTE_MS);
      event.fact.since_ms = computer->now.elapsed_ms;
      carpace_loop_due (&computer->loop);
      carpace_loop_tell (&computer->loop, &event, NULL);
    }
  told = (CarpaceEvent){ .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = discomfort } };
  computer->now = carpace_instant_after (computer->now, CARPACE_SECOND_MS);
  carpace_loop_tell (&computer->loop, &told, NULL);
}

static void
until_next_day (Computer *computer)
{
  computer->now = carpace_instant_after (computer->now, CARPACE_DAY_MS - 31 * CARPACE_MINUTE_MS);
  carpace_loop_due (&computer->loop);
}

/* Both diaries in one, in the order of what happened. */
static const CarpaceHistory *
joined (const Computer *a, const Computer *b, CarpaceHistoryFold *fold)
{
  int i = 0, j = 0;

  carpace_history_fold_init (fold);
  while (i < a->n || j < b->n)
    if (j == b->n || (i < a->n && a->told[i].at.elapsed_ms <= b->told[j].at.elapsed_ms))
      carpace_history_fold (fold, &a->told[i++]);
    else
      carpace_history_fold (fold, &b->told[j++]);
  return carpace_history_fold_now (fold);
}

static int64_t
less (int64_t a, int64_t b)
{
  return a < b ? a : b;
}

#define MORNING(on_waking, how_stiff) { .waking = on_waking, .stiffness = how_stiff, .now = -1 }

static const struct
{
  const char *row;
  CarpaceMorning mornings[2]; /* one a computer */
} rows[] = {
  { "as usual here, stiffer there", { MORNING (0, CARPACE_STIFFNESS_USUAL), MORNING (0, CARPACE_STIFFNESS_MORE) } },
  { "not told here, worse there", { MORNING (-1, CARPACE_STIFFNESS_UNSAID), MORNING (3, CARPACE_STIFFNESS_USUAL) } },
  { "as usual here, above stop there", { MORNING (0, CARPACE_STIFFNESS_USUAL), MORNING (7, CARPACE_STIFFNESS_USUAL) } },
  { "worse here, above stop there", { MORNING (3, CARPACE_STIFFNESS_USUAL), MORNING (7, CARPACE_STIFFNESS_USUAL) } },
  { "as usual on both", { MORNING (0, CARPACE_STIFFNESS_USUAL), MORNING (0, CARPACE_STIFFNESS_USUAL) } },
};

/* Nothing that either holds to is undone by the other. */
static void
assert_careful (const CarpaceHistory *both, const CarpaceHistory *a, const CarpaceHistory *b)
{
  if (both->dose_ms > less (a->dose_ms, b->dose_ms) || both->level_ms > less (a->level_ms, b->level_ms)
      || both->caution_open != (a->caution_open || b->caution_open))
    fail_msg ("dose %d of %d and %d min, level %d of %d and %d, caution %d of %d and %d",
              (int) (both->dose_ms / CARPACE_MINUTE_MS), (int) (a->dose_ms / CARPACE_MINUTE_MS),
              (int) (b->dose_ms / CARPACE_MINUTE_MS), (int) (both->level_ms / CARPACE_MINUTE_MS),
              (int) (a->level_ms / CARPACE_MINUTE_MS), (int) (b->level_ms / CARPACE_MINUTE_MS), both->caution_open,
              a->caution_open, b->caution_open);
}

static void
one_day_decided_twice (void **state)
{
  CarpaceHistoryFold *fold = malloc (sizeof *fold);

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    for (int first = 0; first < 2; first++)
      {
        Computer *a = begin (NULL, first == 0 ? "2027-03-02T18:00:00+01:00" : "2027-03-02T20:00:00+01:00");
        Computer *b = begin (NULL, first == 0 ? "2027-03-02T20:00:00+01:00" : "2027-03-02T18:00:00+01:00");

        print_message ("%s, %s first\n", rows[i].row, first == 0 ? "this one" : "the other");
        one_day (a, &rows[i].mornings[0], 0);
        one_day (b, &rows[i].mornings[1], 0);
        assert_careful (joined (a, b, fold), &a->loop.session.history, &b->loop.session.history);
        assert_int_equal (fold->day.no_practice,
                          a->loop.session.today.no_practice || b->loop.session.today.no_practice);
        free (a);
        free (b);
      }
  free (fold);
}

/* Each goes on for a week by itself; on some of its days both practised. */
static void
weeks_apart (void **state)
{
  CarpaceHistoryFold *fold = malloc (sizeof *fold);

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    for (int first = 0; first < 2; first++)
      {
        Computer *a = begin (NULL, first == 0 ? "2027-03-02T18:00:00+01:00" : "2027-03-02T20:00:00+01:00");
        Computer *b = begin (NULL, first == 0 ? "2027-03-02T20:00:00+01:00" : "2027-03-02T18:00:00+01:00");

        print_message ("%s, %s first\n", rows[i].row, first == 0 ? "this one" : "the other");
        for (int day = 0; day < 6; day++)
          {
            one_day (a, &rows[i].mornings[day == 2 ? 0 : 1], 0);
            one_day (b, &rows[i].mornings[day == 2 ? 1 : 0], day == 3 ? 4 : 0);
            until_next_day (a);
            until_next_day (b);
            assert_careful (joined (a, b, fold), &a->loop.session.history, &b->loop.session.history);
          }
        free (a);
        free (b);
      }
  free (fold);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (one_day_decided_twice),
    cmocka_unit_test (weeks_apart),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
