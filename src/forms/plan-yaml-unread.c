/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-yaml-unread.c: why a document could not be parsed, for whoever wrote it by
 * hand: a parser finds an open bracket a line or more later, and a missing comma
 * at the colon behind it. Where none of these fits, its own words are told. */
#include "forms/plan-yaml-tree.h"

#include <string.h>

static bool
ends_line (char c)
{
  return c == '\n' || c == '\r';
}

/* ---- brackets ---- */

/* Where a text in quotation marks ends; they are marks only where a value can begin. */
static int32_t
quoted_over (const char *bytes, int32_t n_bytes, int32_t at)
{
  char mark = bytes[at];

  for (at++; at < n_bytes && bytes[at] != mark; at++)
    if (mark == '"' && bytes[at] == '\\')
      at++;
  return at;
}

/* Past a text in quotation marks or a remark that begins at @at; @at itself where none does. */
static int32_t
skip (const char *bytes, int32_t n_bytes, int32_t at)
{
  bool begins = at == 0 || strchr (" \t\r\n,:[{", bytes[at - 1]);

  if (begins && (bytes[at] == '"' || bytes[at] == '\''))
    return quoted_over (bytes, n_bytes, at);
  while (begins && bytes[at] == '#' && at + 1 < n_bytes && !ends_line (bytes[at + 1]))
    at++;
  return at;
}

/* Whether the bracket at @from is closed by its own kind. */
static bool
is_closed (const CarpaceYamlStop *stop, int32_t from)
{
  g_autoptr (GString) open = g_string_new (NULL);

  for (int32_t at = from; at < stop->n_bytes; at++)
    {
      char c = stop->bytes[at];

      at = skip (stop->bytes, stop->n_bytes, at);
      if (c == '{' || c == '[')
        g_string_append_c (open, c == '{' ? '}' : ']');
      else if (c == '}' || c == ']')
        {
          if (open->str[open->len - 1] != c)
            return false;
          g_string_truncate (open, open->len - 1);
          if (open->len == 0)
            return true;
        }
    }
  return false;
}

static void
tell (CarpaceYamlTree *tree, int32_t line, int32_t column, CarpaceReadKind kind, const char *word)
{
  carpace_yaml_read_fault (tree, line, column, (CarpaceReadFault){ .kind = kind, .word = word });
}

static void
tell_bracket (CarpaceYamlTree *tree, int32_t line, int32_t column, CarpaceReadKind kind, char bracket)
{
  const char word[] = { bracket, '\0' };

  tell (tree, line, column, kind, word);
}

/* Of the brackets that the parser has come to, the innermost that nothing closes. */
static bool
tell_open (CarpaceYamlTree *tree, const CarpaceYamlStop *stop)
{
  for (int32_t depth = stop->depth - 1; depth >= 0; depth--)
    {
      const CarpaceYamlNode *node = carpace_yaml_node (tree, stop->open[depth]);

      if (node->style != CARPACE_YAML_FLOW || is_closed (stop, node->from))
        continue;
      tell_bracket (tree, node->line, node->column, CARPACE_READ_NOT_CLOSED, stop->bytes[node->from]);
      return true;
    }
  return false;
}

/* Where line @line begins, n_bytes where there is no such. */
static int32_t
begin_of_line (const CarpaceYamlStop *stop, int32_t line)
{
  int32_t at = 0;

  for (int32_t n = 1; at < stop->n_bytes && n < line; at++)
    n += stop->bytes[at] == '\n';
  return at;
}

/* Characters from @from to @to, counted from 1. */
static int32_t
column_of (const CarpaceYamlStop *stop, int32_t from, int32_t to)
{
  int32_t column = 1;

  for (int32_t at = from; at < to; at++)
    column += (stop->bytes[at] & 0xC0) != 0x80;
  return column;
}

/* The last of @open (places of brackets, the outermost first) where a value can begin, -1 where there is none. */
static int32_t
last_value (const CarpaceYamlStop *stop, const GArray *open)
{
  for (guint i = open->len; i > 0; i--)
    {
      int32_t at = g_array_index (open, int32_t, i - 1);

      if (at > 0 && strchr (" {[\n", stop->bytes[at - 1]))
        return at;
    }
  return -1;
}

/* The last bracket of the line from @begin on where a value can begin, and which nothing closes: in one way through, since a
 * stranger's line can be nothing but brackets. One that is closed by another kind's leaves all that is open without an end. */
static int32_t
open_in_line (const CarpaceYamlStop *stop, int32_t begin)
{
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (int32_t));
  const char *line_end = memchr (stop->bytes + begin, '\n', (size_t) (stop->n_bytes - begin));
  int32_t end = line_end != NULL ? (int32_t) (line_end - stop->bytes) : stop->n_bytes, found = -1;

  for (int32_t at = begin; at < stop->n_bytes && (at < end || open->len > 0); at++)
    {
      char c;

      at = skip (stop->bytes, stop->n_bytes, at);
      if (at >= stop->n_bytes)
        break;
      c = stop->bytes[at];
      if (at < end && (c == '{' || c == '['))
        g_array_append_val (open, at);
      else if ((c == '}' || c == ']') && open->len > 0)
        {
          bool fits = stop->bytes[g_array_index (open, int32_t, open->len - 1)] == (c == '}' ? '{' : '[');

          found = fits ? found : MAX (found, last_value (stop, open));
          g_array_set_size (open, fits ? open->len - 1 : 0);
        }
    }
  return MAX (found, last_value (stop, open));
}

