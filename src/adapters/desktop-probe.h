/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * desktop-probe.h: looks at what the desktop offers.
 */
#ifndef CARPACE_DESKTOP_PROBE_H
#define CARPACE_DESKTOP_PROBE_H

#include "carpace/desktop.h"

/** What other adapters know better; any may be NULL, and is then "no". */
typedef struct
{
  void *self;
  CarpaceInputSource (*input) (void *self, CarpaceInputSource *ret_beside);
  /** Also writes the chord's keys. Not asked where there is no X server. */
  CarpaceChordOffer (*chord) (void *self, char ret_keys[CARPACE_DESKTOP_NAME_BYTES]);
  bool (*sound) (void *self);
  CarpaceShortcutsOffer (*shortcuts) (void *self);
  CarpaceCardsOffer (*cards) (void *self); /**< not asked where there is an X server's session */
  bool (*clicks) (void *self);
  CarpaceWindowsOffer (*windows) (void *self, bool *ret_kept_back); /**< not asked where there is no display */
} CarpaceDesktopAsk;

/** As a port; @ask outlives it. */
CarpaceDesktopProbe carpace_desktop_probe_port (const CarpaceDesktopAsk *ask);

#endif
