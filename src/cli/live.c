/* SPDX-License-Identifier: GPL-3.0-or-later */
/* live.c: commands that the running program carries out. */
#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#include "app/commands.h"
#include "cli/options.h"
#include "cli/remote.h"
#include "text/quoted.h"
#include "text/text.h"

/* How many words there are at most after `window` and this one; 0 where there is no such. */
static int
most_after_window (const char *what)
{
  if (strcmp (what, "forget") == 0)
    return 3;
  return strcmp (what, "pick") == 0 || strcmp (what, "list") == 0 ? 2 : 0;
}

/* Words that no program could understand go to none, running or not. */
static bool
words_are_understood (CarpaceCli *cli, int n, const char *const *words)
{
  CarpaceEvent event;
  CarpaceWording wording;

  if (strcmp (words[0], "quit") == 0 || strcmp (words[0], "settings") == 0)
    {
      wording = (CarpaceWording) { .fault = CARPACE_WORDING_TOO_MANY, .at = 1 };
      if (n == 1)
        return true;
    }
  else if (strcmp (words[0], "window") == 0)
    {
      int most = n > 1 ? most_after_window (words[1]) : 0;

      if (n == 1)
        {
          carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, "%s", _("“window” needs “pick”, “list” or “forget” after it."));
          return false;
        }
      if (most == 0 && words[1][0] != '-')
        {
          g_autofree char *word = carpace_text_quoted (words[1]);

          carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("%s is none of “pick”, “list” and “forget”; “window” needs one of them."),
                              word);
          return false;
        }
      if (most > 0 && n <= most)
        return true;
      wording = (CarpaceWording) { .fault = CARPACE_WORDING_TOO_MANY, .at = MAX (most, 1) };
      if (words[wording.at][0] == '-')
        wording.fault = CARPACE_WORDING_NOT_OPTION;
    }
  else if (carpace_command_read (n, words, &event, &wording))
    return true;
  g_autofree char *sentence = carpace_text_wording (&wording, n, words, NULL);
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, "%s", sentence);
  return false;
}

int
carpace_cli_live (CarpaceCli *cli, int argc, char **argv)
{
  const char *const *words = (const char *const *) argv;

  if (!words_are_understood (cli, argc, words))
    return CARPACE_EXIT_WORDS;
  return carpace_remote_ask (cli, argc, words);
}
