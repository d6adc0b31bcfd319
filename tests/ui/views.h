/* SPDX-License-Identifier: GPL-3.0-or-later */
/** views.h: views filled by hand, one a moment of an invented evening. */
#ifndef CARPACE_TESTS_UI_VIEWS_H
#define CARPACE_TESTS_UI_VIEWS_H

#include "carpace/view.h"

/** A view with nothing in it but a plan: block 2 of 4, 15 min of which 3 are
 * done. */
CarpaceView view_of (CarpaceState state);

/** As view_of(), for a moment by name: "rating", "rating-given",
 * "rating-above-stop", ... @return false where there is none of that name */
bool view_named (const char *name, CarpaceView *ret_view);

/** The names, NULL behind the last. */
extern const char *const view_names[];

/** 2027-03-02, 18:30 local, an hour from UTC. */
CarpaceInstant view_now (void);

/** The plan in them. */
CarpacePlan *view_plan (void);

#endif
