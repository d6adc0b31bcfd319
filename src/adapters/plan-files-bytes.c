/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE
#include "plan-files-bytes.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include "carpace/ports.h"

static bool
read_all (int fd, GString *bytes)
{
  char part[16384];
  ssize_t n;

  while (bytes->len <= CARPACE_PLAN_FILE_BYTES)
    {
      n = read (fd, part, MIN (sizeof part, CARPACE_PLAN_FILE_BYTES + 1 - bytes->len));
      if (n == 0)
        return true;
      if (n < 0 && errno != EINTR)
        return false;
      if (n > 0)
        g_string_append_len (bytes, part, n);
    }
  return true;
}

/* Opened without waiting: a pipe or a device must not hold the program. */
GString *
carpace_plan_bytes_read (const char *path, CarpacePlanFileKind *ret_kind, char **ret_why)
{
  int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
  GString *bytes = g_string_new (NULL);
  struct stat about;
  bool regular = fd >= 0 && fstat (fd, &about) == 0 && S_ISREG (about.st_mode);
  bool sound = regular && read_all (fd, bytes);

  *ret_kind = fd >= 0 && !regular ? CARPACE_PLAN_FILE_NO_FILE : CARPACE_PLAN_FILE_UNREADABLE;
  *ret_why = sound ? NULL : g_strdup (g_strerror (errno));
  if (fd >= 0)
    close (fd);
  if (sound)
    return bytes;
  g_string_free (bytes, TRUE);
  return NULL;
}

bool
carpace_plan_bytes_replace (const char *path, const char *bytes, gsize n_bytes, char **ret_why)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GError) error = NULL;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      *ret_why = g_strdup (g_strerror (errno));
      return false;
    }
  if (g_file_set_contents_full (path, bytes, (gssize) n_bytes,
                                G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0600, &error))
    return true;
  *ret_why = g_strdup (error->message);
  return false;
}

static bool
write_all (int fd, const char *bytes, gsize n_bytes)
{
  while (n_bytes > 0)
    {
      ssize_t n = write (fd, bytes, n_bytes);

      if (n < 0 && errno != EINTR)
        return false;
      if (n > 0)
        {
          bytes += n;
          n_bytes -= (gsize) n;
        }
    }
  return fsync (fd) == 0;
}

/* Not every file system knows both ways of not replacing. */
static bool
rename_to_new (const char *from, const char *to)
{
  if (renameat2 (AT_FDCWD, from, AT_FDCWD, to, RENAME_NOREPLACE) == 0)
    return true;
  if ((errno != EINVAL && errno != ENOSYS) || link (from, to) != 0)
    return false;
  g_unlink (from);
  return true;
}

bool
carpace_plan_bytes_create (const char *path, const char *bytes, gsize n_bytes, CarpacePlanFileKind *ret_kind,
                           char **ret_why)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *part = g_build_filename (folder, ".carpace-XXXXXX", NULL);
  int fd = g_mkstemp_full (part, O_WRONLY | O_CLOEXEC, 0600);
  bool written = fd >= 0 && write_all (fd, bytes, n_bytes);
  bool done = written && rename_to_new (part, path);
  int error = errno;

  *ret_kind = written && error == EEXIST ? CARPACE_PLAN_FILE_EXISTS : CARPACE_PLAN_FILE_UNWRITABLE;
  *ret_why = done ? NULL : g_strdup (g_strerror (error));
  if (fd >= 0)
    close (fd);
  if (fd >= 0 && !done)
    g_unlink (part);
  return done;
}
