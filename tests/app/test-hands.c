/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-hands.c: the invented hands against their own formulas, chance against
 * what it should come to, and the exponential against the C library's. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "app/players.h"

#define MINUTE ((double) CARPACE_MINUTE_MS)
#define TAKES (50 * MINUTE)
#define NEAR 1e-9
#define assert_near(a, b) assert_true (fabs ((a) - (b)) < NEAR)

static void
test_exponential (void **state)
{
  for (double x = -40; x <= 40; x += 0.37)
    assert_true (fabs (carpace_hand_exp (x) / exp (x) - 1) < 1e-12);
}

/* The first numbers of seed 1234567, from memory of published test vectors: not
 * looked up. */
static void
test_stream (void **state)
{
  static const uint64_t first[] = { UINT64_C (6457827717110365317), UINT64_C (3203168211198807973),
                                    UINT64_C (9817491932198370423) };
  CarpaceRandom random = { 1234567 };

  for (size_t i = 0; i < sizeof first / sizeof first[0]; i++)
    assert_int_equal (carpace_random_roll (&random, 0, 999999), (int32_t) (first[i] % 1000000));
}

static void
test_scatter_has_mean_0_and_deviation_1 (void **state)
{
  enum { N = 100000 };
  CarpaceRandom random = { 7 };
  double sum = 0, squares = 0, z;

  for (int i = 0; i < N; i++)
    {
      z = carpace_random_scatter (&random);
      sum += z;
      squares += z * z;
    }
  assert_true (fabs (sum / N) < 4 / sqrt (N));                       /* four standard errors */
  assert_true (fabs (squares / N - 1) < 4 * sqrt (2.0 / N) + 0.002); /* whole thousandths widen it by 0.002 */
}

static CarpaceModelHand
hand_of (CarpaceHandModel model)
{
  CarpaceRandom random = { 3 };
  CarpaceModelHand hand;

  carpace_hand_init (&hand, model, 6, 60 * MINUTE, &random);
  hand.keeps = 0.5;
  hand.takes_ms = TAKES;
  return hand;
}

/* What one day of @minutes comes to, that evening and the next two mornings. */
static void
test_one_day (void **state)
{
  static const struct
  {
    CarpaceHandModel model;
    double minutes, evening, morning, second_morning;
  } rows[] = {
    { CARPACE_HAND_STRAIGHT, 49, 0, 0, 0 },
    { CARPACE_HAND_STRAIGHT, 50, 0, 0, 0 },
    { CARPACE_HAND_STRAIGHT, 60, 1, 0.7, 0.49 },
    { CARPACE_HAND_EXCESS, 50, 0, 0, 0 },
    { CARPACE_HAND_EXCESS, 60, 1, 1.25, 0.625 },
    { CARPACE_HAND_FIFTH_POWER, 50, 0.8, 0.5, 0.25 },
    { CARPACE_HAND_FIFTH_POWER, 75, 1.8, 3.796875, 1.8984375 },
    { CARPACE_HAND_FIFTH_POWER, 100, 3.2, 5, 2.5 },
    { CARPACE_HAND_DAY_LATE, 50, 0, 0, 0 },
    { CARPACE_HAND_DAY_LATE, 60, 0, 0, 1.4 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceModelHand hand = hand_of (rows[i].model);
      assert_near (carpace_hand_feels (&hand, rows[i].minutes * MINUTE), rows[i].evening);
      carpace_hand_sleep (&hand, rows[i].minutes * MINUTE);
      assert_near (hand.irritation, rows[i].morning);
      carpace_hand_sleep (&hand, 0);
      assert_near (hand.irritation, rows[i].second_morning);
    }
}

/* A day-late hand answers the second of two equal days more than the first. */
static void
test_day_late_is_sensitised (void **state)
{
  CarpaceModelHand hand = hand_of (CARPACE_HAND_DAY_LATE);
  double first;

  carpace_hand_sleep (&hand, 60 * MINUTE);
  first = hand.yesterday;
  assert_near (first, 0.2);
  assert_near (carpace_hand_feels (&hand, 0), 0.8);
  carpace_hand_sleep (&hand, 60 * MINUTE);
  assert_near (hand.yesterday, 1.2 * 1.05 - 1);
  for (int day = 0; day < 30; day++)
    carpace_hand_sleep (&hand, 200 * MINUTE);
  assert_near (hand.sensitised, 0.5);
  assert_near (hand.irritation, 9);
  for (int day = 0; day < 60; day++)
    carpace_hand_sleep (&hand, 0);
  assert_true (hand.irritation < 0.001 && hand.sensitised < 0.001);
}

static void
test_stiffness (void **state)
{
  static const struct
  {
    CarpaceHandModel model;
    double irritation, chance;
  } rows[] = {
    { CARPACE_HAND_STRAIGHT, 1.99, 0 }, { CARPACE_HAND_STRAIGHT, 2, 1 }, { CARPACE_HAND_EXCESS, 1.99, 0 },
    { CARPACE_HAND_EXCESS, 2, 1 },      { CARPACE_HAND_DAY_LATE, 2, 1 }, { CARPACE_HAND_FIFTH_POWER, 0.79, 0 },
    { CARPACE_HAND_FIFTH_POWER, 0.8, 0.0293 }, { CARPACE_HAND_FIFTH_POWER, 2.2, 0.5 },
    { CARPACE_HAND_FIFTH_POWER, 4, 0.989 },
  };
  enum { N = 20000 };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceModelHand hand = hand_of (rows[i].model);
      CarpaceRandom random = { 11 };
      int stiffer = 0;
      hand.irritation = rows[i].irritation;
      for (int n = 0; n < N; n++)
        stiffer += carpace_hand_is_stiffer (&hand, &random);
      assert_true (fabs ((double) stiffer / N - rows[i].chance)
                   <= 4 * sqrt (rows[i].chance * (1 - rows[i].chance) / N));
    }
}

