/* SPDX-License-Identifier: GPL-3.0-or-later */
/* small-window.c: the rows of the tray's menu as buttons. */
#include "ui/small-window.h"

#include <string.h>

#include "text/face-text.h"
#include "ui/card.h"

struct CarpaceSmallWindow
{
  const CarpaceOwner *owner;
  GtkWidget *window;
  GtkWidget *rows[CARPACE_N_ITEMS];
  CarpaceItem items[CARPACE_N_ITEMS];
  bool drawing;
  unsigned draws;
};

static void
row_clicked (GtkWidget *row, CarpaceSmallWindow *small)
{
  if (!small->drawing)
    small->owner->choose (small->owner->self, (CarpaceItemId) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), "item")));
}

/* The plans as they are when asked for. */
static void
plans_toggled (GtkToggleButton *button, CarpaceSmallWindow *small)
{
  GtkWidget *menu;

  if (!gtk_toggle_button_get_active (button) || gtk_menu_button_get_popup (GTK_MENU_BUTTON (button)) == NULL)
    return;
  menu = GTK_WIDGET (gtk_menu_button_get_popup (GTK_MENU_BUTTON (button)));
  gtk_container_foreach (GTK_CONTAINER (menu), (GtkCallback) (void (*) (void)) gtk_widget_destroy, NULL);
  small->owner->fill_plans (small->owner->self, GTK_MENU_SHELL (menu));
}

static GtkWidget *
menu_row (CarpaceSmallWindow *small)
{
  GtkWidget *row = gtk_menu_button_new ();

  gtk_container_add (GTK_CONTAINER (row), gtk_label_new (""));
  gtk_menu_button_set_popup (GTK_MENU_BUTTON (row), gtk_menu_new ());
  g_signal_connect (row, "toggled", G_CALLBACK (plans_toggled), small);
  gtk_widget_show_all (row);
  return row;
}

static GtkWidget *
make_row (CarpaceSmallWindow *small, CarpaceItemId id)
{
  GtkWidget *row;

  if (id == CARPACE_ITEM_STATE)
    return carpace_card_heading ("");
  if (id == CARPACE_ITEM_PLAN)
    row = menu_row (small);
  else
    {
      row = id == CARPACE_ITEM_ON_AIR ? gtk_check_button_new_with_label ("") : gtk_button_new_with_label ("");
      g_signal_connect (row, id == CARPACE_ITEM_ON_AIR ? "toggled" : "clicked", G_CALLBACK (row_clicked), small);
    }
  if (id != CARPACE_ITEM_ON_AIR)
    gtk_style_context_add_class (gtk_widget_get_style_context (row), "carpace-button");
  g_object_set_data (G_OBJECT (row), "item", GINT_TO_POINTER (id));
  return row;
}

static const CarpaceItemId order[] = {
  CARPACE_ITEM_STATE, CARPACE_ITEM_START_OR_END, CARPACE_ITEM_REST, CARPACE_ITEM_PAUSE_OR_CONTINUE, CARPACE_ITEM_RATE,
  CARPACE_ITEM_MATCH_START, CARPACE_ITEM_MATCH_END, CARPACE_ITEM_ON_AIR, CARPACE_ITEM_PLAN, CARPACE_ITEM_DIARY,
  CARPACE_ITEM_WHY, CARPACE_ITEM_CAUTIONS, CARPACE_ITEM_QUIT
};

CarpaceSmallWindow *
carpace_small_window_new (const CarpaceOwner *owner)
{
  CarpaceSmallWindow *small = g_new0 (CarpaceSmallWindow, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  carpace_card_style ();
  small->owner = owner;
  small->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (small->window, "small-window");
  gtk_window_set_title (GTK_WINDOW (small->window), "Carpace");
  gtk_window_set_icon_name (GTK_WINDOW (small->window), "org.carpace.Carpace");
  gtk_window_set_resizable (GTK_WINDOW (small->window), FALSE);
  gtk_style_context_add_class (gtk_widget_get_style_context (small->window), "carpace-card");
  g_signal_connect (small->window, "delete-event", G_CALLBACK (gtk_widget_hide_on_delete), NULL);
  g_object_set (box, "margin", 16, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (order); i++)
    gtk_box_pack_start (GTK_BOX (box), small->rows[order[i]] = make_row (small, order[i]), FALSE, FALSE, 0);
  gtk_widget_show (box);
  gtk_container_add (GTK_CONTAINER (small->window), box);
  return small;
}

void
carpace_small_window_free (CarpaceSmallWindow *small)
{
  if (!small)
    return;
  gtk_widget_destroy (small->window);
  carpace_items_clear (small->items);
  g_free (small);
}

void
carpace_small_window_hide (CarpaceSmallWindow *small)
{
  gtk_widget_hide (small->window);
}

bool
carpace_small_window_is_shown (const CarpaceSmallWindow *small)
{
  return gtk_widget_get_visible (small->window);
}

GtkWindow *
carpace_small_window_window (CarpaceSmallWindow *small)
{
  return GTK_WINDOW (small->window);
}

unsigned
carpace_small_window_draws (const CarpaceSmallWindow *small)
{
  return small->draws;
}

static void
set_label (GtkWidget *row, const char *label)
{
  if (GTK_IS_LABEL (row))
    gtk_label_set_text (GTK_LABEL (row), label);
  else if (GTK_IS_MENU_BUTTON (row))
    {
      gtk_label_set_text (GTK_LABEL (gtk_bin_get_child (GTK_BIN (row))), label);
      carpace_card_name (row, label, NULL);
    }
  else
    gtk_button_set_label (GTK_BUTTON (row), label);
}

static void
draw_row (CarpaceSmallWindow *small, CarpaceItemId id, const CarpaceItem *item)
{
  GtkWidget *row = small->rows[id];
  /* The rows that have a menu of their own in the tray are buttons here: those
   * of a match only where they can be pressed. */
  bool shown = item->visible && (id != CARPACE_ITEM_MATCH_END || item->sensitive);

  set_label (row, item->label);
  gtk_widget_set_sensitive (row, item->sensitive || id == CARPACE_ITEM_STATE);
  gtk_widget_set_visible (row, shown);
  if (GTK_IS_CHECK_BUTTON (row))
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (row), item->on);
}

static void
draw (CarpaceSmallWindow *small, const CarpaceView *view, CarpaceInstant now)
{
  CarpaceItem items[CARPACE_N_ITEMS];
  bool changed = false;

  carpace_items_make (view, now, items);
  small->drawing = true;
  for (size_t i = 0; i < G_N_ELEMENTS (order); i++)
    if (!carpace_item_equal (&small->items[order[i]], &items[order[i]]))
      {
        draw_row (small, order[i], &items[order[i]]);
        changed = true;
      }
  small->drawing = false;
  carpace_items_clear (small->items);
  memcpy (small->items, items, sizeof items);
  small->draws += changed;
}

void
carpace_small_window_draw (CarpaceSmallWindow *small, const CarpaceView *view, CarpaceInstant now)
{
  if (carpace_small_window_is_shown (small))
    draw (small, view, now);
}

void
carpace_small_window_show (CarpaceSmallWindow *small, bool present, const CarpaceView *view, CarpaceInstant now)
{
  draw (small, view, now);
  gtk_window_set_focus_on_map (GTK_WINDOW (small->window), present);
  if (present)
    gtk_window_present (GTK_WINDOW (small->window));
  else
    gtk_widget_show (small->window);
}
