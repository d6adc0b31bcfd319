/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * cue-libnotify.h: notices on the desktop's notification server.
 *
 * libnotify waits for the server, up to 25 s a call, so it has a thread of its
 * own; before each use the server is asked whether it answers at all. Nothing
 * here blocks the caller. At most one notification a cue is on the screen; what
 * was asked for last holds: a notice closed before a slow server came to it is
 * never shown.
 */
#ifndef CARPACE_CUE_LIBNOTIFY_H
#define CARPACE_CUE_LIBNOTIFY_H

#include <glib.h>

#include "text/notice.h"

/** Why nothing is shown. */
typedef enum
{
  CARPACE_CUE_NO_SERVER,     /**< nobody on the bus shows notifications, or there is no bus */
  CARPACE_CUE_SERVER_FROZEN, /**< it does not answer within 2 s; what still holds is shown once it does */
  CARPACE_CUE_SERVER_REFUSES /**< it answers, with an error */
} CarpaceCueTrouble;

/** Hears of notices, in the context given at the start. */
typedef struct
{
  void *self;
  /** The player chose an answer. */
  void (*answered) (void *self, CarpaceCue cue, CarpaceEventKind answer);
  /** The player clicked the notification itself: its card is wanted. */
  void (*opened) (void *self, CarpaceCue cue);
  /** Told once for each outage, when a notice could not be shown. */
  void (*trouble) (void *self, CarpaceCueTrouble trouble);
  /** A server that was not there, or did not answer, now does. */
  void (*over) (void *self);
  /** The server takes no answers on what it shows, or another has come that may: told at a change; at first it
   * is taken to. */
  void (*answerable) (void *self, bool answerable);
} CarpaceCueListener;

/** How notices are shown. */
typedef struct
{
  const char *app_name;   /**< "Carpace" */
  const char *app_id;     /**< name of the desktop file: "org.carpace.Carpace" */
  const char *icon;       /**< an icon's name */
  const char *open_label; /**< translated label of the click on the notification itself */
} CarpaceCueLook;

typedef struct CarpaceCueLibnotify CarpaceCueLibnotify;

/** One at a time in a process: libnotify keeps its connection to itself.
 * @param look copied @param context where @listener is called, NULL for the default */
CarpaceCueLibnotify *carpace_cue_libnotify_new (const CarpaceCueLook *look, GMainContext *context,
                                                CarpaceCueListener listener);

/** Closes what is shown, and waits for that 200 ms at most. Nothing is called
 * after it. NULL is fine. */
void carpace_cue_libnotify_free (CarpaceCueLibnotify *cues);

/** Shows @notice in the place of an earlier one of its cue. It is copied. */
void carpace_cue_libnotify_show (CarpaceCueLibnotify *cues, const CarpaceNotice *notice);

/** Closes the notice of @cue, where there is one. */
void carpace_cue_libnotify_close (CarpaceCueLibnotify *cues, CarpaceCue cue);

#endif
