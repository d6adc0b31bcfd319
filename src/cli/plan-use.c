/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-use.c: `carpace plan use` and `carpace plan release`. */
#include "cli/plan-use.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/clock.h"
#include "cli/hand-out.h"
#include "cli/options.h"
#include "text/plan-flaws.h"
#include "text/plan-words.h"
#include "text/quoted.h"

/* ---- what is held ---- */

bool
carpace_cli_hold (CarpaceCli *cli, CarpacePlansKept *ret_kept)
{
  CarpaceDiary diary;

  memset (ret_kept, 0, sizeof *ret_kept);
  if (cli->open_diary == NULL)
    return true;
  if (!cli->open_diary (cli, &diary))
    return false;
  carpace_plans_kept_read (&diary, &cli->plans, ret_kept);
  if (cli->plans.hold != NULL)
    cli->plans.hold (cli->plans.self, &ret_kept->held);
  return true;
}

void
carpace_cli_let_go (CarpaceCli *cli, CarpacePlansKept *kept)
{
  const CarpaceHeld nothing = { .n_given = 0 };

  if (cli->plans.hold != NULL)
    cli->plans.hold (cli->plans.self, &nothing);
  carpace_plans_kept_clear (kept);
}

/* The running program keeps the record, or (none runs) this command.
 * @return false, told, where it cannot be kept */
static bool
keep_record (CarpaceCli *cli, CarpacePlanRecord record)
{
  g_autofree char *version = g_strdup_printf ("%d", (int) record.version);
  const char *const words[] = { "plan-kept", carpace_name (CARPACE_WORDS_PLAN_WHAT, (int32_t) record.what),
                                record.name, version, record.fixed, record.text };
  CarpaceDiaryKeeper keeper;
  char *message = NULL;
  int status = CARPACE_EXIT_NOT_RUNNING;

  if (cli->remote.command != NULL)
    status = cli->remote.command (cli->remote.self, G_N_ELEMENTS (words), words, &message);
  if (status != CARPACE_EXIT_DONE && status != CARPACE_EXIT_NOT_RUNNING)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", message != NULL ? message : _("The running program did not keep it; nothing has changed."));
  free (message);
  if (status != CARPACE_EXIT_NOT_RUNNING || cli->open_keeper == NULL)
    return status == CARPACE_EXIT_DONE || cli->open_keeper == NULL;
  record.at = carpace_cli_now (cli);
  if (!cli->open_keeper (cli, true, &keeper))
    return false;
  if (keeper.keep_plan (keeper.self, &record) >= 0)
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The diary cannot be written, so that nothing has changed."));
  return false;
}

/* Asks for a word that is not typed in passing. */
static bool
says (CarpaceCli *cli, const char *word)
{
  char line[64];

  fprintf (cli->out, _("Type %s to go on: "), word);
  fflush (cli->out);
  if (cli->in == NULL || fgets (line, sizeof line, cli->in) == NULL)
    return false;
  return strcmp (g_strstrip (line), word) == 0;
}

static void
note_path_in_use (void *user, const CarpacePlanItem *item)
{
  char **path = user;

  if (item->in_use && *path == NULL)
    *path = g_strdup (item->path);
}

bool
carpace_cli_load_in_use (CarpaceFaultTeller *teller, CarpacePlan *ret_plan)
{
  CarpaceCli *cli = teller->cli;
  g_autofree char *in_use = NULL;
  CarpacePlansKept kept;
  bool loaded;

  cli->plans.list (cli->plans.self, note_path_in_use, &in_use);
  teller->path = in_use ? in_use : "";
  carpace_cli_hold (cli, &kept);
  loaded = cli->plans.load_in_use (cli->plans.self, ret_plan, carpace_cli_file_fault, teller);
  carpace_cli_let_go (cli, &kept);
  teller->path = NULL;
  if (!loaded && teller->faults == 0)
    {
      g_autofree char *message = carpace_text_plan_file (CARPACE_PLAN_FILE_NONE_IN_USE, NULL, NULL, NULL);

      carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", message);
    }
  return loaded;
}

/* ---- use ---- */

typedef struct
{
  CarpaceCli *cli;
  bool yes, json;
} Use;

