/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-roster-window.c: who needs a look first, gone through by keys and mouse; a diary and a page opened, of those only who let it.
 * With `--picture FILE [PAGE]` draws the window instead (or the page of the first), to be looked at; LANGUAGE is its language. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <libintl.h>

#include "../fakes/fake-diary.h"
#include "display.h"
#include "find.h"
#include "kept-double.h"
#include "ui/roster-note.h"
#include "ui/roster-window.h"
#include "walk.h"

#define TODAY 20879 /* Tuesday, 2027-03-02 */
#define LAST_MONDAY (TODAY - 8)
#define PLAYERS 12
#define IN_NEED 3

typedef struct
{
  CarpaceRosterRow row[PLAYERS];
  CarpaceRosterShown shown;
  CarpaceFakeDiary *fake;
  CarpaceRosterWindow *window;
  int closed, opened;
  CarpaceKey opened_of;
  CarpaceKey note_to;
  char *noted, *by_phrase;
  KeptDouble kept;
} Desk;

static CarpaceDiary
diary_of (void *self, const CarpaceKey *player)
{
  Desk *desk = self;

  desk->opened++;
  desk->opened_of = *player;
  return carpace_fake_diary_port (desk->fake);
}

/* As the command does: words and a sentence, or why not. */
static char *
leave_note (void *self, const CarpaceKey *player, const char *text, const char *phrase, bool *ret_done)
{
  Desk *desk = self;

  desk->note_to = *player;
  g_free (desk->noted);
  g_free (desk->by_phrase);
  desk->noted = g_strdup (text);
  desk->by_phrase = g_strdup (phrase);
  *ret_done = strcmp (phrase, KEPT_OPENS) == 0 || (desk->kept.kept && phrase[0] == '\0');
  return g_strdup (*ret_done ? "It is in the folder." : "It does not open the key.");
}

static void
closed (void *self)
{
  ((Desk *) self)->closed++;
}

/* The last two are a coach's: weeks only. */
static void
fill_row (CarpaceRosterRow *row, int number)
{
  *row = (CarpaceRosterRow) { .holds = CARPACE_TEAM_FINE, .load = true, .hand = number < PLAYERS - 2, .answered = TODAY - 1,
                              .caution_since = CARPACE_NO_DAY, .highest = number % 5,
                              .head = { .plan_name = "Two halves", .plan_version = 2, .in_force_s = INT64_C (86400) * (TODAY - 40) } };
  g_snprintf (row->who.name, sizeof row->who.name, "K%d", number + 1);
  memset (row->who.player.byte, number + 1, CARPACE_KEY_BYTES);
  row->who.grant = (CarpaceGrant) { .number = 1, .what = row->hand ? CARPACE_GRANT_ALL : CARPACE_GRANT_LOAD };
  row->who.made_s[CARPACE_BUNDLE_LOAD] = INT64_C (86400) * TODAY;
  row->n_weeks = number == 5 ? 4 : CARPACE_ROSTER_WEEKS;
  for (int32_t week = 0; week < row->n_weeks; week++)
    row->week[week] = (CarpaceLoadWeek) { .monday = LAST_MONDAY - 7 * (row->n_weeks - 1 - week), .planned_ms = (200 + 5 * week) * CARPACE_MINUTE_MS,
                                          .done_ms = (150 + (number * 37 + week * 53) % 90) * CARPACE_MINUTE_MS, .days = 5, .rests = 20 };
}

