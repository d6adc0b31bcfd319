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

/** Who tells of input. */
typedef enum
{
  CARPACE_INPUT_MANUAL,  /**< nobody: the player says when practice pauses */
  CARPACE_INPUT_X11,     /**< the X server's idle counter */
  CARPACE_INPUT_MUTTER,  /**< GNOME's idle monitor */
  CARPACE_INPUT_WAYLAND, /**< the compositor's idle notifier */
  CARPACE_N_INPUTS
} CarpaceInputOffer;

/** Whether the chord that arms the rating card can be had. */
typedef enum
{
  CARPACE_CHORD_IMPOSSIBLE, /**< not on this kind of session: bind a shortcut of the desktop's to `carpace rate` */
  CARPACE_CHORD_TAKEN,      /**< another program has it */
  CARPACE_CHORD_FREE,
  CARPACE_N_CHORDS
} CarpaceChordOffer;

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
  CarpaceInputOffer input;
  bool suspend;                             /**< suspend and wake are told */
  CarpaceChordOffer chord;
  char chord_keys[CARPACE_DESKTOP_NAME_BYTES]; /**< "Ctrl+Alt+R" */
  bool sound;                               /**< this build can play one */
} CarpaceDesktop;

/** Looks at the desktop. */
typedef struct
{
  void *self;
  /** Takes 5 s at most, where servers are frozen; else a few ms. */
  void (*probe) (void *self, CarpaceDesktop *ret_desktop);
} CarpaceDesktopProbe;

#endif
