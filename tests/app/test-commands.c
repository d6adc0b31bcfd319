/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-commands.c: every command's words, good and bad. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "../core/random-fields.h"
#include "app/commands.h"
#include "carpace/event-kinds.h"

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
      assert_int_equal (event.rate.discomfort, rows[i].discomfort);
      assert_int_equal (event.rate.site, rows[i].site);
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
    { "morning 3 --site elbow", { .waking = 3, .now = -1, .site = CARPACE_SITE_ELBOW } },
    { "morning --site=palm-side --now 2", { .waking = -1, .now = 2, .site = CARPACE_SITE_PALM_SIDE } },
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
      assert_int_equal (event.morning.site, m->site);
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
      assert_int_equal (event.caution.answer, rows[i].answer);
      assert_int_equal (event.caution.signs, rows[i].signs);
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
    { "morning 2 --site", CARPACE_WORDING_MISSING, 3 },
    { "morning 2 --site palm", CARPACE_WORDING_NOT_OF_SET, 3, CARPACE_WORDS_SITE },
    { "morning 2 --site neck --site elbow", CARPACE_WORDING_TWICE, 4 },
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

/* @event in the words that tell it. */
static int
say_closing (const CarpaceClosing *closing, char *line, size_t bytes)
{
  char date[CARPACE_DAY_BYTES];
  int n = 0;

  carpace_day_write (closing->on, date);
  if (closing->by != CARPACE_SEEN_BY_UNSAID)
    n += snprintf (line + n, bytes - n, " --by %s", carpace_name (CARPACE_WORDS_SEEN_BY, closing->by));
  if (closing->on != 0)
    n += snprintf (line + n, bytes - n, " --on=%s", date);
  if (closing->dose_ms != 0)
    n += snprintf (line + n, bytes - n, " --dose %llds", (long long) (closing->dose_ms / 1000));
  return n;
}

static void
say (const CarpaceEvent *event, char *line, size_t bytes)
{
  const CarpaceMorning *m = &event->morning;
  int n = snprintf (line, bytes, "%s", carpace_event_kinds[event->kind].script);

  if (event->kind == CARPACE_EVENT_START_MATCH)
    n += snprintf (line + n, bytes - n, " match");
  if (event->kind == CARPACE_EVENT_ON_AIR || event->kind == CARPACE_EVENT_OFF_AIR)
    n += snprintf (line + n, bytes - n, event->kind == CARPACE_EVENT_ON_AIR ? " on" : " off");
  if (event->kind == CARPACE_EVENT_RATE)
    n += snprintf (line + n, bytes - n, " %d %s", (int) event->rate.discomfort, carpace_name (CARPACE_WORDS_SITE, event->rate.site));
  if (event->kind == CARPACE_EVENT_MORNING && m->waking >= 0)
    n += snprintf (line + n, bytes - n, " %d", (int) m->waking);
  if (event->kind == CARPACE_EVENT_MORNING && m->stiffness != CARPACE_STIFFNESS_UNSAID)
    n += snprintf (line + n, bytes - n, " %s", carpace_name (CARPACE_WORDS_STIFFNESS, m->stiffness));
  if (event->kind == CARPACE_EVENT_MORNING && m->now >= 0)
    n += snprintf (line + n, bytes - n, " --now %d", (int) m->now);
  if (event->kind == CARPACE_EVENT_MORNING)
    n += snprintf (line + n, bytes - n, "%s%s", m->other_load ? " --other-load" : "", m->pain_relief ? " --pain-relief" : "");
  if (event->kind == CARPACE_EVENT_MORNING && m->site != CARPACE_SITE_NONE)
    n += snprintf (line + n, bytes - n, " --site %s", carpace_name (CARPACE_WORDS_SITE, m->site));
  if (event->kind == CARPACE_EVENT_CAUTION && event->caution.answer >= CARPACE_CAUTION_SEEN)
    n += snprintf (line + n, bytes - n, " %s", carpace_name (CARPACE_WORDS_CAUTION_ANSWER, event->caution.answer));
  if (event->kind == CARPACE_EVENT_CAUTION)
    n += say_closing (&event->caution.closing, line + n, bytes - n);
  if (event->kind == CARPACE_EVENT_CAUTION && event->caution.answer == CARPACE_CAUTION_SIGNS && event->caution.signs == 0)
    n += snprintf (line + n, bytes - n, " none");
  for (int sign = 0; event->kind == CARPACE_EVENT_CAUTION && sign < CARPACE_N_SIGNS; sign++)
    if (event->caution.signs & UINT32_C (1) << sign)
      n += snprintf (line + n, bytes - n, " %s", carpace_name (CARPACE_WORDS_SIGN, sign));
}

