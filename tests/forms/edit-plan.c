/* SPDX-License-Identifier: GPL-3.0-or-later */
/* edit-plan.c: edit-plan FILE [KIND PATH VALUE]...: the file after these edits, for other readers to look at. Of
 * MOVE the value is where to. Ends with what the first edit that is not done ended as. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <glib.h>

#include "forms/plan-edit.h"

int
main (int argc, char **argv)
{
  static const char *const kinds[] = { [CARPACE_EDIT_SET] = "set", [CARPACE_EDIT_REMOVE] = "remove",
                                       [CARPACE_EDIT_INSERT] = "insert", [CARPACE_EDIT_DUPLICATE] = "duplicate",
                                       [CARPACE_EDIT_MOVE] = "move", [CARPACE_EDIT_FIX] = "fix",
                                       [CARPACE_EDIT_RELEASE] = "release" };
  g_autoptr (GString) bytes = g_string_new (NULL);
  char *contents;
  gsize n;

  if (argc < 2 || !g_file_get_contents (argv[1], &contents, &n, NULL))
    return 99;
  g_string_append_len (bytes, contents, (gssize) n);
  g_free (contents);
  for (int i = 2; i + 2 < argc; i += 3)
    {
      CarpacePlanEdit edit = { .path = argv[i + 1], .value = argv[i + 2], .to = atoi (argv[i + 2]) };
      CarpacePlanEditEnd end;
      GString *now = NULL;

      while (strcmp (kinds[edit.kind], argv[i]) != 0)
        edit.kind++;
      end = carpace_plan_edit (bytes->str, bytes->len, &edit, &now);
      if (end != CARPACE_EDIT_DONE)
        return 10 + (int) end;
      g_string_free (bytes, TRUE);
      bytes = now;
    }
  fwrite (bytes->str, 1, bytes->len, stdout);
  return 0;
}
