/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text/file-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/quoted.h"

char *
carpace_text_path (const char *path)
{
  g_autofree char *name = g_filename_display_name (path);

  return carpace_text_harmless (name);
}

char *
carpace_text_not_written (CarpaceFileTrouble trouble, const char *path, int error)
{
  g_autofree char *name = carpace_text_path (path);

  switch (trouble)
    {
    case CARPACE_FILE_EXISTS:
      return g_strdup_printf (_("%s is there already; name another file, or write over it with --force."), name);
    case CARPACE_FILE_A_LINK:
      return g_strdup_printf (_("%s is a link; nothing is written through it. Name the file itself."), name);
    case CARPACE_FILE_A_FOLDER:
      return g_strdup_printf (_("%s is a folder; name a file in it."), name);
    case CARPACE_FILE_NO_FILE:
      return g_strdup_printf (_("%s is neither a file nor a pipe; name another."), name);
    case CARPACE_FILE_NOBODY_READS:
      return g_strdup_printf (_("Nothing reads from %s; start first what is to read it."), name);
    case CARPACE_FILE_CHANGED:
      return g_strdup_printf (_("%s was changed by another program since it was read; open it again, or save under another name."),
                              name);
    case CARPACE_FILE_FINE:
    case CARPACE_FILE_TOO_LARGE:
    case CARPACE_FILE_FAILED:
      break;
    }
  return g_strdup_printf (_("%s cannot be written: %s; name another file."), name, g_strerror (error));
}

char *
carpace_text_not_read (CarpaceFileTrouble trouble, const char *path, int error)
{
  g_autofree char *name = carpace_text_path (path);

  switch (trouble)
    {
    case CARPACE_FILE_A_FOLDER:
    case CARPACE_FILE_NO_FILE:
      return g_strdup_printf (_("%s is no file that can be read; name another."), name);
    case CARPACE_FILE_TOO_LARGE:
      return g_strdup_printf (_("%s is too large; nothing of it was read."), name);
    case CARPACE_FILE_FINE:
    case CARPACE_FILE_EXISTS:
    case CARPACE_FILE_A_LINK:
    case CARPACE_FILE_NOBODY_READS:
    case CARPACE_FILE_CHANGED:
    case CARPACE_FILE_FAILED:
      break;
    }
  return g_strdup_printf (_("%s cannot be read: %s; name another file."), name, g_strerror (error));
}

char *
carpace_text_no_output (int error)
{
  return g_strdup_printf (_("The standard output cannot be written: %s."), g_strerror (error));
}
