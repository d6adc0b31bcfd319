/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * table.h: every command, the forms it takes and what it does: help and the shells' completion read them.
 *
 * A form is a line of words. In brackets stands what may be left out, " | " between what excludes one another;
 * `--name` is an option, the word behind it its value. Words in small letters are meant as they stand, `a|b` is one
 * of them, `a,b` any of them; a word in capitals stands for something (complete.c knows for what), `...` for more.
 */
#ifndef CARPACE_CLI_TABLE_H
#define CARPACE_CLI_TABLE_H

#include "cli/cli.h"

/** One command. */
typedef struct
{
  const char *word;
  CarpaceCliCommand run;
  const char *forms; /**< a line each */
  const char *does;  /**< marked, not translated */
} CarpaceCliRow;

/** `--complete WORD...`: prints what may stand in place of the last word, which may be empty or begun, one a line,
 * and what it does behind a tab where that is known. A line "/" says that a file may stand there, too.
 * @param argv [0] is `--complete` itself */
int carpace_cli_complete (CarpaceCli *cli, const CarpaceCliRow *rows, size_t n_rows, int argc, char **argv);

#endif
