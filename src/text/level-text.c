/* SPDX-License-Identifier: GPL-3.0-or-later */
/* level-text.c: what practice time is led to, how it came about, and what would
 * change it. */
#include "text/level-text.h"

#include <glib/gi18n.h>

#include "text/diary-text.h"
#include "text/duration.h"
#include "text/text.h"

#define BADLY_RATED_UP 3
#define LEVEL_DOWN_TO (85 * CARPACE_PERCENT)

char *
carpace_text_way_to_level (const CarpaceDecision *d)
{
  g_autofree char *level = carpace_text_duration (d->level_ms);
  g_autofree char *step = carpace_text_duration (d->step_ms);

  if (d->level_ms <= 0 || d->kept_ms >= d->level_ms)
    return NULL;
  if (d->straight_back && d->needed > 1)
    return g_strdup_printf (_("%s again after two settled days in a row"), level);
  if (d->straight_back)
    return g_strdup_printf (_("%s again after one settled day"), level);
  if (d->needed > 1)
    /* Translators: the aim, a step */
    return g_strdup_printf (_("back towards %s by %s after each two settled days in a row"), level, step);
  return g_strdup_printf (_("back towards %s by %s after each settled day"), level, step);
}

char *
carpace_text_silence (int32_t days)
{
  return g_strdup_printf (ngettext ("Answer a rating or the morning check: after %d practice day without an answer "
                                    "practice time comes down.",
                                    "Answer a rating or the morning check: after %d practice days without an answer "
                                    "practice time comes down.",
                                    (gulong) days), days);
}

char *
carpace_text_usual_too_low (const CarpaceDecision *d)
{
  if (d->mornings_say < 0 || d->level_ms <= 0)
    return NULL;
  return g_strdup_printf (_("Ask whoever set the plan: it says usual discomfort %d, the mornings say %d."), d->usual,
                          d->mornings_say);
}

/* What the level would have to see to rise. */
static char *
up_from_level (const CarpaceDecision *d)
{
  bool counted = d->rule == CARPACE_RULE_KEEP && d->finding != CARPACE_FINDING_NO_CHECK
                 && d->finding != CARPACE_FINDING_NO_ANSWERS && d->finding != CARPACE_FINDING_FIRST_DAY;
  g_autofree char *next = carpace_text_duration (d->level_ms + (d->down_from_ms > 0 ? d->step_ms / 2 : d->step_ms));

  if (d->finding == CARPACE_FINDING_AT_MOST)
    return g_strdup (_("It rises no further: it is the most the plan allows."));
  if (d->needed <= 0)
    return g_strdup (_("It rises no further: the plan has no step up."));
  if (!counted || d->level_days < 0)
    return g_strdup_printf (ngettext ("Up to %s, or to the most the plan allows: after %d good day, 7 days at one aim, and "
                                      "no more than 2 of the last 6 mornings above usual.",
                                      "Up to %s, or to the most the plan allows: after %d good days in a row, 7 days at one "
                                      "aim, and no more than 2 of the last 6 mornings above usual.",
                                      (gulong) d->needed), next, d->needed);
  return g_strdup_printf (ngettext ("Up to %s, or to the most the plan allows: after %d good day (%d so far), 7 days at one "
                                    "aim (%d so far), and no more than 2 of the last 6 mornings above usual (%d now).",
                                    "Up to %s, or to the most the plan allows: after %d good days in a row (%d so far), 7 "
                                    "days at one aim (%d so far), and no more than 2 of the last 6 mornings above usual "
                                    "(%d now).",
                                    (gulong) d->needed), next, d->needed, d->days, d->level_days, d->wakings_up);
}

static char *
up (const CarpaceDecision *d)
{
  g_autofree char *way = carpace_text_way_to_level (d);

  if (d->rule == CARPACE_RULE_CAUTION || d->opens_caution)
    return g_strdup (carpace_text_after_caution ());
  if (way == NULL)
    return up_from_level (d);
  return g_strdup_printf (_("Up: %s."), way);
}

/* How many worse mornings at the aim count towards the third: none from before it last changed, be that today. */
static int32_t
worse_so_far (const CarpaceDecision *d)
{
  bool anew = d->level_down || (d->level_before_ms > 0 && d->level_before_ms != d->level_ms);

  return anew ? 0 : d->worse_mornings;
}

static char *
down (const CarpaceDecision *d)
{
  int64_t to_ms = MAX (carpace_dose_cut_ms (d->kept_ms, LEVEL_DOWN_TO), carpace_dose_least_ms (d->first_dose_ms));
  g_autofree char *to = carpace_text_duration (MIN (to_ms, d->level_ms));

  /* Translators: the new aim; a number; a number; a count of mornings */
  return g_strdup_printf (_("Down: a worse morning cuts practice time once. The aim comes down, to about %s "
                            "(85 %%), "
                            "after a number above %d, a worse morning after a rating of %d or more, or the third worse morning "
                            "in two weeks after practice at the aim (%d so far)."),
                          to, d->stop_above, d->usual + BADLY_RATED_UP, worse_so_far (d));
}

static char *
since (const CarpaceDecision *change, CarpaceDay changed)
{
  g_autofree char *day = carpace_text_date (changed);
  g_autofree char *why = change != NULL ? carpace_text_why (change) : NULL;

  if (why == NULL)
    return g_strdup_printf (_("It has been that since %s, when a plan or a closed caution set it."), day);
  return g_strdup_printf (_("It has been that since %s: %s"), day, why);
}

char *
carpace_text_level (const CarpaceDecision *d)
{
  g_autofree char *level = NULL;

  if (d->scope != CARPACE_SCOPE_DAY || d->level_ms <= 0)
    return NULL;
  level = carpace_text_duration (d->level_ms);
  return g_strdup_printf (_("Practice time is led to %s and held there: the aim."), level);
}

char **
carpace_text_level_lines (const CarpaceDecision *d, const CarpaceDecision *change, CarpaceDay changed)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new ();
  char *level = carpace_text_level (d), *usual = carpace_text_usual_too_low (d);

  if (level != NULL)
    {
      g_ptr_array_add (lines, level);
      if (changed != CARPACE_NO_DAY)
        g_ptr_array_add (lines, since (change, changed));
      else if (d->level_ms == d->first_dose_ms)
        g_ptr_array_add (lines, g_strdup (_("It is the plan's, and has not changed.")));
      g_ptr_array_add (lines, up (d));
      if (!d->opens_caution && d->rule != CARPACE_RULE_CAUTION)
        g_ptr_array_add (lines, down (d));
    }
  if (usual != NULL)
    g_ptr_array_add (lines, usual);
  g_ptr_array_add (lines, NULL);
  return (char **) g_ptr_array_free (g_steal_pointer (&lines), FALSE);
}
