/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan.c: `carpace plan list|show|check|split|new`, and who does the others. */
#include <glib.h>
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "cli/cli.h"
#include "cli/faults.h"
#include "cli/hand-out.h"
#include "cli/options.h"
#include "cli/plan-give.h"
#include "cli/plan-load.h"
#include "cli/plan-measured.h"
#include "cli/plan-open.h"
#include "cli/plan-set.h"
#include "cli/plan-use.h"
#include "forms/json.h"
#include "forms/plan-write.h"
#include "text/plan-flaws.h"
#include "text/plan-words.h"
#include "text/quoted.h"


/* One subcommand's words, read. */
typedef struct
{
  const char *word[2];
  int n_words;
  bool json;
} Asked;

/* @return false, told, where the words are not understood or fewer than @least */
static bool
read_words (CarpaceCli *cli, int argc, char **argv, int least, int most, Asked *ret_asked)
{
  const char *format = NULL;
  const CarpaceOption options[] = { { .name = "format", .value = &format } };
  Asked asked = { .json = false };

  asked.n_words = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), asked.word, most);
  if (asked.n_words < 0 || !carpace_option_format (cli, format, &asked.json))
    return false;
  if (asked.n_words < least)
    {
      carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace %s” needs a file to make: “carpace %s mine.plan.yaml”."), argv[0], argv[0]);
      return false;
    }
  *ret_asked = asked;
  return true;
}

typedef struct
{
  CarpaceCli *cli;
  bool json;
} Listing;

static void
print_item_json (FILE *to, const CarpacePlanItem *item)
{
  GString *out = g_string_new (NULL);

  carpace_json_open (out, '{');
  carpace_json_key (out, "word");
  carpace_json_string (out, item->word);
  carpace_json_key (out, "name");
  carpace_json_string (out, item->name);
  carpace_json_key (out, "note");
  carpace_json_string (out, item->note);
  carpace_json_key (out, "path");
  carpace_json_string (out, item->path);
  carpace_json_key (out, "bundled");
  carpace_json_bool (out, item->bundled);
  carpace_json_key (out, "in_use");
  carpace_json_bool (out, item->in_use);
  carpace_json_close (out, '}');
  fprintf (to, "%s\n", out->str);
  g_string_free (out, TRUE);
}

static void
print_item_text (FILE *to, const CarpacePlanItem *item)
{
  g_autofree char *name = carpace_text_harmless (item->name);
  g_auto (GStrv) lines = g_strsplit (item->note ? item->note : "", "\n", 2);
  g_autofree char *note = carpace_text_harmless (lines[0]);

  fprintf (to, "%c %-20s %s", item->in_use ? '*' : ' ', item->word, name);
  fprintf (to, note[0] != '\0' ? ": %s\n" : "%s\n", note);
}

static void
print_item (void *user, const CarpacePlanItem *item)
{
  const Listing *listing = user;

  if (listing->json)
    print_item_json (listing->cli->out, item);
  else
    print_item_text (listing->cli->out, item);
}

static int
list (CarpaceCli *cli, int argc, char **argv)
{
  Asked asked;
  Listing listing = { .cli = cli };

  if (!read_words (cli, argc, argv, 0, 0, &asked))
    return CARPACE_EXIT_WORDS;
  listing.json = asked.json;
  cli->plans.list (cli->plans.self, print_item, &listing);
  return CARPACE_EXIT_DONE;
}

/* Loads the plan asked for, or (@word NULL) the one in use, as far as what is held
 * allows; faults are told. */
static bool
load (CarpaceCli *cli, const char *word, bool json, bool skip_warnings, CarpacePlan *ret_plan)
{
  CarpaceFaultTeller teller = { .cli = cli, .path = word, .json = json, .skip_warnings = skip_warnings };

  if (word == NULL)
    return carpace_cli_load_in_use (&teller, ret_plan);
  return cli->plans.load (cli->plans.self, word, ret_plan, carpace_cli_file_fault, &teller);
}

static void
no_fault (void *user, const CarpaceFileFault *fault)
{
}

/* In words, and against the plan in use, where that is another. */
static void
show_words (CarpaceCli *cli, const CarpacePlan *plan)
{
  g_autofree CarpacePlan *in_use = g_new0 (CarpacePlan, 1);
  bool known = cli->plans.load_in_use (cli->plans.self, in_use, no_fault, NULL);
  g_autofree char *text = carpace_text_plan_told (plan, known ? in_use : NULL);

  fputs (text, cli->out);
}

