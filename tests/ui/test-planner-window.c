/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-planner-window.c: what is asked stays asked, what is typed is not lost, one movement is one step back, and a page
 * that nobody sees does nothing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <libintl.h>

#include "display.h"
#include "ui/planner-window.h"
#include "walk.h"

#define HEAD "carpace-plan: 1\nname: T\nday: {dose: 60 min, between-blocks: 45 min}\n"
#define DRILLS "drills:\n  - {id: a, name: Lantern, movement: small-turn, intensity: 12 %}\n  - {id: b, name: Harbour, movement: large-turn}\n"
#define BLOCKS "blocks:\n  - {limit: 30 min, drills: [a]}\n  - {limit: 30 min, drills: [b]}\n"
#define PLAN HEAD DRILLS BLOCKS
#define THIRD_WRONG HEAD DRILLS "  - {id: c, movement: sideways}\n" BLOCKS
#define NO_PLAN HEAD "drills:\n  - {id: a, movement: sideways}\n" BLOCKS

typedef struct
{
  CarpacePlanner *planner;
  CarpacePlannerWindow *window;
  GString *saved;
  int answers, told, closed;
  bool yes;
} Desk;

static const char *
path_of (void *self)
{
  return "/nowhere/team.plan.yaml";
}

static char *
open_path (void *self, const char *path)
{
  return g_strdup ("not here");
}

static CarpaceFileTrouble
save (void *self, const char *path, char **ret_why)
{
  Desk *desk = self;
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (desk->planner), &n);

  g_string_truncate (desk->saved, 0);
  g_string_append_len (desk->saved, bytes, (gssize) n);
  carpace_planner_saved (desk->planner);
  return CARPACE_FILE_FINE;
}

static void
nothing (void *self)
{
}

static void
closed (void *self)
{
  ((Desk *) self)->closed++;
}

static Desk *
desk_given (const char *text, bool (*measured) (void *self, const char *drill, CarpaceClicksCount *ret_count))
{
  Desk *desk = g_new0 (Desk, 1);
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  CarpacePlannerGiven given = { .self = desk, .path = path_of, .open = open_path, .save = save, .changed = nothing, .forget = nothing, .closed = closed,
                                .measured = measured };

  desk->saved = g_string_new (NULL);
  given.planner = desk->planner = carpace_planner_new (bytes);
  desk->window = carpace_planner_window_new (&given);
  return desk;
}

static Desk *
desk_of (const char *text)
{
  return desk_given (text, NULL);
}

static void
desk_free (Desk *desk)
{
  carpace_planner_window_free (desk->window);
  carpace_planner_free (desk->planner);
  g_string_free (desk->saved, TRUE);
  g_free (desk);
}

static int
set_up (void **state)
{
  Desk *desk = desk_of (PLAN);

  carpace_planner_window_show (desk->window);
  display_settle ();
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  desk_free (*state);
  return 0;
}

/* ---- what is there ---- */

typedef struct
{
  const char *name; /* what it begins with */
  GType type;
  GtkWidget *found;
} Search;

static void
look (GtkWidget *widget, gpointer user)
{
  Search *search = user;
  const char *name = atk_object_get_name (gtk_widget_get_accessible (widget));

  if (search->found == NULL && gtk_widget_get_visible (widget) && g_type_is_a (G_OBJECT_TYPE (widget), search->type) && name != NULL && g_str_has_prefix (name, search->name))
    search->found = widget;
  if (search->found == NULL && gtk_widget_get_visible (widget) && GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), look, search);
}

static GtkWidget *
seek (Desk *desk, GType type, const char *name)
{
  Search search = { name, type, NULL };

  look (GTK_WIDGET (carpace_planner_window_window (desk->window)), &search);
  if (search.found == NULL)
    look (gtk_window_get_titlebar (carpace_planner_window_window (desk->window)), &search);
  return search.found;
}

static GtkWidget *
find (Desk *desk, GType type, const char *name)
{
  GtkWidget *found = seek (desk, type, name);

  if (found == NULL)
    fail_msg ("no %s", name);
  return found;
}

static void
press (Desk *desk, const char *name)
{
  gtk_button_clicked (GTK_BUTTON (find (desk, GTK_TYPE_BUTTON, name)));
  display_settle ();
}

static void
notebooks (GtkWidget *widget, gpointer user)
{
  if (GTK_IS_NOTEBOOK (widget))
    *(GtkWidget **) user = widget;
  else if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), notebooks, user);
}

enum { BLOCKS_PAGE, DRILLS_PAGE, WEEK_PAGE, RULES_PAGE, FILE_PAGE, OWN_PAGE };

static GtkNotebook *
notebook (Desk *desk)
{
  GtkWidget *found = NULL;

  notebooks (GTK_WIDGET (carpace_planner_window_window (desk->window)), &found);
  return GTK_NOTEBOOK (found);
}

