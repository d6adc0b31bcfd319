/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tap.c: the first tap begins ten seconds; what they come to is the core's to say. */
#include "ui/tap.h"

#include <glib/gi18n.h>

#include "carpace/tapped.h"
#include "ui/card.h"
#include "ui/planner-parts.h"

typedef struct
{
  void (*tapped) (void *user, double per_min);
  void *user;
  GtkWidget *button;
  CarpaceTaps taps;
  guint ending; /* a source */
} Tap;

static void
say (Tap *tap)
{
  g_autofree char *text = tap->ending == 0 ? g_strdup (_("Tap along for ten seconds"))
                                           : g_strdup_printf (ngettext ("Go on: %d tap", "Go on: %d taps", (gulong) tap->taps.n), (int) tap->taps.n);

  carpace_part_say_button (tap->button, text);
}

static gboolean
over (gpointer user)
{
  Tap *tap = user;
  double per_min = carpace_tapped_per_min (&tap->taps);

  tap->ending = 0;
  tap->taps = (CarpaceTaps) { 0 };
  say (tap);
  if (per_min > 0)
    tap->tapped (tap->user, per_min);
  return G_SOURCE_REMOVE;
}

/* As it is pressed: a click would come with its release. */
static gboolean
pressed (GtkWidget *button, GdkEvent *event, Tap *tap)
{
  if (event->type == GDK_KEY_PRESS && event->key.keyval != GDK_KEY_space && event->key.keyval != GDK_KEY_Return)
    return FALSE;
  if (event->type != GDK_KEY_PRESS && event->type != GDK_BUTTON_PRESS)
    return TRUE;
  gtk_widget_grab_focus (button);
  if (tap->ending == 0)
    tap->ending = g_timeout_add (CARPACE_TAPPED_MS, over, tap);
  carpace_tapped (&tap->taps, g_get_monotonic_time () / 1000);
  say (tap);
  return TRUE;
}

/* Assistive technology has no press, only this. */
static void
clicked (GtkWidget *button, Tap *tap)
{
  GdkEvent event = { .type = GDK_BUTTON_PRESS };

  pressed (button, &event, tap);
}

static void
freed (gpointer data)
{
  Tap *tap = data;

  g_clear_handle_id (&tap->ending, g_source_remove);
  g_free (tap);
}

GtkWidget *
carpace_tap_new (void (*tapped) (void *user, double per_min), void *user)
{
  Tap *tap = g_new0 (Tap, 1);

  tap->tapped = tapped;
  tap->user = user;
  tap->button = carpace_part_button ("");
  g_object_set_data_full (G_OBJECT (tap->button), "tap", tap, freed);
  g_signal_connect (tap->button, "button-press-event", G_CALLBACK (pressed), tap);
  g_signal_connect (tap->button, "key-press-event", G_CALLBACK (pressed), tap);
  g_signal_connect (tap->button, "clicked", G_CALLBACK (clicked), tap);
  say (tap);
  return tap->button;
}
