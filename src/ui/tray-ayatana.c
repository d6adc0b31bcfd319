/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tray-ayatana.c: icon, title, label and menu of the tray item. */
#include "ui/tray-ayatana.h"

#include <libayatana-appindicator/app-indicator.h>

#ifdef GDK_WINDOWING_X11
#include <gdk/gdkx.h>
#endif

#include "carpace/names.h"
#include "text/face-text.h"

struct CarpaceTray
{
  const CarpaceOwner *owner;
  void (*host_changed) (void *self);
  AppIndicator *indicator;
  GtkWidget *menu;
  GtkWidget *plans;
  GtkWidget *rows[CARPACE_N_ITEMS];
  CarpaceItem items[CARPACE_N_ITEMS];
  char *icon;
  char *title;
  char *label;
  bool drawing;
  unsigned draws;
};

static void
row_chosen (GtkMenuItem *row, CarpaceTray *tray)
{
  if (!tray->drawing)
    tray->owner->choose (tray->owner->self, (CarpaceItemId) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), "item")));
}

static void
add_row (CarpaceTray *tray, GtkWidget *menu, CarpaceItemId id)
{
  GtkWidget *row = id == CARPACE_ITEM_ON_AIR ? gtk_check_menu_item_new_with_label ("") : gtk_menu_item_new_with_label ("");

  g_object_set_data (G_OBJECT (row), "item", GINT_TO_POINTER (id));
  tray->rows[id] = row;
  gtk_menu_shell_append (GTK_MENU_SHELL (menu), row);
  if (id != CARPACE_ITEM_MATCH && id != CARPACE_ITEM_PLAN)
    g_signal_connect (row, "activate", G_CALLBACK (row_chosen), tray);
}

static GtkWidget *
add_submenu (CarpaceTray *tray, CarpaceItemId id)
{
  GtkWidget *menu = gtk_menu_new ();
  gtk_menu_item_set_submenu (GTK_MENU_ITEM (tray->rows[id]), menu);
  return menu;
}

static void
make_menu (CarpaceTray *tray)
{
  GtkWidget *match;

  tray->menu = g_object_ref_sink (gtk_menu_new ());
  for (int id = CARPACE_ITEM_STATE; id <= CARPACE_ITEM_QUIT; id++)
    add_row (tray, tray->menu, (CarpaceItemId) id);
  match = add_submenu (tray, CARPACE_ITEM_MATCH);
  add_row (tray, match, CARPACE_ITEM_MATCH_START);
  add_row (tray, match, CARPACE_ITEM_MATCH_END);
  gtk_widget_show_all (match);
  tray->plans = add_submenu (tray, CARPACE_ITEM_PLAN); /* filled by carpace_tray_plans_changed() */
}

static void
connection_changed (AppIndicator *indicator, gboolean connected, CarpaceTray *tray)
{
  tray->host_changed (tray->owner->self);
}

/* Until the first draw says more. */
#define FIRST_ICON "carpace-on-air-symbolic"

CarpaceTray *
carpace_tray_new (const CarpaceOwner *owner, const char *icon_folder, void (*host_changed) (void *self))
{
  CarpaceTray *tray = g_new0 (CarpaceTray, 1);

  tray->owner = owner;
  tray->host_changed = host_changed;
  make_menu (tray);
  G_GNUC_BEGIN_IGNORE_DEPRECATIONS
  if (icon_folder)
    tray->indicator = app_indicator_new_with_path ("carpace", FIRST_ICON, APP_INDICATOR_CATEGORY_APPLICATION_STATUS, icon_folder);
  else
    tray->indicator = app_indicator_new ("carpace", FIRST_ICON, APP_INDICATOR_CATEGORY_APPLICATION_STATUS);
  app_indicator_set_menu (tray->indicator, GTK_MENU (tray->menu));
  app_indicator_set_status (tray->indicator, APP_INDICATOR_STATUS_ACTIVE);
  G_GNUC_END_IGNORE_DEPRECATIONS
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
  gtk_widget_destroy (tray->menu);
  g_object_unref (tray->menu);
  carpace_items_clear (tray->items);
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
  return connected || older_tray_is_there ();
}

GtkMenu *
carpace_tray_menu (CarpaceTray *tray)
{
  return GTK_MENU (tray->menu);
}

unsigned
carpace_tray_draws (const CarpaceTray *tray)
{
  return tray->draws;
}

void
carpace_tray_plans_changed (CarpaceTray *tray)
{
  gtk_container_foreach (GTK_CONTAINER (tray->plans), (GtkCallback) (void (*) (void)) gtk_widget_destroy, NULL);
  tray->owner->fill_plans (tray->owner->self, GTK_MENU_SHELL (tray->plans));
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

static void
draw_row (CarpaceTray *tray, CarpaceItemId id)
{
  GtkWidget *row = tray->rows[id];
  const CarpaceItem *item = &tray->items[id];

  if (g_strcmp0 (gtk_menu_item_get_label (GTK_MENU_ITEM (row)), item->label) != 0)
    gtk_menu_item_set_label (GTK_MENU_ITEM (row), item->label);
  gtk_widget_set_sensitive (row, item->sensitive);
  gtk_widget_set_visible (row, item->visible);
  if (GTK_IS_CHECK_MENU_ITEM (row))
    gtk_check_menu_item_set_active (GTK_CHECK_MENU_ITEM (row), item->on);
}

static bool
draw_menu (CarpaceTray *tray, const CarpaceView *view, CarpaceInstant now)
{
  CarpaceItem items[CARPACE_N_ITEMS];
  bool changed = false;

  carpace_items_make (view, now, items);
  tray->drawing = true;
  for (int id = 0; id < CARPACE_N_ITEMS; id++)
    {
      CarpaceItem old = tray->items[id];
      tray->items[id] = items[id];
      if (!carpace_item_equal (&old, &items[id]))
        {
          draw_row (tray, (CarpaceItemId) id);
          changed = true;
        }
      g_free (old.label);
    }
  tray->drawing = false;
  return changed;
}

/* On air one shape says nothing. */
static char *
icon_of (const CarpaceView *view)
{
  return g_strdup_printf ("carpace-%s-symbolic", view->on_air ? "on-air" : carpace_name (CARPACE_WORDS_STATE, (int32_t) view->state));
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
carpace_tray_draw (CarpaceTray *tray, const CarpaceView *view, CarpaceInstant now)
{
  bool changed = draw_menu (tray, view, now);
  bool title_changed = take (&tray->title, title_of (view, now));

  if (take (&tray->icon, icon_of (view)) || title_changed)
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
