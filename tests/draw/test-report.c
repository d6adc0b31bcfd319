/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-report.c: what is counted, and who is told what. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "days.h"
#include "draw/report.h"

#define M CARPACE_MINUTE_MS

static CarpaceFakeDiary *
small_diary (void)
{
  CarpaceFakeDiary *fake = carpace_fake_diary_new ();
  Pencil pencil = { .fake = fake, .day = MONDAY, .at = { .wall_ms = MONDAY * CARPACE_DAY_MS + 17 * CARPACE_HOUR_MS, .offset_s = 3600 } };
  CarpaceEntry caution = { .kind = CARPACE_ENTRY_CAUTION };

  write_morning (&pencil, 2);
  write_decision (&pencil, CARPACE_SCOPE_DAY, CARPACE_RULE_CUT, 60 * M, 39 * M, 0);
  write_opening (&pencil, 39 * M);
  write_block (&pencil, 1, 20 * M, 20 * M);
  pass (&pencil, 4000);
  write_rating (&pencil, 1, 3, -1, false);
  write_decision (&pencil, CARPACE_SCOPE_BLOCK, CARPACE_RULE_UP_1, 19 * M, 16 * M, 1);
  write_rating (&pencil, 1, 0, 3, false);
  write_block (&pencil, 2, 17 * M, 16 * M);
  pass (&pencil, 8000);
  write_rating (&pencil, 2, 6, -1, false);
  write_block (&pencil, 0, 30 * M, 0);
  write_rating (&pencil, 0, -1, -1, false);
  caution.caution.what = CARPACE_CAUTION_OPENED;
  caution.caution.signs = 1u << CARPACE_SIGN_NUMB;
  write_entry (&pencil, caution);
  carpace_fake_diary_set_other (fake, MONDAY, 50 * M);
  return fake;
}

static CarpaceReport *
report_of (CarpaceFakeDiary *fake, CarpaceReportAsk ask)
{
  CarpaceDiary diary = carpace_fake_diary_port (fake);

  ask.since = MONDAY;
  ask.until = MONDAY + 6;
  return carpace_report_new (&diary, &ask);
}

static void
test_counts (void **state)
{
  CarpaceFakeDiary *fake = small_diary ();
  CarpaceReport *report = report_of (fake, (CarpaceReportAsk) { 0 });
  const CarpaceReportNumbers *numbers = carpace_report_numbers (report);

  assert_int_equal (numbers->practised, 1);
  assert_int_equal (numbers->planned_ms, 39 * M);
  assert_int_equal (numbers->done_ms, 37 * M);
  assert_int_equal (numbers->overrun_ms, 1 * M);
  assert_int_equal (numbers->blocks, 2);
  assert_int_equal (numbers->matches, 1);
  assert_int_equal (numbers->match_ms, 30 * M);
  assert_int_equal (numbers->n_ratings, 2);
  assert_int_equal (numbers->zeros, 1);
  assert_int_equal (numbers->unanswered, 1);
  assert_int_equal (numbers->highest, 6);
  assert_int_equal (numbers->above_stop, 1);
  assert_int_equal (numbers->corrected, 1);
  assert_int_equal (numbers->lowered, 1);
  assert_int_equal (numbers->n_taps, 2);
  assert_int_equal (numbers->median_tap_ms, 4000);
  assert_int_equal (numbers->decided[CARPACE_RULE_CUT], 1);
  assert_int_equal (numbers->shortened, 1);
  assert_int_equal (numbers->sites[CARPACE_SITE_PALM_SIDE], 1);
  assert_int_equal (numbers->other_ms, 50 * M);
  assert_true (numbers->has_change);
  carpace_report_free (report);
  carpace_fake_diary_free (fake);
}

/* What stands in a row of decisions and blocks: 'd' a decision after the last
 * block that shortens, 'k' one that keeps, 'n' the same block decided anew and
 * kept, '6' a rating above 5, 's' too short, 't' a third tightening, 'b' a block. */
