/* SPDX-License-Identifier: GPL-3.0-or-later */
/* players.c: modelled players on the loop and a virtual clock. */
#include "app/players.h"

#include <stdlib.h>
#include <string.h>

#define FIRST_MORNING "2027-03-02T09:00:00+01:00"
#define EVENING_MS (9 * CARPACE_HOUR_MS) /* after the morning */
#define MOST_MOVES 20000                 /* of an evening: a player that never ends is a fault */
#define TENTH 10

typedef struct
{
  CarpacePlayerTraits traits;
  const CarpacePlan *plan;
  CarpaceVirtualClock clock;
  CarpaceLoop loop;
  CarpaceRehearsalListener listen;
  void *user;
  uint64_t random;
  int32_t day;           /* from 0 */
  int32_t irritation;    /* tenths of a point, at waking */
  int64_t done_ms;       /* today, as told */
} Player;

CarpacePlayerTraits
carpace_player_traits (CarpacePlayerKind kind)
{
  static const CarpacePlayerTraits kinds[CARPACE_N_PLAYERS] = {
    [CARPACE_PLAYER_STEADY] = { .noise_pct = 3, .finishes_s = 10, .off_every = 6 },
    [CARPACE_PLAYER_SENSITIVE] = { .noise_pct = 10, .stiff_pct = 5, .takes_pct = 80, .gain = 6, .finishes_s = 10,
                                   .off_every = 6 },
    [CARPACE_PLAYER_PLAYS_ON] = { .noise_pct = 8, .takes_pct = 110, .gain = 4, .declines_pct = 80, .finishes_s = 150,
                                  .early_pct = 60, .missed_pct = 20 },
    [CARPACE_PLAYER_SILENT] = { .missed_pct = 100, .missed_mornings_pct = 100, .finishes_s = 20, .off_every = 6 },
  };

  return kinds[kind];
}

/* splitmix64: Steele, Lea, Flood 2014; constants from memory. */
static uint64_t
next_random (Player *p)
{
  uint64_t z = p->random += UINT64_C (0x9E3779B97F4A7C15);

  z = (z ^ (z >> 30)) * UINT64_C (0xBF58476D1CE4E5B9);
  z = (z ^ (z >> 27)) * UINT64_C (0x94D049BB133111EB);
  return z ^ (z >> 31);
}

static int32_t
roll (Player *p, int32_t low, int32_t high)
{
  return low + (int32_t) (next_random (p) % (uint64_t) (high - low + 1));
}

static bool
chance (Player *p, int32_t percent)
{
  return roll (p, 0, 99) < percent;
}

static void
hear (void *self, const CarpaceEntry *entry)
{
  Player *p = self;

  if (entry->kind == CARPACE_ENTRY_BLOCK && entry->block.what != CARPACE_BLOCK_STARTED)
    p->done_ms += entry->block.active_ms;
  if (entry->kind == CARPACE_ENTRY_OVERRUN)
    p->done_ms += entry->overrun.ms;
  p->listen (p->user, entry, 0);
}

static void
run_to (Player *p, int64_t elapsed_ms)
{
  carpace_virtual_clock_run (&p->clock, &p->loop, elapsed_ms);
}

static void
run_for (Player *p, int64_t ms)
{
  run_to (p, p->clock.now.elapsed_ms + ms);
}

static CarpaceState
state (const Player *p)
{
  return carpace_session_state (&p->loop.session);
}

static bool
say (Player *p, CarpaceEvent event)
{
  event.since_ms = p->clock.now.elapsed_ms;
  return carpace_loop_tell (&p->loop, &event, NULL);
}

static void
say_kind (Player *p, CarpaceEventKind kind)
{
  say (p, (CarpaceEvent){ .kind = kind });
}

static bool
flaring (const Player *p)
{
  return p->day >= p->traits.flare_from_day && p->day < p->traits.flare_from_day + p->traits.flare_days;
}

