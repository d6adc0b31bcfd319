/* SPDX-License-Identifier: GPL-3.0-or-later */
/* On a real X server, keys by XTEST. The game is a client of its own that has
 * grabbed the pointer and has the focus. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>
#include <xcb/xcb.h>
#include <xcb/xtest.h>

#include "keys-x11.h"

#define LIMIT_MS 3000

/* Keycodes of the evdev keymap that Xvfb starts with (a US keyboard). */
#define CODE_ESCAPE 9
#define CODE_1 10
#define CODE_7 16
#define CODE_0 19
#define CODE_MINUS 20
#define CODE_H 43
#define CODE_CTRL 37
#define CODE_SHIFT 50
#define CODE_ALT 64
#define CODE_CAPS_LOCK 66
#define CODE_NUM_LOCK 77
#define CODE_HP_7 79
#define CODE_HP_DECIMAL 91

typedef struct
{
  CarpaceKeysX11 *keys;
  xcb_connection_t *x; /* the keyboard, and the game */
  xcb_window_t root, game;
  int n_armed, n_let_go, n_rated, n_put_away, n_occupied;
  int32_t rated;
} Bench;

static void
on_armed (void *self, bool armed)
{
  Bench *bench = self;
  *(armed ? &bench->n_armed : &bench->n_let_go) += 1;
}

static void
on_rated (void *self, int32_t discomfort)
{
  Bench *bench = self;
  bench->n_rated++;
  bench->rated = discomfort;
}

static void
on_put_away (void *self)
{
  ((Bench *) self)->n_put_away++;
}

static void
on_occupied (void *self)
{
  ((Bench *) self)->n_occupied++;
}

static void
sync_x (Bench *bench)
{
  free (xcb_get_input_focus_reply (bench->x, xcb_get_input_focus (bench->x), NULL));
}

static void
key (Bench *bench, uint8_t code, bool down)
{
  xcb_test_fake_input (bench->x, down ? XCB_KEY_PRESS : XCB_KEY_RELEASE, code, 0, XCB_NONE, 0, 0, 0);
  sync_x (bench);
}

static void
tap (Bench *bench, uint8_t code)
{
  key (bench, code, true);
  key (bench, code, false);
}

static void
press_chord (Bench *bench)
{
  key (bench, CODE_CTRL, true);
  key (bench, CODE_ALT, true);
  tap (bench, CODE_H);
  key (bench, CODE_ALT, false);
  key (bench, CODE_CTRL, false);
}

