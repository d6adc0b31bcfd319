/* SPDX-License-Identifier: GPL-3.0-or-later */
/* site-choice.c: a drawing over a grid of words. */
#include "ui/site-choice.h"

#include "text/face-text.h"
#include "ui/card.h"

#define SMALL_A_ROW 5 /* nine of them, and what is last */
#define CHARACTERS 12
#define TIGHT_CHARACTERS 6
#define TIGHT 0.7 /* with large text nine sites have room in the size of ordinary text only */

typedef struct
{
  CarpaceSiteChosen chosen;
  void *user;
  GtkWidget *map, *grid, *words[CARPACE_N_SITES], *last;
} Choice;

static Choice *
choice_of (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), "sites");
}

static GtkWidget *
label_of (GtkWidget *word)
{
  return g_object_get_data (G_OBJECT (word), "label");
}

static void
clicked (GtkWidget *word, Choice *choice)
{
  choice->chosen (choice->user, (CarpaceSite) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (word), "site")));
}

static GtkWidget *
make_word (Choice *choice, CarpaceSite site)
{
  g_autofree char *numbered = g_strdup_printf ("%d %s", site, carpace_text_site (site));
  GtkWidget *word = gtk_button_new (), *label = gtk_label_new (numbered);

  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), CHARACTERS);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_container_add (GTK_CONTAINER (word), label);
  gtk_style_context_add_class (gtk_widget_get_style_context (word), "carpace-button");
  gtk_style_context_add_class (gtk_widget_get_style_context (word), "carpace-site");
  g_object_set_data (G_OBJECT (word), "site", GINT_TO_POINTER (site));
  g_object_set_data (G_OBJECT (word), "label", label);
  carpace_card_name (word, carpace_text_site (site), NULL);
  g_signal_connect (word, "clicked", G_CALLBACK (clicked), choice);
  return word;
}

/* Under its view, in the order of the numbers. */
static void
put_under_view (Choice *choice, CarpaceSite site)
{
  CarpaceSiteView view = carpace_site_view (site);
  int row = 0;

  for (int before = CARPACE_SITE_NONE + 1; before < (int) site; before++)
    row += carpace_site_view ((CarpaceSite) before) == view;
  gtk_container_child_set (GTK_CONTAINER (choice->grid), choice->words[site], "left-attach", (int) view, "top-attach", row, NULL);
}

static void
put_in_rows (Choice *choice, GtkWidget *child, int i)
{
  gtk_container_child_set (GTK_CONTAINER (choice->grid), child, "left-attach", i % SMALL_A_ROW, "top-attach", i / SMALL_A_ROW, NULL);
}

void
carpace_site_choice_set_small (GtkWidget *widget, bool small)
{
  Choice *choice = choice_of (widget);

  for (int site = CARPACE_SITE_NONE + 1; site < CARPACE_N_SITES; site++)
    if (small)
      put_in_rows (choice, choice->words[site], site - 1);
    else
      put_under_view (choice, (CarpaceSite) site);
  if (small)
    put_in_rows (choice, choice->last, CARPACE_N_SITES - 1);
  else
    gtk_container_child_set (GTK_CONTAINER (choice->grid), choice->last, "left-attach", CARPACE_N_SITE_VIEWS - 1, "top-attach",
                             CARPACE_N_SITES, NULL);
  gtk_grid_set_column_spacing (GTK_GRID (choice->grid), small ? 4 : 8);
  gtk_grid_set_row_spacing (GTK_GRID (choice->grid), small ? 2 : 4);
  gtk_widget_set_visible (choice->map, !small);
}

void
carpace_site_choice_set_tight (GtkWidget *widget, bool tight)
{
  Choice *choice = choice_of (widget);

  for (int site = CARPACE_SITE_NONE + 1; site < CARPACE_N_SITES; site++)
    {
      GtkWidget *label = label_of (choice->words[site]);

      carpace_card_shrink (label, tight ? TIGHT : 1);
      gtk_label_set_max_width_chars (GTK_LABEL (label), tight ? TIGHT_CHARACTERS : CHARACTERS);
    }
}

void
carpace_site_choice_set (GtkWidget *widget, CarpaceSite given, bool left)
{
  Choice *choice = choice_of (widget);

  carpace_site_map_set (choice->map, given, left);
  for (int site = CARPACE_SITE_NONE + 1; site < CARPACE_N_SITES; site++)
    {
      GtkStyleContext *style = gtk_widget_get_style_context (choice->words[site]);

      if (given == (CarpaceSite) site)
        gtk_style_context_add_class (style, "given");
      else
        gtk_style_context_remove_class (style, "given");
    }
}

GtkWidget *
carpace_site_choice_new (CarpaceSiteChosen chosen, void *user, GtkWidget *last)
{
  GtkWidget *widget = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  Choice *choice = g_new0 (Choice, 1);

  choice->chosen = chosen;
  choice->user = user;
  choice->last = last;
  choice->map = carpace_site_map_new (chosen, user);
  choice->grid = gtk_grid_new ();
  gtk_grid_set_column_homogeneous (GTK_GRID (choice->grid), TRUE);
  g_object_set_data_full (G_OBJECT (widget), "sites", choice, g_free);
  for (int site = CARPACE_SITE_NONE + 1; site < CARPACE_N_SITES; site++)
    gtk_grid_attach (GTK_GRID (choice->grid), choice->words[site] = make_word (choice, (CarpaceSite) site), site - 1, 0, 1, 1);
  gtk_style_context_add_class (gtk_widget_get_style_context (last), "carpace-site");
  gtk_grid_attach (GTK_GRID (choice->grid), last, CARPACE_N_SITES - 1, 0, 1, 1);
  gtk_box_pack_start (GTK_BOX (widget), choice->map, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (widget), choice->grid, FALSE, FALSE, 0);
  gtk_widget_show_all (widget);
  carpace_site_choice_set_small (widget, false);
  return widget;
}

GtkWidget *
carpace_site_choice_word (GtkWidget *widget, CarpaceSite site)
{
  return choice_of (widget)->words[site];
}

GtkWidget *
carpace_site_choice_map (GtkWidget *widget)
{
  return choice_of (widget)->map;
}
