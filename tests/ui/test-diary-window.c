/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-diary-window.c: from day to day by keys, a wrong tap put right, a note kept. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "../draw/days.h"
#include "display.h"
#include "draw/diary-paint.h"
#include "ui/day-rail.h"
#include "ui/diary-window.h"

typedef struct
{
  CarpaceFakeDiary *fake;
  CarpaceDiaryWindow *window;
  int64_t corrected_id;
  int32_t corrected_to;
  CarpaceDay noted;
  char *note;
  bool refuses;
} Desk;

static CarpaceInstant
now (void *self)
{
  return (CarpaceInstant) { .wall_ms = (int64_t) (MONDAY + 20) * CARPACE_DAY_MS };
}

static bool
correct (void *self, int64_t id, int32_t discomfort, CarpaceSite site, CarpaceInstant at)
{
  Desk *desk = self;

  if (desk->refuses)
    return false;
  desk->corrected_id = id;
  desk->corrected_to = discomfort;
  return true;
}

static bool
note_day (void *self, CarpaceDay day, const char *note)
{
  Desk *desk = self;

  desk->noted = day;
  g_free (desk->note);
  desk->note = g_strdup (note);
  return !desk->refuses;
}

static int
set_up (void **state)
{
  Desk *desk = g_new0 (Desk, 1);
  CarpaceDiary diary;
  CarpaceDiaryKeeper keeper = { .self = desk, .note_day = note_day, .correct = correct };
  CarpaceClock clock = { .now = now };

  desk->fake = carpace_fake_diary_new ();
  for (int32_t i = 0; i < 12; i++)
    if (i < 3 || i > 6)
      write_day (desk->fake, MONDAY + i, 30, 3, 1);
  diary = carpace_fake_diary_port (desk->fake);
  desk->window = carpace_diary_window_new (&diary, &keeper, &clock);
  carpace_diary_window_show (desk->window, MONDAY + 12);
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  Desk *desk = *state;

  carpace_diary_window_free (desk->window);
  carpace_fake_diary_free (desk->fake);
  g_free (desk->note);
  g_free (desk);
  return 0;
}

static void
settle (void)
{
  while (gtk_events_pending ())
    gtk_main_iteration ();
}

static GtkWidget *
drawing_of (const Desk *desk)
{
  return carpace_diary_drawing_area (carpace_diary_window_drawing (desk->window));
}

static void
press (const Desk *desk, guint key)
{
  GdkEvent *event = gdk_event_new (GDK_KEY_PRESS);

  event->key.window = g_object_ref (gtk_widget_get_window (drawing_of (desk)));
  event->key.keyval = key;
  gdk_event_set_device (event, gdk_seat_get_keyboard (gdk_display_get_default_seat (gdk_display_get_default ())));
  gtk_widget_event (drawing_of (desk), event);
  gdk_event_free (event);
}

typedef struct
{
  const char *name;
  guint key;
  CarpaceDay chosen;
} KeyRow;

static void
test_keys (void **state)
{
  Desk *desk = *state;
  static const KeyRow rows[] = {
    { .name = "up", .key = GDK_KEY_Up, .chosen = MONDAY + 11 },
    { .name = "first", .key = GDK_KEY_Home, .chosen = MONDAY },
    { .name = "not before the first", .key = GDK_KEY_Up, .chosen = MONDAY },
    { .name = "down", .key = GDK_KEY_Down, .chosen = MONDAY + 1 },
    { .name = "down again", .key = GDK_KEY_Down, .chosen = MONDAY + 2 },
    { .name = "over a gap and a week's end", .key = GDK_KEY_Down, .chosen = MONDAY + 7 },
    { .name = "back over them", .key = GDK_KEY_Up, .chosen = MONDAY + 2 },
    { .name = "last", .key = GDK_KEY_End, .chosen = MONDAY + 12 },
    { .name = "not past the last", .key = GDK_KEY_Down, .chosen = MONDAY + 12 },
  };

  settle ();
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      press (desk, rows[i].key);
      if (carpace_diary_window_chosen (desk->window) != rows[i].chosen)
        fail_msg ("%s: chosen is %d", rows[i].name, carpace_diary_window_chosen (desk->window) - MONDAY);
    }
}

