/* SPDX-License-Identifier: GPL-3.0-or-later */
/* records.c: `carpace export`, `import`, `erase`, `backup`. */
#define _GNU_SOURCE /* O_NOFOLLOW */

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/cli.h"
#include "cli/dates.h"
#include "cli/diary-out.h"
#include "cli/options.h"
#include "text/text.h"

/* Larger than any diary of a lifetime. */
#define LARGEST_FILE (512 * 1024 * 1024)

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

  return form != NULL && form->write (diary, what, &out) && fflush (to) == 0;
}

/* A new file that nobody else may read; NULL and one sentence where there can be none. */
static FILE *
new_file (CarpaceCli *cli, const char *path)
{
  int fd = open (path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0600);
  FILE *file = fd >= 0 ? fdopen (fd, "w") : NULL;
  g_autofree char *name = g_filename_display_name (path);

  if (file != NULL)
    return file;
  if (errno == EEXIST)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s is there already; name a file that is not."), name);
  else
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s cannot be written: %s."), name, g_strerror (errno));
  return NULL;
}

/* ---- export ---- */

typedef struct
{
  const char *format, *path;
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
  FILE *to = cli->out;
  bool ok;

  if (!read_export (cli, argc, argv, &export))
    return CARPACE_EXIT_WORDS;
  if (!cli->open_diary (cli, &diary) || (export.path != NULL && (to = new_file (cli, export.path)) == NULL))
    return CARPACE_EXIT_REFUSED;
  find_side (cli, &export.what);
  ok = carpace_cli_write_diary (cli, &diary, export.format, &export.what, to);
  if (export.path != NULL)
    ok = fclose (to) == 0 && ok;
  if (ok)
    return CARPACE_EXIT_DONE;
  if (export.path != NULL)
    unlink (export.path); /* this command made it */
  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                             _("The diary could not be exported: it cannot be read to its end, or there is no room."));
}

/* ---- import ---- */

/* The whole of a file, at most LARGEST_FILE of it. NULL and one sentence where it cannot be had. */
static char *
read_file (CarpaceCli *cli, const char *path, size_t *ret_n)
{
  g_autofree char *name = g_filename_display_name (path);
  g_autoptr (GError) error = NULL;
  struct stat is;
  char *bytes;

  if (stat (path, &is) == 0 && !S_ISREG (is.st_mode))
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s is no file; name one that was exported."), name);
  else if (stat (path, &is) == 0 && is.st_size > LARGEST_FILE)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s is too large to be a diary."), name);
  else if (g_file_get_contents (path, &bytes, ret_n, &error))
    return bytes;
  else
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s cannot be read: %s."), name, g_strerror (errno));
  return NULL;
}

static const CarpaceDiaryFormat *
form_of (CarpaceCli *cli, const char *path, const char *bytes, size_t n)
{
  g_autofree char *name = g_filename_display_name (path);

  for (int i = 0; cli->formats[i] != NULL; i++)
    if (cli->formats[i]->is_like (bytes, n))
      {
        if (cli->formats[i]->read != NULL)
          return cli->formats[i];
        carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                            _("%s holds a part of a diary only (%s); export with --format csv or json to bring it back."),
                            name, cli->formats[i]->name);
        return NULL;
      }
  carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s is no diary; take a file from carpace export --format csv or json."),
                      name);
  return NULL;
}

static int
tell_intake (CarpaceCli *cli, const char *path, const CarpaceIntake *intake)
{
  g_autofree char *name = g_filename_display_name (path);

  if (intake->fault != NULL)
    {
      fprintf (cli->err, "%s:%d: %s\n", name, intake->line, intake->fault);
      return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Nothing was imported."));
    }
  fprintf (cli->out, ngettext ("%d record added, ", "%d records added, ", (gulong) intake->added), (int) intake->added);
  fprintf (cli->out, ngettext ("%d known already.\n", "%d known already.\n", (gulong) intake->known), (int) intake->known);
  return CARPACE_EXIT_DONE;
}

int
carpace_cli_import (CarpaceCli *cli, int argc, char **argv)
{
  const CarpaceDiaryFormat *form;
  CarpaceDiaryKeeper keeper;
  CarpaceIntake intake = { 0 };
  const char *words[1];
  g_autofree char *bytes = NULL;
  size_t n;
  int status, n_words = carpace_options_read (cli, argc, argv, NULL, 0, words, 1);

  if (n_words == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name the file: carpace import FILE."));
  if (n_words < 0)
    return CARPACE_EXIT_WORDS;
  if ((bytes = read_file (cli, words[0], &n)) == NULL || (form = form_of (cli, words[0], bytes, n)) == NULL
      || !cli->open_keeper (cli, true, &keeper))
    return CARPACE_EXIT_REFUSED;
  form->read (bytes, n, &keeper, &intake);
  status = tell_intake (cli, words[0], &intake);
  free (intake.fault);
  return status;
}

/* ---- erase ---- */

/* The word that means yes is asked for, not a letter that is typed in passing. */
static bool
means_it (CarpaceCli *cli)
{
  char line[64];
  const char *word = _("erase");

  fprintf (cli->out, _("This erases the whole diary for good: every block, rating, note and decision, and what the next "
                       "day's dose would be decided from. No copy is kept.\nType %s to go on: "), word);
  fflush (cli->out);
  if (cli->in == NULL || fgets (line, sizeof line, cli->in) == NULL)
    return false;
  return strcmp (g_strstrip (line), word) == 0;
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
  if (!keeper.erase (keeper.self))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The diary could not be erased; nothing of it has changed."));
  fprintf (cli->out, "%s\n", _("The diary is erased."));
  return CARPACE_EXIT_DONE;
}

/* ---- backup ---- */

int
carpace_cli_backup (CarpaceCli *cli, int argc, char **argv)
{
  CarpaceDiaryKeeper keeper;
  const char *words[1];
  g_autofree char *name = NULL;
  int n_words = carpace_options_read (cli, argc, argv, NULL, 0, words, 1);

  if (n_words == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name the file: carpace backup FILE."));
  if (n_words < 0)
    return CARPACE_EXIT_WORDS;
  name = g_filename_display_name (words[0]);
  if (g_file_test (words[0], G_FILE_TEST_EXISTS))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s is there already; name a file that is not."), name);
  if (!cli->open_keeper (cli, false, &keeper))
    return CARPACE_EXIT_REFUSED;
  if (!keeper.backup (keeper.self, words[0]))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                               _("No backup was made: there is no diary yet, or %s cannot be written."), name);
  return CARPACE_EXIT_DONE;
}
