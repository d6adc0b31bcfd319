/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-flaws.h: a plan being put together, and the one thing that is wrong with it. */
#ifndef CARPACE_TEST_PLAN_FLAWS_H
#define CARPACE_TEST_PLAN_FLAWS_H

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>

#include <cmocka.h>

#include "carpace/plan-builder.h"
#include "plan-builder-flaws.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))
#define NONE CARPACE_N_FLAWS

static CarpacePlanBuilder builder;
static CarpacePlan plan;

/* A sound plan as far as its drill goes. */
static inline int
begin (void **state)
{
  carpace_plan_builder_init (&builder);
  carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "N", 101);
  carpace_plan_builder_drill (&builder, "a", 100);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_MOVEMENT, CARPACE_MOVEMENT_SMALL_TURN, 102);
  return 0;
}

static inline int32_t
add_block (int64_t limit_ms)
{
  int32_t block = carpace_plan_builder_block (&builder, limit_ms, false, 104);

  carpace_plan_builder_part (&builder, block, "a", -1, 105);
  return block;
}

static inline bool
finish (void)
{
  return carpace_plan_builder_finish (&builder, &plan);
}

/* Nothing is wrong, or @flaw alone, with all its fields. */
static inline void
assert_only (const char *row, CarpaceFlaw flaw)
{
  const CarpaceFlaw *is = &builder.flaws[0];

  if (flaw.kind == NONE && builder.n_flaws == 0)
    return;
  if (builder.n_flaws != 1 || flaw.kind != is->kind || flaw.place != is->place || flaw.key != is->key
      || flaw.drill_key != is->drill_key || flaw.drill != is->drill || flaw.block != is->block
      || flaw.share != is->share || flaw.low != is->low || flaw.high != is->high)
    fail_msg ("%s: %d flaws; the first of kind %d at %d, key %d, %d of drill %d, block %d, share %d, %g to %g; expected kind "
              "%d at %d, key %d, %d of drill %d, block %d, share %d, %g to %g",
              row, (int) builder.n_flaws, (int) is->kind, (int) is->place, (int) is->key, (int) is->drill_key,
              (int) is->drill, (int) is->block, is->share, is->low, is->high, (int) flaw.kind, (int) flaw.place,
              (int) flaw.key, (int) flaw.drill_key, (int) flaw.drill, (int) flaw.block, flaw.share, flaw.low, flaw.high);
}

static inline CarpaceFlaw
of_key (CarpaceFlawKind kind, CarpacePlace place, CarpacePlanKey key, double low, double high)
{
  CarpaceFlaw flaw = CARPACE_FLAW (kind, place);

  flaw.key = key;
  flaw.low = low;
  flaw.high = high;
  return flaw;
}

static inline CarpaceFlaw
of_drill (CarpaceFlawKind kind, CarpacePlace place, int32_t drill, double low, double high)
{
  CarpaceFlaw flaw = of_key (kind, place, CARPACE_N_KEYS, low, high);

  flaw.drill = drill;
  return flaw;
}

static inline CarpaceFlaw
of_block (CarpaceFlawKind kind, CarpacePlace place, int32_t block, double low, double high)
{
  CarpaceFlaw flaw = of_key (kind, place, CARPACE_N_KEYS, low, high);

  flaw.block = block;
  return flaw;
}

/* What assert_only() takes where nothing is wrong. */
static const CarpaceFlaw nothing = { .kind = NONE };

#endif
