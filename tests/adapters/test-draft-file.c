/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-draft-file.c: what was not saved is there after a crash, is its owner's alone, and belongs to one window. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <glib/gstdio.h>
#include <sys/stat.h>

#include "adapters/draft-file.h"

static char *folder;

static int
make_folder (void **state)
{
  folder = g_dir_make_tmp ("carpace-draft-XXXXXX", NULL);
  return folder == NULL;
}

static int
remove_folder (void **state)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_unlink (path);
    }
  g_dir_close (dir);
  g_rmdir (folder);
  g_free (folder);
  return 0;
}

static void
assert_left (const CarpaceDraft *draft, const char *text)
{
  g_autoptr (GBytes) left = carpace_draft_left (draft);

  if (text == NULL)
    {
      assert_null (left);
      return;
    }
  assert_non_null (left);
  assert_int_equal (g_bytes_get_size (left), strlen (text));
  assert_memory_equal (g_bytes_get_data (left, NULL), text, strlen (text));
}

/* A crash lets go of the lock and of nothing else: as closing does. */
static void
what_was_left_is_there (void **state)
{
  CarpaceDraft *draft = carpace_draft_open ("/a/team.plan.yaml", folder);

  assert_left (draft, NULL);
  assert_true (carpace_draft_write (draft, "name: a\n", 8));
  carpace_draft_free (draft);
  draft = carpace_draft_open ("/a/team.plan.yaml", folder);
  assert_left (draft, "name: a\n");
  carpace_draft_clear (draft);
  assert_left (draft, NULL);
  carpace_draft_free (draft);
}

static void
it_is_its_owners_alone (void **state)
{
  CarpaceDraft *draft = carpace_draft_open (NULL, folder);
  g_autofree char *path = g_build_filename (folder, "new-1.plan.yaml", NULL);
  struct stat is;

  assert_true (carpace_draft_write (draft, "x", 1));
  assert_int_equal (stat (path, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0600);
  carpace_draft_free (draft);
}

static void
one_window_has_it (void **state)
{
  CarpaceDraft *draft = carpace_draft_open ("/a", folder), *other = carpace_draft_open ("/b", folder);

  assert_non_null (draft);
  assert_null (carpace_draft_open ("/a", folder));
  assert_non_null (other);
  carpace_draft_free (draft);
  draft = carpace_draft_open ("/a", folder);
  assert_non_null (draft);
  carpace_draft_free (draft);
  carpace_draft_free (other);
}

/* Two that have no path yet do not take each other's; what one of them left is found by whoever comes next. */
static void
nameless_ones_are_apart (void **state)
{
  CarpaceDraft *first = carpace_draft_open (NULL, folder), *second = carpace_draft_open (NULL, folder);

  assert_non_null (second);
  assert_true (carpace_draft_write (second, "second", 6));
  carpace_draft_free (second);
  carpace_draft_free (first);
  first = carpace_draft_open (NULL, folder);
  assert_left (first, "second");
  carpace_draft_free (first);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (what_was_left_is_there, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown (it_is_its_owners_alone, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown (one_window_has_it, make_folder, remove_folder),
    cmocka_unit_test_setup_teardown (nameless_ones_are_apart, make_folder, remove_folder),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
