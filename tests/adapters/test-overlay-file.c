/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-overlay-file.c: whole, only when it differs, never through a link. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>
#include <glib.h>
#include <glib/gstdio.h>

#include "overlay-file.h"

typedef struct
{
  char *folder, *path;
} Place;

static int
set_up (void **state)
{
  Place *place = g_new0 (Place, 1);

  place->folder = g_dir_make_tmp ("carpace-overlay-XXXXXX", NULL);
  place->path = g_build_filename (place->folder, "line.txt", NULL);
  *state = place;
  return place->folder == NULL;
}

static int
tear_down (void **state)
{
  Place *place = *state;
  g_autoptr (GDir) folder = g_dir_open (place->folder, 0, NULL);
  const char *name;

  while (folder != NULL && (name = g_dir_read_name (folder)) != NULL)
    {
      g_autofree char *path = g_build_filename (place->folder, name, NULL);

      if (g_remove (path) != 0)
        g_rmdir (path);
    }
  g_rmdir (place->folder);
  g_free (place->folder);
  g_free (place->path);
  g_free (place);
  return 0;
}

static CarpaceOverlayFile *
opened (const Place *place)
{
  CarpaceOverlayFault fault = CARPACE_OVERLAY_FINE;
  CarpaceOverlayFile *file = carpace_overlay_file_new (place->folder, "line.txt", &fault);

  assert_non_null (file);
  return file;
}

static char *
text_of (const char *path)
{
  char *text = NULL;

  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return text;
}

static int
files_in (const char *path)
{
  g_autoptr (GDir) folder = g_dir_open (path, 0, NULL);
  int n = 0;

  while (g_dir_read_name (folder) != NULL)
    n++;
  return n;
}

static void
test_shows_the_line (void **state)
{
  const Place *place = *state;
  CarpaceOverlayFile *file = opened (place);
  g_autofree char *text = NULL;
  struct stat there;

  assert_int_equal (carpace_overlay_file_show (file, "Intermission in 2 minutes"), CARPACE_OVERLAY_FINE);
  text = text_of (place->path);
  assert_string_equal (text, "Intermission in 2 minutes");
  assert_int_equal (stat (place->path, &there), 0);
  assert_int_equal (there.st_mode & 0777, 0600);
  assert_int_equal (files_in (place->folder), 1);
  carpace_overlay_file_free (file);
}

static void
test_writes_only_what_differs (void **state)
{
  const Place *place = *state;
  CarpaceOverlayFile *file = opened (place);
  struct stat first, second, third;

  carpace_overlay_file_show (file, "12 min");
  assert_int_equal (stat (place->path, &first), 0);
  carpace_overlay_file_show (file, "12 min");
  assert_int_equal (stat (place->path, &second), 0);
  assert_int_equal (first.st_ino, second.st_ino);
  assert_memory_equal (&first.st_mtim, &second.st_mtim, sizeof first.st_mtim);
  carpace_overlay_file_show (file, "11 min");
  assert_int_equal (stat (place->path, &third), 0);
  assert_int_not_equal (first.st_ino, third.st_ino);
  carpace_overlay_file_free (file);
}

/* A reader that has the file open keeps the whole line it opened. */
static void
test_a_reader_sees_one_line_or_the_other (void **state)
{
  const Place *place = *state;
  CarpaceOverlayFile *file = opened (place);
  char read_in[32] = "";
  FILE *reader;

  carpace_overlay_file_show (file, "a long first line");
  reader = fopen (place->path, "r");
  carpace_overlay_file_show (file, "b");
  assert_non_null (fgets (read_in, sizeof read_in, reader));
  assert_string_equal (read_in, "a long first line");
  fclose (reader);
  carpace_overlay_file_free (file);
}

