/* SPDX-License-Identifier: GPL-3.0-or-later */
/* at-least.c: what a hand was seen to take. */
#include "carpace/at-least.h"

#include <string.h>

#define BINS_OF_FIRST_DOSE 20 /* 5 % each */
#define LEVEL_DATES 28
#define ANSWER_WITHIN 3       /* dates: a morning over 72 h later is of something else */

/* ---- the bound ---- */

/* Clopper and Pearson 1934, one-sided 97.5 %: with this many days, 30 % worse
 * mornings would show so few in fewer than 1 of 40 cases. */
int32_t
carpace_at_least_needed (int32_t worse)
{
  static const int32_t needed[] = { 11, 17, 22, 27, 31, 36, 40, 45, 49 };

  return worse < (int32_t) (sizeof needed / sizeof needed[0]) ? needed[worse] : 0;
}

static int64_t
bin_of (int64_t dose_ms, int64_t first_dose_ms)
{
  int64_t width_ms = first_dose_ms / BINS_OF_FIRST_DOSE;

  return width_ms > 0 ? dose_ms / width_ms : 0;
}

static void
take_in (CarpaceAtLeast *run, const CarpaceAnswered *day)
{
  run->least_ms = run->days == 0 || day->dose_ms < run->least_ms ? day->dose_ms : run->least_ms;
  run->most_ms = day->dose_ms > run->most_ms ? day->dose_ms : run->most_ms;
  run->days++;
  run->worse += day->worse;
}

/* The next higher bin that has a day; INT64_MAX where none. */
static int64_t
next_bin (const CarpaceAnswered *answered, int32_t n, int64_t first_dose_ms, int64_t above)
{
  int64_t next = INT64_MAX;

  for (int32_t i = 0; i < n; i++)
    {
      int64_t bin = bin_of (answered[i].dose_ms, first_dose_ms);
      next = bin > above && bin < next ? bin : next;
    }
  return next;
}

/* The widest run from @bin up that is enough; nothing where none is. */
static CarpaceAtLeast
run_from (const CarpaceAnswered *answered, int32_t n, int64_t first_dose_ms, int64_t bin)
{
  CarpaceAtLeast run = { 0 }, enough = { 0 };

  for (; bin < INT64_MAX; bin = next_bin (answered, n, first_dose_ms, bin))
    {
      for (int32_t i = 0; i < n; i++)
        if (bin_of (answered[i].dose_ms, first_dose_ms) == bin)
          take_in (&run, &answered[i]);
      if (carpace_at_least_needed (run.worse) > 0 && run.days >= carpace_at_least_needed (run.worse))
        enough = run;
    }
  return enough;
}

CarpaceAtLeast
carpace_at_least (const CarpaceAnswered *answered, int32_t n, int64_t first_dose_ms)
{
  CarpaceAtLeast highest = { 0 };
  int64_t bin = next_bin (answered, n, first_dose_ms, -1);

  for (; bin < INT64_MAX; bin = next_bin (answered, n, first_dose_ms, bin))
    {
      CarpaceAtLeast run = run_from (answered, n, first_dose_ms, bin);
      if (run.days > 0)
        highest = run;
    }
  return highest;
}

/* ---- from the diary ---- */

void
carpace_at_least_begin (CarpaceAtLeastDays *days, CarpaceDay today, int64_t first_dose_ms, int32_t usual)
{
  memset (days, 0, sizeof *days);
  days->today = today;
  days->first_dose_ms = first_dose_ms;
  for (int32_t i = 0; i <= CARPACE_AT_LEAST_DAYS; i++)
    days->usual[i] = usual;
}

static int32_t
index_of (const CarpaceAtLeastDays *days, CarpaceDay date)
{
  int64_t i = (int64_t) date - days->today + CARPACE_AT_LEAST_DAYS;

  return i >= 0 && i <= CARPACE_AT_LEAST_DAYS ? (int32_t) i : -1;
}

bool
carpace_at_least_take_decision (void *user, const CarpaceRecord *record)
{
  CarpaceAtLeastDays *days = user;
  const CarpaceDecision *decision = &record->entry.decision;
  int32_t i = index_of (days, record->day);

  if (i < 0 || record->entry.kind != CARPACE_ENTRY_DECISION || decision->scope != CARPACE_SCOPE_DAY)
    return true;
  days->usual[i] = decision->usual;
  if (decision->first_dose_ms > 0)
    days->first_dose_ms = decision->first_dose_ms;
  days->level_downs += decision->level_down && record->day > days->today - LEVEL_DATES;
  return true;
}

static int64_t
to_the_minute (int64_t ms)
{
  return (ms + CARPACE_MINUTE_MS / 2) / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS;
}

/* A morning that pain relief made good is no answer. */
static void
answer (CarpaceAtLeastDays *days, const CarpaceDaySum *sum)
{
  int32_t i = index_of (days, sum->day);
  bool said = sum->morning_known && (sum->morning.waking >= 0 || sum->morning.stiffness != CARPACE_STIFFNESS_UNSAID);
  bool worse = said && carpace_morning_is_worse (&sum->morning, days->usual[i]);

  if (said && (worse || !sum->morning.pain_relief) && sum->day - days->last.day <= ANSWER_WITHIN
      && days->n < CARPACE_AT_LEAST_DAYS)
    days->answered[days->n++] = (CarpaceAnswered){
      .dose_ms = to_the_minute (days->last.dose_ms < days->last.done_ms ? days->last.dose_ms : days->last.done_ms),
      .worse = worse,
    };
  days->open = false;
}

static bool
was_opened (const CarpaceDaySum *sum)
{
  return sum->dose_ms > 0 || sum->done_ms > 0 || sum->no_practice || sum->morning_known;
}

bool
carpace_at_least_take_day (void *user, const CarpaceDaySum *sum)
{
  CarpaceAtLeastDays *days = user;

  if (index_of (days, sum->day) < 0 || !was_opened (sum))
    return true;
  if (days->open)
    answer (days, sum);
  if (sum->done_ms > 0 && sum->dose_ms > 0)
    {
      days->last = *sum;
      days->open = true;
    }
  return true;
}

CarpaceAtLeast
carpace_at_least_end (const CarpaceAtLeastDays *days)
{
  if (days->level_downs >= 2)
    return (CarpaceAtLeast){ 0 };
  return carpace_at_least (days->answered, days->n, days->first_dose_ms);
}

bool
carpace_at_least_read (const CarpaceDiary *diary, CarpaceDay today, const CarpacePlan *plan, CarpaceAtLeast *ret_seen)
{
  CarpaceDay since = today < INT32_MIN + CARPACE_AT_LEAST_DAYS ? INT32_MIN : today - CARPACE_AT_LEAST_DAYS;
  CarpaceAtLeastDays days;

  carpace_at_least_begin (&days, today, plan != NULL ? plan->dose_ms : 0, plan != NULL ? plan->usual_discomfort : 0);
  if (!diary->records_of (diary->self, since, today, CARPACE_KIND (CARPACE_ENTRY_DECISION),
                          carpace_at_least_take_decision, &days)
      || !diary->days (diary->self, since, today, carpace_at_least_take_day, &days))
    return false;
  *ret_seen = carpace_at_least_end (&days);
  return true;
}
