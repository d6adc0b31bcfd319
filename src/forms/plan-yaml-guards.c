/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-yaml-guards.c: bytes that no parser should see, and the list of faults. */
#include "forms/plan-yaml-tree.h"

#include <string.h>

typedef struct
{
  int32_t line, column;
  bool warning;
  char *message;
} CarpaceYamlFault;

static void
clear_fault (void *fault)
{
  g_free (((CarpaceYamlFault *) fault)->message);
}

void
carpace_yaml_tree_init (CarpaceYamlTree *tree)
{
  memset (tree, 0, sizeof *tree);
  tree->nodes = g_array_new (FALSE, TRUE, sizeof (CarpaceYamlNode));
  tree->texts = g_string_chunk_new (4096);
  tree->faults = g_array_new (FALSE, FALSE, sizeof (CarpaceYamlFault));
  g_array_set_clear_func (tree->faults, clear_fault);
}

void
carpace_yaml_tree_clear (CarpaceYamlTree *tree)
{
  g_array_unref (tree->nodes);
  g_string_chunk_free (tree->texts);
  g_array_unref (tree->faults);
}

bool
carpace_yaml_fault_is_told (CarpaceYamlTree *tree, bool warning)
{
  tree->n_faults += !warning;
  if (tree->faults->len < CARPACE_YAML_FAULTS)
    return true;
  tree->n_untold++;
  return false;
}

void
carpace_yaml_fault (CarpaceYamlTree *tree, int32_t line, int32_t column, bool warning, char *message)
{
  CarpaceYamlFault fault = { line, column, warning, message };

  g_array_append_val (tree->faults, fault);
}

void
carpace_yaml_read_fault (CarpaceYamlTree *tree, int32_t line, int32_t column, CarpaceReadFault fault)
{
  if (fault.key == NULL)
    fault.key = "";
  if (carpace_yaml_fault_is_told (tree, false))
    carpace_yaml_fault (tree, line, column, false, carpace_text_read_fault (&fault));
}

static int
by_place (const void *a, const void *b)
{
  const CarpaceYamlFault *one = a, *other = b;

  if (one->line != other->line)
    return one->line < other->line ? -1 : 1;
  return (one->column > other->column) - (one->column < other->column);
}

void
carpace_yaml_visit_faults (CarpaceYamlTree *tree, CarpaceFileFaultVisitor visit, void *user)
{
  g_array_sort (tree->faults, by_place);
  for (guint i = 0; i < tree->faults->len; i++)
    {
      const CarpaceYamlFault *fault = &g_array_index (tree->faults, CarpaceYamlFault, i);
      CarpaceFileFault told = { fault->line, fault->column, fault->warning, fault->message };
      visit (user, &told);
    }
  if (tree->n_untold > 0)
    {
      g_autofree char *message = carpace_text_more_faults (tree->n_untold);
      CarpaceFileFault told = { 0, 0, false, message };
      visit (user, &told);
    }
}

static bool
ends_line (const char *at)
{
  return *at == '\n' || (*at == '\r' && at[1] != '\n');
}

static void
fault_at (CarpaceYamlTree *tree, const char *bytes, const char *at, CarpaceReadKind kind)
{
  int32_t line = 1, column = 1;

  if (at - bytes >= 3 && memcmp (bytes, "\xEF\xBB\xBF", 3) == 0)
    bytes += 3;
  for (; bytes < at; bytes = g_utf8_next_char (bytes))
    if (ends_line (bytes))
      {
        line++;
        column = 1;
      }
    else if (*bytes != '\r')
      column++;
  carpace_yaml_read_fault (tree, line, column, (CarpaceReadFault){ .kind = kind });
}

static bool
is_control (gunichar c)
{
  return (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || (c >= 0x7F && c < 0xA0);
}

bool
carpace_yaml_guard (CarpaceYamlTree *tree, const char *bytes, size_t n_bytes)
{
  const char *end = bytes + n_bytes, *valid_end;

  if (n_bytes > CARPACE_PLAN_FILE_BYTES)
    {
      carpace_yaml_read_fault (tree, 0, 0, (CarpaceReadFault){ .kind = CARPACE_READ_TOO_LARGE });
      return false;
    }
  g_utf8_validate_len (bytes, n_bytes, &valid_end);
  for (const char *at = bytes; at < valid_end; at = g_utf8_next_char (at))
    if (is_control (g_utf8_get_char (at)))
      fault_at (tree, bytes, at, CARPACE_READ_CONTROL_BYTE);
  if (valid_end < end)
    fault_at (tree, bytes, valid_end, *valid_end == '\0' ? CARPACE_READ_CONTROL_BYTE : CARPACE_READ_NOT_UTF8);
  return tree->n_faults == 0;
}
