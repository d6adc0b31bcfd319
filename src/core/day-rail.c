/* SPDX-License-Identifier: GPL-3.0-or-later */
/* day-rail.c: a view, or a plan, laid along the clock. */
#include "carpace/day-rail.h"

#include <string.h>

#include "lesser.h"

/* How a rail is spaced, of its longest part: this project's own choice, looked at with
 * one, two, four and six blocks on 320 px. */
#define LONGEST_WAIT 1.25
#define SHORTEST_WAIT 0.15
#define SHORTEST_PART 0.25

int32_t
carpace_rests_within (int64_t limit_ms, int64_t after_ms)
{
  return after_ms > 0 ? (int32_t) ((3 * limit_ms - after_ms) / (3 * after_ms)) : 0;
}

static CarpaceRailPart *
add (CarpaceDayRail *rail, CarpaceRailKind kind, CarpaceInstant from)
{
  CarpaceRailPart *part = &rail->part[rail->n++];

  *part = (CarpaceRailPart) { .kind = kind, .from = from };
  return part;
}

/* A rest comes within two thirds of a block. @return when it is over */
static CarpaceInstant
add_block (CarpaceDayRail *rail, int32_t number, CarpaceInstant from, int64_t limit_ms, int64_t after_ms, int64_t rest_ms)
{
  CarpaceRailPart *part = add (rail, CARPACE_RAIL_AHEAD, from);
  int32_t rests = carpace_rests_within (limit_ms, lesser (after_ms, limit_ms * 2 / 3));

  part->number = number;
  part->practice_ms = limit_ms;
  part->tubes = rests + 1;
  part->to = carpace_instant_after (from, limit_ms + rests * rest_ms);
  return part->to;
}

static void
add_sitting (CarpaceDayRail *rail, const CarpaceSitting *sitting)
{
  CarpaceRailPart *part = add (rail, CARPACE_RAIL_DONE, sitting->began);

  part->number = sitting->number;
  part->match = sitting->match;
  part->practice_ms = sitting->active_ms;
  part->tubes = sitting->rests + 1;
  part->to = sitting->ended;
}

/* @return when it is over, as things stand */
static CarpaceInstant
add_running (CarpaceDayRail *rail, const CarpaceView *view, const CarpaceSitting *sitting, CarpaceInstant now)
{
  CarpaceRailPart *part = add (rail, CARPACE_RAIL_UNDER_WAY, sitting->began);
  int64_t taken_ms = sitting->rests * view->rest_ms;
  int32_t rests = carpace_rests_within (view->limit_ms, view->after_ms);

  part->number = sitting->number;
  part->match = sitting->match;
  part->practice_ms = view->match ? view->active_ms : view->limit_ms;
  part->tubes = view->match ? sitting->rests + 1 : rests + 1;
  part->to = now;
  if (view->remaining_ms > 0)
    part->to = carpace_instant_after (now, view->remaining_ms + (rests * view->rest_ms > taken_ms ? rests * view->rest_ms - taken_ms : 0));
  return part->to;
}

static bool
is_under_way (CarpaceState state)
{
  return state == CARPACE_STATE_PRACTISING || state == CARPACE_STATE_RESTING || state == CARPACE_STATE_LIMIT_REACHED
         || state == CARPACE_STATE_DAY_DONE;
}

/* Of the blocks ahead the first waits for its wait, the others for the one before. */
static void
add_ahead (CarpaceDayRail *rail, const CarpaceView *view, CarpaceInstant from, bool running)
{
  int32_t first = 1;

  for (int32_t i = 0; i < rail->n; i++)
    first = (int32_t) greater (first, rail->part[i].number + 1);
  if (running)
    from = carpace_instant_after (from, view->plan->between_blocks_ms);
  for (int32_t i = 0; i < view->n_ahead; i++)
    {
      from = add_block (rail, first + i, from, view->ahead_ms[i], view->after_ms > 0 ? view->after_ms : view->plan->after_ms,
                        view->rest_ms > 0 ? view->rest_ms : view->plan->rest_ms);
      from = carpace_instant_after (from, view->plan->between_blocks_ms);
    }
}

