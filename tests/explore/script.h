/* SPDX-License-Identifier: GPL-3.0-or-later */
/* script.h: a trace as a script for `carpace rehearse`. */
#ifndef CARPACE_EXPLORE_SCRIPT_H
#define CARPACE_EXPLORE_SCRIPT_H

#include <stdio.h>

#include "evening.h"

typedef struct Script
{
  FILE *file;
  int64_t shift_ms; /* the wall clock was set by this, all told */
} Script;

/* One line at @e's moment. The explorer's wall clock stands; a script's goes on,
 * and is set where it comes to another date. */
void script_line (Script *script, const Evening *e, const char *words);

/* What was told, as a comment. */
void script_told (FILE *file, const CarpaceEntry *entry);

#endif
