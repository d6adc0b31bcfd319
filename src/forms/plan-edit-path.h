/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-edit-path.h: a path into a plan's file, step by step, and how what it leads to is written. */
#ifndef CARPACE_FORMS_PLAN_EDIT_PATH_H
#define CARPACE_FORMS_PLAN_EDIT_PATH_H

#include <stdbool.h>
#include <stdint.h>

/** blocks, an item, drills, an item, share. */
#define CARPACE_PATH_STEPS 5
#define CARPACE_PATH_KEY 96

/** One step: into a key, into an item by its number, or by its id. */
typedef struct
{
  char key[CARPACE_PATH_KEY]; /**< the key, or the id; "" for an item by its number */
  int32_t item;
  bool by_id;
} CarpacePathStep;

/** What is written at the end of a path. */
typedef enum
{
  CARPACE_PATH_BARE, /**< a number without a unit: not in quotation marks */
  CARPACE_PATH_WORD, /**< a word or a quantity */
  CARPACE_PATH_TEXT, /**< text: in quotation marks where it could be taken for something else */
  CARPACE_PATH_LIST, /**< words */
  CARPACE_PATH_OF_KEYS /**< a mapping, or a list of more than words: `first` is the key an item begins with */
} CarpacePathWritten;

typedef struct
{
  CarpacePathStep step[CARPACE_PATH_STEPS];
  int32_t n;
  CarpacePathWritten written;
  const char *first; /**< of an item of drills or blocks; NULL for others */
  bool fixable;      /**< `!fixed` means something here */
} CarpacePath;

/** @return whether a plan's file can have @text */
bool carpace_path_read (const char *text, CarpacePath *ret_path);

/** Where @key stands among its neighbours, in the table's order; -1: first of all, or not known. */
int32_t carpace_path_rank (const CarpacePath *path, int32_t step, const char *key);

#endif
