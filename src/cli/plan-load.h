/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-load.h: what a plan asks of the hand, as `plan check` and `plan split` print it. */
#ifndef CARPACE_CLI_PLAN_LOAD_H
#define CARPACE_CLI_PLAN_LOAD_H

#include "cli/cli.h"

/** The numbers of `plan check` for a plan without faults. @return an exit status */
int carpace_cli_plan_load (CarpaceCli *cli, const CarpacePlan *plan, bool json);

/** `plan split FILE [--into whole|halves|quarters|N] [--format text|json]`, its
 * file read as @plan. @argv[0] is "plan split", @argv[1] the file's word; any
 * order of the others. @return an exit status */
int carpace_cli_plan_split (CarpaceCli *cli, const CarpacePlan *plan, int argc, char **argv);

#endif
