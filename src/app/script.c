/* SPDX-License-Identifier: GPL-3.0-or-later */
/* script.c: reads a script line by line; written by strangers, so nothing is
 * believed before it is looked at. */
#include "app/script.h"

#include <stdlib.h>
#include <string.h>

#include "carpace/event-kinds.h"

#define DEFAULT_START "2027-03-02T18:00:00+01:00"
#define MOST_WORDS 20
#define MOST_HOURS 100000

typedef struct
{
  const CarpaceZones *zones;
  CarpaceScriptFaultVisitor visit;
  void *user;
  CarpaceScript script;
  size_t size;
  int64_t last_ms;
  int32_t line;
  bool faulty;
  bool stopped;
  bool begun; /* a line before this one did something */
} Reader;

typedef struct
{
  char text[CARPACE_SCRIPT_LINE_BYTES + 1];
  const char *word[MOST_WORDS + 1];
  int n;
} Words;

static void
tell (Reader *r, const CarpaceScriptFault *fault)
{
  r->faulty = true;
  if (r->visit != NULL)
    r->visit (r->user, fault);
}

static void
fault (Reader *r, CarpaceScriptFaultKind kind, const char *word)
{
  const CarpaceScriptFault fault = { .kind = kind, .line = r->line, .word = word, .command = "" };

  tell (r, &fault);
}

static void
be_nearer (const char *known, const char *word, size_t *least, const char **nearest)
{
  size_t distance = known != NULL ? carpace_word_distance (known, word) : *least;

  if (distance >= *least)
    return;
  *least = distance;
  *nearest = known;
}

/* The word of a script or command that is nearest to @word, NULL where none is. */
static const char *
nearest_word (const char *word)
{
  static const char *const own[] = { "clock", "zone", "stop" };
  const char *nearest = NULL;
  size_t least = strlen (word) / 2 + 1; /* two letters changed places count as two */

  for (int kind = 0; kind < CARPACE_N_EVENTS; kind++)
    be_nearer (carpace_event_kinds[kind].script, word, &least, &nearest);
  for (size_t i = 0; i < sizeof own / sizeof own[0]; i++)
    be_nearer (own[i], word, &least, &nearest);
  return nearest;
}

static void
fault_of_words (Reader *r, const Words *w, CarpaceWording wording)
{
  const CarpaceScriptFault fault = {
    .kind = CARPACE_SCRIPT_WORDING,
    .line = r->line,
    .word = wording.at + 1 < w->n ? w->word[wording.at + 1] : "",
    .command = w->word[1],
    .nearest = wording.fault == CARPACE_WORDING_UNKNOWN ? nearest_word (w->word[1]) : NULL,
    .wording = wording,
  };

  tell (r, &fault);
}

static bool
read_part (const char **at, int64_t most, int digits_at_least, int digits_at_most, int64_t *ret_value)
{
  int64_t value = 0;
  int n = 0;

  for (; **at >= '0' && **at <= '9' && n <= digits_at_most; (*at)++, n++)
    value = value * 10 + (**at - '0');
  *ret_value = value;
  return n >= digits_at_least && n <= digits_at_most && value <= most;
}

/* h:mm:ss[.mmm], and nothing after it. */
static bool
read_time (const char *at, int64_t *ret_ms)
{
  int64_t hours, minutes, seconds, ms = 0;

  if (!read_part (&at, MOST_HOURS, 1, 6, &hours) || *at++ != ':' || !read_part (&at, 59, 2, 2, &minutes)
      || *at++ != ':' || !read_part (&at, 59, 2, 2, &seconds))
    return false;
  if (*at == '.')
    {
      at++;
      if (!read_part (&at, 999, 3, 3, &ms))
        return false;
    }
  if (*at != '\0')
    return false;
  *ret_ms = hours * CARPACE_HOUR_MS + minutes * CARPACE_MINUTE_MS + seconds * CARPACE_SECOND_MS + ms;
  return true;
}

