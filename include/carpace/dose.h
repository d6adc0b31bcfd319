/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * dose.h: how much practice a day asks of the hand, and why.
 *
 * Rules decide from what the player said and did; models decide nothing here.
 */
#ifndef CARPACE_DOSE_H
#define CARPACE_DOSE_H

#include "carpace/day.h"
#include "carpace/plan.h"
#include "carpace/session-words.h"

/** Stiffness on waking, against the usual. */
typedef enum
{
  CARPACE_STIFFNESS_UNSAID,
  CARPACE_STIFFNESS_LESS,
  CARPACE_STIFFNESS_USUAL,
  CARPACE_STIFFNESS_MORE,
  CARPACE_N_STIFFNESSES
} CarpaceStiffness;

/** A morning check. */
typedef struct
{
  int32_t waking; /**< discomfort on waking 0..10, -1 where skipped */
  CarpaceStiffness stiffness;
  int32_t now;    /**< discomfort now 0..10, -1 where skipped */
  bool other_load;
  bool pain_relief;
  CarpaceSite site; /**< where, of both numbers; it decides nothing, and no day's sum or record keeps it */
} CarpaceMorning;

/** Signs that call for a clinician. */
typedef enum
{
  CARPACE_SIGN_INJURY,
  CARPACE_SIGN_DEFORMED,
  CARPACE_SIGN_CANNOT_MOVE,
  CARPACE_SIGN_COLD_OR_PALE,
  CARPACE_SIGN_HOT_AND_FEVERISH,
  CARPACE_SIGN_NUMB,
  CARPACE_SIGN_NIGHT_PAIN,
  CARPACE_SIGN_DROPPING_THINGS,
  CARPACE_SIGN_WEAK,
  CARPACE_SIGN_LOCKING,
  CARPACE_SIGN_SWOLLEN,
  CARPACE_SIGN_NOT_BETTER,
  CARPACE_N_SIGNS
} CarpaceSign;

/** Signs to be looked at on the same day: a caution they opened is closed by a
 * physiotherapist or doctor only. */
#define CARPACE_SIGNS_SAME_DAY                                                                            \
  (1u << CARPACE_SIGN_INJURY | 1u << CARPACE_SIGN_DEFORMED | 1u << CARPACE_SIGN_CANNOT_MOVE               \
   | 1u << CARPACE_SIGN_COLD_OR_PALE | 1u << CARPACE_SIGN_HOT_AND_FEVERISH)

/** Rules, by the names decisions carry. */
typedef enum
{
  /* of the next block */
  CARPACE_RULE_ABOVE_STOP,
  CARPACE_RULE_UP_2,
  CARPACE_RULE_UP_TO_4_OR_5,
  CARPACE_RULE_UP_1,
  CARPACE_RULE_UNANSWERED_TWICE,
  CARPACE_RULE_TIGHTENED_THRICE,
  CARPACE_RULE_TOO_SHORT,
  /* of the day */
  CARPACE_RULE_CAUTION,
  CARPACE_RULE_CUT,
  CARPACE_RULE_REST_DAY,
  CARPACE_RULE_KEEP_NO_PRACTICE,
  CARPACE_RULE_KEEP_OTHER_LOAD,
  CARPACE_RULE_AFTER_TIME_OFF,
  CARPACE_RULE_KEEP_WEEK,
  CARPACE_RULE_WAY_BACK,
  CARPACE_RULE_STEP_UP,
  CARPACE_RULE_KEEP, /* of both */
  /* of the day; added later, at the end: histories hold rules by their number */
  CARPACE_RULE_CUT_ONCE,
  CARPACE_RULE_TAKE_BACK,
  CARPACE_RULE_NO_ANSWERS,
  CARPACE_N_RULES
} CarpaceRule;

typedef enum { CARPACE_SCOPE_BLOCK, CARPACE_SCOPE_DAY, CARPACE_N_SCOPES } CarpaceScope;

