/* SPDX-License-Identifier: GPL-3.0-or-later */
/* cases.h: an evening in a few lines, and what it must tell. */
#ifndef CARPACE_CASES_H
#define CARPACE_CASES_H

#include <stddef.h>

#include "carpace/plan.h"

typedef struct
{
  const char *name;
  int blocks, limit_min;
  void (*change) (CarpacePlan *plan); /* NULL: as it is */
  const char *script;
  /* Lines that must be told, in that order. A line that begins with `-` must not be
   * told at all. A row that says what cues come says of all of them: after a line
   * with a cue, another that stands nowhere here fails it. Where the first line
   * begins with `=`, nothing else may be told from there on. */
  const char *told;
} CarpaceCase;

/* Runs them all, each from a plan of its own, and prints those that fail.
 * @return how many did */
int carpace_cases_failed (const CarpaceCase *cases, size_t n);

#endif
