/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * items.h: what the tray's menu and the small window offer, for a view.
 *
 * Both draw the same rows in the same order; a row says what it tells the
 * session, or which window it opens.
 */
#ifndef CARPACE_UI_ITEMS_H
#define CARPACE_UI_ITEMS_H

#include <glib.h>

#include "carpace/view.h"

/** Rows, in the order they are offered. */
typedef enum
{
  CARPACE_ITEM_STATE,
  CARPACE_ITEM_START_OR_END,
  CARPACE_ITEM_REST,
  CARPACE_ITEM_PAUSE_OR_CONTINUE,
  CARPACE_ITEM_RATE,
  CARPACE_ITEM_MATCH,          /**< has rows beneath: CARPACE_ITEM_MATCH_START, _END */
  CARPACE_ITEM_ON_AIR,         /**< can be on */
  CARPACE_ITEM_PLAN,           /**< has plans beneath */
  CARPACE_ITEM_DIARY,
  CARPACE_ITEM_WHY,
  CARPACE_ITEM_CAUTIONS,
  CARPACE_ITEM_QUIT,
  CARPACE_ITEM_MATCH_START,
  CARPACE_ITEM_MATCH_END,
  CARPACE_N_ITEMS
} CarpaceItemId;

/** One row. */
typedef struct
{
  char *label;
  bool visible;
  bool sensitive;
  bool on;        /**< CARPACE_ITEM_ON_AIR */
} CarpaceItem;

/** All rows as @view has them. Free with carpace_items_clear(). */
void carpace_items_make (const CarpaceView *view, CarpaceInstant now, CarpaceItem ret_items[CARPACE_N_ITEMS]);

void carpace_items_clear (CarpaceItem items[CARPACE_N_ITEMS]);

/** Whether both draw the same. */
bool carpace_item_equal (const CarpaceItem *a, const CarpaceItem *b);

/** What choosing @id tells the session in @view.
 * @return false where it tells nothing (it opens a window, or quits) */
bool carpace_item_event (CarpaceItemId id, const CarpaceView *view, CarpaceEvent *ret_event);

#endif