/* The weeks behind are what is looked for: the strip ends with the last, once there are more than it has. */
static void
test_strip_shows_the_weeks_behind (void **state)
{
  static const struct { int32_t weeks, first; } rows[] = { { 1, 0 }, { 11, 0 }, { 12, 0 }, { 13, 1 }, { 20, 8 } };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceFakeDiary *fake = carpace_fake_diary_new ();
      CarpaceDiary diary = carpace_fake_diary_port (fake);
      CarpaceDiaryKeeper keeper = { .note_day = note_day, .correct = correct };
      CarpaceClock clock = { .now = now };
      CarpaceDiaryWindow *window;

      for (int32_t week = 0; week < rows[i].weeks; week++)
        write_day (fake, MONDAY + 7 * week, 30, 3, 1);
      window = carpace_diary_window_new (&diary, &keeper, &clock);
      carpace_diary_window_show (window, MONDAY + 7 * (rows[i].weeks - 1));
      settle ();
      assert_int_equal (carpace_diary_drawing_strip (carpace_diary_window_drawing (window)), MONDAY + 7 * rows[i].first);
      carpace_diary_window_free (window);
      carpace_fake_diary_free (fake);
    }
}

/* From week to week, to the same weekday or what is nearest; the days below the strip are that week's. */
static void
test_weeks (void **state)
{
  Desk *desk = *state;
  CarpaceDiaryDrawing *drawing = carpace_diary_window_drawing (desk->window);
  static const KeyRow rows[] = {
    { .name = "a week back", .key = GDK_KEY_Left, .chosen = MONDAY + 2 }, /* of a gap, the last day before it */
    { .name = "not before the first", .key = GDK_KEY_Page_Up, .chosen = MONDAY },
    { .name = "a week on", .key = GDK_KEY_Right, .chosen = MONDAY + 7 },
    { .name = "not past the last", .key = GDK_KEY_Page_Down, .chosen = MONDAY + 12 },
  };

  settle ();
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      press (desk, rows[i].key);
      if (carpace_diary_window_chosen (desk->window) != rows[i].chosen)
        fail_msg ("%s: chosen is %d", rows[i].name, carpace_diary_window_chosen (desk->window) - MONDAY);
      assert_int_equal (carpace_diary_drawing_monday (drawing), carpace_diary_monday (rows[i].chosen));
    }
}

/* Small text is the desktop's at least; larger, all of it can be scrolled to. */
static void
test_zoom (void **state)
{
  Desk *desk = *state;
  CarpaceDiaryDrawing *drawing = carpace_diary_window_drawing (desk->window);
  double plain, seen;

  settle ();
  plain = carpace_diary_drawing_zoomed (drawing);
  assert_true (plain * CARPACE_PEN_SMALL >= carpace_em_of (drawing_of (desk)) - 0.01);
  press (desk, GDK_KEY_minus);
  assert_true (carpace_diary_drawing_zoomed (drawing) == plain);
  press (desk, GDK_KEY_plus);
  assert_true (carpace_diary_drawing_zoomed (drawing) > plain);
  for (int i = 0; i < 20; i++)
    press (desk, GDK_KEY_plus);
  settle ();
  assert_true (carpace_diary_drawing_wide (drawing, &seen) >= CARPACE_DIARY_LEAST_WIDTH);
  assert_true (seen < CARPACE_DIARY_LEAST_WIDTH);
  press (desk, GDK_KEY_0);
  assert_true (carpace_diary_drawing_zoomed (drawing) == plain);
}

/* Whatever is said of a day, the drawing is as wide as before. */
static void
test_no_width_jumps (void **state)
{
  Desk *desk = *state;
  int width;

  settle ();
  width = gtk_widget_get_allocated_width (drawing_of (desk));
  for (int i = 0; i < 14; i++)
    {
      press (desk, GDK_KEY_Up);
      settle ();
      assert_int_equal (gtk_widget_get_allocated_width (drawing_of (desk)), width);
    }
}

static void
test_the_chosen_day_is_told (void **state)
{
  Desk *desk = *state;
  g_autofree char *told = NULL;
  const char *name;

  settle ();
  press (desk, GDK_KEY_Home);
  told = carpace_diary_window_told (desk->window);
  assert_non_null (strstr (told, "Mon 1 Mar 2027"));
  assert_non_null (strstr (told, "Block 1: 30 min of 30 min; discomfort 3"));
  name = atk_object_get_name (gtk_widget_get_accessible (drawing_of (desk)));
  assert_non_null (strstr (name, "Mon 1 Mar 2027"));
}

