/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report-numbers.c: counting, nothing else. */
#include "report-numbers.h"

#include <stdlib.h>

static void
count_dose (CarpaceReportNumbers *numbers, const CarpaceDaySum *sum)
{
  if (sum->dose_ms <= 0)
    return;
  if (numbers->first_dose_ms == 0)
    numbers->first_dose_ms = numbers->least_dose_ms = sum->dose_ms;
  numbers->last_dose_ms = sum->dose_ms;
  numbers->least_dose_ms = MIN (numbers->least_dose_ms, sum->dose_ms);
  numbers->most_dose_ms = MAX (numbers->most_dose_ms, sum->dose_ms);
}

static void
count_morning (CarpaceReportNumbers *numbers, const CarpaceMorning *morning)
{
  numbers->checks++;
  numbers->stiffer += morning->stiffness == CARPACE_STIFFNESS_MORE;
  numbers->less_stiff += morning->stiffness == CARPACE_STIFFNESS_LESS;
  numbers->other_load += morning->other_load;
  numbers->pain_relief += morning->pain_relief;
  if (morning->waking < 0)
    return;
  numbers->n_waking++;
  numbers->waking_sum += morning->waking;
  numbers->highest_waking = MAX (numbers->highest_waking, morning->waking);
}

static void
count_sum (CarpaceReportNumbers *numbers, const CarpaceDaySum *sum)
{
  numbers->opened += sum->dose_ms > 0 || sum->done_ms > 0 || sum->no_practice || sum->morning_known;
  numbers->practised += sum->done_ms > 0;
  numbers->no_practice += sum->no_practice;
  if (carpace_diary_was_planned (sum))
    {
      numbers->planned_ms += sum->dose_ms;
      numbers->done_ms += sum->done_ms;
    }
  else
    numbers->unplanned_ms += sum->done_ms;
  numbers->offered += sum->offered;
  numbers->taken += sum->taken;
  numbers->declined += sum->declined;
  numbers->n_ratings += sum->n_ratings;
  numbers->rating_sum += sum->rating_sum;
  numbers->unanswered += sum->unanswered;
  numbers->zeros += sum->zeros;
  numbers->highest = MAX (numbers->highest, sum->highest);
  numbers->match_ms += sum->match_ms;
  if (sum->other_ms >= 0)
    {
      numbers->n_other++;
      numbers->other_ms += sum->other_ms;
    }
  count_dose (numbers, sum);
  if (sum->morning_known)
    count_morning (numbers, &sum->morning);
}

/* Practice days in a row without any answer: the longest row that reaches into
 * the stretch. */
static void
count_silence (CarpaceReportNumbers *numbers, const CarpaceDaySum *sum, int32_t *row)
{
  if (sum->n_ratings > 0 || (sum->morning_known && sum->morning.waking >= 0))
    *row = 0;
  else
    *row += sum->done_ms > 0;
  if (sum->day >= numbers->since && sum->day <= numbers->until)
    numbers->silent_days = MAX (numbers->silent_days, *row);
}

static void
count_weeks (CarpaceReportNumbers *numbers, const CarpaceDaySum *sum)
{
  if (sum->day > numbers->until - 7 && sum->day <= numbers->until)
    {
      numbers->n_week += sum->n_ratings;
      numbers->week_sum += sum->rating_sum;
    }
  else if (sum->day > numbers->until - 14 && sum->day <= numbers->until - 7)
    {
      numbers->n_week_before += sum->n_ratings;
      numbers->week_sum_before += sum->rating_sum;
    }
}

static void
count_block (CarpaceReportNumbers *numbers, const CarpaceDiaryBlock *block, GArray *taps)
{
  if (block->dropped)
    return;
  if (!block->ended)
    {
      numbers->running++;
      return;
    }
  if (block->match)
    numbers->matches++;
  else
    numbers->blocks++;
  numbers->early += block->early_ms > 0;
  numbers->beyond += block->beyond;
  numbers->overrun_ms += block->overrun_ms;
  numbers->late += block->late && block->discomfort >= 0;
  numbers->above_stop += block->counts > numbers->stop_above;
  if (block->discomfort >= 0 && block->site != CARPACE_SITE_NONE)
    numbers->sites[block->site]++;
  numbers->corrected += block->corrected_from >= 0;
  numbers->lowered += block->lowered_after_decision;
  if (block->to_tap_ms >= 0)
    g_array_append_val (taps, block->to_tap_ms);
}

