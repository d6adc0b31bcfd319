/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * fake-diary.h: a diary in memory, of an invented player (K7).
 *
 * Either filled record by record, or with a made-up season: the same seed gives
 * the same records. The season's rules are rough stand-ins for the product's
 * own: it is there to be drawn and counted, not to be right about dose.
 */
#ifndef CARPACE_FAKE_DIARY_H
#define CARPACE_FAKE_DIARY_H

#include "carpace/diary.h"

typedef struct CarpaceFakeDiary CarpaceFakeDiary;

/** An empty diary. */
CarpaceFakeDiary *carpace_fake_diary_new (void);

/** @n_days of practice from @first on, with some days off in them. */
CarpaceFakeDiary *carpace_fake_diary_season (uint64_t seed, CarpaceDay first, int32_t n_days);

void carpace_fake_diary_free (CarpaceFakeDiary *fake);

/** Adds a record of @day, which is not before the last one's. @return its id */
int64_t carpace_fake_diary_add (CarpaceFakeDiary *fake, CarpaceDay day, const CarpaceEntry *entry, const char *note);

/** Minutes of other mouse input are not records of their own. */
void carpace_fake_diary_set_other (CarpaceFakeDiary *fake, CarpaceDay day, int64_t other_ms);

/** The diary as its readers see it. */
CarpaceDiary carpace_fake_diary_port (CarpaceFakeDiary *fake);

/** How often the port's functions were called since the last question. */
int32_t carpace_fake_diary_reads (CarpaceFakeDiary *fake);

/** Makes every read fail from now on. */
void carpace_fake_diary_break (CarpaceFakeDiary *fake);

#endif
