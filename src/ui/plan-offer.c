/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-offer.c: words that scroll, and two buttons under them. */
#include "ui/plan-offer.h"

#include <glib/gi18n.h>

#include "ui/card.h"

#define WIDTH 560
#define TALLEST 520
#define LEAST 96
#define EDGE 20
#define TARGET 44

struct CarpacePlanOfferWindow
{
  GtkWidget *window;
  void (*answered) (void *user, bool yes);
  void *user;
};

static void
answer (CarpacePlanOfferWindow *offer, bool yes)
{
  void (*answered) (void *user, bool yes) = offer->answered;

  offer->answered = NULL;
  gtk_widget_hide (offer->window);
  if (answered != NULL)
    answered (offer->user, yes);
}

static void
use (CarpacePlanOfferWindow *offer)
{
  answer (offer, true);
}

static void
leave (CarpacePlanOfferWindow *offer)
{
  answer (offer, false);
}

static gboolean
closed (GtkWidget *window, GdkEvent *event, CarpacePlanOfferWindow *offer)
{
  answer (offer, false);
  return TRUE;
}

static gboolean
key (GtkWidget *window, GdkEventKey *event, CarpacePlanOfferWindow *offer)
{
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  answer (offer, false);
  return TRUE;
}

static GtkWidget *
label (const char *text)
{
  GtkWidget *words = gtk_label_new (text);

  gtk_label_set_line_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_label_set_yalign (GTK_LABEL (words), 0);
  return words;
}

/* A fault can be copied by the mouse; the keys go through it in what it is scrolled in. */
static GtkWidget *
make_words (const char *text)
{
  GtkWidget *scrolled = gtk_scrolled_window_new (NULL, NULL), *words = label (text);

  gtk_label_set_selectable (GTK_LABEL (words), TRUE);
  gtk_widget_set_can_focus (words, FALSE);
  gtk_widget_set_name (words, "plan-words");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), TALLEST);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scrolled), FALSE);
  gtk_widget_set_size_request (scrolled, WIDTH - 2 * EDGE, LEAST);
  gtk_container_add (GTK_CONTAINER (scrolled), words);
  return scrolled;
}

static GtkWidget *
add_button (GtkWidget *row, const char *mnemonic, void (*clicked) (CarpacePlanOfferWindow *offer),
            CarpacePlanOfferWindow *offer)
{
  GtkWidget *button = carpace_card_button (mnemonic);

  gtk_widget_set_size_request (button, -1, TARGET);
  gtk_box_pack_start (GTK_BOX (row), button, FALSE, FALSE, 0);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked), offer);
  return button;
}

static void
fill (CarpacePlanOfferWindow *offer, const char *heading, const char *words, const char *use_words)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16), *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *title = label (heading), *primary, *first;

  gtk_container_set_border_width (GTK_CONTAINER (box), EDGE);
  gtk_style_context_add_class (gtk_widget_get_style_context (box), "carpace-card");
  gtk_style_context_add_class (gtk_widget_get_style_context (title), "carpace-heading");
  atk_object_set_role (gtk_widget_get_accessible (title), ATK_ROLE_HEADING);
  gtk_widget_set_halign (row, GTK_ALIGN_END);
  first = add_button (row, use_words != NULL ? _("_Not now") : _("_Close"), leave, offer);
  if (use_words != NULL)
    {
      primary = add_button (row, use_words, use, offer);
      gtk_style_context_add_class (gtk_widget_get_style_context (primary), "carpace-primary");
    }
  gtk_box_pack_start (GTK_BOX (box), title, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), make_words (words), TRUE, TRUE, 0);
  gtk_box_pack_end (GTK_BOX (box), row, FALSE, FALSE, 0);
  gtk_container_add (GTK_CONTAINER (offer->window), box);
  gtk_widget_show_all (box);
  gtk_widget_grab_focus (first); /* a key that is pressed without looking uses nothing */
}

CarpacePlanOfferWindow *
carpace_plan_offer_window_new (const char *heading, const char *words, const char *use_words,
                               void (*answered) (void *user, bool yes), void *user)
{
  CarpacePlanOfferWindow *offer = g_new0 (CarpacePlanOfferWindow, 1);

  carpace_card_style ();
  offer->answered = answered;
  offer->user = user;
  offer->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (offer->window, "plan-offer");
  gtk_window_set_title (GTK_WINDOW (offer->window), heading);
  gtk_window_set_icon_name (GTK_WINDOW (offer->window), "org.carpace.Carpace");
  gtk_window_set_default_size (GTK_WINDOW (offer->window), WIDTH, -1);
  gtk_window_set_position (GTK_WINDOW (offer->window), GTK_WIN_POS_CENTER);
  gtk_style_context_add_class (gtk_widget_get_style_context (offer->window), "carpace-window");
  g_signal_connect (offer->window, "delete-event", G_CALLBACK (closed), offer);
  g_signal_connect (offer->window, "key-press-event", G_CALLBACK (key), offer);
  fill (offer, heading, words, use_words);
  gtk_widget_show (offer->window);
  return offer;
}

void
carpace_plan_offer_window_free (CarpacePlanOfferWindow *offer)
{
  if (offer == NULL)
    return;
  offer->answered = NULL;
  gtk_widget_destroy (offer->window);
  g_free (offer);
}

GtkWindow *
carpace_plan_offer_window_window (CarpacePlanOfferWindow *offer)
{
  return GTK_WINDOW (offer->window);
}

/* ---- asked by a command ---- */

typedef struct
{
  GMainLoop *loop;
  bool yes;
} Asked;

static void
answered_command (void *user, bool yes)
{
  Asked *asked = user;

  asked->yes = yes;
  g_main_loop_quit (asked->loop);
}

bool
carpace_plan_offer_ask (const char *heading, const char *words, const char *use_words, bool *ret_yes)
{
  CarpacePlanOfferWindow *offer;
  Asked asked = { .yes = false };

  g_setenv ("GDK_GL", "disable", FALSE);
  if (!gtk_init_check (NULL, NULL))
    return false;
  asked.loop = g_main_loop_new (NULL, FALSE);
  offer = carpace_plan_offer_window_new (heading, words, use_words, answered_command, &asked);
  g_main_loop_run (asked.loop);
  carpace_plan_offer_window_free (offer);
  g_main_loop_unref (asked.loop);
  *ret_yes = asked.yes;
  return true;
}
