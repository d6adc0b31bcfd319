/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-planner.c: `carpace planner`: a process of its own, with the window, its document and the document's file. */
#define _GNU_SOURCE /* AT_FDCWD */
#include "program-planner.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <gtk/gtk.h>
#include <string.h>

#include "adapters/draft-file.h"
#include "files/kept.h"
#include "files/out.h"
#include "program-pages.h"
#include "ui/planner-window.h"

typedef struct
{
  const CarpacePlanFiles *plans;
  CarpacePlanner *planner;
  CarpacePlannerWindow *window;
  GMainLoop *loop;
  char *path; /* NULL: it has none yet */
  CarpaceFileMark mark;
  CarpaceDraft *draft; /* NULL: none can be kept */
  CarpaceMeasure measure;
  CarpacePlan *measured_plan; /* what `measured` is of: its drills may be changed since. NULL: nobody can tell */
  CarpaceClicksMeasured measured;
  GBytes *offered;     /* what a draft was left with, until it is answered; the draft is not written meanwhile */
  guint drafting;      /* a source */
} Program;

/* ---- what is not saved yet ---- */

#define DRAFTED_AFTER_MS 400

static void
write_draft (Program *program)
{
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (program->planner), &n);

  g_clear_handle_id (&program->drafting, g_source_remove);
  if (program->draft == NULL || program->offered != NULL)
    return;
  if (carpace_planner_is_unsaved (program->planner))
    carpace_draft_write (program->draft, bytes, n);
  else
    carpace_draft_clear (program->draft);
}

static gboolean
write_draft_later (gpointer user)
{
  ((Program *) user)->drafting = 0;
  write_draft (user);
  return G_SOURCE_REMOVE;
}

static void
changed (void *self)
{
  Program *program = self;

  if (program->drafting == 0)
    program->drafting = g_timeout_add (DRAFTED_AFTER_MS, write_draft_later, program);
}

/* What is still offered is nobody's to forget. */
static void
forget (void *self)
{
  Program *program = self;

  g_clear_handle_id (&program->drafting, g_source_remove);
  if (program->draft != NULL && program->offered == NULL)
    carpace_draft_clear (program->draft);
}

static void
draft_answered (void *self, bool yes)
{
  Program *program = self;
  g_autoptr (GBytes) left = g_steal_pointer (&program->offered);
  gsize n;
  const char *bytes = g_bytes_get_data (left, &n);
  g_autofree char *text = g_strndup (bytes, n);

  if (yes)
    carpace_planner_write (program->planner, text);
  write_draft (program);
}

/* Of the document that is open now: what was asked about the one before stays in its draft, and is asked when that is
 * opened again. */
static void
open_draft (Program *program)
{
  g_clear_handle_id (&program->drafting, g_source_remove);
  g_clear_pointer (&program->offered, g_bytes_unref);
  carpace_planner_window_say_nothing (program->window);
  carpace_draft_free (program->draft);
  program->draft = carpace_draft_open (program->path, NULL);
}

static void
have_draft (Program *program)
{
  open_draft (program);
  program->offered = program->draft != NULL ? carpace_draft_left (program->draft) : NULL;
  if (program->offered != NULL && g_bytes_equal (program->offered, carpace_planner_bytes (program->planner)))
    {
      g_clear_pointer (&program->offered, g_bytes_unref);
      carpace_draft_clear (program->draft);
    }
  if (program->offered != NULL)
    carpace_planner_window_ask (program->window, _("What was changed here last time was not saved."), _("Go on with it"), _("Throw it away"),
                                draft_answered, program);
}

/* ---- what was counted of its drills ---- */

static bool
measured (void *self, const char *drill, CarpaceClicksCount *ret_count)
{
  const Program *program = self;

  *ret_count = (CarpaceClicksCount) { 0 };
  for (int32_t i = 0; program->measured_plan != NULL && i < program->measured_plan->n_drills; i++)
    if (strcmp (program->measured_plan->drills[i].id, drill) == 0)
      *ret_count = program->measured.drill[i];
  return program->measured_plan != NULL;
}

/* Where the plan says so, clicks are what it reckons with: here as in `plan check --measured`. */
static void
reckon (void *user, CarpacePlan *plan)
{
  CarpaceClicksMeasured now = { 0 };

  for (int32_t i = 0; i < plan->n_drills; i++)
    measured (user, plan->drills[i].id, &now.drill[i]);
  carpace_clicks_as_efforts (plan, &now);
}

static void
have_measured (Program *program)
{
  const CarpacePlan *plan = carpace_planner_plan (program->planner);

  g_clear_pointer (&program->measured_plan, g_free);
  if (plan != NULL && program->measure != NULL && program->measure (plan, &program->measured))
    program->measured_plan = g_memdup2 (plan, sizeof *plan);
  carpace_planner_reckon (program->planner, reckon, program);
}

/* ---- the file ---- */

static GBytes *
read_file (const char *path, CarpaceFileMark *ret_mark, char **ret_why)
{
  CarpaceFileTrouble trouble;
  GString *bytes = carpace_kept_read (path, CARPACE_PLAN_FILE_BYTES, ret_mark, &trouble);

  if (bytes != NULL)
    return g_string_free_to_bytes (bytes);
  *ret_why = carpace_text_not_read (trouble, path, errno);
  return NULL;
}

