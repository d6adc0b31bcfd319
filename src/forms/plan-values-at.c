/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-values-at.c: one walk through the nodes, each under its path. */
#include "forms/plan-values-at.h"

#include "forms/plan-yaml-tree.h"

struct CarpacePlanValues
{
  CarpaceYamlTree tree;
  GStringChunk *paths;
  GArray *values;      /* CarpacePlanValue, outer ones first */
  GHashTable *by_path; /* its number + 1 */
  GHashTable *by_place;
};

static gpointer
place_key (int32_t line, int32_t column)
{
  return GSIZE_TO_POINTER (((gsize) line << 20) + (gsize) column);
}

static int32_t
count_of (const CarpaceYamlTree *tree, const CarpaceYamlNode *node)
{
  int32_t n = 0;

  for (int32_t child = node->first; child != CARPACE_YAML_NO_NODE; child = carpace_yaml_node (tree, child)->next)
    n++;
  return n;
}

static void
note (CarpacePlanValues *values, const CarpaceYamlNode *key, const CarpaceYamlNode *node, const char *path)
{
  CarpacePlanValue value = { .path = g_string_chunk_insert (values->paths, path), .line = node->line, .column = node->column,
                             .fixed = node->tag_to > node->tag, .text = node->kind == CARPACE_YAML_VALUE ? node->text : NULL,
                             .items = node->kind == CARPACE_YAML_LIST ? count_of (&values->tree, node) : 0 };
  gpointer number = GUINT_TO_POINTER (values->values->len + 1);

  g_array_append_val (values->values, value);
  g_hash_table_insert (values->by_path, (gpointer) value.path, number);
  g_hash_table_insert (values->by_place, place_key (node->line, node->column), number);
  if (key != NULL)
    g_hash_table_insert (values->by_place, place_key (key->line, key->column), number);
}

static void
walk (CarpacePlanValues *values, int32_t at, const char *path)
{
  const CarpaceYamlTree *tree = &values->tree;
  const CarpaceYamlNode *node = carpace_yaml_node (tree, at);
  int32_t item = 0;

  for (int32_t child = node->first; child != CARPACE_YAML_NO_NODE;)
    {
      const CarpaceYamlNode *key = carpace_yaml_node (tree, child), *value = key;
      g_autofree char *inner = NULL;
      int32_t inner_at = child;

      if (node->kind == CARPACE_YAML_LIST)
        inner = g_strdup_printf ("%s[%d]", path, item++);
      else
        {
          inner_at = key->next;
          if (inner_at == CARPACE_YAML_NO_NODE)
            return;
          value = carpace_yaml_node (tree, inner_at);
          inner = g_strdup_printf ("%s%s%s", path, *path != '\0' ? "." : "", key->text != NULL ? key->text : "");
        }
      note (values, node->kind == CARPACE_YAML_LIST ? NULL : key, value, inner);
      walk (values, inner_at, inner);
      child = value->next;
    }
}

CarpacePlanValues *
carpace_plan_values_new (const char *bytes, gsize n_bytes)
{
  CarpacePlanValues *values = g_new0 (CarpacePlanValues, 1);

  carpace_yaml_tree_init (&values->tree);
  values->paths = g_string_chunk_new (1024);
  values->values = g_array_new (FALSE, FALSE, sizeof (CarpacePlanValue));
  values->by_path = g_hash_table_new (g_str_hash, g_str_equal);
  values->by_place = g_hash_table_new (NULL, NULL);
  if (carpace_yaml_guard (&values->tree, bytes, n_bytes) && carpace_yaml_parse (&values->tree, bytes, n_bytes))
    walk (values, 0, "");
  else
    g_clear_pointer (&values, carpace_plan_values_free);
  return values;
}

void
carpace_plan_values_free (CarpacePlanValues *values)
{
  carpace_yaml_tree_clear (&values->tree);
  g_string_chunk_free (values->paths);
  g_array_unref (values->values);
  g_hash_table_unref (values->by_path);
  g_hash_table_unref (values->by_place);
  g_free (values);
}

static const CarpacePlanValue *
numbered (const CarpacePlanValues *values, gpointer number)
{
  return number != NULL ? &g_array_index (values->values, CarpacePlanValue, GPOINTER_TO_UINT (number) - 1) : NULL;
}

const CarpacePlanValue *
carpace_plan_values_get (const CarpacePlanValues *values, const char *path)
{
  return numbered (values, g_hash_table_lookup (values->by_path, path));
}

const CarpacePlanValue *
carpace_plan_values_at (const CarpacePlanValues *values, int32_t line, int32_t column)
{
  return numbered (values, g_hash_table_lookup (values->by_place, place_key (line, column)));
}