static void
wait_for (const int *number, int enough, int ms)
{
  for (gint64 end = g_get_monotonic_time () + ms * 1000; *number < enough && g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
}

/* What reaches the game: keys pressed, and whether the focus was lost, or lent
 * to a grab for as long as its key is down (which its events say of themselves). */
typedef struct
{
  int keys, focus_lost, focus_lost_by_grab;
} Noticed;

static Noticed
what_the_game_noticed (Bench *bench)
{
  Noticed noticed = { 0 };
  sync_x (bench);
  for (xcb_generic_event_t *event; (event = xcb_poll_for_event (bench->x)) != NULL; free (event))
    if ((event->response_type & 0x7f) == XCB_KEY_PRESS)
      {
        uint8_t code = ((xcb_key_press_event_t *) event)->detail;
        noticed.keys += code != CODE_CTRL && code != CODE_ALT ? 1 : 0;
      }
    else if ((event->response_type & 0x7f) == XCB_FOCUS_OUT)
      {
        bool by_grab = ((xcb_focus_out_event_t *) event)->mode != XCB_NOTIFY_MODE_NORMAL;
        *(by_grab ? &noticed.focus_lost_by_grab : &noticed.focus_lost) += 1;
      }
  return noticed;
}

static void
start_game (Bench *bench)
{
  const xcb_screen_t *screen = xcb_setup_roots_iterator (xcb_get_setup (bench->x)).data;
  uint32_t events = XCB_EVENT_MASK_KEY_PRESS | XCB_EVENT_MASK_FOCUS_CHANGE | XCB_EVENT_MASK_POINTER_MOTION;
  bench->root = screen->root;
  bench->game = xcb_generate_id (bench->x);
  xcb_create_window (bench->x, XCB_COPY_FROM_PARENT, bench->game, screen->root, 0, 0, 1280, 800, 0,
                     XCB_WINDOW_CLASS_INPUT_OUTPUT, XCB_COPY_FROM_PARENT, XCB_CW_EVENT_MASK, &events);
  xcb_map_window (bench->x, bench->game);
  xcb_set_input_focus (bench->x, XCB_INPUT_FOCUS_PARENT, bench->game, XCB_CURRENT_TIME);
  xcb_grab_pointer_reply_t *grab = xcb_grab_pointer_reply (
    bench->x,
    xcb_grab_pointer (bench->x, 0, bench->game, XCB_EVENT_MASK_POINTER_MOTION, XCB_GRAB_MODE_ASYNC, XCB_GRAB_MODE_ASYNC,
                      bench->game, XCB_NONE, XCB_CURRENT_TIME),
    NULL);
  assert_int_equal (grab->status, XCB_GRAB_STATUS_SUCCESS);
  free (grab);
  what_the_game_noticed (bench);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  CarpaceChord chord = { 0 };
  assert_true (carpace_chord_read (CARPACE_CHORD_DEFAULT, &chord));
  bench->x = xcb_connect (NULL, NULL);
  start_game (bench);
  bench->keys = carpace_keys_x11_new (
    NULL, NULL, &chord,
    (CarpaceKeysListener) { .self = bench, .armed = on_armed, .digit = on_rated, .put_away = on_put_away, .occupied = on_occupied }, NULL);
  assert_non_null (bench->keys);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  carpace_keys_x11_free (bench->keys);
  xcb_disconnect (bench->x);
  g_free (bench);
  return 0;
}

static void
arm (Bench *bench)
{
  int before = bench->n_armed;
  press_chord (bench);
  wait_for (&bench->n_armed, before + 1, LIMIT_MS);
  assert_int_equal (bench->n_armed, before + 1);
}

static void
each_key_has_its_number (void **state)
{
  static const struct { const char *name; uint8_t code, held; int32_t number; } rows[] = {
    { .name = "1", .code = CODE_1, .number = 1 },
    { .name = "7", .code = CODE_7, .number = 7 },
    { .name = "0", .code = CODE_0, .number = 0 },
    { .name = "right of 0", .code = CODE_MINUS, .number = 10 },
    { .name = "with Shift", .code = CODE_1, .held = CODE_SHIFT, .number = 1 },
    { .name = "with the chord's Ctrl still down", .code = CODE_7, .held = CODE_CTRL, .number = -1 },
    { .name = "keypad 7", .code = CODE_HP_7, .number = 7 },
    { .name = "keypad, right of 0", .code = CODE_HP_DECIMAL, .number = 10 },
  };
  Bench *bench = *state;
  carpace_keys_x11_ask (bench->keys, true);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int rated = bench->n_rated;
      arm (bench);
      if (rows[i].held != 0)
        key (bench, rows[i].held, true);
      tap (bench, rows[i].code);
      if (rows[i].held != 0)
        key (bench, rows[i].held, false);
      wait_for (&bench->n_rated, rated + 1, rows[i].number < 0 ? 100 : LIMIT_MS);
      if (bench->n_rated != rated + (rows[i].number < 0 ? 0 : 1) || (rows[i].number >= 0 && bench->rated != rows[i].number))
        fail_msg ("%s: %d ratings, the last %d", rows[i].name, bench->n_rated - rated, bench->rated);
      if (rows[i].number < 0)
        tap (bench, CODE_ESCAPE);
      wait_for (&bench->n_let_go, bench->n_armed, LIMIT_MS);
    }
  assert_int_equal (bench->n_let_go, bench->n_armed);
}

static void
locks_do_not_matter (void **state)
{
  static const uint8_t locks[][2] = { { CODE_CAPS_LOCK, 0 }, { CODE_NUM_LOCK, 0 }, { CODE_CAPS_LOCK, CODE_NUM_LOCK } };
  Bench *bench = *state;
  carpace_keys_x11_ask (bench->keys, true);
  for (size_t i = 0; i < G_N_ELEMENTS (locks); i++)
    {
      int rated = bench->n_rated;
      for (int lock = 0; lock < 2; lock++)
        if (locks[i][lock] != 0)
          tap (bench, locks[i][lock]);
      arm (bench);
      tap (bench, CODE_7);
      wait_for (&bench->n_rated, rated + 1, LIMIT_MS);
      for (int lock = 0; lock < 2; lock++)
        if (locks[i][lock] != 0)
          tap (bench, locks[i][lock]);
      assert_int_equal (bench->n_rated, rated + 1);
      assert_int_equal (bench->rated, 7);
    }
}

