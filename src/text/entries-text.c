/* SPDX-License-Identifier: GPL-3.0-or-later */
/* entries-text.c: entries as lines for people. */
#include "text/entries.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "carpace/names.h"
#include "text/duration.h"
#include "text/face-text.h"
#include "text/notice.h"
#include "text/text.h"

char *
carpace_rehearsed_time (int64_t at_ms)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%d:%02d:%02d", (int) (at_ms / CARPACE_HOUR_MS),
                          (int) (at_ms / CARPACE_MINUTE_MS % 60), (int) (at_ms / CARPACE_SECOND_MS % 60));
  if (at_ms % CARPACE_SECOND_MS > 0)
    g_string_append_printf (text, ".%03d", (int) (at_ms % CARPACE_SECOND_MS));
  return g_string_free (text, FALSE);
}

static char *
day_text (const CarpaceEntry *e)
{
  g_autofree char *date = carpace_text_day (e->day.day);
  g_autofree char *dose = carpace_text_duration (e->day.dose_ms);
  g_autofree char *active = carpace_text_duration (e->day.active_ms);

  if (e->day.what == CARPACE_DAY_DONE)
    return g_strdup_printf (_("practice is done for today: %s of %s"), active, dose);
  if (e->day.dose_ms <= 0)
    return g_strdup_printf (_("%s: no practice today"), date);
  return g_strdup_printf (_("%s: practice time today %s"), date, dose);
}

static char *
block_name (int32_t number)
{
  return number > 0 ? g_strdup_printf (_("block %d"), number) : g_strdup (_("match"));
}

static char *
block_started (const CarpaceEntry *e, const char *name)
{
  GString *text = g_string_new (NULL);
  g_autofree char *limit = carpace_text_duration (e->block.limit_ms);
  g_autofree char *after = carpace_text_duration (e->block.after_ms);
  g_autofree char *rest = carpace_text_duration (e->block.rest_ms);
  g_autofree char *early = carpace_text_duration (e->block.early_ms);

  if (e->block.match)
    g_string_append_printf (text, _("%s starts"), name);
  else
    /* Translators: block, its limit, length of a rest, active time before one */
    g_string_append_printf (text, _("%s starts: %s, rests of %s after %s"), name, limit, rest, after);
  if (e->block.early_ms > 0)
    g_string_append_printf (text, _(", %s before its time"), early);
  if (e->block.beyond)
    g_string_append (text, _(", beyond the plan"));
  return g_string_free (text, FALSE);
}

static char *
block_ended (const CarpaceEntry *e, const char *name)
{
  GString *text = g_string_new (NULL);
  g_autofree char *limit = carpace_text_duration (e->block.limit_ms);
  g_autofree char *active = carpace_text_duration (e->block.active_ms);
  g_autofree char *over = carpace_text_overrun (e->block.overrun_ms);

  if (e->block.match)
    g_string_append_printf (text, _("%s ends: %s"), name, active);
  else
    g_string_append_printf (text, _("%s ends: %s of %s"), name, active, limit);
  g_string_append_printf (text, ngettext (", %d run", ", %d runs", (unsigned long) e->block.runs), e->block.runs);
  if (e->block.overrun_ms > 0)
    g_string_append_printf (text, "; %s", over);
  return g_string_free (text, FALSE);
}

static char *
block_text (const CarpaceEntry *e)
{
  g_autofree char *name = block_name (e->block.number);

  switch (e->block.what)
    {
    case CARPACE_BLOCK_STARTED:
      return block_started (e, name);
    case CARPACE_BLOCK_ENDED:
      return block_ended (e, name);
    case CARPACE_BLOCK_DROPPED:
      return g_strdup_printf (_("%s is too short to count as one; its time counts"), name);
    case CARPACE_N_BLOCK_WHATS:
      break;
    }
  return g_strdup ("");
}

static char *
rest_text (const CarpaceEntry *e)
{
  g_autofree char *length = carpace_text_duration (e->rest.length_ms);

  switch (e->rest.what)
    {
    case CARPACE_REST_TAKEN:
      return g_strdup_printf (e->rest.asked ? _("rest taken, %s") : _("rest taken without an offer, %s"), length);
    case CARPACE_REST_DECLINED:
      return g_strdup (_("answered: play on"));
    case CARPACE_REST_DEFERRED:
      return g_strdup (_("answered: after this run"));
    case CARPACE_REST_INTERRUPTED:
      return g_strdup (_("rest interrupted by input"));
    case CARPACE_N_REST_WHATS:
      break;
    }
  return g_strdup ("");
}

