/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-files.c: plans in folders of their own, in trouble and out of it. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../forms/plan-cases.h"
#include "carpace/first-plan.h"
#include "plan-files.h"
#include "forms/plan-write.h"
#include "forms/plan-yaml.h"

#define LEAST_TAIL "drills: [{id: a, movement: button-press}]\nblocks: [{limit: %s, drills: [a]}]\n"

typedef struct
{
  char *top, *own, *bundled;
  CarpacePlanFiles port;
  GString *told;
  CarpacePlan plan;
  CarpaceTaking taking;
  CarpaceHeld held;      /* as a diary would say it */
  CarpaceGivenPlan given[8];
  bool consents;
  int asked;
} World;

/* Keeps in memory what a diary would keep. */
static bool
keep_given (void *user, const CarpacePlan *plan, const CarpaceCeiling *ceiling, const char *text)
{
  World *world = user;
  size_t i = 0;

  while (i < world->held.n_given && strcmp (world->given[i].name, plan->name) != 0)
    i++;
  assert_true (i < G_N_ELEMENTS (world->given));
  if (i == world->held.n_given || plan->version > world->given[i].version)
    world->given[i] = (CarpaceGivenPlan) { g_intern_string (plan->name), plan->version, g_intern_string (text) };
  world->held.n_given += i == world->held.n_given;
  world->held.given = world->given;
  world->held.ceiling = *ceiling;
  world->port.hold (world->port.self, &world->held);
  return true;
}

static bool
consent (void *user, const CarpacePlan *before, const CarpacePlan *plan)
{
  World *world = user;

  assert_non_null (before);
  assert_true (before->version < plan->version);
  world->asked++;
  return world->consents;
}

static int
begin (void **state)
{
  World *world = g_new0 (World, 1);

  world->top = g_dir_make_tmp ("carpace-plans-XXXXXX", NULL);
  world->own = g_build_filename (world->top, "config", "carpace", NULL);
  world->bundled = g_build_filename (CARPACE_TEST_DATA, "..", "..", "src", "data", "plans", NULL);
  world->port = carpace_plan_folders_new (carpace_plan_yaml (), world->bundled, world->own);
  world->told = g_string_new (NULL);
  world->taking = (CarpaceTaking) { world, consent, keep_given };
  *state = world;
  return 0;
}

