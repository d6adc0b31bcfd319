/* SPDX-License-Identifier: GPL-3.0-or-later */
/* morning-card.c: waking, stiffness, now; then the day's dose in a sentence, and where it is felt. */
#include "ui/morning-card.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/level-text.h"
#include "text/text.h"
#include "ui/choice.h"
#include "ui/site-choice.h"

/* The day's dose and its reason stay on the screen this long. */
#define STAYS_S 15

/* Small, one question at a time. */
enum { ON_WAKING, STIFFNESS, NOW, LOAD, RELIEF, N_STEPS };

struct CarpaceMorningCard
{
  const CarpaceOwner *owner;
  CarpaceCard *card;
  GtkWidget *questions, *question[N_STEPS], *waking, *stiffness, *now, *boxes, *other_load, *other_minutes, *pain_relief;
  GtkWidget *done, *finish, *start, *later, *where, *sites, *no, *yes, *skip;
  CarpaceMorning given;
  bool starts; /* block 1 could begin */
  int step;
  bool small;
  bool tight;    /* no room for the row of the ends */
  bool asked;    /* shown because the day asks */
  bool answered;
  bool locating; /* one more tap, for the site */
  bool by_key;
  guint stays_timer;
};

static void draw_room (CarpaceMorningCard *card);

static gboolean
stayed (gpointer user)
{
  CarpaceMorningCard *card = user;
  card->stays_timer = 0;
  carpace_morning_card_hide (card);
  return G_SOURCE_REMOVE;
}

static CarpaceStiffness
stiffness_chosen (CarpaceMorningCard *card)
{
  int chosen = carpace_choice_get (card->stiffness);
  return chosen < 0 ? CARPACE_STIFFNESS_UNSAID : (CarpaceStiffness) (CARPACE_STIFFNESS_LESS + chosen);
}

static bool
tell_given (CarpaceMorningCard *card)
{
  const CarpaceEvent event = { .kind = CARPACE_EVENT_MORNING, .morning = card->given };

  if (!card->owner->tell (card->owner->self, &event))
    return false;
  card->answered = true;
  card->locating = false;
  carpace_card_deafen (card->card);
  g_clear_handle_id (&card->stays_timer, g_source_remove);
  card->stays_timer = g_timeout_add_seconds (STAYS_S, stayed, card);
  card->owner->redraw (card->owner->self);
  return true;
}

static void
tell_morning (CarpaceMorningCard *card)
{
  card->given = (CarpaceMorning){
    .waking = carpace_choice_get (card->waking),
    .stiffness = stiffness_chosen (card),
    .now = carpace_choice_get (card->now),
    .other_load = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (card->other_load)),
    .pain_relief = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (card->pain_relief)),
  };
  tell_given (card);
}

/* The same check once more, with what was added to it. */
static void
tell_site (CarpaceMorningCard *card, CarpaceSite site)
{
  card->given.site = site;
  if (!tell_given (card))
    card->given.site = CARPACE_SITE_NONE;
}

static void
site_chosen (void *user, CarpaceSite site)
{
  CarpaceMorningCard *card = user;

  if (carpace_card_takes_clicks (card->card))
    tell_site (card, site);
}

/* Nothing is said of a hand without discomfort. */
static bool
asks_site (const CarpaceMorningCard *card)
{
  return card->answered && card->given.site == CARPACE_SITE_NONE && MAX (card->given.waking, card->given.now) > 0;
}

static void
locate (CarpaceMorningCard *card, bool locating)
{
  card->locating = locating;
  g_clear_handle_id (&card->stays_timer, g_source_remove);
  if (!locating)
    card->stays_timer = g_timeout_add_seconds (STAYS_S, stayed, card);
  carpace_card_deafen (card->card);
  card->owner->redraw (card->owner->self);
}

static void
where_clicked (void *card)
{
  locate (card, true);
}

static void
back_clicked (CarpaceMorningCard *card)
{
  locate (card, false);
}

static void
done_clicked (void *user)
{
  CarpaceMorningCard *card = user;

  if (card->answered)
    carpace_card_put_away (card->card);
  else
    tell_morning (card);
}

static void
start_clicked (void *user)
{
  CarpaceMorningCard *card = user;
  CarpaceEvent event = { .kind = CARPACE_EVENT_START };

  carpace_morning_card_hide (card);
  card->owner->tell (card->owner->self, &event);
}

static void
next_step (CarpaceMorningCard *card)
{
  if (!card->small || !(card->by_key || carpace_card_takes_clicks (card->card)))
    return;
  if (card->step + 1 >= N_STEPS)
    {
      tell_morning (card);
      return;
    }
  card->step++;
  carpace_card_deafen (card->card);
  draw_room (card);
  carpace_card_fit (card->card);
}

