/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-edit.c: one edit is one splice of the file's bytes, and is looked at afterwards. */
#include "forms/plan-edit.h"

#include <string.h>

#include "carpace/names.h"
#include "forms/plan-edit-place.h"

static const char *
line_end_of (const char *bytes)
{
  const char *at = strpbrk (bytes, "\r\n");

  return at == NULL || *at == '\n' ? "\n" : at[1] == '\n' ? "\r\n" : "\r";
}

/* Keys that hang on each other, as steps say, in brackets: "{side: right}". */
static void
write_nested (CarpaceEditing *editing, int32_t step, int32_t depth, bool marks)
{
  const CarpacePath *path = &editing->path;
  const char *value = editing->edit->value;

  if (step < path->n)
    {
      carpace_edit_come (editing, depth, CARPACE_YAML_MAPPING, NULL);
      carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, path->step[step].key);
      g_string_append_printf (editing->text, marks ? "{\"%s\": " : "{%s: ", path->step[step].key);
      write_nested (editing, step + 1, depth + 1, marks);
      g_string_append_c (editing->text, '}');
    }
  else if (path->written == CARPACE_PATH_LIST)
    carpace_edit_write_list (editing, value, depth, marks);
  else
    {
      carpace_edit_write (editing, value, path->written, CARPACE_YAML_PLAIN, marks);
      carpace_edit_come (editing, depth, CARPACE_YAML_VALUE, value);
    }
}

/* In place of what stands there; it stays `!fixed` where it was. */
static CarpacePlanEditEnd
set_there (CarpaceEditing *editing, const CarpaceEditPlace *place)
{
  const CarpaceYamlNode *node = carpace_edit_node (editing, place->node);
  bool marks = place->key != CARPACE_YAML_NO_NODE && carpace_edit_uses_marks (editing, place->in);
  CarpaceYamlStyle style = node->kind == CARPACE_YAML_VALUE ? node->style : CARPACE_YAML_PLAIN;
  int32_t colon;

  editing->at = place->node;
  editing->gone_to = carpace_edit_behind (editing, place->node);
  editing->from = node->from;
  editing->to = node->to;
  if (node->style == CARPACE_YAML_BLOCK && place->key != CARPACE_YAML_NO_NODE)
    {
      colon = node->tag_to > node->tag ? node->tag_to : carpace_edit_colon_over (editing, place->key);
      if (colon < 0)
        return CARPACE_EDIT_UNFIT;
      editing->from = colon;
      g_string_append_c (editing->text, ' ');
    }
  else if (node->from == node->to)
    g_string_append (editing->text, node->from > 0 && editing->bytes[node->from - 1] == ':' ? " " : ": ");
  if (editing->path.written == CARPACE_PATH_LIST)
    carpace_edit_write_list (editing, editing->edit->value, node->depth, marks);
  else
    {
      if (style == CARPACE_YAML_LINES)
        style = CARPACE_YAML_DOUBLE;
      editing->open = carpace_edit_node (editing, place->in)->style == CARPACE_YAML_BLOCK;
      carpace_edit_write (editing, editing->edit->value, editing->path.written, style,
                          marks && style != CARPACE_YAML_PLAIN);
      carpace_edit_come (editing, node->depth, CARPACE_YAML_VALUE, editing->edit->value);
    }
  g_array_index (editing->come, CarpaceFlatNode, 0).fixed = node->fixed;
  return CARPACE_EDIT_DONE;
}

/* Behind which value of @mapping a key belongs: the last that the table has before it. */
static int32_t
predecessor (const CarpaceEditing *editing, int32_t mapping, int32_t step)
{
  int32_t rank = carpace_path_rank (&editing->path, step, editing->path.step[step].key), best = -2;
  int32_t found = CARPACE_YAML_NO_NODE, last = CARPACE_YAML_NO_NODE;

  for (int32_t key = carpace_edit_node (editing, mapping)->first, value; key != CARPACE_YAML_NO_NODE;)
    {
      const CarpaceYamlNode *node = carpace_edit_node (editing, key);
      int32_t other = node->kind == CARPACE_YAML_VALUE ? carpace_path_rank (&editing->path, step, node->text) : -1;

      last = value = node->next;
      if (other < rank && other >= best)
        {
          found = value;
          best = other;
        }
      key = carpace_edit_node (editing, value)->next;
    }
  return found != CARPACE_YAML_NO_NODE ? found : last;
}

static void
write_key (CarpaceEditing *editing, int32_t mapping, int32_t step, const char *colon, bool marks)
{
  const char *key = editing->path.step[step].key;

  carpace_edit_come (editing, carpace_edit_node (editing, mapping)->depth + 1, CARPACE_YAML_VALUE, key);
  g_string_append_printf (editing->text, marks ? "\"%s\"%s" : "%s%s", key, colon);
}

