/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-files.c: which plans there are, which is in use, and new ones. */
#include "plan-files.h"

#include <string.h>

#include "plan-files-bytes.h"
#include "plan-files-split.h"
#include "carpace/first-plan.h"
#include "forms/plan-write.h"

#define ENDING ".plan.yaml"
#define LONGEST_WORD 80
#define MOST_OF_A_WORD 99

typedef struct
{
  CarpacePlanReader reader;
  char *bundled, *plans, *in_use;
  CarpaceHeld held;
} Folders;

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
tell_unknown (const Folders *folders, Told told, const char *asked)
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
find (const Folders *folders, const char *asked, Told told)
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

/* Where what its split came to is kept; NULL where it is not a plan that has a word. */
static char *
split_path (const Folders *folders, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *base = g_path_get_basename (path);
  g_autofree char *name = g_strdup_printf (".%s.split", base);
  bool ours = strcmp (folder, folders->plans) == 0 || strcmp (folder, folders->bundled) == 0;

  return ours && g_str_has_suffix (base, ENDING) ? g_build_filename (folders->plans, name, NULL) : NULL;
}

static bool
read_bytes (const Folders *folders, const char *path, const GString *bytes, CarpacePlan *ret_plan,
            CarpacePlanPlaces *ret_places, Told told)
{
  g_autofree char *kept = split_path (folders, path);
  g_autofree CarpacePlan *known = carpace_split_known (kept, bytes, &folders->reader);
  bool sound = folders->reader.read (folders->reader.self, bytes->str, bytes->len, known, ret_plan, ret_places,
                                     told.visit ? told.visit : tell_nobody, told.user);

  if (sound && known == NULL)
    carpace_split_keep (kept, bytes, ret_plan);
  return sound;
}

/* @return the file's bytes where there is a plan in it, else NULL; told */
static GString *
read_plan (const Folders *folders, const char *path, CarpacePlan *ret_plan, CarpacePlanPlaces *ret_places,
           Told told)
{
  char *why;
  GString *bytes = carpace_plan_bytes_read (path, &why);

  if (bytes == NULL)
    tell (told, (CarpaceFilePlace){ 0, 0 }, why);
  else if (!read_bytes (folders, path, bytes, ret_plan, ret_places, told))
    {
      g_string_free (bytes, TRUE);
      bytes = NULL;
    }
  return bytes;
}

