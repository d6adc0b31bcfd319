/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keys against the values of their standards; what locks them; the words that stand for them. */
#include "said.h"

#include <sodium.h>

#include "team/words.h"

/* RFC 8032, 7.1: TEST 1 to 3. */
static const struct { const char *seed, *key, *message, *signature; } rfc_8032[] = {
  { "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
    "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
    "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b" },
  { "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
    "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
    "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00" },
  { "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
    "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
    "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a" },
};

static void
signing_is_that_of_rfc_8032 (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rfc_8032); i++)
    {
      g_autoptr (GByteArray) seed = bytes_of (rfc_8032[i].seed), key = bytes_of (rfc_8032[i].key);
      g_autoptr (GByteArray) message = bytes_of (rfc_8032[i].message), signature = bytes_of (rfc_8032[i].signature);
      CarpaceSigner signer;
      uint8_t made[crypto_sign_BYTES];

      carpace_signer_of (seed->data, &signer);
      assert_memory_equal (signer.key.byte, key->data, CARPACE_KEY_BYTES);
      crypto_sign_detached (made, NULL, message->data, message->len, signer.secret);
      assert_memory_equal (made, signature->data, sizeof made);
    }
}

/* RFC 7748, 6.1: what sealing rests on. */
static void
sealing_is_that_of_rfc_7748 (void **state)
{
  g_autoptr (GByteArray) secret = bytes_of ("77076d0a7318a57d3c16c17251b26645df4c2f87ebc0992ab177fba51db92c2a");
  g_autoptr (GByteArray) key = bytes_of ("8520f0098930a754748b7ddcb43ef75a0dbf3a0d26381af4eba4a98eaa9b4e6a");
  g_autoptr (GByteArray) other = bytes_of ("de9edb7d7b7dc1b4d35b61c2ece435373f8343c85b78674dadfc7e146f882b4f");
  g_autoptr (GByteArray) shared = bytes_of ("4a5d9d5ba4ce2de1728e3bf480350f25e07e21c947d19e3376f09b3c1e161742");
  uint8_t made[CARPACE_KEY_BYTES];

  crypto_scalarmult_base (made, secret->data);
  assert_memory_equal (made, key->data, sizeof made);
  assert_int_equal (crypto_scalarmult (made, secret->data, other->data), 0);
  assert_memory_equal (made, shared->data, sizeof made);
}

/* Two keys for two ends, never one for both. */
static void
both_keys_come_from_one_secret (void **state)
{
  CarpacePerson one = person_of (1), again = person_of (1), other = person_of (2), chance[2];

  assert_memory_equal (&one, &again, sizeof one);
  assert_memory_not_equal (one.signer.key.byte, other.signer.key.byte, CARPACE_KEY_BYTES);
  assert_memory_not_equal (one.seal.byte, other.seal.byte, CARPACE_KEY_BYTES);
  assert_memory_not_equal (one.signer.secret, one.seal_secret, CARPACE_KEY_BYTES);
  carpace_person_new (&chance[0]);
  carpace_person_new (&chance[1]);
  assert_memory_not_equal (chance[0].secret, chance[1].secret, CARPACE_PERSON_SECRET_BYTES);
}

static void
a_pass_phrase_opens_what_it_locked (void **state)
{
  CarpacePerson person = person_of (7), opened = { .secret = { 0 } };
  g_autoptr (GByteArray) file = carpace_person_lock (&person, "five dull lamps hum", CARPACE_LOCK_LEAST);
  const uint8_t *secret = person.secret;

  assert_non_null (file);
  for (guint i = 0; i + sizeof person.secret <= file->len; i++)
    assert_memory_not_equal (file->data + i, secret, sizeof person.secret);
  assert_int_equal (carpace_person_unlock (file->data, file->len, "five dull lamps hum", &opened), CARPACE_TEAM_FINE);
  assert_memory_equal (&opened, &person, sizeof person);
  memset (&opened, 0, sizeof opened);
  assert_int_equal (carpace_person_unlock (file->data, file->len, "five dull lamps hu", &opened), CARPACE_TEAM_WRONG_PHRASE);
  assert_int_equal (opened.secret[0], 0);
  file->data[file->len - 2] ^= 1;
  assert_int_equal (carpace_person_unlock (file->data, file->len, "five dull lamps hum", &opened), CARPACE_TEAM_WRONG_PHRASE);
  assert_int_equal (carpace_person_unlock (file->data, file->len - 9, "five dull lamps hum", &opened), CARPACE_TEAM_CUT);
}

static void
a_device_is_read_back (void **state)
{
  CarpaceSigner signer = device_of (9), read;
  g_autoptr (GByteArray) file = carpace_signer_write (&signer);

  assert_int_equal (carpace_signer_read (file->data, file->len, &read), CARPACE_TEAM_FINE);
  assert_memory_equal (&read, &signer, sizeof signer);
  assert_int_equal (carpace_signer_read (file->data, file->len - 1, &read), CARPACE_TEAM_CUT);
  file->data[0] ^= 1;
  assert_int_equal (carpace_signer_read (file->data, file->len, &read), CARPACE_TEAM_FOREIGN);
}

