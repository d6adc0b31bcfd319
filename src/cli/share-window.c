/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/share-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/by-window.h"
#include "cli/clock.h"
#include "cli/keep.h"
#include "cli/options.h"
#include "cli/team.h"
#include "team/shelf.h"
#include "text/file-text.h"
#include "text/quoted.h"
#include "text/team-text.h"

static bool
ready (void *self)
{
  CarpaceCard card;

  return carpace_team_ready () && carpace_shelf_card (&((CarpaceCli *) self)->shelf, &card, NULL) != CARPACE_TEAM_NO_FILE;
}

static char *
head (void *self)
{
  static const char *const folder[] = { "share", "folder", NULL };
  CarpaceCli *cli = self;
  g_autofree char *kept = carpace_shelf_text (&cli->shelf, CARPACE_SHELF_SHARE), *path = kept != NULL ? carpace_text_path (kept) : NULL;
  bool done = false;

  if (!ready (self))
    return g_strdup (_("There are no keys of yours yet: “carpace key new NAME” makes them."));
  return path != NULL ? g_strdup_printf (_("Shared through the folder %s."), path) : carpace_cli_by_window (self, carpace_cli_share, folder, "", &done);
}

/* ---- what is let ---- */

typedef struct
{
  CarpaceSharingGrant visit;
  void *user;
  int64_t now_s;
  CarpaceDay today;
} Grants;

static bool
visit_grant (void *user, const CarpaceGrant *grant, bool guarded, const GByteArray *file)
{
  const Grants *grants = user;

  return grants->visit (grants->user, grant, carpace_grant_holds (grant, guarded, grants->now_s, grants->today));
}

static void
grants (void *self, CarpaceSharingGrant visit, void *user)
{
  CarpaceCli *cli = self;
  Grants each = { visit, user, carpace_cli_now (cli).wall_ms / 1000, carpace_cli_today (cli, NULL) };

  if (carpace_team_ready ())
    carpace_shelf_grants (&cli->shelf, visit_grant, &each);
}

static void
cards (void *self, CarpaceSharingCard visit, void *user)
{
  if (carpace_team_ready ())
    carpace_shelf_known (&((CarpaceCli *) self)->shelf, visit, user);
}

/* The words are not shown: whoever types them has heard them. */
static int
say_whose (CarpaceCli *cli, int argc, char **argv)
{
  CarpaceCard read;
  g_autoptr (GByteArray) file = carpace_cli_team_on_air (cli) ? NULL : carpace_cli_read_card (cli, argv[0], &read);
  g_autofree char *name = file != NULL ? carpace_text_quoted (read.name) : NULL;

  if (file == NULL)
    return CARPACE_EXIT_REFUSED;
  fprintf (cli->out, _("This card says it is of %s (%s)."), name, carpace_text_role (read.role));
  return CARPACE_EXIT_DONE;
}

static char *
card (void *self, const char *path, bool *ret_is)
{
  const char *const words[] = { path, NULL };

  return carpace_cli_by_window (self, say_whose, words, "", ret_is);
}

/* ---- what is asked ---- */

static char *
add (void *self, const CarpaceSharingAsk *ask, bool *ret_done)
{
  g_autofree char *what = g_strconcat ("--what=", carpace_name (CARPACE_WORDS_GRANT_WHAT, (int32_t) ask->what), NULL);
  g_autofree char *until = g_strconcat ("--until=", ask->until, NULL), *said = g_strconcat ("--words=", ask->words, NULL);
  const char *words[CARPACE_BY_WINDOW_WORDS] = { "share", "with", "--yes", what };
  int n = 4;

  if (ask->until[0] != '\0')
    words[n++] = until;
  if (ask->words != NULL)
    words[n++] = said;
  words[n++] = "--";
  words[n++] = ask->who;
  return carpace_cli_by_window (self, carpace_cli_share, words, ask->phrase, ret_done);
}

static char *
stop (void *self, const char *who, const char *phrase, bool *ret_done)
{
  const char *const words[] = { "share", "stop", "--", who, NULL };

  return carpace_cli_by_window (self, carpace_cli_share, words, phrase, ret_done);
}

int
carpace_cli_share_window (CarpaceCli *cli, int argc, char **argv)
{
  const CarpaceKeptPhrase kept = carpace_cli_kept_phrase (cli);
  const CarpaceSharingShown shown = { cli, head, grants, cards, card, add, stop, ready, &kept };

  if (carpace_options_read (cli, argc, argv, NULL, 0, NULL, 0) < 0)
    return CARPACE_EXIT_WORDS;
  if (carpace_cli_team_on_air (cli))
    return CARPACE_EXIT_REFUSED;
  if (cli->show_sharing == NULL || !cli->show_sharing (&shown))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is no display for a window; “carpace share list” shows what is shared."));
  return CARPACE_EXIT_DONE;
}
