/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-private.h: shared by the files of this one adapter.
 *
 * store-sqlite.c        the door: opening, closing, the lock, troubles
 * store-sqlite-sql.c    every word of SQL: schema by version, statements
 * store-sqlite-write.c  steps into the file: the loop's port
 * store-sqlite-read.c   records and sums out of it: the reading port
 * store-sqlite-resume.c runs, and what to go on from
 * store-sqlite-sum.c    a day's records folded into one sum
 * store-sqlite-keep.c   notes, corrections, records from elsewhere
 * store-sqlite-care.c   check, backup, erasing
 */
#ifndef CARPACE_STORE_SQLITE_PRIVATE_H
#define CARPACE_STORE_SQLITE_PRIVATE_H

#include <sqlite3.h>

#include "carpace/entry-fields.h"
#include "store-sqlite-sum.h"
#include "store-sqlite.h"
#include "text/record-text.h"

/** Schema this program writes. */
#define CARPACE_STORE_SCHEMA 3
/** In the file's header: "Carp". */
#define CARPACE_STORE_APPLICATION 0x43617270

typedef enum
{
  SQL_BEGIN,
  SQL_COMMIT,
  SQL_ROLLBACK,
  SQL_ADD_RUN,
  SQL_LAST_RUN,
  SQL_ALIVE,
  SQL_END_RUN,
  SQL_ADD_EVENT,
  SQL_LAST_EVENT,
  SQL_EVENTS_FROM,
  SQL_ADD_OPENING,
  SQL_LAST_OPENING,
  SQL_PRUNE_EVENTS,
  SQL_PRUNE_OPENINGS,
  SQL_RECORD_NOTE,
  SQL_RECORD_NOTE_SET,
  SQL_RECORD_NOTE_DROP,
  SQL_DAY_NOTE,
  SQL_DAY_NOTE_SET,
  SQL_DAY_NOTE_DROP,
  SQL_OTHER,
  SQL_OTHER_ADD,
  SQL_SUM_SET,
  SQL_SUMS,
  CARPACE_N_SQL
} CarpaceSql;

/** An event of a step, and a record of one. */
typedef struct { CarpaceEvent event; CarpaceInstant at; } CarpaceStoreEvent;
typedef struct { CarpaceDay day; CarpaceEntry entry; } CarpaceStoreRecord;

/** What is kept as one. */
typedef struct
{
  GArray *events;  /* CarpaceStoreEvent */
  GArray *records; /* CarpaceStoreRecord */
  bool opens;
  CarpaceDay day;  /* opened by it */
  CarpaceInstant at;
  char *history;
} CarpaceStoreStep;

struct CarpaceDiaryStore
{
  char *path;
  CarpaceStoreMode mode;
  int lock_fd;
  sqlite3 *db;            /* NULL: nothing can be read either */
  bool writable;
  sqlite3_stmt *statement[CARPACE_N_SQL];
  sqlite3_stmt *add_record[CARPACE_N_ENTRIES];
  sqlite3_stmt *read_record[CARPACE_N_ENTRIES];

  CarpaceStoreTold told;
  void *user;
  GMainContext *context;
  bool in_trouble;        /* told, and not over */

  bool run_known;
  char boot_id[64];
  int64_t base_ms;
  CarpaceInstant run_began;
  int64_t run;            /* its id, 0 where it is not in the file yet */

  int64_t last_record;    /* the largest id */
  CarpaceDay day;         /* that records belong to, CARPACE_NO_DAY before the first */
  CarpaceStoreStep *step;      /* between begin and commit */
  GPtrArray *waiting;     /* steps not in the file yet, oldest first */

  GHashTable *taken_in;   /* while records come from elsewhere: how often each has come */
  GHashTable *days_taken_in;
  int64_t last_record_before;

  struct CarpaceStoreCheck *check;
};

