/* SPDX-License-Identifier: GPL-3.0-or-later */
/* screens-untold.c: by the focus of the program's own windows. */
#include "ui/screens-untold.h"

static bool
has_own_focus (void)
{
  GList *windows = gtk_window_list_toplevels ();
  bool any = false;

  for (GList *at = windows; at; at = at->next)
    any |= gtk_window_is_active (at->data);
  g_list_free (windows);
  return any;
}

/* What fits on each. */
static void
least_area (GdkDisplay *display, GdkRectangle *ret_area)
{
  int n_monitors = gdk_display_get_n_monitors (display);

  *ret_area = (GdkRectangle) { 0, 0, 0, 0 };
  for (int m = 0; m < n_monitors; m++)
    {
      GdkRectangle each;

      gdk_monitor_get_geometry (gdk_display_get_monitor (display, m), &each);
      ret_area->width = m > 0 ? MIN (ret_area->width, each.width) : each.width;
      ret_area->height = m > 0 ? MIN (ret_area->height, each.height) : each.height;
    }
}

CarpaceBeneath
carpace_screens_untold_choose (GdkDisplay *display, GdkRectangle *ret_area)
{
  least_area (display, ret_area);
  return has_own_focus () ? CARPACE_BENEATH_WINDOWS : CARPACE_BENEATH_UNKNOWN;
}

/* ---- being told ---- */

static struct
{
  void (*changed) (void *user);
  void *user;
  gulong came, went; /* emission hooks */
} watch;

static gboolean
focus_moved (GSignalInvocationHint *hint, guint n, const GValue *values, gpointer user)
{
  watch.changed (watch.user);
  return TRUE;
}

void
carpace_screens_untold_watch (void (*changed) (void *user), void *user)
{
  guint came = g_signal_lookup ("focus-in-event", GTK_TYPE_WIDGET), went = g_signal_lookup ("focus-out-event", GTK_TYPE_WIDGET);

  if (changed && !watch.changed)
    {
      watch.came = g_signal_add_emission_hook (came, 0, focus_moved, NULL, NULL);
      watch.went = g_signal_add_emission_hook (went, 0, focus_moved, NULL, NULL);
    }
  else if (!changed && user != watch.user)
    return; /* another's */
  else if (!changed && watch.changed)
    {
      g_signal_remove_emission_hook (came, watch.came);
      g_signal_remove_emission_hook (went, watch.went);
    }
  watch.changed = changed;
  watch.user = user;
}
