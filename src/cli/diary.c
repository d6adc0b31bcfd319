/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary.c: `carpace diary` and `carpace why`. */
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/cli.h"
#include "cli/clock.h"
#include "cli/dates.h"
#include "cli/diary-out.h"
#include "cli/options.h"
#include "forms/entries-json.h"
#include "text/entries.h"
#include "text/quoted.h"
#include "text/level-text.h"
#include "text/text.h"

/** What is being printed. */
typedef struct
{
  CarpaceCli *cli;
  CarpaceDiary diary;
  CarpaceDay day; /* the last one that has a heading */
  int64_t lines;
} Printing;

/* Notes may come from strangers. */
static bool
print_day_note (void *user, const CarpaceDaySum *sum)
{
  g_autofree char *note = sum->note != NULL ? carpace_text_harmless (sum->note) : NULL;

  if (note != NULL)
    fprintf (user, "  %s %s\n", _("Note:"), note);
  return true;
}

static void
print_heading (Printing *printing, CarpaceDay day)
{
  g_autofree char *date = carpace_text_day (day);

  if (day == printing->day)
    return;
  fprintf (printing->cli->out, "%s%s\n", printing->day != CARPACE_NO_DAY ? "\n" : "", date);
  printing->day = day;
  printing->diary.days (printing->diary.self, day, day, print_day_note, printing->cli->out);
}

/* The wall clock's own hour and minute, as it stood then. */
static void
print_time (FILE *out, CarpaceInstant at)
{
  char text[CARPACE_INSTANT_BYTES];

  if (carpace_instant_write (at, text) > 16)
    fprintf (out, "  %.5s  ", text + 11);
  else
    fprintf (out, "  --:--  ");
}

static bool
print_text (void *user, const CarpaceRecord *record)
{
  Printing *printing = user;
  g_autofree char *text = carpace_entry_text (&record->entry);
  g_autofree char *note = record->note != NULL ? carpace_text_harmless (record->note) : NULL;

  if (text[0] == '\0' && note == NULL)
    return true;
  print_heading (printing, record->day);
  print_time (printing->cli->out, record->entry.at);
  fprintf (printing->cli->out, "%s\n", text);
  if (note != NULL)
    fprintf (printing->cli->out, "         %s %s\n", _("Note:"), note);
  printing->lines++;
  return !ferror (printing->cli->out);
}

static bool
print_json (void *user, const CarpaceRecord *record)
{
  Printing *printing = user;
  g_autofree char *line = carpace_entry_json_dated (&record->entry);

  return fprintf (printing->cli->out, "%s\n", line) >= 0;
}

/* Where what was read could not be printed, the diary is not to blame. */
static int
unreadable (CarpaceCli *cli)
{
  if (!carpace_cli_flush (cli))
    return CARPACE_EXIT_REFUSED;
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                             _("A part of the diary could not be read; take a backup in its place."));
}

static bool
print_all (Printing *printing, int format, CarpaceDay since, CarpaceDay until)
{
  CarpaceDiaryExtract what = { .since = since, .until = until };

  if (format == 1)
    return carpace_cli_write_diary (printing->cli, &printing->diary, "csv", &what, printing->cli->out);
  return printing->diary.records (printing->diary.self, since, until, format == 2 ? print_json : print_text, printing);
}

/* What the hand was seen to take, as of the last day that was printed. */
static bool
print_at_least (Printing *printing)
{
  g_autofree CarpacePlan *plan = carpace_cli_plan_in_use (printing->cli);
  g_autofree char *sentence = NULL;
  CarpaceAtLeast seen;

  if (printing->day == CARPACE_NO_DAY)
    return true;
  if (!carpace_at_least_read (&printing->diary, printing->day, plan, &seen))
    return false;
  sentence = carpace_text_at_least (&seen);
  if (sentence != NULL)
    fprintf (printing->cli->out, "\n%s\n", sentence);
  return true;
}

int
carpace_cli_diary (CarpaceCli *cli, int argc, char **argv)
{
  static const char *const formats[] = { "text", "csv", "json", NULL };
  const char *since = NULL, *until = NULL, *format_word = NULL, *file = NULL;
  const CarpaceOption options[] = {
    { .name = "since", .value = &since }, { .name = "until", .value = &until },
    { .name = "format", .value = &format_word }, { .name = "from", .value = &file },
  };
  Printing printing = { .cli = cli, .day = CARPACE_NO_DAY };
  CarpaceDay from, to;
  int format;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0
      || (format = carpace_option_choice (cli, "format", format_word, formats)) < 0
      || !carpace_option_period (cli, since, until, &from, &to))
    return CARPACE_EXIT_WORDS;
  if (!carpace_cli_open_diary_or (cli, file, &printing.diary))
    return CARPACE_EXIT_REFUSED;
  if (!print_all (&printing, format, from, to) || (format == 0 && !print_at_least (&printing)))
    return unreadable (cli);
  if (format == 0 && printing.lines == 0)
    fprintf (cli->out, "%s\n", _("Nothing is recorded for these days."));
  return CARPACE_EXIT_DONE;
}