static char *
rating_text (const CarpaceEntry *e)
{
  g_autofree char *name = block_name (e->rating.block);
  g_autofree char *discomfort = carpace_text_discomfort (e->rating.discomfort, e->rating.site);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s: %s", name, discomfort);
  if (e->rating.late)
    g_string_append (text, _(", late"));
  if (e->rating.corrects >= 0)
    /* Translators: the number before, whether or not this one takes its place */
    g_string_append_printf (text, _(", given after %d"), e->rating.corrects);
  return g_string_free (text, FALSE);
}

static void
append_number (GString *text, const char *format, int32_t number)
{
  if (number >= 0)
    g_string_append_printf (text, "%s %d", format, number);
  else
    g_string_append_printf (text, "%s %s", format, _("not answered"));
}

static char *
morning_text (const CarpaceEntry *e)
{
  GString *text = g_string_new (NULL);

  append_number (text, _("morning check: waking"), e->morning.waking);
  g_string_append_printf (text, _(", stiffness %s"), carpace_text_stiffness (e->morning.stiffness));
  append_number (text, _(", now"), e->morning.now);
  if (e->morning.other_load)
    g_string_append (text, _(", another unusual load"));
  if (e->morning.site != CARPACE_SITE_NONE)
    g_string_append_printf (text, _(", where: %s"), carpace_text_site (e->morning.site));
  if (e->morning.pain_relief)
    g_string_append (text, _(", pain relief taken"));
  return g_string_free (text, FALSE);
}

static char *
decision_text (const CarpaceEntry *e)
{
  g_autofree char *why = carpace_text_why (&e->decision);
  const char *rule = carpace_name (CARPACE_WORDS_RULE, e->decision.rule);

  return g_strdup_printf ("%s [%s]", why, rule ? rule : "");
}

static char *
closing_text (const CarpaceEntry *e)
{
  g_autofree char *how = carpace_text_closed_how (e);
  g_autofree char *closed = g_strdup_printf (_("the caution is closed: %s"), how);
  g_autofree char *before = carpace_text_duration (e->caution.before_ms);
  g_autofree char *after = carpace_text_duration (e->caution.after_ms);
  g_autofree char *allowed = carpace_text_duration (e->caution.closing.dose_ms);

  if (e->caution.after_ms > 0)
    return g_strdup_printf (_("%s; %s from the next practice day on, until then %s"), closed, after, before);
  if (e->caution.closing.dose_ms > 0)
    return g_strdup_printf (_("%s; at most %s a day to begin with"), closed, allowed);
  return g_steal_pointer (&closed);
}

static char *
caution_text (const CarpaceEntry *e)
{
  g_autofree char *signs = carpace_text_signs (e->caution.signs);

  switch (e->caution.what)
    {
    case CARPACE_CAUTION_WAS_ASKED:
      return g_strdup (_("the cautions are asked"));
    case CARPACE_CAUTION_WAS_NONE:
      return g_strdup (_("none of the cautions"));
    case CARPACE_CAUTION_OPENED:
      return *signs ? g_strdup_printf (_("a caution is open: %s"), signs) : g_strdup (_("a caution is open"));
    case CARPACE_CAUTION_CLOSED:
      return closing_text (e);
    case CARPACE_N_CAUTION_WHATS:
      break;
    }
  return g_strdup ("");
}

static char *
fault_text (const CarpaceEntry *e)
{
  g_autofree char *message = carpace_text_refusal (e->fault.refusal, e->fault.event, e->fault.state);

  return g_strdup_printf (_("not taken: %s"), message);
}

static char *
clicks_text (const CarpaceEntry *e)
{
  g_autofree char *in = carpace_text_duration (e->clicks.ms);

  return g_strdup_printf (ngettext ("%d click in %s", "%d clicks in %s", (gulong) e->clicks.count), e->clicks.count, in);
}

char *
carpace_entry_text (const CarpaceEntry *entry)
{
  switch (entry->kind)
    {
    case CARPACE_ENTRY_STATE:
      return g_strdup (carpace_text_state (entry->state));
    case CARPACE_ENTRY_DAY:
      return day_text (entry);
    case CARPACE_ENTRY_BLOCK:
      return block_text (entry);
    case CARPACE_ENTRY_OVERRUN:
      return carpace_text_overrun (entry->overrun.ms);
    case CARPACE_ENTRY_CUE:
      return carpace_text_cue_line (entry);
    case CARPACE_ENTRY_REST:
      return rest_text (entry);
    case CARPACE_ENTRY_RATING:
      return rating_text (entry);
    case CARPACE_ENTRY_MORNING:
      return morning_text (entry);
    case CARPACE_ENTRY_DECISION:
      return decision_text (entry);
    case CARPACE_ENTRY_CAUTION:
      return caution_text (entry);
    case CARPACE_ENTRY_FAULT:
      return fault_text (entry);
    case CARPACE_ENTRY_CLICKS:
      return clicks_text (entry);
    case CARPACE_N_ENTRIES:
      break;
    }
  return g_strdup ("");
}
