/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* renameat2, O_NOFOLLOW */
#include "files/out.h"

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <sys/stat.h>
#include <unistd.h>

#define TRIES 16

/* Whether a device or a pipe may be written into. */
static bool
takes_streams (CarpaceOutHow how)
{
  return how == CARPACE_OUT_NEW || how == CARPACE_OUT_FORCE;
}

/* What is there under that name, and whether it is to be written into. */
static CarpaceFileTrouble
look_at (int folder, const char *path, CarpaceOutHow how, bool *ret_into)
{
  struct stat is, target;

  *ret_into = false;
  if (fstatat (folder, path, &is, AT_SYMLINK_NOFOLLOW) != 0)
    return errno == ENOENT ? CARPACE_FILE_FINE : CARPACE_FILE_FAILED;
  if (S_ISLNK (is.st_mode))
    {
      if (!takes_streams (how) || fstatat (folder, path, &target, 0) != 0 || S_ISREG (target.st_mode))
        return how == CARPACE_OUT_NEW ? CARPACE_FILE_EXISTS : CARPACE_FILE_A_LINK;
      is = target;
    }
  if (S_ISDIR (is.st_mode))
    return CARPACE_FILE_A_FOLDER;
  *ret_into = takes_streams (how) && (S_ISFIFO (is.st_mode) || S_ISCHR (is.st_mode));
  if (*ret_into)
    return CARPACE_FILE_FINE;
  if (!S_ISREG (is.st_mode))
    return CARPACE_FILE_NO_FILE;
  return how == CARPACE_OUT_NEW ? CARPACE_FILE_EXISTS : CARPACE_FILE_FINE;
}

