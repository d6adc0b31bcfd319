/* SPDX-License-Identifier: GPL-3.0-or-later */
/** planner-said.h: what is said and what is asked above the rail. A question stays until it is answered, whatever is
 * said beside it. */
#ifndef CARPACE_UI_PLANNER_SAID_H
#define CARPACE_UI_PLANNER_SAID_H

#include <gtk/gtk.h>
#include <stdbool.h>

typedef struct CarpacePlannerSaid CarpacePlannerSaid;

/** Its widget owns it. */
CarpacePlannerSaid *carpace_planner_said_new (void);
GtkWidget *carpace_planner_said_widget (CarpacePlannerSaid *said);

/** Until it is put away, or the next thing is said. */
void carpace_planner_said_say (CarpacePlannerSaid *said, const char *text);

/** @answer is told which was pressed: true for @yes. A question that stands is replaced, and nobody answers it. */
void carpace_planner_said_ask (CarpacePlannerSaid *said, const char *text, const char *yes, const char *no,
                               void (*answer) (void *user, bool yes), void *user);

/** Puts both away; nobody answers the question. */
void carpace_planner_said_nothing (CarpacePlannerSaid *said);

#endif
