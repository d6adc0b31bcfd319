/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-builder.c: takes a plan in, value by value, and judges each by itself. */
#include "carpace/plan-builder.h"

#include <math.h>
#include <string.h>

#include "carpace/character.h"
#include "plan-builder-flaws.h"

bool
carpace_flaw_is_warning (CarpaceFlawKind kind)
{
  return kind >= CARPACE_FLAW_BLOCKS_OVER_DOSE;
}

void
carpace_plan_builder_flaw (CarpacePlanBuilder *builder, CarpaceFlaw flaw)
{
  builder->n_faults += !carpace_flaw_is_warning (flaw.kind);
  if (builder->n_flaws < CARPACE_PLAN_FLAWS)
    builder->flaws[builder->n_flaws++] = flaw;
  else
    builder->n_flaws_untold++;
}

void
carpace_plan_builder_init (CarpacePlanBuilder *builder)
{
  static const CarpaceExercise shown[] = { CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH, CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH,
                                           CARPACE_EXERCISE_FOREARM_SELF_MASSAGE, CARPACE_EXERCISE_OPEN_AND_CLOSE };
  CarpacePlan *plan = &builder->plan;

  memset (builder, 0, sizeof *builder);
  plan->version = 1;
  plan->side = CARPACE_SIDE_RIGHT;
  plan->grip = CARPACE_GRIP_PALM;
  plan->starts_at_min = 4 * 60;
  plan->between_blocks_ms = 45 * CARPACE_MINUTE_MS;
  plan->gap_after_ms = 4 * CARPACE_SECOND_MS;
  plan->run_min_ms = 20 * CARPACE_SECOND_MS;
  plan->rest_ms = 30 * CARPACE_SECOND_MS;
  plan->wait_for_gap_ms = 90 * CARPACE_SECOND_MS;
  plan->n_shown = sizeof shown / sizeof shown[0];
  memcpy (plan->shown, shown, sizeof shown);
  plan->finish_run_ms = 90 * CARPACE_SECOND_MS;
  plan->round_down_to_ms = 30 * CARPACE_SECOND_MS;
  plan->shortest_ms = 3 * CARPACE_MINUTE_MS;
  plan->up_1_shorten_to = 85 * CARPACE_PERCENT;
  plan->up_2_shorten_to = 65 * CARPACE_PERCENT;
  plan->stop_above = 5;
  plan->cut_to = 65 * CARPACE_PERCENT;
  plan->step_up_by = 10 * CARPACE_PERCENT;
  plan->after_good_days = 3;
  plan->on_air_from = CARPACE_ON_AIR_FROM_CLOCK;
  plan->on_air_notice_ms = 2 * CARPACE_MINUTE_MS;
  plan->on_air_length_ms = 5 * CARPACE_MINUTE_MS;
}

static bool
in_range (const CarpaceKeyFacts *facts, double number)
{
  return number >= facts->low && number <= facts->high && (!facts->over_low || number > facts->low);
}

static uint32_t
next_character (const unsigned char **at)
{
  unsigned char first = *(*at)++;
  uint32_t c = first < 0x80 ? first : first < 0xE0 ? first & 0x1FU : first < 0xF0 ? first & 0x0FU : first & 0x07U;

  while ((**at & 0xC0) == 0x80)
    c = (c << 6) | (*(*at)++ & 0x3FU);
  return c;
}

/* Judges @utf8 and, where it is sound, keeps it. */
static bool
take_text (CarpacePlanBuilder *builder, const char *utf8, CarpaceFlaw where, const CarpaceKeyFacts *facts, char *ret_text)
{
  const unsigned char *at = (const unsigned char *) utf8;
  int32_t n = 0;
  bool unfit = false, ink = false;

  while (*at != '\0')
    {
      uint32_t c = next_character (&at);
      unfit = unfit || carpace_character_is_unfit (c, facts->low < 1);
      ink = ink || (c != ' ' && c != 0xA0);
      n++;
    }
  where.high = facts->high;
  if (facts->low > 0 && !ink)
    where.kind = CARPACE_FLAW_NAME_EMPTY;
  else if (n > (int32_t) facts->high)
    where.kind = CARPACE_FLAW_NAME_TOO_LONG;
  else if (unfit)
    where.kind = CARPACE_FLAW_NAME_CHARACTERS;
  else
    {
      memcpy (ret_text, utf8, strlen (utf8) + 1);
      return true;
    }
  carpace_plan_builder_flaw (builder, where);
  return false;
}

void
carpace_plan_builder_text (CarpacePlanBuilder *builder, CarpacePlanKey key, const char *utf8, CarpacePlace place)
{
  CarpaceFlaw where = CARPACE_FLAW (CARPACE_FLAW_NAME_EMPTY, place);

  where.key = key;
  builder->given[key] = true;
  builder->key_place[key] = place;
  builder->sound[key] = take_text (builder, utf8, where, carpace_plan_key_facts (key),
                                   key == CARPACE_KEY_NAME ? builder->plan.name : builder->plan.note);
}

