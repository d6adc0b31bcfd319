/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rehearse.c: `carpace rehearse`. */
#include "app/players.h"

#include <errno.h>
#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>
#include <unistd.h>

#include "cli/cli.h"
#include "cli/diary-out.h"
#include "cli/faults.h"
#include "cli/files.h"
#include "cli/options.h"
#include "cli/player-options.h"
#include "cli/reception.h"
#include "cli/season.h"
#include "files/in.h"
#include "forms/entries-json.h"
#include "forms/plan-write.h"
#include "text/entries.h"
#include "text/text.h"

#define RECEPTION_DAYS 84    /* twelve weeks: rules have settled by then */
#define RECEPTION_SEASONS 20
#define MOST_SEASONS 1000

typedef struct
{
  CarpaceCli *cli;
  bool json;
} Printer;

static void
print_entry (void *user, const CarpaceEntry *entry, int32_t line)
{
  Printer *printer = user;
  int64_t at_ms = entry->at.elapsed_ms;
  g_autofree char *text = printer->json ? carpace_entry_json (entry, at_ms, line) : carpace_entry_text (entry);

  if (printer->json)
    fprintf (printer->cli->out, "%s\n", text);
  else if (*text)
    {
      g_autofree char *time = carpace_rehearsed_time (at_ms);
      fprintf (printer->cli->out, "%10s  %s\n", time, text);
    }
}

static void
tell_script_fault (void *user, const CarpaceScriptFault *fault)
{
  g_autofree char *message = carpace_text_script_fault (fault);

  carpace_cli_file_fault (user, &(CarpaceFileFault) { .line = fault->line, .message = message });
}

/* "-" is the standard input. A script that is too large is one with a fault. */
static GString *
read_script (CarpaceCli *cli, const char *path, CarpaceFaultTeller *teller)
{
  CarpaceFileTrouble trouble;
  GString *text = strcmp (path, "-") == 0
                    ? carpace_in_read_fd (STDIN_FILENO, CARPACE_SCRIPT_BYTES, &trouble)
                    : carpace_in_read (path, CARPACE_SCRIPT_BYTES, CARPACE_IN_FILE_OR_PIPE, &trouble);
  g_autofree char *sentence = text != NULL ? NULL : carpace_text_not_read (trouble, path, errno);

  if (text == NULL && trouble == CARPACE_FILE_TOO_LARGE)
    tell_script_fault (teller, &(CarpaceScriptFault) { .kind = CARPACE_SCRIPT_TOO_LARGE });
  else if (text == NULL)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", sentence);
  return text;
}

/* ---- kept, for --export ---- */

typedef struct
{
  const char *path;
  bool force;
  CarpaceDiary diary;
  CarpaceStore store;
} Kept;

/* A diary in memory that the rehearsal goes to, and its plan as one that was given. */
static bool
keep_begin (CarpaceCli *cli, const CarpacePlan *plan, const char *path, bool force, Kept *ret_kept)
{
  CarpaceDiaryKeeper keeper;
  g_autofree char *text = NULL;
  CarpacePlanRecord given = { .name = plan->name, .version = plan->version, .fixed = "" };

  *ret_kept = (Kept) { .path = path, .force = force };
  if (path == NULL)
    return true;
  if (!cli->open_scratch (cli, &ret_kept->diary, &keeper, &ret_kept->store))
    return false;
  given.text = text = carpace_plan_write_file (plan);
  return carpace_instant_read ("2027-03-01T00:00:00Z", &given.at) && keeper.keep_plan (keeper.self, &given) >= 0;
}

static bool
keep_end (CarpaceCli *cli, Kept *kept)
{
  const CarpaceDiaryExtract all = { .since = INT32_MIN, .until = INT32_MAX };
  CarpaceOutFile to;
  bool ok;

  if (kept->path == NULL)
    return true;
  if (!carpace_cli_open_out (cli, kept->path, kept->force, &to))
    return false;
  ok = carpace_cli_write_diary (cli, &kept->diary, "json", &all, to.stream) || ferror (to.stream);
  return carpace_cli_end_out (cli, kept->path, &to, ok) && ok;
}

