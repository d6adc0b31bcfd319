/* SPDX-License-Identifier: GPL-3.0-or-later */
/* faces.c: one object that holds all faces; asks for a redraw, draws once. */
#include "ui/faces.h"

#include <string.h>

#include "text/face-text.h"
#include "ui/deck.h"
#include "ui/items.h"
#include "ui/small-window.h"
#include "ui/tray-ayatana.h"
#include "ui/why-window.h"

/* A host that comes with the desktop is given this long before the small
 * window takes its place. */
#define HOST_WAIT_S 3

/* What was said of the intermission that is near. */
typedef enum
{
  NOT_TOLD,
  TOLD_AHEAD,
  TOLD_NOW
} IntermissionTold;

struct CarpaceGtkFaces
{
  CarpaceFacesGiven given;
  CarpaceOwner owner;
  CarpaceView view;
  bool has_view;
  bool was_on_air;
  IntermissionTold intermission;
  bool by_player;     /* what is told now, the player does at a face */
  bool notices_work;
  bool small_for_want_of_tray;
  bool rest_ran;      /* a rest was running when last drawn */
  guint idle;
  guint tick;
  guint host_wait;
  CarpaceTray *tray;
  CarpaceSmallWindow *small;
  CarpaceDeck *deck;
  CarpaceWhyWindow *why;
  guint plans_idle;
};

static CarpaceInstant
now_of (const CarpaceGtkFaces *faces)
{
  return faces->given.clock.now (faces->given.clock.self);
}

static CarpaceCardWay
way_of (const CarpaceGtkFaces *faces)
{
  return faces->by_player ? CARPACE_CARD_BY_PLAYER : CARPACE_CARD_BY_ITSELF;
}

static void ask_for_redraw (CarpaceGtkFaces *faces);

/* ---- what faces ask ---- */

static bool
owner_tell (void *self, const CarpaceEvent *event)
{
  CarpaceGtkFaces *faces = self;
  CarpaceRefusal refusal = CARPACE_REFUSAL_NOT_NOW;
  bool taken, before = faces->by_player;

  faces->by_player = true;
  taken = faces->given.tell.tell (faces->given.tell.self, event, &refusal);
  faces->by_player = before;
  if (!taken && faces->given.refused)
    faces->given.refused (faces->given.self, event, refusal);
  ask_for_redraw (faces);
  return taken;
}

/* ---- made when they are first wanted: a tray icon does not pay for windows ---- */

static CarpaceSmallWindow *
small (CarpaceGtkFaces *faces)
{
  if (!faces->small)
    faces->small = carpace_small_window_new (&faces->owner);
  return faces->small;
}

static CarpaceWhyWindow *
why (CarpaceGtkFaces *faces)
{
  if (!faces->why)
    faces->why = carpace_why_window_new (&faces->given.diary);
  return faces->why;
}

static void
bring_card (CarpaceGtkFaces *faces, CarpaceCue cue, CarpaceCardWay way)
{
  carpace_deck_bring (faces->deck, cue, way, &faces->view, now_of (faces));
}

static void
owner_choose (void *self, CarpaceItemId id)
{
  CarpaceGtkFaces *faces = self;
  CarpaceEvent event;

  faces->view = *faces->given.look (faces->given.self);
  if (carpace_item_event (id, &faces->view, &event))
    owner_tell (self, &event);
  else if (id == CARPACE_ITEM_RATE)
    bring_card (faces, CARPACE_CUE_RATING, CARPACE_CARD_BY_PLAYER);
  else if (id == CARPACE_ITEM_WHY)
    carpace_why_window_show (why (faces), &faces->view);
  else if (id == CARPACE_ITEM_CAUTIONS)
    bring_card (faces, CARPACE_CUE_CAUTION, CARPACE_CARD_BY_PLAYER);
  else if (id == CARPACE_ITEM_DIARY && faces->given.open_diary)
    faces->given.open_diary (faces->given.self);
  else if (id == CARPACE_ITEM_QUIT && faces->given.quit)
    faces->given.quit (faces->given.self);
}

