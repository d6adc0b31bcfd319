/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace-view.c: all that a view says, in one line: what is absent, false or
 * nothing is left out, times are in seconds, and a point ends it. */
#include "trace-view.h"

#include <stdio.h>
#include <string.h>

#include "carpace/names.h"

typedef struct
{
  char *text;
  size_t n, size;
} Line;

static void
put (Line *line, const char *name, const char *value)
{
  if (line->n < line->size)
    line->n += (size_t) snprintf (line->text + line->n, line->size - line->n, " %s%s%s", name, *value ? "=" : "", value);
}

static void
put_number (Line *line, const char *name, int64_t value)
{
  char text[32];

  snprintf (text, sizeof text, "%lld", (long long) value);
  if (value != 0)
    put (line, name, text);
}

static void
put_ms (Line *line, const char *name, int64_t ms)
{
  char text[32];

  snprintf (text, sizeof text, ms % 1000 == 0 ? "%.0f" : "%.3f", (double) ms / 1000);
  if (ms != 0)
    put (line, name, text);
}

static void
put_flag (Line *line, const char *name, bool flag)
{
  if (flag)
    put (line, name, "");
}

static void
put_block (Line *line, const CarpaceView *v)
{
  put_flag (line, "match", v->match);
  put_flag (line, "ticking", v->ticking);
  put_flag (line, "beyond", v->beyond);
  put_number (line, "block", v->block);
  put_number (line, "of", v->blocks);
  put_ms (line, "limit", v->limit_ms);
  put_ms (line, "after", v->after_ms);
  put_ms (line, "rest", v->rest_ms);
  put_ms (line, "active", v->active_ms);
  put_ms (line, "over", v->overrun_ms);
  put_number (line, "runs", v->runs);
  put_number (line, "drill", v->drill + 1);
  put_ms (line, "to-go", v->remaining_ms);
}

static void
put_rest (Line *line, const CarpaceRestView *rest)
{
  put_flag (line, "offered", rest->offered);
  put_flag (line, "resting", rest->running);
  put_flag (line, "waits", rest->waits);
  if (rest->offered || rest->running)
    put (line, "card", carpace_name (CARPACE_WORDS_EXERCISE, (int32_t) rest->exercise));
  put_flag (line, "both-sides", rest->both_sides);
  put_flag (line, "between-drills", rest->between_drills);
  put_flag (line, "palm-up", rest->palm_up);
  put_number (line, "next-drill", rest->next_drill + 1);
  put_ms (line, "length", rest->length_ms);
  put_ms (line, "rest-to-go", rest->remaining_ms);
}

static void
put_rating (Line *line, const CarpaceRatingView *rating)
{
  put_flag (line, "rating", rating->open);
  put_flag (line, "by-start", rating->asked_by_start);
  put_flag (line, "hand-moving", rating->hand_moving);
  put_number (line, "of-block", rating->block);
  put_number (line, "given", rating->given);
  if (rating->site != CARPACE_SITE_NONE)
    put (line, "site", carpace_name (CARPACE_WORDS_SITE, (int32_t) rating->site));
  put_ms (line, "changeable", rating->changeable_for_ms);
}

static void
put_day (Line *line, const CarpaceView *v)
{
  put_flag (line, "open", v->day_open);
  put_flag (line, "no-practice", v->no_practice);
  put_ms (line, "dose", v->dose_ms);
  put_ms (line, "dose-to-go", v->dose_remaining_ms);
  put_ms (line, "done", v->done_ms);
  put_flag (line, "caution", v->caution_open);
  put_number (line, "signs", v->caution_signs);
  put_flag (line, "gone-allowed", v->caution_gone_allowed);
  put_flag (line, "checked", v->morning_asked);
  if (v->other_today_ms >= 0)
    put_ms (line, "other-today", v->other_today_ms + 1000);
  if (v->other_ms >= 0)
    put_ms (line, "other", v->other_ms + 1000);
  if (v->other_mean_ms >= 0)
    put_ms (line, "other-mean", v->other_mean_ms + 1000);
  put_number (line, "unanswered-days", v->unanswered_days);
}

static void
put_air (Line *line, const CarpaceView *v)
{
  put_flag (line, "on-air", v->on_air);
  put_flag (line, "intermission", v->intermission);
  put_ms (line, "intermission-in", v->intermission_in_ms);
  put_ms (line, "intermission-to-go", v->intermission_to_go_ms);
  put_ms (line, "next-intermission-in", v->next_intermission_in_ms);
}

static void
put_cues (Line *line, const CarpaceView *v)
{
  for (int i = 0; i < CARPACE_N_CUES; i++)
    if (v->cue_on[i])
      put (line, v->cue_asked[i] ? "asks" : "cue", carpace_name (CARPACE_WORDS_CUE, i));
  put_flag (line, "start-asks", v->start_asks);
  if (v->next_known)
    {
      put (line, "next", carpace_name (CARPACE_WORDS_CUE, (int32_t) v->next_cue));
      put_ms (line, "in", v->next_in_ms);
    }
}

void
carpace_trace_view (const CarpaceView *view, char *ret_line, size_t size)
{
  Line line = { ret_line, 0, size };

  put (&line, carpace_name (CARPACE_WORDS_STATE, (int32_t) view->state), "");
  put_block (&line, view);
  put_rest (&line, &view->rest);
  put_rating (&line, &view->rating);
  put_cues (&line, view);
  put_day (&line, view);
  put_air (&line, view);
  put (&line, ".", "");
}
