/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-files.c: which plans there are, which is in use, and new ones. */
#include "plan-files.h"

#include <string.h>

#include "plan-files-bytes.h"

#define ENDING ".plan.yaml"
#define LONGEST_WORD 80
#define MOST_OF_A_WORD 99

struct CarpacePlanFolders
{
  CarpacePlanReader reader;
  char *bundled, *plans, *given, *in_use;
};

/* Who is told of faults. */
typedef struct
{
  CarpaceFileFaultVisitor visit;
  void *user;
} Told;

static void
tell (Told told, CarpaceFilePlace place, char *message)
{
  CarpaceFileFault fault = { place.line, place.column, false, message };

  if (told.visit)
    told.visit (told.user, &fault);
  g_free (message);
}

static void
tell_of_file (Told told, CarpacePlanFileKind kind, const char *path, const char *why)
{
  tell (told, (CarpaceFilePlace){ 0, 0 }, carpace_text_plan_file (kind, path, why, NULL));
}

static void
tell_nobody (void *user, const CarpaceFileFault *fault)
{
}

static char *
path_of (const char *folder, const char *word)
{
  g_autofree char *name = g_strconcat (word, ENDING, NULL);

  return g_build_filename (folder, name, NULL);
}

static bool
is_there (const char *folder, const char *word)
{
  g_autofree char *path = path_of (folder, word);

  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static int
compare_words (const void *a, const void *b)
{
  return strcmp (*(char *const *) a, *(char *const *) b);
}

/* The words of a folder, sorted. */
static GPtrArray *
words_in (const char *folder)
{
  GPtrArray *words = g_ptr_array_new_with_free_func (g_free);
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    if (name[0] != '.' && g_str_has_suffix (name, ENDING) && g_utf8_validate (name, -1, NULL))
      g_ptr_array_add (words, g_strndup (name, strlen (name) - strlen (ENDING)));
  g_clear_pointer (&dir, g_dir_close);
  g_ptr_array_sort (words, compare_words);
  return words;
}

static void
tell_unknown (const CarpacePlanFolders *folders, Told told, const char *asked)
{
  g_autoptr (GPtrArray) words = words_in (folders->plans);
  g_autoptr (GPtrArray) bundled = words_in (folders->bundled);

  for (guint i = 0; i < bundled->len; i++)
    if (!is_there (folders->plans, bundled->pdata[i]))
      g_ptr_array_add (words, g_strdup (bundled->pdata[i]));
  g_ptr_array_add (words, NULL);
  tell (told, (CarpaceFilePlace){ 0, 0 },
        carpace_text_plan_file (CARPACE_PLAN_FILE_UNKNOWN, asked, NULL, (const char *const *) words->pdata));
}

static bool
looks_like_a_path (const char *asked)
{
  return strchr (asked, '/') || g_str_has_suffix (asked, ".yaml") || g_str_has_suffix (asked, ".yml")
         || g_str_has_suffix (asked, ".json");
}

/* The path of a plan that is asked for by its path or its word.
 * @return NULL where there is none; told */
static char *
find (const CarpacePlanFolders *folders, const char *asked, Told told)
{
  if (looks_like_a_path (asked))
    return g_strdup (asked);
  if (is_there (folders->plans, asked))
    return path_of (folders->plans, asked);
  if (is_there (folders->bundled, asked))
    return path_of (folders->bundled, asked);
  if (asked[0] != '\0' && g_file_test (asked, G_FILE_TEST_EXISTS))
    return g_strdup (asked);
  tell_unknown (folders, told, asked);
  return NULL;
}

/* @return the file's bytes where there is a plan in it, else NULL; told */
static GString *
read_plan (const CarpacePlanFolders *folders, const char *path, CarpacePlan *ret_plan, CarpacePlanPlaces *ret_places,
           Told told)
{
  CarpacePlanFileKind kind;
  g_autofree char *why = NULL;
  GString *bytes = carpace_plan_bytes_read (path, &kind, &why);

  if (bytes == NULL)
    tell_of_file (told, kind, path, why);
  else if (!folders->reader.read (folders->reader.self, bytes->str, bytes->len, ret_plan, ret_places,
                                  told.visit ? told.visit : tell_nobody, told.user))
    {
      g_string_free (bytes, TRUE);
      bytes = NULL;
    }
  return bytes;
}

static bool
load (void *self, const char *path_or_word, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  Told told = { visit, user };
  g_autofree char *path = find (self, path_or_word, told);
  GString *bytes = path ? read_plan (self, path, ret_plan, NULL, told) : NULL;

  if (bytes)
    g_string_free (bytes, TRUE);
  return bytes != NULL;
}

/* The word of the plan in use, NULL where none is. */
static char *
word_in_use (const CarpacePlanFolders *folders)
{
  CarpacePlanFileKind kind;
  g_autofree char *why = NULL;
  GString *bytes = carpace_plan_bytes_read (folders->in_use, &kind, &why);
  char *word = bytes ? g_strstrip (g_string_free (bytes, FALSE)) : NULL;

  if (word && (word[0] == '\0' || word[0] == '.' || strchr (word, '/')))
    g_clear_pointer (&word, g_free);
  return word;
}

static bool
load_in_use (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  const CarpacePlanFolders *folders = self;
  g_autofree char *word = word_in_use (folders);
  g_autofree char *path = word ? path_of (folders->plans, word) : NULL;
  GString *bytes = path ? read_plan (folders, path, ret_plan, NULL, (Told){ visit, user }) : NULL;

  if (bytes)
    g_string_free (bytes, TRUE);
  return bytes != NULL;
}

static void
list_item (const CarpacePlanFolders *folders, const char *folder, const char *word, bool in_use,
           CarpacePlanItemVisitor visit, void *user)
{
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autofree char *path = path_of (folder, word);
  g_autofree char *damaged = NULL;
  GString *bytes = read_plan (folders, path, plan, NULL, (Told){ NULL, NULL });
  CarpacePlanItem item = { .word = word, .path = path, .name = plan->name, .note = plan->note,
                           .bundled = folder == folders->bundled, .in_use = in_use };

  if (bytes)
    g_string_free (bytes, TRUE);
  else
    {
      damaged = carpace_text_plan_file (CARPACE_PLAN_FILE_DAMAGED, word, NULL, NULL);
      item.name = word;
      item.note = damaged;
    }
  visit (user, &item);
}

static void
list (void *self, CarpacePlanItemVisitor visit, void *user)
{
  const CarpacePlanFolders *folders = self;
  g_autofree char *in_use = word_in_use (folders);
  g_autoptr (GPtrArray) own = words_in (folders->plans);
  g_autoptr (GPtrArray) bundled = words_in (folders->bundled);

  for (guint i = 0; i < own->len; i++)
    list_item (folders, folders->plans, own->pdata[i], g_strcmp0 (own->pdata[i], in_use) == 0, visit, user);
  for (guint i = 0; i < bundled->len; i++)
    if (!is_there (folders->plans, bundled->pdata[i]))
      list_item (folders, folders->bundled, bundled->pdata[i], false, visit, user);
}

/* A file's name as a word: without its ending, and of letters that need no care. */
static char *
word_from (const char *path)
{
  static const char *const endings[] = { ENDING, ".yaml", ".yml", ".json" };
  char *word = g_path_get_basename (path);

  for (size_t i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (word, endings[i]))
      {
        word[strlen (word) - strlen (endings[i])] = '\0';
        break;
      }
  if (strlen (word) > LONGEST_WORD)
    word[LONGEST_WORD] = '\0';
  for (char *at = word; *at != '\0'; at++)
    if (!g_ascii_isalnum (*at) && !strchr ("-_.", *at))
      *at = '-';
  if (word[0] != '\0' && word[0] != '.')
    return word;
  g_free (word);
  return g_strdup ("plan");
}

/* The word under which a plan of that name is the player's own, NULL where none is. */
static char *
word_of_name (const CarpacePlanFolders *folders, const char *name)
{
  g_autoptr (GPtrArray) words = words_in (folders->plans);
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);

  for (guint i = 0; i < words->len; i++)
    {
      g_autofree char *path = path_of (folders->plans, words->pdata[i]);
      GString *bytes = read_plan (folders, path, plan, NULL, (Told){ NULL, NULL });

      if (bytes == NULL)
        continue;
      g_string_free (bytes, TRUE);
      if (strcmp (plan->name, name) == 0)
        return g_strdup (words->pdata[i]);
    }
  return NULL;
}