static bool
add (Reader *r, const CarpaceScriptLine *line)
{
  CarpaceScript *script = &r->script;

  if (script->n == r->size)
    {
      size_t size = r->size == 0 ? 64 : 2 * r->size;
      CarpaceScriptLine *grown = realloc (script->line, size * sizeof *grown);
      if (grown == NULL)
        {
          fault (r, CARPACE_SCRIPT_NO_MEMORY, "");
          return false;
        }
      script->line = grown;
      r->size = size;
    }
  script->line[script->n++] = *line;
  return true;
}

static bool
zone_known (Reader *r, const char *zone)
{
  int32_t offset_s;

  return strlen (zone) < CARPACE_ZONE_BYTES && r->zones != NULL && r->zones->offset != NULL
         && r->zones->offset (r->zones->self, zone, r->script.start.wall_ms, &offset_s);
}

static void
read_start (Reader *r, const Words *w)
{
  if (r->begun)
    {
      fault (r, CARPACE_SCRIPT_AT_NOT_FIRST, "at");
      return;
    }
  if (w->n < 2 || w->n > 3 || !carpace_instant_read (w->word[1], &r->script.start))
    fault (r, CARPACE_SCRIPT_NOT_AN_INSTANT, w->n > 1 ? w->word[1] : "");
  else if (w->n == 3 && !zone_known (r, w->word[2]))
    fault (r, CARPACE_SCRIPT_NO_SUCH_ZONE, w->word[2]);
  else if (w->n == 3)
    strcpy (r->script.zone, w->word[2]);
}

static bool
read_clock (Reader *r, const Words *w, CarpaceScriptLine *line)
{
  bool good = w->n == 3 && (w->word[2][0] == '+' || w->word[2][0] == '-') && read_time (w->word[2] + 1, &line->by_ms);

  if (!good)
    fault (r, CARPACE_SCRIPT_NOT_A_SHIFT, w->n > 2 ? w->word[2] : "");
  else if (w->word[2][0] == '-')
    line->by_ms = -line->by_ms;
  line->what = CARPACE_SCRIPT_CLOCK;
  return good;
}

static bool
read_zone (Reader *r, const Words *w, CarpaceScriptLine *line)
{
  bool good = w->n == 3 && zone_known (r, w->word[2]);

  if (good)
    strcpy (line->zone, w->word[2]);
  else
    fault (r, CARPACE_SCRIPT_NO_SUCH_ZONE, w->n > 2 ? w->word[2] : "");
  line->what = CARPACE_SCRIPT_ZONE;
  return good;
}

static bool
one_word (Reader *r, const Words *w)
{
  if (w->n == 2)
    return true;
  fault_of_words (r, w, (CarpaceWording){ .fault = CARPACE_WORDING_TOO_MANY, .at = 1 });
  return false;
}

static bool
read_words (Reader *r, const Words *w, CarpaceScriptLine *line)
{
  CarpaceWording wording;

  if (strcmp (w->word[1], "clock") == 0)
    return read_clock (r, w, line);
  if (strcmp (w->word[1], "zone") == 0)
    return read_zone (r, w, line);
  if (strcmp (w->word[1], "stop") == 0)
    {
      line->what = CARPACE_SCRIPT_STOP;
      r->stopped = true;
      return one_word (r, w);
    }
  if (carpace_fact_read (w->n - 1, w->word + 1, line->at_ms, &line->event, &wording))
    return true;
  if (wording.fault == CARPACE_WORDING_UNKNOWN && carpace_command_read (w->n - 1, w->word + 1, &line->event, &wording))
    return true;
  fault_of_words (r, w, wording);
  return false;
}

static void
read_action (Reader *r, const Words *w)
{
  CarpaceScriptLine line = { .line = r->line };

  if (r->stopped)
    {
      fault (r, CARPACE_SCRIPT_AFTER_STOP, w->word[0]);
      return;
    }
  if (!read_time (w->word[0], &line.at_ms))
    {
      fault (r, CARPACE_SCRIPT_NOT_A_TIME, w->word[0]);
      return;
    }
  if (line.at_ms < r->last_ms)
    fault (r, CARPACE_SCRIPT_TIME_GOES_BACK, w->word[0]);
  else
    r->last_ms = line.at_ms;
  if (w->n < 2)
    fault (r, CARPACE_SCRIPT_NO_WORD, "");
  else if (read_words (r, w, &line))
    add (r, &line);
}

