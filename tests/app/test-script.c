/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-script.c: scripts as the manual has them, and everything that is none. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/script.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))

/* Faults as "LINE:KIND:WORD ". */
typedef struct { char text[4096]; } Faults;

static void
visit (void *user, const CarpaceScriptFault *fault)
{
  Faults *faults = user;
  size_t n = strlen (faults->text);

  snprintf (faults->text + n, sizeof faults->text - n, "%d:%d:%s ", (int) fault->line, (int) fault->kind, fault->word);
}

static bool
offset (void *self, const char *name, int64_t wall_ms, int32_t *ret_offset_s)
{
  if (strcmp (name, "Test/Zone") != 0)
    return false;
  *ret_offset_s = 7200;
  return true;
}

static const CarpaceZones zones = { .offset = offset };

static bool
read_text (const char *text, Faults *faults, CarpaceScript *script)
{
  faults->text[0] = '\0';
  return carpace_script_read (text, strlen (text), &zones, visit, faults, script);
}

static void
an_evening (void **state)
{
  static const struct { int64_t at_ms; int32_t line; CarpaceScriptWhat what; CarpaceEventKind event; } expected[] = {
    { 0, 3, CARPACE_SCRIPT_EVENT, CARPACE_EVENT_MORNING },
    { 2000, 4, CARPACE_SCRIPT_EVENT, CARPACE_EVENT_START },
    { 2000, 6, CARPACE_SCRIPT_EVENT, CARPACE_EVENT_INPUT },
    { 62250, 7, CARPACE_SCRIPT_EVENT, CARPACE_EVENT_STILL },
    { 70000, 8, CARPACE_SCRIPT_EVENT, CARPACE_EVENT_REST },
    { 80000, 9, CARPACE_SCRIPT_EVENT, CARPACE_EVENT_SUSPEND },
    { 90000, 10, CARPACE_SCRIPT_EVENT, CARPACE_EVENT_WAKE },
    { 90000, 11, CARPACE_SCRIPT_CLOCK, CARPACE_EVENT_DEADLINE },
    { 90000, 12, CARPACE_SCRIPT_CLOCK, CARPACE_EVENT_DEADLINE },
    { 90000, 13, CARPACE_SCRIPT_ZONE, CARPACE_EVENT_DEADLINE },
    { INT64_C (359999999), 14, CARPACE_SCRIPT_EVENT, CARPACE_EVENT_RATE },
    { INT64_C (360000000), 15, CARPACE_SCRIPT_STOP, CARPACE_EVENT_DEADLINE },
  };
  CarpaceScript script;
  Faults faults;

  assert_true (read_text ("# An evening of K7\n"
                          "at 2027-03-02T17:00:00Z Test/Zone\n"
                          "0:00:00 morning 1 usual\n"
                          "0:00:02 start\r\n"
                          "\n"
                          "  0:00:02\tinput   # begins\n"
                          "0:01:02.250 still\n"
                          "0:01:10 rest\n"
                          "0:01:20 suspend\n"
                          "0:01:30 wake\n"
                          "0:01:30 clock +1:00:00\n"
                          "0:01:30 clock -0:30:00\n"
                          "0:01:30 zone Test/Zone\n"
                          "99:59:59.999 rate 3 neck\n"
                          "100:00:00 stop\n"
                          "# after the end, a comment",
                          &faults, &script));
  assert_string_equal (faults.text, "");
  assert_string_equal (script.zone, "Test/Zone");
  assert_true (script.start.wall_ms == INT64_C (1804006800000));
  assert_int_equal (script.n, COUNT (expected));
  for (size_t i = 0; i < COUNT (expected); i++)
    {
      assert_true (script.line[i].at_ms == expected[i].at_ms);
      assert_int_equal (script.line[i].line, expected[i].line);
      assert_int_equal (script.line[i].what, expected[i].what);
      if (expected[i].what == CARPACE_SCRIPT_EVENT)
        assert_int_equal (script.line[i].event.kind, expected[i].event);
    }
  assert_true (script.line[3].event.fact.since_ms == 62250);
  assert_true (script.line[7].by_ms == CARPACE_HOUR_MS && script.line[8].by_ms == -CARPACE_HOUR_MS / 2);
  assert_string_equal (script.line[9].zone, "Test/Zone");
  carpace_script_clear (&script);
}

static void
nothing_at_all (void **state)
{
  static const char *const texts[] = { "", "\n\n", "# only a comment", "   \t \r\n" };
  for (size_t i = 0; i < COUNT (texts); i++)
    {
      CarpaceScript script;
      Faults faults;
      assert_true (read_text (texts[i], &faults, &script));
      assert_int_equal (script.n, 0);
      assert_string_equal (script.zone, "");
      assert_true (script.start.wall_ms == INT64_C (1804006800000) && script.start.offset_s == 3600);
      carpace_script_clear (&script);
    }
}

#define F(line, kind, word) #line ":" kind ":" word " "
#define NOT_TEXT "1"
#define TOO_MANY "2"
#define NOT_A_TIME "3"
#define GOES_BACK "4"
#define NO_WORD "5"
#define WORDING "6"
#define AT_NOT_FIRST "7"
#define NOT_AN_INSTANT "8"
#define NO_ZONE "9"
#define NOT_A_SHIFT "10"
#define AFTER_STOP "11"

