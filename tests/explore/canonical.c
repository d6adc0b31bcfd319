/* SPDX-License-Identifier: GPL-3.0-or-later */
/* canonical.c: the fields themselves are written by write-fields.py from the
 * headers; what stands here is what no longer matters. */
#include "canonical.h"

#include <string.h>

#include "session-private.h"

#define MOST_WORDS 8192

typedef struct
{
  int64_t elapsed_ms;
  CarpaceDay day;
} Origin;

static uint64_t
moment_from (int64_t moment, const Origin *o)
{
  return moment == CARPACE_NEVER ? UINT64_MAX : (uint64_t) (moment - o->elapsed_ms);
}

static uint64_t
day_from (CarpaceDay day, const Origin *o)
{
  return day == CARPACE_NO_DAY ? UINT64_MAX : (uint64_t) (int64_t) (day - o->day);
}

static uint64_t
bits_of (double value)
{
  uint64_t bits;

  memcpy (&bits, &value, sizeof bits);
  return bits;
}

#include "fields.h"

static void
copy_history (CarpaceHistory *to, const CarpaceHistory *from)
{
  memcpy (to, from, offsetof (CarpaceHistory, days));
  memcpy (to->days, from->days, (size_t) from->n_days * sizeof from->days[0]);
}

static void
copy_today (CarpaceToday *to, const CarpaceToday *from)
{
  size_t after_ratings = offsetof (CarpaceToday, rating) + sizeof from->rating;

  memcpy (to, from, offsetof (CarpaceToday, rating));
  memcpy (to->rating, from->rating, (size_t) from->n_ratings * sizeof from->rating[0]);
  memcpy ((char *) to + after_ratings, (const char *) from + after_ratings, sizeof *to - after_ratings);
}

void
canonical_copy (CarpaceSession *to, const CarpaceSession *from)
{
  size_t after_today = offsetof (CarpaceSession, today) + sizeof from->today;

  memcpy (to, from, offsetof (CarpaceSession, today));
  copy_today (&to->today, &from->today);
  memcpy ((char *) to + after_today, (const char *) from + after_today, offsetof (CarpaceSession, history) - after_today);
  copy_history (&to->history, &from->history);
  copy_history (&to->at_opening, &from->at_opening);
}

static int64_t
at_least (int64_t value, int64_t least)
{
  return value < least ? least : value;
}

/* A rest that is neither due nor shown nor counted down. */
static void
forget_rest (CarpaceSession *s)
{
  CarpaceRunning *block = &s->block;

  if (!carpace_rest_is_due (block))
    block->rest_earliest = block->rest_due_at = 0;
  if (!s->cue_on[CARPACE_CUE_MICRO_REST] || s->state != CARPACE_STATE_PRACTISING)
    block->rest_shown_at = 0; /* an offer in a gap does not set it */
  if (!s->cue_on[CARPACE_CUE_MICRO_REST])
    {
      block->card = 0;
      block->between_drills = false;
    }
  if (s->state != CARPACE_STATE_RESTING)
    {
      block->count_from = block->forgiven_until = block->moving_from = 0;
      block->count_ms = block->counted_ms = block->moved_ms = 0;
    }
  if (s->hand == CARPACE_HAND_STILL)
    block->moving_from = 0; /* the next input says it anew */
  if (s->plan->reserve_at_least_pct <= 0)
    {
      memset (&block->reserve, 0, sizeof block->reserve);
      block->reserve_at = 0;
    }
}

static void
forget_block (CarpaceSession *s)
{
  CarpaceRunning *block = &s->block;

  if (!block->running)
    {
      memset (block, 0, sizeof *block);
      return;
    }
  forget_rest (s);
  if (!block->in_stretch)
    block->stretch_began = 0;
  if (!block->reach)
    block->reach_began = block->reach_piece_began = block->reach_closed_ms = block->reach_runs = 0;
  if (block->in_stretch && !block->reach)
    block->gap_began = 0;
  if (s->state != CARPACE_STATE_LIMIT_REACHED)
    block->limit_at = 0;
}

/* A fact's own time is at most a gap's length back. */
static void
forget_hand (CarpaceSession *s, int64_t now)
{
  int64_t long_ago = now - 2 * s->plan->gap_after_ms;

  s->moving_since = s->hand == CARPACE_HAND_STILL ? 0 : at_least (s->moving_since, long_ago);
  if (s->hand == CARPACE_HAND_MOVING)
    s->still_since = 0;
  else if (!s->block.running && !s->overrunning)
    s->still_since = at_least (s->still_since, long_ago);
}

