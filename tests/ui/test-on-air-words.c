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
#include "text/today-text.h"
#include "text/store-text.h"
#include "text/text.h"
#include "ui/items.h"
#include "ui/message-window.h"
#include "ui/overlay-window.h"
#include "ui/pause-card.h"
#include "views.h"

/* A stranger's plan may well be called after what ails him. */
#define TELLING "Sore wrist"

static GPtrArray *seen;

static GHashTable *seen_before;

static void
see (const char *where, const char *text)
{
  char *line;

  if (text == NULL || *text == '\0')
    return;
  line = g_strdup_printf ("%s: %s", where, text);
  if (g_hash_table_add (seen_before, line))
    g_ptr_array_add (seen, g_strdup (line));
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
see_today (const CarpaceView *view)
{
  CarpaceTodayWords words;

  carpace_text_today (view, view_now (), &words);
  see ("window of today", words.headline);
  see ("window of today", words.what);
  see ("window of today", words.done);
  see ("window of today", words.next);
  see ("window of today", words.decision);
  carpace_today_words_clear (&words);
}

static void
see_overlay_at (const CarpaceView *view)
{
  CarpaceOverlayMoment moment = carpace_text_overlay_moment (view, view_now ());

  see_and_free ("overlay", carpace_text_overlay ("{words} {to-go} {at} {until}", &moment));
}

static void
see_view_of_stream (CarpaceView view)
{
  view.on_air = true;
  see_menu (&view);
  see_today (&view);
  see_notices (&view);
  see_and_free ("tray's title", carpace_text_state_line (&view, view_now ()));
  see_and_free ("tray's label", carpace_text_tray_label (&view));
  see_and_free ("status", carpace_text_status (&view, view_now ()));
  see_overlay_at (&view);
}

/* With and without pauses of every kind, at their edges. */
static void
see_view (CarpaceView view)
{
  static const int64_t to_go_ms[] = { 1, 1000, 60000, 119000, 120000, 1800000, 7200000 };

  see_view_of_stream (view);
  view.intermission_length_ms = 300000;
  for (size_t i = 0; i < G_N_ELEMENTS (to_go_ms); i++)
    for (int kind = 0; kind < 3; kind++) /* ahead, near, under way */
      {
        view.intermission = kind > 0;
        view.next_intermission_in_ms = kind == 2 ? 0 : to_go_ms[i];
        view.intermission_in_ms = kind == 1 ? to_go_ms[i] : 0;
        view.intermission_to_go_ms = kind == 2 ? to_go_ms[i] : kind == 1 ? to_go_ms[i] + 300000 : 0;
        see_view_of_stream (view);
      }
}

/* All that a widget says, and says of itself. */
static void
see_widget (GtkWidget *widget, gpointer where)
{
  AtkObject *accessible = gtk_widget_get_accessible (widget);

  see (where, atk_object_get_name (accessible));
  see (where, atk_object_get_description (accessible));
  if (GTK_IS_LABEL (widget))
    see (where, gtk_label_get_text (GTK_LABEL (widget)));
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), see_widget, where);
}

static void
redraw (void *self)
{
}

