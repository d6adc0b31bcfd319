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
  bool held; /* by a host on the bus */
  GtkStatusIcon *older; /* the library's, for older trays; NULL: none */
  GtkStatusIcon *stand_in; /* our own, of the same kind; at most one of the two */
  unsigned draws;
};

/* Until the first draw says more. */
#define ICON(word) "org.carpace.Carpace-" word "-symbolic" /* a sandbox exports no other names */
#define FIRST_ICON ICON ("on-air")

/* The item, told where a tray of the older kind takes it in or is gone: the library says nothing of those. */
typedef struct
{
  AppIndicator parent;
  CarpaceTray *tray;
} CarpaceIndicator;

typedef struct
{
  AppIndicatorClass parent;
} CarpaceIndicatorClass;

GType carpace_indicator_get_type (void);
G_DEFINE_TYPE (CarpaceIndicator, carpace_indicator, APP_INDICATOR_TYPE)

static bool
is_on_x11 (void)
{
#ifdef GDK_WINDOWING_X11
  return GDK_IS_X11_DISPLAY (gdk_display_get_default ());
#else
  return false;
#endif
}

static void
changed (CarpaceIndicator *indicator)
{
  if (indicator->tray)
    indicator->tray->host_changed (indicator->tray->owner->self);
}

static void
embedded_changed (GtkStatusIcon *icon, GParamSpec *property, CarpaceIndicator *indicator)
{
  changed (indicator);
}

/* GTK's icon for older trays is of X alone: elsewhere it shows nothing, and complains at
 * each change of its picture. */
static GtkStatusIcon *
icon_for_older_trays (AppIndicator *indicator)
{
  GtkStatusIcon *icon
    = is_on_x11 () ? APP_INDICATOR_CLASS (carpace_indicator_parent_class)->fallback (indicator) : NULL;

  if (icon)
    g_signal_connect_object (icon, "notify::embedded", G_CALLBACK (embedded_changed), indicator, 0);
  return icon;
}

static void
let_go (AppIndicator *indicator, GtkStatusIcon *icon)
{
  APP_INDICATOR_CLASS (carpace_indicator_parent_class)->unfallback (indicator, icon);
}

static void
end_stand_in (CarpaceTray *tray)
{
  if (tray->stand_in)
    let_go (tray->indicator, tray->stand_in);
  tray->stand_in = NULL;
}

/* The library wants one: what stands there already stays. */
static GtkStatusIcon *
fall_back (AppIndicator *indicator)
{
  CarpaceTray *tray = ((CarpaceIndicator *) indicator)->tray;

  if (!tray)
    return NULL;
  tray->older = tray->stand_in ? g_steal_pointer (&tray->stand_in) : icon_for_older_trays (indicator);
  return tray->older;
}

/* The item was registered. Whether a host will show it is not known by that. */
static void
end_fall_back (AppIndicator *indicator, GtkStatusIcon *icon)
{
  CarpaceTray *tray = ((CarpaceIndicator *) indicator)->tray;

  let_go (indicator, icon);
  if (tray)
    tray->older = NULL;
  changed ((CarpaceIndicator *) indicator);
}

static void
carpace_indicator_class_init (CarpaceIndicatorClass *class)
{
  APP_INDICATOR_CLASS (class)->fallback = fall_back;
  APP_INDICATOR_CLASS (class)->unfallback = end_fall_back;
}

static void
carpace_indicator_init (CarpaceIndicator *indicator)
{
}

CarpaceTray *
carpace_tray_new (const CarpaceOwner *owner, const char *icon_folder, void (*host_changed) (void *self))
{
  CarpaceTray *tray = g_new0 (CarpaceTray, 1);
  CarpaceIndicator *indicator = g_object_new (carpace_indicator_get_type (), "id", "carpace", "category", "ApplicationStatus",
                                              "icon-name", FIRST_ICON, "icon-theme-path", icon_folder, NULL);

  indicator->tray = tray;
  tray->owner = owner;
  tray->host_changed = host_changed;
  tray->menu = carpace_menu_new (owner);
  tray->indicator = &indicator->parent;
  app_indicator_set_menu (tray->indicator, carpace_menu_widget (tray->menu));
  app_indicator_set_status (tray->indicator, APP_INDICATOR_STATUS_ACTIVE);
  return tray;
}

void
carpace_tray_free (CarpaceTray *tray)
{
  if (!tray)
    return;
  end_stand_in (tray);
  ((CarpaceIndicator *) tray->indicator)->tray = NULL;
  g_object_unref (tray->indicator);
  carpace_menu_free (tray->menu);
  g_free (tray->icon);
  g_free (tray->title);
  g_free (tray->label);
  g_free (tray);
}

bool
carpace_tray_is_hosted (const CarpaceTray *tray)
{
  GtkStatusIcon *icon = tray->older ? tray->older : tray->stand_in;
  gboolean embedded = FALSE;

  if (icon)
    g_object_get (icon, "embedded", &embedded, NULL);
  return tray->held || embedded;
}

void
carpace_tray_set_held (CarpaceTray *tray, bool held)
{
  tray->held = held;
  if (held)
    end_stand_in (tray);
  tray->host_changed (tray->owner->self);
}

void
carpace_tray_stand_in (CarpaceTray *tray)
{
  if (tray->older || tray->stand_in || tray->held)
    return;
  tray->stand_in = icon_for_older_trays (tray->indicator);
  if (tray->stand_in)
    g_object_set (tray->stand_in, "title", tray->title, NULL);
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
    {
      app_indicator_set_title (tray->indicator, tray->title);
      if (tray->stand_in)
        g_object_set (tray->stand_in, "title", tray->title, NULL);
    }
  if (take (&tray->label, carpace_text_tray_label (view)))
    {
      app_indicator_set_label (tray->indicator, tray->label, "00 min");
      changed = true;
    }
  tray->draws += changed;
}
