/* SPDX-License-Identifier: GPL-3.0-or-later */
/* calc.c: `carpace calc`, the models by themselves, for checking and teaching. */
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "carpace/dose.h"
#include "carpace/load.h"
#include "carpace/names.h"
#include "cli/calc-inputs.h"
#include "forms/json.h"
#include "text/duration.h"
#include "text/text.h"

#define SHARE_OF_STRENGTH(its_name, its_example) \
  { .name = its_name, .unit = CARPACE_UNIT_PERCENT, .high = 100, .example = its_example }
#define TIME_SPAN(its_name, its_example) \
  { .name = its_name, .unit = CARPACE_UNIT_SECONDS, .high = 86400, .example = its_example }

/* ---- one JSON object ---- */

typedef struct { const char *key; double number; } Member;

static int
print_members (CarpaceCli *cli, const Member *members, int n)
{
  GString *out = g_string_new (NULL);

  carpace_json_open (out, '{');
  for (int i = 0; i < n; i++)
    {
      carpace_json_key (out, members[i].key);
      carpace_json_double (out, members[i].number);
    }
  carpace_json_close (out, '}');
  fprintf (cli->out, "%s\n", out->str);
  g_string_free (out, TRUE);
  return CARPACE_EXIT_DONE;
}

static char *
in_words (double seconds)
{
  return carpace_text_duration ((int64_t) (seconds * 1000));
}

/* What every figure of the fatigue model is told with. */
static void
print_estimate (CarpaceCli *cli)
{
  fprintf (cli->out, "%s\n", _("An estimate, by a model of steady holds in healthy young adults; it knows nothing of "
                               "pain."));
}

/* ---- strain index ---- */

static int
refuse_task (CarpaceCli *cli, CarpaceStrainFault fault)
{
  switch (fault)
    {
    case CARPACE_STRAIN_BAD_DUTY:
      return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS,
                                 _("--efforts times --lasts comes to more than 60 s a minute; make one of them less."));
    case CARPACE_STRAIN_BAD_POSTURE:
      return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--wrist goes to 90 degrees of flexion or extension."));
    case CARPACE_STRAIN_OK:
    case CARPACE_STRAIN_BAD_INTENSITY:
    case CARPACE_STRAIN_BAD_EFFORTS:
    case CARPACE_STRAIN_BAD_DURATION:
    case CARPACE_STRAIN_BAD_HOURS:
    case CARPACE_STRAIN_TOO_MANY:
      break;
    }
  return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("The strain index is not made for these figures."));
}

static void
print_strain (CarpaceCli *cli, const CarpaceStrain *strain)
{
  const struct { const char *name; double is; } rows[] = {
    { _("intensity"), strain->im }, { _("efforts a minute"), strain->em }, { _("length of an effort"), strain->dm },
    { _("bend of the wrist"), strain->pm }, { _("hours a day"), strain->hm },
  };

  fprintf (cli->out, _("Strain index %.2f, the product of:\n"), strain->index);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    fprintf (cli->out, "  %-24s %8.4f\n", rows[i].name, rows[i].is);
  fprintf (cli->out, "%s\n", _("The paper draws a line at 10. It was made for industrial work: compare drills and weeks by it, no more."));
}

static int
calc_strain_index (CarpaceCli *cli, int argc, char **argv)
{
  enum { INTENSITY, EFFORTS, LASTS, WRIST, HOURS, N };
  CarpaceCalcInput in[N] = {
    [INTENSITY] = SHARE_OF_STRENGTH ("intensity", "12%"),
    [EFFORTS] = { .name = "efforts", .unit = CARPACE_UNIT_PER_MIN, .high = 600, .example = "60/min" },
    [LASTS] = { .name = "lasts", .unit = CARPACE_UNIT_SECONDS, .high = 3600, .example = "0.3s" },
    [WRIST] = { .name = "wrist", .unit = CARPACE_UNIT_WRIST, .low = -90, .high = 90, .example = "25 deg extension",
                .may_be_absent = true },
    [HOURS] = { .name = "hours", .unit = CARPACE_UNIT_CM, .high = 24, .example = "2" },
  };
  CarpaceStrain strain;
  CarpaceStrainTask task;
  CarpaceStrainFault fault;
  bool json;

  if (!carpace_calc_read (cli, argc, argv, in, N, NULL, &json))
    return CARPACE_EXIT_WORDS;
  task = (CarpaceStrainTask) { .intensity = in[INTENSITY].number / 100, .efforts_per_min = in[EFFORTS].number,
                               .effort_lasts_s = in[LASTS].number, .hours = in[HOURS].number,
                               .bend_deg = fabs (in[WRIST].number) };
  if (in[WRIST].number > 0)
    task.bend = CARPACE_WRIST_FLEXION;
  else if (in[WRIST].number < 0)
    task.bend = CARPACE_WRIST_EXTENSION;
  fault = carpace_strain_task (&task, &strain);
  if (fault != CARPACE_STRAIN_OK)
    return refuse_task (cli, fault);
  if (json)
    return print_members (cli, (Member[]) { { "strain_index", strain.index }, { "im", strain.im }, { "em", strain.em },
                                            { "dm", strain.dm }, { "pm", strain.pm }, { "hm", strain.hm } }, 6);
  print_strain (cli, &strain);
  return CARPACE_EXIT_DONE;
}