typedef struct
{
  const char *name, *day;
  int32_t shortened, stopped;
} DayRow;

static const DayRow day_rows[] = {
  { .name = "a shortened block that was never played", .day = "bd" },
  { .name = "one that was played", .day = "bdb", .shortened = 1 },
  { .name = "what was tightened stays", .day = "bdbkb", .shortened = 2 },
  { .name = "taken back by a correction", .day = "bdnb" },
  { .name = "an earlier one stands", .day = "bdbdnb", .shortened = 2 },
  { .name = "kept", .day = "bkb" },
  { .name = "a leftover of a minute stops no day", .day = "bks" },
  { .name = "nor after a tightening", .day = "bds" },
  { .name = "a number above 5 does", .day = "b6", .stopped = 1 },
  { .name = "and is one day", .day = "b6b6", .stopped = 1, .shortened = 1 },
  { .name = "corrected at once it does not", .day = "b6n" },
  { .name = "a third tightening does", .day = "bdbdbt", .stopped = 1, .shortened = 2 },
};

static void
write_step (Pencil *pencil, char what, int32_t *block)
{
  pass (pencil, CARPACE_MINUTE_MS);
  if (what == 'b')
    write_block (pencil, ++*block, 10 * M, 10 * M);
  else if (what == 'd')
    write_decision (pencil, CARPACE_SCOPE_BLOCK, CARPACE_RULE_UP_1, 10 * M, 8 * M, *block);
  else if (what == '6')
    write_decision (pencil, CARPACE_SCOPE_BLOCK, CARPACE_RULE_ABOVE_STOP, 10 * M, 0, *block);
  else if (what == 't')
    write_decision (pencil, CARPACE_SCOPE_BLOCK, CARPACE_RULE_TIGHTENED_THRICE, 10 * M, 0, *block);
  else if (what == 's')
    write_decision (pencil, CARPACE_SCOPE_BLOCK, CARPACE_RULE_TOO_SHORT, M, 0, *block);
  else
    write_decision (pencil, CARPACE_SCOPE_BLOCK, CARPACE_RULE_KEEP, 8 * M, what == 'n' ? 10 * M : 8 * M, *block);
}

static void
test_blocks_and_days_that_came_of_it (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (day_rows); i++)
    {
      CarpaceFakeDiary *fake = carpace_fake_diary_new ();
      Pencil pencil = { .fake = fake, .day = MONDAY, .at = { .wall_ms = MONDAY * CARPACE_DAY_MS } };
      int32_t block = 0;
      CarpaceReport *report;

      write_opening (&pencil, 40 * M);
      for (const char *what = day_rows[i].day; *what != '\0'; what++)
        write_step (&pencil, *what, &block);
      report = report_of (fake, (CarpaceReportAsk) { 0 });
      if (carpace_report_numbers (report)->shortened != day_rows[i].shortened
          || carpace_report_numbers (report)->stopped != day_rows[i].stopped)
        fail_msg ("%s: %d shortened, %d stopped", day_rows[i].name, carpace_report_numbers (report)->shortened,
                  carpace_report_numbers (report)->stopped);
      carpace_report_free (report);
      carpace_fake_diary_free (fake);
    }
}

