/* SPDX-License-Identifier: GPL-3.0-or-later */
/* entries-json.c: entries and the status as JSON objects. */
#define _POSIX_C_SOURCE 200809L
#include "forms/entries-json.h"

#include <locale.h>

#include "carpace/names.h"
#include "forms/json.h"
#include "text/text.h"

static void
add_string (GString *json, const char *key, const char *value)
{
  carpace_json_key (json, key);
  carpace_json_string (json, value);
}

static void
add_number (GString *json, const char *key, int64_t value)
{
  carpace_json_key (json, key);
  carpace_json_int (json, value);
}

/* A number, null where it is not @known. */
static void
add_maybe (GString *json, const char *key, bool known, int64_t value)
{
  if (known)
    add_number (json, key, value);
  else
    add_string (json, key, NULL);
}

static void
add_flag (GString *json, const char *key, bool value)
{
  carpace_json_key (json, key);
  carpace_json_bool (json, value);
}

static void
add_word (GString *json, const char *key, CarpaceWords words, int32_t value)
{
  add_string (json, key, carpace_name (words, value));
}

/* A rating 0..10, or a block's number: null where there is none. */
static void
add_rating (GString *json, const char *key, int32_t rating)
{
  add_maybe (json, key, rating >= 0, rating);
}

static void
add_block_number (GString *json, const char *key, int32_t block)
{
  add_maybe (json, key, block > 0, block);
}

static void
add_ms (GString *json, const char *key, int64_t ms)
{
  add_number (json, key, MAX (ms, 0));
}

static void
add_day (GString *json, const CarpaceEntry *e)
{
  char date[CARPACE_DAY_BYTES];

  carpace_day_write (e->day.day, date);
  add_string (json, "day", date);
  add_word (json, "what", CARPACE_WORDS_DAY_WHAT, e->day.what);
  add_ms (json, "dose_ms", e->day.dose_ms);
  add_ms (json, "active_ms", e->day.active_ms);
}

static void
add_block (GString *json, const CarpaceEntry *e)
{
  bool limited = !e->block.match;

  add_word (json, "what", CARPACE_WORDS_BLOCK_WHAT, e->block.what);
  add_block_number (json, "number", e->block.number);
  add_maybe (json, "limit_ms", limited, e->block.limit_ms);
  add_maybe (json, "after_ms", limited, e->block.after_ms);
  add_maybe (json, "rest_ms", limited, e->block.rest_ms);
  if (e->block.match)
    add_flag (json, "match", true);
  if (e->block.early_ms > 0)
    add_number (json, "early_ms", e->block.early_ms);
  if (e->block.beyond)
    add_flag (json, "beyond", true);
  if (e->block.what != CARPACE_BLOCK_ENDED)
    return;
  add_ms (json, "active_ms", e->block.active_ms);
  add_ms (json, "overrun_ms", e->block.overrun_ms);
  add_number (json, "runs", e->block.runs);
}

static void
add_cue (GString *json, const CarpaceEntry *e)
{
  add_word (json, "cue", CARPACE_WORDS_CUE, e->cue.cue);
  add_word (json, "what", CARPACE_WORDS_CUE_WHAT, e->cue.what);
  if (e->cue.cue != CARPACE_CUE_MICRO_REST)
    return;
  add_word (json, "exercise", CARPACE_WORDS_EXERCISE, e->cue.exercise);
  add_flag (json, "between_drills", e->cue.between_drills);
}

static void
add_rest (GString *json, const CarpaceEntry *e)
{
  add_word (json, "what", CARPACE_WORDS_REST_WHAT, e->rest.what);
  add_ms (json, "length_ms", e->rest.length_ms);
  add_flag (json, "asked", e->rest.asked);
}

static void
add_site (GString *json, CarpaceSite site)
{
  if (site == CARPACE_SITE_NONE)
    add_string (json, "site", NULL);
  else
    add_word (json, "site", CARPACE_WORDS_SITE, site);
}

static void
add_rated (GString *json, const CarpaceEntry *e)
{
  add_block_number (json, "block", e->rating.block);
  add_rating (json, "discomfort", e->rating.discomfort);
  add_site (json, e->rating.site);
  add_flag (json, "late", e->rating.late);
  add_rating (json, "corrects", e->rating.corrects);
}

