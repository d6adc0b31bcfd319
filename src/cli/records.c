/* SPDX-License-Identifier: GPL-3.0-or-later */
/* records.c: `carpace export`, `erase`, `backup`. */
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "cli/cli.h"
#include "cli/dates.h"
#include "cli/diary-out.h"
#include "cli/files.h"
#include "cli/options.h"
#include "text/text.h"

static bool
write_bytes (void *self, const char *bytes, size_t n)
{
  return fwrite (bytes, 1, n, self) == n;
}

static const CarpaceDiaryFormat *
format_of (CarpaceCli *cli, const char *name)
{
  for (int i = 0; cli->formats[i] != NULL; i++)
    if (strcmp (cli->formats[i]->name, name) == 0)
      return cli->formats[i];
  return NULL;
}

bool
carpace_cli_write_diary (CarpaceCli *cli, const CarpaceDiary *diary, const char *format,
                         const CarpaceDiaryExtract *what, FILE *to)
{
  const CarpaceDiaryFormat *form = format_of (cli, format);
  const CarpaceBytesOut out = { to, write_bytes };

  return form != NULL && form->write (diary, what, &out);
}

/* ---- export ---- */

typedef struct
{
  const char *format, *path;
  bool force;
  CarpaceDiaryExtract what;
} Export;

static bool
read_export (CarpaceCli *cli, int argc, char **argv, Export *ret_export)
{
  static const char *const formats[] = { "csv", "json", "fhir", NULL };
  const char *format = NULL, *since = NULL, *until = NULL, *code = NULL, *words[1];
  bool without_notes = false;
  const CarpaceOption options[] = {
    { .name = "format", .value = &format }, { .name = "since", .value = &since }, { .name = "until", .value = &until },
    { .name = "code", .value = &code }, { .name = "without-notes", .flag = &without_notes },
    { .name = "force", .flag = &ret_export->force },
  };
  int choice;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1) < 0
      || (choice = carpace_option_choice (cli, "format", format, formats)) < 0
      || !carpace_option_period (cli, since, until, &ret_export->what.since, &ret_export->what.until))
    return false;
  ret_export->format = formats[choice];
  ret_export->path = words[0];
  ret_export->what.without_notes = without_notes;
  ret_export->what.player = code != NULL ? code : "player";
  ret_export->what.code = code;
  return true;
}

static void
no_faults (void *user, const CarpaceFileFault *fault)
{
}

/* The hand is the plan's in use, where there is one. */
static void
find_side (CarpaceCli *cli, CarpaceDiaryExtract *what)
{
  CarpacePlan *plan;

  if (cli->plans.load_in_use == NULL)
    return;
  plan = g_new (CarpacePlan, 1);
  what->side_known = cli->plans.load_in_use (cli->plans.self, plan, no_faults, NULL);
  if (what->side_known)
    what->side = plan->side;
  g_free (plan);
}

int
carpace_cli_export (CarpaceCli *cli, int argc, char **argv)
{
  Export export = { 0 };
  CarpaceDiary diary;
  CarpaceOutFile to;
  bool ok;

  if (!read_export (cli, argc, argv, &export))
    return CARPACE_EXIT_WORDS;
  if (!cli->open_diary (cli, &diary) || !carpace_cli_open_out (cli, export.path, export.force, &to))
    return CARPACE_EXIT_REFUSED;
  find_side (cli, &export.what);
  ok = carpace_cli_write_diary (cli, &diary, export.format, &export.what, to.stream) || ferror (to.stream);
  if (!carpace_cli_end_out (cli, export.path, &to, ok))
    return CARPACE_EXIT_REFUSED;
  if (ok)
    return CARPACE_EXIT_DONE;
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The diary could not be exported: it cannot be read to its end."));
}

/* ---- erase ---- */

static bool
means_it (CarpaceCli *cli)
{
  const char *word = _("erase");

  fprintf (cli->out, _("This erases the whole diary for good: every block, rating, note and decision, and what the next "
                       "day's dose would be decided from. No copy is kept.\nType %s to go on: "), word);
  return carpace_cli_says (cli, word);
}

static int
tell_erasing (CarpaceCli *cli, CarpaceErasing erasing)
{
  switch (erasing)
    {
    case CARPACE_ERASED:
      fprintf (cli->out, "%s\n", _("The diary is erased."));
      return CARPACE_EXIT_DONE;
    case CARPACE_ERASE_HELD:
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                                 _("Another program is reading the diary, a pager perhaps: nothing was erased. End it, "
                                   "then try again."));
    case CARPACE_ERASE_LEFT:
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                                 _("The diary is erased, but another program began to read it: what it reads is still "
                                   "in the file. End it, then erase again."));
    case CARPACE_ERASE_FAILED:
      break;
    }
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The diary could not be erased; nothing of it has changed."));
}

int
carpace_cli_erase (CarpaceCli *cli, int argc, char **argv)
{
  bool yes = false;
  const CarpaceOption options[] = { { .name = "yes", .flag = &yes } };
  CarpaceDiaryKeeper keeper;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0)
    return CARPACE_EXIT_WORDS;
  if (!cli->open_keeper (cli, true, &keeper))
    return CARPACE_EXIT_REFUSED;
  if (!yes && !means_it (cli))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Nothing was erased."));
  return tell_erasing (cli, keeper.erase (keeper.self));
}

/* ---- backup ---- */

int
carpace_cli_backup (CarpaceCli *cli, int argc, char **argv)
{
  CarpaceDiaryKeeper keeper;
  CarpaceOutFile to;
  CarpaceBytesOut out = { NULL, write_bytes };
  const char *words[1];
  bool force = false, ok;
  const CarpaceOption options[] = { { .name = "force", .flag = &force } };
  int n_words = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);

  if (n_words == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name the file: carpace backup FILE."));
  if (n_words < 0)
    return CARPACE_EXIT_WORDS;
  if (!cli->open_keeper (cli, false, &keeper) || !carpace_cli_open_out (cli, words[0], force, &to))
    return CARPACE_EXIT_REFUSED;
  out.self = to.stream;
  ok = keeper.backup (keeper.self, &out) || ferror (to.stream);
  if (!carpace_cli_end_out (cli, words[0], &to, ok))
    return CARPACE_EXIT_REFUSED;
  if (ok)
    return CARPACE_EXIT_DONE;
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                             _("No backup was made: there is no diary yet, or it cannot be read to its end."));
}
