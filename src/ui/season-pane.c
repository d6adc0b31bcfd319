/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season-pane.c: who practises and for how long, the strips, the chosen day. */
#include "ui/season-pane.h"

#include <glib/gi18n.h>
#include <string.h>

#include "app/season-day.h"
#include "app/season-sum.h"
#include "text/quoted.h"
#include "text/season-text.h"
#include "ui/card.h"
#include "ui/day-rail.h"
#include "ui/season-strip.h"

#define TARGET 44
#define WEEKS 12
#define MOST_WEEKS 52
#define MOST_SEED 9999
#define HALF_HOUR (30 * CARPACE_MINUTE_MS)

/* One plan's season. */
typedef struct
{
  CarpaceSeasonPane *pane;
  CarpacePlan plan;
  bool known;
  CarpaceSeasonDays days;
  CarpaceSeasonStrip *strip;
  GtkWidget *box, *heading, *sum, *day_words, *weeks;
} Side;

struct CarpaceSeasonPane
{
  CarpaceSeasonPaneGiven given;
  GtkWidget *root, *box, *player, *n_weeks, *seed, *other, *other_fault, *fault, *open, *rail_of[2];
  char *other_id; /* what is compared with, until another is chosen */
  Side side[2];
  int32_t chosen;
  guint later; /* a source */
  bool shown;
};

static const char *const players[CARPACE_N_PLAYERS] = {
  [CARPACE_PLAYER_STEADY] = N_("Steady: rests when asked, seldom feels anything"),
  [CARPACE_PLAYER_SENSITIVE] = N_("Sensitive: the hand answers soon and for long"),
  [CARPACE_PLAYER_PLAYS_ON] = N_("Plays on: declines rests, overruns, starts early"),
  [CARPACE_PLAYER_SILENT] = N_("Silent: answers nothing"),
  [CARPACE_PLAYER_VARIED] = N_("Varied: takes from a third of the dose to a sixth above it"),
  [CARPACE_PLAYER_VARIED_NOISY] = N_("Varied, with scattered answers"),
  [CARPACE_PLAYER_ANY_DOSE] = N_("Takes any dose"),
  [CARPACE_PLAYER_ANY_DOSE_NOISY] = N_("Takes any dose, with scattered answers"),
  [CARPACE_PLAYER_UNDER_REPORTS] = N_("Says half of what the hand feels"),
  [CARPACE_PLAYER_DROPS] = N_("Takes four tenths less for three weeks"),
  [CARPACE_PLAYER_GROWS] = N_("Takes 2 % more each week"),
  [CARPACE_PLAYER_FLARES] = N_("Four bad days in week 3"),
  [CARPACE_PLAYER_MISSES] = N_("Misses one answer in three"),
};

/* ---- rehearsing ---- */

static CarpacePlayerTraits
traits_of (const CarpaceSeasonPane *pane, const CarpacePlan *plan)
{
  int kind = gtk_combo_box_get_active (GTK_COMBO_BOX (pane->player));
  CarpacePlayerTraits traits = carpace_player_traits ((CarpacePlayerKind) MAX (kind, 0));

  traits.usual = plan->usual_discomfort;
  return traits;
}

static uint64_t
seed_of (const CarpaceSeasonPane *pane)
{
  return (uint64_t) gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (pane->seed));
}

static int32_t
n_days (const CarpaceSeasonPane *pane)
{
  return 7 * gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (pane->n_weeks));
}

static void
hear (void *user, const CarpaceEntry *entry, int32_t line)
{
  carpace_season_days_take (user, entry);
}

static void
rehearse (Side *side)
{
  CarpaceSeasonPane *pane = side->pane;
  const CarpacePlayerTraits traits = traits_of (pane, &side->plan);

  carpace_season_days_clear (&side->days);
  if (side->known && carpace_season_days_init (&side->days, n_days (pane)))
    carpace_rehearse_traits (&side->plan, &traits, n_days (pane), seed_of (pane), hear, &side->days);
}

/* ---- what is said ---- */

static char *
words_of_day (const Side *side, int32_t day)
{
  const CarpaceSeasonDay *of = &side->days.day[day];
  const CarpaceSeasonDayTold told = { .day = side->days.first + day, .planned_ms = of->asked_ms, .done_ms = of->done_ms,
                                      .highest = of->highest, .decision = of->opened ? &of->decision : NULL };

  return carpace_text_season_day (&told);
}