static void
remove_all (const char *path)
{
  GDir *dir = g_file_test (path, G_FILE_TEST_IS_SYMLINK) ? NULL : g_dir_open (path, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    {
      g_autofree char *child = g_build_filename (path, name, NULL);
      remove_all (child);
    }
  g_clear_pointer (&dir, g_dir_close);
  g_remove (path);
}

static int
end (void **state)
{
  World *world = *state;

  remove_all (world->top);
  CARPACE_PORT_FREE (world->port);
  g_string_free (world->told, TRUE);
  g_free (world->top);
  g_free (world->own);
  g_free (world->bundled);
  g_free (world);
  return 0;
}

/* Writes a file into the world's own folder. @return its path, kept by the world's life */
static const char *
write_file (World *world, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (world->top, name, NULL);

  assert_true (g_file_set_contents (path, text, -1, NULL));
  return g_intern_string (path);
}

static const char *
in_own (World *world, const char *name)
{
  g_autofree char *path = g_build_filename (world->own, name, NULL);

  return g_intern_string (path);
}

static bool
use (World *world, const char *what)
{
  g_string_truncate (world->told, 0);
  return world->port.use (world->port.self, what, &world->taking, collect_fault, world->told);
}

static bool
load (World *world, const char *what)
{
  g_string_truncate (world->told, 0);
  return world->port.load (world->port.self, what, &world->plan, collect_fault, world->told);
}

static bool
read_bytes (World *world, const char *text)
{
  return world->port.load_text (world->port.self, text, &world->plan);
}

static bool
load_in_use (World *world)
{
  g_string_truncate (world->told, 0);
  return world->port.load_in_use (world->port.self, &world->plan, collect_fault, world->told);
}

/* A reader that counts the splits that are worked out. */
static int worked_out;

static bool
read_counted (void *self, const char *bytes, size_t n, const CarpacePlan *known, CarpacePlan *ret_plan,
              CarpacePlanPlaces *ret_places, CarpaceFileFaultVisitor visit, void *user)
{
  CarpacePlanReader reader = carpace_plan_yaml ();
  bool sound = reader.read (reader.self, bytes, n, known, ret_plan, ret_places, visit, user);

  worked_out += sound && ret_plan->split_into > 0 && known == NULL;
  return sound;
}

static bool
create (World *world, const char *path, const char *from)
{
  g_string_truncate (world->told, 0);
  return world->port.create (world->port.self, path, from, collect_fault, world->told);
}

static void
assert_told (World *world, const char *expected)
{
  if (strstr (world->told->str, expected) == NULL)
    fail_msg ("told\n%sexpected %s", world->told->str, expected);
}

static void
add_item (void *user, const CarpacePlanItem *item)
{
  g_string_append_printf (user, "%s%s%s \"%s\"\n", item->in_use ? "* " : "", item->word, item->bundled ? " bundled" : "",
                          item->name);
}

static char *
listed (World *world)
{
  GString *items = g_string_new (NULL);

  world->port.list (world->port.self, add_item, items);
  return g_string_free (items, FALSE);
}

static void
at_first_the_bundled_ones_are_there (void **state)
{
  World *world = *state;
  g_autofree char *items = listed (world);

  assert_string_equal (items, "after-a-flare-up bundled \"After a flare-up\"\n"
                              "first-week bundled \"A first week\"\n"
                              "four-quarters bundled \"Four quarters\"\n"
                              "one-long-block bundled \"One long block\"\n"
                              "two-halves bundled \"Two halves\"\n");
  assert_false (load_in_use (world));
  assert_int_equal (world->told->len, 0);
  assert_true (load (world, "two-halves"));
  assert_int_equal (world->plan.n_blocks, 2);
  assert_false (g_file_test (world->own, G_FILE_TEST_EXISTS));
}

static int
mode_of (const char *path)
{
  struct stat about;

  return lstat (path, &about) == 0 ? (int) (about.st_mode & 07777) : -1;
}

static void
a_plan_that_is_used_is_the_players_own (void **state)
{
  World *world = *state;
  g_autofree char *items = NULL;

  assert_true (use (world, "two-halves"));
  assert_true (load_in_use (world));
  assert_string_equal (world->plan.name, "Two halves");
  items = listed (world);
  assert_true (g_str_has_prefix (items, "* two-halves \"Two halves\"\n"));
  assert_null (strstr (items, "two-halves bundled"));
  assert_int_equal (mode_of (world->own), 0700);
  assert_int_equal (mode_of (in_own (world, "plans")), 0700);
  assert_int_equal (mode_of (in_own (world, "plans/two-halves.plan.yaml")), 0600);
  assert_int_equal (world->held.n_given, 1);
  assert_int_equal (mode_of (in_own (world, "plan-in-use")), 0600);
}

static void
a_faulty_plan_leaves_the_one_in_use (void **state)
{
  World *world = *state;
  const char *bad = write_file (world, "bad.plan.yaml", "carpace-plan: 1\nname: A first week\ngap-after: 4\n");

  assert_true (use (world, "first-week"));
  assert_false (use (world, bad));
  assert_told (world, "3:12 fault gap-after has a number without its unit");
  assert_true (load_in_use (world));
  assert_int_equal (world->plan.n_blocks, 2);
}

static void
what_is_not_there_is_told (void **state)
{
  World *world = *state;

  assert_false (use (world, "two-havles"));
  assert_told (world, "0:0 fault there is no plan or file two-havles; did you mean two-halves? It can be after-a-flare-up, ");
  assert_false (load (world, "/nowhere/at-all.plan.yaml"));
  assert_told (world, "0:0 fault the file cannot be read (");
  assert_false (load (world, world->bundled));
  assert_told (world, "0:0 fault this is no ordinary file");
  assert_false (load (world, "/dev/zero"));
  assert_told (world, "0:0 fault this is no ordinary file");
  assert_false (load (world, ""));
  assert_told (world, "0:0 fault there is no plan or file");
}

static void
a_pipe_does_not_hold_the_program (void **state)
{
  World *world = *state;
  g_autofree char *pipe = g_build_filename (world->top, "pipe.plan.yaml", NULL);

  assert_int_equal (mkfifo (pipe, 0600), 0);
  assert_false (load (world, pipe));
  assert_told (world, "no ordinary file");
}

static void
a_new_plan_never_takes_the_place_of_a_file (void **state)
{
  World *world = *state;
  g_autofree char *path = g_build_filename (world->top, "mine.plan.yaml", NULL);
  g_autofree char *link = g_build_filename (world->top, "link.plan.yaml", NULL);
  g_autofree char *dangling = g_build_filename (world->top, "dangling", NULL);
  g_autofree char *nowhere = g_build_filename (world->top, "no", "folder.plan.yaml", NULL);
  g_autofree char *text = NULL;

  assert_true (create (world, path, "first-week"));
  assert_int_equal (mode_of (path), 0600);
  assert_true (load (world, path));
  assert_string_equal (world->plan.name, "A first week");
  write_file (world, "mine.plan.yaml", "precious");
  assert_false (create (world, path, "two-halves"));
  assert_told (world, "is there already and stays as it is");
  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  assert_string_equal (text, "precious");
  assert_int_equal (symlink (dangling, link), 0);
  assert_false (create (world, link, "two-halves"));
  assert_told (world, "is there already");
  assert_false (g_file_test (dangling, G_FILE_TEST_EXISTS));
  assert_false (create (world, nowhere, "two-halves"));
  assert_told (world, "cannot be written (");
  assert_false (create (world, nowhere, "no-such"));
  assert_told (world, "there is no plan or file no-such");
}

static void
no_part_is_forgotten (void **state)
{
  World *world = *state;
  g_autofree char *path = g_build_filename (world->top, "mine.plan.yaml", NULL);
  GDir *dir;
  const char *name;

  assert_true (create (world, path, "first-week"));
  assert_false (create (world, path, "first-week"));
  dir = g_dir_open (world->top, 0, NULL);
  while ((name = g_dir_read_name (dir)))
    assert_false (g_str_has_prefix (name, ".carpace-"));
  g_dir_close (dir);
}

static void
a_link_is_replaced_not_written_through (void **state)
{
  World *world = *state;
  const char *victim = write_file (world, "victim", "precious");
  g_autofree char *text = NULL;

  assert_true (use (world, "first-week"));
  g_remove (in_own (world, "plan-in-use"));
  assert_int_equal (symlink (victim, in_own (world, "plan-in-use")), 0);
  g_remove (in_own (world, "plans/first-week.plan.yaml"));
  assert_int_equal (symlink (victim, in_own (world, "plans/first-week.plan.yaml")), 0);
  assert_true (use (world, "two-halves"));
  assert_true (g_file_get_contents (victim, &text, NULL, NULL));
  assert_string_equal (text, "precious");
  assert_false (g_file_test (in_own (world, "plan-in-use"), G_FILE_TEST_IS_SYMLINK));
  assert_true (load_in_use (world));
  assert_string_equal (world->plan.name, "Two halves");
}

static void
the_note_of_what_is_in_use_is_not_believed_blindly (void **state)
{
  static const char *const words[] = { "", "\n", "../../etc/passwd", "/etc/passwd", ".hidden", "gone" };
  World *world = *state;

  assert_true (use (world, "first-week"));
  for (size_t i = 0; i < G_N_ELEMENTS (words); i++)
    {
      assert_true (g_file_set_contents (in_own (world, "plan-in-use"), words[i], -1, NULL));
      assert_false (load_in_use (world));
    }
}

/* `day.at-most`, fixed at 60 min and the first block at 20 min, in many copies. */
static void
what_is_fixed_may_only_be_stricter (void **state)
{
  static const struct { const char *row, *at_most, *limit; bool taken; const char *told; } rows[] = {
    { "as given", "!fixed 60 min", "!fixed 20 min", true, "" },
    { "stricter", "50 min", "15 min", true, "" },
    { "looser dose", "61 min", "20 min", false, "3:21 fault next-day.at-most is higher than the plan you were given fixes; it can be 1 h or less" },
    { "looser, mark kept", "!fixed 2 h", "20 min", false, "3:28 fault next-day.at-most" },
    { "as given after a copy without marks", "60 min", "20 min", true, "" },
    { "looser limit", "60 min", "20 min 1 s", false, "5:18 fault limit is longer than the plan you were given fixes; it can be 20 min or shorter" },
    { "both looser: the first is told", "70 min", "30 min", false, "3:21 fault next-day.at-most" },
    { "stricter and fixed", "!fixed 40 min", "!fixed 15 min", true, "" },
    { "as given before", "60 min", "20 min", false, "it can be 40 min or less" },
  };
  World *world = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *format = g_strconcat ("carpace-plan: 1\nname: Given\nnext-day: {at-most: %s}\n", LEAST_TAIL, NULL);
      g_auto (GStrv) pieces = g_strsplit (format, "%s", -1);
      g_autofree char *text = g_strjoin (NULL, pieces[0], rows[i].at_most, pieces[1], rows[i].limit, pieces[2], NULL);
      const char *path = write_file (world, i % 2 ? "copy.plan.yaml" : "given.plan.yaml", text);

      if (use (world, path) != rows[i].taken || strstr (world->told->str, rows[i].told) == NULL)
        fail_msg ("%s: %s", rows[i].row, world->told->str);
    }
}