/* Every button of the window that is shown, in a row. */
static void
collect (GtkWidget *widget, void *list)
{
  if (GTK_IS_BUTTON (widget))
    g_ptr_array_add (list, widget);
  if (GTK_IS_MENU_BUTTON (widget) && gtk_menu_button_get_popover (GTK_MENU_BUTTON (widget)) != NULL)
    collect (GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (widget))), list);
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), collect, list);
}

static GtkWidget *
button_named (const Desk *desk, const char *wanted)
{
  g_autoptr (GPtrArray) buttons = g_ptr_array_new ();

  collect (GTK_WIDGET (carpace_diary_window_window (desk->window)), buttons);
  for (guint i = 0; i < buttons->len; i++)
    {
      GtkWidget *button = g_ptr_array_index (buttons, i);
      const char *name = atk_object_get_name (gtk_widget_get_accessible (button));
      const char *label = gtk_button_get_label (GTK_BUTTON (button));

      if (g_strcmp0 (name, wanted) == 0 || g_strcmp0 (label, wanted) == 0)
        return button;
    }
  return NULL;
}

static void
test_a_wrong_tap (void **state)
{
  Desk *desk = *state;

  settle ();
  press (desk, GDK_KEY_Home);
  assert_non_null (button_named (desk, "Correct the rating of block 1"));
  gtk_button_clicked (GTK_BUTTON (button_named (desk, "discomfort 1")));
  assert_int_equal (desk->corrected_to, 1);
  assert_int_equal (desk->corrected_id, 5);
  settle ();
  press (desk, GDK_KEY_End);
  assert_null (button_named (desk, "discomfort 1"));
}

static void
test_what_is_not_kept_is_told (void **state)
{
  Desk *desk = *state;
  GtkWidget *button;

  settle ();
  desk->refuses = true;
  press (desk, GDK_KEY_Home);
  button = button_named (desk, "discomfort 0");
  assert_non_null (button);
  gtk_button_clicked (GTK_BUTTON (button));
  settle ();
  assert_int_equal (desk->corrected_id, 0);
}

static void
find_note (GtkWidget *widget, void *found)
{
  if (GTK_IS_TEXT_VIEW (widget))
    *(GtkWidget **) found = widget;
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), find_note, found);
}

static void
test_a_note (void **state)
{
  Desk *desk = *state;
  GtkWidget *view = NULL;

  settle ();
  press (desk, GDK_KEY_Home);
  find_note (GTK_WIDGET (carpace_diary_window_window (desk->window)), &view);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view)), " New desk <b>&\n", -1);
  gtk_button_clicked (GTK_BUTTON (button_named (desk, "_Keep note")));
  assert_int_equal (desk->noted, MONDAY);
  assert_string_equal (desk->note, "New desk <b>&");
}

static void
test_empty_and_broken (void **state)
{
  CarpaceFakeDiary *fake = carpace_fake_diary_new ();
  CarpaceDiary diary = carpace_fake_diary_port (fake);
  CarpaceClock clock = { .now = now };
  CarpaceDiaryWindow *window = carpace_diary_window_new (&diary, NULL, &clock);
  g_autofree char *empty = NULL;
  g_autofree char *broken = NULL;

  carpace_diary_window_show (window, MONDAY);
  settle ();
  empty = carpace_diary_window_told (window);
  assert_non_null (strstr (empty, "Each practice day will stand here"));
  carpace_diary_window_free (window);
  carpace_fake_diary_break (fake);
  window = carpace_diary_window_new (&diary, NULL, &clock);
  carpace_diary_window_show (window, MONDAY);
  settle ();
  broken = carpace_diary_window_told (window);
  assert_non_null (strstr (broken, "cannot be read"));
  carpace_diary_window_free (window);
  carpace_fake_diary_free (fake);
}

#define WITH_DESK(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_strip_shows_the_weeks_behind),
    WITH_DESK (test_weeks),  WITH_DESK (test_zoom),                     WITH_DESK (test_no_width_jumps),
    WITH_DESK (test_keys),   WITH_DESK (test_the_chosen_day_is_told),   WITH_DESK (test_a_wrong_tap),
    WITH_DESK (test_a_note), WITH_DESK (test_what_is_not_kept_is_told), cmocka_unit_test (test_empty_and_broken),
  };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
