/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cards and windows on a display of their own: what is there, what a tap
 * tells, what is drawn again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <gdk/gdkx.h>
#include <gtk/gtk.h>
#include <string.h>

#include "carpace/names.h"
#include "display.h"
#include "text/face-text.h"
#include "text/text.h"
#include "ui/card.h"
#include "ui/caution-card.h"
#include "ui/choice.h"
#include "ui/deck.h"
#include "ui/drawing.h"
#include "ui/faces.h"
#include "ui/morning-card.h"
#include "ui/pause-card.h"
#include "ui/rail.h"
#include "ui/rating-card.h"
#include "ui/rest-card.h"
#include "ui/screens.h"
#include "ui/today-window.h"
#include "ui/tray-ayatana.h"
#include "ui/why-window.h"
#include "views.h"
#include "walk.h"

/* ---- what is told ---- */

static struct
{
  int n;
  CarpaceEvent last;
  int redraws;
  int notices, ended, put_away;
  char title[256]; /* of the last */
  CarpaceView view;
} told;

static bool
tell (void *self, const CarpaceEvent *event)
{
  told.n++;
  told.last = *event;
  return true;
}

static void
choose (void *self, CarpaceItemId id)
{
}

static void
fill_plans (void *self, GtkMenuShell *menu)
{
}

static void
redraw (void *self)
{
  told.redraws++;
}

static void
put_note_away (void *self)
{
  told.put_away++;
}

static const CarpaceOwner owner = { NULL, tell, choose, fill_plans, redraw, put_note_away };

static int
forget (void **state)
{
  memset (&told, 0, sizeof told);
  return 0;
}

static CarpaceView
moment (const char *name)
{
  CarpaceView view;
  assert_true (view_named (name, &view));
  return view;
}

/* ---- looking for widgets ---- */

typedef struct { const char *name; bool by_label; GtkWidget *found; } Search;

static const char *
label_of (GtkWidget *widget)
{
  GtkWidget *own = g_object_get_data (G_OBJECT (widget), "label"); /* an answer's, or a site's */

  if (own)
    return gtk_label_get_label (GTK_LABEL (own));
  if (GTK_IS_BUTTON (widget))
    return gtk_button_get_label (GTK_BUTTON (widget));
  if (GTK_IS_DRAWING_AREA (widget) && atk_object_get_role (gtk_widget_get_accessible (widget)) == ATK_ROLE_LABEL)
    return atk_object_get_name (gtk_widget_get_accessible (widget));
  return GTK_IS_LABEL (widget) ? gtk_label_get_text (GTK_LABEL (widget)) : NULL;
}

static void
look (GtkWidget *widget, gpointer user)
{
  Search *search = user;
  const char *name = search->by_label ? label_of (widget) : atk_object_get_name (gtk_widget_get_accessible (widget));

  if (!search->found && g_strcmp0 (name, search->name) == 0)
    search->found = widget;
  if (!search->found && GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), look, search);
}

/* All of a card: head, body and foot. */
static GtkWidget *
frame (CarpaceCard *card)
{
  return gtk_widget_get_parent (GTK_WIDGET (carpace_card_box (card)));
}

static GtkWidget *
named (CarpaceCard *card, const char *name)
{
  Search search = { name, false, NULL };
  look (frame (card), &search);
  assert_non_null (search.found);
  return search.found;
}

static GtkWidget *
labelled (CarpaceCard *card, const char *label)
{
  Search search = { label, true, NULL };
  look (frame (card), &search);
  return search.found;
}

static bool
shows (CarpaceCard *card, const char *label)
{
  GtkWidget *widget = labelled (card, label);
  return widget && gtk_widget_is_visible (widget);
}

static GtkWidget *
square (CarpaceCard *card, int number)
{
  g_autofree char *name = number == 0    ? g_strdup ("0, no discomfort")
                          : number == 10 ? g_strdup ("10, the worst discomfort imaginable")
                                         : g_strdup_printf ("%d, discomfort", number);
  return named (card, name);
}

static void
press_key (CarpaceCard *card, guint keyval, guint16 keycode)
{
  GdkEvent *event = gdk_event_new (GDK_KEY_PRESS);

  event->key.window = g_object_ref (gtk_widget_get_window (GTK_WIDGET (carpace_card_window (card))));
  event->key.send_event = TRUE;
  event->key.keyval = keyval;
  event->key.hardware_keycode = keycode;
  gdk_event_set_device (event, gdk_seat_get_keyboard (gdk_display_get_default_seat (gdk_display_get_default ())));
  gtk_main_do_event (event);
  gdk_event_free (event);
}

/* ---- rating ---- */

static void
test_tap_tells_its_number (void **state)
{
  for (int number = 0; number <= 10; number++)
    {
      CarpaceRatingCard *card = carpace_rating_card_new (&owner);
      CarpaceView view = moment ("rating");

      carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
      told.n = 0;
      gtk_button_clicked (GTK_BUTTON (square (carpace_rating_card_card (card), number)));
      assert_int_equal (told.n, 1);
      assert_int_equal (told.last.kind, CARPACE_EVENT_RATE);
      assert_int_equal (told.last.rate.discomfort, number);
      assert_int_equal (told.last.rate.site, CARPACE_SITE_NONE);
      carpace_rating_card_free (card);
    }
}

static void
test_no_square_is_chosen_beforehand (void **state)
{
  CarpaceRatingCard *card = carpace_rating_card_new (&owner);
  CarpaceView view = moment ("rating");

  carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  display_settle ();
  assert_true (GTK_IS_EVENT_BOX (gtk_window_get_focus (carpace_card_window (carpace_rating_card_card (card)))));
  for (int number = 0; number <= 10; number++)
    {
      GtkWidget *widget = square (carpace_rating_card_card (card), number), *first = square (carpace_rating_card_card (card), 0);
      assert_false (gtk_style_context_has_class (gtk_widget_get_style_context (widget), "given"));
      assert_int_equal (gtk_widget_get_state_flags (widget) & (GTK_STATE_FLAG_CHECKED | GTK_STATE_FLAG_SELECTED | GTK_STATE_FLAG_FOCUSED), 0);
      assert_int_equal (gtk_widget_get_allocated_width (widget), gtk_widget_get_allocated_width (first));
      assert_int_equal (gtk_widget_get_allocated_height (widget), gtk_widget_get_allocated_height (first));
    }
  carpace_rating_card_free (card);
}

/* A card that has just shown itself: what is clicked then was meant for
 * something else. */
static void
test_a_card_that_shows_itself_is_deaf_at_first (void **state)
{
  CarpaceRatingCard *card = carpace_rating_card_new (&owner);
  CarpaceView view = moment ("rating");

  carpace_rating_card_show (card, CARPACE_CARD_BY_ITSELF, &view, view_now ());
  assert_int_equal (gtk_window_get_window_type (carpace_card_window (carpace_rating_card_card (card))), GTK_WINDOW_POPUP);
  assert_false (gtk_window_get_accept_focus (carpace_card_window (carpace_rating_card_card (card))));
  gtk_button_clicked (GTK_BUTTON (square (carpace_rating_card_card (card), 3)));
  assert_int_equal (told.n, 0);
  carpace_rating_card_free (card);
}

/* Where the keys' letters are not digits (AZERTY without Shift), their place. */
static void
test_keys (void **state)
{
  static const struct { const char *name; guint keyval; guint16 keycode; int number; } cases[] = {
    { .name = "3", .keyval = GDK_KEY_3, .keycode = 12, .number = 3 },
    { .name = "0", .keyval = GDK_KEY_0, .keycode = 19, .number = 0 },
    { .name = "keypad 7", .keyval = GDK_KEY_KP_7, .keycode = 79, .number = 7 },
    { .name = "right of the last digit", .keyval = GDK_KEY_minus, .keycode = 20, .number = 10 },
    { .name = "the same with German letters", .keyval = GDK_KEY_ssharp, .keycode = 20, .number = 10 },
    { .name = "right of the keypad's 0", .keyval = GDK_KEY_KP_Separator, .keycode = 91, .number = 10 },
    { .name = "4 with French letters", .keyval = GDK_KEY_apostrophe, .keycode = 13, .number = 4 },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceRatingCard *card = carpace_rating_card_new (&owner);
      CarpaceView view = moment ("rating");

      print_message ("%s\n", cases[i].name);
      carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
      told.n = 0;
      press_key (carpace_rating_card_card (card), cases[i].keyval, cases[i].keycode);
      assert_int_equal (told.n, 1);
      assert_int_equal (told.last.kind, CARPACE_EVENT_RATE);
      assert_int_equal (told.last.rate.discomfort, cases[i].number);
      carpace_rating_card_free (card);
    }
}

