/* SPDX-License-Identifier: GPL-3.0-or-later */
/** drawing.h: the line drawing of an exercise, in the colour of the text beside
 * it. Drawn for a right hand; mirrored for a left one. */
#ifndef CARPACE_UI_DRAWING_H
#define CARPACE_UI_DRAWING_H

#include <gtk/gtk.h>

#include "carpace/exercise.h"

/** An empty drawing, 4:3. */
GtkWidget *carpace_drawing_new (void);

/** Shows @exercise. Without a loader for SVG pictures it stays empty. */
void carpace_drawing_set (GtkWidget *drawing, CarpaceExercise exercise, gboolean mirrored);

#endif
