/* SPDX-License-Identifier: GPL-3.0-or-later */
/* days.h: another alphabet, whose letters are whole days: how many dates later,
 * what the morning said, and how it was practised. For the rules of the dose. */
#ifndef CARPACE_EXPLORE_DAYS_H
#define CARPACE_EXPLORE_DAYS_H

#include "evening.h"
#include "script.h"

int days_n (void);
bool days_apply (Evening *e, int action, unsigned about, Script *script);

#endif
