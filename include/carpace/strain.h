/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * strain.h: the strain index of a drill, of a block, of a day.
 *
 * The Revised Strain Index (RSI) and its composite (COSI, over the drills of a
 * block) and cumulative (CUSI, over the blocks of a day) forms.
 * Sources: Garg, Moore, Kapellusch 2017, Ergonomics 60:912,
 * doi 10.1080/00140139.2016.1237678, and 60:1033,
 * doi 10.1080/00140139.2016.1246675.
 *
 * Built for industrial work: it compares plans, drills and weeks for one hand,
 * and decides nothing.
 */
#ifndef CARPACE_STRAIN_H
#define CARPACE_STRAIN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/** Seconds of effort in a minute, at most. */
#define CARPACE_MOST_DUTY_S 60

/** How the wrist is bent. */
typedef enum
{
  CARPACE_WRIST_STRAIGHT,
  CARPACE_WRIST_FLEXION,
  CARPACE_WRIST_EXTENSION
} CarpaceWristBend;

/** One task of one hand. */
typedef struct
{
  double intensity;        /**< share of maximal strength, 0..1; 0 is no exertion */
  double efforts_per_min;  /**< 0..600 */
  double effort_lasts_s;   /**< 0..3600; efforts_per_min x effort_lasts_s at most 60 */
  CarpaceWristBend bend;
  double bend_deg;         /**< 0..90, 0 where straight */
  double hours;            /**< hours a day, 0..24 */
} CarpaceStrainTask;

/** An index with its five multipliers. A multiplier of nothing (no force, no
 * efforts, none that lasts, no hours) is 0: its formula does not apply there. */
typedef struct
{
  double index; /**< their product; 0 where there is no exertion */
  double im;    /**< intensity */
  double em;    /**< efforts a minute */
  double dm;    /**< seconds an effort */
  double pm;    /**< posture of the wrist */
  double hm;    /**< hours a day */
} CarpaceStrain;

/** What a task is refused for; the first that applies. */
typedef enum
{
  CARPACE_STRAIN_OK,
  CARPACE_STRAIN_BAD_INTENSITY,
  CARPACE_STRAIN_BAD_EFFORTS,
  CARPACE_STRAIN_BAD_DURATION,
  CARPACE_STRAIN_BAD_DUTY,    /**< efforts x seconds over 60 s a minute */
  CARPACE_STRAIN_BAD_POSTURE,
  CARPACE_STRAIN_BAD_HOURS,
  CARPACE_STRAIN_TOO_MANY     /**< more tasks or blocks than CARPACE_STRAIN_TASKS */
} CarpaceStrainFault;

/** Most tasks of a block, and blocks of a day, in one sum. */
#define CARPACE_STRAIN_TASKS 128

/** The strain index of one task. Outside a domain is a fault, never
 * extrapolated. @return CARPACE_STRAIN_OK, else *ret_strain is untouched. */
CarpaceStrainFault carpace_strain_task (const CarpaceStrainTask *task, CarpaceStrain *ret_strain);

/** The multiplier of @efforts_per_min alone, 0 and up, without an upper end: it
 * is what sums of efforts go through. */
double carpace_strain_efforts (double efforts_per_min);

/** The multiplier of @hours a day alone, 0 and up. */
double carpace_strain_hours (double hours);

/** The index over tasks that share a block: sorted by index, highest first (of
 * equals the one with fewer efforts), each further one adds what its efforts
 * add on top of those before. Every task carries the block's hours. 0 tasks
 * give 0. Tasks that together last over 60 s a minute are CARPACE_STRAIN_BAD_DUTY.
 * @return CARPACE_STRAIN_OK, else *ret_index is untouched */
CarpaceStrainFault carpace_strain_block (const CarpaceStrainTask *tasks, size_t n_tasks, double *ret_index);

/** The index over a day's blocks from each block's index and hours, 24 h
 * together at most; sorted as above, by hours.
 * @return CARPACE_STRAIN_OK, else *ret_index is untouched */
CarpaceStrainFault carpace_strain_day (const double *block_index, const double *block_hours, size_t n_blocks,
                                       double *ret_index);

#endif
