/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * instant.h: one moment, on both clocks the product knows.
 *
 * Elapsed time decides; wall-clock time only labels. No code of the core ever
 * asks for the time: whoever calls says what time it is.
 */
#ifndef CARPACE_INSTANT_H
#define CARPACE_INSTANT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/** A deadline that never comes. */
#define CARPACE_NEVER INT64_MAX

#define CARPACE_SECOND_MS INT64_C (1000)
#define CARPACE_MINUTE_MS INT64_C (60000)
#define CARPACE_HOUR_MS INT64_C (3600000)
#define CARPACE_DAY_MS INT64_C (86400000)

/** One moment. */
typedef struct
{
  int64_t elapsed_ms; /**< ms on a clock that runs on through suspend and is never set; its zero means nothing */
  int64_t wall_ms;    /**< ms since 1970-01-01T00:00:00Z, as the machine's clock said it */
  int32_t offset_s;   /**< local time less UTC at that moment, s, -86400..86400 */
} CarpaceInstant;

/** The instant @by_ms after @instant (before it where negative), in the same
 * offset. Saturates at the ends of int64_t. */
CarpaceInstant carpace_instant_after (CarpaceInstant instant, int64_t by_ms);

/** @a + @b, saturating at INT64_MIN and INT64_MAX. */
int64_t carpace_sum_ms (int64_t a, int64_t b);

/** Bytes that carpace_instant_write() needs at most, its end included. */
#define CARPACE_INSTANT_BYTES 40

/** Writes the wall clock of @instant as ISO 8601 extended with offset,
 * "2027-03-02T18:00:00.000+01:00"; years 0000 to 9999. An offset that is no
 * whole minute is written with its seconds, "-00:44:30".
 * @return the length written, 0 where the year is outside them. */
size_t carpace_instant_write (CarpaceInstant instant, char ret_text[CARPACE_INSTANT_BYTES]);

/** Reads what carpace_instant_write() writes; a fraction of a second may be
 * absent or have 1 to 9 digits (whole ms are kept), "Z" stands for +00:00.
 * elapsed_ms of the result is 0.
 * @return false, *ret_instant untouched, where @text is anything else. */
bool carpace_instant_read (const char *text, CarpaceInstant *ret_instant);

#endif
