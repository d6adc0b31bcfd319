/* SPDX-License-Identifier: GPL-3.0-or-later */
/* overlay-window.c: one line on one colour. */
#include "ui/overlay-window.h"

#include <glib/gi18n.h>
#ifdef GDK_WINDOWING_X11
#include <gdk/gdkx.h>
#endif

#include "draw/line-drawing.h"

#define CORNER 18     /* pixels, where a drag sizes */
#define SPARE 0.86    /* of the window that the text fills */
#define STEP 1.2
#define LEAST_WIDTH 80
#define LEAST_HEIGHT 24
#define STOOD_MS 500 /* that it has been moved is told once it has stood for so long */

struct CarpaceOverlayWindow
{
  GtkWidget *window, *area;
  GdkRGBA colour;
  char *line;
  CarpaceWindowPlace place;  /* as last set, or found */
  bool settled;              /* what came of showing it is over: what comes now was done to it */
  guint stood;
  void (*moved) (void *user, const CarpaceWindowPlace *place);
  void *user;
  unsigned draws;
};

/* Black or white, whichever has the greater contrast: 4.5 : 1 at the least. */
static void
set_text_colour (CarpaceOverlayWindow *overlay, cairo_t *cr)
{
  const CarpaceColour ground = { overlay->colour.red, overlay->colour.green, overlay->colour.blue }, black = { 0, 0, 0 }, white = { 1, 1, 1 };
  double shade = carpace_colour_contrast (black, ground) > carpace_colour_contrast (white, ground) ? 0 : 1;

  cairo_set_source_rgb (cr, shade, shade, shade);
}

static void
draw_line (CarpaceOverlayWindow *overlay, cairo_t *cr, double width, double height)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (overlay->area, overlay->line);
  PangoFontDescription *font = pango_font_description_from_string ("Sans Bold 40");
  int text_width, text_height;
  double scale;

  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_get_pixel_size (layout, &text_width, &text_height);
  scale = MIN (SPARE * width / MAX (text_width, 1), SPARE * height / MAX (text_height, 1));
  cairo_translate (cr, width / 2, height / 2);
  cairo_scale (cr, scale, scale);
  cairo_move_to (cr, -text_width / 2.0, -text_height / 2.0);
  set_text_colour (overlay, cr);
  pango_cairo_show_layout (cr, layout);
  g_object_unref (layout);
}

static gboolean
draw (GtkWidget *area, cairo_t *cr, CarpaceOverlayWindow *overlay)
{
  overlay->draws++;
  gdk_cairo_set_source_rgba (cr, &overlay->colour);
  cairo_paint (cr);
  if (*overlay->line != '\0')
    draw_line (overlay, cr, gtk_widget_get_allocated_width (area), gtk_widget_get_allocated_height (area));
  return TRUE;
}

static gboolean
pressed (GtkWidget *window, GdkEventButton *event, CarpaceOverlayWindow *overlay)
{
  int width, height;

  gtk_window_get_size (GTK_WINDOW (window), &width, &height);
  if (event->button != GDK_BUTTON_PRIMARY)
    return FALSE;
  if (event->x > width - CORNER && event->y > height - CORNER)
    gtk_window_begin_resize_drag (GTK_WINDOW (window), GDK_WINDOW_EDGE_SOUTH_EAST, (int) event->button, (int) event->x_root,
                                  (int) event->y_root, event->time);
  else
    gtk_window_begin_move_drag (GTK_WINDOW (window), (int) event->button, (int) event->x_root, (int) event->y_root,
                                event->time);
  return TRUE;
}

static void
size_by (CarpaceOverlayWindow *overlay, double factor)
{
  int width, height;

  gtk_window_get_size (GTK_WINDOW (overlay->window), &width, &height);
  gtk_window_resize (GTK_WINDOW (overlay->window), CLAMP ((int) (width * factor), LEAST_WIDTH, 4000),
                     CLAMP ((int) (height * factor), LEAST_HEIGHT, 2000));
}

