/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-strain.c: the strain index against published figures, its edges, and
 * that it rises with what it is made of.
 * Paper: Garg, Moore, Kapellusch 2017, Ergonomics 60:912 (RSI), 60:1033 (COSI,
 * CUSI). Where a row says "published", the figure stands on the result page of
 * an open ergonomics calculator; "computed", it follows from the paper's
 * formulas worked apart from this code. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/strain.h"
#include "random.h"
#include "strain-pieces.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))
#define SEED UINT64_C (20270302)

static void
assert_close (double is, double should, double within)
{
  if (!(fabs (is - should) <= within))
    fail_msg ("%.10g is not %.10g", is, should);
}

static CarpaceStrainTask
plain (void)
{
  return (CarpaceStrainTask) { .intensity = 0.12, .efforts_per_min = 1, .effort_lasts_s = 0.1, .hours = 1 };
}

static CarpaceStrain
strain_of (CarpaceStrainTask task)
{
  CarpaceStrain strain;
  assert_int_equal (carpace_strain_task (&task, &strain), CARPACE_STRAIN_OK);
  return strain;
}

static double
im (double i)
{
  CarpaceStrainTask task = plain ();
  task.intensity = i;
  return strain_of (task).im;
}

static double
em (double e)
{
  CarpaceStrainTask task = plain ();
  task.efforts_per_min = e;
  return strain_of (task).em;
}

static double
dm (double d)
{
  CarpaceStrainTask task = plain ();
  task.efforts_per_min = 0.01;
  task.effort_lasts_s = d;
  return strain_of (task).dm;
}

static double
flexed (double deg)
{
  CarpaceStrainTask task = plain ();
  task.bend = CARPACE_WRIST_FLEXION;
  task.bend_deg = deg;
  return strain_of (task).pm;
}

static double
extended (double deg)
{
  CarpaceStrainTask task = plain ();
  task.bend = CARPACE_WRIST_EXTENSION;
  task.bend_deg = deg;
  return strain_of (task).pm;
}

static double
hm (double h)
{
  CarpaceStrainTask task = plain ();
  task.hours = h;
  return strain_of (task).hm;
}

