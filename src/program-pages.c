/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-pages.c: the document and its file, handed to the pages of weeks and of giving. */
#include "program-pages.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <string.h>

#include "cli/give.h"
#include "files/in.h"
#include "forms/codes-lines.h"
#include "ui/give-pane.h"
#include "ui/season-pane.h"

struct CarpaceProgramPages
{
  CarpacePlanner *planner;
  const char *(*path) (void *self);
  void *self;
  CarpaceSeasonPane *weeks;
  CarpaceGivePane *give;
};

/* ---- weeks ---- */

static const CarpacePlan *
plan_of (void *self)
{
  const CarpaceProgramPages *pages = self;

  return carpace_planner_is_sound (pages->planner) ? carpace_planner_plan (pages->planner) : NULL;
}

static GtkWidget *
make_weeks (void *self)
{
  return carpace_season_pane_widget (((CarpaceProgramPages *) self)->weeks);
}

static void
weeks_changed (void *self)
{
  carpace_season_pane_changed (((CarpaceProgramPages *) self)->weeks);
}

/* ---- giving ---- */

static const char *
why_not (void *self)
{
  const CarpaceProgramPages *pages = self;

  if (!carpace_planner_is_sound (pages->planner))
    return _("This file is no plan yet; it can be given once it has no faults.");
  if (pages->path (pages->self) == NULL)
    return _("The plan has no file yet; save it first: the copies are called after it.");
  return NULL;
}

static char *
folder_of (void *self)
{
  const CarpaceProgramPages *pages = self;
  const char *path = pages->path (pages->self);

  return path != NULL ? g_path_get_dirname (path) : NULL;
}

static char *
read_codes (void *self, const char *path, char **ret_fault)
{
  CarpaceFileTrouble trouble;
  g_autoptr (GString) bytes = carpace_in_read (path, CARPACE_CODES_BYTES, CARPACE_IN_FILE, &trouble);
  g_autoptr (GPtrArray) codes = NULL;

  if (bytes == NULL)
    {
      *ret_fault = carpace_text_not_read (trouble, path, errno);
      return NULL;
    }
  codes = carpace_codes_read (bytes->str, bytes->len, ret_fault);
  if (codes == NULL)
    return NULL;
  g_ptr_array_add (codes, NULL);
  return g_strjoinv (" ", (char **) codes->pdata);
}

/* @return NULL, and what is wrong, where one of the words is no code */
static GPtrArray *
codes_in (const char *words, char **ret_fault)
{
  g_autoptr (GPtrArray) codes = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) word = g_strsplit_set (words, " ,;\t", -1);

  for (int i = 0; word[i] != NULL; i++)
    {
      CarpaceCodeFault fault = { .kind = CARPACE_CODE_FINE };

      if (word[i][0] != '\0')
        fault = carpace_codes_add (codes, word[i]);
      if (fault.kind == CARPACE_CODE_FINE)
        continue;
      *ret_fault = carpace_text_code_fault (&fault);
      return NULL;
    }
  return g_steal_pointer (&codes);
}

static char *
told (void *self, const char *words, const char *folder, void (*act) (const CarpaceGift *gift, const char *code, CarpaceGiven *ret_given))
{
  const CarpaceProgramPages *pages = self;
  char *fault = NULL;
  g_autoptr (GPtrArray) codes = codes_in (words, &fault);
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  GString *lines = g_string_new (NULL);
  CarpaceGift gift = { .path = pages->path (pages->self), .into = folder };

  if (codes == NULL)
    {
      g_string_free (lines, TRUE);
      return fault;
    }
  gift.bytes = g_bytes_get_data (carpace_planner_bytes (pages->planner), &gift.n_bytes);
  gift.plan = carpace_give_read (gift.bytes, gift.n_bytes, plan) ? plan : NULL;
  for (guint i = 0; i < codes->len; i++)
    {
      CarpaceGiven given;
      g_autofree char *line = NULL;

      act (&gift, codes->pdata[i], &given);
      line = carpace_given_told (codes->pdata[i], &given);
      g_string_append (lines, line);
      carpace_given_clear (&given);
    }
  return g_strchomp (g_string_free (lines, FALSE));
}

static char *
give (void *self, const char *words, const char *folder)
{
  return told (self, words, folder, carpace_give);
}

static char *
ahead (void *self, const char *words, const char *folder)
{
  return told (self, words, folder, carpace_give_ahead);
}

static GtkWidget *
make_give (void *self)
{
  return carpace_give_pane_widget (((CarpaceProgramPages *) self)->give);
}

static void
give_changed (void *self)
{
  carpace_give_pane_changed (((CarpaceProgramPages *) self)->give);
}

/* ---- both ---- */

CarpaceProgramPages *
carpace_program_pages_add (CarpacePlannerWindow *window, CarpacePlanner *planner, const CarpacePlanFiles *plans,
                           const char *(*path) (void *self), void *self)
{
  CarpaceProgramPages *pages = g_new0 (CarpaceProgramPages, 1);
  const CarpacePlannerPage weeks = { .title = _("Weeks"), .self = pages, .make = make_weeks, .changed = weeks_changed };
  const CarpacePlannerPage giving = { .title = _("Give"), .self = pages, .make = make_give, .changed = give_changed };

  pages->planner = planner;
  pages->path = path;
  pages->self = self;
  pages->weeks = carpace_season_pane_new (&(CarpaceSeasonPaneGiven){ pages, plan_of, plans });
  pages->give = carpace_give_pane_new (&(CarpaceGivePaneGiven){ pages, why_not, folder_of, read_codes, give, ahead });
  carpace_planner_window_add_page (window, &weeks);
  carpace_planner_window_add_page (window, &giving);
  return pages;
}

void
carpace_program_pages_free (CarpaceProgramPages *pages)
{
  carpace_season_pane_free (pages->weeks);
  carpace_give_pane_free (pages->give);
  g_free (pages);
}
