/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-season-day.c: a day of a season, rehearsed once more, is the day that it was. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "app/season-day.h"
#include "app/season-sum.h"
#include "trace.h"

#define DAYS 30
#define SEED 7

static void
hear (void *user, const CarpaceEntry *entry, int32_t line)
{
  carpace_season_days_take (user, entry);
}

static int64_t
done_on (const CarpaceDayRail *rail)
{
  int64_t done_ms = 0;

  for (int32_t i = 0; i < rail->n; i++)
    {
      assert_int_equal (rail->part[i].kind, CARPACE_RAIL_DONE);
      assert_true (rail->part[i].to.elapsed_ms > rail->part[i].from.elapsed_ms);
      assert_true (i == 0 || rail->part[i].from.elapsed_ms >= rail->part[i - 1].to.elapsed_ms);
      done_ms += rail->part[i].practice_ms;
    }
  return done_ms;
}

/* Would catch a rail of the day before or after, and one that lacks a block or an overrun. */
static void
a_day_has_what_its_season_counted (void **state)
{
  static const CarpacePlayerKind kinds[] = { CARPACE_PLAYER_STEADY, CARPACE_PLAYER_SENSITIVE, CARPACE_PLAYER_PLAYS_ON };
  static CarpacePlan plan;
  static CarpaceDayRail rail;

  carpace_trace_plan (&plan, 4, 15);
  for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++)
    {
      const CarpacePlayerTraits traits = carpace_player_traits (kinds[k]);
      CarpaceSeasonDays days;

      assert_true (carpace_season_days_init (&days, DAYS));
      assert_true (carpace_rehearse_traits (&plan, &traits, DAYS, SEED, hear, &days));
      assert_int_equal (days.n, DAYS);
      for (int32_t day = 0; day < DAYS; day++)
        {
          assert_true (carpace_season_day_rail (&plan, &traits, SEED, day, &rail));
          assert_int_equal (done_on (&rail), days.day[day].done_ms);
          assert_int_equal (rail.has_bead, rail.n > 0);
        }
      carpace_season_days_clear (&days);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (a_day_has_what_its_season_counted) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
