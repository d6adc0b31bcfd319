/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keys that are made: all of their files or none, and nothing secret left in memory that is let go of. */
#define _GNU_SOURCE /* memmem */
#include "said.h"

#include <errno.h>
#include <sodium.h>

#include "../fakes/fake-folder.h"
#include "team/bundle.h"
#include "team/shelf.h"

#define NOW INT64_C (1803970800)
#define PHRASE "five dull lamps hum"

/* All that was made zero. libsodium's own is not called: whatever wipes memory here calls this one. */
static GByteArray *wiped;

void
sodium_memzero (void *const from, const size_t n)
{
  volatile uint8_t *byte = from;

  if (wiped != NULL)
    g_byte_array_append (wiped, from, (guint) n);
  for (size_t i = 0; i < n; i++)
    byte[i] = 0;
}

static bool
was_wiped (const void *bytes, size_t n)
{
  return wiped->len >= n && memmem (wiped->data, wiped->len, bytes, n) != NULL;
}

static CarpaceTeamFault
begin (FakeFolder *files, const char *name)
{
  CarpaceFolder shelf = fake_folder_port (files);

  return carpace_shelf_begin (&shelf, name, CARPACE_ROLE_PLAYER, PHRASE, CARPACE_LOCK_LEAST, NOW);
}

/* Whichever of them cannot be written: a card without its secret would be nobody's, and in the way of another. */
static void
keys_are_kept_whole_or_not_at_all (void **state)
{
  static const char *const names[] = { "person.card", "device.key", "device.word", "person.key" };

  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      FakeFolder files;

      fake_folder_begin (&files);
      files.error = ENOSPC;
      files.only = names[i];
      assert_int_equal (begin (&files, "K7"), CARPACE_TEAM_FAILED);
      assert_int_equal (errno, ENOSPC);
      assert_int_equal (g_hash_table_size (files.files), 0);
      files.error = 0;
      assert_int_equal (begin (&files, "K7"), CARPACE_TEAM_FINE);
      assert_int_equal (g_hash_table_size (files.files), G_N_ELEMENTS (names));
      assert_int_equal (begin (&files, "K7"), CARPACE_TEAM_DAMAGED); /* there are some */
      fake_folder_end (&files);
    }
}

/* A card that could not be read again is not written. */
static void
a_name_is_looked_at_first (void **state)
{
  static const struct { const char *name; bool fits; } rows[] = {
    { "K7", true }, { "", false }, { "K/7", false }, { "K\u202e7", false }, { "K\xc2\x9b" "7", false }, { "K\x1b[2J", false }, { "K\xff", false },
    { "1234567890123456789012345678901234567890123456789012345678901234", true },
    { "12345678901234567890123456789012345678901234567890123456789012345", false },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      FakeFolder files;
      CarpaceFolder shelf;
      CarpaceCard card;

      fake_folder_begin (&files);
      shelf = fake_folder_port (&files);
      assert_int_equal (begin (&files, rows[i].name), rows[i].fits ? CARPACE_TEAM_FINE : CARPACE_TEAM_DAMAGED);
      assert_int_equal (carpace_shelf_card (&shelf, &card, NULL), rows[i].fits ? CARPACE_TEAM_FINE : CARPACE_TEAM_NO_FILE);
      fake_folder_end (&files);
    }
}

/* ---- what is left behind ---- */

static void
a_devices_file_is_wiped (void **state)
{
  FakeFolder files;
  CarpaceFolder shelf;
  CarpaceSigner device;
  g_autoptr (GByteArray) word = NULL;
  const GByteArray *file;

  fake_folder_begin (&files);
  shelf = fake_folder_port (&files);
  assert_int_equal (begin (&files, "K7"), CARPACE_TEAM_FINE);
  file = fake_folder_file (&files, "device.key");
  assert_true (was_wiped (file->data, file->len)); /* what was written */
  g_byte_array_set_size (wiped, 0);
  assert_int_equal (carpace_shelf_device (&shelf, &device, &word), CARPACE_TEAM_FINE);
  assert_true (was_wiped (file->data, file->len)); /* what was read */
  fake_folder_end (&files);
}

static void
an_heirs_secrets_are_wiped (void **state)
{
  CarpacePerson before = person_of (1), after = person_of (2);
  g_autoptr (GByteArray) file = NULL;

  g_byte_array_set_size (wiped, 0);
  file = carpace_heir_write (&before, &after, NOW);
  assert_true (was_wiped (before.signer.secret, sizeof before.signer.secret));
  assert_true (was_wiped (after.signer.secret, sizeof after.signer.secret));
}

/* Of a bundle whose second piece is another one, the first was open already. */
static void
a_bundle_that_does_not_open_leaves_nothing (void **state)
{
  CarpacePerson player = person_of (1), coach = person_of (2);
  CarpaceSigner device = device_of (3);
  g_autoptr (GByteArray) word = carpace_device_write (&player, &device.key, NOW), rows = g_byte_array_new (), file = NULL, again = NULL;
  GByteArray *opened = NULL;
  const CarpaceBundling bundling = { .player = player.signer.key, .kind = CARPACE_BUNDLE_HAND, .made_s = NOW, .device = word,
                                     .signer = &device, .seal = &coach.seal, .n_readers = 1, .rows = rows };
  CarpaceChain chain = { .kind = CARPACE_BUNDLE_HAND };
  CarpaceBundleSeen seen;
  CarpaceBundle bundle;
  g_autofree uint8_t *content = NULL;
  const uint8_t *at;

  g_byte_array_set_size (rows, 100000);
  for (guint i = 0; i < rows->len; i++)
    rows->data[i] = (uint8_t) (i * i >> 3);
  file = carpace_bundle_write (&bundling, &chain);
  assert_int_equal (carpace_bundle_read (file->data, file->len, &seen), CARPACE_TEAM_FINE);
  bundle = seen.bundle;
  content = g_memdup2 (bundle.content.byte, bundle.content.n);
  content[bundle.content.n - 1] ^= 1;
  bundle.content.byte = content;
  again = carpace_signed_write (CARPACE_TEAM_BUNDLE, &bundle, &device, 1);
  assert_int_equal (carpace_bundle_read (again->data, again->len, &seen), CARPACE_TEAM_FINE);
  g_byte_array_set_size (wiped, 0);
  assert_int_equal (carpace_bundle_open (&seen, &coach, &opened), CARPACE_TEAM_DAMAGED);
  at = memmem (wiped->data, wiped->len, rows->data, 65536); /* the piece, then the rows */
  assert_non_null (at);
  at += 65536;
  assert_non_null (memmem (at, (size_t) (wiped->data + wiped->len - at), rows->data, 65536));
}

static int
watch (void **state)
{
  wiped = g_byte_array_new ();
  return 0;
}

static int
watch_no_more (void **state)
{
  g_clear_pointer (&wiped, g_byte_array_unref);
  return 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (keys_are_kept_whole_or_not_at_all),
    cmocka_unit_test (a_name_is_looked_at_first),
    cmocka_unit_test_setup_teardown (a_devices_file_is_wiped, watch, watch_no_more),
    cmocka_unit_test_setup_teardown (an_heirs_secrets_are_wiped, watch, watch_no_more),
    cmocka_unit_test_setup_teardown (a_bundle_that_does_not_open_leaves_nothing, watch, watch_no_more),
  };
  return carpace_team_ready () ? cmocka_run_group_tests (tests, NULL, NULL) : 1;
}