static int
set_up (void **state)
{
  Desk *desk = g_new0 (Desk, 1);

  for (int i = 0; i < PLAYERS; i++)
    fill_row (&desk->row[i], i);
  desk->row[0].looks = 1u << CARPACE_LOOK_CAUTION | 1u << CARPACE_LOOK_CUT_TWICE;
  desk->row[0].caution_since = TODAY - 3;
  desk->row[1].looks = 1u << CARPACE_LOOK_SILENT;
  desk->row[1].answered = TODAY - 9;
  desk->row[2].looks = 1u << CARPACE_LOOK_NOT_IN_FORCE;
  desk->row[6].holds = CARPACE_TEAM_WITHDRAWN;
  desk->row[6].load = desk->row[6].hand = false;
  desk->row[6].n_weeks = 0;
  desk->fake = carpace_fake_diary_season (7, TODAY - 60, 60);
  kept_begin (&desk->kept);
  desk->shown = (CarpaceRosterShown) { .row = desk->row, .n_rows = PLAYERS, .today = TODAY, .last_monday = LAST_MONDAY,
                                       .refused = "0-forged.bundle: its signature does not fit.", .self = desk, .diary = diary_of,
                                       .note = leave_note, .kept = &desk->kept.port };
  desk->window = carpace_roster_window_new (&desk->shown, closed, desk);
  carpace_roster_window_show (desk->window);
  display_settle ();
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  Desk *desk = *state;

  carpace_roster_window_free (desk->window);
  carpace_fake_diary_free (desk->fake);
  g_free (desk->noted);
  g_free (desk->by_phrase);
  g_free (desk);
  return 0;
}

static void
press_in (GtkWidget *widget, guint key)
{
  GdkEvent *event = gdk_event_new (GDK_KEY_PRESS);
  g_autofree GdkKeymapKey *keys = NULL;
  int n;

  assert_true (gdk_keymap_get_entries_for_keyval (gdk_keymap_get_for_display (gdk_display_get_default ()), key, &keys, &n));
  event->key.window = g_object_ref (gtk_widget_get_window (widget));
  event->key.keyval = key;
  event->key.hardware_keycode = (guint16) keys[0].keycode; /* a list's own keys go by it */
  event->key.send_event = TRUE;
  gdk_event_set_device (event, gdk_seat_get_keyboard (gdk_display_get_default_seat (gdk_display_get_default ())));
  gtk_widget_event (widget, event);
  gdk_event_free (event);
  display_settle ();
}

static void
press (const Desk *desk, guint key)
{
  press_in (GTK_WIDGET (carpace_roster_window_list (desk->window)), key);
}

/* One click, as the server would tell it. */
static void
click (const Desk *desk, int group, int player)
{
  GtkTreeView *list = carpace_roster_window_list (desk->window);
  GtkTreePath *path = gtk_tree_path_new_from_indices (group, player, -1);
  GdkEventType types[] = { GDK_BUTTON_PRESS, GDK_BUTTON_RELEASE };
  GdkRectangle area;

  gtk_tree_view_get_cell_area (list, path, gtk_tree_view_get_column (list, 1), &area);
  for (size_t i = 0; i < G_N_ELEMENTS (types); i++)
    {
      GdkEvent *event = gdk_event_new (types[i]);

      event->button.window = g_object_ref (gtk_tree_view_get_bin_window (list));
      event->button.x = area.x + 4;
      event->button.y = area.y + area.height / 2.0;
      event->button.button = 1;
      event->button.send_event = TRUE;
      gdk_event_set_device (event, gdk_seat_get_pointer (gdk_display_get_default_seat (gdk_display_get_default ())));
      gtk_main_do_event (event);
      gdk_event_free (event);
    }
  gtk_tree_path_free (path);
  display_settle ();
}

static char *
cell (const Desk *desk, int group, int player, int column)
{
  GtkTreeModel *model = gtk_tree_view_get_model (carpace_roster_window_list (desk->window));
  GtkTreePath *path = player >= 0 ? gtk_tree_path_new_from_indices (group, player, -1) : gtk_tree_path_new_from_indices (group, -1);
  GtkTreeIter at;
  char *text;

  assert_true (gtk_tree_model_get_iter (model, &at, path));
  gtk_tree_path_free (path);
  gtk_tree_model_get (model, &at, column, &text, -1);
  return text;
}

static int
n_in (const Desk *desk, int group)
{
  GtkTreeModel *model = gtk_tree_view_get_model (carpace_roster_window_list (desk->window));
  GtkTreeIter at;

  assert_true (gtk_tree_model_iter_nth_child (model, &at, NULL, group));
  return gtk_tree_model_iter_n_children (model, &at);
}

