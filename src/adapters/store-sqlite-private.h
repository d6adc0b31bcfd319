/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-private.h: shared by the files of this one adapter.
 *
 * store-sqlite.c        the door: opening, closing, the lock, troubles
 * store-sqlite-retry.c  another try where it cannot be written
 * store-sqlite-sql.c    every word of SQL: schema by version, statements
 * store-sqlite-fields.c a field's column: its name, type and value
 * store-sqlite-write.c  steps into the file: the loop's port
 * store-sqlite-read.c   records and sums out of it: the reading port
 * store-sqlite-resume.c runs, and what to go on from
 * store-sqlite-keep.c   notes, corrections: the keeper's port
 * store-sqlite-plans.c  plans given, released, and of days
 * store-sqlite-take-in.c records from elsewhere
 * store-sqlite-derive.c what to go on from, derived anew from all records
 * store-sqlite-whose.c  whose diary it is
 * store-sqlite-care.c   check, backup, erasing
 */
#ifndef CARPACE_STORE_SQLITE_PRIVATE_H
#define CARPACE_STORE_SQLITE_PRIVATE_H

#include <sqlite3.h>

#include "carpace/entry-fields.h"
#include "carpace/event-kinds.h"
#include "carpace/day-sum.h"
#include "store-sqlite.h"
#include "forms/records.h"

/** Schema this program writes. It goes up where an older program must not write
 * the file any more; a column for a new field comes by itself. */
#define CARPACE_STORE_SCHEMA 9
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
  SQL_KEPT,
  SQL_KEPT_LAST,
  SQL_END_RUN,
  SQL_ADD_EVENT,
  SQL_LAST_EVENT,
  SQL_EVENTS_FROM,
  SQL_ON_AIR_AT,
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
  SQL_CLEAR_EVENTS,
  SQL_CLEAR_OPENINGS,
  SQL_WHOSE,
  SQL_WHOSE_ADD,
  SQL_WHOSE_CLEAR,
  SQL_SUM_SET,
  SQL_SUMS,
  SQL_PLAN_ADD,
  SQL_PLAN_KNOWN,
  SQL_PLAN_OF_DAY,
  SQL_PLANS,
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
  CarpacePlanRecord *plan; /* of the day that is opened; texts of its own */
} CarpaceStoreStep;

struct CarpaceDiaryStore
{
  char *path;
  CarpaceStoreMode mode;
  int lock_fd;
  sqlite3 *db;            /* NULL: nothing can be read either */
  bool writable;
  bool in_memory;         /* there is no file */
  sqlite3_stmt *statement[CARPACE_N_SQL];
  sqlite3_stmt *add_record[CARPACE_N_ENTRIES];
  sqlite3_stmt *read_record[CARPACE_N_ENTRIES];

  CarpaceStoreTold told;
  void *user;
  GMainContext *context;
  bool in_trouble;        /* told, and not over */
  bool locked;            /* the lock is ours, or cannot be made */
  uint64_t file[2];       /* device and number of the file that is open for writing */

  bool run_known;
  char boot_id[64];
  int64_t base_ms;
  CarpaceInstant run_began;
  int64_t run;            /* its id, 0 where it is not in the file yet */

  int64_t last_record;    /* the largest id */
  CarpaceDay day;         /* that records belong to, CARPACE_NO_DAY before the first */
  CarpaceStoreStep *step;      /* between begin and commit */
  CarpacePlanRecord *day_plan; /* that the next day is opened with */
  GPtrArray *waiting;     /* steps not in the file yet, oldest first */

  struct CarpaceStoreTaking *taking; /* while records come from elsewhere */
  CarpaceIdentity becomes;           /* whose what comes next makes it, n 0: nobody's else */
  int64_t last_record_before;

  struct CarpaceStoreCheck *check;
};

/* store-sqlite-sql.c */
/** @return the statement, reset; NULL where it cannot be prepared */
sqlite3_stmt *carpace_store_sql (CarpaceDiaryStore *store, CarpaceSql sql);
sqlite3_stmt *carpace_store_sql_add (CarpaceDiaryStore *store, CarpaceEntryKind kind);
/** Whether the file has a column for every field; those it lacks are made by the migration. */
bool carpace_store_sql_whole (CarpaceDiaryStore *store);
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
#define CARPACE_STORE_BUSY_MS 250
int carpace_store_sql_setup (sqlite3 *db, bool writing);
int carpace_store_sql_migrate (CarpaceDiaryStore *store);
int carpace_store_sql_number (sqlite3 *db, const char *pragma_or_select, int64_t *ret_number);
int64_t carpace_store_sql_last_record (sqlite3 *db);
/** Writes what is in the log into the file, and empties the log, as soon as nobody
 * reads what it holds; *ret_done false where somebody still does. */
int carpace_store_sql_fold_log (sqlite3 *db, bool *ret_done);
/** Empties every table and every page that held something; the log is not folded yet. */
int carpace_store_sql_empty (sqlite3 *db);
int carpace_store_sql_quick_check (sqlite3 *db, char **ret_found);
/** Binds an instant to three columns from @first. */
void carpace_store_bind_instant (sqlite3_stmt *statement, int first, CarpaceInstant at);
CarpaceInstant carpace_store_column_instant (sqlite3_stmt *statement, int first);

