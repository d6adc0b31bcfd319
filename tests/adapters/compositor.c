/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compositor.h"

#include <glib.h>
#include <unistd.h>
#include <wayland-server.h>

#include "ext-idle-notify-v1-server-protocol.h"
#include "idle-kde-server-protocol.h"
#include "windows-kde-server-protocol.h"
#include "wlr-foreign-toplevel-server-protocol.h"

#define MOST_NOTICES 128
#define MOST_WINDOWS 8

typedef struct
{
  ServerNotice is;
  struct wl_resource *resource;
} Made;

typedef struct
{
  bool there, in_front, named; /* named: whoever has the list may ask for it */
  uint32_t pid;
  char *name;                 /* NULL where it says none */
  struct wl_resource *handle; /* NULL where nobody has it */
} Window;

struct Server
{
  struct wl_display *display; /* NULL where it was killed */
  struct wl_global *seat, *notifier[N_NOTIFIERS];
  Made made[MOST_NOTICES];
  int n;
  struct wl_global *windows[N_LISTS], *shell;
  struct wl_resource *list; /* NULL where nobody has it */
  List listed_by;           /* it */
  Window window[MOST_WINDOWS];
  GThread *thread;
  int wake[2];
  GMutex mutex; /* held by whoever touches the display */
};

/* ---- what a client asks ---- */

static void
destroy (struct wl_client *client, struct wl_resource *resource)
{
  wl_resource_destroy (resource);
}

static void
gone (struct wl_resource *resource)
{
  ((Made *) wl_resource_get_user_data (resource))->is.there = false;
}

static void
make (struct wl_client *client, struct wl_resource *notifier, const struct wl_interface *interface, const void *requests,
      uint32_t id, ServerNotice is)
{
  Server *server = wl_resource_get_user_data (notifier);
  Made *made = &server->made[server->n++];

  g_assert (server->n <= MOST_NOTICES);
  made->is = is;
  made->is.there = true;
  made->resource = wl_resource_create (client, interface, wl_resource_get_version (notifier), id);
  wl_resource_set_implementation (made->resource, requests, made, gone);
}

static const struct ext_idle_notification_v1_interface ext_notice = { .destroy = destroy };

static void
ext_make (struct wl_client *client, struct wl_resource *notifier, uint32_t id, uint32_t ms, struct wl_resource *seat)
{
  make (client, notifier, &ext_idle_notification_v1_interface, &ext_notice, id, (ServerNotice){ NOTIFIER_EXT, ms });
}

static void
ext_make_input (struct wl_client *client, struct wl_resource *notifier, uint32_t id, uint32_t ms, struct wl_resource *seat)
{
  make (client, notifier, &ext_idle_notification_v1_interface, &ext_notice, id, (ServerNotice){ NOTIFIER_EXT, ms, .input = true });
}

static const struct ext_idle_notifier_v1_interface ext_notifier = { .destroy = destroy, .get_idle_notification = ext_make,
                                                                    .get_input_idle_notification = ext_make_input };

static void
bind_ext (struct wl_client *client, void *server, uint32_t version, uint32_t id)
{
  struct wl_resource *resource = wl_resource_create (client, &ext_idle_notifier_v1_interface, (int) version, id);
  wl_resource_set_implementation (resource, &ext_notifier, server, NULL);
}

static void
simulate (struct wl_client *client, struct wl_resource *notice)
{
  g_assert_not_reached (); /* nobody may pretend to be a hand */
}

static const struct org_kde_kwin_idle_timeout_interface kde_notice = { .release = destroy, .simulate_user_activity = simulate };

static void
kde_make (struct wl_client *client, struct wl_resource *notifier, uint32_t id, struct wl_resource *seat, uint32_t ms)
{
  make (client, notifier, &org_kde_kwin_idle_timeout_interface, &kde_notice, id, (ServerNotice){ NOTIFIER_KDE, ms });
}

static const struct org_kde_kwin_idle_interface kde_notifier = { .get_idle_timeout = kde_make };

static void
bind_kde (struct wl_client *client, void *server, uint32_t version, uint32_t id)
{
  struct wl_resource *resource = wl_resource_create (client, &org_kde_kwin_idle_interface, (int) version, id);
  wl_resource_set_implementation (resource, &kde_notifier, server, NULL);
}