static void
who_needs_a_look_stands_first_with_the_reason (void **state)
{
  Desk *desk = *state;
  g_autofree char *first = cell (desk, 0, -1, 1), *others = cell (desk, 1, -1, 1), *reasons = cell (desk, 0, 0, 2);
  g_autofree char *stopped = cell (desk, 1, 3, 2), *week = cell (desk, 1, 0, 3);

  assert_string_equal (first, "Who needs a look today");
  assert_string_equal (others, "All others");
  assert_int_equal (n_in (desk, 0), IN_NEED);
  assert_int_equal (n_in (desk, 1), PLAYERS - IN_NEED);
  assert_non_null (strstr (reasons, "a caution has been open since"));
  assert_non_null (strstr (reasons, "; "));
  assert_string_equal (stopped, "sharing was stopped");
  assert_non_null (strstr (week, " of "));
  assert_true (g_str_has_prefix (carpace_roster_window_told (desk->window), "K1: a caution has been open")); /* chosen at first */
}

static void
gone_through_by_keys (void **state)
{
  Desk *desk = *state;

  press (desk, GDK_KEY_Down);
  assert_true (g_str_has_prefix (carpace_roster_window_told (desk->window), "K2: no answer for a week"));
  press (desk, GDK_KEY_End);
  assert_true (g_str_has_prefix (carpace_roster_window_told (desk->window), "K12\n"));
  press (desk, GDK_KEY_Home); /* the group's own line is nobody */
  assert_string_equal (carpace_roster_window_told (desk->window), "");
  assert_false (gtk_widget_get_sensitive (carpace_roster_window_diary_button (desk->window)));
  press (desk, GDK_KEY_Down);
  press (desk, GDK_KEY_Return);
  assert_non_null (carpace_roster_window_diary (desk->window));
  assert_int_equal (desk->opened_of.byte[0], 1);
  assert_int_equal (desk->closed, 0);
  press_in (GTK_WIDGET (carpace_roster_window_window (desk->window)), GDK_KEY_Escape);
  assert_int_equal (desk->closed, 1);
}

static void
chosen_by_a_click (void **state)
{
  Desk *desk = *state;

  click (desk, 1, 2);
  assert_true (g_str_has_prefix (carpace_roster_window_told (desk->window), "K6\n"));
  gtk_button_clicked (GTK_BUTTON (carpace_roster_window_diary_button (desk->window)));
  assert_int_equal (desk->opened_of.byte[0], 6);
}

/* All sensitive widgets in which something could be written. */
static void
count_writable (GtkWidget *widget, gpointer user)
{
  if (GTK_IS_ENTRY (widget) || (GTK_IS_TEXT_VIEW (widget) && gtk_text_view_get_editable (GTK_TEXT_VIEW (widget))))
    ++*(int *) user;
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), count_writable, user);
}

static void
a_diary_is_read_only (void **state)
{
  Desk *desk = *state;
  CarpaceDiaryWindow *diary;
  int writable = 0;

  press (desk, GDK_KEY_Return);
  diary = carpace_roster_window_diary (desk->window);
  assert_true (carpace_diary_window_is_shown (diary));
  assert_string_equal (gtk_window_get_title (carpace_diary_window_window (diary)), "Diary of K1");
  gtk_container_forall (GTK_CONTAINER (carpace_diary_window_window (diary)), count_writable, &writable);
  assert_int_equal (writable, 0);
  click (desk, 0, 1); /* another one in its place */
  gtk_button_clicked (GTK_BUTTON (carpace_roster_window_diary_button (desk->window)));
  assert_string_equal (gtk_window_get_title (carpace_diary_window_window (carpace_roster_window_diary (desk->window))), "Diary of K2");
}

/* Its words, for whoever does not see it, have what is on it. */
static void
a_page_is_shown_and_said (void **state)
{
  Desk *desk = *state;
  GtkWidget *page, *area;
  const char *words;

  gtk_button_clicked (GTK_BUTTON (carpace_roster_window_page_button (desk->window)));
  display_settle ();
  page = carpace_roster_window_page (desk->window);
  assert_true (gtk_widget_get_visible (page));
  area = gtk_bin_get_child (GTK_BIN (gtk_bin_get_child (GTK_BIN (gtk_bin_get_child (GTK_BIN (page))))));
  words = atk_object_get_description (gtk_widget_get_accessible (area));
  assert_non_null (strstr (words, "K1"));
  assert_non_null (strstr (words, "\n"));
  press_in (page, GDK_KEY_Escape);
  assert_null (carpace_roster_window_page (desk->window));
}

