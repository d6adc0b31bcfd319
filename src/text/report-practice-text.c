/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report-practice-text.c: what the page says of practice: planned, done and decided. */
#include "text/report-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/text.h"

static void
add_doses (GString *text, const CarpaceReportNumbers *numbers)
{
  g_autofree char *first = carpace_text_minutes (numbers->first_dose_ms);
  g_autofree char *last = carpace_text_minutes (numbers->last_dose_ms);
  g_autofree char *least = carpace_text_minutes (numbers->least_dose_ms);
  g_autofree char *most = carpace_text_minutes (numbers->most_dose_ms);

  if (numbers->last_dose_ms > 0)
    g_string_append_printf (text, _(" Planned for a practice day: first %s, last %s (least %s, most %s)."), first, last,
                            least, most);
}

static void
add_done (GString *text, const CarpaceReportNumbers *numbers)
{
  g_autofree char *planned = carpace_text_minutes (numbers->planned_ms);
  g_autofree char *done = carpace_text_minutes (numbers->done_ms);
  g_autofree char *unplanned = carpace_text_minutes (numbers->unplanned_ms);

  if (numbers->planned_ms > 0)
    g_string_append_printf (text, _(" Done on these days: %s of %s planned (%d %%)."), done, planned,
                            (int) (100 * numbers->done_ms / numbers->planned_ms));
  if (numbers->unplanned_ms > 0)
    g_string_append_printf (text, _(" Done with nothing planned: %s."), unplanned);
}

static void
add_beside_plan (GString *text, const CarpaceReportNumbers *numbers)
{
  g_autofree char *over = carpace_text_minutes (numbers->overrun_ms);

  if (numbers->overrun_ms >= CARPACE_MINUTE_MS)
    g_string_append_printf (text, _(" Past the blocks' limits: %s."), over);
  if (numbers->early > 0)
    g_string_append_printf (text, ngettext (" %d block was started before its wait was over.",
                                            " %d blocks were started before their wait was over.", (gulong) numbers->early),
                            numbers->early);
  if (numbers->beyond > 0)
    g_string_append_printf (text, ngettext (" %d block was beyond the plan.", " %d blocks were beyond the plan.",
                                            (gulong) numbers->beyond),
                            numbers->beyond);
}

static void
add_days (GString *text, const CarpaceReportNumbers *numbers)
{
  int32_t without = numbers->opened - numbers->practised - numbers->begun;

  if (without > 0)
    g_string_append_printf (text, ngettext ("; %d more day was opened and not practised on",
                                            "; %d more days were opened and not practised on", (gulong) without),
                            without);
  if (numbers->no_practice > 0)
    g_string_append_printf (text, ngettext ("; %d day was set without practice", "; %d days were set without practice",
                                            (gulong) numbers->no_practice),
                            numbers->no_practice);
}

char *
carpace_text_report_planned (const CarpaceReportNumbers *numbers, bool day_by_day)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, ngettext ("Practice on %d day", "Practice on %d days", (gulong) numbers->practised),
                          numbers->practised);
  g_string_append_printf (text, ngettext (" in %d block", " in %d blocks", (gulong) numbers->blocks), numbers->blocks);
  if (numbers->running > 0)
    g_string_append_printf (text, ngettext ("; %d more has not ended and is not counted",
                                            "; %d more have not ended and are not counted", (gulong) numbers->running),
                            numbers->running);
  if (day_by_day)
    add_days (text, numbers);
  g_string_append (text, ".");
  if (day_by_day)
    add_doses (text, numbers);
  add_done (text, numbers);
  add_beside_plan (text, numbers);
  return g_string_free (text, FALSE);
}

char *
carpace_text_report_why (const CarpaceReportNumbers *numbers)
{
  g_autofree char *day = NULL;
  g_autofree char *why = NULL;
  g_autofree char *dose = NULL;

  if (!numbers->has_last)
    return g_strdup (_("No dose was decided in this period."));
  day = carpace_text_short_day (numbers->last_day);
  why = carpace_text_why (&numbers->last);
  dose = carpace_text_minutes (numbers->last.no_practice ? numbers->last.kept_ms : numbers->last.after_ms);
  if (numbers->has_change && numbers->change_day != numbers->last_day)
    {
      g_autofree char *change_day = carpace_text_short_day (numbers->change_day);
      g_autofree char *change = carpace_text_why (&numbers->change);

      return g_strdup_printf (_("The dose now stands at %s. Changed last on %s: %s Since then it was kept; on %s: %s"), dose,
                              change_day, change, day, why);
    }
  return g_strdup_printf (_("The dose now stands at %s. Decided last on %s: %s"), dose, day, why);
}