/* A pipe that nobody reads is told at once, not waited for. */
static int
open_into (int folder, const char *path, CarpaceFileTrouble *ret_trouble)
{
  int fd = openat (folder, path, O_WRONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
  struct stat is;

  *ret_trouble = CARPACE_FILE_FINE;
  if (fd < 0)
    *ret_trouble = errno == ENXIO ? CARPACE_FILE_NOBODY_READS : CARPACE_FILE_FAILED;
  else if (fstat (fd, &is) != 0 || !(S_ISFIFO (is.st_mode) || S_ISCHR (is.st_mode)))
    *ret_trouble = CARPACE_FILE_NO_FILE; /* it was changed since it was looked at */
  else if (fcntl (fd, F_SETFL, O_WRONLY) != 0)
    *ret_trouble = CARPACE_FILE_FAILED;
  if (*ret_trouble == CARPACE_FILE_FINE || fd < 0)
    return fd;
  close (fd);
  return -1;
}

/* A new file beside @path, under a name that nothing had. */
static int
open_beside (int folder, const char *path, char **ret_part)
{
  g_autofree char *in = g_path_get_dirname (path);

  for (int try = 0; try < TRIES; try++)
    {
      g_autofree char *name = g_strdup_printf (".carpace-%08x", g_random_int ());
      g_autofree char *part = g_build_filename (in, name, NULL);
      int fd = openat (folder, part, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);

      if (fd >= 0)
        *ret_part = g_steal_pointer (&part);
      if (fd >= 0 || errno != EEXIST)
        return fd;
    }
  return -1;
}

CarpaceFileTrouble
carpace_out_open (CarpaceOutFile *ret_out, int folder, const char *path, CarpaceOutHow how)
{
  CarpaceOutFile out = { .how = how, .folder = folder };
  bool into;
  CarpaceFileTrouble trouble = look_at (folder, path, how, &into);
  int fd;

  if (trouble != CARPACE_FILE_FINE)
    return trouble;
  /* a file that may not be written is not changed for another one either */
  if (!into && faccessat (folder, path, W_OK, AT_EACCESS) != 0 && errno != ENOENT)
    return CARPACE_FILE_FAILED;
  fd = into ? open_into (folder, path, &trouble) : open_beside (folder, path, &out.part);
  if (fd < 0)
    return trouble != CARPACE_FILE_FINE ? trouble : CARPACE_FILE_FAILED;
  out.path = g_strdup (path);
  out.stream = fdopen (fd, "w");
  *ret_out = out;
  return CARPACE_FILE_FINE;
}

/* What was read there was its owner's to show: who could read or write it still can, and nobody
 * else. Bits that mean more than that do not go over; nor do the group's, where it cannot be the same. */
static bool
take_mode_of (const CarpaceOutFile *out)
{
  struct stat was, is;
  mode_t mode;

  if (fstatat (out->folder, out->path, &was, AT_SYMLINK_NOFOLLOW) != 0)
    return errno == ENOENT;
  if (fstat (fileno (out->stream), &is) != 0)
    return false;
  mode = was.st_mode & (S_IRWXU | S_IRWXG | S_IRWXO);
  if (was.st_gid != is.st_gid && fchown (fileno (out->stream), (uid_t) -1, was.st_gid) != 0)
    mode &= ~(mode_t) S_IRWXG;
  return fchmod (fileno (out->stream), mode) == 0;
}

/* A name taken by nobody: first by what the system has for it, then by what every
 * file system has. */
static bool
rename_to_new (const CarpaceOutFile *out)
{
  int fd;

  if (renameat2 (out->folder, out->part, out->folder, out->path, RENAME_NOREPLACE) == 0)
    return true;
  if (errno != EINVAL && errno != ENOSYS)
    return false;
  if (linkat (out->folder, out->part, out->folder, out->path, 0) == 0)
    {
      unlinkat (out->folder, out->part, 0);
      return true;
    }
  if (errno == EEXIST)
    return false;
  fd = openat (out->folder, out->path, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
  if (fd < 0)
    return false;
  close (fd);
  return renameat (out->folder, out->part, out->folder, out->path) == 0;
}

static CarpaceFileTrouble
put_in_place (const CarpaceOutFile *out)
{
  bool into;
  CarpaceFileTrouble trouble;

  if (out->how == CARPACE_OUT_NEW)
    return rename_to_new (out) ? CARPACE_FILE_FINE : errno == EEXIST ? CARPACE_FILE_EXISTS : CARPACE_FILE_FAILED;
  trouble = look_at (out->folder, out->path, CARPACE_OUT_AGAIN, &into); /* as it is by now */
  if (trouble != CARPACE_FILE_FINE)
    return trouble;
  return renameat (out->folder, out->part, out->folder, out->path) == 0 ? CARPACE_FILE_FINE : CARPACE_FILE_FAILED;
}

static bool
write_out (CarpaceOutFile *out)
{
  bool waits = out->part != NULL && out->how != CARPACE_OUT_AGAIN;
  bool keeps_mode = out->part != NULL && out->how == CARPACE_OUT_SAVE;

  if (fflush (out->stream) != 0)
    return false;
  errno = EIO; /* what failed earlier has told nobody why */
  if (ferror (out->stream) || (keeps_mode && !take_mode_of (out)))
    return false;
  return !waits || fsync (fileno (out->stream)) == 0;
}

CarpaceFileTrouble
carpace_out_end (CarpaceOutFile *out, bool keep)
{
  CarpaceFileTrouble trouble = CARPACE_FILE_FINE;
  int error;

  if (keep && !write_out (out))
    trouble = CARPACE_FILE_FAILED;
  error = errno;
  if (fclose (out->stream) != 0 && keep && trouble == CARPACE_FILE_FINE)
    {
      trouble = CARPACE_FILE_FAILED;
      error = errno;
    }
  if (keep && trouble == CARPACE_FILE_FINE && out->part != NULL)
    {
      trouble = put_in_place (out);
      error = errno;
    }
  if (out->part != NULL && (!keep || trouble != CARPACE_FILE_FINE))
    unlinkat (out->folder, out->part, 0);
  g_free (out->path);
  g_free (out->part);
  *out = (CarpaceOutFile) { .stream = NULL };
  errno = error;
  return trouble;
}

CarpaceFileTrouble
carpace_out_write (int folder, const char *path, CarpaceOutHow how, const char *bytes, size_t n)
{
  CarpaceOutFile out;
  CarpaceFileTrouble trouble = carpace_out_open (&out, folder, path, how);

  if (trouble != CARPACE_FILE_FINE)
    return trouble;
  fwrite (bytes, 1, n, out.stream); /* what fails is told at its end */
  return carpace_out_end (&out, true);
}
