/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-value.c: what is typed is taken by Return, or when the entry is left. */
#include "ui/planner-value.h"

#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "ui/card.h"
#include "ui/planner-parts.h"

#define MOST_WORDS 8
#define BESIDE_MOST 3
#define ENTRY_CHARS 16
#define LABEL_CHARS 10
#define TEXT_CHARS 44

struct CarpacePlannerValue
{
  CarpacePlannerValueOwner owner;
  char *path, *shown, *label;
  GtkWidget *box, *said, *entry, *lock, *fault, *words[MOST_WORDS];
  int n_words;
  bool showing;
};

static void
take (CarpacePlannerValue *value)
{
  g_autofree char *typed = NULL, *usual = NULL;

  if (value->showing || value->path == NULL || g_strcmp0 (gtk_entry_get_text (GTK_ENTRY (value->entry)), value->shown) == 0)
    return;
  typed = g_strdup (gtk_entry_get_text (GTK_ENTRY (value->entry)));
  usual = carpace_planner_text (value->owner.planner, value->path);
  g_free (value->shown);
  value->shown = g_strdup (typed);
  value->owner.done (value->owner.self, carpace_planner_type (value->owner.planner, value->path, typed, usual));
  carpace_planner_value_show (value);
}

static gboolean
left (GtkWidget *entry, GdkEvent *event, CarpacePlannerValue *value)
{
  take (value);
  gtk_editable_select_region (GTK_EDITABLE (entry), -1, -1); /* what is marked is where the keys go */
  return FALSE;
}

void
carpace_planner_value_settle (GtkWidget *focus)
{
  CarpacePlannerValue *value = focus != NULL ? g_object_get_data (G_OBJECT (focus), "planner-value") : NULL;

  if (value != NULL)
    take (value);
}

static void
step (CarpacePlannerValue *value, int by)
{
  g_autofree char *stepped = NULL;

  take (value);
  stepped = carpace_planner_stepped (value->owner.planner, value->path, by);
  if (stepped != NULL)
    value->owner.done (value->owner.self, carpace_planner_type (value->owner.planner, value->path, stepped, NULL));
}

static gboolean
key (GtkWidget *entry, GdkEventKey *event, CarpacePlannerValue *value)
{
  switch (event->keyval)
    {
    case GDK_KEY_Up: step (value, 1); return TRUE;
    case GDK_KEY_Down: step (value, -1); return TRUE;
    case GDK_KEY_Escape:
      gtk_entry_set_text (GTK_ENTRY (entry), value->shown != NULL ? value->shown : "");
      return TRUE;
    default: return FALSE;
    }
}

static void
word_toggled (GtkToggleButton *button, CarpacePlannerValue *value)
{
  const CarpaceKeyFacts *facts = value->path != NULL ? carpace_planner_facts (value->owner.planner, value->path) : NULL;

  if (value->showing || !gtk_toggle_button_get_active (button) || facts == NULL)
    return;
  for (int i = 0; i < value->n_words; i++)
    if (value->words[i] == GTK_WIDGET (button))
      value->owner.done (value->owner.self,
                         carpace_planner_type (value->owner.planner, value->path, carpace_name (facts->words, i), NULL));
}

static void
lock_toggled (GtkToggleButton *lock, CarpacePlannerValue *value)
{
  bool fixed = gtk_toggle_button_get_active (lock);
  g_autofree char *text = NULL;
  CarpacePlanEdit edits[2] = { { .kind = CARPACE_EDIT_SET, .path = value->path }, { .kind = fixed ? CARPACE_EDIT_FIX : CARPACE_EDIT_RELEASE, .path = value->path } };
  bool there;

  if (value->showing || value->path == NULL)
    return;
  there = carpace_planner_value (value->owner.planner, value->path) != NULL;
  text = carpace_planner_text (value->owner.planner, value->path);
  edits[0].value = text; /* what is usual is written out: only what stands there can be fixed */
  value->owner.done (value->owner.self, carpace_planner_edit (value->owner.planner, there ? edits + 1 : edits, there ? 1 : 2));
  carpace_planner_value_show (value);
}

/* ---- how it shows ---- */

