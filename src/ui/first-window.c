/* SPDX-License-Identifier: GPL-3.0-or-later */
/* first-window.c: two pages, the cautions and the hand, and the plan at the foot. */
#include "ui/first-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "carpace/plan-keys.h"
#include "text/duration.h"
#include "text/face-text.h"
#include "text/first-text.h"
#include "text/text.h"
#include "ui/card.h"
#include "ui/choice.h"
#include "ui/day-rail.h"
#include "ui/window-room.h"

#define EDGE_PX 20
#define MARGIN_PX 32 /* that the desktop keeps to itself */
#define CAUTION_CHARACTERS 40
#define LABEL_CHARACTERS 18
#define PLAN_CHARACTERS 34
#define FOOT_LINES 5 /* of the plan, its reason and what rests leave out: room for all from the first moment */

struct CarpaceFirstWindow
{
  CarpaceFirstGiven given;
  CarpaceFirstAnswers answers;
  CarpaceFirstProposal proposal;
  CarpacePlan copy;
  GtkWidget *window, *pages, *scrolled[2], *foot[2];
  GtkWidget *signs[CARPACE_N_SIGNS], *none;
  GtkWidget *side, *grip, *age, *adult, *discomfort, *sitting, *once[CARPACE_N_ONCES], *once_none, *once_follows;
  GtkWidget *sensitivity, *sensitivity_asked, *cm, *counts, *per_inch, *cm_told;
  GtkWidget *plan, *reason, *rail, *evening, *start;
  bool settling;
};

static const int sittings_min[] = { 5, 10, 20, 30, 45, 60 };

/* ---- what is answered ---- */

static uint32_t
ticked (GtkWidget *const *boxes, int n)
{
  uint32_t bits = 0;

  for (int i = 0; i < n; i++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (boxes[i])))
      bits |= 1u << i;
  return bits;
}

static bool
is_on (GtkWidget *toggle)
{
  return gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (toggle));
}

/* @return 0 where no number stands there */
static double
number_in (GtkWidget *entry)
{
  g_autofree char *text = g_strdelimit (g_strdup (gtk_entry_get_text (GTK_ENTRY (entry))), ",", '.');
  char *end;
  double number = g_ascii_strtod (g_strstrip (text), &end);

  return *text != '\0' && *end == '\0' ? number : 0;
}

/* What was measured goes before what is worked out. */
static double
cm_per_turn (const CarpaceFirstWindow *first)
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (CARPACE_KEY_HAND_CM_PER_TURN);
  double cm = number_in (first->cm);

  if (gtk_entry_get_text_length (GTK_ENTRY (first->cm)) > 0)
    return cm >= facts->low && cm <= facts->high ? cm : 0;
  return carpace_cm_per_turn (number_in (first->counts), number_in (first->per_inch));
}

static bool
cm_is_asked (const CarpaceFirstWindow *first)
{
  return gtk_entry_get_text_length (GTK_ENTRY (first->cm)) > 0
         || (gtk_entry_get_text_length (GTK_ENTRY (first->counts)) > 0 && gtk_entry_get_text_length (GTK_ENTRY (first->per_inch)) > 0);
}

static void
read_answers (CarpaceFirstWindow *first)
{
  CarpaceFirstAnswers *answers = &first->answers;
  int sitting = carpace_choice_get (first->sitting), side = carpace_choice_get (first->side);
  int grip = carpace_choice_get (first->grip), age = carpace_choice_get (first->age);

  answers->signs = ticked (first->signs, CARPACE_N_SIGNS);
  answers->once = ticked (first->once, CARPACE_N_ONCES);
  answers->once_answered = answers->once != 0 || is_on (first->once_none);
  answers->side = side == 0 ? CARPACE_SIDE_LEFT : CARPACE_SIDE_RIGHT;
  answers->grip = grip >= 0 ? (CarpaceGrip) grip : CARPACE_GRIP_PALM;
  answers->age = age == 0 ? CARPACE_AGE_UNDER_16 : age == 1 ? CARPACE_AGE_16_OR_OVER : CARPACE_AGE_NOT_SAID;
  answers->adult_agrees = is_on (first->adult);
  answers->usual_discomfort = carpace_choice_get (first->discomfort);
  answers->sitting_ms = sitting >= 0 ? sittings_min[sitting] * CARPACE_MINUTE_MS : 0;
  answers->cm_per_turn = cm_per_turn (first);
}

