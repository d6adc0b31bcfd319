/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program.h: the tray program, from its start to its end. Part of main: it
 * names both ports and adapters. */
#ifndef CARPACE_PROGRAM_H
#define CARPACE_PROGRAM_H

#include "carpace/ports.h"

/** Runs until it is quit. @return an exit status */
int carpace_program_run (int argc, char **argv, const CarpacePlanFiles *plans, const char *icon_folder);

#endif
