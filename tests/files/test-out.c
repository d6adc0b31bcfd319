/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-out.c: whatever is under a name, nothing but an ordinary file is ever taken away. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "files/out.h"
#include "place.h"

#define NEW "what is new"

static const struct
{
  PlaceKind kind;
  CarpaceFileTrouble as_new, forced, again;
} rows[] = {
  { PLACE_NOTHING, CARPACE_FILE_FINE, CARPACE_FILE_FINE, CARPACE_FILE_FINE },
  { PLACE_FILE, CARPACE_FILE_EXISTS, CARPACE_FILE_FINE, CARPACE_FILE_FINE },
  { PLACE_READ_ONLY, CARPACE_FILE_EXISTS, CARPACE_FILE_FAILED, CARPACE_FILE_FAILED },
  { PLACE_FOLDER, CARPACE_FILE_A_FOLDER, CARPACE_FILE_A_FOLDER, CARPACE_FILE_A_FOLDER },
  { PLACE_PIPE, CARPACE_FILE_NOBODY_READS, CARPACE_FILE_NOBODY_READS, CARPACE_FILE_NO_FILE },
  { PLACE_PIPE_READ, CARPACE_FILE_FINE, CARPACE_FILE_FINE, CARPACE_FILE_NO_FILE },
  { PLACE_DEVICE, CARPACE_FILE_FINE, CARPACE_FILE_FINE, CARPACE_FILE_NO_FILE },
  { PLACE_DISK, CARPACE_FILE_NO_FILE, CARPACE_FILE_NO_FILE, CARPACE_FILE_NO_FILE },
  { PLACE_SOCKET, CARPACE_FILE_NO_FILE, CARPACE_FILE_NO_FILE, CARPACE_FILE_NO_FILE },
  { PLACE_LINK, CARPACE_FILE_EXISTS, CARPACE_FILE_A_LINK, CARPACE_FILE_A_LINK },
  { PLACE_LINK_LOOSE, CARPACE_FILE_EXISTS, CARPACE_FILE_A_LINK, CARPACE_FILE_A_LINK },
  { PLACE_LINK_DEVICE, CARPACE_FILE_FINE, CARPACE_FILE_FINE, CARPACE_FILE_A_LINK },
};

static char *
text_of (const char *path)
{
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, NULL);
  return text;
}

/* After a refusal all is as it was; after a success it is the same kind of thing,
 * or a file, and has it. Nothing else is left in the folder either way. */
static void
check_row (PlaceKind kind, CarpaceOutHow how, CarpaceFileTrouble expected)
{
  Place place;
  mode_t before;
  int n_before;
  CarpaceFileTrouble trouble;
  g_autofree char *text = NULL, *other = NULL;

  if (kind == PLACE_READ_ONLY && geteuid () == 0 && seteuid (65534) != 0)
    return;
  if (!place_fill (&place, kind))
    {
      place_empty (&place);
      print_message ("passed over: nobody can make %s here\n", place_names[kind]);
      return;
    }
  before = place_kind (place.path);
  n_before = place_count (&place);
  trouble = carpace_out_write (AT_FDCWD, place.path, how, NEW, strlen (NEW));
  if (trouble != expected)
    fail_msg ("%s, %d: %d, not %d", place_names[kind], how, trouble, expected);
  if (place_kind (place.path) != (kind == PLACE_NOTHING ? S_IFREG : before)
      || place_count (&place) != n_before + (kind == PLACE_NOTHING))
    fail_msg ("%s, %d: something else is there now", place_names[kind], how);
  if (place_kind (place.path) == S_IFREG)
    {
      text = text_of (place.path);
      assert_string_equal (text, trouble == CARPACE_FILE_FINE ? NEW : PLACE_OLD);
    }
  if (kind == PLACE_LINK)
    {
      other = text_of (place.other);
      assert_string_equal (other, PLACE_OLD);
    }
  if (kind == PLACE_PIPE_READ && trouble == CARPACE_FILE_FINE)
    {
      char bytes[64] = "";

      assert_int_equal (read (place.reader, bytes, sizeof bytes - 1), strlen (NEW));
      assert_string_equal (bytes, NEW);
    }
  place_empty (&place);
  if (geteuid () != getuid ())
    assert_int_equal (seteuid (getuid ()), 0);
}

