/* SPDX-License-Identifier: GPL-3.0-or-later */
/* history-text.c: a history as lines of `key number ...`, and back, by one table
 * for both ways. Integers only, no locale.
 *
 * Version 1 had a way back, the dose before the first cut, in the place of the
 * level; its marks stood several on a line. */
#include <stddef.h>
#include <string.h>

#include "carpace/dose.h"
#include "carpace/fields.h"

#define VERSION 2
#define LONGEST_MS (INT64_C (200) * 366 * CARPACE_DAY_MS)
#define MOST (INT64_C (1) << 30)
#define MOST_DIGITS 17 /* more than any number has, and one more of them cannot overflow */

/* The name of a field begins its line; without one it stands on the line of the
 * field before. A line of a later field may be missing. */
#define PLACE(type, member) offsetof (type, member), sizeof (((type *) NULL)->member)
#define FIELD(type, member, key, least, most) \
  { key, CARPACE_FIELD_NUMBER, CARPACE_N_WORDS, least, most, PLACE (type, member), false }

#define MARK(member, key, least, most) FIELD (CarpaceHistory, member, key, least, most)
#define LATER_MARK(member, key, least, most) \
  { key, CARPACE_FIELD_NUMBER, CARPACE_N_WORDS, least, most, PLACE (CarpaceHistory, member), true }
#define MARK_MS(member, key) MARK (member, key, 0, CARPACE_DAY_MS)
#define MARK_DAY(member, key) MARK (member, key, INT32_MIN, INT32_MAX)

static const CarpaceField marks[] = {
  MARK_MS (first_dose_ms, "first-dose"),
  MARK_MS (dose_ms, "dose"),
  MARK_MS (level_ms, "level"),
  MARK_MS (level_before_step_ms, "level-before-step"),
  MARK_MS (down_from_ms, "down-from"),
  MARK_DAY (last_change, "last-change"),
  MARK_DAY (level_change, "level-change"),
  MARK_DAY (last_down, "last-down"),
  MARK_DAY (last_cut, "last-cut"),
  MARK_DAY (last_rest_day, "last-rest-day"),
  MARK_DAY (last_unanswered, "last-unanswered"),
  MARK_DAY (rows_from, "rows-from"),
  MARK (straight_back, "straight-back", 0, 1),
  MARK (slow_return, "slow-return", 0, 1),
  MARK (level_steps_off, "level-steps-off", 0, MOST),
  MARK (caution_open, "caution-open", 0, 1),
  MARK_DAY (caution_since, "caution-since"),
  MARK_DAY (caution_closed, "caution-closed"),
  MARK (caution_signs, "caution-signs", 0, (INT64_C (1) << CARPACE_N_SIGNS) - 1),
  MARK (shown_next, "shown", 0, CARPACE_PLAN_SHOWN),
  MARK (on_air, "on-air", 0, 1),
  LATER_MARK (away, "away", 0, 1),
  LATER_MARK (hand, "hand", CARPACE_HAND_STILL, CARPACE_HAND_PAUSING),
  LATER_MARK (moving_since, "moving-since", -LONGEST_MS, LONGEST_MS),
  LATER_MARK (still_since, "still-since", -LONGEST_MS, LONGEST_MS),
  MARK (caution_shown, "caution-shown", 0, 1),
};

#define OF_DAY(member, key, least, most) FIELD (CarpaceDayRecord, member, key, least, most)
#define DAY_MS(member) OF_DAY (member, NULL, 0, LONGEST_MS)
#define DAY_FLAG(member) OF_DAY (member, NULL, 0, 1)

