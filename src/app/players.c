/* SPDX-License-Identifier: GPL-3.0-or-later */
/* players.c: modelled players on the loop and a virtual clock. */
#include "app/players.h"

#include <stdlib.h>
#include <string.h>

#include "carpace/event-kinds.h"

#define FIRST_MORNING "2027-03-02T09:00:00+01:00"
#define EVENING_MS (9 * CARPACE_HOUR_MS) /* after the morning */
#define MOST_MOVES 20000                 /* of an evening: a player that never ends is a fault */
#define DROPS_FROM 21
#define DROPS_TO 41
#define FLARE 3                          /* points */
#define USUAL_GAIN 6

typedef struct
{
  CarpacePlayerTraits traits;
  const CarpacePlan *plan;
  CarpaceVirtualClock clock;
  CarpaceLoop loop;
  CarpaceRehearsalListener listen;
  void *user;
  uint64_t seed;
  CarpaceRandom random;  /* of what the player does and says */
  CarpaceRandom changes; /* of what the hand takes from day to day */
  CarpaceModelHand hand;
  bool kept_back;        /* under-reports: the last stiff morning was not told */
  int32_t day;           /* from 0 */
  int64_t done_ms;       /* today, as told */
} Player;

typedef struct
{
  const char *word;
  CarpacePlayerTraits traits;
} Kind;

static const Kind kinds[CARPACE_N_PLAYERS] = {
  [CARPACE_PLAYER_STEADY] = { "steady", { .noise_pct = 3, .finishes_s = 10, .off_every = 6 } },
  [CARPACE_PLAYER_SENSITIVE] = { "sensitive", { .noise_pct = 10, .stiff_pct = 5, .takes_pct = 80, .finishes_s = 10,
                                                .off_every = 6 } },
  [CARPACE_PLAYER_PLAYS_ON] = { "plays-on", { .noise_pct = 8, .takes_pct = 110, .gain = 4, .declines_pct = 80,
                                              .finishes_s = 150, .early_pct = 60, .missed_pct = 20 } },
  [CARPACE_PLAYER_SILENT] = { "silent", { .missed_pct = 100, .missed_mornings_pct = 100, .finishes_s = 20,
                                          .off_every = 6 } },
  [CARPACE_PLAYER_VARIED] = { "varied", { .noise_sd = 5, .stiff_pct = 5, .takes_pct = 33, .takes_to_pct = 117,
                                          .off_every = 6 } },
  [CARPACE_PLAYER_VARIED_NOISY] = { "varied-noisy", { .noise_sd = 10, .stiff_pct = 5, .takes_pct = 33,
                                                      .takes_to_pct = 117, .off_every = 6 } },
  [CARPACE_PLAYER_ANY_DOSE] = { "any-dose", { .noise_sd = 5, .stiff_pct = 5, .off_every = 6 } },
  [CARPACE_PLAYER_ANY_DOSE_NOISY] = { "any-dose-noisy", { .noise_sd = 10, .stiff_pct = 5, .off_every = 6 } },
  [CARPACE_PLAYER_UNDER_REPORTS] = { "under-reports", { .noise_sd = 5, .stiff_pct = 5, .takes_pct = 83,
                                                        .under_reports = true, .off_every = 6 } },
  [CARPACE_PLAYER_DROPS] = { "drops", { .noise_sd = 5, .stiff_pct = 5, .takes_pct = 100, .drops_pct = 40,
                                        .off_every = 6 } },
  [CARPACE_PLAYER_GROWS] = { "grows", { .noise_sd = 5, .stiff_pct = 5, .takes_pct = 80, .grows_pct = 2,
                                        .off_every = 6 } },
  [CARPACE_PLAYER_FLARES] = { "flares", { .noise_sd = 5, .stiff_pct = 5, .flare_from_day = 14, .flare_days = 4,
                                          .off_every = 6 } },
  [CARPACE_PLAYER_MISSES] = { "misses", { .noise_pct = 3, .missed_pct = 33, .missed_mornings_pct = 33,
                                          .off_every = 6 } },
};

