/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-entries.c: every kind of entry as JSON, key by key, and as a line. */
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "forms/entries-json.h"
#include "text/entries.h"

#define MINUTES(n) ((n) * CARPACE_MINUTE_MS)

static const struct { const char *row; CarpaceEntry entry; const char *json, *text; } rows[] = {
  { "state", { .kind = CARPACE_ENTRY_STATE, .state = CARPACE_STATE_REST_DUE },
    "\"kind\":\"state\",\"state\":\"rest-due\"", "rest due" },
  { "day opened", { .kind = CARPACE_ENTRY_DAY, .day = { .day = 20879, .what = CARPACE_DAY_OPENED, .dose_ms = MINUTES (42) } },
    "\"kind\":\"day\",\"day\":\"2027-03-02\",\"what\":\"opened\",\"dose_ms\":2520000,\"active_ms\":0",
    "Tue 2 Mar 2027: practice time today 42 min" },
  { "day without practice", { .kind = CARPACE_ENTRY_DAY, .day = { .day = 20879, .what = CARPACE_DAY_OPENED } },
    "\"kind\":\"day\",\"day\":\"2027-03-02\",\"what\":\"opened\",\"dose_ms\":0,\"active_ms\":0",
    "Tue 2 Mar 2027: no practice today" },
  { "day done", { .kind = CARPACE_ENTRY_DAY, .day = { .day = 20879, .what = CARPACE_DAY_DONE, .dose_ms = MINUTES (42), .active_ms = MINUTES (40) } },
    "\"kind\":\"day\",\"day\":\"2027-03-02\",\"what\":\"done\",\"dose_ms\":2520000,\"active_ms\":2400000",
    "practice is done for today: 40 min of 42 min" },
  { "block started", { .kind = CARPACE_ENTRY_BLOCK, .block = { .what = CARPACE_BLOCK_STARTED, .number = 1, .limit_ms = MINUTES (30), .after_ms = MINUTES (10), .rest_ms = 30000 } },
    "\"kind\":\"block\",\"what\":\"started\",\"number\":1,\"limit_ms\":1800000,\"after_ms\":600000,\"rest_ms\":30000",
    "block 1 starts: 30 min, rests of 30 s after 10 min" },
  { "block started early, beyond", { .kind = CARPACE_ENTRY_BLOCK, .block = { .what = CARPACE_BLOCK_STARTED, .number = 3, .limit_ms = MINUTES (30), .after_ms = MINUTES (10), .rest_ms = 30000, .early_ms = MINUTES (5), .beyond = true } },
    "\"kind\":\"block\",\"what\":\"started\",\"number\":3,\"limit_ms\":1800000,\"after_ms\":600000,\"rest_ms\":30000,\"early_ms\":300000,\"beyond\":true",
    "block 3 starts: 30 min, rests of 30 s after 10 min, 5 min before its time, beyond the plan" },
  { "block ended", { .kind = CARPACE_ENTRY_BLOCK, .block = { .what = CARPACE_BLOCK_ENDED, .number = 1, .limit_ms = MINUTES (30), .after_ms = MINUTES (10), .rest_ms = 30000, .active_ms = 1880000, .overrun_ms = 80000, .runs = 1 } },
    "\"kind\":\"block\",\"what\":\"ended\",\"number\":1,\"limit_ms\":1800000,\"after_ms\":600000,\"rest_ms\":30000,\"active_ms\":1880000,\"overrun_ms\":80000,\"runs\":1",
    "block 1 ends: 31 min 20 s of 30 min, 1 run; 1 min 20 s over, counted in today's time" },
  { "match started", { .kind = CARPACE_ENTRY_BLOCK, .block = { .what = CARPACE_BLOCK_STARTED, .match = true } },
    "\"kind\":\"block\",\"what\":\"started\",\"number\":null,\"limit_ms\":null,\"after_ms\":null,\"rest_ms\":null,\"match\":true",
    "match starts" },
  { "match ended", { .kind = CARPACE_ENTRY_BLOCK, .block = { .what = CARPACE_BLOCK_ENDED, .match = true, .active_ms = MINUTES (25), .runs = 2 } },
    "\"kind\":\"block\",\"what\":\"ended\",\"number\":null,\"limit_ms\":null,\"after_ms\":null,\"rest_ms\":null,\"match\":true,\"active_ms\":1500000,\"overrun_ms\":0,\"runs\":2",
    "match ends: 25 min, 2 runs" },
  { "block dropped", { .kind = CARPACE_ENTRY_BLOCK, .block = { .what = CARPACE_BLOCK_DROPPED, .number = 2, .limit_ms = MINUTES (30), .after_ms = MINUTES (10), .rest_ms = 30000, .active_ms = 20000 } },
    "\"kind\":\"block\",\"what\":\"dropped\",\"number\":2,\"limit_ms\":1800000,\"after_ms\":600000,\"rest_ms\":30000",
    "block 2 is too short to count as one; its time counts" },
  { "overrun", { .kind = CARPACE_ENTRY_OVERRUN, .overrun = { .block = 2, .ms = 80000 } },
    "\"kind\":\"overrun\",\"block\":2,\"ms\":80000", "1 min 20 s over, counted in today's time" },
  { "micro-rest shown", { .kind = CARPACE_ENTRY_CUE, .cue = { .cue = CARPACE_CUE_MICRO_REST, .what = CARPACE_CUE_SHOWN, .exercise = CARPACE_EXERCISE_HOOK_FIST, .between_drills = true } },
    "\"kind\":\"cue\",\"cue\":\"micro-rest\",\"what\":\"shown\",\"exercise\":\"hook-fist\",\"between_drills\":true",
    "rest offered, before the next drill: Hook fist (Stretch)" },
  { "limit shown", { .kind = CARPACE_ENTRY_CUE, .cue = { .cue = CARPACE_CUE_LIMIT, .what = CARPACE_CUE_SHOWN } },
    "\"kind\":\"cue\",\"cue\":\"limit\",\"what\":\"shown\"", "told: the block's limit is reached" },
  { "withdrawn", { .kind = CARPACE_ENTRY_CUE, .cue = { .cue = CARPACE_CUE_RATING, .what = CARPACE_CUE_WITHDRAWN } },
    "\"kind\":\"cue\",\"cue\":\"rating\",\"what\":\"withdrawn\"", "" },
  { "asked", { .kind = CARPACE_ENTRY_CUE, .cue = { .cue = CARPACE_CUE_NEXT_BLOCK, .what = CARPACE_CUE_ASKED } },
    "\"kind\":\"cue\",\"cue\":\"next-block\",\"what\":\"asked\"", "asked: start before its time? A second start means yes" },
  { "rest", { .kind = CARPACE_ENTRY_REST, .rest = { .what = CARPACE_REST_TAKEN, .length_ms = 30000, .asked = true } },
    "\"kind\":\"rest\",\"what\":\"taken\",\"length_ms\":30000,\"asked\":true", "rest taken, 30 s" },
  { "rating", { .kind = CARPACE_ENTRY_RATING, .rating = { .block = 1, .discomfort = 2, .site = CARPACE_SITE_PALM_SIDE, .corrects = 4 } },
    "\"kind\":\"rating\",\"block\":1,\"discomfort\":2,\"site\":\"palm-side\",\"late\":false,\"corrects\":4",
    "block 1: discomfort 2 (Palm side), given after 4" },
  { "unanswered", { .kind = CARPACE_ENTRY_RATING, .rating = { .block = 2, .discomfort = -1, .corrects = -1 } },
    "\"kind\":\"rating\",\"block\":2,\"discomfort\":null,\"site\":null,\"late\":false,\"corrects\":null", "block 2: not answered" },
  { "late, of a match", { .kind = CARPACE_ENTRY_RATING, .rating = { .block = 0, .discomfort = 0, .late = true, .corrects = -1 } },
    "\"kind\":\"rating\",\"block\":null,\"discomfort\":0,\"site\":null,\"late\":true,\"corrects\":null", "match: discomfort 0, late" },
  { "morning", { .kind = CARPACE_ENTRY_MORNING, .morning = { .waking = 1, .stiffness = CARPACE_STIFFNESS_MORE, .now = -1, .other_load = true } },
    "\"kind\":\"morning\",\"waking\":1,\"stiffness\":\"more\",\"now\":null,\"other_load\":true,\"pain_relief\":false,\"site\":null",
    "morning check: waking 1, stiffness more than usual, now not answered, another unusual load" },
  { "morning with its site", { .kind = CARPACE_ENTRY_MORNING,
                               .morning = { .waking = 2, .stiffness = CARPACE_STIFFNESS_USUAL, .now = 1, .site = CARPACE_SITE_ELBOW } },
    "\"kind\":\"morning\",\"waking\":2,\"stiffness\":\"usual\",\"now\":1,\"other_load\":false,\"pain_relief\":false,\"site\":\"elbow\"",
    "morning check: waking 2, stiffness as usual, now 1, where: Elbow" },
  { "morning skipped", { .kind = CARPACE_ENTRY_MORNING, .morning = { .waking = -1, .now = -1 } },
    "\"kind\":\"morning\",\"waking\":null,\"stiffness\":null,\"now\":null,\"other_load\":false,\"pain_relief\":false,\"site\":null",
    "morning check: waking not answered, stiffness not answered, now not answered" },
  { "decision of a block", { .kind = CARPACE_ENTRY_DECISION, .decision = { .rule = CARPACE_RULE_UP_1, .scope = CARPACE_SCOPE_BLOCK, .before_ms = MINUTES (30), .after_ms = 1530000, .block = 1, .discomfort = 1, .reference = 0, .shorten_to = 8500 } },
    "\"kind\":\"decision\",\"rule\":\"up-1\",\"scope\":\"block\",\"limit_ms_before\":1800000,\"limit_ms\":1530000,\"why\":\"Discomfort 1 after block 1 is up by 1 (compared with 0): a further block is 25 min 30 s instead of 30 min (85 %), with rests closer.\"",
    "Discomfort 1 after block 1 is up by 1 (compared with 0): a further block is 25 min 30 s instead of 30 min (85 %), with rests closer. [up-1]" },
  { "decision of a day", { .kind = CARPACE_ENTRY_DECISION, .decision = { .rule = CARPACE_RULE_KEEP, .scope = CARPACE_SCOPE_DAY, .before_ms = MINUTES (42), .after_ms = MINUTES (42) } },
    "\"kind\":\"decision\",\"rule\":\"keep\",\"scope\":\"day\",\"dose_ms_before\":2520000,\"dose_ms\":2520000,\"level_before_ms\":null,\"level_ms\":null,\"why\":\"There is no reason for a change: practice time stays 42 min.\"",
    "There is no reason for a change: practice time stays 42 min. [keep]" },
  { "caution", { .kind = CARPACE_ENTRY_CAUTION, .caution = { .what = CARPACE_CAUTION_OPENED, .signs = (1u << CARPACE_SIGN_NUMB) | (1u << CARPACE_SIGN_SWOLLEN) } },
    "\"kind\":\"caution\",\"what\":\"opened\",\"signs\":[\"numb\",\"swollen\"]",
    "a caution is open: Numbness, or pins and needles; Swelling" },
  { "caution by a row", { .kind = CARPACE_ENTRY_CAUTION, .caution = { .what = CARPACE_CAUTION_OPENED } },
    "\"kind\":\"caution\",\"what\":\"opened\",\"signs\":[]", "a caution is open" },
  { "clicks", { .kind = CARPACE_ENTRY_CLICKS, .clicks = { .block = 2, .from_ms = 60000, .ms = 60000, .count = 84 } },
    "\"kind\":\"clicks\",\"block\":2,\"from_ms\":60000,\"ms\":60000,\"count\":84", "84 clicks in 1 min" },
  { "one click of a match", { .kind = CARPACE_ENTRY_CLICKS, .clicks = { .ms = 30000, .count = 1 } },
    "\"kind\":\"clicks\",\"block\":null,\"from_ms\":0,\"ms\":30000,\"count\":1", "1 click in 30 s" },
  { "fault", { .kind = CARPACE_ENTRY_FAULT, .fault = { .refusal = CARPACE_REFUSAL_NO_BLOCK, .event = CARPACE_EVENT_END, .state = CARPACE_STATE_WAITING } },
    "\"kind\":\"fault\",\"line\":7,\"message\":\"No block is running; start one first.\"",
    "not taken: No block is running; start one first." },
};

