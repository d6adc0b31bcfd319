/* SPDX-License-Identifier: GPL-3.0-or-later */
/** remote.h: asking the running program, and telling what it answered. */
#ifndef CARPACE_CLI_REMOTE_H
#define CARPACE_CLI_REMOTE_H

#include "cli/cli.h"

/** Hands @words to the running program; prints its message: to cli->out where
 * it was done, else to cli->err. @return its exit status */
int carpace_remote_ask (CarpaceCli *cli, int n, const char *const *words);

/** How a refusal with exit @status reads: @sentence, or what stands for it where the
 * running program is on air. It is asked once. */
const char *carpace_remote_says (CarpaceCli *cli, int status, const char *sentence);

/** Says what @status, not DONE, means where the program has said nothing. @return the exit status */
int carpace_remote_tell (CarpaceCli *cli, int status);

#endif
