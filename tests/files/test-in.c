/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-in.c: what is read is a file or a pipe, and ends. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "files/in.h"
#include "place.h"

#define MOST 1000

static const struct
{
  PlaceKind kind;
  CarpaceFileTrouble as_file, as_pipe;
} rows[] = {
  { PLACE_NOTHING, CARPACE_FILE_FAILED, CARPACE_FILE_FAILED },
  { PLACE_FILE, CARPACE_FILE_FINE, CARPACE_FILE_FINE },
  { PLACE_FOLDER, CARPACE_FILE_A_FOLDER, CARPACE_FILE_A_FOLDER },
  { PLACE_PIPE, CARPACE_FILE_NO_FILE, CARPACE_FILE_FINE },
  { PLACE_DEVICE, CARPACE_FILE_NO_FILE, CARPACE_FILE_NO_FILE },
  { PLACE_DISK, CARPACE_FILE_NO_FILE, CARPACE_FILE_NO_FILE },
  { PLACE_SOCKET, CARPACE_FILE_NO_FILE, CARPACE_FILE_NO_FILE },
  { PLACE_LINK, CARPACE_FILE_FINE, CARPACE_FILE_FINE },
  { PLACE_LINK_LOOSE, CARPACE_FILE_FAILED, CARPACE_FILE_FAILED },
  { PLACE_LINK_DEVICE, CARPACE_FILE_NO_FILE, CARPACE_FILE_NO_FILE },
};

static void
check_row (PlaceKind kind, CarpaceInHow how, CarpaceFileTrouble expected)
{
  Place place;
  CarpaceFileTrouble trouble;

  if (place_fill (&place, kind))
    {
      GString *bytes = carpace_in_read (place.path, MOST, how, &trouble);

      if (trouble != expected || (bytes != NULL) != (trouble == CARPACE_FILE_FINE))
        fail_msg ("%s, %d: %d, not %d", place_names[kind], how, trouble, expected);
      if (bytes != NULL)
        assert_string_equal (bytes->str, kind == PLACE_PIPE ? "" : PLACE_OLD);
      if (bytes != NULL)
        g_string_free (bytes, TRUE);
    }
  place_empty (&place);
}

/* Nothing here may wait: a pipe that nobody writes is empty. */
static void
what_is_read_is_a_file_or_a_pipe (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      check_row (rows[i].kind, CARPACE_IN_FILE, rows[i].as_file);
      check_row (rows[i].kind, CARPACE_IN_FILE_OR_PIPE, rows[i].as_pipe);
    }
}

static void
no_more_than_the_most (void **state)
{
  static const struct { gsize n; CarpaceFileTrouble trouble; } sizes[] = {
    { MOST - 1, CARPACE_FILE_FINE }, { MOST, CARPACE_FILE_FINE }, { MOST + 1, CARPACE_FILE_TOO_LARGE },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *text = g_strnfill (sizes[i].n, 'x');
      CarpaceFileTrouble trouble;
      GString *bytes;
      Place place;
      int ends[2];

      assert_true (place_fill (&place, PLACE_NOTHING));
      assert_true (g_file_set_contents (place.path, text, -1, NULL));
      bytes = carpace_in_read (place.path, MOST, CARPACE_IN_FILE, &trouble);
      assert_int_equal (trouble, sizes[i].trouble);
      if (bytes != NULL)
        g_string_free (bytes, TRUE);
      place_empty (&place);
      assert_int_equal (pipe (ends), 0);
      assert_int_equal (write (ends[1], text, sizes[i].n), sizes[i].n);
      close (ends[1]);
      bytes = carpace_in_read_fd (ends[0], MOST, &trouble);
      assert_int_equal (trouble, sizes[i].trouble);
      if (bytes != NULL)
        assert_int_equal (bytes->len, sizes[i].n);
      if (bytes != NULL)
        g_string_free (bytes, TRUE);
      close (ends[0]);
    }
}

/* Somebody has it open for writing and never ends. */
static void
an_endless_pipe_ends (void **state)
{
  CarpaceFileTrouble trouble;
  char text[4096] = "";
  Place place;
  int writer;

  assert_true (place_fill (&place, PLACE_PIPE));
  writer = open (place.path, O_RDWR | O_NONBLOCK);
  while (write (writer, text, sizeof text) > 0)
    ;
  assert_null (carpace_in_read (place.path, MOST, CARPACE_IN_FILE_OR_PIPE, &trouble));
  assert_int_equal (trouble, CARPACE_FILE_TOO_LARGE);
  close (writer);
  place_empty (&place);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_read_is_a_file_or_a_pipe), cmocka_unit_test (no_more_than_the_most),
    cmocka_unit_test (an_endless_pipe_ends),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
