/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "script.h"

#include "carpace/entry-fields.h"

static void
put_time (FILE *file, int64_t ms)
{
  fprintf (file, "%d:%02d:%02d.%03d", (int) (ms / CARPACE_HOUR_MS), (int) (ms / CARPACE_MINUTE_MS % 60),
           (int) (ms / CARPACE_SECOND_MS % 60), (int) (ms % CARPACE_SECOND_MS));
}

static CarpaceDay
date_of_script (const Script *script, const Evening *e)
{
  CarpaceInstant begin;

  carpace_instant_read ("2027-03-02T18:00:00+01:00", &begin);
  return carpace_day_of (carpace_instant_after (begin, e->now.elapsed_ms + script->shift_ms), e->plan->starts_at_min);
}

static void
set_clock (Script *script, const Evening *e)
{
  CarpaceDay date = carpace_day_of (e->now, e->plan->starts_at_min);
  int64_t by_ms = (int64_t) (date - date_of_script (script, e)) * CARPACE_DAY_MS;

  if (by_ms == 0)
    return;
  put_time (script->file, e->now.elapsed_ms);
  fprintf (script->file, " clock %c", by_ms < 0 ? '-' : '+');
  put_time (script->file, by_ms < 0 ? -by_ms : by_ms);
  fputc ('\n', script->file);
  script->shift_ms += by_ms;
}

void
script_line (Script *script, const Evening *e, const char *words)
{
  if (script == NULL)
    return;
  set_clock (script, e);
  put_time (script->file, e->now.elapsed_ms);
  fprintf (script->file, " %s\n", words);
}

void
script_told (FILE *file, const CarpaceEntry *entry)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry->kind, &n);

  fputs ("#   ", file);
  put_time (file, entry->at.elapsed_ms);
  fprintf (file, " %s", carpace_name (CARPACE_WORDS_ENTRY, (int32_t) entry->kind));
  for (int32_t i = 0; i < n; i++)
    {
      int64_t value = carpace_field_get (&field[i], entry);
      if (field[i].type == CARPACE_FIELD_WORD)
        fprintf (file, " %s", carpace_name (field[i].words, (int32_t) value));
      else if (value > 0)
        fprintf (file, " %s=%lld", field[i].name, (long long) value);
    }
  fputc ('\n', file);
}
