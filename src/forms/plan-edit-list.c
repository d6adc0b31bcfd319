/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-edit-list.c: items of lists, and how what is new is written. */
#include "forms/plan-edit-place.h"

#include <string.h>

#include "forms/plan-yaml-text.h"

bool
carpace_edit_uses_marks (const CarpaceEditing *editing, int32_t mapping)
{
  int32_t first = carpace_edit_node (editing, mapping)->first;

  return first != CARPACE_YAML_NO_NODE && carpace_edit_node (editing, first)->style == CARPACE_YAML_DOUBLE;
}

/* In single quotation marks each of them stands twice; a text of lines cannot. */
static bool
append_single (GString *out, const char *text)
{
  for (const char *at = text; *at != '\0'; at++)
    if ((unsigned char) *at < ' ' || (unsigned char) *at >= 0x7F)
      return false;
  g_string_append_c (out, '\'');
  for (; *text != '\0'; text++)
    g_string_append (out, *text == '\'' ? "''" : (char[]){ *text, '\0' });
  g_string_append_c (out, '\'');
  return true;
}

/* @style is what stood there; PLAIN where nothing did. */
void
carpace_edit_write (CarpaceEditing *editing, const char *text, CarpacePathWritten written, CarpaceYamlStyle style,
                    bool marks)
{
  bool quoted = marks || style == CARPACE_YAML_DOUBLE || style == CARPACE_YAML_SINGLE;

  if (written == CARPACE_PATH_BARE)
    quoted = false;
  if (!quoted && carpace_yaml_is_plain (text, !editing->open)
      && !(written == CARPACE_PATH_TEXT && carpace_yaml_is_taken (text)))
    g_string_append (editing->text, text);
  else if (style != CARPACE_YAML_SINGLE || marks || !append_single (editing->text, text))
    carpace_yaml_append_text (editing->text, text);
}

void
carpace_edit_write_list (CarpaceEditing *editing, const char *items, int32_t depth, bool marks)
{
  g_auto (GStrv) words = g_strsplit (items, ",", -1);
  const char *comma = "";

  carpace_edit_come (editing, depth, CARPACE_YAML_LIST, NULL);
  g_string_append_c (editing->text, '[');
  for (int32_t i = 0; words[i]; i++)
    if (g_strstrip (words[i])[0] != '\0')
      {
        g_string_append (editing->text, comma);
        carpace_edit_write (editing, words[i], CARPACE_PATH_WORD, CARPACE_YAML_PLAIN, marks);
        carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, g_string_chunk_insert (editing->words, words[i]));
        comma = ", ";
      }
  g_string_append_c (editing->text, ']');
}

/* The last entry of a collection but @back: a key of a mapping, or an item. */
static int32_t
entry_from_end (const CarpaceEditing *editing, int32_t collection, int32_t back)
{
  int32_t step = carpace_edit_node (editing, collection)->kind == CARPACE_YAML_MAPPING ? 2 : 1;
  int32_t n = carpace_edit_count (editing, collection) - step * (back + 1);

  return n < 0 ? CARPACE_YAML_NO_NODE : carpace_edit_item (editing, collection, n);
}

static int32_t
entry_over (const CarpaceEditing *editing, int32_t collection, int32_t entry)
{
  if (carpace_edit_node (editing, collection)->kind == CARPACE_YAML_MAPPING)
    entry = carpace_edit_node (editing, entry)->next;
  return carpace_edit_node (editing, entry)->to;
}

static bool
separates (const CarpaceEditing *editing, int32_t from, int32_t to)
{
  return to > from && memchr (editing->bytes + from, ',', (size_t) (to - from))
         && !memchr (editing->bytes + from, '#', (size_t) (to - from));
}

