/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * session-words.h: the closed sets that a session speaks in.
 */
#ifndef CARPACE_SESSION_WORDS_H
#define CARPACE_SESSION_WORDS_H

/** Where a session is. */
typedef enum
{
  CARPACE_STATE_OFF,
  CARPACE_STATE_WAITING,
  CARPACE_STATE_PRACTISING,
  CARPACE_STATE_GAP,
  CARPACE_STATE_REST_DUE,
  CARPACE_STATE_RESTING,
  CARPACE_STATE_LIMIT_REACHED,
  CARPACE_STATE_RATING_DUE,
  CARPACE_STATE_PAUSED,
  CARPACE_STATE_DAY_DONE,
  CARPACE_N_STATES
} CarpaceState;

/** What is known of the hand. */
typedef enum
{
  CARPACE_HAND_STILL,
  CARPACE_HAND_MOVING,
  CARPACE_HAND_PAUSING /**< no input for a while; a gap if it lasts */
} CarpaceHand;

/** What the program can say. */
typedef enum
{
  CARPACE_CUE_MICRO_REST,
  CARPACE_CUE_LIMIT,
  CARPACE_CUE_RATING,
  CARPACE_CUE_NEXT_BLOCK,
  CARPACE_CUE_MORNING,
  CARPACE_CUE_DAY_DONE,
  CARPACE_CUE_CAUTION,
  CARPACE_CUE_UNSTARTED,
  CARPACE_CUE_BEGUN,
  CARPACE_N_CUES
} CarpaceCue;

/** Where it is felt. */
typedef enum
{
  CARPACE_SITE_NONE,
  CARPACE_SITE_PALM_SIDE,
  CARPACE_SITE_LITTLE_FINGER_SIDE,
  CARPACE_SITE_THUMB_SIDE,
  CARPACE_SITE_BACK_OF_FOREARM,
  CARPACE_SITE_FINGERS,
  CARPACE_SITE_ELBOW,
  CARPACE_SITE_SHOULDER,
  CARPACE_SITE_NECK,
  CARPACE_SITE_OTHER_HAND,
  CARPACE_N_SITES
} CarpaceSite;

/** Why an event was refused. The event changes nothing. */
typedef enum
{
  CARPACE_REFUSAL_NO_PLAN,           /**< no plan is in use */
  CARPACE_REFUSAL_NOT_NOW,           /**< has no meaning in this state */
  CARPACE_REFUSAL_RUNNING,           /**< a block is running already */
  CARPACE_REFUSAL_NO_BLOCK,          /**< no block is running */
  CARPACE_REFUSAL_NO_REST_OFFERED,
  CARPACE_REFUSAL_NOTHING_TO_RATE,
  CARPACE_REFUSAL_RATED_TOO_LONG_AGO,
  CARPACE_REFUSAL_OUT_OF_RANGE,
  CARPACE_REFUSAL_CAUTION_OPEN,      /**< no practice while a caution is open, or was today */
  CARPACE_REFUSAL_ABOVE_STOP,        /**< no practice today: a number above stop-above */
  CARPACE_REFUSAL_REST_DAY,          /**< no practice today: a rest day */
  CARPACE_REFUSAL_NO_CAUTION,        /**< none is open */
  CARPACE_REFUSAL_GONE_TOO_EARLY,    /**< "gone" needs three days */
  CARPACE_REFUSAL_SEEN_ONLY,         /**< a sign that asks for the same day is closed by "seen" only */
  CARPACE_REFUSAL_SEEN_WHEN,         /**< not between the day the caution opened and today */
  CARPACE_REFUSAL_DAY_BEHIND,        /**< today is one of the days behind: it came from a file, without its events */
  CARPACE_REFUSAL_IMPOSSIBLE,        /**< a fault of this program: a way that the states do not have */
  CARPACE_N_REFUSALS
} CarpaceRefusal;

#endif
