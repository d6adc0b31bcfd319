/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-drawing.c: where things lie, what is painted, and how it is gone through. */
#include "ui/diary-drawing.h"

#include <math.h>

#include "draw/diary-paint.h"
#include "text/diary-text.h"
#include "ui/day-rail.h"
#include "ui/diary-shades.h"

#define WEEKS 12
#define INSET 8.0
#define STEP 1.15
#define STEPS 8          /* larger than plain, at most */
#define WHEEL 36.0       /* points a notch */
#define MOST_ROWS 8      /* of a week: its days, and itself */

struct CarpaceDiaryDrawing
{
  CarpaceDiaryDrawingOwner owner;
  GtkWidget *grid, *area, *bar, *across_bar;
  GtkAdjustment *down, *across; /* points */
  CarpaceDiaryModel *model;
  char *instead;
  CarpaceDiaryLie lie;
  int32_t first_row, n_rows;     /* those of the chosen week */
  double row_at[MOST_ROWS + 1];  /* points, from the first one's upper edge */
  double legend_at, head_at, rows_at;
  int steps;                     /* of zoom, over plain */
  CarpaceDay chosen, first_monday;
};

CarpaceShades
carpace_diary_shades (GtkWidget *widget)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  GdkRGBA paper = { 1, 1, 1, 1 }, ink = { 0, 0, 0, 1 };
  const double share = 0.38;

  gtk_style_context_lookup_color (style, "theme_base_color", &paper);
  gtk_style_context_lookup_color (style, "theme_text_color", &ink);
  return (CarpaceShades) {
    .paper = { paper.red, paper.green, paper.blue },
    .ink = { ink.red, ink.green, ink.blue },
    .faint = { paper.red + share * (ink.red - paper.red), paper.green + share * (ink.green - paper.green),
               paper.blue + share * (ink.blue - paper.blue) },
  };
}

double
carpace_diary_plain_zoom (GtkWidget *widget)
{
  return carpace_em_of (widget) / CARPACE_PEN_SMALL;
}

static double
zoom_of (const CarpaceDiaryDrawing *drawing)
{
  return carpace_diary_plain_zoom (drawing->area) * pow (STEP, drawing->steps);
}

/* Where things lie */

static bool
is_of_week (const CarpaceDiaryRow *row, CarpaceDay monday)
{
  return row->last >= monday && row->first <= monday + 6;
}

static void
find_rows (CarpaceDiaryDrawing *drawing)
{
  CarpaceDay monday = carpace_diary_monday (drawing->chosen);
  int32_t row = carpace_diary_model_row_of (drawing->model, drawing->chosen);

  while (row > 0 && is_of_week (carpace_diary_model_row (drawing->model, row - 1), monday))
    row--;
  drawing->first_row = MAX (row, 0);
  drawing->n_rows = 0;
  while (row >= 0 && drawing->n_rows < MOST_ROWS && row + drawing->n_rows < carpace_diary_model_n_rows (drawing->model)
         && is_of_week (carpace_diary_model_row (drawing->model, row + drawing->n_rows), monday))
    drawing->n_rows++;
}

/* The twelve weeks stay where they are while the chosen one is among them; at first they end with it, where so many
 * were recorded. */
static void
place_strip (CarpaceDiaryDrawing *drawing)
{
  CarpaceDay monday = carpace_diary_monday (drawing->chosen);

  if (drawing->first_monday == CARPACE_NO_DAY)
    drawing->first_monday = MAX (carpace_diary_monday (carpace_diary_model_row (drawing->model, 0)->first), monday - 7 * (WEEKS - 1));
  if (monday < drawing->first_monday)
    drawing->first_monday = monday;
  if (monday > drawing->first_monday + 7 * (WEEKS - 1))
    drawing->first_monday = monday - 7 * (WEEKS - 1);
}

