/* SPDX-License-Identifier: GPL-3.0-or-later */
/** dates.h: `--since` and `--until`. */
#ifndef CARPACE_CLI_DATES_H
#define CARPACE_CLI_DATES_H

#include "cli/cli.h"

/** Reads a date; *ret_day stays where @value is NULL.
 * @return false, with a sentence on cli->err, where it is none */
bool carpace_option_day (CarpaceCli *cli, const char *name, const char *value, CarpaceDay *ret_day);

/** Both ends of a period, all days where NULL. @return as above; also false where it ends before it begins */
bool carpace_option_period (CarpaceCli *cli, const char *since, const char *until, CarpaceDay *ret_since,
                            CarpaceDay *ret_until);

#endif
