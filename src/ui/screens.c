/* SPDX-License-Identifier: GPL-3.0-or-later */
/* screens.c: full-screen windows are asked for by the EWMH properties that
 * window managers keep on the root window and on each client. */
#include "ui/screens.h"

#ifdef GDK_WINDOWING_X11
#include <gdk/gdkx.h>
#endif

#define MOST_WINDOWS 512

#ifdef GDK_WINDOWING_X11

/* A property of 32-bit items of @window. @return their number; XFree (*ret_items) */
static unsigned long
get_items (Display *x, Window window, const char *name, Atom type, unsigned long **ret_items)
{
  Atom actual;
  int format;
  unsigned long n = 0, behind;
  unsigned char *data = NULL;

  if (XGetWindowProperty (x, window, XInternAtom (x, name, False), 0, MOST_WINDOWS, False, type, &actual, &format,
                          &n, &behind, &data) != Success || format != 32)
    {
      if (data)
        XFree (data);
      return 0;
    }
  *ret_items = (unsigned long *) (void *) data;
  return n;
}

static gboolean
is_full_screen (Display *x, Window window)
{
  Atom full = XInternAtom (x, "_NET_WM_STATE_FULLSCREEN", False), hidden = XInternAtom (x, "_NET_WM_STATE_HIDDEN", False);
  unsigned long *state = NULL, n = get_items (x, window, "_NET_WM_STATE", 4 /* XA_ATOM */, &state);
  gboolean is_full = FALSE, is_hidden = FALSE;

  for (unsigned long i = 0; i < n; i++)
    {
      is_full |= state[i] == full;
      is_hidden |= state[i] == hidden;
    }
  if (state)
    XFree (state);
  return is_full && !is_hidden;
}

static gboolean
area_of (Display *x, Window window, int scale, GdkRectangle *ret_area)
{
  Window root, child;
  int left, top;
  unsigned width, height, border, depth;

  if (!XGetGeometry (x, window, &root, &left, &top, &width, &height, &border, &depth)
      || !XTranslateCoordinates (x, window, root, 0, 0, &left, &top, &child))
    return FALSE;
  *ret_area = (GdkRectangle) { left / scale, top / scale, (int) width / scale, (int) height / scale };
  return TRUE;
}

/* Marks the monitors that full-screen windows cover. */
static void
mark_covered (GdkDisplay *display, gboolean *covered, int n_monitors)
{
  Display *x = GDK_DISPLAY_XDISPLAY (display);
  GdkWindow *root = gdk_screen_get_root_window (gdk_display_get_default_screen (display));
  int scale = gdk_window_get_scale_factor (root);
  unsigned long *client = NULL, n;

  gdk_x11_display_error_trap_push (display);
  n = get_items (x, GDK_WINDOW_XID (root), "_NET_CLIENT_LIST", 33 /* XA_WINDOW */, &client);
  for (unsigned long i = 0; i < n; i++)
    {
      GdkRectangle area, monitor, both;
      if (!is_full_screen (x, client[i]) || !area_of (x, client[i], scale, &area))
        continue;
      for (int m = 0; m < n_monitors; m++)
        {
          gdk_monitor_get_geometry (gdk_display_get_monitor (display, m), &monitor);
          covered[m] |= gdk_rectangle_intersect (&area, &monitor, &both)
                        && both.width * both.height > monitor.width * monitor.height / 2;
        }
    }
  if (client)
    XFree (client);
  gdk_x11_display_error_trap_pop_ignored (display);
}

#endif

static int
monitor_with_pointer (GdkDisplay *display, int n_monitors)
{
  int left, top;
  GdkMonitor *under;

  gdk_device_get_position (gdk_seat_get_pointer (gdk_display_get_default_seat (display)), NULL, &left, &top);
  under = gdk_display_get_monitor_at_point (display, left, top);
  for (int m = 0; m < n_monitors; m++)
    if (gdk_display_get_monitor (display, m) == under)
      return m;
  return 0;
}

gboolean
carpace_screens_choose (GdkDisplay *display, GdkRectangle *ret_area)
{
  int n_monitors = gdk_display_get_n_monitors (display), chosen = monitor_with_pointer (display, n_monitors);
  g_autofree gboolean *covered = g_new0 (gboolean, n_monitors + 1);

#ifdef GDK_WINDOWING_X11
  if (GDK_IS_X11_DISPLAY (display))
    mark_covered (display, covered, n_monitors);
#endif
  for (int m = 0; m < n_monitors && covered[chosen]; m++)
    if (!covered[m])
      chosen = m;
  *ret_area = (GdkRectangle) { 0, 0, 0, 0 };
  if (n_monitors > 0)
    gdk_monitor_get_workarea (gdk_display_get_monitor (display, chosen), ret_area);
  return covered[chosen];
}
