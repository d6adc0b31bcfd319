/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-kept.c: what another program wrote meanwhile is never written over, and nothing but a file is ever replaced. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "files/kept.h"
#include "place.h"

#define NEW "what is new"
#define MOST 100

static CarpaceFileMark
read_it (const Place *place)
{
  CarpaceFileMark mark;
  CarpaceFileTrouble trouble;
  g_autoptr (GString) bytes = carpace_kept_read (place->path, MOST, &mark, &trouble);

  assert_non_null (bytes);
  assert_int_equal (trouble, CARPACE_FILE_FINE);
  assert_string_equal (bytes->str, PLACE_OLD);
  return mark;
}

static void
assert_there (const Place *place, const char *expected)
{
  g_autofree char *text = NULL;

  assert_true (g_file_get_contents (place->path, &text, NULL, NULL));
  assert_string_equal (text, expected);
}

/* As another program does it; @later moves its time on, so that the clock's grain does not hide it. */
static void
write_it (const Place *place, const char *text, bool in_place, int later)
{
  struct timespec times[2];
  struct stat was;

  assert_int_equal (stat (place->path, &was), 0);
  if (in_place)
    {
      int fd = open (place->path, O_WRONLY | O_TRUNC);

      assert_int_equal (write (fd, text, strlen (text)), strlen (text));
      close (fd);
    }
  else
    assert_true (g_file_set_contents (place->path, text, -1, NULL));
  times[0] = times[1] = (struct timespec){ was.st_mtim.tv_sec + later, was.st_mtim.tv_nsec };
  assert_int_equal (utimensat (AT_FDCWD, place->path, times, 0), 0);
}

static void
a_file_is_saved_again_and_again (void **state)
{
  Place place;
  CarpaceFileMark mark;

  assert_true (place_fill (&place, PLACE_FILE));
  mark = read_it (&place);
  assert_false (carpace_kept_is_changed (place.path, &mark));
  for (int i = 0; i < 3; i++)
    {
      assert_int_equal (carpace_kept_save (place.path, &mark, NEW, strlen (NEW) - (gsize) i), CARPACE_FILE_FINE);
      assert_false (carpace_kept_is_changed (place.path, &mark));
    }
  assert_there (&place, "what is n");
  assert_int_equal (place_count (&place), 1);
  place_empty (&place);
}

static void
what_another_wrote_meanwhile_stays (void **state)
{
  static const struct { const char *row, *text; bool in_place; int later; bool changed, seen_soon; } rows[] = {
    { "longer", PLACE_OLD "!", true, 1, true, true },
    { "as long", "What was there before", true, 1, true, true },
    { "as long, by another file", "What was there before", false, 1, true, true },
    { "as long, at the same time", "What was there before", true, 0, true, false },
    { "longer, at the same time", PLACE_OLD "!", true, 0, true, true },
    { "empty", "", true, 1, true, true },
    { "touched", PLACE_OLD, true, 1, false, false },
    { "put back by another file", PLACE_OLD, false, 1, false, false },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceFileTrouble expected = rows[i].changed ? CARPACE_FILE_CHANGED : CARPACE_FILE_FINE;
      CarpaceFileMark mark;
      Place place;

      assert_true (place_fill (&place, PLACE_FILE));
      mark = read_it (&place);
      write_it (&place, rows[i].text, rows[i].in_place, rows[i].later);
      if (carpace_kept_is_changed (place.path, &mark) != rows[i].seen_soon)
        fail_msg ("%s: seen, or not, by its size and time", rows[i].row);
      if (carpace_kept_save (place.path, &mark, NEW, strlen (NEW)) != expected)
        fail_msg ("%s: saved, or not", rows[i].row);
      assert_there (&place, rows[i].changed ? rows[i].text : NEW);
      assert_int_equal (place_count (&place), 1);
      place_empty (&place);
    }
}

/* What took the file's place is not replaced; where nothing is any more, nothing is made. */
static void
only_a_file_is_replaced (void **state)
{
  static const struct { PlaceKind kind; CarpaceFileTrouble trouble; } rows[] = {
    { PLACE_NOTHING, CARPACE_FILE_CHANGED },  { PLACE_FOLDER, CARPACE_FILE_A_FOLDER },
    { PLACE_PIPE, CARPACE_FILE_NO_FILE },     { PLACE_PIPE_READ, CARPACE_FILE_NO_FILE },
    { PLACE_DEVICE, CARPACE_FILE_NO_FILE },   { PLACE_SOCKET, CARPACE_FILE_NO_FILE },
    { PLACE_LINK, CARPACE_FILE_A_LINK },      { PLACE_LINK_LOOSE, CARPACE_FILE_A_LINK },
    { PLACE_LINK_DEVICE, CARPACE_FILE_A_LINK },
  };
  CarpaceFileMark mark;
  Place file;

  assert_true (place_fill (&file, PLACE_FILE));
  mark = read_it (&file);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceFileMark same = mark;
      Place place;
      int n;

      if (place_fill (&place, rows[i].kind))
        {
          mode_t before = place_kind (place.path);
          CarpaceFileTrouble trouble;

          n = place_count (&place);
          assert_true (rows[i].kind == PLACE_LINK || carpace_kept_is_changed (place.path, &same));
          trouble = carpace_kept_save (place.path, &same, NEW, strlen (NEW));
          if (trouble != rows[i].trouble || place_kind (place.path) != before || place_count (&place) != n)
            fail_msg ("%s: %d, not %d, or something else is there now", place_names[rows[i].kind], trouble, rows[i].trouble);
        }
      place_empty (&place);
    }
  place_empty (&file);
}

/* Would catch a saved plan that nobody else of a team can read any more, or that all can. */
static void
a_save_keeps_who_may_read_it (void **state)
{
  static const mode_t rows[][2] = { { 0600, 0600 }, { 0640, 0640 }, { 0644, 0644 }, { 0664, 0664 }, { 04755, 0755 } };
  mode_t mask = umask (077); /* has no say in it */

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceFileMark mark;
      Place place;
      struct stat is;

      assert_true (place_fill (&place, PLACE_FILE));
      assert_int_equal (chmod (place.path, rows[i][0]), 0);
      mark = read_it (&place);
      assert_int_equal (carpace_kept_save (place.path, &mark, NEW, strlen (NEW)), CARPACE_FILE_FINE);
      assert_int_equal (stat (place.path, &is), 0);
      assert_int_equal (is.st_mode & 07777, rows[i][1]);
      place_empty (&place);
    }
  umask (mask);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_file_is_saved_again_and_again),
    cmocka_unit_test (what_another_wrote_meanwhile_stays),
    cmocka_unit_test (only_a_file_is_replaced),
    cmocka_unit_test (a_save_keeps_who_may_read_it),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
