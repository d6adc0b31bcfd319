/* SPDX-License-Identifier: GPL-3.0-or-later */
/** diary-out.h: a diary read, and written in one of its forms. */
#ifndef CARPACE_CLI_DIARY_OUT_H
#define CARPACE_CLI_DIARY_OUT_H

#include "cli/cli.h"

/** Writes what is meant of @diary to @to. @return false where it could not be read or written */
bool carpace_cli_write_diary (CarpaceCli *cli, const CarpaceDiary *diary, const char *format,
                              const CarpaceDiaryExtract *what, FILE *to);

/** The diary, or (@from not NULL) the one that the file @from holds.
 * @return false, with a sentence on cli->err, where it cannot be read */
bool carpace_cli_open_diary_or (CarpaceCli *cli, const char *from, CarpaceDiary *ret_diary);

#endif
