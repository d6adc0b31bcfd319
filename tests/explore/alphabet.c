/* SPDX-License-Identifier: GPL-3.0-or-later */
/* alphabet.c: an action is a moment and a letter. The moments: at once, a
 * second later, a millisecond before the next deadline, at it, and after it; the
 * same about the moments at which an answer changes its meaning although
 * nothing is due. */
#include "alphabet.h"

#include "session-private.h"
#include "words.h"

typedef enum
{
  AT_ONCE,
  SOON,
  BEFORE_DEADLINE,
  AT_DEADLINE,
  AFTER_DEADLINE,
  BEFORE_MARK,
  AT_MARK,
  N_MOMENTS
} Moment;

#define MOMENTS(m) (1u << (m))
#define ANY_MOMENT (MOMENTS (N_MOMENTS) - 1)
#define NO_MARK (ANY_MOMENT & ~(MOMENTS (BEFORE_MARK) | MOMENTS (AT_MARK)))
#define ONCE MOMENTS (AT_ONCE)
#define ABOUT_ALL ~0u

typedef struct
{
  const char *words; /* as a script has them */
  unsigned about;
  unsigned moments;
  enum { COMMAND, FACT, LATE_FACT, NOTHING, SUSPENDED, TURN, SHORT_TURN, INTERMISSION } kind;
  CarpaceEventKind event; /* of facts */
  int64_t ms;             /* SUSPENDED, TURN, SHORT_TURN, INTERMISSION */
} Letter;

static const Letter letters[] = {
  { "", ABOUT_ALL, MOMENTS (AT_DEADLINE) | MOMENTS (AT_MARK) | MOMENTS (SOON), NOTHING, 0, 0 },
  { "input", ABOUT_ALL, ANY_MOMENT, FACT, CARPACE_EVENT_INPUT, 0 },
  { "still", ABOUT_ALL, ANY_MOMENT, FACT, CARPACE_EVENT_STILL, 0 },
  { "still", ABOUT_HAND, NO_MARK, LATE_FACT, CARPACE_EVENT_STILL, 0 },
  { "away", ABOUT_FRONT, ANY_MOMENT, FACT, CARPACE_EVENT_AWAY, 0 },
  { "front", ABOUT_FRONT, ANY_MOMENT, FACT, CARPACE_EVENT_FRONT, 0 },
  { "front-starts", ABOUT_FRONT, NO_MARK, FACT, CARPACE_EVENT_FRONT_STARTS, 0 },
  { "anywhere", ABOUT_FRONT, ONCE, FACT, CARPACE_EVENT_ANYWHERE, 0 },
  { "start", ABOUT_ALL, NO_MARK, COMMAND, 0, 0 },
  { "end", ABOUT_ALL, ANY_MOMENT, COMMAND, 0, 0 },
  { "pause", ABOUT_HAND, NO_MARK, COMMAND, 0, 0 },
  { "continue", ABOUT_HAND, NO_MARK, COMMAND, 0, 0 },
  { "rest", ABOUT_HAND, NO_MARK, COMMAND, 0, 0 },
  { "after-run", ABOUT_HAND, NO_MARK, COMMAND, 0, 0 },
  { "play-on", ABOUT_HAND, NO_MARK, COMMAND, 0, 0 },
  { "rate 0", ABOUT_ALL, ANY_MOMENT, COMMAND, 0, 0 },
  { "rate 1", ABOUT_RATING, NO_MARK, COMMAND, 0, 0 },
  { "rate 3", ABOUT_RATING, ANY_MOMENT, COMMAND, 0, 0 },
  { "rate 5", ABOUT_RATING, ONCE, COMMAND, 0, 0 },
  { "rate 6", ABOUT_RATING, ANY_MOMENT, COMMAND, 0, 0 },
  { "start match", ABOUT_MATCH, NO_MARK, COMMAND, 0, 0 },
  { "morning 0 usual", ABOUT_MORNING, NO_MARK, COMMAND, 0, 0 },
  { "morning 0 more", ABOUT_MORNING, NO_MARK, COMMAND, 0, 0 },
  { "morning 0 more --other-load", ABOUT_MORNING, ONCE, COMMAND, 0, 0 },
  { "morning 3 usual --now 2", ABOUT_MORNING, ONCE, COMMAND, 0, 0 },
  { "morning 6", ABOUT_MORNING, NO_MARK, COMMAND, 0, 0 },
  { "morning usual --now 7", ABOUT_MORNING, ONCE, COMMAND, 0, 0 },
  { "caution", ABOUT_CAUTION, NO_MARK, COMMAND, 0, 0 },
  { "caution none", ABOUT_CAUTION, ONCE, COMMAND, 0, 0 },
  { "caution numb", ABOUT_CAUTION, NO_MARK, COMMAND, 0, 0 },
  { "caution seen", ABOUT_CAUTION, ONCE, COMMAND, 0, 0 },
  { "caution gone", ABOUT_CAUTION, ONCE, COMMAND, 0, 0 },
  { "on-air on", ABOUT_AIR, NO_MARK, COMMAND, 0, 0 },
  { "on-air off", ABOUT_AIR, NO_MARK, COMMAND, 0, 0 },
  { "# an intermission is told", ABOUT_AIR, ONCE, INTERMISSION, 0, 0 },
  { "# an intermission is told, 60 s ahead", ABOUT_AIR, ONCE, INTERMISSION, 0, 60 * CARPACE_SECOND_MS },
  { "", ABOUT_SUSPEND, ONCE, SUSPENDED, 0, 10 * CARPACE_SECOND_MS },
  { "", ABOUT_SUSPEND, ONCE, SUSPENDED, 0, 16 * CARPACE_MINUTE_MS },
  { "", ABOUT_SUSPEND, ONCE, SUSPENDED, 0, 80 * CARPACE_MINUTE_MS },
  { "", ABOUT_SUSPEND | ABOUT_TURN, ONCE, SUSPENDED, 0, 9 * CARPACE_HOUR_MS },
  { "", ABOUT_TURN, ONCE, TURN, 0, CARPACE_DAY_MS },
  { "", ABOUT_TURN, ONCE, TURN, 0, 3 * CARPACE_DAY_MS },
  { "", ABOUT_TURN, ONCE, TURN, 0, 8 * CARPACE_DAY_MS },
  { "", ABOUT_TURN, ONCE, SHORT_TURN, 0, CARPACE_NEW_DAY_AFTER_MS - 1 },
  { "", ABOUT_TURN, ONCE, SHORT_TURN, 0, CARPACE_NEW_DAY_AFTER_MS },
};

