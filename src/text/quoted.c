/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text/quoted.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"

#define LONGEST_WORD 40

static gboolean
can_be_shown (gunichar c)
{
  GUnicodeType type = g_unichar_type (c);

  return type != G_UNICODE_CONTROL && type != G_UNICODE_FORMAT && type != G_UNICODE_LINE_SEPARATOR
         && type != G_UNICODE_PARAGRAPH_SEPARATOR && type != G_UNICODE_SURROGATE && type != G_UNICODE_PRIVATE_USE
         && type != G_UNICODE_UNASSIGNED;
}

static GString *
shown (const char *text, glong longest)
{
  g_autofree char *valid = g_utf8_make_valid (text ? text : "", -1);
  GString *out = g_string_new (NULL);
  glong n = 0;

  for (const char *at = valid; *at != '\0' && n < longest; at = g_utf8_next_char (at), n++)
    g_string_append_unichar (out, can_be_shown (g_utf8_get_char (at)) ? g_utf8_get_char (at) : 0xFFFD);
  if (n == longest && text && g_utf8_strlen (valid, -1) > longest)
    g_string_append (out, "…");
  return out;
}

char *
carpace_text_quoted (const char *word)
{
  GString *out = shown (word, LONGEST_WORD);

  g_string_prepend (out, _("“"));
  g_string_append (out, _("”"));
  return g_string_free (out, FALSE);
}

char *
carpace_text_harmless (const char *text)
{
  return g_string_free (shown (text, G_MAXLONG), FALSE);
}

static const char *
nearest (const char *word, const char *const *set)
{
  const char *found = NULL;
  size_t least = strlen (word) / 3 + 2;

  for (; *set; set++)
    {
      size_t distance = carpace_word_distance (*set, word);
      if (distance < least)
        {
          least = distance;
          found = *set;
        }
    }
  return found;
}

char *
carpace_text_suggestion (const char *word, const char *const *set)
{
  g_autofree char *joined = g_strjoinv (", ", (char **) set);
  g_autofree char *all = carpace_text_harmless (joined);
  const char *found = word && set[0] ? nearest (word, set) : NULL;
  g_autofree char *near = found ? carpace_text_harmless (found) : NULL;

  if (set[0] == NULL)
    return g_strdup (_("there are none"));
  if (near && set[1])
    return g_strdup_printf (_("did you mean %s? It can be %s"), near, all);
  return g_strdup_printf (_("it can be %s"), all);
}