/* A card that names another's key, signed by one's own, is nobody's. */
static void
a_card_is_signed_by_whom_it_names (void **state)
{
  CarpacePerson person = person_of (1), other = person_of (2);
  g_autoptr (GByteArray) file = carpace_card_write (&person, "K7", CARPACE_ROLE_PLAYER, 1800000000), forged = NULL;
  CarpaceCard card;

  assert_int_equal (carpace_card_read (file->data, file->len, &card), CARPACE_TEAM_FINE);
  assert_string_equal (card.name, "K7");
  assert_true (carpace_key_equal (&card.seal, &person.seal));
  forged = carpace_signed_write (CARPACE_TEAM_CARD, &card, &other.signer, 1);
  assert_int_equal (carpace_card_read (forged->data, forged->len, &card), CARPACE_TEAM_OTHER_SIGNER);
}

/* Named by one and signed by the other; nobody else's signature makes it whole. */
static void
an_heir_signs_what_names_them (void **state)
{
  CarpacePerson before = person_of (1), after = person_of (2), other = person_of (3);
  const CarpaceCard card = { .sign = after.signer.key, .seal = after.seal };
  g_autoptr (GByteArray) named = carpace_heir_name (&before, &card, 1800000000), both = NULL, none = NULL, alone = NULL;
  CarpaceHeir heir;

  assert_int_equal (carpace_heir_read (named->data, named->len, &heir), CARPACE_TEAM_OTHER_SIGNER);
  assert_int_equal (carpace_heir_countersign (named->data, named->len, &other, &none), CARPACE_TEAM_NOT_FOR_YOU);
  assert_int_equal (carpace_heir_countersign (named->data, named->len - 1, &after, &none), CARPACE_TEAM_CUT);
  assert_int_equal (carpace_heir_countersign (named->data, named->len, &after, &both), CARPACE_TEAM_FINE);
  assert_int_equal (carpace_heir_read (both->data, both->len, &heir), CARPACE_TEAM_FINE);
  assert_int_equal (carpace_heir_countersign (both->data, both->len, &after, &none), CARPACE_TEAM_OTHER_SIGNER);
  alone = carpace_signed_write (CARPACE_TEAM_HEIR, &heir, &after.signer, 1); /* who names themselves */
  assert_int_equal (carpace_heir_countersign (alone->data, alone->len, &after, &none), CARPACE_TEAM_OTHER_SIGNER);
  assert_null (none);
}

static void
an_heir_is_named_by_both (void **state)
{
  CarpacePerson before = person_of (1), after = person_of (2);
  g_autoptr (GByteArray) file = carpace_heir_write (&before, &after, 1800000000), alone = NULL;
  CarpaceHeir heir;

  assert_int_equal (carpace_heir_read (file->data, file->len, &heir), CARPACE_TEAM_FINE);
  alone = carpace_signed_write (CARPACE_TEAM_HEIR, &heir, &after.signer, 1); /* whoever wants to inherit */
  assert_int_equal (carpace_heir_read (alone->data, alone->len, &heir), CARPACE_TEAM_OTHER_SIGNER);
}

static void
spoken_words_are_all_different (void **state)
{
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (int32_t i = 0; i < CARPACE_SPOKEN_WORDS; i++)
    {
      char word[CARPACE_SPOKEN_BYTES];

      carpace_spoken_word (i, word);
      assert_true (strlen (word) == 4 || strlen (word) == 5);
      assert_true (g_hash_table_add (known, g_strdup (word)));
    }
}

/* Another sealing key under the same signing key has other words: both are compared. */
static void
spoken_words_stand_for_both_keys (void **state)
{
  CarpacePerson one = person_of (1), other = person_of (2);
  char words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES], changed[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES];
  g_auto (GStrv) each = NULL;

  carpace_spoken (&one.signer.key, &one.seal, words);
  each = g_strsplit (words, " ", -1);
  assert_int_equal (g_strv_length (each), CARPACE_SPOKEN);
  carpace_spoken (&one.signer.key, &other.seal, changed);
  assert_string_not_equal (words, changed);
  carpace_spoken (&other.signer.key, &one.seal, changed);
  assert_string_not_equal (words, changed);
  assert_true (carpace_spoken_are (words, &one.signer.key, &one.seal));
  assert_false (carpace_spoken_are (changed, &one.signer.key, &one.seal));
  g_autofree char *loud = g_ascii_strup (words, -1);
  assert_true (carpace_spoken_are (g_strdelimit (loud, " ", '-'), &one.signer.key, &one.seal));
  loud[strlen (loud) - 5] = '\0'; /* one word short */
  assert_false (carpace_spoken_are (loud, &one.signer.key, &one.seal));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (signing_is_that_of_rfc_8032),
    cmocka_unit_test (sealing_is_that_of_rfc_7748),
    cmocka_unit_test (both_keys_come_from_one_secret),
    cmocka_unit_test (a_pass_phrase_opens_what_it_locked),
    cmocka_unit_test (a_device_is_read_back),
    cmocka_unit_test (a_card_is_signed_by_whom_it_names),
    cmocka_unit_test (an_heir_signs_what_names_them),
    cmocka_unit_test (an_heir_is_named_by_both),
    cmocka_unit_test (spoken_words_are_all_different),
    cmocka_unit_test (spoken_words_stand_for_both_keys),
  };
  return carpace_team_ready () ? cmocka_run_group_tests (tests, NULL, NULL) : 1;
}
