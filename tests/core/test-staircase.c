/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-staircase.c: on a hand without memory the level is an up-and-down staircase,
 * and settles where the theory of those has it.
 *
 * The hand: a morning is worse with a probability that depends on yesterday's
 * minutes alone: none up to a length, then in a straight line. Then of the rows
 * only these act: a first and second worse morning cut for a day, the third in 14
 * dates brings the level down to 85 %, three good days and a week bring it up.
 *
 * Dixon and Mood, 1948, J Am Stat Assoc 43:109 (up and down by single answers; the
 * mean of the levels tried is what is looked for); Wetherill and Levitt, 1965, Br J
 * Math Stat Psychol 18:1 (answers are gathered to an "up" or a "down", and the level
 * settles where these balance); with unequal steps where what the ups gain is what
 * the downs lose (Kaernbach 1991, Percept Psychophys 49:227). From memory.
 *
 * What is gathered to an "up" and a "down" at a level is worked out here by itself,
 * day by day, from the rows as they are written, without the rules' code. Then the
 * balance says where the level settles, to half the mean of the steps, since it
 * takes steps as small; and the same staircase walked says it to half a minute. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/dose.h"
#include "random.h"
#include "trace.h"

#define MIN CARPACE_MINUTE_MS
#define LONGEST 160      /* days that an up or down is looked for: beyond, next to nothing is left */
#define HALF_STEP_DAYS 21
#define WINDOW 14
#define MOST_LEVEL 120
#define CHANGES 200000
#define RUNS 40
#define DAYS 1500
#define WARM_UP 150

typedef struct
{
  double from_min, width_min; /* none worse up to here; all of them this much further */
} Hand;

static double
worse_after (const Hand *hand, double minutes)
{
  double p = (minutes - hand->from_min) / hand->width_min;

  return p < 0 ? 0 : p > 1 ? 1 : p;
}

/* ---- the theory ---- */

/* With what probability the level goes up, or down, on each day after it changed. */
typedef struct
{
  double up[LONGEST + 1], down[LONGEST + 1];
} Ends;

/* From the morning of day @d on, with @good good days behind it, worse mornings on
 * @one and @two (-99 where none), reached with probability @weight. */
static void
look_ahead (Ends *ends, double p, int d, int good, int one, int two, double weight)
{
  bool third = two > d - WINDOW;

  if (d > LONGEST || weight < 1e-9)
    return;
  if (third)
    ends->down[d] += weight * p;
  else if (d + 2 <= LONGEST) /* a day's cut, settled, and back at the level */
    look_ahead (ends, p, d + 2, 0, d, one, weight * p);
  good++;
  if (d >= 7 && good >= 3)
    ends->up[d] += weight * (1 - p);
  else
    look_ahead (ends, p, d + 1, good, one, two, weight * (1 - p));
}

/* @from: the first day at the level. */
static void
ends_of (Ends *ends, double p, int from)
{
  memset (ends, 0, sizeof *ends);
  look_ahead (ends, p, from + 1, 0, -99, -99, 1);
}

static double
step_at (int since_down)
{
  return since_down <= HALF_STEP_DAYS ? 3 : 6;
}

/* Minutes gained by steps up between two times that the level comes down. */
static double
gained (double level, double p)
{
  double after[HALF_STEP_DAYS + 2 * LONGEST + 2] = { 0 }, all = 0, gain = 0;
  int way_back = (int) ceil ((level - 0.65 * level / 0.85) / 6);
  Ends up, down;

  ends_of (&up, p, 0);
  ends_of (&down, p, way_back);
  for (int t = 0; t <= LONGEST; t++)
    all += up.up[t];
  for (size_t t = HALF_STEP_DAYS; t < sizeof after / sizeof after[0]; t++)
    after[t] = 6 * all / (1 - all); /* whole steps for ever */
  for (int since = HALF_STEP_DAYS - 1; since >= 0; since--)
    for (int t = 0; t <= LONGEST; t++)
      after[since] += up.up[t] * (step_at (since + t) + after[since + t]);
  for (int t = 0; t <= LONGEST; t++)
    gain += down.up[t] * (step_at (t) + after[t]);
  return gain;
}

/* Where gain and loss balance. */
static double
settles_at (const Hand *hand)
{
  double low = hand->from_min, high = hand->from_min + hand->width_min;

  for (int i = 0; i < 40; i++)
    {
      double level = (low + high) / 2;
      if (gained (level, worse_after (hand, level)) > 0.15 * level)
        low = level;
      else
        high = level;
    }
  return (low + high) / 2;
}

/* The same staircase walked step by step, which the balance is an approximation
 * of: it takes steps as small beside the spread, and 8 min are not. The mean of
 * the levels that were left. */
