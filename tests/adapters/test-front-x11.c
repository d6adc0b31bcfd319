/* SPDX-License-Identifier: GPL-3.0-or-later */
/* On a real X server without a window manager: the test keeps the properties that one would. Waits on what is told, with
 * a limit. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <xcb/xcb.h>
#include <xcb/xtest.h>

#include "front-x11.h"

#define LIMIT_MS 20000
#define ESCAPE 0xff1b
#define SIDE 100

typedef struct
{
  CarpaceFront port;
  xcb_connection_t *x;
  xcb_window_t root;
  GString *told; /* each window in front, and of each chosen one the same behind "picked:" */
} Bench;

static void
note (Bench *bench, const char *what, const CarpaceWindow *window)
{
  if (window == NULL)
    g_string_append_printf (bench->told, "%s- ", what);
  else
    g_string_append_printf (bench->told, "%s%s/%s ", what, window->name, window->program != NULL ? window->program : "");
}

static void
front (void *user, const CarpaceWindow *window)
{
  note (user, "", window);
}

static void
picked (void *user, const CarpaceWindow *window)
{
  note (user, "picked:", window);
}

/* All that was told since the last time. */
static void
assert_told (Bench *bench, const char *told)
{
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; strcmp (bench->told->str, told) != 0 && g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
  assert_string_equal (bench->told->str, told);
  g_string_truncate (bench->told, 0);
}

/* ---- what a window manager and its programs would do ---- */

static void
synchronise (Bench *bench)
{
  free (xcb_get_input_focus_reply (bench->x, xcb_get_input_focus (bench->x), NULL));
}

static xcb_atom_t
atom (Bench *bench, const char *name)
{
  xcb_intern_atom_reply_t *reply = xcb_intern_atom_reply (bench->x, xcb_intern_atom (bench->x, 0, (uint16_t) strlen (name), name), NULL);
  xcb_atom_t is = reply->atom;

  free (reply);
  return is;
}

static void
set_number (Bench *bench, xcb_window_t window, const char *property, xcb_atom_t type, uint32_t number)
{
  xcb_change_property (bench->x, XCB_PROP_MODE_REPLACE, window, atom (bench, property), type, 32, 1, &number);
}

static void
set_class (Bench *bench, xcb_window_t window, const char *bytes, uint32_t n)
{
  xcb_change_property (bench->x, XCB_PROP_MODE_REPLACE, window, XCB_ATOM_WM_CLASS, XCB_ATOM_STRING, 8, n, bytes);
}

/* @bytes of WM_CLASS, NULL: it has none */
static xcb_window_t
window_new (Bench *bench, int16_t left, const char *bytes, uint32_t n)
{
  xcb_window_t window = xcb_generate_id (bench->x);
  const uint32_t unmanaged = 1;

  xcb_create_window (bench->x, XCB_COPY_FROM_PARENT, window, bench->root, left, 0, SIDE, SIDE, 0, XCB_WINDOW_CLASS_INPUT_OUTPUT, XCB_COPY_FROM_PARENT,
                     XCB_CW_OVERRIDE_REDIRECT, &unmanaged);
  if (bytes != NULL)
    set_class (bench, window, bytes, n);
  xcb_map_window (bench->x, window);
  return window;
}

static void
bring_to_the_front (Bench *bench, xcb_window_t window)
{
  set_number (bench, bench->root, "_NET_ACTIVE_WINDOW", XCB_ATOM_WINDOW, window);
  synchronise (bench);
}

#define CLASS(instance, name) instance "\0" name, sizeof instance "\0" name

/* ---- the bench ---- */

static bool
open_it (Bench *bench)
{
  return carpace_front_x11_open ((CarpaceWindowListener) { bench, front, picked }, &bench->port);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);

  bench->told = g_string_new (NULL);
  bench->x = xcb_connect (NULL, NULL);
  assert_int_equal (xcb_connection_has_error (bench->x), 0);
  bench->root = xcb_setup_roots_iterator (xcb_get_setup (bench->x)).data->root;
  xcb_delete_property (bench->x, bench->root, atom (bench, "_NET_ACTIVE_WINDOW"));
  synchronise (bench);
  assert_true (open_it (bench));
  assert_string_equal (bench->told->str, ""); /* never from within a call */
  assert_told (bench, "- ");                  /* told at first */
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;

  if (bench->port.self != NULL)
    CARPACE_PORT_FREE (bench->port);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  xcb_disconnect (bench->x);
  g_string_free (bench->told, TRUE);
  g_free (bench);
  return 0;
}

