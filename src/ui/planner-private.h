/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-private.h: what the files of the planner's window share.
 *
 *   planner-window.c   how it is built, and what happens when the plan is another
 *   planner-files.c    open, recent, save, save as; what is unsaved is asked about
 *   planner-blocks.c planner-drills.c planner-rules.c planner-file.c   the pages under the rail
 *   planner-value.c    one value, on any of them
 *   planner-rail.c     the day along the rail
 *   planner-numbers.c  what it asks, beside it
 *   planner-parts.c    labels, buttons, rows
 */
#ifndef CARPACE_UI_PLANNER_PRIVATE_H
#define CARPACE_UI_PLANNER_PRIVATE_H

#include "ui/planner-numbers.h"
#include "ui/planner-pages.h"
#include "ui/planner-rail.h"
#include "ui/planner-window.h"

#define CARPACE_PLANNER_PAGES 8

typedef struct
{
  CarpacePlannerPage page;
  GtkWidget *holder;
  bool made;
} CarpacePlannerMade;

struct CarpacePlannerWindow
{
  CarpacePlannerGiven given;
  GtkWidget *window, *header, *undo, *redo, *save, *headline, *notebook;
  GtkWidget *bar, *bar_words, *bar_yes, *bar_no; /* what is said above the rail */
  void (*answer) (void *user, bool yes);         /* NULL: nothing is asked */
  void *answer_user;
  CarpacePlannerRail *rail;
  CarpacePlannerNumbers *numbers;
  CarpacePlannerMade pages[CARPACE_PLANNER_PAGES];
  int n_pages;
};

/* planner-files.c */
GtkWidget *carpace_planner_files_menu (CarpacePlannerWindow *window);
void carpace_planner_files_open (CarpacePlannerWindow *window);
void carpace_planner_files_save (CarpacePlannerWindow *window);
void carpace_planner_files_save_as (CarpacePlannerWindow *window);
/* @return whether nothing is unsaved any more, or it may be thrown away */
bool carpace_planner_files_may_go (CarpacePlannerWindow *window);
char *carpace_planner_files_name (const CarpacePlannerWindow *window);

#endif