char *
carpace_text_report_rules (const CarpacePlan *plan)
{
  g_autofree char *cut = NULL;
  g_autofree char *step = NULL;
  g_autofree char *most = NULL;

  if (plan == NULL)
    return g_strdup (_("The next dose is decided when the next practice day opens, from what is told on waking, from the ratings since and from what was done."));
  cut = carpace_text_share (plan->cut_to);
  step = carpace_text_share (plan->step_up_by);
  most = carpace_text_minutes (plan->at_most_ms);
  return g_strdup_printf (_("The next dose is decided when the next practice day opens. Stiffer than usual, or waking 2 or more above the usual %d: cut to %s of what was done, and back after a settled day. Above %d (no practice that day), a third such morning in two weeks, or one after a rating 3 or more above usual: what practice time is led to comes down to 85 %%, too. %d good days in a row, a week after its last change: up by %s of the first dose, to %s at most. Otherwise it stays. (Numbers of the plan in use now.)"),
                          plan->usual_discomfort, cut, plan->stop_above, plan->after_good_days, step, most);
}

/* Decisions of one kind: how many, by up to two rules or another count, in the words of one and of many. */
typedef struct
{
  CarpaceRule rule, or_rule; /* CARPACE_N_RULES: none */
  size_t count;              /* where no rule counts: the number's place */
  const char *one, *many;
} Counted;

#define BY_RULE(rule, words) { CARPACE_RULE_##rule, CARPACE_N_RULES, 0, words }
#define BY_EITHER(rule, or_rule, words) { CARPACE_RULE_##rule, CARPACE_RULE_##or_rule, 0, words }
#define BY_NUMBER(number, words) { CARPACE_N_RULES, CARPACE_N_RULES, offsetof (CarpaceReportNumbers, number), words }
#define NN_(one, many) one, many

static const Counted counted[] = {
  BY_EITHER (CUT, CUT_ONCE, NN_ ("%d cut", "%d cuts")),
  BY_RULE (REST_DAY, NN_ ("%d rest day", "%d rest days")),
  BY_RULE (CAUTION, NN_ ("%d day with a caution open", "%d days with a caution open")),
  BY_RULE (WAY_BACK, NN_ ("%d rise back towards the aim", "%d rises back towards the aim")),
  BY_RULE (STEP_UP, NN_ ("%d step up", "%d steps up")),
  BY_RULE (TAKE_BACK, NN_ ("%d step taken back", "%d steps taken back")),
  BY_RULE (AFTER_TIME_OFF, NN_ ("%d step lower after time off", "%d times lower after time off")),
  BY_RULE (NO_ANSWERS, NN_ ("%d step lower for want of answers", "%d steps lower for want of answers")),
  BY_RULE (KEEP_WEEK, NN_ ("%d day kept for a rising week", "%d days kept for a rising week")),
  BY_NUMBER (shortened, NN_ ("%d block played shortened", "%d blocks played shortened")),
  BY_NUMBER (stopped, NN_ ("%d day stopped by ratings", "%d days stopped by ratings")),
};

static int32_t
count_of (const CarpaceReportNumbers *numbers, const Counted *row)
{
  if (row->rule == CARPACE_N_RULES)
    return G_STRUCT_MEMBER (int32_t, numbers, row->count);
  return numbers->decided[row->rule] + (row->or_rule < CARPACE_N_RULES ? numbers->decided[row->or_rule] : 0);
}

char *
carpace_text_report_decisions (const CarpaceReportNumbers *numbers)
{
  GString *text = g_string_new (NULL);

  for (size_t i = 0; i < G_N_ELEMENTS (counted); i++)
    {
      int32_t n = count_of (numbers, &counted[i]);
      g_autofree char *digits = g_strdup_printf ("%d", (int) n);
      g_auto (GStrv) around = g_strsplit (ngettext (counted[i].one, counted[i].many, (gulong) n), "%d", 2);
      g_autofree char *words = g_strjoinv (digits, around);

      if (n > 0)
        g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", words);
    }
  if (text->len == 0)
    g_string_append (text, _("Nothing changed in this period"));
  g_string_append (text, ".");
  return g_string_free (text, FALSE);
}

char *
carpace_text_report_rest (const CarpaceReportNumbers *numbers, bool for_coach)
{
  g_autofree char *rests = carpace_text_rests (numbers->offered, numbers->taken);
  g_autofree char *matches = carpace_text_minutes (numbers->match_ms);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _("Rests: %s"), rests);
  if (numbers->declined > 0)
    g_string_append_printf (text, _(", %d declined"), numbers->declined);
  g_string_append_printf (text, ngettext (". %d match, %s in all.", ". %d matches, %s in all.", (gulong) numbers->matches),
                          numbers->matches, matches);
  if (for_coach)
    return g_string_free (text, FALSE);
  if (numbers->n_other > 0)
    {
      g_autofree char *mean = carpace_text_minutes (numbers->other_ms / numbers->n_other);

      g_string_append_printf (text, ngettext (" Mouse input outside practice: %s a day, from %d day.",
                                              " Mouse input outside practice: %s a day, from %d days.",
                                              (gulong) numbers->n_other),
                              mean, numbers->n_other);
    }
  else
    g_string_append (text, _(" Mouse input outside practice is not known."));
  return g_string_free (text, FALSE);
}
