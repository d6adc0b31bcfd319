/* SPDX-License-Identifier: GPL-3.0-or-later */
/* screens.c: full-screen windows are asked for by the EWMH properties that
 * window managers keep on the root window and on each client. */
#include "ui/screens.h"

#include "ui/screens-untold.h"

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

static Window
active_window (Display *x, Window root)
{
  unsigned long *active = NULL, n = get_items (x, root, "_NET_ACTIVE_WINDOW", 33 /* XA_WINDOW */, &active);
  Window window = n > 0 ? active[0] : None;

  if (active)
    XFree (active);
  return window;
}

/* Marks the monitors that full-screen windows cover. @return the one that the active window covers, -1: none */
static int
mark_covered (GdkDisplay *display, gboolean *covered, int n_monitors)
{
  Display *x = GDK_DISPLAY_XDISPLAY (display);
  GdkWindow *root = gdk_screen_get_root_window (gdk_display_get_default_screen (display));
  Window active;
  int scale = gdk_window_get_scale_factor (root), of_active = -1;
  unsigned long *client = NULL, n;

  gdk_x11_display_error_trap_push (display);
  active = active_window (x, GDK_WINDOW_XID (root));
  n = get_items (x, GDK_WINDOW_XID (root), "_NET_CLIENT_LIST", 33 /* XA_WINDOW */, &client);
  for (unsigned long i = 0; i < n; i++)
    {
      GdkRectangle area, monitor, both;
      if (!is_full_screen (x, client[i]) || !area_of (x, client[i], scale, &area))
        continue;
      for (int m = 0; m < n_monitors; m++)
        {
          gdk_monitor_get_geometry (gdk_display_get_monitor (display, m), &monitor);
          if (!gdk_rectangle_intersect (&area, &monitor, &both) || both.width * both.height <= monitor.width * monitor.height / 2)
            continue;
          covered[m] = TRUE;
          if (client[i] == active)
            of_active = m;
        }
    }
  if (client)
    XFree (client);
  gdk_x11_display_error_trap_pop_ignored (display);
  return of_active;
}

/* ---- being told ---- */

static struct
{
  GdkDisplay *display;
  void (*changed) (void *user);
  void *user;
  GdkWindow *active; /* whose state is listened to */
} watch;

static void
listen_to_active (void)
{
  GdkWindow *root = gdk_screen_get_root_window (gdk_display_get_default_screen (watch.display));
  Window window;

  g_clear_object (&watch.active);
  gdk_x11_display_error_trap_push (watch.display);
  window = active_window (GDK_DISPLAY_XDISPLAY (watch.display), GDK_WINDOW_XID (root));
  if (window != None)
    watch.active = gdk_x11_window_foreign_new_for_display (watch.display, window);
  if (watch.active)
    gdk_window_set_events (watch.active, gdk_window_get_events (watch.active) | GDK_PROPERTY_CHANGE_MASK | GDK_STRUCTURE_MASK);
  gdk_x11_display_error_trap_pop_ignored (watch.display);
}

static GdkFilterReturn
filter (GdkXEvent *xevent, GdkEvent *event, gpointer user)
{
  const XEvent *x = (const XEvent *) xevent;
  Display *display = GDK_DISPLAY_XDISPLAY (watch.display);
  bool other_active, other_state;

  if (x->type != PropertyNotify)
    return GDK_FILTER_CONTINUE;
  other_active = x->xproperty.atom == XInternAtom (display, "_NET_ACTIVE_WINDOW", False);
  other_state = x->xproperty.atom == XInternAtom (display, "_NET_WM_STATE", False) && watch.active
                && x->xproperty.window == GDK_WINDOW_XID (watch.active);
  if (other_active)
    listen_to_active ();
  if (other_active || other_state)
    watch.changed (watch.user);
  return GDK_FILTER_CONTINUE;
}

static void
watch_x11 (GdkDisplay *display, void (*changed) (void *user), void *user)
{
  GdkWindow *root = gdk_screen_get_root_window (gdk_display_get_default_screen (display));

  if (changed && changed == watch.changed && user == watch.user && display == watch.display)
    return; /* asked again with each second of a countdown */
  if (changed && !watch.changed)
    {
      gdk_window_set_events (root, gdk_window_get_events (root) | GDK_PROPERTY_CHANGE_MASK);
      gdk_window_add_filter (NULL, filter, NULL);
    }
  else if (!changed && user != watch.user)
    return; /* another's */
  else if (!changed && watch.changed)
    {
      gdk_window_remove_filter (NULL, filter, NULL);
      g_clear_object (&watch.active);
    }
  watch.display = display;
  watch.changed = changed;
  watch.user = user;
  if (changed)
    listen_to_active ();
}

#endif

void
carpace_screens_watch (GdkDisplay *display, void (*changed) (void *user), void *user)
{
#ifdef GDK_WINDOWING_X11
  if (GDK_IS_X11_DISPLAY (display))
    {
      watch_x11 (display, changed, user);
      return;
    }
#endif
  carpace_screens_untold_watch (changed, user);
}

/* ---- the choice ---- */

bool
carpace_screens_covered (CarpaceBeneath beneath, CarpaceCardWay way)
{
  return beneath == CARPACE_BENEATH_FULL || (beneath == CARPACE_BENEATH_UNKNOWN && way == CARPACE_CARD_BY_ITSELF);
}

#ifdef GDK_WINDOWING_X11

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

static CarpaceBeneath
choose_x11 (GdkDisplay *display, gboolean other, GdkRectangle *ret_area)
{
  int n_monitors = gdk_display_get_n_monitors (display), chosen;
  g_autofree gboolean *covered = g_new0 (gboolean, n_monitors + 1);

  chosen = mark_covered (display, covered, n_monitors);
  if (chosen < 0)
    chosen = monitor_with_pointer (display, n_monitors);
  for (int m = 0; other && m < n_monitors && covered[chosen]; m++)
    if (!covered[m])
      chosen = m;
  *ret_area = (GdkRectangle) { 0, 0, 0, 0 };
  if (n_monitors > 0 && covered[chosen])
    gdk_monitor_get_geometry (gdk_display_get_monitor (display, chosen), ret_area);
  else if (n_monitors > 0)
    gdk_monitor_get_workarea (gdk_display_get_monitor (display, chosen), ret_area);
  return covered[chosen] ? CARPACE_BENEATH_FULL : CARPACE_BENEATH_WINDOWS;
}

#endif

CarpaceBeneath
carpace_screens_choose (GdkDisplay *display, gboolean other, GdkRectangle *ret_area)
{
#ifdef GDK_WINDOWING_X11
  if (GDK_IS_X11_DISPLAY (display))
    return choose_x11 (display, other, ret_area);
#endif
  return carpace_screens_untold_choose (display, ret_area);
}
