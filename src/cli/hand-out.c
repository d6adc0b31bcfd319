/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/hand-out.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cli/clock.h"
#include "cli/faults.h"
#include "cli/files.h"
#include "cli/options.h"
#include "cli/team.h"
#include "team/hand-out.h"
#include "text/quoted.h"
#include "text/team-text.h"

/* ---- what was given before ---- */

/* @return false, told, where it cannot be known */
static bool
given_before (CarpaceCli *cli, const char *name, CarpaceGivenBefore *ret_before)
{
  CarpaceDiary diary;

  *ret_before = (CarpaceGivenBefore) { .shelf = &cli->shelf, .last_fault = CARPACE_TEAM_NO_FILE };
  if (!carpace_team_ready ())
    {
      carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, name); /* no signature can be judged */
      return false;
    }
  return cli->open_diary == NULL || (cli->open_diary (cli, &diary) && carpace_given_before_read (&cli->shelf, &diary, name, ret_before));
}

static void
tell_signed (CarpaceCli *cli, const CarpaceHandOut *hand_out)
{
  g_autofree char *sentence = carpace_text_given_by (hand_out);

  fprintf (cli->out, "%s\n", sentence);
}

/* A dose is for one hand. @return false, told, where it was signed for somebody else */
static bool
is_for_me (CarpaceCli *cli, const CarpacePlan *plan, const CarpaceHandOut *hand_out)
{
  g_autofree char *name = carpace_text_quoted (plan->name);
  CarpaceCard own;

  if (!carpace_key_is_one (&hand_out->player)
      || (carpace_shelf_card (&cli->shelf, &own, NULL) == CARPACE_TEAM_FINE && carpace_key_equal (&own.sign, &hand_out->player)))
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s was signed for another player, or for other keys of yours: ask for one that is signed for you."),
                      name);
  return false;
}

bool
carpace_cli_may_take (CarpaceCli *cli, const CarpacePlan *plan, const char *text)
{
  CarpaceHandOut hand_out;
  CarpaceCard card;
  CarpaceGivenBefore before;
  CarpaceTeamFault fault;
  bool newer;

  if (cli->shelf.read == NULL || !given_before (cli, plan->name, &before))
    return cli->shelf.read == NULL;
  newer = !before.any || plan->version > before.version;
  fault = carpace_hand_out_read (text, strlen (text), &hand_out);
  if (fault == CARPACE_TEAM_FINE && !carpace_shelf_knows (&cli->shelf, &hand_out.giver, &card))
    fault = CARPACE_TEAM_UNKNOWN;
  /* An own edit of what was given keeps what is fixed, and no signature. */
  if (newer && fault != CARPACE_TEAM_FINE && fault != CARPACE_TEAM_NO_FILE)
    {
      carpace_cli_team_fault (cli, fault, plan->name);
      return false;
    }
  if (newer && !carpace_given_before_lets (&before, fault, &hand_out))
    {
      g_autofree char *giver = carpace_text_quoted (before.pin.giver_name), *name = carpace_text_quoted (plan->name);

      carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s was given and signed by %s: only that key, or one it names, may change what it fixes."),
                          name, giver);
      return false;
    }
  if (newer && fault == CARPACE_TEAM_FINE && !is_for_me (cli, plan, &hand_out))
    return false;
  if (fault == CARPACE_TEAM_FINE)
    tell_signed (cli, &hand_out);
  return true;
}

void
carpace_cli_tell_giver (CarpaceCli *cli, const CarpacePlan *plan)
{
  CarpaceGivenBefore before;
  const CarpaceHandOut *by = given_before (cli, plan->name, &before) ? carpace_given_before_by (&before, plan->version) : NULL;

  if (by != NULL)
    tell_signed (cli, by);
}

/* ---- signing ---- */

int
carpace_cli_plan_sign (CarpaceCli *cli, int argc, char **argv)
{
  const char *to = NULL, *phrase_file = NULL, *words[2];
  bool force = false, written;
  const CarpaceOption options[] = { { .name = "for", .value = &to }, { .name = "phrase-file", .value = &phrase_file },
                                    { .name = "force", .flag = &force } };
  int n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 2);
  CarpaceCard card, player = { .role = CARPACE_ROLE_PLAYER };
  g_autoptr (GByteArray) record = NULL;
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autoptr (GString) text = NULL;
  CarpaceFaultTeller teller = { .cli = cli, .path = n > 0 ? words[0] : NULL, .skip_warnings = true };
  CarpacePerson person;
  GString *signed_text;

  if (n >= 0 && n < 2)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name the plan and the file for the signed one: carpace plan sign FILE SIGNED."));
  if (n < 0)
    return CARPACE_EXIT_WORDS;
  text = carpace_cli_sound_plan (&teller, plan);
  if (text == NULL || !carpace_cli_own_card (cli, &card) || (to != NULL && !carpace_cli_find_person (cli, to, &player))
      || !carpace_cli_unlock (cli, phrase_file, &person))
    return CARPACE_EXIT_REFUSED;
  signed_text = carpace_hand_out_sign (text->str, text->len, &person, &card, &player.sign, carpace_cli_now (cli).wall_ms / 1000, &record);
  carpace_person_wipe (&person);
  written = carpace_cli_write_file (cli, words[1], force, signed_text->str, signed_text->len);
  g_string_free (signed_text, TRUE);
  if (!written)
    return CARPACE_EXIT_REFUSED;
  return carpace_hand_out_keep (&cli->shelf, record) ? CARPACE_EXIT_DONE : carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, "given");
}
