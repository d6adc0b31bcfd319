/* SPDX-License-Identifier: GPL-3.0-or-later */
/* checks.h: what is held against a state that is new. NULL where it holds. */
#ifndef CARPACE_EXPLORE_CHECKS_H
#define CARPACE_EXPLORE_CHECKS_H

#include "evening.h"

/* The day's events, from what was kept as it opened, come to the same session. */
const char *check_replay (const Evening *e);

/* A worse answer never leads to more by the decision it makes itself, that day
 * or the next: the same evening goes two ways, and all other answers are equal.
 * Mornings are many: only where a plan's run is about them. */
const char *check_worse (const Evening *e, bool mornings_too);

/* Which answer it was about, of the check that failed last. */
extern char check_detail[240];

#endif