/* ---- fatigue ---- */

static int
calc_endurance (CarpaceCli *cli, int argc, char **argv)
{
  enum { LOAD, FROM, N };
  CarpaceCalcInput in[N] = { [LOAD] = SHARE_OF_STRENGTH ("load", "12%"), [FROM] = SHARE_OF_STRENGTH ("from", "30%") };
  CarpaceRegion region;
  double s;
  bool json;

  in[FROM].may_be_absent = true;
  if (!carpace_calc_read (cli, argc, argv, in, N, &region, &json))
    return CARPACE_EXIT_WORDS;
  s = carpace_reserve_endurance_s (region, in[FROM].number / 100, in[LOAD].number / 100);
  if (json)
    return print_members (cli, &(Member) { "endurance_s", s }, 1);
  if (isfinite (s))
    {
      g_autofree char *time = in_words (s);
      fprintf (cli->out, _("%s at %g %%, %g %% fatigued at the start: held for about %s.\n"), carpace_text_region (region),
               in[LOAD].number, in[FROM].number, time);
    }
  else
    fprintf (cli->out, _("%s at %g %%: the model gives no end for so low a load. Low loads can hurt, too: this is no "
                         "permission to go on.\n"),
             carpace_text_region (region), in[LOAD].number);
  print_estimate (cli);
  return CARPACE_EXIT_DONE;
}

static int
print_cycles (CarpaceCli *cli, CarpaceReserveCycles cycles, int64_t n, bool json)
{
  double fails = cycles.fails_in_cycle > 0 ? (double) cycles.fails_in_cycle : NAN;

  if (json)
    return print_members (cli, (Member[]) { { "peak", cycles.peak }, { "steady", cycles.steady },
                                            { "fails_in_cycle", fails } }, 3);
  fprintf (cli->out, _("Fatigued at the end of the work of cycle %.0f: about %.1f %%.\n"), (double) n, 100 * cycles.peak);
  if (cycles.fails_in_cycle > 0)
    fprintf (cli->out, _("The load can no longer be held in cycle %.0f.\n"), fails);
  else if (isfinite (cycles.steady))
    fprintf (cli->out, _("With cycles going on the same way it comes to about %.1f %%.\n"), 100 * cycles.steady);
  else
    fprintf (cli->out, "%s\n", _("With cycles going on the same way the load could no longer be held in a later one."));
  print_estimate (cli);
  return CARPACE_EXIT_DONE;
}

static int
calc_fatigue (CarpaceCli *cli, int argc, char **argv)
{
  enum { LOAD, WORK, REST, CYCLES, N };
  CarpaceCalcInput in[N] = {
    [LOAD] = SHARE_OF_STRENGTH ("load", "12%"),
    [WORK] = TIME_SPAN ("work", "45s"),
    [REST] = TIME_SPAN ("rest", "15s"),
    [CYCLES] = { .name = "cycles", .unit = CARPACE_UNIT_WHOLE, .low = 1, .high = 1000000, .example = "20" },
  };
  CarpaceRegion region;
  double fatigued;
  bool json;

  in[REST].may_be_absent = in[CYCLES].may_be_absent = true;
  if (!carpace_calc_read (cli, argc, argv, in, N, &region, &json))
    return CARPACE_EXIT_WORDS;
  if (in[REST].given != in[CYCLES].given)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--rest and --cycles go together: give both, or neither for one stretch of work."));
  if (in[CYCLES].given)
    return print_cycles (cli, carpace_reserve_cycles (region, in[LOAD].number / 100, in[WORK].number, in[REST].number,
                                                      (int64_t) in[CYCLES].number), (int64_t) in[CYCLES].number, json);
  fatigued = carpace_reserve_forward (region, 0, in[LOAD].number / 100, in[WORK].number);
  if (json)
    return print_members (cli, &(Member) { "fatigued", fatigued }, 1);
  g_autofree char *time = in_words (in[WORK].number);
  fprintf (cli->out, _("%s at %g %% for %s: about %.1f %% fatigued.\n"), carpace_text_region (region), in[LOAD].number, time,
           100 * fatigued);
  print_estimate (cli);
  return CARPACE_EXIT_DONE;
}

