/* SPDX-License-Identifier: GPL-3.0-or-later */
/* faces.c: one object that holds all faces; asks for a redraw, draws once. */
#include "ui/faces.h"

#include <glib/gi18n.h>
#include <string.h>

#include "carpace/cues.h"

#include "text/face-text.h"
#include "text/pause-text.h"
#include "ui/card-place.h"
#include "ui/deck.h"
#include "ui/items.h"
#include "ui/today-window.h"
#include "ui/tray-ayatana.h"
#include "ui/why-window.h"

/* A host that comes with the desktop is given so long before older trays are offered the
 * item, too, and once more before the window of today takes its place. */
#define HOST_WAIT_MS 1500

#define PLAN_LINE 100 /* characters */
#define PLAN_WIDTH 44

struct CarpaceGtkFaces
{
  CarpaceFacesGiven given;
  CarpaceOwner owner;
  CarpaceView view;
  bool has_view;
  bool was_on_air;
  bool intermission_told; /* the next one's notice was shown */
  CarpacePauseKind pause; /* on air: what ran when last drawn */
  int32_t given_block, given_number; /* the number given last, as far as the faces know */
  bool by_player;     /* what is told now, the player does at a face */
  bool notices_work, notices_mute;
  bool today_for_want_of_tray;
  bool rest_ran;      /* a rest was running when last drawn */
  bool keys_wanted;
  guint idle;
  guint tick;
  guint host_wait;
  bool stood_in; /* since the item was shown last */
  CarpaceTray *tray;
  CarpaceTodayWindow *today;
  char *note_by, *note; /* NULL: none */
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

  faces->by_player = !carpace_deck_is_covered (faces->deck); /* over a full-screen client no answer takes the focus */
  taken = faces->given.tell.tell (faces->given.tell.self, event, &refusal);
  faces->by_player = before;
  if (!taken && faces->given.refused)
    faces->given.refused (faces->given.self, event, refusal);
  ask_for_redraw (faces);
  return taken;
}

/* ---- made when they are first wanted: a tray icon does not pay for windows ---- */

