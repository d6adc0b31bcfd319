/* SPDX-License-Identifier: GPL-3.0-or-later */
/** display-lost.h: a compositor that goes. GDK would end the program on the spot, with all that is open. */
#ifndef CARPACE_UI_DISPLAY_LOST_H
#define CARPACE_UI_DISPLAY_LOST_H

#include <glib.h>

/** Calls @lost, once, when the default display's compositor has gone, before GDK looks. Nothing may be drawn any more;
 * the main loop is to be left. No effect on X11. */
void carpace_display_on_lost (void (*lost) (void *user), void *user);

#endif
