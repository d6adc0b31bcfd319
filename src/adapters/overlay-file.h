/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * overlay-file.h: one line of text in a file, for any broadcasting program to read.
 *
 * The file lies in a folder that the streamer has chosen, and nowhere else: the
 * folder is opened once and everything is done from within it. Nothing is ever
 * written through a link. The whole text is there, or the one before.
 */
#ifndef CARPACE_OVERLAY_FILE_H
#define CARPACE_OVERLAY_FILE_H

#include <stdbool.h>

typedef struct CarpaceOverlayFile CarpaceOverlayFile;

/** What is wrong. */
typedef enum
{
  CARPACE_OVERLAY_FINE,
  CARPACE_OVERLAY_NO_FOLDER, /**< it is not there, no folder, a link, or cannot be entered */
  CARPACE_OVERLAY_BAD_NAME,  /**< not a plain file name */
  CARPACE_OVERLAY_NOT_A_FILE,/**< a link, a folder or a device has that name */
  CARPACE_OVERLAY_NOT_WRITTEN
} CarpaceOverlayFault;

/** A file @name in @folder. Nothing is written yet.
 * @return NULL and *ret_fault where that cannot be */
CarpaceOverlayFile *carpace_overlay_file_new (const char *folder, const char *name, CarpaceOverlayFault *ret_fault);

/** Makes @text all there is in the file. Does nothing where it is that already. */
CarpaceOverlayFault carpace_overlay_file_show (CarpaceOverlayFile *file, const char *text);

/** Empties the file, where anything was shown, and closes. */
void carpace_overlay_file_free (CarpaceOverlayFile *file);

#endif
