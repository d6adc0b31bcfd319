/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-manual.c: the manual pages tell every word of every closed set. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "app/commands.h"
#include "app/players.h"
#include "carpace/names.h"
#include "carpace/settings.h"

static char *
page (const char *name)
{
  g_autofree char *path = g_build_filename (CARPACE_MANUAL, name, NULL);
  char *text;

  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return text;
}

/* As a word by itself, not as a piece of a longer one. */
static bool
tells (const char *text, const char *word)
{
  size_t n = strlen (word);

  for (const char *at = text; (at = strstr (at, word)) != NULL; at++)
    if (!g_ascii_isalnum (at[-1]) && !g_ascii_isalnum (at[n]) && at[n] != '-' && at[n] != '_')
      return true;
  return false;
}

static void
check_set (const char *text, CarpaceWords words, int32_t from)
{
  for (int32_t i = from; i < carpace_names_count (words); i++)
    if (!tells (text, carpace_name (words, i)))
      fail_msg ("the manual does not tell \"%s\"", carpace_name (words, i));
}

static void
commands_and_their_words (void **state)
{
  g_autofree char *text = page ("carpace.1");

  for (int i = 0; carpace_command_word (i) != NULL; i++)
    assert_true (tells (text, carpace_command_word (i)));
  for (CarpacePlayerKind kind = 0; kind < CARPACE_N_PLAYERS; kind++)
    assert_true (tells (text, carpace_player_word (kind)));
  for (CarpaceHandModel hand = 0; hand < CARPACE_N_HAND_MODELS; hand++)
    assert_true (tells (text, carpace_hand_model_word (hand)));
  for (int i = 0; i < CARPACE_N_SETTINGS; i++)
    {
      g_autofree char *row = g_strdup_printf (".It Li %s\n", carpace_setting_rows[i].key);

      if (strstr (text, row) == NULL)
        fail_msg ("the manual does not tell of \"%s\"", carpace_setting_rows[i].key);
    }
  check_set (text, CARPACE_WORDS_CORNER, 0);
  check_set (text, CARPACE_WORDS_MONITOR, 0);
  check_set (text, CARPACE_WORDS_STATE, 0);
  check_set (text, CARPACE_WORDS_CUE, 0);
  check_set (text, CARPACE_WORDS_SITE, 1);
  check_set (text, CARPACE_WORDS_SIGN, 0);
  check_set (text, CARPACE_WORDS_STIFFNESS, 1);
  check_set (text, CARPACE_WORDS_ENTRY, 0);
  check_set (text, CARPACE_WORDS_DAY_WHAT, 0);
  check_set (text, CARPACE_WORDS_BLOCK_WHAT, 0);
  check_set (text, CARPACE_WORDS_CUE_WHAT, 0);
  check_set (text, CARPACE_WORDS_REST_WHAT, 0);
  check_set (text, CARPACE_WORDS_CAUTION_WHAT, 0);
}

static void
plans_and_their_words (void **state)
{
  g_autofree char *text = page ("carpace-plan.5");

  check_set (text, CARPACE_WORDS_PLAN_KEY, 0);
  check_set (text, CARPACE_WORDS_RULE, 0);
  check_set (text, CARPACE_WORDS_SIDE, 0);
  check_set (text, CARPACE_WORDS_GRIP, 0);
  check_set (text, CARPACE_WORDS_AGE, 0);
  check_set (text, CARPACE_WORDS_MOVEMENT, 0);
  check_set (text, CARPACE_WORDS_EXERCISE, 0);
  check_set (text, CARPACE_WORDS_ON_AIR_FROM, 0);
  check_set (text, CARPACE_WORDS_EFFORTS_FROM, 0);
  check_set (text, CARPACE_WORDS_WEEKDAY, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (commands_and_their_words),
    cmocka_unit_test (plans_and_their_words),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
