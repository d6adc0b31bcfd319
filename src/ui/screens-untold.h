/* SPDX-License-Identifier: GPL-3.0-or-later */
/** screens-untold.h: screens.h where nobody tells a client of other windows, as on Wayland. The program's own windows
 * are known: while one of them has the focus, no game has. */
#ifndef CARPACE_UI_SCREENS_UNTOLD_H
#define CARPACE_UI_SCREENS_UNTOLD_H

#include "ui/screens.h"

CarpaceBeneath carpace_screens_untold_choose (GdkDisplay *display, GdkRectangle *ret_area);
void carpace_screens_untold_watch (void (*changed) (void *user), void *user);

#endif
