/* SPDX-License-Identifier: GPL-3.0-or-later */
/** days.h: days put into a fake diary, one fact after the other. */
#ifndef CARPACE_TEST_DAYS_H
#define CARPACE_TEST_DAYS_H

#include "../fakes/fake-diary.h"

/** 2027-03-01, a Monday. */
#define MONDAY 20878

/** Where facts go: moves on with each of them. */
typedef struct
{
  CarpaceFakeDiary *fake;
  CarpaceDay day;
  CarpaceInstant at;
} Pencil;

static inline void
pass (Pencil *pencil, int64_t ms)
{
  pencil->at.elapsed_ms += ms;
  pencil->at.wall_ms += ms;
}

static inline int64_t
write_entry (Pencil *pencil, CarpaceEntry entry)
{
  entry.at = pencil->at;
  return carpace_fake_diary_add (pencil->fake, pencil->day, &entry, NULL);
}

static inline void
write_opening (Pencil *pencil, int64_t dose_ms)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_DAY };

  entry.day.day = pencil->day;
  entry.day.dose_ms = dose_ms;
  write_entry (pencil, entry);
}

static inline void
write_block (Pencil *pencil, int32_t number, int64_t active_ms, int64_t limit_ms)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_BLOCK };

  entry.block.number = number;
  entry.block.match = number == 0;
  entry.block.limit_ms = limit_ms;
  write_entry (pencil, entry);
  pass (pencil, active_ms);
  entry.block.what = CARPACE_BLOCK_ENDED;
  entry.block.active_ms = active_ms;
  entry.block.overrun_ms = active_ms > limit_ms && number > 0 ? active_ms - limit_ms : 0;
  write_entry (pencil, entry);
}

static inline int64_t
write_rating (Pencil *pencil, int32_t block, int32_t discomfort, int32_t corrects, bool late)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_RATING };

  entry.rating.block = block;
  entry.rating.discomfort = discomfort;
  entry.rating.corrects = corrects;
  entry.rating.late = late;
  entry.rating.site = discomfort > 0 ? CARPACE_SITE_PALM_SIDE : CARPACE_SITE_NONE;
  return write_entry (pencil, entry);
}

static inline void
write_morning (Pencil *pencil, int32_t waking)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_MORNING };

  entry.morning = (CarpaceMorning) { .waking = waking, .now = -1, .stiffness = CARPACE_STIFFNESS_USUAL };
  write_entry (pencil, entry);
}

static inline void
write_decision (Pencil *pencil, CarpaceScope scope, CarpaceRule rule, int64_t before_ms, int64_t after_ms, int32_t block)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_DECISION };

  entry.decision = (CarpaceDecision) { .rule = rule, .scope = scope, .before_ms = before_ms, .after_ms = after_ms,
                                       .block = block, .discomfort = -1, .reference = -1, .earlier = -1,
                                       .stop_above = 5, .kept_ms = after_ms, .mean_pct = -1, .mean_before_pct = -1 };
  write_entry (pencil, entry);
}

/** A day with one rated block of @minutes, and a waking number (-1: no check). */
static inline void
write_day (CarpaceFakeDiary *fake, CarpaceDay day, int32_t minutes, int32_t discomfort, int32_t waking)
{
  Pencil pencil = { .fake = fake, .day = day,
                    .at = { .elapsed_ms = (int64_t) day * CARPACE_DAY_MS, .wall_ms = (int64_t) day * CARPACE_DAY_MS + 17 * CARPACE_HOUR_MS,
                            .offset_s = 3600 } };

  if (waking >= 0)
    write_morning (&pencil, waking);
  write_opening (&pencil, minutes * CARPACE_MINUTE_MS);
  write_block (&pencil, 1, minutes * CARPACE_MINUTE_MS, minutes * CARPACE_MINUTE_MS);
  pass (&pencil, 10 * CARPACE_SECOND_MS);
  write_rating (&pencil, 1, discomfort, -1, false);
}

#endif
