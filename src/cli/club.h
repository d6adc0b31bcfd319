/* SPDX-License-Identifier: GPL-3.0-or-later */
/** club.h: what the commands of a club's database have in common. */
#ifndef CARPACE_CLI_CLUB_H
#define CARPACE_CLI_CLUB_H

#include "cli/cli.h"

/** Tells what is wrong with a club's database: a CarpaceClubTold, @user is the CarpaceCli. */
void carpace_cli_club_told (void *user, const char *message);

/** Opens the roster at @address, for @folder (NULL: nothing is taken in) and the person of @cli's shelf.
 * @return false, told */
bool carpace_cli_open_club (CarpaceCli *cli, const char *address, const char *folder, CarpaceRosterStore *ret_store,
                            CarpaceClubLogin *ret_login);

#endif
