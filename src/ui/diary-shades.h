/* SPDX-License-Identifier: GPL-3.0-or-later */
/** diary-shades.h: the desktop's own colours for the diary's drawing. */
#ifndef CARPACE_UI_DIARY_SHADES_H
#define CARPACE_UI_DIARY_SHADES_H

#include <gtk/gtk.h>

#include "draw/pen.h"

/** Paper, ink and faint as @widget's theme has them, light or dark. */
CarpaceShades carpace_diary_shades (GtkWidget *widget);

#endif
