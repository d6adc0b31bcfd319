/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-use.h: what plans are held to, taking one, and releasing what is fixed. */
#ifndef CARPACE_CLI_PLAN_USE_H
#define CARPACE_CLI_PLAN_USE_H

#include "app/held.h"
#include "cli/cli.h"
#include "cli/faults.h"

/** Has the plan files hold what the diary says, until carpace_cli_let_go().
 * @return false where the diary cannot be read (one line on err says so) */
bool carpace_cli_hold (CarpaceCli *cli, CarpacePlansKept *ret_kept);
void carpace_cli_let_go (CarpaceCli *cli, CarpacePlansKept *kept);

/** The plan in use, as far as what is held allows; @teller's path is set here.
 * @return false, told, where there is none or it has faults */
bool carpace_cli_load_in_use (CarpaceFaultTeller *teller, CarpacePlan *ret_plan);

/** `plan use PLAN [--yes] [--format text|json]` */
int carpace_cli_plan_use (CarpaceCli *cli, int argc, char **argv);

/** `plan release [--yes]` */
int carpace_cli_plan_release (CarpaceCli *cli, int argc, char **argv);

#endif
