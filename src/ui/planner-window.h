/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * planner-window.h: the coach's planner: a plan's day along the rail, what it asks beside it, pages to change it.
 */
#ifndef CARPACE_UI_PLANNER_WINDOW_H
#define CARPACE_UI_PLANNER_WINDOW_H

#include <gtk/gtk.h>

#include "carpace/clicks.h"
#include "planner/document.h"
#include "text/file-text.h"

/** What the window asks of who has files. */
typedef struct
{
  void *self;
  CarpacePlanner *planner;
  /** The file's path, NULL where it has none yet. */
  const char *(*path) (void *self);
  /** Reads @path in place of what is there. @return NULL, or why not; g_free() it */
  char *(*open) (void *self, const char *path);
  /** Saves to @path, NULL: to its own.
   * @return FINE, or what is wrong with *ret_why to say; g_free() it */
  CarpaceFileTrouble (*save) (void *self, const char *path, char **ret_why);
  /** The plan was changed, undone or saved. */
  void (*changed) (void *self);
  /** What was not saved is thrown away. */
  void (*forget) (void *self);
  void (*closed) (void *self);
  /** Clicks counted in the drill with the id @drill; of the plan as it was opened. @return false where nobody can tell; NULL: nobody can */
  bool (*measured) (void *self, const char *drill, CarpaceClicksCount *ret_count);
} CarpacePlannerGiven;

typedef struct CarpacePlannerWindow CarpacePlannerWindow;

/** A page under the rail. */
typedef struct
{
  const char *title;
  void *self;
  GtkWidget *(*make) (void *self);       /**< when it is shown first */
  void (*changed) (void *self);          /**< the plan is another; once it is made, and only while it is seen. NULL: it does not care */
  bool of_chosen;                        /**< it shows what is chosen on the rail: that is told, too */
  void (*settle) (void *self);           /**< what waits to be taken is to be taken now; NULL: nothing ever waits */
  bool (*jump) (void *self, const char *path); /**< shows what stands at @path, if it is here; NULL: nothing ever is */
  bool (*jump_to) (void *self, int32_t line, int32_t column); /**< for what no page has; NULL: it does not show the file */
  void (*free) (void *self);                   /**< after the window's widgets are gone; NULL: nothing is to be freed */
} CarpacePlannerPage;

CarpacePlannerWindow *carpace_planner_window_new (const CarpacePlannerGiven *given);
void carpace_planner_window_free (CarpacePlannerWindow *window);

/** @page is copied, its title is not. */
void carpace_planner_window_add_page (CarpacePlannerWindow *window, const CarpacePlannerPage *page);

void carpace_planner_window_show (CarpacePlannerWindow *window);

/** Says something above the rail, until it is put away or the next thing is said. A question stays where it is. */
void carpace_planner_window_say (CarpacePlannerWindow *window, const char *text);

/** The same with a question. @answer is told which was pressed: true for @yes. */
void carpace_planner_window_ask (CarpacePlannerWindow *window, const char *text, const char *yes, const char *no,
                                 void (*answer) (void *user, bool yes), void *user);

/** What is said or asked is about another plan now: it is put away, and nobody answers. */
void carpace_planner_window_say_nothing (CarpacePlannerWindow *window);

/** Closes it as its close button does: what is unsaved is asked about. */
void carpace_planner_window_close (CarpacePlannerWindow *window);

GtkWindow *carpace_planner_window_window (CarpacePlannerWindow *window);

#endif
