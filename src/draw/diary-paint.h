/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-paint.h: the diary's drawing, row by row.
 *
 * Days lie along an upright rail at the left edge. Beside each a rail of its own
 * carries the times: asked an open mark with its end-stop, done a filled bead.
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
  CARPACE_DIARY_WORDS_TWO_LINES, /**< every decision, two lines in all: rows of equal height */
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

/** Lays a drawing of @model out over @width points (300 at least). */
CarpaceDiaryLie carpace_diary_lie (const CarpaceDiaryModel *model, double width, CarpaceDiaryWords words, bool hand);

/** The head: what lies where, with its scales. @return its height */
double carpace_diary_paint_head (CarpacePen *pen, const CarpaceDiaryLie *lie, double y);

/** What the marks mean, on one line. @return its height */
double carpace_diary_paint_legend (CarpacePen *pen, const CarpaceDiaryLie *lie, double x, double y);

/** The height of a row whose words take no more lines than two, by its kind:
 * exact with CARPACE_DIARY_WORDS_BESIDE and _TWO_LINES. */
double carpace_diary_row_height (const CarpaceDiaryLie *lie, const CarpaceDiaryRow *row);

/** Paints one row at @y; with @draw false only measures it.
 * @return its height */
double carpace_diary_paint_row (CarpacePen *pen, const CarpaceDiaryLie *lie, CarpaceDiaryModel *model, int32_t row,
                                double y, bool draw);

/** Paints a week as one row: means of what was asked and done a day, and of the numbers.
 * @return its height */
double carpace_diary_paint_week (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryModel *model,
                                 CarpaceDay monday, double y, bool draw);

#endif
