/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-rules.c: pages of values that stand once in a plan: the rules, and player and week. */
#include "ui/planner-pages.h"

#include <glib/gi18n.h>
#include <string.h>

#include "text/plan-sources.h"
#include "text/plan-words.h"
#include "ui/card.h"
#include "ui/planner-parts.h"
#include "ui/planner-value.h"

#define MOST_WORDS 6

/* A part of a page: its keys follow one another in the table. */
typedef struct
{
  const char *title;
  CarpacePlanKey from, to;
} Part;

static const Part rules[] = {
  { N_("Micro-rests"), CARPACE_KEY_MICRO_REST_AFTER, CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP },
  { N_("Within the day"), CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO, CARPACE_KEY_TIGHTEN_STOP_ABOVE },
  { N_("The next day"), CARPACE_KEY_NEXT_DAY_CUT_TO, CARPACE_KEY_MATCHES_COUNTS },
  { N_("Limits of blocks"), CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN, CARPACE_KEY_BLOCK_LIMITS_LONGEST },
  { N_("Runs and gaps"), CARPACE_KEY_GAP_AFTER, CARPACE_KEY_RUN_MIN },
};

static const Part week[] = {
  { N_("Plan"), CARPACE_KEY_NAME, CARPACE_KEY_NOTE },
  { N_("Player"), CARPACE_KEY_HAND_SIDE, CARPACE_KEY_HAND_USUAL_DISCOMFORT },
  { N_("Day"), CARPACE_KEY_DAY_DOSE, CARPACE_KEY_DAY_BETWEEN_BLOCKS },
  { N_("Week"), CARPACE_KEY_WEEK_WITHOUT, CARPACE_KEY_WEEK_WITHOUT },
  { N_("On air"), CARPACE_KEY_ON_AIR_EVERY, CARPACE_KEY_ON_AIR_LENGTH },
};

typedef struct
{
  CarpacePlannerValueOwner owner;
  const Part *parts;
  int n_parts;
  CarpacePlannerValue *values[CARPACE_N_KEYS];
  GtkWidget *days[CARPACE_N_WEEKDAYS], *days_fault;
  bool showing;
} Page;

/* ---- days without practice ---- */

static void
day_toggled (GtkToggleButton *day, Page *page)
{
  g_autoptr (GString) list = g_string_new (NULL);
  const char *path = carpace_name (CARPACE_WORDS_PLAN_KEY, CARPACE_KEY_WEEK_WITHOUT);
  CarpacePlanEdit edit = { .kind = CARPACE_EDIT_SET, .path = path };

  if (page->showing)
    return;
  for (int32_t i = 0; i < CARPACE_N_WEEKDAYS; i++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (page->days[i])))
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", carpace_name (CARPACE_WORDS_WEEKDAY, i));
  edit.value = list->str;
  if (list->len == 0)
    edit = (CarpacePlanEdit) { .kind = CARPACE_EDIT_REMOVE, .path = path };
  page->owner.done (page->owner.self, carpace_planner_edit (page->owner.planner, &edit, 1));
}

static GtkWidget *
days_new (Page *page)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4), *flow = gtk_flow_box_new ();

  gtk_box_pack_start (GTK_BOX (box), carpace_part_words (_("Planned days without practice"), NULL), FALSE, FALSE, 0);
  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (flow), GTK_SELECTION_NONE);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (flow), CARPACE_N_WEEKDAYS);
  for (int32_t i = 0; i < CARPACE_N_WEEKDAYS; i++)
    {
      g_autofree char *spoken = g_strdup_printf (_("Without practice: %s"), carpace_text_weekday ((CarpaceWeekday) i));

      page->days[i] = gtk_check_button_new_with_label (carpace_text_weekday ((CarpaceWeekday) i));
      carpace_card_name (page->days[i], spoken, NULL);
      g_signal_connect (page->days[i], "toggled", G_CALLBACK (day_toggled), page);
      gtk_container_add (GTK_CONTAINER (flow), page->days[i]);
      gtk_widget_set_can_focus (gtk_widget_get_parent (page->days[i]), FALSE);
    }
  page->days_fault = carpace_part_words ("", "carpace-strong");
  gtk_box_pack_start (GTK_BOX (box), flow, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), page->days_fault, FALSE, FALSE, 0);
  return box;
}