#define N_LETTERS ((int) (sizeof letters / sizeof letters[0]))

int
alphabet_n (void)
{
  return N_MOMENTS * N_LETTERS;
}

static void
sooner (int64_t *mark, int64_t moment, int64_t now)
{
  if (moment > now && moment < *mark)
    *mark = moment;
}

/* The next moment at which an answer or a fact begins to mean something else. */
static int64_t
next_mark (const Evening *e)
{
  const CarpaceRunning *block = &e->s.block;
  int64_t now = e->now.elapsed_ms, mark = CARPACE_NEVER;
  int32_t n = e->s.today.n_ratings;

  if (block->running && block->reach)
    sooner (&mark, block->reach_began + CARPACE_REACH_FORGIVEN_MS, now);
  if (block->running && block->in_stretch)
    {
      sooner (&mark, block->stretch_began + e->plan->run_min_ms, now);
      sooner (&mark, block->stretch_began + CARPACE_NO_BLOCK_MS - block->closed_ms, now);
    }
  if (e->s.state == CARPACE_STATE_RESTING)
    sooner (&mark, block->forgiven_until, now);
  if (n > 0 && e->s.today.rating[n - 1].discomfort >= 0)
    {
      sooner (&mark, e->s.today.rating[n - 1].rated_at + CARPACE_DECIDES_ANEW_MS + 1, now);
      sooner (&mark, e->s.today.rating[n - 1].rated_at + CARPACE_CORRECTION_MS + 1, now);
    }
  return mark;
}

