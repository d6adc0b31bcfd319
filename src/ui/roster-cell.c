/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-cell.c: a cell renderer over draw/roster-paint.h. */
#include "ui/roster-cell.h"

#include "ui/day-rail.h"

#define HIGH 2.4 /* of the text's size */
#define WIDE 14.0

struct _CarpaceRosterCell
{
  GtkCellRenderer parent;
  CarpaceDay last_monday;
  int64_t longest_ms;
  const CarpaceRosterRow *row;
};

G_DEFINE_TYPE (CarpaceRosterCell, carpace_roster_cell, GTK_TYPE_CELL_RENDERER)

static void
wide (GtkCellRenderer *renderer, GtkWidget *widget, int *least, int *natural)
{
  *least = *natural = (int) (WIDE * carpace_em_of (widget));
}

static void
high (GtkCellRenderer *renderer, GtkWidget *widget, int *least, int *natural)
{
  const CarpaceRosterCell *cell = CARPACE_ROSTER_CELL (renderer);

  *least = *natural = cell->row != NULL ? (int) (HIGH * carpace_em_of (widget)) : 0;
}

/* In the row's own colours: a chosen one has others. */
static CarpaceShades
shades_of (GtkWidget *widget, GtkCellRendererState flags)
{
  CarpaceShades shades = carpace_shades_of (widget);
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  GdkRGBA ink, paper;

  if ((flags & GTK_CELL_RENDERER_SELECTED) == 0)
    return shades;
  gtk_style_context_get_color (style, gtk_style_context_get_state (style), &ink);
  shades.ink = shades.faint = (CarpaceShade){ ink.red, ink.green, ink.blue };
  if (gtk_style_context_lookup_color (style, "theme_selected_bg_color", &paper)) /* what a ring has within */
    shades.paper = (CarpaceShade){ paper.red, paper.green, paper.blue };
  return shades;
}

static void
render (GtkCellRenderer *renderer, cairo_t *cr, GtkWidget *widget, const GdkRectangle *background, const GdkRectangle *area,
        GtkCellRendererState flags)
{
  const CarpaceRosterCell *cell = CARPACE_ROSTER_CELL (renderer);
  const CarpaceShades shades = shades_of (widget, flags);
  double height = MIN (area->height, HIGH * carpace_em_of (widget)); /* as high in a row whose reasons take more lines */
  const CarpaceRosterLie lie = { .x = area->x, .y = area->y + (area->height - height) / 2, .width = area->width, .height = height,
                                 .mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL,
                                 .last_monday = cell->last_monday, .longest_ms = cell->longest_ms };

  if (cell->row != NULL)
    carpace_roster_paint (cr, &shades, &lie, cell->row);
}

static void
carpace_roster_cell_class_init (CarpaceRosterCellClass *class)
{
  GtkCellRendererClass *renderer = GTK_CELL_RENDERER_CLASS (class);

  renderer->get_preferred_width = wide;
  renderer->get_preferred_height = high;
  renderer->render = render;
}

static void
carpace_roster_cell_init (CarpaceRosterCell *cell)
{
}

GtkCellRenderer *
carpace_roster_cell_new (CarpaceDay last_monday, int64_t longest_ms)
{
  CarpaceRosterCell *cell = g_object_new (carpace_roster_cell_get_type (), NULL);

  cell->last_monday = last_monday;
  cell->longest_ms = longest_ms;
  return GTK_CELL_RENDERER (cell);
}

void
carpace_roster_cell_set (CarpaceRosterCell *cell, const CarpaceRosterRow *row)
{
  cell->row = row;
}
