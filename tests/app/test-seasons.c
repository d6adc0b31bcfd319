/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-seasons.c: the day-to-day rules, accepted by seasons with modelled players.
 * Prints its tables; those of the day a rule was last changed stand in seasons.md
 * beside this file.
 *
 * CARPACE_SEASONS=1000 test-seasons      every player and hand with as many seeds
 * (200 are what the bars are of, and 40 are what the invariants are held to
 * otherwise); CARPACE_SEED=N the first of them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/players.h"
#include "../fakes/rounds.h"
#include "trace.h"

#define LONGEST 84
#define WEEKS_8 56
#define SEEDS 200
#define SEEDS_OF_ALL 40
#define MOST_SEEDS 10000
#define FLARE_FROM 14
#define FLARE_DAYS 4
#define MIN CARPACE_MINUTE_MS

/* One date. */
typedef struct
{
  bool opened;
  CarpaceDecision decision; /* the last of the day */
  int64_t asked_ms, done_ms;
  int32_t blocks;
  bool worse;
  bool closed;              /* a caution was closed */
} Date;

typedef struct
{
  int32_t n;
  CarpaceDay first;
  Date date[LONGEST];
  CarpaceDecision decision; /* the last of all */
  bool worse;
  bool outside;             /* past the last date there is room for */
  int32_t cuts, downs, rest_days, way_backs, steps_up, take_backs, cautions, two_weeks_rising;
} Season;

typedef struct
{
  const char *name;
  CarpacePlayerTraits traits;
  CarpacePlan plan;
  int32_t days;
  uint64_t first_seed;
  int32_t n;
  Season *season;
} Group;

/* ---- hearing a season ---- */

static Date *
today (Season *s)
{
  return s->n > 0 && !s->outside ? &s->date[s->n - 1] : NULL;
}

static void
count (Season *s, const CarpaceDecision *d)
{
  s->cuts += d->rule == CARPACE_RULE_CUT || d->rule == CARPACE_RULE_CUT_ONCE;
  s->downs += d->level_down;
  s->rest_days += d->rule == CARPACE_RULE_REST_DAY;
  s->way_backs += d->rule == CARPACE_RULE_WAY_BACK;
  s->steps_up += d->rule == CARPACE_RULE_STEP_UP;
  s->take_backs += d->rule == CARPACE_RULE_TAKE_BACK;
  s->cautions += d->opens_caution;
  s->two_weeks_rising += d->opens_caution && d->finding == CARPACE_FINDING_TWO_WEEKS_RISING;
}

static void
open_day (Season *s, CarpaceDay day, int64_t dose_ms)
{
  if (s->n == 0)
    s->first = day;
  s->outside = day - s->first >= LONGEST;
  if (s->outside)
    return;
  s->n = day - s->first + 1;
  today (s)->opened = true;
  today (s)->decision = s->decision;
  today (s)->asked_ms = dose_ms;
  today (s)->worse = s->worse;
  s->worse = false;
}

static void
hear (void *user, const CarpaceEntry *e, int32_t line)
{
  Season *s = user;

  if (e->kind == CARPACE_ENTRY_MORNING)
    s->worse = e->morning.stiffness == CARPACE_STIFFNESS_MORE;
  if (e->kind == CARPACE_ENTRY_DECISION && e->decision.scope == CARPACE_SCOPE_DAY)
    {
      s->decision = e->decision;
      count (s, &e->decision);
      s->worse |= e->decision.discomfort >= e->decision.usual + 2;
    }
  if (e->kind == CARPACE_ENTRY_DAY && e->day.what == CARPACE_DAY_OPENED)
    open_day (s, e->day.day, e->day.dose_ms);
  if (today (s) == NULL)
    return;
  if (e->kind == CARPACE_ENTRY_BLOCK && e->block.what == CARPACE_BLOCK_STARTED)
    today (s)->blocks++;
  if (e->kind == CARPACE_ENTRY_BLOCK && e->block.what != CARPACE_BLOCK_STARTED)
    today (s)->done_ms += e->block.active_ms;
  if (e->kind == CARPACE_ENTRY_OVERRUN)
    today (s)->done_ms += e->overrun.ms;
  if (e->kind == CARPACE_ENTRY_CAUTION && e->caution.what == CARPACE_CAUTION_CLOSED)
    today (s)->closed = true;
}

