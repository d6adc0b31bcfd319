/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-team.c: once a day what the player lets others read is left in the folder that is shared: between blocks, never
 * on air, and in a thread of its own, since a folder may be a network's. What came from a coach or clinician is taken in with it. */
#include "program-private.h"

#include "adapters/folder-files.h"
#include "team/hand-out.h"
#include "team/note.h"
#include "team/share.h"
#include "text/face-text.h"
#include "text/team-text.h"

#define AGAIN_MS CARPACE_HOUR_MS /* where it could not be left */

/* ---- notes ---- */

struct CarpaceProgramNote
{
  CarpaceNoteRead read;
};

/* The newest that was not put away. */
static bool
choose_note (void *user, const CarpaceNoteRead *note)
{
  struct CarpaceProgramNote **chosen = user;

  if (note->away || (*chosen != NULL && (*chosen)->read.made_s >= note->made_s))
    return true;
  if (*chosen == NULL)
    *chosen = g_new (struct CarpaceProgramNote, 1);
  (*chosen)->read = *note;
  return true;
}

void
carpace_program_note_free (CarpaceProgram *p)
{
  g_clear_pointer (&p->note, g_free);
}

/* Once for each; where it is not kept that it was, the next process tells it again. */
static void
tell_note (CarpaceProgram *p)
{
  CarpaceFolder shelf;
  CarpaceNotice notice;

  if (p->note == NULL || p->note->read.told || p->faces == NULL)
    return;
  carpace_text_note_notice (&p->note->read.from, &notice);
  p->note->read.told = carpace_faces_tell_note (p->faces, &notice);
  carpace_notice_clear (&notice);
  if (!p->note->read.told)
    return;
  shelf = carpace_folder_own (NULL);
  carpace_note_put_told (&shelf, &p->note->read);
  shelf.free (shelf.self);
}

static void
show_note (CarpaceProgram *p)
{
  CarpaceFolder shelf = carpace_folder_own (NULL);
  g_autofree char *by = NULL;

  carpace_program_note_free (p);
  carpace_notes (&shelf, choose_note, &p->note);
  shelf.free (shelf.self);
  if (p->note != NULL)
    by = carpace_text_note_by (&p->note->read.from, p->note->read.made_s);
  if (p->faces != NULL)
    carpace_faces_set_note (p->faces, by, p->note != NULL ? p->note->read.text : NULL);
  tell_note (p);
}

void
carpace_program_note_away (void *program)
{
  CarpaceProgram *p = program;
  CarpaceFolder shelf = carpace_folder_own (NULL);

  if (p->note != NULL && !carpace_note_put_away (&shelf, &p->note->read))
    {
      g_autofree char *sentence = carpace_text_team_fault (CARPACE_TEAM_FAILED, "team");

      carpace_program_say (sentence);
    }
  shelf.free (shelf.self);
  show_note (p);
}

/* ---- once a day ---- */

typedef struct
{
  CarpaceProgram *program; /* is there until the process ends */
  int64_t now_s, most_ms;
  CarpaceDay today;
  char *told;              /* what went wrong, a sentence; NULL: nothing did */
} Leaving;

static void
not_read (void *user, CarpaceStoreTrouble trouble, const char *message)
{
  Leaving *leaving = user;

  g_free (leaving->told);
  leaving->told = g_strdup (message);
}

/* One that is refused harms nothing, and is told where the program tells such things. */
static void
note_refused (void *user, const char *file, CarpaceTeamFault fault)
{
  g_autofree char *sentence = carpace_text_team_fault (fault, file);

  carpace_program_say (sentence);
}

