/* SPDX-License-Identifier: GPL-3.0-or-later */
/* words.h: a script's words as an event, read once. */
#ifndef CARPACE_EXPLORE_WORDS_H
#define CARPACE_EXPLORE_WORDS_H

#include "carpace/session.h"

/* Facts are of @now. */
CarpaceEvent words_read (const char *words, int64_t now_ms);

/* The same, read once, for what is no fact. @words is a literal: it is known again by where it stands. */
const CarpaceEvent *words_event (const char *words);

#endif
