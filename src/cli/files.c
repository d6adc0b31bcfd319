/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* AT_FDCWD */
#include "cli/files.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>

#include "cli/options.h"
#include "files/in.h"

static bool
is_standard (const char *path)
{
  return path == NULL || strcmp (path, "-") == 0;
}

static bool
refuse_out (CarpaceCli *cli, CarpaceFileTrouble trouble, const char *path)
{
  g_autofree char *sentence = carpace_text_not_written (trouble, path, errno);

  carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", sentence);
  return false;
}

bool
carpace_cli_open_out (CarpaceCli *cli, const char *path, bool force, CarpaceOutFile *ret_out)
{
  CarpaceFileTrouble trouble;

  *ret_out = (CarpaceOutFile) { .stream = cli->out };
  if (is_standard (path))
    return true;
  trouble = carpace_out_open (ret_out, AT_FDCWD, path, force ? CARPACE_OUT_FORCE : CARPACE_OUT_NEW);
  return trouble == CARPACE_FILE_FINE || refuse_out (cli, trouble, path);
}

bool
carpace_cli_end_out (CarpaceCli *cli, const char *path, CarpaceOutFile *out, bool keep)
{
  CarpaceFileTrouble trouble;

  if (is_standard (path))
    return !keep || carpace_cli_flush (cli);
  trouble = carpace_out_end (out, keep);
  return trouble == CARPACE_FILE_FINE || (keep && refuse_out (cli, trouble, path));
}

bool
carpace_cli_write_file (CarpaceCli *cli, const char *path, bool force, const char *bytes, size_t size)
{
  CarpaceOutFile out;

  if (!carpace_cli_open_out (cli, path, force, &out))
    return false;
  fwrite (bytes, 1, size, out.stream); /* what fails is told at its end */
  return carpace_cli_end_out (cli, path, &out, true);
}

GString *
carpace_cli_read_file (CarpaceCli *cli, const char *path, gsize most)
{
  CarpaceFileTrouble trouble;
  GString *bytes = carpace_in_read (path, most, CARPACE_IN_FILE_OR_PIPE, &trouble);
  g_autofree char *sentence = bytes != NULL ? NULL : carpace_text_not_read (trouble, path, errno);

  if (bytes == NULL)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", sentence);
  return bytes;
}
