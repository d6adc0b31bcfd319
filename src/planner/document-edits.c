/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner/document-edits.h"

#include "carpace/quantity.h"

void
carpace_edits_init (CarpaceEdits *edits)
{
  edits->edits = g_array_new (FALSE, FALSE, sizeof (CarpacePlanEdit));
  edits->texts = g_string_chunk_new (256);
}

static void
add (CarpaceEdits *edits, CarpacePlanEdit edit, const char *value, const char *path)
{
  edit.path = g_string_chunk_insert (edits->texts, path);
  edit.value = value != NULL ? g_string_chunk_insert (edits->texts, value) : NULL;
  g_array_append_val (edits->edits, edit);
}

void
carpace_edits_add (CarpaceEdits *edits, CarpacePlanEdit edit, const char *value, const char *path, ...)
{
  va_list words;
  g_autofree char *text = NULL;

  va_start (words, path);
  text = g_strdup_vprintf (path, words);
  va_end (words);
  add (edits, edit, value, text);
}

void
carpace_edits_set_ms (CarpaceEdits *edits, int64_t ms, const char *path, ...)
{
  va_list words;
  g_autofree char *text = NULL;
  char value[CARPACE_QUANTITY_BYTES];

  va_start (words, path);
  text = g_strdup_vprintf (path, words);
  va_end (words);
  carpace_quantity_write (CARPACE_UNIT_DURATION, (double) ms, value);
  add (edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_SET }, value, text);
}

void
carpace_edits_set_share (CarpaceEdits *edits, int32_t share, int32_t block, int32_t part)
{
  g_autofree char *text = g_strdup_printf ("blocks[%d].drills[%d].share", block, part);
  char value[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_SHARE, share, value);
  add (edits, (CarpacePlanEdit) { .kind = CARPACE_EDIT_SET }, value, text);
}

CarpacePlanEditEnd
carpace_edits_do (CarpaceEdits *edits, CarpacePlanner *planner)
{
  CarpacePlanEditEnd end = CARPACE_EDIT_DONE;

  if (edits->edits->len > 0)
    end = carpace_planner_edit (planner, (const CarpacePlanEdit *) (void *) edits->edits->data, (int32_t) edits->edits->len);
  g_array_unref (edits->edits);
  g_string_chunk_free (edits->texts);
  return end;
}

bool
carpace_edits_same_drills (const CarpaceBlock *a, const CarpaceBlock *b)
{
  bool same = a->n_parts == b->n_parts;

  for (int32_t i = 0; same && i < a->n_parts; i++)
    same = a->parts[i].drill == b->parts[i].drill;
  return same;
}
