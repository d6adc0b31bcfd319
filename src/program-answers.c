/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-answers.c: what players and programs say to the tray program, and what
 * it says of itself. */
#include "program-private.h"
#include "program.h"

#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "app/commands.h"
#include "forms/entries-json.h"
#include "text/face-text.h"
#include "text/on-air-text.h"
#include "text/text.h"
#include "ui/message-window.h"

/* ---- what the program says of itself ---- */

void
carpace_program_say (const char *message)
{
  g_printerr ("%s\n", message);
}

static gboolean
retry (gpointer user)
{
  CarpaceProgram *p = user;

  p->retry = 0;
  if (p->store != NULL && !carpace_store_retry (p->store))
    p->retry = g_timeout_add ((guint) carpace_store_retry_after_ms (++p->retries), retry, p);
  return G_SOURCE_REMOVE;
}

static gboolean
look_again (gpointer user)
{
  CarpaceProgram *p = user;

  p->looking = 0;
  if (p->ready)
    p->ports.faces.changed (p->ports.faces.self, carpace_loop_view (&p->loop));
  return G_SOURCE_REMOVE;
}

/* While the diary cannot be written it is tried again, ever less often; all faces say
 * so. Where all is well nothing wakes for it. */
static void
mind_diary (CarpaceProgram *p, CarpaceStoreTrouble trouble)
{
  if (trouble == CARPACE_STORE_DAMAGED_INSIDE)
    return;
  p->loop.unkept = trouble != CARPACE_STORE_KEPT_AGAIN;
  if (p->loop.unkept && p->retry == 0)
    p->retry = g_timeout_add ((guint) carpace_store_retry_after_ms (0), retry, p);
  if (!p->loop.unkept)
    g_clear_handle_id (&p->retry, g_source_remove);
  p->retries = 0;
  if (p->looking == 0)
    p->looking = g_idle_add (look_again, p); /* not in the middle of a step */
}

