/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/part-words.h"

GtkWidget *
carpace_part_words (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_line_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 1);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  if (class != NULL)
    gtk_style_context_add_class (gtk_widget_get_style_context (label), class);
  return label;
}