static void
bind_seat (struct wl_client *client, void *server, uint32_t version, uint32_t id)
{
  wl_resource_create (client, &wl_seat_interface, (int) version, id); /* nobody asks it for anything */
}

static const struct
{
  const struct wl_interface *interface;
  wl_global_bind_func_t bind;
  uint32_t idle, resumed; /* numbers of its notices' events */
} notifiers[N_NOTIFIERS] = {
  [NOTIFIER_EXT] = { &ext_idle_notifier_v1_interface, bind_ext, EXT_IDLE_NOTIFICATION_V1_IDLED, EXT_IDLE_NOTIFICATION_V1_RESUMED },
  [NOTIFIER_KDE] = { &org_kde_kwin_idle_interface, bind_kde, ORG_KDE_KWIN_IDLE_TIMEOUT_IDLE, ORG_KDE_KWIN_IDLE_TIMEOUT_RESUMED },
};

/* ---- a list of windows, for one client at a time ---- */

static void
window_let_go (struct wl_resource *handle)
{
  Window *window = wl_resource_get_user_data (handle);

  if (window != NULL && window->handle == handle)
    window->handle = NULL;
}

static const struct zwlr_foreign_toplevel_handle_v1_interface of_wlr_window = { .destroy = destroy };

static void
say_wlr_window (Server *server, Window *window)
{
  static uint32_t in_front[] = { ZWLR_FOREIGN_TOPLEVEL_HANDLE_V1_STATE_MAXIMIZED, ZWLR_FOREIGN_TOPLEVEL_HANDLE_V1_STATE_ACTIVATED };
  struct wl_array states = { window->in_front ? sizeof in_front : sizeof in_front[0], sizeof in_front, in_front };

  if (window->handle == NULL)
    {
      window->handle = wl_resource_create (wl_resource_get_client (server->list), &zwlr_foreign_toplevel_handle_v1_interface, 1, 0);
      wl_resource_set_implementation (window->handle, &of_wlr_window, window, window_let_go);
      zwlr_foreign_toplevel_manager_v1_send_toplevel (server->list, window->handle);
    }
  zwlr_foreign_toplevel_handle_v1_send_title (window->handle, "a title");
  if (window->name != NULL)
    zwlr_foreign_toplevel_handle_v1_send_app_id (window->handle, window->name);
  zwlr_foreign_toplevel_handle_v1_send_state (window->handle, &states);
  zwlr_foreign_toplevel_handle_v1_send_done (window->handle);
}

static const struct org_kde_plasma_window_interface of_kde_window = { .destroy = destroy };

/* It is named to whoever has the list, and told of once it was asked for. */
static void
say_kde_window (Server *server, Window *window)
{
  uint32_t at = (uint32_t) (window - server->window);
  g_autofree char *name = g_strdup_printf ("%u", at);

  if (!window->named)
    org_kde_plasma_window_management_send_window_with_uuid (server->list, at, name);
  window->named = true;
  if (window->handle == NULL)
    return;
  org_kde_plasma_window_send_title_changed (window->handle, "a title");
  if (window->name != NULL)
    org_kde_plasma_window_send_app_id_changed (window->handle, window->name);
  if (window->pid != 0)
    org_kde_plasma_window_send_pid_changed (window->handle, window->pid);
  org_kde_plasma_window_send_state_changed (window->handle, ORG_KDE_PLASMA_WINDOW_MANAGEMENT_STATE_MAXIMIZED
    | (window->in_front ? ORG_KDE_PLASMA_WINDOW_MANAGEMENT_STATE_ACTIVE : 0));
}

static void
kde_asked (struct wl_client *client, struct wl_resource *list, uint32_t id, const char *name)
{
  Server *server = wl_resource_get_user_data (list);
  Window *window = &server->window[g_ascii_strtoull (name, NULL, 10)];
  struct wl_resource *handle = wl_resource_create (client, &org_kde_plasma_window_interface, wl_resource_get_version (list), id);

  g_assert (window < server->window + MOST_WINDOWS);
  wl_resource_set_implementation (handle, &of_kde_window, window->there ? window : NULL, window_let_go);
  if (!window->there) /* as KWin does it */
    {
      org_kde_plasma_window_send_state_changed (handle, 0);
      org_kde_plasma_window_send_initial_state (handle);
      org_kde_plasma_window_send_unmapped (handle);
      return;
    }
  window->handle = handle;
  say_kde_window (server, window);
  org_kde_plasma_window_send_parent_window (handle, NULL);
  org_kde_plasma_window_send_initial_state (handle);
}

