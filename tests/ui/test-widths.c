/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-widths.c: no window is wider or narrower for its state: what the eye has found stays where it is. (The window of
 * today, with its height: ui/faces.) And no card that the player opens reaches below the screen, where its button is. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <gtk/gtk.h>

#include "display.h"
#include "ui/caution-card.h"
#include "ui/morning-card.h"
#include "ui/rating-card.h"
#include "ui/rest-card.h"
#include "ui/settings-window.h"
#include "views.h"
#include "walk.h"

#define SCREEN 800 /* of display.c */
#define FRAME 30   /* a window manager's title */

static bool
tell (void *self, const CarpaceEvent *event)
{
  return true;
}

static void
choose (void *self, CarpaceItemId id)
{
}

static void
fill_plans (void *self, GtkMenuShell *menu)
{
}

static void
redraw (void *self)
{
}

static void
open_sharing (void *self)
{
}

static const CarpaceOwner owner = { NULL, tell, choose, fill_plans, redraw };

static int
width_of (GtkWindow *window)
{
  int width;

  display_settle ();
  gtk_widget_get_preferred_width (gtk_bin_get_child (GTK_BIN (window)), NULL, &width);
  return width;
}

static int
height_of (GtkWindow *window)
{
  int height;

  display_settle ();
  gtk_widget_get_preferred_height (GTK_WIDGET (window), NULL, &height);
  return height;
}

/* One card in one moment, as the player opens it. */
static int
card_side (const char *moment, bool where, int (*side_of) (GtkWindow *window))
{
  CarpaceView view;
  CarpaceRatingCard *rating = carpace_rating_card_new (&owner);
  CarpaceRestCard *rest = carpace_rest_card_new (&owner);
  CarpaceMorningCard *morning = carpace_morning_card_new (&owner);
  CarpaceCautionCard *caution = carpace_caution_card_new (&owner);
  CarpaceCard *card;
  int side;

  assert_true (view_named (moment, &view));
  if (g_str_has_prefix (moment, "rating"))
    carpace_rating_card_show (rating, CARPACE_CARD_BY_PLAYER, &view, view_now ());
  else if (g_str_has_prefix (moment, "rest"))
    carpace_rest_card_show (rest, CARPACE_CARD_BY_PLAYER, &view);
  else if (g_str_has_prefix (moment, "morning"))
    carpace_morning_card_show (morning, CARPACE_CARD_BY_PLAYER, &view);
  else
    carpace_caution_card_show (caution, CARPACE_CARD_BY_PLAYER, &view);
  card = g_str_has_prefix (moment, "rating") ? carpace_rating_card_card (rating)
         : g_str_has_prefix (moment, "rest") ? carpace_rest_card_card (rest)
         : g_str_has_prefix (moment, "morning") ? carpace_morning_card_card (morning) : carpace_caution_card_card (caution);
  if (where)
    {
      assert_true (carpace_card_digit (card, 2)); /* where is it? */
      carpace_rating_card_draw (rating, &view, view_now ());
    }
  side = side_of (carpace_card_window (card));
  carpace_rating_card_free (rating);
  carpace_rest_card_free (rest);
  carpace_morning_card_free (morning);
  carpace_caution_card_free (caution);
  return side;
}

static const struct { const char *moment; bool where; } cards[] = {
    { "rating", false },        { "rating-starts", false }, { "rating-given", false }, { "rating-given", true }, { "rating-above-stop", false },
    { "rest-offered", false },  { "rest-running", false },  { "rest-waits", false },   { "rest-left", false },   { "rest-between-drills", false },
    { "morning", false },       { "morning-other", false }, { "caution", false },      { "caution-open", false },
};

static void
test_cards_are_of_one_width (void **state)
{
  int first = 0;

  for (size_t i = 0; i < G_N_ELEMENTS (cards); i++)
    {
      int width = card_side (cards[i].moment, cards[i].where, width_of);

      print_message ("%s%s: %d\n", cards[i].moment, cards[i].where ? ", where" : "", width);
      first = first == 0 ? width : first;
      assert_int_equal (width, first);
    }
}

