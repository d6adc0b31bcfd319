/* SPDX-License-Identifier: GPL-3.0-or-later */
/** planner-value.h: one value of the plan's file: its words, an entry or its words to choose from, what is wrong with
 * it in its place, and a lock where a coach may fix it. */
#ifndef CARPACE_UI_PLANNER_VALUE_H
#define CARPACE_UI_PLANNER_VALUE_H

#include <gtk/gtk.h>

#include "planner/document.h"

/** Who hears what came of a change. */
typedef struct
{
  CarpacePlanner *planner;
  void *self;
  void (*done) (void *self, CarpacePlanEditEnd end);
} CarpacePlannerValueOwner;

typedef struct CarpacePlannerValue CarpacePlannerValue;

/** @param tip what it means and where it comes from, NULL: nothing more is said of it
 * @param words its translated words where it is one of a closed set, NULL at the end; NULL: an entry
 * The widget owns it. */
CarpacePlannerValue *carpace_planner_value_new (const CarpacePlannerValueOwner *owner, const char *label, const char *tip,
                                                const char *const *words);
GtkWidget *carpace_planner_value_widget (CarpacePlannerValue *value);

/** Gives it a lock: only what the whole plan says, and a block's limit, can be fixed. */
void carpace_planner_value_lockable (CarpacePlannerValue *value);

/** Which value it is, as plan-edit.h has paths. @param spoken what assistive technology calls it; NULL: its label */
void carpace_planner_value_set_path (CarpacePlannerValue *value, const char *path, const char *spoken);

/** What is typed there is taken, if @focus is a value's entry. @param focus may be NULL */
void carpace_planner_value_settle (GtkWidget *focus);

/** Shows it anew; what is being typed stays. */
void carpace_planner_value_show (CarpacePlannerValue *value);

/** Room for a text. */
void carpace_planner_value_widen (CarpacePlannerValue *value);

/** Other words for it. */
void carpace_planner_value_say (CarpacePlannerValue *value, const char *label);

/** Gives it the focus. */
void carpace_planner_value_focus (CarpacePlannerValue *value);

/** Whether @path is its own, or within. */
bool carpace_planner_value_has (const CarpacePlannerValue *value, const char *path);

#endif
