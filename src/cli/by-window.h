/* SPDX-License-Identifier: GPL-3.0-or-later */
/** by-window.h: whatever a window asks is a command with its words, run in this process; what it prints is shown. */
#ifndef CARPACE_CLI_BY_WINDOW_H
#define CARPACE_CLI_BY_WINDOW_H

#include "cli/cli.h"

#define CARPACE_BY_WINDOW_WORDS 12 /**< at most; options as one word each: whatever was typed stays a value */

/** Runs @command. @param words ended by NULL @param phrase all that it can read
 * @return what it printed, whether it went well or not; g_free() it */
char *carpace_cli_by_window (CarpaceCli *cli, CarpaceCliCommand command, const char *const *words, const char *phrase, bool *ret_done);

#endif
