/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-measured.h: `plan check --measured`. */
#ifndef CARPACE_CLI_PLAN_MEASURED_H
#define CARPACE_CLI_PLAN_MEASURED_H

#include "cli/cli.h"

/** What the diary has measured of @plan. @return false (and one line on err) where it cannot be read */
bool carpace_cli_plan_measure (CarpaceCli *cli, const CarpacePlan *plan, CarpaceClicksMeasured *ret_measured);

/** Prints what was @measured in @plan beside its efforts, of each block and each drill.
 * @param reckoned the same plan with clicks for its efforts, where it says so */
void carpace_cli_plan_measured (CarpaceCli *cli, const CarpacePlan *plan, const CarpacePlan *reckoned, const CarpaceClicksMeasured *measured, bool json);

#endif
