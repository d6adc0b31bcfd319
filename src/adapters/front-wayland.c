/* SPDX-License-Identifier: GPL-3.0-or-later */
/* front-wayland.c: a list of windows, of which one is in front. When the focus goes from one to another both
 * are told of: what holds is told once that is over. */
#include "front-wayland.h"

#include <glib.h>
#include <string.h>

#include "front-wayland-list.h"
#include "front.h"
#include "wayland.h"

/* KWin reads the whole file of a program that its desktop file asks something for, each time that it connects. */
#define ANSWER_MS 5000
#define OF_KWIN "org_kde_plasma_shell" /* what KWin offers to everybody, and nobody else does */

struct CarpaceWaylandList
{
  CarpaceWindowListener listener;
  GMainContext *context;
  struct wl_display *display;
  struct wl_registry *registry;
  const CarpaceWaylandListing *listing; /* NULL: none is bound */
  void *manager;
  uint32_t manager_name;
  bool kwin, offered;                   /* what came by, whether it was of use or not */
  GPtrArray *windows;                   /* CarpaceWaylandWindow */
  GSource *events, *soon;
  char *told, *told_program;            /* NULL: none */
  bool told_any;
};

static const CarpaceWaylandListing *const listings[] = { &carpace_wayland_listing_wlr, &carpace_wayland_listing_kde };

/* ---- what is told ---- */

static const CarpaceWaylandSaid *
in_front (const CarpaceWaylandList *list)
{
  for (guint i = 0; i < list->windows->len; i++)
    {
      const CarpaceWaylandWindow *window = g_ptr_array_index (list->windows, i);

      if (window->now.in_front)
        return &window->now;
    }
  return NULL;
}

static gboolean
tell (gpointer user)
{
  CarpaceWaylandList *list = user;
  const CarpaceWaylandSaid *said = in_front (list);
  const char *name = said != NULL ? said->name : NULL;
  g_autofree char *program = name != NULL ? carpace_front_program (said->pid) : NULL;
  const CarpaceWindow window = { name, program };

  g_clear_pointer (&list->soon, g_source_unref);
  if (list->told_any && g_strcmp0 (name, list->told) == 0 && g_strcmp0 (program, list->told_program) == 0)
    return G_SOURCE_REMOVE;
  list->told_any = true;
  g_free (list->told);
  g_free (list->told_program);
  list->told = g_strdup (name);
  list->told_program = g_strdup (program);
  list->listener.front (list->listener.user, name != NULL ? &window : NULL);
  return G_SOURCE_REMOVE;
}

static void
tell_soon (CarpaceWaylandList *list)
{
  if (list->soon != NULL)
    return;
  list->soon = g_idle_source_new ();
  g_source_set_static_name (list->soon, "carpace front window told");
  g_source_set_callback (list->soon, tell, list, NULL);
  g_source_attach (list->soon, list->context);
}

/* ---- a window ---- */

static void
window_free (gpointer data)
{
  CarpaceWaylandWindow *window = data;

  window->list->listing->drop_window (window->handle);
  g_free (window->now.name);
  g_free (window->next.name);
  g_free (window);
}

CarpaceWaylandWindow *
carpace_wayland_list_add (CarpaceWaylandList *list, void *handle)
{
  CarpaceWaylandWindow *window = g_new0 (CarpaceWaylandWindow, 1);

  window->list = list;
  window->handle = handle;
  g_ptr_array_add (list->windows, window);
  return window;
}

void
carpace_wayland_window_name (CarpaceWaylandWindow *window, const char *name)
{
  g_free (window->next.name);
  window->next.name = name[0] != '\0' ? g_utf8_make_valid (name, -1) : NULL;
}

void
carpace_wayland_window_holds (CarpaceWaylandWindow *window)
{
  g_free (window->now.name);
  window->now = window->next;
  window->now.name = g_strdup (window->next.name);
  tell_soon (window->list);
}

void
carpace_wayland_window_gone (CarpaceWaylandWindow *window)
{
  CarpaceWaylandList *list = window->list;

  g_ptr_array_remove (list->windows, window);
  tell_soon (list);
}