/* Days off, by the plan, by the rules or by choice, are in neither side. */
static void
test_days_off (void **state)
{
  CarpaceFakeDiary *fake = carpace_fake_diary_new ();
  Pencil off = { .fake = fake, .day = MONDAY + 1, .at = { .wall_ms = (MONDAY + 1) * CARPACE_DAY_MS } };
  Pencil unplanned = { .fake = fake, .day = MONDAY + 2, .at = { .wall_ms = (MONDAY + 2) * CARPACE_DAY_MS } };
  CarpaceReport *report;
  const CarpaceReportNumbers *numbers;
  g_autofree char *text = NULL;

  write_day (fake, MONDAY, 60, 1, 0);
  write_morning (&off, 0);
  write_opening (&off, 60 * M);
  write_opening (&unplanned, 0);
  write_block (&unplanned, 1, 7 * M, 10 * M);
  report = report_of (fake, (CarpaceReportAsk) { 0 });
  numbers = carpace_report_numbers (report);
  assert_int_equal (numbers->opened, 3);
  assert_int_equal (numbers->practised, 2);
  assert_int_equal (numbers->planned_ms, 60 * M);
  assert_int_equal (numbers->done_ms, 60 * M);
  assert_int_equal (numbers->unplanned_ms, 7 * M);
  text = g_strdelimit (carpace_report_text (report), "\n", ' ');
  assert_non_null (strstr (text, "1 h of 1 h planned (100 %)"));
  assert_non_null (strstr (text, "2 practice days, 1 h planned, 1 h done;"));
  assert_non_null (strstr (text, "and 7 min with nothing planned"));
  carpace_report_free (report);
  carpace_fake_diary_free (fake);
}

/* Eleven days without any answer are no row yet; twelve are told first of all. */
static void
test_silence_is_told (void **state)
{
  for (int32_t days = CARPACE_SILENT_DAYS - 1; days <= CARPACE_SILENT_DAYS + 1; days++)
    {
      CarpaceFakeDiary *fake = carpace_fake_diary_new ();
      CarpaceReport *report;
      g_autofree char *text = NULL;
      g_autofree char *told = g_strdup_printf ("On %d practice days in a row no rating", days);

      for (int32_t i = 0; i < days; i++)
        write_day (fake, MONDAY + 7 - days + i, 30, -1, -1);
      report = report_of (fake, (CarpaceReportAsk) { 0 });
      assert_int_equal (carpace_report_numbers (report)->silent_days, days);
      text = carpace_report_text (report);
      if ((strstr (text, told) != NULL) != (days >= CARPACE_SILENT_DAYS))
        fail_msg ("%d days\n%s", days, text);
      carpace_report_free (report);
      carpace_fake_diary_free (fake);
    }
}

static char *
coach_page_of (const int32_t minutes[3])
{
  CarpaceFakeDiary *fake = carpace_fake_diary_new ();
  CarpaceReport *report;
  char *text;

  for (int32_t i = 0; i < 3; i++)
    write_day (fake, MONDAY + i, minutes[i], 1, 0);
  report = report_of (fake, (CarpaceReportAsk) { .for_coach = true });
  text = carpace_report_text (report);
  carpace_report_free (report);
  carpace_fake_diary_free (fake);
  return text;
}

/* A coach's page of a week with a cut in it is that of any other week of as much. */
static void
test_the_dose_tells_a_coach_nothing_of_the_hand (void **state)
{
  g_autofree char *cut = coach_page_of ((const int32_t[]) { 60, 39, 45 });
  g_autofree char *level = coach_page_of ((const int32_t[]) { 48, 48, 48 });

  assert_string_equal (cut, level);
  assert_non_null (strstr (cut, "2 h 24 min"));
}

#define DAY_AT(day) { .wall_ms = (int64_t) (day) * CARPACE_DAY_MS + 10 * CARPACE_HOUR_MS }

/* Given before the period, used since its second day, released on its fifth, taken anew and another on its sixth, with
 * which the seventh began; what comes after it is not on it. */
