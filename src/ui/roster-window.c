/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-window.c: the list, what is said of the chosen player, and their diary and page. */
#include "ui/roster-window.h"

#include <glib/gi18n.h>

#include "draw/report.h"
#include "text/quoted.h"
#include "text/roster-text.h"
#include "ui/card-style.h"
#include "ui/day-rail.h"
#include "ui/roster-cell.h"
#include "ui/roster-note.h"
#include "ui/window-room.h"

#define WIDE 92 /* of the text's size */
#define HIGH 46
#define REASON 34 /* characters a line */
#define TITLE 10 /* characters a line, or more */
#define BESIDE 17 /* of the text's size */
#define PAGE_DAYS 84
#define PAGE_ZOOM (10.0 / 7.8) /* the page's plain letters as large as 10 px of text at least */

/* NAME is a group's words where ROW is NULL. */
enum { ROW, NAME, REASONS, WEEK, WEIGHT, N_COLUMNS };

struct CarpaceRosterWindow
{
  const CarpaceRosterShown *shown;
  void (*closed) (void *self);
  void *self;
  GtkWidget *window, *list, *told, *open_diary, *open_page, *write_note;
  const CarpaceRosterRow *chosen; /* NULL: none */
  CarpaceDiary diary;             /* of whom the diary is open */
  CarpaceDiaryWindow *diary_window;
  GtkWidget *page, *note;         /* NULL: not open */
  CarpaceReport *report;
  char *page_of;                  /* a name: the report goes on reading it */
};

static void
name_for_at (GtkWidget *widget, const char *name, const char *description)
{
  AtkObject *accessible = gtk_widget_get_accessible (widget);

  atk_object_set_name (accessible, name);
  atk_object_set_description (accessible, description);
}

/* ---- the list ---- */

static void
add_player (GtkTreeStore *store, GtkTreeIter *group, const CarpaceRosterRow *row)
{
  g_autofree char *name = carpace_text_harmless (row->who.name), *looks = carpace_text_roster_looks (row);
  g_autofree char *sharing = carpace_text_roster_sharing (row), *week = carpace_text_roster_week (row);
  g_autofree char *reasons = looks[0] != '\0' && sharing[0] != '\0' ? g_strconcat (looks, "; ", sharing, NULL)
                                                                    : g_strdup (looks[0] != '\0' ? looks : sharing);

  gtk_tree_store_insert_with_values (store, NULL, group, -1, ROW, row, NAME, name, REASONS, reasons, WEEK, week, WEIGHT,
                                     row->looks != 0 ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL, -1);
}

/* Those who need a look stand first in the rows already. */
static GtkTreeModel *
model_of (const CarpaceRosterShown *shown)
{
  GtkTreeStore *store = gtk_tree_store_new (N_COLUMNS, G_TYPE_POINTER, G_TYPE_STRING, G_TYPE_STRING, G_TYPE_STRING, G_TYPE_INT);
  GtkTreeIter group;

  for (size_t i = 0; i < shown->n_rows; i++)
    {
      if (i == 0 || (shown->row[i].looks == 0) != (shown->row[i - 1].looks == 0))
        gtk_tree_store_insert_with_values (store, &group, NULL, -1, ROW, NULL, NAME,
                                           shown->row[i].looks != 0 ? _("Who needs a look today") : _("All others"), WEIGHT,
                                           PANGO_WEIGHT_BOLD, -1);
      add_player (store, &group, &shown->row[i]);
    }
  return GTK_TREE_MODEL (store);
}

static void
show_weeks (GtkTreeViewColumn *column, GtkCellRenderer *cell, GtkTreeModel *model, GtkTreeIter *at, gpointer user)
{
  gpointer row;

  gtk_tree_model_get (model, at, ROW, &row, -1);
  carpace_roster_cell_set (CARPACE_ROSTER_CELL (cell), row);
}

/* Over more than one line where it has many words: a column is as wide as what is in it. */
static GtkTreeViewColumn *
column_new (const char *title)
{
  GtkTreeViewColumn *column = gtk_tree_view_column_new ();
  GtkWidget *words = gtk_label_new (title);

  gtk_label_set_line_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (words), MIN (TITLE, (int) g_utf8_strlen (title, -1)));
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_widget_show (words);
  gtk_tree_view_column_set_title (column, title);
  gtk_tree_view_column_set_widget (column, words);
  return column;
}

static GtkCellRenderer *
add_text (GtkTreeView *list, const char *title, int column, bool takes_room)
{
  GtkCellRenderer *cell = gtk_cell_renderer_text_new ();
  GtkTreeViewColumn *of = column_new (title);

  gtk_tree_view_column_pack_start (of, cell, TRUE);
  gtk_tree_view_column_add_attribute (of, cell, "text", column);
  if (column == NAME)
    gtk_tree_view_column_add_attribute (of, cell, "weight", WEIGHT);
  gtk_tree_view_column_set_expand (of, takes_room);
  gtk_tree_view_append_column (list, of);
  return cell;
}

