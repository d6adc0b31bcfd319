/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program-overlay.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "adapters/overlay-file.h"
#include "text/overlay-text.h"
#include "ui/overlay-window.h"

struct CarpaceOverlay
{
  CarpaceOverlayGiven given;
  char *line;                   /* the pattern */
  CarpaceOverlayFile *file;     /* NULL: none is asked for, or it failed */
  CarpaceOverlayWindow *window; /* NULL: none is asked for */
  bool was_on_air;
  guint timer;
};

static void
show_in_file (CarpaceOverlay *o, const char *text)
{
  if (o->file == NULL || carpace_overlay_file_show (o->file, text) == CARPACE_OVERLAY_FINE)
    return;
  o->given.told (_("The overlay's file cannot be written any more; it stays as it is until Carpace is started again."));
  g_clear_pointer (&o->file, carpace_overlay_file_free);
}

/* It says what the file says. Put away by the streamer it stays away until the next stream. */
static void
show_in_window (CarpaceOverlay *o, const char *text, bool on_air)
{
  if (o->window == NULL)
    return;
  carpace_overlay_window_set_line (o->window, text);
  if (on_air && !o->was_on_air)
    carpace_overlay_window_show (o->window);
  else if (!on_air)
    carpace_overlay_window_hide (o->window);
  o->was_on_air = on_air;
}

static gboolean
look_again (gpointer user)
{
  CarpaceOverlay *o = user;

  o->timer = 0;
  carpace_overlay_changed (o);
  return G_SOURCE_REMOVE;
}

void
carpace_overlay_changed (CarpaceOverlay *o)
{
  const CarpaceView *view;
  CarpaceOverlayMoment moment;
  int64_t stays_ms;
  char *text;

  if (o == NULL)
    return;
  view = o->given.look (o->given.self);
  moment = carpace_text_overlay_moment (view, o->given.now (o->given.self));
  text = carpace_text_overlay (o->line, &moment);
  show_in_file (o, text);
  show_in_window (o, text, view->on_air);
  g_free (text);
  g_clear_handle_id (&o->timer, g_source_remove);
  stays_ms = carpace_text_overlay_stays_ms (o->line, &moment);
  if (stays_ms < G_MAXUINT)
    o->timer = g_timeout_add ((guint) stays_ms + 1, look_again, o);
}

static void
open_file (CarpaceOverlay *o, const CarpaceSettings *settings)
{
  CarpaceOverlayFault fault;

  o->file = carpace_overlay_file_new (settings->overlay_folder, settings->overlay_file, &fault);
  if (o->file == NULL)
    o->given.told (fault == CARPACE_OVERLAY_NO_FOLDER
               ? _("The overlay's folder is not there, or is a link; make it, or set overlay-folder anew.")
               : _("The overlay's file must be a plain name in its folder; set overlay-file anew."));
}

static void
tell_fault_of_line (const CarpaceOverlay *o)
{
  char *wrong = carpace_text_overlay_fault (o->line);

  if (wrong != NULL)
    o->given.told (wrong);
  g_free (wrong);
}

static void
window_moved (void *user, const CarpaceWindowPlace *place)
{
  CarpaceOverlay *o = user;
  char *text = carpace_window_place_text (place);

  o->given.moved (o->given.self, text);
  g_free (text);
}

void
carpace_overlay_put (CarpaceOverlay *o, const char *place)
{
  CarpaceWindowPlace where;

  if (o == NULL || o->window == NULL || place == NULL)
    return;
  if (carpace_window_place_read (place, &where))
    carpace_overlay_window_set_place (o->window, &where);
  else
    o->given.told (_("overlay-place is no place of a window; write it as 480x96+40+60."));
}

static void
make_window (CarpaceOverlay *o, const CarpaceSettings *settings)
{
  o->window = carpace_overlay_window_new ();
  if (settings->overlay_colour != NULL && !carpace_overlay_window_set_colour (o->window, settings->overlay_colour))
    o->given.told (_("overlay-colour is no colour; write it as #00b140 or by its name."));
  carpace_overlay_put (o, settings->overlay_place);
  carpace_overlay_window_on_moved (o->window, window_moved, o);
}

CarpaceOverlay *
carpace_overlay_new (const CarpaceSettings *settings, const CarpaceOverlayGiven *given)
{
  CarpaceOverlay *o;

  if (settings->overlay_folder == NULL && !settings->overlay_window)
    return NULL;
  o = g_new0 (CarpaceOverlay, 1);
  o->given = *given;
  o->line = g_strdup (settings->overlay_line);
  tell_fault_of_line (o);
  if (settings->overlay_folder != NULL)
    open_file (o, settings);
  if (settings->overlay_window)
    make_window (o, settings);
  return o;
}

void
carpace_overlay_free (CarpaceOverlay *o)
{
  if (o == NULL)
    return;
  if (o->timer != 0)
    g_source_remove (o->timer);
  carpace_overlay_file_free (o->file);
  if (o->window != NULL)
    carpace_overlay_window_free (o->window);
  g_free (o->line);
  g_free (o);
}
