/* SPDX-License-Identifier: GPL-3.0-or-later */
/* notice.c: what notifications and a rehearsal say, cue by cue. */
#include "text/notice.h"
#include "text/text.h"

#include "carpace/cues.h"
#include "text/duration.h"
#include "text/face-text.h"
#include "text/level-text.h"
#include "text/pause-text.h"

#include <glib/gi18n.h>
#include <string.h>

static void
add_action (CarpaceNotice *notice, CarpaceEventKind event, char *label)
{
  g_assert (notice->n_actions < CARPACE_NOTICE_ACTIONS);
  notice->action[notice->n_actions].event = event;
  notice->action[notice->n_actions++].label = label;
}

static char *
rest_title (CarpaceExercise exercise, const CarpaceView *view)
{
  g_autofree char *length = carpace_text_duration (view->rest.length_ms);

  /* Translators: how long; what to do */
  return g_strdup_printf (_("Rest %s: %s"), length, carpace_text_exercise_do (exercise, view->rest.side));
}

static void
micro_rest (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = rest_title (entry->cue.exercise, view);
  notice->body = g_strdup (entry->cue.in_run           ? _("When this run is over.")
                           : entry->cue.between_drills ? _("Before the next drill.")
                                                       : "");
  add_action (notice, CARPACE_EVENT_REST, g_strdup (_("Rest now")));
  add_action (notice, CARPACE_EVENT_AFTER_RUN, g_strdup (_("After this run")));
  add_action (notice, CARPACE_EVENT_PLAY_ON, g_strdup (_("Play on")));
}

static void
limit (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = view->block > 0 ? g_strdup_printf (_("Block %d has reached its limit"), view->block)
                                  : g_strdup (_("The block has reached its limit"));
  notice->body = g_strdup (_("Finish this run, then stop."));
  add_action (notice, CARPACE_EVENT_END, carpace_text_start_or_end (view));
}

static void
rating (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = g_strdup (_("How does your hand feel?"));
  notice->body = view->rating.block > 0 ? g_strdup_printf (_("Block %d has ended. One tap."), view->rating.block)
                                        : g_strdup (_("The match has ended. One tap."));
}

static void
next_block (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  g_autofree char *block = carpace_text_block_of (view);

  notice->title = g_strdup_printf (_("%s can start"), block);
  notice->body = carpace_text_duration (view->limit_ms);
  add_action (notice, CARPACE_EVENT_START, carpace_text_start_or_end (view));
}

static void
morning (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = g_strdup (_("This morning"));
  notice->body = g_strdup (_("Three taps. Practice time normally grows only after this check."));
}

static void
add_line (GString *lines, const char *line)
{
  if (*line != '\0')
    g_string_append_printf (lines, "%s%s", lines->len > 0 ? "\n" : "", line);
}

/* Why it is done, what was done, and what is still open. */
static void
day_done (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  g_autofree char *done = carpace_text_duration (view->done_ms), *dose = carpace_text_duration (view->dose_ms);
  g_autofree char *of_dose = g_strdup_printf (_("Practice time today: %s of %s."), done, dose);
  g_autofree char *why = carpace_text_day_done_why (view);
  g_autofree char *silence = carpace_text_silence (view->unanswered_days);
  GString *body = g_string_new (NULL);

  add_line (body, why);
  add_line (body, view->dose_ms > 0 ? of_dose : "");
  add_line (body, carpace_text_day_done_open (view));
  if (view->unanswered_days >= CARPACE_SILENT_DAYS)
    add_line (body, silence);
  notice->title = g_strdup (carpace_text_day_done (view));
  notice->body = g_string_free (body, FALSE);
}

static void
caution (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = g_strdup (_("Cautions: any of these today?"));
  notice->body = g_strdup ("");
}

static void
early_start (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  g_autofree char *from = carpace_text_time_of_day (carpace_instant_after (now, view->next_in_ms));

  notice->title = g_strdup_printf (_("The next block is planned from %s"), from);
  notice->body = g_strdup (_("Start again to begin now (counts as early)."));
  add_action (notice, CARPACE_EVENT_START, carpace_text_start_or_end (view));
}

static void
beyond_plan (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = g_strdup (carpace_text_day_done (view));
  notice->body = g_strdup (_("Start again to practise on (counts as beyond the plan)."));
  add_action (notice, CARPACE_EVENT_START, carpace_text_start_or_end (view));
}

static void
unstarted (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = g_strdup (_("Practising? Start the block"));
  notice->body = g_strdup (_("3 min of mouse input, and no block has begun: nothing is counted or paced."));
  add_action (notice, CARPACE_EVENT_START, carpace_text_start_or_end (view));
}

static void
in_front (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  g_autofree char *limit = carpace_text_duration (view->limit_ms);

  notice->title = g_strdup (_("Your practice window is in front"));
  /* Translators: how long the block may be */
  notice->body = view->limit_ms > 0 ? g_strdup_printf (_("Start the block? %s."), limit) : g_strdup (_("Start the block?"));
  add_action (notice, CARPACE_EVENT_START, carpace_text_start_or_end (view));
}