/* ---- what is in front ---- */

static void
what_comes_to_the_front_is_told (void **state)
{
  Bench *bench = *state;
  xcb_window_t game = window_new (bench, 0, CLASS ("game", "Game")), other = window_new (bench, SIDE, CLASS ("other", "Other"));

  set_number (bench, game, "_NET_WM_PID", XCB_ATOM_CARDINAL, (uint32_t) getpid ());
  bring_to_the_front (bench, game);
  assert_told (bench, "Game/test-front-x11 ");
  bring_to_the_front (bench, other);
  assert_told (bench, "Other/ ");
  bring_to_the_front (bench, XCB_WINDOW_NONE);
  assert_told (bench, "- ");
}

/* Nothing but the one property: what programs do to theirs all the time wakes nobody. */
static void
nothing_else_is_told (void **state)
{
  Bench *bench = *state;
  xcb_window_t game = window_new (bench, 0, CLASS ("game", "Game"));

  bring_to_the_front (bench, game);
  assert_told (bench, "Game/ ");
  set_number (bench, bench->root, "_NET_CLIENT_LIST", XCB_ATOM_WINDOW, game);
  set_number (bench, game, "_NET_ACTIVE_WINDOW", XCB_ATOM_WINDOW, game);
  xcb_change_property (bench->x, XCB_PROP_MODE_REPLACE, game, XCB_ATOM_WM_NAME, XCB_ATOM_STRING, 8, 5, "title");
  set_class (bench, game, CLASS ("game", "Renamed"));
  window_new (bench, SIDE, CLASS ("new", "New"));
  bring_to_the_front (bench, XCB_WINDOW_NONE); /* told after all of that */
  assert_told (bench, "- ");
}

static void
names_of_every_kind (void **state)
{
  static const struct { const char *row, *bytes; uint32_t n; const char *told; } rows[] = {
    { "no class", NULL, 0, "- " },
    { "an empty one", "", 0, "- " },
    { "two empty names", "\0", 2, "- " },
    { "the instance alone", "game", 5, "game/ " },
    { "without its end", "game", 4, "game/ " },
    { "an instance, and a class without its end", "game\0Game", 9, "Game/ " },
    { "a class alone", "\0Game", 6, "Game/ " },
    { "more than two", "game\0Game\0Third", 16, "Game/ " },
    { "UTF-8", "g\0Spi\xc3\xa4l", 9, "Spi\xc3\xa4l/ " },
    { "Latin-1", "g\0Spi\xe4l", 8, "Spi\xc3\xa4l/ " },
  };
  Bench *bench = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      bring_to_the_front (bench, window_new (bench, 0, rows[i].bytes, rows[i].n));
      assert_told (bench, rows[i].told);
    }
}

/* A window may be gone before anybody has asked it for its name, or the number may never have been one. */
static void
a_window_that_is_gone_is_none (void **state)
{
  Bench *bench = *state;
  xcb_window_t game = window_new (bench, 0, CLASS ("game", "Game"));

  bring_to_the_front (bench, game);
  assert_told (bench, "Game/ ");
  set_number (bench, bench->root, "_NET_ACTIVE_WINDOW", XCB_ATOM_WINDOW, game);
  xcb_destroy_window (bench->x, game); /* before what was told is read */
  synchronise (bench);
  assert_told (bench, "- ");
  bring_to_the_front (bench, 0x1ffffff);
  assert_told (bench, "- ");
  bring_to_the_front (bench, window_new (bench, 0, CLASS ("game", "Game")));
  assert_told (bench, "Game/ "); /* errors in between end nothing */
}

/* Many at once: the last word is right, whatever was gone meanwhile. */
static void
windows_that_come_and_go_at_once (void **state)
{
  Bench *bench = *state;
  xcb_window_t last = window_new (bench, 0, CLASS ("last", "Last"));

  for (int i = 0; i < 200; i++)
    {
      xcb_window_t window = window_new (bench, 0, CLASS ("brief", "Brief"));

      set_number (bench, bench->root, "_NET_ACTIVE_WINDOW", XCB_ATOM_WINDOW, window);
      xcb_destroy_window (bench->x, window);
      if (i % 20 == 0)
        g_main_context_iteration (NULL, FALSE);
    }
  bring_to_the_front (bench, last);
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; !g_str_has_suffix (bench->told->str, "Last/ ") && g_get_monotonic_time () < end;)
    g_main_context_iteration (NULL, FALSE);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  assert_true (g_str_has_suffix (bench->told->str, "Last/ "));
}