static void
another_plan_of_the_same_word_keeps_both (void **state)
{
  World *world = *state;
  const char *path = write_file (world, "first-week.plan.yaml",
                                 "carpace-plan: 1\nname: My own\ndrills: [{id: a, movement: button-press}]\n"
                                 "blocks: [{limit: 10 min, drills: [a]}]\n");
  g_autofree char *items = NULL;

  assert_true (use (world, "first-week"));
  assert_true (use (world, path));
  items = listed (world);
  assert_true (g_str_has_prefix (items, "first-week \"A first week\"\n* first-week-2 \"My own\"\n"));
}

static void
names_of_files_become_words (void **state)
{
  static const struct { const char *file, *word; } rows[] = {
    { "K7 plan (2).yaml", "K7-plan--2-" }, { "übung.plan.yaml", "--bung" }, { "..plan.yaml", "plan" }, { "x.json", "x" },
  };
  World *world = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf ("carpace-plan: 1\nname: Plan %zu\n" LEAST_TAIL, i, "10 min");
      g_autofree char *line = g_strconcat ("* ", rows[i].word, " ", NULL);
      g_autofree char *items = NULL;

      assert_true (use (world, write_file (world, rows[i].file, text)));
      items = listed (world);
      if (strstr (items, line) == NULL)
        fail_msg ("%s: %s", rows[i].file, items);
    }
}

