/* SPDX-License-Identifier: GPL-3.0-or-later */
/* line-drawing.c: a general SVG library takes 10 MB of memory for ten pictures of lines. */
#include "draw/line-drawing.h"

#include <glib.h>
#include <math.h>
#include <string.h>

typedef struct
{
  cairo_t *cr;
  const CarpaceLineColours *colours;
} Painting;

/* @n numbers that follow one another in a path. @return false where they do not */
static bool
take_numbers (const char **at, int n, double *ret_number)
{
  for (int i = 0; i < n; i++)
    {
      char *end;

      ret_number[i] = g_ascii_strtod (*at, &end);
      if (end == *at)
        return false;
      *at = end;
    }
  return true;
}

/* One letter of a path, and what belongs to it. */
static bool
take_segment (cairo_t *cr, const char **at)
{
  double n[6];

  switch (*(*at)++)
    {
    case 'M':
      if (!take_numbers (at, 2, n))
        return false;
      cairo_move_to (cr, n[0], n[1]);
      return true;
    case 'L':
      if (!take_numbers (at, 2, n))
        return false;
      cairo_line_to (cr, n[0], n[1]);
      return true;
    case 'C':
      if (!take_numbers (at, 6, n))
        return false;
      cairo_curve_to (cr, n[0], n[1], n[2], n[3], n[4], n[5]);
      return true;
    case 'Z':
      cairo_close_path (cr);
      return true;
    default:
      return false;
    }
}

static bool
take_path (cairo_t *cr, const char *path)
{
  cairo_new_path (cr);
  for (const char *at = path + strspn (path, " "); *at != '\0'; at += strspn (at, " "))
    if (!take_segment (cr, &at))
      return false;
  return true;
}

static bool
choose_colour (const Painting *painting, const char *word)
{
  const struct { const char *word; CarpaceColour colour; } all[] = {
    { "currentColor", painting->colours->line },
    { "backgroundColor", painting->colours->behind },
    { "shadeColor", painting->colours->shade },
    { "accentColor", painting->colours->accent },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    if (strcmp (word, all[i].word) == 0)
      {
        cairo_set_source_rgb (painting->cr, all[i].colour.red, all[i].colour.green, all[i].colour.blue);
        return true;
      }
  return false;
}

static bool
paint_path (const Painting *painting, const char *path, const char *fill, const char *stroke, const char *width)
{
  bool known = take_path (painting->cr, path);

  if (known && fill != NULL)
    {
      known = choose_colour (painting, fill);
      cairo_fill_preserve (painting->cr);
    }
  if (known && stroke != NULL)
    {
      known = choose_colour (painting, stroke);
      cairo_set_line_width (painting->cr, width != NULL ? g_ascii_strtod (width, NULL) : 1);
      cairo_stroke_preserve (painting->cr);
    }
  cairo_new_path (painting->cr);
  return known;
}

static void
element (GMarkupParseContext *context, const char *name, const char **names, const char **values, gpointer user,
         GError **error)
{
  const char *path = NULL, *fill = NULL, *stroke = NULL, *width = NULL;

  if (strcmp (name, "svg") == 0)
    return;
  if (strcmp (name, "path") == 0
      && g_markup_collect_attributes (name, names, values, error, G_MARKUP_COLLECT_STRING, "d", &path,
                                      G_MARKUP_COLLECT_STRING | G_MARKUP_COLLECT_OPTIONAL, "fill", &fill,
                                      G_MARKUP_COLLECT_STRING | G_MARKUP_COLLECT_OPTIONAL, "stroke", &stroke,
                                      G_MARKUP_COLLECT_STRING | G_MARKUP_COLLECT_OPTIONAL, "stroke-width", &width,
                                      G_MARKUP_COLLECT_INVALID)
      && paint_path (user, path, fill, stroke, width))
    return;
  if (*error == NULL)
    g_set_error (error, G_MARKUP_ERROR, G_MARKUP_ERROR_INVALID_CONTENT, "%s", name);
}

bool
carpace_line_drawing_paint (cairo_t *cr, const char *svg, size_t n, const CarpaceLineColours *colours)
{
  const GMarkupParser parser = { .start_element = element };
  Painting painting = { cr, colours };
  GMarkupParseContext *context = g_markup_parse_context_new (&parser, (GMarkupParseFlags) 0, &painting, NULL);
  bool known;

  cairo_save (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  known = g_markup_parse_context_parse (context, svg, (gssize) n, NULL) && g_markup_parse_context_end_parse (context, NULL);
  cairo_restore (cr);
  g_markup_parse_context_free (context);
  return known;
}

/* ---- colours ---- */

#define SHADE (1.0 / 6) /* our own: seen at once, and lines on it are still lines */
#define STANDS_OUT 3.0  /* WCAG 2.1, 1.4.11: parts of a graphic that are needed to understand it */
#define STEPS 20

/* WCAG 2.1, "relative luminance" */
static double
linear (double channel)
{
  return channel <= 0.03928 ? channel / 12.92 : pow ((channel + 0.055) / 1.055, 2.4);
}

static double
luminance (CarpaceColour colour)
{
  return 0.2126 * linear (colour.red) + 0.7152 * linear (colour.green) + 0.0722 * linear (colour.blue);
}

double
carpace_colour_contrast (CarpaceColour a, CarpaceColour b)
{
  double of_a = luminance (a) + 0.05, of_b = luminance (b) + 0.05;
  return of_a > of_b ? of_a / of_b : of_b / of_a;
}

static CarpaceColour
mixed (CarpaceColour from, CarpaceColour to, double share)
{
  return (CarpaceColour) { from.red + share * (to.red - from.red), from.green + share * (to.green - from.green),
                           from.blue + share * (to.blue - from.blue) };
}

CarpaceLineColours
carpace_line_colours (CarpaceColour line, CarpaceColour behind, CarpaceColour accent)
{
  CarpaceLineColours colours = { line, behind, mixed (behind, line, SHADE), accent };

  for (int i = 1; i <= STEPS && carpace_colour_contrast (colours.accent, colours.shade) < STANDS_OUT; i++)
    colours.accent = mixed (accent, line, (double) i / STEPS);
  return colours;
}