const char *
carpace_player_word (CarpacePlayerKind kind)
{
  return kinds[kind].word;
}

CarpacePlayerTraits
carpace_player_traits (CarpacePlayerKind kind)
{
  return kinds[kind].traits;
}

/* A stream for what is drawn once a season, beside that of what is done in it. */
static CarpaceRandom
of_season (uint64_t seed)
{
  return (CarpaceRandom){ seed ^ UINT64_C (0xA5A5A5A5A5A5A5A5) };
}

int64_t
carpace_player_takes_ms (const CarpacePlan *plan, const CarpacePlayerTraits *traits, uint64_t seed, int32_t day)
{
  CarpaceRandom random = of_season (seed);
  int32_t pct = traits->takes_to_pct > traits->takes_pct
                  ? carpace_random_roll (&random, traits->takes_pct, traits->takes_to_pct)
                  : traits->takes_pct;
  int64_t takes_ms = traits->takes_ms > 0 ? traits->takes_ms : plan->dose_ms * pct / 100;

  takes_ms = takes_ms * (100 + day / 7 * traits->grows_pct) / 100;
  if (day >= DROPS_FROM && day <= DROPS_TO)
    takes_ms = takes_ms * (100 - traits->drops_pct) / 100;
  return takes_ms;
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
  if (carpace_event_kinds[event.kind].says == CARPACE_SAYS_FACT)
    event.fact.since_ms = p->clock.now.elapsed_ms;
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

static int32_t
whole_down (double number)
{
  int32_t whole = (int32_t) number;

  return whole > number ? whole - 1 : whole;
}

/* What is answered after @done_ms of practice today. */
static int32_t
answer (Player *p, int64_t done_ms)
{
  double felt = carpace_hand_feels (&p->hand, (double) done_ms) * (p->traits.under_reports ? 0.5 : 1);
  double scatter = p->traits.noise_sd > 0 ? carpace_random_scatter (&p->random) * p->traits.noise_sd / 10.0 : 0;
  int32_t number = p->traits.usual + whole_down (felt + scatter + 0.5) + (flaring (p) ? FLARE : 0);
  int32_t dice = carpace_random_roll (&p->random, 0, 99);

  if (dice < p->traits.noise_pct)
    number++;
  else if (dice < 2 * p->traits.noise_pct)
    number--;
  return number < 0 ? 0 : number > 10 ? 10 : number;
}

/* Told of every stiff morning, or of every second. */
static bool
tells_stiffness (Player *p)
{
  if (!carpace_hand_is_stiffer (&p->hand, &p->changes) && !flaring (p))
    return false;
  p->kept_back = p->traits.under_reports && !p->kept_back;
  return !p->kept_back;
}

static void
wake_up (Player *p)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_MORNING };
  bool stiffer = tells_stiffness (p) || carpace_random_chance (&p->random, p->traits.stiff_pct);

  event.morning.waking = answer (p, 0);
  event.morning.stiffness = stiffer ? CARPACE_STIFFNESS_MORE : CARPACE_STIFFNESS_USUAL;
  event.morning.now = event.morning.waking;
  if (!carpace_random_chance (&p->random, p->traits.missed_mornings_pct))
    say (p, event);
}

static void
one_run (Player *p)
{
  int32_t run_s = carpace_random_roll (&p->random, 40, 110);
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
  run_for (p, p->plan->gap_after_ms + carpace_random_roll (&p->random, 1, 4) * CARPACE_SECOND_MS);
}

static void
between_runs (Player *p)
{
  if (state (p) == CARPACE_STATE_REST_DUE && carpace_random_chance (&p->random, p->traits.declines_pct))
    say_kind (p, CARPACE_EVENT_PLAY_ON);
  else if (state (p) == CARPACE_STATE_REST_DUE)
    {
      say_kind (p, CARPACE_EVENT_REST);
      run_for (p, carpace_loop_view (&p->loop)->rest.remaining_ms + 2 * CARPACE_SECOND_MS);
    }
  if (carpace_session_block_runs (&p->loop.session))
    say_kind (p, CARPACE_EVENT_INPUT);
}

