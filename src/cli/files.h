/* SPDX-License-Identifier: GPL-3.0-or-later */
/** files.h: files that a command's words name. */
#ifndef CARPACE_CLI_FILES_H
#define CARPACE_CLI_FILES_H

#include <glib.h>

#include "cli/cli.h"
#include "files/out.h"

/** Where a command's output goes: cli->out where @path is NULL or "-", else the
 * file of that name; over an ordinary one that is there with @force only.
 * @return false, with a sentence on cli->err, where it cannot be had */
bool carpace_cli_open_out (CarpaceCli *cli, const char *path, bool force, CarpaceOutFile *ret_out);

/** Ends it; without @keep nothing of a file is left.
 * @return false, with a sentence on cli->err where @keep, where it could not be written to its end */
bool carpace_cli_end_out (CarpaceCli *cli, const char *path, CarpaceOutFile *out, bool keep);

/** Both, and @size bytes between them. */
bool carpace_cli_write_file (CarpaceCli *cli, const char *path, bool force, const char *bytes, size_t size);

/** All of a file or a pipe, @most bytes at most.
 * @return NULL, with a sentence on cli->err, where it cannot be had; else g_string_free() it */
GString *carpace_cli_read_file (CarpaceCli *cli, const char *path, gsize most);

#endif
