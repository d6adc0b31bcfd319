/* SPDX-License-Identifier: GPL-3.0-or-later */
/** wayland.h: a connection to the compositor beside GTK's, that ends the program in no case. */
#ifndef CARPACE_ADAPTERS_WAYLAND_H
#define CARPACE_ADAPTERS_WAYLAND_H

#include <glib.h>
#include <stdbool.h>
#include <wayland-client.h>

/** Whether the session is a compositor's. */
bool carpace_wayland_is_session (void);

/** Waits until a compositor answers where the environment says. @return whether one did in @limit_ms */
bool carpace_wayland_wait (int limit_ms);

/** Waits until the compositor has answered all that was asked, and takes what it sent.
 * @return false where it is gone, or has not answered in @limit_ms */
bool carpace_wayland_settle (struct wl_display *display, int limit_ms);

/** Has the events of @display taken as they come, on @context. What is waiting to be
 * sent is sent before each wait. Ends with the connection; no listener may end it.
 * @param name static, for whoever looks at sources
 * @return the source, attached: destroy it and unref it before @display is gone */
GSource *carpace_wayland_events_new (struct wl_display *display, GMainContext *context, const char *name);

#endif
