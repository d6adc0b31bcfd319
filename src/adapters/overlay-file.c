/* SPDX-License-Identifier: GPL-3.0-or-later */
/* overlay-file.c: written beside, then put in its place. */
#define _GNU_SOURCE
#include "overlay-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct CarpaceOverlayFile
{
  int folder;
  char *name;
  char *shown; /* NULL: not known what is in the file */
};

static bool
is_plain_name (const char *name)
{
  return *name != '\0' && strchr (name, '/') == NULL && strcmp (name, ".") != 0 && strcmp (name, "..") != 0
         && strlen (name) <= 200;
}

CarpaceOverlayFile *
carpace_overlay_file_new (const char *folder, const char *name, CarpaceOverlayFault *ret_fault)
{
  CarpaceOverlayFile *file;
  int opened;

  if (!is_plain_name (name))
    {
      *ret_fault = CARPACE_OVERLAY_BAD_NAME;
      return NULL;
    }
  opened = open (folder, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
  if (opened < 0)
    {
      *ret_fault = CARPACE_OVERLAY_NO_FOLDER;
      return NULL;
    }
  file = g_new0 (CarpaceOverlayFile, 1);
  file->folder = opened;
  file->name = g_strdup (name);
  return file;
}

static bool
write_all (int opened, const char *text)
{
  size_t left = strlen (text);

  while (left > 0)
    {
      ssize_t written = write (opened, text, left);

      if (written < 0 && errno == EINTR)
        continue;
      if (written <= 0)
        return false;
      text += written;
      left -= (size_t) written;
    }
  return true;
}

/* A new file in the folder, under a name that nothing had. */
static int
create_beside (CarpaceOverlayFile *file, char name[32])
{
  for (int try = 0; try < 16; try++)
    {
      int opened;

      g_snprintf (name, 32, ".carpace-%08x", g_random_int ());
      opened = openat (file->folder, name, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
      if (opened >= 0 || errno != EEXIST)
        return opened;
    }
  return -1;
}

/* Whether @name is free or an ordinary file. */
static bool
can_take_place (CarpaceOverlayFile *file)
{
  struct stat there;

  if (fstatat (file->folder, file->name, &there, AT_SYMLINK_NOFOLLOW) != 0)
    return errno == ENOENT;
  return S_ISREG (there.st_mode);
}

CarpaceOverlayFault
carpace_overlay_file_show (CarpaceOverlayFile *file, const char *text)
{
  char beside[32];
  int opened;
  bool written;

  if (file->shown != NULL && strcmp (file->shown, text) == 0)
    return CARPACE_OVERLAY_FINE;
  if (!can_take_place (file))
    return CARPACE_OVERLAY_NOT_A_FILE;
  opened = create_beside (file, beside);
  if (opened < 0)
    return CARPACE_OVERLAY_NOT_WRITTEN;
  written = write_all (opened, text);
  written = close (opened) == 0 && written;
  if (!written || renameat (file->folder, beside, file->folder, file->name) != 0)
    {
      unlinkat (file->folder, beside, 0);
      return CARPACE_OVERLAY_NOT_WRITTEN;
    }
  g_free (file->shown);
  file->shown = g_strdup (text);
  return CARPACE_OVERLAY_FINE;
}

void
carpace_overlay_file_free (CarpaceOverlayFile *file)
{
  if (file == NULL)
    return;
  if (file->shown != NULL)
    carpace_overlay_file_show (file, "");
  close (file->folder);
  g_free (file->name);
  g_free (file->shown);
  g_free (file);
}