static CarpaceSeasonWeek
week_of (const Side *side, int32_t from, int32_t dates)
{
  const CarpacePlayerTraits traits = traits_of (side->pane, &side->plan);

  return carpace_season_stretch (&side->days, from, dates, &side->plan, &traits, seed_of (side->pane));
}

static char *
words_of_weeks (const Side *side)
{
  GString *out = g_string_new (NULL);
  int64_t before_ms = -1;

  for (int32_t week = 0; 7 * week < side->days.n; week++)
    {
      CarpaceSeasonWeek of = week_of (side, 7 * week, 7);
      const CarpaceSeasonWeekTold told = { .number = week + 1, .done_ms = of.done_ms, .planned_ms = of.asked_ms, .days = of.days,
                                           .cuts = of.cuts, .highest = of.highest, .before_ms = before_ms };
      g_autofree char *line = carpace_text_season_week (&told);

      g_string_append_printf (out, "%s%s", week > 0 ? "\n" : "", line);
      before_ms = of.done_ms;
    }
  return g_string_free (out, FALSE);
}

static char *
words_of_all (const Side *side)
{
  const CarpacePlayerTraits traits = traits_of (side->pane, &side->plan);
  CarpaceSeasonSum sum;
  CarpaceSeasonAllTold told;

  carpace_season_sum (&side->days, &side->plan, &traits, seed_of (side->pane), &sum);
  told = (CarpaceSeasonAllTold){ .done_ms = sum.all.done_ms, .days = sum.all.days, .cuts = sum.all.cuts,
                                 .rest_days = sum.rest_days, .cautions = sum.cautions, .highest = sum.all.highest,
                                 .level_ms = sum.level_ms };
  return carpace_text_season_all (&told);
}

/* ---- showing ---- */

static int64_t
longest_of (const Side *side)
{
  int64_t longest = 0;

  for (int32_t i = 0; side->known && i < side->days.n; i++)
    longest = MAX (longest, MAX (side->days.day[i].asked_ms, side->days.day[i].done_ms));
  return longest;
}

static void
show_side (Side *side, int64_t longest_ms)
{
  g_autofree CarpaceSeasonMark *marks = g_new0 (CarpaceSeasonMark, MAX (side->days.n, 1));
  g_autofree char *name = carpace_text_quoted (side->plan.name), *title = NULL, *all = NULL, *weeks = NULL;

  gtk_widget_set_visible (side->box, side->known);
  if (!side->known)
    return;
  for (int32_t i = 0; i < side->days.n; i++)
    marks[i] = (CarpaceSeasonMark){ .planned_ms = side->days.day[i].asked_ms, .done_ms = side->days.day[i].done_ms,
                                    .highest = side->days.day[i].highest, .opened = side->days.day[i].opened };
  title = carpace_text_season_title (name, side->days.n);
  all = words_of_all (side);
  weeks = words_of_weeks (side);
  gtk_label_set_text (GTK_LABEL (side->heading), title);
  gtk_label_set_text (GTK_LABEL (side->sum), all);
  gtk_label_set_text (GTK_LABEL (side->weeks), weeks);
  carpace_season_strip_set (side->strip, marks, side->days.n, longest_ms, title);
}

static void
hide_rails (CarpaceSeasonPane *pane)
{
  for (int i = 0; i < 2; i++)
    gtk_widget_hide (pane->rail_of[i]);
}

static void
choose (void *self, int32_t day)
{
  CarpaceSeasonPane *pane = self;

  pane->chosen = day;
  hide_rails (pane);
  for (int i = 0; i < 2; i++)
    {
      Side *side = &pane->side[i];
      g_autofree char *words = NULL;

      if (!side->known || side->days.n == 0)
        continue;
      words = words_of_day (side, CLAMP (day, 0, side->days.n - 1));
      gtk_label_set_text (GTK_LABEL (side->day_words), words);
      carpace_season_strip_choose (side->strip, day, words);
    }
}

/* The chosen day as a rail, rehearsed once more for what stood within it. */
static void
open_day (void *self)
{
  CarpaceSeasonPane *pane = self;

  for (int i = 0; i < 2; i++)
    {
      Side *side = &pane->side[i];
      const CarpacePlayerTraits traits = traits_of (pane, &side->plan);
      CarpaceDayRail rail;

      if (!side->known || side->days.n == 0
          || !carpace_season_day_rail (&side->plan, &traits, seed_of (pane), MIN (pane->chosen, side->days.n - 1), &rail))
        continue;
      carpace_day_rail_set (pane->rail_of[i], &rail);
      gtk_widget_set_visible (pane->rail_of[i], rail.n > 0);
    }
}

