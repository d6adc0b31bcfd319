/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-share-window.c: what is asked of the commands is what was chosen and typed, and no pass phrase stays. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "display.h"
#include "find.h"
#include "kept-double.h"
#include "text/team-text.h"
#include "ui/share-window.h"
#include "walk.h"

typedef struct
{
  CarpaceShareWindow *window;
  CarpaceSharingShown shown;
  CarpaceGrant grant;
  CarpaceCard card;
  KeptDouble kept;
  char *asked; /* what was asked last */
} Desk;

static char *
head (void *self)
{
  return g_strdup ("/stick");
}

static void
grants (void *self, CarpaceSharingGrant visit, void *user)
{
  Desk *desk = self;

  if (desk->grant.number > 0)
    visit (user, &desk->grant, desk->grant.what == CARPACE_GRANT_NONE ? CARPACE_TEAM_WITHDRAWN : CARPACE_TEAM_FINE);
}

static void
cards (void *self, CarpaceSharingCard visit, void *user)
{
  Desk *desk = self;
  CarpaceCard player = { .name = "K8", .role = CARPACE_ROLE_PLAYER };

  visit (user, &desk->card);
  visit (user, &player);
}

static char *
whose (void *self, const char *path, bool *ret_is)
{
  *ret_is = g_str_has_suffix (path, "/coach.card");
  return g_strdup (*ret_is ? "This card says it is of Coach." : "It is no card.");
}

static char *
add (void *self, const CarpaceSharingAsk *ask, bool *ret_done)
{
  Desk *desk = self;

  g_free (desk->asked);
  desk->asked = g_strdup_printf ("%s|%s|%d|%s|%s", ask->who, ask->words != NULL ? ask->words : "-", (int) ask->what, ask->until, ask->phrase);
  desk->grant.number = 1;
  *ret_done = true;
  return g_strdup ("Said by the command.");
}

static char *
stop (void *self, const char *who, const char *phrase, bool *ret_done)
{
  Desk *desk = self;

  g_free (desk->asked);
  desk->asked = g_strdup_printf ("stop %s %s", who, phrase);
  desk->grant.what = CARPACE_GRANT_NONE;
  return g_strdup ("Stopped, says the command.");
}

static void
closed (void *self)
{
}

static int
set_up (void **state)
{
  Desk *desk = g_new0 (Desk, 1);

  desk->grant = (CarpaceGrant) { .reader_name = "Coach", .reader_role = CARPACE_ROLE_COACH, .what = CARPACE_GRANT_LOAD, .since = 20879 };
  desk->card = (CarpaceCard) { .name = "Coach", .role = CARPACE_ROLE_COACH };
  memset (desk->grant.reader.byte, 0xab, CARPACE_KEY_BYTES);
  desk->card.sign = desk->grant.reader;
  kept_begin (&desk->kept);
  desk->shown = (CarpaceSharingShown) { desk, head, grants, cards, whose, add, stop, .kept = &desk->kept.port };
  desk->window = carpace_share_window_new (&desk->shown, closed, NULL);
  carpace_share_window_show (desk->window);
  display_settle ();
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  Desk *desk = *state;

  carpace_share_window_free (desk->window);
  g_free (desk->asked);
  g_free (desk);
  return 0;
}

static GtkWidget *
find_but (Desk *desk, const char *name, GType type)
{
  return find_named (GTK_WIDGET (carpace_share_window_window (desk->window)), name, type);
}

static void
type_phrase (Desk *desk)
{
  gtk_entry_set_text (GTK_ENTRY (find_but (desk, "Pass phrase of your key, for each change", GTK_TYPE_ENTRY)), "five dull lamps hum");
}

static void
press (Desk *desk, const char *name)
{
  GtkWidget *button = find_but (desk, name, GTK_TYPE_BUTTON);

  assert_non_null (button);
  gtk_button_clicked (GTK_BUTTON (button));
  display_settle ();
}