static void
every_fault_with_its_line (void **state)
{
  static const struct { const char *text, *faults; } rows[] = {
    { "start", F (1, NOT_A_TIME, "start") },
    { "0:00 start", F (1, NOT_A_TIME, "0:00") },
    { "00:0:00 start", F (1, NOT_A_TIME, "00:0:00") },
    { "0:60:00 start", F (1, NOT_A_TIME, "0:60:00") },
    { "0:00:60 start", F (1, NOT_A_TIME, "0:00:60") },
    { "0:00:00.5 start", F (1, NOT_A_TIME, "0:00:00.5") },
    { "0:00:00.1234 start", F (1, NOT_A_TIME, "0:00:00.1234") },
    { "-0:00:01 start", F (1, NOT_A_TIME, "-0:00:01") },
    { "99999999999999999999:00:00 start", F (1, NOT_A_TIME, "99999999999999999999:00:00") },
    { "0:00:02 start\n0:00:01 end", F (2, GOES_BACK, "0:00:01") },
    { "0:00:02 start\n0:00:01.999 end\n0:00:02 end", F (2, GOES_BACK, "0:00:01.999") },
    { "0:00:02", F (1, NO_WORD, "") },
    { "0:00:02 strat", F (1, WORDING, "strat") },
    { "0:00:02 rate", F (1, WORDING, "") },
    { "0:00:02 rate 11", F (1, WORDING, "11") },
    { "0:00:02 rate 2 nose", F (1, WORDING, "nose") },
    { "0:00:02 input now", F (1, WORDING, "now") },
    { "0:00:02 clicks", F (1, WORDING, "") },
    { "0:00:02 clicks -1", F (1, WORDING, "-1") },
    { "0:00:02 clicks 1000001", F (1, WORDING, "1000001") },
    { "0:00:02 clicks 99999999999999999999", F (1, WORDING, "99999999999999999999") },
    { "0:00:02 clicks 8 9", F (1, WORDING, "9") },
    { "0:00:02 clicks 8s", F (1, WORDING, "8s") },
    { "0:00:02 stop it", F (1, WORDING, "it") },
    { "0:00:02 quit", F (1, WORDING, "quit") },
    { "0:00:02 deadline", F (1, WORDING, "deadline") },
    { "0:00:02 start\nat 2027-03-02T18:00:00Z", F (2, AT_NOT_FIRST, "at") },
    { "at 2027-03-02T18:00:00Z\nat 2027-03-02T18:00:00Z", F (2, AT_NOT_FIRST, "at") },
    { "at 2027-03-02", F (1, NOT_AN_INSTANT, "2027-03-02") },
    { "at", F (1, NOT_AN_INSTANT, "") },
    { "at 2027-03-02T18:00:00Z Nowhere", F (1, NO_ZONE, "Nowhere") },
    { "0:00:00 zone", F (1, NO_ZONE, "") },
    { "0:00:00 zone ../../etc/passwd", F (1, NO_ZONE, "../../etc/passwd") },
    { "0:00:00 clock 1:00:00", F (1, NOT_A_SHIFT, "1:00:00") },
    { "0:00:00 clock +1:00", F (1, NOT_A_SHIFT, "+1:00") },
    { "0:00:00 clock", F (1, NOT_A_SHIFT, "") },
    { "0:00:00 stop\n0:00:01 start", F (2, AFTER_STOP, "0:00:01") },
    { "0:00:00 start\x01", F (1, NOT_TEXT, "") },
    { "# \xff", F (1, NOT_TEXT, "") },
    { "# \xC0\xAF overlong", F (1, NOT_TEXT, "") },
    { "# \xED\xA0\x80 half a pair", F (1, NOT_TEXT, "") },
    { "# \xF4\x90\x80\x80 past the last", F (1, NOT_TEXT, "") },
    { "# \xE2\x82", F (1, NOT_TEXT, "") },
    { "0:0:0 start\nbad\n0:00:00 rate 99", F (1, NOT_A_TIME, "0:0:0") F (2, NOT_A_TIME, "bad") F (3, WORDING, "99") },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceScript script = { .n = 77 };
      Faults faults;
      print_message ("%s\n", rows[i].text);
      assert_false (read_text (rows[i].text, &faults, &script));
      assert_string_equal (faults.text, rows[i].faults);
      assert_int_equal (script.n, 77);
    }
  /* The numbers above stand for these. */
  assert_int_equal (CARPACE_SCRIPT_NOT_TEXT, 1);
  assert_int_equal (CARPACE_SCRIPT_WORDING, 6);
  assert_int_equal (CARPACE_SCRIPT_AFTER_STOP, 11);
}

static void
zero_bytes_and_size (void **state)
{
  static char large[CARPACE_SCRIPT_BYTES + 1];
  CarpaceScript script;
  Faults faults = { "" };

  assert_false (carpace_script_read ("0:00:00 st\0art", 14, &zones, visit, &faults, &script));
  assert_string_equal (faults.text, F (1, NOT_TEXT, ""));
  memset (large, '\n', sizeof large);
  faults.text[0] = '\0';
  assert_false (carpace_script_read (large, sizeof large, &zones, visit, &faults, &script));
  assert_string_equal (faults.text, F (0, "0", ""));
  assert_true (carpace_script_read (large, sizeof large - 1, &zones, visit, &faults, &script));
  carpace_script_clear (&script);
  memset (large, 'x', sizeof large);
  faults.text[0] = '\0';
  assert_false (carpace_script_read (large, sizeof large - 1, &zones, visit, &faults, &script));
  assert_string_equal (faults.text, F (1, TOO_MANY, ""));
}

static void
no_zones_at_all (void **state)
{
  static const char text[] = "0:00:00 zone Test/Zone";
  CarpaceScript script;
  Faults faults = { "" };

  assert_false (carpace_script_read (text, strlen (text), NULL, visit, &faults, &script));
  assert_string_equal (faults.text, F (1, NO_ZONE, "Test/Zone"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_evening),
    cmocka_unit_test (nothing_at_all),
    cmocka_unit_test (every_fault_with_its_line),
    cmocka_unit_test (zero_bytes_and_size),
    cmocka_unit_test (no_zones_at_all),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
