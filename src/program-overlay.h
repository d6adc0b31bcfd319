/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-overlay.h: the file and the window a broadcast shows, kept up to date. Part
 * of main: it names both faces and adapters. */
#ifndef CARPACE_PROGRAM_OVERLAY_H
#define CARPACE_PROGRAM_OVERLAY_H

#include "adapters/settings-keyfile.h"
#include "carpace/view.h"

typedef struct CarpaceOverlay CarpaceOverlay;

/** What an overlay asks of the program, and tells it. */
typedef struct
{
  void *self;
  const CarpaceView *(*look) (void *self);
  CarpaceInstant (*now) (void *self);
  void (*told) (const char *message); /**< hears faults */
  void (*moved) (void *self, const char *place); /**< its window now stands there, by hand */
} CarpaceOverlayGiven;

/** @return NULL where the settings ask for none. @param given copied */
CarpaceOverlay *carpace_overlay_new (const CarpaceSettings *settings, const CarpaceOverlayGiven *given);

/** Its window is to stand at @place; NULL: where the desktop puts it, at the next start. */
void carpace_overlay_put (CarpaceOverlay *overlay, const char *place);

/** NULL is fine; the file is emptied. */
void carpace_overlay_free (CarpaceOverlay *overlay);

/** Something may have changed. NULL is fine. */
void carpace_overlay_changed (CarpaceOverlay *overlay);

#endif