static void
owner_redraw (void *self)
{
  ask_for_redraw (self);
}

/* ---- plans ---- */

typedef struct { CarpaceGtkFaces *faces; GtkMenuShell *menu; GSList *group; } PlanRows;

static void
plan_chosen (GtkCheckMenuItem *row, CarpaceGtkFaces *faces)
{
  if (gtk_check_menu_item_get_active (row) && faces->given.use_plan)
    faces->given.use_plan (faces->given.self, g_object_get_data (G_OBJECT (row), "word"));
}

static void
add_plan (void *user, const CarpacePlanItem *item)
{
  PlanRows *rows = user;
  GtkWidget *row = gtk_radio_menu_item_new_with_label (rows->group, item->name ? item->name : item->word);

  rows->group = gtk_radio_menu_item_get_group (GTK_RADIO_MENU_ITEM (row));
  gtk_check_menu_item_set_active (GTK_CHECK_MENU_ITEM (row), item->in_use);
  g_object_set_data_full (G_OBJECT (row), "word", g_strdup (item->word), g_free);
  gtk_menu_shell_append (rows->menu, row);
  gtk_widget_show (row);
}

static void
connect_plan (GtkWidget *row, gpointer faces)
{
  g_signal_connect (row, "toggled", G_CALLBACK (plan_chosen), faces);
}

static void
owner_fill_plans (void *self, GtkMenuShell *menu)
{
  CarpaceGtkFaces *faces = self;
  PlanRows rows = { faces, menu, NULL };
  GtkWidget *none = gtk_radio_menu_item_new (NULL);

  /* Where no plan is in use, none of the rows is on: this one, unseen, is. */
  rows.group = gtk_radio_menu_item_get_group (GTK_RADIO_MENU_ITEM (none));
  gtk_menu_shell_append (menu, none);
  if (faces->given.plans.list)
    faces->given.plans.list (faces->given.plans.self, add_plan, &rows);
  gtk_container_foreach (GTK_CONTAINER (menu), connect_plan, faces);
}

static gboolean
plans_now (gpointer user)
{
  CarpaceGtkFaces *faces = user;
  faces->plans_idle = 0;
  carpace_tray_plans_changed (faces->tray);
  return G_SOURCE_REMOVE;
}

/* Not at once: the row that was chosen may be what is asking. */
void
carpace_faces_plans_changed (CarpaceGtkFaces *faces)
{
  if (!faces->plans_idle)
    faces->plans_idle = g_idle_add (plans_now, faces);
}

/* ---- drawing ---- */

static gboolean tick (gpointer user);

/* The next moment at which something drawn will look different by itself: the
 * minute, and only while time runs. */
static int64_t
until_next_look_ms (const CarpaceGtkFaces *faces)
{
  const CarpaceView *view = &faces->view;
  int64_t countdown_ms = carpace_deck_next_ms (faces->deck, view);

  if (countdown_ms != CARPACE_NEVER)
    return countdown_ms;
  if (view->rating.changeable_for_ms > 0)
    return view->rating.changeable_for_ms;
  if (!view->ticking || view->on_air)
    return CARPACE_NEVER;
  if (view->state == CARPACE_STATE_LIMIT_REACHED)
    return CARPACE_MINUTE_MS - view->overrun_ms % CARPACE_MINUTE_MS;
  if (view->match)
    return CARPACE_MINUTE_MS - view->active_ms % CARPACE_MINUTE_MS;
  return view->remaining_ms > 0 ? (view->remaining_ms - 1) % CARPACE_MINUTE_MS + 1 : CARPACE_NEVER;
}

static void
arm_tick (CarpaceGtkFaces *faces)
{
  int64_t in_ms = until_next_look_ms (faces);

  g_clear_handle_id (&faces->tick, g_source_remove);
  if (in_ms != CARPACE_NEVER)
    faces->tick = g_timeout_add ((guint) in_ms + 1, tick, faces);
}