void
carpace_edit_separator (CarpaceEditing *editing, int32_t collection)
{
  int32_t last = entry_from_end (editing, collection, 0), other = entry_from_end (editing, collection, 1);
  int32_t begin = carpace_edit_node (editing, collection)->from + 1, from, to;

  if (other != CARPACE_YAML_NO_NODE)
    {
      from = entry_over (editing, collection, other);
      to = carpace_edit_start (editing, last);
      if (separates (editing, from, to))
        {
          carpace_edit_append (editing, from, to);
          return;
        }
    }
  to = carpace_edit_start (editing, last);
  g_string_append_c (editing->text, ',');
  if (carpace_edit_is_first (editing, to) && carpace_edit_line (editing, to) > begin)
    {
      g_string_append (editing->text, editing->line_end);
      carpace_edit_indent (editing, to);
    }
  else
    g_string_append_c (editing->text, ' ');
}

static bool
has_line_end (const CarpaceEditing *editing, int32_t over)
{
  return over > 0 && (editing->bytes[over - 1] == '\n' || editing->bytes[over - 1] == '\r');
}

/* Where the end of the line before @line is. */
static int32_t
line_end_before (const CarpaceEditing *editing, int32_t line)
{
  if (line > 0 && has_line_end (editing, line))
    line -= line > 1 && editing->bytes[line - 1] == '\n' && editing->bytes[line - 2] == '\r' ? 2 : 1;
  return line;
}

/* The line of an item's dash; -1 where something else stands before that in it. */
static int32_t
dash_line (const CarpaceEditing *editing, int32_t list, int32_t item)
{
  int32_t dash = carpace_edit_node (editing, list)->from, column = dash - carpace_edit_line (editing, dash);
  int32_t line = carpace_edit_line (editing, carpace_edit_start (editing, item));

  while (line >= carpace_edit_line (editing, dash))
    {
      int32_t at = line + column;

      if (at < carpace_edit_start (editing, item) && editing->bytes[at] == '-'
          && carpace_edit_is_space (editing, line, at, false))
        return line;
      if (line == carpace_edit_line (editing, dash))
        break;
      line = carpace_edit_line (editing, line_end_before (editing, line));
    }
  return -1;
}

static int32_t
item_lines_over (const CarpaceEditing *editing, int32_t item)
{
  return carpace_edit_line_over (editing, carpace_edit_node (editing, item)->to);
}

/* An item as its neighbour is, and as nodes. */
static void
write_item (CarpaceEditing *editing, int32_t depth, bool in_block, bool marks)
{
  const CarpacePath *path = &editing->path;
  const char *value = editing->edit->value;
  CarpacePathWritten written = path->written;

  if (path->first == NULL)
    {
      carpace_edit_write (editing, value, written, CARPACE_YAML_PLAIN, marks);
      carpace_edit_come (editing, depth, CARPACE_YAML_VALUE, value);
      return;
    }
  written = strcmp (path->first, "id") == 0 ? CARPACE_PATH_TEXT : CARPACE_PATH_WORD;
  g_string_append_printf (editing->text, marks ? "%s\"%s\": " : "%s%s: ", in_block ? "" : "{", path->first);
  carpace_edit_write (editing, value, written, CARPACE_YAML_PLAIN, marks);
  g_string_append (editing->text, in_block ? "" : "}");
  carpace_edit_come (editing, depth, CARPACE_YAML_MAPPING, NULL);
  carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, path->first);
  carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, value);
}

static CarpacePlanEditEnd
insert_in_block (CarpaceEditing *editing, int32_t list, int32_t before, int32_t item)
{
  int32_t near = item != CARPACE_YAML_NO_NODE ? item : before, dash = carpace_edit_node (editing, list)->from;
  const CarpaceYamlNode *as = carpace_edit_node (editing, near);
  bool in_block = as->kind == CARPACE_YAML_MAPPING && as->style == CARPACE_YAML_BLOCK;
  bool last;

  editing->from = before == CARPACE_YAML_NO_NODE ? dash_line (editing, list, item) : item_lines_over (editing, before);
  if (editing->from < 0 || !carpace_edit_is_first (editing, dash))
    return CARPACE_EDIT_UNFIT;
  editing->to = editing->from;
  last = !has_line_end (editing, editing->from) && before != CARPACE_YAML_NO_NODE;
  if (last)
    g_string_append (editing->text, editing->line_end);
  carpace_edit_indent (editing, dash);
  g_string_append (editing->text, "- ");
  write_item (editing, carpace_edit_node (editing, list)->depth + 1, in_block, false);
  if (!last)
    g_string_append (editing->text, editing->line_end);
  return CARPACE_EDIT_DONE;
}

