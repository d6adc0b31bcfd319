/* SPDX-License-Identifier: GPL-3.0-or-later */
/* carpace diary, why, export, import, backup, erase: on a real diary. */
#define _GNU_SOURCE

#include "../adapters/store-samples.h"

#include <sys/stat.h>
#include <unistd.h>

#include "forms/diary-csv.h"
#include "forms/diary-fhir.h"
#include "forms/diary-json.h"
#include "said.h"

static const CarpaceDiaryFormat *const formats[] = { &carpace_format_csv, &carpace_format_json, &carpace_format_fhir, NULL };

typedef struct
{
  Said said;
  char *folder, *path;
  CarpaceDiaryStore *opened, *other;
} Fixture;

static void
store_told (void *user, CarpaceStoreTrouble trouble, const char *message)
{
  fprintf (((CarpaceCli *) user)->err, "%s\n", message);
}

static CarpaceDiaryStore *
open_store (CarpaceCli *cli, CarpaceStoreMode mode)
{
  Fixture *f = cli->main;

  carpace_store_close (f->opened, true);
  f->opened = carpace_store_open (f->path, mode, store_told, cli);
  return f->opened;
}

static bool
open_diary (CarpaceCli *cli, CarpaceDiary *ret_diary)
{
  if (open_store (cli, CARPACE_STORE_READING) == NULL)
    return false;
  *ret_diary = carpace_store_diary (((Fixture *) cli->main)->opened);
  return true;
}

static bool
open_keeper (CarpaceCli *cli, bool writing, CarpaceDiaryKeeper *ret_keeper)
{
  if (open_store (cli, writing ? CARPACE_STORE_WRITING : CARPACE_STORE_READING) == NULL)
    return false;
  *ret_keeper = carpace_store_keeper (((Fixture *) cli->main)->opened);
  return true;
}

static bool
open_backup (CarpaceCli *cli, const char *path, const char *bytes, size_t n, CarpaceDiary *ret_diary)
{
  Fixture *f = cli->main;

  carpace_store_close (f->other, true);
  f->other = carpace_store_open_bytes (path, bytes, n, store_told, cli);
  if (f->other != NULL)
    *ret_diary = carpace_store_diary (f->other);
  return f->other != NULL;
}

static bool
open_scratch (CarpaceCli *cli, CarpaceDiary *ret_diary, CarpaceDiaryKeeper *ret_keeper, CarpaceStore *ret_store)
{
  Fixture *f = cli->main;

  carpace_store_close (f->other, true);
  f->other = carpace_store_open_scratch (store_told, cli);
  assert_non_null (f->other);
  *ret_diary = carpace_store_diary (f->other);
  *ret_keeper = carpace_store_keeper (f->other);
  return true;
}

/* A command in a fresh terminal. */
static int
run (Fixture *f, CarpaceCliCommand command, const char *input, const char *line, ...)
{
  va_list arguments;
  g_autofree char *words = NULL;
  int status;

  va_start (arguments, line);
  words = g_strdup_vprintf (line, arguments);
  va_end (arguments);
  if (f->said.cli.out != NULL)
    said_end (&f->said);
  said_begin (&f->said);
  f->said.cli.in = input != NULL ? fmemopen ((char *) input, strlen (input), "r") : NULL;
  f->said.cli.main = f;
  f->said.cli.open_diary = open_diary;
  f->said.cli.open_keeper = open_keeper;
  f->said.cli.is_backup = carpace_store_is_backup;
  f->said.cli.open_backup = open_backup;
  f->said.cli.open_scratch = open_scratch;
  f->said.cli.formats = formats;
  status = said_run (&f->said, command, words);
  if (f->said.cli.in != NULL)
    fclose (f->said.cli.in);
  carpace_store_close (f->opened, true);
  f->opened = NULL;
  return status;
}

