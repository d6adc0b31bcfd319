/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "front-x11-window.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "front.h"

/* How deep a window manager may put a window within its own. */
#define DEEPEST 8

static xcb_atom_t
atom (xcb_connection_t *x, const char *name)
{
  xcb_intern_atom_reply_t *reply = xcb_intern_atom_reply (x, xcb_intern_atom (x, 0, (uint16_t) strlen (name), name), NULL);
  xcb_atom_t is = reply != NULL ? reply->atom : XCB_ATOM_NONE;

  free (reply);
  return is;
}

bool
carpace_x11_atoms_read (xcb_connection_t *x, CarpaceX11Atoms *ret_atoms)
{
  const uint32_t events = XCB_EVENT_MASK_PROPERTY_CHANGE;

  ret_atoms->root = xcb_setup_roots_iterator (xcb_get_setup (x)).data->root;
  ret_atoms->active = atom (x, "_NET_ACTIVE_WINDOW");
  ret_atoms->pid = atom (x, "_NET_WM_PID");
  ret_atoms->state = atom (x, "WM_STATE");
  xcb_change_window_attributes (x, ret_atoms->root, XCB_CW_EVENT_MASK, &events);
  return ret_atoms->state != XCB_ATOM_NONE;
}

static xcb_get_property_reply_t *
property (xcb_connection_t *x, xcb_window_t window, xcb_atom_t of, xcb_atom_t type, uint32_t words)
{
  return xcb_get_property_reply (x, xcb_get_property (x, 0, window, of, type, 0, words), NULL);
}

static uint32_t
number (xcb_connection_t *x, xcb_window_t window, xcb_atom_t of, xcb_atom_t type)
{
  xcb_get_property_reply_t *reply = property (x, window, of, type, 1);
  uint32_t is = 0;

  if (reply != NULL && reply->format == 32 && xcb_get_property_value_length (reply) >= (int) sizeof is)
    memcpy (&is, xcb_get_property_value (reply), sizeof is);
  free (reply);
  return is;
}

xcb_window_t
carpace_x11_window_in_front (xcb_connection_t *x, const CarpaceX11Atoms *atoms)
{
  return number (x, atoms->root, atoms->active, XCB_ATOM_WINDOW);
}

static bool
is_managed (xcb_connection_t *x, const CarpaceX11Atoms *atoms, xcb_window_t window)
{
  xcb_get_property_reply_t *reply = property (x, window, atoms->state, XCB_GET_PROPERTY_TYPE_ANY, 0);
  bool is = reply != NULL && reply->type != XCB_ATOM_NONE;

  free (reply);
  return is;
}

/* The first that is managed, @depth beneath @window at most. */
static xcb_window_t
managed_in (xcb_connection_t *x, const CarpaceX11Atoms *atoms, xcb_window_t window, int depth)
{
  xcb_query_tree_reply_t *tree;
  xcb_window_t found = XCB_WINDOW_NONE;

  if (is_managed (x, atoms, window))
    return window;
  tree = depth > 0 ? xcb_query_tree_reply (x, xcb_query_tree (x, window), NULL) : NULL;
  for (int i = 0; tree != NULL && found == XCB_WINDOW_NONE && i < xcb_query_tree_children_length (tree); i++)
    found = managed_in (x, atoms, xcb_query_tree_children (tree)[i], depth - 1);
  free (tree);
  return found;
}

xcb_window_t
carpace_x11_window_of (xcb_connection_t *x, const CarpaceX11Atoms *atoms, xcb_window_t frame)
{
  return frame != XCB_WINDOW_NONE ? managed_in (x, atoms, frame, DEEPEST) : XCB_WINDOW_NONE;
}

/* WM_CLASS is two strings, one after the other: the instance's name, and the class. Bytes that are no UTF-8
 * are Latin-1, as the conventions have it. */
static void
read_class (xcb_connection_t *x, xcb_window_t window, char *ret_name, size_t size)
{
  xcb_get_property_reply_t *reply = property (x, window, XCB_ATOM_WM_CLASS, XCB_ATOM_STRING, CARPACE_WINDOW_BYTES);
  int n = reply != NULL ? xcb_get_property_value_length (reply) : 0;
  g_autofree char *both = g_strndup (n > 0 ? xcb_get_property_value (reply) : "", (gsize) MAX (n, 0));
  const char *end = n > 0 ? memchr (xcb_get_property_value (reply), '\0', (size_t) n) : NULL;
  gsize first = end != NULL ? (gsize) (end - (const char *) xcb_get_property_value (reply)) + 1 : 0;
  g_autofree char *name = g_strndup (end != NULL && first < (gsize) n ? end + 1 : both, end != NULL && first < (gsize) n ? (gsize) n - first : (gsize) n);
  g_autofree char *utf8 = g_utf8_validate (name, -1, NULL) ? g_strdup (name) : g_convert (name, -1, "UTF-8", "ISO-8859-1", NULL, NULL, NULL);

  g_strlcpy (ret_name, utf8 != NULL ? utf8 : "", size);
  free (reply);
}

bool
carpace_x11_window_read (xcb_connection_t *x, const CarpaceX11Atoms *atoms, xcb_window_t window, CarpaceX11Window *ret_window)
{
  g_autofree char *program = carpace_front_program (number (x, window, atoms->pid, XCB_ATOM_CARDINAL));

  read_class (x, window, ret_window->name, sizeof ret_window->name);
  g_strlcpy (ret_window->program, program != NULL ? program : "", sizeof ret_window->program);
  return ret_window->name[0] != '\0';
}

xcb_keysym_t
carpace_x11_keysym (xcb_connection_t *x, xcb_keycode_t code)
{
  xcb_get_keyboard_mapping_reply_t *reply = xcb_get_keyboard_mapping_reply (x, xcb_get_keyboard_mapping (x, code, 1), NULL);
  xcb_keysym_t is = reply != NULL && reply->keysyms_per_keycode > 0 ? xcb_get_keyboard_mapping_keysyms (reply)[0] : 0;

  free (reply);
  return is;
}
