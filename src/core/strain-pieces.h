/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * strain-pieces.h: the pieces of the multipliers of efforts and hours (sources as
 * in carpace/strain.h), for strain.c and for what has to know where they bend.
 */
#ifndef CARPACE_STRAIN_PIECES_H
#define CARPACE_STRAIN_PIECES_H

/** Efforts a minute: EM_FIRST + EM_SLOPE E, up to EM_STRAIGHT; EM_FACTOR E^EM_POWER beyond. */
#define EM_STRAIGHT 90
#define EM_FIRST 0.10
#define EM_SLOPE 0.25
#define EM_FACTOR 0.00334
#define EM_POWER 1.96

/** Hours up to which their multiplier is one and the same. */
#define HM_SHORT 0.05

/** What the multiplier of hours rises by an hour at @hours, over HM_SHORT. */
double carpace_strain_hours_slope (double hours);

#endif
