/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * words.h: a person's keys as six words that are read aloud.
 *
 * A word is four syllables' halves, consonant, vowel, consonant, vowel, from letters that English and German read
 * alike: 16 x 4 x 8 x 4 = 2048 words, 11 bits each. Six are 66 bits of a hash of both keys, so a stranger's card with
 * the same words takes about 2^66 tries to find.
 */
#ifndef CARPACE_TEAM_WORDS_H
#define CARPACE_TEAM_WORDS_H

#include "carpace/team.h"

#define CARPACE_SPOKEN 6
#define CARPACE_SPOKEN_WORDS 2048
#define CARPACE_SPOKEN_BYTES 7 /**< of one word, its end included */

/** The word for @number, 0 to 2047. */
void carpace_spoken_word (int32_t number, char ret_word[CARPACE_SPOKEN_BYTES]);

/** The words of the keys of @card, parted by blanks. */
void carpace_spoken (const CarpaceKey *sign, const CarpaceKey *seal, char ret_words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES]);

/** Whether @said are those words; in any case of letters, parted by anything that is no letter. */
bool carpace_spoken_are (const char *said, const CarpaceKey *sign, const CarpaceKey *seal);

#endif