/* Whether new things in @list are in quotation marks, as JSON's are. */
static bool
list_uses_marks (const CarpaceEditing *editing, int32_t list)
{
  int32_t first = carpace_edit_node (editing, list)->first;

  if (first == CARPACE_YAML_NO_NODE)
    return carpace_edit_uses_marks (editing, 0);
  return carpace_edit_node (editing, first)->kind == CARPACE_YAML_MAPPING
             ? carpace_edit_uses_marks (editing, first)
             : carpace_edit_node (editing, first)->style == CARPACE_YAML_DOUBLE;
}

static CarpacePlanEditEnd
insert_in_brackets (CarpaceEditing *editing, int32_t list, int32_t before, int32_t item)
{
  int32_t depth = carpace_edit_node (editing, list)->depth + 1;
  bool marks = list_uses_marks (editing, list);

  if (item != CARPACE_YAML_NO_NODE)
    {
      editing->from = carpace_edit_start (editing, item);
      write_item (editing, depth, false, marks);
      carpace_edit_separator (editing, list);
    }
  else
    {
      editing->from = before != CARPACE_YAML_NO_NODE ? carpace_edit_node (editing, before)->to
                                                     : carpace_edit_node (editing, list)->from + 1;
      if (before != CARPACE_YAML_NO_NODE)
        carpace_edit_separator (editing, list);
      write_item (editing, depth, false, marks);
    }
  editing->to = editing->from;
  return CARPACE_EDIT_DONE;
}

CarpacePlanEditEnd
carpace_edit_insert (CarpaceEditing *editing)
{
  int32_t n = editing->path.n, item = editing->path.step[n - 1].item, before;
  CarpaceEditPlace place = carpace_edit_find (editing, n - 1);
  const CarpaceYamlNode *list;

  if (item < 0 || place.steps < n - 1 || (list = carpace_edit_node (editing, place.node))->kind != CARPACE_YAML_LIST
      || item > carpace_edit_count (editing, place.node))
    return CARPACE_EDIT_NOT_THERE;
  before = item > 0 ? carpace_edit_item (editing, place.node, item - 1) : CARPACE_YAML_NO_NODE;
  item = carpace_edit_item (editing, place.node, item);
  editing->at = editing->gone_to = item != CARPACE_YAML_NO_NODE ? item : carpace_edit_behind (editing, place.node);
  return list->style == CARPACE_YAML_FLOW ? insert_in_brackets (editing, place.node, before, item)
                                          : insert_in_block (editing, place.node, before, item);
}

/* The item a path leads to. */
static bool
find_item (const CarpaceEditing *editing, CarpaceEditPlace *ret_place)
{
  *ret_place = carpace_edit_find (editing, editing->path.n);
  return ret_place->node != CARPACE_YAML_NO_NODE
         && carpace_edit_node (editing, ret_place->in)->kind == CARPACE_YAML_LIST;
}

CarpacePlanEditEnd
carpace_edit_duplicate (CarpaceEditing *editing)
{
  CarpaceEditPlace place;
  int32_t line, over;

  if (!find_item (editing, &place))
    return CARPACE_EDIT_NOT_THERE;
  over = item_lines_over (editing, place.node);
  editing->at = editing->gone_to = carpace_edit_behind (editing, place.node);
  carpace_edit_come_from (editing, place.node, editing->at);
  if (carpace_edit_node (editing, place.in)->style == CARPACE_YAML_FLOW)
    {
      editing->from = editing->to = carpace_edit_node (editing, place.node)->to;
      carpace_edit_separator (editing, place.in);
      carpace_edit_append (editing, carpace_edit_start (editing, place.node), editing->from);
      return CARPACE_EDIT_DONE;
    }
  line = dash_line (editing, place.in, place.node);
  if (line < 0)
    return CARPACE_EDIT_UNFIT;
  if (!has_line_end (editing, over))
    g_string_append (editing->text, editing->line_end);
  carpace_edit_append (editing, line, over);
  editing->from = editing->to = over;
  return CARPACE_EDIT_DONE;
}

