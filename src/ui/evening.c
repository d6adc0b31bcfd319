/* SPDX-License-Identifier: GPL-3.0-or-later */
/* evening.c: an example's clock, its cards, and the window that says what it is. */
#include "ui/evening.h"

#include <glib/gi18n.h>

#include "app/example.h"
#include "carpace/cues.h"
#include "text/face-text.h"
#include "text/notice.h"
#include "ui/deck.h"
#include "ui/tray-ayatana.h"

#define TICK_MS 40
#define FASTER 60            /* a minute a second */
#define STANDS_MS 4000       /* a card that asks, a notice, a rest: long enough to be read */
#define LEAST_OF_A_REST 1

struct CarpaceEvening
{
  CarpacePlan plan;
  CarpaceExample example;
  CarpaceOwner owner;
  CarpaceDeck *deck;
  GtkWidget *window, *clock, *end;
  guint tick;
  gint64 last_us;
  int64_t stands_ms; /* what was shown last goes on standing for so long */
  bool told;         /* something was shown, or said by a notice, since the last tick */
  bool resting;
  void (*ended) (void *user);
  void *user;
};

/* Cards are made as they are first wanted: all of these say that they are an example. */
static void
begin_cards (void)
{
  carpace_card_mark (_("Example: nothing of this is kept"));
}

static void
end_cards (void)
{
  carpace_card_mark (NULL);
}

/* ---- what the loop shows ---- */

static void
show (CarpaceEvening *evening, const CarpaceEntry *entry, const CarpaceView *view)
{
  CarpaceTold told = carpace_told (entry->cue.cue, entry->cue.what);
  CarpaceInstant now = carpace_example_now (&evening->example);
  CarpaceNotice notice;

  if (told == CARPACE_N_TOLD)
    return;
  evening->told = true;
  if (carpace_told_rows[told].by != CARPACE_SHOWN_BY_NOTICE)
    carpace_deck_bring (evening->deck, entry->cue.cue, CARPACE_CARD_BY_ITSELF, view, now);
  else if (carpace_text_notice (entry, view, now, &notice))
    {
      g_autofree char *icon = carpace_tray_icon (view);

      carpace_deck_notice (evening->deck, &notice, icon, view, now);
      carpace_notice_clear (&notice);
    }
}

static void
cue (void *self, const CarpaceEntry *entry, const CarpaceView *view)
{
  CarpaceEvening *evening = self;

  begin_cards ();
  if (entry->cue.what == CARPACE_CUE_WITHDRAWN)
    carpace_deck_end_notice (evening->deck, entry->cue.cue);
  else
    show (evening, entry, view);
  end_cards ();
}

static void
changed (void *self, const CarpaceView *view)
{
  CarpaceEvening *evening = self;
  CarpaceInstant now = carpace_example_now (&evening->example);

  begin_cards ();
  if (view->rest.running && !evening->resting)
    carpace_deck_bring (evening->deck, CARPACE_CUE_MICRO_REST, CARPACE_CARD_BY_ITSELF, view, now);
  evening->resting = view->rest.running;
  carpace_deck_draw (evening->deck, view, now, true);
  end_cards ();
}

/* ---- its clock ---- */

static void
draw (CarpaceEvening *evening)
{
  CarpaceInstant now = carpace_example_now (&evening->example);
  const CarpaceView *view = carpace_example_view (&evening->example);
  g_autofree char *time = carpace_text_time_of_day (now), *state = carpace_text_state_line (view, now);
  g_autofree char *line = g_strdup_printf ("%s  %s", time, state);

  changed (evening, view);
  if (carpace_example_is_over (&evening->example))
    carpace_card_say (evening->clock, _("That was the evening. Nothing of it was kept."));
  else
    carpace_card_say (evening->clock, line);
}

static int64_t
faster (CarpaceEvening *evening)
{
  const CarpaceView *view = carpace_example_view (&evening->example);

  return view->rest.running ? MAX (view->rest.length_ms / STANDS_MS, LEAST_OF_A_REST) : FASTER;
}

static gboolean
tick (gpointer user)
{
  CarpaceEvening *evening = user;
  gint64 now_us = g_get_monotonic_time ();
  int64_t by_ms = (now_us - evening->last_us) / 1000;

  evening->last_us += by_ms * 1000;
  if (evening->told)
    evening->stands_ms = STANDS_MS;
  evening->told = false;
  if (evening->stands_ms > by_ms)
    evening->stands_ms -= by_ms;
  else if (carpace_example_asks (&evening->example))
    {
      evening->stands_ms = 0;
      carpace_example_answer (&evening->example);
    }
  else
    {
      evening->stands_ms = 0;
      carpace_example_go_on (&evening->example, by_ms * faster (evening));
    }
  draw (evening);
  return G_SOURCE_CONTINUE;
}

/* ---- what cards ask ---- */

