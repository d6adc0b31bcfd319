/* SPDX-License-Identifier: GPL-3.0-or-later */
/* take-in.c: `carpace import` and `restore`, and files read in the diary's place. */
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include <glib/gstdio.h>

#include "cli/cli.h"
#include "cli/diary-out.h"
#include "cli/files.h"
#include "cli/options.h"
#include "cli/remote.h"
#include "text/intake-text.h"
#include "text/text.h"

/* Larger than any diary of a lifetime. */
#define LARGEST_FILE (512 * 1024 * 1024)

/** A file that a diary comes from: an export in one of the forms, or a backup. */
typedef struct
{
  const char *path;
  GString *bytes;
  const CarpaceDiaryFormat *form; /* NULL: a backup */
  CarpaceDiary backup;
  CarpaceIdentity whose;
} Source;

static void
tell_no_diary (CarpaceCli *cli, const char *path, const CarpaceDiaryFormat *form)
{
  g_autofree char *name = carpace_text_path (path);

  if (form != NULL)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                        _("%s holds a part of a diary only (%s); export with --format csv or json to bring it back."),
                        name, form->name);
  else
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s is no diary; take a file from carpace export --format csv or json."),
                        name);
}

static bool
find_form (CarpaceCli *cli, Source *source)
{
  const CarpaceDiaryFormat *form = NULL;

  for (int i = 0; form == NULL && cli->formats[i] != NULL; i++)
    if (cli->formats[i]->is_like (source->bytes->str, source->bytes->len))
      form = cli->formats[i];
  if (form == NULL || form->read == NULL)
    {
      tell_no_diary (cli, source->path, form);
      return false;
    }
  source->form = form;
  if (form->whose != NULL)
    form->whose (source->bytes->str, source->bytes->len, &source->whose);
  return true;
}

static bool
open_source (CarpaceCli *cli, const char *path, Source *ret_source)
{
  *ret_source = (Source) { .path = path, .bytes = carpace_cli_read_file (cli, path, LARGEST_FILE) };
  if (ret_source->bytes == NULL)
    return false;
  if (cli->open_backup == NULL || !cli->is_backup (ret_source->bytes->str, ret_source->bytes->len))
    return find_form (cli, ret_source);
  return cli->open_backup (cli, path, ret_source->bytes->str, ret_source->bytes->len, &ret_source->backup)
         && ret_source->backup.whose (ret_source->backup.self, &ret_source->whose);
}

static void
close_source (Source *source)
{
  if (source->bytes != NULL)
    g_string_free (source->bytes, TRUE);
}

/* ---- a backup, record by record: it is read as what a stranger may have made ---- */

typedef struct
{
  const CarpaceDiaryKeeper *keeper;
  CarpaceIntake *intake;
  bool ok;
} Passing;

static void
counted (Passing *passing, int came)
{
  passing->ok = came >= 0;
  passing->intake->added += came == 1;
  passing->intake->known += came == 0;
}

static bool
pass_record (void *user, const CarpaceRecord *record)
{
  Passing *passing = user;

  counted (passing, passing->keeper->take_in_record (passing->keeper->self, record->day, &record->entry, record->note));
  return passing->ok;
}

static bool
pass_day (void *user, const CarpaceDaySum *sum)
{
  Passing *passing = user;

  if (sum->note != NULL || sum->other_ms >= 0)
    counted (passing, passing->keeper->take_in_day (passing->keeper->self, sum->day, sum->other_ms, sum->note));
  return passing->ok;
}

static bool
pass_event (void *user, const CarpaceEvent *event, CarpaceInstant at)
{
  Passing *passing = user;

  passing->ok = passing->keeper->take_in_event (passing->keeper->self, event, at) >= 0;
  return passing->ok;
}

static bool
pass_plan (void *user, const CarpacePlanRecord *record)
{
  Passing *passing = user;

  passing->ok = passing->keeper->keep_plan (passing->keeper->self, record) >= 0;
  return passing->ok;
}

