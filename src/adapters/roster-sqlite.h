/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * roster-sqlite.h: what a reader gathered, in one file of their own.
 *
 * 0600, and what is erased is overwritten in it. A table a kind of record, made of the record's own fields.
 */
#ifndef CARPACE_ROSTER_SQLITE_H
#define CARPACE_ROSTER_SQLITE_H

#include "carpace/roster.h"

/** Told once: a sentence of what is wrong. */
typedef void (*CarpaceRosterTold) (void *user, const char *message);

/** @param path NULL: `carpace/roster.sqlite` in the user's state folder; ":memory:" for none
 * @return whether it is open; else one sentence was told: the file of a newer Carpace, damaged, or not to be had */
bool carpace_roster_sqlite_open (const char *path, CarpaceRosterTold told, void *user, CarpaceRosterStore *ret_store);

#endif