static void
add_columns (CarpaceRosterWindow *window)
{
  const CarpaceRosterShown *shown = window->shown;
  GtkTreeView *list = GTK_TREE_VIEW (window->list);
  GtkCellRenderer *weeks = carpace_roster_cell_new (shown->last_monday, carpace_roster_longest_ms (shown->row, shown->n_rows));
  GtkTreeViewColumn *column = column_new (_("12 weeks: planned ○, done ●"));
  GtkCellRenderer *reasons;

  add_text (list, _("Player"), NAME, false);
  reasons = add_text (list, _("Why"), REASONS, true);
  g_object_set (reasons, "wrap-mode", PANGO_WRAP_WORD_CHAR, "wrap-width", (int) (REASON * carpace_em_of (window->list) / 2), NULL);
  gtk_tree_view_column_pack_start (column, weeks, FALSE);
  gtk_tree_view_column_set_cell_data_func (column, weeks, show_weeks, NULL, NULL);
  gtk_tree_view_append_column (list, column);
  add_text (list, _("Last full week"), WEEK, false);
}

/* ---- the page ---- */

static gboolean
draw_page (GtkWidget *area, cairo_t *cr, CarpaceRosterWindow *window)
{
  double zoom = (double) gtk_widget_get_allocated_width (area) / carpace_sheet_a4.width;

  cairo_set_source_rgb (cr, 1, 1, 1); /* as paper is */
  cairo_paint (cr);
  cairo_scale (cr, zoom, zoom);
  carpace_report_paint (window->report, cr, carpace_sheet_a4);
  return FALSE;
}

static void
close_page (CarpaceRosterWindow *window)
{
  g_clear_pointer (&window->page, gtk_widget_destroy);
  g_clear_pointer (&window->report, carpace_report_free);
  g_clear_pointer (&window->page_of, g_free);
}

static gboolean
page_closed (GtkWidget *page, GdkEvent *event, CarpaceRosterWindow *window)
{
  close_page (window);
  return TRUE;
}

static gboolean
page_key (GtkWidget *page, GdkEventKey *event, CarpaceRosterWindow *window)
{
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  close_page (window);
  return TRUE;
}

static void
show_page (CarpaceRosterWindow *window)
{
  GtkWidget *scroller = gtk_scrolled_window_new (NULL, NULL), *area = gtk_drawing_area_new ();
  g_autofree char *text = carpace_report_text (window->report), *title = g_strdup_printf (_("Page of %s"), window->page_of);
  double zoom = MAX (1.0, PAGE_ZOOM * carpace_em_of (window->window) / 10.0);

  window->page = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (window->page, "roster-page");
  gtk_window_set_title (GTK_WINDOW (window->page), title);
  gtk_window_set_transient_for (GTK_WINDOW (window->page), GTK_WINDOW (window->window));
  carpace_window_within (window->page, (int) (carpace_sheet_a4.width * zoom) + 24, 700);
  gtk_widget_set_size_request (area, (int) (carpace_sheet_a4.width * zoom), (int) (carpace_sheet_a4.height * zoom));
  gtk_widget_set_can_focus (area, TRUE);
  name_for_at (area, title, text); /* all of the page in words */
  g_signal_connect (area, "draw", G_CALLBACK (draw_page), window);
  g_signal_connect (window->page, "delete-event", G_CALLBACK (page_closed), window);
  g_signal_connect (window->page, "key-press-event", G_CALLBACK (page_key), window);
  gtk_container_add (GTK_CONTAINER (scroller), area);
  gtk_container_add (GTK_CONTAINER (window->page), scroller);
  gtk_widget_show_all (window->page);
}

/* ---- opening ---- */

static void
close_diary (CarpaceRosterWindow *window)
{
  close_page (window);
  g_clear_pointer (&window->diary_window, carpace_diary_window_free);
  CARPACE_PORT_FREE (window->diary);
  window->diary = (CarpaceDiary){ 0 };
}

/* The chosen player's, in place of another's that was open. */
static void
have_diary (CarpaceRosterWindow *window)
{
  close_diary (window);
  window->diary = window->shown->diary (window->shown->self, &window->chosen->who.player);
}

static void
open_diary (GtkWidget *button, CarpaceRosterWindow *window)
{
  const CarpaceClock none = { .self = NULL }; /* nothing is written: nobody asks for the time */
  g_autofree char *name = NULL, *title = NULL;

  if (window->chosen == NULL || !window->chosen->hand)
    return;
  have_diary (window);
  name = carpace_text_harmless (window->chosen->who.name);
  title = g_strdup_printf (_("Diary of %s"), name);
  window->diary_window = carpace_diary_window_new (&window->diary, NULL, &none);
  gtk_window_set_title (carpace_diary_window_window (window->diary_window), title);
  carpace_diary_window_show (window->diary_window, window->shown->today);
}

