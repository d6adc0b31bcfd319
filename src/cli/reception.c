/* SPDX-License-Identifier: GPL-3.0-or-later */
/* reception.c: `carpace rehearse PLAN --for-all`. */
#include "cli/reception.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "app/season-sum.h"
#include "cli/options.h"
#include "forms/json.h"

/* One player's seasons: sums of them, until they are divided. */
typedef struct
{
  const char *player, *hand;
  int64_t takes_least_ms, takes_most_ms; /* on the first day; 0: anything */
  double over_takes, days_over, cuts, rest_days, cautions, done_ms;
  double rise_7_pct, rise_14_pct;        /* the median season's */
  double level_ms[3];                    /* a tenth, half and nine tenths of the seasons end no higher */
} Row;

static int
by_size (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* ---- rehearsing ---- */

static void
hear (void *user, const CarpaceEntry *entry, int32_t line)
{
  carpace_season_days_take (user, entry);
}

static void
add_season (Row *row, const CarpaceSeasonSum *sum, int32_t seasons, int64_t takes_ms)
{
  row->over_takes += sum->over_takes / seasons;
  row->days_over += (double) sum->all.days_over / seasons;
  row->cuts += (double) sum->all.cuts / seasons;
  row->rest_days += (double) sum->rest_days / seasons;
  row->cautions += (double) sum->cautions / seasons;
  row->done_ms += (double) sum->all.done_ms / seasons;
  row->takes_most_ms = MAX (row->takes_most_ms, takes_ms);
  row->takes_least_ms = row->takes_least_ms == 0 ? takes_ms : MIN (row->takes_least_ms, takes_ms);
}

/* What is sorted, a number a season. */
typedef struct
{
  double *level_ms, *rise_7_pct, *rise_14_pct;
} Spreads;

static bool
rehearse (const CarpaceReception *reception, const CarpacePlayerTraits *traits, CarpaceSeasonDays *days,
          const Spreads *spreads, Row *row)
{
  CarpaceSeasonSum sum;

  for (int32_t i = 0; i < reception->seasons; i++)
    {
      uint64_t seed = reception->seed + (uint64_t) i;
      carpace_season_days_empty (days);
      if (!carpace_rehearse_traits (reception->plan, traits, reception->days, seed, hear, days))
        return false;
      carpace_season_sum (days, reception->plan, traits, seed, &sum);
      add_season (row, &sum, reception->seasons, carpace_player_takes_ms (reception->plan, traits, seed, 0));
      spreads->level_ms[i] = (double) sum.level_ms;
      spreads->rise_7_pct[i] = sum.rise_7_pct;
      spreads->rise_14_pct[i] = sum.rise_14_pct;
    }
  return true;
}

/* The number that @tenths tenths of the seasons do not pass. */
static double
no_higher (double *numbers, int32_t seasons, int tenths)
{
  qsort (numbers, (size_t) seasons, sizeof numbers[0], by_size);
  return numbers[seasons * tenths / 10];
}

static bool
rehearse_player (const CarpaceReception *reception, const CarpacePlayerTraits *traits, CarpaceSeasonDays *days, Row *row)
{
  int32_t n = reception->seasons;
  g_autofree double *numbers = g_new0 (double, 3 * (gsize) n);
  const Spreads spreads = { .level_ms = numbers, .rise_7_pct = numbers + n, .rise_14_pct = numbers + 2 * n };

  if (!rehearse (reception, traits, days, &spreads, row))
    return false;
  row->rise_7_pct = no_higher (spreads.rise_7_pct, n, 5);
  row->rise_14_pct = no_higher (spreads.rise_14_pct, n, 5);
  row->level_ms[0] = no_higher (spreads.level_ms, n, 1);
  row->level_ms[1] = no_higher (spreads.level_ms, n, 5);
  row->level_ms[2] = no_higher (spreads.level_ms, n, 9);
  return true;
}

/* ---- printing ---- */

static void
json_member (GString *out, const char *key, double number, bool known)
{
  carpace_json_key (out, key);
  if (known)
    carpace_json_double (out, number);
  else
    carpace_json_null (out);
}

static void
print_json (CarpaceCli *cli, const CarpaceReception *reception, const Row *row)
{
  bool takes = row->takes_most_ms > 0;
  const struct { const char *key; double number; bool known; } members[] = {
    { "seasons", reception->seasons, true },
    { "seed", (double) reception->seed, true },
    { "days", reception->days, true },
    { "takes_least_ms", (double) row->takes_least_ms, takes },
    { "takes_most_ms", (double) row->takes_most_ms, takes },
    { "over_takes", row->over_takes, takes && row->over_takes > 0 },
    { "days_over", row->days_over, takes },
    { "cuts", row->cuts, true },
    { "rest_days", row->rest_days, true },
    { "cautions", row->cautions, true },
    { "rise_7_pct", row->rise_7_pct, true },
    { "rise_14_pct", row->rise_14_pct, true },
    { "done_ms", row->done_ms, true },
    { "level_10_ms", row->level_ms[0], true },
    { "level_50_ms", row->level_ms[1], true },
    { "level_90_ms", row->level_ms[2], true },
  };
  GString *out = g_string_new (NULL);

  carpace_json_open (out, '{');
  carpace_json_key (out, "kind");
  carpace_json_string (out, "player");
  carpace_json_key (out, "player");
  carpace_json_string (out, row->player);
  carpace_json_key (out, "hand");
  carpace_json_string (out, row->hand);
  for (size_t i = 0; i < G_N_ELEMENTS (members); i++)
    json_member (out, members[i].key, members[i].number, members[i].known);
  carpace_json_close (out, '}');
  fprintf (cli->out, "%s\n", out->str);
  g_string_free (out, TRUE);
}

enum { PLAYER, HAND, TAKES, SHARE, OVER, CUTS, RISE, PRACTICE, LEVEL, N_COLUMNS };

static void
print_cells (CarpaceCli *cli, const char *const cells[N_COLUMNS])
{
  static const int widths[N_COLUMNS] = { 14, 12, 10, 8, 8, 8, 8, 10, 12 };

  for (int i = 0; i < N_COLUMNS; i++)
    {
      int fill = MAX (widths[i] - (int) g_utf8_strlen (cells[i], -1), 0);
      bool last = i == N_COLUMNS - 1;
      if (i <= HAND)
        fprintf (cli->out, "%s%*s", cells[i], fill, "");
      else
        fprintf (cli->out, "%*s%s", fill, "", cells[i]);
      fputs (last ? "\n" : " ", cli->out);
    }
}

static void
print_head (CarpaceCli *cli)
{
  const char *const cells[N_COLUMNS] = {
    /* Translators: heads of a table's columns, short; the lines beneath it explain them. */
    _("player"), _("hand"), _("takes"), _("dose"), _("over"), _("cuts"), _("rise"), _("practice"), _("level"),
  };

  print_cells (cli, cells);
}

static int
minutes (double ms)
{
  return (int) (ms / (double) CARPACE_MINUTE_MS + 0.5);
}

static char *
in_minutes (int64_t least_ms, int64_t most_ms)
{
  if (most_ms == 0)
    return g_strdup ("-");
  if (least_ms == most_ms)
    return g_strdup_printf ("%d", minutes ((double) least_ms));
  return g_strdup_printf ("%d-%d", minutes ((double) least_ms), minutes ((double) most_ms));
}

static void
print_text (CarpaceCli *cli, const Row *row)
{
  g_autofree char *takes = in_minutes (row->takes_least_ms, row->takes_most_ms);
  g_autofree char *share = row->over_takes > 0 ? g_strdup_printf ("%.2f", row->over_takes) : g_strdup ("-");
  g_autofree char *over = row->takes_most_ms > 0 ? g_strdup_printf ("%.1f", row->days_over) : g_strdup ("-");
  g_autofree char *cuts = g_strdup_printf ("%.1f", row->cuts);
  g_autofree char *rise = g_strdup_printf ("%.0f %%", row->rise_14_pct);
  g_autofree char *practice = g_strdup_printf ("%d", minutes (row->done_ms));
  g_autofree char *level = g_strdup_printf ("%3d %3d %3d", minutes (row->level_ms[0]),
                                            minutes (row->level_ms[1]), minutes (row->level_ms[2]));
  const char *const cells[N_COLUMNS] = { row->player, row->hand, takes, share, over, cuts, rise, practice, level };

  print_cells (cli, cells);
}

static void
print_legend (CarpaceCli *cli, const CarpaceReception *reception)
{
  g_autofree char *seed = g_strdup_printf ("%" G_GUINT64_FORMAT, reception->seed);

  fprintf (cli->out, "\n%s\n", _("takes: what the hand takes in a day, min; “-” anything\n"
                                 "dose: planned over what the hand takes, on the mean, from week 5 on\n"
                                 "over: days practised on with more than 1.15 times what the hand takes planned\n"
                                 "cuts: days less was planned because of an answer\n"
                                 "rise: the largest, of two weeks' practice over the two weeks before; the median season's\n"
                                 "practice: done, min\n"
                                 "level: at the end, min; a tenth, half and nine tenths of the seasons end no higher"));
  fprintf (cli->out, ngettext ("Means of %d season", "Means of %d seasons", (unsigned long) reception->seasons),
           reception->seasons);
  fprintf (cli->out, ngettext (" of %d day", " of %d days", (unsigned long) reception->days), reception->days);
  fprintf (cli->out, _("; seeds from %s on. The players are invented.\n"), seed);
}

/* ---- the command ---- */

static bool
rehearse_row (CarpaceCli *cli, const CarpaceReception *reception, CarpaceSeasonDays *days, CarpacePlayerKind kind,
              CarpaceHandModel hand)
{
  CarpacePlayerTraits traits = carpace_player_traits (kind);
  bool answers = traits.takes_pct > 0;
  Row row = { .player = carpace_player_word (kind), .hand = answers ? carpace_hand_model_word (hand) : "-" };

  traits.hand = hand;
  traits.usual = reception->plan->usual_discomfort;
  if (!rehearse_player (reception, &traits, days, &row))
    return false;
  if (reception->json)
    print_json (cli, reception, &row);
  else
    print_text (cli, &row);
  return true;
}

/* A hand that takes any dose answers alike by every model: one row. */
static bool
rehearse_kind (CarpaceCli *cli, const CarpaceReception *reception, CarpaceSeasonDays *days, CarpacePlayerKind kind)
{
  CarpaceHandModel first = reception->hand < 0 ? 0 : (CarpaceHandModel) reception->hand;
  CarpaceHandModel end = reception->hand < 0 ? CARPACE_N_HAND_MODELS : first + 1;

  if (carpace_player_traits (kind).takes_pct == 0)
    end = first + 1;
  for (CarpaceHandModel hand = first; hand < end; hand++)
    if (!rehearse_row (cli, reception, days, kind, hand))
      return false;
  return true;
}

int
carpace_reception (CarpaceCli *cli, const CarpaceReception *reception)
{
  CarpaceSeasonDays days;
  bool good = carpace_season_days_init (&days, reception->days);

  if (!reception->json)
    print_head (cli);
  for (CarpacePlayerKind kind = 0; good && kind < CARPACE_N_PLAYERS; kind++)
    good = rehearse_kind (cli, reception, &days, kind);
  carpace_season_days_clear (&days);
  if (!good)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is not enough memory for a rehearsal."));
  if (!reception->json)
    print_legend (cli, reception);
  return CARPACE_EXIT_DONE;
}
