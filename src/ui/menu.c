/* SPDX-License-Identifier: GPL-3.0-or-later */
/* menu.c: a row an item, a line above each part of them. */
#include "ui/menu.h"

struct CarpaceMenu
{
  const CarpaceOwner *owner;
  GtkWidget *menu;
  GtkWidget *plans;
  GtkWidget *rows[CARPACE_N_ITEMS];
  GtkWidget *lines[CARPACE_N_ITEMS]; /* above a row that begins a part, else NULL */
  CarpaceItem items[CARPACE_N_ITEMS];
  bool drawing;
  bool card_waits;
  char *chord;
};

static void
row_chosen (GtkMenuItem *row, CarpaceMenu *menu)
{
  if (!menu->drawing)
    menu->owner->choose (menu->owner->self, (CarpaceItemId) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), "item")));
}

static void
add_row (CarpaceMenu *menu, CarpaceItemId id)
{
  GtkWidget *row = id == CARPACE_ITEM_ON_AIR ? gtk_check_menu_item_new_with_label ("") : gtk_menu_item_new_with_label ("");

  if (carpace_item_begins_part (id))
    gtk_menu_shell_append (GTK_MENU_SHELL (menu->menu), menu->lines[id] = gtk_separator_menu_item_new ());
  g_object_set_data (G_OBJECT (row), "item", GINT_TO_POINTER (id));
  menu->rows[id] = row;
  gtk_menu_shell_append (GTK_MENU_SHELL (menu->menu), row);
  gtk_widget_set_sensitive (row, id != CARPACE_ITEM_STATE);
  if (id != CARPACE_ITEM_PLAN)
    g_signal_connect (row, "activate", G_CALLBACK (row_chosen), menu);
}

CarpaceMenu *
carpace_menu_new (const CarpaceOwner *owner)
{
  CarpaceMenu *menu = g_new0 (CarpaceMenu, 1);

  menu->owner = owner;
  menu->menu = g_object_ref_sink (gtk_menu_new ());
  for (int id = 0; id < CARPACE_N_ITEMS; id++)
    add_row (menu, (CarpaceItemId) id);
  menu->plans = gtk_menu_new ();
  gtk_style_context_add_class (gtk_widget_get_style_context (menu->menu), "carpace-menu");
  gtk_style_context_add_class (gtk_widget_get_style_context (menu->plans), "carpace-menu");
  gtk_menu_item_set_submenu (GTK_MENU_ITEM (menu->rows[CARPACE_ITEM_PLAN]), menu->plans);
  return menu;
}

void
carpace_menu_free (CarpaceMenu *menu)
{
  if (!menu)
    return;
  gtk_widget_destroy (menu->menu);
  g_object_unref (menu->menu);
  carpace_items_clear (menu->items);
  g_free (menu->chord);
  g_free (menu);
}

GtkMenu *
carpace_menu_widget (CarpaceMenu *menu)
{
  return GTK_MENU (menu->menu);
}

void
carpace_menu_plans_changed (CarpaceMenu *menu)
{
  gtk_container_foreach (GTK_CONTAINER (menu->plans), (GtkCallback) (void (*) (void)) gtk_widget_destroy, NULL);
  menu->owner->fill_plans (menu->owner->self, GTK_MENU_SHELL (menu->plans));
}

static void
draw_row (CarpaceMenu *menu, CarpaceItemId id)
{
  GtkWidget *row = menu->rows[id];
  const CarpaceItem *item = &menu->items[id];

  if (g_strcmp0 (gtk_menu_item_get_label (GTK_MENU_ITEM (row)), item->label) != 0)
    gtk_menu_item_set_label (GTK_MENU_ITEM (row), item->label);
  gtk_widget_set_visible (row, item->visible);
  if (GTK_IS_CHECK_MENU_ITEM (row))
    gtk_check_menu_item_set_active (GTK_CHECK_MENU_ITEM (row), item->on);
}

/* A line stands where its part has a row to show. */
static void
draw_lines (CarpaceMenu *menu)
{
  bool any = false;

  for (int id = CARPACE_N_ITEMS - 1; id >= 0; id--)
    {
      any |= menu->items[id].visible;
      if (menu->lines[id] == NULL)
        continue;
      if (gtk_widget_get_visible (menu->lines[id]) != any)
        gtk_widget_set_visible (menu->lines[id], any);
      any = false;
    }
}

void
carpace_menu_set_card_again (CarpaceMenu *menu, bool waits, const char *chord)
{
  menu->card_waits = waits;
  g_free (menu->chord);
  menu->chord = g_strdup (chord);
}

bool
carpace_menu_draw (CarpaceMenu *menu, const CarpaceView *view, CarpaceInstant now)
{
  CarpaceItem items[CARPACE_N_ITEMS];
  bool changed = false;

  carpace_items_make (view, now, items);
  carpace_items_set_card_again (items, menu->card_waits && !view->on_air, menu->chord);
  menu->drawing = true;
  for (int id = 0; id < CARPACE_N_ITEMS; id++)
    {
      CarpaceItem old = menu->items[id];
      menu->items[id] = items[id];
      if (!carpace_item_equal (&old, &items[id]))
        {
          draw_row (menu, (CarpaceItemId) id);
          changed = true;
        }
      g_free (old.label);
    }
  if (changed)
    draw_lines (menu);
  menu->drawing = false;
  return changed;
}
