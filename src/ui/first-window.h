/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * first-window.h: what is asked before the first practice, and the plan that comes of it.
 *
 * First the cautions, then the hand: nothing of the body is answered beforehand. Put away
 * unanswered it begins nothing, and comes again at the next start.
 */
#ifndef CARPACE_UI_FIRST_WINDOW_H
#define CARPACE_UI_FIRST_WINDOW_H

#include <gtk/gtk.h>

#include "carpace/first-plan.h"
#include "carpace/ports.h"

typedef struct CarpaceFirstWindow CarpaceFirstWindow;

/** What it is given. */
typedef struct
{
  CarpaceClock clock;
  const CarpacePlan *const *plans; /**< that can be proposed; they outlive the window */
  int32_t n_plans;
  CarpaceSide side;                /**< as the desktop has it */
  void *self;                      /**< handed to the functions below */
  /** Start practising by the player's own @copy of plan @plan. */
  void (*begin) (void *self, int32_t plan, const CarpacePlan *copy);
  /** Signs were answered yes: @copy is for the session that holds the caution; @plan -1 where there is none. */
  void (*caution) (void *self, int32_t plan, const CarpacePlan *copy, uint32_t signs);
  /** An evening of @copy is to be shown; NULL: it cannot be. */
  void (*show_evening) (void *self, const CarpacePlan *copy);
} CarpaceFirstGiven;

CarpaceFirstWindow *carpace_first_window_new (const CarpaceFirstGiven *given);
void carpace_first_window_free (CarpaceFirstWindow *first);

/** Shows it, in front. */
void carpace_first_window_show (CarpaceFirstWindow *first);
void carpace_first_window_hide (CarpaceFirstWindow *first);

/** For tests. */
GtkWidget *carpace_first_window_widget (CarpaceFirstWindow *first);

#endif