static int
set_up (void **state)
{
  Fixture *f = g_new0 (Fixture, 1);
  CarpaceDiaryStore *store;
  CarpaceDiaryKeeper keeper;
  CarpaceStore port;
  CarpaceEntry decision = entry_of (CARPACE_ENTRY_DECISION, moment (CARPACE_DAY_MS + 2 * CARPACE_HOUR_MS));

  f->folder = folder_new ();
  f->path = g_build_filename (f->folder, "diary.sqlite", NULL);
  store = carpace_store_open (f->path, CARPACE_STORE_WRITING, NULL, NULL);
  port = carpace_store_port (store);
  keeper = carpace_store_keeper (store);
  keep_evening (&port, SAMPLE_DAY, 0, 1, 2);
  keep_evening (&port, SAMPLE_DAY + 1, CARPACE_DAY_MS, 3, -1);
  decision.decision = (CarpaceDecision) { .rule = CARPACE_RULE_UP_2, .scope = CARPACE_SCOPE_BLOCK, .block = 1,
                                          .before_ms = 30 * CARPACE_MINUTE_MS, .after_ms = 1170000, .discomfort = 3,
                                          .reference = 1, .earlier = 1, .stop_above = 5, .shorten_to = 6500,
                                          .mean_pct = -1, .mean_before_pct = -1 };
  keep (&port, CARPACE_EVENT_RATE, &decision);
  keeper.note_day (keeper.self, SAMPLE_DAY + 1, "tired\x1b[2Jeyes");
  carpace_store_close (store, true);
  *state = f;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *f = *state;

  carpace_store_close (f->other, true);
  said_end (&f->said);
  folder_free (f->folder);
  g_free (f->path);
  g_free (f);
  return 0;
}

static void
a_diary_for_people (void **state)
{
  Fixture *f = *state;

  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "Mon 1 Mar 2027\n"));
  assert_non_null (strstr (f->said.out, "\n  18:34  "));
  assert_non_null (strstr (f->said.out, "Tue 2 Mar 2027\n"));
  assert_non_null (strstr (f->said.out, "tired"));
  assert_null (strchr (f->said.out, '\x1b'));
  assert_string_equal (f->said.err, "");
  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --since 2027-03-02"), CARPACE_EXIT_DONE);
  assert_null (strstr (f->said.out, "Mon 1 Mar"));
  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --since 2028-01-01"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "Nothing is recorded"));
}

static void
a_diary_for_programs (void **state)
{
  Fixture *f = *state;

  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --format json --until 2027-03-01"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "\"at\":\"2027-03-01T18:34:00.000+01:00\",\"kind\":\"rating\",\"block\":1,\"discomfort\":1"));
  assert_null (strstr (f->said.out, "2027-03-02T"));
  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --format csv"), CARPACE_EXIT_DONE);
  assert_true (g_str_has_prefix (f->said.out, "day,at,elapsed_ms,kind,note"));
}

static const struct
{
  const char *name, *line, *says;
  CarpaceCliCommand command;
  int status;
} refusals[] = {
  { .name = "no date", .command = carpace_cli_diary, .line = "diary --since yesterday", .says = "“yesterday” is no date",
    .status = CARPACE_EXIT_WORDS },
  { .name = "the wrong way round", .command = carpace_cli_diary, .line = "diary --since 2027-03-02 --until 2027-03-01",
    .says = "--until is before --since", .status = CARPACE_EXIT_WORDS },
  { .name = "no such form", .command = carpace_cli_diary, .line = "diary --format fhir", .says = "fhir",
    .status = CARPACE_EXIT_WORDS },
  { .name = "a word too many", .command = carpace_cli_why, .line = "why now", .says = "now", .status = CARPACE_EXIT_WORDS },
  { .name = "no day", .command = carpace_cli_why, .line = "why --day 2027-02-29", .says = "is no date",
    .status = CARPACE_EXIT_WORDS },
  { .name = "no such form to export", .command = carpace_cli_export, .line = "export --format xml", .says = "xml",
    .status = CARPACE_EXIT_WORDS },
  { .name = "no folder to export to", .command = carpace_cli_export, .line = "export /nowhere/at/all", .says = "/nowhere/at/all",
    .status = CARPACE_EXIT_REFUSED },
  { .name = "nothing named", .command = carpace_cli_import, .line = "import", .says = "import FILE", .status = CARPACE_EXIT_WORDS },
  { .name = "no such file", .command = carpace_cli_import, .line = "import /nowhere/at/all", .says = "/nowhere/at/all",
    .status = CARPACE_EXIT_REFUSED },
  { .name = "a folder", .command = carpace_cli_import, .line = "import /", .says = "is no file", .status = CARPACE_EXIT_REFUSED },
  { .name = "no file at all", .command = carpace_cli_import, .line = "import /dev/zero", .says = "is no file",
    .status = CARPACE_EXIT_REFUSED },
  { .name = "not asked twice", .command = carpace_cli_erase, .line = "erase everything", .says = "everything",
    .status = CARPACE_EXIT_WORDS },
  { .name = "nobody answers", .command = carpace_cli_erase, .line = "erase", .says = "Nothing was erased", .status = CARPACE_EXIT_REFUSED },
  { .name = "nowhere to copy to", .command = carpace_cli_backup, .line = "backup /nowhere/at/all", .says = "/nowhere/at/all",
    .status = CARPACE_EXIT_REFUSED },
  { .name = "over a file", .command = carpace_cli_backup, .line = "backup /etc/passwd", .says = "is there already",
    .status = CARPACE_EXIT_REFUSED },
};