static bool
tell_plans (void *self, CarpacePlanRecordVisitor visit, void *user)
{
  static const CarpacePlanRecord records[] = {
    { .at = DAY_AT (MONDAY - 20), .what = CARPACE_PLAN_GIVEN, .name = "Sore wrist", .version = 2,
      .fixed = "day.dose: 1 h\nnext-day.at-most: 1 h 30 min\n", .text = "" },
    { .at = DAY_AT (MONDAY + 1), .what = CARPACE_PLAN_OF_DAY, .name = "Two halves", .version = 3, .fixed = "", .text = "" },
    { .at = DAY_AT (MONDAY + 4), .what = CARPACE_PLAN_RELEASED, .name = "Two halves", .version = 3, .fixed = "", .text = "" },
    { .at = DAY_AT (MONDAY + 5), .what = CARPACE_PLAN_GIVEN, .name = "Two halves", .version = 3, .fixed = "", .text = "" },
    { .at = DAY_AT (MONDAY + 5), .what = CARPACE_PLAN_GIVEN, .name = "Two halves", .version = 3, .fixed = "", .text = "edited" },
    { .at = DAY_AT (MONDAY + 5), .what = CARPACE_PLAN_GIVEN, .name = "Quarters", .version = 4, .fixed = "", .text = "" },
    { .at = DAY_AT (MONDAY + 6), .what = CARPACE_PLAN_OF_DAY, .name = "Quarters", .version = 4, .fixed = "", .text = "" },
    { .at = DAY_AT (MONDAY + 7), .what = CARPACE_PLAN_GIVEN, .name = "Later", .version = 9, .fixed = "day.dose: 1 h\n", .text = "" },
  };

  for (int i = 0; i < *(const int *) self; i++)
    if (!visit (user, &records[i]))
      break;
  return true;
}

/* One plan fixes its dose, another is tighter in one thing and adds two; the last is looser throughout. */
static const struct { const char *name; int32_t version; CarpaceDay since; const char *fixes; } given_rows[] = {
  { "Sore wrist", 2, MONDAY - 20, "day.dose: 1 h\nnext-day.at-most: 1 h 30 min\nweek.without: monday" },
  { "Two halves", 3, MONDAY + 1, "note: rest the sore thumb\nweek.without: friday\nhand.usual-discomfort: 2\n"
    "tighten.stop-above: 4\nnext-day.at-most: 1 h 10 min" },
  { "Loose", 1, MONDAY + 2, "next-day.at-most: 1 h 20 min\ntighten.stop-above: 5" },
};

static void
hold (int n, CarpaceGivenPlan given[], CarpaceHeld *ret_held)
{
  *ret_held = (CarpaceHeld) { .n_given = (size_t) n, .given = given };
  for (int i = 0; i < n; i++)
    {
      given[i] = (CarpaceGivenPlan) { .name = given_rows[i].name, .version = given_rows[i].version, .since = given_rows[i].since };
      assert_true (carpace_ceiling_read (given_rows[i].fixes, &given[i].fixes));
      carpace_ceiling_join (&ret_held->ceiling, &given[i].fixes);
    }
}

static const struct { int records; bool for_coach; const char *says; int n_given; } plan_rows[] = {
  { 0, false, NULL, 0 },
  { 1, false, "“Sore wrist”, version 2, since 9 Feb 2027. Fixed by “Sore wrist”, version 2, since 9 Feb 2027: day.dose: 1 h; "
    "week.without: monday; next-day.at-most: 1 h 30 min.", 1 },
  { 1, true, "Version 2, since 9 Feb 2027. Fixed by a plan's version 2 since 9 Feb 2027: day.dose: 1 h; "
    "week.without: monday; next-day.at-most: 1 h 30 min.", 1 },
  { 2, false, "“Two halves”, version 3, since 2 Mar 2027. Fixed by “Sore wrist”, version 2, since 9 Feb 2027: day.dose: 1 h; "
    "week.without: monday. Fixed by “Two halves”, version 3, since 2 Mar 2027: note: rest the sore thumb; "
    "hand.usual-discomfort: 2; week.without: friday; tighten.stop-above: 4; next-day.at-most: 1 h 10 min. ", 3 },
  { 2, true, "Version 3, since 2 Mar 2027. Fixed by a plan's version 2 since 9 Feb 2027: day.dose: 1 h; week.without: monday. "
    "Fixed by a plan's version 3 since 2 Mar 2027: week.without: friday; next-day.at-most: 1 h 10 min. ", 3 },
  { 3, false, "“Two halves”, version 3, since 2 Mar 2027. On 5 Mar 2027 the player released what was fixed.", 0 },
  { 4, false, "“Two halves”, version 3, since 2 Mar 2027. On 5 Mar 2027 the player released what was fixed.", 0 }, /* taken again */
  { 5, false, "“Two halves”, version 3, since 2 Mar 2027. Changed since, which holds from the next practice day on. On 5 Mar", 0 },
  { 6, false, "“Two halves”, version 3, since 2 Mar 2027. “Quarters”, version 4, from the next practice day on. On 5 Mar", 0 },
  { 6, true, "Version 3, since 2 Mar 2027. Another, its version 4, from the next practice day on. On 5 Mar", 0 },
  { 7, false, "“Quarters”, version 4, since 7 Mar 2027. On 5 Mar 2027 the player released what was fixed.", 0 },
  { 8, false, "“Quarters”, version 4, since 7 Mar 2027. On 5 Mar 2027 the player released what was fixed.", 0 },
};