static void
close_cards (CarpaceGtkFaces *faces)
{
  carpace_deck_close (faces->deck);
  if (faces->why)
    carpace_why_window_hide (faces->why);
}

/* A rest that begins has its card, whoever began it. */
static void
follow_rest (CarpaceGtkFaces *faces)
{
  bool begins = faces->view.rest.running && !faces->rest_ran;

  faces->rest_ran = faces->view.rest.running;
  if (begins)
    bring_card (faces, CARPACE_CUE_MICRO_REST, CARPACE_CARD_BY_ITSELF);
  if (begins && !faces->view.on_air && faces->given.end_notice) /* the offer is answered */
    faces->given.end_notice (faces->given.self, CARPACE_CUE_MICRO_REST);
}

static void
draw (CarpaceGtkFaces *faces)
{
  CarpaceInstant now = now_of (faces);

  if (faces->view.on_air)
    close_cards (faces);
  carpace_tray_draw (faces->tray, &faces->view, now);
  if (faces->small)
    carpace_small_window_draw (faces->small, &faces->view, now);
  follow_rest (faces);
  carpace_deck_draw (faces->deck, &faces->view, now, !faces->notices_work);
  arm_tick (faces);
}

/* An intermission is announced when its notice begins, and said when it does. */
static void
announce_intermission (CarpaceGtkFaces *faces)
{
  const CarpaceView *view = &faces->view;
  IntermissionTold now = !view->intermission ? NOT_TOLD : view->intermission_in_ms > 0 ? TOLD_AHEAD : TOLD_NOW;
  CarpaceNotice notice;

  if (now == faces->intermission)
    return;
  faces->intermission = now;
  if (!carpace_text_intermission_notice (view, &notice))
    {
      if (!view->cue_on[CARPACE_CUE_MICRO_REST] && faces->given.end_notice)
        faces->given.end_notice (faces->given.self, CARPACE_CUE_MICRO_REST);
      return;
    }
  if (faces->notices_work)
    faces->given.notify (faces->given.self, &notice);
  carpace_notice_clear (&notice);
}

static gboolean
draw_now (gpointer user)
{
  CarpaceGtkFaces *faces = user;

  faces->idle = 0;
  faces->view = *faces->given.look (faces->given.self);
  announce_intermission (faces);
  draw (faces);
  return G_SOURCE_REMOVE;
}

static gboolean
tick (gpointer user)
{
  CarpaceGtkFaces *faces = user;
  faces->tick = 0;
  draw_now (faces);
  return G_SOURCE_REMOVE;
}

static void
ask_for_redraw (CarpaceGtkFaces *faces)
{
  if (!faces->idle && faces->has_view)
    faces->idle = g_idle_add (draw_now, faces);
}

/* ---- cues ---- */

/* By the desktop's notifications, or, where nothing shows them, by a card; on
 * air no window takes their place. */
static void
notify (CarpaceGtkFaces *faces, const CarpaceEntry *entry)
{
  CarpaceNotice notice;

  if (!carpace_text_notice (entry, &faces->view, now_of (faces), &notice))
    return;
  if (faces->notices_work)
    faces->given.notify (faces->given.self, &notice);
  else if (!faces->view.on_air)
    carpace_deck_notice (faces->deck, &notice);
  carpace_notice_clear (&notice);
}

static void
end_notice (CarpaceGtkFaces *faces, CarpaceCue cue)
{
  carpace_deck_end_notice (faces->deck, cue);
  if (faces->given.end_notice)
    faces->given.end_notice (faces->given.self, cue);
}

/* The rating has its card; a notice only where the card waits for the hand. */
static void
cue_rating (CarpaceGtkFaces *faces, const CarpaceEntry *entry)
{
  if (faces->view.rating.hand_moving && entry->cue.what != CARPACE_CUE_ASKED)
    {
      carpace_deck_let_wait (faces->deck, CARPACE_CUE_RATING);
      notify (faces, entry);
    }
  else
    bring_card (faces, CARPACE_CUE_RATING, way_of (faces));
}

