/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Folders of a team: what is refused, and what stays as it was where something fails. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <errno.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <signal.h>
#include <sys/stat.h>
#include <unistd.h>

#include "adapters/folder-files.h"

typedef struct
{
  char *path;
  CarpaceFolder own, shared;
} Folders;

static int
set_up (void **state)
{
  Folders *folders = g_new (Folders, 1);
  char *shared;

  folders->path = g_dir_make_tmp ("carpace-folder-XXXXXX", NULL);
  shared = g_build_filename (folders->path, "stick", NULL);
  g_mkdir (shared, 0755);
  char *own = g_build_filename (folders->path, "data", "team", NULL);
  folders->own = carpace_folder_own (own);
  folders->shared = carpace_folder_shared (shared);
  g_free (own);
  g_free (shared);
  *state = folders;
  return 0;
}

static int
tear_down (void **state)
{
  Folders *folders = *state;
  char *command = g_strdup_printf ("rm -r '%s'", folders->path);
  int status = system (command);

  g_free (command);
  folders->own.free (folders->own.self);
  folders->shared.free (folders->shared.self);
  g_free (folders->path);
  g_free (folders);
  return status;
}

static char *
in (const Folders *folders, const char *where, const char *name)
{
  return g_build_filename (folders->path, where, name, NULL);
}

static CarpaceTeamFault
read_fault (const CarpaceFolder *folder, const char *name, size_t most)
{
  CarpaceTeamFault fault = CARPACE_TEAM_FINE;
  size_t n;
  uint8_t *bytes = folder->read (folder->self, name, most, &n, &fault);

  assert_int_equal (bytes == NULL, fault != CARPACE_TEAM_FINE);
  free (bytes);
  return fault;
}

