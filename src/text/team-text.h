/* SPDX-License-Identifier: GPL-3.0-or-later */
/** team-text.h: keys, grants, bundles and the roster in words. */
#ifndef CARPACE_TEXT_TEAM_TEXT_H
#define CARPACE_TEXT_TEAM_TEXT_H

#include "carpace/roster.h"
#include "text/notice.h"

/** What is wrong with @what (a file, a key), and what to do: one sentence. g_free() it */
char *carpace_text_team_fault (CarpaceTeamFault fault, const char *what);

/** What was gathered is damaged at @path: a sentence. g_free() it */
char *carpace_text_roster_damaged (const char *path);

/** Who somebody is, and the two of whom it is said. */
const char *carpace_text_role (CarpaceRole role);

/** What a grant lets be read, in a few words, and what that means, in sentences.
 * @param own told to the player; else to their guardian */
const char *carpace_text_grant_what (CarpaceGrantWhat what);
const char *carpace_text_grant_means (CarpaceGrantWhat what, bool own);

/** Who may read what, from when until when, and how it is with that (@holds, as carpace_grant_holds()). g_free() it */
char *carpace_text_grant_row (const CarpaceGrant *grant, CarpaceTeamFault holds);

/** Who gave a plan and signed it, a sentence. g_free() it */
char *carpace_text_given_by (const CarpaceHandOut *hand_out);

/** By whom a note is, and of when, with a colon. g_free() it */
char *carpace_text_note_by (const CarpaceCard *from, int64_t made_s);

/** That a note by @from came; carpace_notice_clear() it. Its words wait for the window of today: others may see a notice. */
void carpace_text_note_notice (const CarpaceCard *from, CarpaceNotice *ret_notice);

/** Why a player needs a look. */
const char *carpace_text_look (CarpaceLook look);

#endif
