/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/window-room.h"

#include "ui/screens.h"

#define FRAME 48 /* what a window manager puts round a window */
#define EDGES 16
#define LEAST 200

int
carpace_window_room (GtkWidget *widget)
{
  GdkRectangle area;

  carpace_screens_choose (gtk_widget_get_display (widget), FALSE, &area);
  return MAX (area.height - FRAME, LEAST);
}

/* What GTK adds to the size that a window is given: a title bar of its own, and the edges it is drawn with. */
static int
own_frame (GtkWidget *window)
{
  GtkWidget *title = gtk_window_get_titlebar (GTK_WINDOW (window));
  int height;

  if (title == NULL)
    return FRAME;
  gtk_widget_get_preferred_height (title, NULL, &height);
  return height + EDGES;
}

void
carpace_window_within (GtkWidget *window, int width, int height)
{
  GdkRectangle area;

  carpace_screens_choose (gtk_widget_get_display (window), FALSE, &area);
  gtk_window_set_default_size (GTK_WINDOW (window), MIN (width, area.width), MIN (height, MAX (area.height - own_frame (window), LEAST)));
}

void
carpace_window_scrolls_within (GtkWidget *scrolled, int around)
{
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), MAX (carpace_window_room (scrolled) - around, LEAST));
}
