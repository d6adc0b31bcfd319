/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card.c: how a card is built. */
#include "ui/card-private.h"

#include <glib/gi18n.h>

#define MARGIN_END 12
#define MARK_CHARACTERS 18

static struct
{
  CarpaceCorner corner;
  bool other_monitor;
  char *chord;
} setup;

void
carpace_card_setup (const CarpaceCardSetup *given)
{
  setup.corner = given->corner;
  setup.other_monitor = given->other_monitor;
  g_free (setup.chord);
  setup.chord = g_strdup (given->chord);
}

bool
carpace_card_other_monitor (void)
{
  return setup.other_monitor;
}

CarpaceCorner
carpace_card_corner (void)
{
  return setup.corner;
}

const char *
carpace_card_chord (void)
{
  return setup.chord;
}

/* ---- how it is built ---- */

static GtkWidget *
make_start (CarpaceCard *card)
{
  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *start = gtk_event_box_new ();

  card->heading = carpace_card_heading (card->title);
  card->why = carpace_card_line ("");
  gtk_box_pack_start (GTK_BOX (both), card->heading, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (both), card->why, FALSE, FALSE, 0);
  gtk_widget_set_valign (both, GTK_ALIGN_CENTER);
  gtk_event_box_set_visible_window (GTK_EVENT_BOX (start), FALSE);
  gtk_widget_set_can_focus (start, TRUE);
  gtk_container_add (GTK_CONTAINER (start), both);
  carpace_card_name (start, card->title, NULL);
  gtk_widget_show_all (start);
  gtk_widget_hide (card->why);
  return start;
}

/* By Escape from the keyboard: Tab goes past it. */
static GtkWidget *
make_away (CarpaceCard *card)
{
  GtkWidget *away = gtk_button_new_with_label (_("Esc ×"));

  gtk_style_context_add_class (gtk_widget_get_style_context (away), "carpace-away");
  gtk_widget_set_can_focus (away, FALSE);
  gtk_widget_set_valign (away, GTK_ALIGN_START);
  carpace_card_name (away, _("Put away"), NULL);
  g_signal_connect_swapped (away, "clicked", G_CALLBACK (carpace_card_put_away), card);
  gtk_widget_show (away);
  return away;
}

static GtkWidget *
make_chord (void)
{
  GtkWidget *chord = carpace_card_line ("");

  gtk_label_set_line_wrap (GTK_LABEL (chord), FALSE);
  gtk_style_context_add_class (gtk_widget_get_style_context (chord), "carpace-quiet");
  return chord;
}

static char *marked;

void
carpace_card_mark (const char *mark)
{
  g_free (marked);
  marked = g_strdup (mark);
}

static void
add_mark (CarpaceCard *card)
{
  GtkWidget *mark = carpace_card_line (marked);

  gtk_label_set_max_width_chars (GTK_LABEL (mark), MARK_CHARACTERS);
  gtk_style_context_add_class (gtk_widget_get_style_context (mark), "carpace-quiet");
  carpace_card_add_to_head (card, mark);
}

CarpaceCard *
carpace_card_new (const char *name, const char *title)
{
  CarpaceCard *card = g_new0 (CarpaceCard, 1);

  carpace_card_style ();
  card->name = g_strdup (name);
  card->title = g_strdup (title);
  card->box = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_VERTICAL, CARPACE_CARD_FULL_SPACING));
  card->head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  card->body = gtk_box_new (GTK_ORIENTATION_VERTICAL, CARPACE_CARD_FULL_SPACING);
  card->foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  card->start = make_start (card);
  card->head_chord = make_chord ();
  card->chord = make_chord ();
  gtk_style_context_add_class (gtk_widget_get_style_context (card->box), "carpace-frame");
  gtk_box_pack_start (GTK_BOX (card->head), card->start, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (card->head), card->head_chord, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (card->head), card->away = make_away (card), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->foot), card->chord, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (card->box), card->head, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->box), card->body, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (card->box), card->foot, FALSE, FALSE, 0);
  gtk_widget_set_margin_end (card->body, MARGIN_END);
  gtk_widget_set_margin_end (card->foot, MARGIN_END);
  gtk_widget_show (card->head);
  gtk_widget_show (card->body);
  if (marked != NULL)
    add_mark (card);
  return card;
}