static void
show_days (Page *page)
{
  const CarpacePlan *plan = carpace_planner_plan (page->owner.planner);
  const CarpacePlannerFault *fault = carpace_planner_fault_at (page->owner.planner, carpace_name (CARPACE_WORDS_PLAN_KEY, CARPACE_KEY_WEEK_WITHOUT));

  page->showing = true;
  for (int32_t i = 0; i < CARPACE_N_WEEKDAYS && plan != NULL && page->days[0] != NULL; i++)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (page->days[i]), (plan->without & 1 << i) != 0);
  if (page->days[0] != NULL)
    carpace_card_say (page->days_fault, fault != NULL ? fault->message : "");
  page->showing = false;
}

/* ---- values ---- */

static const char *const *
words_of (CarpacePlanKey key, char *ret_words[MOST_WORDS + 1])
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (key);
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  int32_t n = facts->unit == CARPACE_UNIT_WORD ? carpace_names_count (facts->words) : 0;

  for (int32_t i = 0; i < n && i < MOST_WORDS; i++)
    {
      carpace_plan_set_number (plan, key, i);
      ret_words[i] = carpace_text_plan_value (plan, key);
    }
  return n > 0 ? (const char *const *) ret_words : NULL;
}

static CarpacePlannerValue *
value_of (Page *page, CarpacePlanKey key)
{
  char *words[MOST_WORDS + 1] = { NULL };
  g_autofree char *label = carpace_part_begun (carpace_text_plan_key (key)), *tip = carpace_text_plan_source (key);
  CarpacePlannerValue *value = carpace_planner_value_new (&page->owner, label, tip, words_of (key, words));

  for (int i = 0; words[i] != NULL; i++)
    g_free (words[i]);
  if (key == CARPACE_KEY_NAME || key == CARPACE_KEY_NOTE)
    carpace_planner_value_widen (value);
  if (key != CARPACE_KEY_NAME && key != CARPACE_KEY_NOTE && key != CARPACE_KEY_VERSION)
    carpace_planner_value_lockable (value);
  carpace_planner_value_set_path (value, carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) key), NULL);
  return value;
}

static GtkWidget *
make (void *self)
{
  Page *page = self;
  GtkWidget *box, *scrolled = carpace_part_page (&box);

  for (int i = 0; i < page->n_parts; i++)
    {
      carpace_part_append (box, carpace_part_words (_(page->parts[i].title), "carpace-section"), i > 0 ? 16 : 0);
      for (int key = (int) page->parts[i].from; key <= (int) page->parts[i].to; key++)
        if (key == CARPACE_KEY_WEEK_WITHOUT)
          carpace_part_append (box, days_new (page), 4);
        else
          {
            page->values[key] = value_of (page, (CarpacePlanKey) key);
            carpace_part_append (box, carpace_planner_value_widget (page->values[key]), 4);
          }
    }
  return scrolled;
}

static void
changed (void *self)
{
  Page *page = self;

  for (int i = 0; i < CARPACE_N_KEYS; i++)
    if (page->values[i] != NULL)
      carpace_planner_value_show (page->values[i]);
  show_days (page);
}

static bool
jump (void *self, const char *path)
{
  Page *page = self;

  for (int i = 0; i < CARPACE_N_KEYS; i++)
    if (page->values[i] != NULL && *path != '\0' && carpace_planner_value_has (page->values[i], path))
      {
        carpace_planner_value_focus (page->values[i]);
        return true;
      }
  if (page->days[0] != NULL && g_str_has_prefix (path, "week"))
    {
      gtk_widget_grab_focus (page->days[0]);
      return true;
    }
  return false;
}

static void
add (CarpacePlannerWindow *window, const char *title, const Part *parts, int n_parts)
{
  Page *page = g_new0 (Page, 1);

  page->owner = carpace_planner_value_owner (window);
  page->parts = parts;
  page->n_parts = n_parts;
  carpace_planner_window_add_page (window, &(CarpacePlannerPage) { .title = title, .self = page, .make = make, .changed = changed, .jump = jump, .free = g_free });
}

void
carpace_planner_add_rules (CarpacePlannerWindow *window)
{
  add (window, _("Rules"), rules, (int) G_N_ELEMENTS (rules));
}

void
carpace_planner_add_week (CarpacePlannerWindow *window)
{
  add (window, _("Player and week"), week, (int) G_N_ELEMENTS (week));
}