/* ---- what must always hold, on every hand, seed and date ---- */

/* What nothing rises past on date @i; -1: no bound. */
static int64_t
most_ms (const Season *s, int32_t i)
{
  int64_t sum = 0, n = 0;

  for (int32_t k = i > 14 ? i - 14 : 0; k < i; k++)
    if (s->date[k].done_ms > 0)
      {
        sum += s->date[k].done_ms;
        n++;
      }
  return n == 0 ? -1 : 13 * sum / (10 * n) / MIN * MIN;
}

typedef struct
{
  const Date *before;    /* the opened date before, NULL where none */
  int32_t level_changed; /* date, -1 */
  bool straight;         /* cut once at the level, and not yet risen since */
  int32_t idle;          /* dates in a row without a block, but for cautions */
} Behind;

static const char *
broken_by_level (const Group *g, const Date *date, const Behind *b, int32_t i)
{
  const CarpaceDecision *d = &date->decision;
  int64_t before_ms = b->before != NULL ? b->before->decision.level_ms : g->plan.dose_ms;
  int64_t rise = d->level_ms - before_ms;
  bool a_step = rise == d->step_ms || rise == d->step_ms / 2 || d->level_ms == g->plan.at_most_ms;

  if (d->kept_ms < carpace_dose_least_ms (g->plan.dose_ms) || d->kept_ms > d->level_ms || d->level_ms > g->plan.at_most_ms)
    return "least <= dose <= level <= at-most";
  if (rise > 0 && (d->rule != CARPACE_RULE_STEP_UP || !a_step))
    return "the level rises by a step up only, by a whole or half step";
  if (rise > 0 && b->level_changed >= 0 && i - b->level_changed < 7)
    return "the level rises 7 days or more after it changed";
  if (d->rule == CARPACE_RULE_CUT_ONCE && d->level_ms != d->level_before_ms)
    return "a first worse morning leaves the level";
  return NULL;
}

static const char *
broken_by_dose (const Season *s, const Date *date, const Behind *b, int32_t i)
{
  const CarpaceDecision *d = &date->decision;
  bool rises = b->before != NULL && d->kept_ms > b->before->decision.kept_ms;
  int64_t most = most_ms (s, i);

  if (rises && most >= 0 && d->kept_ms > most)
    return "nothing rises past 130 % of what was done";
  if (rises && b->straight && d->kept_ms != d->level_ms && d->kept_ms != most)
    return "after a cut once at the level the dose comes straight back";
  if (rises && date->worse)
    return "a worse morning is never followed by more that day";
  if (d->kept_ms < 15 * MIN)
    return "no dose under 15 min";
  return b->idle > 5 ? "no more than five days in a row without a block" : NULL;
}

static void
go_on (const Group *g, const Date *date, Behind *b, int32_t i)
{
  const CarpaceDecision *d = &date->decision;
  int64_t before_ms = b->before != NULL ? b->before->decision.level_ms : g->plan.dose_ms;
  bool off = g->traits.off_every > 0 && i % (g->traits.off_every + 1) == g->traits.off_every;

  if (d->level_ms != before_ms || d->level_down)
    b->level_changed = i;
  if (d->rule == CARPACE_RULE_CUT_ONCE)
    b->straight = d->before_ms == d->level_ms;
  else if (d->kept_ms >= d->level_ms || carpace_decision_is_cut (d) || d->rule == CARPACE_RULE_REST_DAY
           || d->finding == CARPACE_FINDING_NO_ANSWERS || d->opens_caution || date->closed || d->level_down)
    b->straight = false;
  b->idle = date->blocks > 0 || d->rule == CARPACE_RULE_CAUTION || d->opens_caution ? 0 : b->idle + !off;
  b->before = date;
}