static void
split (Words *w)
{
  char *at = w->text;

  w->n = 0;
  while (w->n < MOST_WORDS + 1)
    {
      at += strspn (at, " \t\r");
      if (*at == '\0')
        return;
      w->word[w->n++] = at;
      at += strcspn (at, " \t\r");
      if (*at != '\0')
        *at++ = '\0';
    }
}

/* Bytes of the UTF-8 character at @at, 0 where it is none: too long a form,
 * half of a pair, past the last plane. */
static size_t
character_bytes (const unsigned char *at, size_t n)
{
  size_t bytes = at[0] < 0x80 ? 1 : at[0] >= 0xf0 ? 4 : at[0] >= 0xe0 ? 3 : 2;
  uint32_t code = bytes == 1 ? at[0] : at[0] & (0x7fu >> bytes);
  static const uint32_t least[] = { 0, 0, 0x80, 0x800, 0x10000 };

  if ((at[0] >= 0x80 && at[0] < 0xc2) || at[0] > 0xf4 || bytes > n)
    return 0;
  for (size_t i = 1; i < bytes; i++)
    {
      if ((at[i] & 0xc0) != 0x80)
        return 0;
      code = code << 6 | (at[i] & 0x3fu);
    }
  return code < least[bytes] || code > 0x10ffff || (code >= 0xd800 && code < 0xe000) ? 0 : bytes;
}

static bool
is_utf8 (const char *text, size_t n)
{
  while (n > 0)
    {
      size_t bytes = character_bytes ((const unsigned char *) text, n);
      if (bytes == 0)
        return false;
      text += bytes;
      n -= bytes;
    }
  return true;
}

static bool
is_not_text (const char *text, size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (((unsigned char) text[i] < ' ' && text[i] != '\t' && text[i] != '\r') || text[i] == 0x7f)
      return true;
  return false;
}

static void
read_line (Reader *r, const char *text, size_t n)
{
  Words w;
  const char *comment = memchr (text, '#', n);

  if (is_not_text (text, n) || !is_utf8 (text, n))
    {
      fault (r, CARPACE_SCRIPT_NOT_TEXT, "");
      return;
    }
  if (comment != NULL)
    n = (size_t) (comment - text);
  if (n > CARPACE_SCRIPT_LINE_BYTES)
    {
      fault (r, CARPACE_SCRIPT_TOO_MANY_WORDS, "");
      return;
    }
  memcpy (w.text, text, n);
  w.text[n] = '\0';
  split (&w);
  if (w.n == 0)
    return;
  if (w.n > MOST_WORDS)
    fault (r, CARPACE_SCRIPT_TOO_MANY_WORDS, "");
  else if (strcmp (w.word[0], "at") == 0)
    read_start (r, &w);
  else
    read_action (r, &w);
  r->begun = true;
}

bool
carpace_script_read (const char *text, size_t n_bytes, const CarpaceZones *zones, CarpaceScriptFaultVisitor visit,
                     void *user, CarpaceScript *ret_script)
{
  Reader r = { .zones = zones, .visit = visit, .user = user };
  const char *end = text + n_bytes;

  carpace_instant_read (DEFAULT_START, &r.script.start);
  if (n_bytes > CARPACE_SCRIPT_BYTES) /* told with line 0 */
    {
      fault (&r, CARPACE_SCRIPT_TOO_LARGE, "");
      return false;
    }
  while (text < end)
    {
      const char *stop = memchr (text, '\n', (size_t) (end - text));
      size_t n = (size_t) ((stop != NULL ? stop : end) - text);
      r.line++;
      read_line (&r, text, n);
      text += n + 1;
    }
  if (r.faulty)
    {
      carpace_script_clear (&r.script);
      return false;
    }
  *ret_script = r.script;
  return true;
}

void
carpace_script_clear (CarpaceScript *script)
{
  free (script->line);
  script->line = NULL;
  script->n = 0;
}
