/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-files-split.h: what a plan's split came to, kept beside the plan. */
#ifndef CARPACE_PLAN_FILES_SPLIT_H
#define CARPACE_PLAN_FILES_SPLIT_H

#include <glib.h>

#include "carpace/ports.h"

/** The plan of @bytes with its blocks, as @path keeps it.
 * @param path NULL where nothing is kept
 * @return NULL where it is not known, or was worked out from other bytes; g_free() it */
CarpacePlan *carpace_split_known (const char *path, const GString *bytes, const CarpacePlanReader *reader);

/** Keeps the blocks of @plan, read from @bytes, in @path. Where it cannot be kept, or
 * @path is NULL, it is worked out another time. */
void carpace_split_keep (const char *path, const GString *bytes, const CarpacePlan *plan);

#endif
