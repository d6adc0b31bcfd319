/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-private.h: what the files of the session share.
 *
 *   session.c           the door: step, deadlines in their order, what is told
 *   session-states.c    where it can go, and what is taken where
 *   session-hand.c      input and stillness: stretches, gaps, reaches
 *   session-front.c     the practice window: in front or not
 *   session-clicks.c    clicks, by minutes of active time
 *   session-unstarted.c input while a block could begin
 *   session-rest.c      micro-rests: due, offered, answered, taken
 *   session-block.c     blocks: begin, limit, end, wait
 *   session-rating.c    ratings and the tightening table
 *   session-day.c       the day: opening, limits, mornings, cautions, end
 */
#ifndef CARPACE_SESSION_PRIVATE_H
#define CARPACE_SESSION_PRIVATE_H

#include "carpace/session.h"

#define CARPACE_REACH_MS (5 * CARPACE_SECOND_MS)          /* an undecided reach for the mouse */
#define CARPACE_REACH_FORGIVEN_MS CARPACE_SECOND_MS
#define CARPACE_REST_FORGIVEN_MS (2 * CARPACE_SECOND_MS)  /* input after rest now */
#define CARPACE_OFFER_AGAIN_MS CARPACE_MINUTE_MS          /* after input over an offer, or an interrupted rest */
#define CARPACE_DECLINES_A_BLOCK 3
#define CARPACE_LONG_GAP_MS (15 * CARPACE_MINUTE_MS)
#define CARPACE_OVERRUN_MS (10 * CARPACE_MINUTE_MS)       /* of a stretch that outlives its block */
#define CARPACE_NO_BLOCK_MS CARPACE_MINUTE_MS             /* less, without a run, is no block */
#define CARPACE_RATING_OPEN_MS (30 * CARPACE_MINUTE_MS)
#define CARPACE_FOUND_LATE_MS CARPACE_HOUR_MS             /* a block's end found later is not asked about */
#define CARPACE_DECIDES_ANEW_MS CARPACE_MINUTE_MS         /* a correction, free */
#define CARPACE_CORRECTION_MS (10 * CARPACE_MINUTE_MS)    /* a correction, upwards */
#define CARPACE_NEW_DAY_AFTER_MS (5 * CARPACE_HOUR_MS)
#define CARPACE_UNSTARTED_MS (3 * CARPACE_MINUTE_MS)      /* input while a block could begin, before it is asked about */

/* One step under way. */
typedef struct
{
  CarpaceSession *s;
  CarpaceInstant now;
  CarpaceEntries *out;
  const CarpaceEvent *event;
  CarpaceState state_before;
  bool cue_before[CARPACE_N_CUES];
  bool cue_again[CARPACE_N_CUES]; /* shown once more although it is on */
} CarpaceStep;

static inline int64_t
carpace_later (int64_t a, int64_t b)
{
  return a > b ? a : b;
}

/* session.c */
CarpaceEntry *carpace_tell (CarpaceStep *step, CarpaceEntryKind kind);
CarpaceEntry *carpace_refuse (CarpaceStep *step, CarpaceRefusal refusal);
void carpace_cue_show (CarpaceStep *step, CarpaceCue cue);
void carpace_cue_ask (CarpaceStep *step, CarpaceCue cue);
void carpace_cue_withdraw (CarpaceStep *step, CarpaceCue cue);

/* session-states.c */
bool carpace_session_may_go (CarpaceState from, CarpaceState to);
void carpace_session_goto (CarpaceStep *step, CarpaceState state);
void carpace_state_take (CarpaceStep *step);

/* session-hand.c */
void carpace_hand_input (CarpaceStep *step);
void carpace_hand_still (CarpaceStep *step);
void carpace_hand_gap (CarpaceStep *step);
void carpace_hand_moves_from (CarpaceStep *step, int64_t since);
void carpace_reach_over (CarpaceStep *step);
bool carpace_reach_lasts (const CarpaceSession *s);
int64_t carpace_active_at (const CarpaceSession *s, int64_t elapsed);
void carpace_stretch_open (CarpaceStep *step, int64_t from);
void carpace_stretch_close (CarpaceStep *step, int64_t at);
int64_t carpace_last_input (const CarpaceSession *s, int64_t elapsed);
/* session-clicks.c */
void carpace_clicks_take (CarpaceStep *step);
void carpace_clicks_no_more (CarpaceSession *s);

/* session-front.c */
bool carpace_front_is_elsewhere (const CarpaceSession *s);
void carpace_front_come (CarpaceStep *step);
void carpace_front_come_and_start (CarpaceStep *step);
void carpace_front_leave (CarpaceStep *step);
void carpace_front_anywhere (CarpaceStep *step);
void carpace_front_settle (CarpaceStep *step);