static const CarpaceField day_fields[] = {
  OF_DAY (day, "day", INT32_MIN, INT32_MAX),
  OF_DAY (dose_ms, NULL, 0, CARPACE_DAY_MS),
  DAY_MS (done_ms),
  DAY_MS (limits_ms),
  DAY_MS (match_ms),
  OF_DAY (other_ms, NULL, -1, LONGEST_MS),
  OF_DAY (last_end_elapsed_ms, NULL, -LONGEST_MS, LONGEST_MS),
  OF_DAY (morning.waking, NULL, -1, 10),
  OF_DAY (morning.stiffness, NULL, 0, CARPACE_N_STIFFNESSES - 1),
  OF_DAY (morning.now, NULL, -1, 10),
  DAY_FLAG (morning.other_load),
  DAY_FLAG (morning.pain_relief),
  OF_DAY (rule, NULL, 0, CARPACE_N_RULES - 1),
  OF_DAY (rating_sum, NULL, 0, MOST),
  OF_DAY (n_ratings, NULL, 0, MOST),
  OF_DAY (highest, NULL, -1, 10),
  DAY_FLAG (no_practice),
  DAY_FLAG (worse),
  DAY_FLAG (above_stop),
  DAY_FLAG (ended_above_stop),
  DAY_FLAG (tightened_2),
  DAY_FLAG (near_stop),
  DAY_FLAG (last_answered),
  DAY_FLAG (beyond),
  DAY_FLAG (cut_for),
};

/* What version 1 kept otherwise. */
typedef struct
{
  CarpaceHistory h;
  int64_t way_back_ms;
  CarpaceDay last_rise;
} Version1;

#define MARK_1(member, key, least, most) FIELD (Version1, member, key, least, most)

static const CarpaceField marks_1[] = {
  MARK_1 (h.first_dose_ms, "dose", 0, CARPACE_DAY_MS),
  MARK_1 (h.dose_ms, NULL, 0, CARPACE_DAY_MS),
  MARK_1 (way_back_ms, NULL, 0, CARPACE_DAY_MS),
  MARK_1 (h.level_steps_off, NULL, 0, MOST),
  MARK_1 (h.slow_return, NULL, 0, 1),
  MARK_1 (h.last_change, "marks", INT32_MIN, INT32_MAX),
  MARK_1 (last_rise, NULL, INT32_MIN, INT32_MAX),
  MARK_1 (h.last_cut, NULL, INT32_MIN, INT32_MAX),
  MARK_1 (h.last_rest_day, NULL, INT32_MIN, INT32_MAX),
  MARK_1 (h.rows_from, NULL, INT32_MIN, INT32_MAX),
  MARK_1 (h.caution_open, "caution", 0, 1),
  MARK_1 (h.caution_since, NULL, INT32_MIN, INT32_MAX),
  MARK_1 (h.caution_closed, NULL, INT32_MIN, INT32_MAX),
  MARK_1 (h.caution_signs, NULL, 0, (INT64_C (1) << CARPACE_N_SIGNS) - 1),
  MARK_1 (h.shown_next, "shown", 0, CARPACE_PLAN_SHOWN),
  { "on-air", CARPACE_FIELD_FLAG, CARPACE_N_WORDS, 0, 1, PLACE (Version1, h.on_air), true },
};

#define COUNT(fields) (sizeof (fields) / sizeof ((fields)[0]))

_Static_assert (sizeof (CarpaceRule) == sizeof (int32_t), "enums are read and written as 32 bits");

typedef struct
{
  char *text;
  size_t size, n;
} Writer;

typedef struct
{
  const char *at;
  bool ok;
} Reader;

static void
put_text (Writer *w, const char *text)
{
  size_t n = strlen (text);

  if (w->n + n < w->size)
    memcpy (w->text + w->n, text, n + 1);
  w->n += n;
}

static void
put_number (Writer *w, int64_t number)
{
  char digits[24] = { 0 };
  char *at = &digits[22];
  uint64_t rest = number < 0 ? 0 - (uint64_t) number : (uint64_t) number;

  do
    *--at = (char) ('0' + rest % 10);
  while ((rest /= 10) > 0);
  if (number < 0)
    *--at = '-';
  put_text (w, " ");
  put_text (w, at);
}

