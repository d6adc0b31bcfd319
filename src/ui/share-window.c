/* SPDX-License-Identifier: GPL-3.0-or-later */
/* share-window.c: a row a reader, a form for one more, and at the foot, in sight for both, the pass phrase they need. */
#include "ui/share-window.h"

#include <glib/gi18n.h>

#include "text/quoted.h"
#include "text/team-text.h"
#include "ui/card-style.h"
#include "ui/part-words.h"
#include "ui/phrase-field.h"
#include "ui/their-card.h"
#include "ui/window-room.h"

#define EDGE 20
#define TARGET 44
#define WIDTH 460
#define TALLEST 640

struct CarpaceShareWindow
{
  const CarpaceSharingShown *shown;
  void (*closed) (void *self);
  void *self;
  GtkWidget *window, *head, *form, *foot, *phrase, *rows, *whom, *card, *six_row, *six, *what[CARPACE_N_GRANT_WHATS], *means, *until, *told;
  int n_rows;
};

static void
name_for_at (GtkWidget *widget, const char *name)
{
  atk_object_set_name (gtk_widget_get_accessible (widget), name);
}

static void
append (GtkWidget *box, GtkWidget *child)
{
  gtk_box_pack_start (GTK_BOX (box), child, FALSE, FALSE, 0);
}

static GtkWidget *
button (const char *mnemonic, const char *class)
{
  GtkWidget *made = gtk_button_new_with_mnemonic (mnemonic);

  gtk_widget_set_size_request (made, TARGET, TARGET);
  gtk_style_context_add_class (gtk_widget_get_style_context (made), class);
  return made;
}

/* ---- with whom ---- */

static void look (CarpaceShareWindow *window);

static void
tell (void *user, const char *told)
{
  CarpaceShareWindow *window = user;

  gtk_label_set_text (GTK_LABEL (window->told), told);
  gtk_widget_set_visible (window->told, told[0] != '\0');
}

/* What the command said. */
static void
say (CarpaceShareWindow *window, const char *said, bool done)
{
  g_autofree char *all = carpace_phrase_field_used (window->phrase, said, done);

  tell (window, all);
  look (window);
}

static void
stop (GtkWidget *clicked, CarpaceShareWindow *window)
{
  g_autofree char *who = g_strdup (g_object_get_data (G_OBJECT (clicked), "who")), *said = NULL;
  bool done = false;

  if (carpace_phrase_field_is_wanted (window->phrase))
    return;
  said = window->shown->stop (window->shown->self, who, carpace_phrase_field_text (window->phrase), &done);
  say (window, said, done);
}

static bool
add_row (void *user, const CarpaceGrant *grant, CarpaceTeamFault holds)
{
  CarpaceShareWindow *window = user;
  g_autofree char *name = carpace_text_harmless (grant->reader_name), *row = carpace_text_grant_row (grant, holds), *at = NULL;
  char who[CARPACE_KEY_SHORT_BYTES];
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4), *stopped;

  window->n_rows++;
  append (box, carpace_part_words (name, "carpace-strong"));
  append (box, carpace_part_words (row, NULL));
  if (grant->what != CARPACE_GRANT_NONE)
    {
      append (box, carpace_part_words (carpace_text_grant_means (grant->what, true), NULL));
      carpace_key_short (&grant->reader, who);
      stopped = button (_("Stop sharing"), "carpace-plain");
      gtk_widget_set_halign (stopped, GTK_ALIGN_START);
      at = g_strdup_printf (_("Stop sharing with %s"), name);
      name_for_at (stopped, at);
      g_object_set_data_full (G_OBJECT (stopped), "who", g_strdup (who), g_free);
      g_signal_connect (stopped, "clicked", G_CALLBACK (stop), window);
      append (box, stopped);
    }
  append (window->rows, box);
  return true;
}

static void
remove_row (GtkWidget *row, gpointer box)
{
  gtk_widget_destroy (row);
}

static void
show_row (GtkWidget *row, gpointer box)
{
  gtk_widget_show_all (row);
}

static void
look (CarpaceShareWindow *window)
{
  g_autofree char *head = window->shown->head (window->shown->self);
  bool ready = window->shown->ready == NULL || window->shown->ready (window->shown->self);

  gtk_widget_set_visible (window->rows, ready);
  gtk_widget_set_visible (window->form, ready);
  gtk_widget_set_visible (window->foot, ready);
  gtk_label_set_text (GTK_LABEL (window->head), head);
  gtk_container_foreach (GTK_CONTAINER (window->rows), remove_row, NULL);
  window->n_rows = 0;
  window->shown->grants (window->shown->self, add_row, window);
  if (window->n_rows == 0)
    append (window->rows, carpace_part_words (_("You share with no one."), NULL));
  gtk_container_foreach (GTK_CONTAINER (window->rows), show_row, NULL);
}

