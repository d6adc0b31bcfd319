/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-season-pane.c: weeks gone through by keys and clicks, a day opened, two plans on one seed.
 * With `--picture FILE [rtl] [dark] [2x]` draws the pane instead, to be looked at. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "display.h"
#include "trace.h"
#include "ui/season-pane.h"

typedef struct
{
  CarpacePlan plan, other;
  bool faulty;
  CarpacePlanFiles plans;
  CarpaceSeasonPane *pane;
  GtkWidget *window;
} Desk;

static const CarpacePlan *
plan_of (void *self)
{
  return ((Desk *) self)->faulty ? NULL : &((Desk *) self)->plan;
}

static void
list (void *self, CarpacePlanItemVisitor visit, void *user)
{
  visit (user, &(CarpacePlanItem){ .word = "other", .name = "Another" });
}

static bool
load (void *self, const char *word, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  *ret_plan = ((Desk *) self)->other;
  if (strcmp (word, "/nowhere/broken.plan.yaml") == 0)
    visit (user, &(CarpaceFileFault) { .line = 3, .message = "the dose is no duration" });
  return strcmp (word, "other") == 0 || strcmp (word, "/nowhere/team.plan.yaml") == 0;
}

static int
set_up (void **state)
{
  Desk *desk = g_new0 (Desk, 1);

  carpace_trace_plan (&desk->plan, 4, 15);
  carpace_trace_plan (&desk->other, 2, 20);
  strcpy (desk->plan.name, "Four quarters");
  strcpy (desk->other.name, "Two short ones");
  desk->plans = (CarpacePlanFiles){ .self = desk, .list = list, .load = load };
  desk->pane = carpace_season_pane_new (&(CarpaceSeasonPaneGiven){ desk, plan_of, &desk->plans });
  desk->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_window_set_default_size (GTK_WINDOW (desk->window), 1180, 760);
  gtk_container_add (GTK_CONTAINER (desk->window), carpace_season_pane_widget (desk->pane));
  carpace_season_pane_changed (desk->pane);
  gtk_widget_show (desk->window);
  display_settle ();
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  Desk *desk = *state;

  carpace_season_pane_free (desk->pane);
  gtk_widget_destroy (desk->window);
  g_free (desk);
  return 0;
}

/* ---- what is there ---- */

typedef struct
{
  const char *name;
  GType type;
  int nth;
  GtkWidget *found;
} Search;

static void
look (GtkWidget *widget, gpointer user)
{
  Search *search = user;

  if (search->found != NULL)
    return;
  if ((search->name == NULL || strcmp (gtk_widget_get_name (widget), search->name) == 0)
      && (search->type == 0 || g_type_is_a (G_OBJECT_TYPE (widget), search->type)) && search->nth-- == 0)
    search->found = widget;
  else if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), look, search);
}

static GtkWidget *
find (Desk *desk, const char *name, GType type, int nth)
{
  Search search = { name, type, nth, NULL };

  look (desk->window, &search);
  assert_non_null (search.found);
  return search.found;
}

typedef struct
{
  const char *text;
  bool found;
} Saying;

static void
listen (GtkWidget *widget, gpointer user)
{
  Saying *saying = user;

  if (GTK_IS_LABEL (widget) && gtk_widget_get_visible (widget))
    saying->found = saying->found || g_str_has_prefix (gtk_label_get_text (GTK_LABEL (widget)), saying->text);
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), listen, saying);
}

static bool
says (Desk *desk, const char *text)
{
  Saying saying = { text, false };

  listen (desk->window, &saying);
  return saying.found;
}

static const char *
said_of (Desk *desk, int side)
{
  return atk_object_get_description (gtk_widget_get_accessible (find (desk, "season-strip", 0, side)));
}

static void
press (Desk *desk, guint keyval)
{
  GtkWidget *area = find (desk, "season-strip", 0, 0);
  GdkEvent *event = gdk_event_new (GDK_KEY_PRESS);
  gboolean taken;

  event->key.window = g_object_ref (gtk_widget_get_window (area));
  event->key.keyval = keyval;
  gdk_event_set_device (event, gdk_seat_get_keyboard (gdk_display_get_default_seat (gdk_display_get_default ())));
  g_signal_emit_by_name (area, "key-press-event", event, &taken);
  gdk_event_free (event);
  display_settle ();
}

/* ---- tests ---- */

static void
days_are_gone_through_by_keys (void **state)
{
  static const struct { guint key; const char *day; } rows[] = {
    { GDK_KEY_Right, "Wed 3 Mar 2027: " },     { GDK_KEY_Page_Down, "Wed 10 Mar 2027: " }, { GDK_KEY_Left, "Tue 9 Mar 2027: " },
    { GDK_KEY_Home, "Tue 2 Mar 2027: " },      { GDK_KEY_Left, "Tue 2 Mar 2027: " },       { GDK_KEY_End, "Mon 24 May 2027: " },
    { GDK_KEY_Right, "Mon 24 May 2027: " },    { GDK_KEY_Page_Up, "Mon 17 May 2027: " },
  };
  Desk *desk = *state;

  assert_string_equal (atk_object_get_name (gtk_widget_get_accessible (find (desk, "season-strip", 0, 0))), "“Four quarters”, 84 days");
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      press (desk, rows[i].key);
      if (!g_str_has_prefix (said_of (desk, 0), rows[i].day))
        fail_msg ("%zu: %s", i, said_of (desk, 0));
    }
}

