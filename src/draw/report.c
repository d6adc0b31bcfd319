/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report.c: what a report says, and as text; its page is report-page.c's. */
#include "report-private.h"

#include <string.h>

#include "report-numbers.h"
#include "text/level-text.h"
#include "text/text.h"

#define FURTHER 14       /* days before the stretch, to compare its first weeks with */
#define MOST_LISTED 40   /* decisions in a list, as text */
#define TEXT_WIDTH 78

bool
carpace_report_shows_hand (const CarpaceReport *report)
{
  return !report->ask.for_coach || report->ask.ratings;
}

/* What it says */

static void
clear_section (void *section)
{
  g_ptr_array_unref (((CarpaceReportSection *) section)->paragraphs);
}

static CarpaceReportSection *
add_section (CarpaceReport *report, CarpaceReportPlace place, const char *heading, char *paragraph)
{
  CarpaceReportSection section = { .place = place, .heading = heading, .paragraphs = g_ptr_array_new_with_free_func (g_free) };

  if (paragraph != NULL)
    g_ptr_array_add (section.paragraphs, paragraph);
  g_array_append_val (report->sections, section);
  return &g_array_index (report->sections, CarpaceReportSection, report->sections->len - 1);
}

static void
add_paragraph (CarpaceReportSection *section, char *paragraph)
{
  if (paragraph != NULL)
    g_ptr_array_add (section->paragraphs, paragraph);
}

static bool
is_change (const CarpaceDecision *decision)
{
  return decision->before_ms != decision->after_ms || decision->no_practice || decision->rule != CARPACE_RULE_KEEP;
}

static void
list_day_decisions (CarpaceReportSection *section, const CarpaceDiaryDay *day, const CarpaceReportAsk *ask)
{
  const CarpaceDecision *decision = carpace_diary_decision_of_day (day);
  g_autofree char *why = decision != NULL && is_change (decision) ? carpace_text_why (decision) : NULL;

  if (why != NULL)
    add_paragraph (section, carpace_text_report_dated (day->day, why));
}

static void
list_day_cautions (CarpaceReportSection *section, const CarpaceDiaryDay *day, const CarpaceReportAsk *ask)
{
  for (guint i = 0; i < day->cautions->len; i++)
    {
      const CarpaceEntry *caution = &g_array_index (day->cautions, CarpaceEntry, i);

      if (caution->caution.what != CARPACE_CAUTION_WAS_ASKED)
        add_paragraph (section, carpace_text_report_caution (day->day, caution, !ask->for_coach));
    }
}

typedef void (*DayLister) (CarpaceReportSection *section, const CarpaceDiaryDay *day, const CarpaceReportAsk *ask);

static void
list_days (CarpaceReport *report, CarpaceReportSection *section, DayLister list)
{
  section->list = true;
  for (int32_t i = 0; i < carpace_diary_model_n_sums (report->drawn); i++)
    {
      const CarpaceDiaryDay *day
        = carpace_diary_model_day (report->drawn, carpace_diary_model_sum (report->drawn, i)->day);

      if (day != NULL)
        list (section, day, &report->ask);
    }
}

static void
add_cautions (CarpaceReport *report)
{
  CarpaceReportSection *section = add_section (report, CARPACE_PLACE_RIGHT, carpace_text_report_cautions_heading (), NULL);

  list_days (report, section, list_day_cautions);
  if (section->paragraphs->len == 0)
    add_paragraph (section, g_strdup (carpace_text_report_no_caution ()));
}

/* Which plan */

typedef struct
{
  const CarpaceReportAsk *ask;
  CarpaceReportPlan *plan;
  char *text;    /* of the one that holds */
  bool day_told; /* a day tells what it began with: what is given holds from the next one on */
} PlanReading;

static void
holds_since (PlanReading *reading, const CarpacePlanRecord *record, CarpaceDay day)
{
  g_free (reading->text);
  g_free (reading->plan->name);
  reading->text = g_strdup (record->text);
  reading->plan->name = g_strdup (record->name);
  reading->plan->version = record->version;
  reading->plan->since = day;
}

