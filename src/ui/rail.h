/* SPDX-License-Identifier: GPL-3.0-or-later */
/** rail.h: a countdown as a bead on its rail: an open tube for each hold, filled as it is done. */
#ifndef CARPACE_UI_RAIL_H
#define CARPACE_UI_RAIL_H

#include <gtk/gtk.h>
#include <stdbool.h>
#include <stdint.h>

/** What lies along it. */
typedef struct
{
  int64_t length_ms;   /**< from end to end */
  int64_t done_ms;     /**< where the bead is */
  int32_t holds;       /**< tubes, of one length, with a breath between them */
  int64_t hold_ms;     /**< all of them together: the last part of the rail */
  bool runs;           /**< a filled bead; else an open one, which waits */
} CarpaceRailView;

/** Where tube @which of @rail lies, as shares of its length.
 * @return false where there is none */
bool carpace_rail_tube (const CarpaceRailView *rail, int32_t which, double *ret_from, double *ret_to);

/** A rail without anything on it, read in the reading direction. */
GtkWidget *carpace_rail_new (void);

/** Shows @rail; nothing else of the window is laid out anew. */
void carpace_rail_set (GtkWidget *widget, const CarpaceRailView *rail);

#endif
