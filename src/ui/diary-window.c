/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-window.c: the drawing, and the chosen day in words beside it. */
#include "ui/diary-window.h"

#include "text/diary-text.h"
#include "ui/card.h"
#include "ui/diary-detail.h"
#include "ui/diary-drawing.h"
#include "ui/window-room.h"

#define WIDE 590.0 /* points */
#define HIGH 380.0

struct CarpaceDiaryWindow
{
  CarpaceDiary diary;
  CarpaceDiaryKeeper keeper;
  bool can_write;
  CarpaceClock clock;
  GtkWidget *window;
  CarpaceDiaryDrawing *drawing;
  CarpaceDiaryDetail *detail;
  CarpaceDiaryModel *model;
  CarpaceDay today, chosen;
  guint rereading;
};

/* What is said where there is nothing to draw. */
static const char *
instead (const CarpaceDiaryWindow *window)
{
  return window->model == NULL                               ? carpace_text_diary_unreadable ()
         : carpace_diary_model_n_rows (window->model) == 0 ? carpace_text_diary_empty ()
                                                             : NULL;
}

static void
show_chosen (void *self, CarpaceDay day)
{
  CarpaceDiaryWindow *window = self;
  g_autofree char *sentence = NULL;

  window->chosen = day;
  carpace_diary_detail_show (window->detail, window->model, day, instead (window));
  sentence = carpace_text_day_sentence (day, window->model == NULL ? NULL : carpace_diary_model_sum_of (window->model, day));
  carpace_card_name (carpace_diary_drawing_area (window->drawing), sentence, carpace_text_diary_keys ());
}

static gboolean
window_key (GtkWidget *widget, GdkEventKey *event, CarpaceDiaryWindow *window)
{
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  gtk_widget_hide (window->window);
  return TRUE;
}

static void
larger (GtkWidget *button, CarpaceDiaryWindow *window)
{
  carpace_diary_drawing_zoom (window->drawing, 1);
}

static void
smaller (GtkWidget *button, CarpaceDiaryWindow *window)
{
  carpace_diary_drawing_zoom (window->drawing, -1);
}

/* Reading and writing */

static void
read_diary (CarpaceDiaryWindow *window)
{
  if (window->model == NULL)
    window->model = carpace_diary_model_new (&window->diary, CARPACE_NO_DAY, window->today);
  else
    carpace_diary_model_reread (window->model);
  carpace_diary_drawing_set (window->drawing, window->model, instead (window));
  show_chosen (window, window->chosen);
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

static void
build (CarpaceDiaryWindow *window)
{
  GtkWidget *grid = gtk_grid_new ();
  double zoom;

  carpace_card_style ();
  window->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (window->window, "diary-window");
  gtk_window_set_title (GTK_WINDOW (window->window), carpace_text_diary_title ());
  gtk_window_set_icon_name (GTK_WINDOW (window->window), "org.carpace.Carpace");
  zoom = carpace_diary_plain_zoom (window->window);
  carpace_window_within (window->window, (int) (WIDE * zoom), (int) (HIGH * zoom)); /* as large as its letters ask */
  g_signal_connect (window->window, "delete-event", G_CALLBACK (gtk_widget_hide_on_delete), NULL);
  g_signal_connect (window->window, "key-press-event", G_CALLBACK (window_key), window);
  gtk_grid_attach (GTK_GRID (grid), carpace_diary_drawing_widget (window->drawing), 0, 0, 1, 2);
  gtk_grid_attach (GTK_GRID (grid), buttons (window), 1, 0, 1, 1);
  gtk_widget_set_vexpand (carpace_diary_detail_widget (window->detail), TRUE);
  gtk_grid_attach (GTK_GRID (grid), carpace_diary_detail_widget (window->detail), 1, 1, 1, 1);
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
  window->drawing = carpace_diary_drawing_new (&(CarpaceDiaryDrawingOwner) { .self = window, .chosen = show_chosen });
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
  carpace_diary_drawing_free (window->drawing);
  carpace_diary_model_free (window->model);
  g_free (window);
}

void
carpace_diary_window_show (CarpaceDiaryWindow *window, CarpaceDay today)
{
  if (window->model != NULL && today != window->today)
    {
      carpace_diary_drawing_set (window->drawing, NULL, NULL);
      g_clear_pointer (&window->model, carpace_diary_model_free);
    }
  window->today = today;
  window->chosen = today;
  read_diary (window);
  gtk_window_present (GTK_WINDOW (window->window));
  gtk_widget_grab_focus (carpace_diary_drawing_area (window->drawing));
  carpace_diary_drawing_choose (window->drawing, today);
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

CarpaceDiaryDrawing *
carpace_diary_window_drawing (CarpaceDiaryWindow *window)
{
  return window->drawing;
}

char *
carpace_diary_window_told (CarpaceDiaryWindow *window)
{
  return carpace_diary_detail_told (window->detail);
}