/* ---- one more ---- */

static CarpaceGrantWhat
chosen_what (const CarpaceShareWindow *window)
{
  for (int what = CARPACE_GRANT_LOAD; what < CARPACE_N_GRANT_WHATS; what++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (window->what[what])))
      return (CarpaceGrantWhat) what;
  return CARPACE_GRANT_LOAD;
}

static void
what_chosen (CarpaceShareWindow *window)
{
  gtk_label_set_text (GTK_LABEL (window->means), carpace_text_grant_means (chosen_what (window), true));
}

/* Whose key is not accepted yet comes with a card and six words. */
static void
whom_chosen (CarpaceShareWindow *window)
{
  const char *id = gtk_combo_box_get_active_id (GTK_COMBO_BOX (window->whom));
  bool by_card = id != NULL && id[0] == '\0';

  gtk_widget_set_visible (window->card, by_card);
  gtk_widget_set_visible (window->six_row, by_card);
}

static void
share (CarpaceShareWindow *window)
{
  const char *id = gtk_combo_box_get_active_id (GTK_COMBO_BOX (window->whom));
  bool by_card = id == NULL || id[0] == '\0', done = false;
  g_autofree char *who = g_strdup (by_card ? carpace_their_card_path (window->card) : id), *said = NULL;
  CarpaceSharingAsk ask = { .what = chosen_what (window), .until = gtk_entry_get_text (GTK_ENTRY (window->until)),
                            .phrase = carpace_phrase_field_text (window->phrase) };

  if (who == NULL)
    {
      tell (window, _("Choose the file of their card first; they write it with “carpace key card”."));
      return;
    }
  if (carpace_phrase_field_is_wanted (window->phrase))
    return;
  ask.who = who;
  ask.words = by_card ? gtk_entry_get_text (GTK_ENTRY (window->six)) : NULL;
  said = window->shown->add (window->shown->self, &ask, &done);
  say (window, said, done);
}

/* However it came, it is this one that is meant, and its words come next. */
static void
card_taken (void *user)
{
  CarpaceShareWindow *window = user;

  gtk_combo_box_set_active_id (GTK_COMBO_BOX (window->whom), "");
  gtk_widget_grab_focus (window->six);
}

static bool
offer (void *user, const CarpaceCard *card)
{
  CarpaceShareWindow *window = user;
  g_autofree char *name = carpace_text_harmless (card->name), *label = NULL;
  char who[CARPACE_KEY_SHORT_BYTES];

  if (card->role != CARPACE_ROLE_COACH && card->role != CARPACE_ROLE_CLINICIAN)
    return true;
  carpace_key_short (&card->sign, who);
  /* Translators: a name, and who that is */
  label = g_strdup_printf (_("%s (%s)"), name, carpace_text_role (card->role));
  gtk_combo_box_text_append (GTK_COMBO_BOX_TEXT (window->whom), who, label);
  return true;
}

/* ---- how it is built ---- */

static GtkWidget *
add_field (GtkWidget *box, const char *mnemonic, GtkWidget *control)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4), *label = gtk_label_new_with_mnemonic (mnemonic);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), control);
  name_for_at (control, gtk_label_get_text (GTK_LABEL (label)));
  gtk_widget_set_size_request (control, -1, TARGET);
  append (row, label);
  append (row, control);
  append (box, row);
  return row;
}

static void
add_whats (CarpaceShareWindow *window, GtkWidget *box)
{
  GtkWidget *whats = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *first = NULL;

  for (int what = CARPACE_GRANT_LOAD; what < CARPACE_N_GRANT_WHATS; what++)
    {
      GtkWidget *one = gtk_radio_button_new_from_widget (GTK_RADIO_BUTTON (first));

      first = first != NULL ? first : one;
      gtk_container_add (GTK_CONTAINER (one), carpace_part_words (carpace_text_grant_what ((CarpaceGrantWhat) what), NULL));
      name_for_at (one, carpace_text_grant_what ((CarpaceGrantWhat) what));
      g_signal_connect_swapped (one, "toggled", G_CALLBACK (what_chosen), window);
      append (whats, window->what[what] = one);
    }
  append (box, whats);
  append (box, window->means = carpace_part_words ("", NULL));
}

static void
add_form (CarpaceShareWindow *window, GtkWidget *box)
{
  GtkWidget *title = carpace_part_words (_("Let somebody read"), "carpace-section");

  atk_object_set_role (gtk_widget_get_accessible (title), ATK_ROLE_HEADING);
  append (box, title);
  window->whom = gtk_combo_box_text_new ();
  add_field (box, _("_Who"), window->whom);
  append (box, window->card = carpace_their_card_new (window->shown, card_taken, tell, window));
  window->six = gtk_entry_new ();
  window->six_row = add_field (box, _("Their six _words, as they read them to you"), window->six);
  add_whats (window, box);
  window->until = gtk_entry_new ();
  gtk_entry_set_placeholder_text (GTK_ENTRY (window->until), _("until you stop it, or a date as 2027-03-02"));
  add_field (box, _("_Until"), window->until);
  append (box, carpace_part_words (_("Under 16, as your plan says, a parent or guardian has to agree as well: by the command “carpace share with”, "
                                     "then “carpace share countersign” on their computer."), "carpace-hint"));
}

