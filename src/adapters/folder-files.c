/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* O_NOFOLLOW, fdopendir */
#include "adapters/folder-files.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "files/in.h"
#include "files/out.h"

typedef struct
{
  char *path;
  bool own;
  int locked; /* the folder, open; -1: it is not */
} Folder;

static int
open_folder (const Folder *folder)
{
  return open (folder->path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
}

/* ---- reading ---- */

static CarpaceTeamFault
fault_of (CarpaceFileTrouble trouble)
{
  switch (trouble)
    {
    case CARPACE_FILE_FINE: return CARPACE_TEAM_FINE;
    case CARPACE_FILE_TOO_LARGE: return CARPACE_TEAM_TOO_LARGE;
    case CARPACE_FILE_A_LINK:
    case CARPACE_FILE_A_FOLDER:
    case CARPACE_FILE_NO_FILE:
    case CARPACE_FILE_NOBODY_READS: return CARPACE_TEAM_NOT_ORDINARY;
    case CARPACE_FILE_EXISTS:
    case CARPACE_FILE_CHANGED:
    case CARPACE_FILE_FAILED: break;
    }
  return CARPACE_TEAM_FAILED;
}

static CarpaceTeamFault
look_at (const Folder *folder, int fd)
{
  struct stat is;

  if (fstat (fd, &is) != 0)
    return CARPACE_TEAM_FAILED;
  if (!S_ISREG (is.st_mode))
    return CARPACE_TEAM_NOT_ORDINARY;
  return folder->own && (is.st_uid != geteuid () || (is.st_mode & 077) != 0) ? CARPACE_TEAM_LOOSE : CARPACE_TEAM_FINE;
}

static uint8_t *
read_file (void *self, const char *name, size_t most, size_t *ret_n, CarpaceTeamFault *ret_fault)
{
  const Folder *folder = self;
  int in = open_folder (folder);
  int fd = in < 0 ? -1 : openat (in, name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
  int error = errno;
  CarpaceFileTrouble trouble;
  GString *bytes = NULL;

  if (in >= 0)
    close (in);
  errno = error;
  if (fd < 0)
    {
      *ret_fault = errno == ENOENT ? CARPACE_TEAM_NO_FILE : errno == ELOOP ? CARPACE_TEAM_NOT_ORDINARY : CARPACE_TEAM_FAILED;
      return NULL;
    }
  *ret_fault = look_at (folder, fd);
  if (*ret_fault != CARPACE_TEAM_FINE)
    {
      close (fd);
      return NULL;
    }
  bytes = carpace_in_read_fd (fd, most, &trouble);
  if (bytes == NULL)
    *ret_fault = fault_of (trouble);
  error = errno;
  close (fd);
  errno = error;
  if (bytes == NULL)
    return NULL;
  *ret_n = bytes->len;
  return (uint8_t *) g_string_free (bytes, FALSE); /* no copy of a secret; free() and g_free() are one */
}

/* ---- writing ---- */

/* Who may read what is shared is who may read the folder. It is the file under way that is opened to them, never one
 * of a name: that can be another one by then. A stick may know no modes. */
static CarpaceFileTrouble
write_shared (int in, const char *name, const uint8_t *bytes, size_t n)
{
  CarpaceOutFile out;
  CarpaceFileTrouble trouble = carpace_out_open (&out, in, name, CARPACE_OUT_AGAIN);
  struct stat is;
  bool whole;
  int error;

  if (trouble != CARPACE_FILE_FINE)
    return trouble;
  if (fstat (in, &is) != 0 || fchmod (fileno (out.stream), 0600 | (is.st_mode & 044)) != 0)
    errno = 0;
  whole = fwrite (bytes, 1, n, out.stream) == n && fflush (out.stream) == 0 && fsync (fileno (out.stream)) == 0;
  error = errno;
  trouble = carpace_out_end (&out, whole);
  if (whole)
    return trouble;
  errno = error; /* as on a stick that is full */
  return CARPACE_FILE_FAILED;
}

static bool
write_file (void *self, const char *name, const uint8_t *bytes, size_t n)
{
  const Folder *folder = self;
  bool written;
  int in, error;

  if (folder->own && g_mkdir_with_parents (folder->path, 0700) != 0)
    return false;
  in = open_folder (folder);
  if (in < 0)
    return false;
  errno = EEXIST; /* a link or a folder of that name */
  written = (folder->own ? carpace_out_write (in, name, CARPACE_OUT_SAVE, (const char *) bytes, n) : write_shared (in, name, bytes, n))
            == CARPACE_FILE_FINE;
  error = errno;
  close (in);
  errno = error;
  return written;
}

static bool
remove_file (void *self, const char *name)
{
  int in = open_folder (self);
  bool removed = in >= 0 && unlinkat (in, name, 0) == 0;

  if (in >= 0)
    close (in);
  return removed;
}

/* ---- what there is ---- */

static bool
list_files (void *self, CarpaceNameVisitor visit, void *user)
{
  int in = open_folder (self);
  DIR *listing = in < 0 ? NULL : fdopendir (in);
  const struct dirent *entry;
  bool more = true;

  if (listing == NULL)
    {
      if (in >= 0)
        close (in);
      return errno == ENOENT && ((Folder *) self)->own; /* nothing is kept yet */
    }
  while (more && (entry = readdir (listing)) != NULL)
    if (entry->d_name[0] != '.')
      more = visit (user, entry->d_name);
  closedir (listing);
  return true;
}

static void
lock_folder (void *self, bool locked)
{
  Folder *folder = self;

  if (folder->locked >= 0)
    close (folder->locked);
  folder->locked = locked ? open_folder (folder) : -1;
  if (folder->locked >= 0)
    flock (folder->locked, LOCK_EX); /* ends with the process, too */
}

static void
free_folder (void *self)
{
  Folder *folder = self;

  lock_folder (self, false);
  g_free (folder->path);
  g_free (folder);
}

static CarpaceFolder
folder_of (char *path, bool own)
{
  Folder *folder = g_new (Folder, 1);

  *folder = (Folder) { path, own, -1 };
  return (CarpaceFolder) { folder, read_file, write_file, remove_file, list_files, lock_folder, free_folder };
}

CarpaceFolder
carpace_folder_own (const char *path)
{
  return folder_of (path != NULL ? g_strdup (path) : g_build_filename (g_get_user_data_dir (), "carpace", "team", NULL), true);
}

CarpaceFolder
carpace_folder_shared (const char *path)
{
  return folder_of (g_strdup (path), false);
}
