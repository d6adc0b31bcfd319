/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-edit-flat.c: where things are in a plan's file, and what it says before and after an edit. */
#include "forms/plan-edit-place.h"

#include <string.h>

const CarpaceYamlNode *
carpace_edit_node (const CarpaceEditing *editing, int32_t node)
{
  return carpace_yaml_node (&editing->tree, node);
}

int32_t
carpace_edit_behind (const CarpaceEditing *editing, int32_t node)
{
  int32_t depth = carpace_edit_node (editing, node)->depth;

  for (node++; node < (int32_t) editing->tree.nodes->len && carpace_edit_node (editing, node)->depth > depth;)
    node++;
  return node;
}

int32_t
carpace_edit_count (const CarpaceEditing *editing, int32_t node)
{
  int32_t n = 0;

  for (int32_t at = carpace_edit_node (editing, node)->first; at != CARPACE_YAML_NO_NODE; n++)
    at = carpace_edit_node (editing, at)->next;
  return n;
}

int32_t
carpace_edit_item (const CarpaceEditing *editing, int32_t list, int32_t item)
{
  int32_t at = carpace_edit_node (editing, list)->first;

  while (at != CARPACE_YAML_NO_NODE && item-- > 0)
    at = carpace_edit_node (editing, at)->next;
  return at;
}

static bool
says (const CarpaceEditing *editing, int32_t node, const char *text)
{
  const CarpaceYamlNode *at = carpace_edit_node (editing, node);

  return at->kind == CARPACE_YAML_VALUE && strcmp (at->text, text) == 0;
}

/* The key of a mapping. */
static int32_t
key_in (const CarpaceEditing *editing, int32_t mapping, const char *key)
{
  int32_t at = carpace_edit_node (editing, mapping)->first;

  if (carpace_edit_node (editing, mapping)->kind != CARPACE_YAML_MAPPING)
    return CARPACE_YAML_NO_NODE;
  while (at != CARPACE_YAML_NO_NODE && !says (editing, at, key))
    at = carpace_edit_node (editing, carpace_edit_node (editing, at)->next)->next;
  return at;
}

/* An item that is the id, or has it. */
static bool
has_id (const CarpaceEditing *editing, int32_t item, const char *id)
{
  int32_t key = key_in (editing, item, "id");

  return says (editing, item, id)
         || (key != CARPACE_YAML_NO_NODE && says (editing, carpace_edit_node (editing, key)->next, id));
}

static void
step_into_list (const CarpaceEditing *editing, const CarpacePathStep *step, CarpaceEditPlace *place)
{
  const CarpaceYamlNode *list = carpace_edit_node (editing, place->in);
  int32_t n = 0;

  place->node = place->before = CARPACE_YAML_NO_NODE;
  if (list->kind != CARPACE_YAML_LIST)
    return;
  for (int32_t at = list->first; at != CARPACE_YAML_NO_NODE; at = carpace_edit_node (editing, at)->next)
    if (step->by_id ? has_id (editing, at, step->key) : n++ == step->item)
      {
        place->node = at;
        return;
      }
    else
      place->before = at;
}

CarpaceEditPlace
carpace_edit_find (const CarpaceEditing *editing, int32_t steps)
{
  CarpaceEditPlace place = { .in = 0, .node = 0, .key = CARPACE_YAML_NO_NODE, .before = CARPACE_YAML_NO_NODE };

  for (; place.steps < steps; place.steps++)
    {
      const CarpacePathStep *step = &editing->path.step[place.steps];

      place.in = place.node;
      place.key = CARPACE_YAML_NO_NODE;
      if (step->by_id || step->item >= 0)
        step_into_list (editing, step, &place);
      else
        {
          place.key = key_in (editing, place.in, step->key);
          place.node = place.key == CARPACE_YAML_NO_NODE ? place.key : carpace_edit_node (editing, place.key)->next;
        }
      if (place.node == CARPACE_YAML_NO_NODE)
        break;
    }
  return place;
}