static void
multipliers (void **state)
{
  static const struct { const char *row; double (*multiplier) (double); double at, is, within; } rows[] = {
    { .row = "HM(4), published", .multiplier = hm, .at = 4, .is = 0.7698, .within = 5e-5 },
    { .row = "HM(8), published", .multiplier = hm, .at = 8, .is = 1.0001, .within = 5.1e-5 },
    { .row = "IM(.05), computed", .multiplier = im, .at = 0.05, .is = 1.01475, .within = 5e-6 },
    { .row = "IM(.1), computed", .multiplier = im, .at = 0.1, .is = 1.574, .within = 5e-6 },
    { .row = "IM(.12), computed", .multiplier = im, .at = 0.12, .is = 1.7872, .within = 5e-6 },
    { .row = "IM(.2), computed", .multiplier = im, .at = 0.2, .is = 2.616, .within = 5e-6 },
    { .row = "IM(.4), both pieces meet", .multiplier = im, .at = 0.4, .is = 5.024, .within = 5e-6 },
    { .row = "IM just over .4", .multiplier = im, .at = 0.4 + 1e-9, .is = 5.024, .within = 5e-6 },
    { .row = "IM just past .4, by the upper piece", .multiplier = im, .at = 0.402, .is = 5.0548599, .within = 5e-7 },
    { .row = "IM(.7), computed", .multiplier = im, .at = 0.7, .is = 11.51, .within = 5e-6 },
    { .row = "IM(1), computed", .multiplier = im, .at = 1, .is = 25.61, .within = 5e-6 },
    { .row = "EM(1), computed", .multiplier = em, .at = 1, .is = 0.35, .within = 5e-6 },
    { .row = "EM(30), computed", .multiplier = em, .at = 30, .is = 7.6, .within = 5e-6 },
    { .row = "EM(90), its own side", .multiplier = em, .at = 90, .is = 22.6, .within = 1e-12 },
    { .row = "EM just over 90, the other side", .multiplier = em, .at = 90 + 1e-9, .is = 22.59762, .within = 5e-5 },
    { .row = "EM(120), computed", .multiplier = em, .at = 120, .is = 39.7138, .within = 5e-5 },
    { .row = "EM(240), computed", .multiplier = em, .at = 240, .is = 154.511, .within = 5e-4 },
    { .row = "DM(.1), computed", .multiplier = dm, .at = 0.1, .is = 0.481, .within = 5e-6 },
    { .row = "DM(.5), computed", .multiplier = dm, .at = 0.5, .is = 0.605, .within = 5e-6 },
    { .row = "DM(3), computed", .multiplier = dm, .at = 3, .is = 1.38, .within = 5e-6 },
    { .row = "DM(60), its own side", .multiplier = dm, .at = 60, .is = 19.05, .within = 1e-12 },
    { .row = "DM just over 60, the other side", .multiplier = dm, .at = 60 + 1e-9, .is = 19.048585, .within = 5e-6 },
    { .row = "DM(61), computed", .multiplier = dm, .at = 61, .is = 19.3655, .within = 5e-5 },
    { .row = "DM(180), computed", .multiplier = dm, .at = 180, .is = 40.1090, .within = 5e-5 },
    { .row = "PM flexion 15, computed", .multiplier = flexed, .at = 15, .is = 1.17344, .within = 5e-6 },
    { .row = "PM flexion 45, computed", .multiplier = flexed, .at = 45, .is = 1.59916, .within = 5e-6 },
    { .row = "PM flexion 0 is straight", .multiplier = flexed, .at = 0, .is = 1, .within = 1e-12 },
    { .row = "PM extension 0", .multiplier = extended, .at = 0, .is = 1, .within = 0 },
    { .row = "PM extension 30", .multiplier = extended, .at = 30, .is = 1, .within = 0 },
    { .row = "PM extension 30.5, computed", .multiplier = extended, .at = 30.5, .is = 1.00007, .within = 5e-8 },
    { .row = "PM extension 45, computed", .multiplier = extended, .at = 45, .is = 1.063, .within = 5e-6 },
    { .row = "PM extension 60, computed", .multiplier = extended, .at = 60, .is = 1.252, .within = 5e-6 },
    { .row = "HM(.05), its own side", .multiplier = hm, .at = 0.05, .is = 0.2, .within = 0 },
    { .row = "HM just over .05, the other side", .multiplier = hm, .at = 0.05 + 1e-12, .is = 0.2094841, .within = 5e-7 },
    { .row = "HM(.25), computed", .multiplier = hm, .at = 0.25, .is = 0.362734, .within = 5e-7 },
    { .row = "HM(1), computed", .multiplier = hm, .at = 1, .is = 0.519, .within = 5e-7 },
    { .row = "HM(2), computed", .multiplier = hm, .at = 2, .is = 0.623383, .within = 5e-7 },
    { .row = "HM(12), computed", .multiplier = hm, .at = 12, .is = 1.20464, .within = 5e-6 },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      assert_close (rows[i].multiplier (rows[i].at), rows[i].is, rows[i].within);
    }
}

static void
tasks (void **state)
{
  static const struct { const char *row; CarpaceStrainTask task; double index, within; } rows[] = {
    { .row = "one light effort a minute, computed",
      .task = { .intensity = 0.1, .efforts_per_min = 1, .effort_lasts_s = 1, .hours = 8 }, .index = 0.418747, .within = 5e-7 },
    { .row = "a shop floor, computed",
      .task = { .intensity = 0.3, .efforts_per_min = 5, .effort_lasts_s = 2, .bend = CARPACE_WRIST_EXTENSION,
                .bend_deg = 15, .hours = 8 }, .index = 5.35412, .within = 5e-6 },
    { .row = "aiming, computed",
      .task = { .intensity = 0.12, .efforts_per_min = 60, .effort_lasts_s = 0.3, .bend = CARPACE_WRIST_EXTENSION,
                .bend_deg = 25, .hours = 2 }, .index = 9.13493, .within = 5e-6 },
    { .row = "fast button presses, computed",
      .task = { .intensity = 0.12, .efforts_per_min = 120, .effort_lasts_s = 0.25, .bend = CARPACE_WRIST_EXTENSION,
                .bend_deg = 25, .hours = 2 }, .index = 23.3395, .within = 5e-5 },
    { .row = "no force", .task = { .intensity = 0, .efforts_per_min = 60, .effort_lasts_s = 0.3, .hours = 2 } },
    { .row = "no effort", .task = { .intensity = 0.1, .efforts_per_min = 0, .effort_lasts_s = 0.3, .hours = 2 } },
    { .row = "none that lasts", .task = { .intensity = 0.1, .efforts_per_min = 60, .effort_lasts_s = 0, .hours = 2 } },
    { .row = "no hours", .task = { .intensity = 0.1, .efforts_per_min = 60, .effort_lasts_s = 0.3, .hours = 0 } },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      CarpaceStrain strain = strain_of (rows[i].task);
      assert_close (strain.index, rows[i].index, rows[i].within);
      assert_close (strain.index, strain.im * strain.em * strain.dm * strain.pm * strain.hm, 1e-12);
    }
}

