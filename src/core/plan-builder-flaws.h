/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-builder-flaws.h: how the builder's two halves tell what is wrong. */
#ifndef CARPACE_PLAN_BUILDER_FLAWS_H
#define CARPACE_PLAN_BUILDER_FLAWS_H

#include "carpace/plan-builder.h"

/** A flaw of nothing in particular, to be filled in. */
#define CARPACE_FLAW(the_kind, the_place) \
  ((CarpaceFlaw){ .kind = (the_kind), .place = (the_place), .key = CARPACE_N_KEYS, \
                  .drill_key = CARPACE_N_DRILL_KEYS, .drill = -1, .block = -1 })

void carpace_plan_builder_flaw (CarpacePlanBuilder *builder, CarpaceFlaw flaw);

#endif