/* Whether the file has its sections in lines of their own: as the first of them is. */
static const CarpaceYamlNode *
section_in_lines (const CarpaceEditing *editing)
{
  for (int32_t key = carpace_edit_node (editing, 0)->first, value; key != CARPACE_YAML_NO_NODE;
       key = carpace_edit_node (editing, value)->next)
    {
      const CarpaceYamlNode *node;

      value = carpace_edit_node (editing, key)->next;
      node = carpace_edit_node (editing, value);
      if (node->kind == CARPACE_YAML_MAPPING)
        return node->style == CARPACE_YAML_BLOCK ? node : NULL;
    }
  return NULL;
}

static void
add_in_brackets (CarpaceEditing *editing, int32_t mapping, int32_t step, int32_t behind)
{
  bool marks = carpace_edit_uses_marks (editing, mapping);
  int32_t depth = carpace_edit_node (editing, mapping)->depth + 1;

  if (behind == CARPACE_YAML_NO_NODE)
    marks = mapping > 0 && carpace_edit_uses_marks (editing, 0);
  else
    carpace_edit_separator (editing, mapping);
  editing->from = editing->to = behind == CARPACE_YAML_NO_NODE ? carpace_edit_node (editing, mapping)->from + 1
                                                               : carpace_edit_node (editing, behind)->to;
  write_key (editing, mapping, step, ": ", marks);
  write_nested (editing, step + 1, depth, marks);
}

/* A line of its own (of two, for a section where those have lines). */
static CarpacePlanEditEnd
add_in_block (CarpaceEditing *editing, int32_t mapping, int32_t step, int32_t behind)
{
  const CarpaceYamlNode *as = step == 0 && editing->path.n == 2 ? section_in_lines (editing) : NULL;
  int32_t first = carpace_edit_node (editing, mapping)->first, to = carpace_edit_node (editing, behind)->to;
  int32_t depth = carpace_edit_node (editing, mapping)->depth + 1;
  bool marks = carpace_edit_uses_marks (editing, mapping), open;

  if (carpace_edit_node (editing, first)->from != carpace_edit_node (editing, mapping)->from)
    return CARPACE_EDIT_UNFIT; /* keys behind question marks */
  editing->from = editing->to = carpace_edit_line_over (editing, to);
  open = editing->from == editing->n && !strchr ("\r\n", editing->bytes[editing->n - 1]);
  if (open)
    g_string_append (editing->text, editing->line_end);
  carpace_edit_indent (editing, carpace_edit_node (editing, first)->from);
  write_key (editing, mapping, step, as ? ":" : ": ", marks);
  if (as)
    {
      g_string_append (editing->text, editing->line_end);
      carpace_edit_indent (editing, as->from);
      carpace_edit_come (editing, depth, CARPACE_YAML_MAPPING, NULL);
      carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, editing->path.step[1].key);
      g_string_append_printf (editing->text, marks ? "\"%s\": " : "%s: ", editing->path.step[1].key);
      depth++;
      step++;
    }
  editing->open = step + 1 == editing->path.n && editing->path.written != CARPACE_PATH_LIST;
  write_nested (editing, step + 1, depth, marks);
  if (!open)
    g_string_append (editing->text, editing->line_end);
  return CARPACE_EDIT_DONE;
}

/* A part that is only an id gets keys: `corners` becomes `{id: corners, share: 70 %}`. */
static CarpacePlanEditEnd
add_to_id (CarpaceEditing *editing, int32_t part)
{
  const CarpaceYamlNode *node = carpace_edit_node (editing, part);
  bool marks = node->style == CARPACE_YAML_DOUBLE && carpace_edit_uses_marks (editing, 0);
  int32_t depth = node->depth;

  editing->at = part;
  editing->gone_to = part + 1;
  editing->from = node->from;
  editing->to = node->to;
  g_string_append (editing->text, marks ? "{\"id\": " : "{id: ");
  carpace_edit_append (editing, node->from, node->to);
  g_string_append (editing->text, marks ? ", \"share\": " : ", share: ");
  carpace_edit_write (editing, editing->edit->value, CARPACE_PATH_WORD, CARPACE_YAML_PLAIN, marks);
  g_string_append_c (editing->text, '}');
  carpace_edit_come (editing, depth, CARPACE_YAML_MAPPING, NULL);
  carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, "id");
  carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, node->text);
  carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, "share");
  carpace_edit_come (editing, depth + 1, CARPACE_YAML_VALUE, editing->edit->value);
  return CARPACE_EDIT_DONE;
}

