/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Against a compositor of the test's own, which tells what the test says. Nothing waits but for what is to come. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <string.h>
#include <unistd.h>

#include "compositor.h"
#include "front-wayland.h"

#define LIMIT_MS 10000

typedef struct
{
  Server *server;
  List list;
  CarpaceFront port;
  GString *told; /* each name, "-" for none, with a blank behind */
  char *program; /* of what was told last */
  int programs;
} Bench;

static const uint32_t versions[N_LISTS] = { [LIST_WLR] = 1, [LIST_KDE] = 13 };

static void
front (void *user, const CarpaceWindow *window)
{
  Bench *bench = user;

  g_string_append_printf (bench->told, "%s ", window != NULL ? window->name : "-");
  g_free (bench->program);
  bench->program = window != NULL ? g_strdup (window->program) : NULL;
  bench->programs += window != NULL && window->program != NULL;
}

static void
picked (void *user, const CarpaceWindow *window)
{
  fail_msg ("nothing is chosen by a click");
}

static bool
open_it (Bench *bench)
{
  return carpace_front_wayland_open ((CarpaceWindowListener) { bench, front, picked }, &bench->port);
}

/* All that was told is @told; what comes is waited for. */
static void
assert_told (Bench *bench, const char *told)
{
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; strcmp (bench->told->str, told) != 0 && g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
  assert_string_equal (bench->told->str, told);
}

static void
offer (Bench *bench, bool offered)
{
  server_offer_windows (bench->server, bench->list, offered ? versions[bench->list] : 0);
}

static Bench *
bench_new (List list)
{
  Bench *bench = g_new0 (Bench, 1);

  bench->list = list;
  bench->told = g_string_new (NULL);
  bench->server = server_new ();
  return bench;
}

static void
bench_free (Bench *bench)
{
  server_free (bench->server);
  g_string_free (bench->told, TRUE);
  g_free (bench->program);
  g_free (bench);
}

static int
set_up (void **state)
{
  Bench *bench = bench_new (*(const List *) *state);

  offer (bench, true);
  server_window (bench->server, 0, "game", false);
  server_window (bench->server, 1, "terminal", true);
  assert_true (open_it (bench));
  assert_string_equal (bench->told->str, ""); /* never from within a call */
  assert_null (bench->port.pick);
  assert_told (bench, "terminal ");
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;

  CARPACE_PORT_FREE (bench->port);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  bench_free (bench);
  return 0;
}

static void
what_comes_to_the_front_is_told (void **state)
{
  Bench *bench = *state;

  server_window (bench->server, 1, "terminal", false);
  assert_told (bench, "terminal - ");
  server_window (bench->server, 0, "game", true);
  assert_told (bench, "terminal - game ");
  server_window (bench->server, 2, "dialogue", false); /* one that comes behind it changes nothing */
  server_window (bench->server, 0, "game", true);      /* nor does what is said again */
  server_window (bench->server, 0, "game", false);
  assert_told (bench, "terminal - game - ");
  assert_int_equal (bench->programs, 0);
}

/* A compositor that puts the new one in front before the old one goes from there: never two, and the end is right. */
static void
two_at_once_come_to_one (void **state)
{
  Bench *bench = *state;

  server_window (bench->server, 0, "game", true);
  server_window (bench->server, 1, "terminal", false);
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; !g_str_has_suffix (bench->told->str, "game ") && g_get_monotonic_time () < end;)
    g_main_context_iteration (NULL, FALSE);
  assert_string_equal (bench->told->str, "terminal game ");
}

static void
a_window_that_goes_is_not_in_front (void **state)
{
  Bench *bench = *state;

  server_close_window (bench->server, 1);
  assert_told (bench, "terminal - ");
  server_window (bench->server, 0, "game", true);
  assert_told (bench, "terminal - game ");
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; server_windows_had (bench->server) > 1 && g_get_monotonic_time () < end;)
    g_main_context_iteration (NULL, FALSE);
  assert_int_equal (server_windows_had (bench->server), 1); /* what is closed is let go of */
}

static void
a_name_may_be_lacking_come_late_and_be_no_text (void **state)
{
  Bench *bench = *state;

  server_window (bench->server, 1, "terminal", false);
  server_window (bench->server, 2, NULL, true);
  assert_told (bench, "terminal - ");
  server_window (bench->server, 2, "late", true);
  assert_told (bench, "terminal - late ");
  server_window (bench->server, 2, "", true);
  assert_told (bench, "terminal - late - ");
  server_window (bench->server, 2, "a\xff", true);
  assert_told (bench, "terminal - late - a\xef\xbf\xbd ");
}

/* Then none is known to be in front. */
static void
a_list_that_ends_is_told (void **state)
{
  Bench *bench = *state;

  server_end_windows (bench->server);
  assert_told (bench, "terminal - ");
  server_window (bench->server, 1, "terminal", true); /* to nobody */
  offer (bench, true); /* anew */
  assert_told (bench, "terminal - terminal ");
}

