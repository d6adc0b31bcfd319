/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fake-folder.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

void
fake_folder_begin (FakeFolder *fake)
{
  *fake = (FakeFolder) { .files = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_byte_array_unref) };
}

void
fake_folder_end (FakeFolder *fake)
{
  g_hash_table_unref (fake->files);
}

GByteArray *
fake_folder_file (FakeFolder *fake, const char *name)
{
  return g_hash_table_lookup (fake->files, name);
}

void
fake_folder_put (FakeFolder *fake, const char *name, const void *bytes, size_t n)
{
  GByteArray *file = g_byte_array_new ();

  g_byte_array_append (file, bytes, (guint) n);
  g_hash_table_insert (fake->files, g_strdup (name), file);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

GPtrArray *
fake_folder_names (FakeFolder *fake, const char *ends)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  GHashTableIter each;
  gpointer name;

  g_hash_table_iter_init (&each, fake->files);
  while (g_hash_table_iter_next (&each, &name, NULL))
    if (g_str_has_suffix (name, ends))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, by_name);
  return names;
}

static uint8_t *
read_file (void *self, const char *name, size_t most, size_t *ret_n, CarpaceTeamFault *ret_fault)
{
  FakeFolder *fake = self;
  GByteArray *file = fake->gone ? NULL : fake_folder_file (fake, name);
  uint8_t *bytes;

  *ret_fault = file == NULL ? CARPACE_TEAM_NO_FILE : file->len > most ? CARPACE_TEAM_TOO_LARGE : CARPACE_TEAM_FINE;
  if (*ret_fault != CARPACE_TEAM_FINE)
    return NULL;
  bytes = malloc (file->len + 1);
  memcpy (bytes, file->data != NULL ? file->data : (const guint8 *) "", file->len);
  *ret_n = file->len;
  return bytes;
}

static bool
may_write (FakeFolder *fake, const char *name)
{
  errno = fake->gone ? ENOENT : fake->only == NULL || strcmp (fake->only, name) == 0 ? fake->error : 0;
  return errno == 0;
}

static bool
write_file (void *self, const char *name, const uint8_t *bytes, size_t n)
{
  FakeFolder *fake = self;

  if (!may_write (fake, name))
    return false;
  fake->writes++;
  fake_folder_put (fake, name, bytes, n);
  return true;
}

static bool
remove_file (void *self, const char *name)
{
  FakeFolder *fake = self;

  return may_write (fake, name) && g_hash_table_remove (fake->files, name);
}

static bool
list_files (void *self, CarpaceNameVisitor visit, void *user)
{
  FakeFolder *fake = self;
  g_autoptr (GPtrArray) names = fake_folder_names (fake, "");
  bool more = true;

  errno = ENOENT;
  for (guint i = 0; !fake->gone && more && i < names->len; i++)
    more = visit (user, names->pdata[i]);
  return !fake->gone;
}

static void
lock_folder (void *self, bool locked)
{
}

static void
free_folder (void *self)
{
}

CarpaceFolder
fake_folder_port (FakeFolder *fake)
{
  return (CarpaceFolder) { fake, read_file, write_file, remove_file, list_files, lock_folder, free_folder };
}