static bool
pass_all (Passing *passing, const CarpaceDiary *from)
{
  CarpaceInstant at;
  bool ended_well;

  if (!from->records (from->self, INT32_MIN, INT32_MAX, pass_record, passing) || !passing->ok
      || !from->days (from->self, INT32_MIN, INT32_MAX, pass_day, passing) || !passing->ok
      || !from->events (from->self, pass_event, passing) || !passing->ok
      || !from->plans (from->self, pass_plan, passing) || !passing->ok)
    return false;
  return !from->alive (from->self, &at, &ended_well)
         || passing->keeper->take_in_alive (passing->keeper->self, at, ended_well) >= 0;
}

static void
take_in_backup (const CarpaceDiary *from, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake)
{
  Passing passing = { .keeper = keeper, .intake = ret_intake, .ok = true };
  bool passed = keeper->take_in_begin (keeper->self) && pass_all (&passing, from);

  if (!keeper->take_in_end (keeper->self, passed) || !passed)
    ret_intake->fault = carpace_text_intake_fault (CARPACE_INTAKE_NOT_KEPT, NULL, NULL);
}

static void
take_in (const Source *source, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake)
{
  keeper->become (keeper->self, &source->whose);
  if (source->form != NULL)
    source->form->read (source->bytes->str, source->bytes->len, keeper, ret_intake);
  else
    take_in_backup (&source->backup, keeper, ret_intake);
}

static void
no_faults (void *user, const CarpaceFileFault *fault)
{
}

/* ---- whose it is ---- */

static bool
asked_to_join (CarpaceCli *cli)
{
  const char *word = _("join");

  fprintf (cli->out, _("Two diaries of one player become one, for good: what both recorded is put in the order in which it "
                       "happened, and the next dose is decided from all of it. carpace backup keeps this one as it is.\n"
                       "Type %s to go on: "), word);
  if (carpace_cli_says (cli, word))
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Nothing was imported."));
  return false;
}

static bool
may_take_in (CarpaceCli *cli, const Source *source, const CarpaceDiaryKeeper *keeper, bool mine)
{
  g_autofree char *name = carpace_text_path (source->path);
  CarpaceIdentity own;

  if (source->whose.n == 0 && !mine)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s does not say whose diary it is, as it was exported before diaries did; if it is yours, "
                                  "add --mine."), name);
  else if (source->whose.n == 0 || keeper->is_empty (keeper->self))
    return true;
  else if (!keeper->whose (keeper->self, &own))
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("A part of the diary could not be read; take a backup in its place."));
  else if (carpace_identity_same (&own, &source->whose))
    return true;
  else if (mine)
    return asked_to_join (cli);
  else
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s is another player's diary, and nothing of it was taken in; if both are yours, add --mine, "
                                  "once, and they are joined."), name);
  return false;
}

static int
tell_intake (CarpaceCli *cli, const char *path, const CarpaceIntake *intake)
{
  g_autofree char *name = carpace_text_path (path);

  if (intake->fault != NULL)
    {
      const char *fault = carpace_remote_says (cli, CARPACE_EXIT_REFUSED, intake->fault);

      if (intake->line > 0)
        fprintf (cli->err, "%s:%d: %s\n", name, intake->line, fault);
      else
        fprintf (cli->err, "%s: %s\n", name, fault);
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Nothing was imported."));
    }
  fprintf (cli->out, ngettext ("%d record added, ", "%d records added, ", (gulong) intake->added), (int) intake->added);
  fprintf (cli->out, ngettext ("%d known already.\n", "%d known already.\n", (gulong) intake->known), (int) intake->known);
  return CARPACE_EXIT_DONE;
}

/* ---- the plan in use ---- */

typedef struct { char *name, *text; } LastPlan;

static bool
remember_plan (void *user, const CarpacePlanRecord *record)
{
  LastPlan *last = user;

  if (record->what != CARPACE_PLAN_GIVEN)
    return true;
  g_free (last->name);
  g_free (last->text);
  *last = (LastPlan) { g_strdup (record->name), g_strdup (record->text) };
  return true;
}

/* A plan's name as that of its file. */
static char *
file_named (const char *folder, const char *name)
{
  GString *word = g_string_new (NULL);

  for (const char *at = name; *at != '\0'; at++)
    if (g_ascii_isalnum (*at))
      g_string_append_c (word, g_ascii_tolower (*at));
    else if (word->len > 0 && word->str[word->len - 1] != '-')
      g_string_append_c (word, '-');
  g_string_append (word, word->len > 0 ? ".plan.yaml" : "plan.plan.yaml");
  g_string_prepend_c (word, G_DIR_SEPARATOR);
  g_string_prepend (word, folder);
  return g_string_free (word, FALSE);
}