static void
test_other_keys_rate_nothing (void **state)
{
  CarpaceRatingCard *card = carpace_rating_card_new (&owner);
  CarpaceView view = moment ("rating");

  carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  display_settle ();
  press_key (carpace_rating_card_card (card), GDK_KEY_a, 38);
  press_key (carpace_rating_card_card (card), GDK_KEY_Return, 36);
  press_key (carpace_rating_card_card (card), GDK_KEY_space, 65);
  assert_int_equal (told.n, 0);
  press_key (carpace_rating_card_card (card), GDK_KEY_Escape, 9);
  assert_false (carpace_card_is_shown (carpace_rating_card_card (card)));
  assert_int_equal (told.n, 0);
  carpace_rating_card_free (card);
}

/* Tab goes from the heading to each square in turn, and on. */
static void
test_tab_reaches_every_square (void **state)
{
  CarpaceRatingCard *card = carpace_rating_card_new (&owner);
  CarpaceView view = moment ("rating");
  GtkWindow *window;

  carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  window = carpace_card_window (carpace_rating_card_card (card));
  display_settle ();
  gtk_window_present (window); /* no window manager here gives it the focus */
  while (!gtk_window_has_toplevel_focus (window))
    gtk_main_iteration ();
  for (int number = 0; number <= 10; number++)
    {
      assert_true (gtk_widget_child_focus (GTK_WIDGET (window), GTK_DIR_TAB_FORWARD));
      assert_ptr_equal (gtk_window_get_focus (window), square (carpace_rating_card_card (card), number));
    }
  carpace_rating_card_free (card);
}

static void
test_site_is_a_second_tap (void **state)
{
  CarpaceRatingCard *card = carpace_rating_card_new (&owner);
  CarpaceCard *frame = carpace_rating_card_card (card);
  CarpaceView view = moment ("rating");

  carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  assert_false (shows (frame, "3 Thumb side"));
  view = moment ("rating-given");
  carpace_rating_card_draw (card, &view, view_now ());
  assert_true (shows (frame, "Discomfort 2 is noted; it changes nothing."));
  assert_false (shows (frame, "3 Thumb side"));
  gtk_button_clicked (GTK_BUTTON (labelled (frame, "_Where is it?")));
  carpace_rating_card_draw (card, &view, view_now ());
  assert_true (shows (frame, "3 Thumb side"));
  gtk_button_clicked (GTK_BUTTON (labelled (frame, "3 Thumb side")));
  assert_int_equal (told.last.kind, CARPACE_EVENT_RATE);
  assert_int_equal (told.last.rate.discomfort, 2);
  assert_int_equal (told.last.rate.site, CARPACE_SITE_THUMB_SIDE);
  assert_false (carpace_card_is_shown (frame));
  carpace_rating_card_free (card);
}

static void
test_above_stop_says_what_follows_and_can_be_changed (void **state)
{
  CarpaceRatingCard *card = carpace_rating_card_new (&owner);
  CarpaceCard *frame = carpace_rating_card_card (card);
  CarpaceView view = moment ("rating");

  carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  assert_false (shows (frame, "_Correct"));
  view = moment ("rating-above-stop");
  carpace_rating_card_draw (card, &view, view_now ());
  assert_true (shows (frame, "_Correct"));
  assert_true (shows (frame, "Discomfort 7: stop for today; next time is shorter"));
  assert_true (shows (frame, "New, strong or not easing? See a physiotherapist or doctor."));
  assert_false (gtk_widget_is_visible (square (frame, 4)));
  gtk_button_clicked (GTK_BUTTON (labelled (frame, "_Correct")));
  carpace_rating_card_draw (card, &view, view_now ());
  assert_true (gtk_widget_is_visible (square (frame, 4)));
  assert_false (gtk_style_context_has_class (gtk_widget_get_style_context (square (frame, 7)), "given"));
  gtk_button_clicked (GTK_BUTTON (square (frame, 4)));
  assert_int_equal (told.n, 1);
  assert_int_equal (told.last.rate.discomfort, 4);

  view.rating.changeable_for_ms = 0;
  carpace_rating_card_draw (card, &view, view_now ());
  assert_false (shows (frame, "_Correct"));
  carpace_rating_card_free (card);
}

static void
test_rating_is_drawn_once (void **state)
{
  CarpaceRatingCard *card = carpace_rating_card_new (&owner);
  CarpaceView view = moment ("rating");
  unsigned draws;

  carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  draws = carpace_rating_card_draws (card);
  carpace_rating_card_draw (card, &view, view_now ());
  view.active_ms += 1000; /* no part of the card */
  carpace_rating_card_draw (card, &view, view_now ());
  assert_int_equal (carpace_rating_card_draws (card), draws);
  view.rating.asked_by_start = true;
  carpace_rating_card_draw (card, &view, view_now ());
  assert_int_equal (carpace_rating_card_draws (card), draws + 1);
  carpace_rating_card_free (card);
}

