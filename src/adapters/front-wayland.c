/* SPDX-License-Identifier: GPL-3.0-or-later */
/* front-wayland.c: a list of windows, of which one is activated. When the focus goes from one to another both
 * are told of: what holds is told once that is over. */
#include "front-wayland.h"

#include <glib.h>
#include <string.h>

#include "wayland.h"
#include "wlr-foreign-toplevel-client-protocol.h"

#define ANSWER_MS 2000

typedef struct
{
  char *name;
  bool activated;
} Said;

typedef struct Front Front;

typedef struct
{
  Front *front;
  struct zwlr_foreign_toplevel_handle_v1 *handle;
  Said now, next; /* next: not done yet */
} Window;

struct Front
{
  CarpaceWindowListener listener;
  GMainContext *context;
  struct wl_display *display;
  struct wl_registry *registry;
  struct zwlr_foreign_toplevel_manager_v1 *manager;
  uint32_t manager_name;
  GPtrArray *windows; /* Window */
  GSource *events, *soon;
  char *told;         /* NULL: none */
  bool told_any;
};

/* ---- what is told ---- */

static const char *
name_in_front (const Front *front)
{
  for (guint i = 0; front->windows != NULL && i < front->windows->len; i++)
    {
      const Window *window = g_ptr_array_index (front->windows, i);

      if (window->now.activated)
        return window->now.name;
    }
  return NULL;
}

static gboolean
tell (gpointer user)
{
  Front *front = user;
  const char *name = name_in_front (front);
  const CarpaceWindow window = { name, NULL };

  g_clear_pointer (&front->soon, g_source_unref);
  if (front->told_any && g_strcmp0 (name, front->told) == 0)
    return G_SOURCE_REMOVE;
  front->told_any = true;
  g_free (front->told);
  front->told = g_strdup (name);
  front->listener.front (front->listener.user, name != NULL ? &window : NULL);
  return G_SOURCE_REMOVE;
}

static void
tell_soon (Front *front)
{
  if (front->soon != NULL)
    return;
  front->soon = g_idle_source_new ();
  g_source_set_static_name (front->soon, "carpace front window told");
  g_source_set_callback (front->soon, tell, front, NULL);
  g_source_attach (front->soon, front->context);
}

/* ---- a window ---- */

static void
window_free (gpointer data)
{
  Window *window = data;

  zwlr_foreign_toplevel_handle_v1_destroy (window->handle);
  g_free (window->now.name);
  g_free (window->next.name);
  g_free (window);
}

static void
of_no_use (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle, const char *text)
{
}

static void
is_called (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle, const char *name)
{
  Window *window = data;

  g_free (window->next.name);
  window->next.name = name[0] != '\0' ? g_utf8_make_valid (name, -1) : NULL;
}

static void
on_output (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle, struct wl_output *output)
{
}

static void
is_now (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle, struct wl_array *states)
{
  Window *window = data;
  uint32_t state;

  window->next.activated = false;
  for (size_t at = 0; at + sizeof state <= states->size; at += sizeof state)
    {
      memcpy (&state, (const char *) states->data + at, sizeof state);
      window->next.activated |= state == ZWLR_FOREIGN_TOPLEVEL_HANDLE_V1_STATE_ACTIVATED;
    }
}

static void
all_is_said (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle)
{
  Window *window = data;

  g_free (window->now.name);
  window->now = (Said) { g_strdup (window->next.name), window->next.activated };
  tell_soon (window->front);
}

static void
is_closed (void *data, struct zwlr_foreign_toplevel_handle_v1 *handle)
{
  Window *window = data;
  Front *front = window->front;

  g_ptr_array_remove (front->windows, window);
  tell_soon (front);
}

static const struct zwlr_foreign_toplevel_handle_v1_listener of_window
  = { .title = of_no_use, .app_id = is_called, .output_enter = on_output, .output_leave = on_output, .state = is_now,
      .done = all_is_said, .closed = is_closed };

