/* SPDX-License-Identifier: GPL-3.0-or-later */
/** settings-text.h: each setting in words. */
#ifndef CARPACE_TEXT_SETTINGS_TEXT_H
#define CARPACE_TEXT_SETTINGS_TEXT_H

#include "carpace/settings.h"

/** What it is called. */
const char *carpace_text_setting (CarpaceSettingId id);

/** What it does, or how it is written, in a line. */
const char *carpace_text_setting_hint (CarpaceSettingId id);

/** What it belongs to: "Keys". */
const char *carpace_text_setting_part (CarpaceSettingId id);

/** A word of its set. @param from_right whether lines are read from the right: corners follow */
const char *carpace_text_setting_word (CarpaceSettingId id, int32_t value, bool from_right);

/** That @text is none, and what would be right, in one sentence: for a setting that is read
 * as a whole; "" for others. The caller's to g_free(). */
char *carpace_text_setting_fault (CarpaceSettingId id, const char *text);

#endif