static void
a_damaged_plan_of_ones_own_is_listed_as_such (void **state)
{
  World *world = *state;
  g_autofree char *items = NULL;

  assert_true (use (world, "first-week"));
  assert_true (g_file_set_contents (in_own (world, "plans/first-week.plan.yaml"), "{", -1, NULL));
  items = listed (world);
  assert_true (g_str_has_prefix (items, "* first-week \"first-week\"\n"));
  assert_false (load_in_use (world));
  assert_told (world, "is opened here and not closed");
  assert_true (use (world, "two-halves"));
}

static void
a_folder_that_cannot_be_made_is_told (void **state)
{
  World *world = *state;

  write_file (world, "config", "a file where the folder would be");
  assert_false (use (world, "first-week"));
  assert_told (world, "cannot be written (");
  assert_false (load_in_use (world));
}

#define SPLIT                                                                                           \
  "carpace-plan: 1\nname: Split\nday: {dose: 30 min}\nsplit: halves\n"                                  \
  "drills: [{id: a, movement: small-turn, run: 1 min}, {id: b, movement: long-pursuit, run: 90 s}]\n"

static void
count_splits (World *world)
{
  CarpacePlanReader reader = carpace_plan_yaml ();

  CARPACE_PORT_FREE (world->port);
  reader.read = read_counted;
  world->port = carpace_plan_folders_new (reader, world->bundled, world->own);
  worked_out = 0;
}

/* A tray would stand still for it. */
static void
a_split_is_worked_out_once (void **state)
{
  World *world = *state;
  CarpacePlan before;

  count_splits (world);
  assert_true (use (world, write_file (world, "s.plan.yaml", SPLIT)));
  assert_int_equal (worked_out, 1);
  assert_false (world->port.unprepared (world->port.self, NULL));
  assert_true (load_in_use (world));
  before = world->plan;
  assert_true (load_in_use (world));
  assert_true (load (world, "s"));
  assert_int_equal (worked_out, 1);
  assert_int_equal (world->plan.split_into, 2);
  assert_memory_equal (&world->plan, &before, sizeof before);
  assert_true (read_bytes (world, SPLIT) && memcmp (&world->plan, &before, sizeof before) == 0); /* as without it */
}

