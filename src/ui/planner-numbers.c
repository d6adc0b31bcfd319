/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-numbers.c: labels that are only said anew where they differ. */
#include "ui/planner-numbers.h"

#include <glib/gi18n.h>
#include <math.h>

#include "draw/rail-paint.h"
#include "text/duration.h"
#include "text/load-text.h"
#include "text/plan-rail-text.h"
#include "ui/card.h"
#include "ui/day-rail.h"
#include "ui/planner-parts.h"

#define ROWS (CARPACE_PLAN_BLOCKS + 1)
#define DOSE_HIGH 2.2 /* of the text's size */

struct CarpacePlannerNumbers
{
  CarpacePlanner *planner;
  CarpacePlannerNumbersOwner owner;
  GtkWidget *box, *grid, *names[ROWS], *indices[ROWS];
  GtkWidget *dose, *dose_words, *decides, *ease_title, *ease, *press, *stale, *faults_title, *faults;
  int shown;
  guint faults_hash;
};

/* ---- the dose against its ceiling ---- */

static gboolean
draw_dose (GtkWidget *area, cairo_t *cr, CarpacePlannerNumbers *numbers)
{
  const CarpacePlan *plan = carpace_planner_plan (numbers->planner);
  CarpaceRailPaint rail = { .cr = cr, .shades = carpace_shades_of (area), .em = carpace_em_of (area),
                            .middle = gtk_widget_get_allocated_height (area) / 2.0,
                            .mirrored = gtk_widget_get_direction (area) == GTK_TEXT_DIR_RTL,
                            .width = gtk_widget_get_allocated_width (area) };
  double most;

  if (plan == NULL)
    return FALSE;
  most = (double) MAX (MAX (plan->at_most_ms, plan->dose_ms), 1);
  carpace_rail_paint_line (&rail, 1, rail.width - 1);
  carpace_rail_paint_end (&rail, 1);
  carpace_rail_paint_end (&rail, 1 + (rail.width - 2) * (double) plan->at_most_ms / most);
  carpace_rail_paint_bead (&rail, CLAMP (rail.width * (double) plan->dose_ms / most, rail.em, rail.width - rail.em), false);
  return FALSE;
}

/* ---- what it says ---- */

static void
say_index (CarpacePlannerNumbers *numbers, int row, const char *name, double index)
{
  g_autofree char *text = isfinite (index) ? g_strdup_printf ("%.2f", index) : g_strdup ("–");
  g_autofree char *spoken = g_strdup_printf (_("Strain index, %s: %s"), name, text);

  carpace_card_say (numbers->names[row], name);
  carpace_card_say (numbers->indices[row], text);
  carpace_card_name (numbers->indices[row], spoken, NULL);
}

static void
show_rows (CarpacePlannerNumbers *numbers, int n)
{
  for (int row = 0; row < ROWS; row++)
    {
      gtk_widget_set_visible (numbers->names[row], row < n);
      gtk_widget_set_visible (numbers->indices[row], row < n);
    }
  numbers->shown = n;
}

static void
say_indices (CarpacePlannerNumbers *numbers, const CarpacePlan *plan, const CarpaceDayLoad *load)
{
  say_index (numbers, 0, _("Day"), load->day_index);
  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      g_autofree char *block = g_strdup_printf (_("Block %d"), i + 1);

      say_index (numbers, i + 1, block, load->block[i].strain_index);
    }
  show_rows (numbers, plan->n_blocks + 1);
}

/* A number and its percent stay on one line. */
static char *
together (const char *text)
{
  g_auto (GStrv) pieces = g_strsplit (text, " %", -1);

  return g_strjoinv ("\u00a0%", pieces);
}

