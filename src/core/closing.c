/* SPDX-License-Identifier: GPL-3.0-or-later */
/* closing.c: which closed caution a day's dose comes of. */
#include "carpace/diary.h"

typedef struct
{
  CarpaceDay day;
  bool any;
  CarpaceDay closed_on;
  CarpaceEntry closed;
} Closing;

/* A day that was opened since has taken the dose up already. */
static bool
note_record (void *user, const CarpaceRecord *record)
{
  Closing *closing = user;
  const CarpaceEntry *entry = &record->entry;

  if (entry->kind == CARPACE_ENTRY_CAUTION && entry->caution.what == CARPACE_CAUTION_CLOSED)
    {
      closing->any = true;
      closing->closed_on = record->day;
      closing->closed = *entry;
    }
  else if (entry->kind == CARPACE_ENTRY_DECISION && entry->decision.scope == CARPACE_SCOPE_DAY
           && record->day > closing->closed_on && record->day < closing->day)
    closing->any = false;
  return true;
}

bool
carpace_closing_before (const CarpaceDiary *diary, CarpaceDay day, CarpaceEntry *ret_closed)
{
  Closing closing = { .day = day };

  if (!diary->records_of (diary->self, INT32_MIN, day,
                          CARPACE_KIND (CARPACE_ENTRY_DECISION) | CARPACE_KIND (CARPACE_ENTRY_CAUTION), note_record,
                          &closing)
      || !closing.any)
    return false;
  *ret_closed = closing.closed;
  return true;
}
