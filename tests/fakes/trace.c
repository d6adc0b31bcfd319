/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _DEFAULT_SOURCE
#include "trace.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/commands.h"
#include "app/loop.h"
#include "carpace/entry-fields.h"
#include "carpace/plan-builder.h"
#include "trace-view.h"

typedef struct
{
  CarpaceInstant now;
  char *text;
  size_t n, size;
  bool whole;
  CarpacePlan *next_plan;
  char kept[CARPACE_HISTORY_BYTES]; /* as it was told last */
} Trace;

static CarpaceInstant
now (void *self)
{
  return ((Trace *) self)->now;
}

static void
put (Trace *t, const char *text)
{
  size_t n = strlen (text);

  while (t->n + n + 1 > t->size)
    {
      t->size = 2 * t->size + 4096;
      t->text = realloc (t->text, t->size);
      if (t->text == NULL)
        abort ();
    }
  memcpy (t->text + t->n, text, n + 1);
  t->n += n;
}

/* Whether it is under 0 and does not mean that there is none. */
static bool
is_no_nothing (const CarpaceField *field, int64_t value)
{
  return value < (field->type == CARPACE_FIELD_MAYBE ? -1 : 0);
}

static void
put_field (Trace *t, const CarpaceField *field, const CarpaceEntry *entry)
{
  int64_t value = carpace_field_get (field, entry);
  char text[120] = "";

  if (field->later && !t->whole) /* what folding needs is not what an evening reads like */
    return;
  if (field->type == CARPACE_FIELD_WORD)
    {
      const char *word = carpace_name (field->words, (int32_t) value);
      if (strcmp (word, "none") != 0 || field->words == CARPACE_WORDS_CAUTION_WHAT)
        snprintf (text, sizeof text, " %s", word);
    }
  else if (field->type == CARPACE_FIELD_DAY)
    {
      char day[CARPACE_DAY_BYTES];
      carpace_day_write ((CarpaceDay) value, day);
      snprintf (text, sizeof text, " %s", day);
    }
  else if (field->type == CARPACE_FIELD_FLAG)
    snprintf (text, sizeof text, "%s%s", value ? " " : "", value ? field->name : "");
  else if (field->type == CARPACE_FIELD_MS)
    {
      if (strcmp (field->name, "ms") == 0)
        snprintf (text, sizeof text, " ms=%lld", (long long) value);
      else if (value != 0 && value % 1000 == 0)
        snprintf (text, sizeof text, " %.*s=%lld", (int) strlen (field->name) - 3, field->name,
                  (long long) (value / 1000));
      else if (value != 0)
        snprintf (text, sizeof text, " %.*s=%.3f", (int) strlen (field->name) - 3, field->name, (double) value / 1000);
    }
  else if (value > 0 || (value == 0 && field->type == CARPACE_FIELD_MAYBE) || (t->whole && is_no_nothing (field, value)))
    snprintf (text, sizeof text, " %s=%lld", field->name, (long long) value);
  put (t, text);
}

/* What makes the lines longer without telling more in a test. */
static bool
is_noise (const CarpaceField *field, const CarpaceEntry *entry)
{
  static const char *const noise[] = { "usual", "stop_above", "kept_ms", "shorten_to", "in_run", "finding" };

  for (size_t i = 0; i < sizeof noise / sizeof noise[0]; i++)
    if (strcmp (field->name, noise[i]) == 0)
      return true;
  return entry->kind == CARPACE_ENTRY_CUE && strcmp (field->name, "exercise") == 0
         && !(entry->cue.cue == CARPACE_CUE_MICRO_REST && entry->cue.what == CARPACE_CUE_SHOWN);
}

static void
put_time (Trace *t, int64_t ms)
{
  char text[80];

  snprintf (text, sizeof text, "%d:%02d:%02d", (int) (ms / 3600000), (int) (ms / 60000 % 60), (int) (ms / 1000 % 60));
  put (t, text);
  if (ms % 1000 == 0)
    return;
  snprintf (text, sizeof text, ".%03d", (int) (ms % 1000));
  put (t, text);
}

