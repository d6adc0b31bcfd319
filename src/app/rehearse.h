/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * rehearse.h: a plan run through the same loop as the tray, without waiting.
 */
#ifndef CARPACE_REHEARSE_H
#define CARPACE_REHEARSE_H

#include "app/loop.h"
#include "app/script.h"

/** Hears each entry; @line is the script's line that led to it, 0 where time
 * alone did. */
typedef void (*CarpaceRehearsalListener) (void *user, const CarpaceEntry *entry, int32_t line);

/** Runs @script over @plan. `at.elapsed_ms` of the entries is the time since the
 * script's start. @return false where memory was short */
bool carpace_rehearse_script (const CarpacePlan *plan, const CarpaceScript *script, const CarpaceZones *zones,
                              CarpaceRehearsalListener listen, void *user);

/** The same, kept: all of it is told to @keep, too (NULL: to nobody). */
bool carpace_rehearse_script_kept (const CarpacePlan *plan, const CarpaceScript *script, const CarpaceZones *zones,
                                   const CarpaceStore *keep, CarpaceRehearsalListener listen, void *user);

/** A clock that says what it is told. */
typedef struct
{
  CarpaceInstant now;
  const CarpaceZones *zones;
  char zone[CARPACE_ZONE_BYTES]; /**< empty: the offset stays */
} CarpaceVirtualClock;

/** It as a port. */
CarpaceClock carpace_virtual_clock_port (CarpaceVirtualClock *clock);

/** Moves @clock on to elapsed ms @to; the loop's deadlines on the way come each
 * at its own moment. */
void carpace_virtual_clock_run (CarpaceVirtualClock *clock, CarpaceLoop *loop, int64_t to);

#endif
