/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * rounds.h: how much of a long test is run.
 *
 * CARPACE_TEST_SHARE=10 asks for a tenth of its rounds: for a watcher that makes every
 * step fifty times slower, and to which a tenth shows every line of code. What is
 * counted or compared is judged by the whole, without a watcher.
 */
#ifndef CARPACE_TEST_ROUNDS_H
#define CARPACE_TEST_ROUNDS_H

#include <stdlib.h>

/** @return @whole, or the part of it that was asked for, at least 1 */
static inline int
carpace_test_rounds (int whole)
{
  const char *given = getenv ("CARPACE_TEST_SHARE");
  int share = given != NULL ? atoi (given) : 1;

  return share > 1 ? (whole + share - 1) / share : whole;
}

#endif