static void
turn_to (Desk *desk, int page)
{
  gtk_notebook_set_current_page (notebook (desk), page);
  display_settle ();
}

static bool
has (const Desk *desk, const char *words)
{
  gsize n;
  const char *bytes = g_bytes_get_data (carpace_planner_bytes (desk->planner), &n);

  return g_strstr_len (bytes, (gssize) n, words) != NULL;
}

/* ---- what is said and asked ---- */

static void
answered (void *user, bool yes)
{
  Desk *desk = user;

  desk->answers++;
  desk->yes = yes;
}

static void
a_question_outlives_what_is_said (void **state)
{
  Desk *desk = *state;

  carpace_planner_window_ask (desk->window, "Go on?", "Go on with it", "Throw it away", answered, desk);
  carpace_planner_window_say (desk->window, "Nothing there.");
  press (desk, "Put away");
  assert_null (seek (desk, GTK_TYPE_LABEL, "Nothing there."));
  assert_int_equal (desk->answers, 0);
  press (desk, "Go on with it");
  assert_int_equal (desk->answers, 1);
  assert_true (desk->yes);
  assert_null (seek (desk, GTK_TYPE_LABEL, "Go on?"));
}

static void
a_question_about_another_plan_goes_unanswered (void **state)
{
  Desk *desk = *state;

  carpace_planner_window_ask (desk->window, "Go on?", "Go on with it", "Throw it away", answered, desk);
  carpace_planner_window_say (desk->window, "Nothing there.");
  carpace_planner_window_say_nothing (desk->window);
  assert_null (seek (desk, GTK_TYPE_LABEL, "Go on?"));
  assert_null (seek (desk, GTK_TYPE_LABEL, "Nothing there."));
  assert_int_equal (desk->answers, 0);
}

/* ---- what is typed and not taken yet ---- */

static void
type (Desk *desk, const char *name, const char *text)
{
  GtkWidget *entry = find (desk, GTK_TYPE_ENTRY, name);

  gtk_widget_grab_focus (entry);
  gtk_entry_set_text (GTK_ENTRY (entry), text);
  assert_false (has (desk, text));
}

static void
what_is_typed_is_saved (void **state)
{
  Desk *desk = *state;

  type (desk, "Limit of block 1", "25 min");
  press (desk, "Save");
  assert_non_null (strstr (desk->saved->str, "limit: 25 min"));
}

static void
what_is_typed_is_undone_and_redone (void **state)
{
  Desk *desk = *state;

  type (desk, "Limit of block 1", "25 min");
  gtk_widget_set_sensitive (find (desk, GTK_TYPE_BUTTON, "Undo"), TRUE); /* by its key */
  press (desk, "Undo");
  assert_false (has (desk, "25 min"));
  assert_string_equal (gtk_entry_get_text (GTK_ENTRY (find (desk, GTK_TYPE_ENTRY, "Limit of block 1"))), "30 min");
  press (desk, "Redo");
  assert_true (has (desk, "limit: 25 min"));
}

static gboolean
go_on_planning (gpointer user)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *i = windows; i != NULL; i = i->next)
    if (GTK_IS_DIALOG (i->data) && gtk_widget_get_visible (i->data))
      {
        gtk_dialog_response (GTK_DIALOG (i->data), GTK_RESPONSE_CANCEL);
        return G_SOURCE_REMOVE;
      }
  return G_SOURCE_CONTINUE;
}

static void
what_is_typed_is_asked_about_before_it_closes (void **state)
{
  Desk *desk = *state;
  guint answering;

  type (desk, "Limit of block 1", "25 min");
  answering = g_timeout_add (20, go_on_planning, desk);
  carpace_planner_window_close (desk->window);
  if (desk->closed > 0) /* nothing was asked */
    g_source_remove (answering);
  assert_int_equal (desk->closed, 0);
  assert_true (has (desk, "limit: 25 min"));
}

static void
what_is_typed_into_the_file_is_saved (void **state)
{
  Desk *desk = *state;
  GtkTextBuffer *buffer;

  turn_to (desk, FILE_PAGE);
  buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (find (desk, GTK_TYPE_TEXT_VIEW, "The plan's file")));
  gtk_text_buffer_insert_at_cursor (buffer, "# mine\n", -1);
  assert_false (has (desk, "# mine"));
  press (desk, "Save");
  assert_non_null (strstr (desk->saved->str, "# mine"));
}

