/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plans.h: plans whose borders lie near each other. */
#ifndef CARPACE_EXPLORE_PLANS_H
#define CARPACE_EXPLORE_PLANS_H

#include "carpace/plan.h"

typedef struct
{
  const char *name;
  int blocks, limit_min;
  void (*change) (CarpacePlan *plan);
  unsigned about;    /* alphabet.h; 0: whole days */
  const char *begin; /* said before, `SECONDS WORDS` a line, `turn`: the date goes on; "": nothing */
} ExplorePlan;

/* NULL after the last. */
const ExplorePlan *explore_plan (int i);

#endif
