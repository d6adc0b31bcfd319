/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/roster-note.h"

#include <glib/gi18n.h>

#include "text/quoted.h"
#include "ui/card-style.h"
#include "ui/day-rail.h"
#include "ui/part-words.h"
#include "ui/phrase-field.h"

#define WIDE 34 /* of the text's size */
#define EDGE 20
#define TARGET 44
#define OWN "carpace-roster-note"

typedef struct
{
  const CarpaceRosterShown *shown;
  const CarpaceRosterRow *row;
  GtkWidget *text, *phrase, *leave, *told;
} Note;

static Note *
note_of (GtkWidget *window)
{
  return g_object_get_data (G_OBJECT (window), OWN);
}

static void
tell (void *user, const char *told)
{
  Note *note = user;

  gtk_label_set_text (GTK_LABEL (note->told), told);
  gtk_widget_show (note->told);
}

/* The words stay where they were not left; the pass phrase never does. */
static void
leave (GtkWidget *clicked, Note *note)
{
  bool done = false;
  g_autofree char *said = NULL, *all = NULL;

  if (carpace_phrase_field_is_wanted (note->phrase))
    return;
  said = note->shown->note (note->shown->self, &note->row->who.player, gtk_entry_get_text (GTK_ENTRY (note->text)),
                            carpace_phrase_field_text (note->phrase), &done);
  tell (note, all = carpace_phrase_field_used (note->phrase, said, done));
  if (done)
    gtk_entry_set_text (GTK_ENTRY (note->text), "");
}

/* Nothing is said to nobody by mistake. */
static void
changed (GtkEditable *text, Note *note)
{
  gtk_widget_set_sensitive (note->leave, gtk_entry_get_text_length (GTK_ENTRY (text)) > 0);
}

static gboolean
key_pressed (GtkWidget *widget, GdkEventKey *event, gpointer user)
{
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  gtk_widget_destroy (widget);
  return TRUE;
}

static GtkWidget *
add_field (GtkWidget *box, const char *mnemonic)
{
  GtkWidget *label = gtk_label_new_with_mnemonic (mnemonic), *entry = gtk_entry_new ();

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), entry);
  atk_object_set_name (gtk_widget_get_accessible (entry), gtk_label_get_text (GTK_LABEL (label)));
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_widget_set_size_request (entry, -1, TARGET);
  gtk_box_pack_start (GTK_BOX (box), label, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), entry, FALSE, FALSE, 0);
  return entry;
}

static void
build (GtkWidget *window, Note *note, const char *title)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  g_object_set (box, "margin", EDGE, NULL);
  gtk_style_context_add_class (gtk_widget_get_style_context (box), "carpace-body");
  note->text = add_field (box, _("_Words, one line"));
  gtk_entry_set_max_length (GTK_ENTRY (note->text), CARPACE_TEAM_NOTE_CHARACTERS);
  note->phrase = carpace_phrase_field_new (note->shown->kept, _("_Pass phrase of your key"), tell, note);
  gtk_box_pack_start (GTK_BOX (box), note->phrase, FALSE, FALSE, 0);
  note->leave = gtk_button_new_with_mnemonic (_("_Leave the note in the folder"));
  gtk_widget_set_can_default (note->leave, TRUE);
  gtk_widget_set_sensitive (note->leave, FALSE);
  gtk_widget_set_size_request (note->leave, TARGET, TARGET);
  gtk_widget_set_halign (note->leave, GTK_ALIGN_END);
  gtk_style_context_add_class (gtk_widget_get_style_context (note->leave), "carpace-primary");
  gtk_box_pack_start (GTK_BOX (box), note->leave, FALSE, FALSE, 0);
  note->told = carpace_part_words ("", NULL);
  gtk_label_set_selectable (GTK_LABEL (note->told), TRUE);
  atk_object_set_role (gtk_widget_get_accessible (note->told), ATK_ROLE_ALERT);
  gtk_box_pack_start (GTK_BOX (box), note->told, FALSE, FALSE, 0);
  gtk_container_add (GTK_CONTAINER (window), box);
  gtk_window_set_title (GTK_WINDOW (window), title);
  gtk_window_set_default (GTK_WINDOW (window), note->leave);
  gtk_widget_show_all (box);
  gtk_widget_hide (note->told);
}

GtkWidget *
carpace_roster_note_new (const CarpaceRosterShown *shown, const CarpaceRosterRow *row, GtkWindow *parent)
{
  GtkWidget *window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  g_autofree char *name = carpace_text_harmless (row->who.name), *title = g_strdup_printf (_("Note to %s"), name);
  Note *note = g_new (Note, 1);

  *note = (Note) { .shown = shown, .row = row };
  g_object_set_data_full (G_OBJECT (window), OWN, note, g_free);
  carpace_card_style ();
  gtk_widget_set_name (window, "roster-note");
  gtk_style_context_add_class (gtk_widget_get_style_context (window), "carpace-window");
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_icon_name (GTK_WINDOW (window), "org.carpace.Carpace");
  gtk_window_set_default_size (GTK_WINDOW (window), (int) (WIDE * carpace_em_of (window)), -1);
  build (window, note, title);
  g_signal_connect (note->text, "changed", G_CALLBACK (changed), note);
  g_signal_connect (note->leave, "clicked", G_CALLBACK (leave), note);
  g_signal_connect (window, "key-press-event", G_CALLBACK (key_pressed), NULL);
  gtk_widget_grab_focus (note->text);
  gtk_window_present (GTK_WINDOW (window));
  return window;
}

GtkEntry *
carpace_roster_note_text (GtkWidget *note)
{
  return GTK_ENTRY (note_of (note)->text);
}

GtkEntry *
carpace_roster_note_phrase (GtkWidget *note)
{
  return carpace_phrase_field_entry (note_of (note)->phrase);
}

GtkButton *
carpace_roster_note_button (GtkWidget *note)
{
  return GTK_BUTTON (note_of (note)->leave);
}

const char *
carpace_roster_note_told (GtkWidget *note)
{
  return gtk_label_get_text (GTK_LABEL (note_of (note)->told));
}
