/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/successor.h"

#include <glib/gi18n.h>

#include "cli/clock.h"
#include "cli/files.h"
#include "cli/options.h"
#include "cli/team.h"
#include "team/hand-out.h"
#include "text/quoted.h"

/* ---- naming one ---- */

int
carpace_cli_name_successor (CarpaceCli *cli, int argc, char **argv)
{
  const char *phrase_file = NULL, *words[2];
  bool force = false;
  const CarpaceOption options[] = { { .name = "phrase-file", .value = &phrase_file }, { .name = "force", .flag = &force } };
  g_autoptr (GByteArray) file = NULL;
  g_autofree char *name = NULL;
  CarpaceCard own, after;
  CarpacePerson person;
  int n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 2);

  if (n >= 0 && n < 2)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name your successor and the file to write: carpace key successor NAME FILE."));
  if (n < 0)
    return CARPACE_EXIT_WORDS;
  if (!carpace_cli_own_card (cli, &own) || !carpace_cli_find_person (cli, words[0], &after)
      || !carpace_cli_unlock (cli, phrase_file, &person))
    return CARPACE_EXIT_REFUSED;
  file = carpace_heir_name (&person, &after, carpace_cli_now (cli).wall_ms / 1000);
  carpace_person_wipe (&person);
  if (!carpace_cli_write_file (cli, words[1], force, (const char *) file->data, file->len))
    return CARPACE_EXIT_REFUSED;
  name = carpace_text_quoted (after.name);
  fprintf (cli->out, _("Signed by you. %s has to sign it, too (carpace key succeed), before players can accept it.\n"), name);
  return CARPACE_EXIT_DONE;
}

/* ---- being one ---- */

int
carpace_cli_succeed (CarpaceCli *cli, int argc, char **argv)
{
  const char *phrase_file = NULL, *words[2];
  bool force = false;
  const CarpaceOption options[] = { { .name = "phrase-file", .value = &phrase_file }, { .name = "force", .flag = &force } };
  g_autoptr (GByteArray) file = NULL, both = NULL;
  CarpaceTeamFault fault;
  CarpacePerson person;
  int n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 2);

  if (n >= 0 && n < 2)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name what was signed for you, and the file to write: carpace key succeed FILE FILE."));
  if (n < 0)
    return CARPACE_EXIT_WORDS;
  file = carpace_cli_read_team (cli, words[0]);
  if (file == NULL || !carpace_cli_unlock (cli, phrase_file, &person))
    return CARPACE_EXIT_REFUSED;
  fault = carpace_heir_countersign (file->data, file->len, &person, &both);
  carpace_person_wipe (&person);
  if (fault == CARPACE_TEAM_NOT_FOR_YOU)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("It names somebody else than you as the successor."));
  if (fault != CARPACE_TEAM_FINE)
    return carpace_cli_team_fault (cli, fault, words[0]);
  if (!carpace_cli_write_file (cli, words[1], force, (const char *) both->data, both->len))
    return CARPACE_EXIT_REFUSED;
  fprintf (cli->out, "%s\n", _("Signed by both of you. A player who has accepted both keys takes it with “carpace key accept”; what they let you read, they grant you anew."));
  return CARPACE_EXIT_DONE;
}

/* ---- accepting one ---- */

int
carpace_cli_accept_successor (CarpaceCli *cli, const char *path, const GByteArray *file)
{
  CarpaceSignatures signatures;
  CarpaceCard before, after;
  CarpaceHeir heir;
  CarpaceTeamFault fault = carpace_team_ready () ? carpace_signed_read (CARPACE_TEAM_HEIR, file->data, file->len, &heir, &signatures)
                                                 : CARPACE_TEAM_FAILED;
  g_autofree char *name = NULL, *name_before = NULL;

  if (fault == CARPACE_TEAM_FINE && signatures.n == 1 && carpace_signed_by (&signatures, &heir.before))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The successor has not signed it yet: “carpace key succeed” on their computer."));
  if (fault == CARPACE_TEAM_FINE)
    fault = carpace_heir_read (file->data, file->len, &heir);
  if (fault == CARPACE_TEAM_FINE && !(carpace_shelf_knows (&cli->shelf, &heir.before, &before) && carpace_shelf_knows (&cli->shelf, &heir.sign, &after)))
    fault = CARPACE_TEAM_UNKNOWN;
  if (fault == CARPACE_TEAM_FINE && !carpace_heir_keep (&cli->shelf, file))
    fault = CARPACE_TEAM_FAILED;
  if (fault != CARPACE_TEAM_FINE)
    return carpace_cli_team_fault (cli, fault, path);
  name = carpace_text_quoted (after.name);
  name_before = carpace_text_quoted (before.name);
  fprintf (cli->out, _("%s may change what the plans that %s gave you fix. What you let them read stays as it is.\n"), name, name_before);
  return CARPACE_EXIT_DONE;
}
