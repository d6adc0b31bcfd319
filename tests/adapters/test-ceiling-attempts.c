/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-ceiling-attempts.c: whatever a player tries to have a fixed number looser: each
 * key that can be fixed, by each way there is. Each ends in one sentence with its
 * line and the fixed number, and the plan in use is what it was. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>
#include <glib/gstdio.h>

#include "carpace/names.h"
#include "forms/plan-yaml.h"
#include "plan-files.h"

/* One thing that is fixed, as a plan file has it. */
typedef struct
{
  const char *key;   /* of a section with a dot; "limit": of both blocks */
  const char *fixed, *looser;
  bool default_is_looser;
} Fixed;

static const Fixed rows[] = {
  { "note", "Weeks 1 and 2", "Weeks 3 and 4", true },
  { "hand.side", "left", "right", true },
  { "hand.grip", "claw", "palm", true },
  { "hand.cm-per-turn", "35", "40", true },
  { "hand.usual-discomfort", "0", "1", false },
  { "player.age", "under-16", "16-or-over", true },
  { "day.dose", "40 min", "50 min", true },
  { "day.starts-at", "05:00", "04:00", true },
  { "day.between-blocks", "1 h", "45 min", true },
  { "week.without", "[sunday]", "[monday]", true },
  { "gap-after", "5 s", "4 s", true },
  { "run-min", "30 s", "20 s", true },
  { "micro-rest.after", "8 min", "10 min", true },
  { "micro-rest.or-after-runs", "5", "6", true },
  { "micro-rest.length", "40 s", "30 s", true },
  { "micro-rest.reserve-at-least", "5 %", "4 %", true },
  { "micro-rest.wait-for-gap", "1 min", "90 s", true },
  { "micro-rest.show", "[neck-turns]", "[hook-fist]", true },
  { "block-limits.finish-run", "1 min", "90 s", true },
  { "block-limits.round-down-to", "20 s", "30 s", true },
  { "block-limits.shortest", "4 min", "3 min", true },
  { "block-limits.longest", "33 min", "36 min", true },
  { "tighten.up-1-shorten-to", "80 %", "85 %", true },
  { "tighten.up-2-shorten-to", "60 %", "65 %", true },
  { "tighten.stop-above", "4", "5", true },
  { "next-day.cut-to", "60 %", "65 %", true },
  { "next-day.step-up-by", "5 %", "10 %", true },
  { "next-day.after-good-days", "4", "3", true },
  { "next-day.at-most", "1 h 20 min", "90 min", true },
  { "matches.counts", "50 %", "0 %", true },
  { "on-air.every", "30 min", "40 min", true },
  { "on-air.from", "stream", "clock", true },
  { "on-air.notice", "3 min", "2 min", true },
  { "on-air.length", "6 min", "5 min", true },
  { "limit", "30 min", "31 min", false },
};

/* What a file is made of. */
typedef struct
{
  const char *name, *mark, *comment;
  const char *value;      /* NULL: the key is left out */
  bool split, more_blocks, other_start, json, flow, question, verbatim_tag;
} File;

typedef struct
{
  const char *row;
  bool in_place;      /* the file of the plan in use is edited, not a new one taken */
  bool leaves_out;
  File file;
} Attempt;

static const Attempt attempts[] = {
  { "a new file", false, false, { .name = "Given", .mark = "" } },
  { "a new file with the mark", false, false, { .name = "Given", .mark = "!fixed " } },
  { "a new name", false, false, { .name = "My own", .mark = "!fixed " } },
  { "an edit in place", true, false, { .name = "Given", .mark = "!fixed " } },
  { "an edit in place without the mark", true, false, { .name = "Given", .mark = "" } },
  { "an edit in place with a new name", true, false, { .name = "My own", .mark = "" } },
  { "the mark in a comment", true, false, { .name = "Given", .mark = "", .comment = " # !fixed" } },
  { "the key left out", true, true, { .name = "Given" } },
  { "the key left out of a new file", false, true, { .name = "My own" } },
  { "a split", false, false, { .name = "Given", .mark = "", .split = true } },
  { "a split in place", true, false, { .name = "Given", .mark = "!fixed ", .split = true } },
  { "more blocks", true, false, { .name = "Given", .mark = "", .more_blocks = true } },
  { "another start of the day", true, false, { .name = "Given", .mark = "", .other_start = true } },
  { "flow style", true, false, { .name = "Given", .mark = "!fixed ", .flow = true } },
  { "an explicit key", true, false, { .name = "Given", .mark = "", .question = true } },
  { "a verbatim tag", true, false, { .name = "Given", .mark = "", .verbatim_tag = true } },
  { "JSON", false, false, { .name = "Given", .mark = "", .json = true } },
};

/* ---- files ---- */