/* What practice so far today adds, tenths of a point. */
static int32_t
load_today (const Player *p)
{
  int64_t takes_ms = p->plan->dose_ms * p->traits.takes_pct / 100;
  int64_t over_ms = p->done_ms - takes_ms;

  if (p->traits.takes_pct == 0 || over_ms <= 0)
    return 0;
  return (int32_t) (over_ms * TENTH * p->traits.gain / p->plan->dose_ms);
}

/* Tenths of a point, mean 0: the sum of twelve uniform numbers less its mean is
 * near a normal distribution of deviation 1. */
static int32_t
scatter (Player *p)
{
  int32_t sum = 0;

  for (int i = 0; i < 12; i++)
    sum += roll (p, 0, 1000);
  return (sum - 6000) * p->traits.noise_sd / 1000;
}

static int32_t
rounded (int32_t tenths)
{
  return tenths >= 0 ? (tenths + TENTH / 2) / TENTH : -((-tenths + TENTH / 2) / TENTH);
}

static int32_t
feels (Player *p, int32_t load)
{
  int32_t tenths = p->irritation + load + (p->traits.noise_sd > 0 ? scatter (p) : 0);
  int32_t number = p->traits.usual + rounded (tenths) + (flaring (p) ? 3 : 0);
  int32_t dice = roll (p, 0, 99);

  if (dice < p->traits.noise_pct)
    number++;
  else if (dice < 2 * p->traits.noise_pct)
    number--;
  return number < 0 ? 0 : number > 10 ? 10 : number;
}

static void
wake_up (Player *p)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_MORNING };
  bool stiffer = p->irritation >= 2 * TENTH || flaring (p) || chance (p, p->traits.stiff_pct);

  event.morning.waking = feels (p, 0);
  event.morning.stiffness = stiffer ? CARPACE_STIFFNESS_MORE : CARPACE_STIFFNESS_USUAL;
  event.morning.now = event.morning.waking;
  if (!chance (p, p->traits.missed_mornings_pct))
    say (p, event);
}

static void
one_run (Player *p)
{
  int32_t run_s = roll (p, 40, 110);
  int64_t end_ms = p->clock.now.elapsed_ms + run_s * CARPACE_SECOND_MS;
  int64_t limit_ms;

  while (p->clock.now.elapsed_ms < end_ms)
    {
      limit_ms = carpace_session_next_deadline (&p->loop.session);
      run_to (p, limit_ms < end_ms ? limit_ms : end_ms);
      if (state (p) == CARPACE_STATE_LIMIT_REACHED)
        {
          run_for (p, p->traits.finishes_s * CARPACE_SECOND_MS);
          break;
        }
    }
  say_kind (p, CARPACE_EVENT_STILL);
  run_for (p, p->plan->gap_after_ms + roll (p, 1, 4) * CARPACE_SECOND_MS);
}

static void
between_runs (Player *p)
{
  if (state (p) == CARPACE_STATE_REST_DUE && chance (p, p->traits.declines_pct))
    say_kind (p, CARPACE_EVENT_PLAY_ON);
  else if (state (p) == CARPACE_STATE_REST_DUE)
    {
      say_kind (p, CARPACE_EVENT_REST);
      run_for (p, p->loop.session.block.rest_ms + 2 * CARPACE_SECOND_MS);
    }
  if (p->loop.session.block.running)
    say_kind (p, CARPACE_EVENT_INPUT);
}

static void
answer_rating (Player *p)
{
  bool answers = !chance (p, p->traits.missed_pct);
  int32_t number = feels (p, load_today (p));

  run_for (p, roll (p, 5, 40) * CARPACE_SECOND_MS);
  if (state (p) != CARPACE_STATE_RATING_DUE)
    return;
  if (answers)
    say (p, (CarpaceEvent){ .kind = CARPACE_EVENT_RATE, .discomfort = number });
  else
    run_for (p, 31 * CARPACE_MINUTE_MS);
}

