/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * muscles.h: which movement loads whose muscles, for a hand and a grip.
 */
#ifndef CARPACE_MUSCLES_H
#define CARPACE_MUSCLES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/** The hand that holds the mouse. */
typedef enum
{
  CARPACE_SIDE_RIGHT,
  CARPACE_SIDE_LEFT,
  CARPACE_N_SIDES
} CarpaceSide;

/** How the mouse is held. */
typedef enum
{
  CARPACE_GRIP_PALM,
  CARPACE_GRIP_CLAW,
  CARPACE_GRIP_FINGERTIP,
  CARPACE_N_GRIPS
} CarpaceGrip;

/** What the hand does in a drill. */
typedef enum
{
  CARPACE_MOVEMENT_SMALL_TURN,
  CARPACE_MOVEMENT_MIDDLE_TURN,
  CARPACE_MOVEMENT_LARGE_TURN,
  CARPACE_MOVEMENT_SHORT_PURSUIT,
  CARPACE_MOVEMENT_LONG_PURSUIT,
  CARPACE_MOVEMENT_BUTTON_PRESS,
  CARPACE_N_MOVEMENTS
} CarpaceMovement;

/** Groups of muscles that a drill loads together. */
typedef enum
{
  CARPACE_GROUP_ULNAR_DEVIATORS,
  CARPACE_GROUP_RADIAL_DEVIATORS,
  CARPACE_GROUP_FINGER_FLEXORS,
  CARPACE_GROUP_WRIST_AND_FINGER_EXTENSORS,
  CARPACE_GROUP_GRIP_AND_THUMB,
  CARPACE_GROUP_PRONATORS,
  CARPACE_GROUP_ELBOW,
  CARPACE_GROUP_SHOULDER_INWARD,
  CARPACE_GROUP_SHOULDER_OUTWARD,
  CARPACE_GROUP_NECK_AND_SHOULDER_GIRDLE,
  CARPACE_N_GROUPS
} CarpaceGroup;

/** Joint regions that the fatigue model has constants for. */
typedef enum
{
  CARPACE_REGION_HAND,
  CARPACE_REGION_ELBOW,
  CARPACE_REGION_SHOULDER,
  CARPACE_N_REGIONS
} CarpaceRegion;

/** Which way the mouse moves over the desk. */
typedef enum
{
  CARPACE_TOWARD_RIGHT,
  CARPACE_TOWARD_LEFT
} CarpaceToward;

/** The region whose constants stand for @group in the fatigue model. */
CarpaceRegion carpace_group_region (CarpaceGroup group);

/** The share of a drill's intensity that each group carries, 0..1, while the
 * mouse moves one way. To the right a right hand deviates ulnarward and turns
 * the shoulder outward, a left hand the mirror of it. Pursuits and button presses
 * have rows of the same kind. Where each row comes from is said in muscles.c. */
void carpace_muscles_toward (CarpaceMovement movement, CarpaceGrip grip, CarpaceSide side, CarpaceToward toward,
                             double ret_share[CARPACE_N_GROUPS]);

/** The share of a drill's intensity that each group carries, 0..1, while the
 * hand is active: of both ways, the one that asks more of the group. The prime
 * group's is 1: a drill's intensity is that of its most loaded group. A drill
 * goes both ways alike, so left and right hands come to the same. */
void carpace_muscles_shares (CarpaceMovement movement, CarpaceGrip grip, CarpaceSide side,
                             double ret_share[CARPACE_N_GROUPS]);

/** The group that carries most in a drill of @movement: its prime group; the
 * first of equals, in the order of CarpaceGroup. */
CarpaceGroup carpace_muscles_prime (CarpaceMovement movement, CarpaceGrip grip, CarpaceSide side);

/** Hand travel on the desk for a turn of the view: angle / 360 x cm per turn.
 * @param view_turn_deg 0..720 @param cm_per_turn 2..200 @return cm */
double carpace_travel_cm (double view_turn_deg, double cm_per_turn);

/** The turning movement for a hand travel: under 3 cm small, to 7 cm middle,
 * over 7 cm large (a derivation of this project's own). */
CarpaceMovement carpace_travel_movement (double travel_cm);

#endif