static void
assert_holds (const Group *g, int32_t k)
{
  const Season *s = &g->season[k];
  Behind b = { .level_changed = -1 };

  for (int32_t i = 0; i < s->n; i++)
    {
      const Date *date = &s->date[i];
      const char *broken;
      if (!date->opened)
        continue;
      broken = broken_by_level (g, date, &b, i);
      if (broken == NULL)
        broken = broken_by_dose (s, date, &b, i);
      if (broken != NULL)
        fail_msg ("%s, seed %llu, date %d (rule %d): %s", g->name, (unsigned long long) (g->first_seed + (uint64_t) k), i,
                  (int) date->decision.rule, broken);
      go_on (g, date, &b, i);
    }
}

/* ---- a group of seasons ---- */

static uint64_t
number_from (const char *name, uint64_t otherwise)
{
  const char *text = getenv (name);

  return text != NULL && *text != '\0' ? strtoull (text, NULL, 10) : otherwise;
}

/* The bundled two halves: 60 min, 10 % up after 3 good days, 90 min at most. */
static Group *
run (const char *name, CarpacePlayerTraits traits, int32_t usual, int32_t days, int32_t n)
{
  Group *g = calloc (1, sizeof *g);

  n = (int32_t) number_from ("CARPACE_SEASONS", (uint64_t) carpace_test_rounds (n));
  assert_true (g != NULL && n > 0 && n <= MOST_SEEDS && days <= LONGEST);
  g->name = name;
  g->traits = traits;
  g->days = days;
  g->n = n;
  g->first_seed = number_from ("CARPACE_SEED", 1);
  g->season = calloc ((size_t) n, sizeof *g->season);
  assert_non_null (g->season);
  carpace_trace_plan (&g->plan, 2, 30);
  g->plan.at_most_ms = 90 * MIN;
  g->plan.usual_discomfort = usual;
  for (int32_t k = 0; k < n; k++)
    {
      assert_true (carpace_rehearse_traits (&g->plan, &traits, days, g->first_seed + (uint64_t) k, hear, &g->season[k]));
      assert_true (g->season[k].n > 0);
      assert_holds (g, k);
    }
  return g;
}

static void
release (Group *g)
{
  free (g->season);
  free (g);
}

/* ---- numbers of a group ---- */

