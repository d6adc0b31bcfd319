/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season-strip.c: a drawing area over draw/season-paint.h. */
#include "ui/season-strip.h"

#include "ui/day-rail.h"

struct CarpaceSeasonStrip
{
  CarpaceSeasonStripOwner owner;
  GtkWidget *scroller, *area;
  CarpaceSeasonMark *day;
  int32_t n, chosen;
  int64_t longest_ms;
};

static int32_t
weeks_of (const CarpaceSeasonStrip *strip)
{
  return MAX (1, (strip->n + 6) / 7);
}

static CarpaceSeasonLie
lie_of (const CarpaceSeasonStrip *strip)
{
  return (CarpaceSeasonLie){ .em = carpace_em_of (strip->area), .width = gtk_widget_get_allocated_width (strip->area),
                             .mirrored = gtk_widget_get_direction (strip->area) == GTK_TEXT_DIR_RTL,
                             .weeks = weeks_of (strip), .longest_ms = strip->longest_ms };
}

static gboolean
draw (GtkWidget *area, cairo_t *cr, CarpaceSeasonStrip *strip)
{
  const CarpaceSeasonLie lie = lie_of (strip);
  const CarpaceShades shades = carpace_shades_of (area);
  const CarpaceSeasonDrawn drawn = { strip->n, strip->day, strip->chosen };
  g_autoptr (PangoLayout) layout = carpace_layout_of (area, NULL);

  carpace_season_paint (cr, layout, &shades, &lie, &drawn);
  if (gtk_widget_has_focus (area))
    gtk_render_focus (gtk_widget_get_style_context (area), cr, 0, 0, lie.width, gtk_widget_get_allocated_height (area));
  return FALSE;
}

/* As wide as its weeks need, as high as its text is. */
static void
measure (CarpaceSeasonStrip *strip)
{
  CarpaceSeasonLie lie = lie_of (strip);
  double least = carpace_season_least_width (lie.em, weeks_of (strip));

  gtk_widget_set_size_request (strip->area, (int) (least + 0.5), (int) (carpace_season_height (&lie) + 1));
}

/* ---- choosing ---- */

/* The chosen day is to be seen. */
static void
scroll_to (CarpaceSeasonStrip *strip)
{
  GtkAdjustment *across = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (strip->scroller));
  CarpaceSeasonLie lie = lie_of (strip);
  double from, width;

  carpace_season_day_lies (&lie, strip->chosen, &from, &width);
  gtk_adjustment_clamp_page (across, from - width, from + 2 * width);
}

static void
choose (CarpaceSeasonStrip *strip, int32_t day)
{
  day = CLAMP (day, 0, strip->n - 1);
  if (strip->n == 0 || day == strip->chosen)
    return;
  strip->owner.chosen (strip->owner.self, day);
}

static gboolean
key (GtkWidget *area, GdkEventKey *event, CarpaceSeasonStrip *strip)
{
  int32_t onward = gtk_widget_get_direction (area) == GTK_TEXT_DIR_RTL ? -1 : 1;

  switch (event->keyval)
    {
    case GDK_KEY_Left: case GDK_KEY_KP_Left: choose (strip, strip->chosen - onward); return TRUE;
    case GDK_KEY_Right: case GDK_KEY_KP_Right: choose (strip, strip->chosen + onward); return TRUE;
    case GDK_KEY_Page_Up: case GDK_KEY_KP_Page_Up: choose (strip, strip->chosen - 7); return TRUE;
    case GDK_KEY_Page_Down: case GDK_KEY_KP_Page_Down: choose (strip, strip->chosen + 7); return TRUE;
    case GDK_KEY_Home: case GDK_KEY_KP_Home: choose (strip, 0); return TRUE;
    case GDK_KEY_End: case GDK_KEY_KP_End: choose (strip, strip->n - 1); return TRUE;
    case GDK_KEY_Return: case GDK_KEY_KP_Enter: case GDK_KEY_space:
      strip->owner.open (strip->owner.self);
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
pressed (GtkWidget *area, GdkEventButton *event, CarpaceSeasonStrip *strip)
{
  CarpaceSeasonLie lie = lie_of (strip);
  int32_t day = carpace_season_day_at (&lie, strip->n, event->x);

  gtk_widget_grab_focus (area);
  if (day >= 0)
    choose (strip, day);
  if (day >= 0 && event->type == GDK_2BUTTON_PRESS)
    strip->owner.open (strip->owner.self);
  return TRUE;
}

/* ---- the strip ---- */

static void
make_area (CarpaceSeasonStrip *strip)
{
  strip->area = gtk_drawing_area_new ();
  gtk_widget_set_name (strip->area, "season-strip");
  gtk_widget_set_can_focus (strip->area, TRUE);
  gtk_widget_add_events (strip->area, GDK_BUTTON_PRESS_MASK | GDK_KEY_PRESS_MASK);
  g_signal_connect (strip->area, "draw", G_CALLBACK (draw), strip);
  g_signal_connect (strip->area, "key-press-event", G_CALLBACK (key), strip);
  g_signal_connect (strip->area, "button-press-event", G_CALLBACK (pressed), strip);
  g_signal_connect_swapped (strip->area, "style-updated", G_CALLBACK (measure), strip);
}

CarpaceSeasonStrip *
carpace_season_strip_new (const CarpaceSeasonStripOwner *owner)
{
  CarpaceSeasonStrip *strip = g_new0 (CarpaceSeasonStrip, 1);

  strip->owner = *owner;
  make_area (strip);
  strip->scroller = gtk_scrolled_window_new (NULL, NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (strip->scroller), GTK_POLICY_AUTOMATIC, GTK_POLICY_NEVER);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (strip->scroller), FALSE);
  gtk_container_add (GTK_CONTAINER (strip->scroller), strip->area);
  gtk_widget_set_hexpand (strip->scroller, TRUE);
  gtk_widget_show_all (strip->scroller);
  measure (strip);
  return strip;
}

void
carpace_season_strip_free (CarpaceSeasonStrip *strip)
{
  if (strip == NULL)
    return;
  g_free (strip->day);
  g_free (strip);
}

GtkWidget *
carpace_season_strip_widget (CarpaceSeasonStrip *strip)
{
  return strip->scroller;
}

GtkWidget *
carpace_season_strip_area (CarpaceSeasonStrip *strip)
{
  return strip->area;
}

void
carpace_season_strip_set (CarpaceSeasonStrip *strip, const CarpaceSeasonMark *day, int32_t n, int64_t longest_ms,
                          const char *name)
{
  g_free (strip->day);
  strip->day = g_memdup2 (day, (gsize) n * sizeof *day);
  strip->n = n;
  strip->longest_ms = longest_ms;
  strip->chosen = MIN (strip->chosen, n - 1);
  atk_object_set_name (gtk_widget_get_accessible (strip->area), name);
  measure (strip);
  gtk_widget_queue_draw (strip->area);
}

void
carpace_season_strip_choose (CarpaceSeasonStrip *strip, int32_t day, const char *words)
{
  strip->chosen = CLAMP (day, -1, strip->n - 1);
  atk_object_set_description (gtk_widget_get_accessible (strip->area), words);
  if (strip->chosen >= 0)
    scroll_to (strip);
  gtk_widget_queue_draw (strip->area);
}
