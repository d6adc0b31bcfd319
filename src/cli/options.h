/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * options.h: the options of a command, read the same way by all of them.
 */
#ifndef CARPACE_CLI_OPTIONS_H
#define CARPACE_CLI_OPTIONS_H

#include <glib.h>
#include <stdint.h>

#include "cli/cli.h"

/** One option. Exactly one of @value and @flag is set. */
typedef struct
{
  const char *name;   /**< without its dashes: "format" */
  const char **value; /**< takes a value: `--format json` or `--format=json` */
  bool *flag;         /**< takes none */
} CarpaceOption;

/** Reads the words after argv[0]: options in any place, up to `--`; what is left
 * are the command's own words, at most @most of them, NULL where there are fewer.
 * @return how many words, or -1 (one sentence is on cli->err) where something is
 * not understood: the command then returns CARPACE_EXIT_WORDS */
int carpace_options_read (CarpaceCli *cli, int argc, char **argv, const CarpaceOption *options, int n_options,
                          const char **ret_words, int most);

/** Which of @words (ended by NULL) @value is; 0 where it is NULL.
 * @return -1 (one sentence that names them all is on cli->err) where it is none */
int carpace_option_choice (CarpaceCli *cli, const char *name, const char *value, const char *const *words);

/** One word behind a command, and what it does. */
typedef struct
{
  const char *word;
  CarpaceCliCommand run;
} CarpaceCliPart;

/** Runs that of @parts which argv[1] is; argv[0] of what it runs has both words.
 * @return its exit status, or CARPACE_EXIT_WORDS, told, where it is none of the @n */
int carpace_cli_run_part (CarpaceCli *cli, int argc, char **argv, const CarpaceCliPart *parts, size_t n);

/** `--format text|json`. @return false, with a sentence on cli->err, where it is neither */
bool carpace_option_format (CarpaceCli *cli, const char *value, bool *ret_json);

/** A whole number from @least to @most; *ret_number stays where @value is NULL.
 * @return false, with a sentence on cli->err, where it is none */
bool carpace_option_number (CarpaceCli *cli, const char *name, const char *value, int64_t least, int64_t most,
                            int64_t *ret_number);

/** Whether all that was printed to cli->out has gone where it goes. @return false, with
 * a sentence on cli->err (once), where it has not */
bool carpace_cli_flush (CarpaceCli *cli);

/** Whether the next line of cli->in is @word: what cannot be undone is said in a
 * word, not in a letter that is typed in passing. */
bool carpace_cli_says (CarpaceCli *cli, const char *word);

/** Prints one translated sentence, or while on air what stands for it, and a line's end to
 * cli->err. @return @status, so that a command can end with it */
int carpace_cli_refuse (CarpaceCli *cli, int status, const char *format, ...) G_GNUC_PRINTF (3, 4);

/** The same without asking: of what the running program has said or not, and of cli->out. */
int carpace_cli_tell (CarpaceCli *cli, int status, const char *sentence);

#endif
