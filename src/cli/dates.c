/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dates.c: dates as options. */
#include "cli/dates.h"

#include <glib/gi18n.h>

#include "cli/options.h"
#include "text/quoted.h"

bool
carpace_option_day (CarpaceCli *cli, const char *name, const char *value, CarpaceDay *ret_day)
{
  g_autofree char *shown = NULL;

  if (value == NULL || carpace_day_read (value, ret_day))
    return true;
  shown = carpace_text_quoted (value);
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--%s: %s is no date; write one as 2027-03-02."), name, shown);
  return false;
}

bool
carpace_option_period (CarpaceCli *cli, const char *since, const char *until, CarpaceDay *ret_since,
                       CarpaceDay *ret_until)
{
  CarpaceDay from = INT32_MIN, to = INT32_MAX;

  if (!carpace_option_day (cli, "since", since, &from) || !carpace_option_day (cli, "until", until, &to))
    return false;
  if (from > to)
    {
      carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--until is before --since; write the earlier date after --since."));
      return false;
    }
  *ret_since = from;
  *ret_until = to;
  return true;
}
