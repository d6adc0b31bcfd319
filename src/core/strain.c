/* SPDX-License-Identifier: GPL-3.0-or-later */
/* strain.c: the strain index (RSI), over drills (COSI) and over blocks (CUSI).
 * Sources as in strain.h. Where two pieces do not quite meet (E = 90, D = 60,
 * H = 0.05) the edge belongs to the piece that the paper states for it. */
#include "carpace/strain.h"

#include "strain-pieces.h"

#include <math.h>

#define HM_SLOPE 0.042
#define HM_LOG 0.090

#define MOST_EFFORTS_PER_MIN 600
#define MOST_EFFORT_S 3600
#define MOST_BEND_DEG 90
#define MOST_HOURS 24
/* Room for the rounding of efforts x seconds, far under any real difference. */
#define DUTY_ROUNDING 1e-9

static double
intensity_multiplier (double i)
{
  if (i <= 0)
    return 0;
  if (i <= 0.4)
    return ((30 * i - 15.60) * i + 13.00) * i + 0.40;
  return ((36 * i - 33.30) * i + 24.77) * i - 1.86;
}

double
carpace_strain_efforts (double efforts_per_min)
{
  double e = efforts_per_min;

  if (e <= 0)
    return 0;
  return e <= EM_STRAIGHT ? EM_FIRST + EM_SLOPE * e : EM_FACTOR * pow (e, EM_POWER);
}

static double
duration_multiplier (double d)
{
  if (d <= 0)
    return 0;
  return d <= 60 ? 0.45 + 0.31 * d : 19.17 * log (d) - 59.44;
}

static double
posture_multiplier (CarpaceWristBend bend, double deg)
{
  switch (bend)
    {
    case CARPACE_WRIST_STRAIGHT:
      break;
    case CARPACE_WRIST_FLEXION:
      return 1.2 * exp (0.009 * deg) - 0.2;
    case CARPACE_WRIST_EXTENSION:
      return deg <= 30 ? 1 : 1 + 0.00028 * (deg - 30) * (deg - 30);
    }
  return 1;
}

double
carpace_strain_hours (double hours)
{
  double h = hours;

  if (h <= 0)
    return 0;
  return h <= HM_SHORT ? 0.20 : HM_SLOPE * h + HM_LOG * log (h) + 0.477;
}

double
carpace_strain_hours_slope (double hours)
{
  return HM_SLOPE + HM_LOG / hours;
}

/* False for NaN too. */
static bool
within (double x, double most)
{
  return x >= 0 && x <= most;
}

static bool
bend_is_known (const CarpaceStrainTask *task)
{
  switch (task->bend)
    {
    case CARPACE_WRIST_STRAIGHT:
      return task->bend_deg == 0;
    case CARPACE_WRIST_FLEXION:
    case CARPACE_WRIST_EXTENSION:
      return within (task->bend_deg, MOST_BEND_DEG);
    }
  return false;
}

static CarpaceStrainFault
task_fault (const CarpaceStrainTask *task)
{
  if (!within (task->intensity, 1))
    return CARPACE_STRAIN_BAD_INTENSITY;
  if (!within (task->efforts_per_min, MOST_EFFORTS_PER_MIN))
    return CARPACE_STRAIN_BAD_EFFORTS;
  if (!within (task->effort_lasts_s, MOST_EFFORT_S))
    return CARPACE_STRAIN_BAD_DURATION;
  if (!within (task->efforts_per_min * task->effort_lasts_s, CARPACE_MOST_DUTY_S * (1 + DUTY_ROUNDING)))
    return CARPACE_STRAIN_BAD_DUTY;
  if (!bend_is_known (task))
    return CARPACE_STRAIN_BAD_POSTURE;
  if (!within (task->hours, MOST_HOURS))
    return CARPACE_STRAIN_BAD_HOURS;
  return CARPACE_STRAIN_OK;
}

