/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-said.c: two bars, the question above. */
#include "ui/planner-said.h"

#include <glib/gi18n.h>

#include "ui/card.h"
#include "ui/planner-parts.h"

typedef struct
{
  GtkWidget *box, *words, *yes, *no;
} Bar;

struct CarpacePlannerSaid
{
  GtkWidget *box;
  Bar asked, told;
  void (*answer) (void *user, bool yes); /* NULL: nothing is asked */
  void *user;
};

static void
answered (CarpacePlannerSaid *said, bool yes)
{
  void (*answer) (void *user, bool yes) = said->answer;

  said->answer = NULL;
  gtk_widget_hide (said->asked.box);
  if (answer != NULL)
    answer (said->user, yes);
}

static void
pressed_yes (CarpacePlannerSaid *said)
{
  answered (said, true);
}

static void
pressed_no (CarpacePlannerSaid *said)
{
  answered (said, false);
}

static void
put_away (CarpacePlannerSaid *said)
{
  gtk_widget_hide (said->told.box);
}

void
carpace_planner_said_say (CarpacePlannerSaid *said, const char *text)
{
  carpace_card_say (said->told.words, text);
  gtk_widget_show (said->told.box);
}

void
carpace_planner_said_ask (CarpacePlannerSaid *said, const char *text, const char *yes, const char *no,
                          void (*answer) (void *user, bool yes), void *user)
{
  said->answer = answer;
  said->user = user;
  carpace_card_say (said->asked.words, text);
  carpace_part_say_button (said->asked.yes, yes);
  carpace_part_say_button (said->asked.no, no);
  gtk_widget_show (said->asked.box);
}

void
carpace_planner_said_nothing (CarpacePlannerSaid *said)
{
  said->answer = NULL;
  gtk_widget_hide (said->asked.box);
  put_away (said);
}

/* ---- how it is built ---- */

static void
make_bar (CarpacePlannerSaid *said, Bar *bar)
{
  bar->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_style_context_add_class (gtk_widget_get_style_context (bar->box), "carpace-said");
  bar->words = carpace_part_words ("", NULL);
  atk_object_set_role (gtk_widget_get_accessible (bar->words), ATK_ROLE_ALERT);
  bar->no = carpace_part_button (_("Put away"));
  gtk_box_pack_start (GTK_BOX (bar->box), bar->words, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (bar->box), bar->no, FALSE, FALSE, 0);
  gtk_widget_show_all (bar->box);
  gtk_widget_hide (bar->box);
  gtk_box_pack_start (GTK_BOX (said->box), bar->box, FALSE, FALSE, 0);
}

CarpacePlannerSaid *
carpace_planner_said_new (void)
{
  CarpacePlannerSaid *said = g_new0 (CarpacePlannerSaid, 1);

  said->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_object_set_data_full (G_OBJECT (said->box), "said", said, g_free);
  make_bar (said, &said->asked);
  make_bar (said, &said->told);
  said->asked.yes = carpace_part_button ("");
  gtk_box_pack_start (GTK_BOX (said->asked.box), said->asked.yes, FALSE, FALSE, 0);
  gtk_widget_show (said->asked.yes);
  g_signal_connect_swapped (said->asked.yes, "clicked", G_CALLBACK (pressed_yes), said);
  g_signal_connect_swapped (said->asked.no, "clicked", G_CALLBACK (pressed_no), said);
  g_signal_connect_swapped (said->told.no, "clicked", G_CALLBACK (put_away), said);
  gtk_widget_show (said->box);
  return said;
}

GtkWidget *
carpace_planner_said_widget (CarpacePlannerSaid *said)
{
  return said->box;
}
