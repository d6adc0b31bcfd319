/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * character.h: characters that no name may have, whoever wrote it.
 */
#ifndef CARPACE_CHARACTER_H
#define CARPACE_CHARACTER_H

#include <stdbool.h>
#include <stdint.h>

/** Whether @c (a code point) is a control (C0, DEL, C1), ends a line or a paragraph, or turns the direction of text:
 * on a terminal such a name would do or hide something. @param lines whether ends of lines (U+000A) are fit */
bool carpace_character_is_unfit (uint32_t c, bool lines);

#endif
