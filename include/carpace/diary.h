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

/** Characters of a diary's identity, and bytes with its end: 32 hexadecimal digits, lower case. */
#define CARPACE_IDENTITY_CHARACTERS 32
#define CARPACE_IDENTITY_BYTES (CARPACE_IDENTITY_CHARACTERS + 1)
/** Diaries of one player that may have become one. */
#define CARPACE_IDENTITIES 8

/** Whose a diary is: a number by chance, and nothing of a machine. The first is
 * its own; then come those of the player's other diaries that were joined with it. */
typedef struct
{
  int32_t n; /**< 0 in what is older than identities */
  char id[CARPACE_IDENTITIES][CARPACE_IDENTITY_BYTES];
} CarpaceIdentity;

/** Whether @text is one. */
bool carpace_identity_is_one (const char *text);

/** Whether @a and @b are of one player: one of the ids is in both. */
bool carpace_identity_same (const CarpaceIdentity *a, const CarpaceIdentity *b);

/** Adds @id, where it is not there yet. @return false where there is no room */
bool carpace_identity_add (CarpaceIdentity *identity, const char *id);

/** What ids of records outside are made from: the same in each of the player's
 * diaries, once they were joined. "" where there is none. */
const char *carpace_identity_outside (const CarpaceIdentity *identity);

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

/** What was done about plans. */
typedef enum
{
  CARPACE_PLAN_GIVEN,    /**< one was taken by `plan use` */
  CARPACE_PLAN_RELEASED, /**< what was fixed ended */
  CARPACE_PLAN_OF_DAY,   /**< a day was opened with one that the day before did not have */
  CARPACE_N_PLAN_WHATS
} CarpacePlanWhat;

/** A plan's version is one of 1 to this. */
#define CARPACE_PLAN_VERSIONS 9999

/** One record of it. What is held is what the last of the given and released says. */
typedef struct
{
  CarpaceInstant at;
  CarpacePlanWhat what;
  const char *name;   /**< valid during the call, as the other texts */
  int32_t version;
  const char *fixed;  /**< all that is held from then on, as carpace_ceiling_write() has it; "" of a day */
  const char *text;   /**< the bytes of the plan's file, "" where released */
} CarpacePlanRecord;

typedef bool (*CarpacePlanRecordVisitor) (void *user, const CarpacePlanRecord *record); /**< false: enough */
typedef bool (*CarpaceRecordVisitor) (void *user, const CarpaceRecord *record); /**< false: enough */
typedef bool (*CarpaceDaySumVisitor) (void *user, const CarpaceDaySum *sum);
typedef bool (*CarpaceEventVisitor) (void *user, const CarpaceEvent *event, CarpaceInstant at);

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
  /** Records of plans, in the order in which they were kept. NULL where there are none to tell of. */
  bool (*plans) (void *self, CarpacePlanRecordVisitor visit, void *user);
  /** What moves with the records to another computer, beside them; each may be NULL: not known here. */
  bool (*whose) (void *self, CarpaceIdentity *ret_identity);
  /** Events since the last opening, oldest first: what the day under way is gone on with from. */
  bool (*events) (void *self, CarpaceEventVisitor visit, void *user);
  /** The last moment the program is known to have lived. @return false where it never did */
  bool (*alive) (void *self, CarpaceInstant *ret_at, bool *ret_ended_well);
  void (*free) (void *self); /**< as a port's (ports.h): NULL where somebody else lets go of it */
} CarpaceDiary;

/** A caution by signs that were answered yes. One that a decision opened is told by it, and each day after by that day's. */
bool carpace_is_opened_by_signs (const CarpaceEntry *entry);

/** The caution that the dose of @day comes of, as it was closed: on that day, or since the last day before it that
 * had a dose decided; or, as it was opened, the one that signs opened on @day, which ends practice on it.
 * @return false where there is none */
bool carpace_caution_behind (const CarpaceDiary *diary, CarpaceDay day, CarpaceEntry *ret_said);

/** Characters a note in the diary may have. */
#define CARPACE_DIARY_NOTE_CHARACTERS 2000

/** Where bytes go. */
typedef struct
{
  void *self;
  bool (*write) (void *self, const char *bytes, size_t n);
} CarpaceBytesOut;

/** What came of erasing. */
typedef enum
{
  CARPACE_ERASE_FAILED, /**< nothing has changed */
  CARPACE_ERASED,       /**< nothing of it is in any file */
  CARPACE_ERASE_HELD,   /**< nothing has changed: another program reads the diary and did not end */
  CARPACE_ERASE_LEFT    /**< erased, but for bytes that another program began to read meanwhile */
} CarpaceErasing;

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
  /** Whose it is. */
  bool (*whose) (void *self, CarpaceIdentity *ret_identity);
  /** Whether nothing is in it that a player did or said. */
  bool (*is_empty) (void *self);
  /** Whose what is taken in next makes it: an empty diary becomes that one, any
   * other is joined with it. Kept with what is taken in, or not at all. */
  void (*become) (void *self, const CarpaceIdentity *identity);
  /** Between take_in_begin() and take_in_end() records come from elsewhere, days
   * in any order. One that the diary has (as often as it has come) is not added again.
   * Elapsed times are then this diary's, by the wall clock, and what a session goes
   * on from is derived anew from all records: import is a replay.
   * @return 1 added, 0 known already, -1 could not be kept */
  bool (*take_in_begin) (void *self);
  int (*take_in_record) (void *self, CarpaceDay day, const CarpaceEntry *entry, const char *note);
  /** @param other_ms -1 where not known. What the diary has already stays. */
  int (*take_in_day) (void *self, CarpaceDay day, int64_t other_ms, const char *note);
  /** Of the day under way there, and when the program was last known to live there. */
  int (*take_in_event) (void *self, const CarpaceEvent *event, CarpaceInstant at);
  int (*take_in_alive) (void *self, CarpaceInstant at, bool ended_well);
  bool (*take_in_end) (void *self, bool keep);
  /** Keeps that a plan was given, or released; also between take_in_begin() and
   * take_in_end(). @return 1 added, 0 known already, -1 could not be kept */
  int (*keep_plan) (void *self, const CarpacePlanRecord *record);
  /** Erases everything, for good; waits a few seconds for who reads. */
  CarpaceErasing (*erase) (void *self);
  /** Copies the diary as it is: the bytes of a file that the store can open. */
  bool (*backup) (void *self, const CarpaceBytesOut *to);
  void (*free) (void *self); /**< as a diary's */
} CarpaceDiaryKeeper;

/** What of a diary is meant. */
typedef struct
{
  CarpaceDay since, until; /**< both included */
  bool without_notes;
  const char *player;      /**< the player's code, for forms that name a subject; never a name */
  const char *code;        /**< the same, NULL where none was given */
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
  /** Whose diary a file is of, as far as it says. NULL where it never does.
   * @return false where that cannot be read; read() says why */
  bool (*whose) (const char *bytes, size_t n, CarpaceIdentity *ret_identity);
  /** Reads a whole file, from a stranger, into @keeper: all of it or nothing.
   * NULL where this form only goes out. @return false where nothing was taken in */
  bool (*read) (const char *bytes, size_t n, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake);
} CarpaceDiaryFormat;

#endif