static void
show_cue (CarpaceGtkFaces *faces, const CarpaceEntry *entry)
{
  if (faces->view.on_air)
    {
      notify (faces, entry);
      return;
    }
  switch (entry->cue.cue)
    {
    case CARPACE_CUE_RATING: cue_rating (faces, entry); break;
    case CARPACE_CUE_MICRO_REST:
      if (faces->notices_work)
        notify (faces, entry);
      else
        bring_card (faces, CARPACE_CUE_MICRO_REST, CARPACE_CARD_BY_ITSELF);
      break;
    case CARPACE_CUE_MORNING:
    case CARPACE_CUE_CAUTION:
      bring_card (faces, entry->cue.cue, way_of (faces));
      break;
    case CARPACE_CUE_LIMIT:
    case CARPACE_CUE_NEXT_BLOCK:
    case CARPACE_CUE_DAY_DONE:
    case CARPACE_N_CUES:
      notify (faces, entry);
      break;
    }
}

/* Cues that were on before these faces could show them: after a restart, and
 * when a stream has ended. */
static void
show_what_is_on (CarpaceGtkFaces *faces)
{
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    if (faces->view.cue_on[cue])
      {
        CarpaceEntry entry = { .kind = CARPACE_ENTRY_CUE };
        entry.at = now_of (faces);
        entry.cue.cue = (CarpaceCue) cue;
        entry.cue.what = CARPACE_CUE_SHOWN;
        entry.cue.exercise = faces->view.rest.exercise;
        entry.cue.between_drills = faces->view.rest.between_drills;
        show_cue (faces, &entry);
      }
}

static void
end_all_notices (CarpaceGtkFaces *faces)
{
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    end_notice (faces, (CarpaceCue) cue);
}

/* Going on air closes what speaks of the hand; coming off it opens what waited. */
static void
follow_on_air (CarpaceGtkFaces *faces)
{
  bool was_on_air = faces->was_on_air;

  faces->was_on_air = faces->view.on_air;
  if (faces->view.on_air && !was_on_air)
    {
      close_cards (faces);
      end_all_notices (faces);
    }
  else if (!faces->view.on_air && was_on_air)
    {
      end_all_notices (faces);
      show_what_is_on (faces);
    }
}

void
carpace_faces_cue (CarpaceGtkFaces *faces, const CarpaceEntry *entry, const CarpaceView *view)
{
  faces->view = *view;
  faces->has_view = true;
  follow_on_air (faces);
  if (entry->cue.what != CARPACE_CUE_WITHDRAWN)
    show_cue (faces, entry);
  else
    end_notice (faces, entry->cue.cue);
  ask_for_redraw (faces);
}

void
carpace_faces_changed (CarpaceGtkFaces *faces, const CarpaceView *view)
{
  bool first = !faces->has_view;

  faces->view = *view;
  faces->has_view = true;
  if (first)
    faces->was_on_air = view->on_air;
  if (first && !view->on_air)
    show_what_is_on (faces);
  follow_on_air (faces);
  ask_for_redraw (faces);
}

void
carpace_faces_open (CarpaceGtkFaces *faces, CarpaceCue cue)
{
  faces->view = *faces->given.look (faces->given.self);
  if (faces->view.on_air)
    return;
  switch (cue)
    {
    case CARPACE_CUE_RATING:
    case CARPACE_CUE_MICRO_REST:
    case CARPACE_CUE_MORNING:
    case CARPACE_CUE_CAUTION:
      bring_card (faces, cue, CARPACE_CARD_BY_PLAYER);
      break;
    case CARPACE_CUE_DAY_DONE: carpace_why_window_show (why (faces), &faces->view); break;
    case CARPACE_CUE_LIMIT:
    case CARPACE_CUE_NEXT_BLOCK:
    case CARPACE_N_CUES:
      carpace_faces_present (faces);
      break;
    }
  ask_for_redraw (faces);
}

