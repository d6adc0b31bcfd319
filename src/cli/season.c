/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season.c: a day, a line. */
#include "cli/season.h"

#include <glib/gi18n.h>

#include "text/diary-text.h"
#include "text/duration.h"
#include "text/text.h"

static void
print_day (CarpaceSeason *season)
{
  g_autofree char *date = carpace_text_day (season->day);
  g_autofree char *done = carpace_text_duration (season->active_ms);
  g_autofree char *dose = carpace_text_duration (season->dose_ms);

  if (!season->open)
    return;
  if (season->dose_ms > 0)
    {
      fprintf (season->out, _("%s: %s of %s"), date, done, dose);
      fprintf (season->out, ngettext (", %d block", ", %d blocks", (unsigned long) season->blocks), season->blocks);
      fprintf (season->out, ngettext (", %d rest", ", %d rests", (unsigned long) season->rests), season->rests);
      /* Translators: the ratings of a day, as "0 2 -" */
      if (season->ratings->len > 0)
        fprintf (season->out, _(", discomfort %s"), season->ratings->str);
    }
  else
    fprintf (season->out, _("%s: no practice today"), date);
  fprintf (season->out, "; %s\n", season->notes->str);
}

static void
add_note (CarpaceSeason *season, const char *note)
{
  g_string_append_printf (season->notes, "%s%s", season->notes->len > 0 ? " " : "", note);
}

static void
open_day (CarpaceSeason *season, const CarpaceEntry *entry)
{
  season->open = true;
  season->day = entry->day.day;
  season->dose_ms = entry->day.dose_ms;
  season->active_ms = 0;
  season->blocks = season->rests = 0;
}

/* A day's decision comes just before its opening. */
static void
begin_day (CarpaceSeason *season, const CarpaceEntry *entry)
{
  g_autofree char *why = carpace_text_why_short (&entry->decision);

  print_day (season);
  season->open = false;
  g_string_truncate (season->ratings, 0);
  g_string_truncate (season->notes, 0);
  add_note (season, why);
}

static void
take_decision (CarpaceSeason *season, const CarpaceEntry *entry)
{
  g_autofree char *short_why = carpace_text_after_block (&entry->decision);

  if (entry->decision.rule != CARPACE_RULE_KEEP)
    add_note (season, short_why);
}

static void
take_rating (CarpaceSeason *season, const CarpaceEntry *entry)
{
  if (season->ratings->len > 0)
    g_string_append_c (season->ratings, ' ');
  if (entry->rating.discomfort < 0)
    g_string_append_c (season->ratings, '-');
  else
    g_string_append_printf (season->ratings, "%d", entry->rating.discomfort);
}

static void
take_block (CarpaceSeason *season, const CarpaceEntry *entry)
{
  if (entry->block.what == CARPACE_BLOCK_STARTED || entry->block.match)
    return;
  season->active_ms += entry->block.active_ms;
  season->blocks += entry->block.what == CARPACE_BLOCK_ENDED;
}

void
carpace_season_take (CarpaceSeason *season, const CarpaceEntry *entry)
{
  if (!season->ratings)
    {
      season->ratings = g_string_new (NULL);
      season->notes = g_string_new (NULL);
    }
  switch (entry->kind)
    {
    case CARPACE_ENTRY_DAY:
      if (entry->day.what == CARPACE_DAY_OPENED)
        open_day (season, entry);
      break;
    case CARPACE_ENTRY_BLOCK:
      take_block (season, entry);
      break;
    case CARPACE_ENTRY_OVERRUN:
      season->active_ms += entry->overrun.ms;
      break;
    case CARPACE_ENTRY_REST:
      season->rests += entry->rest.what == CARPACE_REST_TAKEN;
      break;
    case CARPACE_ENTRY_RATING:
      take_rating (season, entry);
      break;
    case CARPACE_ENTRY_DECISION:
      if (entry->decision.scope == CARPACE_SCOPE_DAY)
        begin_day (season, entry);
      else
        take_decision (season, entry);
      break;
    case CARPACE_ENTRY_CAUTION:
      if (entry->caution.what == CARPACE_CAUTION_OPENED)
        add_note (season, _("A caution is open."));
      break;
    case CARPACE_ENTRY_STATE:
    case CARPACE_ENTRY_CUE:
    case CARPACE_ENTRY_MORNING:
    case CARPACE_ENTRY_FAULT:
    case CARPACE_ENTRY_CLICKS:
    case CARPACE_N_ENTRIES:
      break;
    }
}

void
carpace_season_end (CarpaceSeason *season)
{
  if (!season->ratings)
    return;
  print_day (season);
  g_string_free (season->ratings, TRUE);
  g_string_free (season->notes, TRUE);
}