static void
outside_a_domain_is_a_fault (void **state)
{
  static const struct { const char *row; CarpaceStrainTask task; CarpaceStrainFault fault; } rows[] = {
    { .row = "intensity under 0", .task = { .intensity = -0.01 }, .fault = CARPACE_STRAIN_BAD_INTENSITY },
    { .row = "intensity over 1", .task = { .intensity = 1.0001 }, .fault = CARPACE_STRAIN_BAD_INTENSITY },
    { .row = "intensity no number", .task = { .intensity = NAN }, .fault = CARPACE_STRAIN_BAD_INTENSITY },
    { .row = "efforts over 600", .task = { .efforts_per_min = 601 }, .fault = CARPACE_STRAIN_BAD_EFFORTS },
    { .row = "efforts without end", .task = { .efforts_per_min = INFINITY }, .fault = CARPACE_STRAIN_BAD_EFFORTS },
    { .row = "an hour", .task = { .efforts_per_min = 0.01, .effort_lasts_s = 3600 }, .fault = CARPACE_STRAIN_OK },
    { .row = "over an hour", .task = { .effort_lasts_s = 3601 }, .fault = CARPACE_STRAIN_BAD_DURATION },
    { .row = "over 60 s a minute", .task = { .efforts_per_min = 61, .effort_lasts_s = 1 }, .fault = CARPACE_STRAIN_BAD_DUTY },
    { .row = "60 s a minute", .task = { .efforts_per_min = 600, .effort_lasts_s = 0.1 }, .fault = CARPACE_STRAIN_OK },
    { .row = "60 s a minute, rounded", .task = { .efforts_per_min = 49, .effort_lasts_s = 60. / 49 }, .fault = CARPACE_STRAIN_OK },
    { .row = "bent and straight", .task = { .bend_deg = 5 }, .fault = CARPACE_STRAIN_BAD_POSTURE },
    { .row = "flexed over 90", .task = { .bend = CARPACE_WRIST_FLEXION, .bend_deg = 91 }, .fault = CARPACE_STRAIN_BAD_POSTURE },
    { .row = "extended under 0", .task = { .bend = CARPACE_WRIST_EXTENSION, .bend_deg = -1 }, .fault = CARPACE_STRAIN_BAD_POSTURE },
    { .row = "over a day", .task = { .hours = 24.1 }, .fault = CARPACE_STRAIN_BAD_HOURS },
    { .row = "hours under 0", .task = { .hours = -1 }, .fault = CARPACE_STRAIN_BAD_HOURS },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceStrain strain = { .index = 12345 };
      print_message ("%s\n", rows[i].row);
      assert_int_equal (carpace_strain_task (&rows[i].task, &strain), rows[i].fault);
      assert_true ((strain.index == 12345) == (rows[i].fault != CARPACE_STRAIN_OK));
    }
}

