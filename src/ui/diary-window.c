/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-window.c: the drawing, scrolled; one day chosen. */
#include "ui/diary-window.h"

#include <math.h>

#include "draw/diary-paint.h"
#include "text/diary-text.h"
#include "ui/card.h"
#include "ui/diary-detail.h"
#include "ui/diary-shades.h"

#define HEAD 42.0        /* legend and scales, points */
#define INSET 8.0
#define PLAIN_ZOOM 1.35  /* pixels a point */
#define LEAST_ZOOM 0.8
#define MOST_ZOOM 4.0
#define STEP 1.15
#define WHEEL 36.0       /* points a notch */

struct CarpaceDiaryWindow
{
  CarpaceDiary diary;
  CarpaceDiaryKeeper keeper;
  bool can_write;
  CarpaceClock clock;
  GtkWidget *window, *drawing, *bar;
  GtkAdjustment *adjustment; /* points */
  CarpaceDiaryDetail *detail;
  CarpaceDiaryModel *model;
  CarpaceDiaryLie lie;
  double *row_at; /* n_rows + 1, points */
  double zoom;
  CarpaceDay today, chosen;
  guint rereading;
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

/* Where rows lie */

static int32_t
n_rows (const CarpaceDiaryWindow *window)
{
  return window->model == NULL ? 0 : carpace_diary_model_n_rows (window->model);
}

static void
lay_out (CarpaceDiaryWindow *window)
{
  double width = gtk_widget_get_allocated_width (window->drawing) / window->zoom - 2 * INSET;
  double page = gtk_widget_get_allocated_height (window->drawing) / window->zoom - HEAD;
  int32_t n = n_rows (window);

  if (window->model == NULL)
    return;
  window->lie = carpace_diary_lie (window->model, width, CARPACE_DIARY_WORDS_TWO_LINES, true);
  window->row_at = g_renew (double, window->row_at, n + 1);
  window->row_at[0] = 0;
  for (int32_t i = 0; i < n; i++)
    window->row_at[i + 1]
      = window->row_at[i] + carpace_diary_row_height (&window->lie, carpace_diary_model_row (window->model, i));
  gtk_adjustment_configure (window->adjustment,
                            CLAMP (gtk_adjustment_get_value (window->adjustment), 0, MAX (0, window->row_at[n] - page)), 0,
                            window->row_at[n], WHEEL, page * 0.9, MAX (1, MIN (page, window->row_at[n])));
}

/* The row at @y points from the first one's upper edge. */
static int32_t
row_at (const CarpaceDiaryWindow *window, double y)
{
  int32_t low = 0, high = n_rows (window);

  while (low < high)
    {
      int32_t middle = low + (high - low) / 2;

      if (window->row_at[middle + 1] <= y)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* Painting */

static void
paint_chosen (CarpaceDiaryWindow *window, CarpacePen *pen, int32_t row, double y)
{
  double height = window->row_at[row + 1] - window->row_at[row];

  carpace_pen_ink (pen);
  cairo_set_line_width (pen->cr, 0.9);
  cairo_rectangle (pen->cr, -INSET / 2, y + 0.5, window->lie.width + INSET, height - 1);
  cairo_stroke (pen->cr);
}

static void
paint_rows (CarpaceDiaryWindow *window, CarpacePen *pen, double page)
{
  double value = gtk_adjustment_get_value (window->adjustment);
  int32_t chosen = carpace_diary_model_row_of (window->model, window->chosen);

  cairo_save (pen->cr);
  cairo_rectangle (pen->cr, -INSET, HEAD, window->lie.width + 2 * INSET, page);
  cairo_clip (pen->cr);
  for (int32_t row = row_at (window, value); row < n_rows (window); row++)
    {
      double y = HEAD + window->row_at[row] - value;

      if (y > HEAD + page)
        break;
      carpace_diary_paint_row (pen, &window->lie, window->model, row, y, true);
      if (row == chosen)
        paint_chosen (window, pen, row, y);
    }
  cairo_restore (pen->cr);
}

static gboolean
draw (GtkWidget *widget, cairo_t *cr, CarpaceDiaryWindow *window)
{
  CarpaceShades shades = carpace_diary_shades (widget);
  CarpacePen pen;

  cairo_set_source_rgb (cr, shades.paper.red, shades.paper.green, shades.paper.blue);
  cairo_paint (cr);
  if (window->model == NULL || n_rows (window) == 0)
    return FALSE;
  cairo_scale (cr, window->zoom, window->zoom);
  cairo_translate (cr, INSET, 0);
  carpace_pen_init (&pen, cr, &shades);
  carpace_diary_paint_legend (&pen, &window->lie, window->lie.rail_from - 5, 3);
  carpace_diary_paint_head (&pen, &window->lie, 16);
  paint_rows (window, &pen, gtk_widget_get_allocated_height (widget) / window->zoom - HEAD);
  carpace_pen_clear (&pen);
  if (gtk_widget_has_focus (widget))
    gtk_render_focus (gtk_widget_get_style_context (widget), cr, -INSET + 1, 1,
                      gtk_widget_get_allocated_width (widget) / window->zoom - 2,
                      gtk_widget_get_allocated_height (widget) / window->zoom - 2);
  return FALSE;
}

/* Choosing */

static void
scroll_into_view (CarpaceDiaryWindow *window, int32_t row)
{
  if (row >= 0 && row < n_rows (window))
    gtk_adjustment_clamp_page (window->adjustment, window->row_at[row], window->row_at[row + 1]);
}

static void
show_chosen (CarpaceDiaryWindow *window)
{
  int32_t row = window->model == NULL ? -1 : carpace_diary_model_row_of (window->model, window->chosen);
  int32_t sum = row < 0 ? -1 : carpace_diary_model_row (window->model, row)->sum;
  g_autofree char *sentence = NULL;

  carpace_diary_detail_show (window->detail, window->model, window->chosen,
                             window->model == NULL  ? carpace_text_diary_unreadable ()
                             : n_rows (window) == 0 ? carpace_text_diary_empty ()
                                                    : NULL);
  sentence = carpace_text_day_sentence (window->chosen, sum < 0 ? NULL : carpace_diary_model_sum (window->model, sum));
  carpace_card_name (window->drawing, sentence, carpace_text_diary_keys ());
  gtk_widget_queue_draw (window->drawing);
}

static void
choose_row (CarpaceDiaryWindow *window, int32_t row, int32_t towards)
{
  row = CLAMP (row, 0, n_rows (window) - 1);
  while (row > 0 && row < n_rows (window) - 1
         && carpace_diary_model_row (window->model, row)->kind != CARPACE_DIARY_ROW_DAY)
    row += towards;
  while (row > 0 && carpace_diary_model_row (window->model, row)->kind != CARPACE_DIARY_ROW_DAY)
    row--;
  if (row < 0)
    return;
  window->chosen = carpace_diary_model_row (window->model, row)->first;
  scroll_into_view (window, row);
  show_chosen (window);
}

static void
zoom_to (CarpaceDiaryWindow *window, double zoom)
{
  zoom = CLAMP (zoom, LEAST_ZOOM, MOST_ZOOM);
  if (fabs (zoom - window->zoom) < 0.001)
    return;
  window->zoom = zoom;
  lay_out (window);
  if (window->model != NULL)
    scroll_into_view (window, carpace_diary_model_row_of (window->model, window->chosen));
  gtk_widget_queue_draw (window->drawing);
}

/* What comes in */

static gboolean
key (GtkWidget *widget, GdkEventKey *event, CarpaceDiaryWindow *window)
{
  int32_t row = n_rows (window) == 0 ? -1 : carpace_diary_model_row_of (window->model, window->chosen);
  int32_t leap = 7;

  switch (event->keyval)
    {
    case GDK_KEY_plus: case GDK_KEY_equal: case GDK_KEY_KP_Add:
      zoom_to (window, window->zoom * STEP);
      return TRUE;
    case GDK_KEY_minus: case GDK_KEY_KP_Subtract:
      zoom_to (window, window->zoom / STEP);
      return TRUE;
    case GDK_KEY_0: case GDK_KEY_KP_0:
      zoom_to (window, PLAIN_ZOOM);
      return TRUE;
    default:
      break;
    }
  if (row < 0)
    return FALSE;
  switch (event->keyval)
    {
    case GDK_KEY_Up: case GDK_KEY_KP_Up:
      choose_row (window, row - 1, -1);
      return TRUE;
    case GDK_KEY_Down: case GDK_KEY_KP_Down:
      choose_row (window, row + 1, 1);
      return TRUE;
    case GDK_KEY_Page_Up: case GDK_KEY_KP_Page_Up:
      choose_row (window, row - leap, -1);
      return TRUE;
    case GDK_KEY_Page_Down: case GDK_KEY_KP_Page_Down:
      choose_row (window, row + leap, 1);
      return TRUE;
    case GDK_KEY_Home: case GDK_KEY_KP_Home:
      choose_row (window, 0, 1);
      return TRUE;
    case GDK_KEY_End: case GDK_KEY_KP_End:
      choose_row (window, n_rows (window) - 1, -1);
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
window_key (GtkWidget *widget, GdkEventKey *event, CarpaceDiaryWindow *window)
{
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  gtk_widget_hide (window->window);
  return TRUE;
}

static gboolean
pressed (GtkWidget *widget, GdkEventButton *event, CarpaceDiaryWindow *window)
{
  double y = event->y / window->zoom - HEAD;

  gtk_widget_grab_focus (widget);
  if (y >= 0 && n_rows (window) > 0)
    choose_row (window, row_at (window, y + gtk_adjustment_get_value (window->adjustment)), -1);
  return TRUE;
}

static gboolean
wheel (GtkWidget *widget, GdkEventScroll *event, CarpaceDiaryWindow *window)
{
  double by = 0;

  if (event->direction == GDK_SCROLL_SMOOTH)
    by = event->delta_y;
  else if (event->direction == GDK_SCROLL_UP || event->direction == GDK_SCROLL_DOWN)
    by = event->direction == GDK_SCROLL_UP ? -1 : 1;
  if (event->state & GDK_CONTROL_MASK)
    zoom_to (window, window->zoom * pow (STEP, -by));
  else
    gtk_adjustment_set_value (window->adjustment, gtk_adjustment_get_value (window->adjustment) + by * WHEEL);
  return TRUE;
}

static void
allocated (GtkWidget *widget, GtkAllocation *allocation, CarpaceDiaryWindow *window)
{
  lay_out (window);
  gtk_widget_queue_draw (widget);
}

static void
larger (GtkWidget *button, CarpaceDiaryWindow *window)
{
  zoom_to (window, window->zoom * STEP);
}

static void
smaller (GtkWidget *button, CarpaceDiaryWindow *window)
{
  zoom_to (window, window->zoom / STEP);
}

/* Reading and writing */

static void
read_diary (CarpaceDiaryWindow *window)
{
  if (window->model == NULL)
    window->model = carpace_diary_model_new (&window->diary, CARPACE_NO_DAY, window->today);
  else
    carpace_diary_model_reread (window->model);
  lay_out (window);
  show_chosen (window);
}

static gboolean
reread (void *user)
{
  CarpaceDiaryWindow *window = user;

  window->rereading = 0;
  read_diary (window);
  return G_SOURCE_REMOVE;
}

/* In an idle moment: the widget that asked for it may be one that goes. */
static void
reread_soon (CarpaceDiaryWindow *window)
{
  if (window->rereading == 0)
    window->rereading = g_idle_add (reread, window);
}

static bool
correct (void *self, int64_t rating_id, int32_t discomfort, CarpaceSite site)
{
  CarpaceDiaryWindow *window = self;
  CarpaceInstant now = window->clock.now (window->clock.self);

  if (!window->keeper.correct (window->keeper.self, rating_id, discomfort, discomfort == 0 ? CARPACE_SITE_NONE : site, now))
    return false;
  reread_soon (window);
  return true;
}

static bool
note (void *self, CarpaceDay day, const char *text)
{
  CarpaceDiaryWindow *window = self;

  if (!window->keeper.note_day (window->keeper.self, day, text))
    return false;
  reread_soon (window);
  return true;
}

/* The window */

static GtkWidget *
buttons (CarpaceDiaryWindow *window)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *nearer = gtk_button_new_with_mnemonic (carpace_text_diary_nearer ());
  GtkWidget *further = gtk_button_new_with_mnemonic (carpace_text_diary_further ());

  g_object_set (box, "margin", 6, NULL);
  g_signal_connect (nearer, "clicked", G_CALLBACK (larger), window);
  g_signal_connect (further, "clicked", G_CALLBACK (smaller), window);
  gtk_container_add (GTK_CONTAINER (box), nearer);
  gtk_container_add (GTK_CONTAINER (box), further);
  return box;
}

static GtkWidget *
drawing_new (CarpaceDiaryWindow *window)
{
  GtkWidget *drawing = gtk_drawing_area_new ();

  gtk_widget_set_can_focus (drawing, TRUE);
  gtk_widget_add_events (drawing, GDK_BUTTON_PRESS_MASK | GDK_SCROLL_MASK | GDK_SMOOTH_SCROLL_MASK | GDK_KEY_PRESS_MASK);
  gtk_widget_set_size_request (drawing, 420, 240);
  gtk_widget_set_hexpand (drawing, TRUE);
  gtk_widget_set_vexpand (drawing, TRUE);
  g_signal_connect (drawing, "draw", G_CALLBACK (draw), window);
  g_signal_connect (drawing, "key-press-event", G_CALLBACK (key), window);
  g_signal_connect (drawing, "button-press-event", G_CALLBACK (pressed), window);
  g_signal_connect (drawing, "scroll-event", G_CALLBACK (wheel), window);
  g_signal_connect (drawing, "size-allocate", G_CALLBACK (allocated), window);
  return drawing;
}

static void
build (CarpaceDiaryWindow *window)
{
  GtkWidget *grid = gtk_grid_new ();

  window->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (window->window, "diary-window");
  gtk_window_set_title (GTK_WINDOW (window->window), carpace_text_diary_title ());
  gtk_window_set_icon_name (GTK_WINDOW (window->window), "org.carpace.Carpace");
  gtk_window_set_default_size (GTK_WINDOW (window->window), 1120, 720);
  g_signal_connect (window->window, "delete-event", G_CALLBACK (gtk_widget_hide_on_delete), NULL);
  g_signal_connect (window->window, "key-press-event", G_CALLBACK (window_key), window);
  window->adjustment = gtk_adjustment_new (0, 0, 1, WHEEL, 1, 1);
  g_object_ref_sink (window->adjustment);
  window->drawing = drawing_new (window);
  window->bar = gtk_scrollbar_new (GTK_ORIENTATION_VERTICAL, window->adjustment);
  g_signal_connect_swapped (window->adjustment, "value-changed", G_CALLBACK (gtk_widget_queue_draw), window->drawing);
  gtk_grid_attach (GTK_GRID (grid), window->drawing, 0, 0, 1, 2);
  gtk_grid_attach (GTK_GRID (grid), window->bar, 1, 0, 1, 2);
  gtk_grid_attach (GTK_GRID (grid), buttons (window), 2, 0, 1, 1);
  gtk_widget_set_vexpand (carpace_diary_detail_widget (window->detail), TRUE);
  gtk_grid_attach (GTK_GRID (grid), carpace_diary_detail_widget (window->detail), 2, 1, 1, 1);
  gtk_container_add (GTK_CONTAINER (window->window), grid);
  gtk_widget_show_all (grid);
}

CarpaceDiaryWindow *
carpace_diary_window_new (const CarpaceDiary *diary, const CarpaceDiaryKeeper *keeper, const CarpaceClock *clock)
{
  CarpaceDiaryWindow *window = g_new0 (CarpaceDiaryWindow, 1);
  CarpaceDiaryDetailOwner owner = { .self = window, .correct = correct, .note = note };

  window->diary = *diary;
  window->can_write = keeper != NULL;
  if (keeper != NULL)
    window->keeper = *keeper;
  window->clock = *clock;
  window->zoom = PLAIN_ZOOM;
  window->detail = carpace_diary_detail_new (&owner, window->can_write);
  build (window);
  return window;
}

void
carpace_diary_window_free (CarpaceDiaryWindow *window)
{
  if (window == NULL)
    return;
  if (window->rereading != 0)
    g_source_remove (window->rereading);
  gtk_widget_destroy (window->window);
  carpace_diary_detail_free (window->detail);
  carpace_diary_model_free (window->model);
  g_object_unref (window->adjustment);
  g_free (window->row_at);
  g_free (window);
}

void
carpace_diary_window_show (CarpaceDiaryWindow *window, CarpaceDay today)
{
  if (window->model != NULL && today != window->today)
    g_clear_pointer (&window->model, carpace_diary_model_free);
  window->today = today;
  window->chosen = today;
  read_diary (window);
  gtk_window_present (GTK_WINDOW (window->window));
  gtk_widget_grab_focus (window->drawing);
  if (n_rows (window) > 0)
    choose_row (window, n_rows (window) - 1, -1);
  gtk_adjustment_set_value (window->adjustment, gtk_adjustment_get_upper (window->adjustment));
}

void
carpace_diary_window_hide (CarpaceDiaryWindow *window)
{
  gtk_widget_hide (window->window);
}

bool
carpace_diary_window_is_shown (const CarpaceDiaryWindow *window)
{
  return gtk_widget_get_visible (window->window);
}

void
carpace_diary_window_changed (CarpaceDiaryWindow *window)
{
  if (carpace_diary_window_is_shown (window))
    reread_soon (window);
}

GtkWindow *
carpace_diary_window_window (CarpaceDiaryWindow *window)
{
  return GTK_WINDOW (window->window);
}

CarpaceDay
carpace_diary_window_chosen (const CarpaceDiaryWindow *window)
{
  return window->chosen;
}

void
carpace_diary_window_scroll_to (CarpaceDiaryWindow *window, double points)
{
  gtk_adjustment_set_value (window->adjustment, points);
}

double
carpace_diary_window_length (const CarpaceDiaryWindow *window)
{
  return gtk_adjustment_get_upper (window->adjustment);
}

char *
carpace_diary_window_told (CarpaceDiaryWindow *window)
{
  return carpace_diary_detail_told (window->detail);
}
