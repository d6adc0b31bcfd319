/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/window-room.h"

#include "ui/screens.h"

#define FRAME 48 /* what a window manager puts round a window */
#define LEAST 200

int
carpace_window_room (GtkWidget *widget)
{
  GdkRectangle area;

  carpace_screens_choose (gtk_widget_get_display (widget), FALSE, &area);
  return MAX (area.height - FRAME, LEAST);
}

void
carpace_window_within (GtkWidget *window, int width, int height)
{
  GdkRectangle area;

  carpace_screens_choose (gtk_widget_get_display (window), FALSE, &area);
  gtk_window_set_default_size (GTK_WINDOW (window), MIN (width, area.width), MIN (height, carpace_window_room (window)));
}

void
carpace_window_scrolls_within (GtkWidget *scrolled, int around)
{
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), MAX (carpace_window_room (scrolled) - around, LEAST));
}
