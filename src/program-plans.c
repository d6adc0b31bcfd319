/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-plans.c: the plan in use, the day's own plan, and going on with what was
 * kept. */
#include "program-private.h"

#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "carpace/names.h"
#include "forms/plan-write.h"
#include "text/plan-flaws.h"
#include "ui/message-window.h"

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
  const CarpaceEvent ask = { .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_ASK } };

  if (p->first_run && carpace_session_state (&p->loop.session) != CARPACE_STATE_OFF)
    p->first_run = !carpace_loop_tell (&p->loop, &ask, NULL);
}

/* ---- the day's plan ---- */

static char *
day_plan_path (void)
{
  char *diary = carpace_store_path ();
  char *folder = g_path_get_dirname (diary);
  char *path = g_build_filename (folder, CARPACE_STORE_DAY_PLAN, NULL);

  g_free (folder);
  g_free (diary);
  return path;
}

/* From now on @plan is there to the end. @return it */
static CarpacePlan *
kept_to_the_end (CarpaceProgram *p, CarpacePlan *plan)
{
  if (p->plans_read == NULL)
    p->plans_read = g_ptr_array_new_with_free_func (g_free);
  if (plan != NULL)
    g_ptr_array_add (p->plans_read, plan);
  return plan;
}

/* Where older versions kept the day's plan. */
static CarpacePlan *
day_plan_beside (CarpaceProgram *p)
{
  char *path = day_plan_path ();
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  GString *faults = g_string_new (NULL);

  if (!g_file_test (path, G_FILE_TEST_IS_REGULAR) || !p->plans.load (p->plans.self, path, plan, say_fault, faults))
    g_clear_pointer (&plan, g_free);
  g_string_free (faults, TRUE);
  g_free (path);
  return kept_to_the_end (p, plan);
}

/* @return a plan that the diary kept as text, NULL where it kept none */
static CarpacePlan *
kept_plan (CarpaceProgram *p, const char *text)
{
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  if (text == NULL || !p->plans.load_text (p->plans.self, text, plan))
    g_clear_pointer (&plan, g_free);
  return kept_to_the_end (p, plan);
}

/* @return the plan of the day that is to be gone on with, NULL where none was kept */
static CarpacePlan *
day_plan (CarpaceProgram *p)
{
  return p->kept.of_day != NULL ? kept_plan (p, p->kept.of_day) : day_plan_beside (p);
}

/* As a file, with its blocks: nothing has to be split again. */
static char *
written_out (const CarpacePlan *plan)
{
  CarpacePlan *blocks = g_memdup2 (plan, sizeof *plan);
  char *text;

  blocks->split_into = 0;
  text = carpace_plan_write_file (blocks);
  g_free (blocks);
  return text;
}

/* The plan that a day was opened with stays the day's, whatever is put in use
 * meanwhile: the diary keeps it with the opening, for a restart. */
static void
next_day_has (CarpaceProgram *p, const CarpacePlan *plan)
{
  char *text;
  CarpacePlanRecord record;

  if (p->store == NULL || plan == NULL)
    return;
  text = written_out (plan);
  record = (CarpacePlanRecord) { .name = plan->name, .version = plan->version, .fixed = "", .text = text };
  carpace_store_set_day_plan (p->store, &record);
  g_free (text);
}

/* ---- what is held ---- */

/* Reads the diary's records of plans; from now on they are held. */
static void
hold (CarpaceProgram *p)
{
  CarpaceDiary diary;

  carpace_plans_kept_clear (&p->kept);
  if (p->store != NULL)
    {
      diary = carpace_store_diary (p->store);
      carpace_plans_kept_read (&diary, &p->plans, &p->kept);
    }
  p->plans.hold (p->plans.self, &p->kept.held);
}

static bool
keep_record (CarpaceProgram *p, CarpacePlanRecord record)
{
  CarpaceDiaryKeeper keeper;
  bool kept;

  if (p->store == NULL)
    return false;
  keeper = carpace_store_keeper (p->store);
  record.at = carpace_program_now (p);
  kept = keeper.keep_plan (keeper.self, &record) >= 0;
  hold (p);
  return kept;
}

static bool
keep_given (void *user, const CarpacePlan *plan, const CarpaceCeiling *held, const char *text)
{
  char fixed[CARPACE_CEILING_BYTES];

  return keep_record (user, carpace_plan_given_record (plan, held, text, fixed));
}

