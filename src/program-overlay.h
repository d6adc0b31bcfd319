/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-overlay.h: the file and the window a broadcast shows, kept up to date. Part
 * of main: it names both faces and adapters. */
#ifndef CARPACE_PROGRAM_OVERLAY_H
#define CARPACE_PROGRAM_OVERLAY_H

#include "adapters/settings-keyfile.h"
#include "app/on-air.h"

typedef struct CarpaceOverlay CarpaceOverlay;

/** @return NULL where the settings ask for none. @param told hears faults */
CarpaceOverlay *carpace_overlay_new (const CarpaceSettings *settings, const CarpaceOnAir *air,
                                     CarpaceInstant (*now) (void *user), void *user,
                                     void (*told) (const char *message));

/** NULL is fine; the file is emptied. */
void carpace_overlay_free (CarpaceOverlay *overlay);

/** Something may have changed. NULL is fine. */
void carpace_overlay_changed (CarpaceOverlay *overlay);

#endif
