/* SPDX-License-Identifier: GPL-3.0-or-later */
/** roster-text.h: a roster for people. */
#ifndef CARPACE_TEXT_ROSTER_TEXT_H
#define CARPACE_TEXT_ROSTER_TEXT_H

#include <glib.h>

#include "carpace/roster.h"

/** The whole of it: who needs a look and why, then a line or two a player. @param rows CarpaceRosterRow */
void carpace_text_roster (const GArray *rows, GString *out);

/** How many need a look, as a line above them. g_free() it */
char *carpace_text_roster_need (const CarpaceRosterRow *row, size_t n_rows);

/** All that is known of one player, with each week, the last first. g_free() it */
char *carpace_text_roster_player (const CarpaceRosterRow *row);

/** The last week that is over: done, of what was planned; "" where none is known. g_free() it */
char *carpace_text_roster_week (const CarpaceRosterRow *row);

/** The reasons of one row, joined, the more pressing first; "" where there is none. g_free() it */
char *carpace_text_roster_looks (const CarpaceRosterRow *row);

/** What there is to say of how it is shared: withdrawn, ended, erased, missing; "" where all is well. g_free() it */
char *carpace_text_roster_sharing (const CarpaceRosterRow *row);

#endif
