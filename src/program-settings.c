/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-settings.c: the settings at work: read, watched, changed by the window. */
#include "program-places.h"
#include "program-private.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <string.h>

#include "adapters/autostart-xdg.h"
#include "adapters/x11.h"
#include "text/overlay-text.h"
#include "text/settings-text.h"
#include "ui/card.h"
#include "ui/settings-window.h"
#include "ui/window-place.h"

struct CarpaceProgramSettings
{
  CarpaceProgram *p;
  CarpaceSettingsWindow *window; /* NULL until it is asked for */
  GFileMonitor *monitor;
};

/* ---- at work ---- */

/* What the player chose, else the usual keys; NULL where there can be none. */
static const char *
chord_of (const CarpaceProgram *p)
{
  CarpaceChord chord;

  if (!carpace_x11_is_session ())
    return NULL;
  return p->settings.chord != NULL && carpace_chord_read (p->settings.chord, &chord) ? p->settings.chord : CARPACE_CHORD_DEFAULT;
}

static void
set_up_cards (const CarpaceProgram *p)
{
  carpace_card_setup (&(CarpaceCardSetup){
    .corner = (CarpaceCorner) carpace_setting_word (&p->settings, CARPACE_SETTING_CARDS_CORNER),
    .other_monitor = carpace_setting_word (&p->settings, CARPACE_SETTING_CARDS_MONITOR) == CARPACE_MONITOR_OTHER,
    .chord = chord_of (p) });
}

static void
take_keys (CarpaceProgram *p)
{
  const char *words = chord_of (p);
  CarpaceChord chord;
  GError *error = NULL;

  if (words == NULL)
    return;
  if (p->settings.chord != NULL && !carpace_chord_read (p->settings.chord, &chord))
    {
      char *fault = carpace_text_setting_fault (CARPACE_SETTING_CHORD, p->settings.chord);

      carpace_program_say (fault);
      g_free (fault);
    }
  if (!carpace_chord_read (words, &chord))
    return;
  if (p->keys != NULL)
    {
      carpace_keys_x11_set_chord (p->keys, &chord);
      return;
    }
  p->keys = carpace_keys_x11_new (NULL, NULL, &chord, carpace_program_keys (p), &error);
  if (error != NULL)
    carpace_program_say (error->message);
  g_clear_error (&error);
  if (p->keys != NULL)
    carpace_keys_x11_ask (p->keys, p->keys_wanted);
}

static CarpaceInstant
now_of_user (void *user)
{
  return carpace_program_now (user);
}

static const CarpaceView *
view_of_user (void *user)
{
  return carpace_loop_view (&((CarpaceProgram *) user)->loop);
}

/* What is written now is what holds already: read anew, it moves nothing. */
static void
overlay_moved (void *user, const char *place)
{
  CarpaceProgram *p = user;
  char *fault = carpace_settings_write (CARPACE_SETTING_OVERLAY_PLACE, place);

  if (fault != NULL)
    carpace_program_say (fault);
  g_free (fault);
  g_free (p->settings.overlay_place);
  p->settings.overlay_place = g_strdup (place);
}

static void
make_overlay (CarpaceProgram *p)
{
  const CarpaceOverlayGiven given = { p, view_of_user, now_of_user, carpace_program_say, overlay_moved };

  carpace_overlay_free (p->overlay);
  p->overlay = carpace_overlay_new (&p->settings, &given);
  carpace_overlay_changed (p->overlay);
}

static void
hear_sound (CarpaceProgram *p)
{
  if (p->settings.sound && p->sound.play == NULL)
    p->sound = carpace_program_sound ();
  else if (!p->settings.sound)
    {
      CARPACE_PORT_FREE (p->sound);
      p->sound = (CarpaceSound) { 0 };
    }
}

/* Where it runs from; in a sandbox that path means nothing outside. */
static void
follow_autostart (const CarpaceProgram *p)
{
  bool sandboxed = carpace_autostart_is_sandboxed ();
  char *path = sandboxed ? g_strdup ("carpace") : g_file_read_link ("/proc/self/exe", NULL);
  const CarpaceAutostart autostart = { path, sandboxed, carpace_program_say };

  if (path != NULL)
    carpace_autostart_set (&autostart, p->settings.autostart);
  g_free (path);
}

