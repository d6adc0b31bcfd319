/* SPDX-License-Identifier: GPL-3.0-or-later */
/** day-rail.h: a practice day along its rail, as a widget; it says in words what it shows. */
#ifndef CARPACE_UI_DAY_RAIL_H
#define CARPACE_UI_DAY_RAIL_H

#include <gtk/gtk.h>

#include "carpace/day-rail.h"
#include "draw/pen.h"

/** A day with nothing on it; as wide as it is given, as high as its text needs. */
GtkWidget *carpace_day_rail_new (void);

/** Shows @day. @return whether anything of it differs */
bool carpace_day_rail_set (GtkWidget *widget, const CarpaceDayRail *day);

/** The desktop's ink about @widget, the same in front and behind other windows. */
GdkRGBA carpace_ink_of (GtkWidget *widget);

/** That ink, the ground about @widget, and between them what quiet words are in. */
CarpaceShades carpace_shades_of (GtkWidget *widget);

/** The theme's colour of what is selected, mixed with ink until it is 3 : 1 against the ground. */
CarpaceShade carpace_accent_of (GtkWidget *widget);

/** The size of @widget's text, px. */
double carpace_em_of (GtkWidget *widget);

/** @text in @widget's letters, its digits of one width. g_object_unref() it. @param text NULL: none yet */
PangoLayout *carpace_layout_of (GtkWidget *widget, const char *text);

#endif
