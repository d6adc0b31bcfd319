/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-faces.c: the faces' port: GTK, and whoever else wants to know of a
 * change. */
#include "program-private.h"

#include "forms/entries-json.h"
#include "ui/message-window.h"

#define ALIVE_EVERY_MS (50 * CARPACE_SECOND_MS)

/* While practice is under way the faces look once a minute: the diary is told
 * then that the program lives, and nothing wakes for it. */
static void
still_alive (CarpaceProgram *p, const CarpaceView *view)
{
  CarpaceInstant now = carpace_program_now (p);

  if (p->store == NULL || !view->ticking || now.elapsed_ms - p->alive_ms < ALIVE_EVERY_MS)
    return;
  p->alive_ms = now.elapsed_ms;
  carpace_store_alive (p->store, now);
}

/* Mouse input outside practice, a whole minute of it at a time. */
static void
keep_other_input (CarpaceProgram *p, const CarpaceView *view)
{
  if (p->store == NULL || view->other_today_ms < 0)
    return;
  if (p->other_day != view->day)
    p->other_kept_ms = 0;
  p->other_day = view->day;
  if (view->other_today_ms - p->other_kept_ms < CARPACE_MINUTE_MS)
    return;
  carpace_store_add_other (p->store, view->day, view->other_today_ms - p->other_kept_ms);
  p->other_kept_ms = view->other_today_ms;
}

/* The diary's window reads anew, and is not on a screen that is broadcast. */
static void
look_at_diary (CarpaceProgram *p, const CarpaceView *view)
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
  CarpaceProgram *p = user;

  if (p->faces != NULL)
    carpace_message_on_air (view->on_air);
  carpace_faces_changed (p->faces, view);
  carpace_overlay_changed (p->overlay);
  if (view->on_air)
    carpace_program_settings_on_air (p);
  look_at_diary (p, view);
  carpace_program_share (p, view);
  keep_other_input (p, view);
  carpace_program_go_on_anew (p);
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
  CarpaceProgram *p = user;

  carpace_faces_cue (p->faces, entry, view);
  if (p->sound.play != NULL && entry->cue.what == CARPACE_CUE_SHOWN)
    p->sound.play (p->sound.self, entry->cue.in_run);
}

static const CarpaceView *
look (void *user)
{
  CarpaceProgram *p = user;
  const CarpaceView *view;

  carpace_program_be_ready (p);
  carpace_loop_awake (&p->loop);
  view = carpace_loop_view (&p->loop);
  still_alive (p, view);
  return view;
}

static void
notify (void *user, const CarpaceNotice *notice)
{
  carpace_cue_libnotify_show (((CarpaceProgram *) user)->notices, notice);
}

static void
end_notice (void *user, CarpaceCue which)
{
  carpace_cue_libnotify_close (((CarpaceProgram *) user)->notices, which);
}

static void
want_keys (void *user, bool wanted)
{
  CarpaceProgram *p = user;

  p->keys_wanted = wanted;
  if (p->keys != NULL)
    carpace_keys_x11_ask (p->keys, wanted);
}

static void
open_diary (void *user)
{
  CarpaceProgram *p = user;
  const CarpaceView *view = carpace_loop_view (&p->loop);

  if (p->store == NULL || view->on_air)
    return;
  if (p->diary == NULL)
    {
      CarpaceDiary diary = carpace_store_diary (p->store);
      CarpaceDiaryKeeper keeper = carpace_store_keeper (p->store);
      p->diary = carpace_diary_window_new (&diary, &keeper, &p->ports.clock);
    }
  carpace_diary_window_show (p->diary, view->day_open || view->plan == NULL
                                         ? view->day : carpace_day_of (carpace_program_now (p), view->plan->starts_at_min));
}

static void
pick_window (void *user)
{
  carpace_program_window_pick (((CarpaceProgram *) user)->window);
}

static void
open_settings (void *user)
{
  carpace_program_show_settings (user);
}

CarpaceFaces
carpace_program_faces_port (CarpaceProgram *p)
{
  return (CarpaceFaces){ p, cue, changed };
}

static char *
plan_giver (void *user)
{
  return carpace_program_giver (user);
}

CarpaceFacesGiven
carpace_program_faces_given (CarpaceProgram *p, const char *icon_folder)
{
  return (CarpaceFacesGiven){
    .tell = carpace_program_as_tell (p),
    .clock = p->ports.clock,
    .plans = p->plans,
    .icon_folder = icon_folder,
    .self = p,
    .look = look,
    .notify = notify,
    .end_notice = end_notice,
    .refused = carpace_program_refused,
    .use_plan = carpace_program_use_plan,
    .plan_giver = plan_giver,
    .keys = want_keys,
    .open_diary = open_diary,
    .first = carpace_program_first,
    .pick_window = pick_window,
    .open_settings = open_settings,
    .note_away = carpace_program_note_away,
    .quit = carpace_program_quit,
  };
}
