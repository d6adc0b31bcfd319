/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * entries.h: what a session told, a line an entry, in words for people.
 * Rehearsals and the diary print the same kinds; for programs: forms/entries-json.h.
 */
#ifndef CARPACE_TEXT_ENTRIES_H
#define CARPACE_TEXT_ENTRIES_H

#include "carpace/session.h"

/** For people, without a time before it; "" where people need no line. */
char *carpace_entry_text (const CarpaceEntry *entry);

/** The time of a rehearsal, "0:12:30" or "0:12:30.250". */
char *carpace_rehearsed_time (int64_t at_ms);

#endif