/* ---- what comes of it ---- */

static void
draw_cm (CarpaceFirstWindow *first)
{
  g_autofree char *told = g_strdup ("");

  if (cm_is_asked (first) && first->answers.cm_per_turn > 0)
    {
      g_free (told);
      told = g_strdup_printf (_("%.1f cm a turn"), first->answers.cm_per_turn);
    }
  else if (cm_is_asked (first))
    {
      g_free (told);
      told = g_strdup (_("This does not come to 2 to 200 cm; it is left out."));
    }
  carpace_card_say (first->cm_told, told);
}

/* The evening as it would be, begun now. */
static void
draw_rail (CarpaceFirstWindow *first, bool proposes)
{
  CarpaceDayRail rail = { .n = 0 };

  if (proposes)
    carpace_day_rail_of_plan (&first->copy, first->given.clock.now (first->given.clock.self), &rail);
  carpace_day_rail_set (first->rail, &rail);
}

static void
draw_plan (CarpaceFirstWindow *first)
{
  bool proposes = carpace_first_proposes (first->proposal.outcome);
  g_autofree char *reason = carpace_text_first (&first->answers, &first->proposal);
  g_autofree char *plan = proposes ? carpace_text_first_plan (&first->copy) : g_strdup (_("Your first block plan"));

  carpace_card_say (first->plan, plan);
  carpace_card_say (first->reason, reason);
  draw_rail (first, proposes);
  gtk_widget_set_sensitive (first->start, proposes);
  gtk_widget_set_sensitive (first->evening, proposes);
}

static void
settle (CarpaceFirstWindow *first)
{
  CarpaceFirstProposal *proposal = &first->proposal;

  if (first->settling)
    return;
  first->settling = true;
  read_answers (first);
  *proposal = carpace_first_propose (&first->answers, first->given.plans, first->given.n_plans);
  if (proposal->plan >= 0)
    carpace_first_copy (&first->answers, first->given.plans[proposal->plan], proposal->fits_ms, &first->copy);
  gtk_button_set_label (GTK_BUTTON (first->none), first->answers.signs != 0 ? _("_Yes to those ticked") : _("_None of these"));
  gtk_widget_set_visible (first->adult, first->answers.age == CARPACE_AGE_UNDER_16);
  carpace_card_say (first->once_follows, carpace_text_once_follows (first->answers.once));
  draw_cm (first);
  draw_plan (first);
  first->settling = false;
}

/* The hand and the grip cannot be unanswered: a second tap leaves them. */
static void
held_toggled (GtkToggleButton *button, CarpaceFirstWindow *first)
{
  GtkWidget *of = g_object_get_data (G_OBJECT (button), "held");

  if (!first->settling && carpace_choice_get (of) < 0)
    gtk_toggle_button_set_active (button, TRUE);
  settle (first);
}

/* None, or some: not both. */
static void
once_toggled (GtkToggleButton *button, CarpaceFirstWindow *first)
{
  if (!first->settling && gtk_toggle_button_get_active (button))
    {
      first->settling = true;
      if (GTK_WIDGET (button) == first->once_none)
        for (int i = 0; i < CARPACE_N_ONCES; i++)
          gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (first->once[i]), FALSE);
      else
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (first->once_none), FALSE);
      first->settling = false;
    }
  settle (first);
}

static void
start_clicked (CarpaceFirstWindow *first)
{
  settle (first);
  if (carpace_first_proposes (first->proposal.outcome))
    first->given.begin (first->given.self, first->proposal.plan, &first->copy);
}

static void
evening_clicked (CarpaceFirstWindow *first)
{
  if (carpace_first_proposes (first->proposal.outcome))
    first->given.show_evening (first->given.self, &first->copy);
}

/* A caution is kept by a session, and a session has a plan: the mildest. */
static void
stop (CarpaceFirstWindow *first)
{
  int32_t plan = carpace_first_mildest (first->given.plans, first->given.n_plans);

  if (plan >= 0)
    carpace_first_copy (&first->answers, first->given.plans[plan], 0, &first->copy);
  first->given.caution (first->given.self, plan, &first->copy, first->answers.signs);
}

