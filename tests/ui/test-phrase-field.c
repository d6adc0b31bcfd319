/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-phrase-field.c: a pass phrase is kept in the keyring only if that was chosen and it did; there it is not asked for, and there is
 * a way back. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "display.h"
#include "find.h"
#include "kept-double.h"
#include "ui/card-style.h"
#include "ui/phrase-field.h"
#include "walk.h"

#define ASKED "Pass phrase of your key"
#define KEEP "Keep the pass phrase in the desktop's keyring"
#define READABLE "While the keyring is open, other programs of yours can read it there."
#define HAS "The desktop's keyring has your pass phrase: it is not asked for."
#define TAKE_OUT "Take it out of the keyring"

typedef struct
{
  GtkWidget *window, *field;
  KeptDouble kept;
  char *told;
} Desk;

static void
told (void *user, const char *said)
{
  Desk *desk = user;

  g_free (desk->told);
  desk->told = g_strdup (said);
}

static void
open_field (Desk *desk, const CarpaceKeptPhrase *kept)
{
  GtkWidget *button = gtk_button_new_with_label ("Do it");

  if (desk->window != NULL)
    gtk_widget_destroy (desk->window);
  desk->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_window_set_default_size (GTK_WINDOW (desk->window), 460, -1);
  desk->field = carpace_phrase_field_new (kept, "_" ASKED, told, desk);
  gtk_style_context_add_class (gtk_widget_get_style_context (desk->field), "carpace-body");
  gtk_widget_set_size_request (button, 44, 44);
  carpace_phrase_field_add_button (desk->field, button);
  gtk_container_add (GTK_CONTAINER (desk->window), desk->field);
  gtk_widget_show_all (desk->window);
  display_settle ();
}

static int
set_up (void **state)
{
  Desk *desk = g_new0 (Desk, 1);

  carpace_card_style ();
  kept_begin (&desk->kept);
  open_field (desk, &desk->kept.port);
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  Desk *desk = *state;

  gtk_widget_destroy (desk->window);
  g_free (desk->told);
  g_free (desk);
  return 0;
}

static bool
shows (const Desk *desk, const char *name)
{
  return find_named (desk->window, name, GTK_TYPE_WIDGET) != NULL;
}

static void
press (const Desk *desk, const char *name)
{
  GtkWidget *button = find_named (desk->window, name, GTK_TYPE_BUTTON);

  assert_non_null (button);
  gtk_button_clicked (GTK_BUTTON (button));
  display_settle ();
}

/* What a window does with it; @opens says whether the command took @phrase. */
static void
use (Desk *desk, const char *phrase, bool opens, const char *says)
{
  g_autofree char *said = NULL;

  gtk_entry_set_text (carpace_phrase_field_entry (desk->field), phrase);
  assert_false (carpace_phrase_field_is_wanted (desk->field));
  assert_string_equal (carpace_phrase_field_text (desk->field), phrase);
  said = carpace_phrase_field_used (desk->field, "Said.", opens);
  display_settle ();
  assert_string_equal (said, says);
  assert_string_equal (carpace_phrase_field_text (desk->field), "");
}

/* Would catch a secret that goes to the keyring unasked. */
static void
nothing_is_kept_that_was_not_to_be (void **state)
{
  Desk *desk = *state;

  assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (find_named (desk->window, KEEP, GTK_TYPE_CHECK_BUTTON))));
  assert_false (shows (desk, READABLE));
  use (desk, KEPT_OPENS, true, "Said.");
  assert_int_equal (desk->kept.tries, 0);
  assert_true (shows (desk, ASKED) && shows (desk, KEEP) && !shows (desk, TAKE_OUT));
  assert_true (carpace_phrase_field_is_wanted (desk->field));
  assert_string_equal (desk->told, "First type the pass phrase of your key.");
  assert_ptr_equal (gtk_window_get_focus (GTK_WINDOW (desk->window)), carpace_phrase_field_entry (desk->field));
}

