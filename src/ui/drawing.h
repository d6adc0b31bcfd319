/* SPDX-License-Identifier: GPL-3.0-or-later */
/** drawing.h: a line drawing, of an exercise for one, in the colour of the text beside
 * it. Drawn for a right hand; mirrored for a left one. */
#ifndef CARPACE_UI_DRAWING_H
#define CARPACE_UI_DRAWING_H

#include <gtk/gtk.h>

#include "carpace/exercise.h"

/** An empty drawing of an exercise, 4:3. */
GtkWidget *carpace_drawing_new (void);

/** An empty drawing of files that are @drawn_width by @drawn_height, as large as they are. */
GtkWidget *carpace_drawing_new_of (int drawn_width, int drawn_height);

/** Its width, px; the height follows. */
void carpace_drawing_set_width (GtkWidget *drawing, int width);

/** Whether @exercise goes to and fro between two ends, each with a drawing of its own. */
gboolean carpace_drawing_has_ends (CarpaceExercise exercise);

/** Shows @exercise, of those that are done in two ways the one with the @palm_up.
 * @param end 0: all of it; 1 or 2: one end, where it has them */
void carpace_drawing_set (GtkWidget *drawing, CarpaceExercise exercise, gboolean palm_up, int end, gboolean mirrored);

/** The file that is shown, a name without its ending; for tests. */
const char *carpace_drawing_file (GtkWidget *drawing);

/** Shows the drawing in @file, a name without its ending. */
void carpace_drawing_set_file (GtkWidget *drawing, const char *file, gboolean mirrored);

#endif
