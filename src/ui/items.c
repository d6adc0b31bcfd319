/* SPDX-License-Identifier: GPL-3.0-or-later */
/* items.c: the rows of menu and window, and which of them comes first. Pure: a view in, rows out. */
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
         && carpace_text_no_start (view) == NULL;
}

/* At its limit a block ends by any gap: a pause is its end. */
static bool
can_pause (const CarpaceView *view)
{
  return carpace_state_in_block (view->state) && view->state != CARPACE_STATE_LIMIT_REACHED;
}

static bool
can_check (const CarpaceView *view)
{
  return view->plan && !view->caution_open && !view->day_behind && (view->day_over || !view->morning_asked);
}

static bool
is_offered (const CarpaceView *view)
{
  return view->cue_on[CARPACE_CUE_MICRO_REST] && !view->rest.running;
}

static void
set (CarpaceItem *item, char *label, bool visible)
{
  item->label = label;
  item->visible = visible;
}

static void
make_state (const CarpaceView *view, CarpaceInstant now, CarpaceItem *items)
{
  set (&items[CARPACE_ITEM_STATE], carpace_text_state_line (view, now), true);
  set (&items[CARPACE_ITEM_ON_AIR], g_strdup (_("On air")), true);
  items[CARPACE_ITEM_ON_AIR].on = view->on_air;
  set (&items[CARPACE_ITEM_PAUSE_OR_CONTINUE], g_strdup (view->state == CARPACE_STATE_PAUSED ? _("Continue") : _("Pause")),
       can_pause (view));
  set (&items[CARPACE_ITEM_MATCH_START], g_strdup (_("Start a match")), can_start (view));
  set (&items[CARPACE_ITEM_QUIT], g_strdup (_("Quit")), true);
}

/* On air nothing names hand, rating or load. */
static void
make_on_air (const CarpaceView *view, CarpaceItem *items)
{
  bool in_block = carpace_state_in_block (view->state);

  set (&items[CARPACE_ITEM_START_OR_END], g_strdup (in_block ? _("End") : _("Start")), in_block || can_start (view));
  set (&items[CARPACE_ITEM_REST], g_strdup (_("Short pause now")), can_rest (view));
}

static void
make_off_air (const CarpaceView *view, CarpaceItem *items)
{
  bool morning_first = can_check (view) && view->cue_on[CARPACE_CUE_MORNING];

  set (&items[CARPACE_ITEM_FIRST], g_strdup (_("The first questions…")), view->state == CARPACE_STATE_OFF);
  set (&items[CARPACE_ITEM_RATE], carpace_text_rate (view->rating.block), view->rating.open);
  set (&items[CARPACE_ITEM_CORRECT], g_strdup (_("Correct the number…")), !view->rating.open && view->rating.given >= 0);
  set (&items[CARPACE_ITEM_MORNING_FIRST], g_strdup (_("This morning…")), morning_first);
  set (&items[CARPACE_ITEM_MORNING], g_strdup (_("This morning…")), can_check (view) && !morning_first);
  set (&items[CARPACE_ITEM_REST], g_strdup (_("Rest now")), can_rest (view));
  set (&items[CARPACE_ITEM_AFTER_RUN], g_strdup (_("After this run")), is_offered (view));
  set (&items[CARPACE_ITEM_PLAY_ON], g_strdup (_("Play on")), is_offered (view));
  set (&items[CARPACE_ITEM_START_OR_END], carpace_text_start_or_end (view),
       carpace_state_in_block (view->state) || can_start (view));
  set (&items[CARPACE_ITEM_PLAN], g_strdup (_("Block plan")), true);
  set (&items[CARPACE_ITEM_DIARY], g_strdup (_("Diary…")), true);
  set (&items[CARPACE_ITEM_WHY], g_strdup (_("Why this limit?")), view->plan != NULL);
  set (&items[CARPACE_ITEM_CAUTIONS], g_strdup (_("Cautions…")), true);
  set (&items[CARPACE_ITEM_WINDOW], g_strdup (_("Practise in this window…")), true);
  set (&items[CARPACE_ITEM_SETTINGS], g_strdup (_("Settings…")), true);
}

void
carpace_items_make (const CarpaceView *view, CarpaceInstant now, CarpaceItem ret_items[CARPACE_N_ITEMS])
{
  for (int32_t i = 0; i < CARPACE_N_ITEMS; i++)
    ret_items[i] = (CarpaceItem) { 0 };
  make_state (view, now, ret_items);
  if (view->on_air)
    make_on_air (view, ret_items);
  else
    make_off_air (view, ret_items);
  for (int32_t i = 0; i < CARPACE_N_ITEMS; i++)
    if (ret_items[i].label == NULL)
      ret_items[i].label = g_strdup ("");
}

void
carpace_items_set_card_again (CarpaceItem items[CARPACE_N_ITEMS], bool waits, const char *chord)
{
  CarpaceItem *again = &items[CARPACE_ITEM_CARD_AGAIN];

  g_free (again->label);
  again->visible = waits;
  /* Translators: %s are the keys that do it, as in "Ctrl+Alt+H" */
  again->label = !waits ? g_strdup ("") : chord ? g_strdup_printf (_("Show the card again (%s)"), chord) : g_strdup (_("Show the card again"));
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
  return a->visible == b->visible && a->on == b->on && g_strcmp0 (a->label, b->label) == 0;
}

