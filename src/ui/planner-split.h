/* SPDX-License-Identifier: GPL-3.0-or-later */
/** planner-split.h: the day's drills put into other blocks: worked out by a press, before and after, then taken or not. */
#ifndef CARPACE_UI_PLANNER_SPLIT_H
#define CARPACE_UI_PLANNER_SPLIT_H

#include "ui/planner-pages.h"

typedef struct CarpacePlannerSplitter CarpacePlannerSplitter;

CarpacePlannerSplitter *carpace_planner_splitter_new (CarpacePlannerWindow *window);
GtkWidget *carpace_planner_splitter_widget (CarpacePlannerSplitter *splitter);

/** The plan is another: what was worked out for the one before is put away. */
void carpace_planner_splitter_changed (CarpacePlannerSplitter *splitter);

#endif
