/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * bus-gdbus.h: the running program on the login session's bus, and those who
 * talk to it.
 *
 * Name and interface org.carpace.Carpace, object /org/carpace/Carpace:
 * Command (as words) -> (i status, s message); Show (); Follow () -> (s json),
 * after which the signal Changed (s json) is sent at each change for as long as
 * the caller stays on the bus.
 */
#ifndef CARPACE_BUS_GDBUS_H
#define CARPACE_BUS_GDBUS_H

#include <glib.h>

#include "carpace/ports.h"

/** What the running program answers. Called in the main context. */
typedef struct
{
  void *self;
  /** @return an exit status; *ret_message is one line, g_free() it, or NULL */
  int (*command) (void *self, int n_words, const char *const *words, char **ret_message);
  /** The status object, one line; g_free() it. */
  char *(*status) (void *self);
  /** It was called once more. */
  void (*show) (void *self);
  /** The bus went away; nobody reaches us any more. NULL: it is not told. */
  void (*lost) (void *self);
  /** A bus is there, again or for the first time. What held on to the one before, in this
   * process, stays without: a new process has it all. Called once. NULL: none is looked for. */
  void (*back) (void *self);
} CarpaceBusServed;

typedef enum
{
  CARPACE_BUS_OURS,  /**< the name is ours */
  CARPACE_BUS_TAKEN, /**< another one runs; it was asked to show itself */
  CARPACE_BUS_NONE   /**< there is no bus: nobody can talk to us, all else works */
} CarpaceBusFound;

typedef struct CarpaceBus CarpaceBus;

/** Has the bus reached beside what else a start does: carpace_bus_new() need not wait for it then. */
void carpace_bus_begin (void);

/** Takes the name. @return NULL where it is TAKEN, or NONE and none is looked for; *ret_found tells */
CarpaceBus *carpace_bus_new (CarpaceBusServed served, CarpaceBusFound *ret_found);

/** NULL is fine. */
void carpace_bus_free (CarpaceBus *bus);

/** When a bus that is not there is looked for the @nth time, from 0: ms after the time
 * before; at first soon, then every five minutes. */
int64_t carpace_bus_look_after_ms (int32_t nth);

/** Whether anybody follows: only then a status is worth writing. */
bool carpace_bus_is_followed (const CarpaceBus *bus);

/** Tells those who follow, where @json differs from what was told last. */
void carpace_bus_changed (CarpaceBus *bus, const char *json);

/** How long a person waits for an answer. */
#define CARPACE_BUS_ANSWER_MS 5000

/** The running program as a port, for commands. Synchronous: for short-lived
 * programs only. @param within_ms how long an answer is waited for; it
 * outlives the port */
CarpaceRemote carpace_bus_remote (const int *within_ms);

#endif
