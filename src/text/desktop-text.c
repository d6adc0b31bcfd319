/* SPDX-License-Identifier: GPL-3.0-or-later */
/* desktop-text.c: a sentence for each thing a desktop may offer or lack. */
#include "text/desktop-text.h"

#include <glib/gi18n.h>
#include <string.h>

#include "text/window-text.h"

const char *
carpace_text_desktop_part (CarpaceDesktopPart part)
{
  switch (part)
    {
    case CARPACE_DESKTOP_SESSION: return _("Session");
    case CARPACE_DESKTOP_TRAY: return _("Tray");
    case CARPACE_DESKTOP_NOTIFICATIONS: return _("Notifications");
    case CARPACE_DESKTOP_INPUT: return _("Mouse and keyboard");
    case CARPACE_DESKTOP_SUSPEND: return _("Suspend");
    case CARPACE_DESKTOP_CARDS: return _("Cards");
    case CARPACE_DESKTOP_CHORD: return _("Rating by keys");
    case CARPACE_DESKTOP_WINDOWS: return _("Practice window");
    case CARPACE_DESKTOP_CLICKS: return _("Clicks");
    case CARPACE_DESKTOP_SOUND: return _("Sound");
    case CARPACE_N_DESKTOP_PARTS: break;
    }
  return "";
}

static char *
session (const CarpaceDesktop *desktop)
{
  const char *kind = strcmp (desktop->session, "x11") == 0       ? "X11"
                     : strcmp (desktop->session, "wayland") == 0 ? "Wayland"
                                                                 : desktop->session;
  if (kind[0] == '\0')
    return g_strdup (_("There is no display here."));
  return desktop->desktop[0] != '\0' ? g_strdup_printf (_("%s, on %s."), desktop->desktop, kind) : g_strdup_printf ("%s.", kind);
}

static const char *
tray (CarpaceTrayOffer offer)
{
  switch (offer)
    {
    case CARPACE_TRAY_NONE: return _("No panel here shows tray icons.");
    case CARPACE_TRAY_NO_HOST: return _("A tray service runs, but no panel shows its icons.");
    case CARPACE_TRAY_STATUS_NOTIFIER: return _("A panel shows tray icons.");
    case CARPACE_TRAY_XEMBED: return _("A panel shows tray icons of the older kind.");
    case CARPACE_N_TRAYS: break;
    }
  return "";
}

static char *
notifications (const CarpaceDesktop *desktop)
{
  const char *server = desktop->notification_server;
  switch (desktop->notifications)
    {
    case CARPACE_NOTIFICATIONS_NONE: return g_strdup (_("Nothing here shows notifications."));
    case CARPACE_NOTIFICATIONS_FROZEN: return g_strdup (_("The program that shows notifications does not answer."));
    case CARPACE_NOTIFICATIONS_ANSWER:
      return server[0] == '\0'                 ? g_strdup (_("Notifications are shown."))
             : desktop->notification_actions ? g_strdup_printf (_("%s shows notifications, and takes answers on them."), server)
                                             : g_strdup_printf (_("%s shows notifications, without answers on them."), server);
    case CARPACE_N_NOTIFICATIONS: break;
    }
  return g_strdup ("");
}

static char *
chord (const CarpaceDesktop *desktop)
{
  switch (desktop->chord)
    {
    case CARPACE_CHORD_IMPOSSIBLE: return g_strdup (_("No keys can be set aside on this kind of session."));
    case CARPACE_CHORD_TAKEN: return g_strdup_printf (_("%s belongs to another program."), desktop->chord_keys);
    case CARPACE_CHORD_FREE:
      return g_strdup_printf (_("%s and then a digit rates while a rating is open; the key to the right of the digits is 10."),
                              desktop->chord_keys);
    case CARPACE_N_CHORDS: break;
    }
  return g_strdup ("");
}

static const char *
cards (CarpaceCardsOffer offer)
{
  switch (offer)
    {
    case CARPACE_CARDS_NONE: return _("There is no place for them.");
    case CARPACE_CARDS_ABOVE: return _("They come above a full-screen game and leave it the keys.");
    case CARPACE_CARDS_ABOVE_TAKE_FOCUS:
      return _("They come above a full-screen game; a click on one takes the keys from the game.");
    case CARPACE_CARDS_BY_NOTICES: return _("This desktop has no place for them: notifications say the same.");
    case CARPACE_N_CARDS: break;
    }
  return "";
}

static const char *
windows (CarpaceWindowsOffer offer)
{
  switch (offer)
    {
    case CARPACE_WINDOWS_NONE: return carpace_text_no_windows ();
    case CARPACE_WINDOWS_OF_X:
      return _("This desktop tells of programs of X only: one of them can be chosen by bringing it to the front.");
    case CARPACE_WINDOWS_BY_FRONT: return _("Any window can be chosen by bringing it to the front.");
    case CARPACE_WINDOWS_BY_CLICK: return _("Any window can be chosen by a click on it.");
    case CARPACE_N_WINDOWS: break;
    }
  return "";
}

static char *
input (const CarpaceDesktop *desktop)
{
  if (desktop->input.sentence == NULL)
    return g_strdup ("");
  return desktop->beside.sentence == NULL ? g_strdup (desktop->input.sentence)
                                          : g_strdup_printf ("%s %s", desktop->input.sentence, desktop->beside.sentence);
}

