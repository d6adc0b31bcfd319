/* SPDX-License-Identifier: GPL-3.0-or-later */
/* table.c: every command in one table. */
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/cli.h"
#include "cli/options.h"
#include "text/text.h"

/* A command, the forms it takes (a line each) and what it does. */
typedef struct
{
  const char *word;
  CarpaceCliCommand run;
  const char *forms;
  const char *does;
} Command;

static const Command commands[] = {
  { "start", carpace_cli_live, "start [--match]", N_("start a block, or a match") },
  { "end", carpace_cli_live, "end", N_("end the block") },
  { "pause", carpace_cli_live, "pause", N_("pause the block") },
  { "continue", carpace_cli_live, "continue", N_("continue it") },
  { "rest", carpace_cli_live, "rest", N_("rest now") },
  { "after-run", carpace_cli_live, "after-run", N_("rest after this run") },
  { "play-on", carpace_cli_live, "play-on", N_("play on: decline this rest") },
  { "rate", carpace_cli_live, "rate N [SITE]", N_("how the hand feels, 0 no discomfort to 10 the worst imaginable; again: the correction") },
  { "morning", carpace_cli_live, "morning [WAKING] [less|usual|more] [--now N] [--other-load] [--pain-relief]",
    N_("the morning check: discomfort on waking, stiffness, discomfort now") },
  { "caution", carpace_cli_live, "caution [SIGN...|none|seen|gone]", N_("ask, answer or close the cautions") },
  { "on-air", carpace_cli_live, "on-air on|off", N_("say nothing about the hand on a screen that is broadcast") },
  { "quit", carpace_cli_live, "quit", N_("end the program") },
  { "status", carpace_cli_status, "status [--format text|json] [--follow]", N_("state, what is next, practice time to go") },
  { "plan", carpace_cli_plan, "plan list\nplan show [PLAN]\nplan check FILE [--format text|json]\n"
    "plan split FILE [--into whole|halves|quarters|N]\nplan use PLAN\nplan new FILE [TEMPLATE]", N_("block plans") },
  { "rehearse", carpace_cli_rehearse,
    "rehearse PLAN [--script FILE | --player steady|sensitive|plays-on|silent] [--days N] [--seed N] [--format text|json]",
    N_("run a plan with a scripted or modelled player, in no time") },
  { "diary", carpace_cli_diary, "diary [--since DATE] [--until DATE] [--format text|csv|json]", N_("what was recorded") },
  { "why", carpace_cli_why, "why [--day DATE]", N_("decisions with rule, numbers and reason") },
  { "report", carpace_cli_report,
    "report [--since DATE] [--until DATE] [--for clinician|coach] [--with ratings,sites,cautions] [--code CODE] "
    "[--format pdf|png|text] [--paper a4|letter] [FILE]",
    N_("one page for a clinician or a coach; for a coach nothing of the hand but what --with names") },
  { "calendar", carpace_cli_calendar, "calendar [--days N] [--at TIME] [FILE]",
    N_("the coming blocks and intermissions as an iCalendar file") },
  { "export", carpace_cli_export,
    "export [--format csv|json|fhir] [--since DATE] [--until DATE] [--without-notes] [--code CODE] [FILE]",
    N_("the diary in a form that other programs read") },
  { "import", carpace_cli_import, "import FILE", N_("take in what was exported; what is known already is not taken in twice") },
  { "backup", carpace_cli_backup, "backup FILE", N_("copy the diary as it is into a new file") },
  { "erase", carpace_cli_erase, "erase [--yes]", N_("erase the diary for good, after asking") },
  { "calc", carpace_cli_calc, "calc strain-index|endurance|fatigue|rest|cut|travel|training-load ...",
    N_("the models by themselves, for checking and teaching") },
  { "desktop", carpace_cli_desktop, "desktop", N_("what this desktop offers, and what to do about what is missing") },
};

static void
print_forms (FILE *out, const Command *command)
{
  g_auto (GStrv) forms = g_strsplit (command->forms, "\n", -1);

  for (int i = 0; forms[i]; i++)
    fprintf (out, "  carpace %s\n", forms[i]);
  fprintf (out, "      %s\n", _(command->does));
}

static void
print_help (FILE *out)
{
  fprintf (out, "%s\n\n%s\n", _("Carpace doses aim practice as a hand physiotherapist would."), _("Usage:"));
  fprintf (out, "  carpace\n      %s\n", _("start the tray program, or show it"));
  for (size_t i = 0; i < G_N_ELEMENTS (commands); i++)
    print_forms (out, &commands[i]);
  fprintf (out, "\n%s\n%s\n", _("Exit status: 0 done, 1 refused, 2 words not understood, 3 the program is not running."),
           carpace_text_informs ());
}

static const Command *
find (const char *word)
{
  for (size_t i = 0; i < G_N_ELEMENTS (commands); i++)
    if (strcmp (commands[i].word, word) == 0)
      return &commands[i];
  return NULL;
}

static const char *
nearest (const char *word)
{
  const char *best = NULL;
  size_t least = strlen (word) / 2 + 1; /* two letters changed places count as two */

  for (size_t i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      size_t distance = carpace_word_distance (commands[i].word, word);
      if (distance < least)
        {
          least = distance;
          best = commands[i].word;
        }
    }
  return best;
}

static bool
asks_for_help (int argc, char **argv)
{
  for (int i = 1; i < argc && strcmp (argv[i], "--") != 0; i++)
    if (strcmp (argv[i], "--help") == 0 || strcmp (argv[i], "-h") == 0)
      return true;
  return false;
}

static int
not_a_command (CarpaceCli *cli, const char *word)
{
  const char *const words[] = { word };
  const CarpaceWording wording = { .fault = CARPACE_WORDING_UNKNOWN };
  g_autofree char *sentence = carpace_text_wording (&wording, 1, words, nearest (word));

  return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, "%s", sentence);
}

int
carpace_cli_run (CarpaceCli *cli, int argc, char **argv)
{
  const char *word = argc > 1 ? argv[1] : "--help";
  const Command *command = find (word);

  if (command && asks_for_help (argc - 1, argv + 1))
    print_forms (cli->out, command);
  else if (command)
    return command->run (cli, argc - 1, argv + 1);
  else if (strcmp (word, "--help") == 0 || strcmp (word, "-h") == 0)
    print_help (cli->out);
  else if (strcmp (word, "--version") == 0)
    fprintf (cli->out, "Carpace %s\n", CARPACE_VERSION);
  else
    return not_a_command (cli, word);
  return CARPACE_EXIT_DONE;
}
