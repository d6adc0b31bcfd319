/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rehearse.c: `carpace rehearse`. */
#include "app/players.h"

#include <errno.h>
#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#include "cli/cli.h"
#include "cli/faults.h"
#include "cli/options.h"
#include "cli/season.h"
#include "text/entries.h"
#include "text/text.h"

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

/* At most one byte more than a script may have: enough to tell that it is too large. */
static GString *
read_all (FILE *file)
{
  GString *text = g_string_new (NULL);
  char piece[65536];
  size_t n;

  while (text->len <= CARPACE_SCRIPT_BYTES && (n = fread (piece, 1, sizeof piece, file)) > 0)
    g_string_append_len (text, piece, (gssize) n);
  return text;
}

static GString *
read_file (CarpaceCli *cli, const char *path)
{
  bool standard = strcmp (path, "-") == 0;
  FILE *file = standard ? stdin : fopen (path, "re");
  GString *text = NULL;
  int error = errno;

  if (file)
    {
      errno = 0;
      text = read_all (file);
      error = errno;
    }
  if (!file || ferror (file))
    {
      carpace_cli_refuse (cli, 0, _("%s: it cannot be read (%s); name a script that is there."), path, g_strerror (error));
      if (text)
        g_string_free (text, TRUE);
      text = NULL;
    }
  if (file && !standard)
    fclose (file);
  return text;
}

static int
rehearse_script (CarpaceCli *cli, const CarpacePlan *plan, const char *path, bool json)
{
  CarpaceFaultTeller teller = { .cli = cli, .path = path, .json = json };
  Printer printer = { .cli = cli, .json = json };
  CarpaceScript script;
  GString *text = read_file (cli, path);

  if (!text)
    return CARPACE_EXIT_REFUSED;
  bool good = carpace_script_read (text->str, text->len, &cli->zones, tell_script_fault, &teller, &script);
  g_string_free (text, TRUE);
  if (!good)
    return CARPACE_EXIT_REFUSED;
  good = carpace_rehearse_script (plan, &script, &cli->zones, print_entry, &printer);
  carpace_script_clear (&script);
  if (!good)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is not enough memory for a rehearsal."));
  return CARPACE_EXIT_DONE;
}

/* ---- a modelled player ---- */

static void
take_day (void *user, const CarpaceEntry *entry, int32_t line)
{
  carpace_season_take (user, entry);
}

static int
rehearse_player (CarpaceCli *cli, const CarpacePlan *plan, CarpacePlayerKind kind, int64_t days, int64_t seed, bool json)
{
  Printer printer = { .cli = cli, .json = json };
  CarpaceSeason season = { .out = cli->out };
  /* One evening is told entry by entry, more of them a day a line. */
  bool by_entry = json || days == 1;
  bool good = carpace_rehearse_player (plan, kind, (int32_t) days, (uint64_t) seed, by_entry ? print_entry : take_day,
                                       by_entry ? (void *) &printer : &season);

  carpace_season_end (&season);
  if (!good)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is not enough memory for a rehearsal."));
  return CARPACE_EXIT_DONE;
}

/* ---- the command ---- */

typedef struct
{
  const char *plan, *script, *player, *days_word, *seed_word, *format;
  CarpacePlayerKind kind;
  int64_t days, seed;
  bool json;
} Asked;

static bool
options_fit_together (CarpaceCli *cli, const Asked *asked)
{
  if (!asked->plan)
    carpace_cli_refuse (cli, 0, _("“carpace rehearse” needs a block plan; “carpace plan list” names those there are."));
  else if (asked->script && (asked->player || asked->days_word || asked->seed_word))
    carpace_cli_refuse (cli, 0, _("A script says all that happens: leave out “--player”, “--days” and “--seed”."));
  else
    return true;
  return false;
}

static bool
read_options (CarpaceCli *cli, int argc, char **argv, Asked *asked)
{
  static const char *const kinds[CARPACE_N_PLAYERS + 1] = { "steady", "sensitive", "plays-on", "silent", NULL };
  const CarpaceOption options[] = {
    { .name = "script", .value = &asked->script }, { .name = "player", .value = &asked->player },
    { .name = "days", .value = &asked->days_word }, { .name = "seed", .value = &asked->seed_word },
    { .name = "format", .value = &asked->format },
  };
  int kind;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), &asked->plan, 1) < 0
      || !options_fit_together (cli, asked) || !carpace_option_format (cli, asked->format, &asked->json)
      || (kind = carpace_option_choice (cli, "--player", asked->player, kinds)) < 0)
    return false;
  asked->kind = (CarpacePlayerKind) kind;
  return carpace_option_number (cli, "--days", asked->days_word, 1, 3660, &asked->days)
         && carpace_option_number (cli, "--seed", asked->seed_word, 0, INT64_MAX, &asked->seed);
}

int
carpace_cli_rehearse (CarpaceCli *cli, int argc, char **argv)
{
  Asked asked = { .days = 1, .seed = 1 };

  if (!read_options (cli, argc, argv, &asked))
    return CARPACE_EXIT_WORDS;
  CarpaceFaultTeller teller = { .cli = cli, .path = asked.plan, .json = asked.json, .skip_warnings = true };
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  if (!cli->plans.load (cli->plans.self, asked.plan, plan, carpace_cli_file_fault, &teller))
    return CARPACE_EXIT_REFUSED;
  if (asked.script)
    return rehearse_script (cli, plan, asked.script, asked.json);
  return rehearse_player (cli, plan, asked.kind, asked.days, asked.seed, asked.json);
}