void
carpace_plan_builder_number (CarpacePlanBuilder *builder, CarpacePlanKey key, double number, CarpacePlace place)
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (key);
  CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_OUT_OF_RANGE, place);

  builder->given[key] = true;
  builder->key_place[key] = place;
  builder->sound[key] = in_range (facts, number);
  if (builder->sound[key])
    {
      carpace_plan_set_number (&builder->plan, key, number);
      return;
    }
  flaw.key = key;
  flaw.low = facts->low;
  flaw.high = facts->high;
  carpace_plan_builder_flaw (builder, flaw);
}

void
carpace_plan_builder_former_word (CarpacePlanBuilder *builder, CarpaceWords words, int32_t value, CarpacePlace place)
{
  CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_FORMER_WORD, place);

  flaw.low = (double) words;
  flaw.high = value;
  if (!builder->former_told)
    carpace_plan_builder_flaw (builder, flaw);
  builder->former_told = true;
}

void
carpace_plan_builder_unread (CarpacePlanBuilder *builder, CarpacePlanKey key)
{
  builder->given[key] = true;
  builder->sound[key] = false;
}

void
carpace_plan_builder_show (CarpacePlanBuilder *builder, CarpaceExercise exercise, CarpacePlace place)
{
  CarpacePlan *plan = &builder->plan;

  if (!builder->given[CARPACE_KEY_MICRO_REST_SHOW])
    {
      builder->given[CARPACE_KEY_MICRO_REST_SHOW] = true;
      builder->key_place[CARPACE_KEY_MICRO_REST_SHOW] = place;
      plan->n_shown = 0;
    }
  if (plan->n_shown < CARPACE_PLAN_SHOWN)
    plan->shown[plan->n_shown] = exercise;
  else if (plan->n_shown == CARPACE_PLAN_SHOWN)
    {
      CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_TOO_MANY_SHOWN, place);
      flaw.key = CARPACE_KEY_MICRO_REST_SHOW;
      flaw.high = CARPACE_PLAN_SHOWN;
      carpace_plan_builder_flaw (builder, flaw);
    }
  if (plan->n_shown <= CARPACE_PLAN_SHOWN)
    plan->n_shown++;
}

void
carpace_plan_builder_without_list (CarpacePlanBuilder *builder, CarpacePlace place)
{
  builder->given[CARPACE_KEY_WEEK_WITHOUT] = builder->sound[CARPACE_KEY_WEEK_WITHOUT] = true;
  builder->key_place[CARPACE_KEY_WEEK_WITHOUT] = place;
}

void
carpace_plan_builder_without (CarpacePlanBuilder *builder, CarpaceWeekday weekday, CarpacePlace place)
{
  CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_TOO_MANY_WITHOUT, place);

  flaw.key = CARPACE_KEY_WEEK_WITHOUT;
  flaw.high = CARPACE_PLAN_WITHOUT;
  builder->plan.without |= 1 << weekday;
  if (builder->n_without++ == CARPACE_PLAN_WITHOUT)
    carpace_plan_builder_flaw (builder, flaw);
}

void
carpace_plan_builder_fix (CarpacePlanBuilder *builder, CarpacePlanKey key)
{
  builder->plan.fixed[key] = true;
}

void
carpace_plan_builder_drills_at (CarpacePlanBuilder *builder, CarpacePlace place)
{
  builder->drills_place = place;
}

void
carpace_plan_builder_blocks_at (CarpacePlanBuilder *builder, CarpacePlace place)
{
  builder->blocks_place = place;
}

void
carpace_plan_builder_drills_unread (CarpacePlanBuilder *builder)
{
  builder->id_unread = builder->id_flawed = true;
}

void
carpace_plan_builder_blocks_unread (CarpacePlanBuilder *builder)
{
  builder->blocks_unread = true;
}

static bool
is_id_character (char c)
{
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
}

static int32_t
drill_with_id (const CarpacePlan *plan, const char *id)
{
  for (int32_t i = 0; i < plan->n_drills; i++)
    if (strcmp (plan->drills[i].id, id) == 0)
      return i;
  return -1;
}

static void
judge_id (CarpacePlanBuilder *builder, int32_t drill, const char *id, CarpacePlace place)
{
  int32_t n_faults = builder->n_faults;
  CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_ID_CHARACTERS, place);
  size_t n = strlen (id), sound = 0;

  flaw.drill = drill;
  while (sound < n && is_id_character (id[sound]))
    sound++;
  if (sound < n || n == 0)
    carpace_plan_builder_flaw (builder, flaw);
  flaw.kind = CARPACE_FLAW_NAME_TOO_LONG;
  flaw.high = CARPACE_NAME_CHARACTERS;
  if (sound == n && n > CARPACE_NAME_CHARACTERS)
    carpace_plan_builder_flaw (builder, flaw);
  flaw.kind = CARPACE_FLAW_ID_TWICE;
  if (n > 0 && drill_with_id (&builder->plan, id) >= 0)
    carpace_plan_builder_flaw (builder, flaw);
  if (builder->n_faults > n_faults)
    builder->id_flawed = true;
}