static gboolean
key (GtkWidget *window, GdkEventKey *event, CarpaceOverlayWindow *overlay)
{
  switch (event->keyval)
    {
    case GDK_KEY_plus: case GDK_KEY_equal: case GDK_KEY_KP_Add:
      size_by (overlay, STEP);
      return TRUE;
    case GDK_KEY_minus: case GDK_KEY_KP_Subtract:
      size_by (overlay, 1 / STEP);
      return TRUE;
    case GDK_KEY_Escape:
      gtk_widget_hide (window);
      return TRUE;
    default:
      return FALSE;
    }
}

/* ---- where it stands ---- */

/* Only X says, and takes, where a window stands. */
static bool
can_be_placed (CarpaceOverlayWindow *overlay)
{
#ifdef GDK_WINDOWING_X11
  return GDK_IS_X11_DISPLAY (gtk_widget_get_display (overlay->window));
#else
  return false;
#endif
}

static gboolean
stood (gpointer user)
{
  CarpaceOverlayWindow *overlay = user;
  CarpaceWindowPlace now = { .placed = can_be_placed (overlay) };
  bool differs;

  overlay->stood = 0;
  gtk_window_get_size (GTK_WINDOW (overlay->window), &now.width, &now.height);
  if (now.placed)
    gtk_window_get_position (GTK_WINDOW (overlay->window), &now.left, &now.top);
  differs = !carpace_window_place_equal (&now, &overlay->place);
  overlay->place = now;
  if (differs && overlay->settled && overlay->moved)
    overlay->moved (overlay->user, &now);
  overlay->settled = true;
  return G_SOURCE_REMOVE;
}

static gboolean
configured (GtkWidget *window, GdkEvent *event, CarpaceOverlayWindow *overlay)
{
  g_clear_handle_id (&overlay->stood, g_source_remove);
  if (gtk_widget_get_visible (window))
    overlay->stood = g_timeout_add (STOOD_MS, stood, overlay);
  return FALSE;
}

/* On a monitor that is there: it is not put where nobody sees it. */
static bool
is_on_a_monitor (CarpaceOverlayWindow *overlay)
{
  GdkDisplay *display = gtk_widget_get_display (overlay->window);
  const CarpaceWindowPlace *place = &overlay->place;
  GdkRectangle window = { place->left, place->top, place->width, place->height }, monitor, both;

  for (int i = 0; i < gdk_display_get_n_monitors (display); i++)
    {
      gdk_monitor_get_geometry (gdk_display_get_monitor (display, i), &monitor);
      if (gdk_rectangle_intersect (&window, &monitor, &both) && both.width >= LEAST_WIDTH / 2 && both.height >= LEAST_HEIGHT / 2)
        return true;
    }
  return false;
}

static void
put_in_place (CarpaceOverlayWindow *overlay)
{
  gtk_window_resize (GTK_WINDOW (overlay->window), MAX (overlay->place.width, LEAST_WIDTH), MAX (overlay->place.height, LEAST_HEIGHT));
  if (overlay->place.placed && can_be_placed (overlay) && is_on_a_monitor (overlay))
    gtk_window_move (GTK_WINDOW (overlay->window), overlay->place.left, overlay->place.top);
}

void
carpace_overlay_window_set_place (CarpaceOverlayWindow *overlay, const CarpaceWindowPlace *place)
{
  if (carpace_window_place_equal (place, &overlay->place))
    return;
  overlay->place = *place;
  put_in_place (overlay);
}

void
carpace_overlay_window_on_moved (CarpaceOverlayWindow *overlay, void (*moved) (void *user, const CarpaceWindowPlace *place), void *user)
{
  overlay->moved = moved;
  overlay->user = user;
}