static void
leave_in (Leaving *leaving, const CarpaceFolder *shelf, const char *path, CarpaceDiaryStore *store)
{
  CarpaceDiary diary = carpace_store_diary (store);
  CarpaceFolder shared = carpace_folder_shared (path);
  CarpaceSharing sharing = { .shelf = shelf, .shared = &shared, .diary = &diary, .now_s = leaving->now_s, .today = leaving->today };
  CarpaceShared done;
  CarpaceTeamFault fault;

  carpace_team_plan_read (&diary, leaving->most_ms, &sharing.plan);
  shelf->lock (shelf->self, true);
  fault = carpace_share_now (&sharing, &done);
  if (fault != CARPACE_TEAM_FINE)
    leaving->told = carpace_text_team_fault (fault, done.what[0] != '\0' ? done.what : path);
  else
    carpace_share_note_day (shelf, leaving->today);
  carpace_notes_take (shelf, &shared, leaving->now_s, note_refused, NULL);
  shelf->lock (shelf->self, false);
  shared.free (shared.self);
  CARPACE_PORT_FREE (diary);
}

static void
leave (GTask *task, void *source, void *data, GCancellable *cancellable)
{
  Leaving *leaving = data;
  CarpaceFolder shelf = carpace_folder_own (NULL);
  g_autofree char *path = carpace_shelf_text (&shelf, CARPACE_SHELF_SHARE), *diary = carpace_store_path ();
  CarpaceDiaryStore *store = path != NULL && carpace_team_ready () ? carpace_store_open (diary, CARPACE_STORE_READING, not_read, leaving) : NULL;

  if (store != NULL)
    leave_in (leaving, &shelf, path, store);
  shelf.free (shelf.self);
  g_task_return_boolean (task, TRUE);
}

static void
left (GObject *source, GAsyncResult *result, void *user)
{
  Leaving *leaving = g_task_get_task_data (G_TASK (result));
  CarpaceProgram *p = leaving->program;

  p->sharing = false;
  show_note (p);
  if (leaving->told == NULL)
    return;
  p->shared_day = CARPACE_NO_DAY;
  p->share_again_ms = carpace_sum_ms (carpace_program_now (p).elapsed_ms, AGAIN_MS);
  carpace_program_say (leaving->told);
}

static void
free_leaving (gpointer data)
{
  Leaving *leaving = data;

  g_free (leaving->told);
  g_free (leaving);
}

void
carpace_program_share (CarpaceProgram *p, const CarpaceView *view)
{
  CarpaceInstant now = carpace_program_now (p);
  CarpaceDay today = view->plan != NULL ? carpace_day_of (now, view->plan->starts_at_min) : CARPACE_NO_DAY;
  CarpaceFolder shelf;
  Leaving *leaving;
  GTask *task;

  tell_note (p);
  if (today == CARPACE_NO_DAY || today == p->shared_day || p->sharing || view->on_air || carpace_state_in_block (view->state)
      || now.elapsed_ms < p->share_again_ms)
    return;
  p->shared_day = today;
  shelf = carpace_folder_own (NULL);
  if (carpace_share_due (&shelf, today))
    {
      leaving = g_new0 (Leaving, 1);
      *leaving = (Leaving) { p, now.wall_ms / 1000, view->plan->at_most_ms, today, NULL };
      p->sharing = true;
      task = g_task_new (NULL, NULL, left, NULL);
      g_task_set_task_data (task, leaving, free_leaving);
      g_task_run_in_thread (task, leave);
      g_object_unref (task);
    }
  else
    show_note (p);
  shelf.free (shelf.self);
}

/* ---- who gave the plan ---- */

static char *
find_giver (CarpaceProgram *p)
{
  CarpaceFolder shelf = carpace_folder_own (NULL);
  CarpaceDiary diary = carpace_store_diary (p->store);
  CarpaceGivenBefore before;
  const CarpaceHandOut *by = NULL;

  if (carpace_given_before_read (&shelf, &diary, p->plan->name, &before))
    by = carpace_given_before_by (&before, p->plan->version);
  shelf.free (shelf.self);
  return by != NULL ? carpace_text_given_by (by) : NULL;
}

/* Once for each plan that is opened: a status is asked for often. */
char *
carpace_program_giver (CarpaceProgram *p)
{
  if (p->store != NULL && p->plan != NULL && p->giver_of != p->plan)
    {
      g_free (p->giver);
      p->giver = find_giver (p);
      p->giver_of = p->plan;
    }
  return g_strdup (p->giver);
}
