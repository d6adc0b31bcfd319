/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * codes-lines.h: players' codes, one a line: what a team is given plans by.
 *
 * Empty lines and what stands behind a # are passed over, blanks around a code, too.
 * A list comes from anywhere: 64 KiB and 200 codes at most, nothing but codes in it.
 */
#ifndef CARPACE_FORMS_CODES_LINES_H
#define CARPACE_FORMS_CODES_LINES_H

#include <glib.h>
#include <stdbool.h>

#include "text/code-text.h"

#define CARPACE_CODES_BYTES 65536
#define CARPACE_CODES 200

/** Reads a list.
 * @return the codes, in their order, g_ptr_array_unref() them; NULL where something is wrong: the first thing
 * that is, in one sentence with its line, in *ret_fault, g_free() it */
GPtrArray *carpace_codes_read (const char *bytes, gsize n_bytes, char **ret_fault);

/** Adds @word to @codes. @return what is wrong with it, and it is not added; `line` is 0 */
CarpaceCodeFault carpace_codes_add (GPtrArray *codes, const char *word);

#endif