static void
measure (CarpaceDiaryDrawing *drawing, CarpacePen *pen)
{
  drawing->legend_at = 4 + carpace_diary_paint_strip (pen, &drawing->lie, drawing->model, drawing->first_monday, WEEKS,
                                                      drawing->chosen, 4, false) + 6;
  drawing->head_at = drawing->legend_at + carpace_diary_paint_legend (pen, &drawing->lie, 3, drawing->legend_at, false) + 2;
  drawing->rows_at = drawing->head_at + carpace_diary_paint_head (pen, &drawing->lie, drawing->head_at, false) + 2;
  drawing->row_at[0] = 0;
  for (int32_t i = 0; i < drawing->n_rows; i++)
    drawing->row_at[i + 1] = drawing->row_at[i] + carpace_diary_paint_row (pen, &drawing->lie, drawing->model,
                                                                           drawing->first_row + i, 0, false);
}

static void
set_range (GtkAdjustment *adjustment, double length, double page)
{
  page = MAX (page, 1);
  gtk_adjustment_configure (adjustment, CLAMP (gtk_adjustment_get_value (adjustment), 0, MAX (0, length - page)), 0,
                            MAX (length, page), WHEEL, page * 0.9, page);
}

static void
lay_out (CarpaceDiaryDrawing *drawing)
{
  double zoom = zoom_of (drawing);
  double seen = gtk_widget_get_allocated_width (drawing->area) / zoom - 2 * INSET;
  cairo_surface_t *surface;
  CarpacePen pen = { 0 };

  if (drawing->model == NULL || drawing->first_monday == CARPACE_NO_DAY)
    return;
  surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR, NULL);
  drawing->lie = carpace_diary_lie (drawing->model, seen, CARPACE_DIARY_WORDS_CHANGES, true);
  carpace_pen_init (&pen, cairo_create (surface), &carpace_shades_paper);
  measure (drawing, &pen);
  carpace_pen_clear (&pen);
  cairo_destroy (pen.cr);
  cairo_surface_destroy (surface);
  set_range (drawing->across, drawing->lie.width, seen);
  set_range (drawing->down, drawing->row_at[drawing->n_rows],
             gtk_widget_get_allocated_height (drawing->area) / zoom - drawing->rows_at);
  gtk_widget_set_visible (drawing->across_bar, drawing->lie.width > seen + 0.5);
}

/* Painting */

static void
paint_chosen (CarpaceDiaryDrawing *drawing, CarpacePen *pen, double y, double height)
{
  carpace_pen_ink (pen);
  cairo_set_line_width (pen->cr, 0.9);
  cairo_rectangle (pen->cr, -INSET / 2, y + 0.5, drawing->lie.width + INSET, height - 1);
  cairo_stroke (pen->cr);
}

static void
paint_rows (CarpaceDiaryDrawing *drawing, CarpacePen *pen, double page)
{
  double value = gtk_adjustment_get_value (drawing->down);
  int32_t chosen = carpace_diary_model_row_of (drawing->model, drawing->chosen);

  cairo_save (pen->cr);
  cairo_rectangle (pen->cr, -INSET, drawing->rows_at, drawing->lie.width + 2 * INSET, page);
  cairo_clip (pen->cr);
  for (int32_t i = 0; i < drawing->n_rows; i++)
    {
      double y = drawing->rows_at + drawing->row_at[i] - value;

      carpace_diary_paint_row (pen, &drawing->lie, drawing->model, drawing->first_row + i, y, true);
      if (drawing->first_row + i == chosen)
        paint_chosen (drawing, pen, y, drawing->row_at[i + 1] - drawing->row_at[i]);
    }
  cairo_restore (pen->cr);
}

static void
paint_all (CarpaceDiaryDrawing *drawing, CarpacePen *pen, double height)
{
  carpace_diary_paint_strip (pen, &drawing->lie, drawing->model, drawing->first_monday, WEEKS, drawing->chosen, 4, true);
  carpace_diary_paint_legend (pen, &drawing->lie, 3, drawing->legend_at, true);
  carpace_diary_paint_head (pen, &drawing->lie, drawing->head_at, true);
  paint_rows (drawing, pen, height - drawing->rows_at);
}

static void
paint_instead (CarpaceDiaryDrawing *drawing, CarpacePen *pen, double width)
{
  carpace_pen_ink (pen);
  carpace_pen_column (pen, 12, 24, width - 2 * INSET - 24, CARPACE_PEN_PLAIN, 0, true, drawing->instead);
}

