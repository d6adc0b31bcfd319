/* SPDX-License-Identifier: GPL-3.0-or-later */
/* wrist-dial.c: shaded is the palm's side, as in the drawings of exercises. */
#include "ui/wrist-dial.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/card.h"
#include "ui/day-rail.h"

#define WIDE 240
#define HIGH 176
#define JOINT_X 104.0
#define JOINT_Y 92.0
#define MOST 90.0
#define STEP 5.0

typedef struct
{
  void (*turned) (void *user, double deg, bool done);
  void *user;
  double deg;
  bool mirrored, held;
} Dial;

static Dial *
dial_of (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), "dial");
}

static void
ink (cairo_t *cr, CarpaceShade shade)
{
  cairo_set_source_rgb (cr, shade.red, shade.green, shade.blue);
}

static CarpaceShade
between (CarpaceShades shades, double share)
{
  return (CarpaceShade) { share * shades.ink.red + (1 - share) * shades.paper.red, share * shades.ink.green + (1 - share) * shades.paper.green,
                          share * shades.ink.blue + (1 - share) * shades.paper.blue };
}

static void
forearm_path (cairo_t *cr)
{
  cairo_move_to (cr, 4, JOINT_Y - 21);
  cairo_curve_to (cr, 44, JOINT_Y - 22, 74, JOINT_Y - 16, JOINT_X, JOINT_Y - 13);
  cairo_line_to (cr, JOINT_X, JOINT_Y + 13);
  cairo_curve_to (cr, 74, JOINT_Y + 17, 44, JOINT_Y + 24, 4, JOINT_Y + 23);
}

/* Straight, towards the right, about the joint: back above, palm below, the thumb beside it. */
static void
hand_path (cairo_t *cr)
{
  cairo_move_to (cr, 0, -13);
  cairo_curve_to (cr, 18, -17, 36, -17, 52, -13);
  cairo_curve_to (cr, 74, -9, 94, -4, 106, 2);
  cairo_curve_to (cr, 111, 5, 109, 10, 103, 10);
  cairo_curve_to (cr, 86, 10, 70, 11, 56, 15);
  cairo_curve_to (cr, 36, 21, 16, 18, 0, 13);
  cairo_close_path (cr);
}

static void
thumb_path (cairo_t *cr)
{
  cairo_move_to (cr, 14, 4);
  cairo_curve_to (cr, 30, 4, 46, 8, 62, 14);
  cairo_curve_to (cr, 69, 17, 67, 25, 60, 25);
  cairo_curve_to (cr, 44, 24, 28, 20, 16, 14);
}

static void
shade_below (cairo_t *cr, CarpaceShades shades, void (*path) (cairo_t *), double y)
{
  cairo_save (cr);
  path (cr);
  ink (cr, shades.paper);
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  cairo_rectangle (cr, -200, y, 600, 200);
  ink (cr, between (shades, 0.17));
  cairo_fill (cr);
  cairo_restore (cr);
}

static void
outline (cairo_t *cr, CarpaceShades shades, void (*path) (cairo_t *))
{
  cairo_new_path (cr);
  path (cr);
  ink (cr, shades.ink);
  cairo_set_line_width (cr, 3);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_stroke (cr);
}

