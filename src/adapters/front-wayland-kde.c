/* SPDX-License-Identifier: GPL-3.0-or-later */
/* front-wayland-kde.c: KWin's list. A window is told by a name that it has to be asked for by; once all has been said
 * of it, what changes comes a thing at a time. */
#include "front-wayland-list.h"

#include "windows-kde-client-protocol.h"

/* ---- a window ---- */

static void
changed (CarpaceWaylandWindow *window)
{
  if (window->all_said)
    carpace_wayland_window_holds (window);
}

static void
is_called (void *data, struct org_kde_plasma_window *handle, const char *name)
{
  carpace_wayland_window_name (data, name);
  changed (data);
}

static void
is_now (void *data, struct org_kde_plasma_window *handle, uint32_t states)
{
  CarpaceWaylandWindow *window = data;

  window->next.in_front = (states & ORG_KDE_PLASMA_WINDOW_MANAGEMENT_STATE_ACTIVE) != 0;
  changed (window);
}

static void
is_of_process (void *data, struct org_kde_plasma_window *handle, uint32_t pid)
{
  CarpaceWaylandWindow *window = data;

  window->next.pid = pid;
  changed (window);
}

static void
all_is_said (void *data, struct org_kde_plasma_window *handle)
{
  CarpaceWaylandWindow *window = data;

  window->all_said = true;
  changed (window);
}

static void
is_closed (void *data, struct org_kde_plasma_window *handle)
{
  carpace_wayland_window_gone (data);
}

/* What there is no use for. */
static void
text (void *data, struct org_kde_plasma_window *handle, const char *says)
{
}

static void
place (void *data, struct org_kde_plasma_window *handle, int32_t is)
{
}

static void
parent (void *data, struct org_kde_plasma_window *handle, struct org_kde_plasma_window *is)
{
}

static void
box (void *data, struct org_kde_plasma_window *handle, int32_t x, int32_t y, uint32_t width, uint32_t height)
{
}

static void
icon (void *data, struct org_kde_plasma_window *handle)
{
}

static void
menu (void *data, struct org_kde_plasma_window *handle, const char *service, const char *object)
{
}

static const struct org_kde_plasma_window_listener of_window
  = { .title_changed = text, .app_id_changed = is_called, .state_changed = is_now, .virtual_desktop_changed = place,
      .themed_icon_name_changed = text, .unmapped = is_closed, .initial_state = all_is_said, .parent_window = parent,
      .geometry = box, .icon_changed = icon, .pid_changed = is_of_process, .virtual_desktop_entered = text,
      .virtual_desktop_left = text, .application_menu = menu };

/* ---- the list ---- */

static void
window_came (void *data, struct org_kde_plasma_window_management *manager, uint32_t number, const char *name)
{
  struct org_kde_plasma_window *handle = org_kde_plasma_window_management_get_window_by_uuid (manager, name);

  org_kde_plasma_window_add_listener (handle, &of_window, carpace_wayland_list_add (data, handle));
}

static void
of_no_use (void *data, struct org_kde_plasma_window_management *manager, uint32_t number)
{
}

static void
order (void *data, struct org_kde_plasma_window_management *manager, struct wl_array *numbers)
{
}

static void
order_of_names (void *data, struct org_kde_plasma_window_management *manager, const char *names)
{
}

static const struct org_kde_plasma_window_management_listener of_list
  = { .show_desktop_changed = of_no_use, .window = of_no_use, .stacking_order_changed = order,
      .stacking_order_uuid_changed = order_of_names, .window_with_uuid = window_came };

static void
listen (CarpaceWaylandList *list, void *manager)
{
  org_kde_plasma_window_management_add_listener (manager, &of_list, list);
}

static void
drop (void *manager)
{
  org_kde_plasma_window_management_destroy (manager);
}

static void
drop_window (void *handle)
{
  org_kde_plasma_window_destroy (handle);
}

const CarpaceWaylandListing carpace_wayland_listing_kde
  = { &org_kde_plasma_window_management_interface, 13, 2, listen, drop, drop_window };