/* Where an item's own lines begin: at the comments right above it, if they are. */
static int32_t
own_lines (const CarpaceEditing *editing, int32_t list, int32_t item, int32_t not_before)
{
  int32_t line = dash_line (editing, list, item);

  while (line > not_before)
    {
      int32_t above = carpace_edit_line (editing, line_end_before (editing, line));
      int32_t at = above;

      while (carpace_edit_is_space (editing, at, at + 1, false))
        at++;
      if (above < not_before || editing->bytes[at] != '#')
        break;
      line = above;
    }
  return line;
}

/* The lines of item @i of a list in a block. */
static bool
lines_of (const CarpaceEditing *editing, int32_t list, int32_t i, int32_t *ret_from, int32_t *ret_over)
{
  int32_t item = carpace_edit_item (editing, list, i), not_before;

  not_before = i > 0 ? item_lines_over (editing, carpace_edit_item (editing, list, i - 1))
                     : carpace_edit_line_over (editing, list > 0 ? carpace_edit_node (editing, list - 1)->to : 0);
  if (dash_line (editing, list, item) < 0)
    return false;
  *ret_from = own_lines (editing, list, item, not_before);
  *ret_over = item_lines_over (editing, item);
  return true;
}

/* Which item stands at @i once one was moved from @from to @to. */
static int32_t
who_stands_at (int32_t i, int32_t from, int32_t to)
{
  if (i == to)
    return from;
  return from < to ? (i >= from && i < to ? i + 1 : i) : (i > to && i <= from ? i - 1 : i);
}

/* Lines of items, with what is between them staying between. */
static bool
exchange (CarpaceEditing *editing, int32_t list, int32_t from, int32_t to)
{
  bool block = carpace_edit_node (editing, list)->style == CARPACE_YAML_BLOCK;
  int32_t low = MIN (from, to), high = MAX (from, to), behind = 0;
  gsize line_end = strlen (editing->line_end);

  for (int32_t i = low; i <= high; i++)
    {
      int32_t who = who_stands_at (i, from, to), node = carpace_edit_item (editing, list, who);
      int32_t here = carpace_edit_item (editing, list, i);
      int32_t here_from = carpace_edit_start (editing, here), here_to = carpace_edit_node (editing, here)->to;
      int32_t who_from = carpace_edit_start (editing, node), who_to = carpace_edit_node (editing, node)->to;

      if (block && (!lines_of (editing, list, i, &here_from, &here_to)
                    || !lines_of (editing, list, who, &who_from, &who_to)))
        return false;
      if (i == low)
        editing->from = here_from;
      else
        carpace_edit_append (editing, behind, here_from);
      carpace_edit_append (editing, who_from, who_to);
      if (block && i < high && !has_line_end (editing, who_to))
        g_string_append (editing->text, editing->line_end);
      carpace_edit_come_from (editing, node, carpace_edit_behind (editing, node));
      editing->to = behind = here_to;
    }
  if (block && !has_line_end (editing, editing->to) && editing->text->len > line_end
      && g_str_has_suffix (editing->text->str, editing->line_end))
    g_string_truncate (editing->text, editing->text->len - line_end);
  return true;
}

