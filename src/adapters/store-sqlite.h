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

/** Closes @store; NULL is fine. @param ended_well the program is quit, not cut off */
void carpace_store_close (CarpaceDiaryStore *store, bool ended_well);

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

/** Adds mouse input outside practice to @day's. */
void carpace_store_add_other (CarpaceDiaryStore *store, CarpaceDay day, int64_t ms);

/** Looks through the whole file for damage, in a thread and on a connection of
 * its own. Damage is told as CARPACE_STORE_DAMAGED_INSIDE. */
void carpace_store_check_in_background (CarpaceDiaryStore *store);

/** Waits for that check. @return what it found: NULL where nothing, or was none; g_free() */
char *carpace_store_check_wait (CarpaceDiaryStore *store);

/** Copies the diary into a new file, 0600, by SQLite's own backup. */
bool carpace_store_backup (CarpaceDiaryStore *store, const char *path);

/** Erases everything in the file: no byte of it stays in the file or beside it. */
bool carpace_store_erase (CarpaceDiaryStore *store);

/** @store as ports. */
CarpaceStore carpace_store_port (CarpaceDiaryStore *store);
CarpaceDiary carpace_store_diary (CarpaceDiaryStore *store);
CarpaceDiaryKeeper carpace_store_keeper (CarpaceDiaryStore *store);

#endif
