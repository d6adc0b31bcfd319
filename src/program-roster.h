/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-roster.h: a team's window, a module of its own in the process of `carpace roster`. */
#ifndef CARPACE_PROGRAM_ROSTER_H
#define CARPACE_PROGRAM_ROSTER_H

#include "cli/cli.h"

/** A CarpaceShowRoster. */
bool carpace_program_roster (const CarpaceRosterShown *shown);

#endif