/* How a list of windows, a program that captures one, and assistive technology know it. */
static void
name_it (GtkWidget *window)
{
  gtk_widget_set_name (window, "overlay-window");
  gtk_window_set_title (GTK_WINDOW (window), _("Carpace overlay"));
  gtk_window_set_icon_name (GTK_WINDOW (window), "org.carpace.Carpace");
  G_GNUC_BEGIN_IGNORE_DEPRECATIONS
  gtk_window_set_wmclass (GTK_WINDOW (window), "carpace-overlay", "Carpace"); /* the instance tells it from other windows */
  G_GNUC_END_IGNORE_DEPRECATIONS
  atk_object_set_name (gtk_widget_get_accessible (window), _("Carpace overlay"));
}

CarpaceOverlayWindow *
carpace_overlay_window_new (void)
{
  CarpaceOverlayWindow *overlay = g_new0 (CarpaceOverlayWindow, 1);

  overlay->line = g_strdup ("");
  gdk_rgba_parse (&overlay->colour, "#00b140");
  overlay->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  overlay->place = (CarpaceWindowPlace){ .width = 480, .height = 96 };
  name_it (overlay->window);
  gtk_window_set_decorated (GTK_WINDOW (overlay->window), FALSE);
  gtk_window_set_focus_on_map (GTK_WINDOW (overlay->window), FALSE); /* it comes over a game */
  gtk_window_set_default_size (GTK_WINDOW (overlay->window), overlay->place.width, overlay->place.height);
  gtk_widget_add_events (overlay->window, GDK_BUTTON_PRESS_MASK);
  overlay->area = gtk_drawing_area_new ();
  gtk_widget_set_size_request (overlay->area, LEAST_WIDTH, LEAST_HEIGHT);
  atk_object_set_role (gtk_widget_get_accessible (overlay->area), ATK_ROLE_LABEL);
  g_signal_connect (overlay->area, "draw", G_CALLBACK (draw), overlay);
  g_signal_connect (overlay->window, "button-press-event", G_CALLBACK (pressed), overlay);
  g_signal_connect (overlay->window, "key-press-event", G_CALLBACK (key), overlay);
  g_signal_connect (overlay->window, "configure-event", G_CALLBACK (configured), overlay);
  g_signal_connect (overlay->window, "delete-event", G_CALLBACK (gtk_widget_hide_on_delete), NULL);
  gtk_container_add (GTK_CONTAINER (overlay->window), overlay->area);
  gtk_widget_show (overlay->area);
  return overlay;
}

void
carpace_overlay_window_free (CarpaceOverlayWindow *overlay)
{
  if (overlay == NULL)
    return;
  g_clear_handle_id (&overlay->stood, g_source_remove);
  g_signal_handlers_disconnect_by_data (overlay->window, overlay);
  gtk_widget_destroy (overlay->window);
  g_free (overlay->line);
  g_free (overlay);
}

bool
carpace_overlay_window_set_colour (CarpaceOverlayWindow *overlay, const char *colour)
{
  GdkRGBA parsed;

  if (!gdk_rgba_parse (&parsed, colour))
    return false;
  parsed.alpha = 1;
  overlay->colour = parsed;
  gtk_widget_queue_draw (overlay->area);
  return true;
}

void
carpace_overlay_window_set_line (CarpaceOverlayWindow *overlay, const char *line)
{
  if (g_strcmp0 (overlay->line, line) == 0)
    return;
  g_free (overlay->line);
  overlay->line = g_strdup (line);
  atk_object_set_name (gtk_widget_get_accessible (overlay->area), line);
  gtk_widget_queue_draw (overlay->area);
}

void
carpace_overlay_window_show (CarpaceOverlayWindow *overlay)
{
  overlay->settled = false;
  put_in_place (overlay);
  gtk_widget_show (overlay->window);
}

void
carpace_overlay_window_hide (CarpaceOverlayWindow *overlay)
{
  gtk_widget_hide (overlay->window);
}

GtkWindow *
carpace_overlay_window_window (CarpaceOverlayWindow *overlay)
{
  return GTK_WINDOW (overlay->window);
}

unsigned
carpace_overlay_window_draws (const CarpaceOverlayWindow *overlay)
{
  return overlay->draws;
}