static bool
owner_tell (void *self, const CarpaceEvent *event)
{
  CarpaceEvening *evening = self;

  evening->stands_ms = 0;
  return carpace_example_tell (&evening->example, event);
}

static void
owner_choose (void *self, CarpaceItemId id)
{
}

static void
owner_fill_plans (void *self, GtkMenuShell *menu)
{
}

static void
owner_redraw (void *self)
{
}

/* ---- its window ---- */

static gboolean
end_now (gpointer user)
{
  CarpaceEvening *evening = user;

  evening->tick = 0;
  carpace_deck_close (evening->deck);
  evening->ended (evening->user);
  return G_SOURCE_REMOVE;
}

/* Not at once: a button of its own window may be what asks. */
static gboolean
end_asked (CarpaceEvening *evening)
{
  g_clear_handle_id (&evening->tick, g_source_remove);
  gtk_widget_hide (evening->window);
  evening->tick = g_idle_add (end_now, evening);
  return TRUE;
}

static void
end_clicked (CarpaceEvening *evening)
{
  end_asked (evening);
}

static gboolean
key_pressed (GtkWidget *window, GdkEventKey *event, CarpaceEvening *evening)
{
  return event->keyval == GDK_KEY_Escape && end_asked (evening);
}

static void
make_window (CarpaceEvening *evening)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16), *said = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *heading = carpace_card_line (_("An example evening, a minute a second. Nothing of it is kept."));

  evening->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (evening->window, "evening");
  gtk_window_set_title (GTK_WINDOW (evening->window), _("Carpace: an example evening"));
  gtk_window_set_icon_name (GTK_WINDOW (evening->window), "org.carpace.Carpace");
  gtk_window_set_resizable (GTK_WINDOW (evening->window), FALSE);
  gtk_window_set_keep_above (GTK_WINDOW (evening->window), TRUE);
  gtk_style_context_add_class (gtk_widget_get_style_context (evening->window), "carpace-card");
  gtk_style_context_add_class (gtk_widget_get_style_context (heading), "carpace-mind");
  evening->clock = carpace_card_line (" ");
  evening->end = carpace_card_button (_("_End it (Esc)"));
  gtk_widget_set_valign (evening->end, GTK_ALIGN_CENTER);
  gtk_label_set_width_chars (GTK_LABEL (evening->clock), 44);
  g_object_set (row, "margin", 16, NULL);
  gtk_box_pack_start (GTK_BOX (said), heading, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (said), evening->clock, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (row), said, TRUE, TRUE, 0);
  gtk_box_pack_end (GTK_BOX (row), evening->end, FALSE, FALSE, 0);
  gtk_container_add (GTK_CONTAINER (evening->window), row);
  g_signal_connect_swapped (evening->end, "clicked", G_CALLBACK (end_clicked), evening);
  g_signal_connect_swapped (evening->window, "delete-event", G_CALLBACK (end_asked), evening);
  g_signal_connect (evening->window, "key-press-event", G_CALLBACK (key_pressed), evening);
  gtk_widget_show_all (row);
}

/* At the upper edge, so that the cards have the rest. */
static void
place (CarpaceEvening *evening)
{
  GdkMonitor *monitor = gdk_display_get_primary_monitor (gtk_widget_get_display (evening->window));
  GdkRectangle area = { 0, 0, 0, 0 };
  int width;

  if (monitor == NULL)
    monitor = gdk_display_get_monitor (gtk_widget_get_display (evening->window), 0);
  if (monitor != NULL)
    gdk_monitor_get_workarea (monitor, &area);
  gtk_widget_get_preferred_width (evening->window, NULL, &width);
  gtk_window_move (GTK_WINDOW (evening->window), area.x + MAX (area.width - width, 0) / 2, area.y);
}

CarpaceEvening *
carpace_evening_new (const CarpacePlan *plan, CarpaceInstant now, void (*ended) (void *user), void *user)
{
  CarpaceEvening *evening = g_new0 (CarpaceEvening, 1);
  const CarpaceFaces faces = { evening, cue, changed };

  carpace_card_style ();
  evening->plan = *plan;
  evening->ended = ended;
  evening->user = user;
  evening->owner = (CarpaceOwner){ evening, owner_tell, owner_choose, owner_fill_plans, owner_redraw };
  evening->deck = carpace_deck_new (&evening->owner);
  make_window (evening);
  place (evening);
  gtk_window_present (GTK_WINDOW (evening->window));
  carpace_example_begin (&evening->example, &evening->plan, now, &faces);
  evening->last_us = g_get_monotonic_time ();
  evening->tick = g_timeout_add (TICK_MS, tick, evening);
  draw (evening);
  return evening;
}

void
carpace_evening_free (CarpaceEvening *evening)
{
  if (!evening)
    return;
  g_clear_handle_id (&evening->tick, g_source_remove);
  carpace_deck_free (evening->deck);
  gtk_widget_destroy (evening->window);
  g_free (evening);
}