static void
what_is_kept_is_the_owners_alone (void **state)
{
  Folders *folders = *state;
  g_autofree char *path = in (folders, "data/team", "person.key"), *folder = in (folders, "data", "team");
  struct stat is;
  CarpaceTeamFault fault;
  size_t n;
  g_autofree char *bytes = NULL;

  umask (0);
  assert_int_equal (read_fault (&folders->own, "person.key", 10), CARPACE_TEAM_NO_FILE);
  assert_true (folders->own.write (folders->own.self, "person.key", (const uint8_t *) "secret", 6));
  assert_int_equal (stat (path, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0600);
  assert_int_equal (stat (folder, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0700);
  bytes = (char *) folders->own.read (folders->own.self, "person.key", 6, &n, &fault);
  assert_string_equal (bytes, "secret");
  assert_int_equal (n, 6);
  assert_int_equal (read_fault (&folders->own, "person.key", 5), CARPACE_TEAM_TOO_LARGE);
}

/* Any bit for others is one too many. */
static void
a_secret_that_others_can_read_is_refused (void **state)
{
  static const struct { mode_t mode; CarpaceTeamFault fault; } rows[] = {
    { 0600, CARPACE_TEAM_FINE }, { 0400, CARPACE_TEAM_FINE }, { 0640, CARPACE_TEAM_LOOSE },
    { 0604, CARPACE_TEAM_LOOSE }, { 0620, CARPACE_TEAM_LOOSE }, { 0601, CARPACE_TEAM_LOOSE },
  };
  Folders *folders = *state;
  g_autofree char *path = in (folders, "data/team", "device.key");

  assert_true (folders->own.write (folders->own.self, "device.key", (const uint8_t *) "secret", 6));
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      assert_int_equal (chmod (path, rows[i].mode), 0);
      assert_int_equal (read_fault (&folders->own, "device.key", 100), rows[i].fault);
    }
  if (geteuid () == 0)
    {
      assert_int_equal (chmod (path, 0600), 0);
      assert_int_equal (chown (path, 65534, 65534), 0);
      assert_int_equal (read_fault (&folders->own, "device.key", 100), CARPACE_TEAM_LOOSE);
    }
}

static void
only_ordinary_files_are_read (void **state)
{
  Folders *folders = *state;
  g_autofree char *link = in (folders, "stick", "link"), *pipe = in (folders, "stick", "pipe");
  g_autofree char *folder = in (folders, "stick", "folder");

  assert_int_equal (symlink ("/etc/passwd", link), 0);
  assert_int_equal (mkfifo (pipe, 0600), 0);
  assert_int_equal (g_mkdir (folder, 0700), 0);
  assert_int_equal (read_fault (&folders->shared, "link", 100000), CARPACE_TEAM_NOT_ORDINARY);
  assert_int_equal (read_fault (&folders->shared, "pipe", 100), CARPACE_TEAM_NOT_ORDINARY);
  assert_int_equal (read_fault (&folders->shared, "folder", 100), CARPACE_TEAM_NOT_ORDINARY);
  assert_false (folders->shared.write (folders->shared.self, "link", (const uint8_t *) "x", 1));
  assert_int_equal (g_file_test (link, G_FILE_TEST_IS_SYMLINK), true);
}

/* A stick that is not there is not made; its files can be read by whom it can. */
static void
what_is_shared_goes_by_the_folder (void **state)
{
  Folders *folders = *state;
  g_autofree char *gone = in (folders, "no-stick", NULL), *path = in (folders, "stick", "a.bundle");
  CarpaceFolder nowhere = carpace_folder_shared (gone);
  struct stat is;

  assert_false (nowhere.write (nowhere.self, "a.bundle", (const uint8_t *) "x", 1));
  assert_int_equal (errno, ENOENT);
  assert_false (nowhere.list (nowhere.self, NULL, NULL));
  assert_false (g_file_test (gone, G_FILE_TEST_EXISTS));
  nowhere.free (nowhere.self);
  assert_true (folders->shared.write (folders->shared.self, "a.bundle", (const uint8_t *) "x", 1));
  assert_int_equal (stat (path, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0644);
  assert_true (folders->shared.remove (folders->shared.self, "a.bundle"));
  assert_int_equal (read_fault (&folders->shared, "a.bundle", 10), CARPACE_TEAM_NO_FILE);
}

static int by_name;

/* Whoever changes a mode by a name changes that of whatever has the name by then. */
int
fchmodat (int folder, const char *name, mode_t mode, int flags)
{
  by_name++;
  return 0;
}

static void
no_mode_is_changed_by_a_name (void **state)
{
  Folders *folders = *state;
  g_autofree char *path = in (folders, "stick", "a.bundle");
  struct stat is;

  assert_true (folders->shared.write (folders->shared.self, "a.bundle", (const uint8_t *) "old", 3));
  assert_int_equal (chmod (path, 0600), 0);
  assert_true (folders->shared.write (folders->shared.self, "a.bundle", (const uint8_t *) "new", 3));
  assert_int_equal (stat (path, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0644); /* who may read the folder may read it again */
  assert_int_equal (by_name, 0);
}

/* As a full disk does: what was there stays, and nothing lies beside it. It fails as a buffer is full, or at the end. */
static void
a_full_folder_keeps_what_was_there (void **state)
{
  Folders *folders = *state;
  g_autofree uint8_t *large = g_malloc0 (65536);
  static const size_t sizes[] = { 200, 4096, 65536 };
  struct rlimit before, small = { 100, RLIM_INFINITY };
  g_autoptr (GDir) listing = NULL;
  g_autofree char *stick = in (folders, "stick", NULL);

  assert_true (folders->shared.write (folders->shared.self, "a.bundle", (const uint8_t *) "old", 3));
  assert_int_equal (getrlimit (RLIMIT_FSIZE, &before), 0);
  small.rlim_max = before.rlim_max;
  signal (SIGXFSZ, SIG_IGN);
  assert_int_equal (setrlimit (RLIMIT_FSIZE, &small), 0);
  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      errno = 0;
      assert_false (folders->shared.write (folders->shared.self, "a.bundle", large, sizes[i]));
      assert_int_equal (errno, EFBIG);
    }
  assert_int_equal (setrlimit (RLIMIT_FSIZE, &before), 0);
  assert_int_equal (read_fault (&folders->shared, "a.bundle", 3), CARPACE_TEAM_FINE);
  listing = g_dir_open (stick, 0, NULL);
  assert_string_equal (g_dir_read_name (listing), "a.bundle");
  assert_null (g_dir_read_name (listing));
}

int
main (void)
{
#define TEST(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    TEST (what_is_kept_is_the_owners_alone),
    TEST (a_secret_that_others_can_read_is_refused),
    TEST (only_ordinary_files_are_read),
    TEST (what_is_shared_goes_by_the_folder),
    TEST (no_mode_is_changed_by_a_name),
    TEST (a_full_folder_keeps_what_was_there),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
