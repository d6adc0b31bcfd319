/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-chord-field.c: keys in words; and pressed ones, on a display. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <gtk/gtk.h>

#include "display.h"
#include "ui/chord-field.h"

static void
test_words (void **state)
{
  static const struct { GdkModifierType held; guint keyval; const char *words; } rows[] = {
    { GDK_CONTROL_MASK | GDK_MOD1_MASK, GDK_KEY_h, "Ctrl+Alt+H" }, { GDK_CONTROL_MASK | GDK_MOD1_MASK, GDK_KEY_H, "Ctrl+Alt+H" },
    { GDK_MOD4_MASK, GDK_KEY_F12, "Super+F12" },                   { GDK_SUPER_MASK, GDK_KEY_F1, "Super+F1" },
    { GDK_SUPER_MASK, GDK_KEY_F13, NULL },                         { GDK_CONTROL_MASK | GDK_SHIFT_MASK, GDK_KEY_0, "Ctrl+Shift+0" },
    { 0, GDK_KEY_k, "K" },                                         { GDK_LOCK_MASK | GDK_MOD2_MASK | GDK_MOD1_MASK, GDK_KEY_9, "Alt+9" },
    { GDK_CONTROL_MASK, GDK_KEY_Escape, NULL },                    { GDK_CONTROL_MASK, GDK_KEY_plus, NULL },
    { GDK_CONTROL_MASK, GDK_KEY_Cyrillic_a, NULL },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *words = carpace_chord_words (rows[i].held, rows[i].keyval);

      if (g_strcmp0 (words, rows[i].words) != 0)
        fail_msg ("%s, not %s", words, rows[i].words);
    }
}

static char *chosen;
static int times;

static void
taken (void *user, const char *chord)
{
  g_free (chosen);
  chosen = g_strdup (chord);
  times++;
}

static void
press (GtkWidget *window, guint keyval, GdkModifierType held, gboolean is_modifier)
{
  g_autofree GdkKeymapKey *keys = NULL;
  GdkEvent *event = gdk_event_new (GDK_KEY_PRESS);
  int n = 0;

  assert_true (gdk_keymap_get_entries_for_keyval (gdk_keymap_get_for_display (gdk_display_get_default ()), keyval, &keys, &n));
  event->key.window = g_object_ref (gtk_widget_get_window (window));
  event->key.send_event = TRUE;
  event->key.keyval = keyval;
  event->key.state = held;
  event->key.is_modifier = is_modifier;
  event->key.hardware_keycode = (guint16) keys[0].keycode;
  gdk_event_set_device (event, gdk_seat_get_keyboard (gdk_display_get_default_seat (gdk_display_get_default ())));
  gtk_main_do_event (event);
  gdk_event_free (event);
  display_settle ();
}

/* It listens while it is on: not before, not for what is held alone, and not after; Escape leaves what was. */
static void
test_keys_are_taken_while_it_listens (void **state)
{
  GtkWidget *window = gtk_window_new (GTK_WINDOW_TOPLEVEL), *field = carpace_chord_field_new (taken, NULL);

  gtk_container_add (GTK_CONTAINER (window), field);
  gtk_widget_show_all (window);
  display_settle ();
  gtk_widget_grab_focus (field);
  press (window, GDK_KEY_k, GDK_CONTROL_MASK, FALSE);
  assert_int_equal (times, 0);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (field), TRUE);
  press (window, GDK_KEY_Control_L, 0, TRUE);
  assert_int_equal (times, 0);
  press (window, GDK_KEY_k, GDK_CONTROL_MASK | GDK_SHIFT_MASK, FALSE);
  assert_int_equal (times, 1);
  assert_string_equal (chosen, "Ctrl+Shift+K");
  assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (field)));
  press (window, GDK_KEY_j, GDK_CONTROL_MASK, FALSE);
  assert_int_equal (times, 1);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (field), TRUE);
  press (window, GDK_KEY_Escape, 0, FALSE);
  assert_int_equal (times, 1);
  assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (field)));
  gtk_widget_destroy (window);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_words), cmocka_unit_test (test_keys_are_taken_while_it_listens) };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