static bool
is_the_same (const CarpaceSettings *a, const CarpaceSettings *b, CarpaceSettingId id)
{
  if (carpace_setting_rows[id].kind == CARPACE_SETTING_FLAG)
    return carpace_setting_flag (a, id) == carpace_setting_flag (b, id);
  return g_strcmp0 (carpace_setting_text (a, id), carpace_setting_text (b, id)) == 0;
}

/* What changed is done anew; an overlay that is shown is not taken away for nothing. */
static void
read_anew (struct CarpaceProgramSettings *s)
{
  CarpaceProgram *p = s->p;
  CarpaceSettings before = p->settings;
  bool overlay = false;

  carpace_settings_read (&p->settings, carpace_program_say);
  for (int id = CARPACE_SETTING_OVERLAY_WINDOW; id <= CARPACE_SETTING_OVERLAY_LINE; id++)
    overlay |= id != CARPACE_SETTING_OVERLAY_PLACE && !is_the_same (&before, &p->settings, (CarpaceSettingId) id);
  if (p->ready)
    {
      p->loop.no_other_input = !p->settings.other_input;
      if (!is_the_same (&before, &p->settings, CARPACE_SETTING_CLICKS))
        carpace_program_follow_clicks (p);
      hear_sound (p);
      if (!is_the_same (&before, &p->settings, CARPACE_SETTING_AUTOSTART))
        follow_autostart (p);
      if (!is_the_same (&before, &p->settings, CARPACE_SETTING_CHORD))
        take_keys (p);
      if (!is_the_same (&before, &p->settings, CARPACE_SETTING_DESKTOP_KEYS))
        carpace_program_keys_follow (p, true);
      set_up_cards (p);
      if (!is_the_same (&before, &p->settings, CARPACE_SETTING_PRACTICE_WINDOWS))
        carpace_program_window_changed (p->window);
      if (overlay)
        make_overlay (p);
      else if (!is_the_same (&before, &p->settings, CARPACE_SETTING_OVERLAY_PLACE))
        carpace_overlay_put (p->overlay, p->settings.overlay_place);
    }
  carpace_settings_clear (&before);
  if (s->window != NULL)
    carpace_settings_window_changed (s->window);
}

void
carpace_program_settings_changed (CarpaceProgram *p)
{
  if (p->followed != NULL)
    read_anew (p->followed);
}

static void
file_changed (GFileMonitor *monitor, GFile *file, GFile *other, GFileMonitorEvent event, gpointer user)
{
  if (event == G_FILE_MONITOR_EVENT_CHANGES_DONE_HINT || event == G_FILE_MONITOR_EVENT_DELETED
      || event == G_FILE_MONITOR_EVENT_RENAMED || event == G_FILE_MONITOR_EVENT_MOVED_IN)
    read_anew (user);
}

