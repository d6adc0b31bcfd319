/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program-overlay.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "adapters/overlay-file.h"
#include "text/overlay-text.h"
#include "ui/overlay-window.h"

struct CarpaceOverlay
{
  const CarpaceOnAir *air;
  CarpaceInstant (*now) (void *user);
  void *user;
  void (*told) (const char *message);
  char *line;                   /* the pattern */
  CarpaceOverlayFile *file;     /* NULL: none is asked for, or it failed */
  CarpaceOverlayWindow *window; /* NULL: none is asked for */
  guint timer;
};

static CarpaceOverlayMoment
moment_of (const CarpaceOverlay *o, CarpaceInstant now)
{
  CarpaceIntermission next = carpace_on_air_at (o->air, now);
  CarpaceOverlayMoment moment = { .any = next.phase != CARPACE_INTERMISSION_NONE };

  if (!moment.any)
    return moment;
  moment.counting = next.phase == CARPACE_INTERMISSION_NOTICE || next.phase == CARPACE_INTERMISSION_NOW;
  moment.running = next.phase == CARPACE_INTERMISSION_NOW;
  moment.to_go_ms = next.to_go_ms;
  moment.begins = carpace_instant_after (now, next.begins_ms - now.elapsed_ms);
  moment.ends = carpace_instant_after (now, next.ends_ms - now.elapsed_ms);
  return moment;
}

static void
show_in_file (CarpaceOverlay *o, const CarpaceOverlayMoment *moment)
{
  char *text;

  if (o->file == NULL)
    return;
  text = carpace_text_overlay (o->line, moment);
  if (carpace_overlay_file_show (o->file, text) != CARPACE_OVERLAY_FINE)
    {
      o->told (_("The overlay's file cannot be written any more; it stays as it is until Carpace is started again."));
      g_clear_pointer (&o->file, carpace_overlay_file_free);
    }
  g_free (text);
}

static void
show_in_window (CarpaceOverlay *o, const CarpaceOverlayMoment *moment)
{
  char *text;

  if (o->window == NULL)
    return;
  text = carpace_text_overlay_to_go (moment);
  carpace_overlay_window_set_line (o->window, text);
  if (o->air->on && !carpace_overlay_window_is_shown (o->window))
    carpace_overlay_window_show (o->window);
  else if (!o->air->on)
    carpace_overlay_window_hide (o->window);
  g_free (text);
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
  CarpaceOverlayMoment moment;
  int64_t stays_ms;

  if (o == NULL)
    return;
  moment = moment_of (o, o->now (o->user));
  show_in_file (o, &moment);
  show_in_window (o, &moment);
  if (o->timer != 0)
    g_source_remove (o->timer);
  o->timer = 0;
  stays_ms = carpace_text_overlay_stays_ms (o->window != NULL ? "{to-go}" : o->line, &moment);
  if (stays_ms < G_MAXUINT)
    o->timer = g_timeout_add ((guint) stays_ms + 1, look_again, o);
}

static void
open_file (CarpaceOverlay *o, const CarpaceSettings *settings)
{
  CarpaceOverlayFault fault;
  char *wrong = carpace_text_overlay_fault (settings->overlay_line);

  if (wrong != NULL)
    o->told (wrong);
  g_free (wrong);
  o->file = carpace_overlay_file_new (settings->overlay_folder, settings->overlay_file, &fault);
  if (o->file == NULL)
    o->told (fault == CARPACE_OVERLAY_NO_FOLDER
               ? _("The overlay's folder is not there, or is a link; make it, or set overlay-folder anew.")
               : _("The overlay's file must be a plain name in its folder; set overlay-file anew."));
}

CarpaceOverlay *
carpace_overlay_new (const CarpaceSettings *settings, const CarpaceOnAir *air, CarpaceInstant (*now) (void *user),
                     void *user, void (*told) (const char *message))
{
  CarpaceOverlay *o;

  if (settings->overlay_folder == NULL && !settings->overlay_window)
    return NULL;
  o = g_new0 (CarpaceOverlay, 1);
  o->air = air;
  o->now = now;
  o->user = user;
  o->told = told;
  o->line = g_strdup (settings->overlay_line);
  if (settings->overlay_folder != NULL)
    open_file (o, settings);
  if (settings->overlay_window)
    o->window = carpace_overlay_window_new ();
  if (o->window != NULL && settings->overlay_colour != NULL
      && !carpace_overlay_window_set_colour (o->window, settings->overlay_colour))
    told (_("overlay-colour is no colour; write it as #00b140 or by its name."));
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