static void
begun (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  g_autofree char *limit = carpace_text_duration (view->limit_ms);

  notice->title = g_strdup_printf (_("Block %d has begun: %s"), view->block, limit);
  notice->body = g_strdup (_("Your practice window came to the front."));
  add_action (notice, CARPACE_EVENT_END, carpace_text_start_or_end (view));
}

static char *
micro_rest_line (const CarpaceEntry *entry)
{
  CarpaceExercise exercise = entry->cue.exercise;

  return g_strdup_printf (entry->cue.between_drills ? _("rest offered, before the next drill: %s (%s)")
                                                    : _("rest offered: %s (%s)"),
                          carpace_text_exercise (exercise),
                          carpace_text_exercise_kind (carpace_exercise_kind (exercise)));
}

/* What is said of each. */
static const struct
{
  const char *noun; /* as what comes next */
  const char *line; /* in a rehearsal; NULL where line_of makes it */
  char *(*line_of) (const CarpaceEntry *entry);
  void (*notice) (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice);
} said[] = {
  [CARPACE_TOLD_MICRO_REST] = { N_("rest"), NULL, micro_rest_line, micro_rest },
  [CARPACE_TOLD_LIMIT] = { N_("the block's limit"), N_("told: the block's limit is reached"), NULL, limit },
  [CARPACE_TOLD_RATING] = { N_("the rating"), N_("asked: how does your hand feel?"), NULL, rating },
  [CARPACE_TOLD_NEXT_BLOCK] = { N_("the next block"), N_("told: the next block can start"), NULL, next_block },
  [CARPACE_TOLD_MORNING] = { N_("the morning check"), N_("asked: the morning check"), NULL, morning },
  [CARPACE_TOLD_DAY_DONE] = { N_("the end of today's practice"), N_("told: practice is done for today"), NULL, day_done },
  [CARPACE_TOLD_CAUTION] = { N_("the cautions"), N_("shown: the cautions"), NULL, caution },
  [CARPACE_TOLD_EARLY_START] = { N_("the next block"), N_("asked: start before its time? A second start means yes"), NULL,
                                 early_start },
  [CARPACE_TOLD_BEYOND_PLAN] = { N_("the end of today's practice"),
                                 N_("asked: practise beyond the plan? A second start means yes"), NULL, beyond_plan },
  [CARPACE_TOLD_UNSTARTED] = { N_("practice without a block"), N_("told: practising? No block has begun"), NULL, unstarted },
  [CARPACE_TOLD_IN_FRONT] = { N_("practice without a block"), N_("asked: the practice window is in front, start the block?"), NULL, in_front },
  [CARPACE_TOLD_BEGUN] = { N_("a block that began by itself"), N_("told: the block has begun, with the practice window"), NULL, begun },
};
_Static_assert (G_N_ELEMENTS (said) == CARPACE_N_TOLD, "something is said of each");

/* ---- on air: the same for all, whatever it is about ---- */

static void
on_air_short_pause (const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  const CarpacePause pause = { .kind = CARPACE_PAUSE_SHORT, .length_ms = view->rest.length_ms };

  if (carpace_pause_running (view).kind == CARPACE_PAUSE_INTERMISSION) /* one pause, not two */
    return;
  notice->title = carpace_text_pause_length (&pause);
  add_action (notice, CARPACE_EVENT_REST, g_strdup (_("Pause now")));
  add_action (notice, CARPACE_EVENT_AFTER_RUN, g_strdup (_("After this run")));
  add_action (notice, CARPACE_EVENT_PLAY_ON, g_strdup (_("Play on")));
}

static void
on_air_part_ends (const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  int64_t wait_ms = view->n_ahead > 0 && view->plan != NULL ? view->plan->between_blocks_ms : 0;
  g_autofree char *length = carpace_text_duration (wait_ms);

  notice->title = wait_ms > 0 ? g_strdup_printf (_("After this run: %s to the next part"), length)
                              : g_strdup (_("After this run: end of this part"));
  add_action (notice, CARPACE_EVENT_END, g_strdup (_("End")));
}

/* As things stand before the answer: none changes it afterwards. */
static void
on_air_part_over (const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  bool waits = view->next_known && view->next_cue == CARPACE_CUE_NEXT_BLOCK && view->next_in_ms > 0;
  g_autofree char *length = carpace_text_duration (view->next_in_ms / CARPACE_SECOND_MS * CARPACE_SECOND_MS);
  g_autofree char *until = carpace_text_time_of_day (carpace_instant_after (now, view->next_in_ms));

  if (view->rating.asked_by_start) /* told in reply to it */
    return;
  notice->title = waits ? g_strdup_printf (_("%s to the next part"), length) : g_strdup (_("End of this part"));
  /* Translators: the wait before the next part, until a time of day */
  notice->body = waits ? g_strdup_printf (_("Until %s."), until) : NULL;
}

