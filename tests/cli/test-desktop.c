/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

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

#define GOOD                                                                                                            \
  {                                                                                                                     \
    .session = "x11", .desktop = "Bench", .bus = true, .tray = CARPACE_TRAY_STATUS_NOTIFIER,                            \
    .notifications = CARPACE_NOTIFICATIONS_ANSWER, .notification_server = "be\"nch", .notification_actions = true,      \
    .input = CARPACE_INPUT_X11, .suspend = true, .chord = CARPACE_CHORD_FREE, .chord_keys = "Ctrl+Alt+R", .sound = true \
  }

static void
json_lines (void **state)
{
  static const struct { const char *name; CarpaceDesktop desktop; const char *json; } rows[] = {
    { "all there", GOOD,
      "{\"session\":\"x11\",\"desktop\":\"Bench\",\"bus\":true,\"tray\":\"status-notifier\",\"notifications\":\"answer\","
      "\"notification_server\":\"be\\\"nch\",\"notification_actions\":true,\"input\":\"x11\",\"suspend\":true,"
      "\"chord\":\"free\",\"chord_keys\":\"Ctrl+Alt+R\",\"sound\":true,\"missing\":[]}\n" },
    { "nothing there", { .bus = false },
      "{\"session\":null,\"desktop\":null,\"bus\":false,\"tray\":\"none\",\"notifications\":\"none\","
      "\"notification_server\":null,\"notification_actions\":false,\"input\":\"manual\",\"suspend\":false,"
      "\"chord\":\"impossible\",\"chord_keys\":null,\"sound\":false,"
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
      for (int input = 0; input < CARPACE_N_INPUTS; input++)
        for (int chord = 0; chord < CARPACE_N_CHORDS; chord++)
          {
            CarpaceDesktop desktop = { .session = "wayland", .tray = (CarpaceTrayOffer) tray,
                                       .notifications = (CarpaceNotificationsOffer) notifications,
                                       .input = (CarpaceInputOffer) input, .chord = (CarpaceChordOffer) chord };
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

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (json_lines), cmocka_unit_test (text_lines),
                                      cmocka_unit_test (every_value_has_its_sentence), cmocka_unit_test (words_not_understood) };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