static void
start (Player *p)
{
  bool early = chance (p, p->traits.early_pct);
  const CarpaceSession *s = &p->loop.session;

  if (s->wait_open && !early && s->wait_until > p->clock.now.elapsed_ms)
    run_to (p, s->wait_until + roll (p, 10, 120) * CARPACE_SECOND_MS);
  say_kind (p, CARPACE_EVENT_START);
  if (s->start_asked && !s->today.done)
    say_kind (p, CARPACE_EVENT_START);
}

static void
practise (Player *p)
{
  say_kind (p, CARPACE_EVENT_INPUT);
  say_kind (p, CARPACE_EVENT_STILL);
  run_for (p, p->plan->gap_after_ms);
  start (p);
  for (int move = 0; move < MOST_MOVES; move++)
    switch (state (p))
      {
      case CARPACE_STATE_PRACTISING:
        one_run (p);
        break;
      case CARPACE_STATE_GAP:
      case CARPACE_STATE_REST_DUE:
        between_runs (p);
        break;
      case CARPACE_STATE_RATING_DUE:
        answer_rating (p);
        break;
      case CARPACE_STATE_WAITING:
        start (p);
        break;
      case CARPACE_STATE_RESTING:
        run_for (p, CARPACE_SECOND_MS);
        break;
      case CARPACE_STATE_LIMIT_REACHED:
        say_kind (p, CARPACE_EVENT_END);
        break;
      case CARPACE_STATE_OFF:
      case CARPACE_STATE_PAUSED:
      case CARPACE_STATE_DAY_DONE:
      case CARPACE_N_STATES:
        return;
      }
}

/* A careful player sees someone about a caution after two days. */
static void
see_someone (Player *p)
{
  const CarpaceHistory *h = &p->loop.session.history;

  if (h->caution_open && p->loop.session.today.open && p->loop.session.today.day - h->caution_since >= 2)
    say (p, (CarpaceEvent){ .kind = CARPACE_EVENT_CAUTION, .caution = CARPACE_CAUTION_SEEN });
}

/* Irritation after a night: what is above what the hand takes stays, and about
 * a third of all goes. */
static void
sleep_over (Player *p)
{
  p->irritation = (p->irritation + load_today (p)) * 7 / TENTH;
  p->done_ms = 0;
}

static void
live_a_day (Player *p, int64_t morning_ms)
{
  int32_t off_every = p->traits.off_every;

  run_to (p, morning_ms);
  wake_up (p);
  see_someone (p);
  run_to (p, morning_ms + EVENING_MS);
  if (off_every == 0 || p->day % (off_every + 1) != off_every)
    practise (p);
  sleep_over (p);
}

bool
carpace_rehearse_traits (const CarpacePlan *plan, const CarpacePlayerTraits *traits, int32_t days, uint64_t seed,
                         CarpaceRehearsalListener listen, void *user)
{
  Player *p = calloc (1, sizeof *p);
  CarpaceLoopPorts ports = { .listener = p, .entry = hear };

  if (p == NULL)
    return false;
  p->traits = *traits;
  p->plan = plan;
  p->listen = listen;
  p->user = user;
  p->random = seed;
  carpace_instant_read (FIRST_MORNING, &p->clock.now);
  ports.clock = carpace_virtual_clock_port (&p->clock);
  carpace_loop_init (&p->loop, &ports, NULL);
  carpace_loop_open (&p->loop, plan);
  for (p->day = 0; p->day < days; p->day++)
    live_a_day (p, p->day * CARPACE_DAY_MS);
  free (p);
  return true;
}

bool
carpace_rehearse_player (const CarpacePlan *plan, CarpacePlayerKind kind, int32_t days, uint64_t seed,
                         CarpaceRehearsalListener listen, void *user)
{
  CarpacePlayerTraits traits = carpace_player_traits (kind);

  return carpace_rehearse_traits (plan, &traits, days, seed, listen, user);
}
