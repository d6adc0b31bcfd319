/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-edit-path.c: the paths there are come from the table of keys. */
#include "forms/plan-edit-path.h"

#include <glib.h>
#include <string.h>

#include "carpace/plan-keys.h"
#include "forms/plan-yaml-tree.h"

#define MOST_DIGITS 4

static CarpacePathWritten
written_as (CarpaceUnit unit)
{
  switch (unit)
    {
    case CARPACE_UNIT_WHOLE:
    case CARPACE_UNIT_CM: return CARPACE_PATH_BARE;
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_TIME_OF_DAY: return CARPACE_PATH_TEXT;
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS: return CARPACE_PATH_LIST;
    case CARPACE_UNIT_WORD:
    case CARPACE_UNIT_DURATION:
    case CARPACE_UNIT_SHARE:
    case CARPACE_UNIT_PERCENT:
    case CARPACE_UNIT_DEGREES:
    case CARPACE_UNIT_PER_MIN:
    case CARPACE_UNIT_SECONDS:
    case CARPACE_UNIT_WRIST:
      break;
    }
  return CARPACE_PATH_WORD;
}

/* The next step of @at, which is moved behind it and its dot. */
static bool
take_step (const char **at, CarpacePathStep *ret_step)
{
  size_t n = strcspn (*at, ".[");

  *ret_step = (CarpacePathStep){ .item = -1 };
  if (**at == '[')
    {
      size_t digits = strspn (*at + 1, "0123456789");

      if (digits == 0 || digits > MOST_DIGITS || (*at)[digits + 1] != ']')
        return false;
      ret_step->item = (int32_t) g_ascii_strtoll (*at + 1, NULL, 10);
      n = digits + 2;
    }
  else if (n == 0 || n >= sizeof ret_step->key)
    return false;
  else
    memcpy (ret_step->key, *at, n);
  *at += n;
  if (**at == '.' && (*at)[1] != '\0')
    (*at)++;
  else if (**at != '\0' && **at != '[')
    return false;
  return true;
}

static bool
is_key (const CarpacePath *path, int32_t step, const char *key)
{
  return step < path->n && strcmp (path->step[step].key, key) == 0;
}

/* A key of the plan itself, and an item of it where it is a list. */
static bool
is_of_the_table (CarpacePath *path)
{
  g_autofree char *name = path->n > 1 && path->step[1].item < 0
                              ? g_strdup_printf ("%s.%s", path->step[0].key, path->step[1].key)
                              : g_strdup (path->step[0].key);
  int32_t key = carpace_name_value (CARPACE_WORDS_PLAN_KEY, name), n = strchr (name, '.') ? 2 : 1;

  if (key < 0 || path->n > n + 1)
    return false;
  path->written = written_as (carpace_plan_key_facts ((CarpacePlanKey) key)->unit);
  path->fixable = path->n == n;
  if (path->n == n)
    return true;
  if (path->written != CARPACE_PATH_LIST || path->step[n].item < 0)
    return false;
  path->written = CARPACE_PATH_WORD;
  return true;
}

static bool
is_of_a_drill (CarpacePath *path)
{
  int32_t key;

  path->written = CARPACE_PATH_OF_KEYS;
  path->first = "id";
  if (path->n > 1 && path->step[1].item < 0)
    path->step[1].by_id = true;
  if (path->n <= 2)
    return true;
  path->written = CARPACE_PATH_TEXT;
  if (path->n > 3 || is_key (path, 2, "id"))
    return path->n == 3;
  key = carpace_name_value (CARPACE_WORDS_DRILL_KEY, path->step[2].key);
  if (key < 0)
    return false;
  path->written = written_as (carpace_drill_key_facts ((CarpaceDrillKey) key)->unit);
  return true;
}

static bool
is_of_a_block (CarpacePath *path)
{
  path->written = CARPACE_PATH_OF_KEYS;
  path->first = "limit";
  if (path->n > 1 && path->step[1].item < 0)
    return false;
  if (path->n <= 2)
    return true;
  path->fixable = path->n == 3 && is_key (path, 2, "limit");
  if (path->fixable)
    path->written = CARPACE_PATH_WORD;
  if (path->fixable || !is_key (path, 2, "drills"))
    return path->fixable;
  path->first = NULL;
  path->written = path->n == 3 ? CARPACE_PATH_LIST : CARPACE_PATH_TEXT;
  if (path->n > 3 && path->step[3].item < 0)
    path->step[3].by_id = true;
  if (is_key (path, 4, "share"))
    path->written = CARPACE_PATH_WORD;
  return path->n <= 4 || is_key (path, 4, "share") || is_key (path, 4, "id");
}

bool
carpace_path_read (const char *text, CarpacePath *ret_path)
{
  CarpacePath path = { .n = 0 };
  bool known;

  do
    if (path.n == CARPACE_PATH_STEPS || !take_step (&text, &path.step[path.n++]))
      return false;
  while (*text != '\0');
  if (is_key (&path, 0, "drills"))
    known = is_of_a_drill (&path);
  else if (is_key (&path, 0, "blocks"))
    known = is_of_a_block (&path);
  else if (is_key (&path, 0, "split"))
    known = path.n == 1;
  else
    known = path.step[0].item < 0 && is_of_the_table (&path);
  *ret_path = path;
  return known;
}

/* The first key of the table that is @key, or is in a section of that name. */
static int32_t
rank_in_plan (const char *section, const char *key)
{
  g_autofree char *name = section ? g_strdup_printf ("%s.%s", section, key) : g_strdup (key);
  size_t n = strlen (name);

  for (int32_t i = 0; i < CARPACE_N_KEYS; i++)
    {
      const char *other = carpace_name (CARPACE_WORDS_PLAN_KEY, i);

      if (strncmp (other, name, n) == 0 && (other[n] == '\0' || other[n] == '.'))
        return i;
    }
  return strcmp (key, "drills") == 0 ? CARPACE_N_KEYS
         : strcmp (key, "blocks") == 0 || strcmp (key, "split") == 0 ? CARPACE_N_KEYS + 1 : -1;
}

int32_t
carpace_path_rank (const CarpacePath *path, int32_t step, const char *key)
{
  if (step == 0)
    return rank_in_plan (NULL, key);
  if (is_key (path, 0, "drills"))
    return carpace_name_value (CARPACE_WORDS_DRILL_KEY, key);
  if (is_key (path, 0, "blocks"))
    return strcmp (key, "drills") == 0 || strcmp (key, "share") == 0 ? 1 : 0;
  return rank_in_plan (path->step[0].key, key);
}
