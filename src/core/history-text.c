/* SPDX-License-Identifier: GPL-3.0-or-later */
/* history-text.c: a history as lines of `key number ...`, and back. Integers
 * only, no locale. Version 1 is all there has been. */
#include <string.h>

#include "carpace/dose.h"

#define VERSION 1

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
  char digits[24];
  char *at = digits + sizeof digits - 1;
  uint64_t rest = number < 0 ? 0 - (uint64_t) number : (uint64_t) number;

  *at = '\0';
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
  uint64_t number = 0;
  const uint64_t most = (uint64_t) INT64_MAX;
  const char *begin;

  if (!r->ok || *r->at != ' ')
    {
      r->ok = false;
      return 0;
    }
  r->at++;
  negative = *r->at == '-';
  r->at += negative;
  begin = r->at;
  for (; *r->at >= '0' && *r->at <= '9'; r->at++)
    {
      uint64_t digit = (uint64_t) (*r->at - '0');
      if (number > (most + negative - digit) / 10)
        r->ok = false;
      number = number * 10 + digit;
    }
  r->ok = r->ok && r->at > begin && r->at - begin < 20;
  if (!r->ok)
    return 0;
  return negative ? (int64_t) (0 - number) : (int64_t) number;
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
put_marks (Writer *w, const CarpaceHistory *h)
{
  put_text (w, "dose");
  put_number (w, h->first_dose_ms);
  put_number (w, h->dose_ms);
  put_number (w, h->way_back_ms);
  put_number (w, h->way_back_steps_off);
  put_number (w, h->slow_return);
  put_text (w, "\nmarks");
  put_number (w, h->last_change);
  put_number (w, h->last_rise);
  put_number (w, h->last_cut);
  put_number (w, h->last_rest_day);
  put_number (w, h->rows_from);
  put_text (w, "\ncaution");
  put_number (w, h->caution_open);
  put_number (w, h->caution_since);
  put_number (w, h->caution_closed);
  put_number (w, h->caution_signs);
  put_text (w, "\nshown");
  put_number (w, h->shown_next);
  put_text (w, "\non-air");
  put_number (w, h->on_air);
  put_text (w, "\n");
}

static void
put_day (Writer *w, const CarpaceDayRecord *d)
{
  const int64_t numbers[] = {
    d->day, d->dose_ms, d->done_ms, d->limits_ms, d->match_ms, d->other_ms, d->last_end_elapsed_ms,
    d->morning.waking, (int64_t) d->morning.stiffness, d->morning.now, d->morning.other_load, d->morning.pain_relief,
    (int64_t) d->rule, d->rating_sum, d->n_ratings, d->highest, d->no_practice, d->worse, d->above_stop,
    d->ended_above_stop, d->tightened_2, d->near_stop, d->last_answered, d->beyond, d->cut_for,
  };

  put_text (w, "day");
  for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
    put_number (w, numbers[i]);
  put_text (w, "\n");
}

size_t
carpace_history_write (const CarpaceHistory *history, char *ret_text, size_t size)
{
  Writer w = { ret_text, size, 0 };

  if (size > 0)
    ret_text[0] = '\0';
  put_text (&w, "history");
  put_number (&w, VERSION);
  put_text (&w, "\n");
  put_marks (&w, history);
  for (int32_t i = 0; i < history->n_days; i++)
    put_day (&w, &history->days[i]);
  return w.n;
}

static bool
take_flag (Reader *r)
{
  return take_within (r, 0, 1) != 0;
}

static int32_t
take_day_number (Reader *r)
{
  return (int32_t) take_within (r, INT32_MIN, INT32_MAX);
}

static void
take_marks (Reader *r, CarpaceHistory *h)
{
  take_word (r, "dose");
  h->first_dose_ms = take_within (r, 0, CARPACE_DAY_MS);
  h->dose_ms = take_within (r, 0, CARPACE_DAY_MS);
  h->way_back_ms = take_within (r, 0, CARPACE_DAY_MS);
  h->way_back_steps_off = (int32_t) take_within (r, 0, INT32_MAX);
  h->slow_return = take_flag (r);
  take_word (r, "\nmarks");
  h->last_change = take_day_number (r);
  h->last_rise = take_day_number (r);
  h->last_cut = take_day_number (r);
  h->last_rest_day = take_day_number (r);
  h->rows_from = take_day_number (r);
  take_word (r, "\ncaution");
  h->caution_open = take_flag (r);
  h->caution_since = take_day_number (r);
  h->caution_closed = take_day_number (r);
  h->caution_signs = (uint32_t) take_within (r, 0, UINT32_MAX);
  take_word (r, "\nshown");
  h->shown_next = (int32_t) take_within (r, 0, CARPACE_PLAN_SHOWN);
  if (r->ok && strncmp (r->at, "\non-air", strlen ("\non-air")) == 0)
    {
      take_word (r, "\non-air");
      h->on_air = take_flag (r);
    }
  take_word (r, "\n");
}

static CarpaceDayRecord
take_day (Reader *r)
{
  CarpaceDayRecord d = { 0 };

  take_word (r, "day");
  d.day = take_day_number (r);
  d.dose_ms = take_within (r, 0, CARPACE_DAY_MS);
  d.done_ms = take_number (r);
  d.limits_ms = take_number (r);
  d.match_ms = take_number (r);
  d.other_ms = take_number (r);
  d.last_end_elapsed_ms = take_number (r);
  d.morning.waking = (int32_t) take_within (r, -1, 10);
  d.morning.stiffness = (CarpaceStiffness) take_within (r, 0, CARPACE_N_STIFFNESSES - 1);
  d.morning.now = (int32_t) take_within (r, -1, 10);
  d.morning.other_load = take_flag (r);
  d.morning.pain_relief = take_flag (r);
  d.rule = (CarpaceRule) take_within (r, 0, CARPACE_N_RULES - 1);
  d.rating_sum = (int32_t) take_within (r, 0, INT32_MAX);
  d.n_ratings = (int32_t) take_within (r, 0, INT32_MAX);
  d.highest = (int32_t) take_within (r, -1, 10);
  d.no_practice = take_flag (r);
  d.worse = take_flag (r);
  d.above_stop = take_flag (r);
  d.ended_above_stop = take_flag (r);
  d.tightened_2 = take_flag (r);
  d.near_stop = take_flag (r);
  d.last_answered = take_flag (r);
  d.beyond = take_flag (r);
  d.cut_for = take_flag (r);
  take_word (r, "\n");
  return d;
}

bool
carpace_history_read (const char *text, CarpaceHistory *ret_history)
{
  Reader r = { text, true };
  CarpaceHistory history;

  carpace_history_init (&history);
  take_word (&r, "history");
  take_within (&r, 1, VERSION);
  take_word (&r, "\n");
  take_marks (&r, &history);
  while (r.ok && *r.at != '\0')
    {
      CarpaceDayRecord day = take_day (&r);
      if (r.ok && history.n_days == CARPACE_HISTORY_DAYS)
        r.ok = false;
      if (r.ok)
        carpace_history_add (&history, &day);
    }
  if (r.ok)
    *ret_history = history;
  return r.ok;
}
