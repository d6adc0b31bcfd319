/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report-text.c: one page in sentences: its head, its headings, the plan, its limits. */
#include "text/report-text.h"

#include <glib/gi18n.h>
#include <string.h>

const char *
carpace_text_report_title (bool for_coach)
{
  return for_coach ? _("Practice report for a coach") : _("Practice report for a clinician");
}

char *
carpace_text_report_who (const char *code, const CarpaceReportNumbers *numbers)
{
  g_autofree char *period = carpace_text_period (numbers->since, numbers->until);
  int days = numbers->until - numbers->since + 1;

  if (code == NULL)
    code = "\u2026\u2026\u2026\u2026\u2026\u2026";
  return g_strdup_printf (ngettext ("Player %s   %s, %d day", "Player %s   %s, %d days", (gulong) days), code, period, days);
}

const char *
carpace_text_report_planned_heading (void)
{
  return _("Planned and done");
}

const char *
carpace_text_report_hand_heading (void)
{
  return _("How the hand answered");
}

const char *
carpace_text_report_why_heading (void)
{
  return _("Why the dose is what it is");
}

const char *
carpace_text_report_days_heading (void)
{
  return _("Day by day");
}

const char *
carpace_text_report_weeks_heading (void)
{
  return _("Week by week (means of a practice day)");
}

const char *
carpace_text_report_decisions_heading (void)
{
  return _("Decisions about a day's dose, by their rules");
}

const char *
carpace_text_report_rest_heading (void)
{
  return _("Rests, matches, other mouse time");
}

const char *
carpace_text_report_habit_heading (void)
{
  return _("How the questions were answered");
}

const char *
carpace_text_report_sites_heading (void)
{
  return _("Where it was felt");
}

const char *
carpace_text_report_cautions_heading (void)
{
  return _("Cautions");
}

const char *
carpace_text_report_limits_heading (void)
{
  return _("What the numbers cannot say");
}

const char *
carpace_text_report_silent_heading (void)
{
  return _("Nothing was answered for long");
}

const char *
carpace_text_report_plan_heading (void)
{
  return _("The plan");
}

/* Whether a line of what is fixed may stand on any page: the others are free text, or of the hand. */
static bool
is_of_practice (const char *line)
{
  static const char *const others[] = { "name:", "note:", "hand.", "player.", "tighten." };

  for (size_t i = 0; i < G_N_ELEMENTS (others); i++)
    if (g_str_has_prefix (line, others[i]))
      return false;
  return true;
}

/* What holds of what one plan fixes, "day.dose: 1 h; next-day.at-most: 90 min"; "" where another's is tighter throughout. */
static char *
fixed_by (const CarpaceGivenPlan *given, const char *all, bool of_hand)
{
  char fixes[CARPACE_CEILING_BYTES];
  g_auto (GStrv) lines = NULL;
  GString *text = g_string_new (NULL);

  carpace_ceiling_write (&given->fixes, fixes);
  lines = g_strsplit (fixes, "\n", -1);
  for (int i = 0; lines[i] != NULL; i++)
    if (lines[i][0] != '\0' && (of_hand || is_of_practice (lines[i])) && carpace_ceiling_line_holds (all, lines[i]))
      g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", lines[i]);
  return g_string_free (text, FALSE);
}

static void
add_fixed (GString *text, const CarpaceHeld *held, bool of_hand)
{
  char all[CARPACE_CEILING_BYTES];

  carpace_ceiling_write (&held->ceiling, all);
  for (size_t i = 0; i < held->n_given; i++)
    {
      const CarpaceGivenPlan *given = &held->given[i];
      g_autofree char *fixed = fixed_by (given, all, of_hand);
      g_autofree char *since = carpace_text_date (given->since);

      if (fixed[0] == '\0')
        continue;
      if (of_hand)
        g_string_append_printf (text, _(" Fixed by “%s”, version %d, since %s: %s."), given->name, given->version, since, fixed);
      else
        g_string_append_printf (text, _(" Fixed by a plan's version %d since %s: %s."), given->version, since, fixed);
    }
}

char *
carpace_text_report_plan (const CarpaceReportPlan *plan, const CarpaceHeld *held, bool of_hand)
{
  g_autofree char *since = carpace_text_date (plan->since);
  g_autofree char *released = carpace_text_date (plan->released);
  GString *text = g_string_new (NULL);

  if (plan->name == NULL)
    return g_string_free (text, TRUE);
  if (of_hand)
    g_string_append_printf (text, _("“%s”, version %d"), plan->name, plan->version);
  else
    g_string_append_printf (text, _("Version %d"), plan->version);
  if (plan->since != CARPACE_NO_DAY)
    g_string_append_printf (text, _(", since %s"), since);
  g_string_append (text, ".");
  if (plan->next != NULL && plan->next_version == plan->version && strcmp (plan->next, plan->name) == 0)
    g_string_append (text, _(" Changed since, which holds from the next practice day on."));
  else if (plan->next != NULL && of_hand)
    g_string_append_printf (text, _(" “%s”, version %d, from the next practice day on."), plan->next, plan->next_version);
  else if (plan->next != NULL)
    g_string_append_printf (text, _(" Another, its version %d, from the next practice day on."), plan->next_version);
  if (held != NULL)
    add_fixed (text, held, of_hand);
  if (plan->released != CARPACE_NO_DAY)
    g_string_append_printf (text, _(" On %s the player released what was fixed."), released);
  return g_string_free (text, FALSE);
}

char *
carpace_text_report_dated (CarpaceDay day, const char *sentence)
{
  g_autofree char *date = carpace_text_short_day (day);

  return g_strdup_printf (_("%s: %s"), date, sentence);
}

char *
carpace_text_report_earlier (int32_t n)
{
  return g_strdup_printf (ngettext ("%d earlier one is not listed.", "%d earlier ones are not listed.", (gulong) n), n);
}

const char *
carpace_text_report_limits (bool for_coach, bool ticked)
{
  if (for_coach && ticked)
    return _("They tell how much was practised, and of the hand only what the player ticked. What is not on this page is the player's to tell.");
  if (for_coach)
    return _("They tell how much was practised, not how the hand is. What is not on this page is the player's to tell.");
  return _("All numbers were given by the player, by a tap; what was not answered is blank and counts as nothing. Discomfort has many causes besides practice: sleep, other work, illness, expectation. What lies beside another on this page need not come of it. No trial has dosed mouse practice; the rules are borrowed from tendon rehabilitation and office work. This page informs. It finds no cause, names no condition and takes no one's place.");
}

char *
carpace_text_report_weeks_not_drawn (int32_t n)
{
  return g_strdup_printf (ngettext ("%d earlier week is not drawn.", "%d earlier weeks are not drawn.", (gulong) n), n);
}

const char *
carpace_text_report_nothing (void)
{
  return _("Nothing was recorded in this period.");
}
