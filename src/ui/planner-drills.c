/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-drills.c: the drills there are, and the chosen one's values. */
#include "ui/planner-pages.h"

#include <glib/gi18n.h>

#include "text/clicks-text.h"
#include "text/plan-sources.h"
#include "text/plan-words.h"
#include "text/quoted.h"
#include "text/text.h"
#include "ui/card.h"
#include "ui/planner-parts.h"
#include "ui/tap.h"
#include "ui/wrist-dial.h"

#define LIST_WIDE 300
#define MOST_EFFORT 10.0
#define TAKEN_AFTER_MS 300 /* of the slider standing still: one step to be undone, not one for each on the way */

typedef struct
{
  GtkWidget *button, *pattern, *name, *index;
} Row;

typedef struct
{
  CarpacePlannerWindow *window;
  CarpacePlanner *planner;
  int32_t chosen;
  GtkWidget *list, *beside, *editor, *earlier, *later, *remove, *effort, *effort_words, *dial, *wrist_words, *wrist_fault, *clicks;
  CarpacePlannerValue *values[CARPACE_N_DRILL_KEYS];
  Row rows[CARPACE_PLAN_DRILLS];
  int32_t n_rows;
  guint taking; /* a source: the effort that is tried becomes a change */
  bool showing;
} Page;

static const CarpacePlan *
plan_of (const Page *page)
{
  return carpace_planner_plan (page->planner);
}

static void
done (Page *page, CarpacePlanEditEnd end)
{
  carpace_planner_done (page->window, end);
}

static void changed (void *self);
static void settle (void *self);

/* ---- the list ---- */

static void
row_toggled (GtkToggleButton *button, Page *page)
{
  if (page->showing || !gtk_toggle_button_get_active (button))
    return;
  settle (page);
  for (int32_t i = 0; i < page->n_rows; i++)
    if (page->rows[i].button == GTK_WIDGET (button))
      page->chosen = i;
  changed (page);
}

static void
add_row (Page *page)
{
  Row *row = &page->rows[page->n_rows];
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  row->button = gtk_radio_button_new_from_widget (page->n_rows > 0 ? GTK_RADIO_BUTTON (page->rows[0].button) : NULL);
  gtk_toggle_button_set_mode (GTK_TOGGLE_BUTTON (row->button), FALSE);
  gtk_style_context_add_class (gtk_widget_get_style_context (row->button), "carpace-plain");
  row->pattern = carpace_part_pattern ();
  row->name = carpace_part_words ("", NULL);
  row->index = gtk_label_new ("");
  gtk_style_context_add_class (gtk_widget_get_style_context (row->index), "carpace-number");
  gtk_box_pack_start (GTK_BOX (box), row->pattern, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), row->name, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (box), row->index, FALSE, FALSE, 0);
  gtk_container_add (GTK_CONTAINER (row->button), box);
  g_signal_connect (row->button, "toggled", G_CALLBACK (row_toggled), page);
  gtk_widget_show_all (row->button);
  carpace_part_append (page->list, row->button, page->n_rows > 0 ? 4 : 0);
  page->n_rows++;
}

static void
show_row (Page *page, int32_t i)
{
  Row *row = &page->rows[i];
  g_autofree char *name = carpace_text_harmless (plan_of (page)->drills[i].name);
  g_autofree char *index = g_strdup_printf ("%.2f", carpace_planner_load (page->planner)->drill[i]);
  g_autofree char *spoken = g_strdup_printf (_("%s, strain index %s"), name, index);

  carpace_part_set_pattern (row->pattern, i);
  carpace_card_say (row->name, name);
  carpace_card_say (row->index, index);
  carpace_card_name (row->button, spoken, NULL);
}

static void
show_list (Page *page)
{
  const CarpacePlan *plan = plan_of (page);

  while (page->n_rows > plan->n_drills)
    gtk_widget_destroy (page->rows[--page->n_rows].button);
  while (page->n_rows < plan->n_drills)
    add_row (page);
  page->chosen = CLAMP (page->chosen, 0, plan->n_drills - 1);
  for (int32_t i = 0; i < plan->n_drills; i++)
    show_row (page, i);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (page->rows[page->chosen].button), TRUE);
}

/* ---- what is done with drills ---- */