static void
a_list_that_is_withdrawn_and_offered_anew (void **state)
{
  Bench *bench = *state;

  offer (bench, false);
  assert_told (bench, "terminal - ");
  server_window (bench->server, 1, "terminal", true); /* to nobody */
  offer (bench, true);
  assert_told (bench, "terminal - terminal ");
}

static void
a_compositor_that_goes_is_told (void **state)
{
  Bench *bench = *state;

  server_kill (bench->server);
  assert_told (bench, "terminal - ");
}

/* ---- KDE's list alone ---- */

static void
a_program_is_told_and_told_anew (void **state)
{
  Bench *bench = *state;
  g_autofree char *own = g_file_read_link ("/proc/self/exe", NULL), *name = g_path_get_basename (own);

  assert_null (bench->program);
  server_window_process (bench->server, 1, (uint32_t) getpid ());
  server_window (bench->server, 1, "terminal", true);
  assert_told (bench, "terminal terminal ");
  assert_string_equal (bench->program, name);
  server_window_process (bench->server, 1, UINT32_MAX); /* nobody's */
  server_window (bench->server, 1, "terminal", true);
  assert_told (bench, "terminal terminal terminal ");
  assert_null (bench->program);
}

/* What is named may have gone by the time it is asked for. */
static void
a_window_that_had_gone_is_none (void **state)
{
  Bench *bench = *state;

  server_name_nobodys_window (bench->server, 5);
  server_window (bench->server, 0, "game", true);
  server_close_window (bench->server, 1);
  assert_told (bench, "terminal game ");
}

static void
a_new_window_may_be_in_front (void **state)
{
  Bench *bench = *state;

  server_window (bench->server, 1, "terminal", false);
  assert_told (bench, "terminal - ");
  server_window (bench->server, 3, "dialogue", true);
  assert_told (bench, "terminal - dialogue ");
}

static void
an_older_list_is_not_asked (void **state)
{
  Bench *bench = bench_new (LIST_KDE);

  server_offer_windows (bench->server, LIST_KDE, 12);
  assert_false (open_it (bench));
  server_offer_windows (bench->server, LIST_KDE, 13);
  assert_true (open_it (bench));
  CARPACE_PORT_FREE (bench->port);
  bench_free (bench);
}

/* KWin's shell alone: there is a list, and it is not for this program. */
static void
kept_back_where_kwin_has_no_list_for_it (void **state)
{
  Bench *bench = bench_new (LIST_KDE);

  assert_false (carpace_front_wayland_is_kept_back ());
  server_offer_shell (bench->server);
  assert_true (carpace_front_wayland_is_kept_back ());
  for (uint32_t version = 12; version <= 13; version++)
    {
      server_offer_windows (bench->server, LIST_KDE, version);
      assert_false (carpace_front_wayland_is_kept_back ());
    }
  bench_free (bench);
  assert_false (carpace_front_wayland_is_kept_back ());
}

static void
offered_where_it_is (void **state)
{
  Bench *bench = bench_new (*(const List *) *state);

  assert_false (open_it (bench));
  offer (bench, true);
  assert_true (open_it (bench));
  assert_told (bench, "- "); /* told at first, where there is no window, too */
  CARPACE_PORT_FREE (bench->port);
  g_setenv ("WAYLAND_DISPLAY", "wayland-of-nobody", TRUE);
  assert_false (open_it (bench));
  g_unsetenv ("WAYLAND_DISPLAY");
  assert_false (open_it (bench));
  bench_free (bench);
}

int
main (void)
{
  static List wlr = LIST_WLR, kde = LIST_KDE;
#define ROW(test, list, begin, end) { #test " (" #list ")", test, begin, end, &list }
#define ROWS(test) ROW (test, wlr, set_up, tear_down), ROW (test, kde, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    ROWS (what_comes_to_the_front_is_told),
    ROWS (two_at_once_come_to_one),
    ROWS (a_window_that_goes_is_not_in_front),
    ROWS (a_name_may_be_lacking_come_late_and_be_no_text),
    ROW (a_list_that_ends_is_told, wlr, set_up, tear_down),
    ROWS (a_list_that_is_withdrawn_and_offered_anew),
    ROWS (a_compositor_that_goes_is_told),
    ROW (a_program_is_told_and_told_anew, kde, set_up, tear_down),
    ROW (a_window_that_had_gone_is_none, kde, set_up, tear_down),
    ROW (a_new_window_may_be_in_front, kde, set_up, tear_down),
    ROW (offered_where_it_is, wlr, NULL, NULL),
    ROW (offered_where_it_is, kde, NULL, NULL),
    cmocka_unit_test (an_older_list_is_not_asked),
    cmocka_unit_test (kept_back_where_kwin_has_no_list_for_it),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