/* A coach's row has weeks; what was not let be read cannot be opened, by no way. */
static void
what_is_not_let_be_read_is_not_opened (void **state)
{
  Desk *desk = *state;

  press (desk, GDK_KEY_End);
  assert_non_null (strstr (carpace_roster_window_told (desk->window), "week of"));
  assert_false (gtk_widget_get_sensitive (carpace_roster_window_diary_button (desk->window)));
  assert_false (gtk_widget_get_sensitive (carpace_roster_window_page_button (desk->window)));
  press (desk, GDK_KEY_Return);
  assert_int_equal (desk->opened, 0);
  assert_null (carpace_roster_window_diary (desk->window));
}

/* What was not left stays to be tried again; a pass phrase does not. */
static void
a_note_is_written_to_whom_it_says (void **state)
{
  Desk *desk = *state;
  GtkWidget *note;

  press (desk, GDK_KEY_End); /* a coach may write, too */
  gtk_button_clicked (GTK_BUTTON (carpace_roster_window_note_button (desk->window)));
  display_settle ();
  note = carpace_roster_window_note (desk->window);
  assert_string_equal (gtk_window_get_title (GTK_WINDOW (note)), "Note to K12");
  assert_false (gtk_widget_get_sensitive (GTK_WIDGET (carpace_roster_note_button (note)))); /* no empty one */
  gtk_entry_set_text (carpace_roster_note_text (note), "Bring the tape on Friday");
  gtk_entry_set_text (carpace_roster_note_phrase (note), "another phrase");
  gtk_button_clicked (carpace_roster_note_button (note));
  assert_string_equal (carpace_roster_note_told (note), "It does not open the key.");
  assert_string_equal (gtk_entry_get_text (carpace_roster_note_text (note)), "Bring the tape on Friday");
  assert_string_equal (gtk_entry_get_text (carpace_roster_note_phrase (note)), "");
  gtk_entry_set_text (carpace_roster_note_phrase (note), "five dull lamps hum");
  gtk_widget_activate (GTK_WIDGET (carpace_roster_note_phrase (note))); /* as Enter in it does */
  while (strcmp (carpace_roster_note_told (note), "It is in the folder.") != 0)
    g_main_context_iteration (NULL, TRUE); /* a button pressed by keys is seen to be */
  assert_string_equal (desk->noted, "Bring the tape on Friday");
  assert_int_equal (desk->note_to.byte[0], 12);
  assert_string_equal (gtk_entry_get_text (carpace_roster_note_text (note)), "");
  click (desk, 0, 0); /* one note at a time, to whoever is chosen now */
  gtk_button_clicked (GTK_BUTTON (carpace_roster_window_note_button (desk->window)));
  note = carpace_roster_window_note (desk->window);
  assert_string_equal (gtk_window_get_title (GTK_WINDOW (note)), "Note to K1");
  press_in (note, GDK_KEY_Escape);
  assert_null (carpace_roster_window_note (desk->window));
  assert_int_equal (desk->closed, 0);
}

static void
a_note_goes_by_what_the_keyring_has (void **state)
{
  Desk *desk = *state;
  GtkWidget *note;

  press (desk, GDK_KEY_End);
  gtk_button_clicked (GTK_BUTTON (carpace_roster_window_note_button (desk->window)));
  display_settle ();
  note = carpace_roster_window_note (desk->window);
  walk_window (note);
  gtk_entry_set_text (carpace_roster_note_text (note), "Bring the tape on Friday");
  gtk_button_clicked (carpace_roster_note_button (note));
  assert_null (desk->noted);
  assert_string_equal (carpace_roster_note_told (note), "First type the pass phrase of your key.");
  gtk_entry_set_text (carpace_roster_note_phrase (note), KEPT_OPENS);
  gtk_button_clicked (GTK_BUTTON (find_named (note, "Keep the pass phrase in the desktop's keyring", GTK_TYPE_CHECK_BUTTON)));
  gtk_button_clicked (carpace_roster_note_button (note));
  assert_string_equal (carpace_roster_note_told (note), "It is in the folder.");
  assert_int_equal (desk->kept.tries, 1);
  gtk_entry_set_text (carpace_roster_note_text (note), "And the wraps");
  gtk_button_clicked (carpace_roster_note_button (note));
  assert_string_equal (desk->noted, "And the wraps");
  assert_string_equal (desk->by_phrase, "");
}

