/* SPDX-License-Identifier: GPL-3.0-or-later */
/** grant.h: what a player lets somebody read, and whether that holds. */
#ifndef CARPACE_TEAM_GRANT_H
#define CARPACE_TEAM_GRANT_H

#include "team/keys.h"

/** Which version of the sentences a grant is agreed to with (text/team-text.c). */
#define CARPACE_GRANT_WORDING 1

/** Its file, signed by @player. */
GByteArray *carpace_grant_write (const CarpacePerson *player, const CarpaceGrant *grant);

/** Reads one: it must be signed by the player that it names, and by nobody but them and the guardian that it names.
 * @param ret_guarded whether the guardian signed, too */
CarpaceTeamFault carpace_grant_read (const uint8_t *from, size_t n, CarpaceGrant *ret_grant, bool *ret_guarded);

/** The guardian's signature on the file of a grant. @return NULL where @guardian is not whom it names, or signed already */
GByteArray *carpace_grant_countersign (const uint8_t *from, size_t n, const CarpacePerson *guardian);

/** Whether it lets its reader read anything now: both UTC's day and @today have to lie within its dates. A club's database
 * judges by UTC's alone (src/data/club/2-reading.sql), so a program never shows more than that, and says itself why.
 * @param today the practice day of whoever judges
 * @return FINE, WITHDRAWN, UNGUARDED, NOT_YET or ENDED */
CarpaceTeamFault carpace_grant_holds (const CarpaceGrant *grant, bool guarded, int64_t now_s, int32_t today);

/** UTC's day at @now_s. */
int32_t carpace_grant_day (int64_t now_s);

#endif
