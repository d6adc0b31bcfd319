/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * json.h: JSON (RFC 8259) written piece by piece into a GString.
 *
 * Commas come by themselves: each function looks at what stands before it.
 */
#ifndef CARPACE_FORMS_JSON_H
#define CARPACE_FORMS_JSON_H

#include <glib.h>
#include <stdint.h>

/** Begins an object or list, `{` or `[`. */
void carpace_json_open (GString *out, char bracket);

/** Ends it, `}` or `]`. */
void carpace_json_close (GString *out, char bracket);

/** A member's name and its colon. */
void carpace_json_key (GString *out, const char *key);

/** Values. A NULL string is null; bytes that are no UTF-8 become U+FFFD; a
 * number that is not finite is null. */
void carpace_json_string (GString *out, const char *text);
void carpace_json_int (GString *out, int64_t value);
void carpace_json_double (GString *out, double value); /**< as many digits as give it back */
void carpace_json_bool (GString *out, gboolean value);
void carpace_json_null (GString *out);

#endif
