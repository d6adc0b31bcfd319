/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program.c: the tray program. Ports get their adapters, the loop gets its
 * ports; what happens afterwards is the loop's. */
#include "program.h"

#include <glib-unix.h>
#include <glib/gi18n.h>
#include <gtk/gtk.h>
#include <stdlib.h>
#include <string.h>

#include "adapters/activity-manual.h"
#include "adapters/activity-mutter.h"
#include "adapters/activity-x11.h"
#include "adapters/bus-gdbus.h"
#include "adapters/clock-linux.h"
#include "adapters/cue-libnotify.h"
#include "adapters/keys-x11.h"
#include "adapters/settings-keyfile.h"
#include "adapters/sound.h"
#include "adapters/store-sqlite.h"
#include "adapters/suspend-logind.h"
#include "adapters/witness.h"
#include "app/commands.h"
#include "app/loop.h"
#include "program-overlay.h"
#include "text/entries.h"
#include "text/text.h"
#include "ui/diary-window.h"
#include "ui/faces.h"
#include "ui/message-window.h"

#define SESSION_AFTER_MS 40 /* the tray item is registered by then, as a rule */
#define ALIVE_EVERY_MS (50 * CARPACE_SECOND_MS)
#define EXIT_DONE 0
#define EXIT_REFUSED 1
#define EXIT_WORDS 2

typedef struct
{
  GMainLoop *main;
  CarpacePlanFiles plans;
  CarpacePlan *plan;              /* in use, as last read */
  bool ready;                     /* the session runs */
  guint soon;                     /* a source, until it does */
  int status;                     /* to exit with */
  bool first_run;                 /* nothing has been kept yet: the cautions come first */
  CarpaceClockLinux clock;
  CarpaceAlarmLinux *alarm;
  CarpaceActivityX11 *x11;
  CarpaceActivityMutter *mutter;
  CarpaceActivityManual *manual;
  CarpaceCueLibnotify *notices;
  CarpaceKeysX11 *keys;
  CarpaceSuspendLogind *suspend;
  CarpaceDiaryStore *store;
  CarpaceBus *bus;
  CarpaceGtkFaces *faces;
  CarpaceDiaryWindow *diary;      /* NULL until it is asked for */
  CarpaceSettings settings;
  CarpaceSound *sound;            /* NULL: none is asked for */
  CarpaceOverlay *overlay;        /* NULL: none is asked for */
  CarpaceLoop loop;
  CarpaceDay other_day;           /* the day that other_kept_ms is of */
  int64_t other_kept_ms;          /* mouse input outside practice that the diary has */
  int64_t alive_ms;               /* when the diary was last told that the program lives */
  bool witnessed;
  char *witness_path;
} Program;

static CarpaceInstant
now_of (Program *p)
{
  CarpaceClock clock = carpace_clock_linux_port (&p->clock);

  return clock.now (clock.self);
}

static void be_ready (Program *p);

/* ---- what the program says of itself ---- */

static void
say (const char *message)
{
  g_printerr ("%s\n", message);
}

static void
store_told (void *user, CarpaceStoreTrouble trouble, const char *message)
{
  Program *p = user;

  say (message);
  if (p->faces != NULL && !carpace_loop_view (&p->loop)->on_air)
    carpace_message_show (message);
}

static void
notices_trouble (void *user, CarpaceCueTrouble trouble)
{
  Program *p = user;

  carpace_faces_notices_work (p->faces, false);
  say (trouble == CARPACE_CUE_NO_SERVER
         ? _("Nothing on this desktop shows notifications: Carpace shows its cards itself.")
         : _("The desktop's notifications do not answer: Carpace shows its cards itself until they do."));
}

/* The server answers: cards need not stand in for it any more. */
static void
notices_back (void *user)
{
  carpace_faces_notices_work (((Program *) user)->faces, true);
}

/* ---- facts and answers ---- */

static bool
tell (Program *p, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
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
  carpace_faces_open (((Program *) user)->faces, cue);
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
  carpace_faces_rating_armed (((Program *) user)->faces, armed);
}

static void
chord_occupied (void *user)
{
  say (_("Another program has the keys Ctrl+Alt+R: bind a shortcut of the desktop to `carpace rate N` instead."));
}

static void
due (void *user)
{
  carpace_loop_due (&((Program *) user)->loop);
}

/* ---- the faces' port: GTK, and whoever else wants to know of a change ---- */

/* While practice is under way the faces look once a minute: the diary is told
 * then that the program lives, and nothing wakes for it. */
static void
still_alive (Program *p, const CarpaceView *view)
{
  CarpaceInstant now = now_of (p);

  if (p->store == NULL || !view->ticking || now.elapsed_ms - p->alive_ms < ALIVE_EVERY_MS)
    return;
  p->alive_ms = now.elapsed_ms;
  carpace_store_alive (p->store, now);
}

