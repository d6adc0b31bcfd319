/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-report.c: `carpace report` and `carpace calendar`, from words to files. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>
#include <glib.h>
#include <glib/gstdio.h>

#include "../fakes/fake-diary.h"
#include "said.h"

#define FIRST 20878 /* 2027-03-01 */
#define DAYS 28

static CarpaceFakeDiary *fake;
static char *folder;
static bool no_plan, diary_shut;
static CarpaceInstant last_entry_begins;
static size_t n_entries_written;
static int64_t now_ms = (int64_t) (FIRST + DAYS - 1) * CARPACE_DAY_MS + 12 * CARPACE_HOUR_MS;

static bool
open_diary (CarpaceCli *cli, CarpaceDiary *ret_diary)
{
  if (diary_shut)
    {
      fprintf (cli->err, "shut\n");
      return false;
    }
  *ret_diary = carpace_fake_diary_port (fake);
  return true;
}

static CarpaceInstant
now (void *self)
{
  return (CarpaceInstant) { .wall_ms = now_ms };
}

static int32_t without; /* days of the plan's week */

static bool plan_faulty;

static void
list (void *self, CarpacePlanItemVisitor visit, void *user)
{
  if (!no_plan)
    visit (user, &(CarpacePlanItem){ .path = "mine.plan.yaml", .in_use = true });
}

static bool
load_in_use (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  if (plan_faulty)
    visit (user, &(CarpaceFileFault){ .line = 3, .column = 7, .message = "what is wrong" });
  if (no_plan || plan_faulty)
    return false;
  *ret_plan = (CarpacePlan) { .without = without, .dose_ms = 60 * CARPACE_MINUTE_MS, .starts_at_min = 240, .cut_to = 6500, .step_up_by = 1000,
                              .after_good_days = 3, .at_most_ms = 90 * CARPACE_MINUTE_MS, .stop_above = 5,
                              .round_down_to_ms = 30000, .shortest_ms = 180000, .longest_ms = CARPACE_HOUR_MS,
                              .between_blocks_ms = 45 * CARPACE_MINUTE_MS, .n_blocks = 2,
                              .on_air_every_ms = 30 * CARPACE_MINUTE_MS, .on_air_notice_ms = 2 * CARPACE_MINUTE_MS,
                              .on_air_length_ms = 3 * CARPACE_MINUTE_MS };
  ret_plan->blocks[0].limit_ms = ret_plan->blocks[1].limit_ms = 30 * CARPACE_MINUTE_MS;
  return true;
}

static char *
write_calendar (void *self, const CarpaceCalendarEntry *entries, size_t n_entries, CarpaceInstant at)
{
  GString *text = g_string_new (NULL);

  for (size_t i = 0; i < n_entries; i++)
    g_string_append_printf (text, "%" G_GINT64_FORMAT " %d %s\n", (entries[i].begins.wall_ms - at.wall_ms) / CARPACE_MINUTE_MS,
                            (int) (entries[i].length_ms / CARPACE_MINUTE_MS), entries[i].summary);
  n_entries_written = n_entries;
  last_entry_begins = n_entries > 0 ? entries[n_entries - 1].begins : at;
  return g_string_free (text, FALSE);
}

static int
run (Said *said, CarpaceCliCommand command, const char *line)
{
  said_begin (said);
  said->cli.open_diary = open_diary;
  said->cli.clock.now = now;
  said->cli.plans.load_in_use = load_in_use;
  said->cli.plans.list = list;
  said->cli.calendar.write = write_calendar;
  return said_run (said, command, line);
}

