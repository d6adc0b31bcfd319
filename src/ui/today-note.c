/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/today-note.h"

#include <glib/gi18n.h>

#include "ui/card.h"
#include "ui/part-words.h"

#define LABELS "labels"

typedef struct
{
  GtkWidget *by, *text;
  bool any;
} Labels;

static Labels *
labels_of (GtkWidget *note)
{
  return g_object_get_data (G_OBJECT (note), LABELS);
}

static void
put_away (GtkWidget *button, const CarpaceOwner *owner)
{
  if (owner->put_note_away != NULL)
    owner->put_note_away (owner->self);
}

static GtkWidget *
add_words (GtkWidget *box)
{
  GtkWidget *label = carpace_part_words (NULL, NULL);

  gtk_box_pack_start (GTK_BOX (box), label, FALSE, FALSE, 0);
  return label;
}

GtkWidget *
carpace_today_note_new (const CarpaceOwner *owner)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4), *button = gtk_button_new_with_label (_("Put away"));
  Labels *labels = g_new0 (Labels, 1);

  gtk_box_pack_start (GTK_BOX (box), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL), FALSE, FALSE, 0);
  labels->by = add_words (box);
  labels->text = add_words (box);
  gtk_style_context_add_class (gtk_widget_get_style_context (labels->by), "carpace-strong");
  gtk_widget_set_margin_top (labels->by, 12);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-quiet");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  carpace_card_name (button, _("Put the note away"), NULL);
  g_signal_connect (button, "clicked", G_CALLBACK (put_away), (gpointer) owner);
  gtk_box_pack_start (GTK_BOX (box), button, FALSE, FALSE, 0);
  gtk_widget_show_all (box);
  gtk_widget_hide (box);
  gtk_widget_set_no_show_all (box, TRUE);
  g_object_set_data_full (G_OBJECT (box), LABELS, labels, g_free);
  return box;
}

void
carpace_today_note_set (GtkWidget *note, const char *by, const char *text)
{
  Labels *labels = labels_of (note);

  labels->any = text != NULL;
  gtk_label_set_text (GTK_LABEL (labels->by), text != NULL ? by : "");
  gtk_label_set_text (GTK_LABEL (labels->text), text != NULL ? text : "");
}

bool
carpace_today_note_draw (GtkWidget *note, bool on_air)
{
  bool shown = labels_of (note)->any && !on_air, differs = gtk_widget_get_visible (note) != shown;

  if (differs)
    gtk_widget_set_visible (note, shown);
  return differs;
}