static gboolean
draw (GtkWidget *widget, cairo_t *cr, CarpaceDiaryDrawing *drawing)
{
  CarpaceShades shades = carpace_diary_shades (widget);
  double zoom = zoom_of (drawing);
  double width = gtk_widget_get_allocated_width (widget) / zoom, height = gtk_widget_get_allocated_height (widget) / zoom;
  CarpacePen pen;

  cairo_set_source_rgb (cr, shades.paper.red, shades.paper.green, shades.paper.blue);
  cairo_paint (cr);
  cairo_save (cr);
  cairo_scale (cr, zoom, zoom);
  cairo_translate (cr, INSET - gtk_adjustment_get_value (drawing->across), 0);
  carpace_pen_init (&pen, cr, &shades);
  if (drawing->instead != NULL)
    paint_instead (drawing, &pen, width);
  else if (drawing->model != NULL)
    paint_all (drawing, &pen, height);
  carpace_pen_clear (&pen);
  cairo_restore (cr);
  if (gtk_widget_has_focus (widget))
    gtk_render_focus (gtk_widget_get_style_context (widget), cr, 1, 1, gtk_widget_get_allocated_width (widget) - 2,
                      gtk_widget_get_allocated_height (widget) - 2);
  return FALSE;
}

/* Choosing */

static void
choose_row (CarpaceDiaryDrawing *drawing, int32_t row, int32_t towards)
{
  int32_t n = drawing->model == NULL ? 0 : carpace_diary_model_n_rows (drawing->model);

  row = CLAMP (row, 0, n - 1);
  while (row > 0 && row < n - 1 && carpace_diary_model_row (drawing->model, row)->kind != CARPACE_DIARY_ROW_DAY)
    row += towards;
  while (row > 0 && carpace_diary_model_row (drawing->model, row)->kind != CARPACE_DIARY_ROW_DAY)
    row--;
  if (row < 0)
    return;
  drawing->chosen = carpace_diary_model_row (drawing->model, row)->first;
  place_strip (drawing);
  find_rows (drawing);
  lay_out (drawing);
  row -= drawing->first_row;
  if (row >= 0 && row < drawing->n_rows)
    gtk_adjustment_clamp_page (drawing->down, drawing->row_at[row], drawing->row_at[row + 1]);
  gtk_widget_queue_draw (drawing->area);
  drawing->owner.chosen (drawing->owner.self, drawing->chosen);
}

/* The same weekday @weeks on, or the nearest there is. */
static void
choose_week (CarpaceDiaryDrawing *drawing, int32_t weeks)
{
  int32_t n = carpace_diary_model_n_rows (drawing->model);
  CarpaceDay day = CLAMP (drawing->chosen + 7 * weeks, carpace_diary_model_row (drawing->model, 0)->first,
                          carpace_diary_model_row (drawing->model, n - 1)->last);

  choose_row (drawing, carpace_diary_model_row_of (drawing->model, day), weeks < 0 ? -1 : 1);
}

void
carpace_diary_drawing_choose (CarpaceDiaryDrawing *drawing, CarpaceDay day)
{
  int32_t n = drawing->model == NULL ? 0 : carpace_diary_model_n_rows (drawing->model);
  int32_t row = n == 0 ? -1 : carpace_diary_model_row_of (drawing->model, day);

  if (n > 0)
    choose_row (drawing, row < 0 ? n - 1 : row, -1);
}

void
carpace_diary_drawing_zoom (CarpaceDiaryDrawing *drawing, int steps)
{
  drawing->steps = CLAMP (drawing->steps + steps, 0, STEPS);
  lay_out (drawing);
  gtk_widget_queue_draw (drawing->area);
}

/* What comes in */