bool
carpace_item_begins_part (CarpaceItemId id)
{
  return id == CARPACE_ITEM_CARD_AGAIN || id == CARPACE_ITEM_MORNING || id == CARPACE_ITEM_PLAN || id == CARPACE_ITEM_QUIT;
}

/* ---- which comes first ---- */

static CarpaceItemId
between_blocks (const CarpaceView *view, bool *ret_calm)
{
  bool waits = view->next_known && view->next_cue == CARPACE_CUE_NEXT_BLOCK && view->next_in_ms > 0;

  if (view->caution_open || view->cue_on[CARPACE_CUE_CAUTION])
    return CARPACE_ITEM_CAUTIONS;
  if (view->rating.open)
    return CARPACE_ITEM_RATE;
  if (can_check (view) && view->cue_on[CARPACE_CUE_MORNING])
    return CARPACE_ITEM_MORNING_FIRST;
  if (view->state == CARPACE_STATE_DAY_DONE || !can_start (view))
    {
      *ret_calm = !can_check (view);
      return can_check (view) ? CARPACE_ITEM_MORNING : CARPACE_ITEM_DIARY;
    }
  *ret_calm = waits && !view->start_asks;
  return CARPACE_ITEM_START_OR_END;
}

static CarpaceItemId
on_air (const CarpaceView *view, bool *ret_calm)
{
  if (view->state == CARPACE_STATE_PAUSED)
    return CARPACE_ITEM_PAUSE_OR_CONTINUE;
  if (can_rest (view))
    return CARPACE_ITEM_REST;
  if (carpace_state_in_block (view->state))
    return view->state == CARPACE_STATE_RESTING ? CARPACE_ITEM_PAUSE_OR_CONTINUE : CARPACE_ITEM_START_OR_END;
  if (can_start (view) && view->state != CARPACE_STATE_DAY_DONE)
    return CARPACE_ITEM_START_OR_END;
  *ret_calm = true;
  return CARPACE_ITEM_ON_AIR;
}

CarpaceItemId
carpace_items_primary (const CarpaceView *view, bool *ret_calm)
{
  *ret_calm = false;
  if (view->on_air)
    return on_air (view, ret_calm);
  switch (view->state)
    {
    case CARPACE_STATE_OFF: return CARPACE_ITEM_PLAN;
    case CARPACE_STATE_WAITING:
    case CARPACE_STATE_RATING_DUE:
    case CARPACE_STATE_DAY_DONE: return between_blocks (view, ret_calm);
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_GAP:
    case CARPACE_STATE_REST_DUE: return view->match ? CARPACE_ITEM_START_OR_END : CARPACE_ITEM_REST;
    case CARPACE_STATE_RESTING:
      *ret_calm = true;
      return CARPACE_ITEM_PAUSE_OR_CONTINUE;
    case CARPACE_STATE_LIMIT_REACHED: return CARPACE_ITEM_START_OR_END;
    case CARPACE_STATE_PAUSED: return CARPACE_ITEM_PAUSE_OR_CONTINUE;
    case CARPACE_N_STATES: break;
    }
  return CARPACE_N_ITEMS;
}

CarpaceItemId
carpace_items_second (const CarpaceView *view)
{
  bool calm;
  CarpaceItemId first = carpace_items_primary (view, &calm);

  if (first == CARPACE_ITEM_MORNING_FIRST && can_start (view))
    return CARPACE_ITEM_START_OR_END;
  if (first == CARPACE_ITEM_REST && is_offered (view) && !view->on_air)
    return CARPACE_ITEM_PLAY_ON;
  if (can_pause (view) && first != CARPACE_ITEM_PAUSE_OR_CONTINUE)
    return CARPACE_ITEM_PAUSE_OR_CONTINUE;
  if (view->state == CARPACE_STATE_PAUSED)
    return CARPACE_ITEM_START_OR_END;
  return CARPACE_N_ITEMS;
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
    case CARPACE_ITEM_AFTER_RUN: event.kind = CARPACE_EVENT_AFTER_RUN; break;
    case CARPACE_ITEM_PLAY_ON: event.kind = CARPACE_EVENT_PLAY_ON; break;
    case CARPACE_ITEM_PAUSE_OR_CONTINUE:
      event.kind = view->state == CARPACE_STATE_PAUSED ? CARPACE_EVENT_CONTINUE : CARPACE_EVENT_PAUSE;
      break;
    case CARPACE_ITEM_ON_AIR: event.kind = view->on_air ? CARPACE_EVENT_OFF_AIR : CARPACE_EVENT_ON_AIR; break;
    case CARPACE_ITEM_MATCH_START: event.kind = CARPACE_EVENT_START_MATCH; break;
    case CARPACE_ITEM_STATE:
    case CARPACE_ITEM_CARD_AGAIN:
    case CARPACE_ITEM_FIRST:
    case CARPACE_ITEM_RATE:
    case CARPACE_ITEM_MORNING_FIRST:
    case CARPACE_ITEM_MORNING:
    case CARPACE_ITEM_CORRECT:
    case CARPACE_ITEM_PLAN:
    case CARPACE_ITEM_DIARY:
    case CARPACE_ITEM_WHY:
    case CARPACE_ITEM_CAUTIONS:
    case CARPACE_ITEM_WINDOW:
    case CARPACE_ITEM_SETTINGS:
    case CARPACE_ITEM_QUIT:
    case CARPACE_N_ITEMS:
      return false;
    }
  *ret_event = event;
  return true;
}
