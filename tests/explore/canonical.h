/* SPDX-License-Identifier: GPL-3.0-or-later */
/* canonical.h: one number for all sessions that will do the same from now on.
 *
 * Moments count from now, days from today, padding has no part in it, and what
 * can matter no longer is left out. */
#ifndef CARPACE_EXPLORE_CANONICAL_H
#define CARPACE_EXPLORE_CANONICAL_H

#include <stdio.h>

#include "carpace/session.h"

/* 64 bits, never 0: among n states two that differ share one with a chance of n^2 / 2^65. */
uint64_t canonical_hash (const CarpaceSession *session, CarpaceInstant now);

/* The same, a field a line: for whoever asks why two are not one. */
void canonical_show (FILE *file, const CarpaceSession *session, CarpaceInstant now);

/* Copies what a session holds, without the places that are not filled. */
void canonical_copy (CarpaceSession *to, const CarpaceSession *from);

#endif
