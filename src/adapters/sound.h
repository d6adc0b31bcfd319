/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * sound.h: a short sound with a cue, off unless the player wants it.
 *
 * Sounds are those of the desktop's own sound theme (freedesktop Sound Naming
 * Specification). No sound server, no theme, or a build without a sound library:
 * nothing is heard, and nothing else differs; what could not be played once is not
 * tried again until the next start. It is a module of its own, opened for those who
 * want sounds: its libraries are a third of a megabyte of the tray's memory.
 */
#ifndef CARPACE_SOUND_H
#define CARPACE_SOUND_H

#include <stdbool.h>

/** What plays a sound; without one, play is NULL. */
typedef struct
{
  void *self;
  /** Plays "message" of the theme, or "bell" where @soft. At once back; a sound asked for while the one before has
   * not begun is dropped. */
  void (*play) (void *self, bool soft);
  /** Does not wait for a sound that plays. */
  void (*free) (void *self);
} CarpaceSound;

/** Opens nothing yet. */
CarpaceSound carpace_sound_gsound (void);

#endif
