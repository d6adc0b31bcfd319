/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-team-fields.c: keys compared and said short, what a grant covers, kinds that there are. What records of a team
 * look like, and who takes them, tests/team has. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/team.h"

/* Two keys are one where each byte is; none is a key. */
static void
keys_are_compared_byte_by_byte (void **state)
{
  const CarpaceKey none = { { 0 } };
  CarpaceKey a = { { 1, 2, 3, 4 } }, b;

  assert_false (carpace_key_is_one (&none));
  for (size_t i = 0; i < CARPACE_KEY_BYTES; i++)
    {
      b = a;
      assert_true (carpace_key_equal (&a, &b) && carpace_key_same (&a, &b));
      assert_int_equal (carpace_key_hash (&a), carpace_key_hash (&b));
      b.byte[i] ^= 0x80;
      assert_false (carpace_key_equal (&a, &b) || carpace_key_same (&a, &b));
      b = none;
      b.byte[i] = 1;
      assert_true (carpace_key_is_one (&b));
    }
  b = a;
  b.byte[0] ^= 1;
  assert_int_not_equal (carpace_key_hash (&a), carpace_key_hash (&b));
}

/* Each digit, high half first, and its end. */
static void
keys_are_said_in_digits (void **state)
{
  CarpaceKey key = { { 0x01, 0x23, 0x45, 0x67, 0x89, 0xab, 0xcd, 0xef, 0xfe, 0xdc, 0xba, 0x98, 0x76, 0x54, 0x32, 0x10 } };
  static const char digits[] = "0123456789abcdeffedcba9876543210";
  char text[CARPACE_KEY_SHORT_BYTES + 1];

  memset (text, 'x', sizeof text);
  carpace_key_short (&key, text);
  assert_int_equal (strlen (text), CARPACE_KEY_SHORT_BYTES - 1);
  assert_memory_equal (text, digits, CARPACE_KEY_SHORT_BYTES - 1);
  assert_int_equal (text[CARPACE_KEY_SHORT_BYTES], 'x');
}

static void
a_grant_covers_what_it_names (void **state)
{
  static const struct { CarpaceGrantWhat what; bool load, hand; } rows[] = {
    { CARPACE_GRANT_NONE, false, false }, { CARPACE_GRANT_LOAD, true, false }, { CARPACE_GRANT_HAND, false, true },
    { CARPACE_GRANT_ALL, true, true }, { CARPACE_N_GRANT_WHATS, false, false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      assert_int_equal (carpace_grant_covers (rows[i].what, CARPACE_BUNDLE_LOAD), rows[i].load);
      assert_int_equal (carpace_grant_covers (rows[i].what, CARPACE_BUNDLE_HAND), rows[i].hand);
    }
}

/* A number from a stranger's record may be any. */
static void
kinds_that_there_are (void **state)
{
  static const int no_kinds[] = { -1, CARPACE_N_TEAM_KINDS, CARPACE_N_TEAM_KINDS + 1 };
  int32_t n;
  size_t size;

  for (int kind = 0; kind < CARPACE_N_TEAM_KINDS; kind++)
    {
      assert_non_null (carpace_team_fields ((CarpaceTeamKind) kind, &n, &size));
      assert_true (n > 0 && size > 0);
      assert_non_null (carpace_team_fields ((CarpaceTeamKind) kind, &n, NULL));
    }
  for (size_t i = 0; i < sizeof no_kinds / sizeof no_kinds[0]; i++)
    {
      assert_null (carpace_team_fields ((CarpaceTeamKind) no_kinds[i], &n, &size));
      assert_int_equal (n, 0);
      assert_int_equal (size, 0);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (keys_are_compared_byte_by_byte),
    cmocka_unit_test (keys_are_said_in_digits),
    cmocka_unit_test (a_grant_covers_what_it_names),
    cmocka_unit_test (kinds_that_there_are),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