/* The word to keep @plan under: that of the one of its name, or a free one. */
static char *
word_to_keep (const CarpacePlanFolders *folders, const CarpacePlan *plan, const char *path)
{
  char *word = word_of_name (folders, plan->name);
  g_autofree char *first = word_from (path);

  if (word)
    return word;
  word = g_strdup (first);
  for (int i = 2; (is_there (folders->plans, word) || is_there (folders->given, word)) && i <= MOST_OF_A_WORD; i++)
    {
      g_free (word);
      word = g_strdup_printf ("%s-%d", first, i);
    }
  return word;
}

static CarpaceFilePlace
place_of (const CarpacePlanPlaces *places, CarpacePlanKey key, int32_t block)
{
  return key == CARPACE_N_KEYS ? places->block[block] : places->key[key];
}

/* Whether @plan fixes all that @given does. */
static bool
fixes_as_much (const CarpacePlan *plan, const CarpacePlan *given)
{
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    if (given->fixed[key] && !plan->fixed[key])
      return false;
  for (int32_t i = 0; i < given->n_blocks; i++)
    if (given->blocks[i].limit_fixed && (i >= plan->n_blocks || !plan->blocks[i].limit_fixed))
      return false;
  return true;
}

typedef enum { REFUSED, KEEP_GIVEN, BECOMES_GIVEN } Comparison;

