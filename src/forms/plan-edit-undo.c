/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-edit-undo.c: whole files, which are small; what was let go is the oldest. */
#include "forms/plan-edit-undo.h"

struct CarpaceUndo
{
  GPtrArray *states; /* GBytes, the oldest first */
  guint now;
  gsize n_bytes;
  GBytes *saved;
};

CarpaceUndo *
carpace_undo_new (GBytes *first)
{
  CarpaceUndo *undo = g_new0 (CarpaceUndo, 1);

  undo->states = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_ptr_array_add (undo->states, g_bytes_ref (first));
  undo->n_bytes = g_bytes_get_size (first);
  undo->saved = g_bytes_ref (first);
  return undo;
}

void
carpace_undo_free (CarpaceUndo *undo)
{
  g_ptr_array_unref (undo->states);
  g_bytes_unref (undo->saved);
  g_free (undo);
}

GBytes *
carpace_undo_now (const CarpaceUndo *undo)
{
  return undo->states->pdata[undo->now];
}

static void
let_go (CarpaceUndo *undo, guint state)
{
  undo->n_bytes -= g_bytes_get_size (undo->states->pdata[state]);
  g_ptr_array_remove_index (undo->states, state);
}

void
carpace_undo_add (CarpaceUndo *undo, GBytes *bytes)
{
  if (g_bytes_equal (bytes, carpace_undo_now (undo)))
    return;
  while (undo->states->len > undo->now + 1)
    let_go (undo, undo->states->len - 1);
  g_ptr_array_add (undo->states, g_bytes_ref (bytes));
  undo->n_bytes += g_bytes_get_size (bytes);
  while (undo->states->len > CARPACE_UNDO_STEPS + 1 || (undo->n_bytes > CARPACE_UNDO_BYTES && undo->states->len > 1))
    let_go (undo, 0);
  undo->now = undo->states->len - 1;
}

bool
carpace_undo_can_go_back (const CarpaceUndo *undo)
{
  return undo->now > 0;
}

bool
carpace_undo_can_go_forth (const CarpaceUndo *undo)
{
  return undo->now + 1 < undo->states->len;
}

bool
carpace_undo_back (CarpaceUndo *undo)
{
  bool can = carpace_undo_can_go_back (undo);

  undo->now -= can;
  return can;
}

bool
carpace_undo_forth (CarpaceUndo *undo)
{
  bool can = carpace_undo_can_go_forth (undo);

  undo->now += can;
  return can;
}

void
carpace_undo_saved (CarpaceUndo *undo)
{
  g_bytes_unref (undo->saved);
  undo->saved = g_bytes_ref (carpace_undo_now (undo));
}

bool
carpace_undo_is_unsaved (const CarpaceUndo *undo)
{
  return !g_bytes_equal (undo->saved, carpace_undo_now (undo));
}
