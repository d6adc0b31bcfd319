/* SPDX-License-Identifier: GPL-3.0-or-later */
/* at-least-text.c: what a hand was seen to take; never what it takes. */
#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/text.h"

char *
carpace_text_at_least (const CarpaceAtLeast *seen)
{
  g_autofree char *least = carpace_text_duration (seen->least_ms);
  g_autofree char *most = carpace_text_duration (seen->most_ms);
  g_autofree char *at = NULL;

  if (seen->least_ms == 0)
    return NULL;
  /* Translators: "51 min to 1 h" */
  at = seen->most_ms > seen->least_ms ? g_strdup_printf (_("%s to %s"), least, most) : g_strdup (least);
  if (seen->worse == 0)
    return g_strdup_printf (_("At least %s: %d answered days at %s, none of them worse."), least, seen->days, at);
  return g_strdup_printf (_("At least %s: %d answered days at %s, %d of them worse."), least, seen->days, at, seen->worse);
}