static bool
note_plan (void *user, const CarpacePlanRecord *record)
{
  PlanReading *reading = user;
  CarpaceReportPlan *plan = reading->plan;
  CarpaceDay day = carpace_day_of (record->at, 0);
  bool given = record->what == CARPACE_PLAN_GIVEN;
  bool same = plan->name != NULL && plan->version == record->version && strcmp (plan->name, record->name) == 0
              && strcmp (reading->text, record->text) == 0;

  if (day > reading->ask->until)
    return false;
  if (record->what == CARPACE_PLAN_RELEASED)
    {
      plan->released = day >= reading->ask->since ? day : CARPACE_NO_DAY;
      return true;
    }
  g_clear_pointer (&plan->next, g_free);
  if (given && reading->day_told && !same)
    {
      plan->next = g_strdup (record->name);
      plan->next_version = record->version;
    }
  else if (!same || (!given && !reading->day_told))
    holds_since (reading, record, day);
  reading->day_told = reading->day_told || !given;
  return true;
}

/* What the diary does not tell of plans is as the one in use has it. */
static bool
read_plans (CarpaceReport *report, const CarpaceDiary *diary)
{
  PlanReading reading = { .ask = &report->ask, .plan = &report->plan };
  bool read;

  report->plan = (CarpaceReportPlan) { .since = CARPACE_NO_DAY, .released = CARPACE_NO_DAY };
  read = diary->plans == NULL || diary->plans (diary->self, note_plan, &reading);
  g_free (reading.text);
  if (!read)
    return false;
  if (report->plan.name == NULL && report->ask.plan != NULL)
    {
      report->plan.name = g_strdup (report->ask.plan->name);
      report->plan.version = report->ask.plan->version;
    }
  return carpace_at_least_read (diary, report->ask.until, report->ask.plan, &report->seen);
}

static void
add_plan (CarpaceReport *report)
{
  char *plan = carpace_text_report_plan (&report->plan, report->ask.held, !report->ask.for_coach);

  if (plan != NULL)
    add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_plan_heading (), plan);
}

static void
say_to_clinician (CarpaceReport *report)
{
  const CarpaceReportNumbers *numbers = &report->numbers;
  CarpaceReportSection *section;

  if (numbers->silent_days >= CARPACE_SILENT_DAYS)
    add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_silent_heading (), carpace_text_report_silent (numbers));
  add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_planned_heading (), carpace_text_report_planned (numbers, true));
  section = add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_hand_heading (), carpace_text_report_hand (numbers));
  add_paragraph (section, carpace_text_report_at_least (&report->seen));
  add_paragraph (section, carpace_text_report_sites (numbers));
  add_plan (report);
  section = add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_why_heading (), carpace_text_report_why (numbers));
  add_paragraph (section, carpace_text_level (&numbers->last)); /* it may lie beyond the days' rails */
  add_paragraph (section, carpace_text_report_rules (report->ask.plan));
  section = add_section (report, CARPACE_PLACE_RIGHT, carpace_text_report_decisions_heading (), NULL);
  list_days (report, section, list_day_decisions);
  g_ptr_array_insert (section->paragraphs, 0, carpace_text_report_decisions (numbers));
  add_cautions (report);
  add_section (report, CARPACE_PLACE_RIGHT, carpace_text_report_rest_heading (), carpace_text_report_rest (numbers, false));
  add_section (report, CARPACE_PLACE_RIGHT, carpace_text_report_habit_heading (), carpace_text_report_habit (numbers, false));
}

static void
say_to_coach (CarpaceReport *report)
{
  const CarpaceReportNumbers *numbers = &report->numbers;
  char *sites = report->ask.sites ? carpace_text_report_sites (numbers) : NULL;

  add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_planned_heading (),
               carpace_text_report_planned (numbers, carpace_report_shows_hand (report)));
  add_plan (report);
  add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_rest_heading (), carpace_text_report_rest (numbers, true));
  add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_habit_heading (), carpace_text_report_habit (numbers, true));
  if (report->ask.ratings)
    add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_hand_heading (), carpace_text_report_hand (numbers));
  if (sites != NULL)
    add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_sites_heading (), sites);
  if (report->ask.cautions)
    add_cautions (report);
}

static void
say (CarpaceReport *report)
{
  if (report->numbers.opened == 0)
    add_section (report, CARPACE_PLACE_ABOVE, carpace_text_report_planned_heading (), g_strdup (carpace_text_report_nothing ()));
  else if (report->ask.for_coach)
    say_to_coach (report);
  else
    say_to_clinician (report);
  add_section (report, CARPACE_PLACE_BELOW, carpace_text_report_limits_heading (),
               g_strdup (carpace_text_report_limits (report->ask.for_coach, report->ask.ratings || report->ask.sites
                                                                               || report->ask.cautions)));
}

