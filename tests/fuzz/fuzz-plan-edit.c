/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fuzz-plan-edit.c: whatever the bytes, an edit is made or refused; made, it can be read back where it was set, and
 * nothing but one stretch of bytes is another. */
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "forms/plan-edit.h"
#include "target.h"

static void
require (bool holds, const char *what)
{
  if (holds)
    return;
  fprintf (stderr, "%s\n", what);
  abort ();
}

static const char *const paths[] = {
  "name", "note", "day.dose", "hand.side", "week.without", "micro-rest.show", "micro-rest.show[0]", "next-day.at-most",
  "drills[0]", "drills[0].id", "drills[0].run", "drills[1]", "blocks", "blocks[0]", "blocks[0].limit",
  "blocks[0].drills[0]", "blocks[0].drills[0].share", "blocks[1].drills", "split", "drills.corners.run", "day",
};

static void
make (const char *bytes, size_t n, CarpacePlanEdit edit)
{
  GString *now = NULL;
  CarpacePlanEditEnd end = carpace_plan_edit (bytes, n, &edit, &now);

  require ((end == CARPACE_EDIT_DONE) == (now != NULL), "bytes where nothing was done, or none where it was");
  if (now == NULL)
    return;
  if (edit.kind == CARPACE_EDIT_SET && strchr (edit.value, ',') == NULL)
    {
      g_autofree char *value = carpace_plan_edit_value (now->str, now->len, edit.path);

      require (value == NULL || strcmp (value, edit.value) == 0, "another value than was set");
    }
  if (edit.kind == CARPACE_EDIT_FIX || edit.kind == CARPACE_EDIT_DUPLICATE || edit.kind == CARPACE_EDIT_INSERT)
    require (now->len >= n, "something was added and there is less");
  g_string_free (now, TRUE);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t n)
{
  static const char *const values[] = { "7 min", "it's \"so\": #1", "a, b" };
  g_autofree char *bytes = g_memdup2 (data, n); /* of just that size, for those who watch its ends */

  for (size_t i = 0; i < G_N_ELEMENTS (paths); i++)
    for (int kind = CARPACE_EDIT_SET; kind <= CARPACE_EDIT_RELEASE; kind++)
      make (bytes, n, (CarpacePlanEdit){ .kind = (CarpacePlanEditKind) kind, .path = paths[i],
                                         .value = values[(n + i) % G_N_ELEMENTS (values)], .to = (int32_t) (n % 3) });
  return 0;
}
