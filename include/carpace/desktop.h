/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * desktop.h: what a desktop offers, as found just now.
 */
#ifndef CARPACE_DESKTOP_H
#define CARPACE_DESKTOP_H

#include <stdbool.h>

/** Where a tray icon would be seen. */
typedef enum
{
  CARPACE_TRAY_NONE,            /**< nowhere */
  CARPACE_TRAY_NO_HOST,         /**< a StatusNotifier watcher runs, but no panel shows its icons */
  CARPACE_TRAY_STATUS_NOTIFIER, /**< in a StatusNotifier host */
  CARPACE_TRAY_XEMBED,          /**< in a system tray of the X kind */
  CARPACE_N_TRAYS
} CarpaceTrayOffer;

/** Who shows notifications. */
typedef enum
{
  CARPACE_NOTIFICATIONS_NONE,
  CARPACE_NOTIFICATIONS_FROZEN, /**< a server that does not answer */
  CARPACE_NOTIFICATIONS_ANSWER,
  CARPACE_N_NOTIFICATIONS
} CarpaceNotificationsOffer;

/** How much a source of input sees. */
typedef enum
{
  CARPACE_SIGHT_NONE,         /**< nothing: the player says when practice pauses */
  CARPACE_SIGHT_UNLESS_AWAKE, /**< every gap but those in which a program holds the screen awake, as games do */
  CARPACE_SIGHT_OF_X,         /**< every gap while a program of X is in front, else nothing */
  CARPACE_SIGHT_EVERY_GAP,
  CARPACE_N_SIGHTS
} CarpaceSight;

/** Who tells of input: a row of the program's list of sources. */
typedef struct
{
  const char *word;     /**< of `carpace desktop`, never translated; NULL where nobody was asked */
  CarpaceSight sight;
  const char *sentence; /**< who tells of it */
} CarpaceInputSource;

/** Whether the chord that arms the rating card can be had. */
typedef enum
{
  CARPACE_CHORD_IMPOSSIBLE, /**< not on this kind of session: bind a shortcut of the desktop's to `carpace rate` */
  CARPACE_CHORD_TAKEN,      /**< another program has it */
  CARPACE_CHORD_FREE,
  CARPACE_N_CHORDS
} CarpaceChordOffer;

/** How cards that come by themselves are shown. */
typedef enum
{
  CARPACE_CARDS_NONE,     /**< there is no display */
  CARPACE_CARDS_ABOVE,    /**< above everything, without the focus */
  CARPACE_CARDS_ABOVE_TAKE_FOCUS, /**< the same; but a click on one takes the focus from a game */
  CARPACE_CARDS_BY_NOTICES, /**< not at all: notices say what they would */
  CARPACE_N_CARDS
} CarpaceCardsOffer;

/** How the desktop's own keys come to call the program. */
typedef enum
{
  CARPACE_SHORTCUTS_BY_HAND,   /**< the player sets them up in the desktop's settings */
  CARPACE_SHORTCUTS_BY_PORTAL, /**< the desktop's portal asks the player, once for all */
  CARPACE_SHORTCUTS_BY_GNOME,  /**< they can be put among GNOME's own */
  CARPACE_N_SHORTCUTS
} CarpaceShortcutsOffer;

/** Which windows are told of when they come to the front, and how one is chosen to practise in. */
typedef enum
{
  CARPACE_WINDOWS_NONE,     /**< none */
  CARPACE_WINDOWS_OF_X,     /**< programs of X only; the next of them to come to the front is chosen */
  CARPACE_WINDOWS_BY_FRONT, /**< all; the next to come to the front is chosen */
  CARPACE_WINDOWS_BY_CLICK, /**< all; a click chooses */
  CARPACE_N_WINDOWS
} CarpaceWindowsOffer;

/** Bytes of a name in it, its end included; longer ones are cut. */
#define CARPACE_DESKTOP_NAME_BYTES 64

typedef struct
{
  char session[CARPACE_DESKTOP_NAME_BYTES]; /**< "x11", "wayland", "" where there is no display */
  char desktop[CARPACE_DESKTOP_NAME_BYTES]; /**< as it calls itself, "" where it does not */
  bool bus;                                 /**< a session bus answers */
  CarpaceTrayOffer tray;
  CarpaceNotificationsOffer notifications;
  char notification_server[CARPACE_DESKTOP_NAME_BYTES]; /**< its own name */
  bool notification_actions;                /**< answers can be given on it */
  CarpaceInputSource input;
  CarpaceInputSource beside;                /**< followed together with it; its word is NULL where there is none */
  bool suspend;                             /**< suspend and wake are told */
  CarpaceChordOffer chord;
  char chord_keys[CARPACE_DESKTOP_NAME_BYTES]; /**< "Ctrl+Alt+H" */
  CarpaceCardsOffer cards;
  CarpaceShortcutsOffer shortcuts;
  bool sway;                                /**< sway runs the session, or what is compatible with it */
  CarpaceWindowsOffer windows;
  bool windows_kept_back;                   /**< the compositor tells of all, but only programs that a desktop file speaks for */
  bool clicks;                              /**< each press of a button is told of */
  bool sound;                               /**< this build can play one */
} CarpaceDesktop;

/** Looks at the desktop. */
typedef struct
{
  void *self;
  /** Takes some seconds for each server that is frozen; else a few ms. */
  void (*probe) (void *self, CarpaceDesktop *ret_desktop);
} CarpaceDesktopProbe;

#endif
