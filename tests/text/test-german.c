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

#include "forms/entries-json.h"
#include "text/face-text.h"
#include "text/plan-flaws.h"
#include "text/text.h"

static const CarpaceEntry decision = {
  .kind = CARPACE_ENTRY_DECISION,
  .decision = { .rule = CARPACE_RULE_CUT, .scope = CARPACE_SCOPE_DAY, .finding = CARPACE_FINDING_STIFFER, .before_ms = 3600000,
                .after_ms = 2340000, .done_ms = 3600000, .shorten_to = 6500, .kept_ms = 2340000, .level_ms = 3060000, .level_before_ms = 3600000,
                .level_down = true, .down_from_ms = 3600000 },
};

static void
sentences (void **state)
{
  g_autofree char *why = carpace_text_why (&decision.decision);
  g_autofree char *soon = carpace_text_intermission (60000);
  g_autofree char *later = carpace_text_intermission (120000);

  assert_string_equal (why, "Die Hand war beim Aufwachen steifer als üblich: heute 39 min statt 1 h (65 % von 1 h); von nun an sind 51 min das Ziel (85 % von 1 h).");
  assert_string_equal (soon, "Sendepause in 1 Minute");
  assert_string_equal (later, "Sendepause in 2 Minuten");
  assert_string_equal (carpace_text_state (CARPACE_STATE_PAUSED), "angehalten");
}

static void
what_is_wrong_with_a_plan (void **state)
{
  static const struct { CarpaceFlawKind kind; const char *says; } flaws[] = {
    { CARPACE_FLAW_SPLIT_TIME_IS_OUT, "die Zeiten der Drills ergeben zusammen 1 h, und von der Dosis, 30 min, bleibt nichts "
                                      "für Drills ohne time; erhöhe die Dosis oder kürze die Zeiten" },
    { CARPACE_FLAW_TIMES_OVER_DOSE, "die Zeiten der Drills ergeben zusammen 1 h, mehr als die Dosis; die Blöcke werden auf "
                                    "30 min verkleinert; erhöhe die Dosis oder kürze die Zeiten" },
    { CARPACE_FLAW_BLOCKS_OVER_DOSE, "die Blöcke ergeben zusammen 1 h, mehr als die Dosis; sie werden auf 30 min verkleinert; "
                                     "erhöhe die Dosis oder kürze die Grenzen" },
    { CARPACE_FLAW_LONGEST_UNDER_LIMIT, "die Grenze eines Blocks ist 1 h, über block-limits.longest, 30 min, was sie an Tagen "
                                        "mit anderer Dosis kürzt; erhöhe longest oder kürze die Grenze" },
    { CARPACE_FLAW_VIEW_TURN_ALONE, "view-turn ist nur zusammen mit hand.cm-per-turn eine Bewegung; füge das hinzu, etwa "
                                    "cm-per-turn: 35, oder movement" },
    { CARPACE_FLAW_VIEW_TURN_IDLE, "view-turn bewirkt ohne hand.cm-per-turn nichts, und movement gilt; füge das hinzu, etwa "
                                   "cm-per-turn: 35, oder nimm view-turn heraus" },
  };
  static const CarpaceReadFault comma = { .kind = CARPACE_READ_BAD_QUANTITY, .key = "day.dose", .word = "1,5 h",
                                          .unit = CARPACE_UNIT_DURATION, .quantity = CARPACE_QUANTITY_OTHER_UNIT };
  static const CarpaceReadFault open = { .kind = CARPACE_READ_NOT_CLOSED, .word = "{" };
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  g_autofree char *comma_says = carpace_text_read_fault (&comma), *open_says = carpace_text_read_fault (&open);

  for (size_t i = 0; i < G_N_ELEMENTS (flaws); i++)
    {
      CarpaceFlaw flaw = { .kind = flaws[i].kind, .low = 3600000, .high = 1800000 };
      g_autofree char *says = carpace_text_plan_flaw (&flaw, plan, NULL);

      assert_string_equal (says, flaws[i].says);
    }
  assert_string_equal (comma_says, "day.dose hat ein Komma in der Zahl, „1,5 h“; schreibe einen Punkt, „1.5 h“");
  assert_string_equal (open_says, "„{“ wird hier geöffnet und nicht geschlossen; füge „}“ hinter dem hinzu, was hineingehört");
}

static void
json_stays_as_it_is (void **state)
{
  g_autofree char *json = carpace_entry_json (&decision, 0, 0);
  g_autofree char *after = carpace_text_why (&decision.decision);

  assert_string_equal (json, "{\"at_ms\":0,\"kind\":\"decision\",\"rule\":\"cut\",\"scope\":\"day\",\"dose_ms_before\":3600000,"
                             "\"dose_ms\":2340000,\"level_before_ms\":3600000,\"level_ms\":3060000,\"why\":\"The hand woke stiffer than "
                             "usual: today 39 min instead of 1 h (65 % of 1 h); from now on 51 min is the aim (85 % of 1 h).\"}");
  assert_true (g_str_has_prefix (after, "Die Hand"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (sentences),
    cmocka_unit_test (what_is_wrong_with_a_plan),
    cmocka_unit_test (json_stays_as_it_is),
  };

  setenv ("LANGUAGE", "de", 1);
  setlocale (LC_ALL, "C.UTF-8");
  bindtextdomain ("carpace", CARPACE_BUILT_LOCALE);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