static void
add_morning (GString *json, const CarpaceEntry *e)
{
  add_rating (json, "waking", e->morning.waking);
  if (e->morning.stiffness == CARPACE_STIFFNESS_UNSAID)
    add_string (json, "stiffness", NULL);
  else
    add_word (json, "stiffness", CARPACE_WORDS_STIFFNESS, e->morning.stiffness);
  add_rating (json, "now", e->morning.now);
  add_flag (json, "other_load", e->morning.other_load);
  add_flag (json, "pain_relief", e->morning.pain_relief);
  add_site (json, e->morning.site);
}

static void
add_decision (GString *json, const CarpaceEntry *e)
{
  bool of_block = e->decision.scope == CARPACE_SCOPE_BLOCK;
  g_autofree char *why = carpace_text_why (&e->decision);

  add_word (json, "rule", CARPACE_WORDS_RULE, e->decision.rule);
  add_word (json, "scope", CARPACE_WORDS_SCOPE, e->decision.scope);
  add_ms (json, of_block ? "limit_ms_before" : "dose_ms_before", e->decision.before_ms);
  add_ms (json, of_block ? "limit_ms" : "dose_ms", e->decision.after_ms);
  if (!of_block)
    {
      add_maybe (json, "level_before_ms", e->decision.level_ms > 0, e->decision.level_before_ms);
      add_maybe (json, "level_ms", e->decision.level_ms > 0, e->decision.level_ms);
    }
  add_string (json, "why", why);
}

static void
add_caution (GString *json, const CarpaceEntry *e)
{
  char seen_on[CARPACE_DAY_BYTES];

  add_word (json, "what", CARPACE_WORDS_CAUTION_WHAT, e->caution.what);
  carpace_json_key (json, "signs");
  carpace_json_open (json, '[');
  for (int32_t sign = 0; sign < CARPACE_N_SIGNS; sign++)
    if (e->caution.signs & (UINT32_C (1) << sign))
      carpace_json_string (json, carpace_name (CARPACE_WORDS_SIGN, sign));
  carpace_json_close (json, ']');
  if (e->caution.what != CARPACE_CAUTION_CLOSED)
    return;
  add_word (json, "how", CARPACE_WORDS_CAUTION_ANSWER, e->caution.how);
  add_word (json, "by", CARPACE_WORDS_SEEN_BY, e->caution.closing.by);
  carpace_day_write (e->caution.closing.on, seen_on);
  carpace_json_key (json, "seen_on");
  if (e->caution.closing.on == 0)
    carpace_json_null (json);
  else
    carpace_json_string (json, seen_on);
  add_maybe (json, "dose_ms", e->caution.closing.dose_ms > 0, e->caution.closing.dose_ms);
}

static void
add_fault (GString *json, const CarpaceEntry *e, int32_t line)
{
  g_autofree char *message = carpace_text_refusal (e->fault.refusal, e->fault.event, e->fault.state);

  add_maybe (json, "line", line > 0, line);
  add_string (json, "message", message);
}

static void
add_entry (GString *json, const CarpaceEntry *e, int32_t line)
{
  add_word (json, "kind", CARPACE_WORDS_ENTRY, e->kind);
  switch (e->kind)
    {
    case CARPACE_ENTRY_STATE:
      add_word (json, "state", CARPACE_WORDS_STATE, e->state);
      break;
    case CARPACE_ENTRY_DAY:
      add_day (json, e);
      break;
    case CARPACE_ENTRY_BLOCK:
      add_block (json, e);
      break;
    case CARPACE_ENTRY_OVERRUN:
      add_block_number (json, "block", e->overrun.block);
      add_ms (json, "ms", e->overrun.ms);
      break;
    case CARPACE_ENTRY_CUE:
      add_cue (json, e);
      break;
    case CARPACE_ENTRY_REST:
      add_rest (json, e);
      break;
    case CARPACE_ENTRY_RATING:
      add_rated (json, e);
      break;
    case CARPACE_ENTRY_MORNING:
      add_morning (json, e);
      break;
    case CARPACE_ENTRY_DECISION:
      add_decision (json, e);
      break;
    case CARPACE_ENTRY_CAUTION:
      add_caution (json, e);
      break;
    case CARPACE_ENTRY_FAULT:
      add_fault (json, e, line);
      break;
    case CARPACE_ENTRY_CLICKS:
      add_block_number (json, "block", e->clicks.block);
      add_ms (json, "from_ms", e->clicks.from_ms);
      add_ms (json, "ms", e->clicks.ms);
      add_number (json, "count", e->clicks.count);
      break;
    case CARPACE_N_ENTRIES:
      break;
    }
}