/* What was in use before there were records of plans is given as it is. */
static void
give_first (CarpaceProgram *p)
{
  CarpaceCeiling held = { .n_blocks = 0 };
  char *text;

  if (p->kept.held.n_given > 0 || p->plan == NULL)
    return;
  carpace_ceiling_add (&held, p->plan);
  text = written_out (p->plan);
  keep_given (p, p->plan, &held, text);
  g_free (text);
}

/* `plan-kept WHAT NAME VERSION FIXED TEXT`: a command took a plan, or released one. */
bool
carpace_program_plan_kept (CarpaceProgram *p, int n_words, const char *const *words, char **ret_message)
{
  CarpacePlanRecord record;
  CarpaceCeiling ceiling;
  int32_t what = n_words == 6 ? carpace_name_value (CARPACE_WORDS_PLAN_WHAT, words[1]) : -1;

  if (what != CARPACE_PLAN_GIVEN && what != CARPACE_PLAN_RELEASED)
    return false;
  record = (CarpacePlanRecord) { .what = (CarpacePlanWhat) what, .name = words[2], .version = atoi (words[3]),
                                 .fixed = words[4], .text = words[5] };
  if (carpace_ceiling_read (record.fixed, &ceiling) && keep_record (p, record))
    return true;
  *ret_message = g_strdup (_("The diary cannot be written now, so that nothing can be given or released; “carpace status” tells more."));
  return false;
}

/* ---- going on ---- */

static bool
same (const CarpacePlan *a, const CarpacePlan *b)
{
  char *text_a = written_out (a), *text_b = written_out (b);
  bool alike = strcmp (text_a, text_b) == 0;

  g_free (text_a);
  g_free (text_b);
  return alike;
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
        CarpaceEntry entry = carpace_view_cue (view, (CarpaceCue) i, carpace_program_now (p));

        carpace_faces_cue (p->faces, &entry, view);
      }
  faces.changed (faces.self, view);
}

/* Goes on with the day that was kept by the day's own plan, whatever became of the
 * plan in use; with neither, the day waits for one. */
static void
go_on (CarpaceProgram *p)
{
  CarpacePlan *of_day = p->resume.known ? day_plan (p) : NULL;

  if (of_day != NULL && p->plan != NULL && same (of_day, p->plan))
    {
      g_ptr_array_remove_fast (p->plans_read, of_day); /* a second one of 48 KiB, all day */
      of_day = NULL;
    }
  next_day_has (p, p->plan != NULL ? p->plan : of_day);
  p->waiting = !carpace_loop_go_on (&p->loop, of_day, p->plan, &p->resume);
  if (!p->waiting)
    carpace_store_resume_clear (&p->resume);
  p->other_day = carpace_session_day (&p->loop.session);
  p->other_kept_ms = MAX (carpace_loop_view (&p->loop)->other_today_ms, 0);
  show_again (p);
}

/* ---- the plan in use ---- */

static void
note_file_in_use (void *user, const CarpacePlanItem *item)
{
  GString *where = user;

  if (item->in_use && where->len == 0)
    g_string_printf (where, "%s:", item->path);
}

/* Reads the plan in use. @return NULL, *ret_why telling in which file what is wrong,
 * where there is none to be had; g_free() that */
static CarpacePlan *
read_plan_in_use (CarpaceProgram *p, char **ret_why)
{
  GString *faults = g_string_new (NULL);
  g_autoptr (GString) where = g_string_new (NULL);
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  if (!p->plans.load_in_use (p->plans.self, plan, say_fault, faults))
    g_clear_pointer (&plan, g_free);
  if (plan == NULL && faults->len > 0)
    {
      p->plans.list (p->plans.self, note_file_in_use, where);
      if (!g_ascii_isdigit (faults->str[0]))
        g_string_append_c (where, ' ');
      g_string_prepend (faults, where->str);
    }
  *ret_why = g_string_free (faults, plan != NULL || faults->len == 0);
  return kept_to_the_end (p, plan);
}

/* Reads the plan in use and hands it to the session: at once where it is the
 * first, else for the next practice day. A day that had to wait for a plan to go
 * on with is gone on with now.
 * @return NULL, or what is wrong with it; g_free() it */
