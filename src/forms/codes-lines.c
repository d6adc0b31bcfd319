/* SPDX-License-Identifier: GPL-3.0-or-later */
/* codes-lines.c: a list of codes, taken apart. */
#include "forms/codes-lines.h"

#include <string.h>

static CarpaceCodeKind
judge (const char *word)
{
  if (word[0] == '\0')
    return CARPACE_CODE_EMPTY;
  if (!g_utf8_validate (word, -1, NULL) || !g_ascii_isalnum (word[0]))
    return CARPACE_CODE_CHARACTERS;
  for (const char *at = word; *at != '\0'; at++)
    if (!g_ascii_isalnum (*at) && *at != '-' && *at != '_')
      return CARPACE_CODE_CHARACTERS;
  return strlen (word) > CARPACE_CODE_LONGEST ? CARPACE_CODE_TOO_LONG : CARPACE_CODE_FINE;
}

/* The place of the same code, -1 where there is none. Some file systems know no capitals. */
static int
place_of (const GPtrArray *codes, const char *word)
{
  for (guint i = 0; i < codes->len; i++)
    if (g_ascii_strcasecmp (codes->pdata[i], word) == 0)
      return (int) i;
  return -1;
}

CarpaceCodeFault
carpace_codes_add (GPtrArray *codes, const char *word)
{
  CarpaceCodeFault fault = { .kind = judge (word), .word = word };

  if (fault.kind == CARPACE_CODE_FINE && place_of (codes, word) >= 0)
    fault.kind = CARPACE_CODE_TWICE;
  else if (fault.kind == CARPACE_CODE_FINE && codes->len == CARPACE_CODES)
    fault.kind = CARPACE_CODE_TOO_MANY;
  else if (fault.kind == CARPACE_CODE_FINE)
    g_ptr_array_add (codes, g_strdup (word));
  return fault;
}

/* One line, without its end. @return what is wrong with it */
static CarpaceCodeFault
add_line (GPtrArray *codes, GArray *lines, char *text, int32_t line)
{
  CarpaceCodeFault fault = { .kind = CARPACE_CODE_FINE };
  char *remark = strchr (text, '#');

  if (remark != NULL)
    *remark = '\0';
  if (*g_strstrip (text) == '\0')
    return fault;
  fault = carpace_codes_add (codes, text);
  fault.line = line;
  if (fault.kind == CARPACE_CODE_FINE)
    g_array_append_val (lines, line);
  if (fault.kind == CARPACE_CODE_TWICE)
    fault.before = g_array_index (lines, int32_t, place_of (codes, text));
  return fault;
}

/* The line that @at lies in. */
static int32_t
line_at (const char *bytes, const char *at)
{
  int32_t line = 1;

  for (; bytes < at; bytes++)
    line += *bytes == '\n';
  return line;
}

GPtrArray *
carpace_codes_read (const char *bytes, gsize n_bytes, char **ret_fault)
{
  g_autoptr (GPtrArray) codes = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GArray) of_codes = g_array_new (FALSE, FALSE, sizeof (int32_t));
  g_autofree char *text = g_strndup (bytes, n_bytes);
  g_auto (GStrv) lines = NULL;
  const char *valid_end;
  CarpaceCodeFault fault = { .kind = CARPACE_CODE_NOT_UTF8 };

  if (!g_utf8_validate_len (bytes, n_bytes, &valid_end))
    {
      fault.line = line_at (bytes, valid_end);
      *ret_fault = carpace_text_code_fault (&fault);
      return NULL;
    }
  fault.kind = CARPACE_CODE_FINE;
  lines = g_strsplit (g_str_has_prefix (text, "\xEF\xBB\xBF") ? text + 3 : text, "\n", -1);
  for (int32_t i = 0; fault.kind == CARPACE_CODE_FINE && lines[i] != NULL; i++)
    fault = add_line (codes, of_codes, lines[i], i + 1);
  if (fault.kind == CARPACE_CODE_FINE && codes->len == 0)
    fault = (CarpaceCodeFault){ .kind = CARPACE_CODE_NONE };
  if (fault.kind == CARPACE_CODE_FINE)
    return g_steal_pointer (&codes);
  *ret_fault = carpace_text_code_fault (&fault);
  return NULL;
}
