/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sound-gsound.c: by GSound, in a thread: a sound server may take its time. */
#include "sound.h"

#include <gsound.h>

typedef struct
{
  gatomicrefcount refs;
  gint busy; /* atomic */
  gint gave_up; /* atomic; libraries below complain on standard error at each try */
  GSoundContext *context; /* the thread's */
} Sounds;

typedef struct
{
  Sounds *sound;
  bool soft;
} Play;

static void
unref (Sounds *sound)
{
  if (!g_atomic_ref_count_dec (&sound->refs))
    return;
  g_clear_object (&sound->context);
  g_free (sound);
}

static gpointer
play (gpointer data)
{
  Play *play = data;
  Sounds *sound = play->sound;
  if (sound->context == NULL)
    sound->context = gsound_context_new (NULL, NULL);
  if (sound->context == NULL
      || !gsound_context_play_simple (sound->context, NULL, NULL, GSOUND_ATTR_EVENT_ID, play->soft ? "bell" : "message",
                                      GSOUND_ATTR_MEDIA_ROLE, "event", NULL))
    g_atomic_int_set (&sound->gave_up, 1);
  g_atomic_int_set (&sound->busy, 0);
  unref (sound);
  g_free (play);
  return NULL;
}

static void
let_go (void *self)
{
  unref (self);
}

static void
play_soon (void *self, bool soft)
{
  Sounds *sound = self;

  if (g_atomic_int_get (&sound->gave_up) || !g_atomic_int_compare_and_exchange (&sound->busy, 0, 1))
    return;
  Play *asked = g_new (Play, 1);
  *asked = (Play) { .sound = sound, .soft = soft };
  g_atomic_ref_count_inc (&sound->refs);
  GThread *thread = g_thread_try_new ("carpace-sound", play, asked, NULL);
  if (thread != NULL)
    g_thread_unref (thread);
  else
    {
      g_atomic_int_set (&sound->busy, 0);
      unref (sound);
      g_free (asked);
    }
}

CarpaceSound
carpace_sound_gsound (void)
{
  Sounds *sound = g_new0 (Sounds, 1);

  g_atomic_ref_count_init (&sound->refs);
  return (CarpaceSound) { sound, play_soon, let_go };
}
