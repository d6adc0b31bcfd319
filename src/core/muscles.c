/* SPDX-License-Identifier: GPL-3.0-or-later */
/* muscles.c: the table from movement and grip to groups of muscles.
 *
 * What it rests on:
 * - Prime movers: ulnar deviation FCU and ECU; radial deviation FCR, ECRL,
 *   ECRB with APL, EPB; click FDS, FDP; hover and lift EDC, EI; grip of the
 *   mouse AdP, FPB, first DI; held flat PT, PQ (handbook anatomy, from memory).
 * - Ulnar deviators above extensors, both near the drill's own intensity:
 *   surface EMG in mouse aiming, ulnar wrist extensor 12.9 %, finger extensors
 *   11.4 % of maximum, a ratio of 0.88 (Forman 2024, Appl Ergon,
 *   doi 10.1016/j.apergo.2024.104284). The EMG share is not the torque share.
 * - From fingers to shoulder with hand travel: Lacquaniti 1987, Bohan 2003.
 * - A pursuit holds the grip isometrically, a short one like a small turn with
 *   a higher hold; claw adds finger flexors and extensors, fingertip the small
 *   hand muscles (common practice).
 * - The single figures are this project's own derivation from these, for a
 *   clinician to confirm. An antagonist carries about 0.4 of the mover.
 */
#include "carpace/muscles.h"

/* The ways of a hand, the same for left and right: outward is away from the
 * body's middle, ulnar deviation with outward rotation of the shoulder. */
typedef enum { OUTWARD, INWARD, N_WAYS } Way;

#define GROUPS(ulnar, radial, flexors, extensors, grip, pronators, elbow, inward, outward, girdle) \
  { [CARPACE_GROUP_ULNAR_DEVIATORS] = ulnar, [CARPACE_GROUP_RADIAL_DEVIATORS] = radial, \
    [CARPACE_GROUP_FINGER_FLEXORS] = flexors, [CARPACE_GROUP_WRIST_AND_FINGER_EXTENSORS] = extensors, \
    [CARPACE_GROUP_GRIP_AND_THUMB] = grip, [CARPACE_GROUP_PRONATORS] = pronators, [CARPACE_GROUP_ELBOW] = elbow, \
    [CARPACE_GROUP_SHOULDER_INWARD] = inward, [CARPACE_GROUP_SHOULDER_OUTWARD] = outward, \
    [CARPACE_GROUP_NECK_AND_SHOULDER_GIRDLE] = girdle }

static const double shares[CARPACE_N_MOVEMENTS][N_WAYS][CARPACE_N_GROUPS] = {
  /*                                      ulnar radial flex  ext   grip  pron  elbow inw   outw  girdle */
  /* wrist: deviators move, extensors hold the wrist up (0.88: Forman 2024) */
  [CARPACE_MOVEMENT_SMALL_TURN] = {
    [OUTWARD] = GROUPS                   (1.00, 0.40, 0.40, 0.88, 0.50, 0.40, 0.15, 0.10, 0.20, 0.35),
    [INWARD]  = GROUPS                   (0.40, 0.90, 0.40, 0.88, 0.50, 0.40, 0.15, 0.20, 0.10, 0.35) },
  /* wrist and elbow (3 to 7 cm) */
  [CARPACE_MOVEMENT_MIDDLE_TURN] = {
    [OUTWARD] = GROUPS                   (0.75, 0.30, 0.40, 0.80, 0.50, 0.45, 1.00, 0.25, 0.60, 0.50),
    [INWARD]  = GROUPS                   (0.30, 0.70, 0.40, 0.80, 0.50, 0.45, 1.00, 0.60, 0.25, 0.50) },
  /* elbow and shoulder (over 7 cm) */
  [CARPACE_MOVEMENT_LARGE_TURN] = {
    [OUTWARD] = GROUPS                   (0.45, 0.20, 0.40, 0.65, 0.50, 0.40, 0.80, 0.40, 1.00, 0.70),
    [INWARD]  = GROUPS                   (0.20, 0.40, 0.40, 0.65, 0.50, 0.40, 0.80, 0.95, 0.40, 0.70) },
  /* a small turn whose hold outweighs its movement */
  [CARPACE_MOVEMENT_SHORT_PURSUIT] = {
    [OUTWARD] = GROUPS                   (0.85, 0.35, 0.60, 0.85, 1.00, 0.50, 0.15, 0.10, 0.20, 0.40),
    [INWARD]  = GROUPS                   (0.35, 0.80, 0.60, 0.85, 1.00, 0.50, 0.15, 0.20, 0.10, 0.40) },
  /* a large turn with a hold; slow, so the girdle carries the arm the longest */
  [CARPACE_MOVEMENT_LONG_PURSUIT] = {
    [OUTWARD] = GROUPS                   (0.45, 0.20, 0.50, 0.70, 0.70, 0.45, 0.75, 0.35, 0.90, 1.00),
    [INWARD]  = GROUPS                   (0.20, 0.40, 0.50, 0.70, 0.70, 0.45, 0.75, 0.85, 0.35, 1.00) },
  /* finger flexors press, extensors hover and lift; no way of its own */
  [CARPACE_MOVEMENT_BUTTON_PRESS] = {
    [OUTWARD] = GROUPS                   (0.35, 0.35, 1.00, 0.85, 0.60, 0.40, 0.10, 0.10, 0.10, 0.35),
    [INWARD]  = GROUPS                   (0.35, 0.35, 1.00, 0.85, 0.60, 0.40, 0.10, 0.10, 0.10, 0.35) },
};