static bool
ends_day (const CarpaceDecision *decision)
{
  return decision->rule == CARPACE_RULE_ABOVE_STOP || decision->rule == CARPACE_RULE_TIGHTENED_THRICE;
}

/* Whether something decided of the next block, of blocks before the @i_block-th
 * day, stood when that began: what was decided anew for the same block takes the
 * place of what was decided first. */
static bool
decided_before (const CarpaceDiaryDay *day, guint i_block, bool (*matters) (const CarpaceDecision *))
{
  const CarpaceDecision *last = NULL;

  for (guint i = 0; i < day->decisions->len; i++)
    {
      const CarpaceDiaryDecision *made = &g_array_index (day->decisions, CarpaceDiaryDecision, i);
      const CarpaceDecision *decision = &made->decision;

      if (decision->scope != CARPACE_SCOPE_BLOCK || decision->rule == CARPACE_RULE_TOO_SHORT)
        continue;
      if (made->begun > i_block)
        break;
      if (last != NULL && (last->block != decision->block || decision->block == 0) && matters (last))
        return true;
      last = decision;
    }
  return last != NULL && matters (last);
}

static bool
shortens (const CarpaceDecision *decision)
{
  return decision->rule != CARPACE_RULE_KEEP && decision->after_ms < decision->before_ms;
}

static void
count_day_decision (CarpaceReportNumbers *numbers, const CarpaceDecision *decision, CarpaceDay day)
{
  numbers->decided[decision->rule]++;
  numbers->has_last = true;
  numbers->last_day = day;
  numbers->last = *decision;
  if (decision->before_ms == (decision->no_practice ? decision->kept_ms : decision->after_ms))
    return;
  numbers->has_change = true;
  numbers->change_day = day;
  numbers->change = *decision;
}

static void
count_day (CarpaceReportNumbers *numbers, const CarpaceDiaryDay *day, const CarpaceDaySum *sum, GArray *taps)
{
  const CarpaceDecision *decision = carpace_diary_decision_of_day (day);
  int32_t running = numbers->running;

  for (guint i = 0; i < day->decisions->len; i++)
    {
      const CarpaceDecision *made = &g_array_index (day->decisions, CarpaceDiaryDecision, i).decision;

      if (made->stop_above > 0)
        numbers->stop_above = made->stop_above;
    }
  if (decision != NULL)
    count_day_decision (numbers, decision, day->day);
  if (carpace_diary_morning_site (day) != CARPACE_SITE_NONE)
    numbers->sites[carpace_diary_morning_site (day)]++;
  numbers->stopped += decided_before (day, day->blocks->len, ends_day);
  for (guint i = 0; i < day->blocks->len; i++)
    {
      const CarpaceDiaryBlock *block = &g_array_index (day->blocks, CarpaceDiaryBlock, i);

      count_block (numbers, block, taps);
      numbers->shortened += !block->match && !block->dropped && decided_before (day, i, shortens);
    }
  numbers->begun += numbers->running > running && sum->done_ms <= 0;
}

static int
compare_ms (const void *a, const void *b)
{
  int64_t left = *(const int64_t *) a, right = *(const int64_t *) b;

  return (left > right) - (left < right);
}

bool
carpace_report_count (CarpaceDiaryModel *model, CarpaceDay since, CarpaceDay until, CarpaceReportNumbers *ret_numbers)
{
  CarpaceReportNumbers numbers = { .since = since, .until = until, .highest = -1, .median_tap_ms = -1, .stop_above = 5 };
  g_autoptr (GArray) taps = g_array_new (FALSE, FALSE, sizeof (int64_t));
  int32_t silent_row = 0;

  for (int32_t i = 0; i < carpace_diary_model_n_sums (model); i++)
    {
      const CarpaceDaySum *sum = carpace_diary_model_sum (model, i);
      const CarpaceDiaryDay *day;

      count_weeks (&numbers, sum);
      count_silence (&numbers, sum, &silent_row);
      if (sum->day < since || sum->day > until)
        continue;
      day = carpace_diary_model_day (model, sum->day);
      if (day == NULL)
        return false;
      count_sum (&numbers, sum);
      count_day (&numbers, day, sum, taps);
    }
  numbers.week_rising = carpace_diary_rising (numbers.week_sum, numbers.n_week, numbers.week_sum_before,
                                              numbers.n_week_before);
  numbers.n_taps = (int32_t) taps->len;
  if (taps->len > 0)
    {
      g_array_sort (taps, compare_ms);
      numbers.median_tap_ms = g_array_index (taps, int64_t, (taps->len - 1) / 2);
    }
  *ret_numbers = numbers;
  return true;
}
