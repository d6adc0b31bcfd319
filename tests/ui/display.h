/* SPDX-License-Identifier: GPL-3.0-or-later */
/** display.h: a display of a test's own, without a session bus or a tray. */
#ifndef CARPACE_TESTS_UI_DISPLAY_H
#define CARPACE_TESTS_UI_DISPLAY_H

/** Starts an X server without a screen and opens GTK on it; ends with the test.
 * Exits with 77 (skipped) where there is no such server. */
void display_open (void);

/** Lets GTK do what it has waiting. */
void display_settle (void);

#endif
