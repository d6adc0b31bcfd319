/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plans.h"

#include <stddef.h>
#include <string.h>

#include "alphabet.h"

/* A rest before each limit, and a limit that two tightenings bring under shortest. */
static void
short_blocks (CarpacePlan *plan)
{
  plan->after_ms = 3 * CARPACE_MINUTE_MS;
  plan->rest_ms = 10 * CARPACE_SECOND_MS;
  plan->between_blocks_ms = 2 * CARPACE_MINUTE_MS;
}

static void
no_wait (CarpacePlan *plan)
{
  short_blocks (plan);
  plan->between_blocks_ms = 0;
  plan->usual_discomfort = 1;
}

static void
runs_and_reserve (CarpacePlan *plan)
{
  short_blocks (plan);
  plan->or_after_runs = 2;
  plan->reserve_at_least_pct = 90;
  plan->n_drills = 2;
  plan->drills[1] = plan->drills[0];
  strcpy (plan->drills[1].id, "orbit");
  plan->drills[1].movement = CARPACE_MOVEMENT_LARGE_TURN;
  plan->drills[0].run_ms = CARPACE_MINUTE_MS;
  plan->blocks[0].n_parts = 2;
  plan->blocks[0].parts[0].share = 4000;
  plan->blocks[0].parts[1] = (CarpaceBlockPart){ 1, 6000 };
}

static void
matches_count_half (CarpacePlan *plan)
{
  short_blocks (plan);
  plan->matches_count = 5000;
}

/* Where an evening is by and by; from here on each order of events. */
#define FIRST_RATED "0 start\n180 still\n200 end\n210 rate 1\n"
#define SECOND_RUNS FIRST_RATED "400 start\n430 still\n440 input\n"
#define SECOND_RATED SECOND_RUNS "600 end\n610 rate 3\n"
#define TO_THE_LIMIT "0 start\n182 still\n200 input\n"
#define A_DAY_LATER FIRST_RATED "400 start\n700 end\n710 rate 3\n86400 turn\n86400 morning 0 more\n"

static const ExplorePlan plans[] = {
  { "hand", 1, 6, short_blocks, ABOUT_HAND, "" },
  { "hand-later", 1, 6, short_blocks, ABOUT_HAND | ABOUT_SUSPEND, TO_THE_LIMIT },
  { "ratings", 3, 6, no_wait, ABOUT_RATING | ABOUT_SUSPEND, "" },
  { "ratings-later", 4, 6, no_wait, ABOUT_RATING | ABOUT_MATCH, SECOND_RATED },
  { "days", 2, 6, short_blocks, ABOUT_RATING | ABOUT_MORNING | ABOUT_CAUTION | ABOUT_TURN, "" },
  { "days-later", 3, 6, short_blocks, ABOUT_RATING | ABOUT_MORNING | ABOUT_CAUTION | ABOUT_TURN, SECOND_RUNS },
  { "next-day", 3, 6, short_blocks, ABOUT_RATING | ABOUT_MORNING | ABOUT_CAUTION | ABOUT_TURN, A_DAY_LATER },
  { "air", 2, 6, short_blocks, ABOUT_HAND | ABOUT_AIR | ABOUT_TURN, "" },
  { "air-later", 3, 6, no_wait, ABOUT_RATING | ABOUT_CAUTION | ABOUT_AIR | ABOUT_TURN, "0 on-air on\n" SECOND_RUNS },
  { "matches", 2, 6, matches_count_half, ABOUT_MATCH | ABOUT_RATING | ABOUT_MORNING | ABOUT_SUSPEND, "" },
  { "runs", 1, 8, runs_and_reserve, ABOUT_HAND | ABOUT_SUSPEND, "" },
  { "front", 2, 6, short_blocks, ABOUT_HAND | ABOUT_FRONT, "" },
  { "front-later", 2, 6, no_wait, ABOUT_FRONT | ABOUT_RATING | ABOUT_CAUTION | ABOUT_SUSPEND | ABOUT_TURN, FIRST_RATED "300 away\n" },
  { "all", 2, 6, short_blocks, ~0u, "" },
  { "weeks", 2, 30, no_wait, 0, "" },
};

const ExplorePlan *
explore_plan (int i)
{
  return i < (int) (sizeof plans / sizeof plans[0]) ? &plans[i] : NULL;
}
