/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-commands.c: every command's words, good and bad. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "app/commands.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))
#define SIGN(sign) (UINT32_C (1) << CARPACE_SIGN_ ## sign)

static int
split (char *line, const char **words)
{
  int n = 0;
  for (char *word = strtok (line, " "); word; word = strtok (NULL, " "))
    words[n++] = word;
  return n;
}

static bool
read_line (const char *line, CarpaceEvent *event, CarpaceWording *wording)
{
  static char copy[256];
  const char *words[32];
  snprintf (copy, sizeof copy, "%s", line);
  return carpace_command_read (split (copy, words), words, event, wording);
}

static void
events_of_words (void **state)
{
  static const struct { const char *line; CarpaceEventKind kind; int32_t discomfort; CarpaceSite site; } rows[] = {
    { .line = "start", .kind = CARPACE_EVENT_START },
    { .line = "start --match", .kind = CARPACE_EVENT_START_MATCH },
    { .line = "start match", .kind = CARPACE_EVENT_START_MATCH },
    { .line = "end", .kind = CARPACE_EVENT_END },
    { .line = "pause", .kind = CARPACE_EVENT_PAUSE },
    { .line = "continue", .kind = CARPACE_EVENT_CONTINUE },
    { .line = "rest", .kind = CARPACE_EVENT_REST },
    { .line = "after-run", .kind = CARPACE_EVENT_AFTER_RUN },
    { .line = "play-on", .kind = CARPACE_EVENT_PLAY_ON },
    { .line = "rate 0", .kind = CARPACE_EVENT_RATE },
    { .line = "rate 10", .kind = CARPACE_EVENT_RATE, .discomfort = 10 },
    { .line = "rate 2 palm-side", .kind = CARPACE_EVENT_RATE, .discomfort = 2, .site = CARPACE_SITE_PALM_SIDE },
    { .line = "rate 2 none", .kind = CARPACE_EVENT_RATE, .discomfort = 2 },
    { .line = "on-air on", .kind = CARPACE_EVENT_ON_AIR },
    { .line = "on-air off", .kind = CARPACE_EVENT_OFF_AIR },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceEvent event;
      CarpaceWording wording;
      print_message ("%s\n", rows[i].line);
      assert_true (read_line (rows[i].line, &event, &wording));
      assert_int_equal (event.kind, rows[i].kind);
      assert_int_equal (event.discomfort, rows[i].discomfort);
      assert_int_equal (event.site, rows[i].site);
    }
}

static void
mornings (void **state)
{
  static const struct { const char *line; CarpaceMorning morning; } rows[] = {
    { "morning", { .waking = -1, .now = -1 } },
    { "morning 1", { .waking = 1, .now = -1 } },
    { "morning usual", { .waking = -1, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 } },
    { "morning 0 less", { .waking = 0, .stiffness = CARPACE_STIFFNESS_LESS, .now = -1 } },
    { "morning 10 more --now 2 --other-load --pain-relief",
      { .waking = 10, .stiffness = CARPACE_STIFFNESS_MORE, .now = 2, .other_load = true, .pain_relief = true } },
    { "morning --now=0", { .waking = -1, .now = 0 } },
    { "morning --pain-relief usual 3", { .waking = 3, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1, .pain_relief = true } },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceEvent event;
      CarpaceWording wording;
      const CarpaceMorning *m = &rows[i].morning;
      print_message ("%s\n", rows[i].line);
      assert_true (read_line (rows[i].line, &event, &wording));
      assert_int_equal (event.kind, CARPACE_EVENT_MORNING);
      assert_int_equal (event.morning.waking, m->waking);
      assert_int_equal (event.morning.stiffness, m->stiffness);
      assert_int_equal (event.morning.now, m->now);
      assert_int_equal (event.morning.other_load, m->other_load);
      assert_int_equal (event.morning.pain_relief, m->pain_relief);
    }
}

static void
cautions (void **state)
{
  static const struct { const char *line; CarpaceCautionAnswer answer; uint32_t signs; } rows[] = {
    { "caution", CARPACE_CAUTION_ASK, 0 },
    { "caution none", CARPACE_CAUTION_SIGNS, 0 },
    { "caution seen", CARPACE_CAUTION_SEEN, 0 },
    { "caution gone", CARPACE_CAUTION_GONE, 0 },
    { "caution numb", CARPACE_CAUTION_SIGNS, SIGN (NUMB) },
    { "caution numb night-pain numb", CARPACE_CAUTION_SIGNS, SIGN (NUMB) | SIGN (NIGHT_PAIN) },
    { "caution injury not-better", CARPACE_CAUTION_SIGNS, SIGN (INJURY) | SIGN (NOT_BETTER) },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceEvent event;
      CarpaceWording wording;
      print_message ("%s\n", rows[i].line);
      assert_true (read_line (rows[i].line, &event, &wording));
      assert_int_equal (event.kind, CARPACE_EVENT_CAUTION);
      assert_int_equal (event.caution, rows[i].answer);
      assert_int_equal (event.signs, rows[i].signs);
    }
}