/* Mouse input outside practice, a whole minute of it at a time. */
static void
keep_other_input (Program *p)
{
  const CarpaceToday *today = &p->loop.session.today;

  if (p->store == NULL || !today->open || !today->facts)
    return;
  if (p->other_day != today->day)
    p->other_kept_ms = 0;
  p->other_day = today->day;
  if (today->other_ms - p->other_kept_ms < CARPACE_MINUTE_MS)
    return;
  carpace_store_add_other (p->store, today->day, today->other_ms - p->other_kept_ms);
  p->other_kept_ms = today->other_ms;
}

/* The diary's window reads anew, and is not on a screen that is broadcast. */
static void
look_at_diary (Program *p, const CarpaceView *view)
{
  if (p->diary == NULL)
    return;
  if (view->on_air)
    carpace_diary_window_hide (p->diary);
  else
    carpace_diary_window_changed (p->diary);
}

static void
changed (void *user, const CarpaceView *view)
{
  Program *p = user;

  carpace_faces_changed (p->faces, view);
  carpace_overlay_changed (p->overlay);
  look_at_diary (p, view);
  keep_other_input (p);
  if (p->keys != NULL)
    carpace_keys_x11_rating_open (p->keys, view->rating.open);
  if (p->manual != NULL)
    carpace_activity_manual_state (p->manual, view->state);
  if (carpace_bus_is_followed (p->bus))
    {
      char *json = carpace_view_json (view);
      carpace_bus_changed (p->bus, json);
      g_free (json);
    }
}

static void
cue (void *user, const CarpaceEntry *entry, const CarpaceView *view)
{
  Program *p = user;

  carpace_faces_cue (p->faces, entry, view);
  if (p->sound != NULL && entry->cue.what == CARPACE_CUE_SHOWN)
    carpace_sound_play (p->sound, entry->cue.in_run);
}

static const CarpaceView *
look (void *user)
{
  Program *p = user;
  const CarpaceView *view;

  be_ready (p);
  view = carpace_loop_view (&p->loop);
  still_alive (p, view);
  return view;
}

static void
notify (void *user, const CarpaceNotice *notice)
{
  carpace_cue_libnotify_show (((Program *) user)->notices, notice);
}

static void
end_notice (void *user, CarpaceCue which)
{
  carpace_cue_libnotify_close (((Program *) user)->notices, which);
}

static void
open_diary (void *user)
{
  Program *p = user;
  CarpaceClock clock = carpace_clock_linux_port (&p->clock);
  const CarpaceView *view = carpace_loop_view (&p->loop);

  if (p->store == NULL || view->on_air)
    return;
  if (p->diary == NULL)
    {
      CarpaceDiary diary = carpace_store_diary (p->store);
      CarpaceDiaryKeeper keeper = carpace_store_keeper (p->store);
      p->diary = carpace_diary_window_new (&diary, &keeper, &clock);
    }
  carpace_diary_window_show (p->diary, view->day_open || view->plan == NULL
                                         ? view->day : carpace_day_of (now_of (p), view->plan->starts_at_min));
}

static void
quit (void *user)
{
  g_main_loop_quit (((Program *) user)->main);
}