int32_t
carpace_plan_builder_drill (CarpacePlanBuilder *builder, const char *id, CarpacePlace place)
{
  CarpacePlan *plan = &builder->plan;
  CarpaceDrill *drill;

  if (plan->n_drills == CARPACE_PLAN_DRILLS)
    {
      CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_TOO_MANY_DRILLS, place);
      flaw.high = CARPACE_PLAN_DRILLS;
      if (builder->n_drills_asked++ == CARPACE_PLAN_DRILLS)
        carpace_plan_builder_flaw (builder, flaw);
      return -1;
    }
  builder->n_drills_asked++;
  builder->drill_place[plan->n_drills] = place;
  builder->drill_id_place[plan->n_drills] = place;
  drill = &plan->drills[plan->n_drills];
  if (id == NULL)
    builder->id_unread = builder->id_flawed = true;
  else
    {
      size_t n = strlen (id);
      judge_id (builder, plan->n_drills, id, place);
      memcpy (drill->id, id, n < CARPACE_ID_BYTES ? n : CARPACE_ID_BYTES - 1);
    }
  memcpy (drill->name, drill->id, CARPACE_ID_BYTES);
  drill->intensity_pct_mvc = 12;
  drill->efforts_per_min = 60;
  drill->effort_lasts_s = 0.3;
  return plan->n_drills++;
}

void
carpace_plan_builder_drill_at (CarpacePlanBuilder *builder, int32_t drill, CarpacePlace place)
{
  builder->drill_place[drill] = place;
}

void
carpace_plan_builder_drill_name (CarpacePlanBuilder *builder, int32_t drill, const char *utf8, CarpacePlace place)
{
  CarpaceFlaw where = CARPACE_FLAW (CARPACE_FLAW_NAME_EMPTY, place);

  where.drill = drill;
  where.drill_key = CARPACE_DRILL_NAME;
  builder->drill_given[drill][CARPACE_DRILL_NAME] = true;
  take_text (builder, utf8, where, carpace_drill_key_facts (CARPACE_DRILL_NAME), builder->plan.drills[drill].name);
}

static void
set_wrist (CarpaceDrill *drill, double deg)
{
  drill->bend_deg = fabs (deg);
  drill->bend = deg > 0 ? CARPACE_WRIST_FLEXION : deg < 0 ? CARPACE_WRIST_EXTENSION : CARPACE_WRIST_STRAIGHT;
}

static void
set_drill_number (CarpaceDrill *drill, CarpaceDrillKey key, double number)
{
  switch (key)
    {
    case CARPACE_DRILL_MOVEMENT: drill->movement = (CarpaceMovement) number; break;
    case CARPACE_DRILL_VIEW_TURN: drill->view_turn_deg = number; break;
    case CARPACE_DRILL_INTENSITY: drill->intensity_pct_mvc = number; break;
    case CARPACE_DRILL_EFFORTS: drill->efforts_per_min = number; break;
    case CARPACE_DRILL_EFFORTS_FROM: drill->efforts_from = (CarpaceEffortsFrom) number; break;
    case CARPACE_DRILL_EFFORT_LASTS: drill->effort_lasts_s = number; break;
    case CARPACE_DRILL_WRIST: set_wrist (drill, number); break;
    case CARPACE_DRILL_RUN: drill->run_ms = (int64_t) number; break;
    case CARPACE_DRILL_TIME: drill->time_ms = (int64_t) number; break;
    case CARPACE_DRILL_NAME:
    case CARPACE_N_DRILL_KEYS:
      break;
    }
}

void
carpace_plan_builder_drill_number (CarpacePlanBuilder *builder, int32_t drill, CarpaceDrillKey key, double number,
                                   CarpacePlace place)
{
  const CarpaceKeyFacts *facts = carpace_drill_key_facts (key);
  CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_OUT_OF_RANGE, place);

  builder->drill_given[drill][key] = true;
  builder->drill_key_place[drill][key] = place;
  builder->drill_sound[drill][key] = in_range (facts, number);
  if (builder->drill_sound[drill][key])
    {
      set_drill_number (&builder->plan.drills[drill], key, number);
      return;
    }
  flaw.drill = drill;
  flaw.drill_key = key;
  flaw.low = facts->low;
  flaw.high = facts->high;
  carpace_plan_builder_flaw (builder, flaw);
}