static void
whoever_is_accepted_is_let_read (void **state)
{
  Desk *desk = *state;
  g_autofree char *row = carpace_text_grant_row (&desk->grant, CARPACE_TEAM_FINE);

  assert_non_null (find_but (desk, "You share with no one.", GTK_TYPE_LABEL));
  assert_null (find_but (desk, "Their six words, as they read them to you", GTK_TYPE_ENTRY));
  type_phrase (desk);
  gtk_entry_set_text (GTK_ENTRY (find_but (desk, "Until", GTK_TYPE_ENTRY)), "2027-06-30");
  press (desk, "how the hand is, day by day");
  press (desk, "Share");
  assert_string_equal (desk->asked, "abababababababab|-|2|2027-06-30|five dull lamps hum");
  assert_non_null (find_but (desk, "Said by the command.", GTK_TYPE_LABEL));
  assert_string_equal (gtk_entry_get_text (GTK_ENTRY (find_but (desk, "Pass phrase of your key, for each change", GTK_TYPE_ENTRY))), "");
  assert_non_null (find_but (desk, row, GTK_TYPE_LABEL));
}

/* The command finds it there. It would catch a window of its own that goes on asking. */
static void
a_pass_phrase_that_the_keyring_has_is_not_wanted (void **state)
{
  Desk *desk = *state;

  type_phrase (desk);
  press (desk, "Keep the pass phrase in the desktop's keyring");
  press (desk, "Share");
  assert_int_equal (desk->kept.tries, 1);
  assert_non_null (find_but (desk, "Said by the command.", GTK_TYPE_LABEL));
  assert_null (find_but (desk, "Pass phrase of your key, for each change", GTK_TYPE_ENTRY));
  walk_window (GTK_WIDGET (carpace_share_window_window (desk->window)));
  press (desk, "how the hand is, day by day");
  press (desk, "Share");
  assert_string_equal (desk->asked, "abababababababab|-|2||");
  press (desk, "Take it out of the keyring");
  assert_non_null (find_but (desk, KEPT_TAKEN_OUT, GTK_TYPE_LABEL));
  press (desk, "Stop sharing with Coach");
  assert_non_null (find_but (desk, "First type the pass phrase of your key.", GTK_TYPE_LABEL));
}

/* It would catch a change that is asked without it, and a pass phrase that is asked for where the button is not seen. */
static void
a_pass_phrase_is_wanted_first (void **state)
{
  Desk *desk = *state;

  press (desk, "Share");
  assert_null (desk->asked);
  assert_non_null (find_but (desk, "First type the pass phrase of your key.", GTK_TYPE_LABEL));
  assert_ptr_equal (gtk_window_get_focus (carpace_share_window_window (desk->window)),
                    find_but (desk, "Pass phrase of your key, for each change", GTK_TYPE_ENTRY));
  desk->grant.number = 1;
  type_phrase (desk);
  press (desk, "Share");
  g_clear_pointer (&desk->asked, g_free);
  press (desk, "Stop sharing with Coach"); /* it was forgotten after the last change */
  assert_null (desk->asked);
}

static bool
not_ready (void *self)
{
  return false;
}

static void
without_keys_there_is_nothing_to_fill_in (void **state)
{
  Desk *desk = *state;

  desk->shown.ready = not_ready;
  carpace_share_window_free (desk->window);
  desk->window = carpace_share_window_new (&desk->shown, closed, NULL);
  carpace_share_window_show (desk->window);
  display_settle ();
  assert_non_null (find_but (desk, "/stick", GTK_TYPE_LABEL)); /* what the command says of it */
  assert_null (find_but (desk, "Share", GTK_TYPE_BUTTON));
}

static void
somebody_else_comes_with_card_and_words (void **state)
{
  Desk *desk = *state;
  GtkWidget *whom = find_but (desk, "Who", GTK_TYPE_COMBO_BOX);

  gtk_combo_box_set_active_id (GTK_COMBO_BOX (whom), "");
  display_settle ();
  gtk_entry_set_text (GTK_ENTRY (find_but (desk, "Their six words, as they read them to you", GTK_TYPE_ENTRY)), "a b c d e f");
  press (desk, "Share");
  assert_null (desk->asked); /* no card was chosen */
  walk_window (GTK_WIDGET (carpace_share_window_window (desk->window)));
}

static void
give_uris (GtkClipboard *clipboard, GtkSelectionData *data, guint info, gpointer uris)
{
  gtk_selection_data_set_uris (data, uris);
}

static void
let_go (GtkClipboard *clipboard, gpointer uris)
{
}

