/* SPDX-License-Identifier: GPL-3.0-or-later */
/* desktop.c: `carpace desktop`. */
#include <glib.h>
#include <glib/gi18n.h>

#include "cli/cli.h"
#include "cli/options.h"
#include "forms/json.h"
#include "text/desktop-text.h"
#include "text/shortcuts-text.h"

static const char *const part_words[] = {
  [CARPACE_DESKTOP_SESSION] = "session", [CARPACE_DESKTOP_TRAY] = "tray",
  [CARPACE_DESKTOP_NOTIFICATIONS] = "notifications", [CARPACE_DESKTOP_INPUT] = "input",
  [CARPACE_DESKTOP_SUSPEND] = "suspend", [CARPACE_DESKTOP_CARDS] = "cards",
  [CARPACE_DESKTOP_CHORD] = "chord", [CARPACE_DESKTOP_WINDOWS] = "windows", [CARPACE_DESKTOP_CLICKS] = "clicks", [CARPACE_DESKTOP_SOUND] = "sound"
};
static const char *const tray_words[] = {
  [CARPACE_TRAY_NONE] = "none", [CARPACE_TRAY_NO_HOST] = "no-host",
  [CARPACE_TRAY_STATUS_NOTIFIER] = "status-notifier", [CARPACE_TRAY_XEMBED] = "xembed"
};
static const char *const notification_words[] = {
  [CARPACE_NOTIFICATIONS_NONE] = "none", [CARPACE_NOTIFICATIONS_FROZEN] = "frozen",
  [CARPACE_NOTIFICATIONS_ANSWER] = "answer"
};
static const char *const cards_words[] = {
  [CARPACE_CARDS_NONE] = "none", [CARPACE_CARDS_ABOVE] = "above",
  [CARPACE_CARDS_ABOVE_TAKE_FOCUS] = "above-take-focus", [CARPACE_CARDS_BY_NOTICES] = "by-notices"
};
static const char *const windows_words[] = {
  [CARPACE_WINDOWS_NONE] = "none", [CARPACE_WINDOWS_OF_X] = "x-programs",
  [CARPACE_WINDOWS_BY_FRONT] = "all", [CARPACE_WINDOWS_BY_CLICK] = "all-by-click"
};
static const char *const sight_words[] = {
  [CARPACE_SIGHT_NONE] = "nothing", [CARPACE_SIGHT_UNLESS_AWAKE] = "gaps-unless-awake",
  [CARPACE_SIGHT_OF_X] = "gaps-of-x-programs", [CARPACE_SIGHT_EVERY_GAP] = "every-gap"
};
static const char *const chord_words[] = {
  [CARPACE_CHORD_IMPOSSIBLE] = "impossible", [CARPACE_CHORD_TAKEN] = "taken", [CARPACE_CHORD_FREE] = "free"
};

G_STATIC_ASSERT (G_N_ELEMENTS (part_words) == CARPACE_N_DESKTOP_PARTS);
G_STATIC_ASSERT (G_N_ELEMENTS (tray_words) == CARPACE_N_TRAYS);
G_STATIC_ASSERT (G_N_ELEMENTS (notification_words) == CARPACE_N_NOTIFICATIONS);
G_STATIC_ASSERT (G_N_ELEMENTS (cards_words) == CARPACE_N_CARDS);
G_STATIC_ASSERT (G_N_ELEMENTS (windows_words) == CARPACE_N_WINDOWS);
G_STATIC_ASSERT (G_N_ELEMENTS (sight_words) == CARPACE_N_SIGHTS);
G_STATIC_ASSERT (G_N_ELEMENTS (chord_words) == CARPACE_N_CHORDS);

static void
member (GString *out, const char *key, const char *value)
{
  carpace_json_key (out, key);
  carpace_json_string (out, value != NULL && value[0] != '\0' ? value : NULL);
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
  member (out, "input", desktop->input.word);
  member (out, "input_tells", sight_words[desktop->input.sight]);
  member (out, "input_beside", desktop->beside.word);
  member (out, "input_beside_tells", desktop->beside.word != NULL ? sight_words[desktop->beside.sight] : NULL);
  flag (out, "suspend", desktop->suspend);
  member (out, "cards", cards_words[desktop->cards]);
  member (out, "chord", chord_words[desktop->chord]);
  member (out, "chord_keys", desktop->chord_keys);
  member (out, "windows", windows_words[desktop->windows]);
  flag (out, "clicks", desktop->clicks);
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

/* ---- its own keys ---- */

static int
print_shortcuts (CarpaceCli *cli, bool set, bool json)
{
  CarpaceDesktop desktop = { 0 };
  g_autofree char *text = NULL, *fault = NULL;

  if (json)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Shortcuts are printed as text only: leave out --format json."));
  cli->desktop.probe (cli->desktop.self, &desktop);
  text = carpace_text_shortcuts (&desktop, "carpace");
  if (set && desktop.shortcuts == CARPACE_SHORTCUTS_BY_HAND)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("This desktop lets no program set its keys: “carpace desktop --shortcuts” says "
                                                            "how to set them up by hand."));
  if (set)
    fault = cli->set_desktop_keys ();
  if (fault != NULL)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", fault);
  fputs (set ? _("Carpace sets them up now, or when it runs next; where the desktop asks you, say yes there.") : text, cli->out);
  if (set)
    fputs ("\n", cli->out);
  return CARPACE_EXIT_DONE;
}

int
carpace_cli_desktop (CarpaceCli *cli, int argc, char **argv)
{
  const char *format = NULL;
  bool json = false, shortcuts = false, set = false;
  const CarpaceOption options[] = { { .name = "format", .value = &format }, { .name = "shortcuts", .flag = &shortcuts },
                                    { .name = "set", .flag = &set } };
  CarpaceDesktop desktop = { 0 };
  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0
      || !carpace_option_format (cli, format, &json))
    return CARPACE_EXIT_WORDS;
  if (set && !shortcuts)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--set belongs to --shortcuts: “carpace desktop --shortcuts --set”."));
  if (shortcuts)
    return print_shortcuts (cli, set, json);
  cli->desktop.probe (cli->desktop.self, &desktop);
  if (json)
    print_json (&desktop, cli->out);
  else
    print_text (&desktop, cli->out);
  return CARPACE_EXIT_DONE;
}
