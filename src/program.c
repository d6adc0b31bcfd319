/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program.c: the tray program. Ports get their adapters, the loop gets its
 * ports; what happens afterwards is the loop's. */
#include "program.h"

#include <glib-unix.h>
#include <glib/gi18n.h>
#include <string.h>

#include "adapters/witness.h"
#include "program-private.h"
#include "ui/message-window.h"

#define SESSION_AFTER_MS 40 /* the tray item is registered by then, as a rule */

CarpaceInstant
carpace_program_now (CarpaceProgram *p)
{
  CarpaceClock clock = carpace_clock_linux_port (&p->clock);

  return clock.now (clock.self);
}

void
carpace_program_quit (void *program)
{
  g_main_loop_quit (((CarpaceProgram *) program)->main);
}

static gboolean
quit_by_signal (gpointer user)
{
  carpace_program_quit (user);
  return G_SOURCE_CONTINUE;
}

static void
due (void *user)
{
  carpace_loop_due (&((CarpaceProgram *) user)->loop);
}

static bool
take_bus (CarpaceProgram *p)
{
  CarpaceBusFound found;

  p->bus = carpace_bus_new (carpace_program_bus (p), &found);
  if (found == CARPACE_BUS_NONE)
    carpace_program_say (_("There is no session bus: commands will not reach the program; the tray and its cards work."));
  return found != CARPACE_BUS_TAKEN;
}

/* The last moment the program before is known to have lived: what the witness
 * saw, where that was in the same boot, else what the diary was told last. */
static void
ask_witness (CarpaceProgram *p, CarpaceResume *resume)
{
  char boot_id[CARPACE_WITNESS_BOOT_BYTES];
  int64_t boottime_ms, wall_ms;

  if (resume->ended_well || !carpace_witness_read (p->witness_path, boot_id, &boottime_ms, &wall_ms)
      || strcmp (boot_id, p->clock.base.boot_id) != 0)
    return;
  if (boottime_ms + p->clock.base.base_ms <= resume->alive.elapsed_ms)
    return;
  resume->alive.elapsed_ms = boottime_ms + p->clock.base.base_ms;
  resume->alive.wall_ms = wall_ms;
}

static void
set_clock (CarpaceProgram *p, const CarpaceResume *resume)
{
  CarpaceClockBase kept;

  if (p->store != NULL && resume->known
      && carpace_store_last_clock (p->store, &kept.base_ms, kept.boot_id, sizeof kept.boot_id))
    p->clock.base = carpace_clock_base_after (&kept, resume->alive);
  else
    p->clock.base = carpace_clock_base_after (NULL, (CarpaceInstant){ 0 });
}

/* Follows input by what the desktop has: X's idle counter, GNOME's idle
 * monitor, or nothing. */
static CarpaceActivity
follow_input (CarpaceProgram *p)
{
  CarpaceClock clock = carpace_clock_linux_port (&p->clock);
  CarpaceTell teller = carpace_loop_as_tell (&p->loop);
  GError *error = NULL;

  if (g_getenv ("WAYLAND_DISPLAY") == NULL)
    p->x11 = carpace_activity_x11_new (NULL, NULL, clock, teller, &error);
  if (p->x11 != NULL)
    return carpace_activity_x11_port (p->x11);
  g_clear_error (&error);
  p->mutter = carpace_activity_mutter_new (clock, teller, &error);
  if (p->mutter != NULL)
    return carpace_activity_mutter_port (p->mutter);
  g_clear_error (&error);
  carpace_program_say (_("This desktop does not tell of mouse input: practice counts from start to pause or end."));
  p->manual = carpace_activity_manual_new (NULL, clock, teller);
  return carpace_activity_manual_port (p->manual);
}

static void
take_keys (CarpaceProgram *p)
{
  CarpaceChord chord;
  GError *error = NULL;

  if (p->x11 == NULL)
    return;
  if (p->settings.chord != NULL && !carpace_chord_read (p->settings.chord, &chord))
    carpace_program_say (_("The chord of the settings is none; write it as Ctrl+Alt+R."));
  if ((p->settings.chord == NULL || !carpace_chord_read (p->settings.chord, &chord))
      && !carpace_chord_read (CARPACE_CHORD_DEFAULT, &chord))
    return;
  p->keys = carpace_keys_x11_new (NULL, NULL, &chord,
                                  carpace_program_keys (p), &error);
  if (error != NULL)
    carpace_program_say (error->message);
  g_clear_error (&error);
}

static CarpaceInstant
now_of_user (void *user)
{
  return carpace_program_now (user);
}

static void
follow_settings (CarpaceProgram *p)
{
  p->loop.no_other_input = !p->settings.other_input;
  if (p->settings.sound)
    p->sound = carpace_sound_new ();
  p->overlay = carpace_overlay_new (&p->settings, &p->loop.air, now_of_user, p, carpace_program_say);
}

static void
make_faces (CarpaceProgram *p, const char *icon_folder)
{
  const CarpaceCueLook look_of_notices = { "Carpace", "org.carpace.Carpace", "org.carpace.Carpace", _("Open") };
  const CarpaceFacesGiven given = carpace_program_faces_given (p, icon_folder);

  p->notices = carpace_cue_libnotify_new (&look_of_notices, NULL, carpace_program_notices (p));
  p->faces = carpace_faces_new (&given);
}

static bool
make_loop (CarpaceProgram *p, const CarpaceHistory *history)
{
  CarpaceLoopPorts ports = { .clock = carpace_clock_linux_port (&p->clock), .faces = carpace_program_faces_port (p) };
  GError *error = NULL;

  p->alarm = carpace_alarm_linux_new (&p->clock, NULL, due, p, &error);
  if (p->alarm == NULL)
    {
      carpace_program_say (error->message);
      g_error_free (error);
      return false;
    }
  ports.alarm = carpace_alarm_linux_port (p->alarm);
  ports.activity = follow_input (p);
  if (p->store != NULL)
    ports.store = carpace_store_port (p->store);
  carpace_loop_init (&p->loop, &ports, history);
  return true;
}

