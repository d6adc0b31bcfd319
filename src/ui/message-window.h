/* SPDX-License-Identifier: GPL-3.0-or-later */
/** message-window.h: one sentence that the player should read, until closed. */
#ifndef CARPACE_UI_MESSAGE_WINDOW_H
#define CARPACE_UI_MESSAGE_WINDOW_H

#include "text/on-air-text.h"

/** Shows @message, on air its words for then; where it has none it waits until
 * the stream is over. One that is open already takes the new words. */
void carpace_message_show (CarpaceMessage kind, const char *message);

/** Whether the screen is broadcast from now on. */
void carpace_message_on_air (bool on_air);

/** What it says now, NULL where it is closed. */
const char *carpace_message_shown (void);

/** Closes it, where there is one, and forgets what waits. */
void carpace_message_close (void);

#endif
