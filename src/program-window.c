/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-window.c: the practice window. Nothing is asked of the desktop while none is chosen. */
#include "program-window.h"

#include <glib.h>
#include <string.h>

#include "carpace/practice-window.h"
#include "program-front.h"
#include "program-private.h"
#include "text/window-text.h"
#include "ui/message-window.h"

typedef enum { UNKNOWN, AWAY, IN_FRONT } Where;

struct CarpaceProgramWindow
{
  CarpaceProgram *p;
  CarpaceFront front;
  bool open;      /* `front` is there */
  bool said_none; /* that no window can be told from another */
  bool choosing;
  guint soon;     /* a source: what holds is looked at, never within a call of the port */
  bool at_first;  /* what is told first is what was in front before */
  Where where;
};

static const char *
list_of (const CarpaceProgramWindow *w)
{
  return carpace_setting_text (&w->p->settings, CARPACE_SETTING_PRACTICE_WINDOWS);
}

static bool
has_any (const CarpaceProgramWindow *w)
{
  CarpaceListedWindow window;
  const char *at = NULL;

  return carpace_windows_next (list_of (w), &at, &window);
}

/* ---- what the session is told ---- */

static void
tell_kind (CarpaceProgramWindow *w, CarpaceEventKind kind)
{
  const CarpaceEvent event = { .kind = kind };

  carpace_loop_tell (&w->p->loop, &event, NULL);
}

static void
tell (CarpaceProgramWindow *w)
{
  if (carpace_session_state (&w->p->loop.session) == CARPACE_STATE_OFF || w->where == UNKNOWN)
    return;
  if (w->where == AWAY)
    tell_kind (w, CARPACE_EVENT_AWAY);
  else
    tell_kind (w, w->p->settings.window_starts ? CARPACE_EVENT_FRONT_STARTS : CARPACE_EVENT_FRONT);
}

static void
be_anywhere (CarpaceProgramWindow *w)
{
  w->where = UNKNOWN;
  if (carpace_session_history (&w->p->loop.session)->away)
    tell_kind (w, CARPACE_EVENT_ANYWHERE);
}

/* ---- windows ---- */

static bool
is_own (const CarpaceWindow *window)
{
  return g_ascii_strcasecmp (window->name, "carpace") == 0 || strcmp (window->name, "org.carpace.Carpace") == 0;
}

static bool
write_list (const char *list)
{
  g_autofree char *fault = carpace_settings_write (CARPACE_SETTING_PRACTICE_WINDOWS, list);

  if (fault != NULL)
    carpace_message_show (CARPACE_MESSAGE_REFUSED, fault);
  return fault == NULL;
}

static char *
line_of (const CarpaceListedWindow *window)
{
  return window->program[0] != '\0' ? g_strdup_printf ("%s/%s", window->name, window->program) : g_strdup (window->name);
}

/* One that was just chosen is new: it comes to the front by that. */
static void
add (CarpaceProgramWindow *w, const CarpaceListedWindow *window)
{
  g_autofree char *line = line_of (window);
  g_autofree char *list = has_any (w) ? g_strdup_printf ("%s; %s", list_of (w), line) : g_strdup (line);

  if (!write_list (list))
    return;
  tell_kind (w, CARPACE_EVENT_AWAY);
  carpace_program_settings_changed (w->p);
}

static void
picked (void *user, const CarpaceWindow *window)
{
  CarpaceProgramWindow *w = user;
  CarpaceListedWindow listed;
  bool any = window != NULL && carpace_window_listed (window, &listed), own = any && is_own (window);
  g_autofree char *said = carpace_text_window_picked (any ? &listed : NULL, own);

  w->choosing = false;
  if (any && !own && !carpace_windows_have (list_of (w), window))
    add (w, &listed);
  carpace_message_show (CARPACE_MESSAGE_TAKEN, said);
  carpace_program_window_changed (w); /* one that was chosen is followed; where none is, nothing is */
}

static void
front (void *user, const CarpaceWindow *window)
{
  CarpaceProgramWindow *w = user;
  bool was_first = w->at_first;

  w->at_first = false;
  if (w->choosing && w->front.pick == NULL && !was_first && window != NULL && !is_own (window))
    {
      picked (w, window);
      return;
    }
  if (!has_any (w))
    return;
  Where where = window != NULL && carpace_windows_have (list_of (w), window) ? IN_FRONT : AWAY;
  if (where == w->where)
    return;
  w->where = where;
  tell (w);
}

