/* SPDX-License-Identifier: GPL-3.0-or-later */
/** store-text.h: what a player is told where the diary cannot be kept. */
#ifndef CARPACE_TEXT_STORE_TEXT_H
#define CARPACE_TEXT_STORE_TEXT_H

#include <stdbool.h>

/** What can be wrong with the diary's file. */
typedef enum
{
  CARPACE_STORE_IN_USE,        /**< another program writes it */
  CARPACE_STORE_HELD,          /**< another program writes it; it is waited for */
  CARPACE_STORE_GONE,          /**< its file is not in its place any more */
  CARPACE_STORE_NOT_A_DIARY,   /**< some other file is in its place */
  CARPACE_STORE_DAMAGED,       /**< it cannot be read */
  CARPACE_STORE_DAMAGED_INSIDE,/**< the check found damage */
  CARPACE_STORE_NEWER,         /**< written by a later Carpace */
  CARPACE_STORE_READ_ONLY,     /**< it, or its folder, cannot be written */
  CARPACE_STORE_FULL,          /**< the disk is full */
  CARPACE_STORE_FAILED,        /**< anything else; @detail tells */
  CARPACE_STORE_KEPT_AGAIN,    /**< no trouble any more: what waited has been kept */
  CARPACE_N_STORE_TROUBLES
} CarpaceStoreTrouble;

/** One sentence or two, translated: what is wrong with @path, and what to do.
 * @param reading the diary is only read: there is no practice to go on with
 * @param detail for FAILED, may be NULL. @return free with g_free() */
char *carpace_text_store_trouble (CarpaceStoreTrouble trouble, bool reading, const char *path, const char *detail);

#endif
