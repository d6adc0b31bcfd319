/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-values-at.h: all that stands in a plan's file, by its path and by its place: read once for a whole window. */
#ifndef CARPACE_FORMS_PLAN_VALUES_AT_H
#define CARPACE_FORMS_PLAN_VALUES_AT_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

/** What stands at a path. */
typedef struct
{
  const char *path;  /**< as plan-edit.h has them, items by their numbers */
  const char *text;  /**< NULL: a list or a mapping */
  bool fixed;
  int32_t items;     /**< of a list */
  int32_t line, column;
} CarpacePlanValue;

typedef struct CarpacePlanValues CarpacePlanValues;

/** @return NULL where the file is no YAML that a plan may be written in */
CarpacePlanValues *carpace_plan_values_new (const char *bytes, gsize n_bytes);
void carpace_plan_values_free (CarpacePlanValues *values);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CarpacePlanValues, carpace_plan_values_free)

/** @return NULL where nothing stands at @path */
const CarpacePlanValue *carpace_plan_values_get (const CarpacePlanValues *values, const char *path);

/** What begins at a place, or has its key there; of several the innermost. NULL where nothing does. */
const CarpacePlanValue *carpace_plan_values_at (const CarpacePlanValues *values, int32_t line, int32_t column);

#endif