/* session-unstarted.c */
bool carpace_could_begin (const CarpaceSession *s);
void carpace_unstarted_leave (CarpaceSession *s, int64_t at);
void carpace_unstarted_come (CarpaceSession *s, int64_t at);
void carpace_unstarted_front (CarpaceStep *step);
void carpace_unstarted_forget (CarpaceSession *s);
void carpace_unstarted_input (CarpaceStep *step);
void carpace_unstarted_still (CarpaceSession *s);
int64_t carpace_unstarted_time (const CarpaceSession *s);
void carpace_unstarted_ask (CarpaceStep *step);
void carpace_unstarted_settle (CarpaceStep *step);

void carpace_hand_presume_moving (CarpaceStep *step);
void carpace_hand_presume_still (CarpaceStep *step);

/* session-rest.c */
int64_t carpace_rest_due_time (const CarpaceSession *s);
int64_t carpace_wait_for_gap_time (const CarpaceSession *s);
int64_t carpace_rest_over_time (const CarpaceSession *s);
int64_t carpace_rest_interrupted_time (const CarpaceSession *s);
void carpace_rest_due (CarpaceStep *step);
void carpace_wait_for_gap_over (CarpaceStep *step);
void carpace_rest_over (CarpaceStep *step);
void carpace_rest_interrupted (CarpaceStep *step);
void carpace_rest_begin (CarpaceStep *step);
void carpace_rest_defer (CarpaceStep *step);
void carpace_rest_decline (CarpaceStep *step);
void carpace_rest_intermission (CarpaceStep *step);
void carpace_rest_drop (CarpaceStep *step);
void carpace_rest_leave (CarpaceStep *step);
void carpace_rest_waits_anew (CarpaceStep *step);
void carpace_rest_stillness_over (CarpaceRunning *block);
bool carpace_rest_is_due (const CarpaceRunning *block);
void carpace_rest_after_runs (CarpaceStep *step);
bool carpace_rest_can_be_offered (const CarpaceSession *s, int64_t elapsed);
void carpace_rest_offer (CarpaceStep *step);
int64_t carpace_rest_to_go_ms (const CarpaceSession *s, int64_t elapsed);
void carpace_rest_reserve_forward (CarpaceSession *s, int64_t to, bool active);

/* session-block.c */
void carpace_block_start (CarpaceStep *step, bool match);
void carpace_block_begin (CarpaceStep *step, bool match, int64_t early_ms, bool beyond);
bool carpace_block_begin_by_itself (CarpaceStep *step);
void carpace_block_end (CarpaceStep *step, int64_t ended_at, int64_t due_at);
void carpace_block_limit (CarpaceStep *step);
void carpace_block_finish_run (CarpaceStep *step);
void carpace_block_long_gap (CarpaceStep *step);
void carpace_overrun_end (CarpaceStep *step, int64_t at);
void carpace_wait_over (CarpaceStep *step);
void carpace_cues_withdraw (CarpaceStep *step);
void carpace_after_rating (CarpaceStep *step, bool starts);
bool carpace_day_done_if_over (CarpaceStep *step);
bool carpace_may_not_practise (const CarpaceSession *s, CarpaceRefusal *ret_why);

/* session-rating.c */
typedef struct
{
  int64_t limit_ms, after_ms, rest_ms;
} CarpaceLimits;
void carpace_rate (CarpaceStep *step);
void carpace_rating_leave (CarpaceStep *step, bool starts);
void carpace_rating_unanswered (CarpaceStep *step);
int64_t carpace_after_within (int64_t after_ms, int64_t limit_ms);
CarpaceLimits carpace_limits_beyond (const CarpaceSession *s);
CarpaceLimits carpace_limits_tightened (const CarpaceSession *s, int64_t own_limit_ms);
bool carpace_next_block (const CarpaceSession *s, CarpaceLimits *ret_limits);
int32_t carpace_blocks_ahead (const CarpaceSession *s, int64_t ret_limit_ms[CARPACE_DAY_BLOCKS]);
bool carpace_rated_above_stop (const CarpaceSession *s);
bool carpace_by_two_points (CarpaceRule row);
int32_t carpace_tightenings (const CarpaceSession *s);
int64_t carpace_day_limits_at_end_ms (const CarpaceSession *s);
int32_t carpace_day_reference (const CarpaceSession *s);

/* session-day.c */
bool carpace_day_is_behind (const CarpaceSession *s, CarpaceInstant now);
bool carpace_day_is_over (const CarpaceSession *s, CarpaceInstant now);
bool carpace_day_open_if_new (CarpaceStep *step, const CarpaceMorning *check);
void carpace_day_morning (CarpaceStep *step);
void carpace_day_done (CarpaceStep *step);
void carpace_day_caution (CarpaceStep *step);
void carpace_day_offer_morning (CarpaceStep *step);
int64_t carpace_day_done_ms (const CarpaceSession *s, int64_t elapsed);
int64_t carpace_day_to_do_ms (const CarpaceSession *s);
void carpace_caution_show (CarpaceStep *step);
void carpace_day_hold_back (CarpaceStep *step);

#endif
