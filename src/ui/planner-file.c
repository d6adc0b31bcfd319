/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-file.c: the file as it is, for what no control can show: a fault that keeps it from being read, a comment. */
#include "ui/planner-pages.h"

#include <glib/gi18n.h>
#include <string.h>

#include "ui/card.h"
#include "ui/planner-parts.h"

#define TAKEN_AFTER_MS 600 /* of no typing */

typedef struct
{
  CarpacePlannerWindow *window;
  GtkWidget *view;
  GtkTextBuffer *buffer;
  guint taking; /* a source */
  bool showing;
} Page;

static void
take (Page *page)
{
  GtkTextIter from, to;
  g_autofree char *text = NULL;
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (carpace_planner_of (page->window)), &n);

  g_clear_handle_id (&page->taking, g_source_remove);
  gtk_text_buffer_get_bounds (page->buffer, &from, &to);
  text = gtk_text_buffer_get_text (page->buffer, &from, &to, TRUE);
  if (strlen (text) != n || memcmp (text, bytes, n) != 0)
    carpace_planner_write (carpace_planner_of (page->window), text);
}

static gboolean
take_later (gpointer user)
{
  Page *page = user;

  page->taking = 0;
  take (page);
  return G_SOURCE_REMOVE;
}

static void
typed (Page *page)
{
  if (page->showing)
    return;
  g_clear_handle_id (&page->taking, g_source_remove);
  page->taking = g_timeout_add (TAKEN_AFTER_MS, take_later, page);
}

static void
settle (void *self)
{
  if (((Page *) self)->taking != 0)
    take (self);
}

static gboolean
left (GtkWidget *view, GdkEvent *event, Page *page)
{
  settle (page);
  return FALSE;
}

/* What is no text is shown as far as it is one, and cannot be written here. */
static void
changed (void *self)
{
  Page *page = self;
  GtkTextIter from, to;
  g_autofree char *text = NULL;
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (carpace_planner_of (page->window)), &n);
  bool is_text = g_utf8_validate_len (bytes, n, NULL);

  if (page->taking != 0)
    return;
  gtk_text_buffer_get_bounds (page->buffer, &from, &to);
  text = gtk_text_buffer_get_text (page->buffer, &from, &to, TRUE);
  if (is_text && strlen (text) == n && memcmp (text, bytes, n) == 0)
    return;
  page->showing = true;
  gtk_text_buffer_set_text (page->buffer, is_text ? bytes : "", is_text ? (int) n : 0);
  gtk_text_view_set_editable (GTK_TEXT_VIEW (page->view), is_text);
  page->showing = false;
}

static GtkWidget *
make (void *self)
{
  Page *page = self;
  GtkWidget *scrolled = gtk_scrolled_window_new (NULL, NULL);

  page->view = gtk_text_view_new ();
  page->buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (page->view));
  gtk_text_view_set_monospace (GTK_TEXT_VIEW (page->view), TRUE);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (page->view), FALSE);
  g_object_set (page->view, "margin", 8, NULL);
  carpace_card_name (page->view, _("The plan's file"), NULL);
  g_signal_connect_swapped (page->buffer, "changed", G_CALLBACK (typed), page);
  g_signal_connect (page->view, "focus-out-event", G_CALLBACK (left), page);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scrolled), FALSE);
  gtk_container_add (GTK_CONTAINER (scrolled), page->view);
  gtk_widget_show_all (scrolled);
  return scrolled;
}

/* Whatever no other page has: it is the last that is asked. */
static bool
jump_to (void *self, int32_t line, int32_t column)
{
  Page *page = self;
  GtkTextIter at;

  gtk_text_buffer_get_iter_at_line (page->buffer, &at, MAX (line - 1, 0));
  if (column > 1)
    gtk_text_iter_forward_chars (&at, MIN (column - 1, MAX (gtk_text_iter_get_chars_in_line (&at) - 1, 0)));
  gtk_text_buffer_place_cursor (page->buffer, &at);
  gtk_text_view_scroll_to_iter (GTK_TEXT_VIEW (page->view), &at, 0.1, FALSE, 0, 0);
  gtk_widget_grab_focus (page->view);
  return true;
}

static void
freed (gpointer self)
{
  Page *page = self;

  g_clear_handle_id (&page->taking, g_source_remove);
  g_free (page);
}

void
carpace_planner_add_file (CarpacePlannerWindow *window)
{
  Page *page = g_new0 (Page, 1);

  page->window = window;
  carpace_planner_window_add_page (window, &(CarpacePlannerPage) { .title = _("File"), .self = page, .make = make, .changed = changed, .settle = settle,
                                                                     .jump_to = jump_to, .free = freed });
}
