/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The least tray program there can be: an icon and a menu as long as
 * Carpace's. The benches measure Carpace against it, side by side; the desktop
 * test's own machinery is proven on it. A choice of its menu is printed. */
#include <gtk/gtk.h>
#include <libayatana-appindicator/app-indicator.h>

static const char *const labels[] = {
  "Block 1 of 4, 12 min to go", "Start block 1", "Rest now", "Pause", "Rate block 1…", "Match", "On air", "Block plan",
  "Diary…", "Why this limit?", "Cautions…", "Quit"
};

static void
on_chosen (GtkMenuItem *item, gpointer user)
{
  const char *label = gtk_menu_item_get_label (item);

  g_print ("%s\n", label);
  if (g_str_equal (label, "Quit"))
    gtk_main_quit ();
}

int
main (int argc, char **argv)
{
  AppIndicator *indicator;
  GtkWidget *menu;

  g_setenv ("GDK_GL", "disable", TRUE);
  gtk_init (&argc, &argv);
  indicator = app_indicator_new ("bare-tray", "media-playback-start", APP_INDICATOR_CATEGORY_APPLICATION_STATUS);
  menu = gtk_menu_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (labels); i++)
    {
      GtkWidget *item = gtk_menu_item_new_with_label (labels[i]);
      g_signal_connect (item, "activate", G_CALLBACK (on_chosen), NULL);
      gtk_menu_shell_append (GTK_MENU_SHELL (menu), item);
    }
  gtk_widget_show_all (menu);
  app_indicator_set_menu (indicator, GTK_MENU (menu));
  app_indicator_set_status (indicator, APP_INDICATOR_STATUS_ACTIVE);
  gtk_main ();
  g_object_unref (indicator);
  return 0;
}
