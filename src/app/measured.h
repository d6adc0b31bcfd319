/* SPDX-License-Identifier: GPL-3.0-or-later */
/** measured.h: what a diary has measured of a plan. */
#ifndef CARPACE_APP_MEASURED_H
#define CARPACE_APP_MEASURED_H

#include "carpace/clicks.h"
#include "carpace/diary.h"

/** Clicks of the days with @plan, since it was last begun with; none where another plan came after it. What was practised
 * by another plan is not held against this one. @return false where @diary cannot be read */
bool carpace_measure_clicks (const CarpaceDiary *diary, const CarpacePlan *plan, CarpaceClicksMeasured *ret_measured);

#endif
