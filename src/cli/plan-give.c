/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-give.c: `carpace plan give`: a copy of a plan for a player, or for each of a team. */
#include "cli/plan-give.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "cli/faults.h"
#include "cli/files.h"
#include "cli/give.h"
#include "cli/options.h"
#include "forms/codes-lines.h"

/* @return NULL, told, where one of them is none */
static GPtrArray *
codes_of_words (CarpaceCli *cli, const char *const *words, int n_words)
{
  g_autoptr (GPtrArray) codes = g_ptr_array_new_with_free_func (g_free);

  for (int i = 0; i < n_words; i++)
    {
      CarpaceCodeFault fault = carpace_codes_add (codes, words[i]);
      g_autofree char *sentence = fault.kind == CARPACE_CODE_FINE ? NULL : carpace_text_code_fault (&fault);

      if (sentence == NULL)
        continue;
      carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, "%s", sentence);
      return NULL;
    }
  return g_steal_pointer (&codes);
}

static GPtrArray *
codes_of_file (CarpaceCli *cli, const char *path)
{
  GString *bytes = carpace_cli_read_file (cli, path, CARPACE_CODES_BYTES);
  g_autofree char *fault = NULL, *name = carpace_text_path (path);
  GPtrArray *codes = bytes != NULL ? carpace_codes_read (bytes->str, bytes->len, &fault) : NULL;

  if (bytes != NULL)
    g_string_free (bytes, TRUE);
  if (fault != NULL)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s: %s", name, fault);
  return codes;
}

static int
give_all (CarpaceCli *cli, const CarpaceGift *gift, const GPtrArray *codes)
{
  bool all = true;

  for (guint i = 0; i < codes->len; i++)
    {
      CarpaceGiven given;
      g_autofree char *told = NULL;
      bool done;

      carpace_give (gift, codes->pdata[i], &given);
      told = carpace_given_told (codes->pdata[i], &given);
      done = given.end == CARPACE_GIVEN_DONE || given.end == CARPACE_GIVEN_ALREADY;
      carpace_given_clear (&given);
      if (done)
        fputs (told, cli->out);
      else
        carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", g_strchomp (told));
      all = all && done;
    }
  return all ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
}

int
carpace_cli_plan_give (CarpaceCli *cli, int argc, char **argv)
{
  const char *word[CARPACE_CODES + 2] = { NULL }, *list = NULL, *into = NULL;
  const CarpaceOption options[] = { { .name = "codes", .value = &list }, { .name = "into", .value = &into } };
  int n_words = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), word, CARPACE_CODES + 1);
  g_autoptr (GPtrArray) codes = NULL;
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autoptr (GString) bytes = NULL;
  CarpaceFaultTeller teller = { .cli = cli };
  CarpaceGift gift;

  if (n_words < 0)
    return CARPACE_EXIT_WORDS;
  if (n_words == 0 || (n_words == 1) == (list == NULL))
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace plan give” needs a file, and codes of players or “--codes” with a file of them, as: plan give team.plan.yaml K7 K8."));
  codes = list != NULL ? codes_of_file (cli, list) : codes_of_words (cli, word + 1, n_words - 1);
  if (codes == NULL)
    return list != NULL ? CARPACE_EXIT_REFUSED : CARPACE_EXIT_WORDS;
  teller.path = word[0];
  bytes = carpace_cli_sound_plan (&teller, plan);
  if (bytes == NULL)
    return CARPACE_EXIT_REFUSED;
  gift = (CarpaceGift){ .path = word[0], .bytes = bytes->str, .n_bytes = bytes->len, .plan = plan, .into = into };
  if (into != NULL && !g_file_test (into, G_FILE_TEST_IS_DIR))
    {
      g_autofree char *name = carpace_text_path (into);

      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is no folder %s; make it first, or name another."), name);
    }
  return give_all (cli, &gift, codes);
}
