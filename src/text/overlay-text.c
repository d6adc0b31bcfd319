/* SPDX-License-Identifier: GPL-3.0-or-later */
/* overlay-text.c: a pattern and a moment -> a line. */
#include "text/overlay-text.h"

#include <glib/gi18n.h>
#include <string.h>

#include "text/face-text.h"
#include "text/text.h"

typedef enum
{
  FIELD_TO_GO,
  FIELD_AT,
  FIELD_UNTIL,
  FIELD_WORDS,
  N_FIELDS
} Field;

static const char *const field_names[N_FIELDS] = {
  [FIELD_TO_GO] = "to-go", [FIELD_AT] = "at", [FIELD_UNTIL] = "until", [FIELD_WORDS] = "words"
};

/* The field that begins at @at ("{name}").
 * @return N_FIELDS where it is none; *ret_end is behind its brace, NULL where it is not closed */
static Field
field_at (const char *at, const char **ret_end)
{
  const char *end = strchr (at, '}');

  *ret_end = end == NULL ? NULL : end + 1;
  for (int field = 0; end != NULL && field < N_FIELDS; field++)
    if (strlen (field_names[field]) == (size_t) (end - at - 1)
        && strncmp (at + 1, field_names[field], (size_t) (end - at - 1)) == 0)
      return (Field) field;
  return N_FIELDS;
}

static char *
fault_at (const char *pattern, const char *at, const char *end)
{
  int column = (int) g_utf8_pointer_to_offset (pattern, at) + 1;

  if (end == NULL)
    return g_strdup_printf (_("Character %d: “{” without “}”; for a brace itself write “{{”."), column);
  return g_strdup_printf (_("Character %d: there is no such field; there are {to-go}, {at}, {until} and {words}."), column);
}

char *
carpace_text_overlay_fault (const char *pattern)
{
  if (!g_utf8_validate (pattern, -1, NULL))
    return g_strdup (_("The pattern is not UTF-8 text."));
  if (g_utf8_strlen (pattern, -1) > CARPACE_OVERLAY_CHARACTERS)
    return g_strdup_printf (_("The pattern is longer than %d characters."), CARPACE_OVERLAY_CHARACTERS);
  for (const char *at = pattern; *at != '\0'; at++)
    {
      const char *end;

      if ((unsigned char) *at < 0x20 || *at == 0x7f)
        return g_strdup (_("The pattern is one line, without control characters."));
      if ((at[0] == '{' && at[1] == '{') || (at[0] == '}' && at[1] == '}'))
        at++;
      else if (*at == '{')
        {
          if (field_at (at, &end) == N_FIELDS)
            return fault_at (pattern, at, end);
          at = end - 1;
        }
    }
  return NULL;
}

CarpaceOverlayMoment
carpace_text_overlay_moment (const CarpaceView *view, CarpaceInstant now)
{
  CarpaceOverlayMoment moment = { .pause = carpace_pause_running (view) };

  if (!view->on_air)
    return (CarpaceOverlayMoment){ 0 };
  if (moment.pause.kind == CARPACE_PAUSE_NONE)
    moment.pause = carpace_pause_ahead (view);
  moment.counting = moment.pause.running || view->intermission;
  moment.ends = carpace_instant_after (now, moment.pause.to_go_ms + (moment.pause.running ? 0 : moment.pause.length_ms));
  moment.begins = carpace_instant_after (moment.ends, -moment.pause.length_ms);
  return moment;
}

static char *
to_go (const CarpaceOverlayMoment *moment)
{
  if (!moment->counting)
    return g_strdup_printf (_("%d min"), (int) ((moment->pause.to_go_ms + CARPACE_MINUTE_MS - 1) / CARPACE_MINUTE_MS));
  return carpace_text_count (moment->pause.to_go_ms);
}

static char *
value_of (Field field, const CarpaceOverlayMoment *moment)
{
  switch (field)
    {
    case FIELD_TO_GO:
      return to_go (moment);
    case FIELD_AT:
      return carpace_text_time_of_day (moment->begins);
    case FIELD_UNTIL:
      return carpace_text_time_of_day (moment->ends);
    case FIELD_WORDS:
      return moment->pause.running ? carpace_text_pause_counted (&moment->pause)
                                   : carpace_text_intermission (moment->pause.to_go_ms);
    case N_FIELDS:
      break;
    }
  return g_strdup ("");
}

char *
carpace_text_overlay (const char *pattern, const CarpaceOverlayMoment *moment)
{
  g_autofree char *fault = carpace_text_overlay_fault (pattern);
  GString *line = g_string_new (NULL);

  if (moment->pause.kind == CARPACE_PAUSE_NONE)
    return g_string_free (line, FALSE);
  if (fault != NULL)
    return g_string_free (g_string_append (line, pattern), FALSE);
  for (const char *at = pattern; *at != '\0'; at++)
    {
      const char *end;
      Field field;

      if ((at[0] == '{' && at[1] == '{') || (at[0] == '}' && at[1] == '}'))
        g_string_append_c (line, *at++);
      else if (*at == '{' && (field = field_at (at, &end)) != N_FIELDS)
        {
          g_autofree char *value = value_of (field, moment);

          g_string_append (line, value);
          at = end - 1;
        }
      else
        g_string_append_c (line, *at);
    }
  return g_string_free (line, FALSE);
}

int64_t
carpace_text_overlay_stays_ms (const char *pattern, const CarpaceOverlayMoment *moment)
{
  bool counts = strstr (pattern, "{to-go}") != NULL, tells = strstr (pattern, "{words}") != NULL;
  bool seconds = (counts && moment->counting) || (tells && moment->pause.running);
  int64_t unit_ms = seconds ? CARPACE_SECOND_MS : CARPACE_MINUTE_MS, to_go_ms = moment->pause.to_go_ms;

  if (moment->pause.kind == CARPACE_PAUSE_NONE || moment->pause.waits || (!counts && !tells))
    return CARPACE_NEVER;
  /* Both round up: the line changes as a whole unit has gone by. */
  return to_go_ms <= 0 ? CARPACE_NEVER : (to_go_ms - 1) % unit_ms + 1;
}