static char *
ended (GString *json)
{
  carpace_json_close (json, '}');
  return g_string_free (json, FALSE);
}

/* Values are stable: sentences in them are as written, in no one's locale. */
static locale_t
speak_plainly (void)
{
  return uselocale (newlocale (LC_ALL_MASK, "C", (locale_t) 0));
}

char *
carpace_entry_json (const CarpaceEntry *entry, int64_t at_ms, int32_t line)
{
  locale_t before = speak_plainly ();
  GString *json = g_string_new (NULL);

  carpace_json_open (json, '{');
  add_number (json, "at_ms", at_ms);
  add_entry (json, entry, line);
  freelocale (uselocale (before));
  return ended (json);
}

char *
carpace_entry_json_dated (const CarpaceEntry *entry)
{
  locale_t before = speak_plainly ();
  char at[CARPACE_INSTANT_BYTES];
  GString *json = g_string_new (NULL);

  carpace_json_open (json, '{');
  add_string (json, "at", carpace_instant_write (entry->at, at) > 0 ? at : NULL);
  add_entry (json, entry, 0);
  freelocale (uselocale (before));
  return ended (json);
}

static void
add_next (GString *json, const CarpaceView *view)
{
  if (!view->next_known)
    {
      add_string (json, "next", NULL);
      return;
    }
  carpace_json_key (json, "next");
  carpace_json_open (json, '{');
  add_word (json, "cue", CARPACE_WORDS_CUE, view->next_cue);
  add_ms (json, "in_ms", view->next_in_ms);
  carpace_json_close (json, '}');
}

/* The same keys; a stream that shows them tells nothing of hand, dose or plan. */
static void
add_moment_on_air (GString *json)
{
  static const char *const keys[] = { "block", "limit_ms", "active_ms", "remaining_ms", "after_ms", "rest_ms", "dose_ms",
                                      "dose_remaining_ms", "next" };

  for (size_t i = 0; i < G_N_ELEMENTS (keys); i++)
    add_string (json, keys[i], NULL);
}

static void
add_moment (GString *json, const CarpaceView *view)
{
  bool block = view->block > 0 && !view->match, dosed = view->plan != NULL;

  add_maybe (json, "block", block, view->block);
  add_maybe (json, "limit_ms", block, view->limit_ms);
  add_maybe (json, "active_ms", block || view->match, view->active_ms);
  add_maybe (json, "remaining_ms", block, view->remaining_ms);
  add_maybe (json, "after_ms", block, view->after_ms);
  add_maybe (json, "rest_ms", block, view->rest_ms);
  add_maybe (json, "dose_ms", dosed, view->dose_ms);
  add_maybe (json, "dose_remaining_ms", dosed, view->dose_remaining_ms);
  add_next (json, view);
}

char *
carpace_view_json (const CarpaceView *view)
{
  char day[CARPACE_DAY_BYTES];
  GString *json = g_string_new (NULL);

  carpace_day_write (view->day, day);
  carpace_json_open (json, '{');
  if (view->on_air)
    add_string (json, "state", "on-air");
  else
    add_word (json, "state", CARPACE_WORDS_STATE, view->state);
  add_string (json, "plan", view->plan && !view->on_air ? view->plan->name : NULL);
  add_string (json, "day", view->day == CARPACE_NO_DAY ? NULL : day);
  if (view->on_air)
    add_moment_on_air (json);
  else
    add_moment (json, view);
  add_flag (json, "on_air", view->on_air);
  add_flag (json, "match", view->match && !view->on_air);
  if (view->on_air)
    add_string (json, "diary_kept", NULL);
  else
    add_flag (json, "diary_kept", !view->unkept);
  return ended (json);
}