static void
add_pair (GString *out, const char *margin, const char *key, const File *file)
{
  const char *tag = file->verbatim_tag ? "!<!fixed> " : file->mark ? file->mark : "";
  const char *comment = file->comment ? file->comment : "";
  bool quoted = strchr (file->value, ':') != NULL || file->json;
  bool list = file->value[0] == '[';
  g_autofree char *value = quoted && !list ? g_strdup_printf ("\"%s\"", file->value) : g_strdup (file->value);

  if (file->json && g_ascii_isdigit (file->value[0]) && strspn (file->value, "0123456789") == strlen (file->value))
    g_string_append_printf (out, "\"%s\": %s", key, file->value);
  else if (file->json && list)
    g_string_append_printf (out, "\"%s\": [\"%.*s\"]", key, (int) strlen (file->value) - 2, file->value + 1);
  else if (file->json)
    g_string_append_printf (out, "\"%s\": %s", key, value);
  else if (file->question)
    g_string_append_printf (out, "%s? %s\n%s: %s%s", margin, key, margin, tag, value);
  else
    g_string_append_printf (out, "%s%s: %s%s%s", margin, key, tag, value, comment);
}

static void
add_key (GString *out, const char *path, const File *file)
{
  g_auto (GStrv) parts = g_strsplit (path, ".", 2);

  if (file->value == NULL)
    return;
  if (parts[1] == NULL)
    add_pair (out, "", parts[0], file);
  else if (file->json || file->flow)
    {
      g_string_append_printf (out, file->json ? "\"%s\": {" : "%s: {", parts[0]);
      add_pair (out, "", parts[1], file);
      g_string_append_c (out, '}');
    }
  else
    {
      g_string_append_printf (out, "%s:\n", parts[0]);
      add_pair (out, "  ", parts[1], file);
    }
  g_string_append (out, file->json ? ",\n" : "\n");
}

static void
add_blocks (GString *out, const char *key, const File *file)
{
  const char *limit = strcmp (key, "limit") == 0 ? file->value : "30 min", *mark = strcmp (key, "limit") == 0 ? file->mark : "";

  if (file->split)
    g_string_append_printf (out, "drills: [{id: a, movement: small-turn%s}]\nsplit: %s\n",
                            strcmp (key, "day.dose") == 0 ? "" : ", time: 62 min", "halves");
  else if (file->json)
    g_string_append_printf (out, "\"drills\": [{\"id\": \"a\", \"movement\": \"small-turn\"}],\n"
                            "\"blocks\": [{\"limit\": \"%s\", \"drills\": [\"a\"]}, {\"limit\": \"%s\", \"drills\": [\"a\"]}]}\n", limit, limit);
  else
    for (int i = 0; i < (file->more_blocks ? 3 : 2); i++)
      g_string_append_printf (out, "%s  - {limit: %s%s, drills: [a]}\n",
                              i == 0 ? "drills: [{id: a, movement: small-turn}]\nblocks:\n" : "", mark ? mark : "", limit);
}

static char *
text_of (const char *key, const File *file)
{
  GString *out = g_string_new (file->json ? "{\"carpace-plan\": 1,\n" : "carpace-plan: 1\n");

  g_string_append_printf (out, file->json ? "\"name\": \"%s\",\n" : "name: %s\n", file->name);
  if (file->other_start && !g_str_has_prefix (key, "day."))
    g_string_append (out, "day: {starts-at: \"11:00\"}\n");
  if (strcmp (key, "limit") != 0)
    add_key (out, key, file);
  add_blocks (out, key, file);
  return g_string_free (out, FALSE);
}

/* ---- the world ---- */

typedef struct
{
  char *top, *in_use;
  CarpacePlanFiles port;
  CarpaceHeld held;
  CarpaceGivenPlan given[2];
} World;

typedef struct
{
  int n, line;
  char *message;
} Told;

static void
note (void *user, const CarpaceFileFault *fault)
{
  Told *told = user;

  if (fault->warning)
    return;
  told->n++;
  told->line = fault->line;
  g_free (told->message);
  told->message = g_strdup (fault->message);
}

static bool
keep_given (void *user, const CarpacePlan *plan, const CarpaceCeiling *ceiling, const char *text)
{
  World *world = user;

  world->given[0] = (CarpaceGivenPlan) { g_intern_string (plan->name), plan->version, g_intern_string (text) };
  world->held = (CarpaceHeld) { *ceiling, 1, world->given };
  world->port.hold (world->port.self, &world->held);
  return true;
}

static void
remove_all (const char *path)
{
  GDir *dir = g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);
      remove_all (child);
    }
  g_clear_pointer (&dir, g_dir_close);
  g_remove (path);
}

