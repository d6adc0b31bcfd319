/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-write.h: a plan written out, every default with it. */
#ifndef CARPACE_FORMS_PLAN_WRITE_H
#define CARPACE_FORMS_PLAN_WRITE_H

#include "carpace/plan.h"

/** A plan file that reads back as an equal plan. Blocks that a split made stand
 * in comments. The caller's to g_free(). */
char *carpace_plan_write_file (const CarpacePlan *plan);

/** One line of JSON: the file's keys with `_` for `-` and their unit behind
 * them (`_ms`, `_pct`, `_deg`), null for none; in `fixed` what may not be made
 * looser. Ends without a line's end. The caller's to g_free(). */
char *carpace_plan_write_json (const CarpacePlan *plan);

#endif
