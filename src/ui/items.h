/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * items.h: what the tray's menu and the window of today offer, for a view.
 *
 * One table of rows: a row is there only where it can be chosen now, says what it
 * tells the session, or which window it opens. One of them is the most likely next
 * thing: the window's one button.
 */
#ifndef CARPACE_UI_ITEMS_H
#define CARPACE_UI_ITEMS_H

#include <glib.h>

#include "carpace/view.h"

/** Rows, in the order they are offered. */
typedef enum
{
  CARPACE_ITEM_STATE,
  CARPACE_ITEM_CARD_AGAIN,     /**< where a card was put away that still asks */
  CARPACE_ITEM_FIRST,          /**< while no plan is in use */
  CARPACE_ITEM_RATE,
  CARPACE_ITEM_MORNING_FIRST,  /**< while it is asked for */
  CARPACE_ITEM_REST,
  CARPACE_ITEM_AFTER_RUN,
  CARPACE_ITEM_PLAY_ON,
  CARPACE_ITEM_PAUSE_OR_CONTINUE,
  CARPACE_ITEM_START_OR_END,
  CARPACE_ITEM_MATCH_START,
  CARPACE_ITEM_MORNING,        /**< later on, until it is answered */
  CARPACE_ITEM_CORRECT,
  CARPACE_ITEM_ON_AIR,         /**< can be on */
  CARPACE_ITEM_PLAN,           /**< has plans beneath */
  CARPACE_ITEM_DIARY,
  CARPACE_ITEM_WHY,
  CARPACE_ITEM_CAUTIONS,
  CARPACE_ITEM_WINDOW,
  CARPACE_ITEM_SETTINGS,
  CARPACE_ITEM_QUIT,
  CARPACE_N_ITEMS
} CarpaceItemId;

/** One row. */
typedef struct
{
  char *label;
  bool visible;
  bool on;        /**< CARPACE_ITEM_ON_AIR */
} CarpaceItem;

/** All rows as @view has them. Free with carpace_items_clear(). */
void carpace_items_make (const CarpaceView *view, CarpaceInstant now, CarpaceItem ret_items[CARPACE_N_ITEMS]);

/** The row that brings back a card that was put away. @param chord the keys that do it, too; NULL: none do */
void carpace_items_set_card_again (CarpaceItem items[CARPACE_N_ITEMS], bool waits, const char *chord);

void carpace_items_clear (CarpaceItem items[CARPACE_N_ITEMS]);

/** Whether both draw the same. */
bool carpace_item_equal (const CarpaceItem *a, const CarpaceItem *b);

/** Whether a line stands above @id, apart from what comes before it. */
bool carpace_item_begins_part (CarpaceItemId id);

/** The most likely next thing in @view, one of the rows that are there; CARPACE_N_ITEMS
 * where there is none. @param ret_calm it can be done, but nothing asks for it now */
CarpaceItemId carpace_items_primary (const CarpaceView *view, bool *ret_calm);

/** A second one that may be wanted beside it; CARPACE_N_ITEMS where there is none. */
CarpaceItemId carpace_items_second (const CarpaceView *view);

/** What choosing @id tells the session in @view.
 * @return false where it tells nothing (it opens a window, or quits) */
bool carpace_item_event (CarpaceItemId id, const CarpaceView *view, CarpaceEvent *ret_event);

#endif