static void
place_bead (CarpaceDayRail *rail, CarpaceState state, int64_t now_ms)
{
  rail->has_bead = rail->n > 0;
  if (!rail->has_bead)
    return;
  rail->bead_ms = greater (rail->part[0].from.elapsed_ms, now_ms);
  rail->bead_ms = lesser (rail->bead_ms, rail->part[rail->n - 1].to.elapsed_ms);
  rail->bead_filled = is_under_way (state);
}

void
carpace_day_rail (const CarpaceView *view, CarpaceInstant now, CarpaceDayRail *ret_rail)
{
  const CarpaceSittings *sat = &view->sittings;
  bool running = false;
  CarpaceInstant from = now;

  memset (ret_rail, 0, sizeof *ret_rail);
  if (view->plan == NULL)
    return;
  for (int32_t i = 0; i < sat->n && !view->day_over; i++)
    {
      running = !sat->sitting[i].over;
      if (running)
        from = add_running (ret_rail, view, &sat->sitting[i], now);
      else
        add_sitting (ret_rail, &sat->sitting[i]);
    }
  if (!running && view->next_known && view->next_cue == CARPACE_CUE_NEXT_BLOCK)
    from = carpace_instant_after (now, view->next_in_ms);
  add_ahead (ret_rail, view, from, running);
  place_bead (ret_rail, view->state, now.elapsed_ms);
}

void
carpace_day_rail_of_plan (const CarpacePlan *plan, CarpaceInstant from, CarpaceDayRail *ret_rail)
{
  int64_t limit_ms[CARPACE_DAY_BLOCKS];
  int32_t n = carpace_dose_limits (plan, plan->dose_ms, limit_ms);
  CarpaceInstant next = from;

  memset (ret_rail, 0, sizeof *ret_rail);
  for (int32_t i = 0; i < n; i++)
    {
      next = add_block (ret_rail, i + 1, next, limit_ms[i], plan->after_ms, plan->rest_ms);
      next = carpace_instant_after (next, plan->between_blocks_ms);
    }
  place_bead (ret_rail, CARPACE_STATE_WAITING, from.elapsed_ms);
}

/* ---- how it is spaced ---- */

static double
span (CarpaceInstant from, CarpaceInstant to)
{
  return to.elapsed_ms > from.elapsed_ms ? (double) (to.elapsed_ms - from.elapsed_ms) : 0.0;
}

static double
within (double value, double least, double most)
{
  return value < least ? least : value > most ? most : value;
}

double
carpace_rail_part_width (double span, double longest)
{
  return within (span, SHORTEST_PART * longest, longest) / longest;
}

double
carpace_rail_wait_width (double span, double longest)
{
  return within (span, SHORTEST_WAIT * longest, LONGEST_WAIT * longest) / longest;
}

static double
longest_part (const CarpaceDayRail *rail)
{
  double longest = 1.0;

  for (int32_t i = 0; i < rail->n; i++)
    if (span (rail->part[i].from, rail->part[i].to) > longest)
      longest = span (rail->part[i].from, rail->part[i].to);
  return longest;
}

/* The share of a stretch from @from to @to that lies before @at_ms. */
static double
share_before (CarpaceInstant from, CarpaceInstant to, int64_t at_ms)
{
  double all = span (from, to);

  if (at_ms <= from.elapsed_ms)
    return 0.0;
  return all > 0 ? within ((double) (at_ms - from.elapsed_ms) / all, 0.0, 1.0) : 1.0;
}

double
carpace_day_rail_at (const CarpaceDayRail *rail, int64_t at_ms)
{
  double longest = longest_part (rail), before = 0.0, all = 0.0;

  for (int32_t i = 0; i < rail->n; i++)
    {
      const CarpaceRailPart *part = &rail->part[i];
      double width = carpace_rail_part_width (span (part->from, part->to), longest);

      if (i > 0)
        {
          CarpaceInstant over = rail->part[i - 1].to;
          double wait = carpace_rail_wait_width (span (over, part->from), longest);

          all += wait;
          before += wait * share_before (over, part->from, at_ms);
        }
      all += width;
      before += width * share_before (part->from, part->to, at_ms);
    }
  return all > 0 ? before / all : 0.0;
}
