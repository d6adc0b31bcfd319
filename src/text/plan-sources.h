/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-sources.h: what a plan's key does, and where its usual number comes from. */
#ifndef CARPACE_TEXT_PLAN_SOURCES_H
#define CARPACE_TEXT_PLAN_SOURCES_H

#include "carpace/plan.h"

/** What @key does, with the source of its number; NULL where its name says it. The caller's to g_free(). */
char *carpace_text_plan_source (CarpacePlanKey key);

/** The same of a drill's @key. */
char *carpace_text_drill_source (CarpaceDrillKey key);

#endif
