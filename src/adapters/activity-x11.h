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

#include <xcb/xcb.h>

#include "carpace/ports.h"

/** A CarpaceActivityOpen, on a connection beside GTK's that ends the program in no
 * case. Not offered where the session is Wayland's, where no server answers, and
 * where it has no IDLETIME.
 *
 * since_ms of what is told is the elapsed time of the last input (STILL) or of
 * the first one after a gap (INPUT).
 *
 * After recheck (true, from) STILL is told no sooner than gap-after past
 * @from, and since @from at the earliest. After recheck (false, from) input in
 * the 2 s past @from is taken as the hand's way to the answer; what comes
 * later is told at once. */
bool carpace_activity_x11_open (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);

/** The same by the server behind @x, which it disconnects from, even where it returns
 * false. */
bool carpace_activity_x11_open_on (xcb_connection_t *x, CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);

#endif
