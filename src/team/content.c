/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/content.h"

#include <string.h>

#include "carpace/entry-fields.h"
#include "team/hand-out.h"

/* States, cues and faults are the program's own, and clicks stay with the player, who counts them for the plan; all else
 * is what a hand did and said. */
#define HAND_KINDS \
  (CARPACE_ALL_KINDS & ~(CARPACE_KIND (CARPACE_ENTRY_STATE) | CARPACE_KIND (CARPACE_ENTRY_CUE) | CARPACE_KIND (CARPACE_ENTRY_FAULT) \
                         | CARPACE_KIND (CARPACE_ENTRY_CLICKS)))

CarpaceDay
carpace_team_monday (CarpaceDay day)
{
  return day - (CarpaceDay) carpace_day_weekday (day);
}

/* ---- the plan ---- */

typedef struct
{
  CarpaceTeamPlan given, days; /* the last that was taken; the one that days are opened with */
} Plans;

/* As much of a name as there is room for, whole letters. */
static void
set_name (CarpaceTeamPlan *plan, const char *name)
{
  const char *end;

  g_strlcpy (plan->name, name, sizeof plan->name);
  g_utf8_validate (plan->name, -1, &end);
  plan->name[end - plan->name] = '\0';
}

static bool
add_plan_record (void *user, const CarpacePlanRecord *record)
{
  Plans *plans = user;
  CarpaceTeamPlan plan = { .version = record->version };

  set_name (&plan, record->name);
  if (record->what == CARPACE_PLAN_GIVEN)
    {
      plan.hash = carpace_hand_out_hash (record->text, strlen (record->text));
      plans->given = plan;
    }
  if (record->what == CARPACE_PLAN_OF_DAY)
    {
      plan.in_force_s = record->at.wall_ms / 1000;
      plans->days = plan;
    }
  return true;
}

bool
carpace_team_plan_read (const CarpaceDiary *diary, int64_t most_ms, CarpaceTeamPlan *ret_plan)
{
  Plans plans = { .days = { .version = 0 } };

  if (diary->plans != NULL && !diary->plans (diary->self, add_plan_record, &plans))
    return false;
  if (strcmp (plans.days.name, plans.given.name) == 0 && plans.days.version == plans.given.version)
    plans.days.hash = plans.given.hash;
  *ret_plan = plans.days;
  ret_plan->most_ms = most_ms;
  return true;
}

/* ---- load ---- */

typedef struct
{
  CarpaceDay first;     /* Monday of the first week */
  CarpaceLoadWeek week[CARPACE_TEAM_WEEKS];
  bool any[CARPACE_TEAM_WEEKS];
  int64_t last_week_ms; /* the largest dose of a day in the last week */
} Weeks;

static bool
add_day (void *user, const CarpaceDaySum *sum)
{
  Weeks *weeks = user;
  int32_t at = (sum->day - weeks->first) / 7;
  CarpaceLoadWeek *week = &weeks->week[CLAMP (at, 0, CARPACE_TEAM_WEEKS - 1)];

  week->planned_ms = MIN (week->planned_ms + sum->dose_ms, CARPACE_FIELD_LENGTH_MS);
  week->done_ms = MIN (week->done_ms + sum->done_ms, CARPACE_FIELD_LENGTH_MS);
  week->days += sum->done_ms > 0;
  week->rests += sum->taken;
  weeks->any[CLAMP (at, 0, CARPACE_TEAM_WEEKS - 1)] = true;
  if (at == CARPACE_TEAM_WEEKS - 1)
    weeks->last_week_ms = MAX (weeks->last_week_ms, sum->dose_ms);
  return true;
}

static void
write_head (const CarpaceTeamPlan *plan, int64_t last_week_ms, GByteArray *rows)
{
  CarpaceLoadHead head = { .plan_version = plan->version, .plan = plan->hash, .in_force_s = plan->in_force_s,
                           .at_ceiling = plan->most_ms > 0 && last_week_ms >= plan->most_ms };

  memcpy (head.plan_name, plan->name, sizeof head.plan_name);
  carpace_record_write (CARPACE_TEAM_LOAD_HEAD, &head, rows);
}