static void
refusals_say_what_and_why (void **state)
{
  Fixture *f = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      int status = run (f, refusals[i].command, NULL, "%s", refusals[i].line);

      if (status != refusals[i].status || strstr (f->said.err, refusals[i].says) == NULL)
        fail_msg ("%s: %d, %s", refusals[i].name, status, f->said.err);
    }
}

static void
why_tells_the_last_days_decisions (void **state)
{
  Fixture *f = *state;

  assert_int_equal (run (f, carpace_cli_why, NULL, "why"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "Tue 2 Mar 2027"));
  assert_non_null (strstr (f->said.out, "19 min 30 s"));
  assert_non_null (strstr (f->said.out, "[up-2]"));
  assert_null (strstr (f->said.out, "Mon 1 Mar"));
  assert_non_null (strstr (f->said.out, "Practice time is led to 1 h and held there: the aim.\n"
                                        "It is the plan's, and has not changed.\n"));
  assert_int_equal (run (f, carpace_cli_why, NULL, "why --day 2027-03-01"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "Practice time is led to 1 h"));
  assert_non_null (strstr (f->said.out, "[keep]"));
  assert_int_equal (run (f, carpace_cli_why, NULL, "why --day 2027-03-05"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "No decision was made on that day."));
}

static void
open_caution (Fixture *f, double days, uint32_t signs)
{
  CarpaceDiaryStore *store = carpace_store_open (f->path, CARPACE_STORE_WRITING, NULL, NULL);
  CarpaceStore port = carpace_store_port (store);
  CarpaceEntry opened = entry_of (CARPACE_ENTRY_CAUTION, moment ((int64_t) (days * CARPACE_DAY_MS)));

  opened.caution.what = CARPACE_CAUTION_OPENED;
  opened.caution.signs = signs;
  keep (&port, CARPACE_EVENT_CAUTION, &opened);
  carpace_store_close (store, true);
}

/* Nothing leads up while it is open; nor is it the day before's. */
static void
why_tells_of_signs (void **state)
{
  Fixture *f = *state;

  open_caution (f, 1.1, 1u << CARPACE_SIGN_NUMB);
  assert_int_equal (run (f, carpace_cli_why, NULL, "why"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "[up-2]\nA caution is open: Numbness, or pins and needles. Practice begins again, shorter, "));
  assert_null (strstr (f->said.out, "held there"));
  assert_int_equal (run (f, carpace_cli_why, NULL, "why --day 2027-03-01"), CARPACE_EXIT_DONE);
  assert_null (strstr (f->said.out, "caution"));
  assert_non_null (strstr (f->said.out, "held there"));
}

/* Signs before anything was ever decided; where a decision opened it, its own sentence tells. */
static void
why_tells_of_signs_that_came_first (void **state)
{
  Fixture *f = *state;

  g_free (f->path);
  f->path = g_build_filename (f->folder, "first.sqlite", NULL);
  open_caution (f, 0, 0);
  assert_int_equal (run (f, carpace_cli_why, NULL, "why"), CARPACE_EXIT_DONE);
  assert_string_equal (f->said.out, "No decision has been made yet.\n");
  open_caution (f, 0.01, 1u << CARPACE_SIGN_NUMB);
  assert_int_equal (run (f, carpace_cli_why, NULL, "why"), CARPACE_EXIT_DONE);
  assert_int_equal (strncmp (f->said.out, "Mon 1 Mar 2027\nA caution is open: Numbness", strlen ("Mon 1 Mar 2027\nA caution is open: Numbness")), 0);
  assert_null (strstr (f->said.out, "No decision"));
}

