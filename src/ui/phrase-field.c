/* SPDX-License-Identifier: GPL-3.0-or-later */
/* phrase-field.c: a row to type it, or of the keyring's having it; below, the way there or back. */
#include "ui/phrase-field.h"

#include <glib/gi18n.h>

#include "ui/part-words.h"

#define TARGET 44
#define OWN "carpace-phrase-field"

typedef struct
{
  const CarpaceKeptPhrase *kept;
  void (*told) (void *user, const char *said);
  void *user;
  bool can, lacked; /* lacked: it is kept, and was not to be had the last time */
  GtkWidget *row, *typed, *entry, *has, *keep, *readable, *forget;
} Field;

static Field *
field_of (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), OWN);
}

static bool
is_kept (const Field *field)
{
  return field->kept != NULL && field->kept->is_kept (field->kept->self);
}

static void
look (Field *field)
{
  bool kept = is_kept (field), typed = !kept || field->lacked;

  gtk_widget_set_visible (field->typed, typed);
  gtk_widget_set_visible (field->has, !typed);
  gtk_widget_set_visible (field->keep, typed && field->can);
  gtk_widget_set_visible (field->readable, typed && field->can && gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (field->keep)));
  gtk_widget_set_visible (field->forget, kept);
}

static void
forget (Field *field)
{
  bool done = false;
  g_autofree char *said = field->kept->forget (field->kept->self, &done);

  field->lacked = false;
  look (field);
  if (gtk_widget_get_visible (field->typed))
    gtk_widget_grab_focus (field->entry); /* the button has gone */
  field->told (field->user, said);
}

/* ---- how it is built ---- */

static void
append (GtkWidget *box, GtkWidget *child)
{
  gtk_box_pack_start (GTK_BOX (box), child, FALSE, FALSE, 0);
}

/* Hidden, and each that goes with it, until it is looked at. */
static GtkWidget *
hidden (GtkWidget *widget)
{
  gtk_widget_show_all (widget);
  gtk_widget_set_no_show_all (widget, TRUE);
  gtk_widget_hide (widget);
  return widget;
}

static GtkWidget *
make_typed (Field *field, const char *mnemonic)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4), *label = gtk_label_new_with_mnemonic (mnemonic);

  field->entry = gtk_entry_new ();
  gtk_entry_set_visibility (GTK_ENTRY (field->entry), FALSE);
  gtk_entry_set_input_purpose (GTK_ENTRY (field->entry), GTK_INPUT_PURPOSE_PASSWORD);
  gtk_entry_set_activates_default (GTK_ENTRY (field->entry), TRUE);
  gtk_widget_set_size_request (field->entry, -1, TARGET);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), field->entry);
  atk_object_set_name (gtk_widget_get_accessible (field->entry), gtk_label_get_text (GTK_LABEL (label)));
  append (box, label);
  append (box, field->entry);
  return box;
}

static GtkWidget *
make_keep (Field *field)
{
  GtkWidget *keep = gtk_check_button_new (), *label = carpace_part_words ("", NULL);

  gtk_label_set_text_with_mnemonic (GTK_LABEL (label), _("_Keep the pass phrase in the desktop's keyring"));
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), keep);
  gtk_container_add (GTK_CONTAINER (keep), label);
  gtk_widget_set_size_request (keep, -1, TARGET);
  atk_object_set_name (gtk_widget_get_accessible (keep), gtk_label_get_text (GTK_LABEL (label)));
  atk_object_set_description (gtk_widget_get_accessible (keep), gtk_label_get_text (GTK_LABEL (field->readable)));
  g_signal_connect_swapped (keep, "toggled", G_CALLBACK (look), field);
  return keep;
}

static GtkWidget *
make_forget (Field *field)
{
  GtkWidget *made = gtk_button_new_with_mnemonic (_("Take it _out of the keyring"));

  gtk_widget_set_size_request (made, TARGET, TARGET);
  gtk_widget_set_halign (made, GTK_ALIGN_START);
  gtk_widget_set_margin_top (made, 8);
  gtk_style_context_add_class (gtk_widget_get_style_context (made), "carpace-plain");
  g_signal_connect_swapped (made, "clicked", G_CALLBACK (forget), field);
  return made;
}

GtkWidget *
carpace_phrase_field_new (const CarpaceKeptPhrase *kept, const char *mnemonic, void (*told) (void *user, const char *said), void *user)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  Field *field = g_new (Field, 1);

  *field = (Field) { .kept = kept, .told = told, .user = user, .can = kept != NULL && kept->can (kept->self) };
  g_object_set_data_full (G_OBJECT (box), OWN, field, g_free);
  field->row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  field->typed = hidden (make_typed (field, mnemonic));
  field->has = hidden (carpace_part_words (_("The desktop's keyring has your pass phrase: it is not asked for."), NULL));
  field->readable = hidden (carpace_part_words (_("While the keyring is open, other programs of yours can read it there."), "carpace-hint"));
  field->keep = hidden (make_keep (field));
  field->forget = hidden (make_forget (field));
  gtk_box_pack_start (GTK_BOX (field->row), field->typed, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (field->row), field->has, TRUE, TRUE, 0);
  append (box, field->row);
  append (box, field->keep);
  append (box, field->readable);
  append (box, field->forget);
  look (field);
  return box;
}

void
carpace_phrase_field_add_button (GtkWidget *field, GtkWidget *button)
{
  gtk_widget_set_valign (button, GTK_ALIGN_END);
  append (field_of (field)->row, button);
}

/* ---- what it is for ---- */

const char *
carpace_phrase_field_text (GtkWidget *field)
{
  return gtk_entry_get_text (GTK_ENTRY (field_of (field)->entry));
}

bool
carpace_phrase_field_is_wanted (GtkWidget *widget)
{
  Field *field = field_of (widget);

  if (gtk_entry_get_text_length (GTK_ENTRY (field->entry)) > 0 || is_kept (field))
    return false;
  look (field); /* it may have been taken out since */
  field->told (field->user, _("First type the pass phrase of your key."));
  gtk_widget_grab_focus (field->entry);
  return true;
}

/* @return what the keyring says where it did not take it, else NULL */
static char *
keep (Field *field)
{
  bool kept = false;
  g_autofree char *said = field->kept->keep (field->kept->self, gtk_entry_get_text (GTK_ENTRY (field->entry)), &kept);

  if (!kept)
    return g_steal_pointer (&said);
  field->lacked = false;
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (field->keep), FALSE);
  return NULL;
}

char *
carpace_phrase_field_used (GtkWidget *widget, const char *said, bool done)
{
  Field *field = field_of (widget);
  g_autofree char *of_keyring = NULL;
  bool typed = gtk_entry_get_text_length (GTK_ENTRY (field->entry)) > 0;

  field->lacked = is_kept (field) && field->kept->lacked (field->kept->self);
  if (done && typed && gtk_widget_get_visible (field->keep) && gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (field->keep)))
    of_keyring = keep (field);
  gtk_entry_set_text (GTK_ENTRY (field->entry), "");
  look (field);
  return of_keyring != NULL ? g_strconcat (said, "\n", of_keyring, NULL) : g_strdup (said);
}

GtkEntry *
carpace_phrase_field_entry (GtkWidget *field)
{
  return GTK_ENTRY (field_of (field)->entry);
}