void
carpace_plan_builder_drill_unread (CarpacePlanBuilder *builder, int32_t drill, CarpaceDrillKey key)
{
  builder->drill_given[drill][key] = true;
  builder->drill_sound[drill][key] = false;
}

int32_t
carpace_plan_builder_block (CarpacePlanBuilder *builder, int64_t limit_ms, bool fixed, CarpacePlace place)
{
  const CarpaceKeyFacts *facts = carpace_block_limit_facts ();
  CarpacePlan *plan = &builder->plan;
  CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_TOO_MANY_BLOCKS, place);
  int32_t block = plan->n_blocks;

  flaw.high = CARPACE_PLAN_BLOCKS;
  if (builder->n_blocks_asked++ == CARPACE_PLAN_BLOCKS)
    carpace_plan_builder_flaw (builder, flaw);
  if (block == CARPACE_PLAN_BLOCKS)
    return -1;
  builder->block_place[block] = place;
  builder->block_limit_place[block] = place;
  plan->blocks[block].limit_ms = limit_ms;
  plan->blocks[block].limit_fixed = fixed;
  plan->n_blocks++;
  if (in_range (facts, (double) limit_ms))
    return block;
  builder->block_flawed[block] = true;
  if (limit_ms < 0)
    return block;
  flaw = CARPACE_FLAW (CARPACE_FLAW_OUT_OF_RANGE, place);
  flaw.block = block;
  flaw.low = facts->low;
  flaw.high = facts->high;
  carpace_plan_builder_flaw (builder, flaw);
  return block;
}

void
carpace_plan_builder_block_at (CarpacePlanBuilder *builder, int32_t block, CarpacePlace place)
{
  builder->block_place[block] = place;
}

void
carpace_plan_builder_block_unread (CarpacePlanBuilder *builder, int32_t block)
{
  builder->block_flawed[block] = true;
}

/* An id that could not be read, or a drill too many, may be the one that is asked for. */
static bool
all_ids_are_known (const CarpacePlanBuilder *builder)
{
  return !builder->id_unread && builder->n_drills_asked <= CARPACE_PLAN_DRILLS;
}

/* Tells what is wrong with a part. @return whether nothing is */
static bool
judge_part (CarpacePlanBuilder *builder, int32_t block, int32_t drill, int32_t share, CarpacePlace id_place,
            CarpacePlace share_place)
{
  CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_UNKNOWN_DRILL, id_place);
  bool sound_share = share == -1 || (share >= 1 && share <= CARPACE_WHOLE);

  flaw.block = block;
  if (drill < 0 && all_ids_are_known (builder))
    carpace_plan_builder_flaw (builder, flaw);
  flaw.kind = CARPACE_FLAW_OUT_OF_RANGE;
  flaw.place = share_place;
  flaw.share = true;
  flaw.low = 1;
  flaw.high = CARPACE_WHOLE;
  if (!sound_share)
    carpace_plan_builder_flaw (builder, flaw);
  return sound_share && drill >= 0;
}

void
carpace_plan_builder_part (CarpacePlanBuilder *builder, int32_t block, const char *drill_id, int32_t share,
                           CarpacePlace place)
{
  carpace_plan_builder_part_at (builder, block, drill_id, share, place, place);
}

void
carpace_plan_builder_part_at (CarpacePlanBuilder *builder, int32_t block, const char *drill_id, int32_t share,
                              CarpacePlace id_place, CarpacePlace share_place)
{
  CarpaceBlock *in = &builder->plan.blocks[block];
  int32_t drill = drill_with_id (&builder->plan, drill_id);

  if (in->n_parts == CARPACE_PLAN_DRILLS)
    {
      CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_TOO_MANY_DRILLS, id_place);
      flaw.block = block;
      flaw.high = CARPACE_PLAN_DRILLS;
      if (!builder->block_flawed[block])
        carpace_plan_builder_flaw (builder, flaw);
      builder->block_flawed[block] = true;
      return;
    }
  if (!judge_part (builder, block, drill, share, id_place, share_place))
    {
      builder->block_flawed[block] = true;
      return;
    }
  builder->share_given[block][in->n_parts] = share != -1;
  in->parts[in->n_parts].drill = drill;
  in->parts[in->n_parts++].share = share;
}

void
carpace_plan_builder_split (CarpacePlanBuilder *builder, int32_t into, CarpacePlace place)
{
  CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_TOO_MANY_BLOCKS, place);

  flaw.high = CARPACE_PLAN_BLOCKS;
  builder->split_given = true;
  builder->split_place = place;
  builder->split_sound = into >= 1 && into <= CARPACE_PLAN_BLOCKS;
  if (builder->split_sound)
    builder->plan.split_into = into;
  else if (into != -1)
    carpace_plan_builder_flaw (builder, flaw);
}
