/* SPDX-License-Identifier: GPL-3.0-or-later */
/** keep.h: the pass phrase of the own key in the desktop's keyring, where its owner wants that. */
#ifndef CARPACE_CLI_KEEP_H
#define CARPACE_CLI_KEEP_H

#include "carpace/kept-phrase.h"
#include "cli/cli.h"
#include "team/keys.h"

/** `key keep [--remove] [--phrase-file FILE]` */
int carpace_cli_keep (CarpaceCli *cli, int argc, char **argv);

/** The same for a window; @cli has to stay as long as it does. */
CarpaceKeptPhrase carpace_cli_kept_phrase (CarpaceCli *cli);

/** Opens the own secret by what is kept. @return false where none is; where one should be, it is told why it did not do */
bool carpace_cli_unlock_kept (CarpaceCli *cli, const CarpaceCard *card, CarpacePerson *ret_person);

#endif
