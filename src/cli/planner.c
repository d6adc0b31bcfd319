/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner.c: `carpace planner`: a plan in a window. */
#include <glib.h>
#include <glib/gi18n.h>

#include "cli/options.h"

int
carpace_cli_planner (CarpaceCli *cli, int argc, char **argv)
{
  const char *file[1] = { NULL };
  g_autofree char *why = NULL;

  if (carpace_options_read (cli, argc, argv, NULL, 0, file, 1) < 0)
    return CARPACE_EXIT_WORDS;
  switch (cli->show_planner != NULL ? cli->show_planner (&cli->plans, cli->measure, file[0], &why) : CARPACE_PLANNER_NO_DISPLAY)
    {
    case CARPACE_PLANNER_CLOSED: return CARPACE_EXIT_DONE;
    case CARPACE_PLANNER_NOT_READ: return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", why);
    case CARPACE_PLANNER_NO_DISPLAY: break;
    }
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is no display to show the planner on; “carpace plan set” changes a plan without one."));
}
