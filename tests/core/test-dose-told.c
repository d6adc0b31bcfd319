/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-dose-told.c: all that a decision about a day tells of itself, field by field. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/entry-fields.h"
#include "dose-rows.h"

/* All that a decision tells, but for what is 0 or none. */
typedef struct
{
  Row row;
  const char *told;
} Told;

static const Told told_rows[] = {
  { { "the first day", "", 1 },
    " keep day before_ms=3600000 after_ms=3600000 discomfort=1 stop_above=5 first-day kept_ms=3600000"
    " needed=3 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000"
    " straight_back=1 wakings_up=1" },
  { { "the first day, no check", "", -2 },
    " keep day before_ms=3600000 after_ms=3600000 stop_above=5 first-day kept_ms=3600000 needed=3"
    " first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000 straight_back=1" },
  { { "an ordinary day", "gg", 1 },
    " keep day before_ms=3600000 after_ms=3600000 discomfort=1 stop_above=5 kept_ms=3600000 days=2"
    " needed=3 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000"
    " straight_back=1 full_day=1 most_ms=4680000 most_of_ms=3600000 wakings_up=1" },
  { { "at the level, which changed 6 days ago", "g#7", 0, .level_days_ago = 6 },
    " keep day before_ms=3600000 after_ms=3600000 discomfort=0 stop_above=5 level-young kept_ms=3600000"
    " days=7 needed=3 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000"
    " straight_back=1 full_day=1 most_ms=4680000 most_of_ms=3600000 level_days=6" },
  { { "a step up", "ggg", 0 },
    " step-up day before_ms=3600000 after_ms=3960000 discomfort=0 stop_above=5 good-days kept_ms=3960000"
    " days=3 needed=3 first_dose_ms=3600000 level_ms=3960000 level_before_ms=3600000 step_ms=360000"
    " straight_back=1 full_day=1 most_ms=4680000 most_of_ms=3600000" },
  { { "a half step", "g#21", 0, .level_days_ago = 20, .down_days_ago = 20 },
    " step-up day before_ms=3600000 after_ms=3780000 discomfort=0 stop_above=5 good-days kept_ms=3780000"
    " days=21 needed=3 mean_pct=0 mean_before_pct=0 first_dose_ms=3600000 level_ms=3780000"
    " level_before_ms=3600000 step_ms=360000 straight_back=1 full_day=1 most_ms=4680000 most_of_ms=3600000"
    " down_from_ms=3600000 down_days=20 level_days=20" },
  { { "a cut, the first on a full day", "g=50", 3 },
    " cut-once day before_ms=3600000 after_ms=1920000 discomfort=3 stop_above=5 waking-up kept_ms=1920000"
    " done_ms=3000000 shorten_to=6500 needed=1 first_dose_ms=3600000 level_ms=3600000"
    " level_before_ms=3600000 step_ms=360000 straight_back=1 full_day=1 worse_mornings=1 most_ms=3900000"
    " most_of_ms=3000000" },
  { { "a cut under the level", "g~39", 3, .dose_min = 39, .level_min = 60 },
    " cut-once day before_ms=2340000 after_ms=1500000 discomfort=3 stop_above=5 waking-up kept_ms=1500000"
    " done_ms=2340000 shorten_to=6500 needed=1 first_dose_ms=3600000 level_ms=3600000"
    " level_before_ms=3600000 step_ms=360000 most_ms=3000000 most_of_ms=2340000" },
  { { "answered badly", "3g", 3 },
    " cut day before_ms=3600000 after_ms=2340000 discomfort=3 earlier=3 stop_above=5 badly-rated"
    " kept_ms=2340000 done_ms=3600000 shorten_to=6500 needed=1 first_dose_ms=3600000 level_ms=3060000"
    " level_before_ms=3600000 step_ms=360000 level_down=1 full_day=1 worse_mornings=1 most_ms=4680000"
    " most_of_ms=3600000 down_from_ms=3600000" },
  { { "a third worse morning", "gcgwgggg", 3 },
    " cut day before_ms=3600000 after_ms=2340000 discomfort=3 earlier=0 stop_above=5 third-worse"
    " kept_ms=2340000 done_ms=3600000 shorten_to=6500 needed=1 first_dose_ms=3600000 level_ms=3060000"
    " level_before_ms=3600000 step_ms=360000 level_down=1 full_day=1 worse_mornings=3 most_ms=4680000"
    " most_of_ms=3600000 down_from_ms=3600000" },
  { { "waking above stop", "g", 6, .now = 7 },
    " cut day before_ms=3600000 discomfort=6 stop_above=5 waking-above-stop no_practice=1 kept_ms=2340000"
    " done_ms=3600000 shorten_to=6500 needed=1 first_dose_ms=3600000 level_ms=3060000"
    " level_before_ms=3600000 step_ms=360000 level_down=1 full_day=1 most_ms=4680000 most_of_ms=3600000"
    " down_from_ms=3600000" },
  { { "now above stop", "g", 5, .now = 7 },
    " cut day before_ms=3600000 discomfort=7 stop_above=5 now-above-stop no_practice=1 kept_ms=2340000"
    " done_ms=3600000 shorten_to=6500 needed=1 first_dose_ms=3600000 level_ms=3060000"
    " level_before_ms=3600000 step_ms=360000 level_down=1 full_day=1 most_ms=4680000 most_of_ms=3600000"
    " down_from_ms=3600000" },
  { { "an evening above stop", "g,6a", 1 },
    " cut day before_ms=3600000 after_ms=2340000 discomfort=6 stop_above=5 ended-above-stop"
    " kept_ms=2340000 done_ms=3600000 shorten_to=6500 needed=1 first_dose_ms=3600000 level_ms=3060000"
    " level_before_ms=3600000 step_ms=360000 level_down=1 full_day=1 most_ms=4680000 most_of_ms=3600000"
    " down_from_ms=3600000" },
  { { "an evening above stop, 4 weeks ago", "g,6a...........................", 1 },
    " cut day before_ms=3600000 after_ms=2160000 discomfort=6 stop_above=5 ended-above-stop"
    " kept_ms=2160000 done_ms=3600000 shorten_to=6500 days=28 needed=3 weeks=4 first_dose_ms=3600000"
    " level_ms=2160000 level_before_ms=3600000 step_ms=360000 level_down=1 straight_back=1"
    " down_from_ms=3600000" },
  { { "twice above stop", "gm.....", 6 },
    " cut day before_ms=3600000 discomfort=6 stop_above=5 waking-above-stop no_practice=1 opens_caution=1"
    " kept_ms=2340000 done_ms=3600000 shorten_to=6500 needed=2 first_dose_ms=3600000 level_ms=3060000"
    " level_before_ms=3600000 step_ms=360000 level_down=1 worse_mornings=1 most_ms=4680000"
    " most_of_ms=3600000 down_from_ms=3600000" },
  { { "a rest day", "gcc", 3 },
    " rest-day day before_ms=3600000 discomfort=3 stop_above=5 after-two-cuts no_practice=1"
    " asks_cautions=1 kept_ms=3600000 needed=3 first_dose_ms=3600000 level_ms=3600000"
    " level_before_ms=3600000 step_ms=360000 straight_back=1 full_day=1 worse_mornings=2 most_ms=4680000"
    " most_of_ms=3600000" },
  { { "a rest day's caution", "gr", 3 },
    " rest-day day before_ms=3600000 discomfort=3 stop_above=5 after-rest-day no_practice=1"
    " opens_caution=1 asks_cautions=1 kept_ms=3600000 needed=3 first_dose_ms=3600000 level_ms=3600000"
    " level_before_ms=3600000 step_ms=360000 straight_back=1 worse_mornings=1 most_ms=4680000"
    " most_of_ms=3600000" },
  { { "over 72 h", "g.....", 3 },
    " keep-no-practice day before_ms=3600000 after_ms=3600000 discomfort=3 stop_above=5 waking-up"
    " asks_cautions=1 kept_ms=3600000 needed=3 first_dose_ms=3600000 level_ms=3600000"
    " level_before_ms=3600000 step_ms=360000 straight_back=1 most_ms=4680000 most_of_ms=3600000" },
  { { "another load", "g", 3, .other_load = true },
    " keep-other-load day before_ms=3600000 after_ms=3600000 discomfort=3 stop_above=5 other-load"
    " kept_ms=3600000 needed=3 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000"
    " step_ms=360000 straight_back=1 full_day=1 most_ms=4680000 most_of_ms=3600000" },
  { { "a week off", "g......", 0 },
    " after-time-off day before_ms=3600000 after_ms=3240000 discomfort=0 stop_above=5 kept_ms=3240000"
    " days=7 needed=3 weeks=1 first_dose_ms=3600000 level_ms=3240000 level_before_ms=3600000"
    " step_ms=360000 straight_back=1 most_ms=4680000 most_of_ms=3600000" },
  { { "two weeks off", "g.............", 0 },
    " after-time-off day before_ms=3600000 after_ms=2880000 discomfort=0 stop_above=5 kept_ms=2880000"
    " days=14 needed=3 weeks=2 first_dose_ms=3600000 level_ms=2880000 level_before_ms=3600000"
    " step_ms=360000 straight_back=1 most_ms=4680000 most_of_ms=3600000" },
  { { "the step taken back", "0g#7,1g#7", 0, .level_days_ago = 7, .before_step_min = 54 },
    " take-back day before_ms=3600000 after_ms=3240000 discomfort=0 stop_above=5 step-answered"
    " kept_ms=3240000 needed=3 mean_pct=100 mean_before_pct=0 first_dose_ms=3600000 level_ms=3240000"
    " level_before_ms=3600000 step_ms=360000 level_down=1 straight_back=1 full_day=1 most_ms=4680000"
    " most_of_ms=3600000 down_from_ms=3600000 level_days=7" },
  { { "a week's ratings", "0g#7,1g#7", 0 },
    " keep-week day before_ms=3600000 after_ms=3600000 discomfort=0 stop_above=5 week-rising"
    " kept_ms=3600000 needed=3 mean_pct=100 mean_before_pct=0 first_dose_ms=3600000 level_ms=3600000"
    " level_before_ms=3600000 step_ms=360000 straight_back=1 full_day=1 most_ms=4680000 most_of_ms=3600000" },
  { { "two weeks'", "0g#7,1g#7,2g#7", 0 },
    " keep-week day before_ms=3600000 discomfort=0 stop_above=5 two-weeks-rising no_practice=1"
    " opens_caution=1 kept_ms=3600000 needed=3 mean_pct=200 mean_before_pct=100 first_dose_ms=3600000"
    " level_ms=3600000 level_before_ms=3600000 step_ms=360000 straight_back=1 full_day=1 most_ms=4680000"
    " most_of_ms=3600000" },
  { { "silence", "gs#12", -2 },
    " no-answers day before_ms=3600000 after_ms=3240000 stop_above=5 no-answers kept_ms=3240000 days=12"
    " needed=1 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000 full_day=1"
    " most_ms=4680000 most_of_ms=3600000" },
  { { "silence, nothing left", "gs#12", -2, .changed_days_ago = 12, .dose_min = 39, .level_min = 60 },
    " keep day before_ms=2340000 after_ms=2340000 stop_above=5 no-answers kept_ms=2340000 days=12 needed=1"
    " first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000 straight_back=1"
    " full_day=1 most_ms=4680000 most_of_ms=3600000" },
  { { "the way back", "gc~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .long_way = true },
    " way-back day before_ms=2340000 after_ms=2700000 discomfort=0 stop_above=5 settled-days"
    " kept_ms=2700000 days=1 needed=1 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000"
    " step_ms=360000 worse_mornings=1 most_ms=3840000 most_of_ms=2970000" },
  { { "the way back, slow", "gc~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .long_way = true, .slow = true },
    " keep day before_ms=2340000 after_ms=2340000 discomfort=0 stop_above=5 kept_ms=2340000 days=1"
    " needed=2 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000"
    " worse_mornings=1 most_ms=3840000 most_of_ms=2970000" },
  { { "without a check for long", "gx#7", -2, .dose_min = 39, .level_min = 60, .changed_days_ago = 7, .long_way = true },
    " way-back day before_ms=2340000 after_ms=2700000 stop_above=5 no-check-for-long kept_ms=2700000"
    " days=7 needed=1 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000"
    " full_day=1 most_ms=4680000 most_of_ms=3600000" },
  { { "under the level, two settled days that lead nowhere", "g=30c=30g=30", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 2 },
    " keep day before_ms=2340000 after_ms=2340000 discomfort=0 stop_above=5 most kept_ms=2340000 days=2"
    " needed=1 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000"
    " straight_back=1 full_day=1 worse_mornings=1 most_ms=2340000 most_of_ms=1800000" },
  { { "mornings up", "g^0#4g^1#3g^0#2", 0 },
    " keep day before_ms=3600000 after_ms=3600000 discomfort=0 stop_above=5 mornings-up kept_ms=3600000"
    " days=9 needed=3 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000"
    " straight_back=1 full_day=1 most_ms=4680000 most_of_ms=3600000 wakings_up=3" },
  { { "step-up-by 0 %", "ggg", 0, .step_pct = -1 },
    " keep day before_ms=3600000 after_ms=3600000 discomfort=0 stop_above=5 kept_ms=3600000 days=3"
    " first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000 straight_back=1"
    " full_day=1 most_ms=4680000 most_of_ms=3600000" },
  { { "step-up-by 0 %, under the level", "ct~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .step_pct = -1 },
    " keep day before_ms=2340000 after_ms=2340000 discomfort=0 stop_above=5 kept_ms=2340000 needed=1"
    " first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000 straight_back=1"
    " most_ms=3840000 most_of_ms=2970000 tightened" },
  { { "mornings above usual", "g^2#13", 1, .usual = 1 },
    " keep day before_ms=3600000 after_ms=3600000 discomfort=1 usual=1 stop_above=5 kept_ms=3600000 days=1"
    " needed=3 mean_pct=0 mean_before_pct=0 first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000"
    " step_ms=360000 straight_back=1 full_day=1 worse_mornings=12 most_ms=4680000 most_of_ms=3600000"
    " wakings_up=5 mornings_say=2" },
  { { "mornings of 10", "g^10#13", 10, .usual = 9 },
    " cut day before_ms=3600000 discomfort=10 usual=9 stop_above=5 waking-above-stop no_practice=1"
    " opens_caution=1 kept_ms=2340000 done_ms=3600000 shorten_to=6500 needed=2 first_dose_ms=3600000"
    " level_ms=3060000 level_before_ms=3600000 step_ms=360000 level_down=1 full_day=1 worse_mornings=12"
    " most_ms=4680000 most_of_ms=3600000 down_from_ms=3600000 mornings_say=10" },
  { { "a check skipped", "ggg", -1 },
    " keep day before_ms=3600000 after_ms=3600000 stop_above=5 no-check kept_ms=3600000 needed=3"
    " first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000 straight_back=1"
    " full_day=1 most_ms=4680000 most_of_ms=3600000" },
  { { "at most", "ggg", 0, .dose_min = 90 },
    " keep day before_ms=5400000 after_ms=5400000 discomfort=0 stop_above=5 at-most kept_ms=5400000 days=3"
    " needed=3 first_dose_ms=3600000 level_ms=5400000 level_before_ms=5400000 step_ms=360000"
    " straight_back=1 most_ms=4680000 most_of_ms=3600000" },
  { { "two weeks' ratings, under the level", "0g#7,1g#7,2g#7", 0, .dose_min = 39, .level_min = 60 },
    " keep-week day before_ms=2340000 discomfort=0 stop_above=5 two-weeks-rising no_practice=1"
    " opens_caution=1 kept_ms=2340000 needed=2 mean_pct=200 mean_before_pct=100 first_dose_ms=3600000"
    " level_ms=3600000 level_before_ms=3600000 step_ms=360000 full_day=1 most_ms=4680000"
    " most_of_ms=3600000" },
  { { "a rest day under the level", "gc~39c~39", 3, .dose_min = 39, .level_min = 60 },
    " rest-day day before_ms=2340000 discomfort=3 stop_above=5 after-two-cuts no_practice=1"
    " asks_cautions=1 kept_ms=2340000 needed=2 first_dose_ms=3600000 level_ms=3600000"
    " level_before_ms=3600000 step_ms=360000 worse_mornings=1 most_ms=3540000 most_of_ms=2760000" },
  { { "down again", "3g", 3, .down_days_ago = 5 },
    " cut day before_ms=3600000 after_ms=2340000 discomfort=3 earlier=3 stop_above=5 badly-rated"
    " kept_ms=2340000 done_ms=3600000 shorten_to=6500 needed=1 first_dose_ms=3600000 level_ms=3060000"
    " level_before_ms=3600000 step_ms=360000 level_down=1 full_day=1 worse_mornings=1 most_ms=4680000"
    " most_of_ms=3600000 down_from_ms=3600000" },
  { { "at the level, no check for long", "gx#7", -2 },
    " keep day before_ms=3600000 after_ms=3600000 stop_above=5 no-check kept_ms=3600000 needed=3"
    " first_dose_ms=3600000 level_ms=3600000 level_before_ms=3600000 step_ms=360000 straight_back=1"
    " full_day=1 most_ms=4680000 most_of_ms=3600000" },
};

static void
write_told (const CarpaceDecision *d, char *ret_text, size_t size)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_DECISION, .decision = *d };
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry.kind, &n);
  size_t used = 0;

  ret_text[0] = '\0';
  for (int32_t i = 0; i < n; i++)
    {
      int64_t number = carpace_field_get (&field[i], &entry);
      if (field[i].type == CARPACE_FIELD_WORD && number != 0)
        used += (size_t) snprintf (ret_text + used, size - used, " %s", carpace_name (field[i].words, (int32_t) number));
      else if (number != (field[i].type == CARPACE_FIELD_MAYBE ? -1 : 0))
        used += (size_t) snprintf (ret_text + used, size - used, " %s=%lld", field[i].name, (long long) number);
    }
}

static void
test_what_decisions_tell (void **state)
{
  CarpacePlan plan;
  CarpaceHistory h;
  int failed = 0;

  for (size_t i = 0; i < sizeof told_rows / sizeof told_rows[0]; i++)
    {
      const Row *row = &told_rows[i].row;
      CarpaceMorning check = check_of (row);
      CarpaceDecision d;
      char told[800];

      carpace_trace_plan (&plan, 2, 30);
      plan.at_most_ms = 90 * MIN;
      plan.usual_discomfort = row->usual;
      plan.step_up_by = row->step_pct < 0 ? 0 : plan.step_up_by;
      carpace_history_init (&h);
      carpace_dose_use_plan (&h, &plan, TODAY);
      set_marks (&h, row);
      memset (&d, 0x5a, sizeof d);
      carpace_dose_decide (&h, &plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, row->waking == -2 ? NULL : &check, &d);
      write_told (&d, told, sizeof told);
      if (strcmp (told, told_rows[i].told) == 0)
        continue;
      print_error ("%s:%s\n", row->name, told);
      failed++;
    }
  assert_int_equal (failed, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_what_decisions_tell),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