static void
words_not_understood (void **state)
{
  static const struct { const char *line; CarpaceWordingFault fault; int at; CarpaceWords set; } rows[] = {
    { "", CARPACE_WORDING_MISSING, 0 },
    { "stop", CARPACE_WORDING_UNKNOWN, 0 },
    { "Start", CARPACE_WORDING_UNKNOWN, 0 },
    { "start-match", CARPACE_WORDING_UNKNOWN, 0 },
    { "deadline", CARPACE_WORDING_UNKNOWN, 0 },
    { "input", CARPACE_WORDING_UNKNOWN, 0 },
    { "start now", CARPACE_WORDING_TOO_MANY, 1 },
    { "start --now", CARPACE_WORDING_NOT_OPTION, 1 },
    { "start match match", CARPACE_WORDING_TOO_MANY, 2 },
    { "end it", CARPACE_WORDING_TOO_MANY, 1 },
    { "rate", CARPACE_WORDING_MISSING, 1 },
    { "rate 11", CARPACE_WORDING_NOT_A_RATING, 1 },
    { "rate -1", CARPACE_WORDING_NOT_A_RATING, 1 },
    { "rate 3.5", CARPACE_WORDING_NOT_A_RATING, 1 },
    { "rate 03", CARPACE_WORDING_NOT_A_RATING, 1 },
    { "rate 99999999999999999999", CARPACE_WORDING_NOT_A_RATING, 1 },
    { "rate 2 palm", CARPACE_WORDING_NOT_OF_SET, 2, CARPACE_WORDS_SITE },
    { "rate 2 palm-side neck", CARPACE_WORDING_TOO_MANY, 3 },
    { "morning 11", CARPACE_WORDING_NOT_A_RATING, 1 },
    { "morning -1", CARPACE_WORDING_NOT_A_RATING, 1 },
    { "morning 1 2", CARPACE_WORDING_TWICE, 2 },
    { "morning stiff", CARPACE_WORDING_NOT_OF_SET, 1, CARPACE_WORDS_STIFFNESS },
    { "morning unsaid", CARPACE_WORDING_NOT_OF_SET, 1, CARPACE_WORDS_STIFFNESS },
    { "morning less more", CARPACE_WORDING_TWICE, 2 },
    { "morning --now", CARPACE_WORDING_MISSING, 2 },
    { "morning --now x", CARPACE_WORDING_NOT_A_RATING, 2 },
    { "morning --now=", CARPACE_WORDING_NOT_A_RATING, 1 },
    { "morning --now 1 --now 2", CARPACE_WORDING_TWICE, 3 },
    { "morning --nowhere", CARPACE_WORDING_NOT_OPTION, 1 },
    { "morning --other-load --other-load", CARPACE_WORDING_TWICE, 2 },
    { "caution pain", CARPACE_WORDING_NOT_OF_SET, 1, CARPACE_WORDS_SIGN },
    { "caution numb gone", CARPACE_WORDING_NOT_OF_SET, 2, CARPACE_WORDS_SIGN },
    { "caution none numb", CARPACE_WORDING_TOO_MANY, 2 },
    { "on-air", CARPACE_WORDING_MISSING, 1 },
    { "on-air yes", CARPACE_WORDING_NOT_ON_OFF, 1 },
    { "on-air on off", CARPACE_WORDING_TOO_MANY, 2 },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceEvent event = { .kind = CARPACE_N_EVENTS };
      CarpaceWording wording;
      print_message ("'%s'\n", rows[i].line);
      assert_false (read_line (rows[i].line, &event, &wording));
      assert_int_equal (event.kind, CARPACE_N_EVENTS);
      assert_int_equal (wording.fault, rows[i].fault);
      assert_int_equal (wording.at, rows[i].at);
      if (wording.fault == CARPACE_WORDING_NOT_OF_SET)
        assert_int_equal (wording.set, rows[i].set);
    }
}

static void
each_command_word_is_known (void **state)
{
  int n = 0;
  for (const char *word; (word = carpace_command_word (n)); n++)
    {
      CarpaceEvent event;
      CarpaceWording wording = { .fault = CARPACE_WORDING_OK };
      if (!carpace_command_read (1, &word, &event, &wording))
        assert_int_equal (wording.fault, CARPACE_WORDING_MISSING);
    }
  assert_int_equal (n, 11);
  assert_null (carpace_command_word (-1));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (events_of_words),
    cmocka_unit_test (mornings),
    cmocka_unit_test (cautions),
    cmocka_unit_test (words_not_understood),
    cmocka_unit_test (each_command_word_is_known),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