static void
cautions_answered (CarpaceFirstWindow *first)
{
  first->answers.cautions_answered = true;
  settle (first);
  if (first->answers.signs != 0)
    stop (first);
  else
    {
      gtk_stack_set_visible_child_name (GTK_STACK (first->pages), "hand");
      gtk_widget_child_focus (first->scrolled[1], GTK_DIR_TAB_FORWARD);
    }
}

/* ---- how it is made ---- */

static GtkWidget *
primary (const char *mnemonic, void (*clicked) (CarpaceFirstWindow *first), CarpaceFirstWindow *first)
{
  GtkWidget *button = carpace_card_button (mnemonic);

  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-primary");
  gtk_widget_set_valign (button, GTK_ALIGN_END);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked), first);
  return button;
}

static GtkWidget *
quiet (const char *mnemonic, void (*clicked) (CarpaceFirstWindow *first), CarpaceFirstWindow *first)
{
  GtkWidget *button = carpace_card_button (mnemonic);

  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-quiet");
  gtk_widget_set_valign (button, GTK_ALIGN_END);
  if (clicked != NULL)
    g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked), first);
  return button;
}

static GtkWidget *
checked_question (const char *question)
{
  GtkWidget *box = gtk_check_button_new (), *label = carpace_card_line (question);

  gtk_label_set_max_width_chars (GTK_LABEL (label), CAUTION_CHARACTERS);
  gtk_label_set_width_chars (GTK_LABEL (label), CAUTION_CHARACTERS);
  gtk_container_add (GTK_CONTAINER (box), label);
  carpace_card_name (box, question, NULL);
  return box;
}

static GtkWidget *
page_box (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  g_object_set (box, "margin", EDGE_PX, NULL);
  return box;
}

/* Questions above, which scroll where the screen is low; what comes of them below, which does not. */
static void
add_page (CarpaceFirstWindow *first, int i, const char *name, GtkWidget *questions, GtkWidget *foot)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  first->scrolled[i] = gtk_scrolled_window_new (NULL, NULL);
  first->foot[i] = foot;
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (first->scrolled[i]), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (first->scrolled[i]), TRUE);
  gtk_container_add (GTK_CONTAINER (first->scrolled[i]), questions);
  gtk_style_context_add_class (gtk_widget_get_style_context (foot), "carpace-foot");
  gtk_box_pack_start (GTK_BOX (page), first->scrolled[i], TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (page), foot, FALSE, FALSE, 0);
  gtk_widget_show_all (page);
  gtk_stack_add_named (GTK_STACK (first->pages), page, name);
}

static GtkWidget *
make_foot (GtkWidget **ret_row)
{
  GtkWidget *foot = gtk_event_box_new ();

  *ret_row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16);
  g_object_set (*ret_row, "margin", EDGE_PX, NULL);
  gtk_container_add (GTK_CONTAINER (foot), *ret_row);
  return foot;
}

static void
make_cautions (CarpaceFirstWindow *first)
{
  GtkWidget *box = page_box (), *grid = gtk_grid_new (), *row, *foot = make_foot (&row);

  gtk_box_pack_start (GTK_BOX (box), carpace_card_heading (_("Cautions: any of these today?")), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), carpace_card_line (_("Tick what is true today. One tick stops practice.")), FALSE, FALSE, 0);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 24);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  for (int i = 0; i < CARPACE_N_SIGNS; i++)
    {
      first->signs[i] = checked_question (carpace_text_sign_question ((CarpaceSign) i));
      g_signal_connect_swapped (first->signs[i], "toggled", G_CALLBACK (settle), first);
      gtk_grid_attach (GTK_GRID (grid), first->signs[i], i / (CARPACE_N_SIGNS / 2), i % (CARPACE_N_SIGNS / 2), 1, 1);
    }
  gtk_box_pack_start (GTK_BOX (box), grid, FALSE, FALSE, 0);
  first->none = primary (_("_None of these"), cautions_answered, first);
  gtk_box_pack_start (GTK_BOX (row), carpace_card_line (carpace_text_informs ()), TRUE, TRUE, 0);
  gtk_box_pack_end (GTK_BOX (row), first->none, FALSE, FALSE, 0);
  add_page (first, 0, "cautions", box, foot);
}

