/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-files-split.c: a split takes long, so it is worked out once. The file is the
 * plan with its blocks; its first line says of which bytes it is. */
#include "plan-files-split.h"

#include <string.h>

#include "forms/plan-write.h"
#include "plan-files-bytes.h"

static char *
mark_of (const GString *bytes)
{
  g_autofree char *sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) bytes->str, bytes->len);

  return g_strdup_printf ("# %s\n", sum);
}

static void
tell_nobody (void *user, const CarpaceFileFault *fault)
{
}

CarpacePlan *
carpace_split_known (const char *path, const GString *bytes, const CarpacePlanReader *reader)
{
  g_autofree char *why = NULL, *mark = mark_of (bytes);
  GString *text = path ? carpace_plan_bytes_read (path, &why) : NULL;
  CarpacePlan *plan = g_new (CarpacePlan, 1);

  if (text == NULL || !g_str_has_prefix (text->str, mark)
      || !reader->read (reader->self, text->str, text->len, NULL, plan, NULL, tell_nobody, NULL))
    g_clear_pointer (&plan, g_free);
  if (text != NULL)
    g_string_free (text, TRUE);
  return plan;
}

void
carpace_split_keep (const char *path, const GString *bytes, const CarpacePlan *plan)
{
  g_autofree CarpacePlan *blocks = g_memdup2 (plan, sizeof *plan);
  g_autofree char *mark = mark_of (bytes), *why = NULL, *written = NULL, *text = NULL;

  if (path == NULL || plan->split_into == 0)
    return;
  blocks->split_into = 0;
  written = carpace_plan_write_file (blocks);
  text = g_strconcat (mark, written, NULL);
  carpace_plan_bytes_replace (path, text, strlen (text), &why);
}
