/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-edit.h: changes a plan's file and nothing beside what is changed.
 *
 * Bytes in, one edit, bytes out. Comments, the order of keys, quotation marks,
 * ends of lines and all that the edit does not name stay as they are, byte for
 * byte; what is new is written as what stands around it. The result is read
 * again and has to say what the edit asked for and the same as before in all
 * else; an edit of which that does not hold is refused. Whether the plan is a
 * sound one is for the reader to say.
 *
 * A path is a key as it stands in the table of keys ("day.dose", "name"), an
 * item of a list behind it ("micro-rest.show[0]"), or one of these:
 * "drills[2].run", "drills.corners.run" (the drill with that id), "blocks[0].limit",
 * "blocks[0].drills[1].share", "split", "blocks". Items count from 0.
 */
#ifndef CARPACE_FORMS_PLAN_EDIT_H
#define CARPACE_FORMS_PLAN_EDIT_H

#include <glib.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum
{
  CARPACE_EDIT_SET,       /**< a value; its key and section are added where they are absent. A list is set by its
                               items with commas between them */
  CARPACE_EDIT_REMOVE,    /**< a key or an item; a section with nothing left goes, too */
  CARPACE_EDIT_INSERT,    /**< an item, there or (at the length) behind the last. `value` is a drill's id, a block's
                               limit, a part's id or the item itself */
  CARPACE_EDIT_DUPLICATE, /**< an item, behind itself */
  CARPACE_EDIT_MOVE,      /**< an item to `to`, with the comments right above it */
  CARPACE_EDIT_FIX,       /**< marks a value `!fixed` */
  CARPACE_EDIT_RELEASE    /**< takes that away */
} CarpacePlanEditKind;

/** One edit. */
typedef struct
{
  CarpacePlanEditKind kind;
  const char *path;
  const char *value; /**< of SET and INSERT: as the reader would have it, without quotation marks */
  int32_t to;        /**< of MOVE: where the item is afterwards */
} CarpacePlanEdit;

typedef enum
{
  CARPACE_EDIT_DONE,
  CARPACE_EDIT_UNREAD,       /**< the file is no YAML that a plan may be written in */
  CARPACE_EDIT_UNKNOWN_PATH, /**< no plan has that */
  CARPACE_EDIT_NOT_THERE,    /**< this one has not, or no such item */
  CARPACE_EDIT_UNFIT,        /**< it cannot be done in this file without touching something else */
  CARPACE_EDIT_TOO_LARGE     /**< the file would be larger than a plan may be */
} CarpacePlanEditEnd;

/** @param bytes the whole file
 * @return CARPACE_EDIT_DONE and *ret_bytes, the caller's to free; else it is untouched */
CarpacePlanEditEnd carpace_plan_edit (const char *bytes, size_t n_bytes, const CarpacePlanEdit *edit,
                                      GString **ret_bytes);

/** What stands at @path, read from the file. @return NULL where nothing does, or no single value; g_free() it */
char *carpace_plan_edit_value (const char *bytes, size_t n_bytes, const char *path);

#endif
