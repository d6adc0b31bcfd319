/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fake-diary.c: records in an array, and a season made up from a seed. */
#include "fake-diary.h"

#include "carpace/day-sum.h"

#include <stdlib.h>
#include <string.h>

typedef struct
{
  CarpaceDay day;
  int64_t other_ms;
} Other;

struct CarpaceFakeDiary
{
  CarpaceRecord *record;
  size_t n, room;
  Other *other;
  size_t n_other, other_room;
  int32_t reads;
  bool broken;
};

static void *
grown (void *array, size_t n, size_t *room, size_t size)
{
  if (n < *room)
    return array;
  *room = *room == 0 ? 256 : 2 * *room;
  array = realloc (array, *room * size);
  if (array == NULL)
    abort ();
  return array;
}

CarpaceFakeDiary *
carpace_fake_diary_new (void)
{
  CarpaceFakeDiary *fake = calloc (1, sizeof *fake);

  if (fake == NULL)
    abort ();
  return fake;
}

void
carpace_fake_diary_free (CarpaceFakeDiary *fake)
{
  if (fake == NULL)
    return;
  for (size_t i = 0; i < fake->n; i++)
    free ((void *) fake->record[i].note);
  free (fake->record);
  free (fake->other);
  free (fake);
}

static char *
copy_of (const char *text)
{
  char *copy = malloc (strlen (text) + 1);

  if (copy == NULL)
    abort ();
  return strcpy (copy, text);
}

int64_t
carpace_fake_diary_add (CarpaceFakeDiary *fake, CarpaceDay day, const CarpaceEntry *entry, const char *note)
{
  fake->record = grown (fake->record, fake->n, &fake->room, sizeof *fake->record);
  fake->record[fake->n] = (CarpaceRecord) { .id = (int64_t) fake->n + 1, .day = day, .entry = *entry,
                                            .note = note == NULL ? NULL : copy_of (note) };
  return (int64_t) ++fake->n;
}

void
carpace_fake_diary_set_other (CarpaceFakeDiary *fake, CarpaceDay day, int64_t other_ms)
{
  fake->other = grown (fake->other, fake->n_other, &fake->other_room, sizeof *fake->other);
  fake->other[fake->n_other++] = (Other) { .day = day, .other_ms = other_ms };
}

int32_t
carpace_fake_diary_reads (CarpaceFakeDiary *fake)
{
  int32_t reads = fake->reads;

  fake->reads = 0;
  return reads;
}

void
carpace_fake_diary_break (CarpaceFakeDiary *fake)
{
  fake->broken = true;
}

/* Reading */

