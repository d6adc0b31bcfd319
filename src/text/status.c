/* SPDX-License-Identifier: GPL-3.0-or-later */
/* status.c: what holds now, in a line. */
#include "text/text.h"

#include "text/duration.h"
#include "text/face-text.h"

#include <glib.h>
#include <glib/gi18n.h>

char *
carpace_text_overrun (int64_t ms)
{
  g_autofree char *over = carpace_text_duration (ms);

  return g_strdup_printf (_("%s over, counted in today's time"), over);
}

char *
carpace_text_discomfort (int32_t discomfort, CarpaceSite site)
{
  if (discomfort < 0)
    return g_strdup (_("not answered"));
  if (site == CARPACE_SITE_NONE)
    return g_strdup_printf (_("discomfort %d"), discomfort);
  return g_strdup_printf (_("discomfort %d (%s)"), discomfort, carpace_text_site (site));
}

char *
carpace_text_intermission (int64_t to_go_ms)
{
  int minutes = to_go_ms > 0 ? (int) MIN ((to_go_ms - 1) / CARPACE_MINUTE_MS + 1, 100000) : 0;

  if (minutes == 0)
    return g_strdup (_("Intermission"));
  return g_strdup_printf (ngettext ("Intermission in %d minute", "Intermission in %d minutes", (unsigned long) minutes),
                          minutes);
}

const char *
carpace_text_informs (void)
{
  return _("Carpace informs. It does not diagnose or treat; a physiotherapist or doctor, and the rules where you live, "
           "come first. Under 16: with a parent, and a physiotherapist or doctor.");
}

static void
append_next (GString *line, const CarpaceView *view)
{
  if (!view->next_known)
    return;
  /* Up to whole minutes, as the menu has it. */
  int64_t minutes = view->next_in_ms / CARPACE_MINUTE_MS + (view->next_in_ms % CARPACE_MINUTE_MS > 0);
  g_autofree char *in = carpace_text_duration (minutes * CARPACE_MINUTE_MS);

  /* Translators: what comes next, and when: "next: rest in 3 min" */
  g_string_append_printf (line, _("; next: %s in %s"), carpace_text_cue (view->next_cue), in);
}

static void
append_today (GString *line, const CarpaceView *view)
{
  g_autofree char *to_go = carpace_text_duration (view->dose_remaining_ms);
  g_autofree char *dose = carpace_text_duration (view->dose_ms);

  if (view->day_open && !view->no_practice)
    /* Translators: practice time still to do, and all of it */
    g_string_append_printf (line, _("; today %s of %s to go"), to_go, dose);
}

char *
carpace_text_status (const CarpaceView *view, CarpaceInstant now)
{
  g_autofree char *moment = carpace_text_state_line (view, now);
  GString *line = g_string_new (NULL);

  if (view->on_air)
    g_string_append (line, moment);
  else
    {
      g_string_append (line, moment);
      append_next (line, view);
      append_today (line, view);
    }
  return g_string_free (line, FALSE);
}

/* ---- a command that was taken ---- */

static char *
start_asked (const CarpaceView *view, CarpaceInstant now)
{
  if (view->on_air)
    return g_strdup (_("Start again to go on"));
  if (view->rating.open)
    return g_strdup (_("Rate first, or start again to begin without a rating."));
  if (view->cue_asked[CARPACE_CUE_DAY_DONE])
    return g_strdup (_("Start again to practise beyond the plan: practice is done for today."));
  g_autofree char *from = carpace_text_time_of_day (carpace_instant_after (now, view->next_in_ms));
  return g_strdup_printf (_("Start again to begin now: the next block is planned from %s."), from);
}

/* A lower number that comes late to be a slip is recorded beside the one that decided. */
static char *
rated (int32_t said, const CarpaceView *view, CarpaceInstant now)
{
  g_autofree char *follows = carpace_text_rated (view, now), *why = carpace_text_rated_why (view);

  if (said < view->rating.given)
    /* Translators: the number given now, the one given before, that one again */
    return g_strdup_printf (_("Discomfort %d is noted beside %d; what %d decided today stays."), said, view->rating.given,
                            view->rating.given);
  return carpace_state_in_block (view->state) ? g_strdup ("") : g_strdup_printf ("%s. %s", follows, why);
}

char *
carpace_text_taken (const CarpaceEvent *event, const CarpaceView *view, CarpaceInstant now)
{
  bool starts = event->kind == CARPACE_EVENT_START || event->kind == CARPACE_EVENT_START_MATCH;

  if (starts && view->start_asks)
    return start_asked (view, now);
  if (view->on_air)
    return NULL;
  if (event->kind == CARPACE_EVENT_RATE)
    return rated (event->rate.discomfort, view, now);
  if (event->kind == CARPACE_EVENT_MORNING && view->has_decision && view->decision.scope == CARPACE_SCOPE_DAY)
    return carpace_text_why_short (&view->decision);
  return NULL;
}