static void
nothing_but_a_file_is_taken_away (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      check_row (rows[i].kind, CARPACE_OUT_NEW, rows[i].as_new);
      check_row (rows[i].kind, CARPACE_OUT_FORCE, rows[i].forced);
      check_row (rows[i].kind, CARPACE_OUT_AGAIN, rows[i].again);
      check_row (rows[i].kind, CARPACE_OUT_SAVE, rows[i].again);
    }
}

static void
its_owner_alone_reads_it (void **state)
{
  mode_t mask = umask (0);
  Place place;
  struct stat is;

  assert_true (place_fill (&place, PLACE_NOTHING));
  assert_int_equal (carpace_out_write (AT_FDCWD, place.path, CARPACE_OUT_NEW, NEW, strlen (NEW)), CARPACE_FILE_FINE);
  assert_int_equal (stat (place.path, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0600);
  umask (mask);
  place_empty (&place);
}

static void
what_is_not_kept_leaves_nothing (void **state)
{
  static const PlaceKind kinds[] = { PLACE_NOTHING, PLACE_FILE };

  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      Place place;
      CarpaceOutFile out;
      g_autofree char *text = NULL;

      assert_true (place_fill (&place, kinds[i]));
      assert_int_equal (carpace_out_open (&out, AT_FDCWD, place.path, CARPACE_OUT_FORCE), CARPACE_FILE_FINE);
      fputs (NEW, out.stream);
      assert_int_equal (carpace_out_end (&out, false), CARPACE_FILE_FINE);
      assert_int_equal (place_count (&place), kinds[i] == PLACE_FILE);
      text = text_of (place.path);
      assert_true (g_strcmp0 (text, kinds[i] == PLACE_FILE ? PLACE_OLD : NULL) == 0);
      place_empty (&place);
    }
}

/* The name is taken, or changed for something else, while it is being written. */
static void
what_comes_meanwhile_is_not_taken_away (void **state)
{
  static const struct { CarpaceOutHow how; PlaceKind at_first; CarpaceFileTrouble trouble; } cases[] = {
    { CARPACE_OUT_NEW, PLACE_NOTHING, CARPACE_FILE_EXISTS },
    { CARPACE_OUT_FORCE, PLACE_NOTHING, CARPACE_FILE_NO_FILE },
    { CARPACE_OUT_FORCE, PLACE_FILE, CARPACE_FILE_NO_FILE },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Place place;
      CarpaceOutFile out;

      assert_true (place_fill (&place, cases[i].at_first));
      assert_int_equal (carpace_out_open (&out, AT_FDCWD, place.path, cases[i].how), CARPACE_FILE_FINE);
      g_remove (place.path);
      assert_int_equal (mkfifo (place.path, 0600), 0);
      assert_int_equal (carpace_out_end (&out, true), cases[i].trouble);
      assert_int_equal (place_kind (place.path), S_IFIFO);
      assert_int_equal (place_count (&place), 1);
      place_empty (&place);
    }
}

static void
a_full_device_is_told (void **state)
{
  Place place;

  assert_true (place_fill (&place, PLACE_NOTHING));
  if (mknod (place.path, S_IFCHR | 0600, makedev (1, 7)) != 0) /* the device that is always full */
    {
      place_empty (&place);
      skip ();
    }
  assert_int_equal (carpace_out_write (AT_FDCWD, place.path, CARPACE_OUT_NEW, NEW, strlen (NEW)), CARPACE_FILE_FAILED);
  assert_int_equal (errno, ENOSPC);
  assert_int_equal (place_kind (place.path), S_IFCHR);
  place_empty (&place);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nothing_but_a_file_is_taken_away), cmocka_unit_test (its_owner_alone_reads_it),
    cmocka_unit_test (what_is_not_kept_leaves_nothing),  cmocka_unit_test (what_comes_meanwhile_is_not_taken_away),
    cmocka_unit_test (a_full_device_is_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