/* store-sqlite-sql.c */
/** @return the statement, reset; NULL where it cannot be prepared */
sqlite3_stmt *carpace_store_sql (CarpaceDiaryStore *store, CarpaceSql sql);
sqlite3_stmt *carpace_store_sql_add (CarpaceDiaryStore *store, CarpaceEntryKind kind);
/** A statement that gives records of @kind: id, day, elapsed, wall, offset, note, fields.
 * *ret_own tells whether the caller finalizes it. */
sqlite3_stmt *carpace_store_sql_read (CarpaceDiaryStore *store, CarpaceEntryKind kind, bool *ret_own);
/** The record @id of @kind: the same columns. The caller finalizes it. */
sqlite3_stmt *carpace_store_sql_one (CarpaceDiaryStore *store, CarpaceEntryKind kind);
void carpace_store_sql_finalize (CarpaceDiaryStore *store);
/** Runs a statement that gives no rows. */
bool carpace_store_run_sql (CarpaceDiaryStore *store, CarpaceSql sql);
bool carpace_store_done (sqlite3_stmt *statement);
/** Sets a connection up; then, for writing, brings the schema to this version. SQLite results. */
int carpace_store_sql_setup (sqlite3 *db, bool writing);
int carpace_store_sql_migrate (CarpaceDiaryStore *store);
int carpace_store_sql_number (sqlite3 *db, const char *pragma_or_select, int64_t *ret_number);
int64_t carpace_store_sql_last_record (sqlite3 *db);
int carpace_store_sql_empty (sqlite3 *db);
int carpace_store_sql_quick_check (sqlite3 *db, char **ret_found);
/** Binds an instant to three columns from @first. */
void carpace_store_bind_instant (sqlite3_stmt *statement, int first, CarpaceInstant at);
CarpaceInstant carpace_store_column_instant (sqlite3_stmt *statement, int first);

/* store-sqlite.c */
void carpace_store_tell (CarpaceDiaryStore *store, CarpaceStoreTrouble trouble, const char *detail);
/** Tells what SQLite's @result means. */
void carpace_store_tell_result (CarpaceDiaryStore *store, int result);

/* store-sqlite-write.c */
CarpaceStoreStep *carpace_store_step_new (void);
void carpace_store_step_free (void *step);
bool carpace_store_write_record (CarpaceDiaryStore *store, CarpaceDay day, const CarpaceEntry *entry);
bool carpace_store_begin_writing (CarpaceDiaryStore *store);
/** Commits where @ok, else (or where that fails) rolls back and tells. */
bool carpace_store_end_writing (CarpaceDiaryStore *store, bool ok);
/** Writes what waits. @return false where it goes on waiting */
bool carpace_store_write_waiting (CarpaceDiaryStore *store);

/* store-sqlite-read.c */
/** Records in the file only. */
bool carpace_store_read (CarpaceDiaryStore *store, CarpaceDay since, CarpaceDay until, uint32_t kinds,
                         CarpaceRecordVisitor visit, void *user);
bool carpace_store_find (CarpaceDiaryStore *store, int64_t id, CarpaceRecord *ret_record);
bool carpace_store_sum_up (CarpaceDiaryStore *store, CarpaceDay day);
/** Sums up each of a set of days. */
bool carpace_store_sum_up_days (CarpaceDiaryStore *store, GHashTable *days);
/** Sums every day up anew. */
bool carpace_store_sum_up_all (CarpaceDiaryStore *store);

/* store-sqlite-resume.c */
bool carpace_store_write_run (CarpaceDiaryStore *store);
bool carpace_store_write_event (CarpaceDiaryStore *store, const CarpaceStoreEvent *event, int64_t *ret_id);
/** @param first_event of the step that opens, 0 where it has none: then the next that comes */
bool carpace_store_write_opening (CarpaceDiaryStore *store, const CarpaceStoreStep *step, int64_t first_event);
void carpace_store_load_day (CarpaceDiaryStore *store);

/* store-sqlite-care.c */
/** Stops the check where one is under way. */
void carpace_store_check_end (CarpaceDiaryStore *store);

#endif
