/* SPDX-License-Identifier: GPL-3.0-or-later */
/* days.c: a day is a few dates, a morning and some practice. */
#include "days.h"

#include "checks.h"
#include "session-private.h"
#include "words.h"

#define MOST_BLOCKS 12

static const int dates[] = { 1, 4, 8 };
static const char *const mornings[] = {
  "", "morning 0 usual", "morning 1 less", "morning 0 more", "morning 3 usual --other-load", "morning 6", "morning 0 usual --now 7",
};
static const struct
{
  int blocks;             /* at most */
  const char *rate, *last; /* "" where they go unanswered */
  bool beyond;
} practices[] = {
  { 0, "", "", false }, { MOST_BLOCKS, "rate 0", "rate 0", false }, { MOST_BLOCKS, "rate 1", "rate 3", false },
  { MOST_BLOCKS, "rate 0", "rate 6", false }, { 1, "rate 0", "rate 0", false }, { MOST_BLOCKS, "", "", false },
  { MOST_BLOCKS, "rate 0", "rate 0", true },
};

#define N(array) ((int) (sizeof (array) / sizeof (array)[0]))

int
days_n (void)
{
  return N (dates) * N (mornings) * N (practices);
}

static void
say (Evening *e, const char *words, Script *script)
{
  script_line (script, e, words);
  evening_step (e, words_event (words));
  evening_until (e, e->now.elapsed_ms);
}

/* Answers are checked against worse ones where they are given for the first time. */
static void
answer (Evening *e, const char *words, Script *script)
{
  if (e->checking && e->fault == NULL)
    e->fault = check_worse (e, true);
  if (*words != '\0')
    say (e, words, script);
}

static bool
start (Evening *e, bool beyond, Script *script)
{
  say (e, "start", script);
  if (!e->s.block.running && e->s.start_asked && (beyond || !e->s.today.done))
    say (e, "start", script);
  return e->s.block.running;
}

/* To the limit, and no further. */
static void
play (Evening *e, Script *script)
{
  const CarpaceEvent still = { .kind = CARPACE_EVENT_STILL, .fact.since_ms = e->now.elapsed_ms + e->s.block.limit_ms };

  evening_until (e, still.fact.since_ms);
  script_line (script, e, "still");
  evening_step (e, &still);
  evening_until (e, e->now.elapsed_ms + e->plan->gap_after_ms);
}

static void
practise (Evening *e, int practice, Script *script)
{
  for (int block = 1; block <= practices[practice].blocks && e->fault == NULL; block++)
    {
      CarpaceLimits limits;
      if (!start (e, practices[practice].beyond, script))
        return;
      bool beyond = e->s.block.beyond;
      play (e, script);
      answer (e, carpace_next_block (&e->s, &limits) ? practices[practice].rate : practices[practice].last, script);
      if (e->s.rating_open)
        evening_until (e, e->s.rating_until);
      if (beyond)
        return;
    }
}

bool
days_apply (Evening *e, int action, unsigned about, Script *script)
{
  int date = action % N (dates), morning = action / N (dates) % N (mornings);

  (void) about;
  evening_until (e, e->now.elapsed_ms + dates[date] * CARPACE_DAY_MS);
  evening_turn (e, dates[date]);
  answer (e, mornings[morning], script);
  practise (e, action / N (dates) / N (mornings), script);
  return true;
}
