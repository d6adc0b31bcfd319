/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * kept.h: a file that is read, changed by the user and saved, maybe hours later.
 *
 * What it was when it was read is kept as a mark: its size, the time it was
 * written and a sum of its bytes. A save looks at it again and never writes
 * over what another program has put there meanwhile.
 */
#ifndef CARPACE_FILES_KEPT_H
#define CARPACE_FILES_KEPT_H

#include <glib.h>
#include <stdbool.h>

#include "text/file-text.h"

/** What a file was. A value. */
typedef struct
{
  gint64 size, written_s, written_ns;
  guint8 sum[32]; /* SHA-256 */
} CarpaceFileMark;

/** Reads all of an ordinary file, at most @most bytes, and marks it.
 * @return NULL, and *ret_trouble, where it cannot be had; errno tells why where it FAILED */
GString *carpace_kept_read (const char *path, gsize most, CarpaceFileMark *ret_mark, CarpaceFileTrouble *ret_trouble);

/** Whether something else is there now, or nothing. Only a file whose size or time is another is read again: what was
 * only touched, or put back as it was, is not changed. */
bool carpace_kept_is_changed (const char *path, const CarpaceFileMark *mark);

/** Writes it anew, whole or not at all, where it is still what @mark says; its bytes are looked at in any case. What is
 * there by now decides: a link, a device or a pipe stays.
 * @return FINE, and *mark is of the new one; CHANGED, and nothing was written; or what is wrong (errno where it FAILED) */
CarpaceFileTrouble carpace_kept_save (const char *path, CarpaceFileMark *mark, const char *bytes, gsize n);

#endif
