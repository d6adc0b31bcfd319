/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * trace.h: a session driven by a few lines of text, and what it told, one line
 * an entry: for tests that read like the evening they describe.
 */
#ifndef CARPACE_TRACE_H
#define CARPACE_TRACE_H

#include "carpace/plan.h"

/** Runs @script (lines `[h:]mm:ss[.mmm] WORDS`) over @plan through the loop on a
 * virtual clock that begins 2027-03-02 18:00 +01:00. `until` as a word only lets
 * time go by, `look` tells what a face would draw then (trace-view.h),
 * `kept` what is kept of the days before, `plan BLOCKS MINUTES` opens another, once.
 * @return lines `h:mm:ss.mmm kind word ...`, to be freed; numbers that are times
 * are in seconds, absent and false fields are left out */
char *carpace_trace (const CarpacePlan *plan, const char *script);

/** The same with all that there is: each line of @script behind `> `, each field of
 * an entry, and after a line what the session keeps, where it changed. */
char *carpace_trace_whole (const CarpacePlan *plan, const char *script);

/** A plan for tests: one drill; @n blocks of @limit_min minutes, rests of 30 s
 * after 10 min, 45 min between, as the builder's defaults have them. */
void carpace_trace_plan (CarpacePlan *ret_plan, int n, int limit_min);

#endif
