/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-roster-forms.c: a roster that goes into other programs, with names that players chose. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <string.h>

#include "forms/roster-forms.h"

static GString *
csv_of (const char *name, const char *plan)
{
  CarpaceRosterRow row = { .who = { .grant = { .what = CARPACE_GRANT_LOAD } }, .load = true, .highest = -1 };
  GString *out = g_string_new (NULL);

  g_strlcpy (row.who.name, name, sizeof row.who.name);
  g_strlcpy (row.head.plan_name, plan, sizeof row.head.plan_name);
  carpace_roster_form (&row, CARPACE_ROSTER_CSV, out);
  return out;
}

/* OWASP, "CSV Injection": a cell that begins so is a formula or a command to a spreadsheet. */
static void
no_name_becomes_a_formula (void **state)
{
  static const struct { const char *name, *cell; } rows[] = {
    { "K7", "\"K7\"" }, { "=1+1", "\"'=1+1\"" }, { "+1", "\"'+1\"" }, { "-1", "\"'-1\"" }, { "@A1", "\"'@A1\"" },
    { "\uff1d1", "\"'\uff1d1\"" }, { "'K7", "\"''K7\"" }, { "K=7", "\"K=7\"" }, { "K\"7", "\"K\"\"7\"" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) named = csv_of (rows[i].name, "Weeks"), planned = csv_of ("K7", rows[i].name);
      g_autofree char *within = g_strconcat (",", rows[i].cell, ",", NULL);

      assert_true (g_str_has_prefix (named->str, rows[i].cell));
      assert_non_null (strstr (planned->str, within));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (no_name_becomes_a_formula) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