static int
calc_rest (CarpaceCli *cli, int argc, char **argv)
{
  enum { FROM, TO, N };
  CarpaceCalcInput in[N] = { [FROM] = SHARE_OF_STRENGTH ("from", "30%"), [TO] = SHARE_OF_STRENGTH ("to", "10%") };
  CarpaceRegion region;
  double s;
  bool json;

  if (!carpace_calc_read (cli, argc, argv, in, N, &region, &json))
    return CARPACE_EXIT_WORDS;
  s = carpace_reserve_rest_s (region, in[FROM].number / 100, in[TO].number / 100);
  if (json)
    return print_members (cli, &(Member) { "rest_s", s }, 1);
  if (isfinite (s))
    {
      g_autofree char *time = in_words (ceil (s));
      fprintf (cli->out, _("%s from %g %% fatigued to %g %%: about %s of rest.\n"), carpace_text_region (region),
               in[FROM].number, in[TO].number, time);
    }
  else
    fprintf (cli->out, "%s\n",
             /* xgettext:no-c-format */
             _("By the model the last of it goes ever more slowly: 0 % is never quite reached."));
  fprintf (cli->out, "%s\n", _("Within one sitting only: from day to day a hand recovers far more slowly than this."));
  print_estimate (cli);
  return CARPACE_EXIT_DONE;
}

/* ---- doses and travel ---- */

static int
calc_cut (CarpaceCli *cli, int argc, char **argv)
{
  enum { DONE, TO, N };
  CarpaceCalcInput in[N] = {
    [DONE] = { .name = "done", .unit = CARPACE_UNIT_DURATION, .high = (double) CARPACE_DAY_MS, .example = "90 min" },
    [TO] = { .name = "to", .unit = CARPACE_UNIT_SHARE, .high = CARPACE_WHOLE, .example = "70%" },
  };
  int64_t dose_ms;
  bool json;

  if (!carpace_calc_read (cli, argc, argv, in, N, NULL, &json))
    return CARPACE_EXIT_WORDS;
  dose_ms = carpace_dose_cut_ms ((int64_t) in[DONE].number, (int32_t) in[TO].number);
  if (json)
    return print_members (cli, &(Member) { "dose_ms", (double) dose_ms }, 1);
  g_autofree char *done = carpace_text_duration ((int64_t) in[DONE].number);
  g_autofree char *share = carpace_text_share ((int32_t) in[TO].number);
  g_autofree char *dose = carpace_text_duration (dose_ms);
  fprintf (cli->out, _("%s cut to %s: %s, in whole minutes, down.\n"), done, share, dose);
  return CARPACE_EXIT_DONE;
}

/* The groups that one way of the mouse asks more of than the other way. */
static char *
groups_toward (CarpaceMovement movement, CarpaceToward toward)
{
  double there[CARPACE_N_GROUPS], back[CARPACE_N_GROUPS];
  GString *names = g_string_new (NULL);

  carpace_muscles_toward (movement, CARPACE_GRIP_PALM, CARPACE_SIDE_RIGHT, toward, there);
  carpace_muscles_toward (movement, CARPACE_GRIP_PALM, CARPACE_SIDE_RIGHT,
                          toward == CARPACE_TOWARD_RIGHT ? CARPACE_TOWARD_LEFT : CARPACE_TOWARD_RIGHT, back);
  for (CarpaceGroup group = 0; group < CARPACE_N_GROUPS; group++)
    if (there[group] > back[group])
      g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", carpace_text_group (group));
  return g_string_free (names, FALSE);
}

static int
print_travel_json (CarpaceCli *cli, double cm, CarpaceMovement movement)
{
  GString *out = g_string_new (NULL);

  carpace_json_open (out, '{');
  carpace_json_key (out, "travel_cm");
  carpace_json_double (out, cm);
  carpace_json_key (out, "movement");
  carpace_json_string (out, carpace_name (CARPACE_WORDS_MOVEMENT, movement));
  carpace_json_close (out, '}');
  fprintf (cli->out, "%s\n", out->str);
  g_string_free (out, TRUE);
  return CARPACE_EXIT_DONE;
}