static void
out_erased_and_in_again (void **state)
{
  static const char *const forms[] = { "csv", "json" };
  Fixture *f = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      g_autofree char *path = g_strdup_printf ("%s/export.%s", f->folder, forms[i]);
      g_autofree char *before = NULL;
      struct stat is;

      assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --format csv"), CARPACE_EXIT_DONE);
      before = g_strdup (f->said.out);
      assert_int_equal (run (f, carpace_cli_export, NULL, "export --format %s %s", forms[i], path), CARPACE_EXIT_DONE);
      assert_int_equal (stat (path, &is), 0);
      assert_int_equal (is.st_mode & 0777, 0600);
      assert_int_equal (run (f, carpace_cli_export, NULL, "export %s", path), CARPACE_EXIT_REFUSED);
      assert_non_null (strstr (f->said.err, "is there already"));
      assert_int_equal (run (f, carpace_cli_erase, "eras\n", "erase"), CARPACE_EXIT_REFUSED);
      assert_int_equal (run (f, carpace_cli_erase, "erase\n", "erase"), CARPACE_EXIT_DONE);
      assert_int_equal (run (f, carpace_cli_diary, NULL, "diary"), CARPACE_EXIT_DONE);
      assert_non_null (strstr (f->said.out, "Nothing is recorded"));
      assert_int_equal (run (f, carpace_cli_import, NULL, "import %s", path), CARPACE_EXIT_DONE);
      assert_string_equal (f->said.out, "32 records added, 0 known already.\n");
      assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --format csv"), CARPACE_EXIT_DONE);
      assert_string_equal (f->said.out, before);
      assert_int_equal (run (f, carpace_cli_import, NULL, "import %s", path), CARPACE_EXIT_DONE);
      assert_string_equal (f->said.out, "0 records added, 32 known already.\n");
    }
}

/* Another computer: an empty diary in the place of this one. */
static void
move_house (Fixture *f)
{
  static int houses;
  g_autofree char *name = g_strdup_printf ("elsewhere-%d.sqlite", ++houses);

  g_free (f->path);
  f->path = g_build_filename (f->folder, name, NULL);
}

static char *
diary_as_csv (Fixture *f)
{
  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --format csv"), CARPACE_EXIT_DONE);
  return g_strdup (f->said.out);
}

/* As an export and as a backup; with the identity, which stands in the CSV. */
static void
restored_elsewhere (void **state)
{
  static const struct { CarpaceCliCommand command; const char *line; } rows[] = {
    { carpace_cli_export, "export --format json %s/moved-0" }, { carpace_cli_backup, "backup %s/moved-1" }
  };
  Fixture *f = *state;
  g_autofree char *home = g_strdup (f->path), *before = diary_as_csv (f);

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *there = NULL;

      g_free (f->path);
      f->path = g_strdup (home);
      assert_int_equal (run (f, rows[i].command, NULL, rows[i].line, f->folder), CARPACE_EXIT_DONE);
      move_house (f);
      if (run (f, carpace_cli_restore, NULL, "restore %s/moved-%zu", f->folder, i) != CARPACE_EXIT_DONE)
        fail_msg ("%s", f->said.err);
      there = diary_as_csv (f);
      assert_string_equal (there, before);
      assert_int_equal (run (f, carpace_cli_restore, NULL, "restore %s/moved-%zu", f->folder, i), CARPACE_EXIT_REFUSED);
      assert_non_null (strstr (f->said.err, "a diary here already"));
      assert_int_equal (run (f, carpace_cli_import, NULL, "import %s/moved-%zu", f->folder, i), CARPACE_EXIT_DONE);
      assert_non_null (strstr (f->said.out, "0 records added"));
    }
}

