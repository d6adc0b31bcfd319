/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "app/commands.h"
#include "carpace/shortcuts.h"
#include "cli/cli.h"
#include "text/desktop-text.h"

static void
found (void *self, CarpaceDesktop *ret_desktop)
{
  *ret_desktop = *(const CarpaceDesktop *) self;
}

/* Runs `carpace desktop` on @desktop. */
static int
run (CarpaceDesktop *desktop, char *format, char **ret_out, char **ret_err)
{
  size_t n_out, n_err;
  char word[] = "desktop", option[] = "--format";
  char *argv[] = { word, option, format, NULL };
  CarpaceCli cli = { .out = open_memstream (ret_out, &n_out), .err = open_memstream (ret_err, &n_err),
                     .desktop = { .self = desktop, .probe = found } };
  int status = carpace_cli_desktop (&cli, format != NULL ? 3 : 1, argv);
  fclose (cli.out);
  fclose (cli.err);
  return status;
}

/* All is there, and input is told of by ... */
#define GOOD_WITH(...)                                                                                                  \
  {                                                                                                                     \
    .session = "x11", .desktop = "Bench", .bus = true, .tray = CARPACE_TRAY_STATUS_NOTIFIER,                            \
    .notifications = CARPACE_NOTIFICATIONS_ANSWER, .notification_server = "be\"nch", .notification_actions = true,      \
    .input = __VA_ARGS__, .suspend = true, .cards = CARPACE_CARDS_ABOVE, .chord = CARPACE_CHORD_FREE, .chord_keys = "Ctrl+Alt+H", .windows = CARPACE_WINDOWS_BY_CLICK, .clicks = true, .sound = true \
  }
#define GOOD GOOD_WITH ({ "x11", CARPACE_SIGHT_EVERY_GAP, "It tells." })
#define HIDDEN_GAPS GOOD_WITH ({ "mutter", CARPACE_SIGHT_UNLESS_AWAKE, "It tells." })
#define KEPT_BACK GOOD_WITH ({ "ext", CARPACE_SIGHT_EVERY_GAP, "It tells." }, .windows_kept_back = true)
#define TWO_TELL                                                                                                        \
  GOOD_WITH ({ "ext", CARPACE_SIGHT_UNLESS_AWAKE, "It tells." },                                                        \
             .beside = { "x11-beside", CARPACE_SIGHT_OF_X, "It tells, too." })

