/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity-together.h: several sources of input, followed as one.
 *
 * The hand moves where one of them says so, and is still where all do. Two kinds
 * have no say at times: who sees a part of the desktop only, while the hand is
 * elsewhere; and who is blind while a program holds the screen awake, while
 * another sees for sure what the hand does. Who has a say again takes over what
 * is held at that moment, and tells if that is not so.
 */
#ifndef CARPACE_ACTIVITY_TOGETHER_H
#define CARPACE_ACTIVITY_TOGETHER_H

#include "carpace/ports.h"

#define CARPACE_ACTIVITY_TOGETHER 4

/** One of them. */
typedef struct
{
  CarpaceActivityOpen open;
  bool blind; /**< while a program holds the screen awake */
} CarpaceActivityPart;

/** Opens those of @part that the desktop offers, CARPACE_ACTIVITY_TOGETHER at most.
 * @param ret_opened an element a part: whether it was
 * @return false, nothing opened, where the first is not offered */
bool carpace_activity_together_open (const CarpaceActivityPart *part, size_t n, CarpaceClock clock, CarpaceTell tell,
                                     CarpaceActivity *ret_activity, bool *ret_opened);

#endif
