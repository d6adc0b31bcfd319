/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-set.h: `carpace plan set`. */
#ifndef CARPACE_CLI_PLAN_SET_H
#define CARPACE_CLI_PLAN_SET_H

#include "cli/cli.h"

int carpace_cli_plan_set (CarpaceCli *cli, int argc, char **argv);

#endif
