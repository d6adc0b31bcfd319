/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * clicks-x11.h: presses of the mouse's buttons, from an X server's raw events (X Input Extension, 2.2 and later). They come
 * while another program holds the pointer, too, as games do; the wheel's do not count. The server wakes the program once a
 * press, and never by motion: no other event is selected, none at all while nothing is counted.
 *
 * Not for the server beside a Wayland compositor: it hears of its own programs only, and what it does not hear would look
 * like no click at all.
 */
#ifndef CARPACE_CLICKS_X11_H
#define CARPACE_CLICKS_X11_H

#include "carpace/ports.h"

/** A CarpaceClicksOpen. */
bool carpace_clicks_x11_open (CarpaceClicksListener listener, CarpaceClicks *ret_clicks);

#endif
