/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary.h: reading what was recorded.
 *
 * Faces and commands read the diary through this; the store (an adapter) is
 * behind it.
 */
#ifndef CARPACE_DIARY_H
#define CARPACE_DIARY_H

#include "carpace/session.h"

/** One thing recorded. */
typedef struct
{
  int64_t id;         /**< grows with each record */
  CarpaceDay day;     /**< practice day it belongs to */
  CarpaceEntry entry;
  const char *note;   /**< the player's own words, NULL where none; valid during the call */
} CarpaceRecord;

/** Whether a number that corrects @old takes its place. A higher one does; a lower
 * one does within 60 s of the first answer; from then on for 10 min it is
 * recorded beside the old; later still it comes by hand, of a wrong tap, and does.
 * @param since_ms since the first answer */
bool carpace_correction_counts (int64_t since_ms, int32_t old, int32_t discomfort);

/** Kinds of entries as a set: bits of these, or'ed. */
#define CARPACE_KIND(kind) (1u << (kind))
#define CARPACE_ALL_KINDS ((1u << CARPACE_N_ENTRIES) - 1)

/** One practice day, summed up. A day on which only mouse input outside
 * practice was seen, or that only has a note, has a dose of 0 and nothing in it. */
typedef struct
{
  CarpaceDay day;
  int64_t dose_ms, done_ms, match_ms, other_ms; /**< other_ms -1 where not known */
  int32_t blocks, offered, taken, declined;     /**< blocks ended; rests: an offer shown again is the same
                                                     offer, taken are those taken of the offered */
  int32_t n_ratings, unanswered, zeros;         /**< by block (and match), as last corrected; n_ratings: answered;
                                                     zeros among them */
  int32_t rating_sum;                           /**< of the answered */
  int32_t highest;                              /**< rating, -1 where none */
  CarpaceMorning morning;                       /**< waking -1, unsaid, -1 where none */
  bool morning_known;
  bool no_practice;
  bool caution;                                 /**< one was open or opened */
  const char *note;                             /**< on the day, NULL where none; valid during the call */
} CarpaceDaySum;

typedef bool (*CarpaceRecordVisitor) (void *user, const CarpaceRecord *record); /**< false: enough */
typedef bool (*CarpaceDaySumVisitor) (void *user, const CarpaceDaySum *sum);

/** Reads a diary. */
typedef struct
{
  void *self;
  /** Records of days @since to @until, both included, oldest first.
   * @return false where the diary cannot be read */
  bool (*records) (void *self, CarpaceDay since, CarpaceDay until, CarpaceRecordVisitor visit, void *user);
  bool (*days) (void *self, CarpaceDay since, CarpaceDay until, CarpaceDaySumVisitor visit, void *user);
  /** As records(), but only of @kinds (CARPACE_KIND() or'ed): far quicker over years. */
  bool (*records_of) (void *self, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceRecordVisitor visit,
                      void *user);
} CarpaceDiary;

/** Characters a note in the diary may have. */
#define CARPACE_DIARY_NOTE_CHARACTERS 2000

/** Keeps a diary by hand: notes, corrections, records from elsewhere. What is
 * written by it never changes a running session. Every function returns false
 * where it could not be kept, and then nothing has changed. */
typedef struct
{
  void *self;
  /** Sets the note of a record, or (NULL or "") takes it away. */
  bool (*note_record) (void *self, int64_t id, const char *note);
  bool (*note_day) (void *self, CarpaceDay day, const char *note);
  /** Corrects a wrong tap: the rating @id stays as it is, and another one of
   * the same block is recorded that corrects it. */
  bool (*correct) (void *self, int64_t id, int32_t discomfort, CarpaceSite site, CarpaceInstant at);
  /** Between take_in_begin() and take_in_end() records come from elsewhere, days
   * in any order. One that the diary has (as often as it has come) is not added again.
   * @return 1 added, 0 known already, -1 could not be kept */
  bool (*take_in_begin) (void *self);
  int (*take_in_record) (void *self, CarpaceDay day, const CarpaceEntry *entry, const char *note);
  /** @param other_ms -1 where not known. What the diary has already stays. */
  int (*take_in_day) (void *self, CarpaceDay day, int64_t other_ms, const char *note);
  bool (*take_in_end) (void *self, bool keep);
  /** Erases everything, for good. */
  bool (*erase) (void *self);
  /** Copies the diary as it is into a new file @path, by the store's own means. Never over a
   * file that is there. */
  bool (*backup) (void *self, const char *path);
} CarpaceDiaryKeeper;

/** Where bytes go. */
typedef struct
{
  void *self;
  bool (*write) (void *self, const char *bytes, size_t n);
} CarpaceBytesOut;

/** What of a diary is meant. */
typedef struct
{
  CarpaceDay since, until; /**< both included */
  bool without_notes;
  const char *player;      /**< the player's code, for forms that name a subject; never a name */
  bool side_known;
  CarpaceSide side;        /**< the mouse hand's, where known */
} CarpaceDiaryExtract;

/** What came of taking in a file. */
typedef struct
{
  int64_t added, known;
  int32_t line;          /**< of the fault, from 1; 0 where none */
  char *fault;           /**< translated, NULL where none; free() it */
} CarpaceIntake;

/** One form in which a diary goes out, and comes in where it has a read(). */
typedef struct
{
  const char *name; /**< `csv`, `json`, `fhir` */
  /** @return false where the diary could not be read, or @to not be written */
  bool (*write) (const CarpaceDiary *diary, const CarpaceDiaryExtract *what, const CarpaceBytesOut *to);
  /** Whether a file that begins with these bytes is of this form. */
  bool (*is_like) (const char *bytes, size_t n);
  /** Reads a whole file, from a stranger, into @keeper: all of it or nothing.
   * NULL where this form only goes out. @return false where nothing was taken in */
  bool (*read) (const char *bytes, size_t n, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake);
} CarpaceDiaryFormat;

#endif
