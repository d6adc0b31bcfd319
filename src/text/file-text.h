/* SPDX-License-Identifier: GPL-3.0-or-later */
/** file-text.h: files that the user names, and what is wrong with them, in words. */
#ifndef CARPACE_TEXT_FILE_TEXT_H
#define CARPACE_TEXT_FILE_TEXT_H

/** What came of a file that the user named. */
typedef enum
{
  CARPACE_FILE_FINE,
  CARPACE_FILE_EXISTS,       /**< there already, and nobody said that it may be written over */
  CARPACE_FILE_A_LINK,       /**< to a file: nothing is written through it, nor in its place */
  CARPACE_FILE_A_FOLDER,
  CARPACE_FILE_NO_FILE,      /**< a device, a socket, a pipe where none is taken */
  CARPACE_FILE_NOBODY_READS, /**< a pipe that nobody has open for reading */
  CARPACE_FILE_TOO_LARGE,
  CARPACE_FILE_CHANGED,      /**< by another program, since it was read */
  CARPACE_FILE_FAILED        /**< errno tells why */
} CarpaceFileTrouble;

/** Why @path was not written; what to do. @param error errno, where it failed. g_free() it */
char *carpace_text_not_written (CarpaceFileTrouble trouble, const char *path, int error);

/** The same of a file that was not read. */
char *carpace_text_not_read (CarpaceFileTrouble trouble, const char *path, int error);

/** Why the standard output was not written. */
char *carpace_text_no_output (int error);

/** A path as it is shown: UTF-8, whatever moves a cursor as an escape. g_free() it */
char *carpace_text_path (const char *path);

#endif
