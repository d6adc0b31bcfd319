/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-first-window.c: nothing begins before all is answered, a caution goes before all else, nothing
 * jumps, and mirrored it is mirrored. With $CARPACE_PICTURES a folder, pictures are left there. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "display.h"
#include "ui/first-window.h"
#include "walk.h"

#define MINUTE CARPACE_MINUTE_MS

typedef struct
{
  CarpacePlan plans[2];
  const CarpacePlan *pointers[2];
  CarpaceFirstWindow *window;
  int begun, stopped, shown;
  int32_t plan;
  uint32_t signs;
  CarpacePlan copy;
} World;

static CarpaceInstant
now (void *self)
{
  return (CarpaceInstant) { .wall_ms = INT64_C (1804010400000) };
}

static void
begin (void *self, int32_t plan, const CarpacePlan *copy)
{
  World *world = self;

  world->begun++;
  world->plan = plan;
  world->copy = *copy;
}

static void
caution (void *self, int32_t plan, const CarpacePlan *copy, uint32_t signs)
{
  World *world = self;

  world->stopped++;
  world->plan = plan;
  world->signs = signs;
}

static void
show_evening (void *self, const CarpacePlan *copy)
{
  ((World *) self)->shown++;
}

static void
make_plan (CarpacePlan *plan, const char *name, int64_t limit_ms)
{
  g_strlcpy (plan->name, name, sizeof plan->name);
  plan->n_blocks = 2;
  plan->n_drills = 1;
  plan->blocks[0] = plan->blocks[1] = (CarpaceBlock) { .limit_ms = limit_ms, .n_parts = 1, .parts = { { 0, CARPACE_WHOLE } } };
  plan->dose_ms = 2 * limit_ms;
  plan->at_most_ms = 3 * limit_ms;
  plan->longest_ms = 2 * limit_ms;
  plan->after_ms = limit_ms / 3;
  plan->rest_ms = 30 * CARPACE_SECOND_MS;
  plan->between_blocks_ms = 45 * MINUTE;
  plan->round_down_to_ms = 30 * CARPACE_SECOND_MS;
  plan->shortest_ms = 3 * MINUTE;
  plan->stop_above = 5;
  plan->n_shown = 2;
  plan->shown[0] = CARPACE_EXERCISE_FOREARM_SELF_MASSAGE;
  plan->shown[1] = CARPACE_EXERCISE_OPEN_AND_CLOSE;
}

static int
set_up (void **state)
{
  World *world = g_new0 (World, 1);
  CarpaceFirstGiven given = { .clock = { NULL, now }, .plans = world->pointers, .n_plans = 2, .side = CARPACE_SIDE_LEFT,
                              .self = world, .begin = begin, .caution = caution, .show_evening = show_evening };

  make_plan (&world->plans[0], "Halves", 30 * MINUTE);
  make_plan (&world->plans[1], "Quarters", 15 * MINUTE);
  world->pointers[0] = &world->plans[0];
  world->pointers[1] = &world->plans[1];
  world->window = carpace_first_window_new (&given);
  carpace_first_window_show (world->window);
  display_settle ();
  *state = world;
  return 0;
}

static int
tear_down (void **state)
{
  World *world = *state;

  carpace_first_window_free (world->window);
  g_free (world);
  return 0;
}

/* ---- widgets by their names ---- */

typedef struct { const char *name; GtkWidget *found; } Looking;

static void
look (GtkWidget *widget, gpointer user)
{
  Looking *looking = user;
  const char *name = atk_object_get_name (gtk_widget_get_accessible (widget));

  if (!looking->found && GTK_IS_BUTTON (widget) && name && strcmp (name, looking->name) == 0)
    looking->found = widget;
  if (!looking->found && GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), look, looking);
}

static GtkWidget *
named (World *world, const char *name)
{
  Looking looking = { name, NULL };

  look (carpace_first_window_widget (world->window), &looking);
  if (!looking.found)
    fail_msg ("there is no “%s”", name);
  return looking.found;
}