static bool
has_no_records (void *self, CarpaceDay since, CarpaceDay until, CarpaceRecordVisitor visit, void *user)
{
  return true;
}

static bool
has_no_records_of (void *self, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceRecordVisitor visit, void *user)
{
  return true;
}

static bool
one_day (void *self, CarpaceDay since, CarpaceDay until, CarpaceDaySumVisitor visit, void *user)
{
  CarpaceDaySum sum = { .day = MONDAY, .dose_ms = 60 * M, .done_ms = 60 * M, .other_ms = -1, .highest = -1 };

  return visit (user, &sum) || true;
}

static void
test_the_plan_stands_on_it (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (plan_rows); i++)
    {
      int records = plan_rows[i].records;
      CarpaceDiary diary = { .self = &records, .records = has_no_records, .records_of = has_no_records_of, .days = one_day,
                             .plans = tell_plans };
      CarpaceGivenPlan given[G_N_ELEMENTS (given_rows)];
      CarpaceHeld held;
      CarpaceReportAsk ask = { .since = MONDAY, .until = MONDAY + 6, .for_coach = plan_rows[i].for_coach, .held = &held };
      hold (plan_rows[i].n_given, given, &held);
      CarpaceReport *report = carpace_report_new (&diary, &ask);
      g_autofree char *text = g_strdelimit (carpace_report_text (report), "\n", ' ');

      if (plan_rows[i].says == NULL ? strstr (text, "The plan ") != NULL : strstr (text, plan_rows[i].says) == NULL)
        fail_msg ("%d records: %s", records, text);
      carpace_report_free (report);
    }
}

/* Words of the hand that a coach is not told unless the player ticks them. */
static const char *const of_ratings[] = { "iscomfort", "waking", "stiff", "rating 3", "highest", "worst" };
static const char *const of_sites[] = { "Palm side", "palm side" };
static const char *const of_cautions[] = { "aution", "umbness", "pins and needles" };
static const char *const of_decisions[] = { "cut", "less today", "65 %" };

typedef struct
{
  const char *name;
  bool for_coach, ratings, sites, cautions;
} ToldRow;

static const ToldRow told_rows[] = {
  { .name = "clinician", .for_coach = false, .ratings = true, .sites = true, .cautions = true },
  { .name = "coach, nothing ticked", .for_coach = true },
  { .name = "coach, ratings", .for_coach = true, .ratings = true },
  { .name = "coach, sites", .for_coach = true, .sites = true },
  { .name = "coach, cautions", .for_coach = true, .cautions = true },
  { .name = "coach, all", .for_coach = true, .ratings = true, .sites = true, .cautions = true },
};

static bool
has_any (const char *text, const char *const *words, size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (strstr (text, words[i]) != NULL)
      return true;
  return false;
}

