/* SPDX-License-Identifier: GPL-3.0-or-later */
/* document.c: bytes, read anew after every step. */
#include "planner/document-private.h"

#include <string.h>

#include "forms/plan-yaml.h"

static void
free_fault (gpointer fault)
{
  CarpacePlannerFault *f = fault;

  g_free (f->message);
  g_free (f->path);
  g_free (f);
}

static void
add_fault (void *user, const CarpaceFileFault *fault)
{
  CarpacePlanner *planner = user;
  CarpacePlannerFault *mine = g_new0 (CarpacePlannerFault, 1);
  const CarpacePlanValue *value = planner->values != NULL ? carpace_plan_values_at (planner->values, fault->line, fault->column) : NULL;

  mine->line = fault->line;
  mine->column = fault->column;
  mine->warning = fault->warning;
  mine->message = g_strdup (fault->message);
  mine->path = g_strdup (value != NULL ? value->path : "");
  g_ptr_array_add (planner->faults, mine);
}

static void
tell (CarpacePlanner *planner)
{
  if (planner->changed != NULL)
    planner->changed (planner->user);
}

static void
work_out (CarpacePlanner *planner)
{
  const CarpacePlan *plan = carpace_planner_plan (planner);
  g_autofree CarpacePlan *reckoned = plan != NULL && planner->reckon != NULL ? g_memdup2 (plan, sizeof *plan) : NULL;

  if (reckoned != NULL)
    planner->reckon (planner->reckon_user, reckoned);
  if (plan != NULL)
    carpace_load_all (reckoned != NULL ? reckoned : plan, &planner->load);
}

void
carpace_planner_reckon (CarpacePlanner *planner, void (*reckon) (void *user, CarpacePlan *plan), void *user)
{
  planner->reckon = reckon;
  planner->reckon_user = user;
  work_out (planner);
}

/* A split that is still the same is not worked out again. */
static void
read_bytes (CarpacePlanner *planner)
{
  CarpacePlanReader reader = carpace_plan_yaml ();
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (planner), &n);

  g_clear_pointer (&planner->tried, g_free);
  g_clear_pointer (&planner->values, carpace_plan_values_free);
  g_ptr_array_set_size (planner->faults, 0);
  planner->values = carpace_plan_values_new (bytes, n);
  planner->sound = reader.read (reader.self, bytes, n, planner->plan, plan, NULL, add_fault, planner);
  if (planner->sound)
    {
      g_free (planner->plan);
      planner->plan = g_steal_pointer (&plan);
    }
  work_out (planner);
  tell (planner);
}

CarpacePlanner *
carpace_planner_new (GBytes *bytes)
{
  CarpacePlanner *planner = g_new0 (CarpacePlanner, 1);

  planner->faults = g_ptr_array_new_with_free_func (free_fault);
  carpace_planner_open (planner, bytes);
  return planner;
}

void
carpace_planner_open (CarpacePlanner *planner, GBytes *bytes)
{
  g_clear_pointer (&planner->undo, carpace_undo_free);
  g_clear_pointer (&planner->plan, g_free);
  planner->undo = carpace_undo_new (bytes);
  read_bytes (planner);
}

void
carpace_planner_free (CarpacePlanner *planner)
{
  carpace_undo_free (planner->undo);
  g_clear_pointer (&planner->values, carpace_plan_values_free);
  g_ptr_array_unref (planner->faults);
  g_free (planner->plan);
  g_free (planner->tried);
  g_free (planner);
}

void
carpace_planner_listen (CarpacePlanner *planner, void (*changed) (void *user), void *user)
{
  planner->changed = changed;
  planner->user = user;
}

/* ---- what it is ---- */

GBytes *
carpace_planner_bytes (const CarpacePlanner *planner)
{
  return carpace_undo_now (planner->undo);
}

const CarpacePlan *
carpace_planner_plan (const CarpacePlanner *planner)
{
  return planner->tried != NULL ? planner->tried : planner->plan;
}

