/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-day-sum.c: what each kind of entry adds to the sum of its day, and what
 * it leaves alone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/day-sum.h"
#include "carpace/entry-fields.h"

#define S CARPACE_SECOND_MS
#define MINUTE CARPACE_MINUTE_MS

static CarpaceSumming summing;

static int
begin (void **state)
{
  carpace_summing_init (&summing, 20000);
  return 0;
}

static CarpaceEntry
entry_of (CarpaceEntryKind kind)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, kind, (CarpaceInstant){ 0 });
  return entry;
}

static CarpaceDaySum
sum (void)
{
  return carpace_summing_end (&summing);
}

/* ---- ratings ---- */

/* @corrects: -1 where it is a first answer. */
static void
rate (int64_t at_ms, int32_t block, int32_t discomfort, int32_t corrects, bool late)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_RATING);

  entry.at.elapsed_ms = at_ms;
  entry.rating.block = block;
  entry.rating.discomfort = discomfort;
  entry.rating.corrects = corrects;
  entry.rating.late = late;
  carpace_summing_add (&summing, &entry);
}

static void
assert_ratings (int32_t n, int32_t unanswered, int32_t zeros, int32_t rating_sum, int32_t highest)
{
  assert_int_equal (sum ().n_ratings, n);
  assert_int_equal (sum ().unanswered, unanswered);
  assert_int_equal (sum ().zeros, zeros);
  assert_int_equal (sum ().rating_sum, rating_sum);
  assert_int_equal (sum ().highest, highest);
}

static void
a_day_without_records (void **state)
{
  assert_ratings (0, 0, 0, 0, -1);
  assert_int_equal (sum ().day, 20000);
  assert_int_equal (sum ().other_ms, -1);
  assert_int_equal (sum ().morning.waking, -1);
  assert_int_equal (sum ().morning.now, -1);
  assert_int_equal (sum ().morning.stiffness, CARPACE_STIFFNESS_UNSAID);
  assert_false (sum ().morning_known || sum ().caution || sum ().no_practice);
}

static void
numbers_zeros_and_silence (void **state)
{
  rate (0, 1, 0, -1, false);
  assert_ratings (1, 0, 1, 0, 0);
  rate (1, 2, 3, -1, false);
  assert_ratings (2, 0, 1, 3, 3);
  rate (2, 3, -1, -1, false);
  assert_ratings (2, 1, 1, 3, 3);
  rate (3, 4, 1, -1, false);
  assert_ratings (3, 1, 1, 4, 3);
}

static void
silence_alone_has_no_highest (void **state)
{
  rate (0, 1, -1, -1, false);
  assert_ratings (0, 1, 0, 0, -1);
}

/* A late number ends its own block's silence, and no other's. */
static void
a_late_answer (void **state)
{
  rate (0, 1, -1, -1, false);
  rate (1, 2, -1, -1, false);
  rate (2, 1, 2, -1, true);
  assert_int_equal (summing.last_given, 0);
  assert_ratings (1, 1, 0, 2, 2);
  rate (3, 3, 5, -1, true); /* none was recorded: it stands by itself */
  assert_int_equal (summing.last_given, 2);
  assert_ratings (2, 1, 0, 7, 5);
  rate (4, 2, 1, -1, false); /* a further rating of the block, not a late one */
  assert_int_equal (summing.last_given, 3);
  assert_ratings (3, 1, 0, 8, 5);
}

/* Matches all have number 0: the last of them with that number is meant. */
static void
which_rating_is_corrected (void **state)
{
  rate (0, 0, 2, -1, false);
  rate (1, 0, 2, -1, false);
  rate (2, 0, 3, -1, false);
  rate (3, 1, 2, -1, false);
  rate (4, 0, 4, 2, false);
  assert_int_equal (summing.last_given, 1);
  assert_ratings (4, 0, 0, 11, 4);
  rate (5, 0, 5, 2, false);
  assert_int_equal (summing.last_given, 0);
  assert_ratings (4, 0, 0, 14, 5);
  rate (6, 0, 6, 2, false); /* nothing is left that it could correct */
  assert_int_equal (summing.last_given, 4);
  assert_ratings (5, 0, 0, 20, 6);
}

