/* SPDX-License-Identifier: GPL-3.0-or-later */
/* why-window.c: where the limit at hand comes from. */
#include "ui/why-window.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/text.h"

struct CarpaceWhyWindow
{
  CarpaceDiary diary;
  CarpaceCard *card;
  GtkWidget *limit, *sentences;
};

CarpaceWhyWindow *
carpace_why_window_new (const CarpaceDiary *diary)
{
  CarpaceWhyWindow *why = g_new0 (CarpaceWhyWindow, 1);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *close = carpace_card_button (_("_Close"));
  GtkBox *box;

  if (diary)
    why->diary = *diary;
  why->card = carpace_card_new ("why-window", _("Why this limit?"));
  box = carpace_card_box (why->card);
  carpace_card_add_heading (why->card, _("Why this limit?"));
  why->limit = carpace_card_line ("");
  why->sentences = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_box_pack_start (box, why->limit, FALSE, FALSE, 0);
  gtk_box_pack_start (box, why->sentences, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (buttons), close, FALSE, FALSE, 0);
  gtk_widget_show (buttons);
  gtk_widget_show (why->sentences);
  gtk_box_pack_start (box, buttons, FALSE, FALSE, 0);
  g_signal_connect_swapped (close, "clicked", G_CALLBACK (carpace_why_window_hide), why);
  return why;
}

void
carpace_why_window_free (CarpaceWhyWindow *why)
{
  if (!why)
    return;
  carpace_card_free (why->card);
  g_free (why);
}

CarpaceCard *
carpace_why_window_card (CarpaceWhyWindow *why)
{
  return why->card;
}

void
carpace_why_window_hide (CarpaceWhyWindow *why)
{
  carpace_card_hide (why->card);
}

static void
add_sentence (CarpaceWhyWindow *why, const CarpaceDecision *decision)
{
  g_autofree char *sentence = carpace_text_why (decision);
  gtk_box_pack_start (GTK_BOX (why->sentences), carpace_card_line (sentence), FALSE, FALSE, 0);
}

/* The caution that today's dose comes of, or ends by. */
static void
add_caution (CarpaceWhyWindow *why, CarpaceDay day)
{
  g_autofree char *sentence = NULL;
  CarpaceEntry said;

  if (!why->diary.records_of || day == CARPACE_NO_DAY || !carpace_caution_behind (&why->diary, day, &said))
    return;
  sentence = carpace_text_why_caution (&said);
  if (sentence != NULL)
    gtk_box_pack_start (GTK_BOX (why->sentences), carpace_card_line (sentence), FALSE, FALSE, 0);
}

static bool
add_record (void *user, const CarpaceRecord *record)
{
  add_sentence (user, &record->entry.decision);
  return true;
}

static char *
limit_line (const CarpaceView *view)
{
  g_autofree char *block = carpace_text_block_of (view);
  g_autofree char *limit = carpace_text_duration (view->limit_ms);
  g_autofree char *dose = carpace_text_duration (view->dose_ms);

  if (view->match)
    return g_strdup (_("A match has no limit."));
  if (view->block <= 0 || view->limit_ms <= 0)
    return view->dose_ms > 0 ? g_strdup_printf (_("Practice time today: %s."), dose) : g_strdup ("");
  if (view->dose_ms <= 0)
    return g_strdup_printf (_("%s: %s."), block, limit);
  return g_strdup_printf (_("%s: %s. Practice time today: %s."), block, limit, dose);
}

static void
fill (CarpaceWhyWindow *why, const CarpaceView *view)
{
  GList *children;

  gtk_container_foreach (GTK_CONTAINER (why->sentences), (GtkCallback) (void (*) (void)) gtk_widget_destroy, NULL);
  if (!why->diary.records_of || view->day == CARPACE_NO_DAY
      || !why->diary.records_of (why->diary.self, view->day, view->day, CARPACE_KIND (CARPACE_ENTRY_DECISION), add_record, why))
    if (view->has_decision)
      add_sentence (why, &view->decision);
  add_caution (why, view->day);
  children = gtk_container_get_children (GTK_CONTAINER (why->sentences));
  if (!children)
    gtk_box_pack_start (GTK_BOX (why->sentences),
                        carpace_card_line (_("The limit is the block plan's own; nothing has changed it today.")), FALSE, FALSE, 0);
  g_list_free (children);
}

void
carpace_why_window_show (CarpaceWhyWindow *why, const CarpaceView *view)
{
  g_autofree char *limit = limit_line (view);

  if (view->on_air)
    return;
  carpace_card_say (why->limit, limit);
  fill (why, view);
  carpace_card_show (why->card, CARPACE_CARD_BY_PLAYER);
}
