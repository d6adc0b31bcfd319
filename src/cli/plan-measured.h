/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-measured.h: `plan check --measured`. */
#ifndef CARPACE_CLI_PLAN_MEASURED_H
#define CARPACE_CLI_PLAN_MEASURED_H

#include "cli/cli.h"

/** Clicks that the diary has of days with @plan, since it was last begun with, beside its efforts, of each block and each drill. @return an exit status */
int carpace_cli_plan_measured (CarpaceCli *cli, const CarpacePlan *plan, bool json);

#endif
