/* SPDX-License-Identifier: GPL-3.0-or-later */
/* chord-field.c: a toggle that listens while it is on. */
#include "ui/chord-field.h"

#include <glib/gi18n.h>
#include <stdbool.h>

#include "ui/card.h"

typedef struct
{
  void (*taken) (void *user, const char *chord);
  void *user;
} Field;

char *
carpace_chord_words (GdkModifierType held, guint keyval)
{
  static const struct { GdkModifierType mask; const char *word; } modifiers[] = {
    { GDK_CONTROL_MASK, "Ctrl+" }, { GDK_MOD1_MASK, "Alt+" }, { GDK_SHIFT_MASK, "Shift+" }, { GDK_SUPER_MASK | GDK_MOD4_MASK, "Super+" },
  };
  GString *words = g_string_new (NULL);

  for (size_t i = 0; i < G_N_ELEMENTS (modifiers); i++)
    if (held & modifiers[i].mask)
      g_string_append (words, modifiers[i].word);
  if (keyval < 128 && g_ascii_isalnum (keyval))
    g_string_append_c (words, (char) g_ascii_toupper ((char) keyval));
  else if (keyval >= GDK_KEY_F1 && keyval <= GDK_KEY_F12)
    g_string_append_printf (words, "F%u", keyval - GDK_KEY_F1 + 1);
  else
    return g_string_free (words, TRUE), NULL;
  return g_string_free (words, FALSE);
}

/* What the key says alone, in whichever layout it has a name: Shift and another alphabet are no other key. */
static char *
words_of (const GdkEventKey *event)
{
  GdkKeymap *map = gdk_keymap_get_for_display (gdk_window_get_display (event->window));
  g_autofree GdkKeymapKey *keys = NULL;
  g_autofree guint *keyvals = NULL;
  GdkModifierType held = event->state;
  int n = 0;
  char *words = NULL;

  if (gdk_keymap_get_entries_for_keycode (map, event->hardware_keycode, &keys, &keyvals, &n))
    for (int i = 0; i < n && words == NULL; i++)
      if (keys[i].level == 0)
        words = carpace_chord_words (held, keyvals[i]);
  return words;
}

static void
stop (GtkWidget *button)
{
  gdk_seat_ungrab (gdk_display_get_default_seat (gtk_widget_get_display (button)));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), FALSE);
}

static gboolean
key_pressed (GtkWidget *button, GdkEventKey *event, Field *field)
{
  g_autofree char *words = NULL;

  if (!gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (button)))
    return FALSE;
  if (event->is_modifier)
    return TRUE;
  words = words_of (event);
  stop (button);
  if (words != NULL && event->keyval != GDK_KEY_Escape)
    field->taken (field->user, words);
  return TRUE;
}

static gboolean
left (GtkWidget *button, GdkEvent *event, Field *field)
{
  if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (button)))
    stop (button);
  return FALSE;
}

/* The window manager keeps keys for itself: for the moment they are wanted here. */
static void
toggled (GtkToggleButton *button, Field *field)
{
  bool on = gtk_toggle_button_get_active (button);
  GdkWindow *window = gtk_widget_get_window (GTK_WIDGET (button));

  gtk_button_set_label (GTK_BUTTON (button), on ? _("Press them now, together. Esc: leave it") : _("Press the keys…"));
  carpace_card_name (GTK_WIDGET (button), gtk_button_get_label (GTK_BUTTON (button)), NULL);
  if (on && window != NULL)
    gdk_seat_grab (gdk_display_get_default_seat (gtk_widget_get_display (GTK_WIDGET (button))), window, GDK_SEAT_CAPABILITY_KEYBOARD, TRUE,
                   NULL, NULL, NULL, NULL);
}

GtkWidget *
carpace_chord_field_new (void (*taken) (void *user, const char *chord), void *user)
{
  GtkWidget *button = gtk_toggle_button_new_with_label (_("Press the keys…"));
  Field *field = g_new0 (Field, 1);

  field->taken = taken;
  field->user = user;
  g_object_set_data_full (G_OBJECT (button), "field", field, g_free);
  carpace_card_name (button, gtk_button_get_label (GTK_BUTTON (button)), NULL);
  g_signal_connect (button, "key-press-event", G_CALLBACK (key_pressed), field);
  g_signal_connect (button, "focus-out-event", G_CALLBACK (left), field);
  g_signal_connect (button, "toggled", G_CALLBACK (toggled), field);
  return button;
}
