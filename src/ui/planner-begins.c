/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-begins.c: when the day on the rail begins: to be looked at, and no part of the plan. */
#include "ui/planner-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "carpace/quantity.h"
#include "text/face-text.h"
#include "ui/card.h"

#define DAY_MIN (24 * 60)
#define STEP_MIN 15
#define CHARS 5

static char *
text_of (int32_t minutes)
{
  return carpace_text_time_of_day ((CarpaceInstant) { .wall_ms = minutes * CARPACE_MINUTE_MS });
}

static gboolean
written (GtkSpinButton *spin, gpointer user)
{
  g_autofree char *text = text_of (gtk_spin_button_get_value_as_int (spin));

  if (strcmp (gtk_entry_get_text (GTK_ENTRY (spin)), text) != 0)
    gtk_entry_set_text (GTK_ENTRY (spin), text);
  return TRUE;
}

/* "07:30", "7.30" and "7" alike. */
static gint
typed (GtkSpinButton *spin, double *ret_minutes, gpointer user)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_entry_get_text (GTK_ENTRY (spin))));
  g_autofree char *whole = NULL;

  g_strdelimit (text, ".", ':');
  whole = g_strconcat (strcspn (text, ":") < 2 ? "0" : "", text, strchr (text, ':') == NULL ? ":00" : "", NULL);
  if (carpace_quantity_read (whole, CARPACE_UNIT_TIME_OF_DAY, ret_minutes) != CARPACE_QUANTITY_OK)
    return GTK_INPUT_ERROR; /* it stays what it was, as with one that the day does not have */
  return TRUE;
}

static void
changed (GtkSpinButton *spin, CarpacePlannerWindow *window)
{
  carpace_planner_begin_at (window, gtk_spin_button_get_value_as_int (spin));
}

/* What is marked is where the keys go. */
static gboolean
left (GtkWidget *spin, GdkEvent *event, gpointer user)
{
  gtk_editable_select_region (GTK_EDITABLE (spin), -1, -1);
  return FALSE;
}

GtkWidget *
carpace_planner_begins_new (CarpacePlannerWindow *window, int32_t minutes)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *label = gtk_label_new_with_mnemonic (_("Day _begins at"));
  GtkWidget *spin = gtk_spin_button_new_with_range (0, DAY_MIN - 1, STEP_MIN);

  gtk_label_set_mnemonic_widget (GTK_LABEL (label), spin);
  gtk_spin_button_set_numeric (GTK_SPIN_BUTTON (spin), FALSE); /* a time has a colon */
  gtk_spin_button_set_update_policy (GTK_SPIN_BUTTON (spin), GTK_UPDATE_IF_VALID);
  gtk_spin_button_set_wrap (GTK_SPIN_BUTTON (spin), TRUE);
  gtk_entry_set_width_chars (GTK_ENTRY (spin), CHARS);
  g_signal_connect (spin, "output", G_CALLBACK (written), NULL);
  g_signal_connect (spin, "input", G_CALLBACK (typed), NULL);
  g_signal_connect_after (spin, "focus-out-event", G_CALLBACK (left), NULL);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), minutes);
  g_signal_connect (spin, "value-changed", G_CALLBACK (changed), window);
  gtk_widget_set_tooltip_text (spin, _("The clock times along the rail are counted from it. It is not kept in the plan."));
  carpace_card_name (spin, gtk_label_get_text (GTK_LABEL (label)), _("The clock times along the rail are counted from it. It is not kept in the plan."));
  gtk_box_pack_start (GTK_BOX (box), label, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), spin, FALSE, FALSE, 0);
  return box;
}