static void
open_store (CarpaceProgram *p, CarpaceResume *ret_resume)
{
  char *path = carpace_store_path ();

  memset (ret_resume, 0, sizeof *ret_resume);
  p->store = carpace_store_open (path, CARPACE_STORE_WRITING, carpace_program_store_told, p);
  if (p->store != NULL)
    carpace_store_resume (p->store, ret_resume);
  g_free (path);
}

static void
end (CarpaceProgram *p)
{
  carpace_suspend_logind_free (p->suspend);
  carpace_keys_x11_free (p->keys);
  carpace_activity_x11_free (p->x11);
  carpace_activity_mutter_free (p->mutter);
  carpace_activity_manual_free (p->manual);
  if (p->diary != NULL)
    carpace_diary_window_free (p->diary);
  if (p->faces != NULL)
    carpace_faces_free (p->faces);
  carpace_cue_libnotify_free (p->notices);
  carpace_alarm_linux_free (p->alarm);
  if (p->store != NULL)
    carpace_store_alive (p->store, carpace_program_now (p)); /* a stretch that is open ends here */
  carpace_store_close (p->store, true);
  carpace_bus_free (p->bus);
  if (p->witnessed)
    carpace_witness_goodbye ();
  carpace_message_close ();
  carpace_overlay_free (p->overlay);
  carpace_sound_free (p->sound);
  carpace_settings_clear (&p->settings);
  if (p->main != NULL)
    g_main_loop_unref (p->main);
  g_free (p->witness_path);
  g_free (p);
}

/* Before GTK starts its threads. */
static void
start_witness (CarpaceProgram *p)
{
  char *path = carpace_store_path ();
  char *folder = g_path_get_dirname (path);
  char boot_id[CARPACE_BOOT_ID_BYTES];

  p->witness_path = g_build_filename (folder, "last-seen", NULL);
  if (g_mkdir_with_parents (folder, 0700) == 0 && carpace_boot_id (boot_id))
    p->witnessed = carpace_witness_start (p->witness_path, boot_id);
  g_free (folder);
  g_free (path);
}

/* What takes time: the diary, the plan, the session. */
static bool
wake_session (CarpaceProgram *p)
{
  CarpaceResume resume;

  open_store (p, &resume);
  if (p->store != NULL)
    carpace_faces_set_diary (p->faces, carpace_store_diary (p->store));
  set_clock (p, &resume);
  ask_witness (p, &resume);
  carpace_witness_forget (p->witness_path);
  if (!make_loop (p, resume.known ? &resume.history : NULL))
    return false;
  if (p->store != NULL)
    carpace_store_start_run (p->store, p->clock.base.boot_id, p->clock.base.base_ms, carpace_program_now (p));
  follow_settings (p);
  take_keys (p);
  p->suspend = carpace_suspend_logind_new ("Carpace", _("Notes when practice stops"), carpace_loop_as_tell (&p->loop));
  carpace_program_go_on (p, &resume);
  p->first_run = !resume.known;
  p->other_day = p->loop.session.today.day;
  p->other_kept_ms = p->loop.session.today.other_ms;
  carpace_program_ask_cautions_first (p);
  if (p->store != NULL)
    {
      carpace_store_resume_clear (&resume);
      carpace_store_check_in_background (p->store);
    }
  return true;
}

/* Once, at the latest when somebody asks for something. */
void
carpace_program_be_ready (CarpaceProgram *p)
{
  if (p->ready)
    return;
  p->ready = true;
  g_clear_handle_id (&p->soon, g_source_remove);
  if (wake_session (p))
    return;
  p->status = CARPACE_PROGRAM_REFUSED;
  carpace_program_quit (p);
}

static gboolean
ready_now (gpointer user)
{
  CarpaceProgram *p = user;

  p->soon = 0;
  carpace_program_be_ready (p);
  return G_SOURCE_REMOVE;
}

int
carpace_program_run (int argc, char **argv, const CarpacePlanFiles *plans, const char *icon_folder)
{
  CarpaceProgram *p = g_new0 (CarpaceProgram, 1);
  int status;

  p->plans = *plans;
  p->status = CARPACE_PROGRAM_DONE;
  start_witness (p);
  /* GL is for games; a tray icon does not pay 56 MB and 45 ms for it. */
  g_setenv ("GDK_GL", "disable", FALSE);
  if (!gtk_init_check (&argc, &argv))
    {
      carpace_program_say (_("There is no display to show a tray on; `carpace rehearse PLAN` runs a plan in the terminal."));
      end (p);
      return CARPACE_PROGRAM_REFUSED;
    }
  p->main = g_main_loop_new (NULL, FALSE);
  if (!take_bus (p))
    {
      end (p);
      return CARPACE_PROGRAM_DONE;
    }
  carpace_settings_read (&p->settings, carpace_program_say);
  carpace_loop_init (&p->loop, &(CarpaceLoopPorts){ .clock = carpace_clock_linux_port (&p->clock) }, NULL);
  make_faces (p, icon_folder);
  /* The tray item is announced first: what takes time comes right after it. */
  p->soon = g_timeout_add (SESSION_AFTER_MS, ready_now, p);
  g_unix_signal_add (SIGTERM, quit_by_signal, p);
  g_unix_signal_add (SIGINT, quit_by_signal, p);
  g_main_loop_run (p->main);
  status = p->status;
  end (p);
  return status;
}
