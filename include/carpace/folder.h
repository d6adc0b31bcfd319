/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * folder.h: a folder of small files, for what is kept of a team and what is shared with it.
 */
#ifndef CARPACE_FOLDER_H
#define CARPACE_FOLDER_H

#include "carpace/team.h"

typedef bool (*CarpaceNameVisitor) (void *user, const char *name); /**< false: enough */

/** Files by their names, which have no folder in them. What is written is whole or not there. */
typedef struct
{
  void *self;
  /** All of a file, at most @most bytes: free() it. @return NULL, and *ret_fault: NO_FILE, NOT_ORDINARY, LOOSE, TOO_LARGE
   * or FAILED, where errno tells why */
  uint8_t *(*read) (void *self, const char *name, size_t most, size_t *ret_n, CarpaceTeamFault *ret_fault);
  /** Writes one, in place of the one that is there. @return false, errno, where that stays */
  bool (*write) (void *self, const char *name, const uint8_t *bytes, size_t n);
  bool (*remove) (void *self, const char *name);
  /** In no order. @return false, errno, where the folder cannot be read */
  bool (*list) (void *self, CarpaceNameVisitor visit, void *user);
  /** Keeps other processes that lock it out until it is let go of; waits for them. */
  void (*lock) (void *self, bool locked);
  void (*free) (void *self);
} CarpaceFolder;

#endif
