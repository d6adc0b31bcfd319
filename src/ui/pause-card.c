/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pause-card.c: a pause on air, counted along its rail. */
#include "ui/pause-card.h"

#include <glib/gi18n.h>

#include "text/pause-text.h"
#include "ui/count.h"
#include "ui/rail.h"

#define ICON "org.carpace.Carpace-on-air-symbolic" /* on air it never changes */

struct CarpacePauseCard
{
  CarpaceCard *card;
  GtkWidget *aside, *rail, *count, *pause_now, *after_run, *play_on;
  CarpacePause drawn;
};

static GtkWidget *
make_countdown (CarpacePauseCard *card)
{
  card->aside = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  card->rail = carpace_rail_new ();
  card->count = carpace_count_new ();
  gtk_box_pack_start (GTK_BOX (card->aside), card->rail, TRUE, TRUE, 0);
  gtk_box_pack_end (GTK_BOX (card->aside), card->count, FALSE, FALSE, 0);
  return card->aside;
}

CarpacePauseCard *
carpace_pause_card_new (const CarpaceOwner *owner)
{
  CarpacePauseCard *card = g_new0 (CarpacePauseCard, 1);

  card->card = carpace_card_new ("pause-card", "Carpace");
  carpace_card_set_aside (card->card, make_countdown (card));
  card->pause_now = carpace_card_add_event (card->card, 1, _("_Pause now"), owner, CARPACE_EVENT_REST);
  card->after_run = carpace_card_add_event (card->card, 2, _("_After this run"), owner, CARPACE_EVENT_AFTER_RUN);
  card->play_on = carpace_card_add_event (card->card, 3, _("_Play on"), owner, CARPACE_EVENT_PLAY_ON);
  carpace_card_on_seen (card->card, owner->redraw, owner->self);
  return card;
}

void
carpace_pause_card_free (CarpacePauseCard *card)
{
  if (!card)
    return;
  carpace_card_free (card->card);
  g_free (card);
}

CarpaceCard *
carpace_pause_card_card (CarpacePauseCard *card)
{
  return card->card;
}

void
carpace_pause_card_hide (CarpacePauseCard *card)
{
  carpace_card_hide (card->card);
}

static CarpacePause
pause_of (const CarpaceView *view)
{
  CarpacePause pause = carpace_pause_running (view);

  if (!view->on_air)
    return (CarpacePause){ .kind = CARPACE_PAUSE_NONE };
  return pause.kind != CARPACE_PAUSE_NONE ? pause : carpace_pause_offered (view);
}

static void
draw_countdown (CarpacePauseCard *card, const CarpacePause *pause)
{
  g_autofree char *count = carpace_text_count (pause->to_go_ms);
  int64_t seconds = (pause->to_go_ms + CARPACE_SECOND_MS - 1) / CARPACE_SECOND_MS;
  const CarpaceRailView rail = { .length_ms = pause->length_ms, .runs = pause->running && !pause->waits,
                                 .done_ms = MAX (pause->length_ms - seconds * CARPACE_SECOND_MS, 0) };

  carpace_rail_set (card->rail, &rail);
  carpace_count_set (card->count, count);
}

static void
draw_all (CarpacePauseCard *card, const CarpacePause *pause)
{
  g_autofree char *heading = carpace_text_pause_length (pause);
  bool is_short = pause->kind == CARPACE_PAUSE_SHORT;

  carpace_card_say (carpace_card_heading_of (card->card), heading);
  carpace_card_say (carpace_card_why (card->card), pause->waits ? _("The countdown waits.") : "");
  carpace_card_set_bar (card->card, ICON, heading, !is_short ? NULL : pause->running ? "3" : "1");
  gtk_widget_set_visible (card->aside, pause->running);
  gtk_widget_set_visible (card->pause_now, !pause->running);
  gtk_widget_set_visible (card->after_run, !pause->running);
  gtk_widget_set_visible (card->play_on, is_short);
  draw_countdown (card, pause);
  carpace_card_fit (card->card);
}

static bool
only_counted (const CarpacePause *a, const CarpacePause *b)
{
  return a->kind == b->kind && a->running == b->running && a->waits == b->waits && a->length_ms == b->length_ms;
}

void
carpace_pause_card_draw (CarpacePauseCard *card, const CarpaceView *view)
{
  CarpacePause pause = pause_of (view);

  if (!carpace_card_is_shown (card->card))
    return;
  if (pause.kind == CARPACE_PAUSE_NONE)
    {
      carpace_pause_card_hide (card);
      return;
    }
  if (only_counted (&pause, &card->drawn))
    draw_countdown (card, &pause);
  else
    draw_all (card, &pause);
  card->drawn = pause;
}

void
carpace_pause_card_show (CarpacePauseCard *card, const CarpaceView *view)
{
  CarpacePause pause = pause_of (view);

  if (pause.kind == CARPACE_PAUSE_NONE)
    return;
  draw_all (card, &pause);
  card->drawn = pause;
  carpace_card_show (card->card, CARPACE_CARD_BY_ITSELF);
}

int64_t
carpace_pause_card_next_ms (const CarpacePauseCard *card, const CarpaceView *view)
{
  CarpacePause pause = pause_of (view);

  if (!carpace_card_is_seen (card->card) || !pause.running || pause.waits || pause.to_go_ms <= 0)
    return CARPACE_NEVER;
  return (pause.to_go_ms - 1) % CARPACE_SECOND_MS + 1;
}
