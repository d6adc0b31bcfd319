/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * script.h: a rehearsal's script, read and checked as a whole.
 *
 * A line is `TIME WORD [ARGS]`, `#` begins a comment; TIME is h:mm:ss or
 * h:mm:ss.mmm since the script's start, never decreasing. A first line
 * `at 2027-03-02T18:00:00+01:00 [ZONE]` sets the wall clock.
 */
#ifndef CARPACE_SCRIPT_H
#define CARPACE_SCRIPT_H

#include "app/commands.h"
#include "carpace/ports.h"
#include "carpace/wording.h"

#define CARPACE_SCRIPT_BYTES (1024 * 1024)
#define CARPACE_SCRIPT_LINE_BYTES 400
#define CARPACE_ZONE_BYTES 64

typedef enum
{
  CARPACE_SCRIPT_EVENT,
  CARPACE_SCRIPT_CLOCK, /**< the wall clock is set by by_ms */
  CARPACE_SCRIPT_ZONE,  /**< the zone is set */
  CARPACE_SCRIPT_STOP
} CarpaceScriptWhat;

/** One line that does something. */
typedef struct
{
  int64_t at_ms;
  int32_t line;       /**< from 1 */
  CarpaceScriptWhat what;
  CarpaceEvent event;
  int64_t by_ms;
  char zone[CARPACE_ZONE_BYTES];
} CarpaceScriptLine;

/** A script. */
typedef struct
{
  CarpaceInstant start;          /**< wall clock and offset; elapsed 0 */
  char zone[CARPACE_ZONE_BYTES]; /**< empty: the offset of `start`, fixed */
  size_t n;
  CarpaceScriptLine *line;       /**< free with carpace_script_clear() */
} CarpaceScript;

typedef void (*CarpaceScriptFaultVisitor) (void *user, const CarpaceScriptFault *fault);

/** Reads @n_bytes of @text. Every fault is told.
 * @param zones to look zones up, its function NULL where there are none
 * @return true and *ret_script where there was no fault */
bool carpace_script_read (const char *text, size_t n_bytes, const CarpaceZones *zones,
                          CarpaceScriptFaultVisitor visit, void *user, CarpaceScript *ret_script);

void carpace_script_clear (CarpaceScript *script);

#endif
