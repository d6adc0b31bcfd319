/* SPDX-License-Identifier: GPL-3.0-or-later */
/* document-typed.c: what was typed, as a plan's file has it. */
#include "planner/document-private.h"

#include <string.h>

/* A comma between two digits is a point, as many write it. */
static void
points_for_commas (GString *text)
{
  for (gsize i = 1; i + 1 < text->len; i++)
    if (text->str[i] == ',' && g_ascii_isdigit (text->str[i - 1]) && g_ascii_isdigit (text->str[i + 1]))
      text->str[i] = '.';
}

static bool
is_a_number (const char *text)
{
  return *text != '\0' && strspn (text, "0123456789.") == strlen (text);
}

/* What follows the number of @usual. */
static const char *
unit_of (const char *usual)
{
  return usual + strspn (usual, "0123456789.");
}

char *
carpace_planner_typed (const char *text, const char *usual)
{
  GString *typed = g_string_new (text);

  g_strstrip (typed->str);
  typed->len = strlen (typed->str);
  if (usual == NULL || !g_ascii_isdigit (*usual))
    return g_string_free (typed, FALSE);
  points_for_commas (typed);
  if (is_a_number (typed->str) && strpbrk (unit_of (usual) + strspn (unit_of (usual), " "), "0123456789") == NULL)
    g_string_append (typed, unit_of (usual));
  return g_string_free (typed, FALSE);
}

CarpacePlanEditEnd
carpace_planner_type (CarpacePlanner *planner, const char *path, const char *text, const char *usual)
{
  g_autofree char *typed = carpace_planner_typed (text, usual);
  const CarpacePlanValue *value = carpace_planner_value (planner, path);
  CarpacePlanEdit edit = { .kind = CARPACE_EDIT_SET, .path = path, .value = typed };

  if (*typed == '\0' && value == NULL)
    return CARPACE_EDIT_DONE;
  if (value != NULL && g_strcmp0 (value->text, typed) == 0)
    return CARPACE_EDIT_DONE;
  if (*typed == '\0')
    edit = (CarpacePlanEdit) { .kind = CARPACE_EDIT_REMOVE, .path = path };
  return carpace_planner_edit (planner, &edit, 1);
}