static void
list_let_go (struct wl_resource *list)
{
  Server *server = wl_resource_get_user_data (list);

  if (server->list == list)
    server->list = NULL;
}

static void
stop (struct wl_client *client, struct wl_resource *list)
{
}

static const struct zwlr_foreign_toplevel_manager_v1_interface of_wlr_list = { .stop = stop };
static const struct org_kde_plasma_window_management_interface of_kde_list = { .get_window_by_uuid = kde_asked };

static void bind_wlr_windows (struct wl_client *client, void *server, uint32_t version, uint32_t id);
static void bind_kde_windows (struct wl_client *client, void *server, uint32_t version, uint32_t id);

static const struct
{
  const struct wl_interface *interface;
  wl_global_bind_func_t bind;
  const void *requests;
  void (*say) (Server *server, Window *window);
  void (*close) (struct wl_resource *handle);
} lists[N_LISTS] = {
  [LIST_WLR] = { &zwlr_foreign_toplevel_manager_v1_interface, bind_wlr_windows, &of_wlr_list, say_wlr_window,
                 zwlr_foreign_toplevel_handle_v1_send_closed },
  [LIST_KDE] = { &org_kde_plasma_window_management_interface, bind_kde_windows, &of_kde_list, say_kde_window,
                 org_kde_plasma_window_send_unmapped },
};

static void
say_window (Server *server, Window *window)
{
  if (server->list != NULL && window->there)
    lists[server->listed_by].say (server, window);
}

static void
bind_windows (struct wl_client *client, Server *server, List list, uint32_t version, uint32_t id)
{
  server->list = wl_resource_create (client, lists[list].interface, (int) version, id);
  server->listed_by = list;
  wl_resource_set_implementation (server->list, lists[list].requests, server, list_let_go);
  for (int i = 0; i < MOST_WINDOWS; i++)
    {
      server->window[i].handle = NULL;
      server->window[i].named = false;
      say_window (server, &server->window[i]);
    }
}

static void
bind_nothing (struct wl_client *client, void *server, uint32_t version, uint32_t id)
{
  g_assert_not_reached (); /* its name says enough */
}

static void
bind_wlr_windows (struct wl_client *client, void *server, uint32_t version, uint32_t id)
{
  bind_windows (client, server, LIST_WLR, version, id);
}

static void
bind_kde_windows (struct wl_client *client, void *server, uint32_t version, uint32_t id)
{
  bind_windows (client, server, LIST_KDE, version, id);
}

/* ---- its thread ---- */

static void
lock (Server *server)
{
  g_mutex_lock (&server->mutex);
}

static void
unlock (Server *server)
{
  if (server->display != NULL)
    wl_display_flush_clients (server->display);
  g_mutex_unlock (&server->mutex);
  g_assert (write (server->wake[1], "!", 1) == 1); /* its thread looks again, at whether it goes on at all */
}

static gpointer
serve (gpointer user_data)
{
  Server *server = user_data;

  for (;;)
    {
      g_mutex_lock (&server->mutex);
      if (server->display == NULL)
        break;
      struct wl_event_loop *loop = wl_display_get_event_loop (server->display);
      wl_event_loop_dispatch (loop, 0);
      wl_display_flush_clients (server->display);
      GPollFD fds[] = { { wl_event_loop_get_fd (loop), G_IO_IN, 0 }, { server->wake[0], G_IO_IN, 0 } };
      g_mutex_unlock (&server->mutex);
      g_poll (fds, G_N_ELEMENTS (fds), -1);
      char byte;
      if (fds[1].revents != 0)
        g_assert (read (server->wake[0], &byte, 1) == 1);
    }
  g_mutex_unlock (&server->mutex);
  return NULL;
}

