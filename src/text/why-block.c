/* SPDX-License-Identifier: GPL-3.0-or-later */
/* why-block.c: decisions about the next block, each in one sentence. */
#include "text/why-private.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/text.h"

/* Takes @cause and says what follows of it: of a further block, since the last one of the day has none that is the next. */
static char *
shorter_block (char *cause, const CarpaceDecision *d, const CarpaceWhyPieces *p, bool rests_longer)
{
  char *sentence;

  if (d->after_ms <= 0)
    sentence = g_strdup_printf (_("%s; no block follows today."), cause);
  else if (d->after_ms < d->before_ms && rests_longer)
    /* Translators: cause, new limit, old limit, share */
    sentence = g_strdup_printf (_("%s: a further block is %s instead of %s (%s), with rests closer and longer."), cause,
                                p->after, p->before, p->share);
  else if (d->after_ms < d->before_ms)
    sentence = g_strdup_printf (_("%s: a further block is %s instead of %s (%s), with rests closer."), cause, p->after,
                                p->before, p->share);
  else if (rests_longer)
    sentence = g_strdup_printf (_("%s: a further block stays %s, with rests closer and longer."), cause, p->after);
  else
    sentence = g_strdup_printf (_("%s: a further block stays %s, with rests closer."), cause, p->after);
  g_free (cause);
  return sentence;
}

static char *
why_keep_block (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  if (d->after_ms > d->before_ms)
    return g_strdup_printf (_("With the corrected rating %s nothing is tightened for it: a further block is %s instead of %s."),
                            p->block, p->after, p->before);
  if (d->after_ms < d->before_ms)
    return g_strdup_printf (_("A further block is %s instead of %s: what was tightened today stays."), p->after, p->before);
  if (d->discomfort < 0)
    return g_strdup_printf (_("No rating %s: a further block stays %s."), p->block, p->after);
  return g_strdup_printf (_("Discomfort %d %s changes nothing: a further block stays %s."), d->discomfort, p->block,
                          p->after);
}

char *
carpace_why_block (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  switch (d->rule)
    {
    case CARPACE_RULE_ABOVE_STOP:
      return g_strdup_printf (_("Discomfort %d %s is above %d: no more practice today."), d->discomfort, p->block,
                              d->stop_above);
    case CARPACE_RULE_UP_2:
      return shorter_block (g_strdup_printf (_("Discomfort %d %s is up by 2 or more (compared with %d)"),
                                             d->discomfort, p->block, d->reference), d, p, true);
    case CARPACE_RULE_UP_TO_4_OR_5:
      return shorter_block (g_strdup_printf (_("Discomfort %d %s is up to 4 or 5 and 2 or more above your usual %d"),
                                             d->discomfort, p->block, d->usual), d, p, true);
    case CARPACE_RULE_UP_1:
      return shorter_block (g_strdup_printf (_("Discomfort %d %s is up by 1 (compared with %d)"),
                                             d->discomfort, p->block, d->reference), d, p, false);
    case CARPACE_RULE_UNANSWERED_TWICE:
      return shorter_block (g_strdup_printf (_("No rating %s, as after the one before"), p->block), d, p, false);
    case CARPACE_RULE_TIGHTENED_THRICE:
      return g_strdup_printf (_("What was answered %s would shorten blocks for the third time today: no more practice today."), p->block);
    case CARPACE_RULE_TOO_SHORT:
      return g_strdup_printf (_("The next block would be %s, too short to be one: no more practice today."), p->before);
    case CARPACE_RULE_KEEP:
      return why_keep_block (d, p);
    case CARPACE_RULE_CAUTION:
    case CARPACE_RULE_CUT:
    case CARPACE_RULE_REST_DAY:
    case CARPACE_RULE_KEEP_NO_PRACTICE:
    case CARPACE_RULE_KEEP_OTHER_LOAD:
    case CARPACE_RULE_AFTER_TIME_OFF:
    case CARPACE_RULE_KEEP_WEEK:
    case CARPACE_RULE_WAY_BACK:
    case CARPACE_RULE_STEP_UP:
    case CARPACE_RULE_CUT_ONCE:
    case CARPACE_RULE_TAKE_BACK:
    case CARPACE_RULE_NO_ANSWERS:
    case CARPACE_N_RULES:
      break;
    }
  return g_strdup (carpace_text_rule (d->rule));
}
