/* SPDX-License-Identifier: GPL-3.0-or-later */
/** roster-postgres-private.h: shared by the files of this adapter only. */
#ifndef CARPACE_ROSTER_POSTGRES_PRIVATE_H
#define CARPACE_ROSTER_POSTGRES_PRIVATE_H

#include <glib.h>
#include <libpq-fe.h>

#include "carpace/club.h"
#include "text/club-text.h"

/* The files of src/data/club, in order. */
typedef struct
{
  const char *name, *sql;
} CarpaceClubStep;
extern const CarpaceClubStep carpace_club_steps[];
extern const int32_t carpace_club_n_steps;

/* What is asked of a hand. */
typedef struct
{
  CarpaceDay since, until;
  uint32_t kinds;
} CarpaceHandAsk;

typedef struct
{
  PGconn *db;
  char *place;            /* the address as it is shown */
  CarpaceClubTold told;
  void *user;
  bool has_told;
  CarpaceClubLogin login;
  GPtrArray *batch;       /* hand rows that are not sent yet: a GString a column, then n */
  int32_t n_batch;
  CarpaceKey batch_player;
  int64_t batch_made_s;
  GHashTable *heads, *weeks; /* player -> CarpaceLoadHead, GArray of CarpaceLoadWeek; NULL: not asked for yet */
  int32_t weeks_since;
  const GArray *listed;      /* CarpaceRosterPlayer who are being told, and which of them; NULL: none are */
  guint listed_at;
  PGresult *hands;           /* of some of them, player by player; NULL: not asked for yet */
  CarpaceHandAsk hands_ask;
  GHashTable *hand_at;       /* player -> one more than its first row there, 0: it has none */
} Roster;

/* ---- roster-postgres-connect.c ---- */

/* Connects. @return NULL, told */
Roster *carpace_postgres_open (const char *address, CarpaceClubTold told, void *user);
void carpace_postgres_free (void *roster);

/* Tells once. @return false */
bool carpace_postgres_fail (Roster *roster, CarpaceClubFault fault, const char *why);

/* Runs one statement; @values are texts, freed with it, NULL: none. @return NULL, told; else PQclear() it */
PGresult *carpace_postgres_ask (Roster *roster, const char *sql, GPtrArray *values);
bool carpace_postgres_do (Roster *roster, const char *sql, GPtrArray *values);
/* Whether there is a row; one number of the first. */
bool carpace_postgres_number (Roster *roster, const char *sql, GPtrArray *values, int64_t *ret_number, bool *ret_any);

/* ---- roster-postgres-fields.c ---- */

GPtrArray *carpace_postgres_values (void);
void carpace_postgres_add_key (GPtrArray *values, const CarpaceKey *key);
void carpace_postgres_add_bytes (GPtrArray *values, const uint8_t *byte, size_t n);
void carpace_postgres_add_text (GPtrArray *values, const char *text);
void carpace_postgres_add_number (GPtrArray *values, int64_t number);
/* Each field of @record. */
void carpace_postgres_add (GPtrArray *values, CarpaceTeamKind kind, const void *record);

/* "a", "b" of a kind; $1, $2 from @first on; "a" = excluded."a". g_free() them */
char *carpace_postgres_columns (CarpaceTeamKind kind);
char *carpace_postgres_marks (CarpaceTeamKind kind, int first);
char *carpace_postgres_excluded (CarpaceTeamKind kind);

bool carpace_postgres_take_number (const PGresult *result, int row, int column, int64_t *ret_number);
bool carpace_postgres_take_key (const PGresult *result, int row, int column, CarpaceKey *ret_key);
/* The fields of a record from @column on. @return false where one is not what its table says. Bytes are copied into
 * @bytes, which a record has at most one of (NULL: it has none). */
bool carpace_postgres_take (const PGresult *result, int row, int column, CarpaceTeamKind kind, void *ret_record, GByteArray *bytes);

/* ---- roster-postgres-gather.c, -read.c, -care.c ---- */

void carpace_postgres_gathering (CarpaceRosterStore *store);
void carpace_postgres_reading (CarpaceRosterStore *store);
void carpace_postgres_forget_hands (Roster *roster);

/* How far the database has come: *ret_done rows of its versions; @return what is wrong, or FINE */
CarpaceClubFault carpace_postgres_version (Roster *roster, int32_t *ret_done);

bool carpace_postgres_make (const char *address, CarpaceClubTold told, void *user, int32_t *ret_from, int32_t *ret_to);
bool carpace_postgres_admit (const char *address, CarpaceClubTold told, void *user, const CarpaceClubMember *member);
bool carpace_postgres_dismiss (const char *address, CarpaceClubTold told, void *user, const char *login);

#endif
