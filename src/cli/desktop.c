/* SPDX-License-Identifier: GPL-3.0-or-later */
/* desktop.c: `carpace desktop`. */
#include <glib.h>

#include "cli/cli.h"
#include "cli/options.h"
#include "text/desktop-text.h"
#include "text/json.h"

static const char *const part_words[CARPACE_N_DESKTOP_PARTS] = {
  "session", "tray", "notifications", "input", "suspend", "chord", "sound"
};
static const char *const tray_words[CARPACE_N_TRAYS] = { "none", "no-host", "status-notifier", "xembed" };
static const char *const notification_words[CARPACE_N_NOTIFICATIONS] = { "none", "frozen", "answer" };
static const char *const input_words[CARPACE_N_INPUTS] = { "manual", "x11", "mutter", "wayland" };
static const char *const chord_words[CARPACE_N_CHORDS] = { "impossible", "taken", "free" };

static void
member (GString *out, const char *key, const char *value)
{
  carpace_json_key (out, key);
  if (value[0] != '\0')
    carpace_json_string (out, value);
  else
    carpace_json_null (out);
}

static void
flag (GString *out, const char *key, bool value)
{
  carpace_json_key (out, key);
  carpace_json_bool (out, value);
}

static void
print_json (const CarpaceDesktop *desktop, FILE *to)
{
  GString *out = g_string_new (NULL);
  carpace_json_open (out, '{');
  member (out, "session", desktop->session);
  member (out, "desktop", desktop->desktop);
  flag (out, "bus", desktop->bus);
  member (out, "tray", tray_words[desktop->tray]);
  member (out, "notifications", notification_words[desktop->notifications]);
  member (out, "notification_server", desktop->notification_server);
  flag (out, "notification_actions", desktop->notification_actions);
  member (out, "input", input_words[desktop->input]);
  flag (out, "suspend", desktop->suspend);
  member (out, "chord", chord_words[desktop->chord]);
  member (out, "chord_keys", desktop->chord_keys);
  flag (out, "sound", desktop->sound);
  carpace_json_key (out, "missing");
  carpace_json_open (out, '[');
  for (int part = 0; part < CARPACE_N_DESKTOP_PARTS; part++)
    if (carpace_text_desktop_advice (desktop, (CarpaceDesktopPart) part) != NULL)
      carpace_json_string (out, part_words[part]);
  carpace_json_close (out, ']');
  carpace_json_close (out, '}');
  fprintf (to, "%s\n", out->str);
  g_string_free (out, TRUE);
}

static void
print_text (const CarpaceDesktop *desktop, FILE *to)
{
  for (int each = 0; each < CARPACE_N_DESKTOP_PARTS; each++)
    {
      CarpaceDesktopPart part = (CarpaceDesktopPart) each;
      char *found = carpace_text_desktop_found (desktop, part);
      const char *advice = carpace_text_desktop_advice (desktop, part);
      fprintf (to, "%s: %s\n", carpace_text_desktop_part (part), found);
      if (advice != NULL)
        fprintf (to, "    %s\n", advice);
      g_free (found);
    }
}

int
carpace_cli_desktop (CarpaceCli *cli, int argc, char **argv)
{
  const char *format = NULL;
  bool json = false;
  const CarpaceOption options[] = { { .name = "format", .value = &format } };
  CarpaceDesktop desktop = { 0 };
  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0
      || !carpace_option_format (cli, format, &json))
    return CARPACE_EXIT_WORDS;
  cli->desktop.probe (cli->desktop.self, &desktop);
  if (json)
    print_json (&desktop, cli->out);
  else
    print_text (&desktop, cli->out);
  return CARPACE_EXIT_DONE;
}
