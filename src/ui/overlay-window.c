/* SPDX-License-Identifier: GPL-3.0-or-later */
/* overlay-window.c: one line on one colour. */
#include "ui/overlay-window.h"

#include <glib/gi18n.h>

#define CORNER 18     /* pixels, where a drag sizes */
#define SPARE 0.86    /* of the window that the text fills */
#define STEP 1.2

struct CarpaceOverlayWindow
{
  GtkWidget *window, *area;
  GdkRGBA colour;
  char *line;
  unsigned draws;
};

/* Black or white, whichever is further from the background (luma of ITU-R BT.601). */
static void
set_text_colour (CarpaceOverlayWindow *overlay, cairo_t *cr)
{
  double luma = 0.299 * overlay->colour.red + 0.587 * overlay->colour.green + 0.114 * overlay->colour.blue;
  double shade = luma > 0.55 ? 0 : 1;

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
  gtk_window_resize (GTK_WINDOW (overlay->window), CLAMP ((int) (width * factor), 80, 4000),
                     CLAMP ((int) (height * factor), 24, 2000));
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

CarpaceOverlayWindow *
carpace_overlay_window_new (void)
{
  CarpaceOverlayWindow *overlay = g_new0 (CarpaceOverlayWindow, 1);

  overlay->line = g_strdup ("");
  gdk_rgba_parse (&overlay->colour, "#00b140");
  overlay->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (overlay->window, "overlay-window");
  gtk_window_set_title (GTK_WINDOW (overlay->window), _("Intermission"));
  gtk_window_set_decorated (GTK_WINDOW (overlay->window), FALSE);
  gtk_window_set_default_size (GTK_WINDOW (overlay->window), 480, 96);
  gtk_widget_add_events (overlay->window, GDK_BUTTON_PRESS_MASK);
  overlay->area = gtk_drawing_area_new ();
  gtk_widget_set_size_request (overlay->area, 80, 24);
  g_signal_connect (overlay->area, "draw", G_CALLBACK (draw), overlay);
  g_signal_connect (overlay->window, "button-press-event", G_CALLBACK (pressed), overlay);
  g_signal_connect (overlay->window, "key-press-event", G_CALLBACK (key), overlay);
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
  gtk_window_present (GTK_WINDOW (overlay->window));
}

void
carpace_overlay_window_hide (CarpaceOverlayWindow *overlay)
{
  gtk_widget_hide (overlay->window);
}

bool
carpace_overlay_window_is_shown (const CarpaceOverlayWindow *overlay)
{
  return gtk_widget_get_visible (overlay->window);
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
