/* SPDX-License-Identifier: GPL-3.0-or-later */
/** front-wayland-list.h: what the protocols by which compositors list windows have in common. */
#ifndef CARPACE_FRONT_WAYLAND_LIST_H
#define CARPACE_FRONT_WAYLAND_LIST_H

#include <stdbool.h>
#include <stdint.h>
#include <wayland-client.h>

typedef struct CarpaceWaylandList CarpaceWaylandList;

typedef struct
{
  char *name;
  uint32_t pid; /**< 0 where nobody says */
  bool in_front;
} CarpaceWaylandSaid;

/** A window of a list. */
typedef struct
{
  CarpaceWaylandList *list;
  void *handle;                  /**< of its protocol */
  bool all_said;                 /**< what comes from now on holds at once */
  CarpaceWaylandSaid now, next;  /**< next: does not hold yet */
} CarpaceWaylandWindow;

/** A protocol. */
typedef struct
{
  const struct wl_interface *interface; /**< of the list */
  uint32_t version;                     /**< is bound; offered in a lower one it is of no use */
  int answers;                          /**< of the compositor's, until all that is there at first is known */
  void (*listen) (CarpaceWaylandList *list, void *manager);
  void (*drop) (void *manager);
  void (*drop_window) (void *handle);
} CarpaceWaylandListing;

extern const CarpaceWaylandListing carpace_wayland_listing_wlr, carpace_wayland_listing_kde;

/** A window that nothing has been said of yet. The list lets go of it. */
CarpaceWaylandWindow *carpace_wayland_list_add (CarpaceWaylandList *list, void *handle);

/** Its name, when all has been said. "" is none */
void carpace_wayland_window_name (CarpaceWaylandWindow *window, const char *name);

/** What was said of it holds. */
void carpace_wayland_window_holds (CarpaceWaylandWindow *window);

/** It is there no more; gone with this call. */
void carpace_wayland_window_gone (CarpaceWaylandWindow *window);

/** Nothing more is told: of none is anything known then. */
void carpace_wayland_list_ended (CarpaceWaylandList *list);

#endif
