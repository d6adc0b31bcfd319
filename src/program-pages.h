/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-pages.h: the planner's pages that ask for more than its document: the weeks, and giving. */
#ifndef CARPACE_PROGRAM_PAGES_H
#define CARPACE_PROGRAM_PAGES_H

#include "carpace/ports.h"
#include "ui/planner-window.h"

typedef struct CarpaceProgramPages CarpaceProgramPages;

/** Adds them to @window. @param plans to compare with, outlives them
 * @param path of the document's file, NULL where it has none yet */
CarpaceProgramPages *carpace_program_pages_add (CarpacePlannerWindow *window, CarpacePlanner *planner,
                                                const CarpacePlanFiles *plans, const char *(*path) (void *self), void *self);

/** Before the window goes. */
void carpace_program_pages_free (CarpaceProgramPages *pages);

#endif