/* A 0 can be corrected. */
static void
a_zero_is_corrected (void **state)
{
  rate (0, 1, 0, -1, false);
  rate (1, 1, 3, 0, false);
  assert_ratings (1, 0, 0, 3, 3);
}

/* It is the match that is meant, not what lies unused behind it. */
static void
a_match_of_zero_is_corrected (void **state)
{
  rate (0, 0, 0, -1, false);
  rate (50 * S, 0, 3, 0, false);
  assert_int_equal (summing.last_given, 0);
  rate (70 * S, 0, 1, 3, false); /* 60 s are over */
  assert_ratings (1, 0, 0, 3, 3);
}

/* A correction whose rating is not there stands by itself. */
static void
a_correction_of_nothing (void **state)
{
  rate (5 * MINUTE, 1, 1, 4, false);
  assert_ratings (1, 0, 0, 1, 1);
  assert_true (carpace_correction_counts (5 * MINUTE, 4, 4));
  assert_false (carpace_correction_counts (5 * MINUTE, 4, 3));
}

/* Within 60 s of the first answer a lower number counts, a higher one ever. */
static void
which_correction_counts (void **state)
{
  static const struct { int64_t after_ms; int32_t to, stands; } rows[] = {
    { 60 * S - 1, 1, 1 },      { 60 * S, 1, 1 },      { 60 * S + 1, 1, 4 },
    { 60 * S + 1, 4, 4 },      { 60 * S + 1, 5, 5 },
    { 10 * MINUTE - 1, 1, 4 }, { 10 * MINUTE, 1, 4 }, { 10 * MINUTE + 1, 1, 1 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      begin (state);
      rate (1000, 1, 4, -1, false);
      rate (1000 + rows[i].after_ms, 1, rows[i].to, 4, false);
      assert_ratings (1, 0, 0, rows[i].stands, rows[i].stands);
      assert_int_equal (summing.last_given, 0);
    }
}

/* The 60 s run from the answer, not from its correction, nor from the silence. */
static void
since_the_first_answer (void **state)
{
  rate (0, 1, 3, -1, false);
  rate (50 * S, 1, 5, 3, false);
  rate (70 * S, 1, 2, 5, false);
  assert_ratings (1, 0, 0, 5, 5);
  begin (state);
  rate (0, 1, -1, -1, false);
  rate (50 * S, 1, 5, -1, true);
  rate (70 * S, 1, 2, 5, false);
  assert_ratings (1, 0, 0, 2, 2);
}

/* 127, 128 and 129 of them. */
static void
more_ratings_than_there_is_room_for (void **state)
{
  for (int32_t block = 1; block < CARPACE_SUM_RATINGS; block++)
    rate (block, block, 1, -1, false);
  assert_ratings (CARPACE_SUM_RATINGS - 1, 0, 0, CARPACE_SUM_RATINGS - 1, 1);
  rate (0, CARPACE_SUM_RATINGS, 2, -1, false);
  assert_int_equal (summing.last_given, CARPACE_SUM_RATINGS - 1);
  assert_ratings (CARPACE_SUM_RATINGS, 0, 0, CARPACE_SUM_RATINGS + 1, 2);
  rate (0, CARPACE_SUM_RATINGS + 1, 3, -1, false);
  assert_int_equal (summing.last_given, -1);
  assert_ratings (CARPACE_SUM_RATINGS, 0, 0, CARPACE_SUM_RATINGS + 1, 2);
  rate (0, CARPACE_SUM_RATINGS, 4, 2, false);
  assert_int_equal (summing.last_given, CARPACE_SUM_RATINGS - 1);
  assert_ratings (CARPACE_SUM_RATINGS, 0, 0, CARPACE_SUM_RATINGS + 3, 4);
}

/* ---- practice ---- */

static void
block (CarpaceBlockWhat what, bool match, int64_t active_ms)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_BLOCK);

  entry.block.what = what;
  entry.block.match = match;
  entry.block.active_ms = active_ms;
  carpace_summing_add (&summing, &entry);
}

