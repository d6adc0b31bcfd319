/* SPDX-License-Identifier: GPL-3.0-or-later */
/** planner-numbers.h: what the plan asks of the hand, beside it: indices, dose against its ceiling, what decides, what
 * would ease it and a press that does it, and what is wrong. */
#ifndef CARPACE_UI_PLANNER_NUMBERS_H
#define CARPACE_UI_PLANNER_NUMBERS_H

#include <gtk/gtk.h>

#include "planner/document.h"

typedef struct CarpacePlannerNumbers CarpacePlannerNumbers;

typedef struct
{
  void *self;
  void (*ease) (void *self);                   /**< do it */
  void (*jump) (void *self, const char *path, int32_t line, int32_t column); /**< to what a fault is about */
} CarpacePlannerNumbersOwner;

CarpacePlannerNumbers *carpace_planner_numbers_new (CarpacePlanner *planner, const CarpacePlannerNumbersOwner *owner);
void carpace_planner_numbers_free (CarpacePlannerNumbers *numbers);
GtkWidget *carpace_planner_numbers_widget (CarpacePlannerNumbers *numbers);

/** The plan is another, or is tried as another. */
void carpace_planner_numbers_changed (CarpacePlannerNumbers *numbers);

#endif