static int64_t
take_number (Reader *r)
{
  bool negative;
  int64_t number = 0;
  int digits = 0;

  if (!r->ok || *r->at != ' ')
    {
      r->ok = false;
      return 0;
    }
  r->at++;
  negative = *r->at == '-';
  r->at += negative;
  for (; *r->at >= '0' && *r->at <= '9' && digits <= MOST_DIGITS; r->at++, digits++)
    number = 10 * number + *r->at - '0';
  r->ok = digits > 0 && digits <= MOST_DIGITS;
  return negative ? -number : number;
}

static int64_t
take_within (Reader *r, int64_t low, int64_t high)
{
  int64_t number = take_number (r);

  if (number < low || number > high)
    r->ok = false;
  return r->ok ? number : low;
}

static void
take_word (Reader *r, const char *word)
{
  size_t n = strlen (word);

  r->ok = r->ok && strncmp (r->at, word, n) == 0;
  r->at += r->ok ? n : 0;
}

static void
put_fields (Writer *w, const CarpaceField *field, size_t n, const void *from)
{
  for (size_t i = 0; i < n; i++)
    {
      if (field[i].name != NULL)
        {
          put_text (w, "\n");
          put_text (w, field[i].name);
        }
      put_number (w, carpace_field_get (&field[i], from));
    }
}

size_t
carpace_history_write (const CarpaceHistory *history, char *ret_text, size_t size)
{
  Writer w = { ret_text, size, 0 };

  if (size > 0)
    ret_text[0] = '\0';
  put_text (&w, "history");
  put_number (&w, VERSION);
  put_fields (&w, marks, COUNT (marks), history);
  for (int32_t i = 0; i < history->n_days; i++)
    put_fields (&w, day_fields, COUNT (day_fields), &history->days[i]);
  put_text (&w, "\n");
  return w.n;
}

static bool
begins_line (const Reader *r, const char *key)
{
  size_t n = strlen (key);

  return r->ok && r->at[0] == '\n' && strncmp (r->at + 1, key, n) == 0 && r->at[1 + n] == ' ';
}

static void
take_fields (Reader *r, const CarpaceField *field, size_t n, void *to)
{
  for (size_t i = 0; i < n && r->ok; i++)
    {
      const char *key = field[i].name;

      if (key != NULL && !begins_line (r, key))
        {
          r->ok = field[i].later;
          continue;
        }
      r->at += key != NULL ? strlen (key) + 1 : 0;
      carpace_field_set (&field[i], to, take_within (r, field[i].least, field[i].most));
    }
}

/* The way back is the level; no dose jumps by it: what was led back in steps is
 * led back in steps. */
static void
take_version_1 (Reader *r, CarpaceHistory *h)
{
  Version1 old = { .h = *h };

  take_fields (r, marks_1, COUNT (marks_1), &old);
  *h = old.h;
  h->level_ms = old.way_back_ms > h->dose_ms ? old.way_back_ms : h->dose_ms;
  h->straight_back = h->level_ms == h->dose_ms;
  h->level_change = old.last_rise;
}

bool
carpace_history_read (const char *text, CarpaceHistory *ret_history)
{
  Reader r = { text, true };
  CarpaceHistory history;
  int64_t version;

  carpace_history_init (&history);
  take_word (&r, "history");
  version = take_within (&r, 1, VERSION);
  if (version == 1)
    take_version_1 (&r, &history);
  else
    take_fields (&r, marks, COUNT (marks), &history);
  while (begins_line (&r, day_fields[0].name))
    {
      CarpaceDayRecord day = { 0 };
      take_fields (&r, day_fields, COUNT (day_fields), &day);
      r.ok = r.ok && history.n_days < CARPACE_HISTORY_DAYS;
      if (r.ok)
        carpace_history_add (&history, &day);
    }
  take_word (&r, "\n");
  r.ok = r.ok && *r.at == '\0' && history.dose_ms <= history.level_ms;
  if (r.ok)
    *ret_history = history;
  return r.ok;
}