static void
have_path (Program *program, const char *path)
{
  char *absolute = path != NULL ? g_canonicalize_filename (path, NULL) : NULL;

  g_free (program->path);
  program->path = absolute;
}

static char *
open_path (void *self, const char *path)
{
  Program *program = self;
  CarpaceFileMark mark;
  char *why = NULL;
  g_autoptr (GBytes) bytes = read_file (path, &mark, &why);

  if (bytes == NULL)
    return why;
  program->mark = mark;
  have_path (program, path);
  carpace_planner_open (program->planner, bytes);
  have_measured (program);
  have_draft (program);
  return NULL;
}

static CarpaceFileTrouble
write_to (Program *program, const char *path, const char *bytes, gsize n)
{
  char *why = NULL;
  CarpaceFileTrouble trouble = carpace_out_write (AT_FDCWD, path, CARPACE_OUT_SAVE, bytes, n);
  GBytes *again = trouble == CARPACE_FILE_FINE ? read_file (path, &program->mark, &why) : NULL;

  if (trouble == CARPACE_FILE_FINE && again == NULL)
    trouble = CARPACE_FILE_FAILED;
  g_clear_pointer (&again, g_bytes_unref);
  g_free (why);
  return trouble;
}

static CarpaceFileTrouble
save (void *self, const char *path, char **ret_why)
{
  Program *program = self;
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (program->planner), &n);
  CarpaceFileTrouble trouble = path != NULL ? write_to (program, path, bytes, n) : carpace_kept_save (program->path, &program->mark, bytes, n);
  int error = errno;

  if (trouble != CARPACE_FILE_FINE)
    {
      *ret_why = carpace_text_not_written (trouble, path != NULL ? path : program->path, error);
      return trouble;
    }
  if (path != NULL)
    {
      forget (program);
      have_path (program, path);
      open_draft (program);
    }
  carpace_planner_saved (program->planner);
  return CARPACE_FILE_FINE;
}

static const char *
path_of (void *self)
{
  return ((Program *) self)->path;
}

/* ---- what is opened first ---- */

typedef struct
{
  const char *word;
  char *path;
} Wanted;

static void
look_at (void *user, const CarpacePlanItem *item)
{
  Wanted *wanted = user;

  if (wanted->path == NULL && g_strcmp0 (item->word, wanted->word) == 0)
    wanted->path = g_strdup (item->path);
}

/* A template is copied: the copy has no path yet. */
static GBytes *
read_template (Program *program, const char *word, char **ret_why)
{
  Wanted wanted = { .word = word };
  CarpaceFileMark mark;
  GBytes *bytes;

  program->plans->list (program->plans->self, look_at, &wanted);
  bytes = read_file (wanted.path != NULL ? wanted.path : word, &mark, ret_why);
  g_free (wanted.path);
  return bytes;
}

static GBytes *
read_first (Program *program, const char *file, char **ret_why)
{
  GBytes *bytes;

  if (file == NULL)
    return read_template (program, CARPACE_PLAN_TEMPLATE, ret_why);
  if (!g_file_test (file, G_FILE_TEST_EXISTS) && strchr (file, G_DIR_SEPARATOR) == NULL)
    return read_template (program, file, ret_why);
  bytes = read_file (file, &program->mark, ret_why);
  if (bytes != NULL)
    have_path (program, file);
  return bytes;
}

/* ---- the process ---- */

static void
closed (void *self)
{
  g_main_loop_quit (((Program *) self)->loop);
}

static void
run (Program *program, GBytes *bytes)
{
  CarpacePlannerGiven given = { .self = program, .path = path_of, .open = open_path, .save = save, .changed = changed, .forget = forget,
                                .closed = closed, .measured = measured };
  CarpaceProgramPages *pages;

  given.planner = program->planner = carpace_planner_new (bytes);
  have_measured (program);
  program->window = carpace_planner_window_new (&given);
  pages = carpace_program_pages_add (program->window, program->planner, program->plans, path_of, program);
  program->loop = g_main_loop_new (NULL, FALSE);
  carpace_planner_window_show (program->window);
  have_draft (program);
  g_main_loop_run (program->loop);
  carpace_program_pages_free (pages);
  g_clear_handle_id (&program->drafting, g_source_remove);
  g_clear_pointer (&program->offered, g_bytes_unref);
  carpace_draft_free (program->draft);
  carpace_planner_window_free (program->window);
  carpace_planner_free (program->planner);
  g_main_loop_unref (program->loop);
}

CarpacePlannerEnd
carpace_program_planner (const CarpacePlanFiles *plans, CarpaceMeasure measure, const char *file, char **ret_why)
{
  Program program = { .plans = plans, .measure = measure };
  GBytes *bytes = read_first (&program, file, ret_why);
  CarpacePlannerEnd end = CARPACE_PLANNER_NOT_READ;

  g_setenv ("GDK_GL", "disable", FALSE);
  if (bytes != NULL && !gtk_init_check (NULL, NULL))
    end = CARPACE_PLANNER_NO_DISPLAY;
  else if (bytes != NULL)
    {
      run (&program, bytes);
      end = CARPACE_PLANNER_CLOSED;
    }
  g_clear_pointer (&bytes, g_bytes_unref);
  g_free (program.path);
  g_free (program.measured_plan);
  return end;
}
