/* SPDX-License-Identifier: GPL-3.0-or-later */
/** roster-cell.h: a player's weeks as a cell of a list. */
#ifndef CARPACE_UI_ROSTER_CELL_H
#define CARPACE_UI_ROSTER_CELL_H

#include <gtk/gtk.h>

#include "draw/roster-paint.h"

G_DECLARE_FINAL_TYPE (CarpaceRosterCell, carpace_roster_cell, CARPACE, ROSTER_CELL, GtkCellRenderer)

/** All rows have this scale, and end with the week of @last_monday. */
GtkCellRenderer *carpace_roster_cell_new (CarpaceDay last_monday, int64_t longest_ms);

/** What it shows from now on; NULL: nothing. @row has to stay. */
void carpace_roster_cell_set (CarpaceRosterCell *cell, const CarpaceRosterRow *row);

#endif
