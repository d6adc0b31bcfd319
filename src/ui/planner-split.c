/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-split.c: a split takes up to a tenth of a second: by a press, never while something is dragged. */
#include "ui/planner-split.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "carpace/names.h"
#include "text/split-text.h"
#include "ui/card.h"
#include "ui/planner-parts.h"

#define MOST_WORDS 3

struct CarpacePlannerSplitter
{
  CarpacePlannerWindow *window;
  CarpacePlanner *planner;
  GtkWidget *box, *number, *now, *then, *proof, *take;
  CarpacePlannerSplit split;
  bool there;
};

static void
put_away (CarpacePlannerSplitter *splitter)
{
  splitter->there = false;
  gtk_widget_hide (splitter->now);
  gtk_widget_hide (splitter->then);
  gtk_widget_hide (splitter->proof);
  gtk_widget_hide (splitter->take);
}

void
carpace_planner_splitter_changed (CarpacePlannerSplitter *splitter)
{
  put_away (splitter);
  gtk_widget_set_sensitive (splitter->box, carpace_planner_is_sound (splitter->planner));
}

/* What was worked out stands further down: it is scrolled to. Once it has its place. */
static gboolean
focus_take (gpointer take)
{
  if (gtk_widget_get_mapped (take))
    gtk_widget_grab_focus (take);
  g_object_unref (take);
  return G_SOURCE_REMOVE;
}

static void
work_out (CarpacePlannerSplitter *splitter, int32_t into)
{
  const CarpacePlan *plan = carpace_planner_plan (splitter->planner);

  put_away (splitter);
  if (!carpace_planner_split (splitter->planner, into, &splitter->split))
    {
      g_autofree char *why = carpace_text_split_refused (into);
      carpace_card_say (splitter->now, why);
      return;
    }
  g_autofree char *now = carpace_text_split_side (_("Now"), plan, carpace_planner_load (splitter->planner));
  g_autofree char *name = carpace_text_split_into (into);
  g_autofree char *then = carpace_text_split_side (name, &splitter->split.plan, &splitter->split.load);
  g_autofree char *proof = carpace_text_split_proof (&splitter->split.found);
  splitter->there = true;
  carpace_card_say (splitter->now, now);
  carpace_card_say (splitter->then, then);
  carpace_card_say (splitter->proof, proof);
  gtk_widget_show (splitter->take);
  g_idle_add_full (G_PRIORITY_LOW, focus_take, g_object_ref (splitter->take), NULL);
}

static void
word_clicked (GtkWidget *button, CarpacePlannerSplitter *splitter)
{
  work_out (splitter, GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "into")));
}

static void
number_clicked (CarpacePlannerSplitter *splitter)
{
  work_out (splitter, gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (splitter->number)));
}

static void
taken (CarpacePlannerSplitter *splitter)
{
  if (splitter->there)
    carpace_planner_done (splitter->window, carpace_planner_put_blocks (splitter->planner, &splitter->split.plan));
}

static GtkWidget *
choices (CarpacePlannerSplitter *splitter)
{
  static const int32_t into[] = { 1, 2, 4 };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *into_number = carpace_part_button (_("Into so many blocks"));

  for (size_t i = 0; i < G_N_ELEMENTS (into); i++)
    {
      g_autofree char *name = carpace_text_split_into (into[i]);
      GtkWidget *button = carpace_part_button (name);

      g_object_set_data (G_OBJECT (button), "into", GINT_TO_POINTER (into[i]));
      g_signal_connect (button, "clicked", G_CALLBACK (word_clicked), splitter);
      gtk_box_pack_start (GTK_BOX (box), button, FALSE, FALSE, 0);
    }
  splitter->number = gtk_spin_button_new_with_range (1, CARPACE_PLAN_BLOCKS, 1);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (splitter->number), 3);
  carpace_card_name (splitter->number, _("Number of blocks"), NULL);
  g_signal_connect_swapped (into_number, "clicked", G_CALLBACK (number_clicked), splitter);
  gtk_box_pack_start (GTK_BOX (box), splitter->number, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), into_number, FALSE, FALSE, 0);
  return box;
}

CarpacePlannerSplitter *
carpace_planner_splitter_new (CarpacePlannerWindow *window)
{
  CarpacePlannerSplitter *splitter = g_new0 (CarpacePlannerSplitter, 1);
  GtkWidget *box = splitter->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  splitter->window = window;
  splitter->planner = carpace_planner_of (window);
  splitter->now = carpace_part_words ("", NULL);
  splitter->then = carpace_part_words ("", "carpace-strong");
  splitter->proof = carpace_part_words ("", NULL);
  splitter->take = carpace_part_button (_("Use these blocks"));
  gtk_widget_set_halign (splitter->take, GTK_ALIGN_START);
  g_signal_connect_swapped (splitter->take, "clicked", G_CALLBACK (taken), splitter);
  carpace_part_append (box, carpace_part_words (_("Split the day"), "carpace-section"), 0);
  carpace_part_append (box, carpace_part_words (_("The same drills for as long, in whole runs, with the hardest block as easy as can be."), "carpace-hint"), 4);
  carpace_part_append (box, choices (splitter), 8);
  carpace_part_append (box, splitter->now, 8);
  carpace_part_append (box, splitter->then, 4);
  carpace_part_append (box, splitter->proof, 4);
  carpace_part_append (box, splitter->take, 8);
  gtk_widget_show_all (box);
  put_away (splitter);
  for (int i = 0; i < 4; i++)
    gtk_widget_set_no_show_all ((GtkWidget *[]) { splitter->now, splitter->then, splitter->proof, splitter->take }[i], TRUE);
  return splitter;
}

GtkWidget *
carpace_planner_splitter_widget (CarpacePlannerSplitter *splitter)
{
  return splitter->box;
}
