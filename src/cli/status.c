/* SPDX-License-Identifier: GPL-3.0-or-later */
/* status.c: `carpace status`. */
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "cli/cli.h"
#include "cli/options.h"
#include "cli/remote.h"

typedef struct
{
  CarpaceCli *cli;
  bool json, follow;
  bool printed;
  char *last; /**< text: the line printed last */
} Watch;

static bool
print (Watch *watch, const char *line)
{
  watch->printed = true;
  return fprintf (watch->cli->out, "%s\n", line) >= 0 && fflush (watch->cli->out) == 0;
}

/* The line for people comes from the program itself; one that is the same as
 * before is not printed again. */
static bool
print_text (Watch *watch)
{
  static const char *const words[] = { "status" };
  const CarpaceRemote *remote = &watch->cli->remote;
  char *message = NULL;
  bool goes_on = remote->command (remote->self, 1, words, &message) == CARPACE_EXIT_DONE;

  if (goes_on && message && g_strcmp0 (message, watch->last) != 0)
    {
      goes_on = print (watch, message);
      g_free (watch->last);
      watch->last = g_strdup (message);
    }
  free (message);
  return goes_on;
}

static bool
on_line (void *user, const char *json)
{
  Watch *watch = user;
  bool goes_on = watch->json ? print (watch, json) : print_text (watch);

  return goes_on && watch->follow;
}

int
carpace_cli_status (CarpaceCli *cli, int argc, char **argv)
{
  static const char *const words[] = { "status" };
  const char *format = NULL;
  Watch watch = { .cli = cli };
  const CarpaceOption options[] = { { .name = "format", .value = &format }, { .name = "follow", .flag = &watch.follow } };

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0
      || !carpace_option_format (cli, format, &watch.json))
    return CARPACE_EXIT_WORDS;
  if (!watch.json && !watch.follow)
    return carpace_remote_ask (cli, 1, words);
  int status = cli->remote.follow (cli->remote.self, on_line, &watch);
  g_free (watch.last);
  if (status != CARPACE_EXIT_DONE && !watch.printed)
    return carpace_remote_tell (cli, status);
  return watch.printed ? CARPACE_EXIT_DONE : status;
}
