/* SPDX-License-Identifier: GPL-3.0-or-later */
/* key.c: `carpace key`. */
#include <errno.h>
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/cli.h"
#include "cli/clock.h"
#include "cli/files.h"
#include "cli/keep.h"
#include "cli/options.h"
#include "cli/successor.h"
#include "cli/team.h"
#include "forms/json.h"
#include "forms/qr-blocks.h"
#include "team/note.h"
#include "team/words.h"
#include "text/quoted.h"
#include "text/team-text.h"

static const char *const roles[] = { "player", "coach", "clinician", "guardian", NULL };

/* ---- showing ---- */

/* All of both keys, for a camera. */
static char *
code_of (const CarpaceCard *card)
{
  GString *text = g_string_new ("CARPACE ");

  for (int i = 0; i < 2 * CARPACE_KEY_BYTES; i++)
    g_string_append_printf (text, "%02X", i < CARPACE_KEY_BYTES ? card->sign.byte[i] : card->seal.byte[i - CARPACE_KEY_BYTES]);
  return g_string_free (text, FALSE);
}

static void
show_json (CarpaceCli *cli, const CarpaceCard *card)
{
  GString *out = g_string_new (NULL);
  char words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES], key[CARPACE_KEY_SHORT_BYTES];

  carpace_spoken (&card->sign, &card->seal, words);
  carpace_key_short (&card->sign, key);
  carpace_json_open (out, '{');
  carpace_json_key (out, "name");
  carpace_json_string (out, card->name);
  carpace_json_key (out, "role");
  carpace_json_string (out, carpace_name (CARPACE_WORDS_ROLE, (int32_t) card->role));
  carpace_json_key (out, "key");
  carpace_json_string (out, key);
  carpace_json_key (out, "words");
  carpace_json_string (out, words);
  carpace_json_close (out, '}');
  fprintf (cli->out, "%s\n", out->str);
  g_string_free (out, TRUE);
}

static void
show_text (CarpaceCli *cli, const CarpaceCard *card)
{
  char words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES], key[CARPACE_KEY_SHORT_BYTES];
  g_autofree char *name = carpace_text_harmless (card->name);

  carpace_spoken (&card->sign, &card->seal, words);
  carpace_key_short (&card->sign, key);
  fprintf (cli->out, "%-16s %s  %s\n%-16s %s\n", name, key, carpace_text_role (card->role), "", words);
}

/* The own card, that of somebody who was accepted, or one in a file. @return false, told */
static bool
card_of (CarpaceCli *cli, const char *which, CarpaceCard *ret_card)
{
  g_autoptr (GByteArray) file = NULL;

  if (which == NULL)
    return carpace_cli_own_card (cli, ret_card);
  if (carpace_team_ready () && carpace_shelf_find (&cli->shelf, which, ret_card) == 1)
    return true;
  file = carpace_cli_read_card (cli, which, ret_card);
  return file != NULL;
}

static int
show (CarpaceCli *cli, int argc, char **argv)
{
  const char *format = NULL, *words[1];
  bool code = false, light = false, json;
  const CarpaceOption options[] = { { .name = "format", .value = &format }, { .name = "qr", .flag = &code },
                                    { .name = "on-dark", .flag = &light } };
  CarpaceCard card;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1) < 0
      || !carpace_option_format (cli, format, &json))
    return CARPACE_EXIT_WORDS;
  if (!card_of (cli, words[0], &card))
    return CARPACE_EXIT_REFUSED;
  if (json)
    show_json (cli, &card);
  else
    show_text (cli, &card);
  if (code && !json)
    {
      g_autofree char *text = code_of (&card), *blocks = carpace_qr_blocks (text, light);

      fprintf (cli->out, "%s%s\n", blocks != NULL ? blocks : "", text);
    }
  return CARPACE_EXIT_DONE;
}

static int
say_words (CarpaceCli *cli, int argc, char **argv)
{
  const char *which[1];
  char words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES];
  CarpaceCard card;

  if (carpace_options_read (cli, argc, argv, NULL, 0, which, 1) < 0)
    return CARPACE_EXIT_WORDS;
  if (!card_of (cli, which[0], &card))
    return CARPACE_EXIT_REFUSED;
  carpace_spoken (&card.sign, &card.seal, words);
  fprintf (cli->out, "%s\n", words);
  return CARPACE_EXIT_DONE;
}

/* ---- making ---- */

/* @return false, told, where there are keys already, or half of them */
static bool
may_make (CarpaceCli *cli)
{
  CarpaceCard card;
  CarpaceTeamFault keys = carpace_team_ready () ? carpace_shelf_has_keys (&cli->shelf) : CARPACE_TEAM_FAILED;
  CarpaceTeamFault there = keys == CARPACE_TEAM_NO_FILE ? carpace_shelf_card (&cli->shelf, &card, NULL) : keys;

  if (there == CARPACE_TEAM_NO_FILE)
    return true;
  if (keys == CARPACE_TEAM_FINE)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("You have keys already: “carpace key show” shows them. Nothing was made."));
  else if (keys == CARPACE_TEAM_NO_FILE && there == CARPACE_TEAM_FINE)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Your card is there, and its secret, the file person.key beside it, is not: bring that back from a copy, or take person.card away to begin anew."));
  else
    carpace_cli_team_fault (cli, there, keys == CARPACE_TEAM_NO_FILE ? "person.card" : "person.key");
  return false;
}

