/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * out.h: the one way in which a file that the user names is written.
 *
 * A new file is whole or not there, and its owner's alone. One that is there
 * stays, or (where the user says so) is changed for the new one when that is
 * whole. A device or a pipe is written into. A link is never followed to a
 * file, and nothing but an ordinary file is ever taken away.
 */
#ifndef CARPACE_FILES_OUT_H
#define CARPACE_FILES_OUT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "text/file-text.h"

typedef enum
{
  CARPACE_OUT_NEW,   /**< a file that is there stays as it is */
  CARPACE_OUT_FORCE, /**< --force: onto an ordinary file, too */
  CARPACE_OUT_SAVE,  /**< as FORCE, in place of what was read there, and open to whom that was: neither into a
                          device nor into a pipe */
  CARPACE_OUT_AGAIN  /**< as FORCE, for what is written again and again: neither a device nor a
                          pipe, and the disk is not waited for */
} CarpaceOutHow;

/** A file under way. */
typedef struct
{
  FILE *stream;
  CarpaceOutHow how;
  int folder; /**< what the two are relative to */
  char *path;
  char *part; /**< beside it, until it is whole; NULL where a device or a pipe is written into */
} CarpaceOutFile;

/** Opens @path for writing, relative to @folder (AT_FDCWD: to the working folder).
 * @return FINE, or what is wrong; errno tells why where it FAILED */
CarpaceFileTrouble carpace_out_open (CarpaceOutFile *ret_out, int folder, const char *path, CarpaceOutHow how);

/** Closes it. With @keep the file is then there; else, and where that fails,
 * all is as it was before. */
CarpaceFileTrouble carpace_out_end (CarpaceOutFile *out, bool keep);

/** Both, and @n bytes between them. */
CarpaceFileTrouble carpace_out_write (int folder, const char *path, CarpaceOutHow how, const char *bytes, size_t n);

#endif
