/* SPDX-License-Identifier: GPL-3.0-or-later */
/* front-wayland-wlr.c: the list of sway and its kin. What was told of a window holds once that is said. */
#include "front-wayland-list.h"

#include <string.h>

#include "wlr-foreign-toplevel-client-protocol.h"

static void
of_no_use (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle, const char *text)
{
}

static void
is_called (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle, const char *name)
{
  carpace_wayland_window_name (data, name);
}

static void
on_output (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle, struct wl_output *output)
{
}

static void
is_now (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle, struct wl_array *states)
{
  CarpaceWaylandWindow *window = data;
  uint32_t state;

  window->next.in_front = false;
  for (size_t at = 0; at + sizeof state <= states->size; at += sizeof state)
    {
      memcpy (&state, (const char *) states->data + at, sizeof state);
      window->next.in_front |= state == ZWLR_FOREIGN_TOPLEVEL_HANDLE_V1_STATE_ACTIVATED;
    }
}

static void
all_is_said (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle)
{
  carpace_wayland_window_holds (data);
}

static void
is_closed (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle)
{
  carpace_wayland_window_gone (data);
}

static const struct zwlr_foreign_toplevel_handle_v1_listener of_window
  = { .title = of_no_use, .app_id = is_called, .output_enter = on_output, .output_leave = on_output, .state = is_now,
      .done = all_is_said, .closed = is_closed };

static void
window_came (void *data, struct zwlr_foreign_toplevel_manager_v1 *manager, struct zwlr_foreign_toplevel_handle_v1 *handle)
{
  zwlr_foreign_toplevel_handle_v1_add_listener (handle, &of_window, carpace_wayland_list_add (data, handle));
}

static void
list_ended (void *data, struct zwlr_foreign_toplevel_manager_v1 *manager)
{
  carpace_wayland_list_ended (data);
}

static const struct zwlr_foreign_toplevel_manager_v1_listener of_list = { .toplevel = window_came, .finished = list_ended };

static void
listen (CarpaceWaylandList *list, void *manager)
{
  zwlr_foreign_toplevel_manager_v1_add_listener (manager, &of_list, list);
}

static void
drop (void *manager)
{
  zwlr_foreign_toplevel_manager_v1_destroy (manager);
}

static void
drop_window (void *handle)
{
  zwlr_foreign_toplevel_handle_v1_destroy (handle);
}

const CarpaceWaylandListing carpace_wayland_listing_wlr
  = { &zwlr_foreign_toplevel_manager_v1_interface, 1, 1, listen, drop, drop_window };