/* A row of the second page; what is shown behind the answers may be NULL. */
static void
add_row (GtkWidget *grid, int y, const char *label, GtkWidget *answer)
{
  GtkWidget *name = carpace_card_line (label);

  gtk_label_set_max_width_chars (GTK_LABEL (name), LABEL_CHARACTERS);
  gtk_label_set_width_chars (GTK_LABEL (name), LABEL_CHARACTERS);
  gtk_widget_set_halign (answer, GTK_ALIGN_START);
  gtk_grid_attach (GTK_GRID (grid), name, 0, y, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), answer, 1, y, 1, 1);
}

/* The left hand is at the left, whichever way words are read. */
static void
keep_hands_apart (GtkWidget *side)
{
  if (gtk_widget_get_direction (side) == GTK_TEXT_DIR_RTL)
    gtk_widget_set_halign (side, GTK_ALIGN_END);
  gtk_widget_set_direction (side, GTK_TEXT_DIR_LTR);
}

static GtkWidget *
choice (CarpaceFirstWindow *first, const char *name, const char *const *labels, int n, bool held)
{
  GtkWidget *made = labels != NULL ? carpace_choice_new (name, labels, n) : carpace_choice_new_numbers (name);

  for (int i = 0; i < n; i++)
    {
      GtkWidget *button = carpace_choice_button (made, i);

      g_object_set_data (G_OBJECT (button), "held", made);
      if (held)
        g_signal_connect (button, "toggled", G_CALLBACK (held_toggled), first);
      else
        g_signal_connect_swapped (button, "toggled", G_CALLBACK (settle), first);
    }
  return made;
}

static void
preselect (GtkWidget *made, int i)
{
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_choice_button (made, i)), TRUE);
}

static GtkWidget *
make_sitting (CarpaceFirstWindow *first, const char *name)
{
  char *labels[G_N_ELEMENTS (sittings_min)];
  GtkWidget *made;

  for (size_t i = 0; i < G_N_ELEMENTS (sittings_min); i++)
    labels[i] = carpace_text_duration (sittings_min[i] * CARPACE_MINUTE_MS);
  made = choice (first, name, (const char *const *) labels, G_N_ELEMENTS (labels), false);
  for (size_t i = 0; i < G_N_ELEMENTS (labels); i++)
    g_free (labels[i]);
  return made;
}

static GtkWidget *
toggle (const char *label, GCallback toggled, CarpaceFirstWindow *first)
{
  GtkWidget *button = gtk_toggle_button_new (), *line = carpace_card_line (label);

  gtk_label_set_max_width_chars (GTK_LABEL (line), CAUTION_CHARACTERS / 2);
  gtk_label_set_xalign (GTK_LABEL (line), 0.5f);
  gtk_label_set_justify (GTK_LABEL (line), GTK_JUSTIFY_CENTER);
  gtk_container_add (GTK_CONTAINER (button), line);
  carpace_card_name (button, label, NULL);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-button");
  g_signal_connect (button, "toggled", toggled, first);
  return button;
}

static GtkWidget *
make_once (CarpaceFirstWindow *first)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4), *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  for (int i = 0; i < CARPACE_N_ONCES; i++)
    {
      first->once[i] = toggle (carpace_text_once ((CarpaceOnce) i), G_CALLBACK (once_toggled), first);
      gtk_box_pack_start (GTK_BOX (row), first->once[i], FALSE, FALSE, 0);
    }
  first->once_none = toggle (_("None"), G_CALLBACK (once_toggled), first);
  gtk_box_pack_start (GTK_BOX (row), first->once_none, FALSE, FALSE, 0);
  first->once_follows = carpace_card_line ("");
  gtk_widget_set_no_show_all (first->once_follows, TRUE);
  gtk_box_pack_start (GTK_BOX (box), row, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), first->once_follows, FALSE, FALSE, 0);
  return box;
}

static void
settle_for (GtkWidget *widget, CarpaceFirstWindow *first)
{
  settle (first);
}

static GtkWidget *
make_age (CarpaceFirstWindow *first, const char *name)
{
  const char *const ages[] = { _("Under 16"), _("16 or over") };
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  first->age = choice (first, name, ages, 2, false);
  first->adult = toggle (_("A parent or guardian is here and agrees"), G_CALLBACK (settle_for), first);
  gtk_widget_set_no_show_all (first->adult, TRUE);
  gtk_widget_show (gtk_bin_get_child (GTK_BIN (first->adult)));
  gtk_box_pack_start (GTK_BOX (row), first->age, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (row), first->adult, FALSE, FALSE, 0);
  return row;
}

