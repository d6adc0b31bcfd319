/* SPDX-License-Identifier: GPL-3.0-or-later */
/** successor.h: another key in place of one's own, for what was given and fixed: named, signed by the other, accepted. */
#ifndef CARPACE_CLI_SUCCESSOR_H
#define CARPACE_CLI_SUCCESSOR_H

#include <glib.h>

#include "cli/cli.h"

/** `key successor NAME FILE [--force] [--phrase-file FILE]` */
int carpace_cli_name_successor (CarpaceCli *cli, int argc, char **argv);

/** `key succeed FILE FILE [--force] [--phrase-file FILE]` */
int carpace_cli_succeed (CarpaceCli *cli, int argc, char **argv);

/** Accepts what the two of them signed, read from @path, where both keys are accepted. @return the exit status, told */
int carpace_cli_accept_successor (CarpaceCli *cli, const char *path, const GByteArray *file);

#endif