static gboolean
key_of_zoom (CarpaceDiaryDrawing *drawing, guint keyval)
{
  switch (keyval)
    {
    case GDK_KEY_plus: case GDK_KEY_equal: case GDK_KEY_KP_Add:
      carpace_diary_drawing_zoom (drawing, 1);
      return TRUE;
    case GDK_KEY_minus: case GDK_KEY_KP_Subtract:
      carpace_diary_drawing_zoom (drawing, -1);
      return TRUE;
    case GDK_KEY_0: case GDK_KEY_KP_0:
      carpace_diary_drawing_zoom (drawing, -STEPS);
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
key (GtkWidget *widget, GdkEventKey *event, CarpaceDiaryDrawing *drawing)
{
  int32_t n = drawing->model == NULL ? 0 : carpace_diary_model_n_rows (drawing->model);
  int32_t row = n == 0 ? -1 : carpace_diary_model_row_of (drawing->model, drawing->chosen);

  if (key_of_zoom (drawing, event->keyval))
    return TRUE;
  if (row < 0)
    return FALSE;
  switch (event->keyval)
    {
    case GDK_KEY_Up: case GDK_KEY_KP_Up:
      choose_row (drawing, row - 1, -1);
      return TRUE;
    case GDK_KEY_Down: case GDK_KEY_KP_Down:
      choose_row (drawing, row + 1, 1);
      return TRUE;
    case GDK_KEY_Left: case GDK_KEY_KP_Left: case GDK_KEY_Page_Up: case GDK_KEY_KP_Page_Up:
      choose_week (drawing, -1);
      return TRUE;
    case GDK_KEY_Right: case GDK_KEY_KP_Right: case GDK_KEY_Page_Down: case GDK_KEY_KP_Page_Down:
      choose_week (drawing, 1);
      return TRUE;
    case GDK_KEY_Home: case GDK_KEY_KP_Home:
      choose_row (drawing, 0, 1);
      return TRUE;
    case GDK_KEY_End: case GDK_KEY_KP_End:
      choose_row (drawing, n - 1, -1);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
pressed_on_row (CarpaceDiaryDrawing *drawing, double y)
{
  for (int32_t i = 0; i < drawing->n_rows; i++)
    if (y >= drawing->row_at[i] && y < drawing->row_at[i + 1])
      {
        choose_row (drawing, drawing->first_row + i, -1);
        return;
      }
}

static gboolean
pressed (GtkWidget *widget, GdkEventButton *event, CarpaceDiaryDrawing *drawing)
{
  double x = event->x / zoom_of (drawing) - INSET + gtk_adjustment_get_value (drawing->across);
  double y = event->y / zoom_of (drawing);
  int32_t week = drawing->model == NULL ? -1 : carpace_diary_strip_week_at (&drawing->lie, WEEKS, x);

  gtk_widget_grab_focus (widget);
  if (drawing->model == NULL || carpace_diary_model_n_rows (drawing->model) == 0)
    return TRUE;
  if (y < drawing->legend_at && week >= 0)
    choose_week (drawing, (drawing->first_monday - carpace_diary_monday (drawing->chosen)) / 7 + week);
  else if (y >= drawing->rows_at)
    pressed_on_row (drawing, y - drawing->rows_at + gtk_adjustment_get_value (drawing->down));
  return TRUE;
}

static gboolean
wheel (GtkWidget *widget, GdkEventScroll *event, CarpaceDiaryDrawing *drawing)
{
  double by = 0;

  if (event->direction == GDK_SCROLL_SMOOTH)
    by = event->delta_y;
  else if (event->direction == GDK_SCROLL_UP || event->direction == GDK_SCROLL_DOWN)
    by = event->direction == GDK_SCROLL_UP ? -1 : 1;
  if (event->state & GDK_CONTROL_MASK)
    carpace_diary_drawing_zoom (drawing, by < 0 ? 1 : by > 0 ? -1 : 0);
  else
    gtk_adjustment_set_value (drawing->down, gtk_adjustment_get_value (drawing->down) + by * WHEEL);
  return TRUE;
}

static void
moved (CarpaceDiaryDrawing *drawing)
{
  lay_out (drawing);
  gtk_widget_queue_draw (drawing->area);
}

/* The drawing */

static GtkAdjustment *
make_bar (CarpaceDiaryDrawing *drawing, GtkOrientation orientation, GtkWidget **ret_bar)
{
  GtkAdjustment *adjustment = g_object_ref_sink (gtk_adjustment_new (0, 0, 1, WHEEL, 1, 1));

  *ret_bar = gtk_scrollbar_new (orientation, adjustment);
  g_signal_connect_swapped (adjustment, "value-changed", G_CALLBACK (gtk_widget_queue_draw), drawing->area);
  return adjustment;
}

static void
make_area (CarpaceDiaryDrawing *drawing)
{
  drawing->area = gtk_drawing_area_new ();
  gtk_widget_set_name (drawing->area, "diary-drawing");
  gtk_widget_set_can_focus (drawing->area, TRUE);
  gtk_widget_add_events (drawing->area,
                         GDK_BUTTON_PRESS_MASK | GDK_SCROLL_MASK | GDK_SMOOTH_SCROLL_MASK | GDK_KEY_PRESS_MASK);
  gtk_widget_set_size_request (drawing->area, 420, 320);
  gtk_widget_set_hexpand (drawing->area, TRUE);
  gtk_widget_set_vexpand (drawing->area, TRUE);
  g_signal_connect (drawing->area, "draw", G_CALLBACK (draw), drawing);
  g_signal_connect (drawing->area, "key-press-event", G_CALLBACK (key), drawing);
  g_signal_connect (drawing->area, "button-press-event", G_CALLBACK (pressed), drawing);
  g_signal_connect (drawing->area, "scroll-event", G_CALLBACK (wheel), drawing);
  g_signal_connect_swapped (drawing->area, "size-allocate", G_CALLBACK (moved), drawing);
  g_signal_connect_swapped (drawing->area, "style-updated", G_CALLBACK (moved), drawing);
}

CarpaceDiaryDrawing *
carpace_diary_drawing_new (const CarpaceDiaryDrawingOwner *owner)
{
  CarpaceDiaryDrawing *drawing = g_new0 (CarpaceDiaryDrawing, 1);

  drawing->owner = *owner;
  drawing->first_monday = CARPACE_NO_DAY;
  make_area (drawing);
  drawing->down = make_bar (drawing, GTK_ORIENTATION_VERTICAL, &drawing->bar);
  drawing->across = make_bar (drawing, GTK_ORIENTATION_HORIZONTAL, &drawing->across_bar);
  drawing->grid = gtk_grid_new ();
  gtk_grid_attach (GTK_GRID (drawing->grid), drawing->area, 0, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (drawing->grid), drawing->bar, 1, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (drawing->grid), drawing->across_bar, 0, 1, 1, 1);
  gtk_widget_show_all (drawing->grid);
  gtk_widget_set_no_show_all (drawing->across_bar, TRUE);
  gtk_widget_hide (drawing->across_bar);
  return drawing;
}

void
carpace_diary_drawing_free (CarpaceDiaryDrawing *drawing)
{
  if (drawing == NULL)
    return;
  g_object_unref (drawing->down);
  g_object_unref (drawing->across);
  g_free (drawing->instead);
  g_free (drawing);
}

GtkWidget *
carpace_diary_drawing_widget (CarpaceDiaryDrawing *drawing)
{
  return drawing->grid;
}

GtkWidget *
carpace_diary_drawing_area (CarpaceDiaryDrawing *drawing)
{
  return drawing->area;
}

void
carpace_diary_drawing_set (CarpaceDiaryDrawing *drawing, CarpaceDiaryModel *model, const char *instead)
{
  drawing->model = instead == NULL ? model : NULL;
  g_free (drawing->instead);
  drawing->instead = g_strdup (instead);
  if (drawing->model != NULL && drawing->first_monday != CARPACE_NO_DAY)
    find_rows (drawing);
  moved (drawing);
}

CarpaceDay
carpace_diary_drawing_strip (const CarpaceDiaryDrawing *drawing)
{
  return drawing->first_monday;
}

CarpaceDay
carpace_diary_drawing_monday (const CarpaceDiaryDrawing *drawing)
{
  return carpace_diary_monday (drawing->chosen);
}

double
carpace_diary_drawing_zoomed (const CarpaceDiaryDrawing *drawing)
{
  return zoom_of (drawing);
}

double
carpace_diary_drawing_wide (const CarpaceDiaryDrawing *drawing, double *ret_seen)
{
  *ret_seen = gtk_adjustment_get_page_size (drawing->across);
  return drawing->lie.width;
}