static int
make (CarpaceCli *cli, int argc, char **argv)
{
  const char *role = NULL, *phrase_file = NULL, *words[1];
  const CarpaceOption options[] = { { .name = "role", .value = &role }, { .name = "phrase-file", .value = &phrase_file } };
  char spoken[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES], *phrase;
  int choice, n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);
  CarpaceCard card;
  CarpaceTeamFault fault;

  if (n < 0 || (choice = carpace_option_choice (cli, "role", role, roles)) < 0)
    return CARPACE_EXIT_WORDS;
  if (n == 0 || !carpace_shelf_is_name (words[0]))
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name yourself, by a code or a name of 1 to 64 characters: carpace key new NAME."));
  if (!may_make (cli))
    return CARPACE_EXIT_REFUSED;
  phrase = carpace_cli_new_phrase (cli, phrase_file);
  if (phrase == NULL)
    return CARPACE_EXIT_REFUSED;
  fault = carpace_shelf_begin (&cli->shelf, words[0], (CarpaceRole) choice, phrase, CARPACE_LOCK_MODERATE,
                               carpace_cli_now (cli).wall_ms / 1000);
  carpace_cli_forget_phrase (phrase);
  if (fault != CARPACE_TEAM_FINE || (fault = carpace_shelf_card (&cli->shelf, &card, NULL)) != CARPACE_TEAM_FINE)
    return carpace_cli_team_fault (cli, fault, "person.key");
  carpace_spoken (&card.sign, &card.seal, spoken);
  fprintf (cli->out, _("Your keys are made. The pass phrase cannot be brought back: keep it.\nGive others your card (carpace key card "
                       "FILE) and read them your six words:\n  %s\n"), spoken);
  return CARPACE_EXIT_DONE;
}

static int
give_card (CarpaceCli *cli, int argc, char **argv)
{
  bool force = false;
  const char *words[1];
  const CarpaceOption options[] = { { .name = "force", .flag = &force } };
  g_autoptr (GByteArray) file = NULL;
  CarpaceCard card;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1) < 0)
    return CARPACE_EXIT_WORDS;
  if (!carpace_cli_own_card (cli, &card) || carpace_shelf_card (&cli->shelf, &card, &file) != CARPACE_TEAM_FINE
      || !carpace_cli_write_file (cli, words[0], force, (const char *) file->data, file->len))
    return CARPACE_EXIT_REFUSED;
  return CARPACE_EXIT_DONE;
}

/* ---- others ---- */

static int
accept (CarpaceCli *cli, int argc, char **argv)
{
  const char *said = NULL, *words[1];
  const CarpaceOption options[] = { { .name = "words", .value = &said } };
  g_autoptr (GByteArray) file = NULL;
  g_autofree char *code = NULL;
  char spoken[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES];
  CarpaceCard card;
  int n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);

  if (n == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name the file of the card: carpace key accept FILE."));
  if (n < 0)
    return CARPACE_EXIT_WORDS;
  file = carpace_cli_read_team (cli, words[0]);
  if (file != NULL && carpace_signed_kind (file->data, file->len) == CARPACE_TEAM_HEIR)
    return carpace_cli_accept_successor (cli, words[0], file);
  if (file == NULL || !carpace_cli_is_card (cli, words[0], file, &card))
    return CARPACE_EXIT_REFUSED;
  code = code_of (&card);
  carpace_spoken (&card.sign, &card.seal, spoken);
  if (said != NULL && strcmp (said, code) == 0) /* what a camera read */
    said = spoken;
  return carpace_cli_accept (cli, file, &card, said) ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
}

typedef struct
{
  CarpaceCli *cli;
  bool json;
} Listing;

static bool
show_one (void *user, const CarpaceCard *card)
{
  const Listing *listing = user;

  if (listing->json)
    show_json (listing->cli, card);
  else
    show_text (listing->cli, card);
  return true;
}

static int
list (CarpaceCli *cli, int argc, char **argv)
{
  const char *format = NULL;
  const CarpaceOption options[] = { { .name = "format", .value = &format } };
  Listing listing = { cli, false };

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0
      || !carpace_option_format (cli, format, &listing.json))
    return CARPACE_EXIT_WORDS;
  if (!carpace_team_ready () || !carpace_shelf_known (&cli->shelf, show_one, &listing))
    return carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, "team");
  return CARPACE_EXIT_DONE;
}

static int
forget (CarpaceCli *cli, int argc, char **argv)
{
  const char *words[1];
  CarpaceCard card;
  CarpaceGrant grant;
  bool guarded;
  g_autofree char *name = NULL;
  int n = carpace_options_read (cli, argc, argv, NULL, 0, words, 1);

  if (n == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say whose key: carpace key forget NAME."));
  if (n < 0)
    return CARPACE_EXIT_WORDS;
  if (!carpace_team_ready () || !carpace_cli_find_person (cli, words[0], &card))
    return CARPACE_EXIT_REFUSED;
  if (!carpace_shelf_forget (&cli->shelf, &card.sign))
    return carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, words[0]);
  carpace_note_erase (&cli->shelf, NULL, &card.sign);
  name = carpace_text_quoted (card.name);
  fprintf (cli->out, _("%s is not accepted any more.\n"), name);
  if (carpace_shelf_grant_to (&cli->shelf, &card.sign, &grant, &guarded) && grant.what != CARPACE_GRANT_NONE)
    fprintf (cli->out, "%s\n", _("You still let them read what you shared with them: “carpace share stop” ends that."));
  return CARPACE_EXIT_DONE;
}

int
carpace_cli_key (CarpaceCli *cli, int argc, char **argv)
{
  static const CarpaceCliPart parts[] = {
    { "new", make }, { "show", show }, { "words", say_words }, { "card", give_card },
    { "accept", accept }, { "list", list }, { "forget", forget }, { "keep", carpace_cli_keep },
    { "successor", carpace_cli_name_successor }, { "succeed", carpace_cli_succeed },
  };

  return carpace_cli_run_part (cli, argc, argv, parts, G_N_ELEMENTS (parts));
}