static void
json_lines (void **state)
{
  static const struct { const char *name; CarpaceDesktop desktop; const char *json; } rows[] = {
    { "all there", GOOD,
      "{\"session\":\"x11\",\"desktop\":\"Bench\",\"bus\":true,\"tray\":\"status-notifier\",\"notifications\":\"answer\","
      "\"notification_server\":\"be\\\"nch\",\"notification_actions\":true,\"input\":\"x11\",\"input_tells\":\"every-gap\","
      "\"input_beside\":null,\"input_beside_tells\":null,\"suspend\":true,\"cards\":\"above\","
      "\"chord\":\"free\",\"chord_keys\":\"Ctrl+Alt+H\",\"windows\":\"all-by-click\",\"clicks\":true,\"sound\":true,\"missing\":[]}\n" },
    { "hidden gaps", HIDDEN_GAPS,
      "{\"session\":\"x11\",\"desktop\":\"Bench\",\"bus\":true,\"tray\":\"status-notifier\",\"notifications\":\"answer\","
      "\"notification_server\":\"be\\\"nch\",\"notification_actions\":true,\"input\":\"mutter\","
      "\"input_tells\":\"gaps-unless-awake\",\"input_beside\":null,\"input_beside_tells\":null,\"suspend\":true,\"cards\":\"above\","
      "\"chord\":\"free\",\"chord_keys\":\"Ctrl+Alt+H\",\"windows\":\"all-by-click\",\"clicks\":true,\"sound\":true,\"missing\":[\"input\"]}\n" },
    { "two that tell", TWO_TELL,
      "{\"session\":\"x11\",\"desktop\":\"Bench\",\"bus\":true,\"tray\":\"status-notifier\",\"notifications\":\"answer\","
      "\"notification_server\":\"be\\\"nch\",\"notification_actions\":true,\"input\":\"ext\","
      "\"input_tells\":\"gaps-unless-awake\",\"input_beside\":\"x11-beside\",\"input_beside_tells\":\"gaps-of-x-programs\","
      "\"suspend\":true,\"cards\":\"above\",\"chord\":\"free\",\"chord_keys\":\"Ctrl+Alt+H\",\"windows\":\"all-by-click\",\"clicks\":true,\"sound\":true,\"missing\":[\"input\"]}\n" },
    { "windows kept back", KEPT_BACK,
      "{\"session\":\"x11\",\"desktop\":\"Bench\",\"bus\":true,\"tray\":\"status-notifier\",\"notifications\":\"answer\","
      "\"notification_server\":\"be\\\"nch\",\"notification_actions\":true,\"input\":\"ext\","
      "\"input_tells\":\"every-gap\",\"input_beside\":null,\"input_beside_tells\":null,"
      "\"suspend\":true,\"cards\":\"above\",\"chord\":\"free\",\"chord_keys\":\"Ctrl+Alt+H\",\"windows\":\"all-by-click\",\"clicks\":true,\"sound\":true,\"missing\":[\"windows\"]}\n" },
    { "nothing there", { .bus = false },
      "{\"session\":null,\"desktop\":null,\"bus\":false,\"tray\":\"none\",\"notifications\":\"none\","
      "\"notification_server\":null,\"notification_actions\":false,\"input\":null,\"input_tells\":\"nothing\","
      "\"input_beside\":null,\"input_beside_tells\":null,\"suspend\":false,\"cards\":\"none\","
      "\"chord\":\"impossible\",\"chord_keys\":null,\"windows\":\"none\",\"clicks\":false,\"sound\":false,"
      "\"missing\":[\"session\",\"tray\",\"notifications\",\"input\",\"suspend\",\"chord\"]}\n" },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      char *out = NULL, *err = NULL, json[] = "json";
      CarpaceDesktop desktop = rows[i].desktop;
      if (run (&desktop, json, &out, &err) != CARPACE_EXIT_DONE || strcmp (out, rows[i].json) != 0 || err[0] != '\0')
        fail_msg ("%s: %s%s", rows[i].name, out, err);
      free (out);
      free (err);
    }
}

