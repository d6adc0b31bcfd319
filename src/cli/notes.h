/* SPDX-License-Identifier: GPL-3.0-or-later */
/** notes.h: notes to a player: written by a coach or clinician, read and erased by the player. */
#ifndef CARPACE_CLI_NOTES_H
#define CARPACE_CLI_NOTES_H

#include "cli/cli.h"

/** `roster note NAME TEXT [FOLDER] [--phrase-file FILE]` */
int carpace_cli_note (CarpaceCli *cli, int argc, char **argv);

/** `share notes [--erase NAME] [--format text|json]` */
int carpace_cli_notes (CarpaceCli *cli, int argc, char **argv);

/** Prints the notes that came. @return how many */
int carpace_cli_print_notes (CarpaceCli *cli, bool json);

/** Takes in what is in @shared, and tells what is refused, a sentence each, and how many are new. */
void carpace_cli_take_notes (CarpaceCli *cli, const CarpaceFolder *shared);

#endif
