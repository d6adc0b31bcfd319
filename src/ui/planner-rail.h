/* SPDX-License-Identifier: GPL-3.0-or-later */
/** planner-rail.h: a plan's day along the rail, changed by the mouse or by keys, with the numbers that follow. */
#ifndef CARPACE_UI_PLANNER_RAIL_H
#define CARPACE_UI_PLANNER_RAIL_H

#include <gtk/gtk.h>

#include "draw/plan-paint.h"
#include "planner/document.h"

typedef struct CarpacePlannerRail CarpacePlannerRail;

typedef struct
{
  void *self;
  /** Another block, or another part of it, is chosen. */
  void (*chosen) (void *self);
  /** Something was changed by hand and could, or could not, be written. */
  void (*done) (void *self, CarpacePlanEditEnd end);
} CarpacePlannerRailOwner;

CarpacePlannerRail *carpace_planner_rail_new (CarpacePlanner *planner, const CarpacePlannerRailOwner *owner);
void carpace_planner_rail_free (CarpacePlannerRail *rail);
GtkWidget *carpace_planner_rail_widget (CarpacePlannerRail *rail);

/** The plan is another, or is tried as another. */
void carpace_planner_rail_changed (CarpacePlannerRail *rail);

/** When the first block is shown to begin until it is told otherwise, minutes after midnight. */
#define CARPACE_PLANNER_BEGINS_MIN (18 * 60)

/** When the first block is shown to begin, minutes after midnight. */
void carpace_planner_rail_begin_at (CarpacePlannerRail *rail, int32_t minutes);

/** The plan's intermissions on air, in words; NULL where there are none while the day lasts. g_free() it */
char *carpace_planner_rail_air (const CarpacePlannerRail *rail);

int32_t carpace_planner_rail_block (const CarpacePlannerRail *rail);
/** -1: none of its drills in particular */
int32_t carpace_planner_rail_part (const CarpacePlannerRail *rail);
void carpace_planner_rail_choose (CarpacePlannerRail *rail, int32_t block, int32_t part);

#endif
