/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-give.h: `carpace plan give`. */
#ifndef CARPACE_CLI_PLAN_GIVE_H
#define CARPACE_CLI_PLAN_GIVE_H

#include "cli/cli.h"

int carpace_cli_plan_give (CarpaceCli *cli, int argc, char **argv);

#endif