/* Unanswered, withdrawn, on air: nothing is left on the screen. */
static void
test_rating_goes_when_over (void **state)
{
  CarpaceRatingCard *card = carpace_rating_card_new (&owner);
  CarpaceView view = moment ("rating");

  carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  view.rating.open = false;
  carpace_rating_card_draw (card, &view, view_now ());
  assert_false (carpace_card_is_shown (carpace_rating_card_card (card)));
  view = moment ("rating");
  view.on_air = true;
  carpace_rating_card_show (card, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  assert_false (carpace_card_is_shown (carpace_rating_card_card (card)));
  carpace_rating_card_free (card);
}

/* ---- rest ---- */

static void
test_rest_offered (void **state)
{
  static const struct { const char *label; CarpaceEventKind event; } answers[] = {
    { .label = "_Rest now", .event = CARPACE_EVENT_REST },
    { .label = "_After this run", .event = CARPACE_EVENT_AFTER_RUN },
    { .label = "_Play on", .event = CARPACE_EVENT_PLAY_ON },
  };
  CarpaceRestCard *card = carpace_rest_card_new (&owner);
  CarpaceView view = moment ("rest-offered");

  carpace_rest_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
  for (size_t i = 0; i < G_N_ELEMENTS (answers); i++)
    {
      assert_true (shows (carpace_rest_card_card (card), answers[i].label));
      gtk_button_clicked (GTK_BUTTON (labelled (carpace_rest_card_card (card), answers[i].label)));
      assert_int_equal (told.last.kind, answers[i].event);
    }
  assert_true (shows (carpace_rest_card_card (card), "Rest 30 s: stretch the back of your right forearm"));
  assert_true (shows (carpace_rest_card_card (card), "10 min of practice since the last rest."));
  assert_true (shows (carpace_rest_card_card (card), "To tightness, never into pain."));
  assert_int_equal (carpace_rest_card_next_ms (card, &view), CARPACE_NEVER);
  carpace_rest_card_free (card);
}

static void
test_rest_counts_down_only_while_seen (void **state)
{
  CarpaceRestCard *card = carpace_rest_card_new (&owner);
  CarpaceView view = moment ("rest-running");
  unsigned draws;

  assert_int_equal (carpace_rest_card_next_ms (card, &view), CARPACE_NEVER);
  carpace_rest_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
  display_settle ();
  assert_true (shows (carpace_rest_card_card (card), "30 s"));
  assert_false (shows (carpace_rest_card_card (card), "_Rest now"));
  view.rest.remaining_ms = 29250;
  assert_int_equal (carpace_rest_card_next_ms (card, &view), 250);
  draws = carpace_rest_card_draws (card);
  carpace_rest_card_draw (card, &view);
  assert_int_equal (carpace_rest_card_draws (card), draws); /* 30 s still */
  view.rest.remaining_ms = 29000;
  carpace_rest_card_draw (card, &view);
  assert_int_equal (carpace_rest_card_draws (card), draws + 1);
  assert_true (shows (carpace_rest_card_card (card), "29 s"));
  view.rest.waits = true;
  carpace_rest_card_draw (card, &view);
  assert_true (shows (carpace_rest_card_card (card), "Waits while the hand moves."));
  assert_int_equal (carpace_rest_card_next_ms (card, &view), CARPACE_NEVER);
  carpace_rest_card_hide (card);
  view.rest.waits = false;
  assert_int_equal (carpace_rest_card_next_ms (card, &view), CARPACE_NEVER);
  carpace_rest_card_free (card);
}

static char *
drawing_file (CarpaceExercise exercise, bool palm_up)
{
  g_autofree char *path = g_strdup_printf ("/org/carpace/Carpace/ui/drawings/%s%s.svg", carpace_name (CARPACE_WORDS_EXERCISE, (int32_t) exercise),
                                           palm_up ? "-palm-up" : "");
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  assert_non_null (bytes);
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

/* Every exercise has its picture, its words, and a word for each mark in the picture and no other. */
static void
test_every_exercise_is_drawn (void **state)
{
  for (int32_t exercise = 0; exercise < CARPACE_N_EXERCISES; exercise++)
    for (int up = 0; up <= (exercise == CARPACE_EXERCISE_FOREARM_SELF_MASSAGE); up++)
      {
        CarpaceRestCard *card = carpace_rest_card_new (&owner);
        CarpaceView view = moment ("rest-offered");
        g_autofree char *svg = drawing_file ((CarpaceExercise) exercise, up);
        const char *marks = carpace_text_exercise_marks ((CarpaceExercise) exercise, up);

        assert_int_equal (strstr (svg, "shadeColor") != NULL, strstr (marks, "Shaded") != NULL);
        assert_int_equal (strstr (svg, "accentColor") != NULL, strstr (marks, "Slanted") != NULL);
        view.rest.exercise = (CarpaceExercise) exercise;
        view.rest.palm_up = up;
        carpace_rest_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
        assert_non_null (named (carpace_rest_card_card (card), carpace_text_exercise_drawing ((CarpaceExercise) exercise, up)));
        assert_true (shows (carpace_rest_card_card (card), carpace_text_exercise_how ((CarpaceExercise) exercise, up, 0)));
        assert_true (*marks == '\0' || shows (carpace_rest_card_card (card), marks));
        carpace_rest_card_free (card);
      }
}

/* A movement between two ends shows each in its turn, two seconds long, while its rest counts down; all of it where
 * nothing counts, and where the desktop wants no motion. What is held stands still. */
static void
test_ends_of_a_movement_take_turns (void **state)
{
  static const struct { const char *moment; CarpaceExercise exercise; int64_t to_go_ms; bool moves; const char *file; } rows[] = {
    { "rest-running", CARPACE_EXERCISE_OPEN_AND_CLOSE, 20000, true, "open-and-close-1" },
    { "rest-running", CARPACE_EXERCISE_OPEN_AND_CLOSE, 19000, true, "open-and-close-2" },
    { "rest-running", CARPACE_EXERCISE_OPEN_AND_CLOSE, 18000, true, "open-and-close-2" },
    { "rest-running", CARPACE_EXERCISE_OPEN_AND_CLOSE, 17000, true, "open-and-close-1" },
    { "rest-running", CARPACE_EXERCISE_OPEN_AND_CLOSE, 17000, false, "open-and-close" },
    { "rest-offered", CARPACE_EXERCISE_OPEN_AND_CLOSE, 19000, true, "open-and-close" },
    { "rest-waits", CARPACE_EXERCISE_OPEN_AND_CLOSE, 19000, true, "open-and-close" },
    { "rest-running", CARPACE_EXERCISE_FOREARM_TURNS, 18000, true, "forearm-turns-2" },
    { "rest-running", CARPACE_EXERCISE_NECK_TURNS, 16000, true, "neck-turns-1" },
    { "rest-running", CARPACE_EXERCISE_HOOK_FIST, 18000, true, "hook-fist-2" },
    { "rest-running", CARPACE_EXERCISE_SHOULDER_ROLLS, 20000, true, "shoulder-rolls-1" },
    { "rest-running", CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE, 18000, true, "thumb-base-self-massage-2" },
    { "rest-running", CARPACE_EXERCISE_FOREARM_SELF_MASSAGE, 18000, true, "forearm-self-massage-2" },
    { "rest-running", CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH, 18000, true, "wrist-flexor-stretch" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceRestCard *card = carpace_rest_card_new (&owner);
      CarpaceView view = moment (rows[i].moment);
      GtkWidget *drawing;

      g_object_set (gtk_settings_get_default (), "gtk-enable-animations", rows[i].moves, NULL);
      carpace_rest_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
      view.rest.exercise = rows[i].exercise;
      carpace_rest_card_draw (card, &view);
      view.rest.remaining_ms = view.rest.length_ms = rows[i].to_go_ms;
      carpace_rest_card_draw (card, &view);
      drawing = named (carpace_rest_card_card (card), carpace_text_exercise_drawing (rows[i].exercise, false));
      assert_string_equal (carpace_drawing_file (drawing), rows[i].file);
      if (rows[i].moves && carpace_drawing_has_ends (rows[i].exercise) && view.rest.running && !view.rest.waits)
        assert_true (carpace_rest_card_next_ms (card, &view) >= 1000); /* no look more than the seconds' own */
      carpace_rest_card_free (card);
    }
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", TRUE, NULL);
}

static void
test_each_end_has_its_drawing (void **state)
{
  for (int end = 1; end <= 2; end++)
    {
      g_autofree char *path = g_strdup_printf ("/org/carpace/Carpace/ui/drawings/forearm-self-massage-palm-up-%d.svg", end);

      assert_true (g_resources_get_info (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL, NULL, NULL));
    }
  for (int32_t exercise = 0; exercise < CARPACE_N_EXERCISES; exercise++)
    for (int end = 1; end <= 2; end++)
      {
        g_autofree char *path = g_strdup_printf ("/org/carpace/Carpace/ui/drawings/%s-%d.svg", carpace_name (CARPACE_WORDS_EXERCISE, exercise), end);

        assert_int_equal (g_resources_get_info (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL, NULL, NULL),
                          carpace_drawing_has_ends ((CarpaceExercise) exercise));
      }
}

/* The hold is told where the time is, also to who does not see the rail. */
static void
test_the_hold_stands_on_the_rail (void **state)
{
  CarpaceRestCard *card = carpace_rest_card_new (&owner);
  CarpaceView view = moment ("rest-running");

  view.rest_ms = 40000;
  carpace_rest_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
  assert_true (shows (carpace_rest_card_card (card), "Hold 20 s, twice"));
  view.rest_ms = 39999;
  carpace_rest_card_draw (card, &view);
  assert_true (shows (carpace_rest_card_card (card), "Hold 20 s"));
  carpace_rest_card_free (card);
}

/* The holds are the last part of the countdown: before them the hand comes off the mouse. */
static void
test_tubes_of_a_rail (void **state)
{
  static const struct { int64_t length_ms, hold_ms; int32_t holds; double first_from, last_to; } rows[] = {
    { 41000, 40000, 2, 1 / 41.0, 1 }, { 40000, 40000, 2, 0, 1 }, { 39000, 40000, 2, 0, 1 }, /* never before its beginning */
    { 30000, 20000, 1, 1 / 3.0, 1 },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CarpaceRailView rail = { .length_ms = rows[i].length_ms, .holds = rows[i].holds, .hold_ms = rows[i].hold_ms };
      double from = 0, to = 0, before = 0;

      for (int32_t hold = 0; hold < rows[i].holds; hold++, before = to)
        {
          assert_true (carpace_rail_tube (&rail, hold, &from, &to));
          assert_true (from < to && (hold == 0 || from > before));
          if (hold == 0)
            assert_true (from > rows[i].first_from - 1e-9 && from < rows[i].first_from + 1e-9);
        }
      assert_true (to > rows[i].last_to - 1e-9 && to < rows[i].last_to + 1e-9);
      assert_false (carpace_rail_tube (&rail, rows[i].holds, &from, &to));
      assert_false (carpace_rail_tube (&rail, -1, &from, &to));
    }
}

/* ---- a second less ---- */

static void
count_up (gpointer any, int *n)
{
  (*n)++;
}

/* Whether drawing @view lays out nothing, and leaves GTK nothing for a frame after it. */
static bool
is_painted_only (GtkWidget *window, CarpaceRestCard *rest, CarpacePauseCard *pause, const CarpaceView *view)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  int updates = 0, layouts = 0, paints = 0;
  gulong on_update = g_signal_connect (clock, "update", G_CALLBACK (count_up), &updates);
  gulong on_layout = g_signal_connect (window, "check-resize", G_CALLBACK (count_up), &layouts);
  gulong on_paint = g_signal_connect (clock, "after-paint", G_CALLBACK (count_up), &paints);

  if (view->on_air)
    carpace_pause_card_draw (pause, view);
  else
    carpace_rest_card_draw (rest, view);
  while (paints == 0)
    gtk_main_iteration ();
  g_signal_handler_disconnect (clock, on_update);
  g_signal_handler_disconnect (window, on_layout);
  g_signal_handler_disconnect (clock, on_paint);
  return updates == 0 && layouts == 0;
}

/* Behind other windows, as a card over a game is: each second wakes the program once. What a frame leaves over is
 * found by the next one, so ten are looked at; the first ones still have the card's coming up in them. */
static void
test_a_second_less_is_painted_only (void **state)
{
  CarpaceRestCard *rest = carpace_rest_card_new (&owner);
  CarpacePauseCard *pause = carpace_pause_card_new (&owner);

  for (int on_air = 0; on_air <= 1; on_air++)
    {
      CarpaceCard *card = on_air ? carpace_pause_card_card (pause) : carpace_rest_card_card (rest);
      CarpaceView view = moment (on_air ? "on-air-short-pause" : "rest-running");
      GtkWidget *window;
      int in_a_row = 0;

      view.rest.length_ms = view.rest.remaining_ms = 590000;
      if (on_air)
        carpace_pause_card_show (pause, &view);
      else
        carpace_rest_card_show (rest, CARPACE_CARD_BY_PLAYER, &view);
      display_settle ();
      window = GTK_WIDGET (carpace_card_window (card));
      gtk_widget_set_state_flags (window, GTK_STATE_FLAG_BACKDROP, FALSE);
      while (in_a_row < 10 && view.rest.remaining_ms > 100000)
        {
          view.rest.remaining_ms -= 1000;
          in_a_row = is_painted_only (window, rest, pause, &view) ? in_a_row + 1 : 0;
        }
      assert_int_equal (in_a_row, 10);
      carpace_card_hide (card);
    }
  carpace_rest_card_free (rest);
  carpace_pause_card_free (pause);
}

/* ---- morning ---- */

static void
test_morning (void **state)
{
  CarpaceMorningCard *card = carpace_morning_card_new (&owner);
  CarpaceView view = moment ("morning-other");

  carpace_morning_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
  assert_int_equal (carpace_choice_get (carpace_morning_card_waking (card)), -1);
  assert_int_equal (carpace_choice_get (carpace_morning_card_stiffness (card)), -1);
  assert_int_equal (carpace_choice_get (carpace_morning_card_now (card)), -1);
  assert_true (shows (carpace_morning_card_card (card), "Mouse in use outside practice yesterday: 6 h 50 min. On a usual day: 4 h 50 min."));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_choice_button (carpace_morning_card_waking (card), 3)), TRUE);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_choice_button (carpace_morning_card_waking (card), 1)), TRUE);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_choice_button (carpace_morning_card_stiffness (card), 2)), TRUE);
  gtk_button_clicked (GTK_BUTTON (carpace_morning_card_done (card)));
  assert_int_equal (told.last.kind, CARPACE_EVENT_MORNING);
  assert_int_equal (told.last.morning.waking, 1);
  assert_int_equal (told.last.morning.stiffness, CARPACE_STIFFNESS_MORE);
  assert_int_equal (told.last.morning.now, -1);
  assert_false (told.last.morning.other_load);
  assert_false (told.last.morning.pain_relief);
  carpace_morning_card_free (card);
}