static void
a_day_opens_as_a_rail (void **state)
{
  Desk *desk = *state;
  GtkWidget *rail = find (desk, "season-day", 0, 0);

  assert_false (gtk_widget_get_visible (rail));
  press (desk, GDK_KEY_Return);
  assert_true (gtk_widget_get_visible (rail));
  press (desk, GDK_KEY_Right);
  assert_false (gtk_widget_get_visible (rail));
}

/* The same plan on the same seed has the same weeks; another has others. */
static void
two_plans_stand_on_one_seed (void **state)
{
  Desk *desk = *state;
  GtkComboBox *other = GTK_COMBO_BOX (find (desk, NULL, GTK_TYPE_COMBO_BOX_TEXT, 1));
  GtkWidget *second = gtk_widget_get_parent (gtk_widget_get_parent (gtk_widget_get_parent (find (desk, "season-strip", 0, 1))));

  assert_false (gtk_widget_get_visible (second));
  assert_true (gtk_combo_box_set_active_id (other, "="));
  display_settle ();
  assert_true (gtk_widget_get_visible (second));
  press (desk, GDK_KEY_End);
  assert_string_equal (said_of (desk, 0), said_of (desk, 1));
  assert_true (gtk_combo_box_set_active_id (other, "other"));
  display_settle ();
  assert_string_equal (atk_object_get_name (gtk_widget_get_accessible (find (desk, "season-strip", 0, 1))), "“Two short ones”, 84 days");
  assert_string_not_equal (said_of (desk, 0), said_of (desk, 1));
  assert_true (gtk_combo_box_set_active_id (other, "-"));
  display_settle ();
  assert_false (gtk_widget_get_visible (second));
}

/* Any file can be the other plan; one with faults is told, and leaves the first alone. */
static void
a_file_stands_beside_it (void **state)
{
  Desk *desk = *state;
  GtkComboBox *other = GTK_COMBO_BOX (find (desk, NULL, GTK_TYPE_COMBO_BOX_TEXT, 1));
  GtkWidget *second = gtk_widget_get_parent (gtk_widget_get_parent (gtk_widget_get_parent (find (desk, "season-strip", 0, 1))));

  carpace_season_pane_compare (desk->pane, "/nowhere/team.plan.yaml");
  display_settle ();
  assert_string_equal (gtk_combo_box_get_active_id (other), "/nowhere/team.plan.yaml");
  assert_string_equal (atk_object_get_name (gtk_widget_get_accessible (find (desk, "season-strip", 0, 1))), "“Two short ones”, 84 days");
  carpace_season_pane_compare (desk->pane, "/nowhere/broken.plan.yaml");
  display_settle ();
  assert_false (gtk_widget_get_visible (second));
  assert_true (says (desk, "“broken.plan.yaml” is no plan to compare with: the dose is no duration"));
  carpace_season_pane_compare (desk->pane, "/nowhere/team.plan.yaml");
  display_settle ();
  assert_true (gtk_widget_get_visible (second));
  assert_false (says (desk, "“broken.plan.yaml” is no plan"));
}

/* A plan that is changed is rehearsed anew; one with faults has no weeks. */
static void
the_weeks_follow_the_plan (void **state)
{
  Desk *desk = *state;
  g_autofree char *before = g_strdup (said_of (desk, 0));
  GtkWidget *side = gtk_widget_get_parent (gtk_widget_get_parent (gtk_widget_get_parent (find (desk, "season-strip", 0, 0))));

  desk->plan = desk->other;
  carpace_season_pane_changed (desk->pane);
  display_settle ();
  assert_string_not_equal (said_of (desk, 0), before);
  desk->faulty = true;
  carpace_season_pane_changed (desk->pane);
  display_settle ();
  assert_false (gtk_widget_get_visible (side));
  desk->faulty = false;
  carpace_season_pane_changed (desk->pane);
  display_settle ();
  assert_true (gtk_widget_get_visible (side));
}

static int
draw_picture (const char *path, int argc, char **argv)
{
  Desk *desk;
  void *state = NULL;
  cairo_surface_t *surface;
  cairo_t *cr;
  int scale = 1;

  for (int i = 3; i < argc; i++)
    if (strcmp (argv[i], "rtl") == 0)
      gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
    else if (strcmp (argv[i], "2x") == 0)
      scale = 2;
    else
      g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", TRUE, NULL);
  set_up (&state);
  desk = state;
  gtk_combo_box_set_active_id (GTK_COMBO_BOX (find (desk, NULL, GTK_TYPE_COMBO_BOX_TEXT, 1)), "other");
  display_settle ();
  press (desk, GDK_KEY_Page_Down);
  press (desk, GDK_KEY_Return);
  display_settle ();
  for (gint64 until = g_get_monotonic_time () + G_USEC_PER_SEC; g_get_monotonic_time () < until;)
    g_main_context_iteration (NULL, FALSE); /* until its frames are laid out */
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, scale * gtk_widget_get_allocated_width (desk->window),
                                        scale * gtk_widget_get_allocated_height (desk->window));
  cairo_surface_set_device_scale (surface, scale, scale);
  cr = cairo_create (surface);
  gtk_widget_draw (desk->window, cr);
  cairo_destroy (cr);
  return cairo_surface_write_to_png (surface, path) == CAIRO_STATUS_SUCCESS ? 0 : 1;
}

#define ROW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    ROW (days_are_gone_through_by_keys),
    ROW (a_day_opens_as_a_rail),
    ROW (two_plans_stand_on_one_seed),
    ROW (a_file_stands_beside_it),
    ROW (the_weeks_follow_the_plan),
  };

  display_open ();
  if (argc > 2 && strcmp (argv[1], "--picture") == 0)
    return draw_picture (argv[2], argc, argv);
  return cmocka_run_group_tests (tests, NULL, NULL);
}