void
carpace_card_free (CarpaceCard *card)
{
  if (!card)
    return;
  card->seen = NULL;
  carpace_card_hide (card);
  if (card->bar)
    gtk_widget_destroy (card->bar);
  gtk_widget_destroy (card->box);
  g_object_unref (card->box);
  g_free (card->icon);
  g_free (card->waits);
  g_free (card->keys);
  g_free (card->name);
  g_free (card->title);
  g_free (card);
}

GtkBox *
carpace_card_box (CarpaceCard *card)
{
  return GTK_BOX (card->body);
}

GtkWidget *
carpace_card_heading_of (CarpaceCard *card)
{
  return card->heading;
}

GtkWidget *
carpace_card_why (CarpaceCard *card)
{
  return card->why;
}

GtkWidget *
carpace_card_add_heading (CarpaceCard *card, const char *text)
{
  carpace_card_say (card->heading, text);
  return card->heading;
}

/* ---- answers ---- */

static void
answer_clicked (GtkWidget *button, CarpaceCard *card)
{
  for (int i = 0; i < card->n_answers; i++)
    if (card->answers[i].button == button && carpace_card_takes_clicks (card))
      {
        card->answers[i].clicked (card->answers[i].user);
        return;
      }
}

void
carpace_card_answer_say (GtkWidget *answer, const char *mnemonic)
{
  GtkWidget *label = g_object_get_data (G_OBJECT (answer), "label");

  if (label && g_strcmp0 (gtk_label_get_label (GTK_LABEL (label)), mnemonic) != 0)
    {
      gtk_label_set_text_with_mnemonic (GTK_LABEL (label), mnemonic);
      carpace_card_name (answer, gtk_label_get_text (GTK_LABEL (label)), NULL);
    }
}

void
carpace_card_make_primary (GtkWidget *answer)
{
  gtk_style_context_add_class (gtk_widget_get_style_context (answer), "carpace-primary");
}

GtkWidget *
carpace_card_add_answer (CarpaceCard *card, int digit, const char *mnemonic, void (*clicked) (void *user), void *user)
{
  CarpaceCardAnswer *answer = &card->answers[card->n_answers];
  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  g_autofree char *key = digit > 0 ? g_strdup_printf ("%d", digit) : g_strdup ("");

  g_assert (card->n_answers < CARPACE_CARD_ANSWERS);
  *answer = (CarpaceCardAnswer) { .button = gtk_button_new (), .label = gtk_label_new (""), .key = gtk_label_new (key),
                       .digit = digit, .clicked = clicked, .user = user };
  gtk_style_context_add_class (gtk_widget_get_style_context (answer->button), "carpace-button");
  gtk_style_context_add_class (gtk_widget_get_style_context (answer->key), "carpace-key");
  if (card->n_answers == 0)
    carpace_card_make_primary (answer->button);
  gtk_box_pack_start (GTK_BOX (both), answer->label, TRUE, TRUE, 0);
  gtk_box_pack_end (GTK_BOX (both), answer->key, FALSE, FALSE, 0);
  gtk_widget_set_valign (answer->key, GTK_ALIGN_CENTER);
  gtk_label_set_mnemonic_widget (GTK_LABEL (answer->label), answer->button);
  gtk_label_set_justify (GTK_LABEL (answer->label), GTK_JUSTIFY_CENTER);
  gtk_container_add (GTK_CONTAINER (answer->button), both);
  g_object_set_data (G_OBJECT (answer->button), "label", answer->label);
  carpace_card_answer_say (answer->button, mnemonic);
  gtk_box_pack_end (GTK_BOX (card->foot), answer->button, FALSE, FALSE, 0);
  gtk_widget_show_all (answer->button);
  gtk_widget_set_visible (answer->key, digit > 0);
  g_signal_connect (answer->button, "clicked", G_CALLBACK (answer_clicked), card);
  card->n_answers++;
  return answer->button;
}