static bool
consent (void *user, const CarpacePlan *before, const CarpacePlan *plan)
{
  const Use *use = user;
  g_autofree char *changes = before != NULL ? carpace_text_plan_changes (before, plan) : NULL;
  g_autofree char *name = carpace_text_quoted (plan->name), *held = NULL;
  CarpaceCeiling ceiling = { .n_blocks = 0 };

  if (!use->json)
    {
      fprintf (use->cli->out, _("Version %d of %s is newer than what you were given. It changes:\n%s"), (int) plan->version,
               name, changes != NULL ? changes : _("  (the version before cannot be read any more)\n"));
      carpace_ceiling_add (&ceiling, plan);
      held = carpace_text_held (&ceiling);
      fprintf (use->cli->out, "%s\n%s", held[0] != '\0' ? _("From then on it fixes:") : _("It fixes nothing."), held);
    }
  if (use->yes || (!use->json && says (use->cli, _("take"))))
    return true;
  carpace_cli_refuse (use->cli, CARPACE_EXIT_REFUSED, _("The plan in use is as it was; “carpace plan use FILE --yes” takes the newer one without asking."));
  return false;
}

static bool
keep_given (void *user, const CarpacePlan *plan, const CarpaceCeiling *held, const char *text)
{
  char fixed[CARPACE_CEILING_BYTES];

  return carpace_cli_may_take (((Use *) user)->cli, plan, text)
         && keep_record (((Use *) user)->cli, carpace_plan_given_record (plan, held, text, fixed));
}

/* The program that is running, if one is, hears of another plan. */
static void
tell_running (CarpaceCli *cli)
{
  static const char *const words[] = { "plan-changed" };
  char *message = NULL;

  if (cli->remote.command != NULL)
    cli->remote.command (cli->remote.self, 1, words, &message);
  free (message);
}

static void
note_in_use (void *user, const CarpacePlanItem *item)
{
  if (item->in_use)
    *(bool *) user = true;
}

static void
no_faults (void *user, const CarpaceFileFault *fault)
{
}

static void
tell_used (CarpaceCli *cli, bool another_before)
{
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autofree char *name = NULL;

  if (!cli->plans.load_in_use (cli->plans.self, plan, no_faults, NULL))
    return;
  name = carpace_text_quoted (plan->name);
  fprintf (cli->out, another_before ? _("%s is the plan in use, from the next practice day on.\n") : _("%s is the plan in use.\n"),
           name);
}

int
carpace_cli_plan_use (CarpaceCli *cli, int argc, char **argv)
{
  Use use = { .cli = cli };
  const char *format = NULL, *words[1];
  const CarpaceOption options[] = { { .name = "format", .value = &format }, { .name = "yes", .flag = &use.yes } };
  const CarpaceTaking taking = { &use, consent, keep_given };
  CarpaceFaultTeller teller = { .cli = cli };
  CarpacePlansKept kept;
  bool before = false, used;
  int n_words = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);

  if (n_words < 0 || !carpace_option_format (cli, format, &use.json))
    return CARPACE_EXIT_WORDS;
  if (n_words == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace %s” needs a plan or a file; “carpace plan list” names the plans."),
                               argv[0]);
  teller.path = words[0];
  teller.json = use.json;
  if (!carpace_cli_hold (cli, &kept))
    return CARPACE_EXIT_REFUSED;
  cli->plans.list (cli->plans.self, note_in_use, &before);
  used = cli->plans.use (cli->plans.self, words[0], &taking, carpace_cli_file_fault, &teller);
  carpace_cli_let_go (cli, &kept);
  if (!used)
    return CARPACE_EXIT_REFUSED;
  tell_running (cli);
  if (!use.json)
    tell_used (cli, before);
  return CARPACE_EXIT_DONE;
}

/* ---- release ---- */

int
carpace_cli_plan_release (CarpaceCli *cli, int argc, char **argv)
{
  bool yes = false;
  const CarpaceOption options[] = { { .name = "yes", .flag = &yes } };
  CarpacePlansKept kept;
  CarpacePlanRecord record = { .what = CARPACE_PLAN_RELEASED, .fixed = "", .text = "" };
  g_autofree char *held = NULL, *name = NULL;
  bool done;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0)
    return CARPACE_EXIT_WORDS;
  if (!carpace_cli_hold (cli, &kept))
    return CARPACE_EXIT_REFUSED;
  if (!carpace_ceiling_holds (&kept.held.ceiling))
    {
      carpace_cli_let_go (cli, &kept);
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("No plan that you were given fixes anything: there is nothing to release."));
    }
  held = carpace_text_held (&kept.held.ceiling);
  name = g_strdup (kept.name != NULL ? kept.name : "");
  record.name = name;
  record.version = kept.version;
  carpace_cli_let_go (cli, &kept);
  fprintf (cli->out, _("Fixed by whoever gave you the plan:\n%sThis ends it. The diary keeps that it was ended, and the report tells it.\n"), held);
  if (!yes && !says (cli, _("release")))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Nothing was released."));
  done = keep_record (cli, record);
  if (done)
    fprintf (cli->out, "%s\n", _("Nothing is fixed any more."));
  return done ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
}