/* One line a case: whose file, with --mine or not, what is answered, and what comes of it. */
static void
whose_diary_it_is (void **state)
{
  static const struct { const char *name, *file, *mine, *answer, *says; int status; } rows[] = {
    { "another player's", "other", "", NULL, "another player's diary", CARPACE_EXIT_REFUSED },
    { "said to be mine, not meant", "other", "--mine", "no\n", "Nothing was imported", CARPACE_EXIT_REFUSED },
    { "said to be mine", "other", "--mine", "join\n", "1 record added", CARPACE_EXIT_DONE },
    { "not asked twice", "other", "", NULL, "0 records added, 1 known", CARPACE_EXIT_DONE },
    { "no diary at all", "letter", "", NULL, "letter is no diary; take a file from", CARPACE_EXIT_REFUSED },
    { "no diary, said to be mine", "letter", "--mine", NULL, "letter is no diary; take a file from", CARPACE_EXIT_REFUSED },
    { "before identities", "old", "", NULL, "does not say whose diary", CARPACE_EXIT_REFUSED },
    { "before identities, mine", "old", "--mine", NULL, "1 record added", CARPACE_EXIT_DONE },
  };
  Fixture *f = *state;

  for (size_t i = 0; i < 2; i++)
    {
      g_autofree char *path = g_build_filename (f->folder, i == 0 ? "other" : "old", NULL);
      g_autofree char *text
        = g_strdup_printf ("{\"kind\":\"diary\",\"version\":%s}\n{\"kind\":\"rating\",\"day\":\"2027-03-0%zu\",\"at\":"
                           "\"2027-03-0%zuT12:00:00Z\",\"block\":1,\"discomfort\":2,\"site\":\"none\",\"late\":false}\n",
                           i == 0 ? "2,\"diary\":\"00112233445566778899aabbccddeeff\"" : "1", i + 5, i + 5);

      assert_true (g_file_set_contents (path, text, -1, NULL));
    }
  g_autofree char *letter = g_build_filename (f->folder, "letter", NULL);
  assert_true (g_file_set_contents (letter, "Dear K7,\nthe day's kind words.\n", -1, NULL));
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int status = run (f, carpace_cli_import, rows[i].answer, "import %s/%s%s%s", f->folder, rows[i].file,
                        rows[i].mine[0] != '\0' ? " " : "", rows[i].mine);

      if (status != rows[i].status
          || (strstr (f->said.out, rows[i].says) == NULL && strstr (f->said.err, rows[i].says) == NULL))
        fail_msg ("%s: %d, %s%s", rows[i].name, status, f->said.out, f->said.err);
    }
  assert_int_equal (run (f, carpace_cli_export, NULL, "export --format json --code K7"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "\"joined\":[\"00112233445566778899aabbccddeeff\"],\"code\":\"K7\""));
}

/* The diary that is here is neither read nor changed. */
static void
a_file_in_the_diary_s_place (void **state)
{
  Fixture *f = *state;
  g_autofree char *before = NULL, *from = NULL;

  assert_int_equal (run (f, carpace_cli_export, NULL, "export --format json %s/from.json", f->folder), CARPACE_EXIT_DONE);
  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary"), CARPACE_EXIT_DONE);
  before = g_strdup (f->said.out);
  move_house (f);
  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --from %s/from.json", f->folder), CARPACE_EXIT_DONE);
  assert_string_equal (f->said.out, before);
  assert_int_equal (run (f, carpace_cli_why, NULL, "why --from %s/from.json", f->folder), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "[up-2]"));
  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (f->said.out, "Nothing is recorded"));
  assert_int_equal (run (f, carpace_cli_diary, NULL, "diary --from %s/none.json", f->folder), CARPACE_EXIT_REFUSED);
}

/* A path is the player's own words: what is in it moves no cursor. */
static void
control_characters_are_told_as_escapes (void **state)
{
  static const struct { CarpaceCliCommand command; const char *line; } rows[] = {
    { carpace_cli_import, "import no\x1b[2Jfile" },          { carpace_cli_export, "export /no\x1b[2Jfolder/file" },
    { carpace_cli_backup, "backup /no\x1b[2Jfolder/file" },  { carpace_cli_diary, "diary --since \x1b[2J" },
    { carpace_cli_diary, "diary \x1b[2J" },                  { carpace_cli_export, "export --format \x1b[2J" },
    { carpace_cli_why, "why --\x1b[2J" },
  };
  Fixture *f = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      assert_int_not_equal (run (f, rows[i].command, NULL, "%s", rows[i].line), CARPACE_EXIT_DONE);
      if (strchr (f->said.err, '\x1b') != NULL || strstr (f->said.err, "\\x1b[2J") == NULL)
        fail_msg ("row %zu: %s", i, f->said.err);
    }
}

