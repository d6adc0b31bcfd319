/* SPDX-License-Identifier: GPL-3.0-or-later */
/* main.c: the tray program, or the module of the commands. */
#include <fcntl.h>
#include <glib/gi18n.h>
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "adapters/plan-files.h"
#include "adapters/wayland.h"
#include "carpace-config.h"
#include "cli/cli.h"
#include "forms/plan-yaml.h"
#include "program-commands.h"
#include "program-places.h"
#include "program.h"

/* A compositor that was restarted is there again by then; where the session has ended, none comes. */
#define COMPOSITOR_WITHIN_MS (20 * 1000)

static int
run_command (const CarpacePlanFiles *plans, int argc, char **argv)
{
  void (*found) (void);

  if (carpace_program_module ("", "carpace-commands.so", "carpace_program_commands", &found))
    return ((CarpaceProgramCommands) found) (plans, argc, argv);
  fprintf (stderr, "%s\n", _("The commands are missing from this installation; please install Carpace anew."));
  return CARPACE_EXIT_REFUSED;
}

/* A file that is opened later must not become the standard output of a program
 * that was started without one. What is written to a closed one fails as before. */
static void
open_on_nothing (void)
{
  static const int ways[] = { [STDIN_FILENO] = O_WRONLY, [STDOUT_FILENO] = O_RDONLY, [STDERR_FILENO] = O_WRONLY };

  for (int fd = 0; fd < (int) G_N_ELEMENTS (ways); fd++)
    if (fcntl (fd, F_GETFD) < 0 && open ("/dev/null", ways[fd]) != fd)
      abort ();
}

/* While it waits it has nothing open: what ends it need not be taken care of. What it was started without stays ignored. */
static void
end_at_once (void)
{
  static const int ending[] = { SIGTERM, SIGINT, SIGHUP };
  struct sigaction now;

  for (size_t i = 0; i < G_N_ELEMENTS (ending); i++)
    if (sigaction (ending[i], NULL, &now) == 0 && now.sa_handler != SIG_IGN)
      signal (ending[i], SIG_DFL);
}

int
main (int argc, char **argv)
{
  CarpacePlanFiles plans;
  int status;

  open_on_nothing ();
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, CARPACE_LOCALE);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  plans = carpace_plan_folders_new (carpace_plan_yaml (), carpace_program_uninstalled (CARPACE_SOURCE_FOLDER "/src/data/plans"), NULL);
  status = argc <= 1 ? carpace_program_run (argc, argv, &plans, carpace_program_uninstalled (CARPACE_SOURCE_FOLDER "/icons"))
                     : run_command (&plans, argc, argv);
  CARPACE_PORT_FREE (plans);
  if (status == CARPACE_PROGRAM_ANEW_LATER)
    end_at_once ();
  if (status == CARPACE_PROGRAM_ANEW_LATER && !carpace_wayland_wait (COMPOSITOR_WITHIN_MS))
    return CARPACE_EXIT_DONE;
  if (status == CARPACE_PROGRAM_ANEW || status == CARPACE_PROGRAM_ANEW_LATER)
    {
      execv ("/proc/self/exe", argv);
      return CARPACE_EXIT_REFUSED;
    }
  return status;
}
