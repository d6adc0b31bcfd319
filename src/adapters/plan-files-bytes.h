/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-files-bytes.h: whole files, read and written with care. */
#ifndef CARPACE_PLAN_FILES_BYTES_H
#define CARPACE_PLAN_FILES_BYTES_H

#include <glib.h>
#include <stdbool.h>

#include "text/plan-flaws.h"

/** Reads a regular file, one byte past CARPACE_PLAN_FILE_BYTES at most.
 * @return NULL where it cannot be read; *ret_kind and (NULL or to be freed)
 * *ret_why tell */
GString *carpace_plan_bytes_read (const char *path, CarpacePlanFileKind *ret_kind, char **ret_why);

/** Replaces @path, a link there included, 0600, its folder made 0700.
 * @return false, *ret_why to be freed, where it cannot be written */
bool carpace_plan_bytes_replace (const char *path, const char *bytes, gsize n_bytes, char **ret_why);

/** Writes @path, 0600, only where nothing is there.
 * @return false, with *ret_kind and *ret_why (NULL or to be freed) */
bool carpace_plan_bytes_create (const char *path, const char *bytes, gsize n_bytes, CarpacePlanFileKind *ret_kind,
                                char **ret_why);

#endif