bool
carpace_load_write (const CarpaceDiary *diary, const CarpaceTeamPlan *plan, CarpaceDay today, GByteArray *rows)
{
  CarpaceDay end = carpace_team_monday (today); /* the week under way is left out */
  Weeks weeks = { .first = end - CARPACE_TEAM_DAYS };
  bool begun = false;

  for (int32_t i = 0; i < CARPACE_TEAM_WEEKS; i++)
    weeks.week[i].monday = weeks.first + 7 * i;
  if (!diary->days (diary->self, weeks.first, end - 1, add_day, &weeks))
    return false;
  write_head (plan, weeks.last_week_ms, rows);
  for (int32_t i = 0; i < CARPACE_TEAM_WEEKS; i++)
    {
      begun = begun || weeks.any[i];
      if (begun)
        carpace_record_write (CARPACE_TEAM_LOAD_WEEK, &weeks.week[i], rows);
    }
  return true;
}

CarpaceTeamFault
carpace_load_read (const GByteArray *rows, CarpaceLoad *ret_load)
{
  CarpaceLoad load = { .n_weeks = 0 };
  size_t at, used;
  CarpaceTeamFault fault = carpace_record_read (CARPACE_TEAM_LOAD_HEAD, rows->data, rows->len, &load.head, &at);

  for (; fault == CARPACE_TEAM_FINE && at < rows->len; at += used)
    {
      CarpaceLoadWeek week;

      fault = carpace_record_read (CARPACE_TEAM_LOAD_WEEK, rows->data + at, rows->len - at, &week, &used);
      if (fault != CARPACE_TEAM_FINE)
        return fault;
      if (load.n_weeks == CARPACE_TEAM_WEEKS || carpace_day_weekday (week.monday) != CARPACE_WEEKDAY_MONDAY
          || (load.n_weeks > 0 && week.monday != load.week[load.n_weeks - 1].monday + 7))
        return CARPACE_TEAM_DAMAGED;
      load.week[load.n_weeks++] = week;
    }
  if (fault == CARPACE_TEAM_FINE)
    *ret_load = load;
  return fault;
}

/* ---- hand ---- */

static bool
write_row (void *user, const CarpaceRecord *record)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (record->entry.kind, &n);
  g_autoptr (GByteArray) values = g_byte_array_new ();
  CarpaceHandRow row = { .id = record->id, .day = record->day, .elapsed_ms = record->entry.at.elapsed_ms,
                         .wall_ms = record->entry.at.wall_ms, .offset_s = record->entry.at.offset_s,
                         .kind = (int32_t) record->entry.kind };

  carpace_values_write (field, n, &record->entry, values);
  row.values = (CarpaceTeamBytes) { values->data, values->len };
  carpace_record_write (CARPACE_TEAM_HAND_ROW, &row, user);
  return true;
}

bool
carpace_hand_write (const CarpaceDiary *diary, CarpaceDay today, GByteArray *rows)
{
  return diary->records_of (diary->self, today - CARPACE_TEAM_DAYS, today, HAND_KINDS, write_row, rows);
}

bool
carpace_hand_entry (const CarpaceHandRow *row, CarpaceEntry *ret_entry)
{
  int32_t n;
  const CarpaceField *field;

  if (row->kind < 0 || row->kind >= CARPACE_N_ENTRIES || (HAND_KINDS & CARPACE_KIND (row->kind)) == 0)
    return false;
  field = carpace_entry_fields ((CarpaceEntryKind) row->kind, &n);
  carpace_entry_init (ret_entry, (CarpaceEntryKind) row->kind,
                      (CarpaceInstant) { row->elapsed_ms, row->wall_ms, row->offset_s });
  return carpace_values_read (field, n, row->values, ret_entry);
}

/* @param visit NULL: nobody is told */
static CarpaceTeamFault
go_through (const GByteArray *rows, CarpaceHandVisitor visit, void *user)
{
  size_t used;
  int32_t n = 0;

  for (size_t at = 0; at < rows->len; at += used)
    {
      CarpaceHandRow row;
      CarpaceEntry entry;
      CarpaceTeamFault fault = carpace_record_read (CARPACE_TEAM_HAND_ROW, rows->data + at, rows->len - at, &row, &used);

      if (fault != CARPACE_TEAM_FINE)
        return fault;
      if (++n > CARPACE_TEAM_ROWS)
        return CARPACE_TEAM_TOO_LARGE;
      if (row.kind >= CARPACE_N_ENTRIES)
        continue;
      if (!carpace_hand_entry (&row, &entry))
        return CARPACE_TEAM_DAMAGED;
      if (visit != NULL && !visit (user, &row, &entry))
        return CARPACE_TEAM_FAILED;
    }
  return CARPACE_TEAM_FINE;
}

CarpaceTeamFault
carpace_hand_read (const GByteArray *rows, CarpaceHandVisitor visit, void *user)
{
  CarpaceTeamFault fault = go_through (rows, NULL, NULL);

  return fault == CARPACE_TEAM_FINE ? go_through (rows, visit, user) : fault;
}
