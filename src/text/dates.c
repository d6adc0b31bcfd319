/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dates.c: dates and shares in words. */
#include "text/text.h"

#include <glib.h>
#include <glib/gi18n.h>

char *
carpace_text_day (CarpaceDay day)
{
  int32_t y, m, d;
  char iso[CARPACE_DAY_BYTES];

  carpace_day_to_civil (day, &y, &m, &d);
  g_autoptr (GDateTime) date = y >= 1 && y <= 9999 ? g_date_time_new_utc (y, m, d, 0, 0, 0) : NULL;
  carpace_day_write (day, iso);
  /* Translators: a date with its weekday, in the codes of strftime(); "Tue 2 Mar 2027" */
  return date ? g_date_time_format (date, _("%a %-d %b %Y")) : g_strdup (iso);
}

char *
carpace_text_share (int32_t share)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  g_snprintf (number, sizeof number, "%g", share / 100.0);
  /* Translators: a percentage; the number comes as text */
  return g_strdup_printf (_("%s %%"), number);
}