/* The paper's own worked example, with its partial terms as published. */
static void
the_published_example (void **state)
{
  static const CarpaceStrainTask a[] = {
    { .intensity = 0.2, .efforts_per_min = 5, .effort_lasts_s = 3, .hours = 4 },
    { .intensity = 0.4, .efforts_per_min = 2.6, .effort_lasts_s = 1.2, .hours = 4 },
    { .intensity = 0.7, .efforts_per_min = 1, .effort_lasts_s = 1, .hours = 4 },
  };
  static const CarpaceStrainTask b[] = {
    { .intensity = 0.1, .efforts_per_min = 0.5, .effort_lasts_s = 1, .bend = CARPACE_WRIST_FLEXION, .bend_deg = 15, .hours = 4 },
    { .intensity = 0.5, .efforts_per_min = 2, .effort_lasts_s = 3, .bend = CARPACE_WRIST_FLEXION, .bend_deg = 15, .hours = 4 },
  };
  static const double terms[] = { 3.751540, 2.066302, 1.683402 };
  double index[2], hours[] = { 4, 4 }, day;

  assert_int_equal (carpace_strain_block (a, 3, &index[0]), CARPACE_STRAIN_OK);
  assert_int_equal (carpace_strain_block (b, 2, &index[1]), CARPACE_STRAIN_OK);
  assert_int_equal (carpace_strain_day (index, hours, 2, &day), CARPACE_STRAIN_OK);
  assert_close (index[0], 7.5012, 5e-5);
  assert_close (index[1], 5.1461, 5e-5);
  assert_close (day, 9.0414, 5e-5);
  assert_close (terms[0] + terms[1] + terms[2], index[0], 1.5e-6);
  for (size_t n = 1; n <= 3; n++)
    {
      /* the n highest alone come to the sum of the first n terms */
      double sum = 0, is;
      for (size_t i = 0; i < n; i++)
        sum += terms[i];
      assert_int_equal (carpace_strain_block (a, n, &is), CARPACE_STRAIN_OK);
      assert_close (is, sum, 1.5e-6);
    }
}

static void
one_alone_and_none (void **state)
{
  CarpaceStrainTask task = plain (), many[CARPACE_STRAIN_TASKS + 1];
  double index = -1, hours[CARPACE_STRAIN_TASKS + 1] = { 0 }, indices[CARPACE_STRAIN_TASKS + 1] = { 0 };

  assert_int_equal (carpace_strain_block (&task, 1, &index), CARPACE_STRAIN_OK);
  assert_close (index, strain_of (task).index, 1e-15);
  assert_int_equal (carpace_strain_day (&(double) { 3.25 }, &(double) { 1 }, 1, &index), CARPACE_STRAIN_OK);
  assert_close (index, 3.25, 1e-15);
  assert_int_equal (carpace_strain_block (NULL, 0, &index), CARPACE_STRAIN_OK);
  assert_true (index == 0);
  assert_int_equal (carpace_strain_day (NULL, NULL, 0, &index), CARPACE_STRAIN_OK);
  assert_true (index == 0);
  for (size_t i = 0; i < COUNT (many); i++)
    many[i] = (CarpaceStrainTask) { 0 };
  index = -1;
  assert_int_equal (carpace_strain_block (many, COUNT (many), &index), CARPACE_STRAIN_TOO_MANY);
  assert_int_equal (carpace_strain_day (indices, hours, COUNT (indices), &index), CARPACE_STRAIN_TOO_MANY);
  assert_int_equal (carpace_strain_day (&(double) { 1 }, &(double) { 0 }, 1, &index), CARPACE_STRAIN_BAD_HOURS);
  assert_int_equal (carpace_strain_day (&(double) { NAN }, &(double) { 1 }, 1, &index), CARPACE_STRAIN_BAD_INTENSITY);
  assert_int_equal (carpace_strain_day ((double[]) { 1, 1 }, (double[]) { 13, 12 }, 2, &index), CARPACE_STRAIN_BAD_HOURS);
  many[0] = many[1] = (CarpaceStrainTask) { .efforts_per_min = 31, .effort_lasts_s = 1 };
  assert_int_equal (carpace_strain_block (many, 2, &index), CARPACE_STRAIN_BAD_DUTY);
  assert_true (index == -1);
}

static CarpaceStrainFault
day_of (double index_1, double hours_1, double index_2, double hours_2, double *ret_day)
{
  return carpace_strain_day ((double[]) { index_1, index_2 }, (double[]) { hours_1, hours_2 }, 2, ret_day);
}