static void
entry (void *self, const CarpaceEntry *e)
{
  Trace *t = self;
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (e->kind, &n);

  put_time (t, e->at.elapsed_ms);
  put (t, " ");
  put (t, carpace_name (CARPACE_WORDS_ENTRY, (int32_t) e->kind));
  for (int32_t i = 0; i < n; i++)
    if (t->whole || !is_noise (&field[i], e))
      put_field (t, &field[i], e);
  put (t, "\n");
}

static void
put_decision (Trace *t, const CarpaceDecision *decision)
{
  const CarpaceEntry e = { .kind = CARPACE_ENTRY_DECISION, .decision = *decision };
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (e.kind, &n);

  put (t, "        because");
  for (int32_t i = 0; i < n; i++)
    put_field (t, &field[i], &e);
  put (t, "\n");
}

/* What a face would draw now. */
static void
look (CarpaceLoop *loop, Trace *t)
{
  char line[CARPACE_TRACE_VIEW_BYTES];

  carpace_loop_due (loop);
  carpace_trace_view (carpace_loop_view (loop), line, sizeof line);
  put_time (t, t->now.elapsed_ms);
  put (t, " view");
  put (t, line);
  put (t, "\n");
  if (t->whole && carpace_loop_view (loop)->has_decision)
    put_decision (t, &carpace_loop_view (loop)->decision);
}

/* What is kept of the days before, as its text has it, in one line. */
static void
tell_kept (CarpaceLoop *loop, Trace *t)
{
  char *text = malloc (CARPACE_HISTORY_BYTES);

  if (text == NULL)
    abort ();
  carpace_history_write (carpace_session_history_at_opening (&loop->session), text, CARPACE_HISTORY_BYTES);
  for (char *at = text; *at != '\0'; at++)
    if (*at == '\n')
      *at = at[1] == '\0' ? ' ' : ',';
  put_time (t, t->now.elapsed_ms);
  put (t, " kept ");
  put (t, text);
  put (t, ".\n");
  free (text);
}

/* Whether one of the lines of @text is @line. */
static bool
has_line (const char *text, const char *line, size_t n)
{
  for (const char *at = text; *at != '\0'; at += strcspn (at, "\n") + 1)
    if (strcspn (at, "\n") == n && strncmp (at, line, n) == 0)
      return true;
  return false;
}

/* Of what the session keeps now, the lines that were not told before. */
static void
tell_kept_anew (CarpaceLoop *loop, Trace *t)
{
  char *text = malloc (CARPACE_HISTORY_BYTES), *line = malloc (CARPACE_HISTORY_BYTES);

  if (text == NULL || line == NULL)
    abort ();
  carpace_history_write (carpace_session_history (&loop->session), text, CARPACE_HISTORY_BYTES);
  for (const char *at = text; *at != '\0'; at += strcspn (at, "\n") + 1)
    {
      if (has_line (t->kept, at, strcspn (at, "\n")))
        continue;
      snprintf (line, CARPACE_HISTORY_BYTES, "        keeps %.*s\n", (int) strcspn (at, "\n"), at);
      put (t, line);
    }
  strcpy (t->kept, text);
  free (line);
  free (text);
}

static int64_t
read_time (const char **at)
{
  int64_t ms = 0;
  char *end;

  for (;;)
    {
      ms = ms * 60 + strtol (*at, &end, 10);
      *at = end;
      if (**at != ':')
        break;
      (*at)++;
    }
  ms *= 1000;
  if (**at == '.')
    {
      (*at)++;
      ms += strtol (*at, &end, 10);
      *at = end;
    }
  return ms;
}

/* `plan BLOCKS MINUTES`: another plan is opened. */
static void
open_plan (CarpaceLoop *loop, Trace *t, int n, const char *const *words)
{
  if (n != 3 || t->next_plan != NULL)
    abort ();
  t->next_plan = calloc (1, sizeof *t->next_plan);
  carpace_trace_plan (t->next_plan, atoi (words[1]), atoi (words[2]));
  carpace_loop_open (loop, t->next_plan);
}

