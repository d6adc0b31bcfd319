/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * entries.h: what a session told, a line an entry: JSON for programs, words for
 * people. Rehearsals and the diary print the same kinds.
 *
 * JSON: keys in a stable order, times in ms, never translated (`why` and
 * `message` neither). See the manual page carpace(1) for the keys.
 */
#ifndef CARPACE_TEXT_ENTRIES_H
#define CARPACE_TEXT_ENTRIES_H

#include "carpace/view.h"

/** Of a rehearsal: begins with `at_ms`.
 * @param at_ms since its start @param line of the script, for a fault; 0: null
 * @return one JSON object without a line's end, the caller's to g_free() */
char *carpace_entry_json (const CarpaceEntry *entry, int64_t at_ms, int32_t line);

/** Of the diary: begins with `at`, ISO 8601 with its offset. */
char *carpace_entry_json_dated (const CarpaceEntry *entry);

/** For people, without a time before it; "" where people need no line. */
char *carpace_entry_text (const CarpaceEntry *entry);

/** The time of a rehearsal, "0:12:30" or "0:12:30.250". */
char *carpace_rehearsed_time (int64_t at_ms);

/** The status object of `carpace status --format json`. */
char *carpace_view_json (const CarpaceView *view);

#endif
