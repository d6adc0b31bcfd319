/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bundles: who can open them, and what their numbers and hashes give away. */
#include "said.h"

#include "team/bundle.h"

#define NOW INT64_C (1803970800)

typedef struct
{
  CarpacePerson player, coach, clinician;
  CarpaceSigner device;
  GByteArray *word, *rows;
  CarpaceChain chain;
} Team;

static void
set_up (Team *team, guint n_rows)
{
  *team = (Team) { .player = person_of (1), .coach = person_of (2), .clinician = person_of (3), .device = device_of (4),
                   .rows = g_byte_array_new () };
  team->word = carpace_device_write (&team->player, &team->device.key, NOW - 1000);
  g_byte_array_set_size (team->rows, n_rows);
  for (guint i = 0; i < n_rows; i++)
    team->rows->data[i] = (uint8_t) (i * 7 + i / 251);
}

static void
take_down (Team *team)
{
  g_byte_array_unref (team->word);
  g_byte_array_unref (team->rows);
}

static GByteArray *
bundle_of (Team *team, const CarpaceKey *seal, int32_t n, int64_t made_s)
{
  const CarpaceBundling bundling = { .player = team->player.signer.key, .kind = CARPACE_BUNDLE_HAND, .made_s = made_s,
                                     .device = team->word, .signer = &team->device, .seal = seal, .n_readers = n,
                                     .rows = team->rows };

  return carpace_bundle_write (&bundling, &team->chain);
}

/* Sizes about the pieces it is sealed in. */
static void
its_readers_open_it_and_nobody_else (void **state)
{
  static const guint sizes[] = { 0, 1, 65535, 65536, 65537, 200000 };

  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      Team team;
      CarpaceBundleSeen seen;
      g_autoptr (GByteArray) file = NULL, rows = NULL, again = NULL, none = NULL;
      CarpacePerson stranger = person_of (99);

      set_up (&team, sizes[i]);
      file = bundle_of (&team, (CarpaceKey[]) { team.coach.seal, team.clinician.seal }, 2, NOW);
      assert_int_equal (carpace_bundle_read (file->data, file->len, &seen), CARPACE_TEAM_FINE);
      assert_int_equal (carpace_bundle_open (&seen, &team.coach, &rows), CARPACE_TEAM_FINE);
      assert_int_equal (carpace_bundle_open (&seen, &team.clinician, &again), CARPACE_TEAM_FINE);
      assert_int_equal (rows->len, sizes[i]);
      assert_true (rows->len == 0 || memcmp (rows->data, team.rows->data, rows->len) == 0);
      assert_int_equal (again->len, sizes[i]);
      assert_int_equal (carpace_bundle_open (&seen, &stranger, &none), CARPACE_TEAM_NOT_FOR_YOU);
      assert_int_equal (carpace_bundle_open (&seen, &team.player, &none), CARPACE_TEAM_NOT_FOR_YOU);
      assert_null (none);
      take_down (&team);
    }
}

static void
nobody_to_read_is_no_bundle (void **state)
{
  Team team;

  set_up (&team, 10);
  assert_null (bundle_of (&team, &team.coach.seal, 0, NOW));
  assert_int_equal (team.chain.number, 0);
  take_down (&team);
}

/* What was sealed to two cannot be cut to one, nor be signed anew by one of them. */
static void
a_bundle_is_signed_by_a_device_of_the_player (void **state)
{
  Team team;
  CarpaceBundleSeen seen;
  CarpaceSigner other = device_of (77);
  g_autoptr (GByteArray) file = NULL, anew = NULL, word = NULL, foreign = NULL;
  CarpaceBundle bundle;

  set_up (&team, 10);
  file = bundle_of (&team, &team.coach.seal, 1, NOW);
  assert_int_equal (carpace_bundle_read (file->data, file->len, &seen), CARPACE_TEAM_FINE);
  bundle = seen.bundle;
  anew = carpace_signed_write (CARPACE_TEAM_BUNDLE, &bundle, &other, 1);
  assert_int_equal (carpace_bundle_read (anew->data, anew->len, &seen), CARPACE_TEAM_OTHER_SIGNER);
  word = carpace_device_write (&team.coach, &other.key, NOW); /* a coach's own device, for the player's name */
  bundle.device = (CarpaceTeamBytes) { word->data, word->len };
  foreign = carpace_signed_write (CARPACE_TEAM_BUNDLE, &bundle, &other, 1);
  assert_int_equal (carpace_bundle_read (foreign->data, foreign->len, &seen), CARPACE_TEAM_OTHER_SIGNER);
  take_down (&team);
}