/* Of equals the one with less comes first: 3 + 3 / HM(2) (HM(3) - HM(1)), computed
 * from the published multipliers. The other way about it would be less. */
static void
of_equal_indices_the_smaller_amount_comes_first (void **state)
{
  double hm_1 = 0.042 + 0.477, hm_2 = 2 * 0.042 + 0.090 * log (2) + 0.477, hm_3 = 3 * 0.042 + 0.090 * log (3) + 0.477, day;

  assert_int_equal (day_of (3, 1, 3, 2, &day), CARPACE_STRAIN_OK);
  assert_close (day, 3 + 3 / hm_2 * (hm_3 - hm_1), 1e-12);
  assert_int_equal (day_of (3, 2, 3, 1, &day), CARPACE_STRAIN_OK);
  assert_close (day, 3 + 3 / hm_2 * (hm_3 - hm_1), 1e-12);
}

/* The borders of blocks and days, and what adds nothing. */
static void
sums_at_their_borders (void **state)
{
  CarpaceStrainTask task = plain (), many[CARPACE_STRAIN_TASKS];
  double index = -1, hours[CARPACE_STRAIN_TASKS] = { 0 }, indices[CARPACE_STRAIN_TASKS] = { 0 };

  assert_int_equal (carpace_strain_block ((CarpaceStrainTask[]) { task, { 0 } }, 2, &index), CARPACE_STRAIN_OK);
  assert_close (index, strain_of (task).index, 1e-15);
  many[0] = many[1] = (CarpaceStrainTask) { .efforts_per_min = 30, .effort_lasts_s = 1 };
  assert_int_equal (carpace_strain_block (many, 2, &index), CARPACE_STRAIN_OK);
  many[1].effort_lasts_s = 1.01;
  assert_int_equal (carpace_strain_block (many, 2, &index), CARPACE_STRAIN_BAD_DUTY);
  for (size_t i = 0; i < COUNT (many); i++)
    many[i] = (CarpaceStrainTask) { 0 };
  assert_int_equal (carpace_strain_block (many, COUNT (many), &index), CARPACE_STRAIN_OK);
  assert_int_equal (carpace_strain_day (indices, hours, COUNT (indices), &index), CARPACE_STRAIN_OK);
  assert_int_equal (day_of (1, 12, 1, 12, &index), CARPACE_STRAIN_OK);
  assert_int_equal (day_of (1, 12, 1, 12.01, &index), CARPACE_STRAIN_BAD_HOURS);
  assert_int_equal (day_of (1, 1, 0, 1, &index), CARPACE_STRAIN_OK);
  assert_int_equal (day_of (1, 1, -0.5, 1, &index), CARPACE_STRAIN_BAD_INTENSITY);
  assert_int_equal (day_of (1, 1, INFINITY, 1, &index), CARPACE_STRAIN_BAD_INTENSITY);
  assert_int_equal (day_of (1, 1, 0.5, 0, &index), CARPACE_STRAIN_BAD_HOURS);
  assert_int_equal (day_of (1, 1, 0, 0, &index), CARPACE_STRAIN_OK);
  assert_close (index, 1, 1e-15);
}

/* What the multiplier of hours rises by is its own difference. */
static void
the_slope_of_hours_is_theirs (void **state)
{
  for (double h = 0.1; h < 24; h *= 1.7)
    assert_close (carpace_strain_hours_slope (h),
                  (carpace_strain_hours (h * (1 + 1e-6)) - carpace_strain_hours (h * (1 - 1e-6))) / (2e-6 * h), 1e-8);
}

static CarpaceStrainTask
any_task (Random *random, int32_t n_tasks)
{
  CarpaceStrainTask task = {
    .intensity = random_real (random, 0, 1),
    .efforts_per_min = random_real (random, 0, 600),
    .bend = (CarpaceWristBend) random_whole (random, 0, 2),
    .hours = random_real (random, 0, 24),
  };
  task.effort_lasts_s = random_real (random, 0, 1) * 60 / (n_tasks * task.efforts_per_min);
  task.bend_deg = task.bend == CARPACE_WRIST_STRAIGHT ? 0 : random_real (random, 0, 90);
  return task;
}

