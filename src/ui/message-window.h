/* SPDX-License-Identifier: GPL-3.0-or-later */
/** message-window.h: one sentence that the player should read, until closed. */
#ifndef CARPACE_UI_MESSAGE_WINDOW_H
#define CARPACE_UI_MESSAGE_WINDOW_H

/** Shows @message; one that is open already takes the new words. */
void carpace_message_show (const char *message);

/** Closes it, where there is one. */
void carpace_message_close (void);

#endif
