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

/** One practice day, summed up. */
typedef struct
{
  CarpaceDay day;
  int64_t dose_ms, done_ms, match_ms, other_ms; /**< other_ms -1 where not known */
  int32_t blocks, offered, taken, declined;     /**< rests */
  int32_t n_ratings, unanswered, zeros;         /**< n_ratings: answered; zeros among them */
  int32_t rating_sum;                           /**< of the answered */
  int32_t highest;                              /**< rating, -1 where none */
  CarpaceMorning morning;                       /**< waking -1, unsaid, -1 where none */
  bool morning_known;
  bool no_practice;
  bool caution;                                 /**< one was open or opened */
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
} CarpaceDiary;

#endif