/* Only answers have signs, only who has seen one says so; a rating has a number. */
static void
make_sayable (CarpaceEvent *event)
{
  CarpaceClosing *closing = &event->caution.closing;

  if (event->kind == CARPACE_EVENT_CAUTION && event->caution.answer != CARPACE_CAUTION_SEEN)
    *closing = (CarpaceClosing){ .by = CARPACE_SEEN_BY_UNSAID };
  else if (event->kind == CARPACE_EVENT_CAUTION)
    {
      closing->on = closing->on % 100000; /* years that are written with four digits */
      closing->dose_ms = closing->dose_ms % 420 * CARPACE_MINUTE_MS;
    }
  if (event->kind == CARPACE_EVENT_CAUTION && event->caution.answer != CARPACE_CAUTION_SIGNS)
    event->caution.signs = 0;
  if (event->kind == CARPACE_EVENT_RATE && event->rate.discomfort < 0)
    event->rate.discomfort = 0;
}

static void
who_has_seen_it (void **state)
{
  static const struct { const char *line; CarpaceWordingFault fault; int at; } rows[] = {
    { "caution seen --by friend", CARPACE_WORDING_NOT_OF_SET, 3 },
    { "caution seen --by unsaid", CARPACE_WORDING_NOT_OF_SET, 3 },
    { "caution seen --by", CARPACE_WORDING_MISSING, 3 },
    { "caution seen --by doctor --by doctor", CARPACE_WORDING_TWICE, 4 },
    { "caution seen --on yesterday", CARPACE_WORDING_NOT_A_DATE, 3 },
    { "caution seen --dose 20", CARPACE_WORDING_NOT_A_DOSE, 3 },
    { "caution seen --dose 59s", CARPACE_WORDING_NOT_A_DOSE, 3 },
    { "caution seen --dose 60s", CARPACE_WORDING_OK, 0 },
    { "caution seen --dose 480min", CARPACE_WORDING_OK, 0 },
    { "caution seen --dose 481min", CARPACE_WORDING_NOT_A_DOSE, 3 },
    { "caution gone --by doctor", CARPACE_WORDING_NOT_OPTION, 2 },
    { "caution seen twice", CARPACE_WORDING_TOO_MANY, 2 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceEvent event;
      CarpaceWording wording = { .fault = CARPACE_WORDING_OK };
      bool good = read_line (rows[i].line, &event, &wording);
      print_message ("%s\n", rows[i].line);
      assert_int_equal (good, rows[i].fault == CARPACE_WORDING_OK);
      assert_int_equal (wording.fault, rows[i].fault);
      assert_int_equal (wording.at, rows[i].at);
    }
}

/* Every kind with a script's word, with any values that there can be. */
static void
each_event_comes_back_from_words (void **state)
{
  Random random = { 11 };
  int said = 0;

  for (int round = 0; round < 200 * CARPACE_N_EVENTS; round++)
    {
      CarpaceEvent told, read;
      CarpaceWording wording;
      char line[256];
      int32_t n;
      const CarpaceField *field = carpace_event_fields (round % CARPACE_N_EVENTS, &n);

      carpace_event_init (&told, round % CARPACE_N_EVENTS);
      if (carpace_event_kinds[told.kind].script == NULL)
        continue;
      random_fields (&random, field, n, &told);
      make_sayable (&told);
      if (carpace_event_kinds[told.kind].says == CARPACE_SAYS_FACT)
        told.fact.uncounted = false; /* no word for it: a setting says so */
      if (carpace_event_kinds[told.kind].taken == CARPACE_TAKEN_AS_FACT)
        {
          char count[32];
          const char *const words[] = { carpace_event_kinds[told.kind].script, count };
          bool counts = told.kind == CARPACE_EVENT_CLICKS;

          snprintf (count, sizeof count, "%d", (int) told.clicks.count);
          if (counts)
            told.clicks.from_ms = 0; /* no word for it: a script's are since the last */
          assert_true (carpace_fact_read (counts ? 2 : 1, words, told.fact.since_ms, &read, &wording));
        }
      else
        {
          say (&told, line, sizeof line);
          if (!read_line (line, &read, &wording))
            fail_msg ("“%s” is not understood", line);
        }
      if (!carpace_event_equal (&told, &read))
        fail_msg ("%s: not what was said", carpace_name (CARPACE_WORDS_EVENT, told.kind));
      said++;
    }
  assert_int_equal (said, 200 * (CARPACE_N_EVENTS - 3)); /* a deadline, an opening, an intermission have no word */
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
    cmocka_unit_test (who_has_seen_it),
    cmocka_unit_test (each_event_comes_back_from_words),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
