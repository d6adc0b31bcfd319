/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * sound.h: a short sound with a cue, off unless the player wants it.
 *
 * Sounds are those of the desktop's own sound theme (freedesktop Sound Naming
 * Specification). No sound server, no theme, or a build without a sound library:
 * nothing is heard, and nothing else differs; what could not be played once is not
 * tried again until the next start.
 */
#ifndef CARPACE_SOUND_H
#define CARPACE_SOUND_H

#include <stdbool.h>

typedef struct CarpaceSound CarpaceSound;

/** Opens nothing yet. @return NULL in a build without a sound library */
CarpaceSound *carpace_sound_new (void);

/** NULL is fine. Does not wait for a sound that plays. */
void carpace_sound_free (CarpaceSound *sound);

/** Plays "message" of the theme, or "bell" where @soft. At once back; a sound
 * asked for while the one before has not begun is dropped. NULL is fine. */
void carpace_sound_play (CarpaceSound *sound, bool soft);

#endif