static void
added (Page *page)
{
  int32_t n = page->n_rows;
  CarpacePlanEditEnd end;

  settle (page);
  end = carpace_planner_add_drill (page->planner, _("New drill"));
  if (end == CARPACE_EDIT_DONE)
    page->chosen = n;
  changed (page);
  done (page, end);
}

static void
duplicated (Page *page)
{
  g_autofree char *name = g_strdup_printf (_("%s, again"), plan_of (page)->drills[page->chosen].name);
  CarpacePlanEditEnd end;

  settle (page);
  end = carpace_planner_duplicate_drill (page->planner, page->chosen, name);
  if (end == CARPACE_EDIT_DONE)
    page->chosen++;
  changed (page);
  done (page, end);
}

static void
move (Page *page, int32_t by)
{
  CarpacePlanEditEnd end;

  settle (page);
  end = carpace_planner_move_drill (page->planner, page->chosen, page->chosen + by);
  if (end == CARPACE_EDIT_DONE)
    page->chosen += by;
  changed (page);
  done (page, end);
}

static void
moved_earlier (Page *page)
{
  move (page, -1);
}

static void
moved_later (Page *page)
{
  move (page, 1);
}

static void
removed (Page *page)
{
  settle (page);
  if (carpace_planner_is_alone (page->planner, page->chosen))
    carpace_planner_window_say (page->window, _("A block has no other drill: give it one first."));
  else
    done (page, carpace_planner_remove_drill (page->planner, page->chosen));
}

/* ---- what is drawn or tapped instead of typed ---- */

static void
type (Page *page, CarpaceDrillKey key, const char *text)
{
  g_autofree char *path = g_strdup_printf ("drills[%d].%s", page->chosen, carpace_name (CARPACE_WORDS_DRILL_KEY, (int32_t) key));

  settle (page);
  done (page, carpace_planner_type (page->planner, path, text, NULL));
}

static void
tapped (void *self, double per_min)
{
  g_autofree char *text = g_strdup_printf ("%.0f /min", per_min);

  type (self, CARPACE_DRILL_EFFORTS, text);
}

/* ---- the chosen one ---- */

static void
show_drawn (Page *page, const CarpaceDrill *drill)
{
  g_autofree char *effort = g_strdup_printf (_("effort %.1f of 10"), drill->intensity_pct_mvc / 10);
  g_autofree char *wrist = carpace_text_drill_value (drill, CARPACE_DRILL_WRIST);
  g_autofree char *spoken = g_strdup_printf (_("Wrist: %s"), wrist);
  g_autofree char *path = g_strdup_printf ("drills[%d].wrist", page->chosen);
  const CarpacePlannerFault *fault = carpace_planner_fault_at (page->planner, path);

  gtk_range_set_value (GTK_RANGE (page->effort), drill->intensity_pct_mvc / 10);
  carpace_card_say (page->effort_words, effort);
  carpace_card_say (page->wrist_words, spoken);
  carpace_card_say (page->wrist_fault, fault != NULL ? fault->message : "");
  carpace_wrist_dial_set (page->dial, drill->bend == CARPACE_WRIST_EXTENSION ? -drill->bend_deg : drill->bend_deg,
                          plan_of (page)->side == CARPACE_SIDE_LEFT, spoken);
}

/* Beside its efforts, and not made into them here. */
static void
show_clicks (Page *page, const CarpaceDrill *drill)
{
  CarpaceClicksCount count;
  bool told = carpace_planner_measured (page->window, drill->id, &count);
  g_autofree char *text = told ? carpace_text_clicks_measured (&count) : g_strdup ("");

  carpace_card_say (page->clicks, text);
  gtk_widget_set_visible (page->clicks, told);
}

/* What is tried is seen at once, here as on the rail. */
static void
tried (Page *page)
{
  carpace_planner_tried (page->planner);
  page->showing = true;
  show_row (page, page->chosen);
  show_drawn (page, &plan_of (page)->drills[page->chosen]);
  carpace_planner_value_show (page->values[CARPACE_DRILL_INTENSITY]);
  page->showing = false;
}

static void
wrist_turned (void *self, double deg, bool is_done)
{
  Page *page = self;
  CarpacePlan *plan = carpace_planner_try (page->planner);

  if (plan == NULL)
    return;
  carpace_plan_try_wrist (plan, page->chosen, deg);
  if (is_done)
    done (page, carpace_planner_take (page->planner));
  else
    tried (page);
}

