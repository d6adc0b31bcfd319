/* SPDX-License-Identifier: GPL-3.0-or-later */
/* give.c: which copies there are, the next one, and what it changes. */
#define _GNU_SOURCE /* AT_FDCWD */
#include "cli/give.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "files/in.h"
#include "files/out.h"
#include "forms/plan-edit.h"
#include "forms/plan-yaml.h"
#include "text/plan-words.h"
#include "text/quoted.h"

#define ENDING ".plan.yaml"
#define LAST_VERSION 9999

/* ---- copies that are there ---- */

/* "two-halves" of "/plans/two-halves.plan.yaml". */
static char *
stem_of (const char *path)
{
  static const char *const endings[] = { ENDING, ".yaml", ".yml", ".json" };
  char *name = g_path_get_basename (path);

  for (size_t i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (name, endings[i]) && strlen (name) > strlen (endings[i]))
      {
        name[strlen (name) - strlen (endings[i])] = '\0';
        break;
      }
  return name;
}

static char *
folder_of (const CarpaceGift *gift)
{
  return gift->into != NULL ? g_strdup (gift->into) : g_path_get_dirname (gift->path);
}

static char *
path_of (const CarpaceGift *gift, const char *code, int32_t version)
{
  g_autofree char *folder = folder_of (gift), *stem = stem_of (gift->path);
  g_autofree char *name = g_strdup_printf ("%s-%s-v%d" ENDING, stem, code, (int) version);

  return g_build_filename (folder, name, NULL);
}

/* The version in @name, behind @begin: digits and the ending, nothing else; 0 where it is no copy. */
static int32_t
version_in (const char *name, const char *begin)
{
  const char *at = name + strlen (begin);
  int32_t version = 0;

  if (g_ascii_strncasecmp (name, begin, strlen (begin)) != 0 || *at == '0')
    return 0;
  for (; g_ascii_isdigit (*at) && version <= LAST_VERSION; at++)
    version = 10 * version + (*at - '0');
  return g_ascii_strcasecmp (at, ENDING) == 0 ? version : 0;
}

/* The highest version there is a file of, whatever kind of file; 0 where there is none. */
static int32_t
highest (const CarpaceGift *gift, const char *code)
{
  g_autofree char *folder = folder_of (gift), *stem = stem_of (gift->path);
  g_autofree char *begin = g_strdup_printf ("%s-%s-v", stem, code);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  int32_t most = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    most = MAX (most, version_in (name, begin));
  return most;
}

static void
tell_nobody (void *user, const CarpaceFileFault *fault)
{
}

bool
carpace_give_read (const char *bytes, gsize n_bytes, CarpacePlan *ret_plan)
{
  CarpacePlanReader reader = carpace_plan_yaml ();

  return reader.read (reader.self, bytes, n_bytes, NULL, ret_plan, NULL, tell_nobody, NULL);
}

static bool
read_copy (const char *path, CarpacePlan *ret_plan)
{
  CarpaceFileTrouble trouble;
  g_autoptr (GString) bytes = carpace_in_read (path, CARPACE_PLAN_FILE_BYTES, CARPACE_IN_FILE, &trouble);

  return bytes != NULL && carpace_give_read (bytes->str, bytes->len, ret_plan);
}

/* ---- the next one ---- */

static void
write_copy (const CarpaceGift *gift, bool write, CarpaceGiven *given)
{
  g_autofree char *version = g_strdup_printf ("%d", (int) given->version);
  const CarpacePlanEdit edit = { .kind = CARPACE_EDIT_SET, .path = carpace_name (CARPACE_WORDS_PLAN_KEY, CARPACE_KEY_VERSION),
                                 .value = version };
  g_autoptr (GString) bytes = NULL;

  if (carpace_plan_edit (gift->bytes, gift->n_bytes, &edit, &bytes) != CARPACE_EDIT_DONE)
    {
      given->end = CARPACE_GIVEN_UNFIT;
      return;
    }
  given->end = CARPACE_GIVEN_AHEAD;
  if (!write)
    return;
  given->trouble = carpace_out_write (AT_FDCWD, given->path, CARPACE_OUT_NEW, bytes->str, bytes->len);
  given->error = errno;
  given->end = given->trouble == CARPACE_FILE_FINE ? CARPACE_GIVEN_DONE : CARPACE_GIVEN_UNWRITTEN;
}