/** What a decision of the day found, finer than its rule. */
typedef enum
{
  CARPACE_FINDING_NONE,
  CARPACE_FINDING_WAKING_ABOVE_STOP,
  CARPACE_FINDING_NOW_ABOVE_STOP,
  CARPACE_FINDING_ENDED_ABOVE_STOP,  /**< the last practice day did */
  CARPACE_FINDING_STIFFER,
  CARPACE_FINDING_WAKING_UP,         /**< waking 2 or more above usual */
  CARPACE_FINDING_AFTER_TWO_CUTS,
  CARPACE_FINDING_AFTER_REST_DAY,
  CARPACE_FINDING_OTHER_LOAD,
  CARPACE_FINDING_WEEK_RISING,
  CARPACE_FINDING_TWO_WEEKS_RISING,
  CARPACE_FINDING_SETTLED_DAYS,
  CARPACE_FINDING_NO_CHECK_FOR_LONG, /**< way back on the ratings alone */
  CARPACE_FINDING_GOOD_DAYS,
  CARPACE_FINDING_NO_CHECK,          /**< kept: no morning check was made */
  CARPACE_FINDING_AT_MOST,           /**< kept: the dose is at its upper bound */
  CARPACE_FINDING_FIRST_DAY,
  CARPACE_FINDING_BADLY_RATED,       /**< worse, and the last practice day had a rating 3 or more above usual */
  CARPACE_FINDING_THIRD_WORSE,       /**< worse after a full day for the third time in 14 dates */
  CARPACE_FINDING_STEP_ANSWERED,     /**< the ratings rose after a step up */
  CARPACE_FINDING_NO_ANSWERS,        /**< no answer on many practice days */
  CARPACE_FINDING_LEVEL_YOUNG,       /**< kept: the level changed less than 7 days ago */
  CARPACE_FINDING_MORNINGS_UP,       /**< kept: three or more of the last six waking numbers above usual */
  CARPACE_FINDING_MOST,              /**< kept: no higher than 130 % of what was done */
  CARPACE_N_FINDINGS
} CarpaceFinding;

/** Why the last practice day counts in no row of settled or good days. */
typedef enum
{
  CARPACE_UNCOUNTED_NOT,         /**< it counts, or nothing was counted */
  CARPACE_UNCOUNTED_ABOVE_STOP,
  CARPACE_UNCOUNTED_TIGHTENED,   /**< by `up-2` or `up-to-4-or-5` */
  CARPACE_UNCOUNTED_WORSE_AFTER, /**< the morning after it was worse */
  CARPACE_UNCOUNTED_TOO_LITTLE,  /**< under half of it was done; for a good day, under 80 % */
  CARPACE_UNCOUNTED_NEAR_STOP,   /**< a number at 4 or 5 that is 2 above usual */
  CARPACE_UNCOUNTED_BEYOND,      /**< practice beyond the plan */
  CARPACE_UNCOUNTED_PAIN_RELIEF, /**< that morning or the next */
  CARPACE_UNCOUNTED_TOO_MUCH,    /**< over 115 % of it was done */
  CARPACE_UNCOUNTED_UNRATED,     /**< its last block, in time */
  CARPACE_UNCOUNTED_UNCHECKED,   /**< the morning after it */
  CARPACE_N_UNCOUNTED
} CarpaceUncounted;

/** A decision with the numbers it was made from. */
typedef struct
{
  CarpaceRule rule;
  CarpaceScope scope;
  int64_t before_ms;     /**< limit or dose just before */
  int64_t after_ms;      /**< limit or dose from now on; 0 where there is no practice */
  int32_t block;         /**< scope block: number of the block that was rated, 0 for a match */
  int32_t discomfort;    /**< the number it is about, -1 where none */
  int32_t reference;     /**< what a rating is compared with, -1 where none */
  int32_t earlier;       /**< the rating before it, -1 where none */
  int32_t usual;         /**< the plan's usual-discomfort */
  int32_t stop_above;    /**< the plan's stop-above */
  CarpaceFinding finding;
  bool no_practice;      /**< scope day: no practice today */
  bool without;          /**< scope day: a planned day without practice; what is decided is for the next one */
  bool opens_caution;    /**< scope day */
  bool asks_cautions;    /**< scope day */
  int64_t kept_ms;       /**< scope day: the dose as it stands behind a day without practice */
  int64_t done_ms;       /**< scope day: time the cut was worked out from */
  int32_t shorten_to;    /**< hundredths of a percent, 0 where nothing was multiplied */
  int32_t days;          /**< good, settled or off days counted */
  int32_t needed;        /**< how many the rule asks for */
  int32_t weeks;         /**< full weeks off */
  int32_t mean_pct;      /**< mean block rating of the week, hundredths, -1 where none */
  int32_t mean_before_pct; /**< of the week before, hundredths, -1 where none */
  /* scope day, all of them */
  int64_t level_ms;        /**< what the hand is led to from now on; 0 where recorded before there was a level */
  int64_t level_before_ms; /**< the level just before */
  int64_t first_dose_ms;   /**< the plan's dose, of which steps are */
  int64_t step_ms;         /**< a whole step */
  bool level_down;         /**< the level came down, or a step was taken back; also where `least` leaves it */
  bool straight_back;      /**< from under the level the next rise goes straight to it */
  bool full_day;           /**< yesterday was practised at 90 % of the level or more */
  int32_t worse_mornings;  /**< worse mornings after full days in 14 dates, this one among them; three bring the level down */
  int64_t most_ms;         /**< nothing rises past this; 0 where nothing was done in 14 dates */
  int64_t most_of_ms;      /**< the mean that this is 130 % of */
  int64_t down_from_ms;    /**< what the level last came down from within 21 days, 0 where it did not */
  int32_t down_days;       /**< days since then */
  int32_t level_days;      /**< days since the level last changed, -1 where it never did */
  int32_t wakings_up;      /**< of the last six waking numbers, those above usual */
  CarpaceUncounted uncounted; /**< kept: why the last practice day is not among the days counted */
  int32_t mornings_say;    /**< usual discomfort as the mornings have it, where the plan's seems too low; -1: it does not */
} CarpaceDecision;