/* Without waiting for the disk: 570 times that would take a minute on a busy one. */
static bool
overwrite (const char *path, const char *text)
{
  FILE *file = fopen (path, "w");

  return file != NULL && fputs (text, file) >= 0 && fclose (file) == 0;
}

static char *
write_file (World *world, const char *name, const char *text)
{
  char *path = g_build_filename (world->top, name, NULL);

  assert_true (overwrite (path, text));
  return path;
}

/* Gives the plan with @row fixed and puts it in use. */
static void
give (World *world, const Fixed *row)
{
  const CarpaceTaking taking = { world, NULL, keep_given };
  g_autofree char *text = text_of (row->key, &(File) { .name = "Given", .mark = "!fixed ", .value = row->fixed });
  g_autofree char *bundled = NULL, *own = NULL, *path = NULL;
  Told told = { 0 };

  memset (world, 0, sizeof *world);
  world->top = g_dir_make_tmp ("carpace-attempts-XXXXXX", NULL);
  bundled = g_build_filename (world->top, "bundled", NULL);
  own = g_build_filename (world->top, "own", NULL);
  world->in_use = g_build_filename (own, "plans", "given.plan.yaml", NULL);
  world->port = carpace_plan_folders_new (carpace_plan_yaml (), bundled, own);
  path = write_file (world, "given.plan.yaml", text);
  if (!world->port.use (world->port.self, path, &taking, note, &told))
    fail_msg ("%s: not taken at first: %s\n%s", row->key, told.message, text);
}

static void
end (World *world)
{
  world->port.free (world->port.self);
  remove_all (world->top);
  g_free (world->top);
  g_free (world->in_use);
}

static bool
tell_sentence (const Fixed *row, const Told *told)
{
  g_autofree char *number = row->fixed[0] == '[' ? g_strndup (row->fixed + 1, strlen (row->fixed) - 2) : g_strdup (row->fixed);

  return told->n == 1 && told->line > 0 && strstr (told->message, number) != NULL;
}

static void
try (World *world, const Fixed *row, const Attempt *attempt)
{
  CarpacePlan *plan = g_new (CarpacePlan, 1);
  const CarpaceTaking taking = { world, NULL, keep_given };
  File file = attempt->file;
  g_autofree char *before = NULL, *text = NULL, *after = NULL, *path = NULL;
  Told told = { 0 }, none = { 0 };
  bool let;

  assert_true (g_file_get_contents (world->in_use, &before, NULL, NULL));
  file.value = attempt->leaves_out ? NULL : row->looser;
  text = text_of (row->key, &file);
  if (attempt->in_place)
    {
      assert_true (overwrite (world->in_use, text));
      let = world->port.load_in_use (world->port.self, plan, note, &told);
      assert_true (overwrite (world->in_use, before));
    }
  else
    {
      path = write_file (world, file.json ? "copy.json" : "copy.plan.yaml", text);
      let = world->port.use (world->port.self, path, &taking, note, &told);
    }
  if (let || !tell_sentence (row, &told))
    fail_msg ("%s, %s: %s, %d faults, line %d: %s\n%s", row->key, attempt->row, let ? "let through" : "refused", told.n,
              told.line, told.message ? told.message : "", text);
  assert_true (g_file_get_contents (world->in_use, &after, NULL, NULL));
  assert_string_equal (before, after);
  if (!world->port.load_in_use (world->port.self, plan, note, &none) || strcmp (plan->name, "Given") != 0)
    fail_msg ("%s, %s: the plan in use is another: %s", row->key, attempt->row, none.message ? none.message : "");
  g_free (told.message);
  g_free (plan);
}

static bool
makes_sense (const Fixed *row, const Attempt *attempt)
{
  bool limit = strcmp (row->key, "limit") == 0;

  if (attempt->leaves_out && !row->default_is_looser)
    return false;
  if (limit && (attempt->file.question || attempt->file.comment || attempt->file.verbatim_tag || attempt->file.flow))
    return false; /* told for keys; a limit is in flow style already */
  return true;
}

static void
each_key_by_each_way (void **state)
{
  int n = 0;

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      World world;

      give (&world, &rows[i]);
      for (size_t j = 0; j < G_N_ELEMENTS (attempts); j++)
        if (makes_sense (&rows[i], &attempts[j]))
          {
            try (&world, &rows[i], &attempts[j]);
            n++;
          }
      end (&world);
    }
  print_message ("%d attempts\n", n);
}

/* So that a key that comes later is thought of. */
static void
each_key_is_tried (void **state)
{
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    {
      bool tried = key == CARPACE_KEY_NAME || key == CARPACE_KEY_VERSION; /* told below */
      for (size_t i = 0; i < G_N_ELEMENTS (rows) && !tried; i++)
        tried = strcmp (rows[i].key, carpace_name (CARPACE_WORDS_PLAN_KEY, key)) == 0;
      if (!tried)
        fail_msg ("%s is not tried", carpace_name (CARPACE_WORDS_PLAN_KEY, key));
    }
}

