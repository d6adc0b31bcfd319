/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/message-window.h"

#include <gtk/gtk.h>

static GtkWidget *window;

static void
closed (GtkDialog *dialog, int response, gpointer user)
{
  gtk_widget_destroy (GTK_WIDGET (dialog));
}

void
carpace_message_show (const char *message)
{
  if (window == NULL)
    {
      window = gtk_message_dialog_new (NULL, 0, GTK_MESSAGE_OTHER, GTK_BUTTONS_CLOSE, "%s", message);
      gtk_window_set_title (GTK_WINDOW (window), "Carpace");
      g_signal_connect (window, "response", G_CALLBACK (closed), NULL);
      g_signal_connect (window, "destroy", G_CALLBACK (gtk_widget_destroyed), &window);
    }
  else
    g_object_set (window, "text", message, NULL);
  gtk_widget_show_all (window);
}

void
carpace_message_close (void)
{
  if (window != NULL)
    gtk_widget_destroy (window);
}
