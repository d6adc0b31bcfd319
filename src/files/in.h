/* SPDX-License-Identifier: GPL-3.0-or-later */
/** in.h: the one way in which a file that the user names is read: never more of
 * it than is asked for, and never a device. */
#ifndef CARPACE_FILES_IN_H
#define CARPACE_FILES_IN_H

#include <glib.h>

#include "text/file-text.h"

typedef enum
{
  CARPACE_IN_FILE,        /**< an ordinary file: read without waiting */
  CARPACE_IN_FILE_OR_PIPE /**< or a pipe, to its end */
} CarpaceInHow;

/** Reads all of @path, at most @most bytes.
 * @return NULL, and *ret_trouble, where it cannot be had; errno tells why where it FAILED */
GString *carpace_in_read (const char *path, gsize most, CarpaceInHow how, CarpaceFileTrouble *ret_trouble);

/** The same of what is open. */
GString *carpace_in_read_fd (int fd, gsize most, CarpaceFileTrouble *ret_trouble);

#endif
