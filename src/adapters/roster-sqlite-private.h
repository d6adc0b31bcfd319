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
  GHashTable *prepared; /* SQL -> statement */
} Roster;

/* The names of a kind's columns, parted by commas, and as many question marks; g_free() them. */
char *carpace_roster_columns (CarpaceTeamKind kind);
char *carpace_roster_marks (CarpaceTeamKind kind);
/* The same with types, for a table that is made. */
char *carpace_roster_typed (CarpaceTeamKind kind);

/* A statement, kept for the next time: reset, nothing bound. @sql is freed. NULL where it is none. */
sqlite3_stmt *carpace_roster_prepare (Roster *roster, char *sql);

void carpace_roster_bind_key (sqlite3_stmt *statement, int at, const CarpaceKey *key);
/* Binds each field of @record from the parameter @at on; takes them from the column @at on. @return the next one */
int carpace_roster_bind (sqlite3_stmt *statement, int at, CarpaceTeamKind kind, const void *record);
/* @return false where a column is not what the table of fields says; bytes point into the row */
bool carpace_roster_take (sqlite3_stmt *statement, int at, CarpaceTeamKind kind, void *ret_record);

/* Steps to the end. */
bool carpace_roster_done (sqlite3_stmt *statement);

#endif
