/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * entries-json.h: what a session told, and its status, as JSON for programs: an
 * object a line.
 *
 * Keys in a stable order, times in ms, never translated (`why` and `message`
 * neither). See the manual page carpace(1) for the keys.
 */
#ifndef CARPACE_FORMS_ENTRIES_JSON_H
#define CARPACE_FORMS_ENTRIES_JSON_H

#include "carpace/view.h"

/** Of a rehearsal: begins with `at_ms`.
 * @param at_ms since its start @param line of the script, for a fault; 0: null
 * @return one JSON object without a line's end, the caller's to g_free() */
char *carpace_entry_json (const CarpaceEntry *entry, int64_t at_ms, int32_t line);

/** Of the diary: begins with `at`, ISO 8601 with its offset. */
char *carpace_entry_json_dated (const CarpaceEntry *entry);

/** The status object of `carpace status --format json`. */
char *carpace_view_json (const CarpaceView *view);

#endif
