/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * held.h: what the diary's records of plans say: what is held, which plans were
 * given, and which plan there was last.
 */
#ifndef CARPACE_HELD_H
#define CARPACE_HELD_H

#include "carpace/diary.h"
#include "carpace/ports.h"

/** Texts are its own. */
typedef struct
{
  CarpaceHeld held;
  CarpaceGivenPlan *given; /**< held.given */
  char *last;              /**< the plan given last, or that of the last day: what was good last; NULL: none */
  char *of_day;            /**< the plan of the last day; NULL: none */
  char *name;              /**< of the plan given last; NULL: none */
  int32_t version;
} CarpacePlansKept;

/** Reads the records. @plans reads a plan's text; without it all that was held when
 * a plan was given is taken as of that plan. @return false, with what could be read, where the diary cannot
 * be read to its end. Free with carpace_plans_kept_clear(). */
bool carpace_plans_kept_read (const CarpaceDiary *diary, const CarpacePlanFiles *plans, CarpacePlansKept *ret_kept);
/** The same of the records up to the day @until. */
bool carpace_plans_kept_until (const CarpaceDiary *diary, const CarpacePlanFiles *plans, CarpaceDay until,
                               CarpacePlansKept *ret_kept);
void carpace_plans_kept_clear (CarpacePlansKept *kept);

/** The record of @plan as given, with all that is held from then on written to
 * ret_fixed. Texts are the arguments'. */
CarpacePlanRecord carpace_plan_given_record (const CarpacePlan *plan, const CarpaceCeiling *held, const char *text,
                                             char ret_fixed[CARPACE_CEILING_BYTES]);

#endif