static void
take_plan (CarpaceSeasonPane *pane)
{
  const CarpacePlan *plan = pane->given.plan (pane->given.self);

  pane->side[0].known = plan != NULL;
  if (plan != NULL)
    pane->side[0].plan = *plan;
  gtk_widget_set_visible (pane->fault, plan == NULL);
  gtk_widget_set_sensitive (pane->open, plan != NULL);
}

void
carpace_season_pane_show_now (CarpaceSeasonPane *pane)
{
  int64_t longest_ms = 1;

  g_clear_handle_id (&pane->later, g_source_remove);
  if (pane->root == NULL)
    return;
  pane->shown = true;
  take_plan (pane);
  for (int i = 0; i < 2; i++)
    {
      rehearse (&pane->side[i]);
      longest_ms = MAX (longest_ms, longest_of (&pane->side[i]));
    }
  longest_ms = (longest_ms + HALF_HOUR - 1) / HALF_HOUR * HALF_HOUR;
  for (int i = 0; i < 2; i++)
    show_side (&pane->side[i], longest_ms);
  choose (pane, MIN (pane->chosen, n_days (pane) - 1));
}

static gboolean
later (gpointer user)
{
  CarpaceSeasonPane *pane = user;

  pane->later = 0;
  carpace_season_pane_show_now (pane);
  return G_SOURCE_REMOVE;
}

void
carpace_season_pane_changed (CarpaceSeasonPane *pane)
{
  if (pane->root != NULL && !pane->shown)
    carpace_season_pane_show_now (pane);
  else if (pane->root != NULL && pane->later == 0)
    pane->later = g_idle_add (later, pane);
}

/* ---- the other plan ---- */

#define NO_OTHER "-"
#define AS_IT_IS "="
#define A_FILE "…"

static void
first_fault (void *user, const CarpaceFileFault *fault)
{
  char **first = user;

  if (*first == NULL && !fault->warning)
    *first = g_strdup (fault->message);
}

static void
say_other_fault (CarpaceSeasonPane *pane, const char *id, const char *fault)
{
  g_autofree char *name = g_filename_display_basename (id);
  g_autofree char *text = g_strdup_printf (_("“%s” is no plan to compare with: %s"), name, fault != NULL ? fault : _("it cannot be read."));

  gtk_label_set_text (GTK_LABEL (pane->other_fault), text);
  gtk_widget_show (pane->other_fault);
}

/* Another is chosen once it is known which. */
static void
ask_for_file (CarpaceSeasonPane *pane)
{
  GtkWidget *window = gtk_widget_get_toplevel (pane->root);
  GtkFileChooserNative *native
    = gtk_file_chooser_native_new (_("Compare with a plan"), GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_OPEN, _("Com_pare"), NULL);

  gtk_combo_box_set_active_id (GTK_COMBO_BOX (pane->other), pane->other_id);
  if (gtk_native_dialog_run (GTK_NATIVE_DIALOG (native)) == GTK_RESPONSE_ACCEPT)
    {
      g_autofree char *path = gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (native));

      if (path != NULL)
        carpace_season_pane_compare (pane, path);
    }
  g_object_unref (native);
}

static void
other_chosen (CarpaceSeasonPane *pane)
{
  const char *id = gtk_combo_box_get_active_id (GTK_COMBO_BOX (pane->other));
  Side *side = &pane->side[1];
  g_autofree char *fault = NULL;

  if (g_strcmp0 (id, A_FILE) == 0)
    {
      ask_for_file (pane);
      return;
    }
  g_free (pane->other_id);
  pane->other_id = g_strdup (id);
  gtk_widget_hide (pane->other_fault);
  side->known = false;
  if (g_strcmp0 (id, AS_IT_IS) == 0 && pane->side[0].known)
    {
      side->plan = pane->side[0].plan;
      side->known = true;
    }
  else if (id != NULL && strcmp (id, NO_OTHER) != 0 && strcmp (id, AS_IT_IS) != 0)
    {
      side->known = pane->given.plans->load (pane->given.plans->self, id, &side->plan, first_fault, &fault);
      if (!side->known)
        say_other_fault (pane, id, fault);
    }
  carpace_season_pane_changed (pane);
}