static void
say (CarpaceMorningCard *card, bool yes)
{
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card->step == LOAD ? card->other_load : card->pain_relief), yes);
  next_step (card);
}

static void
no_clicked (void *card)
{
  say (card, false);
}

static void
yes_clicked (void *card)
{
  say (card, true);
}

static void
chosen (GtkToggleButton *button, CarpaceMorningCard *card)
{
  if (gtk_toggle_button_get_active (button))
    next_step (card);
}

static void
add_question (CarpaceMorningCard *card, int step, const char *question, GtkWidget *choice, int n)
{
  card->question[step] = carpace_card_line (question);
  gtk_box_pack_start (GTK_BOX (card->questions), card->question[step], FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->questions), choice, FALSE, FALSE, 0);
  for (int i = 0; i < n; i++)
    g_signal_connect (carpace_choice_button (choice, i), "toggled", G_CALLBACK (chosen), card);
}

static GtkWidget *
add_box (CarpaceMorningCard *card, const char *mnemonic)
{
  GtkWidget *box = gtk_check_button_new_with_mnemonic (mnemonic);
  gtk_box_pack_start (GTK_BOX (card->boxes), box, FALSE, FALSE, 0);
  gtk_widget_show (box);
  return box;
}

static void
make_questions (CarpaceMorningCard *card)
{
  const char *stiff[] = { _("less"), _("as usual"), _("more") };

  card->questions = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  card->boxes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  card->waking = carpace_choice_new_numbers (_("discomfort on waking"));
  card->stiffness = carpace_choice_new (_("stiffness on waking"), stiff, G_N_ELEMENTS (stiff));
  card->now = carpace_choice_new_numbers (_("discomfort now"));
  add_question (card, ON_WAKING, _("Discomfort in the hand or arm on waking"), card->waking, 11);
  add_question (card, STIFFNESS, _("Stiffness on waking"), card->stiffness, G_N_ELEMENTS (stiff));
  add_question (card, NOW, _("Discomfort now"), card->now, 11);
  card->question[LOAD] = carpace_card_line (_("Hand unusually busy with something else yesterday?"));
  card->question[RELIEF] = carpace_card_line (_("Pain relief taken?"));
  for (int i = LOAD; i < N_STEPS; i++)
    gtk_box_pack_start (GTK_BOX (card->questions), card->question[i], FALSE, FALSE, 0);
  card->other_load = add_box (card, _("Hand _unusually busy with something else yesterday"));
  card->other_minutes = carpace_card_line ("");
  gtk_box_pack_start (GTK_BOX (card->boxes), card->other_minutes, FALSE, FALSE, 0);
  card->pain_relief = add_box (card, _("Pain _relief taken"));
  gtk_box_pack_start (GTK_BOX (card->questions), card->boxes, FALSE, FALSE, 0);
  gtk_widget_show (card->boxes);
}

static void
closed (void *user)
{
  CarpaceMorningCard *card = user;

  card->locating = false;
  g_clear_handle_id (&card->stays_timer, g_source_remove);
}

/* Which question it is, and the keys where they are not on the answers. */
static char *
step_line (const CarpaceMorningCard *card)
{
  int n = card->step + 1;

  if (card->tight && (card->step == ON_WAKING || card->step == NOW))
    return g_strdup (_("0 no discomfort, 10 worst imaginable"));
  if (!carpace_card_names_chord (card->card) || card->step >= LOAD)
    return g_strdup_printf (_("This morning, %d of %d. Leave out what you like."), n, N_STEPS);
  if (card->step == STIFFNESS)
    return g_strdup_printf (_("This morning, %d of %d. 1, 2 or 3."), n, N_STEPS);
  return g_strdup_printf (_("This morning, %d of %d. 0 to 9; 10: next key."), n, N_STEPS);
}

/* What there is room for: all, or the question at hand. */
static void
draw_room (CarpaceMorningCard *card)
{
  GtkWidget *const choices[N_STEPS] = { card->waking, card->stiffness, card->now, NULL, NULL };
  g_autofree char *step = step_line (card);
  bool steps = card->small && !card->answered, asks_twice = steps && card->step >= LOAD;
  bool said = card->answered && !card->locating;

  for (int i = 0; i < N_STEPS; i++)
    {
      if (choices[i])
        gtk_widget_set_visible (choices[i], !steps || i == card->step);
      gtk_widget_set_visible (card->question[i], !card->small && i < LOAD);
    }
  gtk_widget_set_visible (card->boxes, !card->small);
  carpace_card_set_body_keys (card->card, (steps && card->step < LOAD) || card->locating);
  carpace_card_set_away (card->card, !card->locating || !card->small); /* small, the sites have the place of the head's end */
  gtk_widget_set_visible (card->questions, !card->answered);
  gtk_widget_set_visible (card->sites, card->locating);
  gtk_widget_set_visible (card->where, said && asks_site (card));
  gtk_widget_set_visible (card->skip, steps);
  gtk_widget_set_visible (card->no, asks_twice);
  gtk_widget_set_visible (card->yes, asks_twice);
  gtk_widget_set_visible (card->done, !card->small && !card->answered);
  gtk_widget_set_visible (card->finish, said && !card->starts);
  gtk_widget_set_visible (card->start, said && card->starts);
  gtk_widget_set_visible (card->later, said && card->starts);
  gtk_box_set_spacing (GTK_BOX (card->questions), card->small ? 0 : 8);
  if (!card->answered)
    carpace_card_say (carpace_card_heading_of (card->card), steps ? gtk_label_get_text (GTK_LABEL (card->question[card->step])) : _("This morning"));
  if (!card->answered)
    carpace_card_say (carpace_card_why (card->card),
                      steps ? step : _("Three taps; leave any out. Practice time normally grows only after this check."));
}