CarpacePlanEditEnd
carpace_edit_move (CarpaceEditing *editing)
{
  int32_t to = editing->edit->to, from = 0, n;
  CarpaceEditPlace place;

  if (!find_item (editing, &place))
    return CARPACE_EDIT_NOT_THERE;
  n = carpace_edit_count (editing, place.in);
  while (carpace_edit_item (editing, place.in, from) != place.node)
    from++;
  if (to < 0 || to >= n)
    return CARPACE_EDIT_NOT_THERE;
  if (from == to)
    return CARPACE_EDIT_DONE;
  editing->at = carpace_edit_item (editing, place.in, MIN (from, to));
  editing->gone_to = carpace_edit_behind (editing, carpace_edit_item (editing, place.in, MAX (from, to)));
  return exchange (editing, place.in, from, to) ? CARPACE_EDIT_DONE : CARPACE_EDIT_UNFIT;
}

/* Out of brackets, with the comma that goes with it; comments stay. */
static void
out_of_brackets (CarpaceEditing *editing, int32_t in, int32_t first, int32_t last)
{
  int32_t next = carpace_edit_node (editing, last)->next, before = CARPACE_YAML_NO_NODE;

  for (int32_t at = carpace_edit_node (editing, in)->first; at != first; at = carpace_edit_node (editing, at)->next)
    before = at;
  editing->from = carpace_edit_start (editing, first);
  editing->to = carpace_edit_node (editing, last)->to;
  if (next != CARPACE_YAML_NO_NODE)
    {
      int32_t start = carpace_edit_start (editing, next);

      if (separates (editing, editing->to, start))
        editing->to = start;
      else
        while (editing->to < start && editing->bytes[editing->to - 1] != ',')
          editing->to++;
    }
  else if (before != CARPACE_YAML_NO_NODE
           && separates (editing, carpace_edit_node (editing, before)->to, editing->from))
    editing->from = carpace_edit_node (editing, before)->to;
}

/* Out of a block: its lines. The first key behind a dash leaves its place to the next. */
static bool
out_of_block (CarpaceEditing *editing, int32_t in, int32_t first, int32_t last)
{
  bool list = carpace_edit_node (editing, in)->kind == CARPACE_YAML_LIST;
  int32_t next = carpace_edit_node (editing, last)->next;
  int32_t start = list ? dash_line (editing, in, first) : carpace_edit_node (editing, first)->from;

  editing->to = carpace_edit_line_over (editing, carpace_edit_node (editing, last)->to);
  if (start < 0)
    return false;
  editing->from = carpace_edit_line (editing, start);
  if (list || carpace_edit_is_first (editing, start))
    {
      if (!has_line_end (editing, editing->to)) /* the last line: what is the last then ends as it did */
        editing->from = line_end_before (editing, editing->from);
      return true;
    }
  editing->from = start;
  if (next == CARPACE_YAML_NO_NODE)
    return false;
  if (carpace_edit_is_space (editing, editing->to, carpace_edit_node (editing, next)->from, true))
    editing->to = carpace_edit_node (editing, next)->from;
  else
    {
      editing->to = carpace_edit_node (editing, last)->to;
      while (editing->from > 0 && editing->bytes[editing->from - 1] == ' ')
        editing->from--;
    }
  return true;
}

CarpacePlanEditEnd
carpace_edit_take_out (CarpaceEditing *editing, int32_t in, int32_t first, int32_t last)
{
  const CarpaceYamlNode *collection = carpace_edit_node (editing, in);
  int32_t entries = collection->kind == CARPACE_YAML_MAPPING ? 2 : 1, colon;

  editing->at = first;
  editing->gone_to = carpace_edit_behind (editing, last);
  if (collection->style == CARPACE_YAML_FLOW)
    {
      out_of_brackets (editing, in, first, last);
      return CARPACE_EDIT_DONE;
    }
  if (carpace_edit_count (editing, in) > entries)
    return out_of_block (editing, in, first, last) ? CARPACE_EDIT_DONE : CARPACE_EDIT_UNFIT;
  if (entries == 2 || in == 0 || (colon = carpace_edit_colon_over (editing, in - 1)) < 0)
    return CARPACE_EDIT_UNFIT;
  editing->from = collection->tag_to > 0 ? collection->tag_to : colon;
  editing->to = collection->to;
  g_string_append (editing->text, " []");
  return CARPACE_EDIT_DONE;
}
