/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity-x11.h: input followed on an X server, by its own idle counter.
 *
 * The server counts ms since the last input of each device (X Synchronization
 * Extension 3.1). Alarms on these counters tell the gap's beginning and its end;
 * between them nothing arrives, however fast the mouse. No event of a device is
 * ever selected. A client that resets the screen saver is not taken for a hand;
 * one that moves the pointer itself is, by every counter the server has.
 */
#ifndef CARPACE_ACTIVITY_X11_H
#define CARPACE_ACTIVITY_X11_H

#include <glib.h>

#include "carpace/ports.h"

typedef struct CarpaceActivityX11 CarpaceActivityX11;

/** Connects to an X server of its own accord: a connection beside GTK's, which
 * ends the program in no case.
 * @param display as DISPLAY, NULL for the environment's
 * @param clock gives elapsed time; @param tell hears INPUT and STILL. Both are
 *   used from @context only, never from within a call of the port
 * @return NULL, and one line in *error, where there is no server or it has no IDLETIME */
CarpaceActivityX11 *carpace_activity_x11_new (const char *display, GMainContext *context, CarpaceClock clock,
                                              CarpaceTell tell, GError **error);

/** NULL is fine. */
void carpace_activity_x11_free (CarpaceActivityX11 *activity);

/** @activity as a port. since_ms of what it tells is the elapsed time of the
 * last input (STILL) or of the first one after a gap (INPUT).
 *
 * After recheck (true, from) STILL is told no sooner than gap-after past
 * @from, and since @from at the earliest. After recheck (false, from) input in
 * the 2 s past @from is taken as the hand's way to the answer; what comes
 * later is told at once. */
CarpaceActivity carpace_activity_x11_port (CarpaceActivityX11 *activity);

#endif