static double
walks_to (const Hand *hand, uint64_t seed)
{
  static Ends up[MOST_LEVEL + 1], down[MOST_LEVEL + 1];
  Random random = { seed };
  int level = 60, since = 1000;
  bool came_down = false;
  double sum = 0;

  for (int l = 0; l <= MOST_LEVEL; l++)
    {
      ends_of (&up[l], worse_after (hand, l), 0);
      ends_of (&down[l], worse_after (hand, l), (int) ceil ((l - floor (0.65 * l / 0.85)) / 6));
    }
  for (int i = 0; i < CHANGES; i++)
    {
      const Ends *ends = came_down ? &down[level] : &up[level];
      double left = random_real (&random, 0, 1);
      int day = 0;
      sum += level;
      while (day < LONGEST && (left -= ends->up[day] + ends->down[day]) > 0)
        day++;
      came_down = left + ends->down[day] > 0; /* the last of the two that were taken off */
      since = came_down ? 0 : since + day;
      level = came_down ? level * 85 / 100 : level + (int) step_at (since);
      level = level > MOST_LEVEL ? MOST_LEVEL : level;
    }
  return sum / CHANGES;
}

/* ---- the rules ---- */

static CarpaceDayRecord
practised (CarpaceDay day, const CarpaceHistory *h, const CarpaceDecision *d, const CarpaceMorning *check)
{
  return (CarpaceDayRecord){ .day = day, .dose_ms = h->dose_ms, .done_ms = h->dose_ms, .limits_ms = h->dose_ms,
                             .morning = *check, .worse = check->stiffness == CARPACE_STIFFNESS_MORE, .rule = d->rule,
                             .n_ratings = 2, .last_answered = true, .other_ms = -1,
                             .last_end_elapsed_ms = (int64_t) day * CARPACE_DAY_MS };
}

/* The mean of the levels that were left, up or down, minutes. */
static double
level_of_a_season (const Hand *hand, const CarpacePlan *plan, uint64_t seed)
{
  Random random = { seed };
  CarpaceHistory *h = calloc (1, sizeof *h);
  double sum = 0;
  int n = 0;

  carpace_history_init (h);
  for (int32_t day = 0; day < DAYS; day++)
    {
      double minutes = h->n_days > 0 ? (double) h->days[h->n_days - 1].done_ms / MIN : 0;
      bool worse = random_real (&random, 0, 1) < worse_after (hand, minutes);
      CarpaceMorning check = { .waking = 0, .stiffness = worse ? CARPACE_STIFFNESS_MORE : CARPACE_STIFFNESS_USUAL, .now = -1 };
      CarpaceDayRecord record;
      CarpaceDecision d;
      carpace_dose_decide (h, plan, day, (int64_t) day * CARPACE_DAY_MS, &check, &d);
      carpace_dose_apply (h, &d, day);
      if (h->caution_open) /* rests in a row; a player without memory has been seen at once */
        carpace_dose_close_caution (h, day, 0);
      if (day > WARM_UP && (d.level_down || d.level_ms != d.level_before_ms))
        {
          sum += (double) d.level_before_ms / MIN;
          n++;
        }
      record = practised (day, h, &d, &check);
      if (d.no_practice)
        record.done_ms = record.dose_ms = 0;
      carpace_history_add (h, &record);
    }
  free (h);
  assert_true (n > 10);
  return sum / n;
}

static void
test_where_it_settles (void **state)
{
  static const Hand hands[] = { { 44, 30 }, { 40, 30 }, { 50, 36 }, { 36, 28 }, { 48, 40 } };
  CarpacePlan *plan = calloc (1, sizeof *plan);

  carpace_trace_plan (plan, 2, 30);
  plan->at_most_ms = 120 * MIN;
  for (size_t i = 0; i < sizeof hands / sizeof hands[0]; i++)
    {
      double balance = settles_at (&hands[i]), walk = walks_to (&hands[i], 1), sum = 0, squares = 0, mean, error;
      for (uint64_t run = 0; run < RUNS; run++)
        {
          double of_run = level_of_a_season (&hands[i], plan, run + 1);
          sum += of_run;
          squares += of_run * of_run;
        }
      mean = sum / RUNS;
      error = sqrt ((squares / RUNS - mean * mean) / (RUNS - 1));
      print_message ("mornings worse from %.0f min on: the level settles at %.2f +- %.2f min; the staircase at %.2f, its balance at %.2f min, "
                     "where %.0f %% are worse\n",
                     hands[i].from_min, mean, error, walk, balance, 100 * worse_after (&hands[i], balance));
      assert_true (fabs (mean - walk) <= 0.5 + 3 * error);
      assert_true (fabs (mean - balance) <= (0.15 * balance + 3) / 4 + 3 * error); /* half the mean of the steps down and up */
    }
  free (plan);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_where_it_settles) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