/* As a rating does: where something is felt, one more tap, told with the same numbers; none where there is nothing. */
static void
test_a_morning_above_none_asks_where (void **state)
{
  static const struct { int waking, now; bool asks; } rows[] = { { 0, -1, false }, { 0, 0, false }, { 1, -1, true }, { 0, 1, true }, { -1, -1, false } };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceMorningCard *card = carpace_morning_card_new (&owner);
      CarpaceView view = moment ("morning");
      GtkWidget *sites = carpace_morning_card_sites (card), *where = carpace_morning_card_where (card);

      carpace_morning_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
      if (rows[i].waking >= 0)
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_choice_button (carpace_morning_card_waking (card), rows[i].waking)), TRUE);
      if (rows[i].now >= 0)
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_choice_button (carpace_morning_card_now (card), rows[i].now)), TRUE);
      gtk_button_clicked (GTK_BUTTON (carpace_morning_card_done (card)));
      carpace_morning_card_draw (card, &view);
      assert_int_equal (told.last.morning.site, CARPACE_SITE_NONE);
      assert_int_equal (gtk_widget_get_visible (where), rows[i].asks);
      assert_false (gtk_widget_get_visible (sites));
      if (rows[i].asks)
        {
          gtk_button_clicked (GTK_BUTTON (where));
          carpace_morning_card_draw (card, &view);
          assert_true (gtk_widget_get_visible (sites) && shows (carpace_morning_card_card (card), "Where is it? One more tap, if you like."));
          assert_true (carpace_morning_card_digit (card, CARPACE_SITE_ELBOW));
          carpace_morning_card_draw (card, &view);
          assert_int_equal (told.last.morning.site, CARPACE_SITE_ELBOW);
          assert_int_equal (told.last.morning.waking, rows[i].waking);
          assert_int_equal (told.last.morning.now, rows[i].now);
          assert_false (gtk_widget_get_visible (where) || gtk_widget_get_visible (sites));
        }
      carpace_morning_card_free (card);
    }
}

/* ---- cautions ---- */

static void
test_cautions (void **state)
{
  CarpaceCautionCard *card = carpace_caution_card_new (&owner);
  CarpaceView view = moment ("caution");

  carpace_caution_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
  for (int sign = 0; sign < CARPACE_N_SIGNS; sign++)
    {
      GtkWidget *box = carpace_caution_card_sign (card, (CarpaceSign) sign);
      assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (box)));
      assert_string_equal (atk_object_get_name (gtk_widget_get_accessible (box)), carpace_text_sign_question ((CarpaceSign) sign));
    }
  assert_string_equal (label_of (carpace_caution_card_answer (card)), "_None of these");
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_caution_card_sign (card, CARPACE_SIGN_NUMB)), TRUE);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (carpace_caution_card_sign (card, CARPACE_SIGN_WEAK)), TRUE);
  assert_string_equal (label_of (carpace_caution_card_answer (card)), "_Yes to those ticked");
  gtk_button_clicked (GTK_BUTTON (carpace_caution_card_answer (card)));
  assert_int_equal (told.last.kind, CARPACE_EVENT_CAUTION);
  assert_int_equal (told.last.caution.answer, CARPACE_CAUTION_SIGNS);
  assert_int_equal (told.last.caution.signs, 1u << CARPACE_SIGN_NUMB | 1u << CARPACE_SIGN_WEAK);
  carpace_caution_card_free (card);
}

