/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fuzz-script.c: scripts; a sound one is rehearsed, every fault is told. */
#include <glib.h>
#include <string.h>

#include "app/rehearse.h"
#include "target.h"
#include "forms/entries-json.h"
#include "text/entries.h"
#include "text/text.h"
#include "trace.h"

static void
visit (void *user, const CarpaceScriptFault *fault)
{
  g_autofree char *text = carpace_text_script_fault (fault);
  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_null (strchr (text, '\n'));
  ++*(int *) user;
}

static void
listen (void *user, const CarpaceEntry *entry, int32_t line)
{
  g_autofree char *json = carpace_entry_json (entry, entry->at.elapsed_ms, line);
  g_autofree char *text = carpace_entry_text (entry);
  g_assert_true (g_utf8_validate (json, -1, NULL) && g_utf8_validate (text, -1, NULL));
}

static bool
offset (void *self, const char *name, int64_t wall_ms, int32_t *ret_offset_s)
{
  *ret_offset_s = wall_ms / CARPACE_HOUR_MS % 2 ? 3600 : 7200;
  return strlen (name) < 12;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t n)
{
  static const CarpaceZones zones = { .offset = offset };
  static CarpacePlan plan;
  CarpaceScript script;
  int faults = 0;

  if (plan.n_blocks == 0)
    carpace_trace_plan (&plan, 2, 6);
  if (!carpace_script_read ((const char *) data, n, &zones, visit, &faults, &script))
    {
      g_assert_cmpint (faults, >, 0);
      return 0;
    }
  g_assert_cmpint (faults, ==, 0);
  g_assert_true (carpace_rehearse_script (&plan, &script, &zones, listen, NULL));
  carpace_script_clear (&script);
  return 0;
}
