/* SPDX-License-Identifier: GPL-3.0-or-later */
/** hand-out.h: plans that are signed, and whose may be taken. */
#ifndef CARPACE_CLI_HAND_OUT_H
#define CARPACE_CLI_HAND_OUT_H

#include "cli/cli.h"

/** `plan sign FILE SIGNED [--for NAME] [--force] [--phrase-file FILE]` */
int carpace_cli_plan_sign (CarpaceCli *cli, int argc, char **argv);

/** Whether @plan, of that @text, may be taken: who signed it is known, and where the version before was signed, it is by
 * the same key or one that that one named. @return false, told */
bool carpace_cli_may_take (CarpaceCli *cli, const CarpacePlan *plan, const char *text);

/** Tells who gave @plan, where it was signed. */
void carpace_cli_tell_giver (CarpaceCli *cli, const CarpacePlan *plan);

#endif
