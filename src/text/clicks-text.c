/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text/clicks-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"

char *
carpace_text_clicks_measured (const CarpaceClicksCount *count)
{
  g_autofree char *in = carpace_text_duration (count->ms);
  double clicks;

  if (!carpace_clicks_a_minute (count, &clicks))
    return g_strdup (_("Clicks measured: unknown."));
  return g_strdup_printf (_("Clicks measured: %.0f a minute, in %s. A click is not an effort of the wrist."), clicks, in);
}
