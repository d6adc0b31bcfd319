/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-drawing.h: twelve weeks at a glance, and the days of the one that is
 * chosen below them, to be gone through by keys, wheel and clicks.
 *
 * Text is as large as the desktop's at least. Larger, the drawing is wider than
 * its window where it has to be, and scrolled: no word is cut. Only the days of
 * the chosen week are read.
 */
#ifndef CARPACE_UI_DIARY_DRAWING_H
#define CARPACE_UI_DIARY_DRAWING_H

#include <gtk/gtk.h>

#include "draw/diary-model.h"

typedef struct CarpaceDiaryDrawing CarpaceDiaryDrawing;

/** What the drawing asks of its window: another day was chosen. */
typedef struct
{
  void *self;
  void (*chosen) (void *self, CarpaceDay day);
} CarpaceDiaryDrawingOwner;

CarpaceDiaryDrawing *carpace_diary_drawing_new (const CarpaceDiaryDrawingOwner *owner);
void carpace_diary_drawing_free (CarpaceDiaryDrawing *drawing);

/** Its widget with its scrollbars, to be put into a window; and the one that has the keys. */
GtkWidget *carpace_diary_drawing_widget (CarpaceDiaryDrawing *drawing);
GtkWidget *carpace_diary_drawing_area (CarpaceDiaryDrawing *drawing);

/** Draws @model from now on, which outlives this until the next call. NULL: nothing but @instead. */
void carpace_diary_drawing_set (CarpaceDiaryDrawing *drawing, CarpaceDiaryModel *model, const char *instead);

/** Chooses @day, or what is nearest to it; the owner is told. */
void carpace_diary_drawing_choose (CarpaceDiaryDrawing *drawing, CarpaceDay day);

/** One step larger (+1) or smaller (-1), never smaller than the desktop's text. */
void carpace_diary_drawing_zoom (CarpaceDiaryDrawing *drawing, int steps);

/** Pixels a point at which small text is as large as @widget's own. */
double carpace_diary_plain_zoom (GtkWidget *widget);

/** For tests: the week that is drawn below the strip, the first of the strip's, how much of it can be
 * scrolled, and pixels a point. */
CarpaceDay carpace_diary_drawing_monday (const CarpaceDiaryDrawing *drawing);
CarpaceDay carpace_diary_drawing_strip (const CarpaceDiaryDrawing *drawing);
double carpace_diary_drawing_zoomed (const CarpaceDiaryDrawing *drawing);
/** The width that is drawn and that can be seen at once, points. */
double carpace_diary_drawing_wide (const CarpaceDiaryDrawing *drawing, double *ret_seen);

#endif