/* ---- the list ---- */

/* Then nothing is known of any. */
static void
drop_list (CarpaceWaylandList *list)
{
  g_ptr_array_set_size (list->windows, 0);
  if (list->listing != NULL)
    list->listing->drop (list->manager);
  list->listing = NULL;
}

void
carpace_wayland_list_ended (CarpaceWaylandList *list)
{
  drop_list (list);
  tell_soon (list);
}

static void
global_came (void *data, struct wl_registry *registry, uint32_t name, const char *interface, uint32_t version)
{
  CarpaceWaylandList *list = data;

  list->kwin |= strcmp (interface, OF_KWIN) == 0;
  for (size_t i = 0; i < G_N_ELEMENTS (listings); i++)
    {
      if (strcmp (interface, listings[i]->interface->name) != 0)
        continue;
      list->offered = true;
      if (list->listing != NULL || version < listings[i]->version)
        continue;
      list->listing = listings[i];
      list->manager = wl_registry_bind (registry, name, listings[i]->interface, listings[i]->version);
      list->manager_name = name;
      list->listing->listen (list, list->manager);
    }
}

static void
global_went (void *data, struct wl_registry *registry, uint32_t name)
{
  CarpaceWaylandList *list = data;

  if (list->listing != NULL && name == list->manager_name)
    carpace_wayland_list_ended (list);
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
  CarpaceWaylandList *list = self;

  end_source (&list->soon);
  end_source (&list->events);
  drop_list (list);
  g_ptr_array_unref (list->windows);
  g_clear_pointer (&list->registry, wl_registry_destroy);
  g_clear_pointer (&list->display, wl_display_disconnect);
  g_main_context_unref (list->context);
  g_free (list->told);
  g_free (list->told_program);
  g_free (list);
}

/* The source of its events ends with the compositor; whoever has windows of its own there goes with it. */
static void
compositor_went (gpointer user)
{
  CarpaceWaylandList *list = user;

  if (list->events == NULL)
    return; /* let go of */
  g_ptr_array_set_size (list->windows, 0);
  tell_soon (list);
}

/* What the compositor offers is known. @return NULL where none answers */
static CarpaceWaylandList *
look (CarpaceWindowListener listener)
{
  CarpaceWaylandList *list;

  if (!carpace_wayland_is_session ())
    return NULL;
  list = g_new0 (CarpaceWaylandList, 1);
  list->listener = listener;
  list->context = g_main_context_ref_thread_default ();
  list->windows = g_ptr_array_new_with_free_func (window_free);
  list->display = wl_display_connect (NULL);
  if (list->display != NULL)
    {
      list->registry = wl_display_get_registry (list->display);
      wl_registry_add_listener (list->registry, &of_registry, list);
    }
  if (list->display != NULL && carpace_wayland_settle (list->display, ANSWER_MS))
    return list;
  let_go (list);
  return NULL;
}

bool
carpace_front_wayland_open (CarpaceWindowListener listener, CarpaceFront *ret_front)
{
  CarpaceWaylandList *list = look (listener);
  bool known = list != NULL && list->listing != NULL;

  for (int answers = known ? list->listing->answers : 0; known && answers > 0; answers--)
    known = carpace_wayland_settle (list->display, ANSWER_MS) && list->listing != NULL;
  if (!known)
    {
      g_clear_pointer (&list, let_go);
      return false;
    }
  list->events = carpace_wayland_events_new (list->display, list->context, "carpace front window");
  g_source_set_callback (list->events, NULL, list, compositor_went);
  tell_soon (list);
  *ret_front = (CarpaceFront) { .self = list, .free = let_go };
  return true;
}

bool
carpace_front_wayland_is_kept_back (void)
{
  CarpaceWaylandList *list = look ((CarpaceWindowListener) { 0 });
  bool kept_back = list != NULL && list->kwin && !list->offered;

  g_clear_pointer (&list, let_go);
  return kept_back;
}
