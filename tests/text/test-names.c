/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-names.c: whatever is listed by a number has a name of its own, so that a new
 * one cannot stand on a card as nothing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "text/text.h"

typedef const char *(*NameOf) (int value);

static const char *sign (int value) { return carpace_text_sign ((CarpaceSign) value); }
static const char *stiffness (int value) { return carpace_text_stiffness ((CarpaceStiffness) value); }
static const char *movement (int value) { return carpace_text_movement ((CarpaceMovement) value); }
static const char *group (int value) { return carpace_text_group ((CarpaceGroup) value); }
static const char *region (int value) { return carpace_text_region ((CarpaceRegion) value); }
static const char *cue (int value) { return carpace_text_cue ((CarpaceCue) value); }
static const char *rule (int value) { return carpace_text_rule ((CarpaceRule) value); }

static const struct { const char *row; NameOf name; int n; } lists[] = {
  { "signs", sign, CARPACE_N_SIGNS },
  { "stiffnesses", stiffness, CARPACE_N_STIFFNESSES },
  { "movements", movement, CARPACE_N_MOVEMENTS },
  { "groups", group, CARPACE_N_GROUPS },
  { "regions", region, CARPACE_N_REGIONS },
  { "cues", cue, CARPACE_N_CUES },
  { "rules", rule, CARPACE_N_RULES },
};
#define N_LISTS (sizeof lists / sizeof lists[0])

static void
each_has_a_name_of_its_own (void **state)
{
  for (size_t i = 0; i < N_LISTS; i++)
    for (int value = 0; value < lists[i].n; value++)
      {
        const char *name = lists[i].name (value);

        if (strlen (name) < 4)
          fail_msg ("%s: %d is called '%s'", lists[i].row, value, name);
        for (int before = 0; before < value; before++)
          if (strcmp (name, lists[i].name (before)) == 0)
            fail_msg ("%s: %d and %d are both called '%s'", lists[i].row, before, value, name);
      }
}

static void
what_is_none_has_none (void **state)
{
  for (size_t i = 0; i < N_LISTS; i++)
    {
      assert_string_equal (lists[i].name (lists[i].n), "");
      assert_string_equal (lists[i].name (-1), "");
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_has_a_name_of_its_own),
    cmocka_unit_test (what_is_none_has_none),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