static gboolean
count_frame (GtkWidget *widget, GdkFrameClock *clock, gpointer frames)
{
  return --*(int *) frames > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

/* What was asked for is laid out and drawn after two frames. */
static void
let_it_be_drawn (World *world)
{
  int frames = 2;

  gtk_widget_add_tick_callback (carpace_first_window_widget (world->window), count_frame, &frames, NULL);
  while (frames > 0)
    g_main_context_iteration (NULL, TRUE);
}

static void
press (World *world, const char *name)
{
  gtk_button_clicked (GTK_BUTTON (named (world, name)));
  let_it_be_drawn (world);
}

static bool
can_start (World *world)
{
  return gtk_widget_get_sensitive (named (world, "Start practising"));
}

static gboolean
waited (gpointer loop)
{
  g_main_loop_quit (loop);
  return G_SOURCE_REMOVE;
}

/* For whoever looks: only then are frames waited for. */
static void
leave_picture (World *world, const char *name)
{
  GtkWidget *window = carpace_first_window_widget (world->window);
  const char *folder = g_getenv ("CARPACE_PICTURES");
  g_autofree char *path = folder ? g_strdup_printf ("%s/%s.png", folder, name) : NULL;
  g_autoptr (GdkPixbuf) picture = NULL;
  g_autoptr (GMainLoop) frames = g_main_loop_new (NULL, FALSE);

  if (!path)
    return;
  g_timeout_add (500, waited, frames);
  g_main_loop_run (frames);
  picture = gdk_pixbuf_get_from_window (gtk_widget_get_window (window), 0, 0, gtk_widget_get_allocated_width (window),
                                        gtk_widget_get_allocated_height (window));
  assert_true (gdk_pixbuf_save (picture, path, "png", NULL, NULL));
}

static const char *const answers[] = { "None of these", "Age: 16 or over", "Usual discomfort: 2", "Comfortable sitting today: 45 min", "None" };

/* ---- the tests ---- */

/* Whichever one is left out, nothing begins. */
static void
nothing_begins_before_all_is_answered (void **state)
{
  World *world = *state;

  for (size_t left_out = 0; left_out < G_N_ELEMENTS (answers); left_out++)
    {
      assert_false (can_start (world));
      for (size_t i = 0; i < G_N_ELEMENTS (answers); i++)
        if (i != left_out)
          press (world, answers[i]);
      assert_false (can_start (world));
      press (world, "Start practising");
      assert_int_equal (world->begun, 0);
      tear_down (state);
      set_up (state);
      world = *state;
    }
  for (size_t i = 0; i < G_N_ELEMENTS (answers); i++)
    press (world, answers[i]);
  assert_true (can_start (world));
  press (world, "Start practising");
  assert_int_equal (world->begun, 1);
  assert_int_equal (world->plan, 0);
  assert_int_equal (world->copy.usual_discomfort, 2);
  assert_int_equal (world->copy.side, CARPACE_SIDE_LEFT);
  assert_int_equal (world->copy.n_shown, 2);
}

static void
a_caution_goes_before_all_else (void **state)
{
  World *world = *state;

  press (world, "Do things drop from your hand?");
  press (world, "Yes to those ticked");
  assert_int_equal (world->stopped, 1);
  assert_int_equal (world->signs, 1u << CARPACE_SIGN_DROPPING_THINGS);
  assert_int_equal (world->plan, 1);
  assert_int_equal (world->begun, 0);
}

static void
under_16_an_adult_agrees (void **state)
{
  World *world = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (answers); i++)
    press (world, answers[i]);
  press (world, "Age: Under 16");
  assert_false (can_start (world));
  press (world, "A parent or guardian is here and agrees");
  assert_true (can_start (world));
  leave_picture (world, "under-16");
  press (world, "Start practising");
  assert_int_equal (world->plan, 1);
  assert_int_equal (world->copy.age, CARPACE_AGE_UNDER_16);
}

static void
none_and_some_exclude_each_other (void **state)
{
  World *world = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (answers); i++)
    press (world, answers[i]);
  press (world, "Blood thinners");
  assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (named (world, "None"))));
  press (world, "Blood thinners");
  assert_false (can_start (world)); /* unanswered again, not none */
  press (world, "Blood thinners");
  press (world, "Start practising");
  assert_int_equal (world->copy.n_shown, 1);
}

static void
hand_and_grip_stay_answered (void **state)
{
  World *world = *state;

  press (world, "Mouse hand: Left");
  assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (named (world, "Mouse hand: Left"))));
  press (world, "Mouse hand: Right");
  assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (named (world, "Mouse hand: Left"))));
}

static void
the_window_never_jumps (void **state)
{
  World *world = *state;
  int width, height;

  let_it_be_drawn (world);
  width = gtk_widget_get_allocated_width (carpace_first_window_widget (world->window));
  height = gtk_widget_get_allocated_height (carpace_first_window_widget (world->window));
  for (size_t i = 0; i < G_N_ELEMENTS (answers); i++)
    {
      press (world, answers[i]);
      assert_int_equal (gtk_widget_get_allocated_width (carpace_first_window_widget (world->window)), width);
      assert_int_equal (gtk_widget_get_allocated_height (carpace_first_window_widget (world->window)), height);
    }
  leave_picture (world, "answered");
}

static int
left_of (World *world, const char *name)
{
  int x = 0, y;

  assert_true (gtk_widget_translate_coordinates (named (world, name), carpace_first_window_widget (world->window), 0, 0, &x, &y));
  return x;
}

static void
mirrored_it_is_read_from_the_right (void **state)
{
  World *world;

  gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  tear_down (state);
  set_up (state);
  world = *state;
  walk_window (carpace_first_window_widget (world->window));
  leave_picture (world, "mirrored-cautions");
  for (size_t i = 0; i < G_N_ELEMENTS (answers); i++)
    press (world, answers[i]);
  assert_true (left_of (world, "Usual discomfort: 0") > left_of (world, "Usual discomfort: 10"));
  assert_true (left_of (world, "Start practising") < left_of (world, "Usual discomfort: 10"));
  assert_true (left_of (world, "Mouse hand: Left") < left_of (world, "Mouse hand: Right")); /* hands are not words */
  assert_true (left_of (world, "Mouse hand: Left") > left_of (world, "Usual discomfort: 10"));
  walk_window (carpace_first_window_widget (world->window));
  leave_picture (world, "mirrored");
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (nothing_begins_before_all_is_answered, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_caution_goes_before_all_else, set_up, tear_down),
    cmocka_unit_test_setup_teardown (under_16_an_adult_agrees, set_up, tear_down),
    cmocka_unit_test_setup_teardown (none_and_some_exclude_each_other, set_up, tear_down),
    cmocka_unit_test_setup_teardown (hand_and_grip_stay_answered, set_up, tear_down),
    cmocka_unit_test_setup_teardown (the_window_never_jumps, set_up, tear_down),
    cmocka_unit_test_setup_teardown (mirrored_it_is_read_from_the_right, set_up, tear_down),
  };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