/** Practice days that the rules look back on. */
#define CARPACE_HISTORY_DAYS 64

/** One opened practice day, as it ended. */
typedef struct
{
  CarpaceDay day;
  int64_t dose_ms;        /**< asked; 0 on a day without practice */
  int64_t done_ms;        /**< active time that counts as dose */
  int64_t limits_ms;      /**< what the day's limits came to at its end, where a rating tightened them; else dose_ms */
  int64_t match_ms;
  int64_t other_ms;       /**< mouse input outside practice, -1 where not known */
  int64_t last_end_elapsed_ms; /**< end of its last practice */
  CarpaceMorning morning; /**< waking -1, unsaid, -1 where no check was made */
  CarpaceRule rule;       /**< the last that decided its dose */
  int32_t rating_sum;     /**< of answered block ratings */
  int32_t n_ratings;
  int32_t highest;        /**< -1 where none */
  bool no_practice;
  bool worse;
  bool above_stop;        /**< a rating, waking or now above stop-above */
  bool ended_above_stop;  /**< a rating was */
  bool tightened_2;       /**< up-2 or up-to-4-or-5 */
  bool near_stop;         /**< a number at 4 or 5 that is 2 above usual */
  bool last_answered;     /**< its last block's rating, in time */
  bool beyond;            /**< practice beyond the plan */
  bool cut_for;           /**< a later day was cut because of it */
} CarpaceDayRecord;

/** What is kept from day to day. A value; all of it written and read by
 * carpace_history_write() and carpace_history_read(). */
typedef struct
{
  int64_t first_dose_ms;  /**< 0: no day has been opened */
  int64_t dose_ms;        /**< as it stands */
  int64_t level_ms;       /**< what the hand is led to and held at; the dose is at it or, after a cut, under it */
  int64_t level_before_step_ms; /**< level before the last step up, 0 where it has changed otherwise since */
  int64_t down_from_ms;   /**< what the level last came down from */
  CarpaceDay last_change;     /**< rows of settled and of good days begin here */
  CarpaceDay level_change;    /**< day the level last changed, or came down without effect */
  CarpaceDay last_down;       /**< day it last came down, or a step was taken back */
  CarpaceDay last_cut;
  CarpaceDay last_rest_day;
  CarpaceDay last_unanswered; /**< day the dose last came down for want of answers */
  CarpaceDay rows_from;       /**< rows of cuts and rest days begin anew after it: a caution was closed */
  bool straight_back;     /**< from under the level the next rise goes straight to it */
  bool slow_return;       /**< two settled days a rise: after a caution or rest day, until the level is reached */
  int32_t level_steps_off;    /**< steps the level has come down by in the present time off */
  bool caution_open;
  CarpaceDay caution_since;
  CarpaceDay caution_closed;  /**< day the last one was closed: no practice on it */
  uint32_t caution_signs;
  bool caution_shown;         /**< its text is on the screen, or held back until a stream ends: unread */
  bool on_air;                /**< as it was when the day opened */
  bool away;                  /**< the same: another window than the practice window was in front */
  CarpaceHand hand;           /**< the same: told, or presumed of what was said */
  int64_t moving_since;       /**< elapsed time that it moved from, ... */
  int64_t still_since;        /**< ... where it has stopped: from when on */
  int32_t shown_next;     /**< next exercise in listed order */
  int32_t n_days;
  CarpaceDayRecord days[CARPACE_HISTORY_DAYS]; /**< oldest first */
} CarpaceHistory;