static int
rehearse_script (CarpaceCli *cli, const CarpacePlan *plan, const char *path, const char *export, bool force, bool json)
{
  Kept kept;
  CarpaceFaultTeller teller = { .cli = cli, .path = path, .json = json };
  Printer printer = { .cli = cli, .json = json };
  CarpaceScript script;
  GString *text = read_script (cli, path, &teller);

  if (!text)
    return CARPACE_EXIT_REFUSED;
  bool good = carpace_script_read (text->str, text->len, &cli->zones, tell_script_fault, &teller, &script);
  g_string_free (text, TRUE);
  if (!good)
    return CARPACE_EXIT_REFUSED;
  if (!keep_begin (cli, plan, export, force, &kept))
    {
      carpace_script_clear (&script);
      return CARPACE_EXIT_REFUSED;
    }
  good = carpace_rehearse_script_kept (plan, &script, &cli->zones, export != NULL ? &kept.store : NULL, print_entry, &printer);
  carpace_script_clear (&script);
  if (!good)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is not enough memory for a rehearsal."));
  return keep_end (cli, &kept) ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
}

/* ---- a modelled player ---- */

/* Who hears a season: its lines, and its sums where it has more than one day. */
typedef struct
{
  Printer printer;
  CarpaceSeason season;
  CarpaceSeasonDays days;
  bool by_entry;
} Listeners;

static void
take_entry (void *user, const CarpaceEntry *entry, int32_t line)
{
  Listeners *l = user;

  if (l->by_entry)
    print_entry (&l->printer, entry, line);
  else
    carpace_season_take (&l->season, entry);
  carpace_season_days_take (&l->days, entry);
}

typedef struct
{
  const char *plan, *script, *days_word, *seed_word, *seasons_word, *format, *export;
  CarpacePlayerWords words;
  CarpacePlayerKind kind;
  CarpacePlayerTraits traits;
  int hand;
  int64_t days, seed, seasons;
  bool for_all, json, show, force;
} Asked;

static int
rehearse_player (CarpaceCli *cli, const CarpacePlan *plan, const Asked *asked)
{
  /* One evening is told entry by entry, more of them a day a line. */
  Listeners l = { .printer = { .cli = cli, .json = asked->json }, .season = { .out = cli->out },
                  .by_entry = asked->json || asked->days == 1 };
  const CarpaceSeasonTold told
    = { .plan = plan, .kind = asked->kind, .traits = &asked->traits, .seed = (uint64_t) asked->seed, .days = &l.days };
  Kept kept;
  bool good;

  if (!keep_begin (cli, plan, asked->export, asked->force, &kept))
    return CARPACE_EXIT_REFUSED;
  good = carpace_season_days_init (&l.days, (int32_t) asked->days)
         && carpace_rehearse_kept (plan, &asked->traits, (int32_t) asked->days, (uint64_t) asked->seed,
                                   asked->export != NULL ? &kept.store : NULL, take_entry, &l);

  carpace_season_end (&l.season);
  if (good && asked->days > 1)
    carpace_season_print (cli->out, &told, asked->json);
  carpace_season_days_clear (&l.days);
  if (!good)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is not enough memory for a rehearsal."));
  return keep_end (cli, &kept) ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
}

static int
rehearse_all (CarpaceCli *cli, const CarpacePlan *plan, const Asked *asked)
{
  const CarpaceReception reception = {
    .plan = plan, .days = (int32_t) asked->days, .seed = (uint64_t) asked->seed, .seasons = (int32_t) asked->seasons,
    .hand = asked->words.hand ? asked->hand : -1, .json = asked->json,
  };

  return carpace_reception (cli, &reception);
}

/* ---- the command ---- */

/* An option that says what the script says already; NULL where there is none. */
static const char *
beside_script (const Asked *asked)
{
  return asked->days_word ? "days" : asked->seed_word ? "seed" : asked->for_all ? "for-all"
                          : carpace_player_option_given (&asked->words);
}

/* An option of one player, where all are asked for. */
static const char *
beside_all (const Asked *asked)
{
  CarpacePlayerWords words = asked->words;

  words.hand = NULL;
  return asked->export ? "export" : carpace_player_option_given (&words);
}

/* An option of what is printed, where it is shown. */
static const char *
beside_show (const Asked *asked)
{
  return asked->script ? "script" : asked->export ? "export" : asked->format ? "format" : beside_script (asked);
}

