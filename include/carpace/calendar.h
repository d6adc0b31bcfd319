/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * calendar.h: what is put into a calendar file.
 */
#ifndef CARPACE_CALENDAR_H
#define CARPACE_CALENDAR_H

#include "carpace/instant.h"

/** One entry. A calendar may be shown to anybody: its words are neutral. */
typedef struct
{
  const char *uid;       /**< the same for the same entry whenever it is written */
  const char *summary;
  CarpaceInstant begins; /**< only its wall clock counts */
  int64_t length_ms;
} CarpaceCalendarEntry;

/** Writes calendars. */
typedef struct
{
  void *self;
  /** @return a whole file, UTF-8; free() it. NULL where it could not be made */
  char *(*write) (void *self, const CarpaceCalendarEntry *entries, size_t n_entries, CarpaceInstant now);
} CarpaceCalendar;

#endif