/* ---- the list ---- */

static void
window_came (void *data, struct zwlr_foreign_toplevel_manager_v1 *manager, struct zwlr_foreign_toplevel_handle_v1 *handle)
{
  Front *front = data;
  Window *window = g_new0 (Window, 1);

  window->front = front;
  window->handle = handle;
  g_ptr_array_add (front->windows, window);
  zwlr_foreign_toplevel_handle_v1_add_listener (handle, &of_window, window);
}

/* Then nothing is known of any. */
static void
drop_list (Front *front)
{
  g_ptr_array_set_size (front->windows, 0);
  g_clear_pointer (&front->manager, zwlr_foreign_toplevel_manager_v1_destroy);
}

static void
list_ended (void *data, struct zwlr_foreign_toplevel_manager_v1 *manager)
{
  Front *front = data;

  drop_list (front);
  tell_soon (front);
}

static const struct zwlr_foreign_toplevel_manager_v1_listener of_list = { .toplevel = window_came, .finished = list_ended };

static void
global_came (void *data, struct wl_registry *registry, uint32_t name, const char *interface, uint32_t version)
{
  Front *front = data;

  if (front->manager != NULL || strcmp (interface, zwlr_foreign_toplevel_manager_v1_interface.name) != 0)
    return;
  front->manager = wl_registry_bind (registry, name, &zwlr_foreign_toplevel_manager_v1_interface, 1);
  front->manager_name = name;
  zwlr_foreign_toplevel_manager_v1_add_listener (front->manager, &of_list, front);
}

static void
global_went (void *data, struct wl_registry *registry, uint32_t name)
{
  Front *front = data;

  if (front->manager != NULL && name == front->manager_name)
    list_ended (front, front->manager);
}

static const struct wl_registry_listener of_registry = { .global = global_came, .global_remove = global_went };

/* ---- the port ---- */

static void
end_source (GSource **of)
{
  GSource *source = g_steal_pointer (of);

  if (source == NULL)
    return;
  g_source_destroy (source);
  g_source_unref (source);
}

static void
let_go (void *self)
{
  Front *front = self;

  end_source (&front->soon);
  end_source (&front->events);
  drop_list (front);
  g_ptr_array_unref (front->windows);
  g_clear_pointer (&front->registry, wl_registry_destroy);
  g_clear_pointer (&front->display, wl_display_disconnect);
  g_main_context_unref (front->context);
  g_free (front->told);
  g_free (front);
}

/* The source of its events ends with the compositor; whoever has windows of its own there goes with it. */
static void
compositor_went (gpointer user)
{
  Front *front = user;

  if (front->events == NULL)
    return; /* let go of */
  g_ptr_array_set_size (front->windows, 0);
  tell_soon (front);
}

bool
carpace_front_wayland_open (CarpaceWindowListener listener, CarpaceFront *ret_front)
{
  Front *front;

  if (!carpace_wayland_is_session ())
    return false;
  front = g_new0 (Front, 1);
  front->listener = listener;
  front->context = g_main_context_ref_thread_default ();
  front->windows = g_ptr_array_new_with_free_func (window_free);
  front->display = wl_display_connect (NULL);
  if (front->display != NULL)
    {
      front->registry = wl_display_get_registry (front->display);
      wl_registry_add_listener (front->registry, &of_registry, front);
    }
  /* The second answer has the windows that are there. */
  if (front->display == NULL || !carpace_wayland_settle (front->display, ANSWER_MS) || front->manager == NULL
      || !carpace_wayland_settle (front->display, ANSWER_MS))
    {
      let_go (front);
      return false;
    }
  front->events = carpace_wayland_events_new (front->display, front->context, "carpace front window");
  g_source_set_callback (front->events, NULL, front, compositor_went);
  tell_soon (front);
  *ret_front = (CarpaceFront) { .self = front, .free = let_go };
  return true;
}