Server *
server_new (void)
{
  Server *server = g_new0 (Server, 1);

  g_mutex_init (&server->mutex);
  g_assert (pipe (server->wake) == 0);
  server->display = wl_display_create ();
  server->seat = wl_global_create (server->display, &wl_seat_interface, 1, server, bind_seat);
  g_setenv ("WAYLAND_DISPLAY", wl_display_add_socket_auto (server->display), TRUE);
  server->thread = g_thread_new ("compositor", serve, server);
  return server;
}

void
server_kill (Server *server)
{
  lock (server);
  if (server->display != NULL)
    {
      wl_display_destroy_clients (server->display);
      wl_display_destroy (server->display);
    }
  server->display = NULL;
  unlock (server);
}

void
server_free (Server *server)
{
  server_kill (server);
  g_thread_join (server->thread);
  g_mutex_clear (&server->mutex);
  close (server->wake[0]);
  close (server->wake[1]);
  for (int i = 0; i < MOST_WINDOWS; i++)
    g_free (server->window[i].name);
  g_free (server);
  g_unsetenv ("WAYLAND_DISPLAY");
}

/* ---- what the test does to it ---- */

static void
offer (Server *server, struct wl_global **global, const struct wl_interface *interface, uint32_t version,
       wl_global_bind_func_t bind)
{
  lock (server);
  g_clear_pointer (global, wl_global_destroy);
  if (version > 0)
    *global = wl_global_create (server->display, interface, (int) version, server, bind);
  unlock (server);
}

void
server_offer (Server *server, Notifier notifier, uint32_t version)
{
  offer (server, &server->notifier[notifier], notifiers[notifier].interface, version, notifiers[notifier].bind);
}

void
server_offer_seat (Server *server, bool offered)
{
  offer (server, &server->seat, &wl_seat_interface, offered ? 1 : 0, bind_seat);
}

ServerNotice
server_notice (Server *server, int index)
{
  lock (server);
  ServerNotice is = server->made[index].is;
  unlock (server);
  return is;
}

int
server_notices (Server *server, ServerNotice *ret_last)
{
  lock (server);
  int n = server->n;
  if (n > 0 && ret_last != NULL)
    *ret_last = server->made[n - 1].is;
  unlock (server);
  return n;
}

void
server_tell (Server *server, int index, bool idle)
{
  lock (server);
  const Made *made = &server->made[index];
  if (made->is.there)
    wl_resource_post_event (made->resource, idle ? notifiers[made->is.by].idle : notifiers[made->is.by].resumed);
  unlock (server);
}

/* ---- windows ---- */

void
server_offer_windows (Server *server, List list, uint32_t version)
{
  offer (server, &server->windows[list], lists[list].interface, version, lists[list].bind);
}

void
server_offer_shell (Server *server)
{
  static const struct wl_interface shell = { "org_kde_plasma_shell", 1, 0, NULL, 0, NULL };

  offer (server, &server->shell, &shell, 1, bind_nothing);
}

void
server_window (Server *server, int index, const char *name, bool in_front)
{
  Window *window = &server->window[index];

  lock (server);
  g_free (window->name);
  window->name = g_strdup (name);
  window->there = true;
  window->in_front = in_front;
  say_window (server, window);
  unlock (server);
}

void
server_window_process (Server *server, int index, uint32_t pid)
{
  lock (server);
  server->window[index].pid = pid; /* told with what is told next */
  unlock (server);
}

void
server_name_nobodys_window (Server *server, int index)
{
  lock (server);
  if (server->list != NULL)
    say_kde_window (server, &server->window[index]);
  unlock (server);
}

void
server_close_window (Server *server, int index)
{
  Window *window = &server->window[index];

  lock (server);
  window->there = window->named = false;
  if (window->handle != NULL)
    lists[server->listed_by].close (window->handle);
  unlock (server);
}

void
server_end_windows (Server *server)
{
  lock (server);
  if (server->list != NULL)
    zwlr_foreign_toplevel_manager_v1_send_finished (server->list);
  unlock (server);
}

int
server_windows_had (Server *server)
{
  int n = 0;

  lock (server);
  for (int i = 0; i < MOST_WINDOWS; i++)
    n += server->window[i].handle != NULL;
  unlock (server);
  return n;
}