static void
test_never_through_a_link (void **state)
{
  const Place *place = *state;
  CarpaceOverlayFile *file = opened (place);
  g_autofree char *elsewhere = g_build_filename (place->folder, "elsewhere", NULL);
  g_autofree char *text = NULL;

  assert_true (g_file_set_contents (elsewhere, "mine", -1, NULL));
  assert_int_equal (symlink ("elsewhere", place->path), 0);
  assert_int_equal (carpace_overlay_file_show (file, "12 min"), CARPACE_OVERLAY_NOT_A_FILE);
  text = text_of (elsewhere);
  assert_string_equal (text, "mine");
  carpace_overlay_file_free (file);
}

static void
test_not_a_folder_or_device (void **state)
{
  const Place *place = *state;
  CarpaceOverlayFile *file = opened (place);

  assert_int_equal (g_mkdir (place->path, 0700), 0);
  assert_int_equal (carpace_overlay_file_show (file, "12 min"), CARPACE_OVERLAY_NOT_A_FILE);
  carpace_overlay_file_free (file);
}

/* The folder that was chosen is kept open: another one put in its place later
 * gets nothing. */
static void
test_stays_in_the_folder_chosen (void **state)
{
  const Place *place = *state;
  CarpaceOverlayFile *file = opened (place);
  g_autofree char *moved = g_strconcat (place->folder, "-moved", NULL);
  g_autofree char *path = g_build_filename (moved, "line.txt", NULL);

  assert_int_equal (g_rename (place->folder, moved), 0);
  assert_int_equal (g_mkdir (place->folder, 0700), 0);
  assert_int_equal (carpace_overlay_file_show (file, "12 min"), CARPACE_OVERLAY_FINE);
  assert_int_equal (files_in (place->folder), 0);
  assert_true (g_file_test (path, G_FILE_TEST_IS_REGULAR));
  carpace_overlay_file_free (file);
  g_remove (path);
  g_rmdir (moved);
}

typedef struct
{
  const char *name, *folder, *file;
  CarpaceOverlayFault fault;
} BadRow;

static void
test_bad_places (void **state)
{
  const Place *place = *state;
  g_autofree char *link = g_build_filename (place->folder, "link", NULL);
  const BadRow rows[] = {
    { .name = "a path as name", .folder = place->folder, .file = "../x", .fault = CARPACE_OVERLAY_BAD_NAME },
    { .name = "a rooted name", .folder = place->folder, .file = "/x", .fault = CARPACE_OVERLAY_BAD_NAME },
    { .name = "the folder above", .folder = place->folder, .file = "..", .fault = CARPACE_OVERLAY_BAD_NAME },
    { .name = "the folder itself", .folder = place->folder, .file = ".", .fault = CARPACE_OVERLAY_BAD_NAME },
    { .name = "no name", .folder = place->folder, .file = "", .fault = CARPACE_OVERLAY_BAD_NAME },
    { .name = "no such folder", .folder = "/nowhere/at-all", .file = "x", .fault = CARPACE_OVERLAY_NO_FOLDER },
    { .name = "a link to a folder", .folder = link, .file = "x", .fault = CARPACE_OVERLAY_NO_FOLDER },
  };

  assert_int_equal (symlink (place->folder, link), 0);
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpaceOverlayFault fault = CARPACE_OVERLAY_FINE;

      if (carpace_overlay_file_new (rows[i].folder, rows[i].file, &fault) != NULL || fault != rows[i].fault)
        fail_msg ("%s: fault %d", rows[i].name, fault);
    }
}

static void
test_nothing_stays_when_it_ends (void **state)
{
  const Place *place = *state;
  CarpaceOverlayFile *file = opened (place);
  g_autofree char *text = NULL;

  carpace_overlay_file_show (file, "12 min");
  carpace_overlay_file_free (file);
  text = text_of (place->path);
  assert_string_equal (text, "");
}

#define WITH_PLACE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    WITH_PLACE (test_shows_the_line),
    WITH_PLACE (test_writes_only_what_differs),
    WITH_PLACE (test_a_reader_sees_one_line_or_the_other),
    WITH_PLACE (test_never_through_a_link),
    WITH_PLACE (test_not_a_folder_or_device),
    WITH_PLACE (test_stays_in_the_folder_chosen),
    WITH_PLACE (test_bad_places),
    WITH_PLACE (test_nothing_stays_when_it_ends),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