static void
put_line (Trace *t, const char *line)
{
  put (t, "> ");
  put (t, line);
  put (t, "\n");
}

static void
take_line (CarpaceLoop *loop, Trace *t, const char *line)
{
  const char *const whole_line = line;
  char copy[256];
  const char *words[16];
  int n = 0;
  int64_t ms = read_time (&line);
  CarpaceEvent event;
  CarpaceWording wording;

  snprintf (copy, sizeof copy, "%s", line);
  for (char *word = strtok (copy, " "); word != NULL && n < 16; word = strtok (NULL, " "))
    words[n++] = word;
  while (carpace_loop_next (loop) < ms)
    {
      t->now = carpace_instant_after (t->now, carpace_loop_next (loop) - t->now.elapsed_ms);
      carpace_loop_due (loop);
    }
  t->now = carpace_instant_after (t->now, ms - t->now.elapsed_ms);
  if (t->whole)
    put_line (t, whole_line);
  if (strcmp (words[0], "until") == 0)
    carpace_loop_due (loop);
  else if (strcmp (words[0], "look") == 0)
    look (loop, t);
  else if (strcmp (words[0], "plan") == 0)
    open_plan (loop, t, n, words);
  else if (strcmp (words[0], "kept") == 0)
    tell_kept (loop, t);
  else if (carpace_fact_read (n, words, ms, &event, &wording) || carpace_command_read (n, words, &event, &wording))
    carpace_loop_tell (loop, &event, NULL);
  else
    {
      fprintf (stderr, "no such line: %s\n", line);
      abort ();
    }
}

static void
take_lines (CarpaceLoop *loop, Trace *t, char *script)
{
  for (char *line = strsep (&script, "\n"); line != NULL; line = strsep (&script, "\n"))
    {
      if (*line != '\0')
        take_line (loop, t, line);
      if (t->whole)
        tell_kept_anew (loop, t);
    }
}

static char *
trace (const CarpacePlan *plan, const char *script, bool whole)
{
  Trace *t = calloc (1, sizeof *t);
  CarpaceLoop *loop = calloc (1, sizeof *loop);
  CarpaceLoopPorts ports = { .clock = { t, now }, .listener = t, .entry = entry };
  char *copy = strdup (script), *text;

  t->whole = whole;
  carpace_instant_read ("2027-03-02T18:00:00+01:00", &t->now);
  put (t, "");
  carpace_loop_init (loop, &ports, NULL);
  carpace_loop_open (loop, plan);
  carpace_history_write (carpace_session_history (&loop->session), t->kept, sizeof t->kept);
  take_lines (loop, t, copy);
  text = t->text;
  free (copy);
  free (loop);
  free (t->next_plan);
  free (t);
  return text;
}

char *
carpace_trace (const CarpacePlan *plan, const char *script)
{
  return trace (plan, script, false);
}

char *
carpace_trace_whole (const CarpacePlan *plan, const char *script)
{
  return trace (plan, script, true);
}

void
carpace_trace_plan (CarpacePlan *ret_plan, int n, int limit_min)
{
  CarpacePlanBuilder *b = calloc (1, sizeof *b);

  carpace_plan_builder_init (b);
  carpace_plan_builder_text (b, CARPACE_KEY_NAME, "Test", 1);
  carpace_plan_builder_drill (b, "corners", 1);
  carpace_plan_builder_drill_number (b, 0, CARPACE_DRILL_MOVEMENT, CARPACE_MOVEMENT_SMALL_TURN, 1);
  for (int i = 0; i < n; i++)
    carpace_plan_builder_part (b, carpace_plan_builder_block (b, (int64_t) limit_min * 60000, false, 1), "corners", -1, 1);
  if (!carpace_plan_builder_finish (b, ret_plan))
    {
      fprintf (stderr, "the test's plan is faulty: flaw %d\n", (int) b->flaws[0].kind);
      abort ();
    }
  free (b);
}
