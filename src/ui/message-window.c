/* SPDX-License-Identifier: GPL-3.0-or-later */
/* message-window.c: a dialog; what it says on air is on-air-text.h's. */
#include "ui/message-window.h"

#include <gtk/gtk.h>

static GtkWidget *window;
static char *told;    /* what it is about, as off air */
static GString *held; /* what waits until the stream is over, NULL where nothing does */
static bool on_air;

static void
closed (GtkDialog *dialog, int response, gpointer user)
{
  gtk_widget_destroy (GTK_WIDGET (dialog));
}

static void
put (const char *message)
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

static void
hold (const char *message)
{
  if (held == NULL)
    held = g_string_new (NULL);
  g_string_append_printf (held, "%s%s", held->len > 0 ? "\n" : "", message);
}

void
carpace_message_show (CarpaceMessage kind, const char *message)
{
  const char *said = on_air ? carpace_text_on_air (kind, message) : message;

  if (said == NULL)
    {
      hold (message);
      return;
    }
  g_free (told);
  told = on_air ? NULL : g_strdup (message);
  put (said);
}

/* An open one leaves a screen that is broadcast, and comes again. */
void
carpace_message_on_air (bool now_on_air)
{
  if (on_air == now_on_air)
    return;
  on_air = now_on_air;
  if (on_air && window != NULL && told != NULL)
    {
      hold (told);
      gtk_widget_destroy (window);
    }
  if (on_air || held == NULL)
    return;
  g_free (told);
  told = g_string_free (held, FALSE);
  held = NULL;
  put (told);
}

const char *
carpace_message_shown (void)
{
  g_autofree char *text = NULL;

  if (window == NULL)
    return NULL;
  g_object_get (window, "text", &text, NULL);
  return g_intern_string (text);
}

void
carpace_message_close (void)
{
  if (window != NULL)
    gtk_widget_destroy (window);
  g_clear_pointer (&told, g_free);
  if (held != NULL)
    g_string_free (g_steal_pointer (&held), TRUE);
  on_air = false;
}
