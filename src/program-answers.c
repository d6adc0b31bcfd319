/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-answers.c: what players and programs say to the tray program, and what
 * it says of itself. */
#include "program-private.h"

#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "app/commands.h"
#include "text/entries.h"
#include "text/plan-write.h"
#include "text/text.h"
#include "ui/message-window.h"

/* ---- what the program says of itself ---- */

void
carpace_program_say (const char *message)
{
  g_printerr ("%s\n", message);
}

void
carpace_program_store_told (void *user, CarpaceStoreTrouble trouble, const char *message)
{
  CarpaceProgram *p = user;

  carpace_program_say (message);
  if (p->faces != NULL && !carpace_loop_view (&p->loop)->on_air)
    carpace_message_show (message);
}

static void
notices_trouble (void *user, CarpaceCueTrouble trouble)
{
  CarpaceProgram *p = user;

  carpace_faces_notices_work (p->faces, false);
  carpace_program_say (trouble == CARPACE_CUE_NO_SERVER
         ? _("Nothing on this desktop shows notifications: Carpace shows its cards itself.")
         : _("The desktop's notifications do not answer: Carpace shows its cards itself until they do."));
}

/* The server answers: cards need not stand in for it any more. */
static void
notices_back (void *user)
{
  carpace_faces_notices_work (((CarpaceProgram *) user)->faces, true);
}

/* ---- facts and answers ---- */

static bool
tell (CarpaceProgram *p, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  return carpace_loop_tell (&p->loop, event, ret_refusal);
}

static void
notice_answered (void *user, CarpaceCue cue, CarpaceEventKind answer)
{
  const CarpaceEvent event = { .kind = answer };

  tell (user, &event, NULL);
}

static void
notice_opened (void *user, CarpaceCue cue)
{
  carpace_faces_open (((CarpaceProgram *) user)->faces, cue);
}

static void
key_rated (void *user, int32_t discomfort)
{
  const CarpaceEvent event = { .kind = CARPACE_EVENT_RATE, .discomfort = discomfort };

  tell (user, &event, NULL);
}

static void
key_armed (void *user, bool armed)
{
  carpace_faces_rating_armed (((CarpaceProgram *) user)->faces, armed);
}

static void
chord_occupied (void *user)
{
  carpace_program_say (_("Another program has the keys Ctrl+Alt+R: bind a shortcut of the desktop to `carpace rate N` instead."));
}

void
carpace_program_refused (void *user, const CarpaceEvent *event, CarpaceRefusal refusal)
{
  CarpaceProgram *p = user;
  char *message = carpace_text_refusal (refusal, event->kind, carpace_session_state (&p->loop.session));

  carpace_message_show (message);
  g_free (message);
}

CarpaceCueListener
carpace_program_notices (CarpaceProgram *p)
{
  return (CarpaceCueListener){ p, notice_answered, notice_opened, notices_trouble, notices_back };
}

CarpaceKeysListener
carpace_program_keys (CarpaceProgram *p)
{
  return (CarpaceKeysListener){ p, key_armed, key_rated, chord_occupied };
}

/* ---- plans ---- */

static void
say_fault (void *user, const CarpaceFileFault *fault)
{
  GString *told = user;

  if (fault->warning)
    return;
  if (told->len > 0)
    g_string_append (told, "; ");
  if (fault->line > 0)
    g_string_append_printf (told, "%d:%d: ", fault->line, fault->column);
  g_string_append (told, fault->message);
}

/* The first thing that a new player reads. */
void
carpace_program_ask_cautions_first (CarpaceProgram *p)
{
  const CarpaceEvent ask = { .kind = CARPACE_EVENT_CAUTION, .caution = CARPACE_CAUTION_ASK };

  if (p->first_run && carpace_session_state (&p->loop.session) != CARPACE_STATE_OFF)
    p->first_run = !tell (p, &ask, NULL);
}

/* Reads the plan in use and hands it to the session: at once where it is the
 * first, else for the next practice day.
 * @return NULL, or what is wrong with it; g_free() it */
static char *
open_plan_in_use (CarpaceProgram *p)
{
  GString *faults = g_string_new (NULL);
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  if (p->plans.load_in_use (p->plans.self, plan, say_fault, faults))
    {
      p->plan = plan; /* an earlier one stays: the day that is open was built on it */
      carpace_loop_open (&p->loop, plan);
      carpace_program_ask_cautions_first (p);
      g_string_free (faults, TRUE);
      return NULL;
    }
  g_free (plan);
  if (faults->len == 0)
    g_string_append (faults, _("no block plan is in use; choose one with `carpace plan use NAME`"));
  return g_string_free (faults, FALSE);
}

void
carpace_program_use_plan (void *user, const char *word)
{
  CarpaceProgram *p = user;
  GString *faults = g_string_new (NULL);
  char *message = NULL;

  if (!p->plans.use (p->plans.self, word, say_fault, faults))
    message = g_strdup (faults->str);
  else
    message = open_plan_in_use (p);
  if (message != NULL)
    carpace_message_show (message);
  carpace_faces_plans_changed (p->faces);
  g_free (message);
  g_string_free (faults, TRUE);
}

/* ---- the bus ---- */

static int
command_event (CarpaceProgram *p, int n_words, const char *const *words, char **ret_message)
{
  CarpaceEvent event;
  CarpaceWording wording;
  CarpaceRefusal refusal;
  CarpaceState state = carpace_session_state (&p->loop.session);

  if (!carpace_command_read (n_words, words, &event, &wording))
    {
      *ret_message = carpace_text_wording (&wording, n_words, words, NULL);
      return CARPACE_PROGRAM_WORDS;
    }
  if (tell (p, &event, &refusal))
    {
      *ret_message = carpace_text_taken (&event, carpace_loop_view (&p->loop), carpace_program_now (p));
      return CARPACE_PROGRAM_DONE;
    }
  *ret_message = carpace_text_refusal (refusal, event.kind, state);
  return CARPACE_PROGRAM_REFUSED;
}