void
carpace_program_store_told (void *user, CarpaceStoreTrouble trouble, const char *message)
{
  CarpaceProgram *p = user;

  mind_diary (p, trouble);
  carpace_program_say (message);
  if (p->faces != NULL)
    carpace_message_show (CARPACE_MESSAGE_DIARY, message);
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

static void
notices_answerable (void *user, bool answerable)
{
  carpace_faces_notices_answer (((CarpaceProgram *) user)->faces, answerable);
}

/* ---- facts and answers ---- */

/* Cautions that are unanswered come before practice, each time: a start asks them, and another
 * one begins with them unanswered. On air nothing is asked: they wait for its end. Where today is
 * over, no second start begins either. */
static bool
asks_cautions_first (CarpaceProgram *p, const CarpaceEvent *event)
{
  const CarpaceView *view = carpace_loop_view (&p->loop);
  bool starts = event->kind == CARPACE_EVENT_START || event->kind == CARPACE_EVENT_START_MATCH;
  bool asks = starts && !carpace_state_in_block (view->state) && view->cue_on[CARPACE_CUE_CAUTION] && !view->caution_open
              && !view->day_behind && !view->on_air && !p->cautions_asked;

  if (starts || event->kind == CARPACE_EVENT_CAUTION)
    p->cautions_asked = asks;
  if (asks)
    carpace_faces_open (p->faces, CARPACE_CUE_CAUTION);
  return asks;
}

static bool
tell (CarpaceProgram *p, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  return asks_cautions_first (p, event) || carpace_loop_tell (&p->loop, event, ret_refusal);
}

static bool
tell_as_port (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  return tell (self, event, ret_refusal);
}

CarpaceTell
carpace_program_as_tell (CarpaceProgram *p)
{
  return (CarpaceTell){ p, tell_as_port };
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
key_armed (void *user, bool armed)
{
  carpace_faces_armed (((CarpaceProgram *) user)->faces, armed);
}

/* A card that asks one thing after another is armed anew for the next. */
static void
key_digit (void *user, int32_t digit)
{
  CarpaceProgram *p = user;

  if (carpace_faces_digit (p->faces, digit))
    carpace_keys_x11_arm (p->keys);
}

static void
key_put_away (void *user)
{
  carpace_faces_put_away (((CarpaceProgram *) user)->faces);
}

static void
chord_occupied (void *user)
{
  carpace_program_say (_("Bind a shortcut of the desktop to “carpace rate N”: another program has the keys of the "
                         "setting “chord”."));
}

void
carpace_program_refused (void *user, const CarpaceEvent *event, CarpaceRefusal refusal)
{
  CarpaceProgram *p = user;
  char *message = carpace_text_refusal (refusal, event->kind, carpace_session_state (&p->loop.session));

  carpace_message_show (CARPACE_MESSAGE_REFUSED, message);
  g_free (message);
}

CarpaceCueListener
carpace_program_notices (CarpaceProgram *p)
{
  return (CarpaceCueListener){ p, notice_answered, notice_opened, notices_trouble, notices_back, notices_answerable };
}

CarpaceKeysListener
carpace_program_keys (CarpaceProgram *p)
{
  return (CarpaceKeysListener){ p, key_armed, key_digit, key_put_away, chord_occupied };
}

/* ---- the bus ---- */

static char *
reply (CarpaceProgram *p, CarpaceMessage kind, char *message)
{
  return carpace_text_reply (kind, carpace_loop_view (&p->loop)->on_air, message);
}

/* What stands in for a message of that kind now; NULL where nothing does. */
static char *
said_on_air (CarpaceProgram *p, CarpaceMessage kind)
{
  return carpace_loop_view (&p->loop)->on_air ? g_strdup (carpace_text_on_air (kind, NULL)) : NULL;
}

static bool
has_focus (void)
{
  GList *windows = gtk_window_list_toplevels ();
  bool any = false;

  for (GList *at = windows; at != NULL; at = at->next)
    any |= gtk_window_is_active (at->data);
  g_list_free (windows);
  return any;
}

/* A start bound to a key is replied to where nobody looks. What a cue tells already is not told twice: on air
 * none tells of an open rating. */
static void
tell_not_started (CarpaceProgram *p, CarpaceEventKind kind, bool refused, const char *reply)
{
  const CarpaceView *view = carpace_loop_view (&p->loop);
  bool starts = kind == CARPACE_EVENT_START || kind == CARPACE_EVENT_START_MATCH;
  CarpaceNotice notice;

  if (!starts || reply == NULL || p->notices == NULL || has_focus () || !(refused || (view->on_air && view->rating.open)))
    return;
  carpace_text_not_started_notice (reply, view->on_air, &notice);
  carpace_cue_libnotify_show (p->notices, &notice);
  carpace_notice_clear (&notice);
}

static int
command_event (CarpaceProgram *p, int n_words, const char *const *words, char **ret_message)
{
  CarpaceEvent event;
  CarpaceWording wording;
  CarpaceRefusal refusal;
  CarpaceState state = carpace_session_state (&p->loop.session);

  if (!carpace_command_read (n_words, words, &event, &wording))
    {
      *ret_message = reply (p, CARPACE_MESSAGE_WORDING, carpace_text_wording (&wording, n_words, words, NULL));
      return CARPACE_PROGRAM_WORDS;
    }
  if (asks_cautions_first (p, &event))
    {
      *ret_message = reply (p, CARPACE_MESSAGE_REFUSED, g_strdup (carpace_text_cautions_first ()));
      return CARPACE_PROGRAM_REFUSED;
    }
  if (carpace_loop_tell (&p->loop, &event, &refusal))
    {
      const CarpaceView *view = carpace_loop_view (&p->loop);
      bool only_asked = (event.kind == CARPACE_EVENT_START || event.kind == CARPACE_EVENT_START_MATCH) && view->start_asks;

      *ret_message = reply (p, CARPACE_MESSAGE_TAKEN, carpace_text_taken (&event, view, carpace_program_now (p)));
      if (only_asked)
        tell_not_started (p, event.kind, false, *ret_message);
      return only_asked ? CARPACE_PROGRAM_REFUSED : CARPACE_PROGRAM_DONE; /* nothing has begun */
    }
  bool shown = event.kind == CARPACE_EVENT_START && refusal == CARPACE_REFUSAL_NO_PLAN && carpace_program_first (p);
  *ret_message = reply (p, CARPACE_MESSAGE_REFUSED, carpace_text_refusal (refusal, event.kind, state));
  if (!shown)
    tell_not_started (p, event.kind, true, *ret_message);
  return CARPACE_PROGRAM_REFUSED;
}

void
carpace_program_shortcut (CarpaceProgram *p, const char *words)
{
  char **each = g_strsplit (words, " ", -1), *message = NULL;

  carpace_program_be_ready (p);
  carpace_loop_awake (&p->loop);
  command_event (p, (int) g_strv_length (each), (const char *const *) each, &message);
  g_free (message);
  g_strfreev (each);
}

static gboolean
quit_soon (gpointer user)
{
  carpace_program_quit (user);
  return G_SOURCE_REMOVE;
}

/* Also who gave the plan, where that is signed. */
static char *
status_text (CarpaceProgram *p)
{
  char *text = carpace_text_status (carpace_loop_view (&p->loop), carpace_program_now (p));
  g_autofree char *giver = carpace_program_giver (p), *line = text;

  if (giver == NULL)
    return g_steal_pointer (&line);
  return g_strconcat (line, ". ", giver, NULL);
}

static int
command (void *user, int n_words, const char *const *words, char **ret_message)
{
  CarpaceProgram *p = user;

  carpace_program_be_ready (p);
  carpace_loop_awake (&p->loop);
  if (n_words == 1 && strcmp (words[0], "status") == 0)
    *ret_message = reply (p, CARPACE_MESSAGE_STATUS, status_text (p));
  else if (n_words == 1 && strcmp (words[0], "told-on-air") == 0)
    *ret_message = said_on_air (p, CARPACE_MESSAGE_WORDING);
  else if (n_words == 1 && strcmp (words[0], "settings") == 0)
    {
      if (carpace_program_show_settings (p))
        return CARPACE_PROGRAM_DONE;
      *ret_message = reply (p, CARPACE_MESSAGE_REFUSED, g_strdup (_("The settings are not shown on air.")));
      return CARPACE_PROGRAM_REFUSED;
    }
  else if (n_words >= 1 && strcmp (words[0], "window") == 0 && carpace_loop_view (&p->loop)->on_air)
    {
      *ret_message = reply (p, CARPACE_MESSAGE_REFUSED, g_strdup (""));
      return CARPACE_PROGRAM_REFUSED;
    }
  else if (n_words >= 1 && strcmp (words[0], "window") == 0)
    return carpace_program_window_command (p->window, n_words, words, ret_message);
  else if (n_words == 1 && strcmp (words[0], "quit") == 0)
    g_idle_add (quit_soon, p);
  else if (n_words == 6 && strcmp (words[0], "plan-kept") == 0)
    return carpace_program_plan_kept (p, n_words, words, ret_message) ? CARPACE_PROGRAM_DONE
           : *ret_message != NULL ? CARPACE_PROGRAM_REFUSED : CARPACE_PROGRAM_WORDS;
  else if (n_words == 1 && strcmp (words[0], "plan-changed") == 0)
    {
      *ret_message = reply (p, CARPACE_MESSAGE_PLAN, carpace_program_open_plan_in_use (p));
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
  carpace_loop_awake (&((CarpaceProgram *) user)->loop);
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

static void
bus_lost (void *user)
{
  carpace_faces_bus_gone (((CarpaceProgram *) user)->faces);
  carpace_program_say (_("The session bus is gone: commands, the tray's item and notifications wait for it; practice goes on."));
}

static gboolean
anew (gpointer user)
{
  CarpaceProgram *p = user;

  p->anew = 0;
  p->status = CARPACE_PROGRAM_ANEW;
  carpace_program_quit (p);
  return G_SOURCE_REMOVE;
}

/* Not in the middle of a step, nor while a hand is at work, whose run would be cut; and
 * what is in memory only would be lost. */
void
carpace_program_go_on_anew (CarpaceProgram *p)
{
  CarpaceState state = carpace_session_state (&p->loop.session);
  bool at_work = carpace_state_in_block (state) && state != CARPACE_STATE_PAUSED;

  if (p->bus_back && p->anew == 0 && !at_work && !p->loop.unkept)
    p->anew = g_idle_add (anew, p);
}

static void
bus_back (void *user)
{
  CarpaceProgram *p = user;

  p->bus_back = true;
  carpace_program_say (_("The session bus is there now: Carpace begins anew on it and goes on where it was, at the next pause."));
  carpace_program_go_on_anew (p);
}

CarpaceBusServed
carpace_program_bus (CarpaceProgram *p)
{
  return (CarpaceBusServed){ p, command, status, show, bus_lost, bus_back };
}
