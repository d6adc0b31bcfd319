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
  numbers->asked_ms += sum->dose_ms;
  numbers->done_ms += sum->done_ms;
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
  if (block->match)
    numbers->matches++;
  else
    numbers->blocks++;
  numbers->early += block->early_ms > 0;
  numbers->beyond += block->beyond;
  numbers->overrun_ms += block->overrun_ms;
  numbers->late += block->late && block->discomfort >= 0;
  numbers->above_stop += block->discomfort > numbers->stop_above;
  if (block->discomfort >= 0 && block->site != CARPACE_SITE_NONE)
    numbers->sites[block->site]++;
  numbers->corrected += block->corrected_from >= 0;
  numbers->lowered += block->lowered_after_decision;
  if (block->to_tap_ms >= 0)
    g_array_append_val (taps, block->to_tap_ms);
}

static void
count_block_decision (CarpaceReportNumbers *numbers, const CarpaceDecision *decision)
{
  if (decision->after_ms <= 0 && decision->before_ms > 0)
    numbers->stopped++;
  else
    numbers->tightened += decision->after_ms < decision->before_ms;
}

static void
count_day_decision (CarpaceReportNumbers *numbers, const CarpaceDiaryDecision *made, CarpaceDay day)
{
  const CarpaceDecision *decision = &made->decision;

  numbers->cuts += decision->rule == CARPACE_RULE_CUT;
  numbers->rises += decision->rule == CARPACE_RULE_STEP_UP;
  numbers->way_backs += decision->rule == CARPACE_RULE_WAY_BACK;
  numbers->rest_days += decision->rule == CARPACE_RULE_REST_DAY;
  numbers->kept_for_week += decision->rule == CARPACE_RULE_KEEP_WEEK;
  numbers->has_last = true;
  numbers->last_day = day;
  numbers->last = *decision;
  if (decision->before_ms == decision->after_ms && !decision->no_practice)
    return;
  numbers->has_change = true;
  numbers->change_day = day;
  numbers->change = *decision;
}

static void
count_day (CarpaceReportNumbers *numbers, const CarpaceDiaryDay *day, GArray *taps)
{
  for (guint i = 0; i < day->decisions->len; i++)
    {
      const CarpaceDiaryDecision *made = &g_array_index (day->decisions, CarpaceDiaryDecision, i);

      if (made->decision.stop_above > 0)
        numbers->stop_above = made->decision.stop_above;
      if (made->decision.scope == CARPACE_SCOPE_DAY)
        count_day_decision (numbers, made, day->day);
      else
        count_block_decision (numbers, &made->decision);
    }
  for (guint i = 0; i < day->blocks->len; i++)
    count_block (numbers, &g_array_index (day->blocks, CarpaceDiaryBlock, i), taps);
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

  for (int32_t i = 0; i < carpace_diary_model_n_sums (model); i++)
    {
      const CarpaceDaySum *sum = carpace_diary_model_sum (model, i);
      const CarpaceDiaryDay *day;

      count_weeks (&numbers, sum);
      if (sum->day < since || sum->day > until)
        continue;
      day = carpace_diary_model_day (model, sum->day);
      if (day == NULL)
        return false;
      count_sum (&numbers, sum);
      count_day (&numbers, day, taps);
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