static CarpaceTeamFault
follows (const GByteArray *file, const CarpaceChain *last, int64_t now_s, int64_t *ret_missing)
{
  CarpaceBundleSeen seen;

  assert_int_equal (carpace_bundle_read (file->data, file->len, &seen), CARPACE_TEAM_FINE);
  return carpace_bundle_follows (&seen, last, now_s, ret_missing);
}

static void
gaps_and_rollbacks_show (void **state)
{
  Team team, twin;
  CarpaceChain after[5];
  GByteArray *file[5], *other;
  int64_t missing;

  set_up (&team, 10);
  for (int i = 1; i < 5; i++)
    {
      file[i] = bundle_of (&team, &team.coach.seal, 1, NOW);
      after[i] = team.chain;
    }
  assert_int_equal (follows (file[1], &(CarpaceChain) { .number = 0 }, NOW, &missing), CARPACE_TEAM_FINE);
  assert_int_equal (follows (file[2], &after[1], NOW, &missing), CARPACE_TEAM_FINE);
  assert_int_equal (missing, 0);
  assert_int_equal (follows (file[4], &after[1], NOW, &missing), CARPACE_TEAM_FINE);
  assert_int_equal (missing, 2);
  assert_int_equal (follows (file[2], &after[2], NOW, &missing), CARPACE_TEAM_FINE); /* the same once more */
  assert_int_equal (follows (file[1], &after[2], NOW, &missing), CARPACE_TEAM_ROLLED_BACK);
  set_up (&twin, 11); /* the same device, from a copy that was put back */
  other = bundle_of (&twin, &twin.coach.seal, 1, NOW);
  assert_int_equal (follows (other, &after[1], NOW, &missing), CARPACE_TEAM_ROLLED_BACK);
  g_byte_array_unref (other);
  other = bundle_of (&twin, &twin.coach.seal, 1, NOW);
  assert_int_equal (follows (other, &after[1], NOW, &missing), CARPACE_TEAM_FORKED);
  g_byte_array_unref (other);
  for (int i = 1; i < 5; i++)
    g_byte_array_unref (file[i]);
  take_down (&team);
  take_down (&twin);
}

/* A player's clock that is a year off, and one that is a time zone off. */
static void
a_bundle_from_the_future_is_not_taken (void **state)
{
  static const struct { const char *clock; int64_t ahead_s; CarpaceTeamFault fault; } rows[] = {
    { "a year back", -365 * 86400, CARPACE_TEAM_FINE },
    { "as far ahead as may be", CARPACE_TEAM_CLOCKS_APART_S, CARPACE_TEAM_FINE },
    { "a second more", CARPACE_TEAM_CLOCKS_APART_S + 1, CARPACE_TEAM_AHEAD },
    { "a year ahead", 365 * 86400, CARPACE_TEAM_AHEAD },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Team team;
      g_autoptr (GByteArray) file = NULL;
      int64_t missing;

      set_up (&team, 10);
      file = bundle_of (&team, &team.coach.seal, 1, NOW + rows[i].ahead_s);
      assert_int_equal (follows (file, &(CarpaceChain) { .number = 0 }, NOW, &missing), rows[i].fault);
      take_down (&team);
    }
}

/* Bytes that anybody with the key can change beneath the signature are not rows. */
static void
sealed_rows_cannot_be_cut (void **state)
{
  Team team;
  CarpaceBundleSeen seen;
  CarpaceBundle bundle;
  g_autoptr (GByteArray) file = NULL, cut = NULL, rows = NULL;

  set_up (&team, 200000);
  file = bundle_of (&team, &team.coach.seal, 1, NOW);
  assert_int_equal (carpace_bundle_read (file->data, file->len, &seen), CARPACE_TEAM_FINE);
  bundle = seen.bundle;
  bundle.content.n = 24 + 65536 + 17; /* a head and one whole piece */
  cut = carpace_signed_write (CARPACE_TEAM_BUNDLE, &bundle, &team.device, 1);
  assert_int_equal (carpace_bundle_read (cut->data, cut->len, &seen), CARPACE_TEAM_FINE);
  assert_int_equal (carpace_bundle_open (&seen, &team.coach, &rows), CARPACE_TEAM_DAMAGED);
  take_down (&team);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (its_readers_open_it_and_nobody_else),
    cmocka_unit_test (nobody_to_read_is_no_bundle),
    cmocka_unit_test (a_bundle_is_signed_by_a_device_of_the_player),
    cmocka_unit_test (gaps_and_rollbacks_show),
    cmocka_unit_test (a_bundle_from_the_future_is_not_taken),
    cmocka_unit_test (sealed_rows_cannot_be_cut),
  };
  return carpace_team_ready () ? cmocka_run_group_tests (tests, NULL, NULL) : 1;
}
