/* SPDX-License-Identifier: GPL-3.0-or-later */
/** load-eases.h: the changes that would ease a plan, each done in one place. */
#ifndef CARPACE_LOAD_EASES_H
#define CARPACE_LOAD_EASES_H

#include "carpace/plan.h"

/** A tenth shorter, and down to a whole half minute where it has one. */
void carpace_ease_limit (CarpaceBlock *block);

/** A tenth of it, or all of its hardest part if that is less, to its lightest. What nothing is left of stays a part,
 * of 0.
 * @return the drill it is taken from, -1 (and nothing changes) where one drill is all there is */
int32_t carpace_ease_share (const CarpacePlan *plan, CarpaceBlock *block);

/** Twice as long; twice as often, down to whole 5 s where it has them. */
int64_t carpace_ease_rest_ms (const CarpacePlan *plan);
int64_t carpace_ease_after_ms (const CarpacePlan *plan);

#endif
