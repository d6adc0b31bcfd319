/* SPDX-License-Identifier: GPL-3.0-or-later */
/* calc-inputs.c: numbers with their units from the command line. */
#include "cli/calc-inputs.h"

#include <glib/gi18n.h>
#include <math.h>

#include "carpace/names.h"
#include "text/text.h"

static bool
fits_step (const CarpaceCalcInput *input, double number)
{
  double steps = input->step > 0 ? number / input->step : 0;

  return fabs (steps - round (steps)) < 1e-9;
}

bool
carpace_calc_read_one (CarpaceCli *cli, const char *what, const char *text, CarpaceCalcInput *input)
{
  g_autofree char *shown = carpace_text_shown_word (text);
  char low[CARPACE_QUANTITY_BYTES], high[CARPACE_QUANTITY_BYTES];
  double number;

  CarpaceQuantityFault fault = carpace_quantity_read (text, input->unit, &number);

  if (fault == CARPACE_QUANTITY_OK && !fits_step (input, number))
    fault = CARPACE_QUANTITY_TOO_FINE;
  switch (fault)
    {
    case CARPACE_QUANTITY_OK:
      break;
    case CARPACE_QUANTITY_NO_UNIT:
      carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("%s: “%s” lacks its unit; write it like “%s”."), what, shown, input->example);
      return false;
    case CARPACE_QUANTITY_TOO_FINE:
      carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("%s: “%s” has more decimals than count; round it, like “%s”."), what, shown, input->example);
      return false;
    case CARPACE_QUANTITY_NOT_A_NUMBER:
    case CARPACE_QUANTITY_OTHER_UNIT:
    case CARPACE_QUANTITY_ORDER:
    case CARPACE_QUANTITY_NOT_A_TIME:
      carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("%s: “%s” is not understood; write it like “%s”."), what, shown, input->example);
      return false;
    }
  if (number < input->low || number > input->high)
    {
      carpace_quantity_write (input->unit, input->low, low);
      carpace_quantity_write (input->unit, input->high, high);
      carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("%s: “%s” is outside its range, %s to %s."), what, shown, low, high);
      return false;
    }
  input->number = number;
  input->given = true;
  return true;
}

static bool
read_region (CarpaceCli *cli, const char *command, const char *value, CarpaceRegion *ret_region)
{
  int32_t region = value ? carpace_name_value (CARPACE_WORDS_REGION, value) : -1;
  g_autofree char *all = carpace_text_words_of (CARPACE_WORDS_REGION, 0);
  g_autofree char *shown = value ? carpace_text_shown_word (value) : NULL;

  if (region >= 0)
    *ret_region = (CarpaceRegion) region;
  else if (value)
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--region: the model has no region “%s”; there are: %s."), shown, all);
  else
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace calc %s” needs --region; there are: %s."), command, all);
  return region >= 0;
}

static bool
read_inputs (CarpaceCli *cli, const char *command, CarpaceCalcInput *inputs, const char *const *values, int n)
{
  for (int i = 0; i < n; i++)
    {
      g_autofree char *what = g_strconcat ("--", inputs[i].name, NULL);
      if (values[i] && !carpace_calc_read_one (cli, what, values[i], &inputs[i]))
        return false;
      if (!values[i] && !inputs[i].may_be_absent)
        {
          carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace calc %s” needs %s, like %s \"%s\"."), command, what, what, inputs[i].example);
          return false;
        }
    }
  return true;
}

bool
carpace_calc_read (CarpaceCli *cli, int argc, char **argv, CarpaceCalcInput *inputs, int n_inputs,
                   CarpaceRegion *ret_region, bool *ret_json)
{
  const char *values[CARPACE_CALC_INPUTS] = { NULL }, *format = NULL, *region = NULL;
  CarpaceOption options[CARPACE_CALC_INPUTS + 2];
  int n = 0;

  for (; n < n_inputs; n++)
    options[n] = (CarpaceOption) { .name = inputs[n].name, .value = &values[n] };
  options[n++] = (CarpaceOption) { .name = "format", .value = &format };
  if (ret_region)
    options[n++] = (CarpaceOption) { .name = "region", .value = &region };
  if (carpace_options_read (cli, argc, argv, options, n, NULL, 0) < 0 || !carpace_option_format (cli, format, ret_json))
    return false;
  return (!ret_region || read_region (cli, argv[0], region, ret_region))
         && read_inputs (cli, argv[0], inputs, values, n_inputs);
}