static size_t
first_of (const CarpaceFakeDiary *fake, CarpaceDay since)
{
  size_t low = 0, high = fake->n;

  while (low < high)
    {
      size_t middle = low + (high - low) / 2;

      if (fake->record[middle].day < since)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static bool
read_records_of (void *self, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceRecordVisitor visit, void *user)
{
  CarpaceFakeDiary *fake = self;

  fake->reads++;
  for (size_t i = first_of (fake, since); i < fake->n && fake->record[i].day <= until; i++)
    if ((kinds & CARPACE_KIND (fake->record[i].entry.kind)) != 0 && !visit (user, &fake->record[i]))
      break;
  return !fake->broken;
}

static bool
read_records (void *self, CarpaceDay since, CarpaceDay until, CarpaceRecordVisitor visit, void *user)
{
  return read_records_of (self, since, until, CARPACE_ALL_KINDS, visit, user);
}

static bool
read_days (void *self, CarpaceDay since, CarpaceDay until, CarpaceDaySumVisitor visit, void *user)
{
  CarpaceFakeDiary *fake = self;
  size_t i = first_of (fake, since), o = 0;

  fake->reads++;
  while (i < fake->n && fake->record[i].day <= until)
    {
      CarpaceSumming summing;
      CarpaceDaySum sum;

      carpace_summing_init (&summing, fake->record[i].day);
      for (; i < fake->n && fake->record[i].day == summing.sum.day; i++)
        carpace_summing_add (&summing, &fake->record[i].entry);
      sum = carpace_summing_end (&summing);
      while (o < fake->n_other && fake->other[o].day < sum.day)
        o++;
      if (o < fake->n_other && fake->other[o].day == sum.day)
        sum.other_ms = fake->other[o].other_ms;
      if (!visit (user, &sum))
        break;
    }
  return !fake->broken;
}

CarpaceDiary
carpace_fake_diary_port (CarpaceFakeDiary *fake)
{
  return (CarpaceDiary) { .self = fake, .records = read_records, .days = read_days, .records_of = read_records_of };
}

/* A made-up season */

typedef struct
{
  CarpaceFakeDiary *fake;
  uint64_t seed;
  CarpaceDay day;
  CarpaceInstant at;
  int64_t first_dose_ms, dose_ms, way_back_ms;
  int32_t settled, since_rise, soreness_pct; /* of a point, hundredths */
  int32_t caution_days;
  int32_t rating_before;
  int64_t done_ms;
} Season;

static int32_t
any (Season *season, int32_t from, int32_t to)
{
  season->seed = season->seed * UINT64_C (6364136223846793005) + UINT64_C (1442695040888963407);
  return from + (int32_t) ((season->seed >> 33) % (uint64_t) (to - from + 1));
}

static bool
chance (Season *season, int32_t pct)
{
  return any (season, 1, 100) <= pct;
}

static void
pass (Season *season, int64_t ms)
{
  season->at.elapsed_ms += ms;
  season->at.wall_ms += ms;
}

static void
add (Season *season, CarpaceEntry entry, const char *note)
{
  entry.at = season->at;
  carpace_fake_diary_add (season->fake, season->day, &entry, note);
}

static int32_t
felt (Season *season, int32_t extra_pct)
{
  int32_t value = (season->soreness_pct + extra_pct + any (season, -60, 60) + 50) / 100;

  return value < 0 ? 0 : value > 10 ? 10 : value;
}

static int64_t
minutes_down (int64_t ms)
{
  return ms / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS;
}

static CarpaceDecision
kept (const Season *season, CarpaceScope scope, int64_t ms)
{
  return (CarpaceDecision) { .rule = CARPACE_RULE_KEEP, .scope = scope, .before_ms = ms, .after_ms = ms,
                             .discomfort = -1, .reference = -1, .earlier = -1, .stop_above = 5, .kept_ms = ms,
                             .done_ms = season->done_ms, .mean_pct = -1, .mean_before_pct = -1 };
}

static void
cut (Season *season, CarpaceDecision *decision, CarpaceFinding finding)
{
  int64_t from_ms = season->done_ms < season->dose_ms ? season->done_ms : season->dose_ms;
  int64_t least_ms = season->first_dose_ms / 4;

  if (from_ms < season->dose_ms / 2)
    from_ms = season->dose_ms / 2;
  if (season->way_back_ms == 0)
    season->way_back_ms = season->dose_ms;
  season->dose_ms = minutes_down (from_ms * 65 / 100);
  if (season->dose_ms < least_ms)
    season->dose_ms = least_ms;
  decision->rule = CARPACE_RULE_CUT;
  decision->finding = finding;
  decision->done_ms = from_ms;
  decision->shorten_to = 6500;
  season->settled = 0;
}

static void
raise_dose (Season *season, CarpaceDecision *decision)
{
  bool back = season->way_back_ms > 0;
  int64_t most_ms = back ? season->way_back_ms : season->first_dose_ms * 3 / 2;
  int64_t after_ms = season->dose_ms + season->first_dose_ms * (back ? 20 : 10) / 100;

  decision->rule = back ? CARPACE_RULE_WAY_BACK : CARPACE_RULE_STEP_UP;
  decision->finding = back ? CARPACE_FINDING_SETTLED_DAYS : CARPACE_FINDING_GOOD_DAYS;
  decision->days = season->settled;
  decision->needed = back ? 2 : 3;
  season->dose_ms = after_ms < most_ms ? after_ms : most_ms;
  if (back && season->dose_ms == most_ms)
    season->way_back_ms = 0;
  season->settled = 0;
  season->since_rise = 0;
}

static CarpaceMorning
wake (Season *season)
{
  CarpaceMorning morning = { .waking = felt (season, 0), .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };

  if (morning.waking >= 2)
    morning.stiffness = CARPACE_STIFFNESS_MORE;
  else if (chance (season, 8))
    morning.stiffness = CARPACE_STIFFNESS_LESS;
  if (chance (season, 70))
    morning.now = felt (season, -30);
  morning.other_load = chance (season, 6);
  morning.pain_relief = morning.waking >= 3 && chance (season, 30);
  return morning;
}

static CarpaceDecision
decide (Season *season, const CarpaceMorning *morning)
{
  CarpaceDecision decision = kept (season, CARPACE_SCOPE_DAY, season->dose_ms);

  if (morning != NULL)
    decision.discomfort = morning->waking;
  if (morning == NULL)
    decision.finding = CARPACE_FINDING_NO_CHECK;
  else if (morning->waking >= 2 && morning->other_load)
    {
      decision.rule = CARPACE_RULE_KEEP_OTHER_LOAD;
      decision.finding = CARPACE_FINDING_OTHER_LOAD;
    }
  else if (morning->waking >= 2)
    cut (season, &decision, morning->waking > 2 ? CARPACE_FINDING_WAKING_UP : CARPACE_FINDING_STIFFER);
  else if (season->settled >= (season->way_back_ms > 0 ? 2 : 3)
           && (season->way_back_ms > 0 || (season->since_rise >= 7 && season->dose_ms < season->first_dose_ms * 3 / 2)))
    raise_dose (season, &decision);
  decision.after_ms = season->dose_ms;
  decision.kept_ms = season->dose_ms;
  return decision;
}

static void
rest (Season *season)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_CUE };
  int32_t answer = any (season, 1, 100);

  entry.cue.cue = CARPACE_CUE_MICRO_REST;
  entry.cue.exercise = (CarpaceExercise) any (season, 0, 3);
  add (season, entry, NULL);
  pass (season, 5 * CARPACE_SECOND_MS);
  entry = (CarpaceEntry) { .kind = CARPACE_ENTRY_REST };
  entry.rest.length_ms = 30 * CARPACE_SECOND_MS;
  entry.rest.asked = true;
  entry.rest.what = answer <= 76 ? CARPACE_REST_TAKEN : answer <= 90 ? CARPACE_REST_DECLINED : CARPACE_REST_INTERRUPTED;
  pass (season, 30 * CARPACE_SECOND_MS);
  add (season, entry, NULL);
}

