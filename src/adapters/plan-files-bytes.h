/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-files-bytes.h: whole files, read and written with care. */
#ifndef CARPACE_PLAN_FILES_BYTES_H
#define CARPACE_PLAN_FILES_BYTES_H

#include <glib.h>
#include <stdbool.h>

#include "text/plan-flaws.h"

/** Reads an ordinary file of CARPACE_PLAN_FILE_BYTES at most.
 * @return NULL where it cannot be read; *ret_why is then a fault's message; g_free() it */
GString *carpace_plan_bytes_read (const char *path, char **ret_why);

/** Replaces @path, a link there included, 0600, its folder made 0700.
 * @return false, *ret_why to be freed, where it cannot be written */
bool carpace_plan_bytes_replace (const char *path, const char *bytes, gsize n_bytes, char **ret_why);

/** Writes @path, 0600, only where nothing is there.
 * @return false, *ret_why a fault's message, where it cannot be written; g_free() it */
bool carpace_plan_bytes_create (const char *path, const char *bytes, gsize n_bytes, char **ret_why);

#endif
