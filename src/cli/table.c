/* SPDX-License-Identifier: GPL-3.0-or-later */
/* table.c: every command in one table. */
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/options.h"
#include "cli/table.h"
#include "text/text.h"

static const CarpaceCliRow commands[] = {
  { "start", carpace_cli_live, "start [--match]", N_("start a block, or a match") },
  { "end", carpace_cli_live, "end", N_("end the block") },
  { "pause", carpace_cli_live, "pause", N_("pause the block") },
  { "continue", carpace_cli_live, "continue", N_("continue it") },
  { "rest", carpace_cli_live, "rest", N_("rest now") },
  { "after-run", carpace_cli_live, "after-run", N_("rest after this run") },
  { "play-on", carpace_cli_live, "play-on", N_("play on: decline this rest") },
  { "rate", carpace_cli_live, "rate RATING [SITE]", N_("how the hand feels, 0 no discomfort to 10 the worst imaginable; again: corrects it") },
  { "morning", carpace_cli_live, "morning [WAKING] [less|usual|more] [--now RATING] [--site SITE] [--other-load] [--pain-relief]",
    N_("the morning check: discomfort on waking, stiffness, discomfort now, and where") },
  { "caution", carpace_cli_live, "caution [SIGN...|none|gone]\n"
    "caution seen [--by physiotherapist|doctor] [--on DATE] [--dose TIME]", N_("ask, answer or close the cautions") },
  { "on-air", carpace_cli_live, "on-air on|off", N_("say nothing about the hand on a screen that is broadcast") },
  { "window", carpace_cli_live, "window pick\nwindow list\nwindow forget [NAME]", N_("the windows you practise in: only input in them counts") },
  { "settings", carpace_cli_live, "settings", N_("show the window of settings") },
  { "quit", carpace_cli_live, "quit", N_("end the program") },
  { "status", carpace_cli_status, "status [--format text|json] [--follow]", N_("state, what is next, practice time to go") },
  { "plan", carpace_cli_plan, "plan list [--format text|json]\nplan show [PLAN] [--words] [--format text|json]\n"
    "plan check FILE [--measured] [--format text|json]\nplan split FILE [--into whole|halves|quarters|N] [--format text|json]\n"
    "plan sign FILE FILE [--for NAME] [--force] [--phrase-file FILE]\n"
    "plan use PLAN [--yes] [--format text|json]\nplan release [--yes]\nplan new FILE [TEMPLATE] [--format text|json]\n"
    "plan set FILE KEY VALUE\nplan give FILE [CODE...] [--codes FILE] [--into FOLDER]\nplan open PLAN",
    N_("block plans") },
  { "planner", carpace_cli_planner, "planner [PLAN]", N_("a block plan in a window: make it, try it, change it") },
  { "rehearse", carpace_cli_rehearse,
    "rehearse PLAN [--show | --script FILE | --for-all | --player KIND] [--hand HAND] [--takes TIME] [--noise N] [--stiff P%] "
    "[--misses P%] [--under-reports] [--drops P%] [--grows P%] [--usual RATING] [--days N] [--seed N] [--seasons N] "
    "[--export FILE] [--force] [--format text|json]",
    N_("run a plan with a scripted or modelled player, without waiting") },
  { "diary", carpace_cli_diary, "diary [--since DATE] [--until DATE] [--format text|csv|json] [--from FILE]", N_("what was recorded") },
  { "why", carpace_cli_why, "why [--day DATE] [--from FILE]", N_("decisions with rule, numbers and reason") },
  { "report", carpace_cli_report,
    "report [--since DATE] [--until DATE] [--for clinician|coach] [--with ratings,sites,cautions] [--code CODE] "
    "[--from FILE] [--format pdf|png|text] [--paper a4|letter] [--force] [FILE]",
    N_("one page for a clinician or a coach; for a coach nothing of the hand but what --with names") },
  { "calendar", carpace_cli_calendar, "calendar [--days N] [--at TIME] [--force] [FILE]",
    N_("the coming blocks and intermissions as an iCalendar file") },
  { "export", carpace_cli_export,
    "export [--format csv|json|fhir] [--since DATE] [--until DATE] [--without-notes] [--code CODE] [--force] [FILE]",
    N_("the diary in a form that other programs read") },
  { "import", carpace_cli_import, "import FILE [--mine]",
    N_("take in what was exported; what is known already is not taken in twice") },
  { "restore", carpace_cli_restore, "restore FILE [--mine]",
    N_("take a backup or an export as the diary, where there is none yet: all that it decides comes with it") },
  { "backup", carpace_cli_backup, "backup [--force] FILE", N_("copy the diary as it is into a file") },
  { "erase", carpace_cli_erase, "erase [--yes]", N_("erase the diary for good, after asking") },
  { "key", carpace_cli_key,
    "key new NAME [--role player|coach|clinician|guardian] [--phrase-file FILE]\n"
    "key show [FILE] [--qr] [--on-dark] [--format text|json]\nkey words [FILE]\nkey card [--force] [FILE]\n"
    "key accept FILE [--words WORDS]\nkey list [--format text|json]\nkey forget NAME\n"
    "key keep [--remove] [--phrase-file FILE]\n"
    "key successor NAME FILE [--force] [--phrase-file FILE]\nkey succeed FILE FILE [--force] [--phrase-file FILE]",
    N_("your keys for a team, and whose you have accepted") },
  { "share", carpace_cli_share,
    "share with NAME [--what load|hand|all] [--since DATE] [--until DATE] [--guardian NAME] [--words WORDS] [--yes] [--phrase-file FILE]\n"
    "share stop NAME [--erase] [--phrase-file FILE]\nshare list [--format text|json]\nshare notes [--erase NAME] [--format text|json]\nshare folder [FILE]\nshare now\nshare window\n"
    "share countersign [--yes] [--phrase-file FILE]",
    N_("who may read how you practise, and the folder it goes to, sealed to them") },
  { "roster", carpace_cli_roster, "roster [FILE] [--database ADDRESS] [--format text|json|csv|fhir] [--phrase-file FILE]\n"
    "roster note NAME TEXT [FOLDER] [--phrase-file FILE]",
    N_("what players let you read, and who needs a look today") },
  { "club", carpace_cli_club, "club make ADDRESS\nclub admit NAME LOGIN ADDRESS [--gathers]\nclub dismiss LOGIN ADDRESS",
    N_("a roster that many read, in a club's database: made, brought on, and who logs in") },
  { "calc", carpace_cli_calc,
    "calc strain-index --intensity P% --efforts RATE --lasts TIME --wrist ANGLE --hours N [--format text|json]\n"
    "calc endurance --region hand|elbow|shoulder --load P% [--from P%] [--format text|json]\n"
    "calc fatigue --region hand|elbow|shoulder --load P% --work TIME [--rest TIME] [--cycles N] [--format text|json]\n"
    "calc rest --region hand|elbow|shoulder --from P% --to P% [--format text|json]\n"
    "calc cut --done TIME --to P% [--format text|json]\n"
    "calc travel --view-turn ANGLE --cm-per-turn N [--format text|json]\ncalc training-load LOAD... [--format text|json]",
    N_("the models by themselves, for checking and teaching") },
  { "desktop", carpace_cli_desktop, "desktop [--format text|json]\ndesktop --shortcuts [--set]", N_("what this desktop offers, and what to do about what is missing") },
};

static void
print_forms (FILE *out, const CarpaceCliRow *command)
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

static const CarpaceCliRow *
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

static int
run (CarpaceCli *cli, int argc, char **argv)
{
  const char *word = argc > 1 ? argv[1] : "--help";
  const CarpaceCliRow *command = find (word);

  if (command && asks_for_help (argc - 1, argv + 1))
    print_forms (cli->out, command);
  else if (command)
    return command->run (cli, argc - 1, argv + 1);
  else if (strcmp (word, "--help") == 0 || strcmp (word, "-h") == 0)
    print_help (cli->out);
  else if (strcmp (word, "--version") == 0)
    fprintf (cli->out, "Carpace %s\n", CARPACE_VERSION);
  else if (strcmp (word, "--complete") == 0)
    return carpace_cli_complete (cli, commands, G_N_ELEMENTS (commands), argc - 1, argv + 1);
  else
    return not_a_command (cli, word);
  return CARPACE_EXIT_DONE;
}

int
carpace_cli_run (CarpaceCli *cli, int argc, char **argv)
{
  int status = run (cli, argc, argv);

  return !carpace_cli_flush (cli) && status == CARPACE_EXIT_DONE ? CARPACE_EXIT_REFUSED : status;
}
