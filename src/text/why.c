/* SPDX-License-Identifier: GPL-3.0-or-later */
/* why.c: decisions, each in one sentence with the numbers it was made from. */
#include "text/text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/why-private.h"

static void
pieces_init (CarpaceWhyPieces *pieces, const CarpaceDecision *d)
{
  pieces->before = carpace_text_duration (d->before_ms);
  pieces->after = carpace_text_duration (d->after_ms);
  pieces->kept = carpace_text_duration (d->no_practice ? d->kept_ms : d->after_ms);
  pieces->done = carpace_text_duration (d->done_ms);
  pieces->share = carpace_text_share (d->shorten_to);
  pieces->level = carpace_text_duration (d->level_ms);
  pieces->level_before = carpace_text_duration (d->level_before_ms);
  pieces->from = carpace_text_duration (d->down_from_ms);
  pieces->step = carpace_text_duration (d->step_ms);
  pieces->most = carpace_text_duration (d->most_ms);
  pieces->most_of = carpace_text_duration (d->most_of_ms - d->most_of_ms % CARPACE_MINUTE_MS);
  pieces->block = d->block > 0 ? g_strdup_printf (_("after block %d"), d->block) : g_strdup (_("after the match"));
}

static void
pieces_clear (CarpaceWhyPieces *pieces)
{
  g_free (pieces->before);
  g_free (pieces->after);
  g_free (pieces->kept);
  g_free (pieces->done);
  g_free (pieces->share);
  g_free (pieces->block);
  g_free (pieces->level);
  g_free (pieces->level_before);
  g_free (pieces->from);
  g_free (pieces->step);
  g_free (pieces->most);
  g_free (pieces->most_of);
}

/* Of a planned day without practice: what was decided is for the next one. */
static char *
why_without (const CarpaceDecision *decision)
{
  CarpaceDecision next = *decision;
  g_autofree char *sentence = NULL;

  next.without = false;
  next.after_ms = next.kept_ms;
  sentence = carpace_text_why (&next);
  return g_strdup_printf (_("No practice is planned today. Read “today” here as the next practice day: %s"), sentence);
}

char *
carpace_text_why (const CarpaceDecision *decision)
{
  const char *not_among = decision->rule == CARPACE_RULE_KEEP ? carpace_why_uncounted (decision) : NULL;
  g_autofree char *sentence = NULL;
  CarpaceWhyPieces pieces;

  if (decision->without)
    return why_without (decision);
  pieces_init (&pieces, decision);
  sentence = decision->scope == CARPACE_SCOPE_BLOCK ? carpace_why_block (decision, &pieces)
                                                    : carpace_why_day (decision, &pieces);
  pieces_clear (&pieces);
  if (decision->scope == CARPACE_SCOPE_BLOCK || not_among == NULL)
    return g_steal_pointer (&sentence);
  return g_strdup_printf ("%s %s", sentence, not_among);
}

/* Whether its sentence counts days. */
static bool
counts_days (const CarpaceDecision *d)
{
  return d->scope == CARPACE_SCOPE_DAY && d->rule == CARPACE_RULE_KEEP
         && (d->finding == CARPACE_FINDING_NONE || d->finding == CARPACE_FINDING_LEVEL_YOUNG
             || d->finding == CARPACE_FINDING_MORNINGS_UP || d->finding == CARPACE_FINDING_MOST);
}

char *
carpace_text_why_short (const CarpaceDecision *decision)
{
  g_autofree char *after = carpace_text_duration (decision->after_ms);
  g_autofree char *kept = carpace_text_duration (decision->kept_ms);

  if (decision->scope == CARPACE_SCOPE_DAY && decision->rule == CARPACE_RULE_WAY_BACK && !decision->without)
    return g_strdup_printf (_("Building back: %s today."), after);
  if (!counts_days (decision))
    return carpace_text_why (decision);
  if (decision->without)
    return g_strdup_printf (_("No practice is planned today; practice time stays %s."), kept);
  return g_strdup_printf (_("Practice time stays %s."), after);
}

char *
carpace_text_follows (const CarpaceDecision *decision)
{
  g_autofree char *after = carpace_text_duration (decision->after_ms);

  if (decision->without)
    return g_strdup (_("No practice planned today"));
  if (decision->after_ms <= 0 || decision->no_practice)
    return g_strdup (decision->scope == CARPACE_SCOPE_BLOCK ? _("No more practice today") : _("No practice today"));
  if (decision->after_ms == decision->before_ms)
    return NULL;
  if (decision->scope == CARPACE_SCOPE_DAY)
    return g_strdup_printf (decision->after_ms < decision->before_ms ? _("Less today: %s") : _("More today: %s"), after);
  return g_strdup_printf (decision->after_ms < decision->before_ms ? _("Next block shorter: %s") : _("Next block: %s"),
                          after);
}
