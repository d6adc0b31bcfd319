/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-paint.h: the diary's drawing, row by row.
 *
 * Days lie along an upright rail at the left edge. Beside each a rail of its own
 * carries the times: planned an open mark with its end-stop, done a filled bead.
 * Next to it lie the numbers the hand gave, from 0 to 10; what was not answered
 * leaves nothing. Decisions stand in words under the day.
 */
#ifndef CARPACE_DRAW_DIARY_PAINT_H
#define CARPACE_DRAW_DIARY_PAINT_H

#include "diary-model.h"
#include "pen.h"

/** How much is said under a day. */
typedef enum
{
  CARPACE_DIARY_WORDS_BESIDE,  /**< what follows of a decision, in a few words beside the day: rows are low */
  CARPACE_DIARY_WORDS_CHANGES, /**< decisions that changed something, as long as they are */
  CARPACE_N_DIARY_WORDS
} CarpaceDiaryWords;

/** Where things lie across. Points. */
typedef struct
{
  double width;
  double rail_from, rail_to; /**< the times */
  double hand_from, hand_to; /**< 0 and 10 */
  double order_at;           /**< numbers in order */
  double extras_at;
  int64_t longest_ms;        /**< at rail_to */
  bool hand;                 /**< whether numbers of the hand are drawn */
  bool told;                 /**< whether decisions, mornings and cautions are told in words */
  bool weeks;                /**< its rows are weeks: head and legend say so */
  double track;              /**< height of a day's rail and numbers */
  CarpaceDiaryWords words;
  const CarpaceDiaryModel *further; /**< a model that reaches further back, for the week before the first; or NULL */
} CarpaceDiaryLie;

/** The least width of a drawing, points. */
#define CARPACE_DIARY_LEAST_WIDTH 300.0

/** Lays a drawing of @model out over @width points (CARPACE_DIARY_LEAST_WIDTH at least). */
CarpaceDiaryLie carpace_diary_lie (const CarpaceDiaryModel *model, double width, CarpaceDiaryWords words, bool hand);

/** The head: what lies where, with its scales. @return its height; with @draw false nothing is drawn */
double carpace_diary_paint_head (CarpacePen *pen, const CarpaceDiaryLie *lie, double y, bool draw);

/** What the marks mean, from @x to the drawing's end, on as many lines as it
 * takes. @return its height; with @draw false nothing is drawn */
double carpace_diary_paint_legend (CarpacePen *pen, const CarpaceDiaryLie *lie, double x, double y, bool draw);

/** The height of a row with CARPACE_DIARY_WORDS_BESIDE, without a look at what
 * stands within its day. */
double carpace_diary_low_row (const CarpaceDiaryLie *lie, const CarpaceDiaryRow *row);

/** Paints one row at @y; with @draw false only measures it.
 * @return its height */
double carpace_diary_paint_row (CarpacePen *pen, const CarpaceDiaryLie *lie, CarpaceDiaryModel *model, int32_t row,
                                double y, bool draw);

/** Paints a week as one row: means of what was planned and done a day, and of the numbers.
 * @return its height */
double carpace_diary_paint_week (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryModel *model,
                                 CarpaceDay monday, double y, bool draw);

/** Paints @weeks weeks from @first_monday as a strip: a day from left to right,
 * its minutes upward; the week of @chosen has a frame.
 * @return its height; with @draw false nothing is drawn */
double carpace_diary_paint_strip (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryModel *model,
                                  CarpaceDay first_monday, int32_t weeks, CarpaceDay chosen, double y, bool draw);

/** The week of the strip at @x, 0 to @weeks - 1; -1 where there is none. */
int32_t carpace_diary_strip_week_at (const CarpaceDiaryLie *lie, int32_t weeks, double x);

#endif