char *
carpace_text_desktop_found (const CarpaceDesktop *desktop, CarpaceDesktopPart part)
{
  switch (part)
    {
    case CARPACE_DESKTOP_SESSION: return session (desktop);
    case CARPACE_DESKTOP_TRAY: return g_strdup (tray (desktop->tray));
    case CARPACE_DESKTOP_NOTIFICATIONS: return notifications (desktop);
    case CARPACE_DESKTOP_INPUT: return input (desktop);
    case CARPACE_DESKTOP_SUSPEND:
      return g_strdup (desktop->suspend ? _("Suspend is reported.") : _("Nothing here reports suspend."));
    case CARPACE_DESKTOP_CARDS: return g_strdup (cards (desktop->cards));
    case CARPACE_DESKTOP_CHORD: return chord (desktop);
    case CARPACE_DESKTOP_WINDOWS: return g_strdup (windows (desktop->windows));
    case CARPACE_DESKTOP_CLICKS:
      return g_strdup (desktop->clicks ? _("Clicks in a block can be counted.") : _("Nothing here reports clicks: how many there are stays unknown."));
    case CARPACE_DESKTOP_SOUND:
      return g_strdup (desktop->sound ? _("A sound with a cue can be switched on.") : _("This build plays no sounds."));
    case CARPACE_N_DESKTOP_PARTS: break;
    }
  return g_strdup ("");
}

static const char *
notifications_advice (const CarpaceDesktop *desktop)
{
  switch (desktop->notifications)
    {
    case CARPACE_NOTIFICATIONS_NONE:
      return _("Start your desktop's notification service; until then cues show on Carpace's own cards.");
    case CARPACE_NOTIFICATIONS_FROZEN:
      return _("Restart it, or log out and in; until then cues show on Carpace's own cards.");
    case CARPACE_NOTIFICATIONS_ANSWER:
      return desktop->notification_actions ? NULL : _("Answer from the tray's menu, or with commands such as “carpace rest”.");
    case CARPACE_N_NOTIFICATIONS: break;
    }
  return NULL;
}

static const char *
tray_advice (const CarpaceDesktop *desktop)
{
  switch (desktop->tray)
    {
    case CARPACE_TRAY_NONE:
    case CARPACE_TRAY_NO_HOST:
      return _("Add a tray (status notifier) to your panel; until then a window offers the same.");
    case CARPACE_TRAY_STATUS_NOTIFIER:
    case CARPACE_TRAY_XEMBED:
    case CARPACE_N_TRAYS: break;
    }
  return NULL;
}

static const char *
input_advice (const CarpaceDesktop *desktop)
{
  switch (desktop->input.sight)
    {
    case CARPACE_SIGHT_NONE:
      return _("Input is taken as on from start to pause: pause a block when you stop, and take rests with “carpace rest”.");
    case CARPACE_SIGHT_UNLESS_AWAKE:
      if (desktop->beside.word != NULL)
        return _("A game that runs without X and keeps the screen awake hides every gap: pause a block yourself then, and take "
                 "rests with “carpace rest”.");
      return _("A game that keeps the screen awake hides every gap: pause a block yourself then, and take rests with "
               "“carpace rest”.");
    case CARPACE_SIGHT_OF_X:
    case CARPACE_SIGHT_EVERY_GAP:
    case CARPACE_N_SIGHTS: break;
    }
  return NULL;
}

static const char *
chord_advice (const CarpaceDesktop *desktop)
{
  switch (desktop->chord)
    {
    case CARPACE_CHORD_IMPOSSIBLE:
      return _("“carpace desktop --shortcuts” says how this desktop's own keys come to rate and answer.");
    case CARPACE_CHORD_TAKEN:
      return _("Choose other keys for it, or bind shortcuts in your desktop's settings to “carpace rate 0” and so on.");
    case CARPACE_CHORD_FREE:
    case CARPACE_N_CHORDS: break;
    }
  return NULL;
}

const char *
carpace_text_desktop_advice (const CarpaceDesktop *desktop, CarpaceDesktopPart part)
{
  switch (part)
    {
    case CARPACE_DESKTOP_SESSION:
      return desktop->session[0] != '\0' ? NULL
                                         : _("Log in to a desktop for practice; plans, rehearsals and the diary work in a terminal.");
    case CARPACE_DESKTOP_TRAY: return tray_advice (desktop);
    case CARPACE_DESKTOP_NOTIFICATIONS: return notifications_advice (desktop);
    case CARPACE_DESKTOP_INPUT:
      return input_advice (desktop);
    case CARPACE_DESKTOP_SUSPEND:
      return desktop->suspend ? NULL : _("Pause a block before you suspend the machine; logind or elogind would report "
                                         "it.");
    case CARPACE_DESKTOP_CARDS:
      return desktop->cards == CARPACE_CARDS_ABOVE_TAKE_FOCUS ? _("Answer by keys: “carpace desktop --shortcuts”.") : NULL;
    case CARPACE_DESKTOP_CHORD: return chord_advice (desktop);
    case CARPACE_DESKTOP_WINDOWS:
      return desktop->windows_kept_back ? _("KDE tells of all windows only where a desktop file asks for it: install Carpace, or write "
                                            "this program's whole path after Exec= in its desktop file.")
                                        : NULL;
    case CARPACE_DESKTOP_CLICKS:
    case CARPACE_DESKTOP_SOUND: return NULL;
    case CARPACE_N_DESKTOP_PARTS: break;
    }
  return NULL;
}
