/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/planner-parts.h"

#include "draw/plan-paint.h"
#include "ui/card.h"
#include "ui/day-rail.h"

#define EDGE 16

void
carpace_part_append (GtkWidget *box, GtkWidget *child, int space)
{
  gtk_widget_set_margin_top (child, space);
  gtk_box_pack_start (GTK_BOX (box), child, FALSE, FALSE, 0);
}

GtkWidget *
carpace_part_button (const char *text)
{
  GtkWidget *button = gtk_button_new (), *label = gtk_label_new_with_mnemonic (text);

  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), button);
  gtk_container_add (GTK_CONTAINER (button), label);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-plain");
  gtk_widget_show (label);
  return button;
}

void
carpace_part_say_button (GtkWidget *button, const char *text)
{
  GtkWidget *label = gtk_bin_get_child (GTK_BIN (button));

  if (g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), text) != 0)
    gtk_label_set_text (GTK_LABEL (label), text);
}

GtkWidget *
carpace_part_row_button (const char *text)
{
  GtkWidget *button = gtk_button_new (), *label = carpace_part_words (text, NULL);

  gtk_container_add (GTK_CONTAINER (button), label);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-row");
  carpace_card_name (button, text, NULL);
  gtk_widget_show_all (button);
  return button;
}

GtkWidget *
carpace_part_page (GtkWidget **ret_box)
{
  GtkWidget *scrolled = gtk_scrolled_window_new (NULL, NULL), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scrolled), FALSE);
  g_object_set (box, "margin", EDGE, NULL);
  gtk_container_add (GTK_CONTAINER (scrolled), box);
  gtk_widget_show (box);
  gtk_widget_show (scrolled);
  *ret_box = box;
  return scrolled;
}

char *
carpace_part_begun (const char *text)
{
  gunichar first = g_utf8_get_char (text);
  char begun[7] = { 0 };

  if (*text == '\0')
    return g_strdup ("");
  g_unichar_to_utf8 (g_unichar_totitle (first), begun);
  return g_strconcat (begun, g_utf8_next_char (text), NULL);
}

static gboolean
draw_pattern (GtkWidget *pattern, cairo_t *cr, gpointer user)
{
  carpace_pattern_paint (cr, carpace_shades_of (pattern), carpace_em_of (pattern), GPOINTER_TO_INT (g_object_get_data (G_OBJECT (pattern), "drill")),
                         0, 0, gtk_widget_get_allocated_width (pattern), gtk_widget_get_allocated_height (pattern));
  return FALSE;
}

GtkWidget *
carpace_part_pattern (void)
{
  GtkWidget *pattern = gtk_drawing_area_new ();

  gtk_widget_set_size_request (pattern, 32, 24);
  gtk_widget_set_valign (pattern, GTK_ALIGN_CENTER);
  g_signal_connect (pattern, "draw", G_CALLBACK (draw_pattern), NULL);
  return pattern;
}

void
carpace_part_set_pattern (GtkWidget *pattern, int32_t drill)
{
  g_object_set_data (G_OBJECT (pattern), "drill", GINT_TO_POINTER (drill));
  gtk_widget_queue_draw (pattern);
}
