/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * store-sqlite.h: the diary, kept in one SQLite file.
 *
 * One program writes (a lock beside the file says which), any number read.
 * Everything of one step is one transaction, on disk when commit() returns.
 * Whatever goes wrong with the file is told once, nothing of it is ever
 * deleted, and the session goes on: steps that cannot be kept wait in memory,
 * are shown by the reading port, and are kept with the next commit that can.
 */
#ifndef CARPACE_STORE_SQLITE_H
#define CARPACE_STORE_SQLITE_H

#include <glib.h>

#include "carpace/diary.h"
#include "carpace/ports.h"
#include "text/store-text.h"

typedef struct CarpaceDiaryStore CarpaceDiaryStore;

/** How a diary is opened. */
typedef enum
{
  CARPACE_STORE_WRITING, /**< makes the folder and the file where they are not there; takes the lock */
  CARPACE_STORE_KEEPING, /**< the same; where another program holds the lock it waits for it, told as HELD */
  CARPACE_STORE_READING  /**< makes and changes nothing; a diary that is not there is empty */
} CarpaceStoreMode;

/** Told of a trouble, in the thread of the main context that was the default
 * one when the store was opened. @message is one translated sentence or two. */
typedef void (*CarpaceStoreTold) (void *user, CarpaceStoreTrouble trouble, const char *message);

/** Where the diary is: `carpace/diary.sqlite` in the user's state folder.
 * @return free with g_free() */
char *carpace_store_path (void);

/** Opens the diary at @path. For writing there is always a store, whatever the
 * file is like, but where another program holds the lock: that is told as
 * CARPACE_STORE_IN_USE and NULL is returned. For reading, NULL is returned
 * (and the trouble told) where the file cannot be read.
 * @param told may be NULL */
CarpaceDiaryStore *carpace_store_open (const char *path, CarpaceStoreMode mode, CarpaceStoreTold told, void *user);

/** Opens for reading the diary that @bytes are, those of the file at @path. Where a log
 * lies beside that, with what a copy of the file alone would lack, it is the file that is read.
 * @return NULL (and the trouble told) where it cannot be read */
CarpaceDiaryStore *carpace_store_open_bytes (const char *path, const char *bytes, size_t n, CarpaceStoreTold told,
                                             void *user);

/** Opens a diary in memory: what is written there is gone with it. */
CarpaceDiaryStore *carpace_store_open_scratch (CarpaceStoreTold told, void *user);

/** Whether a file that begins with these bytes is what carpace_store_backup() writes. */
bool carpace_store_is_backup (const char *bytes, size_t n);

/** Closes @store; NULL is fine. @param ended_well the program is quit, not cut off */
void carpace_store_close (CarpaceDiaryStore *store, bool ended_well);

/** Tries again where the diary cannot be written: takes the lock, makes the folder and
 * the file where they are gone (with all that was in it), and writes what waits.
 * @return whether nothing waits any more; told as KEPT_AGAIN */
bool carpace_store_retry (CarpaceDiaryStore *store);

/** Milliseconds to wait before the @nth try, from 0: ever longer, up to five minutes. */
int64_t carpace_store_retry_after_ms (int32_t nth);

/** The clock of the last run: what was added to the time since its boot, and
 * which boot that was. @return false where there was none */
bool carpace_store_last_clock (const CarpaceDiaryStore *store, int64_t *ret_base_ms, char *ret_boot_id,
                               size_t boot_id_bytes);

/** A run of the program begins: records from now on are of it. Call it after
 * carpace_store_resume(), whose `alive` and `ended_well` are of the run before. */
void carpace_store_start_run (CarpaceDiaryStore *store, const char *boot_id, int64_t base_ms, CarpaceInstant now);

/** The program lives, now. Told as often as a killed program may lose time. */
void carpace_store_alive (CarpaceDiaryStore *store, CarpaceInstant now);

/** Loads what to go on from. Free with carpace_store_resume_clear(). */
void carpace_store_resume (CarpaceDiaryStore *store, CarpaceResume *ret_resume);
void carpace_store_resume_clear (CarpaceResume *resume);

/** The plan that the next day is opened with: kept with that opening, where the day
 * before had another. @param record its `at` means nothing; copied */
void carpace_store_set_day_plan (CarpaceDiaryStore *store, const CarpacePlanRecord *record);

/** Adds mouse input outside practice to @day's. */
void carpace_store_add_other (CarpaceDiaryStore *store, CarpaceDay day, int64_t ms);

/** Looks through the whole file for damage, in a thread and on a connection of
 * its own. Damage is told as CARPACE_STORE_DAMAGED_INSIDE. It is the last of a start:
 * memory that nobody needs any more is the system's again when it ends. */
void carpace_store_check_in_background (CarpaceDiaryStore *store);

/** Waits for that check. @return what it found: NULL where nothing, or was none; g_free() */
char *carpace_store_check_wait (CarpaceDiaryStore *store);

/** Copies the diary, by SQLite's own backup: the bytes of one file, without a log. */
bool carpace_store_backup (CarpaceDiaryStore *store, const CarpaceBytesOut *to);

/** What the program keeps in the diary's folder, and erasing takes away: the plan of the
 * day under way, and what the witness saw. */
#define CARPACE_STORE_DAY_PLAN "day.plan.yaml"
#define CARPACE_STORE_LAST_SEEN "last-seen"

/** Erases everything in the file: no byte of it stays in the file or beside it. Waits
 * @wait_ms at most for another program that reads it. */
CarpaceErasing carpace_store_erase (CarpaceDiaryStore *store, int wait_ms);

/** carpace_store_close() of a program that ended well, as the ports' free. */
void carpace_store_end (void *store);

/** @store as ports; one of them lets go of it. */
CarpaceStore carpace_store_port (CarpaceDiaryStore *store);
CarpaceDiary carpace_store_diary (CarpaceDiaryStore *store);
CarpaceDiaryKeeper carpace_store_keeper (CarpaceDiaryStore *store);

#endif
