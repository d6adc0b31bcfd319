/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pen.c: one layout, three shades, five marks. */
#include "pen.h"

#include <glib.h>

const CarpaceShades carpace_shades_paper = {
  .paper = { 1, 1, 1 }, .ink = { 0.10, 0.11, 0.13 }, .faint = { 0.66, 0.67, 0.69 }
};

#define THIN 0.7

void
carpace_pen_init (CarpacePen *pen, cairo_t *cr, const CarpaceShades *shades)
{
  cairo_font_options_t *options = cairo_font_options_create ();

  pen->cr = cr;
  pen->layout = pango_cairo_create_layout (cr);
  pen->shades = *shades;
  /* Glyphs keep their own widths, so that a line breaks alike everywhere. */
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (pango_layout_get_context (pen->layout), options);
  pango_cairo_context_set_resolution (pango_layout_get_context (pen->layout), 72);
  pango_context_set_round_glyph_positions (pango_layout_get_context (pen->layout), FALSE);
  cairo_font_options_destroy (options);
}

void
carpace_pen_clear (CarpacePen *pen)
{
  g_clear_object (&pen->layout);
}

static void
shade (CarpacePen *pen, CarpaceShade shade)
{
  cairo_set_source_rgb (pen->cr, shade.red, shade.green, shade.blue);
}

void
carpace_pen_ink (CarpacePen *pen)
{
  shade (pen, pen->shades.ink);
}

void
carpace_pen_faint (CarpacePen *pen)
{
  shade (pen, pen->shades.faint);
}

static void
set_text (CarpacePen *pen, double points, PangoWeight weight, const char *text)
{
  PangoFontDescription *font = pango_font_description_new ();

  pango_font_description_set_family_static (font, "Sans");
  pango_font_description_set_stretch (font, PANGO_STRETCH_CONDENSED);
  pango_font_description_set_weight (font, weight);
  pango_font_description_set_size (font, (int) (points * PANGO_SCALE));
  pango_layout_set_font_description (pen->layout, font);
  pango_font_description_free (font);
  pango_layout_set_width (pen->layout, -1);
  pango_layout_set_height (pen->layout, -1);
  pango_layout_set_ellipsize (pen->layout, PANGO_ELLIPSIZE_NONE);
  pango_layout_set_text (pen->layout, text, -1);
}

static double
width_set (CarpacePen *pen)
{
  int width;

  pango_layout_get_size (pen->layout, &width, NULL);
  return (double) width / PANGO_SCALE;
}

static void
show_line (CarpacePen *pen, double x, double y, CarpacePenStand stand)
{
  if (stand == CARPACE_PEN_MIDDLE)
    x -= width_set (pen) / 2;
  if (stand == CARPACE_PEN_TO)
    x -= width_set (pen);
  cairo_move_to (pen->cr, x, y);
  pango_cairo_show_layout (pen->cr, pen->layout);
}

void
carpace_pen_text (CarpacePen *pen, double x, double y, double points, CarpacePenStand stand, const char *text)
{
  set_text (pen, points, PANGO_WEIGHT_NORMAL, text);
  show_line (pen, x, y, stand);
}

void
carpace_pen_bold (CarpacePen *pen, double x, double y, double points, CarpacePenStand stand, const char *text)
{
  set_text (pen, points, PANGO_WEIGHT_BOLD, text);
  show_line (pen, x, y, stand);
}

double
carpace_pen_column (CarpacePen *pen, double x, double y, double width, double points, int lines, bool draw,
                    const char *text)
{
  int height;

  set_text (pen, points, PANGO_WEIGHT_NORMAL, text);
  pango_layout_set_width (pen->layout, (int) (width * PANGO_SCALE));
  pango_layout_set_wrap (pen->layout, PANGO_WRAP_WORD_CHAR);
  if (lines > 0)
    {
      pango_layout_set_height (pen->layout, -lines);
      pango_layout_set_ellipsize (pen->layout, PANGO_ELLIPSIZE_END);
    }
  pango_layout_get_size (pen->layout, NULL, &height);
  if (draw)
    show_line (pen, x, y, CARPACE_PEN_FROM);
  return (double) height / PANGO_SCALE;
}

double
carpace_pen_width (CarpacePen *pen, double points, const char *text)
{
  set_text (pen, points, PANGO_WEIGHT_NORMAL, text);
  return width_set (pen);
}

void
carpace_pen_line (CarpacePen *pen, double x0, double y0, double x1, double y1, double width)
{
  cairo_set_line_width (pen->cr, width);
  cairo_move_to (pen->cr, x0, y0);
  cairo_line_to (pen->cr, x1, y1);
  cairo_stroke (pen->cr);
}

/* The outline that was drawn: filled with ink, or open on paper. */
static void
finish (CarpacePen *pen, bool filled)
{
  cairo_set_line_width (pen->cr, THIN);
  if (filled)
    carpace_pen_ink (pen);
  else
    shade (pen, pen->shades.paper);
  cairo_fill_preserve (pen->cr);
  carpace_pen_ink (pen);
  cairo_stroke (pen->cr);
}

void
carpace_pen_ring (CarpacePen *pen, double x, double y, double size)
{
  cairo_new_sub_path (pen->cr);
  cairo_arc (pen->cr, x, y, size / 2, 0, 2 * G_PI);
  finish (pen, false);
}

void
carpace_pen_bead (CarpacePen *pen, double x, double y, double size)
{
  cairo_new_sub_path (pen->cr);
  cairo_arc (pen->cr, x, y, size / 2, 0, 2 * G_PI);
  finish (pen, true);
}

void
carpace_pen_square (CarpacePen *pen, double x, double y, double size, bool filled)
{
  cairo_rectangle (pen->cr, x - size / 2, y - size / 2, size, size);
  finish (pen, filled);
}

void
carpace_pen_triangle (CarpacePen *pen, double x, double y, double size)
{
  cairo_move_to (pen->cr, x, y - size / 2);
  cairo_line_to (pen->cr, x + size / 2, y + size / 2);
  cairo_line_to (pen->cr, x - size / 2, y + size / 2);
  cairo_close_path (pen->cr);
  finish (pen, false);
}

void
carpace_pen_diamond (CarpacePen *pen, double x, double y, double size)
{
  cairo_move_to (pen->cr, x, y - size / 2);
  cairo_line_to (pen->cr, x + size / 2, y);
  cairo_line_to (pen->cr, x, y + size / 2);
  cairo_line_to (pen->cr, x - size / 2, y);
  cairo_close_path (pen->cr);
  finish (pen, false);
}