static CarpaceTodayWindow *
today (CarpaceGtkFaces *faces)
{
  if (!faces->today)
    {
      faces->today = carpace_today_window_new (&faces->owner);
      carpace_today_window_set_note (faces->today, faces->note_by, faces->note);
    }
  return faces->today;
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

/* Where a compositor puts windows in the middle and gives them the focus, a notice says what a card would. */
static bool
has_notices_for_cards (const CarpaceGtkFaces *faces)
{
  return faces->notices_work && carpace_place_way () == CARPACE_PLACE_NOWHERE;
}

static void
owner_choose (void *self, CarpaceItemId id)
{
  CarpaceGtkFaces *faces = self;
  CarpaceEvent event;

  faces->view = *faces->given.look (faces->given.self);
  if (carpace_item_event (id, &faces->view, &event))
    owner_tell (self, &event);
  else if (id == CARPACE_ITEM_CARD_AGAIN && carpace_deck_put_away_cue (faces->deck) != CARPACE_N_CUES)
    bring_card (faces, carpace_deck_put_away_cue (faces->deck), CARPACE_CARD_BY_PLAYER);
  else if (id == CARPACE_ITEM_FIRST && faces->given.first)
    faces->given.first (faces->given.self);
  else if (id == CARPACE_ITEM_RATE || id == CARPACE_ITEM_CORRECT)
    bring_card (faces, CARPACE_CUE_RATING, CARPACE_CARD_BY_PLAYER);
  else if (id == CARPACE_ITEM_MORNING || id == CARPACE_ITEM_MORNING_FIRST)
    bring_card (faces, CARPACE_CUE_MORNING, CARPACE_CARD_BY_PLAYER);
  else if (id == CARPACE_ITEM_WHY)
    carpace_why_window_show (why (faces), &faces->view);
  else if (id == CARPACE_ITEM_CAUTIONS)
    bring_card (faces, CARPACE_CUE_CAUTION, CARPACE_CARD_BY_PLAYER);
  else if (id == CARPACE_ITEM_DIARY && faces->given.open_diary)
    faces->given.open_diary (faces->given.self);
  else if (id == CARPACE_ITEM_WINDOW && faces->given.pick_window)
    faces->given.pick_window (faces->given.self);
  else if (id == CARPACE_ITEM_SETTINGS && faces->given.open_settings)
    faces->given.open_settings (faces->given.self);
  else if (id == CARPACE_ITEM_QUIT && faces->given.quit)
    faces->given.quit (faces->given.self);
}

static void
owner_redraw (void *self)
{
  ask_for_redraw (self);
}

static void
owner_put_note_away (void *self)
{
  CarpaceGtkFaces *faces = self;

  if (faces->given.note_away != NULL)
    faces->given.note_away (faces->given.self);
}

/* ---- plans ---- */

typedef struct { CarpaceGtkFaces *faces; GtkMenuShell *menu; GSList *group; } PlanRows;

static void
plan_chosen (GtkCheckMenuItem *row, CarpaceGtkFaces *faces)
{
  if (gtk_check_menu_item_get_active (row) && faces->given.use_plan)
    faces->given.use_plan (faces->given.self, g_object_get_data (G_OBJECT (row), "word"));
}

/* With its one line; a note that is longer is for the editor of its file. */
static char *
plan_label (const CarpacePlanItem *item)
{
  const char *name = item->name ? item->name : item->word;

  if (item->note == NULL || *item->note == '\0' || g_utf8_strlen (item->note, -1) > PLAN_LINE)
    return g_strdup (name);
  /* Translators: a plan's name and its note */
  return g_strdup_printf (_("%s: %s"), name, item->note);
}

static void
add_plan (void *user, const CarpacePlanItem *item)
{
  PlanRows *rows = user;
  char *label = plan_label (item);
  GtkWidget *row = gtk_radio_menu_item_new_with_label (rows->group, label);

  gtk_label_set_line_wrap (GTK_LABEL (gtk_bin_get_child (GTK_BIN (row))), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (gtk_bin_get_child (GTK_BIN (row))), PLAN_WIDTH);
  g_free (label);
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

/* To be read only. */
static void
add_giver (const CarpaceGtkFaces *faces, GtkMenuShell *menu)
{
  g_autofree char *giver = faces->given.plan_giver != NULL ? faces->given.plan_giver (faces->given.self) : NULL;
  GtkWidget *row;

  if (giver == NULL)
    return;
  row = gtk_menu_item_new_with_label (giver);
  gtk_widget_set_sensitive (row, FALSE);
  gtk_menu_shell_append (menu, row);
  gtk_widget_show (row);
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
  add_giver (faces, menu);
}

static gboolean
plans_now (gpointer user)
{
  CarpaceGtkFaces *faces = user;
  faces->plans_idle = 0;
  carpace_tray_plans_changed (faces->tray);
  return G_SOURCE_REMOVE;
}

static void wait_for_host (CarpaceGtkFaces *faces);

/* Not at once: the row that was chosen may be what is asking. Where the first window stood in for the tray, it is gone now. */
void
carpace_faces_plans_changed (CarpaceGtkFaces *faces)
{
  if (!faces->plans_idle)
    faces->plans_idle = g_idle_add (plans_now, faces);
  wait_for_host (faces);
}

/* ---- drawing ---- */

static gboolean tick (gpointer user);

/* The next moment at which something drawn will look different by itself: the
 * minute, and only while time runs. */
static int64_t
until_next_look_ms (const CarpaceGtkFaces *faces)
{
  const CarpaceView *view = &faces->view;

  if (view->rating.changeable_for_ms > 0)
    return view->rating.changeable_for_ms;
  if (view->on_air)
    return CARPACE_NEVER;
  if (!view->ticking)
    return faces->today && carpace_today_window_is_shown (faces->today) ? CARPACE_MINUTE_MS : CARPACE_NEVER;
  if (view->state == CARPACE_STATE_LIMIT_REACHED)
    return CARPACE_MINUTE_MS - view->overrun_ms % CARPACE_MINUTE_MS;
  if (view->match)
    return CARPACE_MINUTE_MS - view->active_ms % CARPACE_MINUTE_MS;
  return view->remaining_ms > 0 ? (view->remaining_ms - 1) % CARPACE_MINUTE_MS + 1 : CARPACE_NEVER;
}

static void
arm_tick (CarpaceGtkFaces *faces)
{
  int64_t card_ms = carpace_deck_next_ms (faces->deck, &faces->view, now_of (faces));
  int64_t in_ms = MIN (until_next_look_ms (faces), card_ms);

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

/* How a rest goes, in a notice for as long as it runs. */
static void
notify_of_rest (CarpaceGtkFaces *faces)
{
  CarpaceNotice notice;

  carpace_text_rest_notice (&faces->view, &notice);
  faces->given.notify (faces->given.self, &notice);
  carpace_notice_clear (&notice);
}

/* A rest that begins has its card, whoever began it; where a notice stands in for it, that goes when the rest is over. */
static void
follow_rest (CarpaceGtkFaces *faces)
{
  bool runs = faces->view.rest.running && !faces->view.on_air, begins = runs && !faces->rest_ran, ends = !runs && faces->rest_ran;
  bool by_notice = has_notices_for_cards (faces);

  faces->rest_ran = runs;
  if (begins && by_notice)
    notify_of_rest (faces);
  else if (begins)
    bring_card (faces, CARPACE_CUE_MICRO_REST, CARPACE_CARD_BY_ITSELF);
  if ((by_notice ? ends : begins) && faces->given.end_notice) /* the offer is answered */
    faces->given.end_notice (faces->given.self, CARPACE_CUE_MICRO_REST);
}

/* On air a pause that begins has its card, a planned one, too. */
static void
follow_pause (CarpaceGtkFaces *faces)
{
  CarpacePauseKind before = faces->pause;

  faces->pause = faces->view.on_air ? carpace_pause_running (&faces->view).kind : CARPACE_PAUSE_NONE;
  if (faces->pause == before || faces->pause == CARPACE_PAUSE_NONE || has_notices_for_cards (faces))
    return;
  carpace_deck_bring_pause (faces->deck, &faces->view, now_of (faces));
  if (faces->given.end_notice) /* what told of it, or offered it */
    faces->given.end_notice (faces->given.self, CARPACE_CUE_MICRO_REST);
}

/* Keys are set aside while something can be answered by them, and at no other time. */
static void
want_keys (CarpaceGtkFaces *faces)
{
  const CarpaceView *view = &faces->view;
  bool wanted = view->rating.open || view->rest.offered || carpace_deck_has_card (faces->deck);

  if (wanted == faces->keys_wanted || !faces->given.keys)
    return;
  faces->keys_wanted = wanted;
  faces->given.keys (faces->given.self, wanted);
}

/* Whether an offer comes as a notice, with its answers on it. */
static bool
offers_by_notice (const CarpaceGtkFaces *faces)
{
  return faces->notices_work && !faces->notices_mute;
}

/* The question that the chord is for, where no card is up. */
static CarpaceCue
question (const CarpaceView *view)
{
  return view->rating.open ? CARPACE_CUE_RATING : view->rest.offered ? CARPACE_CUE_MICRO_REST : CARPACE_N_CUES;
}

/* Whatever the player put away can be had again from the menu, and by the chord what it is for. */
static void
say_card_again (CarpaceGtkFaces *faces)
{
  CarpaceCue away = carpace_deck_put_away_cue (faces->deck);
  const char *chord = away == question (&faces->view) ? carpace_card_chord () : NULL;

  carpace_tray_set_card_again (faces->tray, away != CARPACE_N_CUES, chord);
  if (faces->today)
    carpace_today_window_set_card_again (faces->today, away != CARPACE_N_CUES, chord);
}

static void
draw (CarpaceGtkFaces *faces)
{
  CarpaceInstant now = now_of (faces);

  follow_rest (faces);
  follow_pause (faces);
  carpace_deck_draw (faces->deck, &faces->view, now, !offers_by_notice (faces));
  say_card_again (faces);
  carpace_tray_draw (faces->tray, &faces->view, now);
  if (faces->today)
    carpace_today_window_draw (faces->today, &faces->view, now);
  want_keys (faces);
  arm_tick (faces);
}

static bool
card_of_notice (CarpaceGtkFaces *faces, const CarpaceNotice *notice)
{
  g_autofree char *icon = carpace_tray_icon (&faces->view);

  return carpace_deck_notice (faces->deck, notice, icon, &faces->view, now_of (faces));
}

/* Over a full-screen client they would lie anywhere and take no key. */
static bool
notices_come_first (CarpaceGtkFaces *faces)
{
  return has_notices_for_cards (faces) || (faces->notices_work && !carpace_deck_is_covered (faces->deck));
}

/* By the desktop's notifications; where they do not come first, or nothing shows them, by a card. */
static void
show_notice (CarpaceGtkFaces *faces, const CarpaceNotice *notice)
{
  if (notices_come_first (faces) || !card_of_notice (faces, notice))
    if (faces->notices_work)
      faces->given.notify (faces->given.self, notice);
}

static void
end_notice (CarpaceGtkFaces *faces, CarpaceCue cue)
{
  carpace_deck_end_notice (faces->deck, cue);
  if (faces->given.end_notice)
    faces->given.end_notice (faces->given.self, cue);
}

/* An intermission is announced when its notice begins; once it begins there is its card. */
static void
announce_intermission (CarpaceGtkFaces *faces)
{
  const CarpaceView *view = &faces->view;
  bool told = faces->intermission_told;
  CarpaceNotice notice;

  faces->intermission_told = view->intermission;
  if (view->intermission && !told && carpace_text_intermission_notice (view, &notice))
    {
      show_notice (faces, &notice);
      carpace_notice_clear (&notice);
    }
  else if (!view->intermission && told && !view->cue_on[CARPACE_CUE_MICRO_REST])
    end_notice (faces, CARPACE_CUE_MICRO_REST);
}

/* What was just done is taken: the player knows what that was. */
static void
say_on_air (CarpaceGtkFaces *faces)
{
  CarpaceNotice notice;

  carpace_text_on_air_notice (&faces->view, now_of (faces), &notice);
  show_notice (faces, &notice);
  carpace_notice_clear (&notice);
}

/* On air a number that was given is told as taken, by a sign that says nothing of it. */
static void
acknowledge (CarpaceGtkFaces *faces)
{
  const CarpaceRatingView *rating = &faces->view.rating;
  bool given = rating->given >= 0 && !rating->open
               && (rating->block != faces->given_block || rating->given != faces->given_number);

  faces->given_block = rating->block;
  faces->given_number = rating->open ? -1 : rating->given;
  if (given && faces->view.on_air)
    say_on_air (faces);
}

static gboolean
draw_now (gpointer user)
{
  CarpaceGtkFaces *faces = user;

  faces->idle = 0;
  faces->view = *faces->given.look (faces->given.self);
  announce_intermission (faces);
  acknowledge (faces);
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

static void
notify (CarpaceGtkFaces *faces, const CarpaceEntry *entry)
{
  CarpaceNotice notice;

  if (!carpace_text_notice (entry, &faces->view, now_of (faces), &notice))
    return;
  show_notice (faces, &notice);
  carpace_notice_clear (&notice);
}

static void
bring_told (CarpaceGtkFaces *faces, const CarpaceEntry *entry)
{
  if (way_of (faces) == CARPACE_CARD_BY_ITSELF && has_notices_for_cards (faces))
    notify (faces, entry);
  else
    bring_card (faces, entry->cue.cue, way_of (faces));
}

/* A card that waits for the hand, unless the player's own start asked for it. */
static void
show_card_at_rest (CarpaceGtkFaces *faces, const CarpaceEntry *entry)
{
  if (faces->view.rating.hand_moving && !faces->view.rating.asked_by_start && !carpace_deck_is_covered (faces->deck))
    {
      carpace_deck_let_wait (faces->deck, entry->cue.cue);
      notify (faces, entry);
    }
  else
    bring_told (faces, entry);
}

/* A pause that is offered has a card where a rest would; all else is a notice, or silence. */
static void
show_on_air (CarpaceGtkFaces *faces, const CarpaceEntry *entry)
{
  if (entry->cue.cue == CARPACE_CUE_MICRO_REST && !notices_come_first (faces))
    carpace_deck_bring_pause (faces->deck, &faces->view, now_of (faces));
  else
    notify (faces, entry);
}

static void
show_cue (CarpaceGtkFaces *faces, const CarpaceEntry *entry)
{
  CarpaceTold told = carpace_told (entry->cue.cue, entry->cue.what);

  if (told == CARPACE_N_TOLD)
    return;
  if (faces->view.on_air)
    {
      show_on_air (faces, entry);
      return;
    }
  switch (carpace_told_rows[told].by)
    {
    case CARPACE_SHOWN_BY_NOTICE: notify (faces, entry); break;
    case CARPACE_SHOWN_BY_NOTICE_FIRST:
      if (has_notices_for_cards (faces) || (offers_by_notice (faces) && !carpace_deck_is_covered (faces->deck)))
        notify (faces, entry);
      else
        bring_card (faces, entry->cue.cue, CARPACE_CARD_BY_ITSELF);
      break;
    case CARPACE_SHOWN_BY_CARD:
      if (entry->cue.cue == CARPACE_CUE_CAUTION && carpace_deck_holds (faces->deck, &faces->view))
        carpace_deck_let_wait (faces->deck, entry->cue.cue); /* the number's own sentence first */
      else
        bring_told (faces, entry);
      break;
    case CARPACE_SHOWN_BY_CARD_AT_REST: show_card_at_rest (faces, entry); break;
    case CARPACE_N_SHOWN_BY: break;
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
        CarpaceEntry entry = carpace_view_cue (&faces->view, (CarpaceCue) cue, now_of (faces));

        show_cue (faces, &entry);
      }
}

static void
end_all_notices (CarpaceGtkFaces *faces)
{
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    end_notice (faces, (CarpaceCue) cue);
}

/* Going on air closes what speaks of the hand, and says so; coming off it opens what waited. */
static void
follow_on_air (CarpaceGtkFaces *faces)
{
  bool was_on_air = faces->was_on_air;

  faces->was_on_air = faces->view.on_air;
  if (faces->view.on_air && !was_on_air)
    {
      close_cards (faces);
      end_all_notices (faces);
      say_on_air (faces);
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
    {
      faces->was_on_air = view->on_air;
      faces->given_block = view->rating.block;
      faces->given_number = view->rating.open ? -1 : view->rating.given;
    }
  if (first)
    show_what_is_on (faces);
  follow_on_air (faces);
  ask_for_redraw (faces);
}

void
carpace_faces_open (CarpaceGtkFaces *faces, CarpaceCue cue)
{
  CarpaceEntry entry;

  faces->view = *faces->given.look (faces->given.self);
  if (faces->view.on_air)
    return;
  entry = carpace_view_cue (&faces->view, cue, now_of (faces));
  switch (carpace_told_rows[carpace_told (cue, entry.cue.what)].opens)
    {
    case CARPACE_OPENS_CARD: bring_card (faces, cue, CARPACE_CARD_BY_PLAYER); break;
    case CARPACE_OPENS_WHY: carpace_why_window_show (why (faces), &faces->view); break;
    case CARPACE_OPENS_WINDOW: carpace_faces_present (faces); break;
    case CARPACE_N_OPENS: break;
    }
  ask_for_redraw (faces);
}

/* ---- keys ---- */

void
carpace_faces_armed (CarpaceGtkFaces *faces, bool armed)
{
  CarpaceCue asked;

  faces->view = *faces->given.look (faces->given.self);
  if (faces->view.on_air && faces->view.rating.open) /* blind */
    return;
  asked = faces->view.on_air ? CARPACE_N_CUES : question (&faces->view);
  if (armed && asked != CARPACE_N_CUES && (asked == CARPACE_CUE_RATING || !carpace_deck_has_card (faces->deck)))
    bring_card (faces, asked, CARPACE_CARD_BY_ITSELF);
  carpace_deck_arm (faces->deck, armed, &faces->view, now_of (faces));
}

bool
carpace_faces_digit (CarpaceGtkFaces *faces, int32_t digit)
{
  const CarpaceEvent rate = { .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = digit } };
  bool asked_on;

  faces->view = *faces->given.look (faces->given.self);
  if (faces->view.rating.open)
    {
      owner_tell (faces, &rate);
      return false;
    }
  carpace_deck_digit (faces->deck, digit);
  asked_on = carpace_deck_asks_on (faces->deck);
  ask_for_redraw (faces);
  return asked_on;
}

void
carpace_faces_put_away (CarpaceGtkFaces *faces)
{
  carpace_deck_put_away (faces->deck);
  ask_for_redraw (faces);
}

/* ---- tray or window ---- */

static void
today_for_want_of_tray (CarpaceGtkFaces *faces)
{
  if (carpace_today_window_is_shown (today (faces)) || (faces->given.first && faces->given.first (faces->given.self)))
    return;
  faces->today_for_want_of_tray = true;
  carpace_today_window_show (today (faces), false, &faces->view, now_of (faces));
  ask_for_redraw (faces);
}

static gboolean
host_waited (gpointer user)
{
  CarpaceGtkFaces *faces = user;

  if (!faces->stood_in)
    {
      faces->stood_in = true;
      carpace_tray_stand_in (faces->tray);
      return G_SOURCE_CONTINUE;
    }
  faces->host_wait = 0;
  today_for_want_of_tray (faces);
  return G_SOURCE_REMOVE;
}

/* From the first moment on without: what comes and goes in between is no longer wait. */
static void
wait_for_host (CarpaceGtkFaces *faces)
{
  if (!faces->host_wait && !faces->today_for_want_of_tray && !carpace_tray_is_hosted (faces->tray))
    faces->host_wait = g_timeout_add (HOST_WAIT_MS, host_waited, faces);
}

static void
host_changed (void *self)
{
  CarpaceGtkFaces *faces = self;

  wait_for_host (faces);
  if (!carpace_tray_is_hosted (faces->tray))
    return;
  g_clear_handle_id (&faces->host_wait, g_source_remove);
  faces->stood_in = false;
  if (faces->today_for_want_of_tray)
    {
      faces->today_for_want_of_tray = false;
      carpace_today_window_hide (today (faces));
    }
}

void
carpace_faces_tray_held (CarpaceGtkFaces *faces, bool held)
{
  carpace_tray_set_held (faces->tray, held);
}

void
carpace_faces_bus_gone (CarpaceGtkFaces *faces)
{
  carpace_tray_set_held (faces->tray, false);
  carpace_faces_notices_work (faces, false);
}

void
carpace_faces_present (CarpaceGtkFaces *faces)
{
  faces->today_for_want_of_tray = false;
  faces->view = *faces->given.look (faces->given.self);
  if (faces->given.first && faces->given.first (faces->given.self))
    return;
  carpace_today_window_show (today (faces), true, &faces->view, now_of (faces));
  ask_for_redraw (faces);
}

void
carpace_faces_notices_work (CarpaceGtkFaces *faces, bool work)
{
  bool worked = faces->notices_work;

  faces->notices_work = work && faces->given.notify;
  if (worked && !faces->notices_work && faces->has_view)
    show_what_is_on (faces); /* the one that failed said it to nobody */
}

/* What stands on the screen without its answers gives way to its card. */
void
carpace_faces_notices_answer (CarpaceGtkFaces *faces, bool answer)
{
  bool was_mute = faces->notices_mute;

  faces->notices_mute = !answer;
  if (answer || was_mute || !faces->has_view || faces->view.on_air)
    return;
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    {
      CarpaceEntry entry = carpace_view_cue (&faces->view, (CarpaceCue) cue, now_of (faces));
      CarpaceTold told = carpace_told (entry.cue.cue, entry.cue.what);

      if (!faces->view.cue_on[cue] || told == CARPACE_N_TOLD || carpace_told_rows[told].by != CARPACE_SHOWN_BY_NOTICE_FIRST)
        continue;
      if (faces->given.end_notice)
        faces->given.end_notice (faces->given.self, (CarpaceCue) cue);
      show_cue (faces, &entry);
    }
  ask_for_redraw (faces);
}

CarpaceGtkFaces *
carpace_faces_new (const CarpaceFacesGiven *given)
{
  CarpaceGtkFaces *faces = g_new0 (CarpaceGtkFaces, 1);

  faces->given = *given;
  faces->notices_work = given->notify != NULL;
  if (given->icon_folder)
    gtk_icon_theme_append_search_path (gtk_icon_theme_get_default (), given->icon_folder);
  faces->owner = (CarpaceOwner) { faces, owner_tell, owner_choose, owner_fill_plans, owner_redraw, owner_put_note_away };
  faces->deck = carpace_deck_new (&faces->owner);
  faces->tray = carpace_tray_new (&faces->owner, given->icon_folder, host_changed);
  carpace_faces_plans_changed (faces); /* soon: reading them takes longer than the tray item may */
  return faces;
}

void
carpace_faces_set_diary (CarpaceGtkFaces *faces, CarpaceDiary diary)
{
  faces->given.diary = diary;
}

void
carpace_faces_set_note (CarpaceGtkFaces *faces, const char *by, const char *text)
{
  g_free (faces->note_by);
  g_free (faces->note);
  faces->note_by = g_strdup (by);
  faces->note = g_strdup (text);
  if (faces->today)
    carpace_today_window_set_note (faces->today, by, text);
  ask_for_redraw (faces);
}

bool
carpace_faces_tell_note (CarpaceGtkFaces *faces, const CarpaceNotice *notice)
{
  const CarpaceView *view = &faces->view;

  if (!faces->has_view || view->on_air || carpace_state_in_block (view->state) || view->cue_on[notice->cue])
    return false;
  if (faces->today && carpace_today_window_is_shown (faces->today))
    return true;
  if (faces->notices_work)
    faces->given.notify (faces->given.self, notice);
  return faces->notices_work;
}

void
carpace_faces_first_gone (CarpaceGtkFaces *faces, const CarpaceNotice *notice)
{
  if (!carpace_tray_is_hosted (faces->tray))
    today_for_want_of_tray (faces);
  else if (notice != NULL && faces->notices_work)
    faces->given.notify (faces->given.self, notice);
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
  g_clear_pointer (&faces->today, carpace_today_window_free);
  carpace_tray_free (faces->tray);
  g_free (faces->note_by);
  g_free (faces->note);
  g_free (faces);
}
