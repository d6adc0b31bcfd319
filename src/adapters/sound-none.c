/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sound-none.c: a build without a sound library. */
#include "sound.h"

#include <stddef.h>

CarpaceSound *
carpace_sound_new (void)
{
  return NULL;
}

void
carpace_sound_free (CarpaceSound *sound)
{
}

void
carpace_sound_play (CarpaceSound *sound, bool soft)
{
}