static void
test_an_open_caution (void **state)
{
  CarpaceCautionCard *card = carpace_caution_card_new (&owner);
  CarpaceView view = moment ("caution-open");

  carpace_caution_card_show (card, CARPACE_CARD_BY_PLAYER, &view);
  assert_true (shows (carpace_caution_card_card (card), "Practice stops here. Let a physiotherapist or doctor see it before more practice."));
  assert_false (gtk_widget_get_sensitive (labelled (carpace_caution_card_card (card), "It is _gone")));
  assert_false (shows (carpace_caution_card_card (card), "Because you gave 6."));
  view.rating.given = 6; /* another reason to read it, while it is up */
  carpace_caution_card_draw (card, &view);
  assert_true (shows (carpace_caution_card_card (card), "Because you gave 6."));
  view.rating.given = 5;
  carpace_caution_card_draw (card, &view);
  assert_false (shows (carpace_caution_card_card (card), "Because you gave 6."));
  view.caution_gone_allowed = true;
  view.caution_signs |= 1u << CARPACE_SIGN_COLD_OR_PALE;
  carpace_caution_card_draw (card, &view);
  assert_true (shows (carpace_caution_card_card (card), "Stop, and let a doctor see it today."));
  gtk_button_clicked (GTK_BUTTON (labelled (carpace_caution_card_card (card), "It is _gone")));
  assert_int_equal (told.last.caution.answer, CARPACE_CAUTION_GONE);
  assert_false (carpace_card_is_shown (carpace_caution_card_card (card)));
  carpace_caution_card_free (card);
}

/* ---- why ---- */

static void
test_why (void **state)
{
  CarpaceWhyWindow *why = carpace_why_window_new (NULL);
  CarpaceView view = moment ("why");
  g_autofree char *sentence = carpace_text_why (&view.decision);

  carpace_why_window_show (why, &view);
  assert_true (shows (carpace_why_window_card (why), sentence));
  view.has_decision = false;
  carpace_why_window_show (why, &view);
  assert_true (shows (carpace_why_window_card (why), "The limit is the block plan's own; nothing has changed it today."));
  carpace_why_window_free (why);
}

/* ---- tray and window ---- */

static void
host_changed (void *self)
{
}

static void
test_tray_menu (void **state)
{
  static const char *const order[] = { "Block 2 of 4, 12 min to go", "", "Rest now", "Pause", "End block 2", "", "This morning…",
                                       "On air", "", "Block plan", "Diary…", "Why this limit?", "Cautions…", "Practise in this window…", "Settings…", "", "Quit" };
  CarpaceTray *tray = carpace_tray_new (&owner, NULL, host_changed);
  CarpaceView view = moment ("practising");
  GList *rows, *row;
  size_t i = 0;

  view.rating.block = 0;
  carpace_tray_draw (tray, &view, view_now ());
  rows = gtk_container_get_children (GTK_CONTAINER (carpace_tray_menu (tray)));
  for (row = rows; row; row = row->next)
    if (gtk_widget_get_visible (row->data))
      {
        const char *label = gtk_menu_item_get_label (GTK_MENU_ITEM (row->data)); /* NULL of a line */
        assert_true (i < G_N_ELEMENTS (order));
        assert_string_equal (label ? label : "", order[i++]);
      }
  assert_int_equal (i, G_N_ELEMENTS (order));
  g_list_free (rows);
  carpace_tray_free (tray);
}

static void
test_tray_is_drawn_once_a_minute (void **state)
{
  CarpaceTray *tray = carpace_tray_new (&owner, NULL, host_changed);
  CarpaceView view = moment ("practising");
  unsigned draws;

  carpace_tray_draw (tray, &view, view_now ());
  draws = carpace_tray_draws (tray);
  assert_int_equal (draws, 1);
  for (int second = 0; second < 60; second++)
    {
      carpace_tray_draw (tray, &view, view_now ());
      view.remaining_ms -= 1000;
      view.active_ms += 1000;
    }
  assert_int_equal (carpace_tray_draws (tray), draws);
  carpace_tray_draw (tray, &view, view_now ());
  assert_int_equal (carpace_tray_draws (tray), draws + 1);
  carpace_tray_free (tray);
}

static void
test_today_window_is_drawn_where_it_is_seen (void **state)
{
  CarpaceTodayWindow *today = carpace_today_window_new (&owner);
  CarpaceView view = moment ("practising");
  Search search = { "Rest now", true, NULL };
  unsigned draws;

  carpace_today_window_draw (today, &view, view_now ());
  assert_int_equal (carpace_today_window_draws (today), 0); /* nobody sees it */
  carpace_today_window_show (today, true, &view, view_now ());
  draws = carpace_today_window_draws (today);
  carpace_today_window_draw (today, &view, view_now ());
  assert_int_equal (carpace_today_window_draws (today), draws);
  look (GTK_WIDGET (carpace_today_window_window (today)), &search);
  assert_non_null (search.found);
  assert_true (gtk_widget_is_visible (search.found));
  display_settle ();
  walk_window (GTK_WIDGET (carpace_today_window_window (today)));
  carpace_today_window_free (today);
}

/* The window neither jumps nor shrinks as moments pass, whatever they say. */
static void
test_today_window_keeps_its_size (void **state)
{
  CarpaceTodayWindow *today = carpace_today_window_new (&owner);
  int width = 0, height = 0;

  for (int round = 0; round < 2; round++)
    for (size_t i = 0; view_names[i]; i++)
      {
        CarpaceView view = moment (view_names[i]);
        int now_width, now_height;

        carpace_today_window_show (today, false, &view, view_now ());
        display_settle ();
        gtk_window_get_size (carpace_today_window_window (today), &now_width, &now_height);
        print_message ("%s %d x %d\n", view_names[i], now_width, now_height);
        assert_true (width == 0 || now_width == width);
        assert_true (height == 0 || now_height == height); /* what grows late is seen at the next */
        width = now_width;
        height = now_height;
      }
  assert_int_equal (width, 360);
  carpace_today_window_free (today);
}

static GtkWidget *
in_today (CarpaceTodayWindow *today, const char *text, bool by_label)
{
  Search search = { text, by_label, NULL };

  look (GTK_WIDGET (carpace_today_window_window (today)), &search);
  return search.found;
}

/* A note is words, whatever they look like; on air there is nothing of it, and put away neither is. */
static void
test_today_window_shows_a_note_until_it_is_put_away (void **state)
{
  CarpaceTodayWindow *today = carpace_today_window_new (&owner);
  CarpaceView view = moment ("practising"), air = view;
  GtkWidget *text;

  air.on_air = true;
  carpace_today_window_show (today, true, &view, view_now ());
  carpace_today_window_set_note (today, "A note by “Coach” (coach):", "<b>Bring</b> the tape");
  carpace_today_window_draw (today, &view, view_now ());
  text = in_today (today, "<b>Bring</b> the tape", true);
  assert_non_null (text);
  assert_true (gtk_widget_is_visible (text));
  carpace_today_window_draw (today, &air, view_now ());
  assert_false (gtk_widget_is_visible (text));
  carpace_today_window_draw (today, &view, view_now ());
  assert_true (gtk_widget_is_visible (text));
  gtk_button_clicked (GTK_BUTTON (in_today (today, "Put the note away", false)));
  assert_int_equal (told.put_away, 1);
  carpace_today_window_set_note (today, NULL, NULL);
  carpace_today_window_draw (today, &view, view_now ());
  assert_false (gtk_widget_is_visible (text));
  assert_null (in_today (today, "<b>Bring</b> the tape", true));
  carpace_today_window_free (today);
}

/* ---- which monitor ---- */

static void
set_states (GtkWidget *window, const char *first, const char *second)
{
  GdkAtom states[2] = { gdk_atom_intern (first, FALSE), second ? gdk_atom_intern (second, FALSE) : GDK_NONE };
  gdk_property_change (gtk_widget_get_window (window), gdk_atom_intern ("_NET_WM_STATE", FALSE), gdk_atom_intern ("ATOM", FALSE), 32,
                       GDK_PROP_MODE_REPLACE, (const guchar *) states, second ? 2 : 1);
}

/* A client as a window manager lists it (EWMH 1.5, _NET_CLIENT_LIST and
 * _NET_WM_STATE); this display has none, so the test plays its part. */
