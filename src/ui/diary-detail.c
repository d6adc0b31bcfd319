/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-detail.c: sentences, notes, corrections, and the dot plot. */
#include "ui/diary-detail.h"

#include "draw/dot-plot.h"
#include "text/diary-text.h"
#include "text/entries.h"
#include "text/text.h"
#include "ui/card.h"
#include "ui/diary-drawing.h"
#include "ui/diary-shades.h"

#define PLOT_DAYS 84
#define PLOT_HEIGHT 190.0 /* points */
#define PANE_CHARS 38     /* its width, whatever the day */

struct CarpaceDiaryDetail
{
  CarpaceDiaryDetailOwner owner;
  bool can_write;
  GtkWidget *scroller, *box;
  GtkWidget *rows; /* what changes from day to day */
  GtkWidget *note, *keep, *note_box, *trouble;
  GtkWidget *plot;
  GString *told;
  CarpaceDiaryModel *model;
  CarpaceDay day;
};

static GtkWidget *
line (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), PANE_CHARS - 6);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  gtk_widget_set_can_focus (label, FALSE);
  return label;
}

static void
add_line (CarpaceDiaryDetail *detail, const char *text)
{
  gtk_container_add (GTK_CONTAINER (detail->rows), line (text));
  g_string_append_printf (detail->told, "%s\n", text);
}

/* Corrections */

typedef struct
{
  CarpaceDiaryDetail *detail;
  int64_t rating_id;
  CarpaceSite site;
} Wrong;

static void
say_trouble (CarpaceDiaryDetail *detail, bool kept)
{
  gtk_label_set_text (GTK_LABEL (detail->trouble), kept ? "" : carpace_text_diary_not_kept ());
  gtk_widget_set_visible (detail->trouble, !kept);
}

static void
number_clicked (GtkWidget *button, Wrong *wrong)
{
  CarpaceDiaryDetail *detail = wrong->detail;
  int32_t number = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "number"));
  bool kept;

  gtk_popover_popdown (GTK_POPOVER (gtk_widget_get_ancestor (button, GTK_TYPE_POPOVER)));
  kept = detail->owner.correct (detail->owner.self, wrong->rating_id, number, wrong->site);
  say_trouble (detail, kept);
}

static void
free_wrong (void *wrong, GClosure *closure)
{
  g_free (wrong);
}

static GtkWidget *
numbers_of (const Wrong *wrong)
{
  GtkWidget *grid = gtk_grid_new ();
  GtkWidget *asked = line (carpace_text_diary_correct_to ());

  g_object_set (grid, "margin", 10, "row-spacing", 6, "column-spacing", 4, NULL);
  gtk_grid_attach (GTK_GRID (grid), asked, 0, 0, 6, 1);
  for (int number = 0; number <= 10; number++)
    {
      g_autofree char *text = g_strdup_printf ("%d", number);
      g_autofree char *name = carpace_text_discomfort (number, CARPACE_SITE_NONE);
      GtkWidget *button = gtk_button_new_with_label (text);
      Wrong *own = g_new (Wrong, 1);

      *own = *wrong;
      carpace_card_name (button, name, NULL);
      g_object_set_data (G_OBJECT (button), "number", GINT_TO_POINTER (number));
      g_signal_connect_data (button, "clicked", G_CALLBACK (number_clicked), own, free_wrong, 0);
      gtk_grid_attach (GTK_GRID (grid), button, number % 6, 1 + number / 6, 1, 1);
    }
  gtk_widget_show_all (grid);
  return grid;
}

static GtkWidget *
correct_button (CarpaceDiaryDetail *detail, const CarpaceDiaryBlock *block)
{
  GtkWidget *button = gtk_menu_button_new ();
  GtkWidget *popover = gtk_popover_new (button);
  Wrong wrong = { .detail = detail, .rating_id = block->rating_id, .site = block->site };
  g_autofree char *name = carpace_text_diary_correct_block (block->number);

  gtk_container_add (GTK_CONTAINER (button), gtk_label_new (carpace_text_diary_correct ()));
  gtk_container_add (GTK_CONTAINER (popover), numbers_of (&wrong));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), popover);
  carpace_card_name (button, name, NULL);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  return button;
}

