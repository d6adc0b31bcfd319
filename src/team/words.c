/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/words.h"

#include <glib.h>
#include <string.h>

#include "team/record.h"

#define BITS 11

/* Letters that English and German read alike. Within a word there are fewer, those farther apart in the ear. */
static const char *const first[16] = { "b", "d", "f", "g", "h", "k", "l", "m", "n", "p", "r", "t", "bl", "dr", "kr", "pl" };
static const char inner[8] = { 'b', 'd', 'f', 'k', 'l', 'm', 'n', 'r' };
static const char vowel[4] = { 'a', 'e', 'i', 'o' };

static const char domain[] = "carpace-words-1";

void
carpace_spoken_word (int32_t number, char ret_word[CARPACE_SPOKEN_BYTES])
{
  g_snprintf (ret_word, CARPACE_SPOKEN_BYTES, "%s%c%c%c", first[(number >> 7) & 15], vowel[(number >> 5) & 3],
              inner[(number >> 2) & 7], vowel[number & 3]);
}

static CarpaceKey
hash_of (const CarpaceKey *sign, const CarpaceKey *seal)
{
  uint8_t both[sizeof domain - 1 + 2 * CARPACE_KEY_BYTES];

  memcpy (both, domain, sizeof domain - 1);
  memcpy (both + sizeof domain - 1, sign->byte, CARPACE_KEY_BYTES);
  memcpy (both + sizeof domain - 1 + CARPACE_KEY_BYTES, seal->byte, CARPACE_KEY_BYTES);
  return carpace_team_hash (both, sizeof both);
}

void
carpace_spoken (const CarpaceKey *sign, const CarpaceKey *seal, char ret_words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES])
{
  CarpaceKey hash = hash_of (sign, seal);

  ret_words[0] = '\0';
  for (int i = 0; i < CARPACE_SPOKEN; i++)
    {
      char word[CARPACE_SPOKEN_BYTES];
      int32_t number = 0;

      for (int bit = i * BITS; bit < (i + 1) * BITS; bit++)
        number = 2 * number + ((hash.byte[bit / 8] >> (7 - bit % 8)) & 1);
      carpace_spoken_word (number, word);
      g_strlcat (ret_words, word, CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES);
      if (i < CARPACE_SPOKEN - 1)
        g_strlcat (ret_words, " ", CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES);
    }
}

static char
next_letter (const char **text)
{
  while (**text != '\0' && !g_ascii_isalpha (**text))
    (*text)++;
  return **text == '\0' ? '\0' : g_ascii_tolower (*(*text)++);
}

bool
carpace_spoken_are (const char *said, const CarpaceKey *sign, const CarpaceKey *seal)
{
  char words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES];
  const char *right = words;
  char letter;

  carpace_spoken (sign, seal, words);
  do
    {
      letter = next_letter (&right);
      if (letter != next_letter (&said))
        return false;
    }
  while (letter != '\0');
  return true;
}
