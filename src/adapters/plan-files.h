/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-files.h: the plan files there are, as files in folders.
 *
 * Bundled: a folder `carpace/plans` of a data folder. The player's own: in the
 * configuration folder, `carpace/plans`, with a note beside it of which is in
 * use. What was given fixes what comes after it, wherever that stands: who has
 * the diary hands that to hold().
 *
 * Folders are 0700, files 0600. A file is replaced as a whole or not at all,
 * and never through a symbolic link; only ordinary files are read, and of
 * those no more than a plan can be long.
 */
#ifndef CARPACE_PLAN_FILES_H
#define CARPACE_PLAN_FILES_H

#include "carpace/ports.h"

/** Plan files in folders, as a port.
 * @param bundled where the bundled plans are, @param own the player's own
 * `carpace` folder, made when it is first written to; NULL for the usual
 * ones: $CARPACE_PLANS, else the first `carpace/plans` among XDG_DATA_DIRS,
 * else where it was installed; and `carpace` in XDG_CONFIG_HOME. */
CarpacePlanFiles carpace_plan_folders_new (CarpacePlanReader reader, const char *bundled, const char *own);

#endif