/* Other bytes are another plan; what was kept is not believed. */
static void
an_edited_split_is_worked_out_anew (void **state)
{
  World *world = *state;

  count_splits (world);
  assert_true (use (world, write_file (world, "s.plan.yaml", SPLIT)));
  assert_true (g_file_set_contents (in_own (world, "plans/s.plan.yaml"), SPLIT "note: edited\n", -1, NULL));
  assert_true (world->port.unprepared (world->port.self, NULL));
  assert_int_equal (worked_out, 1);
  world->port.prepare (world->port.self, NULL);
  assert_int_equal (worked_out, 2);
  assert_false (world->port.unprepared (world->port.self, NULL));
  assert_true (load_in_use (world));
  assert_int_equal (worked_out, 2);
  assert_true (g_file_set_contents (in_own (world, "plans/.s.plan.yaml.split"), "# 0\nnonsense", -1, NULL));
  assert_true (load_in_use (world));
  assert_int_equal (worked_out, 3);
}

/* Whatever stands in it, what is fixed is held. */
static void
a_doctored_split_does_not_lift_what_is_fixed (void **state)
{
  World *world = *state;
  const char *kept = in_own (world, "plans/.s.plan.yaml.split");
  g_autofree char *text = NULL, *longer = NULL;
  g_auto (GStrv) pieces = NULL;

  count_splits (world);
  assert_true (use (world, write_file (world, "given.plan.yaml", "carpace-plan: 1\nname: Given\n"
                                       "drills: [{id: a, movement: small-turn}]\n"
                                       "blocks: [{limit: !fixed 15 min, drills: [a]}, {limit: !fixed 15 min, drills: [a]}]\n")));
  assert_true (use (world, write_file (world, "s.plan.yaml", SPLIT)));
  assert_true (g_file_get_contents (kept, &text, NULL, NULL));
  pieces = g_strsplit (text, "limit: ", 2);
  assert_non_null (pieces[1]);
  longer = g_strconcat (pieces[0], "limit: 1 h  # ", pieces[1], NULL);
  assert_true (g_file_set_contents (kept, longer, -1, NULL));
  assert_false (load_in_use (world));
  assert_true (world->told->len > 0);
}

/* ---- the first plan, of those that are bundled ---- */

typedef struct
{
  World *world;
  int32_t n;
  CarpacePlan *plans[16];
  const char *words[16];
} Bundled;

static void
add_bundled (void *user, const CarpacePlanItem *item)
{
  Bundled *bundled = user;

  assert_true (bundled->n < 16);
  if (!item->bundled)
    return;
  assert_true (load (bundled->world, item->word));
  bundled->words[bundled->n] = g_intern_string (item->word);
  bundled->plans[bundled->n++] = g_memdup2 (&bundled->world->plan, sizeof bundled->world->plan);
}

static CarpaceFirstAnswers
some_answers (int64_t sitting_ms)
{
  CarpaceFirstAnswers answers;

  carpace_first_answers_init (&answers);
  answers.cautions_answered = answers.once_answered = true;
  answers.age = CARPACE_AGE_16_OR_OVER;
  answers.usual_discomfort = 1;
  answers.sitting_ms = sitting_ms;
  return answers;
}

static const struct { int64_t minutes; const char *word; int64_t longest_min, dose_min; } firsts[] = {
  { 5, "first-week", 4, 8 },    { 10, "first-week", 8, 16 },  { 20, "first-week", 15, 30 }, { 30, "first-week", 15, 30 },
  { 45, "two-halves", 30, 60 }, { 60, "two-halves", 30, 60 }, { 90, "one-long-block", 65, 65 },
};

