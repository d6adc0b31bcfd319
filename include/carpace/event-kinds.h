/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * event-kinds.h: one table of all that reaches the core.
 *
 * What an event is called, what it says, who takes it and how a script says it.
 * The session, the diary's file, scripts and commands read it.
 */
#ifndef CARPACE_EVENT_KINDS_H
#define CARPACE_EVENT_KINDS_H

#include "carpace/fields.h"
#include "carpace/session.h"

/** Who takes an event. */
typedef enum
{
  CARPACE_TAKEN_AS_TIME, /**< a deadline: only time has gone by */
  CARPACE_TAKEN_AS_FACT, /**< so it is: taken in every state, never refused */
  CARPACE_TAKEN_ANYWHERE, /**< means the same in every state, also without a plan */
  CARPACE_TAKEN_WITH_A_PLAN, /**< means the same in every state that has a plan */
  CARPACE_TAKEN_BY_STATE /**< a command of a block: what it does is the state's affair */
} CarpaceTaken;

/** What an event says beside its kind: one member of CarpaceEvent each. */
typedef enum
{
  CARPACE_SAYS_NOTHING,
  CARPACE_SAYS_FACT,
  CARPACE_SAYS_RATE,
  CARPACE_SAYS_MORNING,
  CARPACE_SAYS_CAUTION,
  CARPACE_SAYS_INTERMISSION,
  CARPACE_SAYS_CLICKS,
  CARPACE_SAYS_OPEN, /**< no field of it is ever written down: the plan is given by the caller */
  CARPACE_N_SAYS
} CarpaceSays;

/** One kind of event. */
typedef struct
{
  const char *word;   /**< in the diary's file */
  CarpaceTaken taken;
  CarpaceSays says;
  const char *script; /**< first word of the line that tells it; NULL where no script can */
} CarpaceEventRow;

extern const CarpaceEventRow carpace_event_kinds[CARPACE_N_EVENTS];

/** The fields of @kind, in the order they are written. */
const CarpaceField *carpace_event_fields (CarpaceEventKind kind, int32_t *ret_n);

/** The field of @kind by its name; NULL where there is none. */
const CarpaceField *carpace_event_field (CarpaceEventKind kind, const char *name);

/** An event of @kind with nothing said in it. */
void carpace_event_init (CarpaceEvent *ret_event, CarpaceEventKind kind);

/** Whether @a and @b say the same; plans are not looked at. */
bool carpace_event_equal (const CarpaceEvent *a, const CarpaceEvent *b);

#endif
