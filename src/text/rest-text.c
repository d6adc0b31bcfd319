/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rest-text.c: what an offered rest is, and why it comes now. */
#include "text/face-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"

char *
carpace_text_rest_offer (const CarpaceView *view)
{
  const CarpaceRestView *rest = &view->rest;
  g_autofree char *length = carpace_text_duration (rest->length_ms);

  if (rest->running)
    return g_strdup (carpace_text_exercise (rest->exercise));
  /* Translators: how long; what to do */
  return g_strdup_printf (_("Rest %s: %s"), length, carpace_text_exercise_do (rest->exercise, rest->side));
}

char *
carpace_text_rest_why (const CarpaceView *view)
{
  const CarpaceRestView *rest = &view->rest;
  int64_t unit_ms = rest->since_ms >= CARPACE_MINUTE_MS ? CARPACE_MINUTE_MS : CARPACE_SECOND_MS;
  g_autofree char *since = carpace_text_duration (rest->since_ms / unit_ms * unit_ms);

  if (rest->between_drills && rest->next_drill >= 0 && view->plan)
    return g_strdup_printf (_("Before the next drill, %s."), view->plan->drills[rest->next_drill].name);
  if (view->state == CARPACE_STATE_PRACTISING)
    return g_strdup (_("When this run is over."));
  return g_strdup_printf (rest->since_rest ? _("%s of practice since the last rest.") : _("%s of practice in this block."), since);
}
