/* SPDX-License-Identifier: GPL-3.0-or-later */
/** x11.h: what the adapters to an X server share. */
#ifndef CARPACE_ADAPTERS_X11_H
#define CARPACE_ADAPTERS_X11_H

#include <glib.h>
#include <stdbool.h>
#include <xcb/xcb.h>

/** Whether the session is an X server's. On Wayland DISPLAY may name a server
 * beside it, which hears of its own clients' input only. */
bool carpace_x11_is_session (void);

/** Whether the desktop has the pointer's first and third buttons changed over, as for a left hand. */
bool carpace_x11_is_left_handed (void);

/** Takes one event of the server's; it is freed after. */
typedef void (*CarpaceX11Take) (void *self, const xcb_generic_event_t *event);

/** Hands the events of @x to @take as they come, on @context. What is waiting to
 * be sent is flushed before each wait. Ends with the connection.
 * @name static, for whoever looks at sources
 * @return the source, attached: destroy it and unref it before @x is gone */
GSource *carpace_x11_events_new (xcb_connection_t *x, GMainContext *context, const char *name, CarpaceX11Take take, void *self);

#endif