/* The numbers follow each movement; the way back has one step for all of it. */
static void
a_slider_s_way_is_one_step (void **state)
{
  Desk *desk = *state;
  GtkWidget *effort;

  turn_to (desk, DRILLS_PAGE);
  effort = find (desk, GTK_TYPE_SCALE, "Effort, 0 to 10");
  for (int i = 0; i < 20; i++)
    {
      gtk_range_set_value (GTK_RANGE (effort), 2 + 0.1 * i);
      assert_true (carpace_planner_plan (desk->planner)->drills[0].intensity_pct_mvc > 19);
      assert_true (has (desk, "intensity: 12 %"));
    }
  press (desk, "Save");
  assert_true (has (desk, "intensity: 39 %"));
  press (desk, "Undo");
  assert_true (has (desk, PLAN));
  assert_false (carpace_planner_can_undo (desk->planner));
}

/* ---- what is not there ---- */

static void
faults_of_no_shown_drill_lead_to_the_file (void **state)
{
  Desk *desk = *state;

  carpace_planner_write (desk->planner, THIRD_WRONG);
  press (desk, "Fault, line");
  assert_int_equal (gtk_notebook_get_current_page (notebook (desk)), FILE_PAGE);
}

static void
a_file_that_never_was_a_plan_has_no_drills_to_change (void **state)
{
  Desk *desk = desk_of (NO_PLAN);

  carpace_planner_window_show (desk->window);
  turn_to (desk, DRILLS_PAGE);
  assert_false (gtk_widget_is_sensitive (find (desk, GTK_TYPE_BUTTON, "Duplicate drill")));
  press (desk, "Fault, line");
  assert_int_equal (gtk_notebook_get_current_page (notebook (desk)), FILE_PAGE);
  turn_to (desk, DRILLS_PAGE);
  carpace_planner_write (desk->planner, PLAN);
  press (desk, "Duplicate drill");
  assert_true (has (desk, "Lantern, again"));
  desk_free (desk);
}

/* ---- the day's clock ---- */

/* From 18:00: 30 min, 45 min between, 30 min, and the rests in them. */
static const char *
on_the_rail (Desk *desk)
{
  return atk_object_get_name (gtk_widget_get_accessible (find (desk, GTK_TYPE_DRAWING_AREA, "Block 1")));
}

static void
begin_at (Desk *desk, const char *text)
{
  GtkWidget *begins = find (desk, GTK_TYPE_SPIN_BUTTON, "Day begins at");

  gtk_entry_set_text (GTK_ENTRY (begins), text);
  gtk_spin_button_update (GTK_SPIN_BUTTON (begins));
  display_settle ();
}

static void
the_day_begins_when_it_is_told_to (void **state)
{
  static const struct { const char *typed, *said; } rows[] = {
    { "19:30", "19:30" }, { "7.45", "07:45" }, { "6", "06:00" }, { "24:00", "06:00" }, { "later", "06:00" }, { "23:59", "23:59" }, { "0", "00:00" },
  };
  Desk *desk = *state;
  GtkWidget *begins = find (desk, GTK_TYPE_SPIN_BUTTON, "Day begins at");

  assert_string_equal (gtk_entry_get_text (GTK_ENTRY (begins)), "18:00");
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *from = g_strdup_printf (", %s to", rows[i].said);

      begin_at (desk, rows[i].typed);
      assert_string_equal (gtk_entry_get_text (GTK_ENTRY (begins)), rows[i].said);
      assert_non_null (strstr (on_the_rail (desk), from));
    }
  gtk_spin_button_spin (GTK_SPIN_BUTTON (begins), GTK_SPIN_STEP_FORWARD, 0); /* as a press on it, or the key up */
  assert_string_equal (gtk_entry_get_text (GTK_ENTRY (begins)), "00:15");
  assert_false (carpace_planner_can_undo (desk->planner));
}

/* Those of the clock stand where the clock has them; of a stream, counted from the first block. None as the day ends. */
static void
what_is_on_air_stands_on_the_clock (void **state)
{
  static const struct { const char *begins, *every, *from, *said; } rows[] = {
    { "18:10", "30 min", "clock", "intermissions of 5 min at 18:30, 19:00, 19:30" },
    { "18:10", "30 min", "stream", "intermissions of 5 min at 18:40, 19:10, 19:40" },
    { "18:10", "off", "clock", NULL },
    { "18:10", "105 min", "stream", "intermissions of 5 min at 19:55" },
    { "18:10", "106 min", "stream", NULL },
    { "18:10", "5 min", "clock", "intermissions of 2 min 30 s at 18:10, 18:15, 18:20, 18:25, 18:30, 18:35 …" },
  };
  Desk *desk = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *air = g_strdup_printf ("micro-rest: {after: 30 min}\non-air: {every: %s, from: %s, notice: 0 s}\n", rows[i].every, rows[i].from);
      g_autofree char *plan = g_strconcat (PLAN, air, NULL);

      carpace_planner_write (desk->planner, plan);
      assert_true (carpace_planner_is_sound (desk->planner));
      begin_at (desk, rows[i].begins);
      if (rows[i].said != NULL && strstr (on_the_rail (desk), rows[i].said) == NULL)
        fail_msg ("%s: %s", rows[i].said, on_the_rail (desk));
      if (rows[i].said == NULL)
        assert_null (strstr (on_the_rail (desk), "intermissions"));
    }
}