/* As GTK hands over what was dropped. */
static void
drop (Desk *desk, const char *first, const char *second)
{
  char *uris[] = { (char *) first, (char *) second, NULL };
  GtkTargetEntry list = { (char *) "text/uri-list", 0, 0 };
  GtkClipboard *clipboard = gtk_clipboard_get (GDK_SELECTION_CLIPBOARD);
  GtkSelectionData *data;

  assert_true (gtk_clipboard_set_with_data (clipboard, &list, 1, give_uris, let_go, uris));
  data = gtk_clipboard_wait_for_contents (clipboard, gdk_atom_intern_static_string ("text/uri-list"));
  assert_non_null (data);
  g_signal_emit_by_name (carpace_share_window_window (desk->window), "drag-data-received", NULL, 0, 0, data, 0u, 0u);
  gtk_selection_data_free (data);
  gtk_clipboard_clear (clipboard);
  display_settle ();
}

/* Whose it says it is stands there before anything is asked; its words are typed by who heard them. */
static void
a_card_is_dropped_on_the_window (void **state)
{
  Desk *desk = *state;
  GtkWindow *window = carpace_share_window_window (desk->window);

  assert_non_null (gtk_drag_dest_get_target_list (GTK_WIDGET (window)));
  assert_null (find_but (desk, "Choose their card…", GTK_TYPE_BUTTON)); /* somebody accepted is chosen */
  drop (desk, "file:///stick/coach.card", NULL);
  assert_string_equal (gtk_combo_box_get_active_id (GTK_COMBO_BOX (find_but (desk, "Who", GTK_TYPE_COMBO_BOX))), "");
  assert_non_null (find_but (desk, "This card says it is of Coach.", GTK_TYPE_LABEL));
  assert_ptr_equal (gtk_window_get_focus (window), find_but (desk, "Their six words, as they read them to you", GTK_TYPE_ENTRY));
  drop (desk, "file:///stick/week.plan.yaml", NULL);
  assert_non_null (find_but (desk, "It is no card.", GTK_TYPE_LABEL));
  drop (desk, "file:///stick/coach.card", "file:///stick/other.card");
  assert_non_null (find_but (desk, "Drop one file of this computer: somebody's card.", GTK_TYPE_LABEL));
  drop (desk, "https://coach.example/coach.card", NULL);
  assert_non_null (find_but (desk, "Drop one file of this computer: somebody's card.", GTK_TYPE_LABEL));
  gtk_entry_set_text (GTK_ENTRY (find_but (desk, "Their six words, as they read them to you", GTK_TYPE_ENTRY)), "a b c d e f");
  type_phrase (desk);
  press (desk, "Share");
  assert_string_equal (desk->asked, "/stick/coach.card|a b c d e f|1||five dull lamps hum"); /* what was no card took nothing away */
}

static void
sharing_is_stopped_with_whom_it_says (void **state)
{
  Desk *desk = *state;

  desk->grant.number = 1;
  type_phrase (desk);
  press (desk, "Share"); /* its rows are read anew */
  walk_window (GTK_WIDGET (carpace_share_window_window (desk->window)));
  assert_null (find_but (desk, "Stop sharing with K8", GTK_TYPE_BUTTON));
  type_phrase (desk);
  press (desk, "Stop sharing with Coach");
  assert_string_equal (desk->asked, "stop abababababababab five dull lamps hum");
  assert_non_null (find_but (desk, "Stopped, says the command.", GTK_TYPE_LABEL));
  assert_null (find_but (desk, "Stop sharing with Coach", GTK_TYPE_BUTTON));
  assert_non_null (find_but (desk, "coach: nothing (stopped)", GTK_TYPE_LABEL));
}

int
main (void)
{
#define WINDOW_TEST(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    WINDOW_TEST (whoever_is_accepted_is_let_read),
    WINDOW_TEST (a_pass_phrase_that_the_keyring_has_is_not_wanted),
    WINDOW_TEST (a_pass_phrase_is_wanted_first),
    WINDOW_TEST (without_keys_there_is_nothing_to_fill_in),
    WINDOW_TEST (somebody_else_comes_with_card_and_words),
    WINDOW_TEST (a_card_is_dropped_on_the_window),
    WINDOW_TEST (sharing_is_stopped_with_whom_it_says),
  };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
