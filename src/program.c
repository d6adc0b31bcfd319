/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program.c: the tray program. Ports get their adapters, the loop gets its
 * ports; what happens afterwards is the loop's. */
#include "program.h"

#include <glib-unix.h>
#include <glib/gi18n.h>
#include <signal.h>
#include <string.h>
#include <sys/signalfd.h>
#include <unistd.h>

#include "adapters/witness.h"
#include "adapters/x11.h"
#include "program-activity.h"
#include "program-places.h"
#include "program-private.h"
#include "ui/card-place.h"
#include "ui/display-lost.h"
#include "ui/message-window.h"

#define SESSION_AFTER_MS 40 /* the tray item is registered by then, as a rule */

CarpaceInstant
carpace_program_now (CarpaceProgram *p)
{
  return p->ports.clock.now (p->ports.clock.self);
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

/* What is open is closed in the diary; a new process goes on from there, if a compositor comes. */
static void
compositor_lost (void *user)
{
  CarpaceProgram *p = user;

  carpace_program_say (_("The compositor is gone: Carpace goes on where it was once there is one again."));
  p->status = CARPACE_PROGRAM_ANEW_LATER;
  carpace_program_quit (p);
}

static gboolean
quit_by_limit (gint fd, GIOCondition condition, gpointer user)
{
  carpace_program_quit (user);
  return G_SOURCE_REMOVE; /* once is enough; the signal stays where it is */
}

static bool
is_ignored (int signal)
{
  struct sigaction now;

  return sigaction (signal, NULL, &now) == 0 && now.sa_handler == SIG_IGN;
}

/* Ended by whatever is meant to end it: what is open is closed in the diary first. A
 * signal that it was started without, by nohup, stays ignored. */
static void
end_by_signals (CarpaceProgram *p)
{
  static const int ending[] = { SIGTERM, SIGINT, SIGHUP };

  for (size_t i = 0; i < G_N_ELEMENTS (ending); i++)
    if (!is_ignored (ending[i]))
      g_unix_signal_add (ending[i], quit_by_signal, p);
  if (p->limit_fd >= 0)
    g_unix_fd_add (p->limit_fd, G_IO_IN, quit_by_limit, p);
}

/* Before GTK starts its threads: a file that may not grow any more comes as a read,
 * here and in none of them. What is printed to a pipe that nobody reads ends nothing. */
static void
hold_signals (CarpaceProgram *p)
{
  sigset_t limit;

  signal (SIGPIPE, SIG_IGN);
  sigemptyset (&limit);
  sigaddset (&limit, SIGXFSZ);
  p->limit_fd = pthread_sigmask (SIG_BLOCK, &limit, NULL) == 0 ? signalfd (-1, &limit, SFD_CLOEXEC | SFD_NONBLOCK) : -1;
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
    carpace_program_say (_("There is no session bus: until there is one, commands do not reach the program; its windows and cards work."));
  return found != CARPACE_BUS_TAKEN;
}

/* The last moment the program before is known to have lived: what the witness
 * saw, where that was in the same boot, else what the diary was told last. */
static void
ask_witness (CarpaceProgram *p)
{
  CarpaceResume *resume = &p->resume;
  char boot_id[CARPACE_WITNESS_BOOT_BYTES];
  int64_t boottime_ms, wall_ms;

  if (resume->ended_well || !carpace_witness_read (p->witness_path, boot_id, &boottime_ms, &wall_ms)
      || strcmp (boot_id, p->clock.base.boot_id) != 0)
    return;
  if (carpace_sum_ms (boottime_ms, p->clock.base.base_ms) <= resume->alive.elapsed_ms)
    return;
  resume->alive.elapsed_ms = carpace_sum_ms (boottime_ms, p->clock.base.base_ms);
  resume->alive.wall_ms = wall_ms;
}

static void
set_clock (CarpaceProgram *p)
{
  CarpaceClockBase kept;

  if (p->store != NULL && p->resume.known
      && carpace_store_last_clock (p->store, &kept.base_ms, kept.boot_id, sizeof kept.boot_id))
    p->clock.base = carpace_clock_base_after (&kept, p->resume.alive);
  else
    p->clock.base = carpace_clock_base_after (NULL, (CarpaceInstant){ 0 });
}

static void
follow_input (CarpaceProgram *p)
{
  CarpaceInputSource beside;
  CarpaceInputSource source = carpace_program_follow_input (p->ports.clock, carpace_loop_as_tell (&p->loop),
                                                            &p->ports.activity, &beside);

  if (source.sight == CARPACE_SIGHT_NONE)
    carpace_program_say (_("This desktop does not report mouse input: practice counts from start to pause or end."));
  else if (source.sight == CARPACE_SIGHT_UNLESS_AWAKE && beside.word != NULL)
    carpace_program_say (_("While a game that runs without X keeps the screen awake, this desktop does not report when the hand is "
                           "still: practice counts from start to pause or end then."));
  else if (source.sight == CARPACE_SIGHT_UNLESS_AWAKE)
    carpace_program_say (_("While a game keeps the screen awake, this desktop does not report when the hand is still: "
                           "practice counts from start to pause or end then."));
}

static void
tray_held (void *program, bool held)
{
  carpace_faces_tray_held (((CarpaceProgram *) program)->faces, held);
}

static void
make_faces (CarpaceProgram *p, const char *icon_folder)
{
  const CarpaceCueLook look_of_notices = { "Carpace", "org.carpace.Carpace", "org.carpace.Carpace", _("Open") };
  const CarpaceFacesGiven given = carpace_program_faces_given (p, icon_folder);

  p->notices = carpace_cue_libnotify_new (&look_of_notices, NULL, carpace_program_notices (p));
  p->tray_hosts = carpace_tray_gdbus_new ((CarpaceTrayListener){ p, tray_held }); /* before the item, which may be asked at once */
  p->faces = carpace_faces_new (&given);
}

static bool
make_loop (CarpaceProgram *p, const CarpaceHistory *history)
{
  GError *error = NULL;

  p->ports.faces = carpace_program_faces_port (p);
  if (!carpace_alarm_linux_open (&p->clock, NULL, due, p, &p->ports.alarm, &error))
    {
      carpace_program_say (error->message);
      g_error_free (error);
      return false;
    }
  follow_input (p);
  carpace_loop_init (&p->loop, &p->ports, history);
  return true;
}

static void
open_store (CarpaceProgram *p)
{
  char *path = carpace_store_path ();

  p->store = carpace_store_open (path, CARPACE_STORE_KEEPING, carpace_program_store_told, p);
  if (p->store != NULL)
    {
      p->ports.store = carpace_store_port (p->store);
      carpace_store_resume (p->store, &p->resume);
    }
  g_free (path);
}

static void
end (CarpaceProgram *p)
{
  carpace_suspend_logind_free (p->suspend);
  carpace_program_window_free (p->window);
  carpace_program_settings_free (p);
  carpace_program_keys_end (p);
  carpace_keys_x11_free (p->keys);
  CARPACE_PORT_FREE (p->ports.activity);
  CARPACE_PORT_FREE (p->loop.ports.clicks);
  if (p->diary != NULL)
    carpace_diary_window_free (p->diary);
  carpace_program_first_free (p);
  carpace_tray_gdbus_free (p->tray_hosts);
  if (p->faces != NULL)
    carpace_faces_free (p->faces);
  carpace_program_note_free (p);
  carpace_cue_libnotify_free (p->notices);
  CARPACE_PORT_FREE (p->ports.alarm);
  if (p->store != NULL)
    carpace_store_alive (p->store, carpace_program_now (p)); /* a stretch that is open ends here */
  CARPACE_PORT_FREE (p->ports.store);
  carpace_store_resume_clear (&p->resume);
  carpace_plans_kept_clear (&p->kept);
  carpace_bus_free (p->bus);
  if (p->witnessed)
    carpace_witness_goodbye ();
  carpace_message_close ();
  carpace_overlay_free (p->overlay);
  CARPACE_PORT_FREE (p->sound);
  carpace_settings_clear (&p->settings);
  if (p->main != NULL)
    g_main_loop_unref (p->main);
  if (p->limit_fd >= 0)
    close (p->limit_fd);
  g_clear_handle_id (&p->retry, g_source_remove);
  g_clear_handle_id (&p->looking, g_source_remove);
  g_clear_handle_id (&p->anew, g_source_remove);
  g_free (p->witness_path);
  g_clear_pointer (&p->plans_read, g_ptr_array_unref);
  g_clear_pointer (&p->giver, g_free);
  g_free (p);
}

/* Before GTK starts its threads. */
static void
start_witness (CarpaceProgram *p)
{
  char *path = carpace_store_path ();
  char *folder = g_path_get_dirname (path);
  char boot_id[CARPACE_BOOT_ID_BYTES];

  p->witness_path = g_build_filename (folder, CARPACE_STORE_LAST_SEEN, NULL);
  if (g_mkdir_with_parents (folder, 0700) == 0 && carpace_boot_id (boot_id))
    p->witnessed = carpace_witness_start (p->witness_path, boot_id);
  g_free (folder);
  g_free (path);
}

/* What takes time: the diary, the plan, the session. */
static bool
wake_session (CarpaceProgram *p)
{
  open_store (p);
  if (p->store != NULL)
    carpace_faces_set_diary (p->faces, carpace_store_diary (p->store));
  set_clock (p);
  ask_witness (p);
  carpace_witness_forget (p->witness_path);
  p->witnessed = p->witnessed && carpace_witness_settle ();
  if (!make_loop (p, p->resume.known ? &p->resume.history : NULL))
    return false;
  p->loop.unkept = p->retry != 0;
  if (p->store != NULL)
    carpace_store_start_run (p->store, p->clock.base.boot_id, p->clock.base.base_ms, carpace_program_now (p));
  carpace_program_follow_settings (p);
  p->window = carpace_program_window_new (p);
  p->suspend = carpace_suspend_logind_new ("Carpace", _("Notes when practice stops"), carpace_loop_as_tell (&p->loop));
  p->first_run = !p->resume.known || p->resume.n_events == 0; /* it ran without a plan, and asked in vain */
  p->opening = true;
  carpace_program_go_on (p);
  if (p->store != NULL)
    carpace_store_check_in_background (p->store);
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
  p->ports.clock = carpace_clock_linux_port (&p->clock);
  p->status = CARPACE_PROGRAM_DONE;
  start_witness (p);
  hold_signals (p);
  /* GL is for games; a tray icon does not pay 56 MB and 45 ms for it. */
  g_setenv ("GDK_GL", "disable", FALSE);
  carpace_bus_begin ();
  if (!gtk_init_check (&argc, &argv))
    {
      carpace_program_say (_("There is no display to show a tray on; “carpace rehearse PLAN” runs a plan in the terminal."));
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
  carpace_loop_init (&p->loop, &p->ports, NULL);
  carpace_place_find_layers (carpace_program_layers);
  make_faces (p, icon_folder);
  /* The tray item is announced first: what takes time comes right after it. */
  p->soon = g_timeout_add (SESSION_AFTER_MS, ready_now, p);
  end_by_signals (p);
  carpace_display_on_lost (compositor_lost, p);
  g_main_loop_run (p->main);
  status = p->status;
  end (p);
  return status;
}