static void
add_block (CarpaceDiaryDetail *detail, const CarpaceDiaryBlock *block)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  g_autofree char *done = carpace_text_block_done (block->number, block->active_ms, block->limit_ms);
  g_autofree char *rating
    = carpace_text_rating (block->rated, block->discomfort, block->site, block->corrected_from, block->late);
  g_autofree char *text = g_strdup_printf ("%s; %s", done, rating);

  gtk_box_pack_start (GTK_BOX (row), line (text), TRUE, TRUE, 0);
  if (detail->can_write && block->rating_id > 0 && block->discomfort >= 0)
    gtk_box_pack_end (GTK_BOX (row), correct_button (detail, block), FALSE, FALSE, 0);
  gtk_container_add (GTK_CONTAINER (detail->rows), row);
  g_string_append_printf (detail->told, "%s\n", text);
}

/* The day */

static void
add_day (CarpaceDiaryDetail *detail, const CarpaceDiaryDay *day)
{
  g_autofree char *morning = carpace_text_morning_site (carpace_diary_morning_site (day));

  if (morning != NULL)
    add_line (detail, morning);
  for (guint i = 0; i < day->blocks->len; i++)
    add_block (detail, &g_array_index (day->blocks, CarpaceDiaryBlock, i));
  for (guint i = 0; i < day->decisions->len; i++)
    {
      g_autofree char *why = carpace_text_why_short (&g_array_index (day->decisions, CarpaceDiaryDecision, i).decision);

      add_line (detail, why);
    }
  for (guint i = 0; i < day->cautions->len; i++)
    {
      g_autofree char *caution = carpace_entry_text (&g_array_index (day->cautions, CarpaceEntry, i));

      add_line (detail, caution);
    }
  for (guint i = 0; i < day->notes->len; i++)
    add_line (detail, g_array_index (day->notes, CarpaceDiaryNote, i).text);
}

static const CarpaceDaySum *
sum_of (CarpaceDiaryModel *model, CarpaceDay day)
{
  int32_t row = carpace_diary_model_row_of (model, day);
  int32_t sum = row < 0 ? -1 : carpace_diary_model_row (model, row)->sum;

  return sum < 0 ? NULL : carpace_diary_model_sum (model, sum);
}

static void
fill_note (CarpaceDiaryDetail *detail, const CarpaceDaySum *sum)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (detail->note));

  gtk_text_buffer_set_text (buffer, sum != NULL && sum->note != NULL ? sum->note : "", -1);
  gtk_widget_set_visible (detail->note_box, detail->can_write || (sum != NULL && sum->note != NULL));
}

void
carpace_diary_detail_show (CarpaceDiaryDetail *detail, CarpaceDiaryModel *model, CarpaceDay day, const char *instead)
{
  const CarpaceDaySum *sum = model == NULL ? NULL : sum_of (model, day);
  const CarpaceDiaryDay *within = sum == NULL ? NULL : carpace_diary_model_day (model, day);

  detail->model = model;
  detail->day = day;
  g_string_truncate (detail->told, 0);
  gtk_container_foreach (GTK_CONTAINER (detail->rows), (GtkCallback) (void (*) (void)) gtk_widget_destroy, NULL);
  say_trouble (detail, true);
  if (instead != NULL)
    add_line (detail, instead);
  if (model != NULL && instead == NULL)
    {
      g_autofree char *sentence = carpace_text_day_sentence (day, sum);

      add_line (detail, sentence);
    }
  if (within != NULL)
    add_day (detail, within);
  gtk_widget_show_all (detail->rows);
  fill_note (detail, sum);
  gtk_widget_set_visible (detail->plot, model != NULL && instead == NULL);
  gtk_widget_queue_draw (detail->plot);
}

static void
keep_clicked (GtkWidget *button, CarpaceDiaryDetail *detail)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (detail->note));
  g_autofree char *text = NULL;
  GtkTextIter from, to;

  gtk_text_buffer_get_bounds (buffer, &from, &to);
  text = gtk_text_buffer_get_text (buffer, &from, &to, FALSE);
  say_trouble (detail, detail->owner.note (detail->owner.self, detail->day, g_strstrip (text)));
}