static void
tighten (Season *season, int32_t block, int32_t given, int64_t limit_ms)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_DECISION };
  int32_t up = given - season->rating_before;

  if (given < 0 || up <= 0)
    return;
  entry.decision = kept (season, CARPACE_SCOPE_BLOCK, limit_ms);
  entry.decision.rule = given > 5 ? CARPACE_RULE_ABOVE_STOP : up > 1 ? CARPACE_RULE_UP_2 : CARPACE_RULE_UP_1;
  entry.decision.block = block;
  entry.decision.discomfort = given;
  entry.decision.reference = season->rating_before;
  entry.decision.earlier = season->rating_before;
  entry.decision.shorten_to = given > 5 ? 0 : up > 1 ? 6500 : 8500;
  entry.decision.after_ms = given > 5 ? 0 : limit_ms * entry.decision.shorten_to / 10000 / 30000 * 30000;
  add (season, entry, NULL);
}

static int32_t
rate (Season *season, int32_t block, int32_t extra_pct)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_CUE };
  int32_t given = chance (season, 7) ? -1 : felt (season, extra_pct);

  entry.cue.cue = CARPACE_CUE_RATING;
  add (season, entry, NULL);
  entry = (CarpaceEntry) { .kind = CARPACE_ENTRY_RATING };
  entry.rating.block = block;
  entry.rating.corrects = -1;
  entry.rating.discomfort = given;
  if (given > 0)
    entry.rating.site = (CarpaceSite) any (season, 0, 5);
  pass (season, given < 0 ? 30 * CARPACE_MINUTE_MS : any (season, 3, 40) * CARPACE_SECOND_MS);
  add (season, entry, given >= 3 && chance (season, 40) ? "Long evening in the league, little sleep" : NULL);
  if (given > 1 && chance (season, 10))
    {
      entry.rating.corrects = given--;
      entry.rating.discomfort = given;
      pass (season, 20 * CARPACE_SECOND_MS);
      add (season, entry, NULL);
    }
  return given;
}

static int32_t
block (Season *season, int32_t number, int64_t limit_ms)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_BLOCK };
  int64_t over_ms = chance (season, 20) ? any (season, 10, 150) * CARPACE_SECOND_MS : 0;
  int64_t active_ms = chance (season, 10) ? limit_ms * any (season, 50, 90) / 100 : limit_ms + over_ms;
  int32_t given;

  entry.block.what = CARPACE_BLOCK_STARTED;
  entry.block.number = number;
  entry.block.match = number == 0;
  entry.block.limit_ms = number == 0 ? 0 : limit_ms;
  entry.block.after_ms = 10 * CARPACE_MINUTE_MS;
  entry.block.rest_ms = 30 * CARPACE_SECOND_MS;
  add (season, entry, NULL);
  for (int64_t gone_ms = 10 * CARPACE_MINUTE_MS; number > 0 && gone_ms < active_ms; gone_ms += 10 * CARPACE_MINUTE_MS)
    {
      pass (season, 10 * CARPACE_MINUTE_MS);
      rest (season);
    }
  pass (season, active_ms % (10 * CARPACE_MINUTE_MS));
  entry.block.what = CARPACE_BLOCK_ENDED;
  entry.block.active_ms = active_ms;
  entry.block.overrun_ms = number == 0 || active_ms <= limit_ms ? 0 : active_ms - limit_ms;
  entry.block.runs = (int32_t) (active_ms / CARPACE_MINUTE_MS);
  add (season, entry, NULL);
  if (number > 0)
    season->done_ms += active_ms;
  given = rate (season, number, 20 * number);
  tighten (season, number, given, limit_ms);
  if (given >= 0)
    season->rating_before = given;
  pass (season, 45 * CARPACE_MINUTE_MS);
  return given;
}