static void
paint_straight (cairo_t *cr, CarpaceShades shades)
{
  const double dashes[] = { 4, 4 };

  ink (cr, shades.faint);
  cairo_set_line_width (cr, 1);
  cairo_set_dash (cr, dashes, 2, 0);
  cairo_move_to (cr, JOINT_X, JOINT_Y);
  cairo_line_to (cr, WIDE - 6, JOINT_Y);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static gboolean
draw (GtkWidget *widget, cairo_t *cr, Dial *dial)
{
  CarpaceShades shades = carpace_shades_of (widget);
  double wide = gtk_widget_get_allocated_width (widget), high = gtk_widget_get_allocated_height (widget);

  cairo_translate (cr, (wide - WIDE) / 2, (high - HIGH) / 2);
  if (dial->mirrored)
    {
      cairo_translate (cr, WIDE, 0);
      cairo_scale (cr, -1, 1);
    }
  paint_straight (cr, shades);
  shade_below (cr, shades, forearm_path, JOINT_Y + 2);
  outline (cr, shades, forearm_path);
  cairo_save (cr);
  cairo_translate (cr, JOINT_X, JOINT_Y);
  cairo_rotate (cr, dial->deg * G_PI / 180); /* flexion: towards the palm, down */
  shade_below (cr, shades, hand_path, 2);
  outline (cr, shades, hand_path);
  shade_below (cr, shades, thumb_path, 30);
  outline (cr, shades, thumb_path);
  cairo_restore (cr);
  if (gtk_widget_has_visible_focus (widget))
    gtk_render_focus (gtk_widget_get_style_context (widget), cr, 0, 0, WIDE, HIGH);
  return FALSE;
}

static double
deg_at (GtkWidget *widget, const Dial *dial, double x, double y)
{
  double from_x = x - (gtk_widget_get_allocated_width (widget) - WIDE) / 2.0, from_y = y - (gtk_widget_get_allocated_height (widget) - HIGH) / 2.0;
  double deg = atan2 (from_y - JOINT_Y, (dial->mirrored ? WIDE - from_x : from_x) - JOINT_X) * 180 / G_PI;

  return round (CLAMP (deg, -MOST, MOST));
}

static void
turn (GtkWidget *widget, Dial *dial, double deg, bool done)
{
  dial->deg = CLAMP (deg, -MOST, MOST);
  gtk_widget_queue_draw (widget);
  dial->turned (dial->user, dial->deg, done);
}

static gboolean
pressed (GtkWidget *widget, GdkEventButton *event, Dial *dial)
{
  gtk_widget_grab_focus (widget);
  dial->held = event->button == GDK_BUTTON_PRIMARY;
  if (dial->held)
    turn (widget, dial, deg_at (widget, dial, event->x, event->y), false);
  return TRUE;
}

static gboolean
moved (GtkWidget *widget, GdkEventMotion *event, Dial *dial)
{
  if (dial->held)
    turn (widget, dial, deg_at (widget, dial, event->x, event->y), false);
  return TRUE;
}

static gboolean
released (GtkWidget *widget, GdkEventButton *event, Dial *dial)
{
  if (dial->held)
    turn (widget, dial, dial->deg, true);
  dial->held = false;
  return TRUE;
}

static gboolean
key (GtkWidget *widget, GdkEventKey *event, Dial *dial)
{
  double step = event->state & GDK_SHIFT_MASK ? 1 : STEP;

  switch (event->keyval)
    {
    case GDK_KEY_Up: turn (widget, dial, dial->deg - step, true); return TRUE;
    case GDK_KEY_Down: turn (widget, dial, dial->deg + step, true); return TRUE;
    case GDK_KEY_Home: turn (widget, dial, 0, true); return TRUE;
    default: return FALSE;
    }
}

GtkWidget *
carpace_wrist_dial_new (void (*turned) (void *user, double deg, bool done), void *user)
{
  GtkWidget *widget = gtk_drawing_area_new ();
  Dial *dial = g_new0 (Dial, 1);

  dial->turned = turned;
  dial->user = user;
  g_object_set_data_full (G_OBJECT (widget), "dial", dial, g_free);
  gtk_widget_set_size_request (widget, WIDE, HIGH);
  gtk_widget_set_can_focus (widget, TRUE);
  gtk_widget_add_events (widget, GDK_BUTTON_PRESS_MASK | GDK_BUTTON_RELEASE_MASK | GDK_BUTTON1_MOTION_MASK | GDK_KEY_PRESS_MASK);
  g_signal_connect (widget, "draw", G_CALLBACK (draw), dial);
  g_signal_connect (widget, "button-press-event", G_CALLBACK (pressed), dial);
  g_signal_connect (widget, "button-release-event", G_CALLBACK (released), dial);
  g_signal_connect (widget, "motion-notify-event", G_CALLBACK (moved), dial);
  g_signal_connect (widget, "key-press-event", G_CALLBACK (key), dial);
  return widget;
}

void
carpace_wrist_dial_set (GtkWidget *widget, double deg, bool mirrored, const char *spoken)
{
  Dial *dial = dial_of (widget);

  if (!dial->held)
    dial->deg = deg;
  dial->mirrored = mirrored;
  carpace_card_name (widget, spoken, _("Up bends the wrist back, down towards the palm, Home sets it straight; with Shift by one degree."));
  gtk_widget_queue_draw (widget);
}