static void
show_word (CarpacePlannerValue *value, const char *text)
{
  const CarpaceKeyFacts *facts = carpace_planner_facts (value->owner.planner, value->path);
  int32_t word = facts != NULL && facts->unit == CARPACE_UNIT_WORD ? carpace_name_value (facts->words, text) : -1;

  if (word >= 0 && word < value->n_words)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (value->words[word]), TRUE);
}

static void
show_text (CarpacePlannerValue *value, char *text)
{
  bool typing = gtk_widget_has_focus (value->entry) && g_strcmp0 (gtk_entry_get_text (GTK_ENTRY (value->entry)), value->shown) != 0;

  g_free (value->shown);
  value->shown = text;
  if (!typing && strcmp (gtk_entry_get_text (GTK_ENTRY (value->entry)), text) != 0)
    {
      gtk_entry_set_text (GTK_ENTRY (value->entry), text);
      gtk_editable_set_position (GTK_EDITABLE (value->entry), -1);
    }
}

void
carpace_planner_value_show (CarpacePlannerValue *value)
{
  const CarpacePlannerFault *fault;
  const CarpacePlanValue *there;
  char *text;

  if (value->path == NULL)
    return;
  value->showing = true;
  fault = carpace_planner_fault_at (value->owner.planner, value->path);
  there = carpace_planner_value (value->owner.planner, value->path);
  text = carpace_planner_text (value->owner.planner, value->path);
  if (value->n_words > 0)
    {
      show_word (value, text);
      g_free (text);
    }
  else
    show_text (value, text);
  if (value->lock != NULL)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (value->lock), there != NULL && there->fixed);
  carpace_card_say (value->fault, fault != NULL ? fault->message : "");
  gtk_widget_set_sensitive (value->box, carpace_planner_can_edit (value->owner.planner));
  value->showing = false;
}

void
carpace_planner_value_set_path (CarpacePlannerValue *value, const char *path, const char *spoken)
{
  const char *name = spoken != NULL ? spoken : value->label;
  g_autofree char *lock = g_strdup_printf (_("Fixed: %s"), name);

  if (g_strcmp0 (value->path, path) != 0)
    {
      g_free (value->path);
      value->path = g_strdup (path);
      g_clear_pointer (&value->shown, g_free);
      if (value->entry != NULL)
        {
          value->showing = true;
          gtk_entry_set_text (GTK_ENTRY (value->entry), "");
          value->shown = g_strdup ("");
          value->showing = false;
        }
    }
  if (value->entry != NULL)
    carpace_card_name (value->entry, name, NULL);
  if (value->lock != NULL)
    carpace_card_name (value->lock, lock, NULL);
  carpace_planner_value_show (value);
}

bool
carpace_planner_value_has (const CarpacePlannerValue *value, const char *path)
{
  return value->path != NULL && carpace_planner_is_within (path, value->path);
}

void
carpace_planner_value_focus (CarpacePlannerValue *value)
{
  if (value->n_words == 0)
    gtk_widget_grab_focus (value->entry);
  for (int i = 0; i < value->n_words; i++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (value->words[i])))
      gtk_widget_grab_focus (value->words[i]);
}

/* ---- how it is built ---- */

static GtkWidget *
entry_new (CarpacePlannerValue *value)
{
  GtkWidget *entry = value->entry = gtk_entry_new ();

  g_object_set_data (G_OBJECT (entry), "planner-value", value);
  gtk_entry_set_width_chars (GTK_ENTRY (entry), ENTRY_CHARS);
  gtk_widget_set_valign (entry, GTK_ALIGN_CENTER);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (take), value);
  g_signal_connect (entry, "focus-out-event", G_CALLBACK (left), value);
  g_signal_connect (entry, "key-press-event", G_CALLBACK (key), value);
  return entry;
}