static void
escape_lets_go (void **state)
{
  Bench *bench = *state;
  carpace_keys_x11_ask (bench->keys, true);
  arm (bench);
  tap (bench, CODE_ESCAPE);
  wait_for (&bench->n_let_go, 1, LIMIT_MS);
  assert_int_equal (bench->n_let_go, 1);
  assert_int_equal (bench->n_put_away, 1);
  what_the_game_noticed (bench);
  tap (bench, CODE_7);
  wait_for (&bench->n_rated, 1, 50);
  assert_int_equal (bench->n_rated, 0);
  assert_int_equal (what_the_game_noticed (bench).keys, 1);
}

/* The one wait of a real length: the limit is the point. */
static void
armed_for_8_s (void **state)
{
  Bench *bench = *state;
  carpace_keys_x11_ask (bench->keys, true);
  arm (bench);
  gint64 armed = g_get_monotonic_time ();
  wait_for (&bench->n_let_go, 1, 12000);
  assert_int_equal (bench->n_let_go, 1);
  assert_in_range ((g_get_monotonic_time () - armed) / 1000, 7900, 9000);
  what_the_game_noticed (bench);
  tap (bench, CODE_7);
  assert_int_equal (what_the_game_noticed (bench).keys, 1);
}

static void
what_a_pointer_grabbing_game_notices (void **state)
{
  Bench *bench = *state;
  carpace_keys_x11_ask (bench->keys, true);
  assert_int_equal (what_the_game_noticed (bench).focus_lost, 0);
  arm (bench);
  Noticed noticed = what_the_game_noticed (bench);
  print_message ("chord: the game saw %d of its keys, focus lost %d times, by grab %d times\n", noticed.keys,
                 noticed.focus_lost, noticed.focus_lost_by_grab);
  assert_int_equal (noticed.keys, 0);
  assert_int_equal (noticed.focus_lost, 0);
  tap (bench, CODE_7);
  wait_for (&bench->n_rated, 1, LIMIT_MS);
  assert_int_equal (bench->rated, 7);
  noticed = what_the_game_noticed (bench);
  print_message ("digit: the game saw %d of it, focus lost %d times, by grab %d times\n", noticed.keys,
                 noticed.focus_lost, noticed.focus_lost_by_grab);
  assert_int_equal (noticed.keys, 0);
  assert_int_equal (noticed.focus_lost, 0);
  xcb_get_input_focus_reply_t *focus = xcb_get_input_focus_reply (bench->x, xcb_get_input_focus (bench->x), NULL);
  assert_int_equal (focus->focus, bench->game);
  free (focus);

  /* Its pointer grab has held: nobody else can have the pointer, and it moves there still. */
  xcb_connection_t *other = xcb_connect (NULL, NULL);
  xcb_grab_pointer_reply_t *grab = xcb_grab_pointer_reply (
    other, xcb_grab_pointer (other, 0, bench->root, 0, XCB_GRAB_MODE_ASYNC, XCB_GRAB_MODE_ASYNC, XCB_NONE, XCB_NONE, XCB_CURRENT_TIME),
    NULL);
  assert_int_equal (grab->status, XCB_GRAB_STATUS_ALREADY_GRABBED);
  free (grab);
  xcb_disconnect (other);
}

static bool
other_can_grab (Bench *bench, xcb_connection_t *other, uint8_t code, uint16_t modifiers)
{
  xcb_generic_error_t *error = xcb_request_check (
    other, xcb_grab_key_checked (other, 0, bench->root, modifiers, code, XCB_GRAB_MODE_ASYNC, XCB_GRAB_MODE_ASYNC));
  bool can = error == NULL;
  free (error);
  if (can)
    xcb_ungrab_key (other, code, bench->root, modifiers);
  free (xcb_get_input_focus_reply (other, xcb_get_input_focus (other), NULL));
  return can;
}