void
carpace_faces_rating_armed (CarpaceGtkFaces *faces, bool armed)
{
  faces->view = *faces->given.look (faces->given.self);
  if (armed)
    bring_card (faces, CARPACE_CUE_RATING, CARPACE_CARD_BY_ITSELF);
  carpace_deck_arm_rating (faces->deck, armed);
}

/* ---- tray or small window ---- */

static void
small_for_want_of_tray (CarpaceGtkFaces *faces)
{
  if (carpace_small_window_is_shown (small (faces)))
    return;
  faces->small_for_want_of_tray = true;
  carpace_small_window_show (small (faces), false, &faces->view, now_of (faces));
  ask_for_redraw (faces);
}

static gboolean
host_waited (gpointer user)
{
  CarpaceGtkFaces *faces = user;

  faces->host_wait = 0;
  if (!carpace_tray_is_hosted (faces->tray))
    small_for_want_of_tray (faces);
  return G_SOURCE_REMOVE;
}

static void
host_changed (void *self)
{
  CarpaceGtkFaces *faces = self;

  g_clear_handle_id (&faces->host_wait, g_source_remove);
  if (!carpace_tray_is_hosted (faces->tray))
    faces->host_wait = g_timeout_add_seconds (HOST_WAIT_S, host_waited, faces);
  else if (faces->small_for_want_of_tray)
    {
      faces->small_for_want_of_tray = false;
      carpace_small_window_hide (small (faces));
    }
}

void
carpace_faces_present (CarpaceGtkFaces *faces)
{
  faces->small_for_want_of_tray = false;
  faces->view = *faces->given.look (faces->given.self);
  carpace_small_window_show (small (faces), true, &faces->view, now_of (faces));
  ask_for_redraw (faces);
}

void
carpace_faces_notices_work (CarpaceGtkFaces *faces, bool work)
{
  bool worked = faces->notices_work;

  faces->notices_work = work && faces->given.notify;
  if (worked && !faces->notices_work && faces->has_view && !faces->view.on_air)
    show_what_is_on (faces); /* the one that failed said it to nobody */
}

CarpaceGtkFaces *
carpace_faces_new (const CarpaceFacesGiven *given)
{
  CarpaceGtkFaces *faces = g_new0 (CarpaceGtkFaces, 1);

  faces->given = *given;
  faces->notices_work = given->notify != NULL;
  if (given->icon_folder)
    gtk_icon_theme_append_search_path (gtk_icon_theme_get_default (), given->icon_folder);
  faces->owner = (CarpaceOwner) { faces, owner_tell, owner_choose, owner_fill_plans, owner_redraw };
  faces->deck = carpace_deck_new (&faces->owner);
  faces->tray = carpace_tray_new (&faces->owner, given->icon_folder, host_changed);
  faces->host_wait = g_timeout_add_seconds (HOST_WAIT_S, host_waited, faces);
  carpace_faces_plans_changed (faces); /* soon: reading them takes longer than the tray item may */
  return faces;
}

void
carpace_faces_set_diary (CarpaceGtkFaces *faces, CarpaceDiary diary)
{
  faces->given.diary = diary;
}

void
carpace_faces_free (CarpaceGtkFaces *faces)
{
  if (!faces)
    return;
  g_clear_handle_id (&faces->idle, g_source_remove);
  g_clear_handle_id (&faces->tick, g_source_remove);
  g_clear_handle_id (&faces->host_wait, g_source_remove);
  carpace_deck_free (faces->deck);
  g_clear_pointer (&faces->why, carpace_why_window_free);
  g_clear_handle_id (&faces->plans_idle, g_source_remove);
  g_clear_pointer (&faces->small, carpace_small_window_free);
  carpace_tray_free (faces->tray);
  g_free (faces);
}
