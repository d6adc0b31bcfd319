/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/choice.h"

#include <glib/gi18n.h>

#include "ui/card.h"

#define NUMBERS 11
#define MOST 16

typedef struct
{
  GtkWidget *buttons[MOST], *ends[2];
  int n;
} Choice;

static Choice *
choice_of (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), "choice");
}

static void
toggled (GtkToggleButton *button, Choice *choice)
{
  if (!gtk_toggle_button_get_active (button))
    return;
  for (int i = 0; i < choice->n; i++)
    if (choice->buttons[i] != GTK_WIDGET (button))
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (choice->buttons[i]), FALSE);
}

static GtkWidget *
make_button (Choice *choice, const char *name, const char *label, const char *style)
{
  GtkWidget *button = gtk_toggle_button_new_with_label (label);
  g_autofree char *spoken = g_strdup_printf ("%s: %s", name, label);

  gtk_style_context_add_class (gtk_widget_get_style_context (button), style);
  carpace_card_name (button, spoken, NULL);
  g_signal_connect (button, "toggled", G_CALLBACK (toggled), choice);
  choice->buttons[choice->n++] = button;
  return button;
}

static GtkWidget *
make_grid (Choice **ret_choice)
{
  GtkWidget *grid = gtk_grid_new ();

  *ret_choice = g_new0 (Choice, 1);
  g_object_set_data_full (G_OBJECT (grid), "choice", *ret_choice, g_free);
  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 4);
  return grid;
}

GtkWidget *
carpace_choice_new (const char *name, const char *const *labels, int n)
{
  Choice *choice;
  GtkWidget *grid = make_grid (&choice);

  for (int i = 0; i < n && i < MOST; i++)
    gtk_grid_attach (GTK_GRID (grid), make_button (choice, name, labels[i], "carpace-button"), i, 0, 1, 1);
  gtk_widget_show_all (grid);
  return grid;
}

GtkWidget *
carpace_choice_new_numbers (const char *name)
{
  Choice *choice;
  GtkWidget *grid = make_grid (&choice), *none = carpace_card_line (_("no discomfort")),
            *worst = carpace_card_line (_("the worst imaginable"));

  for (int i = 0; i < NUMBERS; i++)
    {
      g_autofree char *digits = g_strdup_printf ("%d", i);
      gtk_grid_attach (GTK_GRID (grid), make_button (choice, name, digits, "carpace-square"), i, 0, 1, 1);
    }
  gtk_widget_set_halign (grid, GTK_ALIGN_START); /* equal squares, to the pixel, beneath their question's beginning */
  gtk_label_set_xalign (GTK_LABEL (worst), 1);
  gtk_label_set_justify (GTK_LABEL (worst), GTK_JUSTIFY_RIGHT);
  choice->ends[0] = none;
  choice->ends[1] = worst;
  gtk_grid_attach (GTK_GRID (grid), none, 0, 1, 5, 1);
  gtk_grid_attach (GTK_GRID (grid), worst, 6, 1, 5, 1);
  gtk_widget_show_all (grid);
  return grid;
}

void
carpace_choice_show_ends (GtkWidget *widget, bool shown)
{
  Choice *choice = choice_of (widget);

  for (int i = 0; i < 2; i++)
    if (choice->ends[i])
      gtk_widget_set_visible (choice->ends[i], shown);
}

int
carpace_choice_get (GtkWidget *widget)
{
  Choice *choice = choice_of (widget);

  for (int i = 0; i < choice->n; i++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (choice->buttons[i])))
      return i;
  return -1;
}

void
carpace_choice_clear (GtkWidget *widget)
{
  Choice *choice = choice_of (widget);

  for (int i = 0; i < choice->n; i++)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (choice->buttons[i]), FALSE);
}

GtkWidget *
carpace_choice_button (GtkWidget *widget, int i)
{
  return choice_of (widget)->buttons[i];
}