static void
over_a_file_where_that_is_said (void **state)
{
  static const struct { CarpaceCliCommand command; const char *word; } rows[] = {
    { carpace_cli_export, "export" }, { carpace_cli_backup, "backup" }
  };
  Fixture *f = *state;
  g_autofree char *path = g_build_filename (f->folder, "there", NULL);

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = NULL;

      assert_true (g_file_set_contents (path, "precious", -1, NULL));
      assert_int_equal (run (f, rows[i].command, NULL, "%s %s", rows[i].word, path), CARPACE_EXIT_REFUSED);
      assert_non_null (strstr (f->said.err, "is there already; name another file, or write over it with --force."));
      assert_int_equal (run (f, rows[i].command, NULL, "%s --force %s", rows[i].word, path), CARPACE_EXIT_DONE);
      assert_true (g_file_get_contents (path, &text, NULL, NULL));
      assert_string_not_equal (text, "precious");
    }
}

static void
a_fault_is_told_with_its_line (void **state)
{
  Fixture *f = *state;
  g_autofree char *path = g_build_filename (f->folder, "bad.csv", NULL);
  g_autofree char *fhir = g_build_filename (f->folder, "out.fhir", NULL);
  g_autofree char *at = g_strconcat (path, ":2: ", NULL);

  g_file_set_contents (path, "day,at,elapsed_ms,kind,note,other_ms\n2027-03-01,never,1,state,,\n", -1, NULL);
  assert_int_equal (run (f, carpace_cli_import, NULL, "import %s --mine", path), CARPACE_EXIT_REFUSED);
  assert_true (g_str_has_prefix (f->said.err, at));
  assert_non_null (strstr (f->said.err, "Nothing was imported."));
  assert_int_equal (run (f, carpace_cli_export, NULL, "export --format fhir --code K7 %s", fhir), CARPACE_EXIT_DONE);
  assert_int_equal (run (f, carpace_cli_import, NULL, "import %s", fhir), CARPACE_EXIT_REFUSED);
  assert_non_null (strstr (f->said.err, "a part of a diary only (fhir)"));
}

static void
a_running_program_keeps_its_diary (void **state)
{
  static const struct { CarpaceCliCommand command; const char *line; int status; } rows[] = {
    { carpace_cli_erase, "erase --yes", CARPACE_EXIT_REFUSED }, { carpace_cli_import, "import FILE", CARPACE_EXIT_REFUSED },
    { carpace_cli_diary, "diary", CARPACE_EXIT_DONE }, { carpace_cli_backup, "backup FILE", CARPACE_EXIT_DONE },
    { carpace_cli_export, "export", CARPACE_EXIT_DONE },
  };
  Fixture *f = *state;
  CarpaceDiaryStore *running = carpace_store_open (f->path, CARPACE_STORE_WRITING, NULL, NULL);
  g_autofree char *good = g_build_filename (f->folder, "good.csv", NULL);
  g_autofree char *copy = g_build_filename (f->folder, "copy.sqlite", NULL);

  assert_non_null (running);
  g_file_set_contents (good, "day,at,elapsed_ms,kind,note,other_ms\n", -1, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) line = g_string_new (rows[i].line);

      g_string_replace (line, "FILE", rows[i].command == carpace_cli_backup ? copy : good, 0);
      assert_int_equal (run (f, rows[i].command, NULL, "%s", line->str), rows[i].status);
      if (rows[i].status == CARPACE_EXIT_REFUSED)
        assert_non_null (strstr (f->said.err, "carpace quit"));
      else
        assert_string_equal (f->said.err, "");
    }
  carpace_store_close (running, true);
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    TEST (a_diary_for_people),
    TEST (a_diary_for_programs),
    TEST (refusals_say_what_and_why),
    TEST (why_tells_the_last_days_decisions),
    TEST (why_tells_of_signs),
    TEST (why_tells_of_signs_that_came_first),
    TEST (out_erased_and_in_again),
    TEST (restored_elsewhere),
    TEST (whose_diary_it_is),
    TEST (a_file_in_the_diary_s_place),
    TEST (control_characters_are_told_as_escapes),
    TEST (over_a_file_where_that_is_said),
    TEST (a_fault_is_told_with_its_line),
    TEST (a_running_program_keeps_its_diary),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