static void
say_ease (CarpacePlannerNumbers *numbers, const CarpacePlan *plan, const CarpaceDayLoad *load)
{
  gtk_widget_set_visible (numbers->ease_title, load->has_ease);
  gtk_widget_set_visible (numbers->ease, load->has_ease);
  gtk_widget_set_visible (numbers->press, load->has_ease);
  if (!load->has_ease)
    return;
  g_autofree char *press = carpace_text_ease_press (plan, &load->ease);
  g_autofree char *effect = carpace_text_ease_effect (&load->ease, load->day_index, load->block[load->lowest].lowest_reserve);
  g_autofree char *unbroken = together (effect);
  carpace_card_say (numbers->ease, unbroken);
  carpace_part_say_button (numbers->press, press);
  gtk_widget_set_sensitive (numbers->press, carpace_planner_is_sound (numbers->planner));
}

static void
say_plan (CarpacePlannerNumbers *numbers)
{
  const CarpacePlan *plan = carpace_planner_plan (numbers->planner);
  const CarpaceDayLoad *load = carpace_planner_load (numbers->planner);

  if (plan == NULL || plan->n_blocks == 0)
    {
      show_rows (numbers, 0);
      return;
    }
  g_autofree char *decides = carpace_text_decides (plan, &load->decides);
  g_autofree char *dose = carpace_text_duration (plan->dose_ms), *most = carpace_text_duration (plan->at_most_ms);
  g_autofree char *words = g_strdup_printf (_("%s, at most %s"), dose, most);

  say_indices (numbers, plan, load);
  carpace_card_say (numbers->dose_words, words);
  carpace_card_name (numbers->dose, words, NULL);
  gtk_widget_queue_draw (numbers->dose);
  carpace_card_say (numbers->decides, decides);
  say_ease (numbers, plan, load);
}

/* ---- what is wrong ---- */

static void
fault_clicked (GtkWidget *button, CarpacePlannerNumbers *numbers)
{
  const GPtrArray *faults = carpace_planner_faults (numbers->planner);
  guint i = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "fault"));

  if (i < faults->len)
    {
      const CarpacePlannerFault *fault = faults->pdata[i];
      numbers->owner.jump (numbers->owner.self, fault->path, fault->line, fault->column);
    }
}

static void
add_fault (CarpacePlannerNumbers *numbers, guint i)
{
  const CarpacePlannerFault *fault = carpace_planner_faults (numbers->planner)->pdata[i];
  g_autofree char *text = g_strdup_printf (fault->warning ? _("Warning, line %d: %s") : _("Fault, line %d: %s"), (int) fault->line, fault->message);
  GtkWidget *button = carpace_part_row_button (text);

  g_object_set_data (G_OBJECT (button), "fault", GUINT_TO_POINTER (i));
  g_signal_connect (button, "clicked", G_CALLBACK (fault_clicked), numbers);
  gtk_box_pack_start (GTK_BOX (numbers->faults), button, FALSE, FALSE, 0);
}

static guint
hash_of (const GPtrArray *faults)
{
  guint hash = faults->len;

  for (guint i = 0; i < faults->len; i++)
    {
      const CarpacePlannerFault *fault = faults->pdata[i];
      hash = 33 * hash + g_str_hash (fault->message) + (guint) fault->line * 7 + (guint) fault->column;
    }
  return hash;
}

#define MOST_FAULTS 40

static void
take_away (GtkWidget *child, gpointer user)
{
  gtk_widget_destroy (child);
}

static void
say_faults (CarpacePlannerNumbers *numbers)
{
  const GPtrArray *faults = carpace_planner_faults (numbers->planner);
  guint hash = hash_of (faults);

  gtk_widget_set_visible (numbers->stale, !carpace_planner_is_sound (numbers->planner));
  if (hash == numbers->faults_hash)
    return;
  numbers->faults_hash = hash;
  gtk_container_foreach (GTK_CONTAINER (numbers->faults), take_away, NULL);
  for (guint i = 0; i < MIN (faults->len, MOST_FAULTS); i++)
    add_fault (numbers, i);
  gtk_widget_set_visible (numbers->faults_title, faults->len > 0);
}