/* The moment's own elapsed ms, before now where there is none. */
static int64_t
moment_of (const Evening *e, Moment moment)
{
  int64_t now = e->now.elapsed_ms, due = carpace_session_next_deadline (&e->s), mark = next_mark (e);

  switch (moment)
    {
    case AT_ONCE:
      return now;
    case SOON:
      return now + CARPACE_SECOND_MS < due ? now + CARPACE_SECOND_MS : now - 1;
    case BEFORE_DEADLINE:
      return due != CARPACE_NEVER && due - 1 > now ? due - 1 : now - 1;
    case AT_DEADLINE:
      return due != CARPACE_NEVER ? due : now - 1;
    case AFTER_DEADLINE:
      return due != CARPACE_NEVER ? due + 1 : now - 1;
    case BEFORE_MARK:
      return mark < due && mark - 1 > now ? mark - 1 : now - 1;
    case AT_MARK:
      return mark < due ? mark : now - 1;
    case N_MOMENTS:
      break;
    }
  return now - 1;
}

static void
say_fact (Evening *e, const Letter *letter, Script *script)
{
  int64_t since_ms = e->now.elapsed_ms - (letter->kind == LATE_FACT ? e->plan->gap_after_ms : 0);
  const CarpaceEvent event = { .kind = letter->event, .fact.since_ms = since_ms };
  char words[80];

  snprintf (words, sizeof words, "%s%s", letter->words, letter->kind == LATE_FACT ? " # since gap-after before" : "");
  script_line (script, e, words);
  evening_step (e, &event);
}

static void
say_intermission (Evening *e, const Letter *letter, Script *script)
{
  const CarpaceEvent event = { .kind = CARPACE_EVENT_INTERMISSION, .intermission.begins_ms = e->now.elapsed_ms + letter->ms };

  script_line (script, e, letter->words);
  evening_step (e, &event);
}

static void
be_suspended (Evening *e, int64_t ms, Script *script)
{
  const CarpaceEvent suspend = { .kind = CARPACE_EVENT_SUSPEND }, wake = { .kind = CARPACE_EVENT_WAKE };

  script_line (script, e, "suspend");
  evening_step (e, &suspend);
  evening_until (e, e->now.elapsed_ms + ms);
  script_line (script, e, "wake");
  evening_step (e, &wake);
  evening_until (e, e->now.elapsed_ms);
}

static void
turn (Evening *e, int64_t ms)
{
  evening_until (e, e->now.elapsed_ms + ms);
  evening_turn (e, (int32_t) (ms / CARPACE_DAY_MS));
}

/* The date turns so long after the last block's end. */
static bool
short_turn (Evening *e, int64_t after_ms)
{
  int64_t to_ms = e->s.today.last_end + after_ms;

  if (!e->s.today.open || !e->s.today.practised_or_match || e->s.block.running || to_ms <= e->now.elapsed_ms)
    return false;
  evening_until (e, to_ms);
  evening_turn (e, 1);
  return true;
}

static bool
say (Evening *e, int i, Script *script)
{
  const Letter *letter = &letters[i];

  switch (letter->kind)
    {
    case COMMAND:
      script_line (script, e, letter->words);
      evening_step (e, words_event (letter->words));
      return true;
    case FACT:
    case LATE_FACT:
      say_fact (e, letter, script);
      return true;
    case NOTHING:
      return true;
    case SUSPENDED:
      be_suspended (e, letter->ms, script);
      return true;
    case TURN:
      turn (e, letter->ms);
      return true;
    case SHORT_TURN:
      return short_turn (e, letter->ms);
    case INTERMISSION:
      if (e->s.on_air)
        say_intermission (e, letter, script);
      return e->s.on_air;
    }
  return false;
}

/* Facts that hold already are not told again. */
static bool
means_something (const Evening *e, const Letter *letter)
{
  bool moves = e->s.elsewhere || e->s.hand == CARPACE_HAND_MOVING;

  if (letter->kind != FACT && letter->kind != LATE_FACT)
    return true;
  if (letter->event == CARPACE_EVENT_INPUT || letter->event == CARPACE_EVENT_STILL)
    return moves == (letter->event == CARPACE_EVENT_STILL);
  return e->s.history.away != (letter->event == CARPACE_EVENT_AWAY);
}

bool
alphabet_apply (Evening *e, int action, unsigned about, Script *script)
{
  const Letter *letter = &letters[action % N_LETTERS];
  Moment moment = (Moment) (action / N_LETTERS);
  int64_t at_ms;

  if (!(letter->about & about) || !(letter->moments & MOMENTS (moment)))
    return false;
  at_ms = moment_of (e, moment);
  if (at_ms < e->now.elapsed_ms)
    return false;
  evening_until (e, at_ms);
  return means_something (e, letter) && say (e, action % N_LETTERS, script);
}