/* All stand there to be read: a menu would hide them. */
static GtkWidget *
words_new (CarpacePlannerValue *value, const char *const *words)
{
  GtkWidget *rows = gtk_grid_new ();
  int n = (int) g_strv_length ((char **) words);

  gtk_grid_set_row_spacing (GTK_GRID (rows), 6);
  gtk_grid_set_column_spacing (GTK_GRID (rows), 6);
  for (int i = 0; i < n && i < MOST_WORDS; i++)
    {
      g_autofree char *spoken = g_strdup_printf ("%s: %s", value->label, words[i]);
      GtkWidget *button = gtk_radio_button_new_from_widget (i > 0 ? GTK_RADIO_BUTTON (value->words[0]) : NULL), *word = gtk_label_new (words[i]);

      gtk_label_set_line_wrap (GTK_LABEL (word), TRUE); /* three long ones in a row would widen the window */
      gtk_label_set_justify (GTK_LABEL (word), GTK_JUSTIFY_CENTER);
      gtk_toggle_button_set_mode (GTK_TOGGLE_BUTTON (button), FALSE);
      gtk_container_add (GTK_CONTAINER (button), word);
      gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-plain");
      carpace_card_name (button, spoken, NULL);
      g_signal_connect (button, "toggled", G_CALLBACK (word_toggled), value);
      value->words[value->n_words++] = button;
      gtk_grid_attach (GTK_GRID (rows), button, i % 3, i / 3, 1, 1);
    }
  return rows;
}

static void
freed (gpointer data)
{
  CarpacePlannerValue *value = data;

  g_free (value->path);
  g_free (value->shown);
  g_free (value->label);
  g_free (value);
}

void
carpace_planner_value_lockable (CarpacePlannerValue *value)
{
  value->lock = gtk_check_button_new_with_label (_("fixed"));
  gtk_widget_set_tooltip_text (value->lock, _("Fixed by the coach: a player's own copy may be stricter here, never looser."));
  g_signal_connect (value->lock, "toggled", G_CALLBACK (lock_toggled), value);
  gtk_box_pack_start (GTK_BOX (g_object_get_data (G_OBJECT (value->box), "row")), value->lock, FALSE, FALSE, 0);
  gtk_widget_show (value->lock);
}

CarpacePlannerValue *
carpace_planner_value_new (const CarpacePlannerValueOwner *owner, const char *label, const char *tip, const char *const *words)
{
  CarpacePlannerValue *value = g_new0 (CarpacePlannerValue, 1);
  bool many = words != NULL && g_strv_length ((char **) words) > BESIDE_MOST; /* more have no room beside what they are of */
  GtkWidget *row = gtk_box_new (many ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL, many ? 4 : 12);
  GtkWidget *said = carpace_part_words (label, NULL), *control;

  value->owner = *owner;
  value->label = g_strdup (label);
  value->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_object_set_data_full (G_OBJECT (value->box), "value", value, freed);
  g_object_set_data (G_OBJECT (value->box), "row", row);
  control = words != NULL ? words_new (value, words) : entry_new (value);
  gtk_label_set_mnemonic_widget (GTK_LABEL (said), words != NULL ? value->words[0] : control);
  value->said = said;
  value->fault = carpace_part_words ("", "carpace-strong");
  atk_object_set_role (gtk_widget_get_accessible (value->fault), ATK_ROLE_ALERT);
  gtk_box_pack_start (GTK_BOX (row), said, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (row), control, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (value->box), row, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (value->box), value->fault, FALSE, FALSE, 0);
  if (tip != NULL)
    gtk_widget_set_tooltip_text (row, tip);
  if (tip != NULL && value->entry != NULL)
    atk_object_set_description (gtk_widget_get_accessible (value->entry), tip);
  gtk_widget_show_all (value->box);
  gtk_widget_hide (value->fault);
  gtk_widget_set_no_show_all (value->fault, TRUE);
  return value;
}

void
carpace_planner_value_widen (CarpacePlannerValue *value)
{
  gtk_entry_set_max_width_chars (GTK_ENTRY (value->entry), TEXT_CHARS); /* as wide as that where there is room, */
  gtk_label_set_width_chars (GTK_LABEL (value->said), LABEL_CHARS);     /* and its name is still a word */
}

void
carpace_planner_value_say (CarpacePlannerValue *value, const char *label)
{
  g_free (value->label);
  value->label = g_strdup (label);
  gtk_label_set_text (GTK_LABEL (value->said), label);
}

GtkWidget *
carpace_planner_value_widget (CarpacePlannerValue *value)
{
  return value->box;
}
