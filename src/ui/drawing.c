/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drawing.c: pictures of lines from the resources, painted when one is shown and
 * kept until size, colour or exercise change. */
#include "ui/drawing.h"

#include "carpace/names.h"
#include "draw/line-drawing.h"
#include "text/face-text.h"
#include "ui/card.h"
#include "ui/day-rail.h"

/* Of an exercise, as drawn, and as shown: large enough for a nail to be one. */
#define WIDTH 320
#define HEIGHT 240
#define WIDTH_PX 224

typedef struct { GdkRGBA line, behind, accent; } Colours;

typedef struct
{
  char *file;                   /* its name without ".svg"; NULL: none yet */
  int drawn_width, drawn_height; /* of the file */
  gboolean mirrored;
  int width;
  int scale;
  Colours colours;
  cairo_surface_t *picture;
} Drawing;

static void
drawing_free (gpointer data)
{
  Drawing *drawing = data;
  g_clear_pointer (&drawing->picture, cairo_surface_destroy);
  g_free (drawing->file);
  g_free (drawing);
}

static int
height_of (const Drawing *drawing)
{
  return drawing->width * drawing->drawn_height / drawing->drawn_width;
}

static Colours
colours_of (GtkWidget *widget)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  Colours colours;

  colours.line = carpace_ink_of (widget);
  if (!gtk_style_context_lookup_color (style, "theme_bg_color", &colours.behind))
    gdk_rgba_parse (&colours.behind, "white");
  if (!gtk_style_context_lookup_color (style, "theme_selected_bg_color", &colours.accent))
    colours.accent = colours.line;
  return colours;
}

static CarpaceColour
as_colour (const GdkRGBA *colour)
{
  return (CarpaceColour){ colour->red, colour->green, colour->blue };
}

static cairo_surface_t *
picture_of (const Drawing *drawing, const Colours *colours, int scale)
{
  const CarpaceLineColours painted = carpace_line_colours (as_colour (&colours->line), as_colour (&colours->behind), as_colour (&colours->accent));
  g_autofree char *path = g_strdup_printf ("/org/carpace/Carpace/ui/drawings/%s.svg", drawing->file ? drawing->file : "");
  GBytes *svg = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  cairo_surface_t *picture;
  cairo_t *cr;

  if (!svg)
    return NULL;
  picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, drawing->width * scale, height_of (drawing) * scale);
  cairo_surface_set_device_scale (picture, scale, scale);
  cr = cairo_create (picture);
  cairo_scale (cr, (double) drawing->width / drawing->drawn_width, (double) drawing->width / drawing->drawn_width);
  carpace_line_drawing_paint (cr, g_bytes_get_data (svg, NULL), g_bytes_get_size (svg), &painted);
  cairo_destroy (cr);
  g_bytes_unref (svg);
  return picture;
}

static gboolean
draw (GtkWidget *widget, cairo_t *cr, Drawing *drawing)
{
  Colours colours = colours_of (widget);
  int scale = gtk_widget_get_scale_factor (widget);

  if (!drawing->picture || drawing->scale != scale || !gdk_rgba_equal (&drawing->colours.line, &colours.line)
      || !gdk_rgba_equal (&drawing->colours.behind, &colours.behind) || !gdk_rgba_equal (&drawing->colours.accent, &colours.accent))
    {
      g_clear_pointer (&drawing->picture, cairo_surface_destroy);
      drawing->picture = picture_of (drawing, &colours, scale);
      drawing->scale = scale;
      drawing->colours = colours;
    }
  if (!drawing->picture)
    return FALSE;
  cairo_translate (cr, (gtk_widget_get_allocated_width (widget) - drawing->width) / 2, 0);
  if (drawing->mirrored)
    {
      cairo_translate (cr, drawing->width, 0);
      cairo_scale (cr, -1, 1);
    }
  cairo_set_source_surface (cr, drawing->picture, 0, 0);
  cairo_paint (cr);
  return FALSE;
}

GtkWidget *
carpace_drawing_new_of (int drawn_width, int drawn_height)
{
  GtkWidget *widget = gtk_drawing_area_new ();
  Drawing *drawing = g_new0 (Drawing, 1);

  drawing->drawn_width = drawing->width = drawn_width;
  drawing->drawn_height = drawn_height;
  gtk_widget_set_size_request (widget, drawn_width, drawn_height);
  gtk_style_context_add_class (gtk_widget_get_style_context (widget), "carpace-drawing");
  g_object_set_data_full (G_OBJECT (widget), "drawing", drawing, drawing_free);
  g_signal_connect (widget, "draw", G_CALLBACK (draw), drawing);
  atk_object_set_role (gtk_widget_get_accessible (widget), ATK_ROLE_IMAGE);
  gtk_widget_show (widget);
  return widget;
}

GtkWidget *
carpace_drawing_new (void)
{
  GtkWidget *widget = carpace_drawing_new_of (WIDTH, HEIGHT);

  carpace_drawing_set_width (widget, WIDTH_PX);
  return widget;
}

void
carpace_drawing_set_width (GtkWidget *widget, int width)
{
  Drawing *drawing = g_object_get_data (G_OBJECT (widget), "drawing");

  if (drawing->width == width)
    return;
  drawing->width = width;
  g_clear_pointer (&drawing->picture, cairo_surface_destroy);
  gtk_widget_set_size_request (widget, width, height_of (drawing));
}

void
carpace_drawing_set_file (GtkWidget *widget, const char *file, gboolean mirrored)
{
  Drawing *drawing = g_object_get_data (G_OBJECT (widget), "drawing");

  if (g_strcmp0 (drawing->file, file) == 0 && drawing->mirrored == mirrored)
    return;
  g_free (drawing->file);
  drawing->file = g_strdup (file);
  drawing->mirrored = mirrored;
  g_clear_pointer (&drawing->picture, cairo_surface_destroy);
  gtk_widget_queue_draw (widget);
}

gboolean
carpace_drawing_has_ends (CarpaceExercise exercise)
{
  static const gboolean ends[CARPACE_N_EXERCISES] = {
    [CARPACE_EXERCISE_FOREARM_SELF_MASSAGE] = TRUE, [CARPACE_EXERCISE_OPEN_AND_CLOSE] = TRUE, [CARPACE_EXERCISE_HOOK_FIST] = TRUE,
    [CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE] = TRUE, [CARPACE_EXERCISE_FOREARM_TURNS] = TRUE,
    [CARPACE_EXERCISE_SHOULDER_ROLLS] = TRUE, [CARPACE_EXERCISE_NECK_TURNS] = TRUE
  };

  return ends[exercise];
}

void
carpace_drawing_set (GtkWidget *widget, CarpaceExercise exercise, gboolean palm_up, int end, gboolean mirrored)
{
  const char *ending = end == 0 || !carpace_drawing_has_ends (exercise) ? "" : end == 1 ? "-1" : "-2";
  const char *name = carpace_text_exercise_drawing (exercise, palm_up);
  g_autofree char *file = g_strconcat (carpace_name (CARPACE_WORDS_EXERCISE, (int32_t) exercise), palm_up ? "-palm-up" : "", ending, NULL);

  carpace_drawing_set_file (widget, file, mirrored);
  if (g_strcmp0 (atk_object_get_name (gtk_widget_get_accessible (widget)), name) != 0) /* not told anew at each end */
    carpace_card_name (widget, name, NULL);
}

const char *
carpace_drawing_file (GtkWidget *widget)
{
  Drawing *drawing = g_object_get_data (G_OBJECT (widget), "drawing");

  return drawing->file;
}