/* And the player's copy of it reads back as it was made, with the bundled file as it was. */
static void
the_first_plan_becomes_the_players_own (void **state)
{
  World *world = *state;
  Bundled bundled = { .world = world };

  world->port.list (world->port.self, add_bundled, &bundled);
  for (size_t i = 0; i < G_N_ELEMENTS (firsts); i++)
    {
      CarpaceFirstAnswers answers = some_answers (firsts[i].minutes * CARPACE_MINUTE_MS);
      CarpaceFirstProposal first = carpace_first_propose (&answers, (const CarpacePlan *const *) bundled.plans, bundled.n);
      g_autofree CarpacePlan *copy = g_new (CarpacePlan, 1);
      g_autofree char *text = NULL, *again = NULL, *before = NULL, *path = NULL;

      assert_true (first.plan >= 0);
      assert_string_equal (bundled.words[first.plan], firsts[i].word);
      answers.side = CARPACE_SIDE_LEFT;
      answers.once = 1u << CARPACE_ONCE_BLOOD_THINNERS;
      carpace_first_copy (&answers, bundled.plans[first.plan], first.fits_ms, copy);
      assert_int_equal (carpace_plan_longest_limit_ms (copy), firsts[i].longest_min * CARPACE_MINUTE_MS);
      assert_int_equal (copy->dose_ms, firsts[i].dose_min * CARPACE_MINUTE_MS);
      text = carpace_plan_write_file (copy);
      g_string_truncate (world->told, 0);
      if (!world->port.use_text (world->port.self, firsts[i].word, text, &world->taking, collect_fault, world->told))
        fail_msg ("%s", world->told->str);
      assert_true (load_in_use (world));
      again = carpace_plan_write_file (&world->plan);
      assert_string_equal (again, text);
      path = g_strconcat (world->bundled, "/", firsts[i].word, ".plan.yaml", NULL);
      assert_true (g_file_get_contents (path, &before, NULL, NULL));
      assert_null (strstr (before, "left"));
    }
  for (int32_t i = 0; i < bundled.n; i++)
    g_free (bundled.plans[i]);
}

/* Blood thinners are not forgotten with the next bundled plan. */
static void
the_hand_goes_over_into_the_next_bundled_plan (void **state)
{
  World *world = *state;
  CarpaceFirstAnswers answers = some_answers (30 * CARPACE_MINUTE_MS);
  g_autofree CarpacePlan *copy = g_new (CarpacePlan, 1);
  g_autofree char *text = NULL;

  assert_true (load (world, "first-week"));
  answers.side = CARPACE_SIDE_LEFT;
  answers.once = 1u << CARPACE_ONCE_BLOOD_THINNERS;
  carpace_first_copy (&answers, &world->plan, 0, copy);
  text = carpace_plan_write_file (copy);
  assert_true (world->port.use_text (world->port.self, "first-week", text, &world->taking, collect_fault, world->told));
  assert_true (use (world, "two-halves"));
  assert_true (load_in_use (world));
  assert_string_equal (world->plan.name, "Two halves");
  assert_int_equal (world->plan.side, CARPACE_SIDE_LEFT);
  assert_int_equal (world->plan.age, CARPACE_AGE_16_OR_OVER);
  assert_int_equal (world->plan.usual_discomfort, 1);
  for (int32_t i = 0; i < world->plan.n_shown; i++)
    assert_int_not_equal (carpace_exercise_kind (world->plan.shown[i]), CARPACE_EXERCISE_SELF_MASSAGE);
}

static void
a_text_that_is_no_plan_is_not_taken (void **state)
{
  World *world = *state;

  assert_false (world->port.use_text (world->port.self, "w", "carpace-plan: 1\nname: W\n", &world->taking, collect_fault, world->told));
  assert_true (world->told->len > 0);
  assert_false (load_in_use (world));
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup_teardown (name, begin, end)
  const struct CMUnitTest tests[] = {
    TEST (at_first_the_bundled_ones_are_there),
    TEST (a_plan_that_is_used_is_the_players_own),
    TEST (a_faulty_plan_leaves_the_one_in_use),
    TEST (what_is_not_there_is_told),
    TEST (a_pipe_does_not_hold_the_program),
    TEST (a_new_plan_never_takes_the_place_of_a_file),
    TEST (no_part_is_forgotten),
    TEST (a_link_is_replaced_not_written_through),
    TEST (the_note_of_what_is_in_use_is_not_believed_blindly),
    TEST (what_is_fixed_may_only_be_stricter),
    TEST (another_plan_of_the_same_word_keeps_both),
    TEST (names_of_files_become_words),
    TEST (a_damaged_plan_of_ones_own_is_listed_as_such),
    TEST (a_folder_that_cannot_be_made_is_told),
    TEST (a_split_is_worked_out_once),
    TEST (an_edited_split_is_worked_out_anew),
    TEST (a_doctored_split_does_not_lift_what_is_fixed),
    TEST (the_first_plan_becomes_the_players_own),
    TEST (the_hand_goes_over_into_the_next_bundled_plan),
    TEST (a_text_that_is_no_plan_is_not_taken),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