static void
nothing_is_grabbed_while_nothing_is_asked (void **state)
{
  Bench *bench = *state;
  xcb_connection_t *other = xcb_connect (NULL, NULL);
  uint16_t chord = XCB_MOD_MASK_CONTROL | XCB_MOD_MASK_1;
  assert_true (other_can_grab (bench, other, CODE_H, chord));
  carpace_keys_x11_ask (bench->keys, true);
  assert_false (other_can_grab (bench, other, CODE_H, chord));
  assert_true (other_can_grab (bench, other, CODE_7, 0));
  arm (bench);
  assert_false (other_can_grab (bench, other, CODE_7, 0));
  carpace_keys_x11_ask (bench->keys, false);
  assert_int_equal (bench->n_let_go, 1);
  sync_x (bench);
  wait_for (&bench->n_let_go, 2, 20);
  assert_true (other_can_grab (bench, other, CODE_H, chord));
  assert_true (other_can_grab (bench, other, CODE_7, 0));
  what_the_game_noticed (bench);
  press_chord (bench);
  wait_for (&bench->n_armed, 2, 50);
  assert_int_equal (bench->n_armed, 1);
  assert_int_equal (what_the_game_noticed (bench).keys, 1);
  xcb_disconnect (other);
}

static void
an_occupied_chord_is_told_once (void **state)
{
  Bench *bench = *state;
  CarpaceChord chord = { 0 };
  xcb_connection_t *other = xcb_connect (NULL, NULL);
  xcb_generic_error_t *error = xcb_request_check (
    other, xcb_grab_key_checked (other, 0, bench->root, XCB_MOD_MASK_ANY, CODE_H, XCB_GRAB_MODE_ASYNC, XCB_GRAB_MODE_ASYNC));
  assert_null (error);
  assert_true (carpace_chord_read (CARPACE_CHORD_DEFAULT, &chord));
  assert_false (carpace_keys_x11_can_have (NULL, &chord));
  for (int i = 0; i < 3; i++)
    {
      carpace_keys_x11_ask (bench->keys, true);
      wait_for (&bench->n_occupied, 2, 50);
      carpace_keys_x11_ask (bench->keys, false);
    }
  assert_int_equal (bench->n_occupied, 1);
  assert_true (carpace_chord_read ("Ctrl+Alt+7", &chord));
  assert_true (carpace_keys_x11_can_have (NULL, &chord));
  carpace_keys_x11_set_chord (bench->keys, &chord);
  carpace_keys_x11_ask (bench->keys, true);
  wait_for (&bench->n_occupied, 2, 50);
  assert_int_equal (bench->n_occupied, 1);
  xcb_disconnect (other);
}

static void
chords_in_words (void **state)
{
  static const struct { const char *text; CarpaceChord chord; } good[] = {
    { "Ctrl+Alt+R", { .ctrl = true, .alt = true, .keysym = 'r' } },
    { "super+5", { .super = true, .keysym = '5' } },
    { "SHIFT+CTRL+F12", { .ctrl = true, .shift = true, .keysym = 0xffc9 } },
  };
  static const char *const bad[] = { NULL, "", "R", "Ctrl", "Ctrl+", "+R", "Shift+R", "Ctrl+Ctrl+R", "Hyper+R", "Ctrl+F0",
                                     "Ctrl+F13", "Ctrl+FF", "Ctrl+RR", "Ctrl+ R", "Ctrl+é", "Ctrl+Alt+Shift+Super+Ctrl+Alt+R+R" };
  for (size_t i = 0; i < G_N_ELEMENTS (good); i++)
    {
      CarpaceChord chord = { 0 };
      if (!carpace_chord_read (good[i].text, &chord) || chord.ctrl != good[i].chord.ctrl || chord.alt != good[i].chord.alt
          || chord.shift != good[i].chord.shift || chord.super != good[i].chord.super || chord.keysym != good[i].chord.keysym)
        fail_msg ("%s", good[i].text);
    }
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      CarpaceChord chord = { .keysym = 77 };
      if (carpace_chord_read (bad[i], &chord) || chord.keysym != 77)
        fail_msg ("%s is taken", bad[i]);
    }
}

#define ON_X(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (chords_in_words),
    ON_X (each_key_has_its_number),
    ON_X (locks_do_not_matter),
    ON_X (escape_lets_go),
    ON_X (armed_for_8_s),
    ON_X (what_a_pointer_grabbing_game_notices),
    ON_X (nothing_is_grabbed_while_nothing_is_asked),
    ON_X (an_occupied_chord_is_told_once),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
