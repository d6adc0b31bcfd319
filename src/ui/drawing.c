/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drawing.c: SVG pictures from the resources, read by the desktop's own loader
 * only when one is shown, kept until size, colour or exercise change. */
#include "ui/drawing.h"

#include <string.h>

#include "carpace/names.h"
#include "text/face-text.h"
#include "ui/card.h"

#define WIDTH_PX 320
#define HEIGHT_PX 240

typedef struct { GdkRGBA line, behind; } Colours;

typedef struct
{
  CarpaceExercise exercise;
  gboolean mirrored;
  int scale;
  Colours colours;
  cairo_surface_t *picture;
} Drawing;

static void
drawing_free (gpointer data)
{
  Drawing *drawing = data;
  g_clear_pointer (&drawing->picture, cairo_surface_destroy);
  g_free (drawing);
}

static char *
hex_of (const GdkRGBA *colour)
{
  return g_strdup_printf ("#%02x%02x%02x", (unsigned) (colour->red * 255), (unsigned) (colour->green * 255),
                          (unsigned) (colour->blue * 255));
}

static Colours
colours_of (GtkWidget *widget)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  Colours colours;

  gtk_style_context_get_color (style, GTK_STATE_FLAG_NORMAL, &colours.line);
  if (!gtk_style_context_lookup_color (style, "theme_bg_color", &colours.behind))
    gdk_rgba_parse (&colours.behind, "white");
  return colours;
}

/* The drawings' words for the two colours are given those of the card. */
static char *
svg_in_colours (CarpaceExercise exercise, const Colours *colours)
{
  g_autofree char *path = g_strdup_printf ("/org/carpace/Carpace/ui/drawings/%s.svg", carpace_name (CARPACE_WORDS_EXERCISE, (int32_t) exercise));
  g_autofree char *line = hex_of (&colours->line), *behind = hex_of (&colours->behind);
  GBytes *bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  GString *svg;

  if (!bytes)
    return NULL;
  svg = g_string_new_len (g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes));
  g_bytes_unref (bytes);
  g_string_replace (svg, "currentColor", line, 0);
  g_string_replace (svg, "backgroundColor", behind, 0);
  return g_string_free (svg, FALSE);
}

static cairo_surface_t *
picture_of (CarpaceExercise exercise, const Colours *colours, int scale)
{
  g_autofree char *svg = svg_in_colours (exercise, colours);
  GInputStream *stream;
  GdkPixbuf *pixels;
  cairo_surface_t *picture = NULL;

  if (!svg)
    return NULL;
  stream = g_memory_input_stream_new_from_data (svg, (gssize) strlen (svg), NULL);
  pixels = gdk_pixbuf_new_from_stream_at_scale (stream, WIDTH_PX * scale, HEIGHT_PX * scale, TRUE, NULL, NULL);
  if (pixels)
    {
      picture = gdk_cairo_surface_create_from_pixbuf (pixels, scale, NULL);
      g_object_unref (pixels);
    }
  g_object_unref (stream);
  return picture;
}

static gboolean
draw (GtkWidget *widget, cairo_t *cr, Drawing *drawing)
{
  Colours colours = colours_of (widget);
  int scale = gtk_widget_get_scale_factor (widget);

  if (!drawing->picture || drawing->scale != scale || !gdk_rgba_equal (&drawing->colours.line, &colours.line)
      || !gdk_rgba_equal (&drawing->colours.behind, &colours.behind))
    {
      g_clear_pointer (&drawing->picture, cairo_surface_destroy);
      drawing->picture = picture_of (drawing->exercise, &colours, scale);
      drawing->scale = scale;
      drawing->colours = colours;
    }
  if (!drawing->picture)
    return FALSE;
  cairo_translate (cr, (gtk_widget_get_allocated_width (widget) - WIDTH_PX) / 2, 0);
  if (drawing->mirrored)
    {
      cairo_translate (cr, WIDTH_PX, 0);
      cairo_scale (cr, -1, 1);
    }
  cairo_set_source_surface (cr, drawing->picture, 0, 0);
  cairo_paint (cr);
  return FALSE;
}

GtkWidget *
carpace_drawing_new (void)
{
  GtkWidget *widget = gtk_drawing_area_new ();
  Drawing *drawing = g_new0 (Drawing, 1);

  drawing->exercise = CARPACE_N_EXERCISES;
  gtk_widget_set_size_request (widget, WIDTH_PX, HEIGHT_PX);
  gtk_style_context_add_class (gtk_widget_get_style_context (widget), "carpace-drawing");
  g_object_set_data_full (G_OBJECT (widget), "drawing", drawing, drawing_free);
  g_signal_connect (widget, "draw", G_CALLBACK (draw), drawing);
  atk_object_set_role (gtk_widget_get_accessible (widget), ATK_ROLE_IMAGE);
  gtk_widget_show (widget);
  return widget;
}

void
carpace_drawing_set (GtkWidget *widget, CarpaceExercise exercise, gboolean mirrored)
{
  Drawing *drawing = g_object_get_data (G_OBJECT (widget), "drawing");

  if (drawing->exercise == exercise && drawing->mirrored == mirrored)
    return;
  drawing->exercise = exercise;
  drawing->mirrored = mirrored;
  g_clear_pointer (&drawing->picture, cairo_surface_destroy);
  carpace_card_name (widget, carpace_text_exercise_drawing (exercise), NULL);
  gtk_widget_queue_draw (widget);
}