static void
open_page (GtkWidget *button, CarpaceRosterWindow *window)
{
  CarpaceReportAsk ask = { .since = window->shown->today - PAGE_DAYS + 1, .until = window->shown->today };

  if (window->chosen == NULL || !window->chosen->hand)
    return;
  have_diary (window);
  ask.code = window->page_of = carpace_text_harmless (window->chosen->who.name);
  window->report = carpace_report_new (&window->diary, &ask);
  if (window->report != NULL)
    show_page (window);
}

/* In place of one to another player. */
static void
write_note (GtkWidget *clicked, CarpaceRosterWindow *window)
{
  if (window->note != NULL)
    gtk_widget_destroy (window->note);
  if (window->chosen == NULL)
    return;
  window->note = carpace_roster_note_new (window->shown, window->chosen, GTK_WINDOW (window->window));
  g_signal_connect (window->note, "destroy", G_CALLBACK (gtk_widget_destroyed), &window->note);
}

static void
activated (GtkTreeView *list, GtkTreePath *path, GtkTreeViewColumn *column, CarpaceRosterWindow *window)
{
  if (window->chosen != NULL)
    open_diary (NULL, window);
  else if (gtk_tree_view_row_expanded (list, path))
    gtk_tree_view_collapse_row (list, path);
  else
    gtk_tree_view_expand_row (list, path, FALSE);
}

static void
chose (GtkTreeSelection *selection, CarpaceRosterWindow *window)
{
  GtkTreeModel *model;
  GtkTreeIter at;
  gpointer row = NULL;
  g_autofree char *words = NULL;

  if (gtk_tree_selection_get_selected (selection, &model, &at))
    gtk_tree_model_get (model, &at, ROW, &row, -1);
  window->chosen = row;
  words = row != NULL ? carpace_text_roster_player (row) : g_strdup ("");
  gtk_label_set_text (GTK_LABEL (window->told), words);
  gtk_widget_set_sensitive (window->open_diary, window->chosen != NULL && window->chosen->hand);
  gtk_widget_set_sensitive (window->open_page, window->chosen != NULL && window->chosen->hand);
  gtk_widget_set_sensitive (window->write_note, window->chosen != NULL);
}

/* ---- the window ---- */

static gboolean
window_closed (GtkWidget *widget, GdkEvent *event, CarpaceRosterWindow *window)
{
  window->closed (window->self);
  return TRUE;
}

static gboolean
window_key (GtkWidget *widget, GdkEventKey *event, CarpaceRosterWindow *window)
{
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  window->closed (window->self);
  return TRUE;
}

static GtkWidget *
label (const char *text)
{
  GtkWidget *widget = gtk_label_new (text);

  gtk_label_set_line_wrap (GTK_LABEL (widget), TRUE);
  gtk_label_set_xalign (GTK_LABEL (widget), 0);
  return widget;
}

static GtkWidget *
scrolled (GtkWidget *child)
{
  GtkWidget *scroller = gtk_scrolled_window_new (NULL, NULL);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_AUTOMATIC, GTK_POLICY_AUTOMATIC);
  gtk_container_add (GTK_CONTAINER (scroller), child);
  return scroller;
}

static GtkWidget *
button (const char *mnemonic, GCallback clicked, CarpaceRosterWindow *window)
{
  GtkWidget *widget = gtk_button_new_with_mnemonic (mnemonic);

  gtk_widget_set_sensitive (widget, FALSE);
  g_signal_connect (widget, "clicked", clicked, window);
  return widget;
}

static GtkWidget *
list_of (CarpaceRosterWindow *window)
{
  g_autoptr (GtkTreeModel) model = model_of (window->shown);

  window->list = gtk_tree_view_new_with_model (model);
  name_for_at (window->list, _("Players"), _("Up and down go from one to the other, Enter opens the diary."));
  add_columns (window);
  gtk_tree_view_set_search_column (GTK_TREE_VIEW (window->list), NAME);
  gtk_tree_view_expand_all (GTK_TREE_VIEW (window->list));
  g_signal_connect (window->list, "row-activated", G_CALLBACK (activated), window);
  g_signal_connect (gtk_tree_view_get_selection (GTK_TREE_VIEW (window->list)), "changed", G_CALLBACK (chose), window);
  return scrolled (window->list);
}

