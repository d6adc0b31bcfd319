/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-yaml-text.c: with quotation marks, or without. */
#include "forms/plan-yaml-text.h"

#include <string.h>

/* What is not printable in YAML, or ends a line in some versions of it. */
static bool
needs_number (gunichar c)
{
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029 || c == 0xFEFF;
}

void
carpace_yaml_append_text (GString *out, const char *text)
{
  g_string_append_c (out, '"');
  for (; *text != '\0'; text = g_utf8_next_char (text))
    if (*text == '\n')
      g_string_append (out, "\\n");
    else if (*text == '\t')
      g_string_append (out, "\\t");
    else if (*text == '"' || *text == '\\')
      g_string_append_printf (out, "\\%c", *text);
    else if (needs_number (g_utf8_get_char (text)))
      g_string_append_printf (out, "\\u%04X", g_utf8_get_char (text));
    else
      g_string_append_unichar (out, g_utf8_get_char (text));
  g_string_append_c (out, '"');
}

bool
carpace_yaml_is_taken (const char *text)
{
  static const char *const taken[] = { "null", "true", "false", "yes", "no", "on", "off", "y", "n" };

  for (size_t i = 0; i < G_N_ELEMENTS (taken); i++)
    if (g_ascii_strcasecmp (text, taken[i]) == 0)
      return true;
  return !g_ascii_isalpha (text[0]) /* else a number, or a day */
         && strspn (text, "0123456789abcdefABCDEFxXoO.:_+-") == strlen (text);
}

static bool
is_letter (const char *at)
{
  gunichar c = g_utf8_get_char (at);

  return c < 0x80 ? g_ascii_isalnum (*at) : g_unichar_isalnum (c);
}

/* No more than what is no mark of YAML's own there. */
bool
carpace_yaml_is_plain (const char *text, bool in_brackets)
{
  const char *marks = in_brackets ? " -./%()_+;!?'" : " -./%()_+;!?',[]{}";

  if (!is_letter (text) || text[strlen (text) - 1] == ' ')
    return false;
  for (; *text != '\0'; text = g_utf8_next_char (text))
    if (!is_letter (text) && !strchr (marks, *text))
      return false;
  return true;
}

void
carpace_yaml_append_id (GString *out, const char *id)
{
  if (!g_ascii_isalpha (id[0]) || carpace_yaml_is_taken (id))
    carpace_yaml_append_text (out, id);
  else
    g_string_append (out, id);
}