static void
tightened (void *user, bool tight)
{
  CarpaceMorningCard *card = user;

  card->tight = tight;
  carpace_choice_show_ends (card->waking, !tight);
  carpace_choice_show_ends (card->now, !tight);
  carpace_site_choice_set_tight (card->sites, tight);
  draw_room (card);
}

static void
formed (void *user, CarpaceForm form)
{
  CarpaceMorningCard *card = user;

  card->small = form == CARPACE_FORM_SMALL;
  carpace_site_choice_set_small (card->sites, card->small);
  draw_room (card);
}

bool
carpace_morning_card_digit (CarpaceMorningCard *card, int digit)
{
  GtkWidget *const choices[N_STEPS] = { card->waking, card->stiffness, card->now, NULL, NULL };
  int i = card->step == STIFFNESS ? digit - 1 : digit, n = card->step == STIFFNESS ? 3 : 11;

  if (card->locating)
    {
      if (digit <= CARPACE_SITE_NONE || digit >= CARPACE_N_SITES)
        return false;
      tell_site (card, (CarpaceSite) digit);
      return true;
    }
  if (!card->small || card->answered || !choices[card->step])
    {
      bool means;
      card->by_key = true;
      means = carpace_card_digit (card->card, digit);
      card->by_key = false;
      return means;
    }
  if (i < 0 || i >= n)
    return false;
  card->by_key = true;
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_choice_button (choices[card->step], i)), TRUE);
  card->by_key = false;
  return true;
}

bool
carpace_morning_card_asks_on (const CarpaceMorningCard *card)
{
  return (card->small && !card->answered) || card->locating;
}

static bool
key_pressed (void *user, const GdkEventKey *event)
{
  CarpaceMorningCard *card = user;

  if (card->locating && event->keyval >= GDK_KEY_1 && event->keyval <= GDK_KEY_9)
    return carpace_morning_card_digit (card, (int) (event->keyval - GDK_KEY_0));
  return !card->small && event->keyval >= GDK_KEY_0 && event->keyval <= GDK_KEY_9; /* no digit is meant for Done */
}

static GtkWidget *
make_sites (CarpaceMorningCard *card)
{
  GtkWidget *back = carpace_card_button (_("Back"));

  g_signal_connect_swapped (back, "clicked", G_CALLBACK (back_clicked), card);
  return card->sites = carpace_site_choice_new (site_chosen, card, back);
}

CarpaceMorningCard *
carpace_morning_card_new (const CarpaceOwner *owner)
{
  CarpaceMorningCard *card = g_new0 (CarpaceMorningCard, 1);

  card->owner = owner;
  card->card = carpace_card_new ("morning-card", _("This morning"));
  make_questions (card);
  gtk_box_pack_start (carpace_card_box (card->card), card->questions, FALSE, FALSE, 0);
  gtk_box_pack_start (carpace_card_box (card->card), make_sites (card), FALSE, FALSE, 0);
  card->skip = gtk_button_new_with_mnemonic (_("_Leave out"));
  gtk_style_context_add_class (gtk_widget_get_style_context (card->skip), "carpace-away");
  g_signal_connect_swapped (card->skip, "clicked", G_CALLBACK (next_step), card);
  carpace_card_add_to_head (card->card, card->skip);
  card->start = carpace_card_add_answer (card->card, 1, "", start_clicked, card);
  card->no = carpace_card_add_answer (card->card, 1, _("_No"), no_clicked, card);
  card->yes = carpace_card_add_answer (card->card, 2, _("_Yes"), yes_clicked, card);
  card->where = carpace_card_add_answer (card->card, 2, _("_Where is it?"), where_clicked, card);
  card->later = carpace_card_add_answer (card->card, 3, _("_Done"), done_clicked, card);
  card->finish = carpace_card_add_answer (card->card, 1, _("_Done"), done_clicked, card);
  card->done = carpace_card_add_answer (card->card, 0, _("_Done"), done_clicked, card); /* among squares no digit means it */
  carpace_card_make_primary (card->finish);
  carpace_card_make_primary (card->done);
  carpace_card_set_bar (card->card, "org.carpace.Carpace-waiting-symbolic", _("This morning"), "0–9");
  carpace_card_on_form (card->card, formed, card);
  carpace_card_on_tight (card->card, tightened);
  carpace_card_on_key (card->card, key_pressed, card);
  carpace_card_on_close (card->card, closed, card);
  carpace_card_on_seen (card->card, owner->redraw, owner->self);
  return card;
}

