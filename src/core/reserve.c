/* SPDX-License-Identifier: GPL-3.0-or-later */
/* reserve.c: the three-compartment controller model with rest recovery (3CC-r),
 * solved once and for all. With m the fatigued share, TL the load, and the
 * controller's tracking rate infinite:
 *   held       m <= 1 - TL   m' = F TL - R m         towards s = F TL / R
 *   not held   m >  1 - TL   m' = F (1 - m) - R m    towards p = F / (F + R)
 *   at rest    TL = 0        m' = -r R m
 * s < 1 - TL exactly where p < 1 - TL: below the critical load R / (F + R) all
 * ways lead back to holding, above it none does.
 * Constants: Frey-Law, Looft, Heitsman 2012 (F, R); r of hand and elbow: Looft,
 * Herkert, Frey-Law 2018, which had no data of a shoulder; of the shoulder: Looft,
 * Frey-Law 2020, J Biomech 106:109762, 15 "somewhat better" than 30. All read in
 * summaries of the papers. */
#include "carpace/reserve.h"

#include <math.h>

typedef CarpaceReserveConstants Constants;

static const Constants constants[CARPACE_N_REGIONS] = {
  [CARPACE_REGION_HAND] = { .fatigue_per_s = 0.00980, .recovery_per_s = 0.00064, .rest_factor = 30 },
  [CARPACE_REGION_ELBOW] = { .fatigue_per_s = 0.00912, .recovery_per_s = 0.00094, .rest_factor = 15 },
  [CARPACE_REGION_SHOULDER] = { .fatigue_per_s = 0.01820, .recovery_per_s = 0.00168, .rest_factor = 15 },
};

/* NaN becomes 0. */
static double
share (double x)
{
  return x > 0 ? (x < 1 ? x : 1) : 0;
}

static double
span (double seconds)
{
  return seconds > 0 ? seconds : 0;
}

/* @m on its way to @end at @rate, after @t. */
static double
towards (double m, double end, double rate, double t)
{
  return m - (end - m) * expm1 (-rate * t);
}

/* Time at @rate until @m, on its way to @end, reaches @level between them. */
static double
time_towards (double m, double end, double rate, double level)
{
  return log1p ((level - m) / (end - level)) / rate;
}

static double
held_end (Constants c, double load)
{
  return c.fatigue_per_s * load / c.recovery_per_s;
}

static double
unheld_end (Constants c)
{
  return c.fatigue_per_s / (c.fatigue_per_s + c.recovery_per_s);
}

static double
unheld_rate (Constants c)
{
  return c.fatigue_per_s + c.recovery_per_s;
}

static double
rest_rate (Constants c)
{
  return c.recovery_per_s * c.rest_factor;
}

CarpaceReserveConstants
carpace_reserve_constants (CarpaceRegion region)
{
  return constants[region];
}

/* From @m <= 1 - load. */
static double
forward_held (Constants c, double m, double load, double t)
{
  double s = held_end (c, load), most = 1 - load;
  double held = towards (m, s, c.recovery_per_s, t), until;

  if (s <= most || held <= most)
    return held;
  until = time_towards (m, s, c.recovery_per_s, most);
  return towards (most, unheld_end (c), unheld_rate (c), t - until);
}

/* From @m > 1 - load: more than can be held, until recovery wins. */
static double
forward_unheld (Constants c, double m, double load, double t)
{
  double p = unheld_end (c), most = 1 - load, until;

  if (p >= most || held_end (c, load) >= most)
    return towards (m, p, unheld_rate (c), t);
  until = time_towards (m, p, unheld_rate (c), most);
  if (t <= until)
    return towards (m, p, unheld_rate (c), t);
  return towards (most, held_end (c, load), c.recovery_per_s, t - until);
}

double
carpace_reserve_forward (CarpaceRegion region, double fatigued, double load, double seconds)
{
  Constants c = constants[region];
  double m = share (fatigued), tl = share (load), t = span (seconds);

  if (tl == 0)
    return m * exp (-rest_rate (c) * t);
  return share (m <= 1 - tl ? forward_held (c, m, tl, t) : forward_unheld (c, m, tl, t));
}

double
carpace_reserve_endurance_s (CarpaceRegion region, double fatigued, double load)
{
  Constants c = constants[region];
  double m = share (fatigued), tl = share (load), s = held_end (c, tl);

  if (m > 1 - tl)
    return 0;
  return s > 1 - tl ? time_towards (m, s, c.recovery_per_s, 1 - tl) : INFINITY;
}

/* From @m up to @level, both over what can be held. */
static double
crossing_unheld_s (Constants c, double m, double level)
{
  double p = unheld_end (c);
  return p > level ? time_towards (m, p, unheld_rate (c), level) : INFINITY;
}

double
carpace_reserve_crossing_s (CarpaceRegion region, double fatigued, double load, double level)
{
  Constants c = constants[region];
  double m = share (fatigued), tl = share (load), to = share (level);
  double most = 1 - tl, s = held_end (c, tl);

  if (m >= to)
    return 0;
  if (m > most)
    return crossing_unheld_s (c, m, to);
  if (to <= most)
    return s > to ? time_towards (m, s, c.recovery_per_s, to) : INFINITY;
  if (s <= most)
    return INFINITY;
  return time_towards (m, s, c.recovery_per_s, most) + crossing_unheld_s (c, most, to);
}