static void
on_air_pause_over (const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = g_strdup (_("The next part can begin"));
  add_action (notice, CARPACE_EVENT_START, g_strdup (_("Start")));
}

static void
on_air_go_on (const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  notice->title = g_strdup (_("Start again to go on"));
  add_action (notice, CARPACE_EVENT_START, g_strdup (_("Start")));
}

/* A stream reads nothing of the hand. NULL, or without a title: silence. */
static void (*const on_air_says[]) (const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice) = {
  [CARPACE_ON_AIR_SILENT] = NULL,
  [CARPACE_ON_AIR_SHORT_PAUSE] = on_air_short_pause,
  [CARPACE_ON_AIR_PART_ENDS] = on_air_part_ends,
  [CARPACE_ON_AIR_PART_OVER] = on_air_part_over,
  [CARPACE_ON_AIR_PAUSE_OVER] = on_air_pause_over,
  [CARPACE_ON_AIR_GO_ON] = on_air_go_on,
};
_Static_assert (G_N_ELEMENTS (on_air_says) == CARPACE_N_ON_AIR_SAYS, "silence or words each");

static bool
say_on_air (CarpaceTold told, const CarpaceView *view, CarpaceInstant now, CarpaceNotice *notice)
{
  CarpaceOnAirSays says = carpace_told_rows[told].on_air;

  if (on_air_says[says] != NULL)
    on_air_says[says] (view, now, notice);
  if (notice->title != NULL && notice->body == NULL)
    notice->body = g_strdup ("");
  return notice->title != NULL;
}

const char *
carpace_text_cue (CarpaceCue cue)
{
  CarpaceTold told = carpace_told (cue, CARPACE_CUE_SHOWN);

  return told != CARPACE_N_TOLD ? _(said[told].noun) : "";
}

char *
carpace_text_cue_line (const CarpaceEntry *entry)
{
  CarpaceTold told = carpace_told (entry->cue.cue, entry->cue.what);

  if (told == CARPACE_N_TOLD)
    return g_strdup ("");
  return said[told].line_of != NULL ? said[told].line_of (entry) : g_strdup (_(said[told].line));
}

bool
carpace_text_notice (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now,
                     CarpaceNotice *ret_notice)
{
  CarpaceTold told = carpace_told (entry->cue.cue, entry->cue.what);
  CarpaceNotice notice = { .cue = entry->cue.cue };

  if (told == CARPACE_N_TOLD)
    return false;
  notice.quiet = entry->cue.in_run || carpace_told_rows[told].quiet;
  if (!view->on_air)
    said[told].notice (entry, view, now, &notice);
  else if (!say_on_air (told, view, now, &notice))
    return false;
  *ret_notice = notice;
  return true;
}

bool
carpace_text_intermission_notice (const CarpaceView *view, CarpaceNotice *ret_notice)
{
  CarpaceNotice notice = { .cue = CARPACE_CUE_MICRO_REST, .quiet = true };
  g_autofree char *length = carpace_text_duration (view->intermission_length_ms);

  if (!view->intermission || view->intermission_in_ms <= 0)
    return false;
  notice.title = carpace_text_intermission (view->intermission_in_ms);
  /* Translators: an intermission, and its length */
  notice.body = g_strdup_printf (_("It lasts %s."), length);
  *ret_notice = notice;
  return true;
}

void
carpace_text_on_air_notice (const CarpaceView *view, CarpaceInstant now, CarpaceNotice *ret_notice)
{
  *ret_notice = (CarpaceNotice){ .cue = CARPACE_CUE_RATING, .quiet = true, .passes = true };
  ret_notice->title = carpace_text_state_line (view, now);
  ret_notice->body = g_strdup ("");
}

void
carpace_text_rest_notice (const CarpaceView *view, CarpaceNotice *ret_notice)
{
  const CarpaceRestView *rest = &view->rest;
  GString *how = g_string_new ("");

  for (int line = 0; carpace_text_exercise_how (rest->exercise, rest->palm_up, line) != NULL; line++)
    g_string_append_printf (how, "%s%s", line > 0 ? "\n" : "", carpace_text_exercise_how (rest->exercise, rest->palm_up, line));
  *ret_notice = (CarpaceNotice){ .cue = CARPACE_CUE_MICRO_REST, .quiet = true, .body = g_string_free (how, FALSE) };
  ret_notice->title = rest_title (rest->exercise, view);
  add_action (ret_notice, CARPACE_EVENT_PLAY_ON, g_strdup (_("Play on")));
}

void
carpace_text_not_started_notice (const char *reply, bool on_air, CarpaceNotice *ret_notice)
{
  *ret_notice = (CarpaceNotice){ .cue = CARPACE_CUE_NEXT_BLOCK, .passes = true };
  ret_notice->title = g_strdup (on_air ? reply : _("Nothing has started"));
  ret_notice->body = g_strdup (on_air ? "" : reply);
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
