/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * view.h: all that a face draws, in one value.
 *
 * A face is handed a CarpaceView and draws it; it asks nothing further. Two
 * equal views draw the same.
 */
#ifndef CARPACE_VIEW_H
#define CARPACE_VIEW_H

#include "carpace/session.h"
#include "carpace/sittings.h"

/** The micro-rest that is offered or running. */
typedef struct
{
  bool offered;             /**< the cue is on */
  bool running;             /**< resting: counts down */
  bool waits;               /**< the countdown waits while the hand moves */
  CarpaceExercise exercise;
  CarpaceSide side;         /**< the mouse hand's */
  bool both_sides;
  bool palm_up;             /**< of the two ways it may be done, carpace_exercise_palm_up() */
  bool between_drills;
  int32_t next_drill;       /**< index into plan->drills, -1 where the drill stays */
  int64_t length_ms;
  int64_t remaining_ms;
  int64_t since_ms;         /**< active time since the last rest, or since the block began */
  bool since_rest;          /**< since a rest */
} CarpaceRestView;

/** The rating that is open, or was given a moment ago. */
typedef struct
{
  bool open;
  bool asked_by_start;        /**< a tap rates and starts */
  bool hand_moving;           /**< practice goes on past the block's end: a card can wait for its gap */
  int32_t block;              /**< number of the block, 0 for a match */
  int32_t given;              /**< the number given, -1 where none */
  CarpaceSite site;
  int64_t changeable_for_ms;  /**< a number given can be changed freely for this long, 0 where not */
} CarpaceRatingView;

/** What a face draws. */
typedef struct
{
  CarpaceState state;
  const CarpacePlan *plan;    /**< NULL where none is in use */
  CarpaceDay day;             /**< CARPACE_NO_DAY before the first */
  bool day_open;              /**< today's day has been opened */
  bool no_practice;           /**< today is a day without practice */
  bool without;               /**< today is a planned day without practice: a start asks, and is beyond the plan */
  bool on_air;
  bool intermission;          /**< on air: one is announced, or under way */
  int64_t intermission_in_ms; /**< to its beginning, 0 once it has begun */
  int64_t intermission_to_go_ms; /**< to its end */
  int64_t intermission_length_ms; /**< of that one, or the next. The loop's, and where a pause stood for it, it says
                                       so of those above, too */
  int64_t next_intermission_in_ms; /**< on air: to the next one's beginning; 0 where none is ahead, or one is
                                        under way. The loop's: a session is told of one by its notice */
  bool match;                 /**< the block is a match */
  bool ticking;               /**< active_ms grows as time goes by */
  int64_t input_ms;           /**< input has gone on for so long without a gap; -1 while the hand is still, or
                                   where nobody sees it */
  bool beyond;
  int32_t block;              /**< running, or next where rating-due or waiting; 0 where none */
  int32_t blocks;             /**< how many the day has */
  int64_t limit_ms, after_ms, rest_ms; /**< of that block */
  int64_t active_ms;          /**< in it, as of now */
  int64_t overrun_ms;
  int32_t runs;
  int32_t drill;              /**< index of the drill at hand, -1 where none */
  int64_t remaining_ms;       /**< to its limit, 0 where reached */
  int64_t dose_ms;            /**< today's */
  int64_t dose_remaining_ms;
  int64_t done_ms;            /**< active time today that counts */
  bool day_over;              /**< none is open, or the one that was is over: the next start or morning check opens one */
  bool day_behind;            /**< today was taken in without its events: it is over, and start is refused */
  int32_t n_ahead;            /**< blocks that have not begun, as things stand; where none is open, as the dose stands */
  int64_t ahead_ms[CARPACE_DAY_BLOCKS]; /**< their limits */
  CarpaceSittings sittings;   /**< what has begun today. The loop's: a session does not look back */
  bool next_known;            /**< whether a next cue is in sight */
  CarpaceCue next_cue;
  int64_t next_in_ms;         /**< as things stand; active time where ticking */
  bool cue_on[CARPACE_N_CUES];
  bool cue_asked[CARPACE_N_CUES]; /**< on as a question: another start means yes */
  bool start_asks;            /**< start was asked about once: another means yes */
  CarpaceRestView rest;
  CarpaceRatingView rating;
  bool has_decision;
  CarpaceDecision decision;   /**< the latest of today */
  bool caution_open;
  uint32_t caution_signs;
  bool caution_gone_allowed;  /**< three days have gone by */
  bool morning_asked;         /**< today's card has been answered or its time is over */
  int64_t other_today_ms;     /**< mouse input outside practice today, -1 where not known */
  int64_t other_ms;           /**< mouse input outside practice yesterday, -1 where not known */
  int64_t other_mean_ms;      /**< its 14-day mean, -1 where not known */
  bool unkept;                /**< the diary cannot be written now: what happens is in memory only */
  int32_t unanswered_days;    /**< practice days in a row without any answer, up to yesterday */
} CarpaceView;

/** The entry that tells @cue again, which is on in @view: as it was last told. */
CarpaceEntry carpace_view_cue (const CarpaceView *view, CarpaceCue cue, CarpaceInstant at);

/** What @session looks like at @now. Every byte of *ret_view is set. */
void carpace_view (const CarpaceSession *session, CarpaceInstant now, CarpaceView *ret_view);

#endif
