/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-activity.h: who tells of input on this desktop. Part of main: it names
 * the port and every adapter behind it. */
#ifndef CARPACE_PROGRAM_ACTIVITY_H
#define CARPACE_PROGRAM_ACTIVITY_H

#include "carpace/desktop.h"
#include "carpace/ports.h"

/** Opens the best source of input that the desktop offers: there is always one. One that
 * is blind at times has another beside it, where there is that.
 * @param ret_beside what that is; its word is NULL where there is none
 * @return what the best is, for `carpace desktop` */
CarpaceInputSource carpace_program_follow_input (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity,
                                                 CarpaceInputSource *ret_beside);

/** Opens what tells of each press of a button. @return false where the desktop tells of none */
bool carpace_program_open_clicks (CarpaceClicksListener listener, CarpaceClicks *ret_clicks);

#endif
