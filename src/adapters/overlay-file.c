/* SPDX-License-Identifier: GPL-3.0-or-later */
/* overlay-file.c: written beside, then put in its place. */
#define _GNU_SOURCE
#include "overlay-file.h"

#include <fcntl.h>
#include <glib.h>
#include <string.h>
#include <unistd.h>

#include "files/out.h"

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

CarpaceOverlayFault
carpace_overlay_file_show (CarpaceOverlayFile *file, const char *text)
{
  CarpaceFileTrouble trouble;

  if (file->shown != NULL && strcmp (file->shown, text) == 0)
    return CARPACE_OVERLAY_FINE;
  trouble = carpace_out_write (file->folder, file->name, CARPACE_OUT_AGAIN, text, strlen (text));
  if (trouble == CARPACE_FILE_FAILED)
    return CARPACE_OVERLAY_NOT_WRITTEN;
  if (trouble != CARPACE_FILE_FINE)
    return CARPACE_OVERLAY_NOT_A_FILE;
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