/* ---- pages ---- */

static GtkWidget *
make (void *self)
{
  return gtk_label_new ("own");
}

static void
changed (void *self)
{
  ((Desk *) self)->told++;
}

static void
a_page_is_told_while_it_is_seen (void **state)
{
  Desk *desk = *state;

  carpace_planner_window_add_page (desk->window, &(CarpacePlannerPage){ .title = "Own", .self = desk, .make = make, .changed = changed });
  carpace_planner_write (desk->planner, PLAN "# 1\n");
  assert_int_equal (desk->told, 0); /* not made yet */
  turn_to (desk, OWN_PAGE);
  assert_int_equal (desk->told, 1);
  carpace_planner_write (desk->planner, PLAN "# 2\n");
  assert_int_equal (desk->told, 2);
  turn_to (desk, BLOCKS_PAGE);
  carpace_planner_write (desk->planner, PLAN "# 3\n");
  carpace_planner_write (desk->planner, PLAN "# 4\n");
  press (desk, "Block later"); /* another block is chosen, too */
  assert_int_equal (desk->told, 2);
  turn_to (desk, OWN_PAGE);
  assert_int_equal (desk->told, 3);
  turn_to (desk, BLOCKS_PAGE);
  turn_to (desk, OWN_PAGE);
  assert_int_equal (desk->told, 3); /* nothing was changed */
}

/* ---- what was counted ---- */

static bool
measured (void *self, const char *drill, CarpaceClicksCount *ret_count)
{
  *ret_count = strcmp (drill, "a") == 0 ? (CarpaceClicksCount) { 90000, 126 } : (CarpaceClicksCount) { 0, 0 };
  return true;
}

static bool
nobody_can_tell (void *self, const char *drill, CarpaceClicksCount *ret_count)
{
  return false;
}

/* Unknown is not none a minute, and no number of the plan is made of either. */
static void
clicks_stand_beside_efforts (void **state)
{
  Desk *desk = desk_given (PLAN, measured);

  carpace_planner_window_show (desk->window);
  turn_to (desk, DRILLS_PAGE);
  find (desk, GTK_TYPE_LABEL, "Clicks measured: 84 a minute, in 1 min 30 s.");
  assert_non_null (strstr (gtk_entry_get_text (GTK_ENTRY (find (desk, GTK_TYPE_ENTRY, "Efforts"))), "60"));
  press (desk, "Harbour");
  find (desk, GTK_TYPE_LABEL, "Clicks measured: unknown");
  desk_free (desk);
  desk = desk_given (PLAN, nobody_can_tell);
  carpace_planner_window_show (desk->window);
  turn_to (desk, DRILLS_PAGE);
  assert_null (seek (desk, GTK_TYPE_LABEL, "Clicks measured"));
  desk_free (desk);
}

#define ROW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

/* It would catch a row of long words that makes the window wider than the screen, and a control that is too small. */
static void
each_page_has_room_on_a_small_screen (void **state)
{
  Desk *desk;

  g_object_set (gtk_settings_get_default (), "gtk-font-name", "Sans 15", NULL);
  g_setenv ("LANGUAGE", "de", TRUE);
  bindtextdomain ("carpace", CARPACE_BUILT_PO);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  assert_string_equal (gettext ("Planner"), "Planer");
  desk = desk_of (PLAN);
  carpace_planner_window_show (desk->window);
  display_settle ();
  for (int page = BLOCKS_PAGE; page <= FILE_PAGE; page++)
    {
      print_message ("page %d\n", page);
      turn_to (desk, page);
      walk_window (GTK_WIDGET (carpace_planner_window_window (desk->window)));
    }
  desk_free (desk);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ROW (a_question_outlives_what_is_said),
    ROW (a_question_about_another_plan_goes_unanswered),
    ROW (what_is_typed_is_saved),
    ROW (what_is_typed_is_undone_and_redone),
    ROW (what_is_typed_is_asked_about_before_it_closes),
    ROW (what_is_typed_into_the_file_is_saved),
    ROW (a_slider_s_way_is_one_step),
    ROW (faults_of_no_shown_drill_lead_to_the_file),
    cmocka_unit_test (a_file_that_never_was_a_plan_has_no_drills_to_change),
    ROW (the_day_begins_when_it_is_told_to),
    ROW (what_is_on_air_stands_on_the_clock),
    ROW (a_page_is_told_while_it_is_seen),
    cmocka_unit_test (clicks_stand_beside_efforts),
    cmocka_unit_test (each_page_has_room_on_a_small_screen),
  };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
