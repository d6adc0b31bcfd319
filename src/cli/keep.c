/* SPDX-License-Identifier: GPL-3.0-or-later */
/* keep.c: a file on the shelf says that a keyring is to be asked at all, so that nobody else's commands wait for one. */
#include "cli/keep.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cli/by-window.h"
#include "cli/options.h"
#include "cli/team.h"
#include "team/shelf.h"
#include "text/quoted.h"

#define KEPT "keyring" /* on the shelf: the key whose pass phrase is kept */

static CarpaceKeyringEnd
find (CarpaceCli *cli, const char *key, char **ret_phrase)
{
  CarpaceKeyring keyring;

  return cli->find_keyring != NULL && cli->find_keyring (&keyring) ? keyring.find (key, ret_phrase) : CARPACE_KEYRING_FAILED;
}

static bool
is_kept (CarpaceCli *cli, const char *key)
{
  g_autofree char *kept = carpace_shelf_text (&cli->shelf, KEPT);

  return kept != NULL && strcmp (kept, key) == 0;
}

bool
carpace_cli_unlock_kept (CarpaceCli *cli, const CarpaceCard *card, CarpacePerson *ret_person)
{
  char key[CARPACE_KEY_SHORT_BYTES], *phrase = NULL;
  CarpaceKeyringEnd end;
  bool opens;

  carpace_key_short (&card->sign, key);
  if (!is_kept (cli, key))
    return false;
  end = find (cli, key, &phrase);
  opens = end == CARPACE_KEYRING_DONE && carpace_cli_opens (cli, card, phrase, ret_person) == CARPACE_TEAM_FINE;
  carpace_cli_forget_phrase (phrase);
  if (end == CARPACE_KEYRING_FAILED)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The desktop's keyring did not answer: your pass phrase is asked for."));
  else if (!opens)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                        _("The desktop's keyring gave no pass phrase that opens your key: it is asked for, and “carpace key keep” keeps it anew."));
  return opens;
}

/* ---- keeping it ---- */

/* What is said to be kept was there when it was looked for. */
static bool
keep_and_look (const CarpaceKeyring *keyring, const char *key, const char *label, const char *phrase)
{
  char *found = NULL;
  bool kept = keyring->keep (key, label, phrase) == CARPACE_KEYRING_DONE && keyring->find (key, &found) == CARPACE_KEYRING_DONE
              && strcmp (found, phrase) == 0;

  carpace_cli_forget_phrase (found);
  return kept;
}

static int
keep_phrase (CarpaceCli *cli, const CarpaceKeyring *keyring, const CarpaceCard *card, const char *key, const char *phrase)
{
  g_autofree char *name = carpace_text_harmless (card->name), *label = g_strdup_printf (_("Carpace: pass phrase of the key of %s"), name);
  CarpacePerson person;
  CarpaceTeamFault fault = carpace_cli_opens (cli, card, phrase, &person);

  if (fault != CARPACE_TEAM_FINE)
    return carpace_cli_team_fault (cli, fault, "person.key");
  carpace_person_wipe (&person);
  if (!keep_and_look (keyring, key, label, phrase))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The desktop's keyring did not take it: your pass phrase is asked for, as before."));
  if (!carpace_shelf_keep_text (&cli->shelf, KEPT, key))
    {
      keyring->forget (key);
      return carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, KEPT);
    }
  fprintf (cli->out, _("Your pass phrase is in the desktop's keyring, as “%s”, and not asked for any more. While the keyring is open, "
                       "other programs of yours can read it there. “carpace key keep --remove” takes it out.\n"), label);
  return CARPACE_EXIT_DONE;
}

/* Whatever the keyring says, it is not asked any more. */
static int
remove_phrase (CarpaceCli *cli, const CarpaceKeyring *keyring, const char *key)
{
  bool asked = is_kept (cli, key);
  CarpaceKeyringEnd end = keyring != NULL ? keyring->forget (key) : CARPACE_KEYRING_FAILED;

  if (asked && !cli->shelf.remove (cli->shelf.self, KEPT))
    return carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, KEPT);
  if (end == CARPACE_KEYRING_FAILED)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The desktop's keyring did not answer: it is not asked any more, but what it keeps may be there still."));
  fprintf (cli->out, "%s\n", end == CARPACE_KEYRING_DONE || asked ? _("The desktop's keyring does not keep your pass phrase any more: it is asked for.")
                                                                 : _("The desktop's keyring did not keep your pass phrase."));
  return CARPACE_EXIT_DONE;
}

int
carpace_cli_keep (CarpaceCli *cli, int argc, char **argv)
{
  const char *phrase_file = NULL;
  bool remove = false;
  const CarpaceOption options[] = { { .name = "remove", .flag = &remove }, { .name = "phrase-file", .value = &phrase_file } };
  char key[CARPACE_KEY_SHORT_BYTES], *phrase;
  CarpaceKeyring keyring;
  CarpaceCard card;
  bool found;
  int status;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0)
    return CARPACE_EXIT_WORDS;
  if (!carpace_cli_own_card (cli, &card))
    return CARPACE_EXIT_REFUSED;
  carpace_key_short (&card.sign, key);
  found = cli->find_keyring != NULL && cli->find_keyring (&keyring);
  if (remove)
    return remove_phrase (cli, found ? &keyring : NULL, key);
  if (!found)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("This installation has no part for the desktop's keyring."));
  phrase = carpace_cli_phrase (cli, phrase_file);
  if (phrase == NULL)
    return CARPACE_EXIT_REFUSED;
  status = keep_phrase (cli, &keyring, &card, key, phrase);
  carpace_cli_forget_phrase (phrase);
  return status;
}

/* ---- by a window ---- */

static bool
can (void *self)
{
  CarpaceCli *cli = self;
  CarpaceKeyring keyring;

  return cli->find_keyring != NULL && cli->find_keyring (&keyring) && keyring.is_there ();
}

static bool
own_is_kept (void *self)
{
  CarpaceCli *cli = self;
  char key[CARPACE_KEY_SHORT_BYTES];
  CarpaceCard card;

  if (!carpace_team_ready () || carpace_shelf_card (&cli->shelf, &card, NULL) != CARPACE_TEAM_FINE)
    return false;
  carpace_key_short (&card.sign, key);
  return is_kept (cli, key);
}

static bool
lacked (void *self)
{
  return ((CarpaceCli *) self)->phrase_asked;
}

static char *
keep_by_window (void *self, const char *phrase, bool *ret_done)
{
  static const char *const words[] = { "key keep", NULL };

  return carpace_cli_by_window (self, carpace_cli_keep, words, phrase, ret_done);
}

static char *
forget_by_window (void *self, bool *ret_done)
{
  static const char *const words[] = { "key keep", "--remove", NULL };

  return carpace_cli_by_window (self, carpace_cli_keep, words, "", ret_done);
}

CarpaceKeptPhrase
carpace_cli_kept_phrase (CarpaceCli *cli)
{
  return (CarpaceKeptPhrase) { cli, can, own_is_kept, lacked, keep_by_window, forget_by_window };
}