/* ---- why ---- */

/* The last one on which something was decided, or signs ended practice. */
static bool
find_last_day (void *user, const CarpaceRecord *record)
{
  if (record->entry.kind != CARPACE_ENTRY_CAUTION || carpace_is_opened_by_signs (&record->entry))
    *(CarpaceDay *) user = record->day;
  return true;
}

/* The latest decision of the day asked about, and the last that changed the level up to it. */
typedef struct
{
  CarpaceDay day, changed;
  bool decided;       /* by a decision, not by a plan or a closed caution */
  CarpaceDecision latest, change, before;
} Level;

static bool
note_level (void *user, const CarpaceRecord *record)
{
  Level *level = user;
  const CarpaceDecision *d = &record->entry.decision;

  if (d->scope != CARPACE_SCOPE_DAY || d->level_ms <= 0)
    return true;
  if (record->day == level->day)
    level->latest = *d;
  if (level->before.level_ms > 0 && level->before.level_ms != d->level_before_ms)
    {
      level->changed = record->day;
      level->decided = false;
    }
  if (d->level_ms != d->level_before_ms || d->level_down)
    {
      level->change = *d;
      level->changed = record->day;
      level->decided = true;
    }
  level->before = *d;
  return true;
}

static bool
print_level (Printing *printing, CarpaceDay day)
{
  const CarpaceDiary *diary = &printing->diary;
  Level level = { .day = day, .changed = CARPACE_NO_DAY };
  g_auto (GStrv) lines = NULL;

  if (!diary->records_of (diary->self, INT32_MIN, day, CARPACE_KIND (CARPACE_ENTRY_DECISION), note_level, &level))
    return false;
  lines = carpace_text_level_lines (&level.latest, level.decided ? &level.change : NULL, level.changed);
  for (char **line = lines; *line != NULL; line++)
    fprintf (printing->cli->out, "%s\n", *line);
  return true;
}

static bool
print_why (void *user, const CarpaceRecord *record)
{
  Printing *printing = user;
  g_autofree char *why = carpace_text_why (&record->entry.decision);

  print_heading (printing, record->day);
  print_time (printing->cli->out, record->entry.at);
  fprintf (printing->cli->out, "%s [%s]\n", why,
           carpace_name (CARPACE_WORDS_RULE, (int32_t) record->entry.decision.rule));
  printing->lines++;
  return true;
}

/* The caution that the day's dose comes of, or ends by.
 * @return whether it is open: nothing is led up or down then */
static bool
print_caution (Printing *printing, CarpaceDay day)
{
  g_autofree char *sentence = NULL;
  CarpaceEntry said;

  if (!carpace_caution_behind (&printing->diary, day, &said))
    return false;
  sentence = carpace_text_why_caution (&said);
  if (sentence != NULL)
    {
      print_heading (printing, day);
      fprintf (printing->cli->out, "%s\n", sentence);
      printing->lines++;
    }
  return said.caution.what == CARPACE_CAUTION_OPENED;
}

int
carpace_cli_why (CarpaceCli *cli, int argc, char **argv)
{
  const uint32_t decisions = CARPACE_KIND (CARPACE_ENTRY_DECISION);
  const char *word = NULL, *file = NULL;
  const CarpaceOption options[] = { { .name = "day", .value = &word }, { .name = "from", .value = &file } };
  Printing printing = { .cli = cli, .day = CARPACE_NO_DAY };
  const CarpaceDiary *diary = &printing.diary;
  CarpaceDay day = CARPACE_NO_DAY;
  bool ok = true;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0
      || !carpace_option_day (cli, "day", word, &day))
    return CARPACE_EXIT_WORDS;
  if (!carpace_cli_open_diary_or (cli, file, &printing.diary))
    return CARPACE_EXIT_REFUSED;
  if (word == NULL)
    ok = diary->records_of (diary->self, INT32_MIN, INT32_MAX, decisions | CARPACE_KIND (CARPACE_ENTRY_CAUTION), find_last_day, &day);
  if (ok && day != CARPACE_NO_DAY)
    {
      ok = diary->records_of (diary->self, day, day, decisions, print_why, &printing);
      if (!print_caution (&printing, day))
        ok = ok && print_level (&printing, day);
      ok = ok && print_at_least (&printing);
    }
  if (!ok)
    return unreadable (cli);
  if (printing.lines == 0)
    fprintf (cli->out, "%s\n", word != NULL ? _("No decision was made on that day.") : _("No decision has been made yet."));
  return CARPACE_EXIT_DONE;
}