/* In sight wherever the rows above are: what the buttons need, and what was said of the last one. */
static GtkWidget *
make_foot (CarpaceShareWindow *window)
{
  GtkWidget *share_button = button (_("S_hare"), "carpace-primary");

  window->foot = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  g_object_set (window->foot, "margin", EDGE, "margin-top", 12, NULL);
  window->told = carpace_part_words ("", NULL);
  gtk_label_set_selectable (GTK_LABEL (window->told), TRUE);
  atk_object_set_role (gtk_widget_get_accessible (window->told), ATK_ROLE_ALERT);
  append (window->foot, window->told);
  window->phrase = carpace_phrase_field_new (window->shown->kept, _("_Pass phrase of your key, for each change"), tell, window);
  carpace_phrase_field_add_button (window->phrase, share_button);
  g_signal_connect_swapped (share_button, "clicked", G_CALLBACK (share), window);
  append (window->foot, window->phrase);
  return window->foot;
}

static GtkWidget *
content (CarpaceShareWindow *window)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);

  g_object_set (box, "margin", EDGE, NULL);
  append (box, window->head = carpace_part_words ("", NULL));
  append (box, window->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16));
  append (box, window->form = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12));
  add_form (window, window->form);
  return box;
}

static GtkWidget *
all_of_it (CarpaceShareWindow *window)
{
  GtkWidget *all = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *scrolled = gtk_scrolled_window_new (NULL, NULL);

  gtk_style_context_add_class (gtk_widget_get_style_context (all), "carpace-body");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scrolled), FALSE);
  gtk_container_add (GTK_CONTAINER (scrolled), content (window));
  gtk_box_pack_start (GTK_BOX (all), scrolled, TRUE, TRUE, 0);
  append (all, gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  append (all, make_foot (window));
  return all;
}

static void
fill_whom (CarpaceShareWindow *window)
{
  window->shown->cards (window->shown->self, offer, window);
  gtk_combo_box_text_append (GTK_COMBO_BOX_TEXT (window->whom), "", _("Somebody else, by their card"));
  g_signal_connect_swapped (window->whom, "changed", G_CALLBACK (whom_chosen), window);
  gtk_combo_box_set_active (GTK_COMBO_BOX (window->whom), 0);
}

static gboolean
key_pressed (GtkWidget *widget, GdkEventKey *event, gpointer user)
{
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static gboolean
window_closed (GtkWidget *widget, GdkEvent *event, CarpaceShareWindow *window)
{
  gtk_widget_hide (widget);
  window->closed (window->self);
  return TRUE;
}

CarpaceShareWindow *
carpace_share_window_new (const CarpaceSharingShown *shown, void (*closed) (void *self), void *self)
{
  CarpaceShareWindow *window = g_new0 (CarpaceShareWindow, 1);

  carpace_card_style ();
  *window = (CarpaceShareWindow) { .shown = shown, .closed = closed, .self = self, .window = gtk_window_new (GTK_WINDOW_TOPLEVEL) };
  gtk_widget_set_name (window->window, "share-window");
  gtk_window_set_title (GTK_WINDOW (window->window), _("Sharing"));
  gtk_window_set_icon_name (GTK_WINDOW (window->window), "org.carpace.Carpace");
  carpace_window_within (window->window, WIDTH, TALLEST);
  gtk_style_context_add_class (gtk_widget_get_style_context (window->window), "carpace-window");
  g_signal_connect (window->window, "delete-event", G_CALLBACK (window_closed), window);
  g_signal_connect (window->window, "key-press-event", G_CALLBACK (key_pressed), NULL);
  gtk_container_add (GTK_CONTAINER (window->window), all_of_it (window));
  gtk_widget_show_all (gtk_bin_get_child (GTK_BIN (window->window)));
  gtk_widget_hide (window->told);
  fill_whom (window);
  whom_chosen (window);
  what_chosen (window);
  look (window);
  if (gtk_widget_get_visible (window->form))
    carpace_their_card_take_drops (window->card, window->window);
  return window;
}

void
carpace_share_window_free (CarpaceShareWindow *window)
{
  gtk_widget_destroy (window->window);
  g_free (window);
}

void
carpace_share_window_show (CarpaceShareWindow *window)
{
  gtk_window_present (GTK_WINDOW (window->window));
}

GtkWindow *
carpace_share_window_window (CarpaceShareWindow *window)
{
  return GTK_WINDOW (window->window);
}
