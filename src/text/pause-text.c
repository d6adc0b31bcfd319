/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pause-text.c: a view -> the pause of a stream, and its words. */
#include "text/pause-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"

static bool
intermission_runs (const CarpaceView *view)
{
  return view->intermission && view->intermission_in_ms == 0;
}

CarpacePause
carpace_pause_running (const CarpaceView *view)
{
  if (intermission_runs (view))
    return (CarpacePause){ .kind = CARPACE_PAUSE_INTERMISSION, .running = true, .length_ms = view->intermission_length_ms,
                           .to_go_ms = view->intermission_to_go_ms };
  if (view->rest.running)
    return (CarpacePause){ .kind = CARPACE_PAUSE_SHORT, .running = true, .waits = view->rest.waits,
                           .length_ms = view->rest.length_ms, .to_go_ms = view->rest.remaining_ms };
  return (CarpacePause){ .kind = CARPACE_PAUSE_NONE };
}

CarpacePause
carpace_pause_offered (const CarpaceView *view)
{
  if (!view->rest.offered || view->rest.running || intermission_runs (view))
    return (CarpacePause){ .kind = CARPACE_PAUSE_NONE };
  return (CarpacePause){ .kind = CARPACE_PAUSE_SHORT, .length_ms = view->rest.length_ms };
}

CarpacePause
carpace_pause_ahead (const CarpaceView *view)
{
  if (view->next_intermission_in_ms <= 0 || intermission_runs (view))
    return (CarpacePause){ .kind = CARPACE_PAUSE_NONE };
  return (CarpacePause){ .kind = CARPACE_PAUSE_INTERMISSION, .length_ms = view->intermission_length_ms,
                         .to_go_ms = view->next_intermission_in_ms };
}

const char *
carpace_text_pause (CarpacePauseKind kind)
{
  switch (kind)
    {
    case CARPACE_PAUSE_SHORT: return _("Short pause");
    case CARPACE_PAUSE_INTERMISSION: return _("Intermission");
    case CARPACE_PAUSE_NONE:
    case CARPACE_N_PAUSES: break;
    }
  return "";
}

char *
carpace_text_pause_length (const CarpacePause *pause)
{
  g_autofree char *length = carpace_text_duration (pause->length_ms);

  /* Translators: a pause, and how long it is: "Short pause, 30 s" */
  return g_strdup_printf (_("%s, %s"), carpace_text_pause (pause->kind), length);
}

char *
carpace_text_count (int64_t ms)
{
  int64_t seconds = (MAX (ms, 0) + CARPACE_SECOND_MS - 1) / CARPACE_SECOND_MS;

  if (seconds >= 3600)
    return g_strdup_printf ("%d:%02d:%02d", (int) (seconds / 3600), (int) (seconds / 60 % 60), (int) (seconds % 60));
  return g_strdup_printf ("%d:%02d", (int) (seconds / 60), (int) (seconds % 60));
}

char *
carpace_text_pause_counted (const CarpacePause *pause)
{
  g_autofree char *to_go = carpace_text_count (pause->to_go_ms);

  /* Translators: a pause that runs, and how much of it is to go: "Short pause, 0:23 to go" */
  return g_strdup_printf (_("%s, %s to go"), carpace_text_pause (pause->kind), to_go);
}
