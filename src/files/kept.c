/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* st_mtim */
#include "files/kept.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>

#include "files/in.h"
#include "files/out.h"

static void
sum_of (const char *bytes, gsize n, guint8 ret_sum[32])
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  gsize n_sum = 32;

  g_checksum_update (checksum, (const guchar *) bytes, (gssize) n);
  g_checksum_get_digest (checksum, ret_sum, &n_sum);
}

static bool
mark_time (const char *path, CarpaceFileMark *mark)
{
  struct stat is;

  if (stat (path, &is) != 0)
    return false;
  mark->size = is.st_size;
  mark->written_s = is.st_mtim.tv_sec;
  mark->written_ns = is.st_mtim.tv_nsec;
  return true;
}

/* Marked before it is read: what is written meanwhile makes the mark an older one, never a newer. */
GString *
carpace_kept_read (const char *path, gsize most, CarpaceFileMark *ret_mark, CarpaceFileTrouble *ret_trouble)
{
  CarpaceFileMark mark = { .size = -1 };
  GString *bytes;

  mark_time (path, &mark);
  bytes = carpace_in_read (path, most, CARPACE_IN_FILE, ret_trouble);
  if (bytes == NULL)
    return NULL;
  sum_of (bytes->str, bytes->len, mark.sum);
  *ret_mark = mark;
  return bytes;
}

/* One byte more than it was is another file already. */
static bool
has_other_bytes (const char *path, const CarpaceFileMark *mark)
{
  CarpaceFileTrouble trouble;
  g_autoptr (GString) bytes = carpace_in_read (path, (gsize) MAX (mark->size, 0) + 1, CARPACE_IN_FILE, &trouble);
  guint8 sum[32];

  if (bytes == NULL)
    return true;
  sum_of (bytes->str, bytes->len, sum);
  return memcmp (sum, mark->sum, sizeof sum) != 0;
}

bool
carpace_kept_is_changed (const char *path, const CarpaceFileMark *mark)
{
  CarpaceFileMark now = { .size = -1 };

  if (mark_time (path, &now) && now.size == mark->size && now.written_s == mark->written_s
      && now.written_ns == mark->written_ns)
    return false;
  return has_other_bytes (path, mark);
}

/* Looked at last of all, when the new one is written beside it and only changes places with it. */
CarpaceFileTrouble
carpace_kept_save (const char *path, CarpaceFileMark *mark, const char *bytes, gsize n)
{
  CarpaceOutFile out;
  CarpaceFileTrouble trouble = carpace_out_open (&out, AT_FDCWD, path, CARPACE_OUT_SAVE);
  bool changed;

  if (trouble != CARPACE_FILE_FINE)
    return trouble;
  fwrite (bytes, 1, n, out.stream); /* what fails is told at its end */
  changed = has_other_bytes (path, mark);
  trouble = carpace_out_end (&out, !changed);
  if (changed)
    return CARPACE_FILE_CHANGED;
  if (trouble != CARPACE_FILE_FINE)
    return trouble;
  mark_time (path, mark);
  sum_of (bytes, n, mark->sum);
  return CARPACE_FILE_FINE;
}