static int
show (CarpaceCli *cli, int argc, char **argv)
{
  const char *word = NULL, *format = NULL;
  bool words = false, json;
  const CarpaceOption options[] = { { .name = "format", .value = &format }, { .name = "words", .flag = &words } };
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autofree char *text = NULL;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), &word, 1) < 0
      || !carpace_option_format (cli, format, &json))
    return CARPACE_EXIT_WORDS;
  if (words && json)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“--words” is for people: leave out “--format json”, or “--words”."));
  if (!load (cli, word, json, true, plan))
    return CARPACE_EXIT_REFUSED;
  if (words)
    {
      show_words (cli, plan);
      return CARPACE_EXIT_DONE;
    }
  text = json ? carpace_plan_write_json (plan) : carpace_plan_write_file (plan);
  fprintf (cli->out, json ? "%s\n" : "%s", text);
  if (!json && word == NULL)
    carpace_cli_tell_giver (cli, plan);
  return CARPACE_EXIT_DONE;
}

static int
check (CarpaceCli *cli, int argc, char **argv)
{
  const char *word = NULL, *format = NULL;
  bool measured = false, json;
  const CarpaceOption options[] = { { .name = "format", .value = &format }, { .name = "measured", .flag = &measured } };
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1), *reckoned = NULL;
  CarpaceClicksMeasured clicks = { 0 };
  int status;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), &word, 1) < 0
      || !carpace_option_format (cli, format, &json))
    return CARPACE_EXIT_WORDS;
  if (!load (cli, word, json, false, plan) || (measured && !carpace_cli_plan_measure (cli, plan, &clicks)))
    return CARPACE_EXIT_REFUSED;
  reckoned = g_memdup2 (plan, sizeof *plan);
  carpace_clicks_as_efforts (reckoned, &clicks);
  status = carpace_cli_plan_load (cli, reckoned, json);
  if (measured && status == CARPACE_EXIT_DONE)
    carpace_cli_plan_measured (cli, plan, reckoned, &clicks, json);
  return status;
}

/* The first word that is no option, nor an option's value; NULL where none is. */
static const char *
first_word (int argc, char **argv)
{
  for (int i = 1; i < argc; i++)
    if (strncmp (argv[i], "--", 2) != 0)
      return argv[i];
    else if (strchr (argv[i], '=') == NULL)
      i++;
  return NULL;
}

static int
split (CarpaceCli *cli, int argc, char **argv)
{
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  if (!load (cli, first_word (argc, argv), false, true, plan))
    return CARPACE_EXIT_REFUSED;
  return carpace_cli_plan_split (cli, plan, argc, argv);
}

static int
new_plan (CarpaceCli *cli, int argc, char **argv)
{
  Asked asked;
  CarpaceFaultTeller teller = { .cli = cli };
  g_autofree char *shown = NULL;

  if (!read_words (cli, argc, argv, 1, 2, &asked))
    return CARPACE_EXIT_WORDS;
  teller.path = asked.word[0];
  teller.json = asked.json;
  if (!cli->plans.create (cli->plans.self, asked.word[0], asked.word[1] ? asked.word[1] : CARPACE_PLAN_TEMPLATE,
                          carpace_cli_file_fault, &teller))
    return CARPACE_EXIT_REFUSED;
  shown = carpace_text_harmless (asked.word[0]);
  if (!asked.json)
    fprintf (cli->out, _("%s is written. Change it as you like, look at it with “carpace plan check”, take it with “carpace plan use”.\n"),
             shown);
  return CARPACE_EXIT_DONE;
}

int
carpace_cli_plan (CarpaceCli *cli, int argc, char **argv)
{
  static const CarpaceCliPart parts[] = {
    { "list", list }, { "show", show }, { "check", check }, { "split", split }, { "use", carpace_cli_plan_use }, { "new", new_plan },
    { "sign", carpace_cli_plan_sign }, { "set", carpace_cli_plan_set }, { "give", carpace_cli_plan_give },
    { "open", carpace_cli_plan_open }, { "release", carpace_cli_plan_release },
  };

  return carpace_cli_run_part (cli, argc, argv, parts, G_N_ELEMENTS (parts));
}
