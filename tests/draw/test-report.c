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
  assert_int_equal (numbers->asked_ms, 39 * M);
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
  assert_int_equal (numbers->cuts, 1);
  assert_int_equal (numbers->tightened, 1);
  assert_int_equal (numbers->sites[CARPACE_SITE_PALM_SIDE], 1);
  assert_int_equal (numbers->other_ms, 50 * M);
  assert_true (numbers->has_change);
  carpace_report_free (report);
  carpace_fake_diary_free (fake);
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
    cmocka_unit_test (test_who_is_told_what),
    cmocka_unit_test (test_an_empty_period),
    cmocka_unit_test (test_a_broken_diary),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