/* Each moment there is, on air: the card of its pause, or none. */
static void
see_cards (void)
{
  static char card_word[] = "card";
  const CarpaceOwner owner = { .redraw = redraw };
  CarpacePauseCard *card = carpace_pause_card_new (&owner);
  int n = 0;

  for (int i = 0; view_names[i] != NULL; i++)
    {
      CarpaceView view;
      GtkWindow *window;

      assert_true (view_named (view_names[i], &view));
      view.on_air = true;
      carpace_pause_card_show (card, &view);
      window = carpace_card_window (carpace_pause_card_card (card));
      if (window == NULL)
        continue;
      see ("card's title", gtk_window_get_title (window));
      see_widget (GTK_WIDGET (window), card_word);
      carpace_pause_card_hide (card);
      n++;
    }
  assert_true (n >= 6);
  carpace_pause_card_free (card);
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

/* Its names: in a list of windows, for a program that captures it, for assistive technology. */
static void
see_overlay (void)
{
  CarpaceOverlayWindow *overlay = carpace_overlay_window_new ();
  GtkWindow *window = carpace_overlay_window_window (overlay);

  see ("overlay's title", gtk_window_get_title (window));
  see ("overlay's name", atk_object_get_name (gtk_widget_get_accessible (GTK_WIDGET (window))));
  carpace_overlay_window_free (overlay);
}

/* What one of the messages there are comes to on air: in a reply, and in the dialog. */
static void
see_message (CarpaceMessage kind, char *off_air)
{
  carpace_message_show (kind, off_air != NULL ? off_air : "");
  see ("dialog", carpace_message_shown ());
  see_and_free ("reply", carpace_text_reply (kind, true, off_air));
}

static void
see_refusals (void)
{
  for (int refusal = 0; refusal < CARPACE_N_REFUSALS; refusal++)
    for (int event = 0; event < CARPACE_N_EVENTS; event++)
      for (int at = 0; at < CARPACE_N_STATES; at++)
        see_message (CARPACE_MESSAGE_REFUSED,
                     carpace_text_refusal ((CarpaceRefusal) refusal, (CarpaceEventKind) event, (CarpaceState) at));
}

static void
see_wordings (void)
{
  const char *const words[] = { "rate", "hand", "wrist" };

  for (int fault = 0; fault < CARPACE_N_WORDINGS; fault++)
    for (int set = 0; set < CARPACE_N_WORDS; set++)
      for (int at = 0; at < 3; at++)
        {
          CarpaceWording wording = { .fault = (CarpaceWordingFault) fault, .at = at, .set = (CarpaceWords) set };

          see_message (CARPACE_MESSAGE_WORDING, carpace_text_wording (&wording, 3, words, "rate"));
        }
}

static void
see_taken (void)
{
  for (int i = 0; view_names[i] != NULL; i++)
    for (int event = 0; event < CARPACE_N_EVENTS; event++)
      for (int asks = 0; asks <= 1; asks++)
        {
          CarpaceEvent told = { .kind = (CarpaceEventKind) event };
          CarpaceView view;

          assert_true (view_named (view_names[i], &view));
          view.on_air = true;
          view.start_asks = asks;
          view.has_decision = true;
          see_message (CARPACE_MESSAGE_TAKEN, carpace_text_taken (&told, &view, view_now ()));
        }
}

/* Every sentence there is that a face can be given, by the tables they stand in. */
static void
see_messages (void)
{
  carpace_message_on_air (true);
  see_refusals ();
  see_wordings ();
  see_taken ();
  for (int trouble = 0; trouble < CARPACE_N_STORE_TROUBLES; trouble++)
    see_message (CARPACE_MESSAGE_DIARY,
                 carpace_text_store_trouble ((CarpaceStoreTrouble) trouble, false, TELLING, TELLING));
  see_message (CARPACE_MESSAGE_PLAN, g_strdup (TELLING));
  carpace_message_close ();
}

/* The program's entry among others: its words and their translations. */
static void
see_launcher (void)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;

  assert_true (g_file_get_contents (CARPACE_DESKTOP_FILE, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  for (int i = 0; lines[i] != NULL; i++)
    if (strchr (lines[i], '=') != NULL)
      {
        see ("launcher", strchr (lines[i], '=') + 1);
        see ("launcher", gettext (strchr (lines[i], '=') + 1));
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
  seen_before = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  see_views ();
  see_cards ();
  see_overlay ();
  see_messages ();
  see_launcher ();
  assert_true (seen->len > 100);
  check_seen (language);
  g_ptr_array_unref (seen);
  g_hash_table_unref (seen_before);
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

/* A dialog opened before leaves the screen; what waited comes afterwards, all of it. */
static void
test_messages_wait (void **state)
{
  carpace_message_show (CARPACE_MESSAGE_REFUSED, "Discomfort was above the line.");
  carpace_message_on_air (true);
  assert_null (carpace_message_shown ());
  carpace_message_show (CARPACE_MESSAGE_DIARY, "The diary is full.");
  assert_null (carpace_message_shown ());
  carpace_message_show (CARPACE_MESSAGE_REFUSED, "Discomfort was above the line.");
  assert_string_equal (carpace_message_shown (), "Not possible now; off air Carpace says why.");
  carpace_message_on_air (false);
  assert_string_equal (carpace_message_shown (), "Discomfort was above the line.\nThe diary is full.");
  carpace_message_close ();
  carpace_message_on_air (true);
  carpace_message_on_air (false);
  assert_null (carpace_message_shown ());
}

/* Each kind of message has words for on air, its own or others, or waits. */
static void
test_each_kind_of_message_is_one_of_three (void **state)
{
  int waits = 0, other = 0, own = 0;

  for (int kind = 0; kind < CARPACE_N_MESSAGES; kind++)
    {
      const char *said = carpace_text_on_air ((CarpaceMessage) kind, TELLING);

      waits += said == NULL;
      own += said != NULL && strcmp (said, TELLING) == 0;
      other += said != NULL && strcmp (said, TELLING) != 0;
    }
  assert_int_equal (waits, 1);
  assert_int_equal (own, 2); /* made for it: status and what was taken */
  assert_int_equal (other, CARPACE_N_MESSAGES - 3);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_every_language),
    cmocka_unit_test (test_messages_wait),
    cmocka_unit_test (test_each_kind_of_message_is_one_of_three),
    cmocka_unit_test (test_the_words_are_found_off_air),
  };

  display_open ();
  bindtextdomain ("carpace", CARPACE_BUILT_PO);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
