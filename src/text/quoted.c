/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text/quoted.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "text/text.h"

#define LONGEST_WORD 40

static gboolean
can_be_shown (gunichar c)
{
  GUnicodeType type = g_unichar_type (c);

  return type != G_UNICODE_CONTROL && type != G_UNICODE_FORMAT && type != G_UNICODE_LINE_SEPARATOR
         && type != G_UNICODE_PARAGRAPH_SEPARATOR && type != G_UNICODE_SURROGATE && type != G_UNICODE_PRIVATE_USE
         && type != G_UNICODE_UNASSIGNED;
}

/* What cannot be shown is told as C and C++ write it. */
static void
append_shown (GString *out, gunichar c)
{
  static const char *const escapes[] = { ['\a'] = "a", ['\b'] = "b", ['\t'] = "t", ['\n'] = "n",
                                         ['\v'] = "v", ['\f'] = "f", ['\r'] = "r" };

  if (can_be_shown (c))
    g_string_append_unichar (out, c);
  else if (c < G_N_ELEMENTS (escapes) && escapes[c] != NULL)
    g_string_append_printf (out, "\\%s", escapes[c]);
  else
    g_string_append_printf (out, c < 0x100 ? "\\x%02x" : c < 0x10000 ? "\\u%04x" : "\\U%08x", c);
}

static GString *
shown (const char *text, glong longest)
{
  g_autofree char *valid = g_utf8_make_valid (text ? text : "", -1);
  GString *out = g_string_new (NULL);
  glong n = 0;

  for (const char *at = valid; *at != '\0' && n < longest; at = g_utf8_next_char (at), n++)
    append_shown (out, g_utf8_get_char (at));
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
carpace_text_shown_word (const char *word)
{
  return g_string_free (shown (word, LONGEST_WORD), FALSE);
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
