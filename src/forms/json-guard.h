/* SPDX-License-Identifier: GPL-3.0-or-later */
/** json-guard.h: a line of JSON looked through before any parser sees it. */
#ifndef CARPACE_FORMS_JSON_GUARD_H
#define CARPACE_FORMS_JSON_GUARD_H

#include "text/intake-text.h"

/** Bytes of a key, its end included; longer ones are of no diary. */
#define CARPACE_JSON_KEY_BYTES 64

/** Whether @text is one object and nothing after it, flat but for lists of plain
 * values, each key once, each whole number one of 64 bits (RFC 8259 leaves all of
 * these to the reader).
 * @param ret_key the key at fault, "" where none is
 * @param ret_value the number at fault, else NULL; g_free() it */
CarpaceIntakeFault carpace_json_guard (const char *text, char ret_key[CARPACE_JSON_KEY_BYTES], char **ret_value);

#endif
