/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fuzz-intake.c: a diary from a stranger, in the form that FORM names: what is
 * handed on is within its ranges, what is not is told in one sentence. */
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "carpace/diary.h"
#include "carpace/entry-fields.h"
#include "carpace/event-kinds.h"
#include "forms/diary-csv.h"
#include "forms/diary-json.h"
#include "target.h"

static bool
begin (void *self)
{
  return true;
}

static void
check_day (CarpaceDay day)
{
  g_assert_cmpint (day, >=, CARPACE_FIELD_DAY_FIRST);
  g_assert_cmpint (day, <=, CARPACE_FIELD_DAY_LAST);
}

static void
check_moment (CarpaceInstant at)
{
  check_day ((CarpaceDay) (at.wall_ms / CARPACE_DAY_MS));
  g_assert_cmpint (ABS (at.elapsed_ms), <=, CARPACE_FIELD_ELAPSED_MS);
}

static void
check_fields (const CarpaceField *field, int32_t n, const void *of)
{
  for (int32_t i = 0; i < n; i++)
    {
      int64_t value = carpace_field_get (&field[i], of);

      if (field[i].later && field[i].type == CARPACE_FIELD_DAY && value == 0)
        continue;
      g_assert_cmpint (value, >=, field[i].least);
      g_assert_cmpint (value, <=, field[i].most);
    }
}

static int
event (void *self, const CarpaceEvent *told, CarpaceInstant at)
{
  int32_t n;
  const CarpaceField *field = carpace_event_fields (told->kind, &n);

  g_assert_true (told->kind != CARPACE_EVENT_DEADLINE && told->kind != CARPACE_EVENT_OPEN);
  check_moment (at);
  check_fields (field, n, told);
  return 1;
}

static int
plan (void *self, const CarpacePlanRecord *record)
{
  check_moment (record->at);
  g_assert_cmpint (record->version, >=, 1);
  g_assert_cmpint (record->version, <=, CARPACE_PLAN_VERSIONS);
  g_assert_true (g_utf8_validate (record->text, -1, NULL));
  return 1;
}

static int
alive (void *self, CarpaceInstant at, bool ended_well)
{
  check_moment (at);
  return 0;
}

static int
record (void *self, CarpaceDay day, const CarpaceEntry *entry, const char *note)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry->kind, &n);

  g_assert_cmpint (n, >, 0);
  check_day (day);
  check_moment (entry->at);
  check_fields (field, n, entry);
  g_assert_true (note == NULL || (g_utf8_validate (note, -1, NULL)
                                  && g_utf8_strlen (note, -1) <= CARPACE_DIARY_NOTE_CHARACTERS));
  return 1;
}

static int
about_day (void *self, CarpaceDay day, int64_t other_ms, const char *note)
{
  check_day (day);
  g_assert_true (other_ms >= -1 && other_ms <= CARPACE_FIELD_LONG_MS);
  return 1;
}

static bool
end (void *self, bool keep)
{
  return keep;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t n)
{
  const CarpaceDiaryKeeper keeper = { .take_in_begin = begin, .take_in_record = record, .take_in_day = about_day,
                                      .take_in_event = event, .take_in_alive = alive, .keep_plan = plan, .take_in_end = end };
  CarpaceIdentity identity;
  CarpaceIntake intake;
  bool kept = FORM.read ((const char *) data, n, &keeper, &intake);

  FORM.whose ((const char *) data, n, &identity);
  g_assert_cmpint (identity.n, <=, CARPACE_IDENTITIES);
  for (int32_t i = 0; i < identity.n; i++)
    g_assert_true (carpace_identity_is_one (identity.id[i]));
  FORM.is_like ((const char *) data, n);
  g_assert_true (kept == (intake.fault == NULL));
  if (!kept)
    {
      g_assert_true (g_utf8_validate (intake.fault, -1, NULL));
      g_assert_null (strchr (intake.fault, '\n'));
      g_assert_cmpint (intake.added, ==, 0);
    }
  g_free (intake.fault);
  return 0;
}