static char *
path_of (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static bool
spawn (const char *words, char **ret_out)
{
  int status = 0;

  return g_spawn_command_line_sync (words, ret_out, NULL, &status, NULL) && g_spawn_check_wait_status (status, NULL);
}

static void
test_text (void **state)
{
  Said said;

  assert_int_equal (run (&said, carpace_cli_report, "report"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (said.out, "Practice report for a clinician"));
  assert_non_null (strstr (said.out, "1 Mar 2027 to 28 Mar 2027"));
  assert_string_equal (said.err, "");
  said_end (&said);
}

/* What the page says is text in it; the page is one, of its paper's size. */
static void
test_pdf (void **state)
{
  static const struct { const char *words, *size; } papers[] = {
    { "", "595.28 x 841.89 pts (A4)" }, { "--paper letter ", "612 x 792 pts (letter)" }
  };
  g_autofree char *path = path_of ("report.pdf");

  for (size_t i = 0; i < G_N_ELEMENTS (papers); i++)
    {
      g_autofree char *line = g_strdup_printf ("report --force --code K7 %s%s", papers[i].words, path);
      g_autofree char *to_text = g_strdup_printf ("pdftotext -layout %s -", path);
      g_autofree char *to_info = g_strdup_printf ("pdfinfo %s", path);
      g_autofree char *text = NULL;
      g_autofree char *info = NULL;
      struct stat there;
      Said said;

      assert_int_equal (run (&said, carpace_cli_report, line), CARPACE_EXIT_DONE);
      said_end (&said);
      assert_int_equal (stat (path, &there), 0);
      assert_int_equal (there.st_mode & 0777, 0600);
      if (!spawn (to_text, &text) || !spawn (to_info, &info))
        skip ();
      assert_non_null (strstr (text, "Player K7"));
      assert_non_null (strstr (text, "Planned and done"));
      assert_non_null (strstr (text, "How the hand answered"));
      assert_non_null (strstr (text, "Why the dose is what it is"));
      assert_non_null (strstr (text, "The next dose is decided when the next practice day opens."));
      assert_non_null (strstr (text, "Mon 1 Mar"));
      assert_non_null (strstr (text, "What the numbers cannot say"));
      assert_non_null (strstr (info, "Pages:           1"));
      assert_non_null (strstr (info, papers[i].size));
    }
}

static void
test_png (void **state)
{
  g_autofree char *path = path_of ("report.png");
  g_autofree char *line = g_strdup_printf ("report --for coach %s", path);
  g_autofree char *bytes = NULL;
  gsize size;
  Said said;

  assert_int_equal (run (&said, carpace_cli_report, line), CARPACE_EXIT_DONE);
  said_end (&said);
  assert_true (g_file_get_contents (path, &bytes, &size, NULL));
  assert_memory_equal (bytes, "\x89PNG\r\n\x1a\n", 8);
}

typedef struct
{
  const char *name, *line;
  int status;
  const char *says;
} BadRow;

static const BadRow bad_rows[] = {
  { .name = "no such reader", .line = "report --for judge", .status = CARPACE_EXIT_WORDS, .says = "judge" },
  { .name = "no such format", .line = "report --format doc", .status = CARPACE_EXIT_WORDS, .says = "doc" },
  { .name = "no such paper", .line = "report --paper a3", .status = CARPACE_EXIT_WORDS, .says = "a3" },
  { .name = "no date", .line = "report --since yesterday", .status = CARPACE_EXIT_WORDS, .says = "2027-03-02" },
  { .name = "no such day", .line = "report --until 2027-02-30", .status = CARPACE_EXIT_WORDS, .says = "2027-02-30" },
  { .name = "backwards", .line = "report --since 2027-03-02 --until 2027-03-01", .status = CARPACE_EXIT_WORDS,
    .says = "ends before it begins" },
  { .name = "not begun", .line = "report --since 2099-01-01", .status = CARPACE_EXIT_WORDS, .says = "lies after today" },
  { .name = "endless", .line = "report --since 0001-01-01", .status = CARPACE_EXIT_WORDS, .says = "hundred years" },
  { .name = "no such tick", .line = "report --for coach --with ratings,dreams", .status = CARPACE_EXIT_WORDS, .says = "dreams" },
  { .name = "ticks for a clinician", .line = "report --with ratings", .status = CARPACE_EXIT_WORDS, .says = "--for coach" },
  { .name = "a picture without a file", .line = "report --format png", .status = CARPACE_EXIT_WORDS, .says = "report.png" },
  { .name = "a long code", .line = "report --code 123456789012345678901", .status = CARPACE_EXIT_WORDS, .says = "20" },
  { .name = "nowhere to write", .line = "report /nowhere/at/all.pdf", .status = CARPACE_EXIT_REFUSED, .says = "cannot be written" },
};

static void
test_bad_words (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (bad_rows); i++)
    {
      Said said;
      int status = run (&said, carpace_cli_report, bad_rows[i].line);

      if (status != bad_rows[i].status || strstr (said.err, bad_rows[i].says) == NULL)
        fail_msg ("%s: %d, %s", bad_rows[i].name, status, said.err);
      if (strchr (said.err, '\n') != said.err + strlen (said.err) - 1)
        fail_msg ("%s: not one line: %s", bad_rows[i].name, said.err);
      said_end (&said);
    }
}

static void
test_shut_diary (void **state)
{
  Said said;

  diary_shut = true;
  assert_int_equal (run (&said, carpace_cli_report, "report"), CARPACE_EXIT_REFUSED);
  assert_string_equal (said.out, "");
  diary_shut = false;
  said_end (&said);
}

/* A day at 18:00 in UTC: two blocks of the last dose, and the intermissions
 * between their beginning and end, at whole half hours. */
static void
test_calendar (void **state)
{
  Said said;

  g_setenv ("TZ", "UTC", TRUE);
  assert_int_equal (run (&said, carpace_cli_calendar, "calendar --at 18:00"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (said.out, "Block 1 of 2\n"));
  assert_non_null (strstr (said.out, "390 3 Intermission\n"));
  assert_null (strstr (said.out, "360 3 Intermission\n"));
  said_end (&said);
  assert_int_equal (run (&said, carpace_cli_calendar, "calendar --days 7 --at 18"), CARPACE_EXIT_DONE);
  assert_int_equal (n_entries_written % 7, 0);
  assert_true (last_entry_begins.wall_ms > now (NULL).wall_ms + 6 * CARPACE_DAY_MS);
  said_end (&said);
}

/* A plan that is in use and cannot be read is not told as none. */
static void
test_calendar_says_what_is_wrong_with_the_plan (void **state)
{
  Said said;

  plan_faulty = true;
  assert_int_equal (run (&said, carpace_cli_calendar, "calendar --at 18:00"), CARPACE_EXIT_REFUSED);
  plan_faulty = false;
  assert_string_equal (said.err, "mine.plan.yaml:3:7: what is wrong\n");
  said_end (&said);
  no_plan = true;
  assert_int_equal (run (&said, carpace_cli_calendar, "calendar --at 18:00"), CARPACE_EXIT_REFUSED);
  no_plan = false;
  assert_non_null (strstr (said.err, "o block plan is in use"));
  said_end (&said);
}

/* Of a week whose days but Sunday are without practice one evening is left. */
static void
test_calendar_passes_over_days_without (void **state)
{
  Said said;
  size_t of_one_day;

  assert_int_equal (run (&said, carpace_cli_calendar, "calendar --at 18:00"), CARPACE_EXIT_DONE);
  of_one_day = n_entries_written;
  said_end (&said);
  without = (1 << CARPACE_WEEKDAY_SUNDAY) - 1;
  assert_int_equal (run (&said, carpace_cli_calendar, "calendar --days 7 --at 18:00"), CARPACE_EXIT_DONE);
  without = 0;
  assert_int_equal (n_entries_written, of_one_day);
  assert_int_equal (carpace_day_weekday (carpace_day_of (last_entry_begins, 0)), CARPACE_WEEKDAY_SUNDAY);
  said_end (&said);
}

/* Six in the evening stays six when summer time begins (Berlin, 2027-03-28):
 * the third evening is 23 h after the second. */
static void
test_calendar_over_summer_time (void **state)
{
  int64_t was_ms = now_ms;
  Said said;

  g_setenv ("TZ", "Europe/Berlin", TRUE);
  now_ms = (int64_t) (FIRST + 25) * CARPACE_DAY_MS + 8 * CARPACE_HOUR_MS;
  assert_int_equal (run (&said, carpace_cli_calendar, "calendar --days 3 --at 18:00"), CARPACE_EXIT_DONE);
  assert_non_null (strstr (said.out, "540 "));
  assert_non_null (strstr (said.out, "1980 "));
  assert_non_null (strstr (said.out, "3360 "));
  assert_null (strstr (said.out, "3420 30 Block 1"));
  said_end (&said);
  now_ms = was_ms;
  g_setenv ("TZ", "UTC", TRUE);
}

static const BadRow bad_calendars[] = {
  { .name = "no days", .line = "calendar --days 0", .status = CARPACE_EXIT_WORDS, .says = "days" },
  { .name = "too many days", .line = "calendar --days 32", .status = CARPACE_EXIT_WORDS, .says = "days" },
  { .name = "no time", .line = "calendar --at noon", .status = CARPACE_EXIT_WORDS, .says = "18:00" },
  { .name = "no such time", .line = "calendar --at 24:00", .status = CARPACE_EXIT_WORDS, .says = "18:00" },
  { .name = "a time and more", .line = "calendar --at 18:00pm", .status = CARPACE_EXIT_WORDS, .says = "18:00" },
};

static void
test_bad_calendars (void **state)
{
  Said said;

  for (size_t i = 0; i < G_N_ELEMENTS (bad_calendars); i++)
    {
      int status = run (&said, carpace_cli_calendar, bad_calendars[i].line);

      if (status != bad_calendars[i].status || strstr (said.err, bad_calendars[i].says) == NULL)
        fail_msg ("%s: %d, %s", bad_calendars[i].name, status, said.err);
      said_end (&said);
    }
  no_plan = true;
  assert_int_equal (run (&said, carpace_cli_calendar, "calendar"), CARPACE_EXIT_REFUSED);
  assert_non_null (strstr (said.err, "carpace plan use"));
  said_end (&said);
  no_plan = false;
}

/* Over a file that is there only where that is said, and never in the place of
 * anything else. What is done with each kind of thing: tests/files/test-out.c. */
static void
test_files_that_are_there (void **state)
{
  static const struct { CarpaceCliCommand command; const char *word; } commands[] = {
    { carpace_cli_report, "report" }, { carpace_cli_calendar, "calendar" }
  };
  g_autofree char *path = path_of ("there"), *pipe = path_of ("pipe");

  assert_int_equal (mkfifo (pipe, 0600), 0);
  for (size_t i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      g_autofree char *plain = g_strdup_printf ("%s %s", commands[i].word, path);
      g_autofree char *forced = g_strdup_printf ("%s --force %s", commands[i].word, path);
      g_autofree char *into = g_strdup_printf ("%s --force %s", commands[i].word, pipe);
      g_autofree char *text = NULL, *now = NULL;
      Said said;

      assert_true (g_file_set_contents (path, "precious", -1, NULL));
      assert_int_equal (run (&said, commands[i].command, plain), CARPACE_EXIT_REFUSED);
      assert_non_null (strstr (said.err, "is there already; name another file, or write over it with --force."));
      assert_true (g_file_get_contents (path, &text, NULL, NULL));
      assert_string_equal (text, "precious");
      said_end (&said);
      assert_int_equal (run (&said, commands[i].command, forced), CARPACE_EXIT_DONE);
      assert_true (g_file_get_contents (path, &now, NULL, NULL));
      assert_string_not_equal (now, "precious");
      said_end (&said);
      assert_int_equal (run (&said, commands[i].command, into), CARPACE_EXIT_REFUSED);
      assert_non_null (strstr (said.err, "Nothing reads from"));
      assert_false (g_file_test (pipe, G_FILE_TEST_IS_REGULAR));
      said_end (&said);
    }
  g_remove (path);
  g_remove (pipe);
}

static int
set_up (void **state)
{
  fake = carpace_fake_diary_season (7, FIRST, DAYS);
  folder = g_dir_make_tmp ("carpace-report-XXXXXX", NULL);
  return folder == NULL;
}

static int
tear_down (void **state)
{
  static const char *const names[] = { "report.pdf", "report.png" };

  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = path_of (names[i]);

      g_remove (path);
    }
  g_rmdir (folder);
  g_free (folder);
  carpace_fake_diary_free (fake);
  return 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_text),        cmocka_unit_test (test_pdf),      cmocka_unit_test (test_png),
    cmocka_unit_test (test_bad_words),   cmocka_unit_test (test_shut_diary), cmocka_unit_test (test_calendar),
    cmocka_unit_test (test_calendar_says_what_is_wrong_with_the_plan),
    cmocka_unit_test (test_calendar_passes_over_days_without),
    cmocka_unit_test (test_calendar_over_summer_time), cmocka_unit_test (test_bad_calendars),
    cmocka_unit_test (test_files_that_are_there),
  };

  return cmocka_run_group_tests (tests, set_up, tear_down);
}
