/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-german.c: people read their language, programs never do. */
#define _POSIX_C_SOURCE 200809L
#include <libintl.h>
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>
#include <glib.h>

#include "text/entries.h"
#include "text/face-text.h"
#include "text/text.h"

static const CarpaceEntry decision = {
  .kind = CARPACE_ENTRY_DECISION,
  .decision = { .rule = CARPACE_RULE_CUT, .scope = CARPACE_SCOPE_DAY, .finding = CARPACE_FINDING_STIFFER, .before_ms = 3600000,
                .after_ms = 2340000, .done_ms = 3600000, .shorten_to = 6500 },
};

static void
sentences (void **state)
{
  g_autofree char *why = carpace_text_why (&decision.decision);
  g_autofree char *soon = carpace_text_intermission (60000);
  g_autofree char *later = carpace_text_intermission (120000);

  assert_string_equal (why, "Die Hand war beim Aufwachen steifer als üblich: heute weniger, 39 min statt 1 h; das sind 65 % von 1 h.");
  assert_string_equal (soon, "Sendepause in 1 Minute");
  assert_string_equal (later, "Sendepause in 2 Minuten");
  assert_string_equal (carpace_text_state (CARPACE_STATE_PAUSED), "angehalten");
}

static void
json_stays_as_it_is (void **state)
{
  g_autofree char *json = carpace_entry_json (&decision, 0, 0);
  g_autofree char *after = carpace_text_why (&decision.decision);

  assert_string_equal (json, "{\"at_ms\":0,\"kind\":\"decision\",\"rule\":\"cut\",\"scope\":\"day\",\"dose_ms_before\":3600000,"
                             "\"dose_ms\":2340000,\"why\":\"The hand woke stiffer than usual: less today, 39 min instead of 1 h; "
                             "that is 65 % of 1 h.\"}");
  assert_true (g_str_has_prefix (after, "Die Hand"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (sentences),
    cmocka_unit_test (json_stays_as_it_is),
  };

  setenv ("LANGUAGE", "de", 1);
  setlocale (LC_ALL, "C.UTF-8");
  bindtextdomain ("carpace", CARPACE_BUILT_LOCALE);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
