/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-on-air-words.c: while on air nothing visible says anything about hand,
 * rating, load or health, in any language there is.
 *
 * Each language of po/LINGUAS needs a list of words in tests/ui/on-air-words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <libintl.h>
#include <locale.h>
#include <string.h>

#include <cmocka.h>

#include "display.h"
#include "text/face-text.h"
#include "text/notice.h"
#include "text/overlay-text.h"
#include "text/text.h"
#include "ui/items.h"
#include "ui/overlay-window.h"
#include "views.h"

/* A stranger's plan may well be called after what ails him. */
#define TELLING "Sore wrist"

static GPtrArray *seen;

static void
see (const char *where, const char *text)
{
  if (text != NULL && *text != '\0')
    g_ptr_array_add (seen, g_strdup_printf ("%s: %s", where, text));
}

static void
see_and_free (const char *where, char *text)
{
  see (where, text);
  g_free (text);
}

static void
see_menu (const CarpaceView *view)
{
  CarpaceItem items[CARPACE_N_ITEMS];

  carpace_items_make (view, view_now (), items);
  for (int id = 0; id < CARPACE_N_ITEMS; id++)
    if (items[id].visible)
      see ("menu", items[id].label);
  carpace_items_clear (items);
}

static void
see_notices (const CarpaceView *view)
{
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    for (int what = 0; what < CARPACE_N_CUE_WHATS; what++)
      {
        CarpaceEntry entry = { .kind = CARPACE_ENTRY_CUE };
        CarpaceNotice notice;

        entry.cue.cue = (CarpaceCue) cue;
        entry.cue.what = (CarpaceCueWhat) what;
        if (!carpace_text_notice (&entry, view, view_now (), &notice))
          continue;
        see ("notification's title", notice.title);
        see ("notification's body", notice.body);
        for (int32_t i = 0; i < notice.n_actions; i++)
          see ("notification's answer", notice.action[i].label);
        carpace_notice_clear (&notice);
      }
}

static void
see_view (CarpaceView view)
{
  view.on_air = true;
  see_menu (&view);
  see_notices (&view);
  see_and_free ("tray's title", carpace_text_state_line (&view, view_now ()));
  see_and_free ("tray's label", carpace_text_tray_label (&view));
  see_and_free ("status", carpace_text_status (&view, view_now ()));
}

static void
see_views (void)
{
  for (int state = 0; state < CARPACE_N_STATES; state++)
    for (int kind = 0; kind < 4; kind++)
      {
        CarpaceView view = view_of ((CarpaceState) state);

        view.match = kind == 1;
        view.no_practice = kind == 2;
        view.caution_open = kind == 2;
        view.beyond = kind == 3;
        see_view (view);
      }
  for (int i = 0; view_names[i] != NULL; i++)
    {
      CarpaceView view;

      assert_true (view_named (view_names[i], &view));
      see_view (view);
    }
}

static void
see_overlay (void)
{
  CarpaceOverlayWindow *overlay = carpace_overlay_window_new ();
  int64_t times_ms[] = { 0, 1, 1000, 60000, 119000, 120000, 1800000, 7200000 };

  see ("overlay's title", gtk_window_get_title (carpace_overlay_window_window (overlay)));
  carpace_overlay_window_free (overlay);
  for (size_t i = 0; i < G_N_ELEMENTS (times_ms); i++)
    for (int kind = 0; kind < 3; kind++)
      {
        CarpaceOverlayMoment moment = { .any = true, .counting = kind == 1, .running = kind == 2, .to_go_ms = times_ms[i] };

        see_and_free ("overlay", carpace_text_overlay ("{words} {to-go} {at} {until}", &moment));
      }
}

static GPtrArray *
words_for (const char *language)
{
  g_autofree char *path = g_build_filename (CARPACE_ON_AIR_WORDS, language, NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  GPtrArray *words = g_ptr_array_new_with_free_func (g_free);

  if (!g_file_get_contents (path, &text, NULL, NULL))
    fail_msg ("no list of words for “%s”: add tests/ui/on-air-words/%s", language, language);
  lines = g_strsplit (text, "\n", -1);
  for (int i = 0; lines[i] != NULL; i++)
    if (*lines[i] != '\0' && *lines[i] != '#')
      g_ptr_array_add (words, g_utf8_casefold (g_strdelimit (lines[i], "$", ' '), -1));
  assert_true (words->len > 10);
  return words;
}

static void
check_seen (const char *language)
{
  g_autoptr (GPtrArray) words = words_for (language);

  for (guint i = 0; i < seen->len; i++)
    {
      /* A space behind it, so that a word at the end is a whole one too. */
      g_autofree char *spaced = g_strconcat (strchr (g_ptr_array_index (seen, i), ':'), " ", NULL);
      g_autofree char *folded = g_utf8_casefold (spaced, -1);

      for (guint w = 0; w < words->len; w++)
        if (strstr (folded, g_ptr_array_index (words, w)) != NULL)
          fail_msg ("%s: “%s” in “%s”", language, (char *) g_ptr_array_index (words, w), (char *) g_ptr_array_index (seen, i));
    }
}

static void
check_language (const char *language)
{
  CarpacePlan *plan = view_plan ();

  g_setenv ("LANGUAGE", language, TRUE);
  setlocale (LC_ALL, "");
  textdomain (textdomain (NULL));
  if (strcmp (language, "en") != 0 && *gettext ("") == '\0')
    fail_msg ("%s: its translation was not found", language);
  g_strlcpy (plan->name, TELLING, sizeof plan->name);
  for (int32_t i = 0; i < plan->n_drills; i++)
    g_strlcpy (plan->drills[i].name, TELLING, sizeof plan->drills[i].name);
  seen = g_ptr_array_new_with_free_func (g_free);
  see_views ();
  see_overlay ();
  assert_true (seen->len > 200);
  check_seen (language);
  g_ptr_array_unref (seen);
}

static void
test_every_language (void **state)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;

  assert_true (g_file_get_contents (CARPACE_LINGUAS, &text, NULL, NULL));
  lines = g_strsplit_set (text, " \n", -1);
  for (int i = 0; lines[i] != NULL; i++)
    if (*lines[i] != '\0' && *lines[i] != '#')
      check_language (lines[i]);
  check_language ("en");
}

/* The reader finds what it looks for: off air the words are there. */
static void
test_the_words_are_found_off_air (void **state)
{
  g_autoptr (GPtrArray) words = words_for ("en");
  CarpaceView view = view_of (CARPACE_STATE_RATING_DUE);
  g_autofree char *status = carpace_text_status (&view, view_now ());
  g_autofree char *folded = g_utf8_casefold (status, -1);
  bool found = false;

  for (guint w = 0; w < words->len; w++)
    found = found || strstr (folded, g_ptr_array_index (words, w)) != NULL;
  assert_true (found);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_every_language),
    cmocka_unit_test (test_the_words_are_found_off_air),
  };

  display_open ();
  bindtextdomain ("carpace", CARPACE_BUILT_PO);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
