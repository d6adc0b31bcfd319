/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-icons.c: each state has its icon, and the silhouettes are told apart at 16 px, as librsvg
 * (by gdk-pixbuf) renders them. The folder is installed as it is (icons/meson.build). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "ui/tray-ayatana.h"
#include "views.h"

#define SIZE 16

/* Two silhouettes differ by this many of the 256 pixels, a sixth, even where one is moved upon the
 * other by up to a quarter of its width: a bead that lies a little further along is no silhouette.
 * Our own bound; no source gives one for pictures of this size. */
#define PIXELS_APART 43
#define MOVED_MOST 4

typedef struct { bool ink[SIZE][SIZE]; } Picture;

static bool
ink_at (const Picture *picture, int x, int y)
{
  return x >= 0 && x < SIZE && y >= 0 && y < SIZE && picture->ink[y][x];
}

static int
differing (const Picture *a, const Picture *b, int dx, int dy)
{
  int n = 0;

  for (int y = -MOVED_MOST; y < SIZE + MOVED_MOST; y++)
    for (int x = -MOVED_MOST; x < SIZE + MOVED_MOST; x++)
      n += ink_at (a, x, y) != ink_at (b, x + dx, y + dy);
  return n;
}

static int
apart (const Picture *a, const Picture *b)
{
  int least = SIZE * SIZE;

  for (int dy = -MOVED_MOST; dy <= MOVED_MOST; dy++)
    for (int dx = -MOVED_MOST; dx <= MOVED_MOST; dx++)
      least = MIN (least, differing (a, b, dx, dy));
  return least;
}

static bool
told_apart (const Picture *a, const Picture *b)
{
  return apart (a, b) >= PIXELS_APART;
}

static char *
path_of (const char *name)
{
  return g_strdup_printf ("%s/hicolor/scalable/status/%s.svg", CARPACE_ICONS, name);
}

static CarpaceView
in_state (CarpaceState state, bool on_air, bool caution)
{
  CarpaceView view = view_of (state);

  view.on_air = on_air;
  view.caution_open = caution;
  return view;
}

/* @return false where this machine has no loader of SVG */
static bool
render (CarpaceState state, bool on_air, Picture *ret_picture)
{
  CarpaceView view = in_state (state, on_air, false);
  g_autofree char *name = carpace_tray_icon (&view), *path = path_of (name);
  g_autoptr (GdkPixbuf) pixels = gdk_pixbuf_new_from_file_at_size (path, SIZE, SIZE, NULL);

  if (!pixels)
    {
      print_message ("no loader of SVG here: the silhouettes are not compared\n");
      return false;
    }
  assert_true (gdk_pixbuf_get_has_alpha (pixels));
  for (int y = 0; y < SIZE; y++)
    for (int x = 0; x < SIZE; x++)
      ret_picture->ink[y][x] = gdk_pixbuf_read_pixels (pixels)[y * gdk_pixbuf_get_rowstride (pixels) + 4 * x + 3] > 127;
  return true;
}

/* An icon that is missing is a hole in the panel; a symbolic one of two colours is not recoloured;
 * a name without the application id is not exported from a sandbox. */
static void
each_state_has_its_icon (void **state)
{
  for (int32_t which = 0; which < CARPACE_N_STATES; which++)
    for (int flags = 0; flags < 4; flags++)
      {
        CarpaceView view = in_state ((CarpaceState) which, flags & 1, flags & 2);
        g_autofree char *name = carpace_tray_icon (&view), *path = path_of (name), *text = NULL;
        const char *fill;

        assert_true (g_str_has_prefix (name, "org.carpace.Carpace-") && g_str_has_suffix (name, "-symbolic"));
        assert_true (g_file_get_contents (path, &text, NULL, NULL));
        fill = strstr (text, "fill=\"");
        assert_non_null (fill);
        assert_null (strstr (fill + 1, "fill=\"")); /* one colour, */
        assert_null (strstr (text, "stroke"));      /* and of fills only */
      }
}

