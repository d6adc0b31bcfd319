/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-weeks.c: days put together to weeks, and to mornings after them. */
#include "diary-model.h"

CarpaceDay
carpace_diary_monday (CarpaceDay day)
{
  /* 1970-01-01 was a Thursday: day 4 was the first Monday after it. */
  int32_t past = (day - 4) % 7;

  return day - (past < 0 ? past + 7 : past);
}

bool
carpace_diary_rising (int32_t sum, int32_t n, int32_t sum_before, int32_t n_before)
{
  if (n < 6 || n_before < 6)
    return false;
  return 2 * ((int64_t) sum * n_before - (int64_t) sum_before * n) > (int64_t) n * n_before;
}

bool
carpace_diary_was_planned (const CarpaceDaySum *sum)
{
  return sum->dose_ms > 0 && sum->done_ms > 0;
}

static void
week_add (CarpaceWeekNumbers *week, const CarpaceDaySum *sum)
{
  if (sum->day < week->monday)
    {
      week->n_before += sum->n_ratings;
      week->sum_before += sum->rating_sum;
      return;
    }
  week->practised += sum->done_ms > 0;
  if (carpace_diary_was_planned (sum))
    {
      week->planned++;
      week->dose_ms += sum->dose_ms;
      week->done_ms += sum->done_ms;
    }
  else
    week->unplanned_ms += sum->done_ms;
  week->match_ms += sum->match_ms;
  week->offered += sum->offered;
  week->taken += sum->taken;
  week->n_ratings += sum->n_ratings;
  week->rating_sum += sum->rating_sum;
  week->unanswered += sum->unanswered;
  if (sum->morning_known && sum->morning.waking >= 0)
    {
      week->n_waking++;
      week->waking_sum += sum->morning.waking;
    }
}

CarpaceWeekNumbers
carpace_diary_model_week (const CarpaceDiaryModel *model, CarpaceDay monday)
{
  CarpaceWeekNumbers week = { .monday = monday };

  for (CarpaceDay day = monday - 7; day < monday + 7; day++)
    {
      const CarpaceDaySum *sum = carpace_diary_model_sum_of (model, day);

      if (sum != NULL)
        week_add (&week, sum);
    }
  week.rising = carpace_diary_rising (week.rating_sum, week.n_ratings, week.sum_before, week.n_before);
  return week;
}

GArray *
carpace_diary_model_mornings_after (const CarpaceDiaryModel *model, CarpaceDay since, CarpaceDay until)
{
  GArray *mornings = g_array_new (FALSE, TRUE, sizeof (CarpaceMorningAfter));

  for (int32_t i = 1; i < carpace_diary_model_n_sums (model); i++)
    {
      const CarpaceDaySum *sum = carpace_diary_model_sum (model, i);
      const CarpaceDaySum *before = carpace_diary_model_sum (model, i - 1);
      CarpaceMorningAfter after = { .morning = sum->day, .done_ms = before->done_ms, .waking = sum->morning.waking };

      if (sum->day < since || sum->day > until || before->day != sum->day - 1)
        continue;
      if (sum->morning_known && sum->morning.waking >= 0)
        g_array_append_val (mornings, after);
    }
  return mornings;
}
