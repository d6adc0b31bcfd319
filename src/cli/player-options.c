/* SPDX-License-Identifier: GPL-3.0-or-later */
/* player-options.c: a player in a few numbers. */
#include "cli/player-options.h"

#include <glib.h>
#include <math.h>

#include "cli/calc-inputs.h"

static const CarpaceCalcInput numbers[CARPACE_N_NUMBERS] = {
  [CARPACE_NUMBER_TAKES] = { .name = "takes", .unit = CARPACE_UNIT_DURATION, .low = CARPACE_MINUTE_MS,
                             .high = 8 * CARPACE_HOUR_MS, .example = "48min" },
  [CARPACE_NUMBER_NOISE] = { .name = "noise", .unit = CARPACE_UNIT_CM, .high = 3, .step = 0.1, .example = "0.5" },
  [CARPACE_NUMBER_STIFF] = { .name = "stiff", .unit = CARPACE_UNIT_PERCENT, .high = 100, .step = 1, .example = "5%" },
  [CARPACE_NUMBER_MISSES]
  = { .name = "misses", .unit = CARPACE_UNIT_PERCENT, .high = 100, .step = 1, .example = "33%" },
  [CARPACE_NUMBER_DROPS]
  = { .name = "drops", .unit = CARPACE_UNIT_PERCENT, .high = 90, .step = 1, .example = "40%" },
  [CARPACE_NUMBER_GROWS]
  = { .name = "grows", .unit = CARPACE_UNIT_PERCENT, .high = 20, .step = 1, .example = "2%" },
  [CARPACE_NUMBER_USUAL] = { .name = "usual", .unit = CARPACE_UNIT_WHOLE, .high = 10, .example = "1" },
};

void
carpace_player_options (CarpacePlayerWords *words, CarpaceOption ret_options[CARPACE_PLAYER_OPTIONS])
{
  int n = 0;

  ret_options[n++] = (CarpaceOption){ .name = "player", .value = &words->player };
  ret_options[n++] = (CarpaceOption){ .name = "hand", .value = &words->hand };
  for (int i = 0; i < CARPACE_N_NUMBERS; i++)
    ret_options[n++] = (CarpaceOption){ .name = numbers[i].name, .value = &words->number[i] };
  ret_options[n++] = (CarpaceOption){ .name = "under-reports", .flag = &words->under_reports };
}

const char *
carpace_player_option_given (const CarpacePlayerWords *words)
{
  CarpaceOption options[CARPACE_PLAYER_OPTIONS];
  CarpacePlayerWords copy = *words;

  carpace_player_options (&copy, options);
  for (int i = 0; i < CARPACE_PLAYER_OPTIONS; i++)
    if (options[i].flag ? *options[i].flag : *options[i].value != NULL)
      return options[i].name;
  return NULL;
}

int
carpace_player_hand (CarpaceCli *cli, const CarpacePlayerWords *words)
{
  const char *hands[CARPACE_N_HAND_MODELS + 1] = { NULL };

  for (CarpaceHandModel model = 0; model < CARPACE_N_HAND_MODELS; model++)
    hands[model] = carpace_hand_model_word (model);
  return carpace_option_choice (cli, "--hand", words->hand, hands);
}

static int
kind_of (CarpaceCli *cli, const CarpacePlayerWords *words)
{
  const char *kinds[CARPACE_N_PLAYERS + 1] = { NULL };

  for (CarpacePlayerKind kind = 0; kind < CARPACE_N_PLAYERS; kind++)
    kinds[kind] = carpace_player_word (kind);
  return carpace_option_choice (cli, "--player", words->player, kinds);
}

/* Takes what was given in place of what the kind has. */
static void
set (CarpacePlayerTraits *traits, CarpacePlayerNumber which, double number)
{
  int32_t whole = (int32_t) lround (number);

  switch (which)
    {
    case CARPACE_NUMBER_TAKES:
      traits->takes_ms = (int64_t) number;
      break;
    case CARPACE_NUMBER_NOISE:
      traits->noise_sd = (int32_t) lround (number * 10);
      traits->noise_pct = 0;
      break;
    case CARPACE_NUMBER_STIFF:
      traits->stiff_pct = whole;
      break;
    case CARPACE_NUMBER_MISSES:
      traits->missed_pct = traits->missed_mornings_pct = whole;
      break;
    case CARPACE_NUMBER_DROPS:
      traits->drops_pct = whole;
      break;
    case CARPACE_NUMBER_GROWS:
      traits->grows_pct = whole;
      break;
    case CARPACE_NUMBER_USUAL:
      traits->usual = whole;
      break;
    case CARPACE_N_NUMBERS:
      break;
    }
}

bool
carpace_player_read (CarpaceCli *cli, const CarpacePlayerWords *words, CarpacePlayerKind *ret_kind,
                     CarpacePlayerTraits *ret_traits)
{
  CarpacePlayerTraits traits;
  int kind = kind_of (cli, words), hand = kind < 0 ? -1 : carpace_player_hand (cli, words);

  if (hand < 0)
    return false;
  traits = carpace_player_traits ((CarpacePlayerKind) kind);
  traits.hand = (CarpaceHandModel) hand;
  traits.under_reports |= words->under_reports;
  traits.usual = -1;
  for (CarpacePlayerNumber i = 0; i < CARPACE_N_NUMBERS; i++)
    {
      CarpaceCalcInput input = numbers[i];
      g_autofree char *what = g_strconcat ("--", input.name, NULL);
      if (words->number[i] == NULL)
        continue;
      if (!carpace_calc_read_one (cli, what, words->number[i], &input))
        return false;
      set (&traits, i, input.number);
    }
  *ret_kind = (CarpacePlayerKind) kind;
  *ret_traits = traits;
  return true;
}
