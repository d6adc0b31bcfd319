/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * session-layout.h: how large a session is, for whoever holds one.
 *
 * The fields belong to src/core; everybody else reads a session through view.h.
 * All times are elapsed ms unless said otherwise.
 */
#ifndef CARPACE_SESSION_LAYOUT_H
#define CARPACE_SESSION_LAYOUT_H

#include "carpace/dose.h"
#include "carpace/instant.h"
#include "carpace/plan.h"
#include "carpace/reserve.h"
#include "carpace/session-words.h"

/** Ratings a day can hold; a further block is refused. */
#define CARPACE_DAY_RATINGS 128

/** How it stands with the micro-rest of a block. */
typedef enum
{
  CARPACE_REST_NONE,      /**< none is due */
  CARPACE_REST_DUE,       /**< due: offered in the next gap */
  CARPACE_REST_PUT_OFF,   /**< due, but not in this gap */
  CARPACE_REST_HAD,       /**< none is due, and this stillness has had its rest */
  CARPACE_REST_HAD_ANEW   /**< it has had its rest, and one is due in the next gap */
} CarpaceRestPhase;

/** One block's (or match's) rating, and the row of the tightening table that
 * it came to. */
typedef struct
{
  int32_t block;       /**< 0 for a match */
  int32_t discomfort;  /**< -1 where unanswered or still open */
  CarpaceSite site;
  int64_t rated_at;    /**< where answered */
  int64_t asked_at;
  int32_t base;        /**< the day's own reference when it was given */
  bool late;
  bool tightens;       /**< `row` is one of the tightening rows */
  CarpaceRule row;
} CarpaceRated;

/** The block (or match) that is running. */
typedef struct
{
  bool running;
  bool match;
  bool beyond;
  bool by_limit;         /**< its limit was reached */
  int32_t number;        /**< from 1; 0 for a match */
  int64_t limit_ms, after_ms, rest_ms;
  int64_t closed_ms;     /**< active time of closed stretches */
  bool in_stretch;
  int64_t stretch_began;
  int32_t drill;         /**< the stretch's, or the last one's */
  int32_t runs;
  int64_t gap_began;
  int64_t limit_at;      /**< when the limit was reached */

  bool reach;            /**< input over an offer, undecided */
  int64_t reach_began;
  int64_t reach_piece_began; /**< the stretch of it that is under way, or was last */
  int64_t reach_closed_ms;   /**< active time of its stretches before that one */
  int32_t reach_runs;        /**< runs of those */

  int64_t rest_from_ms;  /**< active time at which the triggers began anew */
  int32_t rest_from_runs;
  CarpaceReserveState reserve;
  int64_t reserve_at;    /**< the elapsed time that `reserve` is of */
  int32_t declined;
  CarpaceRestPhase rest;
  int64_t rest_earliest; /**< no offer before */
  int64_t rest_due_at;   /**< due, or due again */
  int64_t rest_shown_at; /**< last showing in a run */
  int32_t card;          /**< index into plan->shown of the exercise on the card */
  bool between_drills;

  int64_t count_ms;      /**< countdown: stillness it asks for, that before the answer included */
  int64_t count_from;    /**< stillness counts from here on ... */
  int64_t counted_ms;    /**< ... on top of this */
  int64_t forgiven_until;
  int64_t moving_from;   /**< counted input began */
  int64_t moved_ms;      /**< counted input, summed */
  int64_t clicks_to_ms;  /**< active time up to which clicks were told */
} CarpaceRunning;

/** The practice day that is open. */
typedef struct
{
  bool open;
  bool done;
  bool no_practice;
  CarpaceRefusal why_not;    /**< of a day without practice */
  bool beyond;
  bool caution;              /**< a caution was open today */
  bool caution_closed;       /**< and was closed today */
  bool facts;                /**< the desktop told of input */
  CarpaceDay day;
  int64_t dose_ms;
  CarpaceMorning morning;    /**< where given */
  bool morning_given;
  int32_t n_limits;
  int64_t limit_ms[CARPACE_DAY_BLOCKS];
  int64_t had_limit_ms[CARPACE_DAY_BLOCKS]; /**< of the blocks that have ended */
  int32_t n_blocks;          /**< blocks ended */
  int64_t done_ms;           /**< active time that counts, of what has ended */
  int64_t match_ms;
  int64_t other_ms;
  int64_t last_end;
  int64_t opened_at;
  bool practised_or_match;
  CarpaceRule rule;          /**< the last that decided the dose */
  int32_t n_ratings;
  CarpaceRated rating[CARPACE_DAY_RATINGS];
  CarpaceDecision decision;  /**< the latest */
  bool has_decision;
} CarpaceToday;

typedef struct CarpaceSession
{
  CarpaceState state;
  const CarpacePlan *plan;
  const CarpacePlan *next_plan;  /**< from the next practice day on */
  CarpaceInstant last;           /**< of the last step */
  bool suspended;
  bool frozen;                   /**< pausing because suspended: nothing counts on */
  bool on_air;
  bool intermission_ahead;       /**< one is to begin at intermission_at */
  int64_t intermission_at;       /**< beginning of the last one told, CARPACE_NEVER where none */
  bool caution_held_back;        /**< its cue comes when the stream ends */

  CarpaceHand hand;
  int64_t moving_since;
  int64_t still_since;
  bool uncounted;                /**< the stretch that the hand moves in is not to be summed outside practice */
  bool elsewhere;                /**< what the hand does away from the practice window, in a block: it moves */

  bool cue_on[CARPACE_N_CUES];
  bool cue_asked[CARPACE_N_CUES]; /**< on as a question */
  bool start_asked;
  bool start_over_rating;
  bool rating_open;
  int64_t rating_until;
  bool wait_open;
  int64_t wait_until;
  bool unstarted_asked;          /**< input without a block was asked about in this wait */
  int64_t unstarted_from;        /**< such input began; CARPACE_NEVER where there is none */
  int64_t unstarted_ms;          /**< such input before it, in this wait */
  bool overrunning;              /**< finish-run ended a block with input on */
  int64_t overrun_from;
  int32_t overrun_block;
  CarpaceDay morning_shown_for;

  CarpaceRunning block;
  CarpaceToday today;
  CarpaceHistory history;
  CarpaceHistory at_opening;
} CarpaceSession;

#endif
