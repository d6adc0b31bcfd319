/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fuzz-intake.c: a diary from a stranger, in the form that FORM names: what is
 * handed on is within its ranges, what is not is told in one sentence. */
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "carpace/diary.h"
#include "carpace/entry-fields.h"
#include "format-csv.h"
#include "format-json.h"
#include "target.h"

static bool
begin (void *self)
{
  return true;
}

static int
record (void *self, CarpaceDay day, const CarpaceEntry *entry, const char *note)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry->kind, &n);

  g_assert_cmpint (n, >, 0);
  for (int32_t i = 0; i < n; i++)
    {
      int64_t value = carpace_field_get (&field[i], entry);

      g_assert_cmpint (value, >=, field[i].least);
      g_assert_cmpint (value, <=, field[i].most);
    }
  g_assert_true (note == NULL || (g_utf8_validate (note, -1, NULL)
                                  && g_utf8_strlen (note, -1) <= CARPACE_DIARY_NOTE_CHARACTERS));
  return 1;
}

static int
about_day (void *self, CarpaceDay day, int64_t other_ms, const char *note)
{
  g_assert_true (other_ms >= -1 && other_ms <= CARPACE_DAY_MS);
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
                                      .take_in_end = end };
  CarpaceIntake intake;
  bool kept = FORM.read ((const char *) data, n, &keeper, &intake);

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