static GtkWidget *
number_entry (CarpaceFirstWindow *first, const char *name)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_entry_set_width_chars (GTK_ENTRY (entry), 6);
  gtk_entry_set_max_length (GTK_ENTRY (entry), 12);
  gtk_entry_set_input_purpose (GTK_ENTRY (entry), GTK_INPUT_PURPOSE_NUMBER);
  carpace_card_name (entry, name, NULL);
  g_signal_connect_swapped (entry, "changed", G_CALLBACK (settle), first);
  return entry;
}

static void
add_in_row (GtkWidget *row, GtkWidget *widget)
{
  gtk_box_pack_start (GTK_BOX (row), widget, FALSE, FALSE, 0);
}

static void
sensitivity_toggled (GtkToggleButton *button, CarpaceFirstWindow *first)
{
  gtk_widget_set_visible (first->sensitivity_asked, gtk_toggle_button_get_active (button));
}

/* A ruler, or the sum of counts; both are left out by whoever does not know. */
static GtkWidget *
make_sensitivity (CarpaceFirstWindow *first)
{
  GtkWidget *outer = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  first->sensitivity = toggle (_("If you know it…"), G_CALLBACK (sensitivity_toggled), first);
  first->sensitivity_asked = box;
  gtk_widget_set_halign (first->sensitivity, GTK_ALIGN_START);
  first->cm = number_entry (first, _("Centimetres a full turn"));
  first->counts = number_entry (first, _("Counts a full turn"));
  first->per_inch = number_entry (first, _("Counts per inch"));
  first->cm_told = carpace_card_line ("");
  gtk_widget_set_no_show_all (first->cm_told, TRUE);
  add_in_row (row, first->cm);
  add_in_row (row, carpace_card_line (_("cm a full turn, or")));
  add_in_row (row, first->counts);
  add_in_row (row, carpace_card_line (_("counts a full turn, at")));
  add_in_row (row, first->per_inch);
  add_in_row (row, carpace_card_line (_("counts per inch")));
  gtk_box_pack_start (GTK_BOX (box), carpace_card_line (_("By a ruler: note where the mouse lies, turn the view once all the way round, and measure how far the mouse went.")), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), row, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), first->cm_told, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (outer), first->sensitivity, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (outer), box, FALSE, FALSE, 0);
  gtk_widget_show_all (box);
  gtk_widget_hide (box);
  gtk_widget_set_no_show_all (box, TRUE);
  return outer;
}

static GtkWidget *
make_questions (CarpaceFirstWindow *first)
{
  const char *const sides[] = { _("Left"), _("Right") };
  const char *const grips[CARPACE_N_GRIPS]
    = { carpace_text_grip (CARPACE_GRIP_PALM), carpace_text_grip (CARPACE_GRIP_CLAW), carpace_text_grip (CARPACE_GRIP_FINGERTIP) };
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 16);
  add_row (grid, 0, _("Mouse hand"), first->side = choice (first, _("Mouse hand"), sides, 2, true));
  keep_hands_apart (first->side);
  add_row (grid, 1, _("Held with"), first->grip = choice (first, _("Held with"), grips, CARPACE_N_GRIPS, true));
  add_row (grid, 2, _("Age"), make_age (first, _("Age")));
  add_row (grid, 3, _("Usual discomfort"), first->discomfort = choice (first, _("Usual discomfort"), NULL, 11, false));
  add_row (grid, 4, _("Comfortable sitting today"), first->sitting = make_sitting (first, _("Comfortable sitting today")));
  add_row (grid, 5, _("Any of these?"), make_once (first));
  add_row (grid, 6, _("Sensitivity"), make_sensitivity (first));
  return grid;
}

static GtkWidget *
foot_line (const char *text)
{
  GtkWidget *line = carpace_card_line (text);

  gtk_label_set_width_chars (GTK_LABEL (line), PLAN_CHARACTERS);
  gtk_label_set_max_width_chars (GTK_LABEL (line), PLAN_CHARACTERS);
  return line;
}