static gboolean
quit_soon (gpointer user)
{
  carpace_program_quit (user);
  return G_SOURCE_REMOVE;
}

static int
command (void *user, int n_words, const char *const *words, char **ret_message)
{
  CarpaceProgram *p = user;

  carpace_program_be_ready (p);
  if (n_words == 1 && strcmp (words[0], "status") == 0)
    *ret_message = carpace_text_status (carpace_loop_view (&p->loop), carpace_program_now (p));
  else if (n_words == 1 && strcmp (words[0], "quit") == 0)
    g_idle_add (quit_soon, p);
  else if (n_words == 1 && strcmp (words[0], "plan-changed") == 0)
    {
      *ret_message = open_plan_in_use (p);
      carpace_faces_plans_changed (p->faces);
      return *ret_message == NULL ? CARPACE_PROGRAM_DONE : CARPACE_PROGRAM_REFUSED;
    }
  else
    return command_event (p, n_words, words, ret_message);
  return CARPACE_PROGRAM_DONE;
}

static char *
status (void *user)
{
  carpace_program_be_ready (user);
  return carpace_view_json (carpace_loop_view (&((CarpaceProgram *) user)->loop));
}

static void
show (void *user)
{
  CarpaceProgram *p = user;

  if (p->faces == NULL)
    return;
  carpace_program_be_ready (p);
  carpace_faces_present (p->faces);
}

CarpaceBusServed
carpace_program_bus (CarpaceProgram *p)
{
  return (CarpaceBusServed){ p, command, status, show };
}

/* ---- going on ---- */

static char *
day_plan_path (void)
{
  char *diary = carpace_store_path ();
  char *folder = g_path_get_dirname (diary);
  char *path = g_build_filename (folder, "day.plan.yaml", NULL);

  g_free (folder);
  g_free (diary);
  return path;
}

/* The plan that a day was opened with stays the day's, whatever is put in use
 * meanwhile: it is kept beside the diary for a restart. */
void
carpace_program_keep_day_plan (CarpaceProgram *p, const CarpaceView *view)
{
  char *path, *text;

  if (p->store == NULL || view->plan == NULL || !view->day_open || view->day == p->plan_kept_for)
    return;
  p->plan_kept_for = view->day;
  path = day_plan_path ();
  text = carpace_plan_write_file (view->plan);
  g_file_set_contents_full (path, text, -1, G_FILE_SET_CONTENTS_CONSISTENT, 0600, NULL);
  g_free (text);
  g_free (path);
}

/* @return the plan of the day that is to be gone on with, NULL where none was kept */
static CarpacePlan *
day_plan (CarpaceProgram *p)
{
  char *path = day_plan_path ();
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  GString *faults = g_string_new (NULL);

  if (!g_file_test (path, G_FILE_TEST_IS_REGULAR) || !p->plans.load (p->plans.self, path, plan, say_fault, faults))
    g_clear_pointer (&plan, g_free);
  g_string_free (faults, TRUE);
  g_free (path);
  return plan;
}

static bool
differ (const CarpacePlan *a, const CarpacePlan *b)
{
  char *text_a = carpace_plan_write_file (a), *text_b = carpace_plan_write_file (b);
  bool different = strcmp (text_a, text_b) != 0;

  g_free (text_a);
  g_free (text_b);
  return different;
}

static void
resume_day (CarpaceProgram *p, const CarpaceResume *resume)
{
  CarpacePlan *of_day = day_plan (p);

  carpace_loop_resume (&p->loop, of_day != NULL ? of_day : p->plan, resume);
  if (of_day != NULL && differ (of_day, p->plan))
    carpace_loop_open (&p->loop, p->plan);
}

/* What was on the screen before comes back, on air or not. */
static void
show_again (CarpaceProgram *p)
{
  const CarpaceView *view = carpace_loop_view (&p->loop);
  CarpaceFaces faces = carpace_program_faces_port (p);

  for (int i = 0; i < CARPACE_N_CUES; i++)
    if (view->cue_on[i])
      {
        CarpaceEntry entry = { .at = carpace_program_now (p), .kind = CARPACE_ENTRY_CUE };
        entry.cue.cue = (CarpaceCue) i;
        entry.cue.what = i == CARPACE_CUE_NEXT_BLOCK && view->start_asks ? CARPACE_CUE_ASKED : CARPACE_CUE_SHOWN;
        entry.cue.exercise = view->rest.exercise;
        entry.cue.between_drills = view->rest.between_drills;
        carpace_faces_cue (p->faces, &entry, view);
      }
  faces.changed (faces.self, view);
}

/* Goes on from what was kept, with the plan in use; without one, off. */
void
carpace_program_go_on (CarpaceProgram *p, const CarpaceResume *resume)
{
  GString *faults = g_string_new (NULL);
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  if (p->plans.load_in_use (p->plans.self, plan, say_fault, faults))
    {
      p->plan = plan;
      if (resume->known)
        resume_day (p, resume);
      else
        carpace_loop_open (&p->loop, plan);
    }
  else
    {
      if (faults->len > 0)
        carpace_program_say (faults->str);
      g_free (plan);
    }
  show_again (p);
  g_string_free (faults, TRUE);
}