/* Nothing stands behind a section's key yet. */
static CarpacePlanEditEnd
set_in_nothing (CarpaceEditing *editing, int32_t node, int32_t step)
{
  const CarpaceYamlNode *at = carpace_edit_node (editing, node);

  editing->at = node;
  editing->gone_to = node + 1;
  editing->from = editing->to = at->from;
  g_string_append_c (editing->text, ' ');
  write_nested (editing, step, at->depth, false);
  return CARPACE_EDIT_DONE;
}

/* Whether steps from @step on lead into an item of what is not there. */
static bool
needs_item (const CarpaceEditing *editing, int32_t step)
{
  for (; step < editing->path.n; step++)
    if (editing->path.step[step].item >= 0 || editing->path.step[step].by_id)
      return true;
  return false;
}

static CarpacePlanEditEnd
set (CarpaceEditing *editing)
{
  int32_t n = editing->path.n, behind;
  CarpaceEditPlace place = carpace_edit_find (editing, n);
  const CarpaceYamlNode *in = carpace_edit_node (editing, place.in);
  const CarpacePathStep *step = &editing->path.step[place.steps == n ? n - 1 : place.steps];

  if (editing->path.written == CARPACE_PATH_OF_KEYS)
    return CARPACE_EDIT_UNKNOWN_PATH;
  if (place.node != CARPACE_YAML_NO_NODE)
    return set_there (editing, &place);
  if (needs_item (editing, place.steps))
    return CARPACE_EDIT_NOT_THERE;
  if (in->kind == CARPACE_YAML_VALUE && strcmp (step->key, "share") == 0)
    return add_to_id (editing, place.in);
  if (in->kind == CARPACE_YAML_VALUE && in->from == in->to && place.steps > 0)
    return set_in_nothing (editing, place.in, place.steps);
  if (in->kind != CARPACE_YAML_MAPPING)
    return CARPACE_EDIT_NOT_THERE;
  behind = predecessor (editing, place.in, place.steps);
  editing->at = behind == CARPACE_YAML_NO_NODE ? place.in + 1 : carpace_edit_behind (editing, behind);
  editing->gone_to = editing->at;
  if (in->style == CARPACE_YAML_BLOCK)
    return add_in_block (editing, place.in, place.steps, behind);
  add_in_brackets (editing, place.in, place.steps, behind);
  return CARPACE_EDIT_DONE;
}

/* A section of which nothing is left would be no section. */
static CarpacePlanEditEnd
take_away (CarpaceEditing *editing)
{
  CarpaceEditPlace place = carpace_edit_find (editing, editing->path.n);

  if (place.node != CARPACE_YAML_NO_NODE && place.key != CARPACE_YAML_NO_NODE && place.steps == 2
      && carpace_edit_count (editing, place.in) == 2)
    place = carpace_edit_find (editing, 1);
  if (place.node == CARPACE_YAML_NO_NODE)
    return CARPACE_EDIT_NOT_THERE;
  return carpace_edit_take_out (editing, place.in, place.key != CARPACE_YAML_NO_NODE ? place.key : place.node,
                                place.node);
}

static CarpacePlanEditEnd
fix (CarpaceEditing *editing, bool fixed)
{
  CarpaceEditPlace place = carpace_edit_find (editing, editing->path.n);
  const CarpaceYamlNode *node;

  if (!editing->path.fixable)
    return CARPACE_EDIT_UNKNOWN_PATH;
  if (place.node == CARPACE_YAML_NO_NODE)
    return CARPACE_EDIT_NOT_THERE;
  node = carpace_edit_node (editing, place.node);
  editing->at = editing->gone_to = place.node;
  if (node->fixed == fixed)
    return CARPACE_EDIT_DONE;
  editing->gone_to++;
  carpace_edit_come_from (editing, place.node, place.node + 1);
  g_array_index (editing->come, CarpaceFlatNode, 0).fixed = fixed;
  editing->from = editing->to = node->from;
  if (fixed && node->style != CARPACE_YAML_BLOCK)
    g_string_append (editing->text, "!fixed ");
  else if (fixed)
    {
      editing->from = editing->to = carpace_edit_colon_over (editing, place.key);
      g_string_append (editing->text, " !fixed");
    }
  else if (node->style != CARPACE_YAML_BLOCK && carpace_edit_is_space (editing, node->tag_to, node->from, false))
    editing->from = node->tag;
  else
    {
      editing->from = node->tag;
      editing->to = node->tag_to;
      while (editing->from > 0 && carpace_edit_is_space (editing, editing->from - 1, editing->from, false))
        editing->from--;
    }
  return editing->from < 0 ? CARPACE_EDIT_UNFIT : CARPACE_EDIT_DONE;
}