char *
carpace_program_open_plan_in_use (CarpaceProgram *p)
{
  char *why;
  CarpacePlan *plan = read_plan_in_use (p, &why);

  if (plan == NULL)
    return why != NULL ? why : carpace_text_plan_file (CARPACE_PLAN_FILE_NONE_IN_USE, NULL, NULL, NULL);
  p->plan = plan; /* an earlier one stays: the day that is open was built on it */
  next_day_has (p, plan);
  if (p->waiting)
    go_on (p);
  else
    carpace_loop_open (&p->loop, plan);
  carpace_program_first_done (p);
  carpace_program_ask_cautions_first (p);
  carpace_program_window_changed (p->window);
  if (p->faces != NULL)
    carpace_faces_plans_changed (p->faces); /* who gave it is known by now */
  return NULL;
}

/* ---- splits: never worked out where the screen waits ---- */

typedef struct
{
  CarpaceProgram *p;
  char *word; /* NULL: the plan in use */
  void (*then) (CarpaceProgram *p, const char *word);
} Preparing;

static void
preparing_free (void *data)
{
  Preparing *preparing = data;

  g_free (preparing->word);
  g_free (preparing);
}

static void
prepare (GTask *task, void *source, void *data, GCancellable *cancellable)
{
  const Preparing *preparing = data;

  preparing->p->plans.prepare (preparing->p->plans.self, preparing->word);
  g_task_return_boolean (task, TRUE);
}

static void
prepared (GObject *source, GAsyncResult *result, void *user)
{
  const Preparing *preparing = g_task_get_task_data (G_TASK (result));

  preparing->then (preparing->p, preparing->word);
}

/* Does @then with a plan whose split is known: at once, or after a thread has
 * worked it out. */
static void
when_prepared (CarpaceProgram *p, const char *word, void (*then) (CarpaceProgram *p, const char *word))
{
  Preparing *preparing;
  GTask *task;

  if (!p->plans.unprepared (p->plans.self, word))
    {
      then (p, word);
      return;
    }
  preparing = g_new (Preparing, 1);
  *preparing = (Preparing){ p, g_strdup (word), then };
  task = g_task_new (NULL, NULL, prepared, NULL);
  g_task_set_task_data (task, preparing, preparing_free);
  g_task_run_in_thread (task, prepare);
  g_object_unref (task);
}

static void
use_plan (CarpaceProgram *p, const char *word)
{
  const CarpaceTaking taking = { .user = p, .keep = keep_given };
  GString *faults = g_string_new (NULL);
  char *message = NULL;

  if (!p->plans.use (p->plans.self, word, &taking, say_fault, faults))
    message = faults->len > 0 ? g_strdup (faults->str) : g_strdup (_("The diary cannot be written now, so that no other plan can be taken."));
  else
    message = carpace_program_open_plan_in_use (p);
  if (message != NULL)
    carpace_message_show (CARPACE_MESSAGE_PLAN, message);
  carpace_faces_plans_changed (p->faces);
  g_free (message);
  g_string_free (faults, TRUE);
}

bool
carpace_program_take_text (CarpaceProgram *p, const char *word, const char *text)
{
  const CarpaceTaking taking = { .user = p, .keep = keep_given };
  GString *faults = g_string_new (NULL);
  char *message = NULL;
  bool done;

  if (!p->plans.use_text (p->plans.self, word, text, &taking, say_fault, faults))
    message = faults->len > 0 ? g_strdup (faults->str) : g_strdup (_("The diary cannot be written now, so that no other plan can be taken."));
  else
    {
      p->first_run = false;
      message = carpace_program_open_plan_in_use (p);
    }
  done = message == NULL;
  if (!done)
    carpace_message_show (CARPACE_MESSAGE_PLAN, message);
  carpace_faces_plans_changed (p->faces);
  g_free (message);
  g_string_free (faults, TRUE);
  return done;
}

void
carpace_program_use_plan (void *user, const char *word)
{
  when_prepared (user, word, use_plan);
}

static void
go_on_from_kept (CarpaceProgram *p, const char *word)
{
  char *why;
  bool none;

  hold (p);
  p->plan = read_plan_in_use (p, &why);
  none = p->plan == NULL && why == NULL;
  if (why != NULL)
    {
      p->plan = kept_plan (p, p->kept.last);
      carpace_program_say (why);
      g_free (why);
    }
  else
    give_first (p);
  p->opening = false;
  go_on (p);
  carpace_program_ask_cautions_first (p);
  carpace_program_window_changed (p->window);
  if (none)
    carpace_program_first (p);
}

/* Goes on from what was kept. A plan in use that cannot be read, or that is looser
 * than what is held, leaves the one that was good last; without any plan, off. */
void
carpace_program_go_on (CarpaceProgram *p)
{
  when_prepared (p, NULL, go_on_from_kept);
}
