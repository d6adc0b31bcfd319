/* SPDX-License-Identifier: GPL-3.0-or-later */
/* count.c: painted, and no GTK label: a label that is given a text has its window laid out, and placed, anew: three
 * wake-ups a second, measured on a card. */
#include "ui/count.h"

#include <stdbool.h>

#include "ui/day-rail.h"

typedef struct
{
  char *text;
  int wide, high;
} Count;

static void
count_free (gpointer data)
{
  Count *count = data;

  g_free (count->text);
  g_free (count);
}

static gboolean
draw (GtkWidget *widget, cairo_t *cr, const Count *count)
{
  PangoLayout *layout = carpace_layout_of (widget, count->text);
  bool mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int wide, high;

  pango_layout_get_pixel_size (layout, &wide, &high);
  gtk_render_layout (gtk_widget_get_style_context (widget), cr, mirrored ? 0 : gtk_widget_get_allocated_width (widget) - wide,
                     (gtk_widget_get_allocated_height (widget) - high) / 2, layout);
  g_object_unref (layout);
  return FALSE;
}

/* A text that is wider than all before has its room; a narrower one keeps theirs. */
static void
make_room (GtkWidget *widget, Count *count)
{
  PangoLayout *layout = carpace_layout_of (widget, count->text);
  int wide, high;

  pango_layout_get_pixel_size (layout, &wide, &high);
  g_object_unref (layout);
  if (wide <= count->wide && high == count->high)
    return;
  count->wide = MAX (count->wide, wide);
  count->high = high;
  gtk_widget_set_size_request (widget, count->wide, count->high);
}

static void
style_updated (GtkWidget *widget, Count *count)
{
  count->wide = 0;
  make_room (widget, count);
}

/* The next countdown has its own room. */
static void
unmapped (GtkWidget *widget, Count *count)
{
  count->wide = 0;
}

GtkWidget *
carpace_count_new (void)
{
  GtkWidget *widget = gtk_drawing_area_new ();
  Count *count = g_new0 (Count, 1);

  count->text = g_strdup ("");
  g_object_set_data_full (G_OBJECT (widget), "count", count, count_free);
  gtk_style_context_add_class (gtk_widget_get_style_context (widget), "carpace-countdown");
  g_signal_connect (widget, "draw", G_CALLBACK (draw), count);
  g_signal_connect (widget, "style-updated", G_CALLBACK (style_updated), count);
  g_signal_connect (widget, "unmap", G_CALLBACK (unmapped), count);
  atk_object_set_role (gtk_widget_get_accessible (widget), ATK_ROLE_LABEL);
  gtk_widget_show (widget);
  return widget;
}

void
carpace_count_set (GtkWidget *widget, const char *text)
{
  Count *count = g_object_get_data (G_OBJECT (widget), "count");

  if (g_str_equal (count->text, text))
    return;
  g_free (count->text);
  count->text = g_strdup (text);
  atk_object_set_name (gtk_widget_get_accessible (widget), text);
  make_room (widget, count);
  gtk_widget_queue_draw (widget);
}