static CarpacePlanEditEnd
edit_nodes (CarpaceEditing *editing)
{
  bool needs_value = editing->edit->kind == CARPACE_EDIT_SET || editing->edit->kind == CARPACE_EDIT_INSERT;

  if (needs_value && (editing->edit->value == NULL || !g_utf8_validate (editing->edit->value, -1, NULL)))
    return CARPACE_EDIT_UNFIT;
  switch (editing->edit->kind)
    {
    case CARPACE_EDIT_SET: return set (editing);
    case CARPACE_EDIT_REMOVE: return take_away (editing);
    case CARPACE_EDIT_INSERT: return carpace_edit_insert (editing);
    case CARPACE_EDIT_DUPLICATE: return carpace_edit_duplicate (editing);
    case CARPACE_EDIT_MOVE: return carpace_edit_move (editing);
    case CARPACE_EDIT_FIX:
    case CARPACE_EDIT_RELEASE: return fix (editing, editing->edit->kind == CARPACE_EDIT_FIX);
    }
  g_return_val_if_reached (CARPACE_EDIT_UNFIT);
}

/* @return whether @bytes are YAML that a plan may be written in */
static bool
read_tree (CarpaceYamlTree *tree, const char *bytes, size_t n_bytes)
{
  carpace_yaml_tree_init (tree);
  return carpace_yaml_guard (tree, bytes, n_bytes) && carpace_yaml_parse (tree, bytes, n_bytes) && tree->n_faults == 0;
}

static CarpacePlanEditEnd
splice (CarpaceEditing *editing, GString **ret_bytes)
{
  g_autoptr (GString) now = g_string_new_len (editing->bytes, editing->from);
  CarpaceYamlTree tree;
  bool as_asked;

  g_string_append_len (now, editing->text->str, (gssize) editing->text->len);
  g_string_append_len (now, editing->bytes + editing->to, editing->n - editing->to);
  if (now->len > CARPACE_PLAN_FILE_BYTES)
    return CARPACE_EDIT_TOO_LARGE;
  as_asked = read_tree (&tree, now->str, now->len) && carpace_edit_is_as_asked (editing, &tree);
  carpace_yaml_tree_clear (&tree);
  if (!as_asked)
    return CARPACE_EDIT_UNFIT;
  *ret_bytes = g_steal_pointer (&now);
  return CARPACE_EDIT_DONE;
}

/* Opens a file at a path. @return CARPACE_EDIT_DONE; close it in any case */
static CarpacePlanEditEnd
open_at (CarpaceEditing *editing, const GString *bytes, const char *path)
{
  *editing = (CarpaceEditing){ .bytes = bytes->str, .n = (int32_t) MIN (bytes->len, G_MAXINT32),
                               .line_end = line_end_of (bytes->str), .text = g_string_new (NULL),
                               .come = g_array_new (FALSE, TRUE, sizeof (CarpaceFlatNode)),
                               .words = g_string_chunk_new (256) };
  if (!read_tree (&editing->tree, bytes->str, bytes->len))
    return CARPACE_EDIT_UNREAD;
  return carpace_path_read (path, &editing->path) ? CARPACE_EDIT_DONE : CARPACE_EDIT_UNKNOWN_PATH;
}

static void
close_editing (CarpaceEditing *editing)
{
  carpace_yaml_tree_clear (&editing->tree);
  g_string_free (editing->text, TRUE);
  g_array_unref (editing->come);
  g_string_chunk_free (editing->words);
}

CarpacePlanEditEnd
carpace_plan_edit (const char *bytes, size_t n_bytes, const CarpacePlanEdit *edit, GString **ret_bytes)
{
  g_autoptr (GString) copy = g_string_new_len (bytes, (gssize) n_bytes);
  CarpaceEditing editing;
  CarpacePlanEditEnd end = open_at (&editing, copy, edit->path);

  editing.edit = edit;
  if (end == CARPACE_EDIT_DONE)
    end = edit_nodes (&editing);
  if (end == CARPACE_EDIT_DONE)
    end = splice (&editing, ret_bytes);
  close_editing (&editing);
  return end;
}

char *
carpace_plan_edit_value (const char *bytes, size_t n_bytes, const char *path)
{
  g_autoptr (GString) copy = g_string_new_len (bytes, (gssize) n_bytes);
  CarpaceEditing editing;
  char *value = NULL;

  if (open_at (&editing, copy, path) == CARPACE_EDIT_DONE)
    {
      CarpaceEditPlace place = carpace_edit_find (&editing, editing.path.n);

      if (place.node != CARPACE_YAML_NO_NODE && carpace_edit_node (&editing, place.node)->kind == CARPACE_YAML_VALUE)
        value = g_strdup (carpace_edit_node (&editing, place.node)->text);
    }
  close_editing (&editing);
  return value;
}