static int
by_size (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

typedef double (*Measure) (const Group *g, const Season *s);

/* The season that @share of all do not pass, in @measure. */
static double
quantile (const Group *g, Measure measure, double share)
{
  double *value = calloc ((size_t) g->n, sizeof *value), found;

  for (int32_t k = 0; k < g->n; k++)
    value[k] = measure (g, &g->season[k]);
  qsort (value, (size_t) g->n, sizeof *value, by_size);
  found = value[(int32_t) (share * g->n) < g->n ? (int32_t) (share * g->n) : g->n - 1];
  free (value);
  return found;
}

static double
mean (const Group *g, Measure measure)
{
  double sum = 0;

  for (int32_t k = 0; k < g->n; k++)
    sum += measure (g, &g->season[k]);
  return sum / g->n;
}

static double
end_dose (const Group *g, const Season *s)
{
  return (double) s->date[s->n - 1].decision.kept_ms / MIN;
}

static double
end_level (const Group *g, const Season *s)
{
  return (double) s->date[s->n - 1].decision.level_ms / MIN;
}

static double
cuts (const Group *g, const Season *s)
{
  return s->cuts;
}

static double
rising_weeks (const Group *g, const Season *s)
{
  return s->two_weeks_rising;
}

/* Mean dose asked on practice days of weeks 5 to 8. */
static double
asked_5_to_8 (const Group *g, const Season *s)
{
  int64_t sum = 0;
  int32_t n = 0;

  for (int32_t i = 28; i < 56 && i < s->n; i++)
    if (s->date[i].asked_ms > 0)
      {
        sum += s->date[i].asked_ms;
        n++;
      }
  return n > 0 ? (double) sum / n / MIN : 0;
}

/* Days of weeks 5 to 8 with over 55 min asked: 1.15 times what 48 min takes. */
static double
days_over_55 (const Group *g, const Season *s)
{
  int32_t n = 0;

  for (int32_t i = 28; i < 56 && i < s->n; i++)
    n += s->date[i].blocks > 0 && s->date[i].asked_ms > 55 * MIN;
  return n;
}

/* Largest rise over the lowest dose of the 7 days before, percent. */
static double
largest_rise (const Group *g, const Season *s)
{
  double largest = 0;

  for (int32_t i = 1; i < s->n; i++)
    for (int32_t k = i > 7 ? i - 7 : 0; k < i; k++)
      if (s->date[i].asked_ms > 0 && s->date[k].asked_ms > 0)
        {
          double rise = 100.0 * (double) (s->date[i].asked_ms - s->date[k].asked_ms) / (double) s->date[k].asked_ms;
          largest = rise > largest ? rise : largest;
        }
  return largest;
}

#define PER_SEASON(field) \
  static double field##_per_season (const Group *g, const Season *s) { return s->field; }
PER_SEASON (downs)
PER_SEASON (rest_days)
PER_SEASON (way_backs)
PER_SEASON (steps_up)
PER_SEASON (take_backs)
PER_SEASON (cautions)

static void
print (const Group *g)
{
  print_message ("| %-24s | %4.1f | %4.1f | %4.1f | %4.1f | %5.2f | %5.2f | %5.2f | %5.2f | %5.2f | %5.2f | %5.2f | %3.0f |\n", g->name,
                 quantile (g, end_dose, 0.1), quantile (g, end_dose, 0.5), quantile (g, end_dose, 0.9),
                 mean (g, end_level), mean (g, cuts), mean (g, downs_per_season), mean (g, take_backs_per_season),
                 mean (g, rest_days_per_season), mean (g, way_backs_per_season), mean (g, steps_up_per_season),
                 mean (g, cautions_per_season), g->n * mean (g, rising_weeks));
}

/* ---- the bars ---- */

/* A number of a group, and where it has to lie. The bars are of 200 seeds: a watcher's share is too few for them. */
typedef struct
{
  const char *what;
  Measure measure;
  double share;      /* a quantile; 0: the mean */
  double least, most;
} Bar;

typedef struct
{
  const char *name;
  CarpacePlayerTraits traits;
  int32_t usual, days;
  Bar bars[8];
} BarRow;

#define SENSITIVE(takes) { .noise_pct = 10, .stiff_pct = 5, .takes_pct = takes, .finishes_s = 10, .off_every = 6 }
#define ANY 1e9

static const BarRow bar_rows[] = {
  { "ideal", { 0 }, 0, WEEKS_8, { { "ends", end_dose, 0.001, 90, 90 }, { "cuts", cuts, 0, 0, 0 } } },
  { "takes 48 (sensitive)", SENSITIVE (80), 0, WEEKS_8,
    { { "asked in weeks 5-8", asked_5_to_8, 0, 46, 51.5 },
      { "days over 55 min in weeks 5-8", days_over_55, 0, 0, 2.5 },
      { "cuts", cuts, 0, 0, 8.0 },
      { "largest rise of 7 days", largest_rise, 0.5, 0, 120 },
      { "level at the end", end_level, 0, 48, 55 },
      { "a twentieth of the levels", end_level, 0.05, 42, ANY },
      { "nineteen of twenty", end_level, 0.95, 0, 60 } } },
  { "takes 35", SENSITIVE (58), 0, WEEKS_8, { { "asked in weeks 5-8", asked_5_to_8, 0, 0, 39 }, { "cuts", cuts, 0, 0, 9.8 } } },
  { "takes 70", SENSITIVE (117), 0, WEEKS_8, { { "asked in weeks 5-8", asked_5_to_8, 0, 65.5, ANY } } },
  { "usual 1, +-1, 5% stiff", { .usual = 1, .noise_pct = 25, .stiff_pct = 5 }, 1, WEEKS_8,
    { { "a tenth ends", end_dose, 0.1, 66, ANY }, { "half end", end_dose, 0.5, 87, ANY } } },
  { "usual 1, sd 1, 5% stiff", { .usual = 1, .noise_sd = 10, .stiff_pct = 5 }, 1, WEEKS_8,
    { { "a tenth ends", end_dose, 0.1, 31, ANY }, { "half end", end_dose, 0.5, 65, ANY } } },
  { "usual 0, sd 1", { .noise_sd = 10 }, 0, WEEKS_8,
    { { "a tenth ends", end_dose, 0.1, 48, ANY }, { "half end", end_dose, 0.5, 78, ANY }, { "weeks rising", rising_weeks, 0, 0, 0.0499 } } },
  { "usual 2, sd 1", { .usual = 2, .noise_sd = 10 }, 2, WEEKS_8,
    { { "a tenth ends", end_dose, 0.1, 48, ANY }, { "half end", end_dose, 0.5, 78, ANY }, { "weeks rising", rising_weeks, 0, 0, 0.0499 } } },
  { "usual 3, sd 1", { .usual = 3, .noise_sd = 10 }, 3, WEEKS_8, { { "half end", end_dose, 0.5, 58, 78 } } },
  { "usual 3, +-1", { .usual = 3, .noise_pct = 25 }, 3, WEEKS_8, { { "a tenth ends", end_dose, 0.1, 90, 90 } } },
  { "usual 2, +-1", { .usual = 2, .noise_pct = 33 }, 2, WEEKS_8, { { "weeks rising", rising_weeks, 0, 0, 0.0499 } } },
  { "one tap in three missed", { .noise_pct = 3, .missed_pct = 33, .missed_mornings_pct = 33 }, 0, WEEKS_8,
    { { "a tenth ends", end_dose, 0.1, 90, 90 } } },
  { "usual 1, the plan says 0", { .usual = 1 }, 0, LONGEST, { { "ends", end_dose, 0.001, 90, 90 } } },
};

static int
hold (const Group *g, const Bar *bar)
{
  double value = bar->share > 0 ? quantile (g, bar->measure, bar->share) : mean (g, bar->measure);
  bool within = value >= bar->least && value <= bar->most;

  print_message ("  %s: %.2f%s\n", bar->what, value, within ? "" : "  <-- outside its bar");
  return !within;
}

static void
head (void)
{
  print_message ("| player                   | 10%%  | half | 9/10 | level | cuts | downs | backs | rests | rises | steps | cautions | weeks |\n");
}

static void
test_bars (void **state)
{
  int outside = 0;

  head ();
  for (size_t i = 0; i < sizeof bar_rows / sizeof bar_rows[0]; i++)
    {
      const BarRow *row = &bar_rows[i];
      Group *g = run (row->name, row->traits, row->usual, row->days, SEEDS);
      print (g);
      for (const Bar *bar = row->bars; bar->what != NULL && g->n >= SEEDS; bar++)
        outside += hold (g, bar);
      release (g);
    }
  assert_int_equal (outside, 0);
}

/* ---- a flare ---- */

static bool
cut_soon (const Season *s)
{
  int64_t earlier_ms = s->date[FLARE_FROM - 1].decision.kept_ms;

  for (int32_t i = FLARE_FROM; i <= FLARE_FROM + 2; i++)
    if (s->date[i].opened && (s->date[i].decision.kept_ms < earlier_ms || s->date[i].asked_ms == 0))
      return true;
  return false;
}

/* Whether the dose was where it had been, at the level, within @weeks of the flare. */
static bool
back_within (const Season *s, int32_t weeks)
{
  int64_t earlier_ms = s->date[FLARE_FROM - 1].decision.kept_ms;

  for (int32_t i = FLARE_FROM + FLARE_DAYS; i < s->n && i <= FLARE_FROM + 7 * weeks; i++)
    if (s->date[i].opened && s->date[i].decision.kept_ms >= earlier_ms)
      return true;
  return false;
}

static void
test_flares (void **state)
{
  static const struct { const char *name; CarpacePlayerTraits traits; int32_t days, weeks, least_pct; } rows[] = {
    { "flare in week 3", { .noise_pct = 3, .flare_from_day = FLARE_FROM, .flare_days = FLARE_DAYS }, WEEKS_8, 5, 90 },
    { "flare, sd 0.5, 5% stiff", { .noise_sd = 5, .stiff_pct = 5, .flare_from_day = FLARE_FROM, .flare_days = FLARE_DAYS }, LONGEST, 8, 50 },
  };

  head ();
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Group *g = run (rows[i].name, rows[i].traits, 0, rows[i].days, SEEDS);
      int32_t cut = 0, back = 0;
      print (g);
      for (int32_t k = 0; k < g->n; k++)
        {
          cut += cut_soon (&g->season[k]);
          back += back_within (&g->season[k], rows[i].weeks);
        }
      print_message ("  cut within two days in %d, back within %d weeks in %d of %d seasons\n", cut, rows[i].weeks, back, g->n);
      assert_int_equal (cut, g->n);
      assert_true (100 * back >= rows[i].least_pct * g->n);
      release (g);
    }
}

