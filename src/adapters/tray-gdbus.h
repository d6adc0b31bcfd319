/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * tray-gdbus.h: whether a host on the session bus shows the tray's item.
 *
 * A watcher that has a name says only that an item can be registered; one that
 * tells of a host, only that somebody will look for items, and a host that looks
 * while it comes up can miss one. What is certain is a host that asked the item
 * for its icon, and is still there.
 */
#ifndef CARPACE_TRAY_GDBUS_H
#define CARPACE_TRAY_GDBUS_H

#include <stdbool.h>

/** Told in the main context, at each change; nobody holds the item at first. */
typedef struct
{
  void *self;
  void (*held) (void *self, bool held);
} CarpaceTrayListener;

typedef struct CarpaceTrayGdbus CarpaceTrayGdbus;

/** Listens from now on: to be made before the item is. @return NULL where there is no bus */
CarpaceTrayGdbus *carpace_tray_gdbus_new (CarpaceTrayListener listener);

/** NULL is fine. */
void carpace_tray_gdbus_free (CarpaceTrayGdbus *tray);

#endif
