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

typedef struct
{
  CarpaceInstant now;
  char *text;
  size_t n, size;
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

static void
put_field (Trace *t, const CarpaceField *field, const CarpaceEntry *entry)
{
  int64_t value = carpace_field_get (field, entry);
  char text[120] = "";

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
  else if (value > 0 || (value == 0 && field->type == CARPACE_FIELD_MAYBE))
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
entry (void *self, const CarpaceEntry *e)
{
  Trace *t = self;
  int64_t ms = e->at.elapsed_ms;
  char head[80];
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (e->kind, &n);

  snprintf (head, sizeof head, "%d:%02d:%02d", (int) (ms / 3600000), (int) (ms / 60000 % 60), (int) (ms / 1000 % 60));
  put (t, head);
  if (ms % 1000 != 0)
    {
      snprintf (head, sizeof head, ".%03d", (int) (ms % 1000));
      put (t, head);
    }
  put (t, " ");
  put (t, carpace_name (CARPACE_WORDS_ENTRY, (int32_t) e->kind));
  for (int32_t i = 0; i < n; i++)
    if (!is_noise (&field[i], e))
      put_field (t, &field[i], e);
  put (t, "\n");
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

static bool
read_fact (const char *word, int64_t now_ms, CarpaceEvent *ret_event)
{
  static const struct { const char *word; CarpaceEventKind kind; } facts[] = {
    { "input", CARPACE_EVENT_INPUT },
    { "still", CARPACE_EVENT_STILL },
    { "suspend", CARPACE_EVENT_SUSPEND },
    { "wake", CARPACE_EVENT_WAKE },
  };

  for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++)
    if (strcmp (word, facts[i].word) == 0)
      {
        *ret_event = (CarpaceEvent){ .kind = facts[i].kind, .since_ms = now_ms };
        return true;
      }
  return false;
}

static void
take_line (CarpaceLoop *loop, Trace *t, const char *line)
{
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
  if (strcmp (words[0], "until") == 0)
    carpace_loop_due (loop);
  else if (read_fact (words[0], ms, &event) || carpace_command_read (n, words, &event, &wording))
    carpace_loop_tell (loop, &event, NULL);
  else
    {
      fprintf (stderr, "no such line: %s\n", line);
      abort ();
    }
}

char *
carpace_trace (const CarpacePlan *plan, const char *script)
{
  Trace t = { .now = { 0, 0, 0 } };
  CarpaceLoop *loop = calloc (1, sizeof *loop);
  CarpaceLoopPorts ports = { .clock = { &t, now }, .listener = &t, .entry = entry };
  char *copy = strdup (script);
  char *rest = copy;

  carpace_instant_read ("2027-03-02T18:00:00+01:00", &t.now);
  put (&t, "");
  carpace_loop_init (loop, &ports, NULL);
  carpace_loop_open (loop, plan);
  for (char *line = strsep (&rest, "\n"); line != NULL; line = strsep (&rest, "\n"))
    if (*line != '\0')
      take_line (loop, &t, line);
  free (copy);
  free (loop);
  return t.text;
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