static void
forget_ratings (CarpaceSession *s, int64_t now)
{
  for (int32_t i = 0; i < s->today.n_ratings; i++)
    {
      CarpaceRated *rated = &s->today.rating[i];
      bool last = i == s->today.n_ratings - 1;
      rated->site = CARPACE_SITE_NONE;
      if (!last || !s->rating_open)
        rated->asked_at = 0;
      if (!last || rated->discomfort < 0)
        rated->rated_at = 0;
      else
        rated->rated_at = at_least (rated->rated_at, now - CARPACE_CORRECTION_MS - 1);
      if (!last)
        rated->block = 0;
    }
}

/* Sums of the rest of the day decide nothing; nor does a decision once made. */
static void
forget_day (CarpaceSession *s)
{
  CarpaceToday *today = &s->today;

  today->other_ms = 0;
  today->facts = false;
  today->has_decision = false;
  memset (&today->decision, 0, sizeof today->decision);
  if (!today->practised_or_match)
    today->last_end = 0;
  if (s->history.n_days == 0)
    today->opened_at = 0;
  if (today->open)
    return;
  memset (today, 0, sizeof *today);
  today->day = CARPACE_NO_DAY;
  s->at_opening.n_days = 0;
  memset (&s->at_opening, 0, offsetof (CarpaceHistory, n_days));
}

static void
forget_history (CarpaceHistory *h)
{
  bool last = true;

  if (!h->caution_open)
    h->caution_since = CARPACE_NO_DAY;
  h->hand = CARPACE_HAND_STILL; /* a replay alone begins with it */
  h->moving_since = h->still_since = 0;
  for (int32_t i = h->n_days - 1; i >= 0; i--)
    {
      h->days[i].other_ms = -1;
      if (!last || h->days[i].done_ms == 0)
        h->days[i].last_end_elapsed_ms = 0;
      last &= h->days[i].done_ms == 0;
    }
}

static void
forget (CarpaceSession *s, int64_t now, CarpaceDay day)
{
  s->last.elapsed_ms = now;
  if (s->morning_shown_for < day || (s->today.open && s->morning_shown_for <= s->today.day))
    s->morning_shown_for = CARPACE_NO_DAY;
  if (!s->intermission_ahead)
    s->intermission_at = CARPACE_NEVER;
  if (!s->rating_open)
    s->rating_until = 0;
  if (!s->wait_open)
    s->wait_until = 0;
  s->wait_until = s->wait_open ? at_least (s->wait_until, now) : 0;
  if (!s->overrunning)
    s->overrun_from = s->overrun_block = 0;
  forget_block (s);
  forget_hand (s, now);
  forget_ratings (s, now);
  forget_day (s);
  forget_history (&s->history);
  forget_history (&s->at_opening);
}

__extension__ typedef unsigned __int128 Wide;

/* Words folded by a 128-bit product, after the manner of Wang Yi's wyhash. */
static uint64_t
fold (uint64_t a, uint64_t b)
{
  Wide product = (Wide) a * b;

  return (uint64_t) product ^ (uint64_t) (product >> 64);
}

void
canonical_show (FILE *file, const CarpaceSession *session, CarpaceInstant now)
{
  static CarpaceSession s;
  Origin o = { now.elapsed_ms, carpace_day_of (now, session->plan->starts_at_min) };

  canonical_copy (&s, session);
  forget (&s, now.elapsed_ms, o.day);
  show_CarpaceSession (file, &s, &o);
}

uint64_t
canonical_hash (const CarpaceSession *session, CarpaceInstant now)
{
  static CarpaceSession s;
  static uint64_t words[MOST_WORDS];
  Origin o = { now.elapsed_ms, carpace_day_of (now, session->plan->starts_at_min) };
  uint64_t *end, hash = UINT64_C (0x9e3779b97f4a7c15);

  canonical_copy (&s, session);
  forget (&s, now.elapsed_ms, o.day);
  end = put_CarpaceSession (words, &s, &o);
  for (uint64_t *word = words; word < end; word++)
    hash = fold (hash ^ *word, UINT64_C (0xd6e8feb86659fd93) ^ (uint64_t) (word - words) << 32) + *word;
  hash = fold (hash, UINT64_C (0xa0761d6478bd642f));
  return hash == 0 ? 1 : hash;
}
