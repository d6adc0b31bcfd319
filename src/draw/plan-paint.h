/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-paint.h: a plan's day along the rail, to be changed there, and under it the modelled reserve.
 *
 * Blocks stand between two end bars; drills differ by pattern and name, ticks are runs, rests sag, a flag above is an
 * intermission on air. From top to bottom: what a block is, the rail, clock times, the reserve.
 */
#ifndef CARPACE_DRAW_PLAN_PAINT_H
#define CARPACE_DRAW_PLAN_PAINT_H

#include "carpace/plan-rail.h"
#include "rail-paint.h"

/** Patterns that drills are told apart by: slanted, level, dots, upright, crossed, dashes. */
#define CARPACE_PATTERNS 6

/** What a hand can take hold of. */
typedef enum
{
  CARPACE_HOLD_NOTHING,
  CARPACE_HOLD_BLOCK, /**< a block, to be chosen, or moved among the others */
  CARPACE_HOLD_START, /**< its first bar: the wait before it */
  CARPACE_HOLD_END,   /**< its last bar: its limit */
  CARPACE_HOLD_SHARE  /**< the border behind one of its drills */
} CarpaceHoldKind;

typedef struct
{
  CarpaceHoldKind kind;
  int32_t block, part;
} CarpaceHold;

/** A plan to be painted. */
typedef struct
{
  cairo_t *cr;
  PangoLayout *layout;     /**< has the font */
  CarpaceShades shades;
  CarpaceShade accent;     /**< under what is chosen; never alone */
  double em, width;
  double scale;            /**< px of the longest block; 0: as wide as there is room for */
  bool mirrored;
  const CarpacePlan *plan;
  const CarpaceDayLoad *load;
  CarpacePlanRail rail;
  CarpaceInstant begins;   /**< when the first block does */
  CarpaceAirBreaks air;    /**< intermissions on air */
  CarpaceHold chosen;      /**< a block, and a part of it where that is 0 or more */
} CarpacePlanPaint;

/** How high it is. */
double carpace_plan_paint_height (double em);

/** px of the longest block, where the whole rail has room. */
double carpace_plan_paint_scale (const CarpacePlanPaint *paint);

void carpace_plan_paint (const CarpacePlanPaint *paint);

/** What lies at @x, @y. */
CarpaceHold carpace_plan_paint_at (const CarpacePlanPaint *paint, double x, double y);

/** Where along the rail @x lies, in lengths of the longest block. */
double carpace_plan_paint_along (const CarpacePlanPaint *paint, double x);

/** A small piece of a drill's pattern. */
void carpace_pattern_paint (cairo_t *cr, CarpaceShades shades, double em, int32_t drill, double x, double y, double width, double height);

#endif
