/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of practice windows: what is on it, and what of a stranger's window name is kept. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "carpace/practice-window.h"

static void
what_is_on_a_list (void **state)
{
  static const struct { const char *list, *name, *program; bool has; } rows[] = {
    { "Aim/aim-bin", "Aim", "aim-bin", true },
    { "Aim/aim-bin", "Aim", "other-bin", false },
    { "Aim/aim-bin", "Aim", NULL, true },       /* nobody tells its program */
    { "Aim", "Aim", "aim-bin", true },          /* it may be any */
    { "Aim", "aim", NULL, true },               /* of X, as KWin tells of it */
    { "aim", "AIM", NULL, true },
    { "AZaz", "azAZ", NULL, true },             /* the first letters and the last ones */
    { "@[", "`{", NULL, false },                /* what lies beside them */
    { "ä", "Ä", NULL, false },
    { "Aim/aim-bin", "Aim", "Aim-bin", false }, /* files are told apart */
    { "Aim", "Aimer", NULL, false },
    { "Aimer", "Aim", NULL, false },
    { "One; Aim / aim-bin ;Two", "Aim", "aim-bin", true },
    { ";; ; Aim", "Aim", NULL, true },
    { ";; ;", "", NULL, false },
    { "/aim-bin", "", "aim-bin", false },       /* without a name it is none */
    { "", "Aim", NULL, false },
    { NULL, "Aim", NULL, false },
    { "Aim", NULL, NULL, false },
    { "a_b_c/p_q", "a;b/c", "p/q", true },
    { "a_b", "a\nb", NULL, true },
    { "Ziel Übung", "Ziel Übung", NULL, true },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      const CarpaceWindow window = { rows[i].name, rows[i].program };

      if (carpace_windows_have (rows[i].list, &window) != rows[i].has)
        fail_msg ("row %zu: “%s” has “%s”: %d", i, rows[i].list, rows[i].name, !rows[i].has);
    }
}

static void
a_list_is_read_in_order (void **state)
{
  const char *list = " One/p ;; ; /q;  ;Two Four\t;Three/", *at = NULL;
  CarpaceListedWindow window;

  assert_true (carpace_windows_next (list, &at, &window));
  assert_string_equal (window.name, "One");
  assert_string_equal (window.program, "p");
  assert_true (carpace_windows_next (list, &at, &window));
  assert_string_equal (window.name, "Two Four");
  assert_string_equal (window.program, "");
  assert_true (carpace_windows_next (list, &at, &window));
  assert_string_equal (window.name, "Three");
  assert_string_equal (window.program, "");
  assert_false (carpace_windows_next (list, &at, &window));
}

/* Its program belongs to it; a name of one letter is one, none is not. */
static void
windows_are_compared (void **state)
{
  static const struct { const char *name, *program; bool listed; } rows[] = {
    { "A", "p", true }, { "A", "q", true }, { "B", "p", true }, { "", "p", false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    for (size_t j = 0; j < sizeof rows / sizeof rows[0]; j++)
      {
        CarpaceListedWindow a, b;
        assert_int_equal (carpace_window_listed (&(CarpaceWindow) { rows[i].name, rows[i].program }, &a), rows[i].listed);
        assert_int_equal (carpace_window_listed (&(CarpaceWindow) { rows[j].name, rows[j].program }, &b), rows[j].listed);
        assert_int_equal (carpace_listed_equal (&a, &b), i == j);
      }
}

/* One byte below, at and above what there is room for; a character of two bytes is not halved. */
static void
long_names_are_cut (void **state)
{
  char name[CARPACE_WINDOW_BYTES + 8];
  CarpaceListedWindow window;

  for (size_t n = CARPACE_WINDOW_BYTES - 2; n <= CARPACE_WINDOW_BYTES; n++)
    {
      const CarpaceWindow given = { name, NULL };

      memset (name, 'a', n);
      name[n] = '\0';
      assert_true (carpace_window_listed (&given, &window));
      assert_int_equal (strlen (window.name), n < CARPACE_WINDOW_BYTES ? n : CARPACE_WINDOW_BYTES - 1);
      strcpy (name + n - 1, "ü");
      assert_true (carpace_window_listed (&given, &window));
      assert_int_equal (strlen (window.name), n + 1 < CARPACE_WINDOW_BYTES ? n + 1 : n > CARPACE_WINDOW_BYTES - 1 ? CARPACE_WINDOW_BYTES - 1 : n - 1);
      assert_true (carpace_windows_have (window.name, &given));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_on_a_list), cmocka_unit_test (a_list_is_read_in_order), cmocka_unit_test (long_names_are_cut),
    cmocka_unit_test (windows_are_compared),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
