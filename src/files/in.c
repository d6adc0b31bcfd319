/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE
#include "files/in.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

/* What a file of that kind cannot be read for. */
static CarpaceFileTrouble
trouble_with (const struct stat *is, gsize most, CarpaceInHow how)
{
  if (S_ISDIR (is->st_mode))
    return CARPACE_FILE_A_FOLDER;
  if (S_ISREG (is->st_mode))
    return is->st_size > 0 && (guint64) is->st_size > most ? CARPACE_FILE_TOO_LARGE : CARPACE_FILE_FINE;
  return S_ISFIFO (is->st_mode) && how == CARPACE_IN_FILE_OR_PIPE ? CARPACE_FILE_FINE : CARPACE_FILE_NO_FILE;
}

GString *
carpace_in_read_fd (int fd, gsize most, CarpaceFileTrouble *ret_trouble)
{
  g_autoptr (GString) bytes = g_string_new (NULL);
  char part[16384];

  *ret_trouble = CARPACE_FILE_FINE;
  while (bytes->len <= most)
    {
      ssize_t n = read (fd, part, MIN (sizeof part, most + 1 - bytes->len));

      if (n == 0)
        return g_steal_pointer (&bytes);
      if (n < 0 && errno != EINTR)
        {
          *ret_trouble = CARPACE_FILE_FAILED;
          return NULL;
        }
      if (n > 0)
        g_string_append_len (bytes, part, n);
    }
  *ret_trouble = CARPACE_FILE_TOO_LARGE;
  return NULL;
}

/* Looked at before and after it is opened: opening a device can do something,
 * and a name can be given to another file meanwhile. A pipe is opened without
 * waiting, so that one nobody writes into is empty. */
GString *
carpace_in_read (const char *path, gsize most, CarpaceInHow how, CarpaceFileTrouble *ret_trouble)
{
  GString *bytes = NULL;
  struct stat is;
  int fd = -1, error;

  *ret_trouble = stat (path, &is) != 0 ? CARPACE_FILE_FAILED : trouble_with (&is, most, how);
  if (*ret_trouble == CARPACE_FILE_FINE && (fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY)) < 0)
    *ret_trouble = CARPACE_FILE_FAILED;
  if (*ret_trouble == CARPACE_FILE_FINE)
    *ret_trouble = fstat (fd, &is) != 0 ? CARPACE_FILE_FAILED : trouble_with (&is, most, how);
  if (*ret_trouble == CARPACE_FILE_FINE && fcntl (fd, F_SETFL, O_RDONLY) != 0)
    *ret_trouble = CARPACE_FILE_FAILED;
  if (*ret_trouble == CARPACE_FILE_FINE)
    bytes = carpace_in_read_fd (fd, most, ret_trouble);
  error = errno;
  if (fd >= 0)
    close (fd);
  errno = error;
  return bytes;
}
