/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-at-least.c: "at least" by carpace why and diary, over seasons that the
 * product's own rules made, of hands whose tolerance is known. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>

#include "../fakes/fake-diary.h"
#include "app/players.h"
#include "carpace/at-least.h"
#include "said.h"
#include "trace.h"

#define DAYS 84
#define SEEDS 60
#define FIRST 20879 /* 2027-03-02, where rehearsed seasons begin */

static CarpacePlan plan;
static CarpaceFakeDiary *fake;

static void
listen (void *user, const CarpaceEntry *entry, int32_t line)
{
  carpace_fake_diary_add (fake, carpace_day_of (entry->at, plan.starts_at_min), entry, NULL);
}

static void
live (const CarpacePlayerTraits *traits, uint64_t seed)
{
  fake = carpace_fake_diary_new ();
  carpace_trace_plan (&plan, 2, 30);
  assert_true (carpace_rehearse_traits (&plan, traits, DAYS, seed, listen, NULL));
}

static bool
open_diary (CarpaceCli *cli, CarpaceDiary *ret_diary)
{
  *ret_diary = carpace_fake_diary_port (fake);
  return true;
}

static void
told_by_why_and_diary (void **state)
{
  const CarpacePlayerTraits traits = { 0 };
  Said said;

  live (&traits, 1);
  said_begin (&said);
  said.cli.open_diary = open_diary;
  assert_int_equal (said_run (&said, carpace_cli_why, "why"), 0);
  assert_non_null (strstr (said.out, "\n\nAt least 1 h 30 min: "));
  assert_non_null (strstr (said.out, " answered days at 1 h 30 min, none of them worse.\n"));
  said_end (&said);
  said_begin (&said);
  said.cli.open_diary = open_diary;
  assert_int_equal (said_run (&said, carpace_cli_diary, "diary --until 2027-03-12"), 0);
  assert_null (strstr (said.out, "At least")); /* ten days are answered by then */
  said_end (&said);
  said_begin (&said);
  said.cli.open_diary = open_diary;
  assert_int_equal (said_run (&said, carpace_cli_diary, "diary --until 2027-03-13"), 0);
  assert_non_null (strstr (said.out, "At least 1 h: 11 answered days at 1 h to 1 h 12 min, none of them worse.\n"));
  said_end (&said);
  carpace_fake_diary_free (fake);
}

/* Seldom more than 1.15 times what the hand takes (where more days are over by the
 * program's own count), by any of the hands; and said of most of them. */
static void
seldom_more_than_it_takes (void **state)
{
  for (CarpaceHandModel hand = 0; hand < CARPACE_N_HAND_MODELS; hand++)
    {
      int said = 0, over = 0;
      for (uint64_t seed = 1; seed <= SEEDS; seed++)
        {
          CarpacePlayerTraits traits = carpace_player_traits (CARPACE_PLAYER_VARIED);
          CarpaceDiary diary;
          CarpaceAtLeast seen;
          traits.hand = hand;
          live (&traits, seed);
          diary = carpace_fake_diary_port (fake);
          assert_true (carpace_at_least_read (&diary, FIRST + DAYS - 1, &plan, &seen));
          said += seen.least_ms > 0;
          over += seen.least_ms * 100 > carpace_player_takes_ms (&plan, &traits, seed, 0) * 115;
          carpace_fake_diary_free (fake);
        }
      print_message ("%s: said of %d of %d, over 1.15 times what it takes of %d\n", carpace_hand_model_word (hand), said,
                     SEEDS, over);
      assert_true (4 * said >= 3 * SEEDS);
      assert_true (20 * over <= SEEDS);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (told_by_why_and_diary),
    cmocka_unit_test (seldom_more_than_it_takes),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
