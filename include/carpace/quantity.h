/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * quantity.h: values as plan files and commands write them.
 *
 * `90 s`, `1.5 min`, `1 h 5 min`; `12 %`; `60 /min`; `90 deg`; `25 deg
 * extension`; `"04:00"`. The space before a unit may be absent. Decimals are
 * read exactly: no locale, no rounding of what stands there.
 */
#ifndef CARPACE_QUANTITY_H
#define CARPACE_QUANTITY_H

#include "carpace/plan-keys.h"

/** What is wrong with a value. */
typedef enum
{
  CARPACE_QUANTITY_OK,
  CARPACE_QUANTITY_NOT_A_NUMBER, /**< no number where one should begin */
  CARPACE_QUANTITY_NO_UNIT,      /**< a bare number */
  CARPACE_QUANTITY_OTHER_UNIT,   /**< something other than the unit after the number */
  CARPACE_QUANTITY_ORDER,        /**< parts of a duration not from large to small, or a fraction before its last */
  CARPACE_QUANTITY_TOO_FINE,     /**< more decimals than count: times in whole ms, shares in hundredths of a percent,
                                      whole numbers, 15 digits in all */
  CARPACE_QUANTITY_NOT_A_TIME    /**< no time of day as "hh:mm" */
} CarpaceQuantityFault;

/** Reads all of @text as a value of @unit; any unit but text, word and
 * exercises. Ranges are not checked: negative and huge numbers are read.
 * @return CARPACE_QUANTITY_OK, else *ret_number is untouched */
CarpaceQuantityFault carpace_quantity_read (const char *text, CarpaceUnit unit, double *ret_number);

/** Bytes that carpace_quantity_write() needs at most, its end included. */
#define CARPACE_QUANTITY_BYTES 64

/** Writes @number so that carpace_quantity_read() gives it back exactly where
 * it has at most 15 digits. Durations in h, min and s without those that are
 * 0. @return the length written */
size_t carpace_quantity_write (CarpaceUnit unit, double number, char ret_text[CARPACE_QUANTITY_BYTES]);

#endif