static void
tell_fault (void *user, const CarpaceFileFault *fault)
{
  if (!fault->warning)
    carpace_cli_refuse (user, CARPACE_EXIT_REFUSED, "%s", fault->message);
}

/* Where no plan is in use here, the one that was given last is. */
static void
use_last_plan (CarpaceCli *cli)
{
  LastPlan last = { NULL, NULL };
  CarpaceDiary diary;
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autofree char *folder = NULL, *path = NULL;

  if (cli->plans.use == NULL || cli->plans.load_in_use (cli->plans.self, plan, no_faults, NULL)
      || !cli->open_diary (cli, &diary) || !diary.plans (diary.self, remember_plan, &last) || last.text == NULL)
    return;
  folder = g_dir_make_tmp ("carpace-plan-XXXXXX", NULL);
  if (folder != NULL)
    path = file_named (folder, last.name);
  if (path != NULL && g_file_set_contents (path, last.text, -1, NULL))
    cli->plans.use (cli->plans.self, path, NULL, tell_fault, cli);
  if (path != NULL)
    g_unlink (path);
  if (folder != NULL)
    g_rmdir (folder);
  g_free (last.name);
  g_free (last.text);
}

/* ---- the commands ---- */

static bool
is_wanted_here (CarpaceCli *cli, const CarpaceDiaryKeeper *keeper, bool only_where_empty)
{
  if (!only_where_empty || keeper->is_empty (keeper->self))
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is a diary here already, and restore takes one in only where there is none; carpace "
                                "import FILE adds to it."));
  return false;
}

static int
take_in_file (CarpaceCli *cli, const char *path, bool mine, bool only_where_empty)
{
  CarpaceDiaryKeeper keeper;
  CarpaceIntake intake = { 0 };
  Source source;
  int status = CARPACE_EXIT_REFUSED;

  if (open_source (cli, path, &source) && cli->open_keeper (cli, true, &keeper)
      && is_wanted_here (cli, &keeper, only_where_empty) && may_take_in (cli, &source, &keeper, mine))
    {
      take_in (&source, &keeper, &intake);
      status = tell_intake (cli, path, &intake);
      free (intake.fault);
      if (status == CARPACE_EXIT_DONE)
        use_last_plan (cli);
    }
  close_source (&source);
  return status;
}

int
carpace_cli_import (CarpaceCli *cli, int argc, char **argv)
{
  const char *words[1];
  bool mine = false;
  const CarpaceOption options[] = { { .name = "mine", .flag = &mine } };
  int n_words = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);

  if (n_words == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name the file: carpace import FILE."));
  return n_words < 0 ? CARPACE_EXIT_WORDS : take_in_file (cli, words[0], mine, false);
}

int
carpace_cli_restore (CarpaceCli *cli, int argc, char **argv)
{
  const char *words[1];
  bool mine = false;
  const CarpaceOption options[] = { { .name = "mine", .flag = &mine } };
  int n_words = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);

  if (n_words == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name the file: carpace restore FILE."));
  return n_words < 0 ? CARPACE_EXIT_WORDS : take_in_file (cli, words[0], mine, true);
}

/* ---- a file in the diary's place ---- */

bool
carpace_cli_open_diary_or (CarpaceCli *cli, const char *from, CarpaceDiary *ret_diary)
{
  CarpaceDiaryKeeper keeper;
  CarpaceIntake intake = { 0 };
  Source source;
  bool read;

  if (from == NULL)
    return cli->open_diary (cli, ret_diary);
  read = open_source (cli, from, &source) && cli->open_scratch (cli, ret_diary, &keeper, NULL);
  if (read)
    {
      take_in (&source, &keeper, &intake);
      read = intake.fault == NULL || tell_intake (cli, from, &intake) == CARPACE_EXIT_DONE;
      free (intake.fault);
    }
  close_source (&source);
  return read;
}
