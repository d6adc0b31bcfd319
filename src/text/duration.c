/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text/duration.h"

#include <glib/gi18n.h>

char *
carpace_text_duration (int64_t ms)
{
  int64_t seconds = MAX (ms, 0) / 1000, hours = seconds / 3600, minutes = seconds / 60 % 60, rest = seconds % 60;
  GString *text = g_string_new (NULL);

  /* Translators: h, min and s are the units' own signs. */
  if (hours > 0)
    g_string_append_printf (text, _("%d h"), (int) hours);
  if (minutes > 0)
    g_string_append_printf (text, text->len ? _(" %d min") : _("%d min"), (int) minutes);
  if (rest > 0 || text->len == 0)
    g_string_append_printf (text, text->len ? _(" %d s") : _("%d s"), (int) rest);
  return g_string_free (text, FALSE);
}