/* ---- silence ---- */

static void
test_silent (void **state)
{
  static const int32_t minutes[] = { 60, 54, 48, 42, 39 };
  Group *g = run ("silent", carpace_player_traits (CARPACE_PLAYER_SILENT), 0, WEEKS_8, 20);

  for (int32_t k = 0; k < g->n; k++)
    {
      const Season *s = &g->season[k];
      int32_t practised = 0;
      for (int32_t i = 0; i < s->n; i++)
        {
          int32_t steps = practised < 12 ? 0 : 1 + (practised - 12) / 6;
          if (!s->date[i].opened || s->date[i].blocks == 0)
            continue;
          assert_int_equal (s->date[i].asked_ms, minutes[steps < 4 ? steps : 4] * MIN);
          assert_int_equal (s->date[i].decision.level_ms, 60 * MIN);
          practised++;
        }
      assert_true (practised > 40);
    }
  release (g);
}

/* ---- every player on every hand ---- */

static void
test_everybody (void **state)
{
  head ();
  for (int kind = 0; kind < CARPACE_N_PLAYERS; kind++)
    for (int hand = 0; hand < CARPACE_N_HAND_MODELS; hand++)
      {
        CarpacePlayerTraits traits = carpace_player_traits ((CarpacePlayerKind) kind);
        char name[80];
        Group *g;
        snprintf (name, sizeof name, "%s, %s", carpace_player_word ((CarpacePlayerKind) kind),
                  carpace_hand_model_word ((CarpaceHandModel) hand));
        traits.hand = (CarpaceHandModel) hand;
        traits.usual = 1;
        g = run (name, traits, 1, LONGEST, SEEDS_OF_ALL);
        print (g);
        release (g);
      }
}

static void
ignore (void *user, const CarpaceEntry *e, int32_t line)
{
  uint64_t *hash = user;
  const unsigned char *at = (const unsigned char *) &e->kind;

  for (size_t i = 0; i < sizeof e->kind; i++)
    *hash = (*hash ^ at[i]) * UINT64_C (1099511628211);
  *hash = (*hash ^ (uint64_t) e->at.elapsed_ms) * UINT64_C (1099511628211);
}

static void
test_same_seed_same_days (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  uint64_t once = 1, again = 1, other = 1;

  carpace_trace_plan (plan, 2, 30);
  carpace_rehearse_player (plan, CARPACE_PLAYER_SENSITIVE, 20, 5, ignore, &once);
  carpace_rehearse_player (plan, CARPACE_PLAYER_SENSITIVE, 20, 5, ignore, &again);
  carpace_rehearse_player (plan, CARPACE_PLAYER_SENSITIVE, 20, 6, ignore, &other);
  assert_true (once == again);
  assert_true (once != other);
  free (plan);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_bars),
    cmocka_unit_test (test_flares),
    cmocka_unit_test (test_silent),
    cmocka_unit_test (test_everybody),
    cmocka_unit_test (test_same_seed_same_days),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