void
carpace_planner_numbers_changed (CarpacePlannerNumbers *numbers)
{
  say_plan (numbers);
  if (!carpace_planner_is_trying (numbers->planner))
    say_faults (numbers);
}

/* ---- how it is built ---- */

static void
press_clicked (CarpacePlannerNumbers *numbers)
{
  numbers->owner.ease (numbers->owner.self);
}

static void
build_grid (CarpacePlannerNumbers *numbers)
{
  numbers->grid = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (numbers->grid), 4);
  for (int row = 0; row < ROWS; row++)
    {
      const char *class = row == 0 ? "carpace-strong" : "carpace-number";

      numbers->names[row] = carpace_part_words ("", row == 0 ? "carpace-strong" : NULL);
      numbers->indices[row] = gtk_label_new ("");
      gtk_style_context_add_class (gtk_widget_get_style_context (numbers->indices[row]), class);
      gtk_grid_attach (GTK_GRID (numbers->grid), numbers->names[row], 0, row, 1, 1);
      gtk_grid_attach (GTK_GRID (numbers->grid), numbers->indices[row], 1, row, 1, 1);
    }
}

static void
build (CarpacePlannerNumbers *numbers)
{
  GtkWidget *box = numbers->box = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));

  g_object_set (box, "margin", 16, NULL);
  build_grid (numbers);
  numbers->stale = carpace_part_words (_("As the plan was before its fault."), "carpace-hint");
  numbers->faults_title = carpace_part_words (_("To put right"), "carpace-section");
  numbers->faults = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  numbers->dose = gtk_drawing_area_new ();
  gtk_widget_set_size_request (numbers->dose, -1, 30);
  atk_object_set_role (gtk_widget_get_accessible (numbers->dose), ATK_ROLE_IMAGE);
  g_signal_connect (numbers->dose, "draw", G_CALLBACK (draw_dose), numbers);
  numbers->dose_words = carpace_part_words ("", NULL);
  numbers->decides = carpace_part_words ("", NULL);
  numbers->ease_title = carpace_part_words (_("Would ease it most"), "carpace-section");
  numbers->ease = carpace_part_words ("", NULL);
  numbers->press = carpace_part_button ("");
  g_signal_connect_swapped (numbers->press, "clicked", G_CALLBACK (press_clicked), numbers);
  carpace_part_append (box, numbers->faults_title, 0);
  carpace_part_append (box, numbers->faults, 4);
  carpace_part_append (box, carpace_part_words (_("Strain index"), "carpace-section"), 8);
  carpace_part_append (box, numbers->stale, 4);
  carpace_part_append (box, numbers->grid, 8);
  carpace_part_append (box, numbers->decides, 8);
  carpace_part_append (box, carpace_part_words (_("Dose"), "carpace-section"), 16);
  carpace_part_append (box, numbers->dose, 4);
  carpace_part_append (box, numbers->dose_words, 0);
  carpace_part_append (box, numbers->ease_title, 16);
  carpace_part_append (box, numbers->ease, 4);
  carpace_part_append (box, numbers->press, 8);
  carpace_part_append (box, carpace_part_words (carpace_text_load_estimates (), "carpace-hint"), 16);
  gtk_widget_show_all (box);
  gtk_widget_set_no_show_all (box, TRUE); /* what has nothing to say stays hidden */
}

CarpacePlannerNumbers *
carpace_planner_numbers_new (CarpacePlanner *planner, const CarpacePlannerNumbersOwner *owner)
{
  CarpacePlannerNumbers *numbers = g_new0 (CarpacePlannerNumbers, 1);

  numbers->planner = planner;
  numbers->owner = *owner;
  build (numbers);
  numbers->faults_hash = 1;
  carpace_planner_numbers_changed (numbers);
  return numbers;
}

void
carpace_planner_numbers_free (CarpacePlannerNumbers *numbers)
{
  g_object_unref (numbers->box);
  g_free (numbers);
}

GtkWidget *
carpace_planner_numbers_widget (CarpacePlannerNumbers *numbers)
{
  return numbers->box;
}