static void
on_air_is_one_shape_and_a_caution_another (void **state)
{
  CarpaceView day_done = in_state (CARPACE_STATE_DAY_DONE, false, false), caution = in_state (CARPACE_STATE_DAY_DONE, false, true);
  CarpaceView waiting = in_state (CARPACE_STATE_WAITING, true, true);
  g_autofree char *done = carpace_tray_icon (&day_done), *stopped = carpace_tray_icon (&caution);
  g_autofree char *on_air = carpace_tray_icon (&waiting);

  assert_string_equal (done, "org.carpace.Carpace-day-done-symbolic");
  assert_string_equal (stopped, "org.carpace.Carpace-stopped-symbolic");
  for (int32_t which = 0; which < CARPACE_N_STATES; which++)
    {
      CarpaceView view = in_state ((CarpaceState) which, true, which % 2);
      g_autofree char *name = carpace_tray_icon (&view);
      assert_string_equal (name, on_air);
    }
}

static void
silhouettes_are_told_apart (void **state)
{
  static const struct { const char *name; CarpaceState state; bool on_air; } kinds[] = {
    { "off", CARPACE_STATE_OFF, false },
    { "practising", CARPACE_STATE_PRACTISING, false },
    { "a rest", CARPACE_STATE_REST_DUE, false },
    { "resting", CARPACE_STATE_RESTING, false },
    { "limit", CARPACE_STATE_LIMIT_REACHED, false },
    { "rating", CARPACE_STATE_RATING_DUE, false },
    { "done", CARPACE_STATE_DAY_DONE, false },
    { "paused", CARPACE_STATE_PAUSED, false },
    { "on air", CARPACE_STATE_OFF, true },
  };
  Picture pictures[G_N_ELEMENTS (kinds)] = { 0 };

  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (!render (kinds[i].state, kinds[i].on_air, &pictures[i]))
      return;
  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++)
    for (size_t j = 0; j < i; j++)
      {
        bool one_silhouette = (i == 3 && j == 2) || (i == 5 && j == 4); /* open, and filled */
        print_message ("%s, %s: %d px\n", kinds[j].name, kinds[i].name, apart (&pictures[i], &pictures[j]));
        assert_true (one_silhouette || told_apart (&pictures[i], &pictures[j]));
      }
}

static Picture
inked (int n)
{
  Picture picture = { 0 };
  for (int i = 0; i < n; i++)
    picture.ink[i / SIZE][i % SIZE] = true;
  return picture;
}

static void
fewer_pixels_than_a_sixth_are_not_apart (void **state)
{
  const Picture nothing = { 0 }, below = inked (PIXELS_APART - 1), at = inked (PIXELS_APART), above = inked (PIXELS_APART + 1);

  assert_false (told_apart (&nothing, &below));
  assert_true (told_apart (&nothing, &at));
  assert_true (told_apart (&nothing, &above));
}

/* What made the icons before these one and the same at a glance. */
static void
a_bead_moved_by_four_pixels_is_no_silhouette (void **state)
{
  Picture left = { 0 }, right = { 0 };

  for (int x = 0; x < SIZE; x++)
    left.ink[8][x] = right.ink[8][x] = true;
  for (int y = 4; y < 12; y++)
    for (int x = 2; x < 10; x++)
      left.ink[y][x] = right.ink[y][x + 4] = true;
  assert_true (differing (&left, &right, 0, 0) >= PIXELS_APART);
  assert_false (told_apart (&left, &right));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_state_has_its_icon), cmocka_unit_test (on_air_is_one_shape_and_a_caution_another),
    cmocka_unit_test (silhouettes_are_told_apart), cmocka_unit_test (fewer_pixels_than_a_sixth_are_not_apart),
    cmocka_unit_test (a_bead_moved_by_four_pixels_is_no_silhouette),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
