/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-open.h: `carpace plan open`: what a file manager does with a plan. */
#ifndef CARPACE_CLI_PLAN_OPEN_H
#define CARPACE_CLI_PLAN_OPEN_H

#include "cli/cli.h"

int carpace_cli_plan_open (CarpaceCli *cli, int argc, char **argv);

#endif
