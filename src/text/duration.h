/* SPDX-License-Identifier: GPL-3.0-or-later */
/** duration.h: lengths of time in words. */
#ifndef CARPACE_TEXT_DURATION_H
#define CARPACE_TEXT_DURATION_H

#include <stdint.h>

/** @ms in words, whole seconds, down: "1 h 5 min", "19 min 30 s", "0 s". The
 * caller's to g_free(). */
char *carpace_text_duration (int64_t ms);

#endif
