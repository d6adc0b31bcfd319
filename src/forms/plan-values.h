/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-values.h: a plan's values in the table's terms, for its two writers. */
#ifndef CARPACE_FORMS_PLAN_VALUES_H
#define CARPACE_FORMS_PLAN_VALUES_H

#include "carpace/plan-keys.h"

/** The number a drill has at @key, as the table counts it. */
double carpace_drill_value (const CarpaceDrill *drill, CarpaceDrillKey key);

/** Whether @number stands for none of it. */
bool carpace_value_is_none (const CarpaceKeyFacts *facts, double number);

#endif
