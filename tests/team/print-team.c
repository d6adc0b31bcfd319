/* SPDX-License-Identifier: GPL-3.0-or-later */
/* print-team.c: what Carpace signs, locks and seals, for another reader; and what another one made, opened.
 *
 *   print-team            one "NAME HEX" a line
 *   print-team open HEX   the rows of a bundle to the coach, whose secret is 32 times 2
 *   print-team note HEX   the words of a note to the device, whose seed is 32 times 4 */
#include "said.h"

#include <stdio.h>

#include "team/bundle.h"
#include "team/note.h"
#include "team/words.h"

#define NOW INT64_C (1803970800)

static void
print (const char *name, const void *bytes, size_t n)
{
  printf ("%s ", name);
  for (size_t i = 0; i < n; i++)
    printf ("%02x", ((const uint8_t *) bytes)[i]);
  printf ("\n");
}

static int
open_bundle (const char *hex)
{
  g_autoptr (GByteArray) file = bytes_of (hex), rows = NULL;
  CarpacePerson coach = person_of (2);
  CarpaceBundleSeen seen;

  if (carpace_bundle_read (file->data, file->len, &seen) != CARPACE_TEAM_FINE
      || carpace_bundle_open (&seen, &coach, &rows) != CARPACE_TEAM_FINE)
    return 1;
  print ("rows", rows->data, rows->len);
  return 0;
}

static int
open_note (const char *hex)
{
  g_autoptr (GByteArray) file = bytes_of (hex);
  CarpaceSigner device = device_of (4);
  CarpaceNoteText text;
  CarpaceNote note;

  if (carpace_note_read (file->data, file->len, &note) != CARPACE_TEAM_FINE
      || carpace_note_open (&note, &device, &text) != CARPACE_TEAM_FINE)
    return 1;
  printf ("%s\n", text.text);
  return 0;
}

int
main (int argc, char **argv)
{
  CarpacePerson player, coach;
  CarpaceSigner device;
  CarpaceChain chain = { .number = 0 };
  const CarpaceLoadWeek week = { .monday = 20517, .planned_ms = 18000000, .done_ms = 16200000, .days = 5, .rests = 31 };
  g_autoptr (GByteArray) locked = NULL, card = NULL, word = NULL, rows = g_byte_array_new (), bundle = NULL, note = NULL;
  char words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES];

  if (!carpace_team_ready ())
    return 1;
  if (argc > 2)
    return strcmp (argv[1], "note") == 0 ? open_note (argv[2]) : open_bundle (argv[2]);
  player = person_of (1);
  coach = person_of (2);
  device = device_of (4);
  print ("sign", player.signer.key.byte, CARPACE_KEY_BYTES);
  print ("seal", player.seal.byte, CARPACE_KEY_BYTES);
  carpace_spoken (&player.signer.key, &player.seal, words);
  print ("words", words, strlen (words));
  locked = carpace_person_lock (&player, "five dull lamps hum", CARPACE_LOCK_LEAST);
  print ("locked", locked->data, locked->len);
  card = carpace_card_write (&player, "K7", CARPACE_ROLE_PLAYER, NOW);
  print ("card", card->data, card->len);
  word = carpace_device_write (&player, &device.key, NOW);
  carpace_record_write (CARPACE_TEAM_LOAD_WEEK, &week, rows);
  bundle = carpace_bundle_write (&(CarpaceBundling) { .player = player.signer.key, .kind = CARPACE_BUNDLE_LOAD, .made_s = NOW,
                                                      .device = word, .signer = &device, .seal = &coach.seal, .n_readers = 1,
                                                      .rows = rows }, &chain);
  print ("rows", rows->data, rows->len);
  print ("bundle", bundle->data, bundle->len);
  note = carpace_note_write (&coach, &player.signer.key, &device.key, 1, "Bring the tape – Jo Bär", NOW);
  print ("note", note->data, note->len);
  return 0;
}