static void
test_a_full_screen_client_is_seen (void **state)
{
  static const struct { const char *name; int width, height; const char *states[2]; bool covers; } cases[] = {
    { .name = "full screen", .width = 1280, .height = 800, .states = { "_NET_WM_STATE_FULLSCREEN" }, .covers = true },
    { .name = "only as large", .width = 1280, .height = 800, .states = { "_NET_WM_STATE_MAXIMIZED_VERT" } },
    { .name = "hidden", .width = 1280, .height = 800, .states = { "_NET_WM_STATE_FULLSCREEN", "_NET_WM_STATE_HIDDEN" } },
  };
  GdkDisplay *display = gdk_display_get_default ();

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GtkWidget *client = gtk_window_new (GTK_WINDOW_POPUP);
      GdkRectangle area;
      gulong id;

      print_message ("%s\n", cases[i].name);
      gtk_window_set_default_size (GTK_WINDOW (client), cases[i].width, cases[i].height);
      gtk_widget_show (client);
      set_states (client, cases[i].states[0], cases[i].states[1]);
      id = GDK_WINDOW_XID (gtk_widget_get_window (client));
      gdk_property_change (gdk_screen_get_root_window (gdk_screen_get_default ()), gdk_atom_intern ("_NET_CLIENT_LIST", FALSE),
                           gdk_atom_intern ("WINDOW", FALSE), 32, GDK_PROP_MODE_REPLACE, (const guchar *) &id, 1);
      display_settle ();
      assert_int_equal (carpace_screens_choose (display, FALSE, &area), cases[i].covers);
      assert_int_equal (area.width, 1280);
      gtk_widget_destroy (client);
    }
}

/* ---- all faces ---- */

static bool
port_tell (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  return tell (self, event);
}

static CarpaceInstant
port_now (void *self)
{
  return view_now ();
}

static const CarpaceView *
port_look (void *self)
{
  return &told.view;
}

static void
port_notify (void *self, const CarpaceNotice *notice)
{
  told.notices++;
  g_strlcpy (told.title, notice->title, sizeof told.title);
}

static void
port_end_notice (void *self, CarpaceCue cue)
{
  told.ended++;
}

static const CarpaceFacesGiven given = { .tell = { NULL, port_tell }, .clock = { NULL, port_now }, .look = port_look, .notify = port_notify,
                                         .end_notice = port_end_notice };

static bool
card_is_up (const char *name)
{
  GList *windows = gtk_window_list_toplevels ();
  bool up = false;

  for (GList *window = windows; window; window = window->next)
    up |= gtk_widget_get_visible (window->data) && strcmp (gtk_widget_get_name (window->data), name) == 0;
  g_list_free (windows);
  return up;
}

static void
bring (CarpaceGtkFaces *faces, CarpaceCue cue, CarpaceCueWhat what)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_CUE };
  entry.cue.cue = cue;
  entry.cue.what = what;
  carpace_faces_cue (faces, &entry, &told.view);
  display_settle ();
}

static void
test_cues_open_their_cards (void **state)
{
  static const struct { const char *moment; CarpaceCue cue; const char *card; int notices; } cases[] = {
    { .moment = "rating", .cue = CARPACE_CUE_RATING, .card = "rating-card" },
    { .moment = "morning", .cue = CARPACE_CUE_MORNING, .card = "morning-card" },
    { .moment = "caution", .cue = CARPACE_CUE_CAUTION, .card = "caution-card" },
    { .moment = "rest-offered", .cue = CARPACE_CUE_MICRO_REST, .notices = 1 },
    { .moment = "limit-reached", .cue = CARPACE_CUE_LIMIT, .notices = 1 },
    { .moment = "waiting", .cue = CARPACE_CUE_NEXT_BLOCK, .notices = 1 },
  };
  static const char *const cards[] = { "rating-card", "rest-card", "morning-card", "caution-card", "why-window", "notice-card" };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceGtkFaces *faces = carpace_faces_new (&given);

      print_message ("%s\n", cases[i].moment);
      told.view = moment (cases[i].moment);
      told.notices = 0;
      bring (faces, cases[i].cue, CARPACE_CUE_SHOWN);
      for (size_t card = 0; card < G_N_ELEMENTS (cards); card++)
        assert_int_equal (card_is_up (cards[card]), g_strcmp0 (cards[card], cases[i].card) == 0);
      assert_int_equal (told.notices, cases[i].notices);
      carpace_faces_free (faces);
      display_settle ();
    }
}

typedef struct
{
  const char *text;
  int n, sensitive;
} Labelled;

static void
count_label (GtkWidget *widget, gpointer user)
{
  Labelled *labelled = user;

  if (GTK_IS_MENU_ITEM (widget) && g_strcmp0 (gtk_menu_item_get_label (GTK_MENU_ITEM (widget)), labelled->text) == 0)
    {
      labelled->n++;
      labelled->sensitive += gtk_widget_get_sensitive (widget);
    }
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), count_label, user);
}

static char *
port_giver (void *self)
{
  return g_strdup ((const char *) self);
}

/* Under the plans of the menu, to be read only: who gave the one in use, where that is signed. */
static void
test_the_menu_says_who_gave_the_plan (void **state)
{
  static const char sentence[] = "Given by “Coach” (coach) on 2 Mar 2027, and signed.";

  for (int signed_by = 0; signed_by < 2; signed_by++)
    {
      CarpaceFacesGiven with = given;
      Labelled labelled = { .text = sentence };
      CarpaceGtkFaces *faces;
      GList *windows;

      with.plan_giver = port_giver;
      with.self = signed_by ? (void *) (uintptr_t) sentence : NULL;
      faces = carpace_faces_new (&with);
      display_settle ();
      windows = gtk_window_list_toplevels ();
      for (GList *window = windows; window; window = window->next)
        count_label (window->data, &labelled);
      g_list_free (windows);
      assert_int_equal (labelled.n > 0, signed_by);
      assert_int_equal (labelled.sensitive, 0);
      carpace_faces_free (faces);
      display_settle ();
    }
}

/* It is not pressing: in a block and on air it waits, and whoever has the window of today open sees it there. */
static void
test_a_note_is_told_quietly (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);
  const CarpaceNotice notice = { .cue = CARPACE_CUE_UNSTARTED, .title = (char *) "A note has come", .body = (char *) "", .quiet = true };
  const char *const not_now[] = { "practising", "paused", "on-air" };

  assert_false (carpace_faces_tell_note (faces, &notice)); /* nothing is known of the session yet */
  for (size_t i = 0; i < G_N_ELEMENTS (not_now); i++)
    {
      told.view = moment (not_now[i]);
      carpace_faces_changed (faces, &told.view);
      told.notices = 0;
      assert_false (carpace_faces_tell_note (faces, &notice));
      assert_int_equal (told.notices, 0);
    }
  told.view = moment ("waits");
  carpace_faces_changed (faces, &told.view);
  told.notices = 0;
  assert_true (carpace_faces_tell_note (faces, &notice));
  assert_int_equal (told.notices, 1);
  assert_string_equal (told.title, "A note has come");
  told.view.cue_on[CARPACE_CUE_UNSTARTED] = true; /* that stays */
  carpace_faces_changed (faces, &told.view);
  assert_false (carpace_faces_tell_note (faces, &notice));
  told.view.cue_on[CARPACE_CUE_UNSTARTED] = false;
  carpace_faces_changed (faces, &told.view);
  carpace_faces_notices_work (faces, false);
  assert_false (carpace_faces_tell_note (faces, &notice));
  carpace_faces_present (faces);
  display_settle ();
  assert_true (carpace_faces_tell_note (faces, &notice)); /* it is in sight */
  assert_int_equal (told.notices, 1);
  carpace_faces_free (faces);
}

static void
test_a_rating_waits_for_the_hand (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("rating");
  told.view.rating.hand_moving = true;
  bring (faces, CARPACE_CUE_RATING, CARPACE_CUE_SHOWN);
  assert_false (card_is_up ("rating-card"));
  assert_int_equal (told.notices, 1);
  told.view.rating.hand_moving = false;
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_true (card_is_up ("rating-card"));
  carpace_faces_free (faces);
}

/* The player's own start asks for it: it does not wait for the hand that moves. */
static void
test_a_rating_asked_by_start_comes_at_once (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("rating");
  told.view.rating.hand_moving = told.view.rating.asked_by_start = true;
  bring (faces, CARPACE_CUE_RATING, CARPACE_CUE_SHOWN);
  assert_true (card_is_up ("rating-card"));
  assert_int_equal (told.notices, 0);
  carpace_faces_free (faces);
}