double
carpace_reserve_rest_s (CarpaceRegion region, double fatigued, double level)
{
  double m = share (fatigued), to = share (level);

  if (m <= to)
    return 0;
  return to > 0 ? log (m / to) / rest_rate (constants[region]) : INFINITY;
}

/* Cycles whose work is held to its end: the peak of cycle n is b (1 - q^n). */
typedef struct { double b, log_q; } Cycle;

static double
peak_of (Cycle cycle, int64_t n)
{
  return -cycle.b * expm1 ((double) n * cycle.log_q);
}

/* The first cycle whose peak passes @most; 0 where none of them does. */
static int64_t
first_over (Cycle cycle, double most, int64_t n_cycles)
{
  int64_t under = 0, over = n_cycles;

  if (!(peak_of (cycle, n_cycles) > most))
    return 0;
  while (over - under > 1)
    {
      int64_t n = under + (over - under) / 2;
      if (peak_of (cycle, n) > most)
        over = n;
      else
        under = n;
    }
  return over;
}

/* Cycles after the first that was not held come closer and closer to one peak. */
static double
peak_unheld (CarpaceRegion region, double load, double work_s, double rest_s, double peak, int64_t n_cycles)
{
  for (int64_t n = 0; n < n_cycles; n++)
    {
      double before = peak;
      double rested = carpace_reserve_forward (region, peak, 0, rest_s);
      peak = carpace_reserve_forward (region, rested, load, work_s);
      if (fabs (peak - before) < 1e-16)
        break;
    }
  return peak;
}

CarpaceReserveCycles
carpace_reserve_cycles (CarpaceRegion region, double load, double work_s, double rest_s, int64_t n_cycles)
{
  Constants c = constants[region];
  double tl = share (load), work = span (work_s), rest = span (rest_s);
  double rise = -held_end (c, tl) * expm1 (-c.recovery_per_s * work);
  Cycle cycle = { .log_q = -c.recovery_per_s * work - rest_rate (c) * rest };
  CarpaceReserveCycles cycles = { .peak = 0 };
  int64_t fails;

  if (rise == 0 || n_cycles < 1)
    return cycles;
  cycle.b = rise / -expm1 (cycle.log_q);
  cycles.steady = cycle.b;
  cycles.peak = peak_of (cycle, n_cycles);
  if (cycle.b <= 1 - tl)
    return cycles;
  cycles.steady = NAN;
  fails = first_over (cycle, 1 - tl, n_cycles);
  cycles.fails_in_cycle = fails;
  if (fails > 0)
    {
      double start = fails > 1 ? carpace_reserve_forward (region, peak_of (cycle, fails - 1), 0, rest) : 0;
      double peak = carpace_reserve_forward (region, start, tl, work);
      cycles.peak = peak_unheld (region, tl, work, rest, peak, n_cycles - fails);
    }
  return cycles;
}

double
carpace_reserve_rest_for_peak_s (CarpaceRegion region, double load, double work_s, double peak)
{
  Constants c = constants[region];
  double tl = share (load), most = share (peak) < 1 - tl ? share (peak) : 1 - tl;
  double rise = -held_end (c, tl) * expm1 (-c.recovery_per_s * span (work_s));
  double rest;

  if (rise == 0)
    return 0;
  if (rise >= most)
    return INFINITY;
  rest = -(log1p (-rise / most) + c.recovery_per_s * span (work_s)) / rest_rate (c);
  return rest > 0 ? rest : 0;
}

void
carpace_reserve_begin (CarpaceReserveState *state)
{
  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    state->fatigued[group] = 0;
}

void
carpace_reserve_work (CarpaceReserveState *state, const double load[CARPACE_N_GROUPS], int64_t ms)
{
  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    state->fatigued[group] = carpace_reserve_forward (carpace_group_region ((CarpaceGroup) group),
                                                      state->fatigued[group], load[group], (double) ms / 1000);
}

void
carpace_reserve_rest (CarpaceReserveState *state, int64_t ms)
{
  static const double none[CARPACE_N_GROUPS] = { 0 };
  carpace_reserve_work (state, none, ms);
}

double
carpace_reserve_lowest (const CarpaceReserveState *state, CarpaceGroup *ret_group)
{
  int lowest = 0;

  for (int group = 1; group < CARPACE_N_GROUPS; group++)
    if (state->fatigued[group] > state->fatigued[lowest])
      lowest = group;
  if (ret_group != NULL)
    *ret_group = (CarpaceGroup) lowest;
  return 1 - state->fatigued[lowest];
}

double
carpace_reserve_falls_s (const CarpaceReserveState *state, const double load[CARPACE_N_GROUPS], double reserve,
                         CarpaceGroup *ret_group)
{
  double soonest = INFINITY;

  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    {
      double s = carpace_reserve_crossing_s (carpace_group_region ((CarpaceGroup) group), state->fatigued[group],
                                             load[group], 1 - reserve);
      if (s < soonest)
        {
          soonest = s;
          if (ret_group != NULL)
            *ret_group = (CarpaceGroup) group;
        }
    }
  return soonest;
}
