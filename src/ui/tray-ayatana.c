/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tray-ayatana.c: icon, title, label and menu of the tray item. */
#include "ui/tray-ayatana.h"

#include <libayatana-appindicator/app-indicator.h>

#ifdef GDK_WINDOWING_X11
#include <gdk/gdkx.h>
#endif

#include "carpace/names.h"
#include "text/face-text.h"
#include "ui/menu.h"

struct CarpaceTray
{
  const CarpaceOwner *owner;
  void (*host_changed) (void *self);
  AppIndicator *indicator;
  CarpaceMenu *menu;
  char *icon;
  char *title;
  char *label;
  bool bus_gone; /* the item is still taken to be connected then */
  unsigned draws;
};

static void
connection_changed (AppIndicator *indicator, gboolean connected, CarpaceTray *tray)
{
  tray->host_changed (tray->owner->self);
}

/* Until the first draw says more. */
#define ICON(word) "org.carpace.Carpace-" word "-symbolic" /* a sandbox exports no other names */
#define FIRST_ICON ICON ("on-air")

/* GTK's icon for older trays is of X alone: elsewhere it shows nothing, and complains at
 * each change of its picture. */
static GtkStatusIcon *
no_older_icon (AppIndicator *indicator)
{
  return NULL;
}

CarpaceTray *
carpace_tray_new (const CarpaceOwner *owner, const char *icon_folder, void (*host_changed) (void *self))
{
  CarpaceTray *tray = g_new0 (CarpaceTray, 1);

  tray->owner = owner;
  tray->host_changed = host_changed;
  tray->menu = carpace_menu_new (owner);
  G_GNUC_BEGIN_IGNORE_DEPRECATIONS
  if (icon_folder)
    tray->indicator = app_indicator_new_with_path ("carpace", FIRST_ICON, APP_INDICATOR_CATEGORY_APPLICATION_STATUS, icon_folder);
  else
    tray->indicator = app_indicator_new ("carpace", FIRST_ICON, APP_INDICATOR_CATEGORY_APPLICATION_STATUS);
  app_indicator_set_menu (tray->indicator, carpace_menu_widget (tray->menu));
  app_indicator_set_status (tray->indicator, APP_INDICATOR_STATUS_ACTIVE);
  G_GNUC_END_IGNORE_DEPRECATIONS
#ifdef GDK_WINDOWING_X11
  if (!GDK_IS_X11_DISPLAY (gdk_display_get_default ()))
#endif
    APP_INDICATOR_GET_CLASS (tray->indicator)->fallback = no_older_icon;
  g_signal_connect (tray->indicator, "connection-changed", G_CALLBACK (connection_changed), tray);
  return tray;
}

void
carpace_tray_free (CarpaceTray *tray)
{
  if (!tray)
    return;
  g_signal_handlers_disconnect_by_data (tray->indicator, tray);
  g_object_unref (tray->indicator);
  carpace_menu_free (tray->menu);
  g_free (tray->icon);
  g_free (tray->title);
  g_free (tray->label);
  g_free (tray);
}

static bool
older_tray_is_there (void)
{
#ifdef GDK_WINDOWING_X11
  GdkDisplay *display = gdk_display_get_default ();
  if (GDK_IS_X11_DISPLAY (display))
    {
      Display *x = GDK_DISPLAY_XDISPLAY (display);
      return XGetSelectionOwner (x, XInternAtom (x, "_NET_SYSTEM_TRAY_S0", False)) != 0;
    }
#endif
  return false;
}

bool
carpace_tray_is_hosted (const CarpaceTray *tray)
{
  gboolean connected = FALSE;
  g_object_get (tray->indicator, "connected", &connected, NULL);
  return (connected && !tray->bus_gone) || older_tray_is_there ();
}

void
carpace_tray_bus_gone (CarpaceTray *tray)
{
  tray->bus_gone = true;
}

GtkMenu *
carpace_tray_menu (CarpaceTray *tray)
{
  return carpace_menu_widget (tray->menu);
}

unsigned
carpace_tray_draws (const CarpaceTray *tray)
{
  return tray->draws;
}

void
carpace_tray_plans_changed (CarpaceTray *tray)
{
  carpace_menu_plans_changed (tray->menu);
}

/* Takes @text for *kept. @return whether it differs */
static bool
take (char **kept, char *text)
{
  bool differs = g_strcmp0 (*kept, text) != 0;
  g_free (*kept);
  *kept = text;
  return differs;
}

/* On air one shape says nothing. */
char *
carpace_tray_icon (const CarpaceView *view)
{
  bool stopped = view->caution_open && (view->state == CARPACE_STATE_WAITING || view->state == CARPACE_STATE_DAY_DONE);
  const char *word = view->on_air ? "on-air" : stopped ? "stopped" : carpace_name (CARPACE_WORDS_STATE, (int32_t) view->state);

  return g_strdup_printf (ICON ("%s"), word);
}

/* The title stays as it is while time runs: what ticks stands in the menu and
 * the label, and the desktop is not told four things a minute. */
static char *
title_of (const CarpaceView *view, CarpaceInstant now)
{
  g_autofree char *block = NULL;

  if (view->on_air || !view->ticking)
    return carpace_text_state_line (view, now);
  block = carpace_text_block_of (view);
  return g_strdup_printf ("%s: %s", block, carpace_text_state (view->state));
}

void
carpace_tray_set_card_again (CarpaceTray *tray, bool waits, const char *chord)
{
  carpace_menu_set_card_again (tray->menu, waits, chord);
}

void
carpace_tray_draw (CarpaceTray *tray, const CarpaceView *view, CarpaceInstant now)
{
  bool changed = carpace_menu_draw (tray->menu, view, now);
  bool title_changed = take (&tray->title, title_of (view, now));

  if (take (&tray->icon, carpace_tray_icon (view)) || title_changed)
    {
      app_indicator_set_icon_full (tray->indicator, tray->icon, tray->title);
      changed = true;
    }
  if (title_changed)
    app_indicator_set_title (tray->indicator, tray->title);
  if (take (&tray->label, carpace_text_tray_label (view)))
    {
      app_indicator_set_label (tray->indicator, tray->label, "00 min");
      changed = true;
    }
  tray->draws += changed;
}