CarpaceStrainFault
carpace_strain_task (const CarpaceStrainTask *task, CarpaceStrain *ret_strain)
{
  CarpaceStrainFault fault = task_fault (task);
  CarpaceStrain strain;

  if (fault != CARPACE_STRAIN_OK)
    return fault;
  strain.im = intensity_multiplier (task->intensity);
  strain.em = carpace_strain_efforts (task->efforts_per_min);
  strain.dm = duration_multiplier (task->effort_lasts_s);
  strain.pm = posture_multiplier (task->bend, task->bend_deg);
  strain.hm = carpace_strain_hours (task->hours);
  strain.index = strain.im * strain.em * strain.dm * strain.pm * strain.hm;
  *ret_strain = strain;
  return CARPACE_STRAIN_OK;
}

/* One term of a sum: its index, and the amount (efforts or hours) it brings. */
typedef struct { double index, amount; } Term;

/* Highest index first; of equals the smaller amount, which gives the higher sum. */
static bool
comes_before (Term a, Term b)
{
  return a.index > b.index || (a.index == b.index && a.amount < b.amount);
}

static void
insert_sorted (Term *terms, size_t n, Term term)
{
  for (; n > 0 && comes_before (term, terms[n - 1]); n--)
    terms[n] = terms[n - 1];
  terms[n] = term;
}

/* First index + what each further one adds: index_k / m(a_k) x (m(A_k) - m(A_k-1)). */
static double
sum_of_terms (const Term *terms, size_t n, double (*multiplier) (double))
{
  double sum = 0, amount = 0;

  for (size_t i = 0; i < n && terms[i].index > 0; i++)
    {
      double before = multiplier (amount);
      amount += terms[i].amount;
      sum += terms[i].index / multiplier (terms[i].amount) * (multiplier (amount) - before);
    }
  return sum;
}

CarpaceStrainFault
carpace_strain_block (const CarpaceStrainTask *tasks, size_t n_tasks, double *ret_index)
{
  Term terms[CARPACE_STRAIN_TASKS];
  double duty = 0;

  if (n_tasks > CARPACE_STRAIN_TASKS)
    return CARPACE_STRAIN_TOO_MANY;
  for (size_t i = 0; i < n_tasks; i++)
    {
      CarpaceStrain strain;
      CarpaceStrainFault fault = carpace_strain_task (&tasks[i], &strain);
      if (fault != CARPACE_STRAIN_OK)
        return fault;
      insert_sorted (terms, i, (Term) { .index = strain.index, .amount = tasks[i].efforts_per_min });
      duty += tasks[i].efforts_per_min * tasks[i].effort_lasts_s;
    }
  if (duty > CARPACE_MOST_DUTY_S * (1 + DUTY_ROUNDING))
    return CARPACE_STRAIN_BAD_DUTY;
  *ret_index = sum_of_terms (terms, n_tasks, carpace_strain_efforts);
  return CARPACE_STRAIN_OK;
}

CarpaceStrainFault
carpace_strain_day (const double *block_index, const double *block_hours, size_t n_blocks, double *ret_index)
{
  Term terms[CARPACE_STRAIN_TASKS];
  double hours = 0;

  if (n_blocks > CARPACE_STRAIN_TASKS)
    return CARPACE_STRAIN_TOO_MANY;
  for (size_t i = 0; i < n_blocks; i++)
    {
      if (!(block_index[i] >= 0) || isinf (block_index[i]))
        return CARPACE_STRAIN_BAD_INTENSITY;
      hours += block_hours[i];
      if (!within (block_hours[i], MOST_HOURS) || !within (hours, MOST_HOURS)
          || (block_hours[i] == 0 && block_index[i] > 0))
        return CARPACE_STRAIN_BAD_HOURS;
      insert_sorted (terms, i, (Term) { .index = block_index[i], .amount = block_hours[i] });
    }
  *ret_index = sum_of_terms (terms, n_blocks, carpace_strain_hours);
  return CARPACE_STRAIN_OK;
}
