/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * season-pane.h: the weeks that a plan would lead to, rehearsed by a modelled player
 * before anybody practises: a strip of days, each of which opens as a rail, and a
 * second plan below it on the same seed.
 */
#ifndef CARPACE_UI_SEASON_PANE_H
#define CARPACE_UI_SEASON_PANE_H

#include <gtk/gtk.h>

#include "carpace/ports.h"

typedef struct CarpaceSeasonPane CarpaceSeasonPane;

/** What the pane asks. */
typedef struct
{
  void *self;
  const CarpacePlan *(*plan) (void *self); /**< as it is now; NULL where it has faults */
  const CarpacePlanFiles *plans;           /**< to compare it with */
} CarpaceSeasonPaneGiven;

CarpaceSeasonPane *carpace_season_pane_new (const CarpaceSeasonPaneGiven *given);
void carpace_season_pane_free (CarpaceSeasonPane *pane);

/** Its widget, made when it is asked for first; it shows weeks from the first change on that it is told of. */
GtkWidget *carpace_season_pane_widget (CarpaceSeasonPane *pane);

/** The plan is another: its weeks are rehearsed, the first time at once, then once nothing else is to be done. */
void carpace_season_pane_changed (CarpaceSeasonPane *pane);

/** Shows the plan in the file @path beside it, on the same seed; where it has faults, that and the first of them. */
void carpace_season_pane_compare (CarpaceSeasonPane *pane, const char *path);

/** Rehearses and shows now. For tests and the bench. */
void carpace_season_pane_show_now (CarpaceSeasonPane *pane);

#endif
