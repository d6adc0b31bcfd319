/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program.h: the tray program, from its start to its end. Part of main: it
 * names both ports and adapters. */
#ifndef CARPACE_PROGRAM_H
#define CARPACE_PROGRAM_H

#include "carpace/ports.h"

/** What stands for an exit status where the program is to begin anew. */
#define CARPACE_PROGRAM_ANEW (-1)
/** The same, once there is a compositor again. */
#define CARPACE_PROGRAM_ANEW_LATER (-2)

/** Runs until it is quit. @return an exit status, or CARPACE_PROGRAM_ANEW: the session
 * bus went and came back, and a new process is to go on */
int carpace_program_run (int argc, char **argv, const CarpacePlanFiles *plans, const char *icon_folder);

#endif