static void
settle (void *self)
{
  Page *page = self;

  if (page->taking == 0)
    return;
  g_clear_handle_id (&page->taking, g_source_remove);
  done (page, carpace_planner_take (page->planner));
}

static gboolean
take_later (gpointer user)
{
  settle (user);
  return G_SOURCE_REMOVE;
}

static gboolean
effort_left (GtkWidget *range, GdkEvent *event, Page *page)
{
  settle (page);
  return FALSE;
}

static void
effort_moved (GtkRange *range, Page *page)
{
  CarpacePlan *plan = page->showing ? NULL : carpace_planner_try (page->planner);

  if (plan == NULL)
    return;
  carpace_plan_try_effort (plan, page->chosen, gtk_range_get_value (range));
  g_clear_handle_id (&page->taking, g_source_remove);
  page->taking = g_timeout_add (TAKEN_AFTER_MS, take_later, page);
  tried (page);
}

static void
show_values (Page *page)
{
  for (int key = 0; key < CARPACE_N_DRILL_KEYS; key++)
    if (page->values[key] != NULL)
      {
        g_autofree char *path = g_strdup_printf ("drills[%d].%s", page->chosen, carpace_name (CARPACE_WORDS_DRILL_KEY, key));
        carpace_planner_value_set_path (page->values[key], path, NULL);
      }
}

static void
changed (void *self)
{
  Page *page = self;
  const CarpacePlan *plan = plan_of (page);

  g_clear_handle_id (&page->taking, g_source_remove); /* what was tried is taken, or gone */
  gtk_widget_set_sensitive (page->beside, plan != NULL);
  gtk_widget_set_sensitive (page->editor, plan != NULL);
  if (plan == NULL)
    return;
  page->showing = true;
  show_list (page);
  show_values (page);
  show_drawn (page, &plan->drills[page->chosen]);
  show_clicks (page, &plan->drills[page->chosen]);
  gtk_widget_set_sensitive (page->earlier, page->chosen > 0);
  gtk_widget_set_sensitive (page->later, page->chosen + 1 < plan->n_drills);
  gtk_widget_set_sensitive (page->remove, plan->n_drills > 1);
  page->showing = false;
}

static bool
jump (void *self, const char *path)
{
  Page *page = self;
  int drill = 0;

  if (plan_of (page) == NULL || sscanf (path, "drills[%d]", &drill) != 1 || drill < 0 || drill >= plan_of (page)->n_drills)
    return false; /* the plan that is shown is older than the file, and may have fewer */
  page->chosen = drill;
  changed (page);
  for (int key = 0; key < CARPACE_N_DRILL_KEYS; key++)
    if (page->values[key] != NULL && carpace_planner_value_has (page->values[key], path))
      {
        carpace_planner_value_focus (page->values[key]);
        return true;
      }
  if (g_str_has_suffix (path, ".wrist"))
    gtk_widget_grab_focus (page->dial);
  else
    gtk_widget_grab_focus (page->rows[page->chosen].button);
  return true;
}

/* ---- how it is built ---- */

static GtkWidget *
list_button (Page *page, GtkWidget *box, const char *text, GCallback clicked)
{
  GtkWidget *button = carpace_part_button (text);

  g_signal_connect_swapped (button, "clicked", clicked, page);
  carpace_part_append (box, button, 4);
  return button;
}

static GtkWidget *
make_list (Page *page)
{
  GtkWidget *box = page->beside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  page->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_size_request (box, LIST_WIDE, -1);
  gtk_widget_set_hexpand (box, FALSE); /* whatever its words want: else room is kept beside it */
  carpace_part_append (box, page->list, 0);
  list_button (page, box, _("Add a drill"), G_CALLBACK (added));
  list_button (page, box, _("Duplicate drill"), G_CALLBACK (duplicated));
  page->earlier = list_button (page, box, _("Drill earlier"), G_CALLBACK (moved_earlier));
  page->later = list_button (page, box, _("Drill later"), G_CALLBACK (moved_later));
  page->remove = list_button (page, box, _("Remove drill"), G_CALLBACK (removed));
  return box;
}