static void
assert_done (int64_t done_ms, int64_t match_ms, int32_t blocks)
{
  assert_int_equal (sum ().done_ms, done_ms);
  assert_int_equal (sum ().match_ms, match_ms);
  assert_int_equal (sum ().blocks, blocks);
}

/* What was done of a block that was dropped counts as time, not as a block. */
static void
blocks_and_matches (void **state)
{
  CarpaceEntry overrun = entry_of (CARPACE_ENTRY_OVERRUN);

  block (CARPACE_BLOCK_STARTED, false, 7);
  assert_done (0, 0, 0);
  block (CARPACE_BLOCK_ENDED, false, 100);
  assert_done (100, 0, 1);
  block (CARPACE_BLOCK_DROPPED, false, 20);
  assert_done (120, 0, 1);
  block (CARPACE_BLOCK_ENDED, true, 3000);
  assert_done (120, 3000, 1);
  block (CARPACE_BLOCK_DROPPED, true, 400);
  assert_done (120, 3400, 1);
  overrun.overrun.ms = 5;
  carpace_summing_add (&summing, &overrun);
  assert_done (125, 3400, 1);
}

/* ---- rests ---- */

static void
cue (CarpaceCue which, CarpaceCueWhat what)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_CUE);

  entry.cue.cue = which;
  entry.cue.what = what;
  carpace_summing_add (&summing, &entry);
}

static void
rest (CarpaceRestWhat what)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_REST);

  entry.rest.what = what;
  carpace_summing_add (&summing, &entry);
}

static void
assert_rests (int32_t offered, int32_t taken, int32_t declined)
{
  assert_int_equal (sum ().offered, offered);
  assert_int_equal (sum ().taken, taken);
  assert_int_equal (sum ().declined, declined);
}

/* An offer shown again is the same; one that was put off is still there. */
static void
offers_and_what_came_of_them (void **state)
{
  cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_WITHDRAWN);
  cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  assert_rests (1, 0, 0);
  rest (CARPACE_REST_DEFERRED);
  cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  rest (CARPACE_REST_TAKEN);
  assert_rests (1, 1, 0);
  rest (CARPACE_REST_TAKEN); /* nothing was offered */
  rest (CARPACE_REST_DECLINED);
  assert_rests (1, 1, 0);
  cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  rest (CARPACE_REST_DECLINED);
  rest (CARPACE_REST_DECLINED);
  assert_rests (2, 1, 1);
  cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  rest (CARPACE_REST_INTERRUPTED);
  rest (CARPACE_REST_TAKEN);
  assert_rests (3, 2, 1);
}

static void
only_a_rest_that_is_shown_is_offered (void **state)
{
  cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_WITHDRAWN);
  cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_ASKED);
  for (int which = 0; which < CARPACE_N_CUES; which++)
    if (which != CARPACE_CUE_MICRO_REST)
      cue ((CarpaceCue) which, CARPACE_CUE_SHOWN);
  rest (CARPACE_REST_TAKEN);
  assert_rests (0, 0, 0);
}

/* An offer does not go over to the next block. */
static void
a_block_ends_its_offer (void **state)
{
  for (int what = 0; what < CARPACE_N_BLOCK_WHATS; what++)
    {
      begin (state);
      cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
      block ((CarpaceBlockWhat) what, false, 0);
      rest (CARPACE_REST_TAKEN);
      assert_rests (1, 0, 0);
      cue (CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
      assert_rests (2, 0, 0);
    }
}

/* ---- the day ---- */

static void
decide (CarpaceDecision decision)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_DECISION);

  entry.decision = decision;
  carpace_summing_add (&summing, &entry);
}

static void
the_dose_it_was_opened_with (void **state)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_DAY);

  entry.day.what = CARPACE_DAY_OPENED;
  entry.day.dose_ms = 60;
  carpace_summing_add (&summing, &entry);
  assert_int_equal (sum ().dose_ms, 60);
  entry.day.what = CARPACE_DAY_DONE;
  entry.day.dose_ms = 50;
  carpace_summing_add (&summing, &entry);
  assert_int_equal (sum ().dose_ms, 60);
}