static int
calc_travel (CarpaceCli *cli, int argc, char **argv)
{
  enum { TURN, CM, N };
  CarpaceCalcInput in[N] = {
    [TURN] = { .name = "view-turn", .unit = CARPACE_UNIT_DEGREES, .low = 1, .high = 720, .example = "90 deg" },
    [CM] = { .name = "cm-per-turn", .unit = CARPACE_UNIT_CM, .low = 2, .high = 200, .example = "30" },
  };
  CarpaceMovement movement;
  double cm;
  bool json;

  if (!carpace_calc_read (cli, argc, argv, in, N, NULL, &json))
    return CARPACE_EXIT_WORDS;
  cm = carpace_travel_cm (in[TURN].number, in[CM].number);
  movement = carpace_travel_movement (cm);
  if (json)
    return print_travel_json (cli, cm, movement);
  g_autofree char *right = groups_toward (movement, CARPACE_TOWARD_RIGHT);
  g_autofree char *left = groups_toward (movement, CARPACE_TOWARD_LEFT);
  fprintf (cli->out, _("The hand travels %.1f cm: %s.\n"), cm, carpace_text_movement (movement));
  fprintf (cli->out, _("A right hand works harder: to the right, %s; to the left, %s. A left hand is its "
                       "mirror.\n"), right, left);
  return CARPACE_EXIT_DONE;
}

/* ---- load over days ---- */

static int
print_training_load (CarpaceCli *cli, const double *loads, int n, bool json)
{
  double sum = 0, squares = 0, monotony, strain;

  for (int i = 0; i < n; i++)
    sum += loads[i];
  for (int i = 0; i < n; i++)
    squares += (loads[i] - sum / n) * (loads[i] - sum / n);
  monotony = squares > 0 ? sum / n / sqrt (squares / (n - 1)) : NAN;
  strain = sum * monotony;
  if (json)
    return print_members (cli, (Member[]) { { "load", sum }, { "training_monotony", monotony },
                                            { "training_strain", strain } }, 3);
  fprintf (cli->out, _("Load of the week %.0f.\n"), sum);
  if (isfinite (monotony))
    fprintf (cli->out, _("Monotony %.2f (mean over spread), strain %.0f (load times monotony).\n"), monotony, strain);
  else
    fprintf (cli->out, "%s\n", _("All days are alike: without a spread there is no monotony and no strain."));
  return CARPACE_EXIT_DONE;
}

static int
calc_training_load (CarpaceCli *cli, int argc, char **argv)
{
  enum { DAYS = 7 };
  CarpaceCalcInput day = { .name = "load", .unit = CARPACE_UNIT_CM, .high = 14400, .example = "420" };
  const char *words[DAYS], *format = NULL;
  CarpaceOption options[] = { { .name = "format", .value = &format } };
  double loads[DAYS];
  bool json;
  int n = carpace_options_read (cli, argc, argv, options, 1, words, DAYS);

  if (n < 0 || !carpace_option_format (cli, format, &json))
    return CARPACE_EXIT_WORDS;
  if (n < DAYS)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS,
                               _("“carpace calc training-load” needs the loads of seven days (effort 0 to 10 times minutes), rest days as 0; there are %d."), n);
  for (int i = 0; i < DAYS; i++)
    {
      g_autofree char *what = g_strdup_printf (_("day %d"), i + 1);
      if (!carpace_calc_read_one (cli, what, words[i], &day))
        return CARPACE_EXIT_WORDS;
      loads[i] = day.number;
    }
  return print_training_load (cli, loads, DAYS, json);
}

/* ---- which one ---- */

static const struct { const char *name; CarpaceCliCommand run; } calculations[] = {
  { "strain-index", calc_strain_index }, { "endurance", calc_endurance }, { "fatigue", calc_fatigue },
  { "rest", calc_rest }, { "cut", calc_cut }, { "travel", calc_travel }, { "training-load", calc_training_load },
};

int
carpace_cli_calc (CarpaceCli *cli, int argc, char **argv)
{
  g_autofree char *all = NULL;

  for (size_t i = 0; argc > 1 && i < G_N_ELEMENTS (calculations); i++)
    if (strcmp (argv[1], calculations[i].name) == 0)
      return calculations[i].run (cli, argc - 1, argv + 1);
  for (size_t i = 0; i < G_N_ELEMENTS (calculations); i++)
    {
      char *longer = all ? g_strjoin (", ", all, calculations[i].name, NULL) : g_strdup (calculations[i].name);
      g_free (all);
      all = longer;
    }
  if (argc < 2)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say what to calculate: %s."), all);
  g_autofree char *shown = carpace_text_shown_word (argv[1]);
  return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace calc” does not know “%s”; there are: %s."), shown, all);
}
