/* SPDX-License-Identifier: GPL-3.0-or-later */
/* club.c: `carpace club`. */
#include "cli/club.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cli/options.h"
#include "cli/team.h"
#include "text/club-text.h"
#include "text/quoted.h"
#include "text/team-text.h"

#define LOGIN_MOST 63 /* bytes of a role's name, PostgreSQL's NAMEDATALEN - 1 */

void
carpace_cli_club_told (void *user, const char *message)
{
  carpace_cli_refuse (user, CARPACE_EXIT_REFUSED, "%s", message);
}

static bool
find (CarpaceCli *cli, CarpaceClub *ret_club)
{
  if (cli->find_club (ret_club))
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("This installation has no part for a club's database: install the package carpace-club."));
  return false;
}

bool
carpace_cli_open_club (CarpaceCli *cli, const char *address, const char *folder, CarpaceRosterStore *ret_store, CarpaceClubLogin *ret_login)
{
  CarpaceClub club;

  if (!find (cli, &club) || !club.open (address, carpace_cli_club_told, cli, ret_store, ret_login))
    return false;
  if (folder != NULL && !ret_login->gathers)
    {
      g_autofree char *place = carpace_text_club_place (address), *sentence = carpace_text_club_fault (CARPACE_CLUB_NO_GATHERER, place, NULL);

      carpace_cli_club_told (cli, sentence);
      ret_store->free (ret_store->self);
      return false;
    }
  return true;
}

/* ---- made, brought on ---- */

static int
make (CarpaceCli *cli, int argc, char **argv)
{
  const char *words[1];
  int32_t from, to;
  CarpaceClub club;
  int n = carpace_options_read (cli, argc, argv, NULL, 0, words, 1);

  if (n == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say where: carpace club make postgresql://HOST/DATABASE."));
  if (n < 0)
    return CARPACE_EXIT_WORDS;
  if (!find (cli, &club) || !club.make (words[0], carpace_cli_club_told, cli, &from, &to))
    return CARPACE_EXIT_REFUSED;
  if (from == to)
    fprintf (cli->out, _("Nothing was to be done: its form is %d already.\n"), (int) to);
  else if (from == 0)
    fprintf (cli->out, _("Made, form %d: now “carpace club admit” those who read, and one who gathers.\n"), (int) to);
  else
    fprintf (cli->out, _("Brought on from form %d to form %d.\n"), (int) from, (int) to);
  return CARPACE_EXIT_DONE;
}

/* ---- who logs in ---- */

/* @return false, told */
static bool
is_login (CarpaceCli *cli, const char *login)
{
  if (login[0] != '\0' && strlen (login) <= LOGIN_MOST && g_utf8_validate (login, -1, NULL))
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("A login is 1 to %d characters."), LOGIN_MOST);
  return false;
}

/* Somebody who was accepted, or oneself. @return false, told */
static bool
find_member (CarpaceCli *cli, const char *who, CarpaceCard *ret_card)
{
  CarpaceCard own;

  if (!carpace_cli_own_card (cli, &own))
    return false;
  if (strcmp (own.name, who) == 0)
    *ret_card = own;
  else if (!carpace_cli_find_person (cli, who, ret_card))
    return false;
  if (ret_card->role == CARPACE_ROLE_COACH || ret_card->role == CARPACE_ROLE_CLINICIAN)
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Only a coach or a clinician reads a roster; %s made their key as something else."), who);
  return false;
}

static int
admit (CarpaceCli *cli, int argc, char **argv)
{
  const char *words[3];
  CarpaceClubMember member = { .gathers = false };
  const CarpaceOption options[] = { { .name = "gathers", .flag = &member.gathers } };
  CarpaceClub club;
  CarpaceCard card;
  int n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 3);

  if (n >= 0 && n < 3)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say who, by which login and where: carpace club admit NAME LOGIN ADDRESS."));
  if (n < 0 || !is_login (cli, words[1]))
    return CARPACE_EXIT_WORDS;
  if (!find_member (cli, words[0], &card) || !find (cli, &club))
    return CARPACE_EXIT_REFUSED;
  member.login = words[1];
  member.key = card.sign;
  member.role = card.role;
  if (!club.admit (words[2], carpace_cli_club_told, cli, &member))
    return CARPACE_EXIT_REFUSED;
  {
    g_autofree char *login = carpace_text_quoted (words[1]), *name = carpace_text_quoted (card.name);

    fprintf (cli->out, member.gathers ? _("%s is the login of %s (%s), and takes in what players leave.\n") : _("%s is the login of %s (%s).\n"),
             login, name, carpace_text_role (card.role));
  }
  return CARPACE_EXIT_DONE;
}

static int
dismiss (CarpaceCli *cli, int argc, char **argv)
{
  const char *words[2];
  CarpaceClub club;
  int n = carpace_options_read (cli, argc, argv, NULL, 0, words, 2);

  if (n >= 0 && n < 2)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say which login and where: carpace club dismiss LOGIN ADDRESS."));
  if (n < 0 || !is_login (cli, words[0]))
    return CARPACE_EXIT_WORDS;
  if (!find (cli, &club) || !club.dismiss (words[1], carpace_cli_club_told, cli, words[0]))
    return CARPACE_EXIT_REFUSED;
  fprintf (cli->out, _("%s reads nothing any more.\n"), words[0]);
  return CARPACE_EXIT_DONE;
}

int
carpace_cli_club (CarpaceCli *cli, int argc, char **argv)
{
  static const CarpaceCliPart parts[] = { { "make", make }, { "admit", admit }, { "dismiss", dismiss } };

  return carpace_cli_run_part (cli, argc, argv, parts, G_N_ELEMENTS (parts));
}