/* What is missing has a line of advice under it, and nothing else has. */
static void
text_lines (void **state)
{
  static const struct { const char *name; CarpaceDesktop desktop; int advice; } rows[] = {
    { "all there", GOOD, 0 },
    { "hidden gaps", HIDDEN_GAPS, 1 },
    { "two that tell", TWO_TELL, 1 },
    { "windows kept back", KEPT_BACK, 1 },
    { "nothing there", { .bus = false }, 6 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      char *out = NULL, *err = NULL;
      CarpaceDesktop desktop = rows[i].desktop;
      assert_int_equal (run (&desktop, NULL, &out, &err), CARPACE_EXIT_DONE);
      int lines = 0, advice = 0;
      for (char *line = strtok (out, "\n"); line != NULL; line = strtok (NULL, "\n"))
        *(strncmp (line, "    ", 4) == 0 ? &advice : &lines) += 1;
      if (lines != CARPACE_N_DESKTOP_PARTS || advice != rows[i].advice)
        fail_msg ("%s: %d lines, %d of advice", rows[i].name, lines, advice);
      free (out);
      free (err);
    }
}

/* Each value of each part has a sentence of its own. */
static void
every_value_has_its_sentence (void **state)
{
  for (int tray = 0; tray < CARPACE_N_TRAYS; tray++)
    for (int notifications = 0; notifications < CARPACE_N_NOTIFICATIONS; notifications++)
      for (int sight = 0; sight < CARPACE_N_SIGHTS; sight++)
        for (int chord = 0; chord < CARPACE_N_CHORDS; chord++)
          {
            CarpaceDesktop desktop = { .session = "wayland", .cards = (CarpaceCardsOffer) (sight % CARPACE_N_CARDS), .windows = (CarpaceWindowsOffer) (tray % CARPACE_N_WINDOWS), .tray = (CarpaceTrayOffer) tray,
                                       .notifications = (CarpaceNotificationsOffer) notifications,
                                       .input = { "x11", (CarpaceSight) sight, "It tells." }, .chord = (CarpaceChordOffer) chord };
            for (int part = 0; part < CARPACE_N_DESKTOP_PARTS; part++)
              {
                char *sentence = carpace_text_desktop_found (&desktop, (CarpaceDesktopPart) part);
                size_t n = strlen (sentence);
                if (n < 5 || sentence[n - 1] != '.')
                  fail_msg ("part %d: '%s'", part, sentence);
                free (sentence);
              }
          }
}

static void
words_not_understood (void **state)
{
  char *out = NULL, *err = NULL, format[] = "xml";
  CarpaceDesktop desktop = GOOD;
  assert_int_equal (run (&desktop, format, &out, &err), CARPACE_EXIT_WORDS);
  assert_string_equal (out, "");
  assert_true (strlen (err) > 10);
  free (out);
  free (err);
}

/* ---- the desktop's own keys ---- */

static int n_set;

static char *
set_keys (void)
{
  n_set++;
  return NULL;
}

static int
run_shortcuts (CarpaceDesktop *desktop, const char *option, char **ret_out, char **ret_err)
{
  size_t n_out, n_err;
  char word[] = "desktop", shortcuts[] = "--shortcuts";
  char *argv[] = { word, shortcuts, (char *) option, NULL };
  CarpaceCli cli = { .out = open_memstream (ret_out, &n_out), .err = open_memstream (ret_err, &n_err),
                     .desktop = { .self = desktop, .probe = found }, .set_desktop_keys = set_keys };
  int status = carpace_cli_desktop (&cli, option != NULL ? 3 : 2, argv);

  fclose (cli.out);
  fclose (cli.err);
  return status;
}

/* Each of them is a command that the program takes, and none is missing. */
static void
lines_to_paste (void **state)
{
  CarpaceDesktop sway = { .session = "wayland", .desktop = "sway" }, plain = { .session = "wayland" };
  CarpaceEvent event;
  CarpaceWording wording;
  char *out, *err, *line;

  assert_int_equal (run_shortcuts (&sway, NULL, &out, &err), CARPACE_EXIT_DONE);
  for (int32_t i = 0; i < carpace_n_shortcuts; i++)
    {
      char **words = g_strsplit (carpace_shortcuts[i].words, " ", -1);

      line = g_strdup_printf ("\nbindsym Ctrl+Alt+%s exec carpace %s\n", carpace_shortcuts[i].key, carpace_shortcuts[i].words);
      assert_non_null (strstr (out, line));
      assert_true (carpace_command_read ((int) g_strv_length (words), (const char *const *) words, &event, &wording));
      assert_true (i >= CARPACE_SHORTCUT_NUMBERS || (event.kind == CARPACE_EVENT_RATE && event.rate.discomfort == i));
      assert_ptr_equal (carpace_shortcut_of (carpace_shortcuts[i].id), &carpace_shortcuts[i]);
      g_strfreev (words);
      g_free (line);
    }
  free (out);
  free (err);
  assert_int_equal (run_shortcuts (&plain, NULL, &out, &err), CARPACE_EXIT_DONE);
  assert_null (strstr (out, "bindsym"));
  assert_non_null (strstr (out, "Ctrl+Alt+minus carpace rate 10\n"));
  free (out);
  free (err);
}

static void
set_up_where_a_program_may (void **state)
{
  static const struct { CarpaceShortcutsOffer offer; int status, n_set; } cases[] = {
    { CARPACE_SHORTCUTS_BY_HAND, CARPACE_EXIT_REFUSED, 0 },
    { CARPACE_SHORTCUTS_BY_PORTAL, CARPACE_EXIT_DONE, 1 },
    { CARPACE_SHORTCUTS_BY_GNOME, CARPACE_EXIT_DONE, 1 },
  };

  for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
    {
      CarpaceDesktop desktop = { .session = "wayland", .shortcuts = cases[i].offer };
      char *out, *err;

      n_set = 0;
      assert_int_equal (run_shortcuts (&desktop, "--set", &out, &err), cases[i].status);
      assert_int_equal (n_set, cases[i].n_set);
      assert_true ((*out == '\0') == (cases[i].status != CARPACE_EXIT_DONE));
      assert_true ((*err == '\0') == (cases[i].status == CARPACE_EXIT_DONE));
      free (out);
      free (err);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (json_lines), cmocka_unit_test (text_lines),
                                      cmocka_unit_test (every_value_has_its_sentence), cmocka_unit_test (words_not_understood),
                                      cmocka_unit_test (lines_to_paste), cmocka_unit_test (set_up_where_a_program_may) };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