/* The last bracket where a value can begin in that line, which the parser has not come to yet. */
static bool
tell_open_in_line (CarpaceYamlTree *tree, const CarpaceYamlStop *stop)
{
  int32_t begin = begin_of_line (stop, stop->line), found = open_in_line (stop, begin);

  if (found >= 0)
    tell_bracket (tree, stop->line, column_of (stop, begin, found), CARPACE_READ_NOT_CLOSED, stop->bytes[found]);
  return found >= 0;
}

/* ---- what is too much, or too little ---- */

/* The byte at which the parser stopped, -1 where it did not say. */
static int32_t
stopped_at (const CarpaceYamlStop *stop)
{
  int32_t at = begin_of_line (stop, stop->line);

  for (int32_t column = 1; at < stop->n_bytes && column < stop->column && stop->bytes[at] != '\n'; column++)
    do
      at++;
    while (at < stop->n_bytes && (stop->bytes[at] & 0xC0) == 0x80);
  return stop->line > 0 && stop->column > 0 && at < stop->n_bytes ? at : -1;
}

/* A bracket that closes more than is open: where the parser stopped, or, where the opening one was
 * forgotten ("hand: side: right}"), at the end of that line. */
static bool
tell_surplus (CarpaceYamlTree *tree, const CarpaceYamlStop *stop, int32_t at)
{
  int32_t begin = begin_of_line (stop, stop->line), open = 0;

  if (strchr ("}]", stop->bytes[at]) == NULL)
    for (at = begin; at < stop->n_bytes && !ends_line (stop->bytes[at]); at++)
      {
        at = skip (stop->bytes, stop->n_bytes, at);
        if (at >= stop->n_bytes || (strchr ("}]", stop->bytes[at]) && --open < 0))
          break;
        open += strchr ("{[", stop->bytes[at]) != NULL;
      }
  if (at >= stop->n_bytes || strchr ("}]", stop->bytes[at]) == NULL)
    return false;
  tell_bracket (tree, stop->line, column_of (stop, begin, at), CARPACE_READ_NOT_OPENED, stop->bytes[at]);
  return true;
}

/* Whether the parser is within brackets at @at. */
static bool
is_in_brackets (const CarpaceYamlTree *tree, const CarpaceYamlStop *stop)
{
  for (int32_t depth = 0; depth < stop->depth; depth++)
    if (carpace_yaml_node (tree, stop->open[depth])->style == CARPACE_YAML_FLOW)
      return true;
  return false;
}

/* The last byte before @at that is neither blank nor in a line of remarks; -1 where there is none. */
static int32_t
before (const CarpaceYamlStop *stop, int32_t at)
{
  for (at--; at >= 0 && strchr (" \t\r\n", stop->bytes[at]); at--)
    ;
  return at;
}

/* Two values side by side in brackets. The parser stops at the colon behind the second, at its
 * bracket, or behind its quotation mark. */
static bool
tell_comma (CarpaceYamlTree *tree, const CarpaceYamlStop *stop, int32_t at)
{
  g_autofree char *word = NULL;
  int32_t end, last;

  if (!is_in_brackets (tree, stop))
    return false;
  if (stop->bytes[at] == ':')
    while (at > 0 && !strchr (" \t\r\n,:{}[]", stop->bytes[at - 1]))
      at--;
  else if (at > 0 && strchr ("\"'", stop->bytes[at - 1]))
    at--;
  last = before (stop, at);
  if (last < 0 || strchr (",:{[#", stop->bytes[last]) || strchr (",:}]#", stop->bytes[at]))
    return false;
  for (end = at + 1; !strchr ("{[", stop->bytes[at]) && end < stop->n_bytes && !strchr (" \t\r\n,:{}[]", stop->bytes[end]);)
    end++;
  word = g_strndup (stop->bytes + at, (gsize) (end - at));
  for (end = at; end > 0 && stop->bytes[end - 1] != '\n'; end--)
    ;
  tell (tree, stop->line, column_of (stop, end, at), CARPACE_READ_NO_COMMA, word);
  return true;
}

void
carpace_yaml_tell_unread (CarpaceYamlTree *tree, const CarpaceYamlStop *stop)
{
  int32_t at = stopped_at (stop);

  if (tell_open (tree, stop) || (stop->line > 0 && tell_open_in_line (tree, stop)))
    return;
  if (at >= 0 && (tell_comma (tree, stop, at) || tell_surplus (tree, stop, at)))
    return;
  tell (tree, stop->line, stop->column, CARPACE_READ_NOT_YAML, stop->message);
}