/* Only to know its name and note: nothing is split for that, and nobody is told. */
static bool
look_at_plan (const Folders *folders, const char *path, CarpacePlan *ret_plan)
{
  g_autofree char *why = NULL;
  GString *bytes = carpace_plan_bytes_read (path, &why);
  bool sound = bytes != NULL && folders->reader.look (folders->reader.self, bytes->str, bytes->len, ret_plan);

  if (bytes != NULL)
    g_string_free (bytes, TRUE);
  return sound;
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
word_in_use (const Folders *folders)
{
  g_autofree char *why = NULL;
  GString *bytes = carpace_plan_bytes_read (folders->in_use, &why);
  char *word = bytes ? g_strstrip (g_string_free (bytes, FALSE)) : NULL;

  if (word && (word[0] == '\0' || word[0] == '.' || strchr (word, '/')))
    g_clear_pointer (&word, g_free);
  return word;
}

static void
list_item (const Folders *folders, const char *folder, const char *word, bool in_use,
           CarpacePlanItemVisitor visit, void *user)
{
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autofree char *path = path_of (folder, word);
  g_autofree char *damaged = NULL;
  bool sound = look_at_plan (folders, path, plan);
  CarpacePlanItem item = { .word = word, .path = path, .name = plan->name, .note = plan->note,
                           .bundled = folder == folders->bundled, .in_use = in_use };

  if (!sound)
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
  const Folders *folders = self;
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
word_of_name (const Folders *folders, const char *name)
{
  g_autoptr (GPtrArray) words = words_in (folders->plans);
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);

  for (guint i = 0; i < words->len; i++)
    {
      g_autofree char *path = path_of (folders->plans, words->pdata[i]);

      if (look_at_plan (folders, path, plan) && strcmp (plan->name, name) == 0)
        return g_strdup (words->pdata[i]);
    }
  return NULL;
}

/* The word to keep @plan under: that of the one of its name, or a free one. */
static char *
word_to_keep (const Folders *folders, const CarpacePlan *plan, const char *path)
{
  char *word = word_of_name (folders, plan->name);
  g_autofree char *first = word_from (path);

  if (word)
    return word;
  word = g_strdup (first);
  for (int i = 2; is_there (folders->plans, word) && i <= MOST_OF_A_WORD; i++)
    {
      g_free (word);
      word = g_strdup_printf ("%s-%d", first, i);
    }
  return word;
}

/* ---- what is held ---- */

static const CarpaceGivenPlan *
given_of (const Folders *folders, const char *name)
{
  for (size_t i = 0; i < folders->held.n_given; i++)
    if (strcmp (folders->held.given[i].name, name) == 0)
      return &folders->held.given[i];
  return NULL;
}

/* What follows from the day where it is not in the file is told there. */
static CarpaceFilePlace
place_of_breach (const CarpacePlanPlaces *places, const CarpaceBreach *breach)
{
  const CarpaceFilePlace day[] = { places->key[CARPACE_KEY_DAY_DOSE], places->blocks, places->split };
  CarpaceFilePlace place = breach->block >= 0 ? places->block[breach->block] : places->key[breach->key];
  bool of_day = breach->block >= 0 || breach->key == CARPACE_KEY_DAY_DOSE || breach->key == CARPACE_KEY_NEXT_DAY_AT_MOST
                || breach->key == CARPACE_KEY_BLOCK_LIMITS_LONGEST || breach->key == CARPACE_KEY_MICRO_REST_AFTER;

  for (size_t i = breach->block >= 0; of_day && place.line == 0 && i < G_N_ELEMENTS (day); i++)
    place = day[i];
  return place.line > 0 ? place : places->key[CARPACE_KEY_NAME];
}

static bool
keeps (const CarpaceCeiling *ceiling, const CarpacePlan *plan, const CarpacePlanPlaces *places, Told told)
{
  CarpaceBreach breach = carpace_ceiling_breach (ceiling, plan);

  if (breach.kind == CARPACE_BREACH_NONE)
    return true;
  tell (told, place_of_breach (places, &breach), carpace_text_breach (ceiling, &breach));
  return false;
}

static bool
newer (const Folders *folders, const CarpacePlan *plan)
{
  const CarpaceGivenPlan *given = given_of (folders, plan->name);

  return given != NULL && plan->version > given->version;
}

static void
tell_newer (const Folders *folders, const CarpacePlan *plan, const CarpacePlanPlaces *places, Told told)
{
  tell (told, places->key[CARPACE_KEY_VERSION],
        carpace_text_newer_version (plan->version, given_of (folders, plan->name)->version));
}

static bool
load_in_use (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  const Folders *folders = self;
  Told told = { visit, user };
  g_autofree char *word = word_in_use (folders);
  g_autofree char *path = word ? path_of (folders->plans, word) : NULL;
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  CarpacePlanPlaces places;
  GString *bytes = path ? read_plan (folders, path, plan, &places, told) : NULL;
  bool held;

  if (bytes == NULL)
    return false;
  g_string_free (bytes, TRUE);
  held = !newer (folders, plan);
  if (!held)
    tell_newer (folders, plan, &places, told);
  if (!held || !keeps (&folders->held.ceiling, plan, &places, told))
    return false;
  *ret_plan = *plan;
  return true;
}

static bool
load_text (void *self, const char *text, CarpacePlan *ret_plan)
{
  const Folders *folders = self;

  return folders->reader.read (folders->reader.self, text, strlen (text), NULL, ret_plan, NULL, tell_nobody, NULL);
}

/* Asks whether the newer @plan is to be taken. */
static bool
consented (const Folders *folders, const CarpacePlan *plan, const CarpacePlanPlaces *places,
           const CarpaceTaking *taking, Told told)
{
  const CarpaceGivenPlan *given = given_of (folders, plan->name);
  g_autofree CarpacePlan *before = g_new (CarpacePlan, 1);
  bool readable = load_text ((void *) folders, given->text, before);

  if (taking != NULL && taking->consent != NULL)
    return taking->consent (taking->user, readable ? before : NULL, plan);
  tell_newer (folders, plan, places, told);
  return false;
}

/* What is held by the plans of other names. */
static void
held_by_others (const Folders *folders, const char *name, CarpaceCeiling *ret_ceiling)
{
  memset (ret_ceiling, 0, sizeof *ret_ceiling);
  for (size_t i = 0; i < folders->held.n_given; i++)
    if (strcmp (folders->held.given[i].name, name) != 0)
      carpace_ceiling_join (ret_ceiling, &folders->held.given[i].fixes);
}

/* Whether @plan may be taken, and what is held from then on. */
static bool
may_be_taken (const Folders *folders, const CarpacePlan *plan, const CarpacePlanPlaces *places,
              const CarpaceTaking *taking, CarpaceCeiling *ret_ceiling, Told told)
{
  bool is_newer = newer (folders, plan);

  *ret_ceiling = folders->held.ceiling;
  if (is_newer)
    held_by_others (folders, plan->name, ret_ceiling);
  if (!keeps (ret_ceiling, plan, places, told) || (is_newer && !consented (folders, plan, places, taking, told)))
    return false;
  carpace_ceiling_add (ret_ceiling, plan);
  return keeps (ret_ceiling, plan, places, told); /* its own dose over its own at-most */
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

static char *
path_asked (const Folders *folders, const char *path_or_word)
{
  g_autofree char *word = path_or_word ? NULL : word_in_use (folders);

  if (path_or_word)
    return find (folders, path_or_word, (Told){ NULL, NULL });
  return word ? path_of (folders->plans, word) : NULL;
}

static void
prepare (void *self, const char *path_or_word)
{
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  g_autofree char *path = path_asked (self, path_or_word);
  GString *bytes = path ? read_plan (self, path, plan, NULL, (Told){ NULL, NULL }) : NULL;

  if (bytes)
    g_string_free (bytes, TRUE);
}

static bool
unprepared (void *self, const char *path_or_word)
{
  const Folders *folders = self;
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autofree char *path = path_asked (folders, path_or_word), *why = NULL;
  g_autofree char *kept = path ? split_path (folders, path) : NULL;
  GString *bytes = path ? carpace_plan_bytes_read (path, &why) : NULL;
  g_autofree CarpacePlan *known = bytes ? carpace_split_known (kept, bytes, &folders->reader) : NULL;
  bool has_split = bytes && folders->reader.look (folders->reader.self, bytes->str, bytes->len, plan) && plan->split_into > 0;

  if (bytes)
    g_string_free (bytes, TRUE);
  return has_split && known == NULL;
}

/* The note of what is in use last: stopped anywhere, the plan in use is a whole one. */
static bool
keep (const Folders *folders, const char *word, const GString *bytes, const CarpacePlan *plan, Told told)
{
  g_autofree char *own = path_of (folders->plans, word);
  g_autofree char *line = g_strconcat (word, "\n", NULL);
  g_autofree char *kept = split_path (folders, own);

  carpace_split_keep (kept, bytes, plan);
  return replace (told, own, bytes->str, bytes->len) && replace (told, folders->in_use, line, strlen (line));
}

/* Makes the plan in use of @bytes, kept under @like or the word of the one of its name. */
static bool
take (const Folders *folders, const char *like, const GString *bytes, const CarpacePlan *plan,
      const CarpacePlanPlaces *places, const CarpaceTaking *taking, Told told)
{
  g_autofree char *word = word_to_keep (folders, plan, like);
  CarpaceCeiling ceiling;

  return may_be_taken (folders, plan, places, taking, &ceiling, told)
         && (taking == NULL || taking->keep == NULL || taking->keep (taking->user, plan, &ceiling, bytes->str))
         && keep (folders, word, bytes, plan, told);
}

/* A bundled plan is made for no one: where the plan in use says whose it is, its hand, and what is
 * not shown to it, go over into the copy. @return whether @bytes and @plan are that copy now */
static bool
carry_hand (const Folders *folders, const char *path, GString *bytes, CarpacePlan *plan, CarpacePlanPlaces *places)
{
  g_autofree CarpacePlan *mine = g_new (CarpacePlan, 1), *copy = g_new (CarpacePlan, 1);
  g_autofree char *folder = g_path_get_dirname (path), *text = NULL;
  CarpaceFirstAnswers answers;

  if (strcmp (folder, folders->bundled) != 0 || !load_in_use ((void *) folders, mine, NULL, NULL) || mine->age == CARPACE_AGE_NOT_SAID)
    return false;
  carpace_first_answers_of (mine, &answers);
  carpace_first_copy (&answers, plan, 0, copy);
  text = carpace_plan_write_file (copy);
  g_string_assign (bytes, text);
  return folders->reader.read (folders->reader.self, bytes->str, bytes->len, copy, plan, places, tell_nobody, NULL);
}

static bool
use (void *self, const char *path_or_word, const CarpaceTaking *taking, CarpaceFileFaultVisitor visit, void *user)
{
  Told told = { visit, user };
  g_autofree char *path = find (self, path_or_word, told);
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  CarpacePlanPlaces places;
  GString *bytes = path ? read_plan (self, path, plan, &places, told) : NULL;
  bool done;

  if (bytes)
    carry_hand (self, path, bytes, plan, &places);
  done = bytes && take (self, path, bytes, plan, &places, taking, told);
  if (bytes)
    g_string_free (bytes, TRUE);
  return done;
}

static bool
use_text (void *self, const char *word, const char *text, const CarpaceTaking *taking, CarpaceFileFaultVisitor visit,
          void *user)
{
  const Folders *folders = self;
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  g_autoptr (GString) bytes = g_string_new (text);
  CarpacePlanPlaces places;

  return folders->reader.read (folders->reader.self, bytes->str, bytes->len, NULL, plan, &places,
                               visit ? visit : tell_nobody, user)
         && take (folders, word, bytes, plan, &places, taking, (Told){ visit, user });
}

static bool
create (void *self, const char *path, const char *template_word, CarpaceFileFaultVisitor visit, void *user)
{
  const Folders *folders = self;
  Told told = { visit, user };
  g_autofree char *from = find (folders, template_word, told);
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  GString *bytes = from ? read_plan (folders, from, plan, NULL, told) : NULL;
  char *why;
  bool done = bytes && carpace_plan_bytes_create (path, bytes->str, bytes->len, &why);

  if (bytes && !done)
    tell (told, (CarpaceFilePlace){ 0, 0 }, why);
  if (bytes)
    g_string_free (bytes, TRUE);
  return done;
}

static void
hold (void *self, const CarpaceHeld *held)
{
  ((Folders *) self)->held = *held;
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

static void
let_go (void *self)
{
  Folders *folders = self;

  g_free (folders->bundled);
  g_free (folders->plans);
  g_free (folders->in_use);
  g_free (folders);
}

CarpacePlanFiles
carpace_plan_folders_new (CarpacePlanReader reader, const char *bundled, const char *own)
{
  Folders *folders = g_new0 (Folders, 1);
  g_autofree char *folder = own ? g_strdup (own) : g_build_filename (g_get_user_config_dir (), "carpace", NULL);

  folders->reader = reader;
  folders->bundled = bundled ? g_strdup (bundled) : usual_bundled ();
  folders->plans = g_build_filename (folder, "plans", NULL);
  folders->in_use = g_build_filename (folder, "plan-in-use", NULL);
  return (CarpacePlanFiles){ .self = folders, .load = load, .load_in_use = load_in_use, .list = list, .use = use, .use_text = use_text,
                             .create = create, .hold = hold, .prepare = prepare, .unprepared = unprepared,
                             .load_text = load_text, .free = let_go };
}