/* Compares with the plan of that word as it was given. */
static Comparison
compare (const CarpacePlanFolders *folders, const char *word, const CarpacePlan *plan, const CarpacePlanPlaces *places,
         Told told)
{
  g_autofree char *path = path_of (is_there (folders->given, word) ? folders->given : folders->plans, word);
  g_autofree CarpacePlan *given = g_new (CarpacePlan, 1);
  GString *bytes = read_plan (folders, path, given, NULL, (Told){ NULL, NULL });
  CarpacePlanKey key;
  int32_t block;

  if (bytes == NULL)
    return BECOMES_GIVEN;
  g_string_free (bytes, TRUE);
  if (!carpace_plan_looser (given, plan, &key, &block))
    return fixes_as_much (plan, given) ? BECOMES_GIVEN : KEEP_GIVEN;
  tell (told, place_of (places, key, block), carpace_text_looser (given, key, block));
  return REFUSED;
}

static bool
replace (Told told, const char *path, const char *bytes, gsize n_bytes)
{
  g_autofree char *why = NULL;

  if (carpace_plan_bytes_replace (path, bytes, n_bytes, &why))
    return true;
  tell_of_file (told, CARPACE_PLAN_FILE_UNWRITABLE, path, why);
  return false;
}

/* What was given first, the note of what is in use last: stopped anywhere, the
 * plan in use is a whole one. */
static bool
keep (const CarpacePlanFolders *folders, const char *word, const GString *bytes, bool becomes_given, Told told)
{
  g_autofree char *given = path_of (folders->given, word);
  g_autofree char *own = path_of (folders->plans, word);
  g_autofree char *line = g_strconcat (word, "\n", NULL);

  return (!becomes_given || replace (told, given, bytes->str, bytes->len)) && replace (told, own, bytes->str, bytes->len)
         && replace (told, folders->in_use, line, strlen (line));
}

static bool
use (void *self, const char *path_or_word, CarpaceFileFaultVisitor visit, void *user)
{
  const CarpacePlanFolders *folders = self;
  Told told = { visit, user };
  g_autofree char *path = find (folders, path_or_word, told);
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  CarpacePlanPlaces places;
  GString *bytes = path ? read_plan (folders, path, plan, &places, told) : NULL;
  g_autofree char *word = bytes ? word_to_keep (folders, plan, path) : NULL;
  Comparison comparison = word ? compare (folders, word, plan, &places, told) : REFUSED;
  bool done = comparison != REFUSED && keep (folders, word, bytes, comparison == BECOMES_GIVEN, told);

  if (bytes)
    g_string_free (bytes, TRUE);
  return done;
}

static bool
create (void *self, const char *path, const char *template_word, CarpaceFileFaultVisitor visit, void *user)
{
  const CarpacePlanFolders *folders = self;
  Told told = { visit, user };
  g_autofree char *from = find (folders, template_word, told);
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  GString *bytes = from ? read_plan (folders, from, plan, NULL, told) : NULL;
  g_autofree char *why = NULL;
  CarpacePlanFileKind kind;
  bool done = bytes && carpace_plan_bytes_create (path, bytes->str, bytes->len, &kind, &why);

  if (bytes && !done)
    tell_of_file (told, kind, path, why);
  if (bytes)
    g_string_free (bytes, TRUE);
  return done;
}

static char *
usual_bundled (void)
{
  const char *const *data = g_get_system_data_dirs ();
  const char *asked = g_getenv ("CARPACE_PLANS");

  if (asked && asked[0] != '\0')
    return g_strdup (asked);
  for (; *data; data++)
    {
      g_autofree char *plans = g_build_filename (*data, "carpace", "plans", NULL);
      if (g_file_test (plans, G_FILE_TEST_IS_DIR))
        return g_steal_pointer (&plans);
    }
  return g_strdup (CARPACE_INSTALLED_PLANS);
}

CarpacePlanFolders *
carpace_plan_folders_new (CarpacePlanReader reader, const char *bundled, const char *own)
{
  CarpacePlanFolders *folders = g_new (CarpacePlanFolders, 1);
  g_autofree char *folder = own ? g_strdup (own) : g_build_filename (g_get_user_config_dir (), "carpace", NULL);

  folders->reader = reader;
  folders->bundled = bundled ? g_strdup (bundled) : usual_bundled ();
  folders->plans = g_build_filename (folder, "plans", NULL);
  folders->given = g_build_filename (folder, "given", NULL);
  folders->in_use = g_build_filename (folder, "plan-in-use", NULL);
  return folders;
}

void
carpace_plan_folders_free (CarpacePlanFolders *folders)
{
  if (folders == NULL)
    return;
  g_free (folders->bundled);
  g_free (folders->plans);
  g_free (folders->given);
  g_free (folders->in_use);
  g_free (folders);
}

CarpacePlanFiles
carpace_plan_folders_port (CarpacePlanFolders *folders)
{
  return (CarpacePlanFiles){ folders, load, load_in_use, list, use, create };
}