static void
caution (Season *season, CarpaceCautionWhat what, uint32_t signs)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_CAUTION };

  entry.caution.what = what;
  entry.caution.signs = signs;
  add (season, entry, NULL);
}

static void
blocks (Season *season)
{
  int32_t n = season->dose_ms > 45 * CARPACE_MINUTE_MS ? 3 : 2;
  int32_t highest = 0;

  season->done_ms = 0;
  for (int32_t number = 1; number <= n; number++)
    {
      int32_t given = block (season, number, season->dose_ms / n / 30000 * 30000);

      if (given > highest)
        highest = given;
      if (given > 5 || chance (season, 4))
        break;
    }
  if (chance (season, 12))
    block (season, 0, any (season, 25, 70) * CARPACE_MINUTE_MS);
  season->settled = highest <= 3 ? season->settled + 1 : 0;
  season->soreness_pct = (season->soreness_pct * 3 + (int32_t) (season->done_ms / CARPACE_MINUTE_MS)) / 4;
  if (highest > 5 && chance (season, 50))
    {
      caution (season, CARPACE_CAUTION_OPENED, 1u << CARPACE_SIGN_NUMB);
      season->caution_days = 4;
    }
}

static void
open_day (Season *season)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_DAY };
  bool checked = chance (season, 92);
  CarpaceMorning morning = checked ? wake (season) : (CarpaceMorning) { .waking = -1, .now = -1 };
  CarpaceDecision decision = kept (season, CARPACE_SCOPE_DAY, season->dose_ms);
  CarpaceEntry said = { .kind = CARPACE_ENTRY_DECISION };

  if (season->caution_days > 0)
    {
      decision.rule = CARPACE_RULE_CAUTION;
      decision.no_practice = true;
      decision.after_ms = 0;
    }
  else
    decision = decide (season, checked ? &morning : NULL);
  said.decision = decision;
  if (checked)
    add (season, (CarpaceEntry) { .kind = CARPACE_ENTRY_MORNING, .morning = morning }, NULL);
  add (season, said, NULL);
  entry.day.day = season->day;
  entry.day.dose_ms = decision.after_ms;
  add (season, entry, chance (season, 3) ? "New desk, chair a little higher" : NULL);
  season->rating_before = morning.waking > 0 ? morning.waking : 0;
}

static void
practice_day (Season *season)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_DAY };

  open_day (season);
  if (season->caution_days > 0)
    {
      season->soreness_pct = season->soreness_pct * 2 / 3;
      if (--season->caution_days == 0)
        {
          caution (season, CARPACE_CAUTION_CLOSED, 1u << CARPACE_SIGN_NUMB);
          season->dose_ms = season->dose_ms < season->first_dose_ms / 2 ? season->dose_ms : season->first_dose_ms / 2;
        }
      return;
    }
  pass (season, 30 * CARPACE_SECOND_MS);
  blocks (season);
  entry.day.day = season->day;
  entry.day.what = CARPACE_DAY_DONE;
  entry.day.dose_ms = season->dose_ms;
  entry.day.active_ms = season->done_ms;
  add (season, entry, NULL);
}

/* 17:00 local of @day, summer time from April to October. */
static CarpaceInstant
evening_of (CarpaceDay day, int64_t elapsed_ms)
{
  int32_t year, month, in_month;
  CarpaceInstant at = { .elapsed_ms = elapsed_ms };

  carpace_day_to_civil (day, &year, &month, &in_month);
  at.offset_s = month >= 4 && month <= 10 ? 7200 : 3600;
  at.wall_ms = (int64_t) day * CARPACE_DAY_MS + 17 * CARPACE_HOUR_MS - at.offset_s * CARPACE_SECOND_MS;
  return at;
}

CarpaceFakeDiary *
carpace_fake_diary_season (uint64_t seed, CarpaceDay first, int32_t n_days)
{
  Season season = { .fake = carpace_fake_diary_new (), .seed = seed, .first_dose_ms = 60 * CARPACE_MINUTE_MS,
                    .dose_ms = 60 * CARPACE_MINUTE_MS, .since_rise = 7, .soreness_pct = 20 };

  for (int32_t i = 0; i < n_days; i++)
    {
      season.day = first + i;
      season.at = evening_of (season.day, (int64_t) i * CARPACE_DAY_MS);
      season.since_rise++;
      if (i % 23 == 15)
        season.soreness_pct += 230;
      if (i % 200 > 190 || (season.day % 7 == 2 && season.caution_days == 0))
        season.soreness_pct = season.soreness_pct * 2 / 3;
      else
        practice_day (&season);
      carpace_fake_diary_set_other (season.fake, season.day, any (&season, 20, 150) * CARPACE_MINUTE_MS);
    }
  return season.fake;
}
