/* SPDX-License-Identifier: GPL-3.0-or-later */
/** planner-pages.h: the pages under the rail. */
#ifndef CARPACE_UI_PLANNER_PAGES_H
#define CARPACE_UI_PLANNER_PAGES_H

#include "ui/planner-value.h"
#include "ui/planner-window.h"

/** The chosen block and its drills, and the day split anew. */
void carpace_planner_add_blocks (CarpacePlannerWindow *window);

void carpace_planner_add_drills (CarpacePlannerWindow *window);

/** Name, hand, day, days without practice, intermissions on air. */
void carpace_planner_add_week (CarpacePlannerWindow *window);

/** Rests, what follows of a rating and of a morning, limits. */
void carpace_planner_add_rules (CarpacePlannerWindow *window);

/** The file itself, to be read and written. */
void carpace_planner_add_file (CarpacePlannerWindow *window);

/* ---- what a page may ask of the window ---- */

CarpacePlannerValueOwner carpace_planner_value_owner (CarpacePlannerWindow *window);

/** Says why a change was not made, where it was not. */
void carpace_planner_done (CarpacePlannerWindow *window, CarpacePlanEditEnd end);

CarpacePlanner *carpace_planner_of (CarpacePlannerWindow *window);

/** Clicks counted in the drill with the id @drill. @return false where nobody can tell */
bool carpace_planner_measured (CarpacePlannerWindow *window, const char *drill, CarpaceClicksCount *ret_count);

/** The block that is chosen on the rail, and its part, -1 for none. */
int32_t carpace_planner_chosen_block (CarpacePlannerWindow *window);
int32_t carpace_planner_chosen_part (CarpacePlannerWindow *window);
void carpace_planner_choose (CarpacePlannerWindow *window, int32_t block, int32_t part);

/** When the first block is shown to begin, minutes after midnight. */
void carpace_planner_begin_at (CarpacePlannerWindow *window, int32_t minutes);

#endif