/* Where the paper's pieces meet with a step down (E = 90, D = 60: by 0.0024 and
 * 0.0014) the stated side is kept, so a pair astride of them is passed over. */
static bool
astride (double a, double b, double edge)
{
  return a <= edge && b > edge;
}

static void
the_index_rises_with_each_input (void **state)
{
  Random random = { SEED };

  print_message ("seed %llu\n", (unsigned long long) SEED);
  for (int round = 0; round < 20000; round++)
    {
      CarpaceStrainTask task = any_task (&random, 1), more;
      double index = strain_of (task).index;

      more = task;
      more.intensity += random_real (&random, 0, 1 - task.intensity);
      assert_true (strain_of (more).index >= index);
      more = task;
      more.hours += random_real (&random, 0, 24 - task.hours);
      assert_true (strain_of (more).index >= index);
      more = task;
      more.effort_lasts_s += random_real (&random, 0, 60 / task.efforts_per_min - task.effort_lasts_s) * 0.999;
      if (!astride (task.effort_lasts_s, more.effort_lasts_s, 60))
        assert_true (strain_of (more).index >= index);
      more = task;
      more.efforts_per_min += random_real (&random, 0, fmin (600, 60 / task.effort_lasts_s) - task.efforts_per_min) * 0.999;
      if (!astride (task.efforts_per_min, more.efforts_per_min, 90) || more.efforts_per_min > 90.01)
        assert_true (strain_of (more).index >= index);
      more = task;
      if (task.bend != CARPACE_WRIST_STRAIGHT)
        more.bend_deg += random_real (&random, 0, 90 - task.bend_deg);
      assert_true (strain_of (more).index >= index);
    }
}

/* Over a block and over a day: the order does not matter, one more task or
 * block never lowers it, and it is at least the highest and at most the sum. */
static void
sums_lie_between_the_highest_and_the_sum (void **state)
{
  Random random = { SEED + 1 };

  print_message ("seed %llu\n", (unsigned long long) SEED + 1);
  for (int round = 0; round < 5000; round++)
    {
      CarpaceStrainTask task[6], turned[6];
      double block = 0, alone = 0, day = 0, backwards = 0, index[6], hours[6], highest = 0;
      int32_t n = random_whole (&random, 1, 6);

      for (int32_t i = 0; i < n; i++)
        {
          task[i] = any_task (&random, 6);
          task[i].hours = 2;
          task[i].efforts_per_min /= 8; /* together under 90 a minute: the straight piece */
          index[i] = strain_of (task[i]).index;
          hours[i] = random_real (&random, 0.06, 4);
          highest = fmax (highest, index[i]);
        }
      for (int32_t i = 0; i < n; i++)
        turned[i] = task[n - 1 - i];
      assert_int_equal (carpace_strain_block (task, (size_t) n, &block), CARPACE_STRAIN_OK);
      assert_int_equal (carpace_strain_block (turned, (size_t) n, &backwards), CARPACE_STRAIN_OK);
      assert_int_equal (carpace_strain_block (task, (size_t) n - 1, &alone), CARPACE_STRAIN_OK);
      assert_close (backwards, block, 1e-12 * (1 + block));
      assert_true (block >= highest * (1 - 1e-12) && block >= alone * (1 - 1e-12));
      assert_int_equal (carpace_strain_day (index, hours, (size_t) n, &day), CARPACE_STRAIN_OK);
      assert_true (day >= highest * (1 - 1e-12));
      double sum = 0;
      for (int32_t i = 0; i < n; i++)
        sum += index[i];
      assert_true (day <= sum * (1 + 1e-12));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (multipliers),
    cmocka_unit_test (tasks),
    cmocka_unit_test (outside_a_domain_is_a_fault),
    cmocka_unit_test (the_published_example),
    cmocka_unit_test (one_alone_and_none),
    cmocka_unit_test (of_equal_indices_the_smaller_amount_comes_first),
    cmocka_unit_test (sums_at_their_borders),
    cmocka_unit_test (the_slope_of_hours_is_theirs),
    cmocka_unit_test (the_index_rises_with_each_input),
    cmocka_unit_test (sums_lie_between_the_highest_and_the_sum),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
