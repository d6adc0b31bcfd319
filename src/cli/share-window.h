/* SPDX-License-Identifier: GPL-3.0-or-later */
/** share-window.h: `share window`: what the commands do, from a window. */
#ifndef CARPACE_CLI_SHARE_WINDOW_H
#define CARPACE_CLI_SHARE_WINDOW_H

#include "cli/cli.h"

int carpace_cli_share_window (CarpaceCli *cli, int argc, char **argv);

#endif
