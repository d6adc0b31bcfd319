/* SPDX-License-Identifier: GPL-3.0-or-later */
/** compositor.h: a compositor of a test's own over libwayland-server: a seat,
 * notifiers of idleness, windows, and what is told of both when the test says so. In a
 * thread; what the test does to it has reached the client when a call returns. */
#ifndef TESTS_COMPOSITOR_H
#define TESTS_COMPOSITOR_H

#include <stdbool.h>
#include <stdint.h>

typedef struct Server Server;

typedef enum
{
  NOTIFIER_EXT,
  NOTIFIER_KDE,
  N_NOTIFIERS
} Notifier;

/** A notice that a client has had made. */
typedef struct
{
  Notifier by;
  uint32_t ms;
  bool input; /**< of input alone */
  bool there; /**< the client has not dropped it */
} ServerNotice;

/** Begins, on a socket of its own that WAYLAND_DISPLAY then names. */
Server *server_new (void);
void server_free (Server *server);

/** Globals come and go. The seat is there from the beginning. @version 0: it goes */
void server_offer (Server *server, Notifier notifier, uint32_t version);
void server_offer_seat (Server *server, bool offered);

/** How many notices have been made so far, of which *ret_last is the last. */
int server_notices (Server *server, ServerNotice *ret_last);
ServerNotice server_notice (Server *server, int index);

/** Tells that the notice at @index has become idle or not idle any more. */
void server_tell (Server *server, int index, bool idle);

/** Lists of windows: one of them, for one client at a time. @version 0: it goes */
typedef enum
{
  LIST_WLR,
  LIST_KDE,
  N_LISTS
} List;

void server_offer_windows (Server *server, List list, uint32_t version);
/** What KWin offers to everybody. */
void server_offer_shell (Server *server);
/** Tells of the window at @index, which is new or another now. @name may be NULL: it says none */
void server_window (Server *server, int index, const char *name, bool in_front);
/** Its process, told with what is told next where the list tells of it; 0 is none. */
void server_window_process (Server *server, int index, uint32_t pid);
/** Names a window that has gone by then (KDE). */
void server_name_nobodys_window (Server *server, int index);
void server_close_window (Server *server, int index);
/** Tells that nothing more is told of windows. */
void server_end_windows (Server *server);
/** How many of them a client has. */
int server_windows_had (Server *server);

/** Ends with every connection, as if killed. */
void server_kill (Server *server);

#endif
