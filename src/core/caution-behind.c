/* SPDX-License-Identifier: GPL-3.0-or-later */
/* caution-behind.c: which caution a day's dose comes of, or ends by. */
#include "carpace/diary.h"

typedef struct
{
  CarpaceDay day;
  bool any;
  CarpaceDay said_on;
  CarpaceEntry said;
} Caution;

bool
carpace_is_opened_by_signs (const CarpaceEntry *entry)
{
  return entry->kind == CARPACE_ENTRY_CAUTION && entry->caution.what == CARPACE_CAUTION_OPENED && entry->caution.signs != 0;
}

static bool
bears_on (const Caution *caution, const CarpaceRecord *record)
{
  const CarpaceEntry *entry = &record->entry;

  return (entry->kind == CARPACE_ENTRY_CAUTION && entry->caution.what == CARPACE_CAUTION_CLOSED)
         || (record->day == caution->day && carpace_is_opened_by_signs (entry));
}

/* A day that was opened since has taken the dose up already. */
static bool
note_record (void *user, const CarpaceRecord *record)
{
  Caution *caution = user;
  const CarpaceEntry *entry = &record->entry;

  if (bears_on (caution, record))
    {
      caution->any = true;
      caution->said_on = record->day;
      caution->said = *entry;
    }
  else if (entry->kind == CARPACE_ENTRY_DECISION && entry->decision.scope == CARPACE_SCOPE_DAY
           && record->day > caution->said_on && record->day < caution->day)
    caution->any = false;
  return true;
}

bool
carpace_caution_behind (const CarpaceDiary *diary, CarpaceDay day, CarpaceEntry *ret_said)
{
  Caution caution = { .day = day };

  if (!diary->records_of (diary->self, INT32_MIN, day,
                          CARPACE_KIND (CARPACE_ENTRY_DECISION) | CARPACE_KIND (CARPACE_ENTRY_CAUTION), note_record,
                          &caution)
      || !caution.any)
    return false;
  *ret_said = caution.said;
  return true;
}