/* Tab goes on to the next widget instead of into the note. */
static GtkWidget *
note_box_new (CarpaceDiaryDetail *detail)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *label = gtk_label_new_with_mnemonic (carpace_text_diary_note ());
  GtkWidget *frame = gtk_frame_new (NULL);

  detail->note = gtk_text_view_new ();
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (detail->note), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (detail->note), FALSE);
  gtk_text_view_set_editable (GTK_TEXT_VIEW (detail->note), detail->can_write);
  g_object_set (detail->note, "left-margin", 6, "right-margin", 6, "top-margin", 4, "bottom-margin", 4, NULL);
  gtk_widget_set_size_request (detail->note, -1, 56);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), detail->note);
  atk_object_set_name (gtk_widget_get_accessible (detail->note), gtk_label_get_text (GTK_LABEL (label)));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  detail->keep = gtk_button_new_with_mnemonic (carpace_text_diary_keep_note ());
  gtk_widget_set_halign (detail->keep, GTK_ALIGN_START);
  g_signal_connect (detail->keep, "clicked", G_CALLBACK (keep_clicked), detail);
  gtk_container_add (GTK_CONTAINER (frame), detail->note);
  gtk_container_add (GTK_CONTAINER (box), label);
  gtk_container_add (GTK_CONTAINER (box), frame);
  if (detail->can_write)
    gtk_container_add (GTK_CONTAINER (box), detail->keep);
  gtk_widget_show_all (box);
  gtk_widget_set_no_show_all (box, TRUE);
  return box;
}

static gboolean
draw_plot (GtkWidget *widget, cairo_t *cr, CarpaceDiaryDetail *detail)
{
  CarpaceShades shades = carpace_diary_shades (widget);
  double zoom = carpace_diary_plain_zoom (widget);
  g_autoptr (GArray) mornings = NULL;
  CarpacePen pen;

  if (detail->model == NULL)
    return FALSE;
  mornings = carpace_diary_model_mornings_after (detail->model, detail->day - PLOT_DAYS + 1, detail->day);
  cairo_scale (cr, zoom, zoom);
  carpace_pen_init (&pen, cr, &shades);
  carpace_dot_plot_paint (&pen, mornings, 0, 2, gtk_widget_get_allocated_width (widget) / zoom,
                          gtk_widget_get_allocated_height (widget) / zoom - 4);
  carpace_pen_clear (&pen);
  return FALSE;
}

/* As wide as its letters ask, not as what is said of a day: the drawing beside it stays where it is. */
static void
set_sizes (CarpaceDiaryDetail *detail)
{
  PangoContext *context = gtk_widget_get_pango_context (detail->scroller);
  PangoFontMetrics *metrics = pango_context_get_metrics (context, NULL, NULL);
  int width = PANE_CHARS * pango_font_metrics_get_approximate_char_width (metrics) / PANGO_SCALE;

  pango_font_metrics_unref (metrics);
  gtk_scrolled_window_set_min_content_width (GTK_SCROLLED_WINDOW (detail->scroller), width);
  gtk_widget_set_size_request (detail->plot, -1, (int) (PLOT_HEIGHT * carpace_diary_plain_zoom (detail->scroller)));
}

CarpaceDiaryDetail *
carpace_diary_detail_new (const CarpaceDiaryDetailOwner *owner, bool can_write)
{
  CarpaceDiaryDetail *detail = g_new0 (CarpaceDiaryDetail, 1);

  detail->owner = *owner;
  detail->can_write = can_write;
  detail->told = g_string_new (NULL);
  detail->scroller = gtk_scrolled_window_new (NULL, NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (detail->scroller), GTK_POLICY_AUTOMATIC, GTK_POLICY_AUTOMATIC);
  detail->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  g_object_set (detail->box, "margin", 12, NULL);
  detail->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  detail->trouble = line ("");
  detail->note_box = note_box_new (detail);
  detail->plot = gtk_drawing_area_new ();
  carpace_card_name (detail->plot, carpace_text_plot_title (), NULL);
  g_signal_connect (detail->plot, "draw", G_CALLBACK (draw_plot), detail);
  gtk_container_add (GTK_CONTAINER (detail->box), detail->rows);
  gtk_container_add (GTK_CONTAINER (detail->box), detail->trouble);
  gtk_container_add (GTK_CONTAINER (detail->box), detail->note_box);
  gtk_container_add (GTK_CONTAINER (detail->box), detail->plot);
  gtk_container_add (GTK_CONTAINER (detail->scroller), detail->box);
  g_signal_connect_swapped (detail->scroller, "style-updated", G_CALLBACK (set_sizes), detail);
  set_sizes (detail);
  gtk_widget_show_all (detail->scroller);
  gtk_widget_hide (detail->trouble);
  return detail;
}

void
carpace_diary_detail_free (CarpaceDiaryDetail *detail)
{
  if (detail == NULL)
    return;
  g_string_free (detail->told, TRUE);
  g_free (detail);
}

GtkWidget *
carpace_diary_detail_widget (CarpaceDiaryDetail *detail)
{
  return detail->scroller;
}

char *
carpace_diary_detail_told (CarpaceDiaryDetail *detail)
{
  return g_strdup (detail->told->str);
}
