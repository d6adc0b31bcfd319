/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-line-drawing.c: each drawing as a general SVG library (librsvg, by gdk-pixbuf) draws it.
 * usage: test-line-drawing FILE.svg ... */
#define _GNU_SOURCE
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <gdk-pixbuf/gdk-pixbuf.h>

#include "draw/line-drawing.h"

static char **files;
static int drawn_width, drawn_height; /* as the file at hand says */

/* Edges are smoothed by two hands: a pixel on one may differ by a part of a colour; nothing else does. */
#define MEAN_MOST 0.1   /* of 255, over a whole picture */
#define PIXELS_MOST 5   /* that differ by more than a quarter */

static cairo_surface_t *
our_own (const char *svg, gsize n, int scale)
{
  const CarpaceLineColours colours = { .line = { 0.2, 0.2, 0.2 }, .behind = { 1, 0.8, 0.6 }, .shade = { 0.6, 0.6, 0.8 },
                                       .accent = { 0, 0.4, 0.8 } };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, drawn_width * scale, drawn_height * scale);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  assert_true (carpace_line_drawing_paint (cr, svg, n, &colours));
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* @return NULL where this machine has no loader of SVG */
static GdkPixbuf *
by_the_library (const char *text, int scale)
{
  g_autoptr (GString) svg = g_string_new (text);
  g_autoptr (GInputStream) stream = NULL;

  g_string_replace (svg, "currentColor", "#333333", 0);
  g_string_replace (svg, "backgroundColor", "#ffcc99", 0);
  g_string_replace (svg, "shadeColor", "#9999cc", 0);
  g_string_replace (svg, "accentColor", "#0066cc", 0);
  g_string_replace (svg, "stroke-linecap", "style=\"background:#fff\" stroke-linecap", 1);
  stream = g_memory_input_stream_new_from_data (svg->str, (gssize) svg->len, NULL);
  return gdk_pixbuf_new_from_stream_at_scale (stream, drawn_width * scale, drawn_height * scale, TRUE, NULL, NULL);
}

static int
channel (const GdkPixbuf *of, int x, int y, int which)
{
  const guchar *pixel = gdk_pixbuf_read_pixels (of) + y * gdk_pixbuf_get_rowstride (of) + x * gdk_pixbuf_get_n_channels (of);
  int alpha = gdk_pixbuf_get_has_alpha (of) ? pixel[3] : 255;

  return (pixel[which] * alpha + 255 * (255 - alpha)) / 255; /* on white */
}

static void
compare (const char *path, cairo_surface_t *ours, const GdkPixbuf *theirs)
{
  const unsigned char *data = cairo_image_surface_get_data (ours);
  int width = cairo_image_surface_get_width (ours), height = cairo_image_surface_get_height (ours), far = 0, inked = 0;
  double sum = 0;

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        const uint32_t pixel = ((const uint32_t *) (const void *) (data + y * cairo_image_surface_get_stride (ours)))[x];
        int most = 0;

        for (int which = 0; which < 3; which++)
          {
            int by = abs ((int) (pixel >> (16 - 8 * which) & 0xff) - channel (theirs, x, y, which));

            sum += by;
            most = MAX (most, by);
          }
        far += most > 64;
        inked += (pixel & 0xffffff) != 0xffffff;
      }
  print_message ("%s, %d px wide: %.3f of 255 in the mean, %d pixels by more than a quarter\n", path, width,
                 sum / (3.0 * width * height), far);
  assert_true (inked > width * height / 50); /* something was drawn */
  assert_true (sum / (3.0 * width * height) <= MEAN_MOST);
  assert_true (far <= PIXELS_MOST);
}

static void
read_size (const char *svg)
{
  const char *box = strstr (svg, "viewBox=\"0 0 ");

  assert_non_null (box);
  assert_int_equal (sscanf (box, "viewBox=\"0 0 %d %d\"", &drawn_width, &drawn_height), 2);
}

static void
each_is_drawn_as_by_a_general_library (void **state)
{
  for (int i = 0; files[i] != NULL; i++)
    for (int scale = 1; scale <= 2; scale++)
      {
        g_autofree char *text = NULL;
        g_autoptr (GdkPixbuf) theirs = NULL;
        cairo_surface_t *ours;
        gsize n;

        assert_true (g_file_get_contents (files[i], &text, &n, NULL));
        read_size (text);
        ours = our_own (text, n, scale);
        theirs = by_the_library (text, scale);
        if (theirs != NULL)
          compare (files[i], ours, theirs);
        else
          print_message ("%s: no loader of SVG here to compare with\n", files[i]);
        cairo_surface_destroy (ours);
      }
}

/* What a drawing may be is small, and what it may not be is told, not guessed. */
static void
what_it_cannot_draw_is_told (void **state)
{
  static const char *const others[] = {
    "<svg><circle r='3'/></svg>", "<svg><path d='m1 2'/></svg>", "<svg><path d='M1'/></svg>", "<svg><path d='M1 2 L'/></svg>",
    "<svg><path d='M1 2 L3 4' stroke='red'/></svg>", "<svg><path d='M1 2' transform='none'/></svg>", "<svg><path/></svg>",
    "<svg>", "", "none",
  };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 8, 8);
  cairo_t *cr = cairo_create (surface);

  for (size_t i = 0; i < G_N_ELEMENTS (others); i++)
    if (carpace_line_drawing_paint (cr, others[i], strlen (others[i]), &(CarpaceLineColours) { 0 }))
      fail_msg ("%s was drawn", others[i]);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

/* The ratio of black and white is WCAG's own example; of 777777 on white 4.48, as its checkers say
 * (from memory). */
static void
contrast_is_the_standards (void **state)
{
  const CarpaceColour black = { 0, 0, 0 }, white = { 1, 1, 1 }, grey = { 0x77 / 255.0, 0x77 / 255.0, 0x77 / 255.0 };

  assert_true (fabs (carpace_colour_contrast (black, white) - 21) < 1e-9);
  assert_true (fabs (carpace_colour_contrast (white, grey) - 4.48) < 0.005);
  assert_true (fabs (carpace_colour_contrast (grey, grey) - 1) < 1e-9);
}

/* A desktop may mark with a colour that is lost on its own ground. */
static void
what_is_felt_stands_out_in_any_theme (void **state)
{
  static const struct { CarpaceColour line, behind, accent; } themes[] = {
    { { 0.18, 0.2, 0.21 }, { 0.96, 0.96, 0.96 }, { 0.11, 0.44, 0.85 } }, { { 0.93, 0.93, 0.93 }, { 0.21, 0.21, 0.21 }, { 0.08, 0.33, 0.62 } },
    { { 0, 0, 0 }, { 1, 1, 1 }, { 1, 1, 0.5 } },                         { { 1, 1, 1 }, { 0, 0, 0 }, { 0, 0, 0 } },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (themes); i++)
    {
      CarpaceLineColours colours = carpace_line_colours (themes[i].line, themes[i].behind, themes[i].accent);

      assert_true (carpace_colour_contrast (colours.accent, colours.behind) >= 3);
      assert_true (carpace_colour_contrast (colours.accent, colours.shade) >= 3);
      assert_true (carpace_colour_contrast (colours.line, colours.shade) >= 4.5);
    }
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_is_drawn_as_by_a_general_library), cmocka_unit_test (what_it_cannot_draw_is_told),
    cmocka_unit_test (contrast_is_the_standards), cmocka_unit_test (what_is_felt_stands_out_in_any_theme),
  };

  files = argv + 1;
  return cmocka_run_group_tests (tests, NULL, NULL);
}