static void
as_rehearsed (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *json = carpace_entry_json (&rows[i].entry, 1250, 7);
      g_autofree char *text = carpace_entry_text (&rows[i].entry);
      g_autofree char *expected = g_strdup_printf ("{\"at_ms\":1250,%s}", rows[i].json);
      print_message ("%s\n", rows[i].row);
      assert_string_equal (json, expected);
      assert_string_equal (text, rows[i].text);
    }
}

static void
as_recorded (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceEntry entry = rows[i].entry;
      assert_true (carpace_instant_read ("2027-03-02T18:00:01.250+01:00", &entry.at));
      g_autofree char *json = carpace_entry_json_dated (&entry);
      GString *expected = g_string_new (NULL);
      g_string_printf (expected, "{\"at\":\"2027-03-02T18:00:01.250+01:00\",%s}", rows[i].json);
      g_string_replace (expected, "\"line\":7", "\"line\":null", 0);
      assert_string_equal (json, expected->str);
      g_string_free (expected, TRUE);
    }
}

static bool
has_row (CarpaceEntryKind kind)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i].entry.kind == kind)
      return true;
  return false;
}

static void
every_kind_has_a_row (void **state)
{
  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    assert_true (has_row ((CarpaceEntryKind) kind));
}

static void
times_of_a_rehearsal (void **state)
{
  static const struct { int64_t at_ms; const char *text; } times[] = {
    { 0, "0:00:00" }, { 1250, "0:00:01.250" }, { 3600000, "1:00:00" }, { INT64_C (360000000) + 59999, "100:00:59.999" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (times); i++)
    {
      g_autofree char *text = carpace_rehearsed_time (times[i].at_ms);
      assert_string_equal (text, times[i].text);
    }
}

static void
the_status_object (void **state)
{
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  CarpaceView view = { .state = CARPACE_STATE_OFF, .day = CARPACE_NO_DAY };
  g_autofree char *off = carpace_view_json (&view);

  assert_string_equal (off, "{\"state\":\"off\",\"plan\":null,\"day\":null,\"block\":null,\"limit_ms\":null,\"active_ms\":null,"
                            "\"remaining_ms\":null,\"after_ms\":null,\"rest_ms\":null,\"dose_ms\":null,\"dose_remaining_ms\":null,"
                            "\"next\":null,\"on_air\":false,\"match\":false,\"diary_kept\":true}");
  strcpy (plan->name, "A \"quoted\" \\ name\n\xff");
  view = (CarpaceView) { .state = CARPACE_STATE_PRACTISING, .plan = plan, .day = 20879, .day_open = true, .block = 2, .blocks = 4,
                         .limit_ms = MINUTES (30), .active_ms = MINUTES (18), .remaining_ms = MINUTES (12), .after_ms = MINUTES (10), .rest_ms = 30000,
                         .dose_ms = MINUTES (60), .dose_remaining_ms = MINUTES (24), .next_known = true, .next_cue = CARPACE_CUE_MICRO_REST,
                         .next_in_ms = MINUTES (2) };
  g_autofree char *running = carpace_view_json (&view);
  assert_string_equal (running, "{\"state\":\"practising\",\"plan\":\"A \\\"quoted\\\" \\\\ name\\u000a\xEF\xBF\xBD\",\"day\":\"2027-03-02\","
                                "\"block\":2,\"limit_ms\":1800000,\"active_ms\":1080000,\"remaining_ms\":720000,\"after_ms\":600000,"
                                "\"rest_ms\":30000,\"dose_ms\":3600000,\"dose_remaining_ms\":1440000,"
                                "\"next\":{\"cue\":\"micro-rest\",\"in_ms\":120000},\"on_air\":false,\"match\":false,\"diary_kept\":true}");
  view.unkept = true;
  g_autofree char *unkept = carpace_view_json (&view);
  assert_true (g_str_has_suffix (unkept, "\"match\":false,\"diary_kept\":false}"));
}

/* The keys of any other moment; of hand, dose and plan no value. */
static void
a_stream_reads_only_that_it_is_one (void **state)
{
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);

  strcpy (plan->name, "after a flare-up");
  for (int at = 0; at < CARPACE_N_STATES; at++)
    {
      CarpaceView view = { .state = (CarpaceState) at, .plan = plan, .day = 20879, .day_open = true, .block = 2, .blocks = 4,
                           .limit_ms = MINUTES (30), .active_ms = MINUTES (18), .remaining_ms = MINUTES (12),
                           .after_ms = MINUTES (10), .rest_ms = 30000, .dose_ms = MINUTES (60),
                           .dose_remaining_ms = MINUTES (24), .next_known = true, .next_cue = CARPACE_CUE_RATING,
                           .match = at % 2, .on_air = true, .unkept = at / 2 % 2 };
      g_autofree char *json = carpace_view_json (&view);

      assert_string_equal (json, "{\"state\":\"on-air\",\"plan\":null,\"day\":\"2027-03-02\",\"block\":null,"
                                 "\"limit_ms\":null,\"active_ms\":null,\"remaining_ms\":null,\"after_ms\":null,"
                                 "\"rest_ms\":null,\"dose_ms\":null,\"dose_remaining_ms\":null,\"next\":null,"
                                 "\"on_air\":true,\"match\":false,\"diary_kept\":null}");
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_stream_reads_only_that_it_is_one),
    cmocka_unit_test (as_rehearsed),
    cmocka_unit_test (as_recorded),
    cmocka_unit_test (every_kind_has_a_row),
    cmocka_unit_test (times_of_a_rehearsal),
    cmocka_unit_test (the_status_object),
  };
  setlocale (LC_ALL, "C.UTF-8");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