/* store-sqlite.c */
void carpace_store_tell (CarpaceDiaryStore *store, CarpaceStoreTrouble trouble, const char *detail);
/** Tells what SQLite's @result means. */
void carpace_store_tell_result (CarpaceDiaryStore *store, int result);

/* store-sqlite-fields.c */
/** Binds what @field of @value says; nothing where it says nothing. */
void carpace_store_bind_field (sqlite3_stmt *statement, int column, const CarpaceField *field, const void *value);
/** @return false, nothing changed, where the column holds what this program does not know */
bool carpace_store_read_field (sqlite3_stmt *statement, int column, const CarpaceField *field, void *value);
/** SQL's word for what a column of @field holds. */
const char *carpace_store_column_type (const CarpaceField *field);
/** Visits every field that has a column, by the table it is in, until @visit returns false. */
typedef bool (*CarpaceStoreFieldVisitor) (void *user, const char *table, const CarpaceField *field);
bool carpace_store_each_field (CarpaceStoreFieldVisitor visit, void *user);
/** The fields of every kind of event, each name once: the event table's columns. */
GPtrArray *carpace_store_event_fields (void);

void carpace_store_make_folder (const char *path);
void carpace_store_make_file (const char *path);
bool carpace_store_is_empty (const char *path);
/** Again where it has been taken already. @return false where another program holds it */
bool carpace_store_take_lock (CarpaceDiaryStore *store);
void carpace_store_open_writing (CarpaceDiaryStore *store);
void carpace_store_close_db (CarpaceDiaryStore *store);
/** Whether the file that is open for writing is in its place; if not, it has been told. */
bool carpace_store_in_place (CarpaceDiaryStore *store);

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
/** Marks the moment of a step as kept. */
bool carpace_store_write_kept (CarpaceDiaryStore *store, const CarpaceStoreStep *step);
bool carpace_store_write_event (CarpaceDiaryStore *store, const CarpaceStoreEvent *event, int64_t *ret_id);
/** @param first_event of the step that opens, 0 where it has none: then the next that comes */
bool carpace_store_write_opening (CarpaceDiaryStore *store, const CarpaceStoreStep *step, int64_t first_event);
void carpace_store_load_day (CarpaceDiaryStore *store);

/** Events of the file from the one with id @from on, added to @events (CarpaceStoreEvent). */
bool carpace_store_read_events (CarpaceDiaryStore *store, int64_t from, GArray *events);
/** The last run's last step is at @elapsed_ms at least: what was told by then is not told again. */
bool carpace_store_kept (CarpaceDiaryStore *store, int64_t elapsed_ms);
bool carpace_store_read_alive (CarpaceDiaryStore *store, CarpaceInstant *ret_at, bool *ret_ended_well);

/* store-sqlite-whose.c */
bool carpace_store_read_whose (CarpaceDiaryStore *store, CarpaceIdentity *ret_identity);
/** Gives a diary that has none an identity. */
bool carpace_store_ensure_whose (CarpaceDiaryStore *store);
/** Within a transaction: an empty diary becomes that one, any other is joined with it. */
bool carpace_store_become (CarpaceDiaryStore *store, bool was_empty);

/* store-sqlite-derive.c */
/** Within a transaction: derives from all records what to go on from, and puts the file's
 * events and @events (CarpaceStoreEvent) in one row. */
bool carpace_store_derive (CarpaceDiaryStore *store, const GArray *events);

/* store-sqlite-take-in.c */
/** Whether nothing is in it that a player did or said. */
bool carpace_store_says_nothing (CarpaceDiaryStore *store);
void carpace_store_take_in_port (CarpaceDiaryKeeper *keeper);
/** Sets or takes away a note, one statement for each. */
bool carpace_store_write_note (CarpaceDiaryStore *store, CarpaceSql set, CarpaceSql drop, int64_t of, const char *note);
bool carpace_store_note_fits (const char *note);

/* store-sqlite-plans.c */
CarpacePlanRecord *carpace_store_plan_copy (const CarpacePlanRecord *record);
void carpace_store_plan_free (CarpacePlanRecord *record);
/** Writes the plan of a day, where the day before had another. NULL is fine. */
bool carpace_store_write_day_plan (CarpaceDiaryStore *store, const CarpacePlanRecord *record, CarpaceInstant at);
bool carpace_store_plans (void *store, CarpacePlanRecordVisitor visit, void *user);
/** Puts the records of plans in the order in which they came about: the last of them holds. */
bool carpace_store_order_plans (CarpaceDiaryStore *store);
int carpace_store_keep_plan (void *store, const CarpacePlanRecord *record);

/* store-sqlite-care.c */
/** Stops the check where one is under way. */
void carpace_store_check_end (CarpaceDiaryStore *store);
void carpace_store_without_log (unsigned char *bytes, sqlite3_int64 n);

#endif