typedef struct
{
  const CarpaceOwner *owner;
  CarpaceEventKind kind;
} Telling;

static void
tell (void *user)
{
  const Telling *telling = user;
  CarpaceEvent event = { .kind = telling->kind };

  telling->owner->tell (telling->owner->self, &event);
}

GtkWidget *
carpace_card_add_event (CarpaceCard *card, int digit, const char *mnemonic, const CarpaceOwner *owner, CarpaceEventKind kind)
{
  Telling *telling = g_memdup2 (&(Telling) { owner, kind }, sizeof *telling);
  GtkWidget *button = carpace_card_add_answer (card, digit, mnemonic, tell, telling);

  g_object_set_data_full (G_OBJECT (button), "telling", telling, g_free);
  return button;
}

static bool
is_offered (const CarpaceCardAnswer *answer)
{
  return gtk_widget_get_visible (answer->button) && gtk_widget_get_sensitive (answer->button);
}

bool
carpace_card_digit (CarpaceCard *card, int digit)
{
  for (int i = 0; i < card->n_answers; i++)
    if (digit > 0 && card->answers[i].digit == digit && is_offered (&card->answers[i]))
      {
        card->by_key = true;
        card->answers[i].clicked (card->answers[i].user);
        card->by_key = false;
        return true;
      }
  return false;
}

void
carpace_card_set_aside (CarpaceCard *card, GtkWidget *aside)
{
  card->aside = aside;
  gtk_box_pack_start (GTK_BOX (card->foot), aside, TRUE, TRUE, 0);
}

void
carpace_card_add_to_head (CarpaceCard *card, GtkWidget *widget)
{
  gtk_box_pack_end (GTK_BOX (card->head), widget, FALSE, FALSE, 0);
}

void
carpace_card_set_away (CarpaceCard *card, bool visible)
{
  gtk_widget_set_visible (card->away, visible);
  gtk_widget_set_margin_end (card->head, visible ? 0 : MARGIN_END); /* else the chord would touch the edge */
}

/* The foot row is there where it has something; the keys where they answer. */
void
carpace_card_draw_foot (CarpaceCard *card)
{
  bool aside = card->aside && gtk_widget_get_visible (card->aside);
  bool keys = card->way == CARPACE_CARD_BY_PLAYER || carpace_card_names_chord (card), any = false, any_key = false;

  for (int i = 0; i < card->n_answers; i++)
    {
      bool visible = gtk_widget_get_visible (card->answers[i].button);

      gtk_widget_set_visible (card->answers[i].key, keys && card->answers[i].digit > 0);
      any |= visible;
      any_key |= visible && card->answers[i].digit > 0;
    }
  gtk_widget_set_visible (card->foot, any || aside);
  card->chord_wanted = (any_key || card->body_keys) && carpace_card_names_chord (card);
  card->chord_above = aside || !any;
  if (card->chord_wanted)
    {
      g_autofree char *text = card->armed ? g_strdup (_("Now press")) : g_strdup_printf (_("%s, then"), setup.chord);
      gtk_label_set_text (GTK_LABEL (card->chord), text);
      gtk_label_set_text (GTK_LABEL (card->head_chord), text);
    }
  gtk_widget_set_visible (card->chord, card->chord_wanted && !card->chord_above);
  gtk_widget_set_visible (card->head_chord, card->chord_wanted && card->chord_above);
}

void
carpace_card_set_body_keys (CarpaceCard *card, bool keys)
{
  card->body_keys = keys;
}

bool
carpace_card_names_chord (const CarpaceCard *card)
{
  return setup.chord && card->way == CARPACE_CARD_BY_ITSELF;
}

void
carpace_card_arm (CarpaceCard *card, bool armed)
{
  card->armed = armed;
  if (!card->window)
    return;
  if (armed)
    gtk_style_context_add_class (gtk_widget_get_style_context (card->window), "armed");
  else
    gtk_style_context_remove_class (gtk_widget_get_style_context (card->window), "armed");
  carpace_card_fit (card);
}
