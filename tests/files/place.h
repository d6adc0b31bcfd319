/* SPDX-License-Identifier: GPL-3.0-or-later */
/** place.h: a folder of the test's own, with one of each kind of file in it. */
#ifndef CARPACE_TESTS_FILES_PLACE_H
#define CARPACE_TESTS_FILES_PLACE_H

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <stdbool.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <sys/un.h>
#include <unistd.h>

/** What can be under a name. */
typedef enum
{
  PLACE_NOTHING,
  PLACE_FILE,
  PLACE_READ_ONLY,
  PLACE_FOLDER,
  PLACE_PIPE,        /* that nobody has open */
  PLACE_PIPE_READ,   /* that the test reads */
  PLACE_DEVICE,      /* a null device of the test's own */
  PLACE_DISK,        /* a block device that no driver has */
  PLACE_SOCKET,
  PLACE_LINK,        /* to an ordinary file */
  PLACE_LINK_LOOSE,  /* to nothing */
  PLACE_LINK_DEVICE,
  N_PLACES
} PlaceKind;

static const char *const place_names[N_PLACES] = {
  "nothing", "a file", "a file that may not be written", "a folder", "a pipe", "a pipe that is read", "a device", "a disk",
  "a socket", "a link to a file", "a link to nothing", "a link to a device"
};

typedef struct
{
  char *folder, *path, *other; /* other: what a link leads to */
  int reader;                  /* of a pipe, -1 */
} Place;

#define PLACE_OLD "what was there before"

static inline bool
place_bind_socket (const char *path)
{
  struct sockaddr_un name = { .sun_family = AF_UNIX };
  int fd = socket (AF_UNIX, SOCK_STREAM, 0);
  bool bound;

  g_strlcpy (name.sun_path, path, sizeof name.sun_path);
  bound = fd >= 0 && bind (fd, (struct sockaddr *) &name, sizeof name) == 0;
  close (fd);
  return bound;
}

/* @return false where this machine lets nobody make such a thing */
static inline bool
place_fill (Place *place, PlaceKind kind)
{
  place->folder = g_dir_make_tmp ("carpace-files-XXXXXX", NULL);
  place->path = g_build_filename (place->folder, "named", NULL);
  place->other = g_build_filename (place->folder, "other", NULL);
  place->reader = -1;
  switch (kind)
    {
    case PLACE_NOTHING:
    case N_PLACES:
      return true;
    case PLACE_FILE:
      return g_file_set_contents (place->path, PLACE_OLD, -1, NULL);
    case PLACE_READ_ONLY:
      return g_file_set_contents (place->path, PLACE_OLD, -1, NULL) && chmod (place->path, 0400) == 0;
    case PLACE_FOLDER:
      return g_mkdir (place->path, 0700) == 0;
    case PLACE_PIPE:
      return mkfifo (place->path, 0600) == 0;
    case PLACE_PIPE_READ:
      return mkfifo (place->path, 0600) == 0 && (place->reader = open (place->path, O_RDONLY | O_NONBLOCK)) >= 0;
    case PLACE_DEVICE:
      return mknod (place->path, S_IFCHR | 0600, makedev (1, 3)) == 0;
    case PLACE_DISK:
      return mknod (place->path, S_IFBLK | 0600, makedev (240, 77)) == 0;
    case PLACE_SOCKET:
      return place_bind_socket (place->path);
    case PLACE_LINK:
      return g_file_set_contents (place->other, PLACE_OLD, -1, NULL) && symlink ("other", place->path) == 0;
    case PLACE_LINK_LOOSE:
      return symlink ("other", place->path) == 0;
    case PLACE_LINK_DEVICE:
      return mknod (place->other, S_IFCHR | 0600, makedev (1, 3)) == 0 && symlink ("other", place->path) == 0;
    }
  return false;
}

/* What kind of thing is there, 0 where nothing is. */
static inline mode_t
place_kind (const char *path)
{
  struct stat is;

  return lstat (path, &is) == 0 ? is.st_mode & S_IFMT : 0;
}

static inline int
place_count (const Place *place)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  int n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static inline void
place_empty (Place *place)
{
  if (place->reader >= 0)
    close (place->reader);
  if (g_remove (place->path) != 0)
    g_rmdir (place->path);
  g_remove (place->other);
  g_rmdir (place->folder);
  g_free (place->folder);
  g_free (place->path);
  g_free (place->other);
}

#endif