static bool
options_fit_together (CarpaceCli *cli, const Asked *asked)
{
  if (!asked->plan)
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace rehearse” needs a block plan; “carpace plan list” names those there are."));
  else if (asked->script && beside_script (asked))
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("A script says all that happens: leave out “--%s”."), beside_script (asked));
  else if (asked->for_all && beside_all (asked))
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“--for-all” has players of its own: leave out “--%s”."), beside_all (asked));
  else if (asked->show && beside_show (asked))
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“--show” shows one example evening: leave out “--%s”."), beside_show (asked));
  else if (asked->seasons_word && !asked->for_all)
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“--seasons” is for “--for-all”: add it, or leave it out."));
  else
    return true;
  return false;
}

/* A hand that takes any dose never answers, so how it would is left out, not passed over. */
static bool
player_fits_together (CarpaceCli *cli, const Asked *asked)
{
  const CarpacePlayerWords *words = &asked->words;
  const char *idle = words->hand ? "hand"
                     : words->number[CARPACE_NUMBER_DROPS] ? "drops"
                     : words->number[CARPACE_NUMBER_GROWS] ? "grows"
                     : words->under_reports                ? "under-reports"
                                                           : NULL;

  if (!idle || asked->for_all || asked->traits.takes_ms > 0 || asked->traits.takes_pct > 0)
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“--%s” changes nothing for a hand that takes any dose; add what it takes, like “--takes 48min”."), idle);
  return false;
}

static bool
read_options (CarpaceCli *cli, int argc, char **argv, Asked *asked)
{
  CarpaceOption options[CARPACE_PLAYER_OPTIONS + 9];
  int n = CARPACE_PLAYER_OPTIONS;

  carpace_player_options (&asked->words, options);
  options[n++] = (CarpaceOption){ .name = "show", .flag = &asked->show };
  options[n++] = (CarpaceOption){ .name = "script", .value = &asked->script };
  options[n++] = (CarpaceOption){ .name = "for-all", .flag = &asked->for_all };
  options[n++] = (CarpaceOption){ .name = "seasons", .value = &asked->seasons_word };
  options[n++] = (CarpaceOption){ .name = "days", .value = &asked->days_word };
  options[n++] = (CarpaceOption){ .name = "seed", .value = &asked->seed_word };
  options[n++] = (CarpaceOption){ .name = "format", .value = &asked->format };
  options[n++] = (CarpaceOption){ .name = "export", .value = &asked->export };
  options[n++] = (CarpaceOption){ .name = "force", .flag = &asked->force };
  if (carpace_options_read (cli, argc, argv, options, n, &asked->plan, 1) < 0 || !options_fit_together (cli, asked)
      || !carpace_option_format (cli, asked->format, &asked->json)
      || !carpace_player_read (cli, &asked->words, &asked->kind, &asked->traits) || !player_fits_together (cli, asked))
    return false;
  asked->hand = (int) asked->traits.hand;
  asked->days = asked->for_all ? RECEPTION_DAYS : 1;
  return carpace_option_number (cli, "--days", asked->days_word, 1, 3660, &asked->days)
         && carpace_option_number (cli, "--seed", asked->seed_word, 0, INT64_MAX - MOST_SEASONS, &asked->seed)
         && carpace_option_number (cli, "--seasons", asked->seasons_word, 1, MOST_SEASONS, &asked->seasons);
}

int
carpace_cli_rehearse (CarpaceCli *cli, int argc, char **argv)
{
  Asked asked = { .seed = 1, .seasons = RECEPTION_SEASONS };

  if (!read_options (cli, argc, argv, &asked))
    return CARPACE_EXIT_WORDS;
  CarpaceFaultTeller teller = { .cli = cli, .path = asked.plan, .json = asked.json, .skip_warnings = true };
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  if (!cli->plans.load (cli->plans.self, asked.plan, plan, carpace_cli_file_fault, &teller))
    return CARPACE_EXIT_REFUSED;
  if (asked.show)
    return cli->show_evening != NULL && cli->show_evening (plan)
             ? CARPACE_EXIT_DONE
             : carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is no display to show an evening on; leave out “--show” to have it printed."));
  if (asked.traits.usual < 0)
    asked.traits.usual = plan->usual_discomfort;
  if (asked.script)
    return rehearse_script (cli, plan, asked.script, asked.export, asked.force, asked.json);
  return asked.for_all ? rehearse_all (cli, plan, &asked) : rehearse_player (cli, plan, &asked);
}