static void
give (const CarpaceGift *gift, const char *code, bool write, CarpaceGiven *ret_given)
{
  const CarpacePlan *plan = gift->plan;
  g_autofree CarpacePlan *before = g_new0 (CarpacePlan, 1);
  CarpaceGiven given = { .before = highest (gift, code) };
  g_autofree char *path_before = path_of (gift, code, given.before);
  bool known = given.before > 0 && read_copy (path_before, before);

  if (plan == NULL)
    {
      given.end = CARPACE_GIVEN_UNFIT;
      *ret_given = given;
      return;
    }
  if (known)
    given.changes = carpace_text_plan_changes (before, plan);
  if (known && strcmp (before->name, plan->name) == 0 && strcmp (given.changes, carpace_text_plan_no_changes ()) == 0)
    {
      given.end = CARPACE_GIVEN_ALREADY;
      given.version = before->version;
      given.path = g_steal_pointer (&path_before);
      *ret_given = given;
      return;
    }
  given.version = MAX (MAX (plan->version, given.before), known ? before->version : 0) + 1;
  given.path = path_of (gift, code, given.version);
  if (given.version > LAST_VERSION)
    given.end = CARPACE_GIVEN_LAST;
  else
    write_copy (gift, write, &given);
  *ret_given = given;
}

void
carpace_give (const CarpaceGift *gift, const char *code, CarpaceGiven *ret_given)
{
  give (gift, code, true, ret_given);
}

void
carpace_give_ahead (const CarpaceGift *gift, const char *code, CarpaceGiven *ret_given)
{
  give (gift, code, false, ret_given);
}

void
carpace_given_clear (CarpaceGiven *given)
{
  g_clear_pointer (&given->path, g_free);
  g_clear_pointer (&given->changes, g_free);
}

char *
carpace_given_told (const char *code, const CarpaceGiven *given)
{
  g_autofree char *path = carpace_text_path (given->path), *why = NULL;
  const char *changes = given->changes != NULL ? given->changes : _("  (the version before cannot be read any more)\n");

  switch (given->end)
    {
    case CARPACE_GIVEN_AHEAD:
      if (given->before == 0)
        return g_strdup_printf (_("%s: to be version %d, the first one given.\n"), code, (int) given->version);
      return g_strdup_printf (_("%s: to be version %d. It will change, in place of version %d:\n%s"), code, (int) given->version,
                              (int) given->before, changes);
    case CARPACE_GIVEN_DONE:
      if (given->before == 0)
        return g_strdup_printf (_("%s: version %d, the first one given: %s\n"), code, (int) given->version, path);
      return g_strdup_printf (_("%s: version %d: %s\nIt changes, in place of version %d:\n%s"), code, (int) given->version, path,
                              (int) given->before, changes);
    case CARPACE_GIVEN_ALREADY:
      return g_strdup_printf (_("%s has this already, as version %d: %s\n"), code, (int) given->version, path);
    case CARPACE_GIVEN_LAST:
      return g_strdup_printf (_("%s: version 9999 is given already, and there is none behind it; give the plan another name.\n"), code);
    case CARPACE_GIVEN_UNFIT:
      return g_strdup_printf (_("%s: the plan’s version cannot be changed without touching more of the file; write “version: 1” into it.\n"), code);
    case CARPACE_GIVEN_UNWRITTEN:
      break;
    }
  why = carpace_text_not_written (given->trouble, given->path, given->error);
  return g_strdup_printf ("%s: %s\n", code, why);
}
