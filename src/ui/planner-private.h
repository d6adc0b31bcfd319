/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-private.h: what the files of the planner's window share.
 *
 *   planner-window.c   how it is built, and what happens when the plan is another
 *   planner-files.c    open, recent, save, save as; what is unsaved is asked about
 *   planner-blocks.c planner-drills.c planner-rules.c planner-file.c   the pages under the rail
 *   planner-value.c    one value, on any of them
 *   planner-rail.c     the day along the rail
 *   planner-begins.c   when that begins
 *   planner-numbers.c  what it asks, beside it
 *   planner-said.c     what is said and asked above it
 *   planner-parts.c    labels, buttons, rows
 */
#ifndef CARPACE_UI_PLANNER_PRIVATE_H
#define CARPACE_UI_PLANNER_PRIVATE_H

#include "ui/planner-numbers.h"
#include "ui/planner-pages.h"
#include "ui/planner-rail.h"
#include "ui/planner-said.h"
#include "ui/planner-window.h"

#define CARPACE_PLANNER_PAGES 8

typedef struct
{
  CarpacePlannerPage page;
  GtkWidget *holder;
  bool made, stale; /* stale: the plan was changed since it was seen */
} CarpacePlannerMade;

struct CarpacePlannerWindow
{
  CarpacePlannerGiven given;
  GtkWidget *window, *header, *undo, *redo, *save, *headline, *air, *notebook;
  CarpacePlannerSaid *said;
  CarpacePlannerRail *rail;
  CarpacePlannerNumbers *numbers;
  CarpacePlannerMade pages[CARPACE_PLANNER_PAGES];
  int n_pages;
};

/* What was typed or moved and not taken yet becomes a change: before anything is saved, undone or asked about. */
void carpace_planner_window_settle (CarpacePlannerWindow *window);

/* planner-begins.c */
GtkWidget *carpace_planner_begins_new (CarpacePlannerWindow *window, int32_t minutes);

/* planner-files.c */
GtkWidget *carpace_planner_files_menu (CarpacePlannerWindow *window);
void carpace_planner_files_open (CarpacePlannerWindow *window);
void carpace_planner_files_save (CarpacePlannerWindow *window);
void carpace_planner_files_save_as (CarpacePlannerWindow *window);
/* @return whether nothing is unsaved any more, or it may be thrown away */
bool carpace_planner_files_may_go (CarpacePlannerWindow *window);
char *carpace_planner_files_name (const CarpacePlannerWindow *window);

#endif
