/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "walk.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define LEAST 44
#define SCREEN_WIDTH 1280
#define SCREEN_HEIGHT 720
#define FRAME 30 /* a window manager's title */

typedef struct
{
  int n_controls, n_faults;
} Walk;

static bool
is_control (GtkWidget *widget)
{
  return GTK_IS_BUTTON (widget) || GTK_IS_ENTRY (widget) || GTK_IS_COMBO_BOX (widget) || GTK_IS_TEXT_VIEW (widget) || GTK_IS_SCALE (widget)
         || GTK_IS_FILE_CHOOSER_BUTTON (widget);
}

/* What GTK makes within a control of its own, and what the window manager's buttons are where it draws none. */
static bool
is_of_gtk (GtkWidget *widget)
{
  return gtk_style_context_has_class (gtk_widget_get_style_context (widget), "titlebutton");
}

static void
look_at (GtkWidget *widget, Walk *walk)
{
  const char *name = atk_object_get_name (gtk_widget_get_accessible (widget));
  int width = gtk_widget_get_allocated_width (widget), height = gtk_widget_get_allocated_height (widget);

  walk->n_controls++;
  if (name == NULL || name[0] == '\0')
    {
      walk->n_faults++;
      print_error ("a %s without a name, %d x %d\n", G_OBJECT_TYPE_NAME (widget), width, height);
    }
  if (width < LEAST || height < LEAST)
    {
      walk->n_faults++;
      print_error ("“%s” (%s) is %d x %d\n", name != NULL ? name : "", G_OBJECT_TYPE_NAME (widget), width, height);
    }
}

/* Whether a line of it begins within a word, for want of width. */
static bool
breaks_a_word (GtkLabel *label)
{
  PangoLayout *layout = gtk_label_get_layout (label);
  const char *text = pango_layout_get_text (layout);
  int n;
  const PangoLogAttr *at = pango_layout_get_log_attrs_readonly (layout, &n);

  for (int line = 1; line < pango_layout_get_line_count (layout); line++)
    {
      long offset = g_utf8_pointer_to_offset (text, text + pango_layout_get_line_readonly (layout, line)->start_index);

      if (offset < n && !at[offset].is_line_break)
        return true;
    }
  return false;
}

static void
step (GtkWidget *widget, gpointer user)
{
  if (!gtk_widget_get_mapped (widget) || is_of_gtk (widget))
    return;
  if (GTK_IS_LABEL (widget) && breaks_a_word (GTK_LABEL (widget)))
    {
      ((Walk *) user)->n_faults++;
      print_error ("“%s” is broken within a word\n", gtk_label_get_text (GTK_LABEL (widget)));
    }
  if (is_control (widget))
    look_at (widget, user);
  if (GTK_IS_COMBO_BOX (widget) || GTK_IS_SPIN_BUTTON (widget) || GTK_IS_FILE_CHOOSER_BUTTON (widget))
    return;
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), step, user);
}

void
walk_window (GtkWidget *window)
{
  Walk walk = { 0 };
  GtkRequisition least;

  gtk_test_widget_wait_for_draw (window); /* what has just come is laid out with the next frame */
  gtk_container_forall (GTK_CONTAINER (window), step, &walk);
  gtk_widget_get_preferred_size (window, &least, NULL);
  print_message ("the window needs %d x %d\n", least.width, least.height);
  if (least.width > SCREEN_WIDTH || least.height > SCREEN_HEIGHT - FRAME)
    {
      walk.n_faults++;
      print_error ("that is more than a screen of %d x %d has\n", SCREEN_WIDTH, SCREEN_HEIGHT);
    }
  assert_in_range (walk.n_controls, 1, 1000);
  assert_int_equal (walk.n_faults, 0);
}