/** A history with nothing in it. */
void carpace_history_init (CarpaceHistory *history);

/** Bytes carpace_history_write() needs at most, its end included. */
#define CARPACE_HISTORY_BYTES 32768

/** Writes @history as text, one `key value` a line. @return length written */
size_t carpace_history_write (const CarpaceHistory *history, char *ret_text, size_t size);

/** Reads what carpace_history_write() wrote, of this version or an earlier one.
 * @return false, *ret_history untouched, where it cannot be read */
bool carpace_history_read (const char *text, CarpaceHistory *ret_history);

/** @ms x @share (hundredths of a percent), in whole minutes, down. Exact:
 * 90 min at 70 % is 63 min. Under 0 counts as 0. */
int64_t carpace_dose_cut_ms (int64_t ms, int32_t share);

/** @ms x @share (hundredths of a percent), down to a multiple of @unit_ms
 * (1 where it is less). Exact; saturates at INT64_MAX; under 0 counts as 0. */
int64_t carpace_share_down_ms (int64_t ms, int32_t share, int64_t unit_ms);

/** The same, up. */
int64_t carpace_share_up_ms (int64_t ms, int32_t share, int64_t unit_ms);

/** The least a dose can be: a quarter of the first (whole ms, down), 10 min at
 * least, never above the first. */
int64_t carpace_dose_least_ms (int64_t first_dose_ms);

/** Decides @today's dose and level, and changes nothing. @check is NULL where no
 * morning check was made. */
void carpace_dose_decide (const CarpaceHistory *history, const CarpacePlan *plan, CarpaceDay today, int64_t elapsed_ms,
                          const CarpaceMorning *check, CarpaceDecision *ret_decision);

/** Takes @decision of @today into *history: all that the rules need of it stands
 * in its fields, so that a recorded one does what a fresh one did. */
void carpace_dose_apply (CarpaceHistory *history, const CarpaceDecision *decision, CarpaceDay today);

/** Begins a plan's first dose, or changes it where the plan's dose changed: the
 * level is the plan's dose; the dose, too, but where there was a cut in the last
 * 14 days and the plan is higher. Neither is over the plan's at-most. */
void carpace_dose_use_plan (CarpaceHistory *history, const CarpacePlan *plan, CarpaceDay today);

/** The same, where the plan itself is not at hand but what it came to: its first
 * dose, and dose and level as they stand by it. */
void carpace_dose_begin_plan (CarpaceHistory *history, int64_t first_dose_ms, int64_t dose_ms, int64_t level_ms,
                              CarpaceDay today);

/** Whether @decision cut the dose, also where the least left it as it was. */
bool carpace_decision_is_cut (const CarpaceDecision *decision);

/** Practice days in a row, up to now, without any answer: no waking number, no
 * rating. From CARPACE_SILENT_DAYS on the dose comes down. */
int32_t carpace_history_unanswered_days (const CarpaceHistory *history);

/** Practice days without any answer that the dose comes down after. */
#define CARPACE_SILENT_DAYS 12

/** Adds @record, the oldest giving way. */
void carpace_history_add (CarpaceHistory *history, const CarpaceDayRecord *record);

/** Closes the open caution on @today: the dose from the next practice day on is
 * the lower of the present and half the first, and of @allowed_ms where a
 * clinician said it (over 0); the level is the first dose at most; rows of cuts
 * and of days begin anew. */
void carpace_dose_close_caution (CarpaceHistory *history, CarpaceDay today, int64_t allowed_ms);

/** Days a caution is open before "gone" closes it. */
#define CARPACE_CAUTION_DAYS 3

/** Whether @check speaks of a worse morning: stiffer than usual, or waking 2 or
 * more above @usual. */
bool carpace_morning_is_worse (const CarpaceMorning *check, int32_t usual);

/** Blocks that a day can have at most, beyond which nothing is added. */
#define CARPACE_DAY_BLOCKS 96

/** Divides @dose_ms into the day's limits.
 * @return their number, at least 1 where @dose_ms is over 0 */
int32_t carpace_dose_limits (const CarpacePlan *plan, int64_t dose_ms, int64_t ret_limit_ms[CARPACE_DAY_BLOCKS]);

#endif
