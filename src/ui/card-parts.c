/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card-parts.c: the look of cards, and what they are made of. */
#include "ui/card.h"

#include <string.h>

#define MOST_CHARACTERS 62

void
carpace_card_style (void)
{
  static gsize done;
  GtkCssProvider *css;

  if (!g_once_init_enter (&done))
    return;
  css = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (css, "/org/carpace/Carpace/ui/carpace.css");
  gtk_style_context_add_provider_for_screen (gdk_screen_get_default (), GTK_STYLE_PROVIDER (css),
                                             GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_object_unref (css);
  g_once_init_leave (&done, 1);
}

GtkWidget *
carpace_card_line (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), MOST_CHARACTERS);
  gtk_widget_set_visible (label, text && *text);
  return label;
}

GtkWidget *
carpace_card_heading (const char *text)
{
  GtkWidget *label = carpace_card_line (text);
  gtk_style_context_add_class (gtk_widget_get_style_context (label), "carpace-heading");
  return label;
}

GtkWidget *
carpace_card_button (const char *mnemonic)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (mnemonic);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-button");
  gtk_widget_show (button);
  return button;
}

void
carpace_card_say (GtkWidget *label, const char *text)
{
  if (g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), text) != 0)
    gtk_label_set_text (GTK_LABEL (label), text);
  gtk_widget_set_visible (label, *text);
}

void
carpace_card_name (GtkWidget *widget, const char *name, const char *description)
{
  AtkObject *accessible = gtk_widget_get_accessible (widget);

  atk_object_set_name (accessible, name);
  if (description)
    atk_object_set_description (accessible, description);
}
