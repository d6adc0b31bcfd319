/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-refusals.c: refusals and faults, each one clear line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "text/text.h"

static void
assert_one_line (const char *text)
{
  assert_true (strlen (text) > 10);
  assert_true (g_utf8_validate (text, -1, NULL));
  assert_null (strchr (text, '\n'));
  assert_null (strchr (text, '\033'));
  assert_null (strstr (text, "(null)"));
}

static void
every_refusal_says_what_to_do (void **state)
{
  for (int refusal = 0; refusal < CARPACE_N_REFUSALS; refusal++)
    for (int event = 0; event < CARPACE_N_EVENTS; event++)
      for (int at = 0; at < CARPACE_N_STATES; at++)
        {
          g_autofree char *text = carpace_text_refusal ((CarpaceRefusal) refusal, (CarpaceEventKind) event, (CarpaceState) at);
          assert_one_line (text);
          /* What is wrong; what to do. */
          assert_true (strpbrk (text, ";:") != NULL);
        }
}

static void
words_are_told (void **state)
{
  static const struct { CarpaceWording wording; int n; const char *words[4]; const char *nearest; const char *text; } rows[] = {
    { { CARPACE_WORDING_UNKNOWN, 0, 0 }, 1, { "strat" }, "start", "There is no command “strat”; did you mean “start”?" },
    { { CARPACE_WORDING_UNKNOWN, 0, 0 }, 1, { "x" }, NULL, "There is no command “x”; “carpace --help” names them all." },
    { { CARPACE_WORDING_MISSING, 1, 0 }, 1, { "rate" }, NULL, "“rate” needs a whole number from 0 to 10 after it." },
    { { CARPACE_WORDING_MISSING, 2, 0 }, 2, { "morning", "--now" }, NULL, "“--now” needs a whole number from 0 to 10 after it." },
    { { CARPACE_WORDING_MISSING, 1, 0 }, 1, { "on-air" }, NULL, "“on-air” needs “on” or “off” after it." },
    { { CARPACE_WORDING_MISSING, 0, 0 }, 0, { NULL }, NULL, "A command is missing; “carpace --help” names them all." },
    { { CARPACE_WORDING_TOO_MANY, 1, 0 }, 2, { "end", "it" }, NULL, "“it” is one word too many after “end”; leave it out." },
    { { CARPACE_WORDING_NOT_A_RATING, 1, 0 }, 2, { "rate", "11" }, NULL,
      "“11” is not on the scale; give a whole number from 0 (none) to 10 (the worst imaginable)." },
    { { CARPACE_WORDING_NOT_OF_SET, 2, CARPACE_WORDS_SITE }, 3, { "rate", "2", "palmside" }, NULL,
      "“palmside” is not known here; did you mean “palm-side”? There are: palm-side, little-finger-side, thumb-side, "
      "back-of-forearm, fingers, elbow, shoulder, neck, other-hand." },
    { { CARPACE_WORDING_NOT_OF_SET, 1, CARPACE_WORDS_STIFFNESS }, 2, { "morning", "stiff" }, NULL,
      "“stiff” is not known here; there are: less, usual, more." },
    { { CARPACE_WORDING_NOT_OF_SET, 3, CARPACE_WORDS_SEEN_BY }, 4, { "caution", "seen", "--by", "unsaid" }, NULL,
      "“unsaid” is not known here; there are: physiotherapist, doctor." },
    { { CARPACE_WORDING_NOT_ON_OFF, 1, 0 }, 2, { "on-air", "yes" }, NULL, "“yes” is neither “on” nor “off”; “on-air” needs one of them." },
    { { CARPACE_WORDING_NOT_OPTION, 1, 0 }, 2, { "start", "--now" }, NULL, "“start” knows no option “--now”; “carpace --help” names them." },
    { { CARPACE_WORDING_NOT_A_COUNT, 1, 0 }, 2, { "clicks", "many" }, NULL, "“many” is no count; give a whole number from 0 to 1000000." },
    { { CARPACE_WORDING_TWICE, 2, 0 }, 3, { "morning", "1", "2" }, NULL, "“2” says a second time what was said already; leave one out." },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = carpace_text_wording (&rows[i].wording, rows[i].n, rows[i].words, rows[i].nearest);
      assert_string_equal (text, rows[i].text);
    }
}

static void
hostile_words_are_fit_to_be_shown (void **state)
{
  static const struct { const char *word, *shown; } rows[] = {
    { "plain", "plain" },
    { "\033[2J", "\\x1b[2J" },
    { "\xff\xfe", "\xEF\xBF\xBD\xEF\xBF\xBD" },
    { "a\nb", "a\\nb" },
    { "\xC2\x9B" "31m", "\\x9b" "31m" },
    { "\xE2\x80\xAE" "evil", "\\u202e" "evil" },
    { "\xF3\xA0\x80\x81" "tag", "\\U000e0001tag" },
    { "", "" },
    { "0123456789012345678901234567890123456789x", "0123456789012345678901234567890123456789…" },
    { "0123456789012345678901234567890123456789", "0123456789012345678901234567890123456789" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *shown = carpace_text_shown_word (rows[i].word);
      assert_string_equal (shown, rows[i].shown);
    }
}

static void
script_faults_are_told (void **state)
{
  for (int kind = 0; kind < CARPACE_N_SCRIPT_FAULTS; kind++)
    for (int wording = CARPACE_WORDING_UNKNOWN; wording < CARPACE_N_WORDINGS; wording++)
      for (int at = 0; at < 3; at++)
        {
          CarpaceScriptFault fault = { .kind = (CarpaceScriptFaultKind) kind, .line = 3, .word = "\033x", .command = "rate",
                                       .wording = { (CarpaceWordingFault) wording, at, CARPACE_WORDS_SITE } };
          g_autofree char *text = carpace_text_script_fault (&fault);
          assert_one_line (text);
        }
  CarpaceScriptFault fault = { .kind = CARPACE_SCRIPT_WORDING, .word = "inptu", .command = "inptu", .nearest = "input",
                               .wording = { CARPACE_WORDING_UNKNOWN, 0, 0 } };
  g_autofree char *text = carpace_text_script_fault (&fault);
  assert_string_equal (text, "There is no command “inptu”; did you mean “input”?");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_refusal_says_what_to_do),
    cmocka_unit_test (words_are_told),
    cmocka_unit_test (hostile_words_are_fit_to_be_shown),
    cmocka_unit_test (script_faults_are_told),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