/* It would catch twelve questions in one column, their button below the edge. */
static void
test_cards_end_where_the_screen_does (void **state)
{
  static const char *const fonts[] = { "Sans 10", "Sans 15" };

  for (size_t font = 0; font < G_N_ELEMENTS (fonts); font++)
    {
      g_object_set (gtk_settings_get_default (), "gtk-font-name", fonts[font], NULL);
      for (size_t i = 0; i < G_N_ELEMENTS (cards); i++)
        {
          int height = card_side (cards[i].moment, cards[i].where, height_of);

          print_message ("%s, %s%s: %d\n", fonts[font], cards[i].moment, cards[i].where ? ", where" : "", height);
          assert_in_range (height, 1, SCREEN - FRAME);
        }
    }
  gtk_settings_reset_property (gtk_settings_get_default (), "gtk-font-name");
}

/* ---- settings ---- */

static CarpaceSettings settings = { .cards_corner = (char *) "lower-end", .cards_monitor = (char *) "game" };

static const CarpaceSettings *
look (void *self)
{
  return &settings;
}

static char *
refuse (void *self, CarpaceSettingId id, const char *text)
{
  return g_strdup ("What stands there is nothing that can be taken, and this sentence about it is longer than the window is wide, "
                   "so it has to be broken into lines.");
}

static char *
is_wrong (void *self, CarpaceSettingId id)
{
  const char *said = self;

  return said && id == CARPACE_SETTING_CHORD ? g_strdup (said) : NULL;
}

static GtkWidget *
entry_in (GtkWidget *widget)
{
  GtkWidget *found = GTK_IS_ENTRY (widget) ? widget : NULL;
  GList *children = GTK_IS_CONTAINER (widget) ? gtk_container_get_children (GTK_CONTAINER (widget)) : NULL;

  for (GList *child = children; child && !found; child = child->next)
    found = entry_in (child->data);
  g_list_free (children);
  return found;
}

static void
test_settings_keep_their_width (void **state)
{
  const CarpaceSettingsGiven given = { NULL, look, refuse, is_wrong, NULL, open_sharing };
  CarpaceSettingsWindow *window = carpace_settings_window_new (&given);
  GtkWindow *shown = carpace_settings_window_window (window);
  GtkWidget *entry = entry_in (GTK_WIDGET (shown));
  int width, now_width;

  carpace_settings_window_show (window);
  display_settle ();
  walk_window (GTK_WIDGET (shown));
  width = width_of (shown);
  gtk_entry_set_text (GTK_ENTRY (entry), "nothing of the kind, and far too long a text for the field that it was typed into");
  gtk_widget_activate (entry);
  now_width = width_of (shown);
  assert_int_equal (now_width, width);
  carpace_settings_window_free (window);
}

static bool
is_said (GtkWidget *widget, const char *words)
{
  GList *children = GTK_IS_CONTAINER (widget) ? gtk_container_get_children (GTK_CONTAINER (widget)) : NULL;
  bool said = GTK_IS_LABEL (widget) && gtk_widget_is_visible (widget) && strcmp (gtk_label_get_text (GTK_LABEL (widget)), words) == 0;

  for (GList *child = children; child && !said; child = child->next)
    said = is_said (child->data, words);
  g_list_free (children);
  return said;
}

/* Nothing was tried: the file came with it. It would catch a window that shows what does not hold as if it did. */
static void
test_settings_say_what_does_not_hold (void **state)
{
  char words[] = "These are no keys.";
  CarpaceSettingsGiven given = { words, look, refuse, is_wrong, NULL, open_sharing };
  CarpaceSettingsWindow *window = carpace_settings_window_new (&given);
  GtkWidget *shown = GTK_WIDGET (carpace_settings_window_window (window));

  carpace_settings_window_show (window);
  assert_true (is_said (shown, words));
  words[0] = 't'; /* another fault by another file */
  carpace_settings_window_changed (window);
  assert_true (is_said (shown, words));
  carpace_settings_window_free (window);
  given.self = NULL;
  window = carpace_settings_window_new (&given);
  carpace_settings_window_show (window);
  assert_false (is_said (GTK_WIDGET (carpace_settings_window_window (window)), words));
  carpace_settings_window_free (window);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_cards_are_of_one_width),
                                     cmocka_unit_test (test_cards_end_where_the_screen_does),
                                     cmocka_unit_test (test_settings_keep_their_width),
                                     cmocka_unit_test (test_settings_say_what_does_not_hold) };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
