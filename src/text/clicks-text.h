/* SPDX-License-Identifier: GPL-3.0-or-later */
/** clicks-text.h: clicks that were counted, in words. */
#ifndef CARPACE_TEXT_CLICKS_TEXT_H
#define CARPACE_TEXT_CLICKS_TEXT_H

#include "carpace/clicks.h"

/** "Clicks measured: 84 a minute, in 1 min 30 s." g_free() it. */
char *carpace_text_clicks_measured (const CarpaceClicksCount *count);

#endif