/* The file is one of the choices then. */
void
carpace_season_pane_compare (CarpaceSeasonPane *pane, const char *path)
{
  GtkComboBox *other = GTK_COMBO_BOX (pane->other);

  if (!gtk_combo_box_set_active_id (other, path))
    {
      g_autofree char *name = g_filename_display_basename (path);

      gtk_combo_box_text_append (GTK_COMBO_BOX_TEXT (other), path, name);
      gtk_combo_box_set_active_id (other, path);
    }
}

static void
add_plan (void *user, const CarpacePlanItem *item)
{
  g_autofree char *name = carpace_text_harmless (item->name);

  gtk_combo_box_text_append (user, item->word, name);
}

/* ---- how it is built ---- */

static GtkWidget *
words (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_selectable (GTK_LABEL (label), FALSE);
  return label;
}

static void
add_control (GtkWidget *flow, const char *mnemonic, GtkWidget *control)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *label = gtk_label_new_with_mnemonic (mnemonic);

  gtk_label_set_mnemonic_widget (GTK_LABEL (label), control);
  atk_object_set_name (gtk_widget_get_accessible (control), gtk_label_get_text (GTK_LABEL (label)));
  gtk_widget_set_size_request (control, -1, TARGET);
  gtk_box_pack_start (GTK_BOX (box), label, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), control, FALSE, FALSE, 0);
  gtk_container_add (GTK_CONTAINER (flow), box);
  gtk_widget_set_can_focus (gtk_widget_get_parent (box), FALSE); /* the control has the keys, not what it lies in */
}

static GtkWidget *
make_number (CarpaceSeasonPane *pane, int least, int most, int value)
{
  GtkWidget *spin = gtk_spin_button_new_with_range (least, most, 1);

  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), value);
  g_signal_connect_swapped (spin, "value-changed", G_CALLBACK (carpace_season_pane_changed), pane);
  return spin;
}

static void
make_player (CarpaceSeasonPane *pane)
{
  pane->player = gtk_combo_box_text_new ();
  for (int kind = 0; kind < CARPACE_N_PLAYERS; kind++)
    gtk_combo_box_text_append (GTK_COMBO_BOX_TEXT (pane->player), carpace_player_word ((CarpacePlayerKind) kind), _(players[kind]));
  gtk_combo_box_set_active (GTK_COMBO_BOX (pane->player), CARPACE_PLAYER_SENSITIVE);
  g_signal_connect_swapped (pane->player, "changed", G_CALLBACK (carpace_season_pane_changed), pane);
}

static void
make_other (CarpaceSeasonPane *pane)
{
  GtkComboBoxText *other = GTK_COMBO_BOX_TEXT (gtk_combo_box_text_new ());

  pane->other = GTK_WIDGET (other);
  gtk_combo_box_text_append (other, NO_OTHER, _("No other plan"));
  gtk_combo_box_text_append (other, AS_IT_IS, _("This plan as it is now"));
  if (pane->given.plans != NULL && pane->given.plans->list != NULL)
    pane->given.plans->list (pane->given.plans->self, add_plan, other);
  if (pane->given.plans != NULL && pane->given.plans->load != NULL)
    gtk_combo_box_text_append (other, A_FILE, _("A file…"));
  gtk_combo_box_set_active (GTK_COMBO_BOX (other), 0);
  pane->other_id = g_strdup (NO_OTHER);
  g_signal_connect_swapped (other, "changed", G_CALLBACK (other_chosen), pane);
}

static void
make_controls (CarpaceSeasonPane *pane)
{
  GtkWidget *flow = gtk_flow_box_new ();

  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (flow), GTK_SELECTION_NONE);
  gtk_flow_box_set_column_spacing (GTK_FLOW_BOX (flow), 16);
  gtk_flow_box_set_row_spacing (GTK_FLOW_BOX (flow), 8);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (flow), 4);
  make_player (pane);
  make_other (pane);
  pane->n_weeks = make_number (pane, 1, MOST_WEEKS, WEEKS);
  pane->seed = make_number (pane, 1, MOST_SEED, 1);
  gtk_widget_set_tooltip_text (pane->seed, _("The same seed gives the same days, for both plans."));
  add_control (flow, _("Modelled _player"), pane->player);
  add_control (flow, _("_Weeks"), pane->n_weeks);
  add_control (flow, _("See_d"), pane->seed);
  add_control (flow, _("_Compare with"), pane->other);
  gtk_box_pack_start (GTK_BOX (pane->box), flow, FALSE, FALSE, 0);
}