static void
what_is_decided_of_the_day (void **state)
{
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_KEEP, .after_ms = 60 });
  assert_int_equal (sum ().dose_ms, 60);
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_BLOCK, .rule = CARPACE_RULE_CAUTION, .after_ms = 10, .no_practice = true, .opens_caution = true });
  assert_int_equal (sum ().dose_ms, 60);
  assert_false (sum ().no_practice || sum ().caution);
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_CUT, .no_practice = true });
  assert_int_equal (sum ().dose_ms, 0);
  assert_true (sum ().no_practice);
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_CUT_ONCE, .after_ms = 39 });
  assert_int_equal (sum ().dose_ms, 39);
  assert_false (sum ().no_practice || sum ().caution);
}

/* Told after practice, it stops the rest of the day: what was asked stays. */
static void
a_morning_told_after_practice (void **state)
{
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_KEEP, .after_ms = 60 });
  block (CARPACE_BLOCK_ENDED, false, 1);
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_CUT, .no_practice = true });
  assert_int_equal (sum ().dose_ms, 60);
  assert_true (sum ().no_practice);
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_CUT_ONCE, .after_ms = 39 });
  assert_int_equal (sum ().dose_ms, 39);
}

static void
a_caution_by_what_was_decided (void **state)
{
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_CUT, .opens_caution = true });
  assert_true (sum ().caution);
  begin (state);
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_CAUTION });
  assert_true (sum ().caution);
  decide ((CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_KEEP });
  assert_true (sum ().caution);
}

static void
a_caution_by_what_was_answered (void **state)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_CAUTION);

  for (int what = 0; what < CARPACE_N_CAUTION_WHATS; what++)
    {
      begin (state);
      entry.caution.what = (CarpaceCautionWhat) what;
      carpace_summing_add (&summing, &entry);
      assert_int_equal (sum ().caution, what == CARPACE_CAUTION_OPENED || what == CARPACE_CAUTION_CLOSED);
      entry.caution.what = CARPACE_CAUTION_OPENED;
      carpace_summing_add (&summing, &entry);
      entry.caution.what = CARPACE_CAUTION_WAS_NONE;
      carpace_summing_add (&summing, &entry);
      assert_true (sum ().caution);
    }
}

static void
the_morning_as_told_last (void **state)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_MORNING);

  entry.morning = (CarpaceMorning){ .waking = 1, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
  carpace_summing_add (&summing, &entry);
  entry.morning.waking = 2;
  entry.morning.site = CARPACE_SITE_NONE + 1;
  carpace_summing_add (&summing, &entry);
  assert_true (sum ().morning_known);
  assert_int_equal (sum ().morning.waking, 2);
  assert_int_equal (sum ().morning.site, CARPACE_SITE_NONE); /* where it is felt is no part of a sum */
}

/* All that a diary may leave out when it sums makes no difference. */
static void
other_kinds_add_nothing (void **state)
{
  CarpaceSumming before = summing;

  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    if ((CARPACE_SUMMED_KINDS & CARPACE_KIND (kind)) == 0)
      {
        CarpaceEntry entry = entry_of ((CarpaceEntryKind) kind);
        carpace_summing_add (&summing, &entry);
      }
  assert_memory_equal (&before, &summing, sizeof before);
}

#define ROW(test) cmocka_unit_test_setup (test, begin)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ROW (a_day_without_records),
    ROW (numbers_zeros_and_silence),
    ROW (silence_alone_has_no_highest),
    ROW (a_late_answer),
    ROW (which_rating_is_corrected),
    ROW (a_zero_is_corrected),
    ROW (a_match_of_zero_is_corrected),
    ROW (a_correction_of_nothing),
    ROW (which_correction_counts),
    ROW (since_the_first_answer),
    ROW (more_ratings_than_there_is_room_for),
    ROW (blocks_and_matches),
    ROW (offers_and_what_came_of_them),
    ROW (only_a_rest_that_is_shown_is_offered),
    ROW (a_block_ends_its_offer),
    ROW (the_dose_it_was_opened_with),
    ROW (what_is_decided_of_the_day),
    ROW (a_morning_told_after_practice),
    ROW (a_caution_by_what_was_decided),
    ROW (a_caution_by_what_was_answered),
    ROW (the_morning_as_told_last),
    ROW (other_kinds_add_nothing),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
