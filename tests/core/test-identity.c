/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-identity.c: whose diaries are of one player. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/diary.h"

/* 32 of one digit. */
static const char *
id_of (char digit)
{
  static char id[4][CARPACE_IDENTITY_BYTES];
  static int next;
  char *one = id[next++ % 4];

  memset (one, digit, CARPACE_IDENTITY_CHARACTERS);
  one[CARPACE_IDENTITY_CHARACTERS] = '\0';
  return one;
}

static void
what_an_identity_is (void **state)
{
  static const struct { const char *row, *text; bool is; } rows[] = {
    { "digits and a to f", "0123456789abcdef0123456789abcdef", true },
    { "one short", "0123456789abcdef0123456789abcde", false },
    { "one more", "0123456789abcdef0123456789abcdef0", false },
    { "upper case", "0123456789abcdef0123456789abcdeF", false },
    { "past f", "0123456789abcdef0123456789abcdeg", false },
    { "no digit first", " 123456789abcdef0123456789abcdef", false },
    { "none", "", false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    if (carpace_identity_is_one (rows[i].text) != rows[i].is)
      fail_msg ("%s", rows[i].row);
}

static void
each_id_once_as_long_as_there_is_room (void **state)
{
  CarpaceIdentity identity = { 0 };

  for (int i = 0; i < CARPACE_IDENTITIES; i++)
    {
      assert_true (carpace_identity_add (&identity, id_of ((char) ('0' + i))));
      assert_int_equal (identity.n, i + 1);
      assert_true (carpace_identity_add (&identity, id_of ('0')));
      assert_true (carpace_identity_add (&identity, id_of ((char) ('0' + i))));
      assert_int_equal (identity.n, i + 1);
    }
  assert_false (carpace_identity_add (&identity, id_of ('f')));
  assert_true (carpace_identity_add (&identity, id_of ('7'))); /* it is there */
  assert_int_equal (identity.n, CARPACE_IDENTITIES);
  for (int i = 0; i < CARPACE_IDENTITIES; i++)
    assert_string_equal (identity.id[i], id_of ((char) ('0' + i)));
}

static void
of_one_player_by_any_of_their_ids (void **state)
{
  CarpaceIdentity none = { 0 }, a = { 0 }, b = { 0 };

  carpace_identity_add (&a, id_of ('1'));
  carpace_identity_add (&b, id_of ('2'));
  assert_false (carpace_identity_same (&a, &b));
  carpace_identity_add (&a, id_of ('3'));
  carpace_identity_add (&b, id_of ('3'));
  assert_true (carpace_identity_same (&a, &b)); /* the last of both */
  carpace_identity_add (&b, id_of ('4'));
  assert_true (carpace_identity_same (&a, &b));
  assert_true (carpace_identity_same (&b, &a));
  assert_false (carpace_identity_same (&a, &none));
  assert_false (carpace_identity_same (&none, &a));
  assert_false (carpace_identity_same (&none, &none));
}

/* What stands behind the last one was somebody's once. */
static void
none_behind_the_last (void **state)
{
  CarpaceIdentity a = { .n = 1 }, b = { .n = 1 };

  strcpy (a.id[0], id_of ('1'));
  strcpy (a.id[1], id_of ('2'));
  strcpy (b.id[0], id_of ('2'));
  strcpy (b.id[1], id_of ('1'));
  assert_false (carpace_identity_same (&a, &b));
  assert_true (carpace_identity_add (&a, id_of ('2')));
  assert_int_equal (a.n, 2);
  assert_true (carpace_identity_same (&a, &b)); /* the first of one, the last of the other */
  a.n = 0;
  assert_string_equal (carpace_identity_outside (&a), "");
}

/* Joined either way round, the same is told outside. */
static void
outside_the_least_is_told (void **state)
{
  CarpaceIdentity a = { 0 }, b = { 0 };

  assert_string_equal (carpace_identity_outside (&a), "");
  carpace_identity_add (&a, id_of ('5'));
  assert_string_equal (carpace_identity_outside (&a), id_of ('5'));
  carpace_identity_add (&a, id_of ('7'));
  carpace_identity_add (&a, id_of ('3'));
  carpace_identity_add (&b, id_of ('3'));
  carpace_identity_add (&b, id_of ('5'));
  carpace_identity_add (&b, id_of ('7'));
  assert_string_equal (carpace_identity_outside (&a), id_of ('3'));
  assert_string_equal (carpace_identity_outside (&b), id_of ('3'));
  carpace_identity_add (&b, id_of ('1')); /* the last of them */
  assert_string_equal (carpace_identity_outside (&b), id_of ('1'));
  a.n = 0;
  carpace_identity_add (&a, id_of ('b'));
  carpace_identity_add (&a, id_of ('a')); /* the second, and less by one */
  assert_string_equal (carpace_identity_outside (&a), id_of ('a'));
  a.n = 0;
  carpace_identity_add (&a, id_of ('a'));
  carpace_identity_add (&a, id_of ('b')); /* more by one */
  assert_string_equal (carpace_identity_outside (&a), id_of ('a'));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_an_identity_is),
    cmocka_unit_test (each_id_once_as_long_as_there_is_room),
    cmocka_unit_test (of_one_player_by_any_of_their_ids),
    cmocka_unit_test (none_behind_the_last),
    cmocka_unit_test (outside_the_least_is_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