static void
test_who_is_told_what (void **state)
{
  CarpaceFakeDiary *fake = small_diary ();

  for (size_t i = 0; i < G_N_ELEMENTS (told_rows); i++)
    {
      const ToldRow *row = &told_rows[i];
      CarpaceReport *report = report_of (fake, (CarpaceReportAsk) { .for_coach = row->for_coach, .ratings = row->ratings,
                                                                    .sites = row->sites, .cautions = row->cautions });
      g_autofree char *text = carpace_report_text (report);

      if (has_any (text, of_ratings, G_N_ELEMENTS (of_ratings)) != row->ratings)
        fail_msg ("%s: ratings\n%s", row->name, text);
      if (has_any (text, of_sites, G_N_ELEMENTS (of_sites)) != row->sites)
        fail_msg ("%s: sites\n%s", row->name, text);
      if (has_any (text, of_cautions, G_N_ELEMENTS (of_cautions)) != row->cautions)
        fail_msg ("%s: cautions\n%s", row->name, text);
      if (has_any (text, of_decisions, G_N_ELEMENTS (of_decisions)) != !row->for_coach)
        fail_msg ("%s: decisions\n%s", row->name, text);
      carpace_report_free (report);
    }
  carpace_fake_diary_free (fake);
}

static void
test_an_empty_period (void **state)
{
  CarpaceFakeDiary *fake = carpace_fake_diary_new ();
  CarpaceReport *report = report_of (fake, (CarpaceReportAsk) { .code = "K7" });
  g_autofree char *text = carpace_report_text (report);

  assert_non_null (strstr (text, "Nothing was recorded in this period."));
  assert_non_null (strstr (text, "Player K7"));
  carpace_report_free (report);
  carpace_fake_diary_free (fake);
}

/* What runs as the page is made is no block yet, and its day is not one that was not practised on. */
static void
test_a_block_that_runs (void **state)
{
  static const struct { bool after_another; const char *says; } rows[] = {
    { false, "Practice on 0 days in 0 blocks; 1 more has not ended and is not counted. Planned" },
    { true, "Practice on 1 day in 1 block; 1 more has not ended and is not counted. Planned" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceFakeDiary *fake = carpace_fake_diary_new ();
      Pencil pencil = { .fake = fake, .day = MONDAY, .at = DAY_AT (MONDAY) };
      CarpaceEntry entry = { .kind = CARPACE_ENTRY_BLOCK };

      write_opening (&pencil, 60 * M);
      if (rows[i].after_another)
        write_block (&pencil, 1, 20 * M, 30 * M);
      entry.block.number = 2;
      entry.block.limit_ms = 30 * M;
      write_entry (&pencil, entry);
      CarpaceReport *report = report_of (fake, (CarpaceReportAsk) { .code = "K7" });
      g_autofree char *text = g_strdelimit (carpace_report_text (report), "\n", ' ');

      if (strstr (text, rows[i].says) == NULL || strstr (text, "not practised on") != NULL)
        fail_msg ("%s", text);
      carpace_report_free (report);
      carpace_fake_diary_free (fake);
    }
}

static void
test_a_broken_diary (void **state)
{
  CarpaceFakeDiary *fake = small_diary ();

  carpace_fake_diary_break (fake);
  assert_null (report_of (fake, (CarpaceReportAsk) { 0 }));
  carpace_fake_diary_free (fake);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_counts),
    cmocka_unit_test (test_blocks_and_days_that_came_of_it),
    cmocka_unit_test (test_days_off),
    cmocka_unit_test (test_silence_is_told),
    cmocka_unit_test (test_the_dose_tells_a_coach_nothing_of_the_hand),
    cmocka_unit_test (test_the_plan_stands_on_it),
    cmocka_unit_test (test_who_is_told_what),
    cmocka_unit_test (test_an_empty_period),
    cmocka_unit_test (test_a_block_that_runs),
    cmocka_unit_test (test_a_broken_diary),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
