/* SPDX-License-Identifier: GPL-3.0-or-later */
/** team.h: what the commands of a team have in common: the own keys, people, folders. */
#ifndef CARPACE_CLI_TEAM_H
#define CARPACE_CLI_TEAM_H

#include <glib.h>

#include "cli/cli.h"
#include "team/keys.h"

/** Tells what is wrong with @what. @return CARPACE_EXIT_REFUSED */
int carpace_cli_team_fault (CarpaceCli *cli, CarpaceTeamFault fault, const char *what);

/** The own card. @return false, told, where there are no keys yet */
bool carpace_cli_own_card (CarpaceCli *cli, CarpaceCard *ret_card);

/** The own secret; the pass phrase is read from @phrase_file, found in the keyring, or asked for. carpace_person_wipe() it.
 * @return false, told */
bool carpace_cli_unlock (CarpaceCli *cli, const char *phrase_file, CarpacePerson *ret_person);

/** The pass phrase of the own key, from @phrase_file or asked for. carpace_cli_forget_phrase() it; NULL, told. */
char *carpace_cli_phrase (CarpaceCli *cli, const char *phrase_file);

/** The secret of @card, the own one. carpace_person_wipe() it. @return FINE, or why @phrase does not open it */
CarpaceTeamFault carpace_cli_opens (CarpaceCli *cli, const CarpaceCard *card, const char *phrase, CarpacePerson *ret_person);

/** A new pass phrase, asked for twice on a terminal. carpace_cli_forget_phrase() it; NULL, told. */
char *carpace_cli_new_phrase (CarpaceCli *cli, const char *phrase_file);

/** Wipes one (may be NULL) and frees it. */
void carpace_cli_forget_phrase (char *phrase);

/** Somebody who was accepted. @return false, told, where there is nobody or more than one */
bool carpace_cli_find_person (CarpaceCli *cli, const char *who, CarpaceCard *ret_card);

/** A file of a team. @return NULL, told, where it cannot be read */
GByteArray *carpace_cli_read_team (CarpaceCli *cli, const char *path);

/** Whether it is a card. @return false, told */
bool carpace_cli_is_card (CarpaceCli *cli, const char *path, const GByteArray *file, CarpaceCard *ret_card);

/** The card in a file. @return NULL, told, where it is none */
GByteArray *carpace_cli_read_card (CarpaceCli *cli, const char *path, CarpaceCard *ret_card);

/** Has the six words compared, typed or (@words) given, and accepts the card. @return false, told, where they differ */
bool carpace_cli_accept (CarpaceCli *cli, const GByteArray *file, const CarpaceCard *card, const char *words);

/** The folder @path, or the one that is shared. @return false, told, where none is */
bool carpace_cli_shared (CarpaceCli *cli, const char *path, CarpaceFolder *ret_shared);

/** On air nothing of a team is shown. @return whether it is so, told */
bool carpace_cli_team_on_air (CarpaceCli *cli);

#endif