/* What a grip adds to the palm grip, which spares the finger flexors. */
static const double added[CARPACE_N_GRIPS][CARPACE_N_GROUPS] = {
  [CARPACE_GRIP_CLAW] = { [CARPACE_GROUP_FINGER_FLEXORS] = 0.20, [CARPACE_GROUP_WRIST_AND_FINGER_EXTENSORS] = 0.10 },
  [CARPACE_GRIP_FINGERTIP] = { [CARPACE_GROUP_GRIP_AND_THUMB] = 0.25 },
};

CarpaceRegion
carpace_group_region (CarpaceGroup group)
{
  switch (group)
    {
    case CARPACE_GROUP_ELBOW:
      return CARPACE_REGION_ELBOW;
    case CARPACE_GROUP_SHOULDER_INWARD:
    case CARPACE_GROUP_SHOULDER_OUTWARD:
    case CARPACE_GROUP_NECK_AND_SHOULDER_GIRDLE:
      return CARPACE_REGION_SHOULDER;
    case CARPACE_GROUP_ULNAR_DEVIATORS:
    case CARPACE_GROUP_RADIAL_DEVIATORS:
    case CARPACE_GROUP_FINGER_FLEXORS:
    case CARPACE_GROUP_WRIST_AND_FINGER_EXTENSORS:
    case CARPACE_GROUP_GRIP_AND_THUMB:
    case CARPACE_GROUP_PRONATORS:
    case CARPACE_N_GROUPS:
      break;
    }
  return CARPACE_REGION_HAND;
}

void
carpace_muscles_toward (CarpaceMovement movement, CarpaceGrip grip, CarpaceSide side, CarpaceToward toward,
                        double ret_share[CARPACE_N_GROUPS])
{
  bool own_side = (toward == CARPACE_TOWARD_RIGHT) == (side == CARPACE_SIDE_RIGHT);
  const double *carried = shares[movement][own_side ? OUTWARD : INWARD];

  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    {
      double share = carried[group] + added[grip][group];
      ret_share[group] = share > 1 ? 1 : share;
    }
}

void
carpace_muscles_shares (CarpaceMovement movement, CarpaceGrip grip, CarpaceSide side,
                        double ret_share[CARPACE_N_GROUPS])
{
  double left[CARPACE_N_GROUPS];

  carpace_muscles_toward (movement, grip, side, CARPACE_TOWARD_RIGHT, ret_share);
  carpace_muscles_toward (movement, grip, side, CARPACE_TOWARD_LEFT, left);
  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    if (left[group] > ret_share[group])
      ret_share[group] = left[group];
}

CarpaceGroup
carpace_muscles_prime (CarpaceMovement movement, CarpaceGrip grip, CarpaceSide side)
{
  double share[CARPACE_N_GROUPS];
  CarpaceGroup prime = CARPACE_GROUP_ULNAR_DEVIATORS;

  carpace_muscles_shares (movement, grip, side, share);
  for (int group = 1; group < CARPACE_N_GROUPS; group++)
    if (share[group] > share[prime])
      prime = (CarpaceGroup) group;
  return prime;
}

double
carpace_travel_cm (double view_turn_deg, double cm_per_turn)
{
  return view_turn_deg / 360 * cm_per_turn;
}

CarpaceMovement
carpace_travel_movement (double travel_cm)
{
  if (travel_cm < 3)
    return CARPACE_MOVEMENT_SMALL_TURN;
  return travel_cm <= 7 ? CARPACE_MOVEMENT_MIDDLE_TURN : CARPACE_MOVEMENT_LARGE_TURN;
}
