/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-planner.h: the coach's planner, a module of its own in a process of its own: the tray knows nothing of it. */
#ifndef CARPACE_PROGRAM_PLANNER_H
#define CARPACE_PROGRAM_PLANNER_H

#include "cli/cli.h"

/** A CarpaceShowPlanner. */
CarpacePlannerEnd carpace_program_planner (const CarpacePlanFiles *plans, CarpaceMeasure measure, const char *file, char **ret_why);

#endif