/* ---- one that is chosen ---- */

static bool
pointer_is_held (Bench *bench)
{
  xcb_grab_pointer_reply_t *grab = xcb_grab_pointer_reply (bench->x, xcb_grab_pointer (bench->x, 0, bench->root, 0, XCB_GRAB_MODE_ASYNC,
                                                           XCB_GRAB_MODE_ASYNC, XCB_WINDOW_NONE, XCB_NONE, XCB_CURRENT_TIME), NULL);
  bool held = grab->status == XCB_GRAB_STATUS_ALREADY_GRABBED;

  free (grab);
  if (!held)
    xcb_ungrab_pointer (bench->x, XCB_CURRENT_TIME);
  synchronise (bench);
  return held;
}

/* The server hears of a grab, and of its end, by another connection than this one asks it by. */
static void
wait_until_pointer (Bench *bench, bool held)
{
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; pointer_is_held (bench) != held && g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (5000);
  assert_int_equal (pointer_is_held (bench), held);
}

static void
begin_to_pick (Bench *bench)
{
  wait_until_pointer (bench, false); /* or the last choice's grab is taken for this one's */
  bench->port.pick (bench->port.self);
  wait_until_pointer (bench, true);
}

static void
click (Bench *bench, int16_t left, uint8_t button)
{
  xcb_test_fake_input (bench->x, XCB_MOTION_NOTIFY, 0, 0, bench->root, (int16_t) (left + SIDE / 2), SIDE / 2, 0);
  xcb_test_fake_input (bench->x, XCB_BUTTON_PRESS, button, 0, bench->root, 0, 0, 0);
  xcb_test_fake_input (bench->x, XCB_BUTTON_RELEASE, button, 0, bench->root, 0, 0, 0);
  synchronise (bench);
}

static void
press_escape (Bench *bench)
{
  const xcb_setup_t *setup = xcb_get_setup (bench->x);
  uint8_t n = (uint8_t) (setup->max_keycode - setup->min_keycode + 1);
  xcb_get_keyboard_mapping_reply_t *map = xcb_get_keyboard_mapping_reply (bench->x, xcb_get_keyboard_mapping (bench->x, setup->min_keycode, n), NULL);
  int code = 0;

  while (code < n && xcb_get_keyboard_mapping_keysyms (map)[code * map->keysyms_per_keycode] != ESCAPE)
    code++;
  free (map);
  assert_true (code < n);
  xcb_test_fake_input (bench->x, XCB_KEY_PRESS, (uint8_t) (setup->min_keycode + code), 0, bench->root, 0, 0, 0);
  xcb_test_fake_input (bench->x, XCB_KEY_RELEASE, (uint8_t) (setup->min_keycode + code), 0, bench->root, 0, 0, 0);
  synchronise (bench);
}

/* Within a frame that a window manager has put about it; the desktop behind is no window, nor is one by another button. */
static void
a_click_chooses (void **state)
{
  Bench *bench = *state;
  xcb_window_t frame = window_new (bench, 0, NULL, 0), game = window_new (bench, 0, CLASS ("game", "Game"));

  xcb_reparent_window (bench->x, game, frame, 0, 0);
  set_number (bench, game, "WM_STATE", XCB_ATOM_CARDINAL, 1);
  synchronise (bench);
  begin_to_pick (bench);
  click (bench, 0, 1);
  assert_told (bench, "picked:Game/ ");
  wait_until_pointer (bench, false);
  begin_to_pick (bench);
  click (bench, 4 * SIDE, 1);
  assert_told (bench, "picked:- ");
  begin_to_pick (bench);
  click (bench, 0, 3);
  assert_told (bench, "picked:- ");
  begin_to_pick (bench);
  press_escape (bench);
  assert_told (bench, "picked:- ");
  wait_until_pointer (bench, false);
}

