/* SPDX-License-Identifier: GPL-3.0-or-later */
/* remote.c: asking the running program. */
#include "cli/remote.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "cli/options.h"
#include "text/on-air-text.h"
#include "text/quoted.h"

int
carpace_remote_ask (CarpaceCli *cli, int n, const char *const *words)
{
  char *message = NULL;
  int status = cli->remote.command (cli->remote.self, n, words, &message);

  if (message && *message)
    {
      g_autofree char *harmless = carpace_text_harmless (message);
      fprintf (status == CARPACE_EXIT_DONE ? cli->out : cli->err, "%s\n", harmless);
    }
  else if (status != CARPACE_EXIT_DONE)
    status = carpace_remote_tell (cli, status);
  free (message);
  return status;
}

/* Nothing of what was typed or refused goes there: it may be anything. One that does not
 * answer may well be on air. */
static bool
is_on_air (CarpaceCli *cli)
{
  static const char *const question[] = { "told-on-air" };
  char *message = NULL;
  int status = CARPACE_EXIT_NOT_RUNNING;

  if (cli->air == CARPACE_AIR_NOT_ASKED && cli->remote.command != NULL)
    status = cli->remote.command (cli->remote.self, 1, question, &message);
  if (cli->air == CARPACE_AIR_NOT_ASKED)
    cli->air = status == CARPACE_EXIT_NOT_RUNNING || (status == CARPACE_EXIT_DONE && (message == NULL || *message == '\0'))
                 ? CARPACE_AIR_OFF
                 : CARPACE_AIR_ON;
  free (message);
  return cli->air == CARPACE_AIR_ON;
}

const char *
carpace_remote_says (CarpaceCli *cli, int status, const char *sentence)
{
  if (!is_on_air (cli))
    return sentence;
  return carpace_text_on_air (status == CARPACE_EXIT_WORDS ? CARPACE_MESSAGE_WORDING : CARPACE_MESSAGE_REFUSED, sentence);
}

int
carpace_remote_tell (CarpaceCli *cli, int status)
{
  if (status == CARPACE_EXIT_NOT_RUNNING)
    return carpace_cli_tell (cli, status, _("Carpace is not running in this login session; start it with “carpace”."));
  if (status == CARPACE_REMOTE_LATE)
    return carpace_cli_tell (cli, CARPACE_EXIT_REFUSED,
                             _("The running program did not answer in time; it may still do it: see “carpace status”."));
  return carpace_cli_tell (cli, status, _("The running program did not do it and did not say why; “carpace status” "
                                          "tells how things stand."));
}
