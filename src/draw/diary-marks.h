/* SPDX-License-Identifier: GPL-3.0-or-later */
/** diary-marks.h: the diary's marks, the same wherever it is drawn. */
#ifndef CARPACE_DRAW_DIARY_MARKS_H
#define CARPACE_DRAW_DIARY_MARKS_H

#include "diary-paint.h"

/** A mark's size, points. */
#define CARPACE_DIARY_MARK 5.0

/** Paints a mark about (@x, @y). */
typedef void (*CarpaceDiaryMarkPainter) (CarpacePen *pen, double x, double y);

void carpace_diary_mark_planned (CarpacePen *pen, double x, double y);
void carpace_diary_mark_done (CarpacePen *pen, double x, double y);
void carpace_diary_mark_level (CarpacePen *pen, double x, double y);
void carpace_diary_mark_match (CarpacePen *pen, double x, double y);
void carpace_diary_mark_waking (CarpacePen *pen, double x, double y);
void carpace_diary_mark_now (CarpacePen *pen, double x, double y);
void carpace_diary_mark_rating (CarpacePen *pen, double x, double y);
void carpace_diary_mark_corrected (CarpacePen *pen, double x, double y);

#endif