/* What is said of the chosen player, and what can be opened of theirs. */
static GtkWidget *
beside (CarpaceRosterWindow *window)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *scroller;

  window->told = label ("");
  gtk_label_set_selectable (GTK_LABEL (window->told), TRUE);
  gtk_widget_set_valign (window->told, GTK_ALIGN_START);
  window->open_diary = button (_("_Diary"), G_CALLBACK (open_diary), window);
  window->open_page = button (_("_Page"), G_CALLBACK (open_page), window);
  window->write_note = button (_("_Note…"), G_CALLBACK (write_note), window);
  scroller = scrolled (window->told);
  gtk_widget_set_size_request (scroller, (int) (BESIDE * carpace_em_of (window->window)), -1);
  gtk_box_pack_start (GTK_BOX (box), scroller, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (box), window->open_diary, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), window->open_page, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), window->write_note, FALSE, FALSE, 0);
  gtk_widget_set_no_show_all (window->write_note, window->shown->note == NULL);
  return box;
}

static void
build (CarpaceRosterWindow *window)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *both = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  g_autofree char *need = carpace_text_roster_need (window->shown->row, window->shown->n_rows);
  double em;

  carpace_card_style ();
  window->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  em = carpace_em_of (window->window);
  gtk_widget_set_name (window->window, "roster-window");
  gtk_window_set_title (GTK_WINDOW (window->window), _("Team"));
  gtk_window_set_icon_name (GTK_WINDOW (window->window), "org.carpace.Carpace");
  carpace_window_within (window->window, (int) (WIDE * em), (int) (HIGH * em));
  g_object_set (box, "margin", 12, NULL);
  if (window->shown->n_rows == 0 || window->shown->row[0].looks == 0) /* else a group's words say so */
    gtk_box_pack_start (GTK_BOX (box), label (need), FALSE, FALSE, 0);
  if (window->shown->refused[0] != '\0')
    {
      GtkWidget *expander = gtk_expander_new (_("What was not taken, and why"));

      gtk_container_add (GTK_CONTAINER (expander), label (window->shown->refused));
      gtk_box_pack_start (GTK_BOX (box), expander, FALSE, FALSE, 0);
    }
  gtk_box_pack_start (GTK_BOX (both), list_of (window), TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (both), beside (window), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), both, TRUE, TRUE, 0);
  gtk_container_add (GTK_CONTAINER (window->window), box);
  g_signal_connect (window->window, "delete-event", G_CALLBACK (window_closed), window);
  g_signal_connect (window->window, "key-press-event", G_CALLBACK (window_key), window);
  gtk_widget_show_all (box);
}

CarpaceRosterWindow *
carpace_roster_window_new (const CarpaceRosterShown *shown, void (*closed) (void *self), void *self)
{
  CarpaceRosterWindow *window = g_new0 (CarpaceRosterWindow, 1);

  window->shown = shown;
  window->closed = closed;
  window->self = self;
  build (window);
  return window;
}

void
carpace_roster_window_free (CarpaceRosterWindow *window)
{
  if (window == NULL)
    return;
  close_diary (window);
  if (window->note != NULL)
    gtk_widget_destroy (window->note);
  g_signal_handlers_disconnect_by_data (gtk_tree_view_get_selection (GTK_TREE_VIEW (window->list)), window);
  gtk_widget_destroy (window->window);
  g_free (window);
}

/* The first player who needs a look is chosen. */
void
carpace_roster_window_show (CarpaceRosterWindow *window)
{
  GtkTreePath *first = gtk_tree_path_new_from_indices (0, 0, -1);

  gtk_window_present (GTK_WINDOW (window->window));
  gtk_widget_grab_focus (window->list);
  if (window->shown->n_rows > 0)
    gtk_tree_view_set_cursor (GTK_TREE_VIEW (window->list), first, NULL, FALSE);
  gtk_tree_path_free (first);
}

GtkWindow *
carpace_roster_window_window (CarpaceRosterWindow *window)
{
  return GTK_WINDOW (window->window);
}

GtkTreeView *
carpace_roster_window_list (CarpaceRosterWindow *window)
{
  return GTK_TREE_VIEW (window->list);
}

const char *
carpace_roster_window_told (CarpaceRosterWindow *window)
{
  return gtk_label_get_text (GTK_LABEL (window->told));
}

GtkWidget *
carpace_roster_window_diary_button (CarpaceRosterWindow *window)
{
  return window->open_diary;
}

GtkWidget *
carpace_roster_window_page_button (CarpaceRosterWindow *window)
{
  return window->open_page;
}

GtkWidget *
carpace_roster_window_note_button (CarpaceRosterWindow *window)
{
  return window->write_note;
}

CarpaceDiaryWindow *
carpace_roster_window_diary (CarpaceRosterWindow *window)
{
  return window->diary_window;
}

GtkWidget *
carpace_roster_window_page (CarpaceRosterWindow *window)
{
  return window->page;
}

GtkWidget *
carpace_roster_window_note (CarpaceRosterWindow *window)
{
  return window->note;
}
