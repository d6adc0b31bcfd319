/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* AT_FDCWD */
#include "plan-files-bytes.h"

#include <errno.h>
#include <fcntl.h>

#include "carpace/ports.h"
#include "files/in.h"
#include "files/out.h"

static char *
why_not_read (CarpaceFileTrouble trouble, const char *path, int error)
{
  if (trouble == CARPACE_FILE_TOO_LARGE)
    return carpace_text_read_fault (&(CarpaceReadFault){ .kind = CARPACE_READ_TOO_LARGE });
  if (trouble == CARPACE_FILE_A_FOLDER || trouble == CARPACE_FILE_NO_FILE)
    return carpace_text_plan_file (CARPACE_PLAN_FILE_NO_FILE, path, NULL, NULL);
  return carpace_text_plan_file (CARPACE_PLAN_FILE_UNREADABLE, path, g_strerror (error), NULL);
}

GString *
carpace_plan_bytes_read (const char *path, char **ret_why)
{
  CarpaceFileTrouble trouble;
  GString *bytes = carpace_in_read (path, CARPACE_PLAN_FILE_BYTES, CARPACE_IN_FILE, &trouble);

  *ret_why = bytes != NULL ? NULL : why_not_read (trouble, path, errno);
  return bytes;
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

bool
carpace_plan_bytes_create (const char *path, const char *bytes, gsize n_bytes, char **ret_why)
{
  CarpaceFileTrouble trouble = carpace_out_write (AT_FDCWD, path, CARPACE_OUT_NEW, bytes, n_bytes);
  int error = errno;

  *ret_why = NULL;
  if (trouble == CARPACE_FILE_EXISTS)
    *ret_why = carpace_text_plan_file (CARPACE_PLAN_FILE_EXISTS, path, NULL, NULL);
  else if (trouble == CARPACE_FILE_FAILED)
    *ret_why = carpace_text_plan_file (CARPACE_PLAN_FILE_UNWRITABLE, path, g_strerror (error), NULL);
  else if (trouble != CARPACE_FILE_FINE)
    *ret_why = carpace_text_not_written (trouble, path, error);
  return trouble == CARPACE_FILE_FINE;
}