CarpaceReport *
carpace_report_new (const CarpaceDiary *diary, const CarpaceReportAsk *ask)
{
  CarpaceReport *report = g_new0 (CarpaceReport, 1);

  report->ask = *ask;
  report->sections = g_array_new (FALSE, TRUE, sizeof (CarpaceReportSection));
  g_array_set_clear_func (report->sections, clear_section);
  report->model = carpace_diary_model_new (diary, ask->since - FURTHER, ask->until);
  report->drawn = carpace_diary_model_new (diary, ask->since, ask->until);
  if (report->model == NULL || report->drawn == NULL
      || !carpace_report_count (report->model, ask->since, ask->until, &report->numbers) || !read_plans (report, diary))
    {
      carpace_report_free (report);
      return NULL;
    }
  say (report);
  return report;
}

void
carpace_report_free (CarpaceReport *report)
{
  if (report == NULL)
    return;
  carpace_diary_model_free (report->model);
  carpace_diary_model_free (report->drawn);
  g_array_unref (report->sections);
  g_free (report->plan.name);
  g_free (report->plan.next);
  g_free (report);
}

const CarpaceReportNumbers *
carpace_report_numbers (const CarpaceReport *report)
{
  return &report->numbers;
}

/* As text */

/* Appends @text, lines broken at words, those after the first begun with @indent. */
static void
append_broken (GString *out, const char *text, const char *indent)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  glong column = 0;

  for (char **word = words; *word != NULL; word++)
    {
      glong length = g_utf8_strlen (*word, -1);

      if (column > 0 && column + 1 + length > TEXT_WIDTH)
        {
          g_string_append_printf (out, "\n%s", indent);
          column = g_utf8_strlen (indent, -1);
        }
      else if (column > 0)
        {
          g_string_append_c (out, ' ');
          column++;
        }
      g_string_append (out, *word);
      column += length;
    }
  g_string_append_c (out, '\n');
}

static void
append_section (GString *out, const CarpaceReportSection *section)
{
  guint from = section->list && section->paragraphs->len > MOST_LISTED ? section->paragraphs->len - MOST_LISTED : 0;

  g_string_append_printf (out, "\n%s\n", section->heading);
  if (from > 0)
    {
      g_autofree char *earlier = carpace_text_report_earlier ((int32_t) from);

      append_broken (out, earlier, "");
    }
  for (guint i = from; i < section->paragraphs->len; i++)
    append_broken (out, g_ptr_array_index (section->paragraphs, i), section->list ? "  " : "");
}

static void
append_weeks (CarpaceReport *report, GString *out)
{
  bool hand = carpace_report_shows_hand (report), first = true;

  for (int32_t i = 0; i < carpace_diary_model_n_rows (report->drawn); i++)
    {
      const CarpaceDiaryRow *row = carpace_diary_model_row (report->drawn, i);

      if (row->kind == CARPACE_DIARY_ROW_WEEK)
        {
          CarpaceWeekNumbers week = carpace_diary_model_week (report->model, row->first);
          g_autofree char *sentence = carpace_text_week (&week, hand);

          if (first)
            g_string_append_printf (out, "\n%s\n", carpace_text_report_weeks_heading ());
          first = false;
          append_broken (out, sentence, "  ");
        }
    }
}

static void
append_days (CarpaceReport *report, GString *out)
{
  g_string_append_printf (out, "\n%s\n", carpace_text_report_days_heading ());
  for (int32_t i = 0; i < carpace_diary_model_n_rows (report->drawn); i++)
    {
      const CarpaceDiaryRow *row = carpace_diary_model_row (report->drawn, i);

      if (row->kind == CARPACE_DIARY_ROW_DAY && row->sum >= 0)
        {
          const CarpaceDaySum *sum = carpace_diary_model_sum (report->drawn, row->sum);
          g_autofree char *sentence = carpace_text_day_sentence (sum->day, sum);

          append_broken (out, sentence, "  ");
        }
    }
}

char *
carpace_report_text (CarpaceReport *report)
{
  GString *out = g_string_new (NULL);
  g_autofree char *who = carpace_text_report_who (report->ask.code, &report->numbers);

  g_string_append_printf (out, "%s\n", carpace_text_report_title (report->ask.for_coach));
  append_broken (out, who, "");
  for (guint i = 0; i < report->sections->len; i++)
    {
      const CarpaceReportSection *section = &g_array_index (report->sections, CarpaceReportSection, i);

      if (section->place == CARPACE_PLACE_BELOW && report->numbers.opened > 0)
        {
          append_weeks (report, out);
          if (carpace_report_shows_hand (report))
            append_days (report, out);
        }
      append_section (out, section);
    }
  g_string_append_c (out, '\n');
  append_broken (out, carpace_text_informs (), "");
  return g_string_free (out, FALSE);
}
