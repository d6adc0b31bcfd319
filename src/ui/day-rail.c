/* SPDX-License-Identifier: GPL-3.0-or-later */
/* day-rail.c: a drawing area over draw/rail-paint.h. */
#include "ui/day-rail.h"

#include "draw/line-drawing.h"
#include "draw/rail-paint.h"
#include "text/day-rail-text.h"
#include "ui/card.h"

#define QUIET 0.78 /* of the ink, in the ground: 5.8 : 1 in a light theme, 6.2 : 1 in a dark one */

static CarpaceShade
shade_of (const GdkRGBA *colour)
{
  return (CarpaceShade) { colour->red, colour->green, colour->blue };
}

static CarpaceShade
mixed (CarpaceShade a, CarpaceShade b, double share)
{
  return (CarpaceShade) { share * a.red + (1 - share) * b.red, share * a.green + (1 - share) * b.green,
                          share * a.blue + (1 - share) * b.blue };
}

/* By its name, as the ground is: a window behind others is in another state, and a colour that is asked for in a state
 * the widget is not in has GTK lay the window out anew, in a frame of its own, after each drawing. */
GdkRGBA
carpace_ink_of (GtkWidget *widget)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  GdkRGBA ink;

  if (!gtk_style_context_lookup_color (style, "theme_fg_color", &ink))
    gtk_style_context_get_color (style, gtk_style_context_get_state (style), &ink);
  return ink;
}

CarpaceShades
carpace_shades_of (GtkWidget *widget)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  GdkRGBA line = carpace_ink_of (widget), behind;
  CarpaceShades shades;

  if (!gtk_style_context_lookup_color (style, "theme_bg_color", &behind))
    gdk_rgba_parse (&behind, "white");
  shades.ink = shade_of (&line);
  shades.paper = shade_of (&behind);
  shades.faint = mixed (shades.ink, shades.paper, QUIET);
  return shades;
}

static double
contrast (CarpaceShade a, CarpaceShade b)
{
  return carpace_colour_contrast ((CarpaceColour) { a.red, a.green, a.blue }, (CarpaceColour) { b.red, b.green, b.blue });
}

CarpaceShade
carpace_accent_of (GtkWidget *widget)
{
  CarpaceShades shades = carpace_shades_of (widget);
  CarpaceShade accent = shades.ink;
  GdkRGBA selected;

  if (!gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), "theme_selected_bg_color", &selected))
    return accent;
  for (double share = 0; share < 1; share += 0.1)
    {
      accent = mixed (shades.ink, shade_of (&selected), share);
      if (contrast (accent, shades.paper) >= 3)
        break;
    }
  return accent;
}

double
carpace_em_of (GtkWidget *widget)
{
  PangoContext *context = gtk_widget_get_pango_context (widget);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double size = (double) pango_font_description_get_size (font) / PANGO_SCALE;

  return pango_font_description_get_size_is_absolute (font) ? size : size * pango_cairo_context_get_resolution (context) / 72;
}

PangoLayout *
carpace_layout_of (GtkWidget *widget, const char *text)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (widget, text);
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}

static double
paint (GtkWidget *widget, cairo_t *cr, const CarpaceDayRail *day)
{
  PangoLayout *layout = carpace_layout_of (widget, NULL);
  CarpaceRailPaint rail = { .cr = cr, .shades = carpace_shades_of (widget), .em = carpace_em_of (widget),
                            .mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL,
                            .width = gtk_widget_get_allocated_width (widget) };
  double high = carpace_day_rail_paint (&rail, layout, day);

  g_object_unref (layout);
  return high;
}

static gboolean
draw (GtkWidget *widget, cairo_t *cr, const CarpaceDayRail *day)
{
  paint (widget, cr, day);
  return FALSE;
}

static void
style_updated (GtkWidget *widget, const CarpaceDayRail *day)
{
  gtk_widget_set_size_request (widget, -1, (int) (paint (widget, NULL, day) + 0.999));
}

GtkWidget *
carpace_day_rail_new (void)
{
  GtkWidget *widget = gtk_drawing_area_new ();
  CarpaceDayRail *day = g_new0 (CarpaceDayRail, 1);

  g_object_set_data_full (G_OBJECT (widget), "day", day, g_free);
  g_signal_connect (widget, "draw", G_CALLBACK (draw), day);
  g_signal_connect (widget, "style-updated", G_CALLBACK (style_updated), day);
  atk_object_set_role (gtk_widget_get_accessible (widget), ATK_ROLE_IMAGE);
  style_updated (widget, day);
  gtk_widget_show (widget);
  return widget;
}

static bool
same_moment (CarpaceInstant a, CarpaceInstant b)
{
  return a.elapsed_ms == b.elapsed_ms && a.wall_ms == b.wall_ms && a.offset_s == b.offset_s;
}

/* Field by field: what lies between fields is nobody's, and differs. */
static bool
same_day (const CarpaceDayRail *a, const CarpaceDayRail *b)
{
  bool same = a->n == b->n && a->has_bead == b->has_bead && a->bead_ms == b->bead_ms && a->bead_filled == b->bead_filled;

  for (int i = 0; same && i < a->n; i++)
    {
      const CarpaceRailPart *p = &a->part[i], *q = &b->part[i];

      same = p->kind == q->kind && p->number == q->number && p->match == q->match && same_moment (p->from, q->from)
             && same_moment (p->to, q->to) && p->practice_ms == q->practice_ms && p->tubes == q->tubes;
    }
  return same;
}

bool
carpace_day_rail_set (GtkWidget *widget, const CarpaceDayRail *day)
{
  CarpaceDayRail *kept = g_object_get_data (G_OBJECT (widget), "day");
  char *text;

  if (same_day (kept, day))
    return false;
  *kept = *day;
  text = carpace_text_day_rail (day);
  carpace_card_name (widget, text, NULL);
  g_free (text);
  gtk_widget_queue_draw (widget);
  return true;
}