void
carpace_morning_card_free (CarpaceMorningCard *card)
{
  if (!card)
    return;
  closed (card);
  carpace_card_free (card->card);
  g_free (card);
}

CarpaceCard *
carpace_morning_card_card (CarpaceMorningCard *card)
{
  return card->card;
}

GtkWidget *
carpace_morning_card_waking (CarpaceMorningCard *card)
{
  return card->waking;
}

GtkWidget *
carpace_morning_card_stiffness (CarpaceMorningCard *card)
{
  return card->stiffness;
}

GtkWidget *
carpace_morning_card_now (CarpaceMorningCard *card)
{
  return card->now;
}

GtkWidget *
carpace_morning_card_done (CarpaceMorningCard *card)
{
  return card->done;
}

GtkWidget *
carpace_morning_card_where (CarpaceMorningCard *card)
{
  return card->where;
}

GtkWidget *
carpace_morning_card_sites (CarpaceMorningCard *card)
{
  return card->sites;
}

void
carpace_morning_card_hide (CarpaceMorningCard *card)
{
  carpace_card_hide (card->card);
  closed (card);
}

static char *
other_minutes_line (const CarpaceView *view)
{
  g_autofree char *other = carpace_text_duration (view->other_ms / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);
  g_autofree char *mean = carpace_text_duration (view->other_mean_ms / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);

  if (view->other_ms < 0)
    return g_strdup ("");
  if (view->other_mean_ms < 0)
    return g_strdup_printf (_("Mouse in use outside practice yesterday: %s."), other);
  return g_strdup_printf (_("Mouse in use outside practice yesterday: %s. On a usual day: %s."), other, mean);
}

static char *
answer_line (const CarpaceView *view)
{
  g_autofree char *why = NULL;
  g_autofree char *usual = NULL;

  if (!view->has_decision || view->decision.scope != CARPACE_SCOPE_DAY)
    return g_strdup (_("Noted."));
  why = carpace_text_why_short (&view->decision);
  usual = carpace_text_usual_too_low (&view->decision);
  return usual == NULL ? g_steal_pointer (&why) : g_strconcat (why, "\n", usual, NULL);
}

static void
draw (CarpaceMorningCard *card, const CarpaceView *view)
{
  g_autofree char *other = other_minutes_line (view);
  g_autofree char *answer = card->answered ? answer_line (view) : g_strdup ("");
  g_autofree char *start = carpace_text_start_or_end (view);

  carpace_card_say (card->other_minutes, other);
  carpace_site_choice_set (card->sites, card->given.site, view->plan != NULL && view->plan->side == CARPACE_SIDE_LEFT);
  card->starts = view->state == CARPACE_STATE_WAITING && view->block > 0;
  draw_room (card);
  if (card->answered)
    {
      carpace_card_say (carpace_card_heading_of (card->card),
                        card->locating ? _("Where is it? One more tap, if you like.") : _("This morning"));
      carpace_card_say (carpace_card_why (card->card), card->locating ? "" : answer);
    }
  carpace_card_answer_say (card->start, start);
  carpace_card_fit (card->card);
}

void
carpace_morning_card_draw (CarpaceMorningCard *card, const CarpaceView *view)
{
  if (!carpace_card_is_shown (card->card))
    return;
  if (view->on_air || (card->asked && !card->answered && !view->cue_on[CARPACE_CUE_MORNING]))
    carpace_morning_card_hide (card);
  else
    draw (card, view);
}

static void
begin_anew (CarpaceMorningCard *card)
{
  card->answered = false;
  card->given = (CarpaceMorning){ .waking = -1, .now = -1 };
  card->step = ON_WAKING;
  carpace_choice_clear (card->waking);
  carpace_choice_clear (card->stiffness);
  carpace_choice_clear (card->now);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card->other_load), FALSE);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card->pain_relief), FALSE);
}

void
carpace_morning_card_show (CarpaceMorningCard *card, CarpaceCardWay way, const CarpaceView *view)
{
  if (view->on_air)
    return;
  if (!carpace_card_is_shown (card->card))
    {
      begin_anew (card);
      card->asked = view->cue_on[CARPACE_CUE_MORNING];
      draw (card, view);
    }
  carpace_card_show (card->card, way);
}
