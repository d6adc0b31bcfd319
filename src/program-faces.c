/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-faces.c: the faces' port: GTK, and whoever else wants to know of a
 * change. */
#include "program-private.h"

#include "text/entries.h"

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
keep_other_input (CarpaceProgram *p)
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

  carpace_faces_changed (p->faces, view);
  carpace_overlay_changed (p->overlay);
  look_at_diary (p, view);
  keep_other_input (p);
  carpace_program_keep_day_plan (p, view);
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
  CarpaceProgram *p = user;

  carpace_faces_cue (p->faces, entry, view);
  if (p->sound != NULL && entry->cue.what == CARPACE_CUE_SHOWN)
    carpace_sound_play (p->sound, entry->cue.in_run);
}

static const CarpaceView *
look (void *user)
{
  CarpaceProgram *p = user;
  const CarpaceView *view;

  carpace_program_be_ready (p);
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
open_diary (void *user)
{
  CarpaceProgram *p = user;
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
                                         ? view->day : carpace_day_of (carpace_program_now (p), view->plan->starts_at_min));
}

CarpaceFaces
carpace_program_faces_port (CarpaceProgram *p)
{
  return (CarpaceFaces){ p, cue, changed };
}

CarpaceFacesGiven
carpace_program_faces_given (CarpaceProgram *p, const char *icon_folder)
{
  return (CarpaceFacesGiven){
    .tell = carpace_loop_as_tell (&p->loop),
    .clock = carpace_clock_linux_port (&p->clock),
    .plans = p->plans,
    .icon_folder = icon_folder,
    .self = p,
    .look = look,
    .notify = notify,
    .end_notice = end_notice,
    .refused = carpace_program_refused,
    .use_plan = carpace_program_use_plan,
    .open_diary = open_diary,
    .quit = carpace_program_quit,
  };
}