static void
test_a_night_leaves_what_one_to_three_days_leave (void **state)
{
  double least = 1, most = 0;

  for (uint64_t seed = 0; seed < 2000; seed++)
    {
      CarpaceRandom random = { seed };
      CarpaceModelHand hand;
      carpace_hand_init (&hand, CARPACE_HAND_EXCESS, 6, TAKES, &random);
      least = fmin (least, hand.keeps);
      most = fmax (most, hand.keeps);
    }
  assert_true (least >= exp (-1.0) - NEAR && least < exp (-1 / 1.05));
  assert_true (most <= exp (-1.0 / 3) && most > exp (-1 / 2.95));
}

static void
test_takes_anything (void **state)
{
  for (CarpaceHandModel model = 0; model < CARPACE_N_HAND_MODELS; model++)
    {
      CarpaceModelHand hand = hand_of (model);
      hand.takes_ms = 0;
      assert_near (carpace_hand_feels (&hand, 500 * MINUTE), 0);
      carpace_hand_sleep (&hand, 500 * MINUTE);
      assert_near (hand.irritation, 0);
    }
}

/* What it takes day by day: one below, at, one above each edge. */
static void
test_what_it_takes (void **state)
{
  static const CarpacePlan plan = { .dose_ms = 60 * CARPACE_MINUTE_MS };
  static const struct
  {
    CarpacePlayerTraits traits;
    int32_t day, minutes;
  } rows[] = {
    { { 0 }, 5, 0 },
    { { .takes_pct = 80 }, 83, 48 },
    { { .takes_ms = 50 * CARPACE_MINUTE_MS, .takes_pct = 80 }, 0, 50 },
    { { .takes_pct = 100, .drops_pct = 40 }, 20, 60 },
    { { .takes_pct = 100, .drops_pct = 40 }, 21, 36 },
    { { .takes_pct = 100, .drops_pct = 40 }, 41, 36 },
    { { .takes_pct = 100, .drops_pct = 40 }, 42, 60 },
    { { .takes_pct = 100, .grows_pct = 5 }, 6, 60 },
    { { .takes_pct = 100, .grows_pct = 5 }, 7, 63 },
    { { .takes_pct = 100, .grows_pct = 5 }, 70, 90 },
  };
  const CarpacePlayerTraits varied = { .takes_pct = 50, .takes_to_pct = 60 };
  int64_t least = INT64_MAX, most = 0;

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    assert_int_equal (carpace_player_takes_ms (&plan, &rows[i].traits, 1, rows[i].day),
                      rows[i].minutes * CARPACE_MINUTE_MS);
  for (uint64_t seed = 0; seed < 300; seed++)
    {
      int64_t takes_ms = carpace_player_takes_ms (&plan, &varied, seed, 0);
      assert_int_equal (takes_ms, carpace_player_takes_ms (&plan, &varied, seed, 83));
      least = takes_ms < least ? takes_ms : least;
      most = takes_ms > most ? takes_ms : most;
    }
  assert_int_equal (least, 30 * CARPACE_MINUTE_MS);
  assert_int_equal (most, 36 * CARPACE_MINUTE_MS);
}

static void
test_each_has_a_word (void **state)
{
  for (CarpacePlayerKind kind = 0; kind < CARPACE_N_PLAYERS; kind++)
    for (CarpacePlayerKind other = 0; other < kind; other++)
      assert_string_not_equal (carpace_player_word (kind), carpace_player_word (other));
  for (CarpaceHandModel model = 0; model < CARPACE_N_HAND_MODELS; model++)
    assert_true (strlen (carpace_hand_model_word (model)) > 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_exponential),
    cmocka_unit_test (test_stream),
    cmocka_unit_test (test_scatter_has_mean_0_and_deviation_1),
    cmocka_unit_test (test_one_day),
    cmocka_unit_test (test_day_late_is_sensitised),
    cmocka_unit_test (test_stiffness),
    cmocka_unit_test (test_a_night_leaves_what_one_to_three_days_leave),
    cmocka_unit_test (test_takes_anything),
    cmocka_unit_test (test_what_it_takes),
    cmocka_unit_test (test_each_has_a_word),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
