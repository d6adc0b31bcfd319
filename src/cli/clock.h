/* SPDX-License-Identifier: GPL-3.0-or-later */
/** clock.h: what day it is: for commands. */
#ifndef CARPACE_CLI_CLOCK_H
#define CARPACE_CLI_CLOCK_H

#include "cli/cli.h"

/** Now, by the clock that @cli was given, else by the machine's. */
CarpaceInstant carpace_cli_now (const CarpaceCli *cli);

/** The practice day of @at by the plan in use, else by days that turn at 04:00. */
CarpaceDay carpace_cli_day (CarpaceInstant at, const CarpacePlan *plan);

/** Today's practice day by the plan in use, else by days that turn at 04:00. */
CarpaceDay carpace_cli_today (const CarpaceCli *cli, const CarpacePlan *plan);

/** The plan in use, NULL where there is none or it cannot be read; free() it. */
CarpacePlan *carpace_cli_plan_in_use (const CarpaceCli *cli);

/** `--NAME DATE`. *ret_day stays where @value is NULL. @return false, with a
 * sentence on cli->err, where it is no date */
bool carpace_cli_date (CarpaceCli *cli, const char *name, const char *value, CarpaceDay *ret_day);

#endif
