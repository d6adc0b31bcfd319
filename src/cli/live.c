/* SPDX-License-Identifier: GPL-3.0-or-later */
/* live.c: commands that the running program carries out. */
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "app/commands.h"
#include "cli/cli.h"
#include "cli/options.h"
#include "cli/remote.h"
#include "text/text.h"

/* Words that no program could understand are told here, running or not. */
static bool
words_are_understood (CarpaceCli *cli, int n, const char *const *words)
{
  CarpaceEvent event;
  CarpaceWording wording;

  if (strcmp (words[0], "quit") == 0)
    {
      wording = (CarpaceWording) { .fault = CARPACE_WORDING_TOO_MANY, .at = 1 };
      if (n == 1)
        return true;
    }
  else if (carpace_command_read (n, words, &event, &wording))
    return true;
  g_autofree char *sentence = carpace_text_wording (&wording, n, words, NULL);
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, "%s", sentence);
  return false;
}

int
carpace_remote_ask (CarpaceCli *cli, int n, const char *const *words)
{
  char *message = NULL;
  int status = cli->remote.command (cli->remote.self, n, words, &message);

  if (message && *message)
    fprintf (status == CARPACE_EXIT_DONE ? cli->out : cli->err, "%s\n", message);
  else if (status != CARPACE_EXIT_DONE)
    carpace_remote_tell (cli, status);
  free (message);
  return status;
}

int
carpace_remote_tell (CarpaceCli *cli, int status)
{
  if (status == CARPACE_EXIT_NOT_RUNNING)
    return carpace_cli_refuse (cli, status, _("Carpace is not running in this login session; start it with “carpace”."));
  return carpace_cli_refuse (cli, status, _("The running program did not do it and did not say why; “carpace status” "
                                            "tells how things stand."));
}

int
carpace_cli_live (CarpaceCli *cli, int argc, char **argv)
{
  const char *const *words = (const char *const *) argv;

  if (!words_are_understood (cli, argc, words))
    return CARPACE_EXIT_WORDS;
  return carpace_remote_ask (cli, argc, words);
}