static void
check_names (GtkWidget *widget, gpointer user)
{
  const char *name = atk_object_get_name (gtk_widget_get_accessible (widget));

  if ((GTK_IS_BUTTON (widget) || GTK_IS_TREE_VIEW (widget) || GTK_IS_EXPANDER (widget)) && (name == NULL || name[0] == '\0'))
    fail_msg ("a %s has no name", G_OBJECT_TYPE_NAME (widget));
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), check_names, user);
}

/* The reasons are said from the list itself, without a picture. */
static void
assistive_technology_reads_it (void **state)
{
  Desk *desk = *state;
  AtkObject *list = gtk_widget_get_accessible (GTK_WIDGET (carpace_roster_window_list (desk->window)));
  bool said = false;

  check_names (GTK_WIDGET (carpace_roster_window_window (desk->window)), NULL);
  for (int i = 0; i < atk_object_get_n_accessible_children (list) && !said; i++)
    {
      g_autoptr (AtkObject) child = atk_object_ref_accessible_child (list, i);
      const char *name = child != NULL ? atk_object_get_name (child) : NULL;

      said = name != NULL && strstr (name, "a caution has been open since") != NULL;
    }
  assert_true (said);
}

/* Nobody shares yet: a sentence, and nothing to choose. */
static void
an_empty_team_is_said (void **state)
{
  Desk desk = { .shown = { .today = TODAY, .last_monday = LAST_MONDAY, .refused = "", .self = &desk, .diary = diary_of } };

  desk.window = carpace_roster_window_new (&desk.shown, closed, &desk);
  carpace_roster_window_show (desk.window);
  display_settle ();
  assert_string_equal (carpace_roster_window_told (desk.window), "");
  carpace_roster_window_free (desk.window);
}

static int
draw_picture (const char *path, bool of_page)
{
  Desk *desk;
  void *state = NULL;
  GtkWidget *window;
  GdkPixbuf *pixels;

  bindtextdomain ("carpace", CARPACE_BUILT_PO);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  set_up (&state);
  desk = state;
  if (of_page)
    gtk_button_clicked (GTK_BUTTON (carpace_roster_window_page_button (desk->window)));
  window = of_page ? carpace_roster_window_page (desk->window) : GTK_WIDGET (carpace_roster_window_window (desk->window));
  for (gint64 until = g_get_monotonic_time () + G_USEC_PER_SEC; g_get_monotonic_time () < until;)
    g_main_context_iteration (NULL, FALSE); /* until its frames are laid out */
  pixels = gdk_pixbuf_get_from_window (gtk_widget_get_window (window), 0, 0, gtk_widget_get_allocated_width (window),
                                       gtk_widget_get_allocated_height (window));
  return gdk_pixbuf_save (pixels, path, "png", NULL, NULL) ? 0 : 1;
}

#define ROW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    ROW (who_needs_a_look_stands_first_with_the_reason),
    ROW (gone_through_by_keys),
    ROW (chosen_by_a_click),
    ROW (a_diary_is_read_only),
    ROW (a_page_is_shown_and_said),
    ROW (what_is_not_let_be_read_is_not_opened),
    ROW (a_note_is_written_to_whom_it_says),
    ROW (a_note_goes_by_what_the_keyring_has),
    ROW (assistive_technology_reads_it),
    cmocka_unit_test (an_empty_team_is_said),
  };

  display_open ();
  if (argc > 2 && strcmp (argv[1], "--picture") == 0)
    return draw_picture (argv[2], argc > 3);
  return cmocka_run_group_tests (tests, NULL, NULL);
}
