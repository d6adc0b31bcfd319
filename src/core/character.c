/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "carpace/character.h"

/* U+2028 to U+202E: ends of lines and paragraphs, embeddings and overrides of direction; U+2066 to U+2069: isolates
 * (Unicode Standard Annex #9, table 4). */
bool
carpace_character_is_unfit (uint32_t c, bool lines)
{
  return (c < 0x20 && !(lines && c == '\n')) || (c >= 0x7F && c < 0xA0) || (c >= 0x2028 && c <= 0x202E)
         || (c >= 0x2066 && c <= 0x2069);
}
