/* SPDX-License-Identifier: GPL-3.0-or-later */
/* items.c: the rows of menu and small window. Pure: a view in, rows out. */
#include "ui/items.h"

#include <glib/gi18n.h>

#include "text/face-text.h"

static bool
can_rest (const CarpaceView *view)
{
  return !view->match && (view->state == CARPACE_STATE_PRACTISING || view->state == CARPACE_STATE_GAP
                          || view->state == CARPACE_STATE_REST_DUE);
}

static bool
can_start (const CarpaceView *view)
{
  return view->plan && view->state != CARPACE_STATE_OFF && !carpace_state_in_block (view->state)
         && !view->no_practice && !view->caution_open;
}

static bool
can_rate (const CarpaceView *view)
{
  return view->rating.open || view->rating.given >= 0;
}

static void
set (CarpaceItem *item, char *label, bool visible, bool sensitive)
{
  item->label = label;
  item->visible = visible;
  item->sensitive = sensitive;
}

/* On air nothing names hand, rating or load. */
static void
make_neutral (CarpaceItem *items, const CarpaceView *view)
{
  set (&items[CARPACE_ITEM_START_OR_END], g_strdup (carpace_state_in_block (view->state) ? _("End") : _("Start")),
       true, items[CARPACE_ITEM_START_OR_END].sensitive);
  set (&items[CARPACE_ITEM_REST], g_strdup (_("Intermission now")), true, can_rest (view));
  items[CARPACE_ITEM_RATE].visible = false;
  items[CARPACE_ITEM_PLAN].visible = false;
  items[CARPACE_ITEM_DIARY].visible = false;
  items[CARPACE_ITEM_WHY].visible = false;
  items[CARPACE_ITEM_CAUTIONS].visible = false;
}

void
carpace_items_make (const CarpaceView *view, CarpaceInstant now, CarpaceItem ret_items[CARPACE_N_ITEMS])
{
  CarpaceItem *items = ret_items;
  bool in_block = carpace_state_in_block (view->state), paused = view->state == CARPACE_STATE_PAUSED;
  char *start_or_end = carpace_text_start_or_end (view);

  for (int32_t i = 0; i < CARPACE_N_ITEMS; i++)
    items[i] = (CarpaceItem) { 0 };
  set (&items[CARPACE_ITEM_STATE], carpace_text_state_line (view, now), true, false);
  set (&items[CARPACE_ITEM_START_OR_END], view->on_air ? NULL : g_strdup (start_or_end), true,
       in_block || can_start (view));
  set (&items[CARPACE_ITEM_REST], view->on_air ? NULL : g_strdup (_("Rest now")), true, can_rest (view));
  set (&items[CARPACE_ITEM_PAUSE_OR_CONTINUE], g_strdup (paused ? _("Continue") : _("Pause")), true, in_block);
  set (&items[CARPACE_ITEM_RATE], carpace_text_rate (view->rating.block), can_rate (view), can_rate (view));
  set (&items[CARPACE_ITEM_MATCH], g_strdup (_("Match")), true, view->plan != NULL);
  set (&items[CARPACE_ITEM_MATCH_START], g_strdup (_("Start a match")), true, can_start (view));
  set (&items[CARPACE_ITEM_MATCH_END], g_strdup (_("End the match")), true, in_block && view->match);
  set (&items[CARPACE_ITEM_ON_AIR], g_strdup (_("On air")), true, true);
  items[CARPACE_ITEM_ON_AIR].on = view->on_air;
  set (&items[CARPACE_ITEM_PLAN], g_strdup (_("Block plan")), true, true);
  set (&items[CARPACE_ITEM_DIARY], g_strdup (_("Diary…")), true, true);
  set (&items[CARPACE_ITEM_WHY], g_strdup (_("Why this limit?")), true, view->plan != NULL);
  set (&items[CARPACE_ITEM_CAUTIONS], g_strdup (_("Cautions…")), true, true);
  set (&items[CARPACE_ITEM_QUIT], g_strdup (_("Quit")), true, true);
  if (view->on_air)
    make_neutral (items, view);
  g_free (start_or_end);
}

void
carpace_items_clear (CarpaceItem items[CARPACE_N_ITEMS])
{
  for (int32_t i = 0; i < CARPACE_N_ITEMS; i++)
    g_clear_pointer (&items[i].label, g_free);
}

bool
carpace_item_equal (const CarpaceItem *a, const CarpaceItem *b)
{
  return a->visible == b->visible && a->sensitive == b->sensitive && a->on == b->on
         && g_strcmp0 (a->label, b->label) == 0;
}

bool
carpace_item_event (CarpaceItemId id, const CarpaceView *view, CarpaceEvent *ret_event)
{
  CarpaceEvent event = { 0 };
  bool in_block = carpace_state_in_block (view->state);

  switch (id)
    {
    case CARPACE_ITEM_START_OR_END: event.kind = in_block ? CARPACE_EVENT_END : CARPACE_EVENT_START; break;
    case CARPACE_ITEM_REST: event.kind = CARPACE_EVENT_REST; break;
    case CARPACE_ITEM_PAUSE_OR_CONTINUE:
      event.kind = view->state == CARPACE_STATE_PAUSED ? CARPACE_EVENT_CONTINUE : CARPACE_EVENT_PAUSE;
      break;
    case CARPACE_ITEM_ON_AIR: event.kind = view->on_air ? CARPACE_EVENT_OFF_AIR : CARPACE_EVENT_ON_AIR; break;
    case CARPACE_ITEM_MATCH_START: event.kind = CARPACE_EVENT_START_MATCH; break;
    case CARPACE_ITEM_MATCH_END: event.kind = CARPACE_EVENT_END; break;
    case CARPACE_ITEM_STATE:
    case CARPACE_ITEM_RATE:
    case CARPACE_ITEM_MATCH:
    case CARPACE_ITEM_PLAN:
    case CARPACE_ITEM_DIARY:
    case CARPACE_ITEM_WHY:
    case CARPACE_ITEM_CAUTIONS:
    case CARPACE_ITEM_QUIT:
    case CARPACE_N_ITEMS:
      return false;
    }
  *ret_event = event;
  return true;
}