static void
answer_rating (Player *p)
{
  bool answers = !carpace_random_chance (&p->random, p->traits.missed_pct);
  int32_t number = answer (p, p->done_ms);

  run_for (p, carpace_random_roll (&p->random, 5, 40) * CARPACE_SECOND_MS);
  if (state (p) != CARPACE_STATE_RATING_DUE)
    return;
  if (answers)
    say (p, (CarpaceEvent){ .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = number } });
  else
    run_for (p, 31 * CARPACE_MINUTE_MS);
}

static void
start (Player *p)
{
  bool early = carpace_random_chance (&p->random, p->traits.early_pct);
  const CarpaceSession *s = &p->loop.session;

  if (s->wait_open && !early && s->wait_until > p->clock.now.elapsed_ms)
    run_to (p, s->wait_until + carpace_random_roll (&p->random, 10, 120) * CARPACE_SECOND_MS);
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
  const CarpaceHistory *h = carpace_session_history (&p->loop.session);
  CarpaceDay day = carpace_session_day (&p->loop.session);

  if (h->caution_open && day != CARPACE_NO_DAY && day - h->caution_since >= 2)
    say (p, (CarpaceEvent){ .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_SEEN } });
}

/* By the plan's week where it has days without practice, else by the player's own. */
static bool
is_day_off (const Player *p)
{
  int32_t off_every = p->traits.off_every;

  if (p->plan->without != 0)
    return carpace_plan_is_without (p->plan, carpace_day_of (p->clock.now, p->plan->starts_at_min));
  return off_every > 0 && p->day % (off_every + 1) == off_every;
}

static void
live_a_day (Player *p, int64_t morning_ms)
{
  run_to (p, morning_ms);
  carpace_hand_wake (&p->hand, (double) carpace_player_takes_ms (p->plan, &p->traits, p->seed, p->day), &p->changes);
  wake_up (p);
  see_someone (p);
  run_to (p, morning_ms + EVENING_MS);
  if (!is_day_off (p))
    practise (p);
  carpace_hand_sleep (&p->hand, (double) p->done_ms);
  p->done_ms = 0;
}

bool
carpace_rehearse_kept (const CarpacePlan *plan, const CarpacePlayerTraits *traits, int32_t days, uint64_t seed,
                       const CarpaceStore *keep, CarpaceRehearsalListener listen, void *user)
{
  Player *p = calloc (1, sizeof *p);
  CarpaceLoopPorts ports = { .listener = p, .entry = hear };

  if (p == NULL)
    return false;
  p->traits = *traits;
  p->plan = plan;
  p->listen = listen;
  p->user = user;
  p->seed = seed;
  p->random = (CarpaceRandom){ seed };
  p->changes = of_season (seed);
  carpace_random_roll (&p->changes, 0, 1); /* the first is what it takes */
  carpace_hand_init (&p->hand, traits->hand, traits->gain > 0 ? traits->gain : USUAL_GAIN, (double) plan->dose_ms,
                     &p->changes);
  carpace_instant_read (FIRST_MORNING, &p->clock.now);
  ports.clock = carpace_virtual_clock_port (&p->clock);
  if (keep != NULL)
    ports.store = *keep;
  carpace_loop_init (&p->loop, &ports, NULL);
  carpace_loop_open (&p->loop, plan);
  for (p->day = 0; p->day < days; p->day++)
    live_a_day (p, p->day * CARPACE_DAY_MS);
  free (p);
  return true;
}

bool
carpace_rehearse_traits (const CarpacePlan *plan, const CarpacePlayerTraits *traits, int32_t days, uint64_t seed,
                         CarpaceRehearsalListener listen, void *user)
{
  return carpace_rehearse_kept (plan, traits, days, seed, NULL, listen, user);
}

bool
carpace_rehearse_player (const CarpacePlan *plan, CarpacePlayerKind kind, int32_t days, uint64_t seed,
                         CarpaceRehearsalListener listen, void *user)
{
  CarpacePlayerTraits traits = carpace_player_traits (kind);

  return carpace_rehearse_traits (plan, &traits, days, seed, listen, user);
}