const CarpaceDayLoad *
carpace_planner_load (const CarpacePlanner *planner)
{
  return &planner->load;
}

bool
carpace_planner_is_sound (const CarpacePlanner *planner)
{
  return planner->sound;
}

bool
carpace_planner_can_edit (const CarpacePlanner *planner)
{
  return planner->values != NULL;
}

const GPtrArray *
carpace_planner_faults (const CarpacePlanner *planner)
{
  return planner->faults;
}

bool
carpace_planner_is_within (const char *inner, const char *path)
{
  size_t n = strlen (path);

  return strncmp (inner, path, n) == 0 && (inner[n] == '\0' || inner[n] == '.' || inner[n] == '[');
}

const CarpacePlannerFault *
carpace_planner_fault_at (const CarpacePlanner *planner, const char *path)
{
  const CarpacePlannerFault *found = NULL;

  for (guint i = 0; i < planner->faults->len; i++)
    {
      const CarpacePlannerFault *fault = planner->faults->pdata[i];

      if (carpace_planner_is_within (fault->path, path) && (found == NULL || (found->warning && !fault->warning)))
        found = fault;
    }
  return found;
}

const CarpacePlanValue *
carpace_planner_value (const CarpacePlanner *planner, const char *path)
{
  return planner->values != NULL ? carpace_plan_values_get (planner->values, path) : NULL;
}

/* ---- changes ---- */

static void
add_state (CarpacePlanner *planner, GString *bytes)
{
  g_autoptr (GBytes) state = g_string_free_to_bytes (bytes);

  carpace_undo_add (planner->undo, state);
  read_bytes (planner);
}

CarpacePlanEditEnd
carpace_planner_edit (CarpacePlanner *planner, const CarpacePlanEdit *edits, int32_t n_edits)
{
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (planner), &n);
  GString *now = g_string_new_len (bytes, (gssize) n);

  for (int32_t i = 0; i < n_edits; i++)
    {
      GString *then = NULL;
      CarpacePlanEditEnd end = carpace_plan_edit (now->str, now->len, &edits[i], &then);

      g_string_free (now, TRUE);
      if (end != CARPACE_EDIT_DONE)
        return end;
      now = then;
    }
  add_state (planner, now);
  return CARPACE_EDIT_DONE;
}

void
carpace_planner_write (CarpacePlanner *planner, const char *text)
{
  add_state (planner, g_string_new (text));
}

CarpacePlan *
carpace_planner_try (CarpacePlanner *planner)
{
  if (planner->sound && planner->tried == NULL)
    planner->tried = g_memdup2 (planner->plan, sizeof *planner->plan);
  return planner->tried;
}

bool
carpace_planner_is_trying (const CarpacePlanner *planner)
{
  return planner->tried != NULL;
}

void
carpace_planner_tried (CarpacePlanner *planner)
{
  work_out (planner);
  tell (planner);
}

void
carpace_planner_let_go (CarpacePlanner *planner)
{
  if (planner->tried == NULL)
    return;
  g_clear_pointer (&planner->tried, g_free);
  carpace_planner_tried (planner);
}

bool
carpace_planner_can_undo (const CarpacePlanner *planner)
{
  return carpace_undo_can_go_back (planner->undo);
}

bool
carpace_planner_can_redo (const CarpacePlanner *planner)
{
  return carpace_undo_can_go_forth (planner->undo);
}

void
carpace_planner_undo (CarpacePlanner *planner)
{
  if (carpace_undo_back (planner->undo))
    read_bytes (planner);
}

void
carpace_planner_redo (CarpacePlanner *planner)
{
  if (carpace_undo_forth (planner->undo))
    read_bytes (planner);
}

void
carpace_planner_saved (CarpacePlanner *planner)
{
  carpace_undo_saved (planner->undo);
  tell (planner);
}

bool
carpace_planner_is_unsaved (const CarpacePlanner *planner)
{
  return carpace_undo_is_unsaved (planner->undo);
}
