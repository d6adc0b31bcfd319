/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-set.c: `carpace plan set`: one value of a plan's file, and nothing beside it. */
#include "cli/plan-set.h"

#include <errno.h>
#include <glib.h>
#include <glib/gi18n.h>

#include "carpace/names.h"
#include "cli/faults.h"
#include "cli/options.h"
#include "files/kept.h"
#include "forms/plan-edit.h"
#include "forms/plan-yaml.h"
#include "text/quoted.h"

static int
refuse_key (CarpaceCli *cli, const char *path)
{
  const char *keys[CARPACE_N_KEYS + 1] = { NULL };
  g_autofree char *quoted = carpace_text_quoted (path), *near = NULL;

  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    keys[key] = carpace_name (CARPACE_WORDS_PLAN_KEY, key);
  near = carpace_text_suggestion (path, keys);
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("A plan has no key %s; %s."), quoted, near);
}

static int
refuse_edit (CarpaceCli *cli, CarpacePlanEditEnd end, const char *file, const char *path)
{
  g_autofree char *name = carpace_text_path (file), *quoted = carpace_text_quoted (path);

  switch (end)
    {
    case CARPACE_EDIT_UNKNOWN_PATH: return refuse_key (cli, path);
    case CARPACE_EDIT_UNREAD:
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                                 _("%s cannot be read as a plan; “carpace plan check” tells where."), name);
    case CARPACE_EDIT_NOT_THERE:
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s has no %s; look at its drills and blocks."), name, quoted);
    case CARPACE_EDIT_TOO_LARGE:
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s would be larger than a plan may be, 256 KiB."), name);
    case CARPACE_EDIT_DONE:
    case CARPACE_EDIT_UNFIT:
      break;
    }
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                             _("%s cannot be changed at %s without touching more of it; change it by hand."), name, quoted);
}

static void
tell_nobody (void *user, const CarpaceFileFault *fault)
{
}

/* A plan with faults can be mended one by one; a sound one is not spoilt. */
static bool
is_to_be_saved (CarpaceCli *cli, const char *file, const GString *before, const GString *after)
{
  CarpacePlanReader reader = carpace_plan_yaml ();
  CarpaceFaultTeller teller = { .cli = cli, .path = file };
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  return reader.read (reader.self, after->str, after->len, NULL, plan, NULL, carpace_cli_file_fault, &teller)
         || !reader.read (reader.self, before->str, before->len, NULL, plan, NULL, tell_nobody, NULL);
}

int
carpace_cli_plan_set (CarpaceCli *cli, int argc, char **argv)
{
  const char *word[3] = { NULL };
  int n_words = carpace_options_read (cli, argc, argv, NULL, 0, word, 3);
  CarpacePlanEdit edit = { .kind = CARPACE_EDIT_SET, .path = word[1], .value = word[2] };
  CarpaceFileTrouble trouble;
  CarpaceFileMark mark;
  CarpacePlanEditEnd end;
  g_autoptr (GString) before = NULL, after = NULL;
  g_autofree char *sentence = NULL, *name = NULL;

  if (n_words < 0)
    return CARPACE_EXIT_WORDS;
  if (n_words < 3)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace plan set” needs a file, a key and a value, as: plan set my.plan.yaml day.dose \"45 min\"."));
  before = carpace_kept_read (word[0], CARPACE_PLAN_FILE_BYTES, &mark, &trouble);
  if (before == NULL)
    {
      sentence = carpace_text_not_read (trouble, word[0], errno);
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", sentence);
    }
  end = carpace_plan_edit (before->str, before->len, &edit, &after);
  if (end != CARPACE_EDIT_DONE)
    return refuse_edit (cli, end, word[0], word[1]);
  name = carpace_text_path (word[0]);
  if (!is_to_be_saved (cli, word[0], before, after))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s stays as it is."), name);
  trouble = carpace_kept_save (word[0], &mark, after->str, after->len);
  if (trouble == CARPACE_FILE_FINE)
    return CARPACE_EXIT_DONE;
  sentence = carpace_text_not_written (trouble, word[0], errno);
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", sentence);
}
