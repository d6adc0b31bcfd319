/* SPDX-License-Identifier: GPL-3.0-or-later */
/** roster-sqlite-private.h: shared by the files of this adapter only. */
#ifndef CARPACE_ROSTER_SQLITE_PRIVATE_H
#define CARPACE_ROSTER_SQLITE_PRIVATE_H

#include <glib.h>
#include <sqlite3.h>

#include "adapters/roster-sqlite.h"

typedef struct
{
  sqlite3 *db;
  GHashTable *prepared; /* SQL as it is written in the source, by its place -> statement */
} Roster;

/* A kind's columns, parted by commas, with types: for a table that is made. g_free() it. */
char *carpace_roster_typed (CarpaceTeamKind kind);

/* The statement of @sql, reset, nothing bound: worked out the first time, and found by its place after that, since there is
 * one for each row that is kept. In @sql stand COLUMNS for the names of a kind's columns and MARKS for as many question
 * marks. NULL where it is none. @param sql a literal: it has to stay where it is */
sqlite3_stmt *carpace_roster_of_kind (Roster *roster, const char *sql, CarpaceTeamKind kind);
/* The same of one that names its columns itself. */
sqlite3_stmt *carpace_roster_statement (Roster *roster, const char *sql);

void carpace_roster_bind_key (sqlite3_stmt *statement, int at, const CarpaceKey *key);
/* Binds each field of @record from the parameter @at on; takes them from the column @at on. @return the next one */
int carpace_roster_bind (sqlite3_stmt *statement, int at, CarpaceTeamKind kind, const void *record);
/* @return false where a column is not what the table of fields says; bytes point into the row */
bool carpace_roster_take (sqlite3_stmt *statement, int at, CarpaceTeamKind kind, void *ret_record);

/* Steps to the end. */
bool carpace_roster_done (sqlite3_stmt *statement);

#endif
