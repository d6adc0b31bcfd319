/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "forms/json.h"

#include <math.h>
#include <string.h>

static void
separate (GString *out)
{
  char last = out->len > 0 ? out->str[out->len - 1] : '{';

  if (last != '{' && last != '[' && last != ':' && last != '\n')
    g_string_append_c (out, ',');
}

void
carpace_json_open (GString *out, char bracket)
{
  separate (out);
  g_string_append_c (out, bracket);
}

void
carpace_json_close (GString *out, char bracket)
{
  g_string_append_c (out, bracket);
}

static void
append_string (GString *out, const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);

  g_string_append_c (out, '"');
  for (const char *at = valid; *at != '\0'; at++)
    if (*at == '"' || *at == '\\')
      g_string_append_printf (out, "\\%c", *at);
    else if ((unsigned char) *at < 0x20 || *at == 0x7F)
      g_string_append_printf (out, "\\u%04x", (unsigned) *at);
    else
      g_string_append_c (out, *at);
  g_string_append_c (out, '"');
}

void
carpace_json_key (GString *out, const char *key)
{
  separate (out);
  append_string (out, key);
  g_string_append_c (out, ':');
}

void
carpace_json_string (GString *out, const char *text)
{
  separate (out);
  if (text)
    append_string (out, text);
  else
    g_string_append (out, "null");
}

void
carpace_json_int (GString *out, int64_t value)
{
  separate (out);
  g_string_append_printf (out, "%" G_GINT64_FORMAT, value);
}

void
carpace_json_double (GString *out, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  separate (out);
  if (!isfinite (value))
    {
      g_string_append (out, "null");
      return;
    }
  for (int digits = 15; digits <= 17; digits += 2)
    {
      char format[] = { '%', '.', '1', (char) ('0' + digits - 10), 'g', '\0' };
      g_ascii_formatd (text, sizeof text, format, value);
      if (!(g_ascii_strtod (text, NULL) < value) && !(g_ascii_strtod (text, NULL) > value))
        break;
    }
  g_string_append (out, text);
}

void
carpace_json_bool (GString *out, gboolean value)
{
  separate (out);
  g_string_append (out, value ? "true" : "false");
}

void
carpace_json_null (GString *out)
{
  separate (out);
  g_string_append (out, "null");
}
