/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-open.c: `carpace plan open`: a plan in words in a window, asked about before it is used. Where
 * there is no terminal to read, whatever else there is to say is said in a window, too. */
#define _GNU_SOURCE /* open_memstream */
#include "cli/plan-open.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "cli/options.h"
#include "cli/plan-use.h"
#include "cli/remote.h"
#include "text/file-text.h"
#include "text/plan-words.h"
#include "text/quoted.h"

/* A fault a line. A warning is no reason against a plan. */
static void
note_fault (void *user, const CarpaceFileFault *fault)
{
  GString *faults = user;

  if (fault->warning)
    return;
  if (fault->line > 0)
    g_string_append_printf (faults, _("Line %d: %s\n"), (int) fault->line, fault->message);
  else
    g_string_append_printf (faults, "%s\n", fault->message);
}

static void
no_fault (void *user, const CarpaceFileFault *fault)
{
}

/* What is said of a plan: all of it, against the one in use; or its faults. @return whether it can be used */
static bool
words_of (CarpaceCli *cli, const char *path, char **ret_heading, char **ret_words)
{
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1), *in_use = g_new0 (CarpacePlan, 1);
  g_autoptr (GString) faults = g_string_new (NULL);
  g_autofree char *name = carpace_text_path (path);

  if (!cli->plans.load (cli->plans.self, path, plan, note_fault, faults))
    {
      *ret_heading = g_strdup (_("This plan cannot be used yet"));
      *ret_words = g_strdup_printf ("%s\n%s", name, faults->str);
      return false;
    }
  *ret_heading = g_strdup (_("A block plan for you?"));
  *ret_words = carpace_text_plan_told (plan, cli->plans.load_in_use (cli->plans.self, in_use, no_fault, NULL) ? in_use : NULL);
  return true;
}

/* What `plan use --yes` says of it, and its exit status. */
static int
use_it (CarpaceCli *cli, const char *path, char **ret_said)
{
  CarpaceCli inner = *cli;
  char *out = NULL, *err = NULL, *argv[] = { (char *) "plan use", (char *) "--yes", (char *) "--", (char *) path, NULL };
  size_t n_out, n_err;
  int status;

  inner.out = open_memstream (&out, &n_out);
  inner.err = open_memstream (&err, &n_err);
  status = carpace_cli_plan_use (&inner, 4, argv);
  fclose (inner.out);
  fclose (inner.err);
  cli->air = inner.air;
  g_strchomp (out);
  *ret_said = g_strdup (status != CARPACE_EXIT_DONE ? err : strrchr (out, '\n') != NULL ? strrchr (out, '\n') + 1 : out);
  free (out);
  free (err);
  return status;
}

static int
offer (CarpaceCli *cli, const char *path)
{
  g_autofree char *heading = NULL, *words = NULL, *said = NULL;
  bool sound = words_of (cli, path, &heading, &words), yes = false;
  const char *shown = carpace_remote_says (cli, CARPACE_EXIT_REFUSED, words);
  const CarpacePlanOffer asked = { .heading = heading, .words = words, .use = sound ? _("_Use this plan") : NULL };
  const CarpacePlanOffer on_air = { .heading = "Carpace", .words = shown };
  int status;

  if (!cli->offer_plan (shown == words ? &asked : &on_air, &yes))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is no display to show a plan on; “carpace plan show FILE --words” prints it, “carpace plan use FILE” takes it."));
  if (!yes)
    return sound && shown == words ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
  status = use_it (cli, path, &said);
  cli->offer_plan (&(CarpacePlanOffer){ .heading = status == CARPACE_EXIT_DONE ? _("It is in use") : _("It is not used"),
                                        .words = said }, &yes);
  return status;
}

int
carpace_cli_plan_open (CarpaceCli *cli, int argc, char **argv)
{
  const char *path = NULL;
  int n_words = carpace_options_read (cli, argc, argv, NULL, 0, &path, 1);

  if (n_words < 0)
    return CARPACE_EXIT_WORDS;
  if (n_words == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace %s” needs a plan or a file; “carpace plan list” names the plans."), argv[0]);
  if (cli->offer_plan == NULL)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is no display to show a plan on; “carpace plan show FILE --words” prints it, “carpace plan use FILE” takes it."));
  return offer (cli, path);
}