static void
test_without_notices_a_rest_shows_its_card (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  carpace_faces_notices_work (faces, false);
  told.view = moment ("rest-offered");
  bring (faces, CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  assert_true (card_is_up ("rest-card"));
  assert_int_equal (told.notices, 0);
  carpace_faces_free (faces);
}

/* An offer that nobody could answer gives way to its card; what needs no answer stays a notice. */
static void
test_where_notices_take_no_answers_a_rest_shows_its_card (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("rest-offered");
  bring (faces, CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  assert_false (card_is_up ("rest-card"));
  assert_int_equal (told.notices, 1);
  carpace_faces_notices_answer (faces, false);
  display_settle ();
  assert_true (card_is_up ("rest-card"));
  assert_true (told.ended > 0);
  bring (faces, CARPACE_CUE_MICRO_REST, CARPACE_CUE_WITHDRAWN);
  told.view = moment ("practising");
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_false (card_is_up ("rest-card"));
  told.view = moment ("rest-offered");
  bring (faces, CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  assert_true (card_is_up ("rest-card"));
  assert_int_equal (told.notices, 1);
  told.view = moment ("limit-reached");
  told.view.cue_on[CARPACE_CUE_LIMIT] = true;
  bring (faces, CARPACE_CUE_LIMIT, CARPACE_CUE_SHOWN);
  assert_int_equal (told.notices, 2);
  carpace_faces_notices_answer (faces, true);
  told.view = moment ("rest-offered");
  bring (faces, CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  assert_int_equal (told.notices, 3);
  carpace_faces_free (faces);
}

/* What the player puts away is known for as long as it asks; what gave way, or was answered, is not. */
static void
test_what_is_put_away_is_known_while_it_asks (void **state)
{
  CarpaceDeck *deck = carpace_deck_new (&owner);
  CarpaceView view = moment ("rating");

  carpace_deck_bring (deck, CARPACE_CUE_RATING, CARPACE_CARD_BY_ITSELF, &view, view_now ());
  carpace_deck_draw (deck, &view, view_now (), false);
  assert_int_equal (carpace_deck_put_away_cue (deck), CARPACE_N_CUES);
  carpace_deck_put_away (deck);
  carpace_deck_draw (deck, &view, view_now (), false);
  assert_int_equal (carpace_deck_put_away_cue (deck), CARPACE_CUE_RATING);
  carpace_deck_bring (deck, CARPACE_CUE_RATING, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  carpace_deck_draw (deck, &view, view_now (), false);
  assert_int_equal (carpace_deck_put_away_cue (deck), CARPACE_N_CUES);
  view.cue_on[CARPACE_CUE_CAUTION] = true;
  carpace_deck_bring (deck, CARPACE_CUE_CAUTION, CARPACE_CARD_BY_ITSELF, &view, view_now ());
  carpace_deck_draw (deck, &view, view_now (), false);
  assert_int_equal (carpace_deck_put_away_cue (deck), CARPACE_N_CUES); /* the rating gave way, and comes back */
  view.cue_on[CARPACE_CUE_CAUTION] = false;
  carpace_deck_put_away (deck);
  carpace_deck_draw (deck, &view, view_now (), false);
  carpace_deck_put_away (deck);
  carpace_deck_draw (deck, &view, view_now (), false);
  assert_int_equal (carpace_deck_put_away_cue (deck), CARPACE_CUE_RATING);
  view = moment ("rating-given");
  carpace_deck_draw (deck, &view, view_now (), false);
  assert_int_equal (carpace_deck_put_away_cue (deck), CARPACE_N_CUES);
  carpace_deck_free (deck);
}

/* One card at a time; what gave way comes back when the other goes. */
static void
test_one_card_at_a_time (void **state)
{
  static const struct
  {
    const char *name;
    CarpaceCue first, second;
    const char *up, *then;
  } cases[] = {
    { .name = "a caution comes over a rating", .first = CARPACE_CUE_RATING, .second = CARPACE_CUE_CAUTION, .up = "caution-card", .then = "rating-card" },
    { .name = "a rating waits for a caution", .first = CARPACE_CUE_CAUTION, .second = CARPACE_CUE_RATING, .up = "caution-card", .then = "rating-card" },
    { .name = "a morning waits for a caution", .first = CARPACE_CUE_CAUTION, .second = CARPACE_CUE_MORNING, .up = "caution-card", .then = "morning-card" },
    { .name = "a rating comes over a morning", .first = CARPACE_CUE_MORNING, .second = CARPACE_CUE_RATING, .up = "rating-card", .then = "morning-card" },
  };
  static const char *const cards[] = { "rating-card", "rest-card", "morning-card", "caution-card" };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceGtkFaces *faces = carpace_faces_new (&given);
      CarpaceCue over = strcmp (cases[i].up, "caution-card") == 0 ? CARPACE_CUE_CAUTION : CARPACE_CUE_RATING;

      print_message ("%s\n", cases[i].name);
      told.view = moment ("waits");
      told.view.cue_on[cases[i].first] = told.view.cue_on[cases[i].second] = true;
      told.view.rating.open = told.view.cue_on[CARPACE_CUE_RATING];
      bring (faces, cases[i].first, CARPACE_CUE_SHOWN);
      bring (faces, cases[i].second, CARPACE_CUE_SHOWN);
      for (size_t card = 0; card < G_N_ELEMENTS (cards); card++)
        assert_int_equal (card_is_up (cards[card]), strcmp (cards[card], cases[i].up) == 0);
      told.view.cue_on[over] = false;
      told.view.rating.open = told.view.cue_on[CARPACE_CUE_RATING];
      bring (faces, over, CARPACE_CUE_WITHDRAWN);
      for (size_t card = 0; card < G_N_ELEMENTS (cards); card++)
        assert_int_equal (card_is_up (cards[card]), strcmp (cards[card], cases[i].then) == 0);
      carpace_faces_free (faces);
      display_settle ();
    }
}

/* A number above the plan's stop keeps its own sentence; the cautions come when it was read, and say because of what. */
static void
test_cautions_wait_for_the_number_that_asks_them (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("rating");
  bring (faces, CARPACE_CUE_RATING, CARPACE_CUE_SHOWN);
  told.view = moment ("rating-above-stop");
  told.view.cue_on[CARPACE_CUE_CAUTION] = true;
  bring (faces, CARPACE_CUE_RATING, CARPACE_CUE_WITHDRAWN);
  bring (faces, CARPACE_CUE_CAUTION, CARPACE_CUE_SHOWN);
  assert_true (card_is_up ("rating-card"));
  assert_false (card_is_up ("caution-card"));
  carpace_faces_put_away (faces);
  display_settle ();
  assert_false (card_is_up ("rating-card"));
  assert_true (card_is_up ("caution-card"));
  carpace_faces_free (faces);
}

/* Answered elsewhere (a command): the card that asked goes. */
static void
test_a_card_goes_with_its_cue (void **state)
{
  static const struct { const char *moment; CarpaceCue cue; const char *card; } cases[] = {
    { .moment = "morning", .cue = CARPACE_CUE_MORNING, .card = "morning-card" },
    { .moment = "caution", .cue = CARPACE_CUE_CAUTION, .card = "caution-card" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceGtkFaces *faces = carpace_faces_new (&given);

      told.view = moment (cases[i].moment);
      bring (faces, cases[i].cue, CARPACE_CUE_SHOWN);
      assert_true (card_is_up (cases[i].card));
      told.view.cue_on[cases[i].cue] = false;
      bring (faces, cases[i].cue, CARPACE_CUE_WITHDRAWN);
      assert_false (card_is_up (cases[i].card));
      carpace_faces_free (faces);
      display_settle ();
    }
}

/* Where a notice failed, what it said comes as a card. */
static void
test_without_notices_they_are_cards (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("limit-reached");
  told.view.cue_on[CARPACE_CUE_LIMIT] = true;
  bring (faces, CARPACE_CUE_LIMIT, CARPACE_CUE_SHOWN);
  assert_int_equal (told.notices, 1);
  assert_false (card_is_up ("notice-card"));
  carpace_faces_notices_work (faces, false);
  display_settle ();
  assert_true (card_is_up ("notice-card"));
  bring (faces, CARPACE_CUE_LIMIT, CARPACE_CUE_WITHDRAWN);
  assert_false (card_is_up ("notice-card"));
  told.view.on_air = true; /* neutral words stand there, too */
  bring (faces, CARPACE_CUE_LIMIT, CARPACE_CUE_SHOWN);
  assert_true (card_is_up ("notice-card"));
  assert_int_equal (told.notices, 1);
  carpace_faces_free (faces);
}

/* On air no window opens by itself, and those that speak of the hand close;
 * off air what waited comes. */
static void
test_on_air (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("rating");
  bring (faces, CARPACE_CUE_RATING, CARPACE_CUE_SHOWN);
  assert_true (card_is_up ("rating-card"));
  told.view.on_air = true;
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_false (card_is_up ("rating-card"));
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    bring (faces, (CarpaceCue) cue, CARPACE_CUE_SHOWN);
  carpace_faces_open (faces, CARPACE_CUE_RATING);
  carpace_faces_armed (faces, true);
  display_settle ();
  assert_false (card_is_up ("rating-card") || card_is_up ("rest-card") || card_is_up ("morning-card") || card_is_up ("caution-card"));
  told.view.on_air = false;
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_true (card_is_up ("rating-card"));
  carpace_faces_free (faces);
}

/* A pause that runs on air has its card, which counts; one that is offered has it where no notice is shown, with
 * its answers. Off air it is gone. */
static void
test_a_pause_on_air_has_its_card (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("on-air-offered");
  bring (faces, CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN);
  assert_false (card_is_up ("pause-card"));
  carpace_faces_notices_work (faces, false);
  display_settle ();
  assert_true (card_is_up ("pause-card"));
  carpace_faces_armed (faces, true);
  carpace_faces_digit (faces, 2);
  assert_int_equal (told.last.kind, CARPACE_EVENT_AFTER_RUN);
  told.view = moment ("on-air-short-pause");
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_true (card_is_up ("pause-card"));
  told.view = moment ("on-air-intermission");
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_true (card_is_up ("pause-card"));
  told.view = moment ("on-air-practising");
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_false (card_is_up ("pause-card"));
  told.view = moment ("rest-running");
  told.view.on_air = true;
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_true (card_is_up ("pause-card") && !card_is_up ("rest-card"));
  told.view.on_air = false;
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_true (!card_is_up ("pause-card") && card_is_up ("rest-card"));
  carpace_faces_free (faces);
}

/* Each number that is taken on air is told, once, in the same words as that the stream began. */
static void
test_a_blind_number_is_acknowledged (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("rating");
  carpace_faces_changed (faces, &told.view);
  told.view.on_air = true;
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_int_equal (told.notices, 1);
  assert_string_equal (told.title, "On air");
  for (int number = 7; number >= 2; number -= 5)
    {
      *told.title = '\0';
      told.notices = 0;
      told.view.rating.open = told.view.cue_on[CARPACE_CUE_RATING] = false;
      told.view.rating.given = number;
      bring (faces, CARPACE_CUE_RATING, CARPACE_CUE_WITHDRAWN);
      carpace_faces_changed (faces, &told.view);
      display_settle ();
      assert_int_equal (told.notices, 1);
      assert_string_equal (told.title, "On air");
    }
  told.view.rating.open = true; /* the next block's, and a start without it */
  told.view.rating.given = -1;
  told.view.rating.block = 2;
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  told.view.rating.open = false;
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_int_equal (told.notices, 1);
  carpace_faces_free (faces);
}

/* After a restart in the middle, what was on is shown; on air in its neutral words. */
static void
test_what_was_on_is_shown_at_the_start (void **state)
{
  for (int on_air = 0; on_air <= 1; on_air++)
    {
      CarpaceGtkFaces *faces = carpace_faces_new (&given);
      told.view = moment ("rating");
      told.view.on_air = on_air;
      carpace_faces_changed (faces, &told.view);
      display_settle ();
      assert_int_equal (card_is_up ("rating-card"), !on_air);
      carpace_faces_free (faces);
      display_settle ();
    }
}

static void
test_a_running_rest_comes_up_once (void **state)
{
  CarpaceGtkFaces *faces = carpace_faces_new (&given);

  told.view = moment ("rest-running");
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_true (card_is_up ("rest-card"));
  told.view = moment ("gap");
  carpace_faces_changed (faces, &told.view);
  display_settle ();
  assert_false (card_is_up ("rest-card"));
  carpace_faces_free (faces);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup (test_tap_tells_its_number, forget),
    cmocka_unit_test_setup (test_no_square_is_chosen_beforehand, forget),
    cmocka_unit_test_setup (test_a_card_that_shows_itself_is_deaf_at_first, forget),
    cmocka_unit_test_setup (test_keys, forget),
    cmocka_unit_test_setup (test_other_keys_rate_nothing, forget),
    cmocka_unit_test_setup (test_tab_reaches_every_square, forget),
    cmocka_unit_test_setup (test_site_is_a_second_tap, forget),
    cmocka_unit_test_setup (test_above_stop_says_what_follows_and_can_be_changed, forget),
    cmocka_unit_test_setup (test_rating_is_drawn_once, forget),
    cmocka_unit_test_setup (test_rating_goes_when_over, forget),
    cmocka_unit_test_setup (test_rest_offered, forget),
    cmocka_unit_test_setup (test_rest_counts_down_only_while_seen, forget),
    cmocka_unit_test_setup (test_every_exercise_is_drawn, forget),
    cmocka_unit_test_setup (test_ends_of_a_movement_take_turns, forget),
    cmocka_unit_test_setup (test_each_end_has_its_drawing, forget),
    cmocka_unit_test_setup (test_the_hold_stands_on_the_rail, forget),
    cmocka_unit_test (test_tubes_of_a_rail),
    cmocka_unit_test (test_a_second_less_is_painted_only),
    cmocka_unit_test_setup (test_morning, forget),
    cmocka_unit_test_setup (test_a_morning_above_none_asks_where, forget),
    cmocka_unit_test_setup (test_cautions, forget),
    cmocka_unit_test_setup (test_an_open_caution, forget),
    cmocka_unit_test_setup (test_why, forget),
    cmocka_unit_test_setup (test_tray_menu, forget),
    cmocka_unit_test_setup (test_tray_is_drawn_once_a_minute, forget),
    cmocka_unit_test_setup (test_today_window_is_drawn_where_it_is_seen, forget),
    cmocka_unit_test_setup (test_today_window_keeps_its_size, forget),
    cmocka_unit_test_setup (test_today_window_shows_a_note_until_it_is_put_away, forget),
    cmocka_unit_test_setup (test_a_full_screen_client_is_seen, forget),
    cmocka_unit_test_setup (test_cues_open_their_cards, forget),
    cmocka_unit_test_setup (test_a_note_is_told_quietly, forget),
    cmocka_unit_test_setup (test_a_rating_waits_for_the_hand, forget),
    cmocka_unit_test_setup (test_the_menu_says_who_gave_the_plan, forget),
    cmocka_unit_test_setup (test_a_rating_asked_by_start_comes_at_once, forget),
    cmocka_unit_test_setup (test_what_is_put_away_is_known_while_it_asks, forget),
    cmocka_unit_test_setup (test_without_notices_a_rest_shows_its_card, forget),
    cmocka_unit_test_setup (test_where_notices_take_no_answers_a_rest_shows_its_card, forget),
    cmocka_unit_test_setup (test_one_card_at_a_time, forget),
    cmocka_unit_test_setup (test_a_card_goes_with_its_cue, forget),
    cmocka_unit_test_setup (test_cautions_wait_for_the_number_that_asks_them, forget),
    cmocka_unit_test_setup (test_without_notices_they_are_cards, forget),
    cmocka_unit_test_setup (test_on_air, forget),
    cmocka_unit_test_setup (test_a_pause_on_air_has_its_card, forget),
    cmocka_unit_test_setup (test_a_blind_number_is_acknowledged, forget),
    cmocka_unit_test_setup (test_what_was_on_is_shown_at_the_start, forget),
    cmocka_unit_test_setup (test_a_running_rest_comes_up_once, forget),
  };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
