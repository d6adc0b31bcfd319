/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-first.c: the first window, which plans it may propose, and what its answers
 * become; and an evening that is only shown. */
#include "program-private.h"

#include <string.h>

#include "adapters/x11.h"
#include "forms/plan-write.h"
#include "text/first-text.h"
#include "ui/evening.h"
#include "ui/first-window.h"
#include "ui/message-window.h"

struct CarpaceProgramFirst
{
  CarpaceProgram *p;
  CarpaceFirstWindow *window;
  CarpaceEvening *evening;
  GPtrArray *plans; /* those bundled, in the order of their words */
  GPtrArray *words;
};

/* ---- which plans ---- */

static void
tell_nobody (void *user, const CarpaceFileFault *fault)
{
}

static void
add_plan (void *user, const CarpacePlanItem *item)
{
  struct CarpaceProgramFirst *first = user;
  CarpacePlan *plan;

  if (!item->bundled)
    return;
  plan = g_new0 (CarpacePlan, 1);
  if (first->p->plans.load (first->p->plans.self, item->path, plan, tell_nobody, NULL))
    {
      g_ptr_array_add (first->plans, plan);
      g_ptr_array_add (first->words, g_strdup (item->word));
    }
  else
    g_free (plan);
}

/* ---- what its answers become ---- */

static bool
take (struct CarpaceProgramFirst *first, int32_t plan, const CarpacePlan *copy)
{
  char *text = carpace_plan_write_file (copy);
  bool done = carpace_program_take_text (first->p, plan >= 0 ? first->words->pdata[plan] : "plan", text);

  g_free (text);
  return done;
}

static void
answer_cautions (CarpaceProgram *p, uint32_t signs)
{
  const CarpaceEvent event = { .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_SIGNS, .signs = signs } };

  carpace_loop_tell (&p->loop, &event, NULL);
}

/* The window is gone, and nothing else on the screen says where Carpace is. */
static void
tell_where (CarpaceProgram *p)
{
  CarpaceNotice notice;

  carpace_text_first_begun (carpace_loop_view (&p->loop), &notice);
  carpace_faces_first_gone (p->faces, &notice);
  carpace_notice_clear (&notice);
}

static void
begin (void *self, int32_t plan, const CarpacePlan *copy)
{
  struct CarpaceProgramFirst *first = self;
  const CarpaceEvent start = { .kind = CARPACE_EVENT_START };
  CarpaceRefusal refusal;

  if (!take (first, plan, copy))
    return;
  answer_cautions (first->p, 0);
  carpace_first_window_hide (first->window);
  if (carpace_loop_tell (&first->p->loop, &start, &refusal))
    tell_where (first->p);
  else
    carpace_program_refused (first->p, &start, refusal);
}

/* The caution's own card says what to do. */
static void
caution (void *self, int32_t plan, const CarpacePlan *copy, uint32_t signs)
{
  struct CarpaceProgramFirst *first = self;

  if (plan < 0 || !take (first, plan, copy))
    return;
  answer_cautions (first->p, signs);
  carpace_first_window_hide (first->window);
  carpace_faces_first_gone (first->p->faces, NULL);
}

/* ---- an evening that is only shown ---- */

static void
evening_ended (void *user)
{
  struct CarpaceProgramFirst *first = user;

  g_clear_pointer (&first->evening, carpace_evening_free);
  if (carpace_session_state (&first->p->loop.session) == CARPACE_STATE_OFF)
    carpace_first_window_show (first->window);
}

static void
show_evening (void *self, const CarpacePlan *copy)
{
  struct CarpaceProgramFirst *first = self;

  if (first->evening != NULL)
    return;
  carpace_first_window_hide (first->window); /* its cards have the screen */
  first->evening = carpace_evening_new (copy, carpace_program_now (first->p), evening_ended, first);
}

/* ---- the window ---- */

static void
make (CarpaceProgram *p)
{
  struct CarpaceProgramFirst *first = p->first = g_new0 (struct CarpaceProgramFirst, 1);
  CarpaceFirstGiven given = { .clock = p->ports.clock, .self = first, .begin = begin, .caution = caution, .show_evening = show_evening };

  first->p = p;
  first->plans = g_ptr_array_new_with_free_func (g_free);
  first->words = g_ptr_array_new_with_free_func (g_free);
  p->plans.list (p->plans.self, add_plan, first);
  given.plans = (const CarpacePlan *const *) first->plans->pdata;
  given.n_plans = (int32_t) first->plans->len;
  given.side = carpace_x11_is_left_handed () ? CARPACE_SIDE_LEFT : CARPACE_SIDE_RIGHT;
  first->window = carpace_first_window_new (&given);
}

bool
carpace_program_first (void *program)
{
  CarpaceProgram *p = program;

  carpace_program_be_ready (p);
  if (p->opening || carpace_session_state (&p->loop.session) != CARPACE_STATE_OFF)
    return false;
  if (p->first == NULL)
    make (p);
  if (p->first->evening == NULL)
    carpace_first_window_show (p->first->window);
  return true;
}

void
carpace_program_first_done (CarpaceProgram *p)
{
  if (p->first != NULL)
    carpace_first_window_hide (p->first->window);
}

void
carpace_program_first_free (CarpaceProgram *p)
{
  struct CarpaceProgramFirst *first = g_steal_pointer (&p->first);

  if (first == NULL)
    return;
  carpace_evening_free (first->evening);
  carpace_first_window_free (first->window);
  g_ptr_array_unref (first->plans);
  g_ptr_array_unref (first->words);
  g_free (first);
}