static void
one_that_did_is_kept_and_not_asked_for (void **state)
{
  Desk *desk = *state;

  walk_window (desk->window);
  press (desk, KEEP);
  assert_true (shows (desk, READABLE)); /* what it means, before it is so */
  walk_window (desk->window);
  use (desk, "another phrase", false, "Said.");
  assert_int_equal (desk->kept.tries, 0); /* it did not open anything */
  use (desk, KEPT_OPENS, true, "Said.");
  assert_int_equal (desk->kept.tries, 1);
  assert_true (shows (desk, HAS) && shows (desk, TAKE_OUT));
  assert_false (shows (desk, ASKED) || shows (desk, KEEP) || shows (desk, READABLE));
  walk_window (desk->window);
  use (desk, "", true, "Said.");
  assert_int_equal (desk->kept.tries, 1);
  press (desk, TAKE_OUT);
  assert_string_equal (desk->told, KEPT_TAKEN_OUT);
  assert_true (shows (desk, ASKED) && shows (desk, KEEP) && !shows (desk, HAS) && !shows (desk, TAKE_OUT));
  assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (find_named (desk->window, KEEP, GTK_TYPE_CHECK_BUTTON))));
  assert_ptr_equal (gtk_window_get_focus (GTK_WINDOW (desk->window)), carpace_phrase_field_entry (desk->field));
}

/* What was done is done, and what the keyring says stands beside it. */
static void
a_keyring_that_takes_nothing_says_so (void **state)
{
  Desk *desk = *state;

  desk->kept.refuses = true;
  press (desk, KEEP);
  use (desk, KEPT_OPENS, true, "Said.\n" KEPT_REFUSED);
  assert_true (shows (desk, ASKED) && shows (desk, KEEP) && !shows (desk, HAS));
}

/* Locked, or emptied by somebody else: it can be typed, and kept anew. */
static void
one_that_the_keyring_did_not_give_can_be_typed (void **state)
{
  Desk *desk = *state;

  desk->kept.kept = true;
  open_field (desk, &desk->kept.port);
  assert_true (shows (desk, HAS) && !shows (desk, ASKED));
  use (desk, "", false, "Said."); /* refused for something else */
  assert_false (shows (desk, ASKED));
  desk->kept.lacked = true;
  use (desk, "", false, "Said.");
  assert_true (shows (desk, ASKED) && shows (desk, KEEP) && shows (desk, TAKE_OUT) && !shows (desk, HAS));
  press (desk, KEEP);
  use (desk, KEPT_OPENS, true, "Said.");
  assert_int_equal (desk->kept.tries, 1);
  assert_true (shows (desk, HAS) && !shows (desk, ASKED));
}

static void
without_a_keyring_it_is_typed_and_nothing_else_is_there (void **state)
{
  Desk *desk = *state;

  for (int none = 0; none < 2; none++)
    {
      desk->kept.absent = true;
      open_field (desk, none ? NULL : &desk->kept.port);
      assert_true (shows (desk, ASKED));
      assert_false (shows (desk, KEEP) || shows (desk, TAKE_OUT) || shows (desk, HAS) || shows (desk, READABLE));
      use (desk, KEPT_OPENS, true, "Said.");
    }
  desk->kept.kept = true; /* it was, and the service has gone: there is a way back all the same */
  open_field (desk, &desk->kept.port);
  assert_true (shows (desk, TAKE_OUT));
}

int
main (void)
{
#define FIELD_TEST(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    FIELD_TEST (nothing_is_kept_that_was_not_to_be),
    FIELD_TEST (one_that_did_is_kept_and_not_asked_for),
    FIELD_TEST (a_keyring_that_takes_nothing_says_so),
    FIELD_TEST (one_that_the_keyring_did_not_give_can_be_typed),
    FIELD_TEST (without_a_keyring_it_is_typed_and_nothing_else_is_there),
  };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
