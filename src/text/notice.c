/* SPDX-License-Identifier: GPL-3.0-or-later */
/* notice.c: what notifications say, cue by cue. */
#include "text/notice.h"
#include "text/text.h"

#include "text/duration.h"
#include "text/face-text.h"

#include <glib/gi18n.h>
#include <string.h>

static void
add_action (CarpaceNotice *notice, CarpaceEventKind event, char *label)
{
  g_assert (notice->n_actions < CARPACE_NOTICE_ACTIONS);
  notice->action[notice->n_actions].event = event;
  notice->action[notice->n_actions++].label = label;
}

static void
micro_rest (const CarpaceEntry *entry, const CarpaceView *view, CarpaceNotice *notice)
{
  CarpaceExercise exercise = entry->cue.exercise;
  g_autofree char *length = carpace_text_duration (view->rest.length_ms);

  notice->title = g_strdup_printf (_("%s: %s"), carpace_text_exercise_kind (carpace_exercise_kind (exercise)),
                                   carpace_text_exercise (exercise));
  notice->body = g_strdup_printf (entry->cue.in_run ? _("%s, %s. When this run is over.")
                                  : entry->cue.between_drills ? _("%s, %s, before the next drill.")
                                                              : _("%s, %s."),
                                  length, carpace_text_exercise_side (view->rest.side, view->rest.both_sides));
  add_action (notice, CARPACE_EVENT_REST, g_strdup (_("Rest now")));
  add_action (notice, CARPACE_EVENT_AFTER_RUN, g_strdup (_("After this run")));
  add_action (notice, CARPACE_EVENT_PLAY_ON, g_strdup (_("Play on")));
}

static void
limit (const CarpaceView *view, CarpaceNotice *notice)
{
  notice->title = view->block > 0 ? g_strdup_printf (_("Block %d has reached its limit"), view->block)
                                  : g_strdup (_("The block has reached its limit"));
  notice->body = g_strdup (_("Finish the run; the block ends with the next gap."));
  add_action (notice, CARPACE_EVENT_END, carpace_text_start_or_end (view));
}

static void
next_block (const CarpaceView *view, CarpaceNotice *notice)
{
  g_autofree char *block = carpace_text_block_of (view);
  notice->title = g_strdup_printf (_("%s can start"), block);
  notice->body = carpace_text_duration (view->limit_ms);
  add_action (notice, CARPACE_EVENT_START, carpace_text_start_or_end (view));
}

/* An early start, a start beyond the plan: asked about once. */
static void
start_asked (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  if (entry->cue.cue == CARPACE_CUE_DAY_DONE)
    {
      notice->title = g_strdup (_("Practice is done for today"));
      notice->body = g_strdup (_("Starting once more means yes. It is recorded as beyond the plan."));
    }
  else
    {
      g_autofree char *from = carpace_text_time_of_day (carpace_instant_after (now, view->next_in_ms));
      notice->title = g_strdup_printf (_("The next block is planned from %s"), from);
      notice->body = g_strdup (_("Starting once more means yes. It is recorded as an early start."));
    }
  add_action (notice, CARPACE_EVENT_START, carpace_text_start_or_end (view));
}

static void
rating (const CarpaceView *view, CarpaceNotice *notice)
{
  notice->title = g_strdup (_("How does your hand feel?"));
  notice->body = view->rating.block > 0 ? g_strdup_printf (_("Block %d has ended. One tap."), view->rating.block)
                                        : g_strdup (_("The match has ended. One tap."));
}

static void
day_done (const CarpaceView *view, CarpaceNotice *notice)
{
  g_autofree char *done = carpace_text_duration (view->done_ms);
  g_autofree char *dose = carpace_text_duration (view->dose_ms);

  notice->title = g_strdup (view->no_practice ? _("No practice today") : _("Practice is done for today"));
  notice->body = view->dose_ms > 0 ? g_strdup_printf (_("Practice time today: %s of %s."), done, dose) : g_strdup ("");
}

static bool
on_air_notice (const CarpaceEntry *entry, CarpaceNotice *notice)
{
  switch (entry->cue.cue)
    {
    case CARPACE_CUE_MICRO_REST:
    case CARPACE_CUE_LIMIT:
      notice->title = g_strdup (_("Intermission"));
      break;
    case CARPACE_CUE_NEXT_BLOCK:
    case CARPACE_CUE_DAY_DONE:
      if (entry->cue.what != CARPACE_CUE_ASKED)
        return false;
      notice->title = g_strdup (_("Start once more to go on"));
      break;
    case CARPACE_CUE_RATING:
    case CARPACE_CUE_MORNING:
    case CARPACE_CUE_CAUTION:
    case CARPACE_N_CUES:
      return false;
    }
  notice->body = g_strdup ("");
  return true;
}

static bool
own_notice (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  if (entry->cue.what == CARPACE_CUE_ASKED && entry->cue.cue != CARPACE_CUE_RATING)
    return start_asked (entry, view, now, notice), true;
  switch (entry->cue.cue)
    {
    case CARPACE_CUE_MICRO_REST: micro_rest (entry, view, notice); return true;
    case CARPACE_CUE_LIMIT: limit (view, notice); return true;
    case CARPACE_CUE_RATING: rating (view, notice); return true;
    case CARPACE_CUE_NEXT_BLOCK: next_block (view, notice); return true;
    case CARPACE_CUE_DAY_DONE: day_done (view, notice); return true;
    case CARPACE_CUE_MORNING:
      notice->title = g_strdup (_("This morning"));
      notice->body = g_strdup (_("Three taps. The check is what lets the dose rise."));
      return true;
    case CARPACE_CUE_CAUTION:
      notice->title = g_strdup (_("Please read before going on"));
      notice->body = g_strdup ("");
      return true;
    case CARPACE_N_CUES: break;
    }
  return false;
}

bool
carpace_text_notice (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now,
                     CarpaceNotice *ret_notice)
{
  CarpaceNotice notice = { .cue = entry->cue.cue, .quiet = entry->cue.in_run || entry->cue.cue == CARPACE_CUE_LIMIT };

  if (entry->cue.what == CARPACE_CUE_WITHDRAWN)
    return false;
  if (!(view->on_air ? on_air_notice (entry, &notice) : own_notice (entry, view, now, &notice)))
    return false;
  *ret_notice = notice;
  return true;
}

bool
carpace_text_intermission_notice (const CarpaceView *view, CarpaceNotice *ret_notice)
{
  CarpaceNotice notice = { .cue = CARPACE_CUE_MICRO_REST, .quiet = true };

  if (!view->intermission)
    return false;
  notice.title = carpace_text_intermission (view->intermission_in_ms);
  notice.body = g_strdup ("");
  *ret_notice = notice;
  return true;
}

void
carpace_notice_clear (CarpaceNotice *notice)
{
  g_free (notice->title);
  g_free (notice->body);
  for (int32_t i = 0; i < notice->n_actions; i++)
    g_free (notice->action[i].label);
  memset (notice, 0, sizeof *notice);
}