/* A menu that closes holds the pointer for a moment; who holds it on and on is not waited for. */
static void
another_program_s_grab_is_waited_for (void **state)
{
  Bench *bench = *state;
  xcb_window_t game = window_new (bench, 0, CLASS ("game", "Game"));

  set_number (bench, game, "WM_STATE", XCB_ATOM_CARDINAL, 1);
  free (xcb_grab_pointer_reply (bench->x, xcb_grab_pointer (bench->x, 0, bench->root, 0, XCB_GRAB_MODE_ASYNC, XCB_GRAB_MODE_ASYNC,
                                                            XCB_WINDOW_NONE, XCB_NONE, XCB_CURRENT_TIME), NULL));
  bench->port.pick (bench->port.self);
  for (int i = 0; i < 20; i++)
    g_main_context_iteration (NULL, FALSE);
  xcb_ungrab_pointer (bench->x, XCB_CURRENT_TIME);
  synchronise (bench);
  begin_to_pick (bench);
  click (bench, 0, 1);
  assert_told (bench, "picked:Game/ ");
  free (xcb_grab_pointer_reply (bench->x, xcb_grab_pointer (bench->x, 0, bench->root, 0, XCB_GRAB_MODE_ASYNC, XCB_GRAB_MODE_ASYNC,
                                                            XCB_WINDOW_NONE, XCB_NONE, XCB_CURRENT_TIME), NULL));
  bench->port.pick (bench->port.self);
  assert_told (bench, "picked:- ");
  xcb_ungrab_pointer (bench->x, XCB_CURRENT_TIME);
}

/* ---- where it is there ---- */

static void
let_go_of_before_it_is_connected (void **state)
{
  Bench *bench = *state;

  CARPACE_PORT_FREE (bench->port);
  assert_true (open_it (bench));
  CARPACE_PORT_FREE (bench->port);
  bench->port.self = NULL;
  for (int i = 0; i < 20; i++)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
  assert_string_equal (bench->told->str, "");
}

/* A server that is not there is none in front, and ends a choice. */
static void
a_server_that_is_not_there_is_told (void **state)
{
  Bench *bench = *state;
  g_autofree char *own = g_strdup (g_getenv ("DISPLAY"));

  CARPACE_PORT_FREE (bench->port);
  g_setenv ("DISPLAY", ":59999.7", TRUE);
  assert_true (open_it (bench));
  bench->port.pick (bench->port.self);
  assert_told (bench, "- picked:- ");
  g_setenv ("DISPLAY", own, TRUE);
  assert_told (bench, "- "); /* it is looked for again */
  bring_to_the_front (bench, window_new (bench, 0, CLASS ("game", "Game")));
  assert_told (bench, "Game/ ");
}

/* Beside a compositor no click on another program's window can be had. */
static void
each_kind_of_session_has_its_own (void **state)
{
  Bench *bench = *state;
  CarpaceFront port = { .self = state };
  const CarpaceWindowListener listener = { bench, front, picked };
  g_autofree char *own = g_strdup (g_getenv ("DISPLAY"));

  assert_false (carpace_front_x11_beside_open (listener, &port));
  g_setenv ("WAYLAND_DISPLAY", "wayland-of-nobody", TRUE);
  assert_false (carpace_front_x11_open (listener, &port));
  assert_ptr_equal (port.self, state);
  assert_true (carpace_front_x11_beside_open (listener, &port));
  assert_null (port.pick);
  assert_told (bench, "- ");
  CARPACE_PORT_FREE (port);
  g_unsetenv ("DISPLAY");
  assert_false (carpace_front_x11_beside_open (listener, &port));
  g_unsetenv ("WAYLAND_DISPLAY");
  assert_false (carpace_front_x11_open (listener, &port));
  g_setenv ("DISPLAY", own, TRUE);
}

int
main (void)
{
#define ROW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    ROW (what_comes_to_the_front_is_told),
    ROW (nothing_else_is_told),
    ROW (names_of_every_kind),
    ROW (a_window_that_is_gone_is_none),
    ROW (windows_that_come_and_go_at_once),
    ROW (a_click_chooses),
    ROW (another_program_s_grab_is_waited_for),
    ROW (let_go_of_before_it_is_connected),
    ROW (a_server_that_is_not_there_is_told),
    ROW (each_kind_of_session_has_its_own),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