static void
make_side (CarpaceSeasonPane *pane, int i)
{
  const CarpaceSeasonStripOwner owner = { pane, choose, open_day };
  Side *side = &pane->side[i];
  GtkWidget *weeks = gtk_expander_new (_("Week by week"));
  PangoAttrList *bold = pango_attr_list_new ();

  pango_attr_list_insert (bold, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  side->pane = pane;
  side->strip = carpace_season_strip_new (&owner);
  side->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  side->heading = words ("");
  gtk_label_set_attributes (GTK_LABEL (side->heading), bold);
  pango_attr_list_unref (bold);
  side->sum = words ("");
  side->day_words = words ("");
  side->weeks = words ("");
  gtk_widget_set_size_request (weeks, -1, TARGET);
  gtk_container_add (GTK_CONTAINER (weeks), side->weeks);
  pane->rail_of[i] = carpace_day_rail_new ();
  gtk_widget_set_name (pane->rail_of[i], "season-day");
  gtk_box_pack_start (GTK_BOX (side->box), side->heading, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (side->box), carpace_season_strip_widget (side->strip), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (side->box), side->day_words, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (side->box), pane->rail_of[i], FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (side->box), side->sum, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (side->box), weeks, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (pane->box), side->box, FALSE, FALSE, 0);
}

static void
make_foot (CarpaceSeasonPane *pane)
{
  GtkWidget *legend = words (_("An open mark is planned, a filled one done; the line below the rail is the day’s highest discomfort, each point as long. "
                               "Modelled hands are invented, to compare plans by: they foretell no one’s weeks."));

  pane->open = gtk_button_new_with_mnemonic (_("_Open the chosen day"));
  gtk_widget_set_halign (pane->open, GTK_ALIGN_START);
  gtk_widget_set_size_request (pane->open, -1, TARGET);
  g_signal_connect_swapped (pane->open, "clicked", G_CALLBACK (open_day), pane);
  gtk_box_pack_start (GTK_BOX (pane->box), pane->open, FALSE, FALSE, 0);
  gtk_style_context_add_class (gtk_widget_get_style_context (legend), "carpace-quiet");
  gtk_box_pack_start (GTK_BOX (pane->box), legend, FALSE, FALSE, 0);
}

static void
make (CarpaceSeasonPane *pane)
{
  pane->root = g_object_ref_sink (gtk_scrolled_window_new (NULL, NULL));
  pane->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  gtk_container_set_border_width (GTK_CONTAINER (pane->box), 16);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (pane->root), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (pane->root), FALSE);
  make_controls (pane);
  pane->fault = words (_("This file is no plan yet; its weeks are rehearsed once it has no faults."));
  gtk_box_pack_start (GTK_BOX (pane->box), pane->fault, FALSE, FALSE, 0);
  pane->other_fault = words ("");
  atk_object_set_role (gtk_widget_get_accessible (pane->other_fault), ATK_ROLE_ALERT);
  gtk_box_pack_start (GTK_BOX (pane->box), pane->other_fault, FALSE, FALSE, 0);
  for (int i = 0; i < 2; i++)
    make_side (pane, i);
  make_foot (pane);
  gtk_container_add (GTK_CONTAINER (pane->root), pane->box);
  gtk_widget_show_all (pane->root);
  hide_rails (pane);
  for (int i = 0; i < 2; i++)
    {
      gtk_widget_set_no_show_all (pane->rail_of[i], TRUE);
      gtk_widget_set_no_show_all (pane->side[i].box, TRUE);
    }
  gtk_widget_set_no_show_all (pane->fault, TRUE);
  gtk_widget_set_no_show_all (pane->other_fault, TRUE);
  gtk_widget_hide (pane->other_fault);
}

CarpaceSeasonPane *
carpace_season_pane_new (const CarpaceSeasonPaneGiven *given)
{
  CarpaceSeasonPane *pane = g_new0 (CarpaceSeasonPane, 1);

  pane->given = *given;
  return pane;
}

void
carpace_season_pane_free (CarpaceSeasonPane *pane)
{
  if (pane == NULL)
    return;
  g_clear_handle_id (&pane->later, g_source_remove);
  if (pane->root != NULL)
    {
      gtk_widget_destroy (pane->root);
      g_object_unref (pane->root);
    }
  for (int i = 0; i < 2; i++)
    {
      carpace_season_strip_free (pane->side[i].strip);
      carpace_season_days_clear (&pane->side[i].days);
    }
  g_free (pane->other_id);
  g_free (pane);
}

GtkWidget *
carpace_season_pane_widget (CarpaceSeasonPane *pane)
{
  if (pane->root == NULL)
    make (pane);
  return pane->root;
}