static void
add_value (Page *page, CarpaceDrillKey key, const char *const *words)
{
  CarpacePlannerValueOwner owner = carpace_planner_value_owner (page->window);
  g_autofree char *label = carpace_part_begun (carpace_text_drill_key (key)), *tip = carpace_text_drill_source (key);

  page->values[key] = carpace_planner_value_new (&owner, label, tip, words);
  if (key == CARPACE_DRILL_NAME)
    carpace_planner_value_widen (page->values[key]);
  carpace_part_append (page->editor, carpace_planner_value_widget (page->values[key]), key == CARPACE_DRILL_NAME ? 0 : 4);
}

static void
add_effort (Page *page)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  page->effort_words = carpace_part_words ("", NULL);
  page->effort = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, 0.1, MOST_EFFORT, 0.1);
  gtk_scale_set_draw_value (GTK_SCALE (page->effort), FALSE);
  gtk_widget_set_size_request (page->effort, 280, 44);
  carpace_card_name (page->effort, _("Effort, 0 to 10"), NULL);
  g_signal_connect (page->effort, "value-changed", G_CALLBACK (effort_moved), page);
  g_signal_connect (page->effort, "focus-out-event", G_CALLBACK (effort_left), page);
  gtk_box_pack_start (GTK_BOX (row), page->effort_words, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (row), page->effort, FALSE, FALSE, 0);
  carpace_part_append (page->editor, row, 0);
}

static void
add_wrist (Page *page)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  page->wrist_words = carpace_part_words ("", NULL);
  page->wrist_fault = carpace_part_words ("", "carpace-strong");
  page->dial = carpace_wrist_dial_new (wrist_turned, page);
  gtk_box_pack_start (GTK_BOX (words), page->wrist_words, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (words), carpace_part_words (_("Turn the drawn hand, or use the arrow keys up and down."), "carpace-hint"), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (words), page->wrist_fault, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (row), words, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (row), page->dial, FALSE, FALSE, 0);
  carpace_part_append (page->editor, row, 4);
}

static void
make_editor (Page *page)
{
  const char *movements[CARPACE_N_MOVEMENTS + 1] = { NULL }, *froms[CARPACE_N_EFFORTS_FROMS + 1] = { NULL };
  GtkWidget *tap;

  page->editor = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  for (int i = 0; i < CARPACE_N_MOVEMENTS; i++)
    movements[i] = carpace_text_movement ((CarpaceMovement) i);
  for (int i = 0; i < CARPACE_N_EFFORTS_FROMS; i++)
    froms[i] = carpace_text_efforts_from ((CarpaceEffortsFrom) i);
  add_value (page, CARPACE_DRILL_NAME, NULL);
  add_value (page, CARPACE_DRILL_MOVEMENT, movements);
  add_value (page, CARPACE_DRILL_VIEW_TURN, NULL);
  add_value (page, CARPACE_DRILL_INTENSITY, NULL);
  add_effort (page);
  add_value (page, CARPACE_DRILL_EFFORTS, NULL);
  tap = carpace_tap_new (tapped, page);
  gtk_widget_set_halign (tap, GTK_ALIGN_END);
  carpace_part_append (page->editor, tap, 4);
  page->clicks = carpace_part_words ("", "carpace-hint");
  gtk_widget_set_no_show_all (page->clicks, TRUE);
  carpace_part_append (page->editor, page->clicks, 0);
  add_value (page, CARPACE_DRILL_EFFORTS_FROM, froms);
  add_value (page, CARPACE_DRILL_EFFORT_LASTS, NULL);
  add_wrist (page);
  add_value (page, CARPACE_DRILL_RUN, NULL);
  add_value (page, CARPACE_DRILL_TIME, NULL);
}

static GtkWidget *
make (void *self)
{
  Page *page = self;
  GtkWidget *box, *scrolled = carpace_part_page (&box), *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);

  make_editor (page);
  gtk_box_pack_start (GTK_BOX (row), make_list (page), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (row), page->editor, TRUE, TRUE, 0);
  carpace_part_append (box, row, 0);
  gtk_widget_show_all (box);
  return scrolled;
}

static void
freed (gpointer self)
{
  Page *page = self;

  g_clear_handle_id (&page->taking, g_source_remove);
  g_free (page);
}

void
carpace_planner_add_drills (CarpacePlannerWindow *window)
{
  Page *page = g_new0 (Page, 1);

  page->window = window;
  page->planner = carpace_planner_of (window);
  carpace_planner_window_add_page (window, &(CarpacePlannerPage) { .title = _("Drills"), .self = page, .make = make, .changed = changed,
                                                                     .settle = settle, .jump = jump, .free = freed });
}