/* ---- the source ---- */

static void
leave (CarpaceProgramWindow *w)
{
  if (w->open)
    CARPACE_PORT_FREE (w->front);
  w->open = false;
}

static bool
enter (CarpaceProgramWindow *w)
{
  const CarpaceWindowListener listener = { w, front, picked };

  w->at_first = true;
  w->open = carpace_program_open_front (listener, &w->front) != CARPACE_WINDOWS_NONE;
  return w->open;
}

/* What is in front is told anew by a source that is opened anew: by its first word. */
static gboolean
look (gpointer user)
{
  CarpaceProgramWindow *w = user;

  w->soon = 0;
  if (w->choosing)
    return G_SOURCE_REMOVE;
  leave (w);
  if (!has_any (w))
    be_anywhere (w);
  else if (enter (w))
    w->where = UNKNOWN;
  else
    {
      be_anywhere (w);
      if (!w->said_none)
        carpace_program_say (carpace_text_no_windows ());
      w->said_none = true;
    }
  return G_SOURCE_REMOVE;
}

void
carpace_program_window_changed (CarpaceProgramWindow *w)
{
  if (w != NULL && w->soon == 0)
    w->soon = g_idle_add (look, w);
}

CarpaceProgramWindow *
carpace_program_window_new (CarpaceProgram *p)
{
  CarpaceProgramWindow *w = g_new0 (CarpaceProgramWindow, 1);

  w->p = p;
  carpace_program_window_changed (w);
  return w;
}

void
carpace_program_window_free (CarpaceProgramWindow *w)
{
  if (w == NULL)
    return;
  g_clear_handle_id (&w->soon, g_source_remove);
  leave (w);
  g_free (w);
}

/* ---- the player ---- */

/* @return what to do now, or that it cannot be done */
static const char *
begin_to_pick (CarpaceProgramWindow *w, bool *ret_begun)
{
  *ret_begun = w->choosing || w->open || enter (w);
  if (!*ret_begun)
    return carpace_text_no_windows ();
  if (!w->choosing && w->front.pick != NULL)
    w->front.pick (w->front.self);
  w->choosing = true;
  return carpace_text_window_pick (w->front.pick != NULL);
}

/* Where the next window that comes to the front is the one, none of this program's may come between. */
void
carpace_program_window_pick (CarpaceProgramWindow *w)
{
  bool begun;
  const char *how = begin_to_pick (w, &begun);
  const CarpaceNotice notice = { .cue = CARPACE_CUE_UNSTARTED, .title = (char *) how, .body = (char *) "" };

  if (begun && w->front.pick == NULL && w->p->notices != NULL)
    carpace_cue_libnotify_show (w->p->notices, &notice);
  else
    carpace_message_show (CARPACE_MESSAGE_TAKEN, how);
}

static int
forget (CarpaceProgramWindow *w, const char *name)
{
  GString *kept = g_string_new (NULL);
  CarpaceListedWindow window;
  const char *at = NULL;
  int n = 0;

  while (carpace_windows_next (list_of (w), &at, &window))
    {
      g_autofree char *line = line_of (&window);
      bool goes = name == NULL || strcmp (name, window.name) == 0 || strcmp (name, line) == 0;

      n += goes;
      if (!goes)
        g_string_append_printf (kept, "%s%s", kept->len > 0 ? "; " : "", line);
    }
  if (n > 0 && write_list (kept->len > 0 ? kept->str : NULL))
    carpace_program_settings_changed (w->p);
  g_string_free (kept, TRUE);
  return n;
}

int
carpace_program_window_command (CarpaceProgramWindow *w, int n_words, const char *const *words, char **ret_message)
{
  const char *what = n_words > 1 ? words[1] : "";
  bool begun = true;

  if (strcmp (what, "pick") == 0 && n_words == 2)
    *ret_message = g_strdup (begin_to_pick (w, &begun));
  else if (strcmp (what, "list") == 0 && n_words == 2)
    *ret_message = carpace_text_windows (list_of (w));
  else if (strcmp (what, "forget") == 0 && n_words <= 3)
    {
      const char *name = n_words == 3 ? words[2] : NULL;
      int n = forget (w, name);

      *ret_message = carpace_text_window_forgotten (name, n);
      begun = n > 0;
    }
  else
    return CARPACE_PROGRAM_WORDS;
  return begun ? CARPACE_PROGRAM_DONE : CARPACE_PROGRAM_REFUSED;
}