static void
watch (struct CarpaceProgramSettings *s)
{
  char *path = carpace_settings_path ();
  GFile *file = g_file_new_for_path (path);

  s->monitor = g_file_monitor_file (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (s->monitor != NULL)
    g_signal_connect (s->monitor, "changed", G_CALLBACK (file_changed), s);
  g_object_unref (file);
  g_free (path);
}

void
carpace_program_follow_settings (CarpaceProgram *p)
{
  struct CarpaceProgramSettings *s = p->followed = g_new0 (struct CarpaceProgramSettings, 1);

  s->p = p;
  follow_autostart (p);
  p->loop.no_other_input = !p->settings.other_input;
  carpace_program_follow_clicks (p);
  hear_sound (p);
  make_overlay (p);
  take_keys (p);
  carpace_program_keys_follow (p, false);
  set_up_cards (p);
  watch (s);
}

/* ---- changed by the window ---- */

static bool
is_folder (const char *text)
{
  return g_path_is_absolute (text) && g_file_test (text, G_FILE_TEST_IS_DIR);
}

static bool
is_plain_name (const char *text)
{
  return strchr (text, '/') == NULL && strcmp (text, ".") != 0 && strcmp (text, "..") != 0;
}

static char *
fault_of (CarpaceSettingId id, const char *text)
{
  CarpaceChord chord;
  CarpaceWindowPlace place;
  GdkRGBA colour;
  bool fine = true;

  if (text == NULL)
    return NULL;
  if (id == CARPACE_SETTING_OVERLAY_LINE)
    return carpace_text_overlay_fault (text);
  if (id == CARPACE_SETTING_CHORD)
    fine = carpace_chord_read (text, &chord);
  else if (id == CARPACE_SETTING_OVERLAY_PLACE)
    fine = carpace_window_place_read (text, &place);
  else if (id == CARPACE_SETTING_OVERLAY_COLOUR)
    fine = gdk_rgba_parse (&colour, text);
  else if (id == CARPACE_SETTING_OVERLAY_FOLDER)
    fine = is_folder (text);
  else if (id == CARPACE_SETTING_OVERLAY_FILE)
    fine = is_plain_name (text);
  return fine ? NULL : carpace_text_setting_fault (id, text);
}

static char *
set (void *self, CarpaceSettingId id, const char *text)
{
  char *fault = fault_of (id, text);

  if (fault == NULL)
    fault = carpace_settings_write (id, text);
  if (fault == NULL)
    read_anew (self);
  return fault;
}

void
carpace_program_settings_unset (CarpaceProgram *p, CarpaceSettingId id)
{
  char *fault = carpace_settings_write (id, "false");

  if (fault != NULL)
    carpace_program_say (fault);
  g_free (fault);
  read_anew (p->followed);
}

static const CarpaceSettings *
look (void *self)
{
  return &((struct CarpaceProgramSettings *) self)->p->settings;
}

/* A file may say what no window would take, and another program what starts with the session. */
static char *
wrong (void *self, CarpaceSettingId id)
{
  const CarpaceSettings *settings = look (self);

  if (id == CARPACE_SETTING_AUTOSTART)
    return carpace_autostart_fault (settings->autostart);
  return carpace_setting_rows[id].kind == CARPACE_SETTING_FLAG ? NULL : fault_of (id, carpace_setting_text (settings, id));
}

/* Heard whether it is on or not: that is what is tried. */
static void
try_sound (void *self)
{
  CarpaceProgram *p = ((struct CarpaceProgramSettings *) self)->p;

  if (p->sound.play == NULL)
    p->sound = carpace_program_sound ();
  if (p->sound.play != NULL)
    p->sound.play (p->sound.self, false);
}

/* A process of its own, as the planner: the tray pays for none of it. */
static void
open_sharing (void *self)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  char *argv[] = { program != NULL ? program : (char[]) { "carpace" }, (char[]) { "share" }, (char[]) { "window" }, NULL };
  g_autoptr (GError) error = NULL;

  if (!g_spawn_async (NULL, argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, &error))
    carpace_program_say (error->message);
}

bool
carpace_program_show_settings (CarpaceProgram *p)
{
  struct CarpaceProgramSettings *s = p->followed;
  CarpaceSettingsGiven given = { s, look, set, wrong, try_sound, open_sharing };

  if (s == NULL || carpace_loop_view (&p->loop)->on_air)
    return false;
  if (s->window == NULL)
    s->window = carpace_settings_window_new (&given);
  carpace_settings_window_show (s->window);
  return true;
}

void
carpace_program_settings_on_air (CarpaceProgram *p)
{
  if (p->followed != NULL && p->followed->window != NULL)
    carpace_settings_window_hide (p->followed->window);
}

void
carpace_program_settings_free (CarpaceProgram *p)
{
  struct CarpaceProgramSettings *s = g_steal_pointer (&p->followed);

  if (s == NULL)
    return;
  carpace_settings_window_free (s->window);
  g_clear_object (&s->monitor);
  g_free (s);
}
