/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-commands.h: the commands, a module of their own: the tray answers them, and opens none. */
#ifndef CARPACE_PROGRAM_COMMANDS_H
#define CARPACE_PROGRAM_COMMANDS_H

#include "carpace/ports.h"

/** Carries out the command that stands in @argv. @return an exit status */
typedef int (*CarpaceProgramCommands) (const CarpacePlanFiles *plans, int argc, char **argv);

/** A CarpaceProgramCommands. */
int carpace_program_commands (const CarpacePlanFiles *plans, int argc, char **argv);

#endif