static gboolean
quit_by_signal (gpointer user)
{
  quit (user);
  return G_SOURCE_CONTINUE;
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
static void
ask_cautions_first (Program *p)
{
  const CarpaceEvent ask = { .kind = CARPACE_EVENT_CAUTION, .caution = CARPACE_CAUTION_ASK };

  if (p->first_run && carpace_session_state (&p->loop.session) != CARPACE_STATE_OFF)
    p->first_run = !tell (p, &ask, NULL);
}

/* Reads the plan in use and hands it to the session: at once where it is the
 * first, else for the next practice day.
 * @return NULL, or what is wrong with it; g_free() it */
static char *
open_plan_in_use (Program *p)
{
  GString *faults = g_string_new (NULL);
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  if (p->plans.load_in_use (p->plans.self, plan, say_fault, faults))
    {
      p->plan = plan; /* an earlier one stays: the day that is open was built on it */
      carpace_loop_open (&p->loop, plan);
      ask_cautions_first (p);
      g_string_free (faults, TRUE);
      return NULL;
    }
  g_free (plan);
  if (faults->len == 0)
    g_string_append (faults, _("no block plan is in use; choose one with `carpace plan use NAME`"));
  return g_string_free (faults, FALSE);
}

static void
use_plan (void *user, const char *word)
{
  Program *p = user;
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
command_event (Program *p, int n_words, const char *const *words, char **ret_message)
{
  CarpaceEvent event;
  CarpaceWording wording;
  CarpaceRefusal refusal;
  CarpaceState state = carpace_session_state (&p->loop.session);

  if (!carpace_command_read (n_words, words, &event, &wording))
    {
      *ret_message = carpace_text_wording (&wording, n_words, words, NULL);
      return EXIT_WORDS;
    }
  if (tell (p, &event, &refusal))
    {
      *ret_message = carpace_text_taken (&event, carpace_loop_view (&p->loop), now_of (p));
      return EXIT_DONE;
    }
  *ret_message = carpace_text_refusal (refusal, event.kind, state);
  return EXIT_REFUSED;
}

static gboolean
quit_soon (gpointer user)
{
  quit (user);
  return G_SOURCE_REMOVE;
}

static int
command (void *user, int n_words, const char *const *words, char **ret_message)
{
  Program *p = user;

  be_ready (p);
  if (n_words == 1 && strcmp (words[0], "status") == 0)
    *ret_message = carpace_text_status (carpace_loop_view (&p->loop), now_of (p));
  else if (n_words == 1 && strcmp (words[0], "quit") == 0)
    g_idle_add (quit_soon, p);
  else if (n_words == 1 && strcmp (words[0], "plan-changed") == 0)
    {
      *ret_message = open_plan_in_use (p);
      carpace_faces_plans_changed (p->faces);
      return *ret_message == NULL ? EXIT_DONE : EXIT_REFUSED;
    }
  else
    return command_event (p, n_words, words, ret_message);
  return EXIT_DONE;
}

static char *
status (void *user)
{
  be_ready (user);
  return carpace_view_json (carpace_loop_view (&((Program *) user)->loop));
}

static void
show (void *user)
{
  Program *p = user;

  if (p->faces == NULL)
    return;
  be_ready (p);
  carpace_faces_present (p->faces);
}

/* ---- the start ---- */

static void
refused (void *user, const CarpaceEvent *event, CarpaceRefusal refusal)
{
  Program *p = user;
  char *message = carpace_text_refusal (refusal, event->kind, carpace_session_state (&p->loop.session));

  carpace_message_show (message);
  g_free (message);
}

static bool
take_bus (Program *p)
{
  CarpaceBusFound found;

  p->bus = carpace_bus_new ((CarpaceBusServed){ p, command, status, show }, &found);
  if (found == CARPACE_BUS_NONE)
    say (_("There is no session bus: commands will not reach the program; the tray and its cards work."));
  return found != CARPACE_BUS_TAKEN;
}

/* The last moment the program before is known to have lived: what the witness
 * saw, where that was in the same boot, else what the diary was told last. */
static void
ask_witness (Program *p, CarpaceResume *resume)
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
set_clock (Program *p, const CarpaceResume *resume)
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
follow_input (Program *p)
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
  say (_("This desktop does not tell of mouse input: practice counts from start to pause or end."));
  p->manual = carpace_activity_manual_new (NULL, clock, teller);
  return carpace_activity_manual_port (p->manual);
}

static void
take_keys (Program *p)
{
  CarpaceChord chord;
  GError *error = NULL;

  if (p->x11 == NULL)
    return;
  if (p->settings.chord != NULL && !carpace_chord_read (p->settings.chord, &chord))
    say (_("The chord of the settings is none; write it as Ctrl+Alt+R."));
  if ((p->settings.chord == NULL || !carpace_chord_read (p->settings.chord, &chord))
      && !carpace_chord_read (CARPACE_CHORD_DEFAULT, &chord))
    return;
  p->keys = carpace_keys_x11_new (NULL, NULL, &chord,
                                  (CarpaceKeysListener){ p, key_armed, key_rated, chord_occupied }, &error);
  if (error != NULL)
    say (error->message);
  g_clear_error (&error);
}

static CarpaceInstant
now_of_user (void *user)
{
  return now_of (user);
}

static void
follow_settings (Program *p)
{
  p->loop.no_other_input = !p->settings.other_input;
  if (p->settings.sound)
    p->sound = carpace_sound_new ();
  p->overlay = carpace_overlay_new (&p->settings, &p->loop.air, now_of_user, p, say);
}

static void
make_faces (Program *p, const char *icon_folder)
{
  const CarpaceCueLook look_of_notices = { "Carpace", "org.carpace.Carpace", "org.carpace.Carpace", _("Open") };
  const CarpaceFacesGiven given = {
    .tell = carpace_loop_as_tell (&p->loop),
    .clock = carpace_clock_linux_port (&p->clock),
    .plans = p->plans,
    .icon_folder = icon_folder,
    .self = p,
    .look = look,
    .notify = notify,
    .end_notice = end_notice,
    .refused = refused,
    .use_plan = use_plan,
    .open_diary = open_diary,
    .quit = quit,
  };

  p->notices = carpace_cue_libnotify_new (&look_of_notices, NULL,
                                          (CarpaceCueListener){ p, notice_answered, notice_opened, notices_trouble,
                                                                notices_back });
  p->faces = carpace_faces_new (&given);
}

static bool
make_loop (Program *p, const CarpaceHistory *history)
{
  CarpaceLoopPorts ports = { .clock = carpace_clock_linux_port (&p->clock), .faces = { p, cue, changed } };
  GError *error = NULL;

  p->alarm = carpace_alarm_linux_new (&p->clock, NULL, due, p, &error);
  if (p->alarm == NULL)
    {
      say (error->message);
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

/* What was on the screen before comes back, on air or not. */
static void
show_again (Program *p)
{
  const CarpaceView *view = carpace_loop_view (&p->loop);

  for (int i = 0; i < CARPACE_N_CUES; i++)
    if (view->cue_on[i])
      {
        CarpaceEntry entry = { .at = now_of (p), .kind = CARPACE_ENTRY_CUE };
        entry.cue.cue = (CarpaceCue) i;
        entry.cue.what = i == CARPACE_CUE_NEXT_BLOCK && view->start_asks ? CARPACE_CUE_ASKED : CARPACE_CUE_SHOWN;
        entry.cue.exercise = view->rest.exercise;
        entry.cue.between_drills = view->rest.between_drills;
        carpace_faces_cue (p->faces, &entry, view);
      }
  changed (p, view);
}

static void
go_on (Program *p, const CarpaceResume *resume)
{
  GString *faults = g_string_new (NULL);
  CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  if (!p->plans.load_in_use (p->plans.self, plan, say_fault, faults))
    {
      if (faults->len > 0)
        say (faults->str);
      g_free (plan);
      changed (p, carpace_loop_view (&p->loop));
    }
  else
    {
      p->plan = plan;
      if (resume->known)
        carpace_loop_resume (&p->loop, plan, resume);
      else
        carpace_loop_open (&p->loop, plan);
      show_again (p);
    }
  g_string_free (faults, TRUE);
}

static void
open_store (Program *p, CarpaceResume *ret_resume)
{
  char *path = carpace_store_path ();

  memset (ret_resume, 0, sizeof *ret_resume);
  p->store = carpace_store_open (path, CARPACE_STORE_WRITING, store_told, p);
  if (p->store != NULL)
    carpace_store_resume (p->store, ret_resume);
  g_free (path);
}

static void
end (Program *p)
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
start_witness (Program *p)
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
wake_session (Program *p)
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
    carpace_store_start_run (p->store, p->clock.base.boot_id, p->clock.base.base_ms, now_of (p));
  follow_settings (p);
  take_keys (p);
  p->suspend = carpace_suspend_logind_new ("Carpace", _("Notes when practice stops"), carpace_loop_as_tell (&p->loop));
  go_on (p, &resume);
  p->first_run = !resume.known;
  p->other_day = p->loop.session.today.day;
  p->other_kept_ms = p->loop.session.today.other_ms;
  ask_cautions_first (p);
  if (p->store != NULL)
    {
      carpace_store_resume_clear (&resume);
      carpace_store_check_in_background (p->store);
    }
  return true;
}

/* Once, at the latest when somebody asks for something. */
static void
be_ready (Program *p)
{
  if (p->ready)
    return;
  p->ready = true;
  g_clear_handle_id (&p->soon, g_source_remove);
  if (wake_session (p))
    return;
  p->status = EXIT_REFUSED;
  quit (p);
}

static gboolean
ready_now (gpointer user)
{
  Program *p = user;

  p->soon = 0;
  be_ready (p);
  return G_SOURCE_REMOVE;
}

int
carpace_program_run (int argc, char **argv, const CarpacePlanFiles *plans, const char *icon_folder)
{
  Program *p = g_new0 (Program, 1);
  int status;

  p->plans = *plans;
  p->status = EXIT_DONE;
  start_witness (p);
  /* GL is for games; a tray icon does not pay 56 MB and 45 ms for it. */
  g_setenv ("GDK_GL", "disable", FALSE);
  if (!gtk_init_check (&argc, &argv))
    {
      say (_("There is no display to show a tray on; `carpace rehearse PLAN` runs a plan in the terminal."));
      end (p);
      return EXIT_REFUSED;
    }
  p->main = g_main_loop_new (NULL, FALSE);
  if (!take_bus (p))
    {
      end (p);
      return EXIT_DONE;
    }
  carpace_settings_read (&p->settings, say);
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
