/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-caution-behind.c: which caution a day's dose comes of, or ends by. A day is a letter for
 * what was recorded on it, in order: `c` a caution closed, `o` one opened by a decision, `s` by signs,
 * `n` none of them, `d` a dose decided for the day, `b` a decision about a block, `.` nothing. */
#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/diary.h"

#define FIRST_DAY 20000

typedef struct
{
  const char *days; /* a space between days */
  bool unreadable;
  CarpaceDay since, until;
  uint32_t kinds;
} Diary;

static bool
records_of (void *self, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceRecordVisitor visit, void *user)
{
  Diary *diary = self;
  CarpaceDay day = FIRST_DAY;

  diary->since = since;
  diary->until = until;
  diary->kinds = kinds;
  for (const char *at = diary->days; *at != '\0' && !diary->unreadable; at++)
    {
      CarpaceRecord record = { .id = 1 + (at - diary->days), .day = day };

      day += *at == ' ';
      if (strchr ("cosn", *at) != NULL)
        {
          record.entry.kind = CARPACE_ENTRY_CAUTION;
          record.entry.caution.what = *at == 'c'   ? CARPACE_CAUTION_CLOSED
                                      : *at == 'n' ? CARPACE_CAUTION_WAS_NONE
                                                   : CARPACE_CAUTION_OPENED;
          record.entry.caution.signs = *at != 'o' ? 1u << CARPACE_SIGN_NUMB : 0;
          record.entry.caution.after_ms = record.id;
        }
      else if (strchr ("db", *at) != NULL)
        {
          record.entry.kind = CARPACE_ENTRY_DECISION;
          record.entry.decision.scope = *at == 'd' ? CARPACE_SCOPE_DAY : CARPACE_SCOPE_BLOCK;
        }
      else
        continue;
      if (record.day >= since && record.day <= until && (CARPACE_KIND (record.entry.kind) & kinds) != 0
          && !visit (user, &record))
        break;
    }
  return !diary->unreadable;
}

/* @return the place of the closing in @days, from 1; 0 where there is none */
static int64_t
closing_in (Diary *diary, CarpaceDay day)
{
  const CarpaceDiary read = { .self = diary, .records_of = records_of };
  CarpaceEntry closed = { .kind = CARPACE_N_ENTRIES };

  if (!carpace_caution_behind (&read, day, &closed))
    {
      assert_int_equal (closed.kind, CARPACE_N_ENTRIES); /* nothing was written */
      return 0;
    }
  assert_int_equal (closed.kind, CARPACE_ENTRY_CAUTION);
  return closed.caution.after_ms;
}

static void
the_closing_a_dose_comes_of (void **state)
{
  static const struct { const char *row, *days; int32_t day; int64_t at; } rows[] = {
    { "none", "d d d", 2, 0 },
    { "one that was only opened", "o d", 1, 0 },
    { "closed on the day itself", "d dc", 1, 4 },
    { "closed on it, before it was decided", "d cd", 1, 3 },
    { "closed the day before", "dc d", 1, 2 },
    { "closed days before, without practice between", "dc . . d", 3, 2 },
    { "a day between has taken it up", "dc d d", 2, 0 },
    { "what was decided on its own day has not", "cd . d", 2, 1 },
    { "what was decided about a block has not", "dc b d", 2, 2 },
    { "the last of two", "dc dc d", 2, 5 },
    { "one taken up, then another", "c d c d", 3, 5 },
    { "closed after it", "d d c", 1, 0 },
    { "opened by signs on the day itself", "d ds", 1, 4 },
    { "opened by signs before it was decided", "d sd", 1, 3 },
    { "opened by signs the day before, which this day's decision tells", "ds d", 1, 0 },
    { "opened by signs the day after", "d d s", 1, 0 },
    { "opened by a decision on the day itself, which tells it", "d do", 1, 0 },
    { "none of the signs", "d dn", 1, 0 },
    { "opened by signs, then closed", "d dsc", 1, 5 },
    { "closed, then opened by signs", "dc ds", 1, 5 },
    { "nothing was ever recorded", "", 0, 0 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Diary diary = { .days = rows[i].days };

      print_message ("%s\n", rows[i].row);
      assert_int_equal (closing_in (&diary, FIRST_DAY + rows[i].day), rows[i].at);
    }
}

/* Years of a diary are read for it: no more than two kinds, up to the day. */
static void
no_more_is_read_than_it_takes (void **state)
{
  Diary diary = { .days = "dc d" };

  assert_int_equal (closing_in (&diary, FIRST_DAY + 1), 2);
  assert_int_equal (diary.since, INT32_MIN);
  assert_int_equal (diary.until, FIRST_DAY + 1);
  assert_int_equal (diary.kinds, CARPACE_KIND (CARPACE_ENTRY_DECISION) | CARPACE_KIND (CARPACE_ENTRY_CAUTION));
}

static void
a_diary_that_cannot_be_read (void **state)
{
  Diary diary = { .days = "dc d", .unreadable = true };

  assert_int_equal (closing_in (&diary, FIRST_DAY + 1), 0);
}

/* A day before 1970 is one like others. */
static void
before_the_first_day_there_is (void **state)
{
  Diary diary = { .days = "c" };

  assert_int_equal (closing_in (&diary, -5), 0);
  assert_int_equal (closing_in (&diary, INT32_MIN), 0);
  assert_int_equal (closing_in (&diary, INT32_MAX), 1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_closing_a_dose_comes_of),
    cmocka_unit_test (no_more_is_read_than_it_takes),
    cmocka_unit_test (a_diary_that_cannot_be_read),
    cmocka_unit_test (before_the_first_day_there_is),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