void
carpace_edit_come (CarpaceEditing *editing, int32_t depth, CarpaceYamlKind kind, const char *text)
{
  CarpaceFlatNode node = { .depth = depth, .kind = kind, .text = text ? text : "" };

  g_array_append_val (editing->come, node);
}

static CarpaceFlatNode
flat (const CarpaceYamlNode *node)
{
  return (CarpaceFlatNode){ node->depth, node->kind, node->fixed, node->text ? node->text : "" };
}

void
carpace_edit_come_from (CarpaceEditing *editing, int32_t node, int32_t to)
{
  for (; node < to; node++)
    {
      CarpaceFlatNode copy = flat (carpace_edit_node (editing, node));

      g_array_append_val (editing->come, copy);
    }
}

static bool
same (const CarpaceFlatNode *one, const CarpaceYamlNode *node)
{
  CarpaceFlatNode other = flat (node);

  return one->depth == other.depth && one->kind == other.kind && one->fixed == other.fixed
         && strcmp (one->text, other.text) == 0;
}

/* Nodes of the file as it is @now are those before the splice, those that came and those behind it. */
bool
carpace_edit_is_as_asked (const CarpaceEditing *editing, const CarpaceYamlTree *now)
{
  int32_t n_before = editing->at, n_come = (int32_t) editing->come->len, n = (int32_t) now->nodes->len;
  int32_t moved = editing->gone_to - editing->at - n_come;

  if (n + moved != (int32_t) editing->tree.nodes->len)
    return false;
  for (int32_t i = 0; i < n; i++)
    {
      bool came = i >= n_before && i < n_before + n_come;
      CarpaceFlatNode was = came ? g_array_index (editing->come, CarpaceFlatNode, i - n_before)
                                 : flat (carpace_edit_node (editing, i < n_before ? i : i + moved));

      if (!same (&was, carpace_yaml_node (now, i)))
        return false;
    }
  return true;
}

static bool
ends_line (char c)
{
  return c == '\n' || c == '\r';
}

int32_t
carpace_edit_line (const CarpaceEditing *editing, int32_t at)
{
  int32_t begin = g_str_has_prefix (editing->bytes, "\xEF\xBB\xBF") ? 3 : 0;

  while (at > begin && !ends_line (editing->bytes[at - 1]))
    at--;
  return at;
}

int32_t
carpace_edit_line_over (const CarpaceEditing *editing, int32_t at)
{
  while (at < editing->n && !ends_line (editing->bytes[at]))
    at++;
  if (at + 1 < editing->n && editing->bytes[at] == '\r' && editing->bytes[at + 1] == '\n')
    at++;
  return MIN (at + 1, editing->n);
}

bool
carpace_edit_is_space (const CarpaceEditing *editing, int32_t from, int32_t to, bool lines_too)
{
  for (; from < to; from++)
    if (editing->bytes[from] != ' ' && editing->bytes[from] != '\t' && !(lines_too && ends_line (editing->bytes[from])))
      return false;
  return true;
}

bool
carpace_edit_is_first (const CarpaceEditing *editing, int32_t at)
{
  return carpace_edit_is_space (editing, carpace_edit_line (editing, at), at, false);
}

void
carpace_edit_append (CarpaceEditing *editing, int32_t from, int32_t to)
{
  if (to > from)
    g_string_append_len (editing->text, editing->bytes + from, to - from);
}

void
carpace_edit_indent (CarpaceEditing *editing, int32_t as)
{
  for (int32_t at = carpace_edit_line (editing, as); at < as; at++)
    g_string_append_c (editing->text, ' ');
}

int32_t
carpace_edit_start (const CarpaceEditing *editing, int32_t node)
{
  const CarpaceYamlNode *at = carpace_edit_node (editing, node);

  return at->tag_to > at->tag ? at->tag : at->from;
}

int32_t
carpace_edit_colon_over (const CarpaceEditing *editing, int32_t key)
{
  int32_t at = carpace_edit_node (editing, key)->to;

  while (at < editing->n && carpace_edit_is_space (editing, at, at + 1, false))
    at++;
  return at < editing->n && editing->bytes[at] == ':' ? at + 1 : -1;
}