/* Loads after what @text says is in the file in use. */
static void
assert_refused (World *world, const char *text, const char *sentence)
{
  CarpacePlan *plan = g_new (CarpacePlan, 1);
  Told told = { 0 };

  assert_true (g_file_set_contents (world->in_use, text, -1, NULL));
  if (world->port.load_in_use (world->port.self, plan, note, &told) || told.n != 1 || told.line == 0
      || strstr (told.message, sentence) == NULL)
    fail_msg ("%s\n%s", told.message ? told.message : "let through", text);
  g_free (told.message);
  g_free (plan);
}

#define DRILL "drills: [{id: a, movement: small-turn}]\n"

/* Numbers that are not fixed themselves, but would make one that is worth nothing. */
static void
by_a_way_around (void **state)
{
  static const Fixed limits = { "limit", "30 min", "31 min", false }, at_most = { "next-day.at-most", "1 h 20 min", "90 min", true };
  World world;

  give (&world, &limits);
  assert_refused (&world, "carpace-plan: 1\nname: Given\n" DRILL "blocks:\n  - {limit: 30 min, drills: [a]}\n"
                          "  - {limit: 30 min, drills: [a]}\n  - {limit: 1 min, drills: [a]}\n", "there can be 2");
  assert_refused (&world, "carpace-plan: 1\nname: Given\nday: {dose: 61 min}\n" DRILL "blocks:\n"
                          "  - {limit: 30 min, drills: [a]}\n  - {limit: 30 min, drills: [a]}\n", "it can be 1 h or less");
  assert_refused (&world, "carpace-plan: 1\nname: Other\nday: {dose: 61 min}\n" DRILL "split: 3\n", "there can be 2");
  end (&world);
  give (&world, &at_most);
  assert_refused (&world, "carpace-plan: 1\nname: Given\nnext-day: {at-most: 80 min}\nday: {dose: 81 min}\n" DRILL
                          "blocks: [{limit: 81 min, drills: [a]}]\n", "1 h 20 min");
  end (&world);
}

static bool
agree (void *user, const CarpacePlan *before, const CarpacePlan *plan)
{
  return true;
}

/* A higher version ends what its own plan fixed, asked and shown; not what another did. */
static void
by_a_higher_version_of_another_plan (void **state)
{
  static const Fixed at_most = { "next-day.at-most", "1 h 20 min", "90 min", true };
  static const struct { const char *name; bool taken; } rows_of[] = { { "Given", true }, { "Other", false } };

  for (size_t i = 0; i < G_N_ELEMENTS (rows_of); i++)
    {
      World world;
      const CarpaceTaking taking = { &world, agree, keep_given };
      g_autofree char *path = NULL, *text = NULL;
      Told told = { 0 };

      give (&world, &at_most);
      world.given[0].fixes = world.held.ceiling;
      world.given[1] = (CarpaceGivenPlan) { .name = "Other", .version = 1, .text = "" };
      world.held.n_given = 2;
      world.port.hold (world.port.self, &world.held);
      text = g_strdup_printf ("carpace-plan: 1\nname: %s\nversion: 2\nnext-day: {at-most: 90 min}\n" DRILL
                              "blocks: [{limit: 30 min, drills: [a]}]\n", rows_of[i].name);
      path = write_file (&world, "newer.plan.yaml", text);
      if (world.port.use (world.port.self, path, &taking, note, &told) != rows_of[i].taken)
        fail_msg ("%s: %s", rows_of[i].name, told.message != NULL ? told.message : "taken");
      if (!rows_of[i].taken)
        assert_true (told.n == 1 && told.line == 4 && strstr (told.message, "1 h 20 min") != NULL);
      g_free (told.message);
      end (&world);
    }
}

static void
by_its_name_or_version (void **state)
{
  static const Fixed at_most = { "next-day.at-most", "1 h 20 min", "90 min", true };
  World world;

  give (&world, &at_most);
  assert_refused (&world, "carpace-plan: 1\nname: Given\nversion: 2\nnext-day: {at-most: 90 min}\n" DRILL
                          "blocks: [{limit: 30 min, drills: [a]}]\n", "version 2 is newer than version 1");
  assert_refused (&world, "carpace-plan: 1\nname: Other\nversion: 2\nnext-day: {at-most: 90 min}\n" DRILL
                          "blocks: [{limit: 30 min, drills: [a]}]\n", "1 h 20 min");
  end (&world);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_key_is_tried),
    cmocka_unit_test (each_key_by_each_way),
    cmocka_unit_test (by_a_way_around),
    cmocka_unit_test (by_a_higher_version_of_another_plan),
    cmocka_unit_test (by_its_name_or_version),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
