/* SPDX-License-Identifier: GPL-3.0-or-later */
/** calc-inputs.h: what a calculation is given, read and kept in its range. */
#ifndef CARPACE_CLI_CALC_INPUTS_H
#define CARPACE_CLI_CALC_INPUTS_H

#include "carpace/quantity.h"
#include "cli/options.h"

/** One number a calculation takes. */
typedef struct
{
  const char *name;     /**< of its option, without dashes */
  CarpaceUnit unit;
  double low, high;     /**< the range, both ends in it */
  double step;          /**< what it is a whole number of; 0: any */
  const char *example;  /**< as it would be typed */
  bool may_be_absent;   /**< then number stays what it is */
  double number;
  bool given;
} CarpaceCalcInput;

/** Most inputs of one calculation. */
#define CARPACE_CALC_INPUTS 8

/** Reads @argv of the calculation argv[0]: its inputs, `--format`, and
 * `--region` where @ret_region is not NULL. Extra words are refused.
 * @return false, with one sentence on cli->err, where something is missing, no
 * such value, or out of its range */
bool carpace_calc_read (CarpaceCli *cli, int argc, char **argv, CarpaceCalcInput *inputs, int n_inputs,
                        CarpaceRegion *ret_region, bool *ret_json);

/** Reads @text as @input, in its range. @return false, with one sentence */
bool carpace_calc_read_one (CarpaceCli *cli, const char *what, const char *text, CarpaceCalcInput *input);

#endif