/* As high as it will be with all that can stand there: nothing moves while answers are given. */
static void
reserve_lines (GtkWidget *box)
{
  PangoLayout *line = gtk_widget_create_pango_layout (box, "X");
  int height;

  pango_layout_get_pixel_size (line, NULL, &height);
  gtk_widget_set_size_request (box, -1, height * FOOT_LINES);
  g_object_unref (line);
}

static void
make_hand (CarpaceFirstWindow *first)
{
  GtkWidget *box = page_box (), *row, *foot = make_foot (&row), *said = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  gtk_box_pack_start (GTK_BOX (box), carpace_card_heading (_("Your hand")), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), make_questions (first), FALSE, FALSE, 0);
  first->plan = foot_line ("");
  gtk_style_context_add_class (gtk_widget_get_style_context (first->plan), "carpace-mind");
  first->reason = foot_line ("");
  first->evening = quiet (_("Show me an _evening"), evening_clicked, first);
  first->start = primary (_("_Start practising"), start_clicked, first);
  gtk_box_pack_start (GTK_BOX (said), first->plan, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (said), first->reason, FALSE, FALSE, 0);
  reserve_lines (said);
  gtk_box_pack_start (GTK_BOX (row), said, FALSE, FALSE, 0);
  first->rail = carpace_day_rail_new ();
  gtk_widget_set_valign (first->rail, GTK_ALIGN_CENTER);
  gtk_box_pack_start (GTK_BOX (row), first->rail, TRUE, TRUE, 0);
  gtk_box_pack_end (GTK_BOX (buttons), first->start, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (buttons), first->evening, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (row), buttons, FALSE, FALSE, 0);
  add_page (first, 1, "hand", box, foot);
  gtk_widget_set_visible (first->evening, first->given.show_evening != NULL);
}

/* As high as it would be, as far as the screen goes. */
static void
fit_the_screen (CarpaceFirstWindow *first)
{
  for (int i = 0; i < 2; i++)
    {
      int foot;

      gtk_widget_get_preferred_height (first->foot[i], NULL, &foot);
      carpace_window_scrolls_within (first->scrolled[i], foot + MARGIN_PX);
    }
}

static gboolean
key_pressed (GtkWidget *window, GdkEventKey *event, CarpaceFirstWindow *first)
{
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  carpace_first_window_hide (first);
  return TRUE;
}

CarpaceFirstWindow *
carpace_first_window_new (const CarpaceFirstGiven *given)
{
  CarpaceFirstWindow *first = g_new0 (CarpaceFirstWindow, 1);

  carpace_card_style ();
  first->given = *given;
  carpace_first_answers_init (&first->answers);
  first->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (first->window, "first-window");
  gtk_window_set_title (GTK_WINDOW (first->window), _("Carpace: before the first practice"));
  gtk_window_set_icon_name (GTK_WINDOW (first->window), "org.carpace.Carpace");
  gtk_window_set_position (GTK_WINDOW (first->window), GTK_WIN_POS_CENTER);
  gtk_style_context_add_class (gtk_widget_get_style_context (first->window), "carpace-card");
  gtk_style_context_add_class (gtk_widget_get_style_context (first->window), "carpace-first");
  g_signal_connect (first->window, "delete-event", G_CALLBACK (gtk_widget_hide_on_delete), NULL);
  g_signal_connect (first->window, "key-press-event", G_CALLBACK (key_pressed), first);
  first->pages = gtk_stack_new ();
  gtk_widget_show (first->pages);
  gtk_container_add (GTK_CONTAINER (first->window), first->pages);
  first->settling = true;
  make_cautions (first);
  make_hand (first);
  preselect (first->side, given->side == CARPACE_SIDE_LEFT ? 0 : 1);
  preselect (first->grip, CARPACE_GRIP_PALM);
  first->settling = false;
  settle (first);
  return first;
}

void
carpace_first_window_free (CarpaceFirstWindow *first)
{
  if (!first)
    return;
  first->settling = true;
  gtk_widget_destroy (first->window);
  g_free (first);
}

void
carpace_first_window_show (CarpaceFirstWindow *first)
{
  fit_the_screen (first);
  gtk_window_present (GTK_WINDOW (first->window));
}

void
carpace_first_window_hide (CarpaceFirstWindow *first)
{
  gtk_widget_hide (first->window);
}

GtkWidget *
carpace_first_window_widget (CarpaceFirstWindow *first)
{
  return first->window;
}
